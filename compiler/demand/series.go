package demand

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// Series is what is made in each part of a series, at the covers of the meal
// it leads to.
type Series struct {
	Of      *resolve.Series
	Meal    *Meal // the meal it leads to; nil: everything is at its written size
	Parts   []*Part
	Carries []*Carry // in order of the parts they come from
	// Home is the same series as somebody cooks it at home: every dish and base at its
	// written size, without the copies. Its own Home is nil.
	Home *Series
	// Watched is the same series for as many as it is for, without the copies: what those who
	// watch it make. It is the series itself where there are none.
	Watched *Series

	written bool  // it is a Home
	watched bool  // it is without copies
	choices *Meal // of a Home: the meal whose options its dishes have; nil: the usual ones
}

// Part is what is made for one part. Meal holds it as any meal does: bases,
// what is shown, what stands ready; so that it can be bought for like one.
type Part struct {
	Of       *resolve.Part
	Meal     *Meal
	Shown    []*Making // what it shows, in the order written, then the bases made for it
	StandIns []*Making // what must be ready beforehand; see Making.StandIn
}

// Carry is something made in one part and used later.
type Carry struct {
	From   *Part
	To     *Part // nil: it goes on the table of the meal
	Making *Making
	Supply *Supply            // of a base or by-product; nil for a dish of the meal
	By     *Amount            // the line it goes into; nil when it is a dish of the meal
	Amount *quantity.Quantity // nil: not measured
	Keeps  *resolve.Keep      // nil: nobody says
}

// Name is what is carried.
func (c *Carry) Name() string {
	if c.Supply != nil {
		return c.Supply.Name
	}
	return c.Making.Recipe.Name
}

// UseBy is the last day on which it may be used; false when a date or a
// keeping time is not known.
func (c *Carry) UseBy() (time.Time, bool) {
	return c.From.UseBy(c.Keeps)
}

// UseBy is the last day on which what a part made may be used, if it keeps so long; false
// when a date or a keeping time is not known.
func (p *Part) UseBy(k *resolve.Keep) (time.Time, bool) {
	if k == nil || p.Of.Date == nil {
		return time.Time{}, false
	}
	at := p.Of.Date.Add(longest(k.Time))
	return time.Date(at.Year(), at.Month(), at.Day(), 0, 0, 0, 0, time.UTC), true
}

func longest(s quantity.Span) time.Duration { return max(s.High, s.UpTo) }

// On is the day on which it is used; false when nobody says.
func (c *Carry) On(s *Series) (time.Time, bool) {
	switch {
	case c.To != nil && c.To.Of.Date != nil:
		return *c.To.Of.Date, true
	case c.To == nil:
		return s.Eaten()
	}
	return time.Time{}, false
}

// Eaten is the day of the meal.
func (s *Series) Eaten() (time.Time, bool) {
	if s.Meal == nil || s.Meal.Menu.Serve == nil {
		return time.Time{}, false
	}
	y, m, d := s.Meal.Menu.Serve.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC), true
}

// EatenWith tells whether the meal is on the day of a part.
func (s *Series) EatenWith(p *resolve.Part) bool {
	on, known := s.Eaten()
	return known && p.Date != nil && p.Date.Equal(on)
}

// Waits tells whether something carried goes on the table on the day of a later part.
func (s *Series) Waits(c *Carry, p *resolve.Part) bool {
	return c.To == nil && c.From.Of != p && s.EatenWith(p)
}

// SeriesOf works out every series that was asked for. meals are those of the
// same options.
func SeriesOf(m *resolve.Model, meals []*Meal, opt Options, diags *diag.List) (out []*Series) {
	for _, s := range m.Series {
		if s.Asked {
			out = append(out, seriesOf(m, s, meals, opt, diags))
		}
	}
	return out
}

func seriesOf(m *resolve.Model, of *resolve.Series, meals []*Meal, opt Options, diags *diag.List) *Series {
	s := &Series{Of: of, Meal: leadsTo(of, meals)}
	s.work(m, opt, diags)
	s.Home = &Series{Of: of, written: true, choices: s.Meal}
	s.Home.work(m, Options{circles: opt.circles}, nil) // what is wrong was said of the series itself
	s.Watched = s
	if slices.ContainsFunc(of.Parts, func(p *resolve.Part) bool { return len(p.StandIns) > 0 }) {
		s.Watched = &Series{Of: of, Meal: s.Meal, Home: s.Home, watched: true}
		s.Watched.work(m, opt, nil)
	}
	return s
}

func (s *Series) work(m *resolve.Model, opt Options, diags *diag.List) {
	for _, p := range s.Of.Parts {
		s.Parts = append(s.Parts, &Part{Of: p})
	}
	for i := len(s.Parts) - 1; i >= 0; i-- { // what is carried over is known once the later parts are
		s.part(m, i, opt, diags)
	}
	for _, p := range s.Parts {
		s.carries(p)
	}
}

// leadsTo is the meal of a series: the one a part shows, else the one that has
// most of what is shown on its menu.
func leadsTo(of *resolve.Series, meals []*Meal) (best *Meal) {
	most := 0
	for _, meal := range meals {
		n := 0
		for _, p := range of.Parts {
			for _, sh := range p.Shows {
				switch {
				case meal.Menu == nil:
				case sh.Menu == meal.Menu:
					n += 1000
				case sh.Recipe != nil && meal.served(sh.Recipe) != nil:
					n++
				}
			}
		}
		if n > most {
			best, most = meal, n
		}
	}
	return best
}

// served is the making of a recipe that a meal has; nil if it has none.
func (m *Meal) served(r *resolve.Recipe) *Making {
	if m == nil {
		return nil
	}
	for _, mk := range m.Makings {
		if mk.Recipe == r {
			return mk
		}
	}
	return nil
}

// part works out the i-th part, when those after it are.
func (s *Series) part(m *resolve.Model, i int, opt Options, diags *diag.List) {
	p := s.Parts[i]
	p.Meal = &Meal{Title: p.Of.Name}
	if s.Meal != nil {
		p.Meal.Menu, p.Meal.Kitchen = s.Meal.Menu, s.Meal.Kitchen
	}
	w := newWork(m, p.Meal, opt, nil)
	w.written = s.written
	w.covers, w.usual, w.later = opt.Covers, map[*resolve.Recipe]quantity.Number{}, map[*Amount]*resolve.Product{}
	if w.covers == 0 && s.Meal != nil {
		w.covers = s.Meal.Menu.Covers
	}
	w.carried = s.drawnLater(i)
	var dishes []*Making
	for _, r := range p.Of.Recipes() {
		like := s.Meal.served(r)
		if r.Base {
			w.shown = append(w.shown, r)
			if like != nil {
				w.usual[r] = like.Factor
			}
			continue
		}
		dishes = append(dishes, s.copyOf(r, like, w.covers))
	}
	shown := slices.Clone(dishes)
	for _, in := range p.Of.StandIns {
		if s.written || s.watched {
			break
		}
		mk := s.copyOf(in.Recipe, s.Meal.served(in.Recipe), w.covers)
		if in.Recipe.Base {
			mk.Factor = quantity.Int(1)
		}
		mk.StandIn = in
		mk.whole = mk.Reading
		mk.Reading = upTo(mk.Reading, in.Moment)
		dishes = append(dishes, mk)
		p.StandIns = append(p.StandIns, mk)
	}
	w.finish(dishes)
	for _, r := range p.Of.Recipes() {
		if k := slices.IndexFunc(shown, func(mk *Making) bool { return mk.Recipe == r }); k >= 0 {
			p.Shown = append(p.Shown, shown[k])
		} else {
			p.Shown = append(p.Shown, w.bases[r])
		}
	}
	for _, b := range w.order {
		if !slices.Contains(p.Shown, b) {
			p.Shown = append(p.Shown, b)
		}
	}
	w.diags = diags
	for _, sup := range p.Meal.Supplies {
		if sup.Product != nil && sup.Left.Value.Low.Sign() < 0 && !s.Meal.short(sup.Product) {
			w.short(sup)
		}
	}
}

// short tells whether a meal itself lacks a by-product, which is reported with it.
func (m *Meal) short(p *resolve.Product) bool {
	return m != nil && slices.ContainsFunc(m.Supplies, func(s *Supply) bool {
		return s.Product == p && s.Left.Value.Low.Sign() < 0
	})
}

// copyOf is a dish as the meal makes it; one that is not on its menu is made
// for as many.
func (s *Series) copyOf(r *resolve.Recipe, like *Making, covers int) *Making {
	if like != nil {
		return &Making{Recipe: r, Serving: like.Serving, Reading: like.Reading, Factor: like.Factor, Portions: like.Portions}
	}
	mk := &Making{Recipe: r, Reading: r.Reading, Factor: quantity.Int(1)}
	if chosen := s.choices.served(r); chosen != nil {
		mk.Reading = chosen.Reading
	}
	if r.Serves == nil || r.Serves.Low.Sign() <= 0 {
		return mk
	}
	mk.Portions = r.Serves.Low
	if covers > 0 {
		mk.Portions = quantity.Int(int64(covers))
		mk.Factor = mk.Portions.Div(r.WrittenFor(mk.Portions))
	}
	return mk
}

// drawnLater are the lines of later parts, and of the meal's other dishes, that
// say they were made in the i-th part.
func (s *Series) drawnLater(i int) (out []*Amount) {
	number := s.Parts[i].Of.Number
	from := func(mk *Making) {
		for _, a := range mk.Lines {
			if a.Line.InPart == number && number > 0 {
				out = append(out, a)
			}
		}
	}
	for _, p := range s.Parts[i+1:] {
		for _, mk := range p.Meal.Makings {
			from(mk)
		}
	}
	if s.Meal == nil {
		return out
	}
	for _, mk := range s.Meal.Makings {
		if !s.shows(mk.Recipe) || s.Anew(mk) {
			from(mk)
		}
	}
	return out
}

// Anew tells whether a meal makes a dish again that earlier parts have shown: what was
// made there was eaten then.
func (s *Series) Anew(mk *Making) bool {
	on, known := s.Eaten()
	if !known || mk.Serving == nil || !s.shows(mk.Recipe) {
		return false
	}
	return !slices.ContainsFunc(s.Parts, func(p *Part) bool {
		return slices.Contains(p.Of.Recipes(), mk.Recipe) &&
			(p.Of.Date == nil || !p.Of.Date.Before(on) || waits(mk, on.Sub(*p.Of.Date)) != nil)
	})
}

func (s *Series) shows(r *resolve.Recipe) bool {
	return slices.ContainsFunc(s.Parts, func(p *Part) bool { return slices.Contains(p.Of.Recipes(), r) })
}

// addShown has the bases made that a part shows, and lets what comes later draw
// on what this part makes.
func (w *work) addShown() {
	for _, r := range w.shown {
		w.path = []*resolve.Recipe{r}
		w.base(r)
	}
	for _, a := range w.carried {
		for _, b := range w.order {
			if sameName(a.Line, b.Recipe.Key) {
				w.draws[b] = append(w.draws[b], a)
				continue
			}
			for _, p := range b.Recipe.Products {
				if p.Quantity != nil && sameName(a.Line, p.Key) {
					w.taps[b] = append(w.taps[b], a)
					w.later[a] = p
				}
			}
		}
	}
}

// product is what a line draws from a step; nil when it draws on no step.
func (w *work) product(a *Amount) *resolve.Product {
	if p := w.later[a]; p != nil {
		return p
	}
	return a.Line.Product
}

// sameName tells whether a line names a thing, with or without its folder or block.
func sameName(l *resolve.Line, key string) bool {
	name := l.Name
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		name = name[i+1:]
	}
	return larder.Fold(name) == key
}

// drawCarried takes from by-products what later parts take.
func (w *work) drawCarried(seen map[*resolve.Product]*Supply) {
	for _, a := range w.carried {
		for _, s := range w.meal.Supplies {
			if s.Product == nil || seen[s.Product] != s || a.Quantity == nil || !sameName(a.Line, s.Product.Key) {
				continue
			}
			q := *a.Quantity
			q.Value.Low = q.Value.High
			if sum, err := s.Drawn.Add(q); err == nil {
				s.Drawn = sum
				s.Draws = append(s.Draws, Draw{By: a, Quantity: q})
			}
		}
	}
}

// upTo is a reading as far as the step that makes a moment; nil: all of it.
func upTo(rd *resolve.Reading, moment *resolve.Product) *resolve.Reading {
	if moment == nil {
		return rd
	}
	out := &resolve.Reading{Recipe: rd.Recipe, Chosen: rd.Chosen, Steps: stepsTo(rd, moment)}
	done := &resolve.Reading{Steps: slices.Clone(out.Steps)}
	for i, sr := range out.Steps { // a line is only as much as these steps take: their parts are of that
		some := *sr
		some.Takes = slices.Clone(sr.Takes)
		for k := range some.Takes {
			t := &some.Takes[k]
			if t.Line == nil || t.Refers || t.Unmeasured {
				continue
			}
			if all, taken := share(done, t.Line); taken && all.Sign() > 0 {
				t.Part = t.Part.Div(all)
				t.LeftAfter = quantity.Max(quantity.Number{}, t.LeftAfter.Sub(quantity.Int(1).Sub(all)).Div(all))
				t.All = t.All || t.Part.Equal(quantity.Int(1))
			}
		}
		out.Steps[i] = &some
	}
	for _, l := range rd.Lines {
		if _, taken := share(done, l); taken {
			out.Lines = append(out.Lines, l)
		}
	}
	return out
}

// stepsTo are the steps of a reading as far as the one that makes a moment.
func stepsTo(rd *resolve.Reading, moment *resolve.Product) (out []*resolve.StepReading) {
	for _, sr := range rd.Steps {
		if sr.Step.Index <= moment.Step.Index {
			out = append(out, sr)
		}
	}
	return out
}

// share is how much of a line the steps of a reading take, from 0 to 1, and
// whether they take any. Where a step takes some, nobody knows how much, all
// of it is allowed for.
func share(rd *resolve.Reading, l *resolve.Line) (quantity.Number, bool) {
	one := quantity.Int(1)
	sum, taken := quantity.Number{}, false
	for _, sr := range rd.Steps {
		for _, t := range sr.Takes {
			if t.Line != l || t.Refers {
				continue
			}
			taken = true
			if t.Unmeasured {
				return one, true
			}
			sum = sum.Add(t.Part)
		}
	}
	if one.Less(sum) {
		sum = one
	}
	return sum, taken
}

// copies turns the amounts of one finished copy into those of all the stand-ins.
func (m *Making) copies() {
	n := quantity.Int(int64(m.StandIn.Count))
	for _, a := range m.Lines {
		if a.Quantity == nil {
			continue
		}
		times := n
		if m.StandIn.Moment != nil {
			part, _ := share(&resolve.Reading{Steps: stepsTo(m.whole, m.StandIn.Moment)}, a.Line)
			times = times.Mul(part)
			if !part.Equal(quantity.Int(1)) {
				a.How = append(a.How, "× "+part.String()+", as far as "+m.StandIn.Moment.Name)
			}
		}
		q := a.Quantity.Scale(times)
		a.Quantity = &q
		if m.StandIn.Count > 1 {
			a.How = append(a.How, "× "+n.String()+" copies")
		}
	}
	m.Factor, m.Portions = m.Factor.Mul(n), m.Portions.Mul(n)
}

// Copies are the copies of a part one by one, of each recipe from 1, with what goes into one.
func (p *Part) Copies() (out []*Making) {
	number := map[*resolve.Recipe]int{}
	for _, all := range p.StandIns {
		n := quantity.Int(int64(max(1, all.StandIn.Count)))
		for range all.StandIn.Count {
			one := *all
			number[one.Recipe]++
			one.Copy, one.Lines = number[one.Recipe], nil
			one.Factor, one.Portions = all.Factor.Div(n), all.Portions.Div(n)
			for _, a := range all.Lines {
				line := *a
				line.Making = &one
				if a.Quantity != nil {
					q := a.Quantity.Scale(quantity.Int(1).Div(n))
					line.Quantity = &q
				}
				one.Lines = append(one.Lines, &line)
			}
			out = append(out, &one)
		}
	}
	return out
}

// Day is a day on which parts of a series are shown: those of one date, or one without a date.
type Day struct {
	Date  *time.Time // nil: nobody says
	Parts []*Part
}

// Days are the days of a series in the order of their first parts.
func (s *Series) Days() (out []*Day) {
	for _, p := range s.Parts {
		if i := slices.IndexFunc(out, func(d *Day) bool { return d.Date != nil && p.Of.Date != nil && d.Date.Equal(*p.Of.Date) }); i >= 0 {
			out[i].Parts = append(out[i].Parts, p)
			continue
		}
		out = append(out, &Day{Date: p.Of.Date, Parts: []*Part{p}})
	}
	return out
}

// carries lists what a part makes that is used later: what a line draws on, and
// dishes that wait for the meal.
func (s *Series) carries(p *Part) {
	for _, sup := range p.Meal.Supplies {
		for _, d := range sup.Draws {
			to, later := s.partOf(d.By.Making)
			if to == p || !later {
				continue
			}
			q := d.Quantity
			s.Carries = append(s.Carries, &Carry{From: p, To: to, Making: sup.Making, Supply: sup, By: d.By, Amount: &q, Keeps: sup.Keeps()})
		}
	}
	on, known := s.Eaten()
	for _, mk := range p.Shown {
		served := s.Meal.served(mk.Recipe)
		if served == nil || served.Serving == nil || !known || p.Of.Date == nil || !p.Of.Date.Before(on) {
			continue
		}
		if k := waits(served, on.Sub(*p.Of.Date)); k != nil {
			s.Carries = append(s.Carries, &Carry{From: p, Making: mk, Keeps: k})
		}
	}
}

// partOf finds the part that a making belongs to; nil and true: the meal.
func (s *Series) partOf(m *Making) (*Part, bool) {
	for _, p := range s.Parts {
		if slices.Contains(p.Meal.Makings, m) {
			return p, true
		}
	}
	return nil, s.Meal != nil && slices.Contains(s.Meal.Makings, m)
}

// waits is how a dish is kept from its part to the meal: at a pause, if the
// menu wants it ahead; or where a step leaves it in the cold for at least that
// long. nil: it is made anew for the meal.
func waits(m *Making, days time.Duration) *resolve.Keep {
	if m.Serving.Straight {
		return nil
	}
	if m.Serving.Ahead {
		for _, p := range m.Recipe.Pauses {
			return &p.Keep
		}
	}
	for _, sr := range m.Reading.Steps {
		for _, sp := range sr.Step.Phases {
			if sp.Kind == resolve.Leave && (sp.Place == "fridge" || sp.Place == "freezer") && sp.Fixed != nil && longest(*sp.Fixed) >= days {
				// the shortest time is how long it must stand, not how long it keeps
				most := longest(*sp.Fixed)
				return &resolve.Keep{Time: quantity.Span{Low: most, High: most}, Place: sp.Place}
			}
		}
	}
	return nil
}

// DrawnOn are the bases that a making draws on, made with it, each after its own.
func DrawnOn(m *Making) (out []*Making) {
	for _, a := range m.Lines {
		if a.Source == nil || a.Source == m {
			continue
		}
		for _, b := range append(DrawnOn(a.Source), a.Source) {
			if !slices.Contains(out, b) {
				out = append(out, b)
			}
		}
	}
	return out
}
