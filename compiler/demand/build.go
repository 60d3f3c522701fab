package demand

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// Options are what a cook may say on the command line.
type Options struct {
	Covers int // in place of the menu's; 0 keeps it
	// Fit makes everything over so that a thing on hand is just used up: "I have
	// 3.2 kg of shoulder". Empty: nothing is fitted.
	Fit []Wanted
	// Portions are sizes of a portion in place of the written ones, by dish.
	Portions []Wanted
	// Findings says that only findings are wanted, and no pages.
	Findings bool

	circles *circles                 // that were met
	plain   map[*resolve.Recipe]bool // whose own meal says all there is to say of them; see plainOnes
}

// circles are bases made from themselves, in the meals of one call.
type circles struct {
	reported map[string]bool          // by the names in them
	seen     map[*resolve.Recipe]bool // whose lines were followed; see around
	met      int
}

// Wanted is an amount of something named.
type Wanted struct {
	Name     string
	Quantity quantity.Quantity
}

// Meals works out a meal for every menu that was asked for, or, where there is
// none, one for every recipe asked for, at its written size.
func Meals(m *resolve.Model, opt Options, diags *diag.List) []*Meal {
	out, _ := MealsAgain(nil, m, opt, diags)
	return out
}

// Memory holds the meals that recipes have by themselves, for the next time the
// same book is worked out with the same options.
type Memory struct{ of map[*resolve.Recipe]*own }

// own is the meal of a recipe by itself and what was found in it.
type own struct {
	meal  *Meal
	found diag.List
	kept  bool // it may be taken over
	plain bool // see plainOnes
}

// MealsAgain is Meals, which takes over the meals of recipes that are the same
// as before: resolve gives those the same *Recipe, and so all they draw on.
// before may be nil.
func MealsAgain(before *Memory, m *resolve.Model, opt Options, diags *diag.List) ([]*Meal, *Memory) {
	var out []*Meal
	opt.circles = &circles{reported: map[string]bool{}, seen: map[*resolve.Recipe]bool{}}
	for _, menu := range m.Menus {
		if menu.Asked {
			out = append(out, fitted(opt, diags, func(times quantity.Number, diags *diag.List) *Meal {
				return forMenu(m, menu, opt, times, diags)
			}))
		}
	}
	if out != nil {
		return out, nil
	}
	return ofRecipes(before, m, opt, diags)
}

// OfRecipes works out a meal for every recipe that was asked for by itself, whatever menus
// there are: those of a book.
func OfRecipes(m *resolve.Model, opt Options, diags *diag.List) []*Meal {
	opt.circles = &circles{reported: map[string]bool{}, seen: map[*resolve.Recipe]bool{}}
	out, _ := ofRecipes(nil, m, opt, diags)
	return out
}

func ofRecipes(before *Memory, m *resolve.Model, opt Options, diags *diag.List) (out []*Meal, now *Memory) {
	if opt.Findings && len(opt.Fit) == 0 {
		opt.plain = plainOnes(m)
	}
	now = &Memory{of: make(map[*resolve.Recipe]*own, len(m.Recipes))}
	for _, r := range m.Recipes {
		if !r.Asked {
			continue
		}
		var o *own
		if before != nil {
			o = before.of[r]
		}
		if o == nil || o.plain != opt.plain[r] {
			met := opt.circles.met
			o = &own{plain: opt.plain[r]}
			o.meal = fitted(opt, &o.found, func(times quantity.Number, diags *diag.List) *Meal {
				return forRecipe(m, r, opt, times, diags)
			})
			o.kept = met == opt.circles.met
		}
		if o.kept { // who reports a circle depends on who comes first
			now.of[r] = o
		}
		out = append(out, o.meal)
		diags.AddAll(&o.found)
	}
	return out, now
}

// work is one meal while it is being worked out.
type work struct {
	model  *resolve.Model
	meal   *Meal
	covers int
	diags  *diag.List
	bases  map[*resolve.Recipe]*Making
	order  []*Making // bases, each after everything it draws on
	state  map[*resolve.Recipe]int
	path   []*resolve.Recipe
	times  quantity.Number       // everything is made over so often, to fit what is on hand
	sizes  []Wanted              // portion sizes in place of the written ones
	draws  map[*Making][]*Amount // of what a base makes
	taps   map[*Making][]*Amount // of what the steps of a base make
	labels map[*Making]string

	shown   []*resolve.Recipe                   // bases made whether or not anything draws on them
	usual   map[*resolve.Recipe]quantity.Number // how often those are made over when nothing does
	carried []*Amount                           // lines of later parts that draw on what is made here
	later   map[*Amount]*resolve.Product        // the by-products those draw from bases

	written bool // every base is made at its written size, whatever is drawn from it
	circles *circles
	own     map[*resolve.Recipe]bool // bases that are not followed to what they draw on
}

func newWork(m *resolve.Model, meal *Meal, opt Options, diags *diag.List) *work {
	return &work{
		circles: opt.circles,
		model:   m, meal: meal, diags: diags, bases: map[*resolve.Recipe]*Making{},
		state: map[*resolve.Recipe]int{}, draws: map[*Making][]*Amount{}, taps: map[*Making][]*Amount{}, labels: map[*Making]string{},
	}
}

func forMenu(m *resolve.Model, menu *resolve.Menu, opt Options, times quantity.Number, diags *diag.List) *Meal {
	w := newWork(m, &Meal{Menu: menu, Title: menu.Name, Kitchen: menu.Kitchen}, opt, diags)
	w.times, w.sizes = times, opt.Portions
	w.covers = menu.Covers
	if opt.Covers > 0 {
		w.covers = opt.Covers
	}
	var dishes []*Making
	for _, c := range menu.Courses {
		for _, s := range c.Servings {
			if s.Recipe == nil {
				continue
			}
			dish := &Making{Recipe: s.Recipe, Serving: s, Reading: m.Read(s.Recipe, s.Chosen, diags)}
			w.portions(dish, opt)
			w.resize(dish)
			dishes = append(dishes, dish)
		}
	}
	w.finish(dishes)
	return w.meal
}

func forRecipe(m *resolve.Model, r *resolve.Recipe, opt Options, times quantity.Number, diags *diag.List) *Meal {
	w := newWork(m, &Meal{Title: r.Name}, opt, diags)
	w.times, w.sizes = times, opt.Portions
	dish := &Making{Recipe: r, Reading: r.Reading, Factor: quantity.Int(1)}
	if r.Serves != nil {
		dish.Portions = r.Serves.Low
		if opt.Covers > 0 {
			dish.Portions = quantity.Int(int64(opt.Covers))
			dish.Factor = dish.Portions.Div(r.WrittenFor(dish.Portions))
		}
		n, _ := dish.Portions.Int64()
		w.covers = int(n)
	}
	w.resize(dish)
	if opt.plain[r] {
		w.own = opt.plain
		w.circle(r)
	}
	w.finish([]*Making{dish})
	if !opt.Findings {
		w.others(dish)
	}
	return w.meal
}

// others makes a recipe with each of its options that was not chosen, for its
// card. Nothing is drawn for them.
func (w *work) others(dish *Making) {
	diags := w.diags
	w.diags = nil // what is wrong with a line is said once
	defer func() { w.diags = diags }()
	for _, c := range dish.Recipe.Choices {
		for _, o := range c.Options {
			if dish.Reading.Has(o) {
				continue
			}
			chosen := maps.Clone(dish.Reading.Chosen)
			if chosen == nil {
				chosen = map[*resolve.Choice]*resolve.Option{}
			}
			chosen[c] = o
			m := &Making{
				Recipe: dish.Recipe, Reading: w.model.Read(dish.Recipe, chosen, nil), Letter: dish.Letter,
				Factor: dish.Factor, Portions: dish.Portions, Supply: dish.Supply,
			}
			for _, l := range m.Reading.Lines {
				a := &Amount{Making: m, Line: l}
				a.Quantity, a.How = w.amount(m, l)
				m.Lines = append(m.Lines, a)
			}
			dish.Others = append(dish.Others, &Other{o, m})
		}
	}
}

// childPortion is what a child eats of a grown-up's portion. Common practice,
// no source.
var childPortion = quantity.Frac(1, 2)

// portions sets how often a dish on the menu is made over.
func (w *work) portions(d *Making, opt Options) {
	s, r := d.Serving, d.Recipe
	covers := s.CookFor
	children := 0
	if !s.Counted {
		children = w.meal.Menu.Children
		if opt.Covers > 0 {
			covers, children = opt.Covers, 0
		}
	}
	d.Factor = quantity.Int(1)
	if covers == 0 {
		if r.Serves != nil {
			d.Portions = r.Serves.Low
		}
		return
	}
	d.Portions = quantity.Int(int64(covers)).Add(childPortion.Mul(quantity.Int(int64(children))))
	if r.Serves != nil && r.Serves.Low.Sign() <= 0 { // the parser has refused it
		return
	}
	if r.Serves == nil {
		w.diags.Warnf("D101", s.NameAt, "%s does not say how many it serves", r.Name).
			Because("it cannot be scaled to %d, so it is made once as written", covers).
			See(r.NameAt, "the recipe").
			WithHelp("write `serves 6` in it")
		return
	}
	d.Factor = d.Portions.Div(r.WrittenFor(d.Portions))
	w.labels[d] = fmt.Sprintf("written for %s, made for %s", r.Serves, d.Portions)
}

// finish adds up the whole graph of what the dishes draw on.
func (w *work) finish(dishes []*Making) {
	for _, d := range dishes {
		w.path = []*resolve.Recipe{d.Recipe}
		w.visit(d)
	}
	w.addShown()
	for _, d := range dishes {
		w.scale(d)
		if d.StandIn != nil {
			d.copies()
		}
	}
	for _, b := range slices.Backward(w.order) { // what draws before what is drawn on
		w.supply(b)
		if !w.own[b.Recipe] {
			w.scale(b)
		}
	}
	w.meal.Makings = append(slices.Clone(w.order), dishes...)
	w.byProducts()
	w.letters(dishes)
}

// visit finds every base a making needs, and the order they are made in.
func (w *work) visit(m *Making) {
	for _, l := range m.Reading.Lines {
		r := l.From
		if r == nil {
			if r = tapped(l); r == m.Recipe {
				r = nil
			}
		}
		if r == nil {
			continue
		}
		if i := slices.Index(w.path, r); i >= 0 {
			w.cycle(l, w.path[i:])
			continue
		}
		w.path = append(w.path, r)
		w.base(r)
		w.path = w.path[:len(w.path)-1]
	}
}

// tapped is the base whose step makes what a line gathers; nil when a dish's
// does, or none.
func tapped(l *resolve.Line) *resolve.Recipe {
	if l.Product != nil && l.Product.Quantity != nil && l.Product.Recipe.Base {
		return l.Product.Recipe
	}
	return nil
}

// base has a base made, once, after all that it draws on. It stands last on
// the path.
func (w *work) base(r *resolve.Recipe) {
	if w.bases[r] != nil {
		return
	}
	base := &Making{Recipe: r, Reading: r.Reading}
	w.bases[r] = base
	if !w.own[r] {
		w.visit(base)
	}
	w.order = append(w.order, base)
}

func (w *work) cycle(l *resolve.Line, round []*resolve.Recipe) {
	var names []string
	for _, r := range round {
		names = append(names, r.Name)
	}
	in := slices.Clone(names)
	slices.Sort(in)
	if w.circles != nil {
		key := strings.Join(in, "\n")
		w.circles.met++
		if w.circles.reported[key] {
			return // for another meal, from another of its blocks
		}
		w.circles.reported[key] = w.diags != nil
	}
	names = append(names, round[0].Name)
	d := w.diags.Errorf("D110", l.NameAt, "%s is made from itself: %s", round[0].Name, strings.Join(names, " → ")).
		Because("no amount of it would ever be enough")
	for _, r := range round[1:] {
		d.See(r.NameAt, "by way of %s", r.Name)
	}
	d.WithHelp("write `| from the shop` after the line if the shop's is meant").
		WithHelp("or keep some back from an earlier day: `| left from Saturday`")
}

// scale sets the amounts of a making's lines and passes on what it draws.
func (w *work) scale(m *Making) {
	for _, l := range m.Reading.Lines {
		a := &Amount{Making: m, Line: l}
		a.Quantity, a.How = w.amount(m, l)
		m.Lines = append(m.Lines, a)
		if base := w.bases[l.From]; l.From != nil && base != nil && base != m {
			a.Source = base
			w.draws[base] = append(w.draws[base], a)
		}
		if base := w.bases[tapped(l)]; base != nil && base != m {
			w.taps[base] = append(w.taps[base], a)
		}
	}
}

// amount scales one line by its law.
func (w *work) amount(m *Making, l *resolve.Line) (*quantity.Quantity, []string) {
	if l.Law == resolve.PerHead {
		return w.perHead(m, l)
	}
	if l.Quantity == nil {
		return nil, nil
	}
	factor, law := m.Factor, ""
	switch l.Law {
	case resolve.Seasoning:
		factor, law = seasoning(m.Factor), "seasoning"
	case resolve.Fixed:
		factor, law = quantity.Int(1), "fixed"
	case resolve.ByVessel:
		factor, law = m.Factor.Ceil(), "per vessel"
	case resolve.ByArea:
		law = "by area, at the same depth"
	}
	q := l.Quantity.Scale(factor)
	how := []string{"written " + l.Say(*l.Quantity)}
	if !factor.Equal(quantity.Int(1)) {
		how = append(how, "× "+factor.String())
	}
	if label := w.labels[m]; label != "" {
		how = append(how, label)
	}
	if law != "" {
		how = append(how, law)
	}
	if l.Law == resolve.Whole {
		q.Value = quantity.Range{Low: q.Value.Low.Ceil(), High: q.Value.High.Ceil()}
		how = append(how, "taken up to a whole one")
	}
	return &q, how
}

// perHead is `120 g per cover plus 200 g`.
func (w *work) perHead(m *Making, l *resolve.Line) (*quantity.Quantity, []string) {
	covers := w.covers
	if n, ok := m.Portions.Ceil().Int64(); ok && n > 0 {
		covers = int(n)
	}
	if covers == 0 {
		w.diags.Askf("D102", l.Span, "%s is given per cover, and nobody says for how many", l.Name).
			WithHelp("write `covers 12` in the menu, or `serves 6` here")
		return nil, nil
	}
	q, problem := l.Written.Quantity(m.Recipe.System, covers)
	if problem != nil {
		w.diags.Errorf(problem.Code, l.AmountAt, "%s", problem.Message)
		return nil, nil
	}
	if q.Dim == quantity.None && l.Written.PerCovers > 1 { // 1 per 4 covers: for 3 it is 1
		q.Value = quantity.Range{Low: q.Value.Low.Ceil(), High: q.Value.High.Ceil()}
	}
	return &q, []string{l.AmountText, fmt.Sprintf("for %d", covers)}
}

// seasoning grows slower than the portions: 1 1/2 times at double, 2 times at
// four. Common practice, no source; below the written size it is in
// proportion.
func seasoning(f quantity.Number) quantity.Number {
	type knot struct{ f, s quantity.Number }
	knots := []knot{
		{quantity.Int(1), quantity.Int(1)},
		{quantity.Int(2), quantity.Frac(3, 2)},
		{quantity.Int(4), quantity.Int(2)},
	}
	if !knots[0].f.Less(f) {
		return f
	}
	last := knots[0]
	for _, k := range knots[1:] {
		if !k.f.Less(f) {
			return last.s.Add(f.Sub(last.f).Mul(k.s.Sub(last.s)).Div(k.f.Sub(last.f)))
		}
		last = k
	}
	return last.s.Add(f.Sub(last.f).Div(quantity.Int(4)))
}

// letters marks the dishes A, B, C in order of service, then the bases.
func (w *work) letters(dishes []*Making) {
	n := 0
	for _, m := range append(slices.Clone(dishes), w.order...) {
		m.Letter = letter(n)
		n++
	}
}

func letter(n int) string {
	s := ""
	for {
		s = string(rune('A'+n%26)) + s
		if n = n/26 - 1; n < 0 {
			return s
		}
	}
}
