// Package prose reads what a sentence says of times, heats and places, and offers it as
// clauses of a margin. It knows words and nothing of recipes: which verb needs a fire, what
// "for another 10 minutes" is the time of, whose the 180 C are. It reads every sentence of a
// book, so it walks over words that were cut once and looks each up in a table.
//
// Read this file first: Read and Offer are all that is called. words.go cuts a text into
// words; times.go and heats.go find lengths of time and temperatures, acts.go what is done,
// and attach.go gives each act its time, its heat and its place; parts.go makes steps of them.
package prose

import (
	"time"

	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// Given is what a margin says already, slot by slot.
type Given struct {
	Heat, Time, Place bool
	Start             bool // when it begins or ends
	Hold              bool // how long what it made may wait
	Degrees           bool // a temperature of the food
	Tool              bool // a tool that may be a machine with its own heat
	Any               bool // the margin has something, or moments: the step is not parted
}

// Offer is what a passage offers where its margin says nothing.
type Offer struct {
	Stages []Stage // the steps it is: one, or more where it has two fires; never empty
	Asked  []Time  // times for another case, which are not planned with
	Oven   *Heat   // the heat an oven was set to, for what follows
}

// Stage is one step.
type Stage struct {
	From, To int // bytes of the text that are its prose, holes for its moments aside
	Clauses  []Clause
	Moments  []Moment
}

// Clause is one clause that is offered, with the words it was read from.
type Clause struct {
	ast.Clause
	From, To int
	Weighed  bool // its time grows with a weight of something that is not named
}

// Moment is something to be done while a step is left.
type Moment struct {
	From, To  int            // bytes of the text that go to it
	Does, End int            // of them, what is done
	At        *quantity.Span // nil: at half time
}

// Said is what a passage says of times and heats.
type Said struct {
	Times []Time
	Heats []Heat

	r *reader
}

// Read reads the times and heats of a text.
func Read(text string) *Said {
	r := &reader{text: text, words: cut(text)}
	return &Said{Times: r.times(), Heats: r.heats(), r: r}
}

// sayGuess is what is watched by sight with no time said.
const sayGuess = 5 * time.Minute

// shortest is how long a thing may be left without being stirred by whoever
// stirs it now and then, which is once in so long. Common practice, no source.
const shortest = 10 * time.Minute

// longestWatch is how long something is cooked under somebody's eyes when only
// "cook" is said. Common practice, no source.
const longestWatch = 15 * time.Minute

// Offer says what the passage offers. oven is the heat an oven was set to before.
func (s *Said) Offer(given Given, oven *Heat) Offer {
	r := s.r
	out := Offer{Oven: oven}
	acts, asked := r.attach(r.acts(s.Times), s.Times, s.Heats)
	for _, t := range asked {
		out.Asked = append(out.Asked, *t)
	}
	for _, a := range acts {
		r.settle(a, given)
	}
	r.ovens(acts, s.Heats, &out)
	var stages []*stage
	for _, a := range acts {
		if !a.offers() {
			continue
		}
		if n := len(stages); n > 0 && stages[n-1].joins(a) {
			stages[n-1].acts = append(stages[n-1].acts, a)
			continue
		}
		stages = append(stages, &stage{acts: []*act{a}})
	}
	stages = together(stages, given)
	out.Stages = r.parted(stages, given)
	if !given.Start {
		r.ahead(s.Times, out.Stages)
	}
	if !given.Hold {
		r.holds(s.Times, out.Stages)
	}
	if !given.Any {
		r.moments(s.Times, out.Stages)
	}
	return out
}

// ahead offers when a stage begins: "two days before serving, salt it".
func (r *reader) ahead(times []Time, stages []Stage) {
	for i := range times {
		t := &times[i]
		if t.Role != Ahead || t.Span.Overnight {
			continue
		}
		for k := range stages {
			if s := &stages[k]; t.From >= s.From && t.From < s.To {
				length := quantity.Span{Low: t.Span.High, High: t.Span.High}
				s.Clauses = append(s.Clauses, Clause{Clause: &ast.Timing{Lead: ast.Lead{Word: "start", Offered: true}, Time: &length}, From: t.From, To: t.To})
			}
		}
		return
	}
}

// holds offers how long what was made may wait: "keep warm for up to half an hour".
func (r *reader) holds(times []Time, stages []Stage) {
	for i := range times {
		t := &times[i]
		if t.Role != Holds || t.Span.Overnight {
			continue
		}
		for k := range stages {
			s := &stages[k]
			if t.From < s.From || t.From >= s.To {
				continue
			}
			state := ""
			for b := t.word; b >= 0 && state == ""; b-- {
				if r.low(b) == "keep" || r.low(b) == "hold" {
					state = r.holdState(b)
				}
			}
			length := quantity.Span{Low: t.Span.High, High: t.Span.High}
			s.Clauses = append(s.Clauses, Clause{Clause: &ast.Hold{Lead: ast.Lead{Word: "hold", Offered: true}, State: state, UpTo: &length}, From: t.From, To: t.To})
		}
		return
	}
}

// settle works out what an act is, now that all is known that is said of it.
func (r *reader) settle(a *act, given Given) {
	if a.machine || given.Tool && a.device == Ring {
		a.device, a.said, a.level = NoDevice, "", ""
		if a.kind == Watch {
			a.kind = Leave
		}
	}
	if a.device == Ring && a.said == "" && r.offHeat(a.word) {
		a.device = NoDevice
	}
	if a.device == Ring && !a.pan && a.reach == nil {
		a.device = NoDevice
		if a.name == "soften" && a.timed() {
			a.device = Ring
		}
	}
	if a.kind == Work && a.said != "" && !a.machine && (a.timed() || a.until != "") && a.name != "beat" && a.name != "knead" && a.name != "boil" {
		a.device, a.kind, a.level = Ring, Watch, a.said
	}
	if a.said != "" && a.device == Ring {
		a.level = a.said
	}
	if a.said != "" && a.device == NoDevice && a.kind == Leave && !a.machine && a.timed() && a.place == "" && r.fired(a) {
		a.device, a.level = Ring, a.said
	}
	if a.name == "cook" && a.device == Ring && !a.timed() && !a.few && a.until == "" && a.said == "" {
		a.device = NoDevice
	}
	if a.short && a.timed() && a.longest() > longestWatch {
		a.kind = Leave
	}
	if a.constant && a.kind == Leave {
		a.kind = Watch
	}
	if a.now && a.kind == Leave && a.timed() && a.longest() <= shortest {
		a.kind, a.now = Watch, false
	}
	if a.device == NoDevice && a.kind == Watch && a.until != "" && !a.timed() {
		a.until = ""
	}
}

// offHeat tells whether the sentence takes the pan from the fire before word i.
func (r *reader) offHeat(i int) bool {
	from, _ := r.sentence(i)
	for k := i; k >= from; k-- {
		if r.any(k, "off the heat", "from the heat", "off the fire", "from the fire", "off the stove", "out the heat", "off the hob", "from the hob") > 0 {
			return true
		}
	}
	return false
}

// fired tells whether an act that is left was said to be over a fire.
func (r *reader) fired(a *act) bool {
	return a.name == "leave" || a.name == "let" || a.name == "put" || a.name == "give"
}

func (a *act) longest() (sum time.Duration) {
	for _, t := range a.times {
		sum += max(t.Span.High, t.Span.UpTo)
	}
	return sum
}

// offers tells whether an act has anything a margin could say.
func (a *act) offers() bool {
	switch {
	case a.other && !a.timed():
		return false
	case a.timed(), a.core != nil, a.reach != nil, a.oven != nil, a.every != nil && a.device != NoDevice:
		return true
	case a.device == Oven:
		return a.oven != nil
	}
	return a.device != NoDevice
}

// ovens gives acts that go into an oven the heat it was set to.
func (r *reader) ovens(acts []*act, heats []Heat, out *Offer) {
	k, baked, turned := 0, false, false
	for _, a := range acts {
		for ; k < len(heats) && heats[k].word <= a.word; k++ {
			if heats[k].Whose == Preheat || heats[k].Whose == OfOven {
				out.Oven = &heats[k]
				turned = r.before(heats[k].word, "down to", "up to") > 0
			}
		}
		if turned && a.name == "cook" && a.timed() && a.oven == nil && a.place == "" && a.said == "" { // turn it down to 140 C and cook for 4 hours
			a.device, a.kind, a.pan, a.short = Oven, Leave, true, false
		}
		if baked && a.goesOn() && out.Oven != nil && a.oven == nil { // turn it down, and give it another hour
			a.device, a.kind, a.pan, a.short = Oven, Leave, true, false
		}
		if a.device == NoDevice && a.oven == nil && out.Oven != nil && r.justHeated(a, out.Oven) { // heat the oven to 220 C. Put it in for 15 minutes
			a.toOven()
		}
		if _, end := r.sentence(a.word); a.device == Oven && a.oven == nil && out.Oven != nil && !r.bareHeat(a.word, end, out.Oven) {
			a.oven = out.Oven
		}
		if a.device == Oven && a.oven == nil {
			a.device = NoDevice
		}
		if a.timed() {
			baked = a.device == Oven
		}
	}
	for ; k < len(heats); k++ {
		if heats[k].Whose == Preheat || heats[k].Whose == OfOven {
			out.Oven = &heats[k]
		}
	}
}

// justHeated tells whether an act puts something in for a time, and the sentence before it
// heats an oven.
func (r *reader) justHeated(a *act, h *Heat) bool {
	if !a.timed() || a.place != "" || a.said != "" || h.Whose != Preheat || h.word >= a.word {
		return false
	}
	switch a.name {
	case "put", "slide", "pop", "place", "return":
	default:
		return false
	}
	from, to := r.sentence(a.word)
	if start, _ := r.sentence(max(from-1, 0)); h.word < start || h.next > from {
		return false
	}
	for k := a.word + 1; k < to && r.stops(k) == 0; k++ {
		if r.low(k) == "in" && (r.low(k+1) == "for" || r.stops(k+1) != 0) {
			return true
		}
	}
	return false
}

// goesOn tells whether an act only goes on with what was done before, for some more time.
func (a *act) goesOn() bool {
	switch a.name {
	case "give", "cook", "leave", "return", "put", "continue", "finish":
	default:
		return false
	}
	return a.place == "" && a.said == "" && len(a.times) > 0 && a.times[0].Role == More
}

// stage is a run of acts that are one step.
type stage struct{ acts []*act }

// device is where the stage's heat comes from.
func (s *stage) device() Device {
	for _, a := range s.acts {
		if a.device != NoDevice {
			return a.device
		}
	}
	return NoDevice
}

// watched tells whether an act is done by sight alone: "fry until golden".
func (a *act) watched() bool {
	return !a.timed() && a.until != "" && a.kind == Watch && a.device != NoDevice
}

// last is the last act with a time.
func (s *stage) last() *act {
	for i := len(s.acts) - 1; i >= 0; i-- {
		if s.acts[i].timed() || s.acts[i].watched() {
			return s.acts[i]
		}
	}
	return nil
}

// joins tells whether an act can be done in the same step.
func (s *stage) joins(a *act) bool {
	here, last := s.device(), s.last()
	timed := a.timed() || a.watched()
	if (a.name == "stir" || a.name == "toss" || a.name == "turn" || a.name == "shake") && here == Ring && a.device == NoDevice && timed && a.kind == Work {
		a.kind, a.device, a.level = Watch, Ring, s.level() // still in the pan
	}
	switch {
	case here == NoDevice && a.device != NoDevice:
		return last == nil || last.kind == Work
	case here != NoDevice && a.device == NoDevice:
		return !timed
	case here != a.device:
		return false
	case here == Oven:
		return last == nil || !timed || a.kind >= last.kind
	case here == Ring && last != nil && timed && a.level != s.level():
		return false
	}
	if last == nil || !timed {
		return true
	}
	if a.place != last.place && (a.place != "" || last.place != "") && (a.kind == Leave && last.kind == Leave) {
		return false
	}
	if nights(a) || nights(last) {
		return a.kind > last.kind
	}
	return a.kind >= last.kind
}

func nights(a *act) bool {
	for _, t := range a.times {
		if t.Span.Overnight {
			return true
		}
	}
	return false
}

// level is the level of the fire of a stage: that of what has a time, else the last.
func (s *stage) level() string {
	level := ""
	for _, a := range s.acts {
		if a.device == Ring || a.device == Grill {
			if a.timed() || a.watched() {
				return a.level
			}
			level = a.level
		}
	}
	return level
}

// together makes one of the stages of a step that cannot be parted, where it can
// be done; else nothing is offered.
func together(stages []*stage, given Given) []*stage {
	if !given.Any || len(stages) < 2 {
		return stages
	}
	one := stages[0]
	for _, s := range stages[1:] {
		for _, a := range s.acts {
			if !one.joins(a) {
				return nil
			}
			one.acts = append(one.acts, a)
		}
	}
	return []*stage{one}
}

// clauses are what a stage offers, in the order of a margin.
func (s *stage) clauses(given Given) (out []Clause) {
	add := func(c ast.Clause, from, to int) { out = append(out, Clause{Clause: c, From: from, To: to}) }
	lead := func(word string) ast.Lead { return ast.Lead{Word: word, Offered: true} }
	if !given.Heat {
		if c, from, to := s.heat(); c != nil {
			add(c, from, to)
		}
	}
	for _, a := range s.acts {
		if h := a.core; h != nil && !given.Degrees {
			add(&ast.Degrees{Lead: lead("core"), Temp: &h.Heat.Temp}, h.From, h.To)
		}
		if h := a.reach; h != nil && !given.Degrees {
			add(&ast.Degrees{Lead: lead("reach"), Temp: &h.Heat.Temp}, h.From, h.To)
		}
	}
	if given.Time {
		return out
	}
	for _, a := range s.acts {
		if !a.timed() && a.every == nil {
			continue
		}
		switch {
		case a.every != nil && a.kind == Leave:
			every := a.every.Span
			add(&ast.Timed{Lead: lead("work"), Spell: ast.Spell{Fixed: minutes(1), Every: &every}}, a.every.From, a.every.To)
		case a.now && a.kind == Leave:
			every := quantity.Span{Low: shortest, High: shortest}
			add(&ast.Timed{Lead: lead("work"), Spell: ast.Spell{Fixed: minutes(1), Every: &every}}, a.from, a.to)
		}
	}
	for _, k := range []Kind{Work, Watch, Leave} {
		if c, ok := s.spell(k, given); ok {
			out = append(out, c)
		}
	}
	return out
}

func minutes(n int) *quantity.Span {
	d := time.Duration(n) * time.Minute
	return &quantity.Span{Low: d, High: d}
}

// heat is the clause of the stage's fire; nil: it has none.
func (s *stage) heat() (c ast.Clause, from, to int) {
	switch s.device() {
	case Ring, Grill:
		word, level := "ring", s.level()
		count := 1
		if s.device() == Grill {
			word, count = "grill", 0
		}
		for _, a := range s.acts {
			if a.device == s.device() {
				return &ast.Ring{Lead: ast.Lead{Word: word, Offered: true}, Count: count, Level: level}, a.from, a.to
			}
		}
	case Oven:
		var phases []ast.HeatPhase
		var held []quantity.Span
		var first *act
		for _, a := range s.acts {
			if a.device != Oven || a.oven == nil {
				continue
			}
			if first == nil {
				first = a
			}
			h := a.oven.Heat
			p := ast.HeatPhase{Fan: h.Fan, Gas: h.Gas, Word: h.Word}
			if h.Gas == "" && h.Word == "" {
				t := h.Temp
				p.Temp = &t
			}
			sum := quantity.Span{}
			for _, t := range a.times {
				sum = plus(sum, t.Span)
			}
			if n := len(phases); n > 0 && samePhase(phases[n-1], p) {
				held[n-1] = plus(held[n-1], sum)
				continue
			}
			phases, held = append(phases, p), append(held, sum)
		}
		if first == nil {
			return nil, 0, 0
		}
		for i := range phases[:len(phases)-1] {
			d := quantity.Span{Low: held[i].High, High: held[i].High}
			phases[i].For = &d
			if d.High == 0 { // nobody says when it is turned: the last holds
				return &ast.Heat{Lead: ast.Lead{Word: "oven", Offered: true}, Phases: phases[len(phases)-1:]}, first.oven.From, first.oven.To
			}
		}
		shelf := ""
		if len(phases) == 1 {
			shelf = first.shelf
		}
		return &ast.Heat{Lead: ast.Lead{Word: "oven", Offered: true}, Phases: phases, Shelf: shelf}, first.from, first.to
	}
	return nil, 0, 0
}

func samePhase(a, b ast.HeatPhase) bool {
	if a.Gas != b.Gas || a.Word != b.Word || a.Fan != b.Fan {
		return false
	}
	return a.Temp == nil || b.Temp != nil && *a.Temp == *b.Temp
}

// plus adds two lengths of time.
func plus(a, b quantity.Span) quantity.Span {
	if a == (quantity.Span{}) {
		return b
	}
	out := quantity.Span{Low: a.Low + b.Low, High: a.High + b.High, About: a.About || b.About, AtLeast: a.AtLeast || b.AtLeast}
	if a.UpTo > 0 || b.UpTo > 0 {
		out.UpTo = max(a.UpTo, a.High) + max(b.UpTo, b.High)
	}
	if out.Low != out.High {
		out.About = false
	}
	return out
}

// spell is the clause for one kind of time in a stage.
func (s *stage) spell(kind Kind, given Given) (c Clause, ok bool) {
	var sum quantity.Span
	var per *Time
	word, place, until := "", "", ""
	loads := false
	from, to := -1, 0
	for _, a := range s.acts {
		if a.kind != kind || !a.timed() && !a.watched() {
			continue
		}
		if from < 0 {
			from = a.from
		}
		to = max(to, a.to)
		for _, t := range a.times {
			if t.Role == Per {
				per = t
				continue
			}
			sum = plus(sum, t.Span)
		}
		if a.watched() {
			sum = plus(sum, quantity.Span{Low: sayGuess, High: sayGuess, About: true})
			until = a.until
		}
		if word == "" {
			word = a.verb.word
		}
		if place == "" {
			place = a.place
		}
		loads = loads || a.batched
	}
	if from < 0 {
		return c, false
	}
	c.From, c.To = from, to
	lead := func(word string) ast.Lead { return ast.Lead{Word: word, Offered: true} }
	if kind == Leave && s.device() == NoDevice && !given.Place && per == nil {
		switch {
		case word == "thaw" && place != "":
			c.Clause = &ast.Stay{Lead: lead("thaw"), Keep: ast.Keep{Time: sum, Place: place}}
			return c, true
		case place != "":
			c.Clause = &ast.Stay{Lead: lead("stand"), Keep: ast.Keep{Time: sum, Place: place}}
			return c, true
		case word == "rest" && !sum.Overnight && sum.UpTo == 0:
			c.Clause = &ast.Timed{Lead: lead("rest"), Spell: ast.Spell{Fixed: &sum}}
			return c, true
		}
	}
	if sum.UpTo > 0 { // only `stand` has a permission
		sum = quantity.Span{Low: sum.Low, High: sum.UpTo}
	}
	sp := ast.Spell{Fixed: &sum}
	switch {
	case per != nil:
		length := per.Span
		sp.Per, sp.Each = &length, ast.Each{Measure: per.Per}
		if sum == (quantity.Span{}) {
			sp.Fixed = nil
		}
		c.Weighed = true
	case loads && kind != Leave:
		length := sum
		sp.Fixed, sp.Per, sp.Each = nil, &length, ast.Each{Load: true}
	case until != "" && kind == Watch && onlyWatched(s, kind):
		sp.Until = ast.Text{Text: until}
	}
	name := map[Kind]string{Work: "work", Watch: "watch", Leave: "leave"}[kind]
	c.Clause = &ast.Timed{Lead: lead(name), Spell: sp}
	return c, true
}

func onlyWatched(s *stage, kind Kind) bool {
	n := 0
	for _, a := range s.acts {
		if a.kind == kind && (a.timed() || a.watched()) {
			n++
			if a.timed() {
				return false
			}
		}
	}
	return n == 1
}
