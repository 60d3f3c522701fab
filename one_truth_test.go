package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/lang/quantity"
)

// Every sheet says the same of one use of one thing. Read from the pages alone,
// whatever worked them out: a row of the mise-en-place or shopping list names
// dishes and amounts, and the prep sheet of the dish prints that amount beside
// that thing; the amounts of a row come to its sum; what a base makes covers
// what is drawn, and less that it is what is left; at the written size the list
// is what was written.

// truths are what was compared, and what did not agree.
type truths struct {
	compared map[string]int
	wrong    map[string][]string
}

func newTruths() *truths { return &truths{map[string]int{}, map[string][]string{}} }

func (c *truths) say(kind string, ok bool, format string, args ...any) {
	c.compared[kind]++
	if !ok {
		c.wrong[kind] = append(c.wrong[kind], fmt.Sprintf(format, args...))
	}
}

// The kinds of comparison.
const (
	samePart  = "the same use"
	sameTotal = "parts to total"
	covered   = "made covers drawn"
	asWritten = "as written"
	inSteps   = "parts of a line"
)

var truthKinds = []string{samePart, sameTotal, covered, inSteps, asWritten}

func TestOneTruth(t *testing.T) {
	books := map[string]fs.FS{}
	for _, pattern := range []string{"examples/*/*.tamis", "testdata/texts/*/*.tamis"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, f := range files {
			books[filepath.ToSlash(filepath.Dir(f))] = os.DirFS(filepath.Dir(f))
		}
	}
	for seed := range effort.Rounds[uint64](6, 40) {
		books[fmt.Sprintf("by chance, %02d", seed)] = menuByChance(seed + 100)
	}
	for seed := range effort.Rounds[uint64](8, 80) {
		books[fmt.Sprintf("of figures, %03d", seed)] = menuOfFigures(seed)
	}
	var names []string
	for name := range books {
		names = append(names, name)
	}
	slices.Sort(names)
	all := newTruths()
	for b, name := range names {
		c := newTruths()
		tree, err := load.FS(books[name], ".", "", "")
		require.NoError(t, err)
		for u, units := range []quantity.System{quantity.NoSystem, quantity.Metric, quantity.US, quantity.Imperial} {
			sizes := []int{0, 7, 30}
			switch {
			case effort.Long():
				sizes = append(sizes, 1, 19, 64, 250)
			case u == 0:
				sizes = []int{0, sizes[1+b%2]} // as written, and one other
			default:
				sizes = []int{sizes[(b+u)%3]} // of other units one size a book, each in its turn
			}
			for _, n := range sizes {
				opt := compiler.Options{
					Demand: demand.Options{Covers: n}, Units: units, NoPlan: true,
					Sheets: []sheets.Kind{sheets.Overview, sheets.Prep, sheets.Mise, sheets.Shopping},
				}
				r := compiled(tree, opt)
				opt.Sheets = []sheets.Kind{sheets.Prep} // without a mise-en-place list a list stands on each prep sheet
				listed := compiled(tree, opt).Documents
				for i, doc := range r.Documents {
					var meals []*demand.Meal
					if len(r.Documents) == len(r.Meals) {
						meals = r.Meals[i : i+1]
					} else {
						meals = r.Meals
					}
					c.document(fmt.Sprintf("%s, covers %d, units %q", name, n, units), doc, listed[i], meals, units, n)
				}
			}
		}
		var line []string
		for _, k := range truthKinds {
			if c.compared[k] > 0 {
				line = append(line, fmt.Sprintf("%s %d of %d", k, len(c.wrong[k]), c.compared[k]))
			}
			all.compared[k] += c.compared[k]
			all.wrong[k] = append(all.wrong[k], c.wrong[k]...)
		}
		t.Logf("%-36s %s", name, strings.Join(line, " · "))
	}
	for _, k := range truthKinds {
		t.Logf("%s: %d of %d do not agree", k, len(all.wrong[k]), all.compared[k])
		require.NotZero(t, all.compared[k], "nothing was compared: %s", k)
		for i, w := range all.wrong[k] {
			if i == 12 {
				break
			}
			t.Errorf("%s: %s", k, w)
		}
	}
}

// document compares the sheets of one document.
func (c *truths) document(where string, doc, listed *sheets.Document, meals []*demand.Meal, units quantity.System, covers int) {
	of := func(m *demand.Making) quantity.System {
		if units != quantity.NoSystem {
			return units
		}
		return m.Recipe.System
	}
	system := map[string]quantity.System{} // by letter
	prep := map[string][]gatheredRow{}
	for _, s := range doc.Sheets {
		if s.Kind == sheets.Prep {
			prep[s.Letter] = gatheredOn(&s)
		}
	}
	if len(meals) == 1 {
		for _, m := range meals[0].Makings {
			system[m.Letter] = of(m)
		}
	}
	for _, s := range doc.Sheets {
		if len(meals) != 1 || s.Kind != sheets.Mise && s.Kind != sheets.Shopping {
			continue
		}
		for _, r := range tableRows(&s) {
			c.row(where+", "+string(s.Kind), r, prep, system, s.Kind == sheets.Mise)
		}
	}
	c.supplies(where, doc, meals, of)
	for _, meal := range meals {
		for _, m := range meal.Makings {
			if len(meals) > 1 && m != meal.Makings[len(meal.Makings)-1] {
				continue
			}
			c.making(where, m, listed, doc, of(m), units, covers)
		}
	}
}

// gatheredRow is a row of a list of what is gathered.
type gatheredRow struct{ amount, thing, note string }

// trueOne is what is said beside a whole thing that stands for a part of one.
var trueOne = regexp.MustCompile(`(?:^| · )((?:use|or) [0-9½⅓⅔¼¾⅛][^·]*)`)

func trueNote(text string) string {
	if m := trueOne.FindStringSubmatch(text); m != nil {
		return strings.TrimSpace(m[1])
	}
	return ""
}

// inAll is how a step that takes a part of a line says what the whole is.
var inAll = regexp.MustCompile(`(?:^| · )([^·]+) in all`)

// second is the second measure of a pair, which a list that adds up leaves out.
var second = regexp.MustCompile(` \([^)]*\)$`)

// gatheredOn is what a prep sheet gathers: on its list, and, in a pack, beside the
// first step that takes it.
func gatheredOn(s *sheets.Sheet) []gatheredRow {
	out := listOn(s)
	for _, b := range s.Blocks {
		steps, ok := b.(*sheets.Steps)
		if !ok {
			continue
		}
		for _, it := range steps.Items {
			st, ok := it.(*sheets.Step)
			if !ok {
				continue
			}
			for _, tk := range st.Takes {
				amount := tk.Amount
				if m := inAll.FindStringSubmatch(tk.Note); m != nil {
					amount = m[1]
				}
				out = append(out, gatheredRow{amount, tk.Name, trueNote(tk.Note)})
			}
		}
	}
	return out
}

// listOn is the list of a prep sheet.
func listOn(s *sheets.Sheet) (out []gatheredRow) {
	for _, b := range s.Blocks {
		t, ok := b.(*sheets.Table)
		if !ok {
			continue
		}
		for _, g := range t.Groups {
			for _, r := range g.Rows {
				if len(r.Cells) == 3 && len(r.Cells[2].Runs) > 0 {
					out = append(out, gatheredRow{sheets.Words(r.Cells[1].Runs), r.Cells[2].Runs[0].Text, trueNote(sheets.Words(r.Cells[2].Sub))})
				}
			}
		}
		return out // the first table is the list
	}
	return out
}

func tableRows(s *sheets.Sheet) (out []sheets.Row) {
	for _, b := range s.Blocks {
		if t, ok := b.(*sheets.Table); ok {
			for _, g := range t.Groups {
				out = append(out, g.Rows...)
			}
		}
	}
	return out
}

// row compares a row of a list that adds up several dishes with their prep sheets.
func (c *truths) row(where string, r sheets.Row, prep map[string][]gatheredRow, system map[string]quantity.System, adds bool) {
	if len(r.Cells) < 4 || len(r.Cells[2].Runs) == 0 {
		return
	}
	amount, thing := sheets.Words(r.Cells[1].Runs), r.Cells[2].Runs[0].Text
	type part struct{ letter, amount string }
	var parts []part
	for _, run := range r.Cells[3].Runs {
		text := strings.TrimLeft(run.Text, "\u00a0· ")
		switch {
		case run.Style == sheets.Strong && strings.ToUpper(text) == text && !strings.ContainsAny(text, "0123456789"):
			parts = append(parts, part{letter: text})
		case run.Style == sheets.Plain && text != "" && len(parts) > 0:
			parts[len(parts)-1].amount = text
		}
	}
	if len(parts) == 0 {
		return
	}
	if len(parts) == 1 && adds {
		parts[0].amount = amount
	}
	sum, first := amounts{}, system[parts[0].letter]
	for _, p := range parts {
		if p.amount == "" {
			continue
		}
		var same, notes []string
		for _, g := range prep[p.letter] {
			if larder.Fold(g.thing) == larder.Fold(thing) || !adds {
				first := strings.TrimSpace(second.ReplaceAllString(g.amount, ""))
				same = append(same, g.amount, first)
				if g.amount == p.amount || first == p.amount {
					notes = append(notes, g.note)
				}
			}
		}
		if note := trueNote(sheets.Words(r.Cells[2].Sub)); adds && len(parts) == 1 {
			c.say(samePart, slices.Contains(notes, note), "%s: %s for %s says %q, the prep sheet %q", where, thing, p.letter, note, notes)
		}
		c.say(samePart, slices.Contains(same, p.amount), "%s: %s for %s is %q, on the prep sheet %q", where, thing, p.letter, p.amount, same)
		sum.add(p.amount, system[p.letter])
	}
	if adds && amount != "" {
		total := amounts{}
		total.add(amount, first)
		if len(parts) > 1 { // a pinch more or less is no part of a sum
			delete(sum, "little")
			delete(total, "little")
		}
		c.say(sameTotal, total.near(sum, len(parts) == 1) || household(amount) && total.covers(sum), "%s: %s in all %q, its parts %v", where, thing, amount, parts)
	}
}

// little is what is said of an amount that nothing measures.
var little = regexp.MustCompile(`^(a little|1 (small )?pinch|[1-9] drops?)$`)

// amounts are sums of printed amounts, by what they measure.
type amounts map[string]quantity.Number

// add reads what is printed: "1 lb 2 oz", "1½ cups + 2 tbsp", "600 g + 2".
func (a amounts) add(text string, system quantity.System) {
	text = strings.NewReplacer("×", "x", "–", "-", "\u00a0", " ").Replace(text)
	if kinds := strings.Split(text, ", and "); len(kinds) > 1 {
		for _, k := range kinds {
			a.add(k, system)
		}
		return
	}
	if low, high, ok := strings.Cut(text, " to "); ok && strings.IndexFunc(low, unicode.IsLetter) >= 0 {
		text = high // 3 lb 3 oz to 3 lb 6 oz
	}
	for _, term := range strings.Split(text, " + ") {
		if little.MatchString(term) {
			a["little"] = quantity.Int(1)
			continue
		}
		am, n, problems := quantity.ReadAmount(term+" zest", quantity.Options{})
		if n == 0 || len(problems) > 0 {
			a["not read: "+term] = quantity.Int(1)
			return
		}
		q, p := am.Quantity(system, 0)
		if p != nil {
			a["not read: "+term] = quantity.Int(1)
			return
		}
		key := fmt.Sprint(q.Dim)
		if q.Unit != nil {
			key += q.Unit.Name
		}
		a[key] = a[key].Add(q.Value.High)
	}
}

// near tells whether two sums are one: to the hair where they are in one unit,
// else as near as two measures can say it.
func (a amounts) near(b amounts, exactly bool) bool {
	if len(a) != len(b) {
		return false
	}
	for key, x := range a {
		y, ok := b[key]
		if !ok {
			return false
		}
		off := x.Sub(y)
		if off.Sign() < 0 {
			off = y.Sub(x)
		}
		limit := quantity.Max(x, y).Mul(quantity.Frac(1, 500))
		if exactly {
			limit = quantity.Number{}
		}
		if limit.Less(off) {
			return false
		}
	}
	return true
}

// household tells whether an amount is in measures that come in steps: cups,
// spoons, ounces.
func household(text string) bool {
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		switch w {
		case "cup", "cups", "tsp", "tbsp", "oz", "lb", "pint", "pints", "quart", "quarts", "gallon", "gallons":
			return true
		}
	}
	return false
}

// covers tells whether a total in household measures is a step more than its
// parts, where two measures cannot say them to the hair: never less.
func (a amounts) covers(b amounts) bool {
	for key, x := range a {
		step := quantity.Max(b[key].Mul(quantity.Frac(2, 100)), quantity.Frac(15, 2)) // a quarter of a fluid ounce
		if x.Less(b[key]) || b[key].Add(step).Less(x) {
			return false
		}
	}
	return len(a) == len(b)
}

// supplies compares what is made, drawn and left over.
func (c *truths) supplies(where string, doc *sheets.Document, meals []*demand.Meal, of func(*demand.Making) quantity.System) {
	byThing := map[string]map[string]string{}
	var order []string
	for _, f := range doc.Figures {
		if f.Of != "made" && f.Of != "drawn" && f.Of != "left" {
			continue
		}
		key := f.Recipe + "/" + f.Thing
		if byThing[key] == nil {
			byThing[key] = map[string]string{}
			order = append(order, key)
		}
		byThing[key][f.Of] = f.Printed
	}
	for _, key := range order {
		var system quantity.System
		for _, meal := range meals {
			for _, m := range meal.Makings {
				if strings.HasPrefix(key, m.Recipe.Name+"/") {
					system = of(m)
				}
			}
		}
		f := byThing[key]
		if f["made"] == "" || f["drawn"] == "" {
			continue
		}
		made, drawn := amounts{}, amounts{}
		made.add(f["made"], system)
		drawn.add(f["drawn"], system)
		if l := f["left"]; l != "" && !strings.HasPrefix(l, "0") {
			drawn.add(l, system)
		}
		ok := len(made) == 1 && len(drawn) == 1
		for k := range made {
			ok = ok && !made[k].Less(drawn[k])
		}
		c.say(covered, ok, "%s: %s: %v", where, key, f)
	}
}

// making compares a prep sheet with what was written, and what the steps take
// of a line with the line.
func (c *truths) making(where string, m *demand.Making, listed, pack *sheets.Document, system, units quantity.System, covers int) {
	of := func(doc *sheets.Document) *sheets.Sheet {
		i := slices.IndexFunc(doc.Sheets, func(s sheets.Sheet) bool {
			return s.Kind == sheets.Prep && s.Title == m.Recipe.Name && (s.Letter == m.Letter || len(doc.Dishes) > 1)
		})
		if i < 0 {
			return nil
		}
		return &doc.Sheets[i]
	}
	s := of(listed)
	if s == nil {
		return
	}
	rows := listOn(s)
	if len(rows) != len(m.Lines) || len(m.Reading.Lines) == 0 {
		return
	}
	order := map[*demand.Amount]string{}
	bySub := slices.Clone(m.Lines)
	var subs []string
	nameOf := func(a *demand.Amount) string {
		if a.Line.Sub == nil {
			return ""
		}
		return a.Line.Sub.Name
	}
	for _, a := range m.Lines {
		if !slices.Contains(subs, nameOf(a)) {
			subs = append(subs, nameOf(a))
		}
	}
	slices.SortStableFunc(bySub, func(x, y *demand.Amount) int {
		return slices.Index(subs, nameOf(x)) - slices.Index(subs, nameOf(y))
	})
	for k, a := range bySub {
		order[a] = rows[k].amount
	}
	for _, a := range m.Lines {
		w := a.Line.Written
		if w == nil || a.Quantity == nil || a.Line.Quantity == nil || units != quantity.NoSystem || !a.Quantity.Equal(*a.Line.Quantity) ||
			w.Kind == quantity.Percent || w.Kind == quantity.PerHead {
			continue
		}
		want := w.Print(quantity.Style{Glyphs: true})
		c.say(asWritten, order[a] == want, "%s: %s of %s was written %q and is printed %q", where, a.Line.Name, m.Recipe.Name, want, order[a])
	}
	if p := of(pack); p != nil { // with a mise-en-place list the steps say all that they take
		s = p
	}
	c.steps(where, m, s, order, system, units)
}

// steps compares what the steps take of each line with the line, where all of
// it is taken and each part has a figure.
func (c *truths) steps(where string, m *demand.Making, s *sheets.Sheet, printed map[*demand.Amount]string, system, units quantity.System) {
	taken := map[string]amounts{}
	for _, b := range s.Blocks {
		if h, ok := b.(*sheets.Heading); ok && strings.HasPrefix(h.Text, "Or ") {
			break // a card says what is done with another option below
		}
		st, ok := b.(*sheets.Steps)
		if !ok {
			continue
		}
		for _, item := range st.Items {
			step, ok := item.(*sheets.Step)
			if !ok {
				continue
			}
			for _, tk := range step.Takes {
				if taken[tk.Name] == nil {
					taken[tk.Name] = amounts{}
				}
				if tk.Amount == "" || tk.Amount == "some" || little.MatchString(tk.Amount) {
					taken[tk.Name]["no figure"] = quantity.Int(1)
					continue
				}
				taken[tk.Name].add(second.ReplaceAllString(tk.Amount, ""), system)
			}
		}
	}
	share := map[*demand.Amount]quantity.Number{}
	unsaid := map[*demand.Amount]bool{}
	for _, sr := range m.Reading.Steps {
		for _, tk := range sr.Takes {
			if tk.Line == nil || tk.Refers {
				continue
			}
			a := m.Of(tk.Line)
			share[a] = share[a].Add(tk.Part)
			unsaid[a] = unsaid[a] || tk.Unmeasured
		}
	}
	names := map[string]int{}
	for _, a := range m.Lines {
		names[larder.Fold(a.Line.Name)]++
	}
	for _, a := range m.Lines {
		got := taken[nameOnStep(taken, a)]
		if a.Quantity == nil || unsaid[a] || !share[a].Equal(quantity.Int(1)) || got == nil || names[larder.Fold(a.Line.Name)] > 1 || printed[a] == "" {
			continue
		}
		if _, none := got["no figure"]; none || little.MatchString(printed[a]) {
			continue
		}
		all := amounts{}
		all.add(second.ReplaceAllString(printed[a], ""), system)
		if len(all) != 1 || len(got) != 1 { // spoons of what is weighed
			continue
		}
		if strings.Contains(printed[a], "×") && units != quantity.NoSystem { // tins by the label of another country
			continue
		}
		c.say(inSteps, all.near(got, false) || household(printed[a]) && (all.covers(got) || got.covers(all)), "%s: %s of %s: %s in the list, steps take %v", where, a.Line.Name, m.Recipe.Name, printed[a], got)
	}
}

// nameOnStep is the name under which steps print a line.
func nameOnStep(taken map[string]amounts, a *demand.Amount) string {
	name := a.Line.Name
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		name = name[i+1:]
	}
	if a.Line.Size != "" {
		name = a.Line.Size + " " + name
	}
	for n := range taken {
		if larder.Fold(n) == larder.Fold(name) {
			return n
		}
	}
	return ""
}
