package larder

import (
	"slices"
	"strconv"
	"strings"

	"tamis/lang/quantity"
)

func (l *loader) source(r row) {
	key := r.must("key")
	if l.t.sources[key] != nil {
		r.fail("source %q stands twice", key)
	}
	l.t.sources[key] = &Source{Key: key, Title: r.must("title")}
}

func (l *loader) word(r row) {
	w := r.must("word")
	switch r.must("list") {
	case "part":
		l.t.parts = append(l.t.parts, w)
	case "scrap":
		l.t.scraps = append(l.t.scraps, w)
	case "verb":
		l.t.verbs = append(l.t.verbs, w)
	case "state":
		l.t.states[Fold(w)] = true
	case "plain":
		l.t.plain[Fold(w)] = true
	case "leave":
		l.t.leave[Fold(w)] = true
	case "change":
		l.t.change[Fold(w)] = true
	case "quiet":
		l.t.quiet[Fold(w)] = true
	case "spelling":
		other, ours, ok := strings.Cut(w, " ")
		if !ok {
			r.fail("a spelling is two words: the other, and that of the tables")
			return
		}
		l.t.spellings[other] = ours
	default:
		r.fail("list must be part, scrap, verb, state, plain, leave, change, quiet or spelling")
	}
}

func (l *loader) flag(r row) {
	f := &FlagInfo{Flag: Flag(r.must("flag")), Group: r.must("group"), Meaning: r.must("meaning"), Source: r.source()}
	for _, name := range r.list("implies") {
		implied := l.t.flags[Flag(name)]
		if implied == nil {
			r.fail("flag %q must stand above", name)
			return
		}
		f.Implies = append(append(f.Implies, implied.Flag), implied.Implies...)
	}
	if l.t.flags[f.Flag] != nil {
		r.fail("flag %q stands twice", f.Flag)
	}
	l.t.flags[f.Flag] = f
	l.t.flagList = append(l.t.flagList, f)
}

func (l *loader) group(r row) {
	for _, practice := range r.list("practice") {
		g := &Group{Practice: practice, Name: r.must("name"), Note: r.text("note"), Law: fact(r, "")}
		g.Law.Value = g.Law.From()
		g.Number, _ = strconv.Atoi(r.must("number"))
		if g.Number != len(l.t.groups[practice])+1 {
			r.fail("the groups of %s must be numbered from 1", practice)
		}
		l.t.groups[practice] = append(l.t.groups[practice], g)
	}
}

func (l *loader) substance(r row) {
	s := &substance{name: r.must("name"), abroad: r.text("outside Europe"), groups: map[string]*Group{}}
	for column, practices := range map[string][]string{"EU/UK": {"EU", "UK"}, "US": {"US"}, "CA": {"CA"}, "AU": {"AU"}} {
		name := r.text(column)
		if name == "" {
			continue
		}
		for _, p := range practices {
			i := slices.IndexFunc(l.t.groups[p], func(g *Group) bool { return g.Name == name })
			if i < 0 {
				r.fail("%s has no group %q", p, name)
				return
			}
			s.groups[p] = l.t.groups[p][i]
		}
	}
	for _, name := range append([]string{s.name}, r.list("other")...) {
		if l.t.substances[Fold(name)] != nil {
			r.fail("%q names two substances", name)
		}
		l.t.substances[Fold(name)] = s
	}
}

func (l *loader) item(counter string, r row) {
	it := &Item{
		Name: r.must("name"), Plural: r.text("plural"), Other: r.list("other"),
		Cupboard: r.yes("cupboard", "cupboard"), Source: r.source(),
	}
	switch {
	case counter == "tap":
		it.Water = true
	case slices.Contains(l.t.counters, counter):
		it.Counter = counter
	default:
		r.fail("%q is not in counters.csv", counter)
	}
	switch it.Plural {
	case "":
		it.Plural = PluralName(it.Name)
	case "=":
		it.Plural = it.Name
	}
	for _, name := range r.list("flags") {
		f := l.t.flags[Flag(name)]
		if f == nil {
			r.fail("%q is not in flags.csv", name)
			return
		}
		it.Flags = append(append(it.Flags, f.Flag), f.Implies...)
	}
	slices.Sort(it.Flags)
	it.Flags = slices.Compact(it.Flags)
	if r.must("contains") != "none" {
		for _, c := range r.list("contains") {
			it.Contains = append(it.Contains, r.content(c))
		}
	}
	it.Evidence.Source = l.t.sources[r.must("allergens from")]
	if it.Evidence.Source == nil {
		r.fail("%q is not in sources.csv", r.text("allergens from"))
	}
	switch r.must("verified") {
	case "seen in source":
	case "from memory":
		it.Evidence.FromMemory = true
	default:
		r.fail("verified must be %q or %q", "seen in source", "from memory")
	}
	if r.yes("in sentences", "quiet") {
		for _, name := range append([]string{it.Name, it.Plural}, it.Other...) {
			l.t.quiet[Fold(name)] = true
		}
	}
	l.t.items = append(l.t.items, it)
	l.named[it.Name] = it
	l.index(r, it, it.Name)
	if r.text("plural") != "" && it.Plural != it.Name {
		l.plurals = append(l.plurals, func() { l.indexPlural(r, it, it.Plural) }) // when every singular is known
	}
	for _, name := range it.Other {
		l.index(r, it, name)
	}
}

// content reads "wheat", "fish (cod)" or "celery?".
func (r row) content(text string) Content {
	var c Content
	text, c.Depends = strings.CutSuffix(text, "?")
	name, species, _ := strings.Cut(text, " (")
	c.Species = strings.TrimSuffix(species, ")")
	s := r.l.t.substances[Fold(name)]
	if s == nil || s.name != name { // the list's own name, so that files read alike
		r.fail("%q is not in substances.csv", name)
	}
	c.Substance = name
	return c
}

// index enters a name; two lines may not claim the same one.
func (l *loader) index(r row, it *Item, name string) {
	key := Fold(name)
	if old := l.t.byFold[key]; old != nil {
		r.fail("%q already means %s", name, old.Name)
	}
	l.t.byFold[key] = it
	if words := strings.Fields(name); len(words) > 2 && nounOf(words) < len(words)-1 {
		l.indexPlural(r, it, PluralName(name)) // legs of lamb, which Fold does not level
	}
}

// indexPlural enters a plural that Fold may or may not level. Where the singular
// means something else, the plural alone means this: peppers are no pepper.
func (l *loader) indexPlural(r row, it *Item, plural string) {
	key := Fold(plural)
	if old := l.t.byFold[key]; old != nil && old != it {
		if many := level(plural); many != key && l.t.several[many] == nil {
			l.t.several[many] = it
			return
		}
		r.fail("%q already means %s", plural, old.Name)
	}
	l.t.byFold[key] = it
}

// owner finds the ingredient that a fact is about, by its main name.
func (r row) owner() *Item {
	if it := r.l.named[r.must("name")]; it != nil {
		return it
	}
	r.fail("%q is not the main name of an ingredient", r.text("name"))
	return &Item{}
}

// measures are the sizes in millilitres that densities are given for. The US
// ones follow from the gallon of 231 cubic inches.
var measures = map[string]quantity.Number{
	"ml":       quantity.Int(1),
	"litre":    quantity.Int(1000),
	"US tsp":   quantity.Decimal("4.92892159375"),
	"US tbsp":  quantity.Decimal("14.78676478125"),
	"US fl oz": quantity.Decimal("29.5735295625"),
	"US cup":   quantity.Decimal("236.5882365"),
}

func (l *loader) density(r row) {
	it := r.owner()
	d := Density{Form: r.text("form"), Usual: r.yes("usual", "usual"), Grams: r.number(r.must("grams")), Measure: r.must("measure")}
	count, unit := quantity.Int(1), d.Measure
	if n, rest, ok := strings.Cut(d.Measure, " "); ok && n != "" && n[0] <= '9' {
		count, unit = r.number(n), rest
	}
	ml, ok := measures[unit]
	if !ok {
		r.fail("%q is not a measure", d.Measure)
		return
	}
	d.GPerML = fact(r, d.Grams.Div(count.Mul(ml)))
	for _, other := range it.Densities {
		r.apart(other.Form == d.Form, other.Usual && d.Usual)
	}
	it.Densities = append(it.Densities, d)
}

func (l *loader) piece(r row) {
	it := r.owner()
	p := Piece{Part: r.text("part"), Size: r.text("size"), Practice: r.text("practice"), Usual: r.yes("usual", "usual")}
	switch r.must("basis") {
	case "bought":
		p.Bought = true
	case "trimmed":
	default:
		r.fail("basis must be trimmed or bought")
	}
	low, high, _ := strings.Cut(r.must("grams"), " to ")
	p.Range = quantity.Exactly(r.number(low))
	if high != "" {
		p.Range.High = r.number(high)
	}
	for _, o := range it.Pieces {
		r.apart(o.Part == p.Part && o.Practice == p.Practice && o.Size == p.Size,
			o.Part == p.Part && o.Practice == p.Practice && o.Usual && p.Usual)
	}
	middle := p.Range.Low
	if p.Range.IsRange() {
		middle = middle.Add(p.Range.High).Div(quantity.Int(2))
	}
	p.Grams = fact(r, middle)
	it.Pieces = append(it.Pieces, p)
}

func (l *loader) yield(r row) {
	it := r.owner()
	y := Yield{State: r.text("state"), Practice: Practice(r.text("practice")), Usual: r.yes("usual", "usual"), Percent: fact(r, r.number(r.must("percent")))}
	if quantity.Int(100).Less(y.Percent.Value) {
		r.fail("a yield is above 0 and at most 100")
	}
	for _, other := range it.Yields {
		r.apart(other.State == y.State && other.Practice == y.Practice, other.Practice == y.Practice && other.Usual && y.Usual)
	}
	it.Yields = append(it.Yields, y)
}

// apart says that two facts about one ingredient would be mistaken for each other.
func (r row) apart(same, usual bool) {
	if same {
		r.fail("the fact stands twice for %s", r.text("name"))
	}
	if usual {
		r.fail("two lines are marked usual for %s", r.text("name"))
	}
}

func (l *loader) packs(r row) {
	it := r.owner()
	for _, region := range []string{"UK", "US"} {
		for _, text := range r.list(strings.ToLower(region)) {
			words := strings.SplitN(text, " ", 3)
			p := Pack{Region: region, Source: r.source()}
			switch {
			case len(words) < 2:
				r.fail("%q is not a pack", text)
				return
			case len(words) == 3:
				p.Container = words[2]
			}
			p.Amount, p.Unit = r.number(words[0]), words[1]
			switch p.Unit {
			case "g", "ml", "each":
			case "kg", "litre":
				p.Amount = p.Amount.Mul(quantity.Int(1000))
				p.Unit = map[string]string{"kg": "g", "litre": "ml"}[p.Unit]
			default:
				r.fail("%q: a pack is in g, kg, ml, litre or each", text)
			}
			it.Packs = append(it.Packs, p)
		}
	}
}

func (l *loader) gives(r row) {
	it := r.owner()
	g := Given{Per: r.text("per"), Name: r.must("gives"), Unit: r.must("unit"), Amount: fact(r, r.number(r.must("amount")))}
	own := strings.HasPrefix(g.Name, it.Name+" ") && slices.Contains(l.t.parts, strings.TrimPrefix(g.Name, it.Name+" ")) // lemon zest
	if of, ok := l.t.Find(g.Name); !own && (!ok || of.Name != g.Name) {
		r.fail("%q is not the main name of an ingredient", g.Name)
	}
	if !slices.Contains([]string{"each", "g", "ml"}, g.Unit) && !slices.Contains(l.t.parts, g.Unit) {
		r.fail("unit must be each, g, ml or a part word")
	}
	it.Gives = append(it.Gives, g)
}

// class enters a word for several things at once. Meat, fish and shellfish go
// by their flags.
func (l *loader) class(r row) {
	class := r.must("class")
	r.source()
	for _, name := range r.list("names") {
		if it := l.named[name]; it != nil {
			it.Classes = append(it.Classes, class)
		} else {
			r.fail("%q is not the main name of an ingredient", name)
		}
	}
}

// keeping enters how long things keep as they are bought; a later row holds against
// an earlier one.
func (l *loader) keeping(r row) {
	n := r.number(r.must("days"))
	if !n.IsInt() {
		r.fail("days must be whole")
	}
	days, _ := n.Int64()
	keeps := fact(r, int(days))
	what := r.must("what")
	for _, name := range r.list("names") {
		var are []*Item
		switch what {
		case "counter":
			are = l.those(func(it *Item) bool { return it.Counter == name })
		case "flag":
			are = l.those(func(it *Item) bool { return slices.Contains(it.Flags, Flag(name)) })
		case "class":
			are = l.those(func(it *Item) bool { return slices.Contains(it.Classes, name) })
		case "thing":
			if it := l.named[name]; it != nil {
				are = []*Item{it}
			}
		default:
			r.fail("what must be counter, flag, class or thing")
			return
		}
		if len(are) == 0 {
			r.fail("no ingredient is meant by %q", name)
		}
		for _, it := range are {
			it.Keeps = keeps
		}
	}
}

func (l *loader) those(are func(*Item) bool) (out []*Item) {
	for _, it := range l.t.items {
		if are(it) {
			out = append(out, it)
		}
	}
	return out
}

// In tells whether an ingredient is one of those that a word for several things
// means. "The meat" is none that was cooked before it was bought.
func (it *Item) In(class string) bool {
	switch class {
	case "meat":
		return it.Counter == "butcher" && slices.Contains(it.Flags, Meat)
	case "fish":
		return it.Counter == "fishmonger" && slices.Contains(it.Flags, Fish)
	case "shellfish":
		return it.Counter == "fishmonger" && slices.Contains(it.Flags, Shellfish)
	}
	return slices.Contains(it.Classes, class)
}
