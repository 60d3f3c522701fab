// Package hazard follows food through a method: what is in the pot at each
// step, whether it has been heated, cooled, chilled and brought back. The safety
// rules and the cautions on the sheets are both made from that, so that they
// speak of the same things.
//
// It reads what is written and supposes the case that has more to go wrong: all
// pauses taken. It is a reading, not a proof: a pot is taken to hold all that
// went into it, and a lid of words that are not known is left on.
//
// Read this file first: it is the walk. act.go says what a step does to its pot, item.go
// what is in it, and signs.go what words tell of both; the others each look for one harm.
package hazard

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Warmth is what was last done to a pot.
type Warmth int

// The states of a pot.
const (
	Fresh   Warmth = iota // nothing yet
	Hot                   // heated
	Cooled                // cooled by a step that says so
	Chilled               // in the fridge
	Frozen
)

// Pot is the food that one step works on, as it leaves it. The pots of a walk
// share their items: what comes later is appended where no earlier pot sees it.
type Pot struct {
	Items   []*Item
	Warmth  Warmth
	Cooked  bool          // something in it that germs grow in was heated
	Chilled bool          // and was then chilled or frozen, at some time
	Back    []*Stage      // steps that brought chilled cooked food back to heat
	Dough   bool          // yeast is at work in it
	Soured  bool          // milk in it stood in the warm with what sours it
	From    *resolve.Step // the step that last heated it
	heated  int           // so many of its first items are known to be heated
	Totals  Totals
}

// Stage is one step with what it does.
type Stage struct {
	N      int // from 0
	Step   *resolve.Step
	Before Pot
	After  Pot
	Taken  []*Item // what it takes itself
	Heats  bool
	Cools  bool          // brings down the heat, and says so
	Chills bool          // puts it in the fridge or freezer
	Warms  bool          // brings back what was cooked and chilled
	Pause  *Break        // the pause just above it
	Place  string        // fridge, freezer, room …
	Time   time.Duration // the longest that it takes, at written size
	text   string        // its words and its moments', in small letters
	first  uint32        // the letters that they begin with
	said   int           // so much of text is its words; then come tools and vessel
	signs  *Signs
}

// Break is a pause and the pot that waits in it.
type Break struct {
	N     int // of the stage before it; -1 where it comes first
	Pause *resolve.Pause
	Pot   Pot
}

// Trace is the way of the food through one reading of a recipe.
type Trace struct {
	Reading *resolve.Reading
	Stages  []*Stage
	Breaks  []*Break
	End     Pot
	// Unsure tells that a clause of its steps, or of those of what it draws on, is only
	// offered: without it the food may go another way.
	Unsure bool
	signs  [4]uint64 // of all its steps
}

// Tells tells whether any step has one of some signs.
func (t *Trace) Tells(signs ...string) bool {
	return slices.ContainsFunc(signs, func(s string) bool {
		i := signNo(s)
		return t.signs[i/64]&(1<<(i%64)) != 0
	})
}

// Tracer follows recipes, each once.
type Tracer struct {
	done map[*resolve.Recipe]*Trace
	sure bool // only what is confirmed counts
	bare *Tracer
	read *readings
}

// readings are what the words of steps and lines tell, read once: a tracer and its
// companion follow the same words.
type readings struct {
	steps map[*resolve.Step]*stepWords
	items map[*resolve.Line]*Item // as they come
}

// stepWords are the words of a step.
type stepWords struct {
	text  string // its words and its moments', in small letters
	first uint32 // the letters they begin with
	signs *Signs // of them, of its tools and its vessel
}

// step reads the words of a step.
func (r *readings) step(s *resolve.Step) *stepWords {
	w := r.steps[s]
	if w == nil {
		text := saidIn(s)
		w = &stepWords{text, begins(text), readText(withTools(text, s))}
		r.steps[s] = w
	}
	return w
}

// item is a line as it comes, for one walk.
func (r *readings) item(l *resolve.Line) *Item {
	i := r.items[l]
	if i == nil {
		i = NewItem(l)
		r.items[l] = i
	}
	own := *i
	return &own
}

// NewTracer makes a tracer.
func NewTracer() *Tracer {
	return &Tracer{done: map[*resolve.Recipe]*Trace{}, read: &readings{map[*resolve.Step]*stepWords{}, map[*resolve.Line]*Item{}}}
}

// Confirmed is the tracer's companion that leaves out every clause that is only offered.
func (t *Tracer) Confirmed() *Tracer {
	if t.bare == nil {
		t.bare = &Tracer{done: map[*resolve.Recipe]*Trace{}, read: t.read, sure: true}
	}
	return t.bare
}

// Forget lets go of a recipe that is not followed any more. What bases do is kept, for
// others draw on them.
func (t *Tracer) Forget(r *resolve.Recipe) {
	clear(t.read.steps)
	clear(t.read.items)
	for ; t != nil; t = t.bare {
		if !r.Base {
			delete(t.done, r)
		}
	}
}

// Recipe follows a recipe with the options its own reading has.
func (t *Tracer) Recipe(r *resolve.Recipe) *Trace {
	if tr, ok := t.done[r]; ok {
		return tr // nil while it is being followed: a circle of bases
	}
	t.done[r] = nil
	tr := t.Reading(r.Reading)
	t.done[r] = tr
	return tr
}

// Reading follows a recipe with one set of options.
func (t *Tracer) Reading(rd *resolve.Reading) *Trace {
	tr := &Trace{Reading: rd}
	if rd == nil {
		return tr
	}
	tr.Unsure = rd.Unsure()
	written := rd.Steps
	if t.sure {
		rd = rd.Confirmed()
		tr.Reading = rd
	}
	w := &walk{t: t, tr: tr, made: map[*resolve.Product]*Pot{}, items: map[*resolve.Line][]*Item{}}
	w.loose = loose(rd)
	for i, sr := range rd.Steps {
		if !happens(sr.Step) {
			continue
		}
		w.pauses(rd.Recipe, sr.Step.Index)
		w.step(sr, t.read.step(written[i].Step))
	}
	w.pauses(rd.Recipe, 1<<30)
	tr.End = w.all()
	return tr
}

// loose are the lines that no sentence was read to take, by the step that has a word
// of their names, else by the first: what is not understood may still hurt.
func loose(rd *resolve.Reading) map[int][]*resolve.Line {
	if len(rd.Steps) == 0 {
		return nil
	}
	taken := make(map[*resolve.Line]bool, len(rd.Lines))
	for _, sr := range rd.Steps {
		for _, tk := range sr.Takes {
			if tk.Line != nil {
				taken[tk.Line] = true
			}
		}
	}
	var first map[string]int // the first step that has a word
	out := map[int][]*resolve.Line{}
	for _, l := range rd.Lines {
		if taken[l] || l.Serving || l.Optional || l.ToTaste || l.Circle {
			continue
		}
		if first == nil {
			first = map[string]int{}
			for _, sr := range rd.Steps {
				for _, t := range cut(saidIn(sr.Step), nil) {
					if _, ok := first[t.stem]; !ok {
						first[t.stem] = sr.Step.Index
					}
				}
			}
		}
		at, best := rd.Steps[0].Step.Index, -1
		for _, t := range cut(strings.ToLower(l.Name), nil) {
			if n, ok := first[t.stem]; ok && len(t.stem) > 2 && !plainWords[t.stem] && (best < 0 || n < best) {
				best = n
			}
		}
		if best >= 0 {
			at = best
		}
		out[at] = append(out[at], l)
	}
	return out
}

// plainWords are words of names, as stems, that name nothing.
var plainWords = map[string]bool{"the": true, "and": true, "with": true, "from": true, "fresh": true, "whol": true, "larg": true, "smal": true, "raw": true, "hot": true, "cold": true, "red": true, "green": true, "whit": true, "black": true, "long": true, "dri": true, "of": true, "in": true}

// happens leaves out the steps of a dish that does not pause.
func happens(s *resolve.Step) bool {
	return !slices.ContainsFunc(s.If, func(c resolve.Condition) bool { return c.Paused && c.Unless })
}

// walk is the state between two steps. Its three pots are its own, and whatever
// is added to them is added in place; a pot that it hands out is closed.
type walk struct {
	t      *Tracer
	tr     *Trace
	main   Pot
	strand *Pot // steps beside the step before
	side   Pot  // put aside by `after`
	made   map[*resolve.Product]*Pot
	items  map[*resolve.Line][]*Item
	paused int
	brk    *Break
	loose  map[int][]*resolve.Line // what no sentence was read to take, by the step it is taken to go in with
}

func (w *walk) all() Pot {
	p := merge(w.main, w.side)
	if w.strand != nil {
		p = merge(p, *w.strand)
	}
	return p
}

// pauses takes the pauses that stand above a step.
func (w *walk) pauses(r *resolve.Recipe, index int) {
	for ; w.paused < len(r.Pauses) && r.Pauses[w.paused].After <= index; w.paused++ {
		p := r.Pauses[w.paused]
		w.main, w.side, w.strand = w.all(), Pot{}, nil
		b := &Break{N: len(w.tr.Stages) - 1, Pause: p, Pot: w.main.closed()}
		w.tr.Breaks = append(w.tr.Breaks, b)
		w.main.chill(p.Place)
		w.brk = b
	}
}

func (w *walk) step(sr *resolve.StepReading, said *stepWords) {
	s := sr.Step
	st := &Stage{N: len(w.tr.Stages), Step: s, Pause: w.brk, text: said.text, first: said.first, said: len(said.text), signs: said.signs, Place: s.Place, Time: stageTime(s)}
	w.brk = nil
	switch {
	case s.AnyTime:
		w.side, w.main, w.strand = w.all(), Pot{}, nil
	case len(s.After) > 0:
		var from Pot
		for _, a := range s.After {
			for _, o := range w.tr.Stages {
				if o.Step.Same(a) {
					from = merge(from, o.After)
				}
			}
		}
		w.side, w.main, w.strand = w.all(), from, nil
	case s.Meanwhile:
		if w.strand == nil {
			w.strand = &Pot{}
		}
	default:
		w.main, w.side, w.strand = w.all(), Pot{}, nil
	}
	pot := &w.main
	if s.Meanwhile {
		pot = w.strand
	}
	for _, tk := range sr.Takes {
		if tk.Refers {
			continue
		}
		var got Pot
		switch {
		case tk.Product != nil && w.made[tk.Product] != nil:
			got = *w.made[tk.Product]
		case tk.Line != nil:
			got = w.line(tk.Line)
		}
		switch {
		case tk.Line == nil:
			st.take(pot, got, 0)
		case tk.Unmeasured:
			st.take(pot, got, 0)
			for _, i := range got.Items {
				pot.Totals.some(i)
			}
		default:
			st.take(pot, got, tk.Part.Float())
		}
	}
	for _, l := range w.loose[s.Index] {
		st.take(pot, w.line(l), 1)
	}
	st.Before = pot.closed()
	st.act()
	after := st.After
	after.Items = pot.Items // with the room behind them
	*pot = after
	for _, p := range s.Makes {
		made := st.After
		w.made[p] = &made
	}
	w.tr.Stages = append(w.tr.Stages, st)
	for i, b := range st.signs.bits {
		w.tr.signs[i] |= b
	}
}

// take puts into a pot what the step takes, and a share of what the list has of it;
// 0 for what was taken before.
func (st *Stage) take(pot *Pot, got Pot, share float64) {
	var room [16]bool
	fresh := room[:0]
	for _, i := range got.Items {
		is := !i.used || !slices.Contains(pot.Items, i)
		fresh = append(fresh, is)
		if is {
			st.Taken = append(st.Taken, i)
			if !i.used {
				i.in = st.N
			}
		}
	}
	pot.add(got)
	if share == 0 {
		return
	}
	for n, i := range got.Items {
		more := share
		if fresh[n] { // add has weighed what others took
			more -= i.taken
		}
		pot.Totals.weigh(i, more)
		i.taken += share
		if i.mass == 0 {
			pot.Totals.some(i)
		}
	}
}

// drawn is the share, from 0 up, of what another block makes that a line draws; 0
// where nobody can say. A line without an amount draws one whole making.
func drawn(l *resolve.Line) float64 {
	switch {
	case l.Share != nil:
		return l.Share.Fraction.Float()
	case l.Quantity == nil:
		return 1
	}
	var makes resolve.Yield
	switch {
	case l.Product != nil && l.Product.Quantity != nil:
		makes.Quantity = *l.Product.Quantity
	case l.From != nil && l.From.Gives() != nil:
		makes = *l.From.Gives()
	case l.Before != nil && l.Before.Gives() != nil:
		makes = *l.Before.Gives()
	}
	q, all := l.Quantity, makes.Quantity
	n, of := q.Value.High.Float(), all.Value.Low.Float()
	weighed := func(d quantity.Dimension) bool { return d == quantity.Mass || d == quantity.Volume }
	switch {
	case q.Dim == quantity.Batch:
		return n
	case makes.Each != nil && weighed(q.Dim) && weighed(makes.Each.Dim):
		of *= makes.Each.Value.Low.Float()
	case !(q.Dim == all.Dim && q.Unit == all.Unit || weighed(q.Dim) && weighed(all.Dim)):
		return 0
	}
	if of <= 0 {
		return 0
	}
	return n / of
}

// line is what a line brings, the same items each time it is taken from.
func (w *walk) line(l *resolve.Line) Pot {
	var from *Trace
	var pot Pot
	switch {
	case l.Circle: // as if it were bought
	case l.From != nil:
		from = w.t.Recipe(l.From)
		if from != nil {
			pot = from.End
			if k := l.From.Keeps; k != nil && pot.Warmth == Cooled {
				pot.chill(k.Place)
			}
		}
	case l.Product != nil && l.Product.Recipe != w.tr.Reading.Recipe:
		if from = w.t.Recipe(l.Product.Recipe); from != nil {
			for _, st := range from.Stages {
				if st.Step.Same(l.Product.Step) {
					pot = st.After
				}
			}
			if k := l.Product.Keeps; k != nil && pot.Warmth == Cooled {
				pot.chill(k.Place)
			}
		}
	case l.Product != nil:
		if p := w.made[l.Product]; p != nil {
			return *p
		}
	case l.Before != nil: // what an earlier part cooked is carried over as a leftover is
		if before := w.t.Recipe(l.Before); before != nil && before.uncooked() {
			from, pot = before, before.End
		}
	}
	w.tr.Unsure = w.tr.Unsure || from != nil && from.Unsure
	if items, ok := w.items[l]; ok {
		pot.Items = items
		return pot
	}
	if from == nil {
		i := w.t.read.item(l)
		pot = Pot{Items: []*Item{i}, Dough: i.IsKind("live")}
		if i.Leftover && (i.Strong || i.Plant) {
			pot.Cooked, pot.Chilled, pot.Warmth = true, true, Chilled
		}
	} else {
		own, share := make([]*Item, 0, len(pot.Items)), drawn(l)
		for _, i := range pot.Items {
			c := *i
			c.Line, c.used, c.taken = l, false, 0
			c.mass *= share
			c.Base, c.Before = from.Reading.Recipe, i.Heated
			own = append(own, &c)
		}
		pot.Items, pot.Back = own, nil
		if isKind("keeps", l.Name) || isKind("oil", l.Name) && from.Reading.Recipe != l.From { // duck fat is no duck
			pot.Cooked, pot.Chilled = false, false
			for _, i := range own {
				i.Strong, i.Plant, i.Kinds = false, false, nil
			}
		}
	}
	w.items[l] = pot.Items
	return pot
}

// uncooked tells whether nothing was heated on the way, nor came cooked: what an earlier
// part froze raw, and a later one cooks, is cooked for the first time.
func (t *Trace) uncooked() bool {
	return !slices.ContainsFunc(t.Stages, func(st *Stage) bool { return st.Heats || st.Before.Cooked }) &&
		!slices.ContainsFunc(t.End.Items, func(i *Item) bool { return i.Heated || i.Before || i.Cooked || i.Leftover })
}

// merge adds b to a, whose items are its own and which is not used again.
func merge(a, b Pot) Pot {
	a.add(b)
	return a
}

// closed is the pot as others may see it: nothing is added to it in place.
func (p Pot) closed() Pot {
	p.Items = slices.Clip(p.Items)
	return p
}

// add puts another pot into one whose items are its own.
func (p *Pot) add(b Pot) {
	has := p.holds(len(b.Items))
	for _, i := range b.Items {
		if !i.used || !has(i) {
			p.Items = append(p.Items, i)
			p.Totals.add(i)
			i.used = true
		}
	}
	p.Dough, p.Soured = p.Dough || b.Dough, p.Soured || b.Soured
	for _, s := range b.Back {
		if !slices.Contains(p.Back, s) {
			p.Back = append(slices.Clone(p.Back), s)
		}
	}
	switch {
	case !p.Cooked && b.Cooked, !p.Cooked && !b.Cooked && b.Warmth > p.Warmth:
		p.Warmth, p.Cooked, p.Chilled, p.From = b.Warmth, b.Cooked, b.Chilled, b.From
	case p.Cooked && b.Cooked:
		p.Chilled = p.Chilled || b.Chilled
		if b.Warmth == Hot {
			p.Warmth, p.From = Hot, b.From
		}
	}
}

// holds tells whether an item is in a pot, for so many different ones that are
// about to be added: by a map where pairs would be too many.
func (p *Pot) holds(n int) func(*Item) bool {
	if n < 8 || n*len(p.Items) < 4096 {
		return func(i *Item) bool { return slices.Contains(p.Items, i) }
	}
	var in map[*Item]bool
	return func(i *Item) bool {
		if in == nil {
			in = make(map[*Item]bool, len(p.Items)+n)
			for _, o := range p.Items {
				in[o] = true
			}
		}
		return in[i]
	}
}

func (p *Pot) chill(place string) {
	switch place {
	case "fridge":
		p.Warmth = Chilled
	case "freezer":
		p.Warmth = Frozen
	default:
		return
	}
	p.Chilled = p.Chilled || p.Cooked
}

// Strong tells whether meat, fish, egg, dairy or rice is in it.
func (p Pot) Strong() bool {
	return slices.ContainsFunc(p.Items, func(i *Item) bool { return i.Strong })
}

// Contains tells whether any of some items is in it.
func (p Pot) Contains(items []*Item) bool {
	return slices.ContainsFunc(p.Items, func(i *Item) bool { return slices.Contains(items, i) })
}

// Rice tells whether cooked rice is in it.
func (p Pot) Rice() bool {
	return slices.ContainsFunc(p.Items, func(i *Item) bool { return i.Heated && i.isRice() })
}

// keptBy is how much vinegar and sugar, against the plants they are to keep, is
// enough: a quarter. Chutneys and jams have more, and a spoonful in a pot of
// lentils keeps nothing. Common practice, no source.
const keptBy = 0.25

// Grows tells whether germs grow in it: something strong, or plants that
// neither vinegar nor sugar keeps.
func (p Pot) Grows() bool {
	if p.Dough {
		return false
	}
	plant, kept := false, false
	var plants, keeping float64
	for _, i := range p.Items {
		if i.Strong && !(p.Soured && i.IsMilky()) {
			return true
		}
		switch {
		case i.Sour || i.Sweet:
			kept, keeping = true, keeping+i.mass
		case i.Plant:
			plant, plants = true, plants+i.mass
		}
	}
	return plant && !(kept && keeping >= keptBy*plants)
}

// saidIn is all the words of a step, in small letters.
func saidIn(s *resolve.Step) string {
	text := s.Prose.Text
	for _, m := range s.Moments {
		text += " " + m.Prose.Text
	}
	return strings.ToLower(text)
}

// withTools is the text of a step with its tools and its vessel, each a sentence of
// its own.
func withTools(text string, s *resolve.Step) string {
	for _, t := range append(slices.Clone(s.Tools), s.Vessel) {
		if t != "" {
			text += "\n" + t
		}
	}
	return text
}

// stageTime is the longest a step takes at the written size, as far as that is
// fixed. What the planner may add by permission (`up to`) is not in it.
func stageTime(s *resolve.Step) (d time.Duration) {
	for i := range s.Phases {
		p := &s.Phases[i]
		_, most, _ := p.Written()
		if p.Fixed != nil && p.Fixed.Overnight {
			most += p.Fixed.High - p.Fixed.Low
		}
		d += most
	}
	return d * time.Duration(max(1, s.Times))
}

// Allowed is the longest a step may take, permissions and `at least` included.
func (st *Stage) Allowed() (d time.Duration) {
	for i := range st.Step.Phases {
		p := &st.Step.Phases[i]
		_, most, _ := p.Written()
		if f := p.Fixed; f != nil && f.Overnight {
			most += longest(*f) - f.Low
		} else if f != nil {
			most += longest(*f) - f.High
		}
		d += most
	}
	return d * time.Duration(max(1, st.Step.Times))
}

func longest(s quantity.Span) time.Duration { return max(s.High, s.UpTo) }

// Clause is the first clause of the step that begins with one of some words;
// nil when none does.
func (st *Stage) Clause(words ...resolve.Word) resolve.Clause {
	return resolve.FirstOf(st.Step.Margin, words...)
}

// Spell is the first length of time of the step that begins with one of some
// words; nil when none does.
func (st *Stage) Spell(words ...resolve.Word) *resolve.Spell {
	s, _ := st.Clause(words...).(*resolve.Spell)
	return s
}

// Says tells whether one of some words stands in the step.
func (st *Stage) Says(words ...string) bool {
	_, ok := findFrom(st.text, st.first, words)
	return ok
}

// Has tells whether the step has a clause that begins with one of some words.
func (st *Stage) Has(words ...resolve.Word) bool { return st.Clause(words...) != nil }

// Opens tells whether one of some verbs opens a sentence of the step, or stands
// after a comma, "and" or "then".
func (st *Stage) Opens(verbs ...string) bool { return opens(st.text, verbs) }
