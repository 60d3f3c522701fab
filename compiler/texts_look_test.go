package compiler_test

import (
	"math"
	"slices"
	"strings"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// looked looks up what a row of facts.csv says. A check is a verb, a block with
// the number of a step and a thing behind a colon where the verb wants them,
// `=` (exactly) or `~` (within 1 per cent), and what is expected.
func looked(t require.TestingT, m *made, f fact) {
	head, want, exact := strings.Cut(f.check, " = ")
	if !exact {
		var ok bool
		head, want, ok = strings.Cut(f.check, " ~ ")
		require.True(t, ok, "a check is `verb … = expected`")
	}
	verb, rest, _ := strings.Cut(head, " ")
	block, step, thing := subject(rest)
	l := looker{t, m, block, step, thing, want, exact}
	look := lookers[verb]
	require.NotNil(t, look, "no such verb: %q", verb)
	look(l)
}

// looker is one check being looked up.
type looker struct {
	require.TestingT
	m      *made
	block  string
	number int // of the step, from 1; 0: none
	thing  string
	want   string
	exact  bool
}

var lookers = map[string]func(l looker){
	"amount":  looker.amount,  // of one line of a block
	"total":   looker.total,   // of a thing in all that is made
	"sum":     looker.sum,     // of all lines of a block that have the dimension asked for
	"buys":    looker.buys,    // on the shopping list
	"cost":    looker.cost,    // of all that is bought
	"yield":   looker.yield,   // of a block
	"each":    looker.each,    // what each piece weighs, or each portion is
	"product": looker.product, // what a step of a block makes
	"left":    looker.left,    // of what a base makes
	"factor":  looker.factor,  // how many times the written size a block is made
	"pieces":  looker.pieces,  // what a step shares into
	"serves":  looker.serves,
	"keeps":   looker.keeps,
	"pause":   looker.pause,
	"draws":   looker.draws,  // what a line comes from
	"take":    looker.take,   // what a sentence takes
	"figure":  looker.figure, // a figure of a sentence, scaled
	"note":    looker.note,   // what follows the name of a line
	"instead": looker.instead,
	"option":  looker.option,
	"without": looker.without, // of a block that is like another
	"optional": func(l looker) {
		require.Equal(l, l.want, map[bool]string{true: "yes", false: "no"}[l.line().Optional])
	},
	"clause":   looker.clause,  // of the margin of a step, or of a line
	"time":     looker.time,    // of a phase of a step
	"prep":     looker.prep,    // of a line
	"touches":  looker.touches, // how many times somebody sees to it while it is left
	"moment":   looker.moment,  // at what time of its step
	"touch":    looker.touch,   // when a moment comes in the plan, from the start of its step
	"start":    func(l looker) { l.before(l.job().Start()) },
	"end":      func(l looker) { l.before(l.job().End()) },
	"elapsed":  looker.elapsed,  // from the first start to the last end
	"attended": looker.attended, // hands and eyes
	"also":     looker.also,     // the second measure of a line
	"waits":    looker.waits,    // left to itself or watched, from the first to the last
	"kettle":   looker.vessel,   // in one vessel, by its margins
	"absent":   looker.absent,   // the step falls away
	"follows":  looker.follows,  // the step waits for another: `follows A/3 = B/2`
	"serving":  looker.serving,  // a menu's dish: `serving Dinner: Main = Roast goose`
	"dishes":   looker.dishes,   // a menu's, by course
	"says":     func(l looker) { l.page() },
	"card":     func(l looker) { l.page(sheets.Prep) },
	"perhead":  looker.perHead, // what a cover costs
	"finds": func(l looker) {
		require.True(l, slices.ContainsFunc(l.m.Diags.Sorted(), func(d diag.Diagnostic) bool { return d.Code == l.block && strings.Contains(lineOf(d), l.want) }),
			"no such finding: %s", l.m.codes())
	},
}

func (l looker) recipe() *resolve.Recipe {
	for _, r := range l.m.Model.Recipes {
		if r.Name == l.block {
			return r
		}
	}
	require.Fail(l, "no block "+l.block)
	return nil
}

func (l looker) step() *resolve.Step {
	r := l.recipe()
	require.True(l, l.number >= 1 && l.number <= len(r.Steps), "no step %d of %s", l.number, l.block)
	return r.Steps[l.number-1]
}

// line is the one line of the block with the thing's name; `water of paste`
// stands in that sub-list.
func (l looker) line() *resolve.Line {
	name, sub, _ := strings.Cut(l.thing, " in ")
	for _, x := range l.recipe().Lines {
		if sameName(x.Name, name) && (sub == "" || x.Sub != nil && sameName(x.Sub.Name, sub) || x.Option != nil && sameName(x.Option.Label, sub)) {
			return x
		}
	}
	require.Fail(l, "no line "+l.thing)
	return nil
}

// makings are the makings of the block: one where a size was asked for.
func (l looker) makings() (out []*demand.Making) {
	for _, meal := range l.m.Meals {
		for _, k := range meal.Makings {
			if k.Recipe.Name == l.block {
				out = append(out, k)
			}
		}
	}
	require.NotEmpty(l, out, "%s is not made", l.block)
	return out
}

// wanted reads the expected amount.
func (l looker) wanted(system quantity.System) quantity.Quantity {
	measures := map[string]*quantity.Unit{}
	for _, e := range l.m.Model.Entries { // `peck | measure`
		u := quantity.NewMeasure(e.Name, quantity.PluralOf(e.Name))
		measures[quantity.Fold(u.Name)], measures[quantity.Fold(u.Plural)] = u, u
	}
	a, n, _ := quantity.ReadAmount(l.want, quantity.Options{System: system, Alone: true, Measures: measures})
	require.Positive(l, n, "no amount: %q", l.want)
	q, problem := a.Quantity(system, 1)
	require.Nil(l, problem)
	return q
}

// same compares an amount with the expected one.
func (l looker) same(q quantity.Quantity) {
	want := l.wanted(l.system())
	require.Equal(l, want.Dim, q.Dim, "is %s", q.Print(quantity.Style{}))
	if l.exact {
		require.True(l, want.Value.High.Equal(q.Value.High) && want.Value.Low.Equal(q.Value.Low), "is %s (%v), wanted %s (%v)", q.Print(quantity.Style{}), q.Value, want.Print(quantity.Style{}), want.Value)
		return
	}
	require.InEpsilon(l, want.Value.High.Float(), q.Value.High.Float(), 0.01, "is %s", q.Print(quantity.Style{}))
}

func (l looker) system() quantity.System {
	for _, r := range l.m.Model.Recipes {
		if r.Name == l.block || l.block == "" && r.System != quantity.NoSystem {
			return r.System
		}
	}
	return l.m.Model.Recipes[0].System
}

func (l looker) added(qs []quantity.Quantity) {
	require.NotEmpty(l, qs, "no amount")
	sum := qs[0]
	for _, q := range qs[1:] {
		var problem *quantity.Problem
		sum, problem = sum.Add(q)
		require.Nil(l, problem)
	}
	l.same(sum)
}

func (l looker) amount() {
	line := l.line()
	if l.m.Meals[0].Menu == nil { // as written
		require.NotNil(l, line.Quantity, "%s has no amount", l.thing)
		l.same(*line.Quantity)
		return
	}
	a := l.makings()[0].Of(line)
	require.NotNil(l, a, "not made")
	require.NotNil(l, a.Quantity, "%s has no amount", l.thing)
	l.same(*a.Quantity)
}

func (l looker) total() {
	name := l.block
	l.block = ""
	var qs []quantity.Quantity
	for _, meal := range l.m.Meals {
		for _, k := range meal.Makings {
			for _, a := range k.Lines {
				if sameName(a.Line.Name, name) && a.Quantity != nil {
					qs = append(qs, *a.Quantity)
				}
			}
		}
	}
	l.added(qs)
}

func (l looker) sum() {
	var qs []quantity.Quantity
	dim := l.wanted(l.system()).Dim
	for _, a := range l.makings()[0].Lines {
		if a.Quantity != nil && a.Quantity.Dim == dim {
			qs = append(qs, *a.Quantity)
		}
	}
	l.added(qs)
}

func (l looker) list() *buying.List {
	require.Len(l, l.m.Meals, 1, "ask at a size")
	return buying.Build(figures.Of(l.m.Meals[0], figures.Options{}), nil)
}

func (l looker) buys() {
	name := l.block
	l.block = ""
	for _, it := range l.list().Items {
		if sameName(it.Name, name) {
			require.Len(l, it.Buy, 1)
			l.same(it.Buy[0])
			return
		}
	}
	require.Fail(l, "not bought: "+name)
}

func (l looker) cost() {
	costs := l.list().Costs
	require.Len(l, costs, 1)
	n, _, _ := quantity.ReadNumber(l.want, quantity.Options{})
	require.InDelta(l, n.Float(), costs[0].Amount.Float(), 0.005)
}

func (l looker) perHead() {
	costs := l.list().Costs
	require.Len(l, costs, 1)
	n, _, _ := quantity.ReadNumber(l.want, quantity.Options{})
	require.InDelta(l, n.Float(), costs[0].Amount.Float()/float64(l.m.Meals[0].Menu.Covers), 0.0005)
}

func (l looker) yield() {
	if l.m.Meals[0].Menu == nil { // as written
		require.NotNil(l, l.recipe().Makes)
		l.same(l.recipe().Makes.Quantity)
		return
	}
	k := l.makings()[0]
	require.NotNil(l, k.Recipe.Makes)
	l.same(k.Recipe.Makes.Quantity.Scale(k.Factor))
}

func (l looker) each() {
	r := l.recipe()
	if l.number > 0 {
		into := l.step().Into
		require.NotNil(l, into)
		q, problem := into.Each.Quantity(r.System)
		require.Nil(l, problem)
		l.same(q)
		return
	}
	if r.Makes != nil && r.Makes.Each != nil {
		l.same(*r.Makes.Each)
		return
	}
	q, problem := r.ServesEach.Quantity(r.System)
	require.Nil(l, problem)
	l.same(q)
}

func (l looker) product() {
	k := l.makings()[0]
	for _, p := range k.Recipe.Products {
		if sameName(p.Name, l.thing) {
			require.NotNil(l, p.Quantity)
			l.same(p.Quantity.Scale(k.Factor))
			return
		}
	}
	require.Fail(l, "not made: "+l.thing)
}

func (l looker) left() {
	for _, meal := range l.m.Meals {
		for _, s := range meal.Supplies {
			if sameName(s.Name, l.block) {
				l.same(s.Left)
				return
			}
		}
	}
	require.Fail(l, "no supply")
}

func (l looker) factor() {
	n, _, _ := quantity.ReadNumber(l.want, quantity.Options{})
	sum := 0.0
	for _, k := range l.makings() {
		sum += k.Factor.Float()
	}
	require.InEpsilon(l, n.Float(), sum, 0.001)
}

func (l looker) pieces() {
	k := l.makings()[0]
	into := l.step().Into
	require.NotNil(l, into)
	n, _, _ := quantity.ReadNumber(l.want, quantity.Options{})
	require.InDelta(l, n.Float(), float64(into.Count)*k.Factor.Float(), 0.001)
}

func (l looker) serves() { require.Equal(l, l.want, l.recipe().Serves.String()) }

func (l looker) keeps() {
	r := l.recipe()
	if l.thing != "" {
		for _, p := range r.Products {
			if sameName(p.Name, l.thing) {
				require.NotNil(l, p.Keeps)
				require.Equal(l, l.want, p.Keeps.Time.String()+", "+p.Keeps.Place)
				return
			}
		}
		require.Fail(l, "not made: "+l.thing)
	}
	require.NotNil(l, r.Keeps)
	require.Equal(l, l.want, r.Keeps.Time.String()+", "+r.Keeps.Place)
}

func (l looker) pause() {
	var all []string
	for _, p := range l.recipe().Pauses {
		all = append(all, p.Keep.Time.String()+", "+p.Place)
	}
	require.Contains(l, all, l.want)
}

func (l looker) draws() {
	switch line := l.line(); {
	case line.From != nil:
		require.Equal(l, l.want, line.From.Name)
	case line.Product != nil:
		require.Equal(l, l.want, line.Product.Recipe.Name+"/"+line.Product.Name)
	default:
		require.Equal(l, l.want, "bought")
	}
}

// reading is what the sentences take, at the size asked for where there is one,
// else with whatever options there are.
func (l looker) stepReading() *resolve.StepReading {
	r, step := l.recipe(), l.step()
	if l.m.Meals[0].Menu != nil {
		if sr := l.makings()[0].Reading.Of(step); sr != nil {
			return sr
		}
	}
	for _, rd := range append([]*resolve.Reading{r.Reading}, r.Readings...) {
		if sr := rd.Of(step); sr != nil {
			return sr
		}
	}
	require.Fail(l, "no reading")
	return nil
}

func (l looker) take() {
	p := phrase{fields: []string{"units " + string(l.recipe().System)}}
	want := l.want + " " + l.thing
	switch l.want {
	case "half", "a third", "a quarter", "the rest", "all", "some":
		want = "[" + map[string]string{"half": "1/2", "a third": "1/3", "a quarter": "1/4", "the rest": "rest", "all": "all", "some": "some"}[l.want] + "] " + l.thing
	}
	if strings.Contains(l.want, "/") && !strings.Contains(l.want, " ") {
		want = "[" + l.want + "] " + l.thing
	}
	said := ""
	for _, tk := range l.stepReading().Takes {
		if tk.Product != nil && sameName(tk.Product.Name, l.thing) && (l.want == "all" || tk.Part.String() == l.want) || !tk.Refers && p.takes(tk, want) {
			return
		}
		said += " [" + describe(tk) + "]"
	}
	require.Fail(l, "takes"+said)
}

func (l looker) figure() {
	want := l.wanted(l.system())
	factor := quantity.Int(1)
	if l.m.Meals[0].Menu != nil {
		factor = l.makings()[0].Factor
	}
	for _, g := range l.stepReading().Figures {
		q := g.Quantity
		if g.Kind == resolve.FigureScaled {
			q = q.Scale(factor)
		}
		if q.Dim == want.Dim && math.Abs(q.Value.High.Float()-want.Value.High.Float()) < 0.01*want.Value.High.Float() {
			return
		}
	}
	require.Fail(l, "no such figure")
}

func (l looker) note() {
	line := l.line()
	require.Contains(l, line.Note.Text+" "+line.Brackets.Text+" "+line.Said.Text, l.want)
}

func (l looker) instead() {
	var all []string
	for _, i := range l.line().Instead {
		all = append(all, strings.Join(strings.Fields(i.AmountText+" "+i.Name), " "))
	}
	require.Contains(l, all, l.want)
}

func (l looker) without() {
	for _, x := range l.recipe().Lines {
		require.False(l, sameName(x.Name, l.want))
	}
}

func (l looker) option() {
	var all []string
	for _, c := range l.recipe().Choices {
		for _, o := range c.Options {
			all = append(all, o.Label)
		}
	}
	require.Contains(l, all, l.want)
}

func (l looker) clause() {
	var all []string
	if l.number == 0 {
		all = strings.Split(l.line().Span.Text(), "|")[1:]
	} else {
		s := l.step()
		for _, c := range s.Margin {
			all = append(all, c.Where().Text())
		}
		for _, m := range s.Moments {
			for _, c := range m.Margin {
				all = append(all, c.Where().Text())
			}
		}
		for _, c := range s.If {
			if c.Option != nil && !c.Unless {
				all = append(all, "if "+c.Option.Label)
			}
		}
		if s.OnlyIfNeeded {
			all = append(all, "only if needed")
		}
		if s.Meanwhile {
			all = append(all, "meanwhile")
		}
	}
	for i := range all {
		all[i] = strings.Join(strings.Fields(all[i]), " ")
	}
	require.Contains(l, all, l.want)
}

func (l looker) timeline() *timeline.Timeline {
	for _, tl := range l.m.Timelines {
		if tl != nil {
			return tl
		}
	}
	require.Fail(l, "there is no plan")
	return nil
}

// jobs are those of the step; more than one where it goes load by load.
func (l looker) jobs() (out []*timeline.Job) {
	step := l.step()
	for _, j := range l.timeline().Jobs {
		if j.Kind == timeline.StepJob && j.Step.Step == step {
			out = append(out, j)
		}
	}
	require.NotEmpty(l, out, "not planned")
	return out
}

func (l looker) job() *timeline.Job { return l.jobs()[0] }

func (l looker) span() quantity.Span {
	s, n, _ := quantity.ReadSpan(l.want, quantity.Options{})
	require.Positive(l, n, "no time: %q", l.want)
	return s
}

func (l looker) time() {
	want := l.span()
	if !slices.ContainsFunc(l.m.Timelines, func(tl *timeline.Timeline) bool { return tl != nil }) { // as written
		for _, p := range l.step().Phases {
			if (string(p.Kind) == l.thing) && p.Fixed != nil && p.Fixed.Low == want.Low && p.Fixed.High == want.High && (!want.About || p.Fixed.About) {
				return
			}
			if least, most, ok := p.Written(); len(p.Points) > 0 && ok && string(p.Kind) == l.thing && least == want.Low && most == want.High {
				return
			}
		}
		require.Fail(l, "not so long")
	}
	minutes, least := 0, 0
	for _, j := range l.jobs() {
		for _, p := range j.Phases {
			if string(p.Kind) == l.thing {
				minutes += p.End - p.Start - p.Stretch
				least += p.Least
			}
		}
	}
	require.Equal(l, int(want.High.Minutes()), minutes)
	require.Equal(l, int(want.Low.Minutes()), least)
}

func (l looker) prep() {
	want := l.span()
	for _, p := range l.line().Prep {
		if p.Fixed != nil && p.Fixed.Low == want.Low && p.Fixed.High == want.High {
			return
		}
	}
	require.Fail(l, "not so long")
}

func (l looker) touches() {
	n, _, _ := quantity.ReadNumber(l.want, quantity.Options{})
	times := 0
	for _, touch := range l.job().Touches {
		if touch.Text == "" { // not a moment
			times++
		}
	}
	require.Equal(l, int(n.Float()), times)
}

func (l looker) touch() {
	for _, touch := range l.job().Touches {
		if strings.Contains(touch.Text, l.thing) {
			require.Equal(l, int(l.span().High.Minutes()), touch.Start-l.job().Start())
			return
		}
	}
	require.Fail(l, "no such moment")
}

func (l looker) moment() {
	for _, m := range l.step().Moments {
		if strings.Contains(m.Prose.Text, l.thing) {
			switch {
			case m.At == nil:
				require.Equal(l, l.want, "half time")
				return
			case m.Sight != "":
				require.Equal(l, l.want, "when "+m.Sight)
				return
			}
			require.Equal(l, l.want, m.At.String())
			return
		}
	}
	require.Fail(l, "no such moment")
}

func (l looker) before(at timeline.Minute) {
	require.Equal(l, int(l.span().High.Minutes()), l.timeline().Servings[0].At-at)
}

func (l looker) elapsed() {
	from, to := math.MaxInt, math.MinInt
	for _, j := range l.timeline().Jobs {
		if j.Making != nil && j.Making.Recipe.Name == l.block {
			from, to = min(from, j.Start()), max(to, j.End())
		}
	}
	require.Equal(l, int(l.span().High.Minutes()), to-from)
}

func (l looker) attended() {
	sum := 0
	for _, j := range l.timeline().Jobs {
		if j.Making != nil && j.Making.Recipe.Name == l.block {
			for _, p := range j.Phases {
				if p.Kind != resolve.Leave {
					sum += p.End - p.Start
				}
			}
		}
	}
	require.Equal(l, int(l.span().High.Minutes()), sum)
}

func (l looker) also() {
	w := l.line().Written
	require.NotNil(l, w)
	q, problem := w.Also.Quantity(l.recipe().System)
	require.Nil(l, problem)
	l.same(q)
}

func (l looker) waits() {
	var low, high time.Duration
	for _, s := range l.recipe().Steps {
		for _, p := range s.Phases {
			if p.Kind != resolve.Work && p.Fixed != nil {
				low, high = low+p.Fixed.Low, high+p.Fixed.High
			}
		}
	}
	require.Equal(l, [2]time.Duration{l.span().Low, l.span().High}, [2]time.Duration{low, high})
}

func (l looker) vessel() {
	sum := time.Duration(0)
	for _, s := range l.recipe().Steps {
		for _, p := range s.Phases {
			if s.Vessel == l.thing && p.Kind != resolve.Work && p.Fixed != nil {
				sum += p.Fixed.High
			}
		}
	}
	require.Equal(l, l.span().High, sum)
}

func (l looker) absent() { require.Nil(l, l.makings()[0].Reading.Of(l.step())) }

func (l looker) follows() {
	j := l.job()
	l.block, l.number, _ = subject(l.want)
	other := l.jobs()
	require.GreaterOrEqual(l, j.Start(), other[len(other)-1].End())
}

func (l looker) serving() {
	for _, menu := range l.m.Model.Menus {
		if menu.Name != l.block {
			continue
		}
		for _, c := range menu.Courses {
			for _, s := range c.Servings {
				if c.Name == l.thing && strings.Join(strings.Fields(s.Span.Text()), " ") == l.want {
					return
				}
			}
		}
	}
	require.Fail(l, "not on the menu")
}

func (l looker) dishes() {
	for _, menu := range l.m.Model.Menus {
		if menu.Name != l.block {
			continue
		}
		var courses []string
		for _, c := range menu.Courses {
			var names []string
			for _, s := range c.Servings {
				names = append(names, s.Name)
			}
			courses = append(courses, strings.Join(names, "; "))
		}
		require.Equal(l, l.want, strings.Join(courses, " / "))
		return
	}
	require.Fail(l, "no such menu")
}

func (l looker) page(kinds ...sheets.Kind) {
	require.True(l, strings.Contains(strings.ToLower(l.m.words(kinds...)), strings.ToLower(l.want)), "not on the page")
}
