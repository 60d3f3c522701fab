package spec

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark/ast"

	"tamis/compiler/larder"
	"tamis/lang/parse"
	"tamis/lang/quantity"
)

// namesAndAmounts are rules that begin with what a writer chooses.
var namesAndAmounts = map[string]bool{"Amount": true, "Name": true, "Ref": true, "Title": true, "Line": true, "Size": true, "Int": true}

// openersOf lists, for each place of a file, the rules whose first words the
// parser's table must hold for that place.
var openersOf = map[parse.Place][]string{
	parse.AtBlock:   {"File"},
	parse.InMenu:    {"MenuLine"},
	parse.OnServing: {"ServingPart"},
	parse.OnPin:     {"StepLine"},
	parse.InRecipe:  {"RecipeLine"},
	parse.InGather:  {"GatherItem", "OrItem", "UnderLine"},
	parse.OnLine:    {"LineClause"},
	parse.InMethod:  {"MethodItem"},
	parse.OnStep:    {"StepClause"},
	parse.InKitchen: {"KitchenLine"},
	parse.InLarder:  {"Setting"},
	parse.OnFact:    {"Fact"},
	parse.InSeries:  {"SeriesLine"},
	parse.InPart:    {"PartLine"},
	parse.InBook:    {"BookLine"},
}

func TestGrammarHasTheParsersWords(t *testing.T) {
	g := pageGrammar(t)
	for place, rules := range openersOf {
		t.Run(place.String(), func(t *testing.T) {
			set := map[string]bool{}
			for _, r := range rules {
				require.Contains(t, g.rules, r)
				g.openers(g.rules[r], namesAndAmounts, set)
			}
			var want []string
			for _, w := range parse.WordsIn(place) {
				want = append(want, w.Text)
			}
			slices.Sort(want)
			require.Equal(t, want, slices.Sorted(maps.Keys(set)))
		})
	}
}

// quoted finds the literals in the text of participle's own grammars.
var quoted = regexp.MustCompile(`"([a-z][a-z -]*)"`)

// lexed are words of the grammar that the parser reads below its own grammars,
// as part of an amount, a time, a share or a name.
var lexed = []string{
	"Amount", "Measure", "Range", "Time", "TimeUnit", "Spell", "Stay", "Unit", "ShortUnit", "WordUnit", "Container",
	"Size", "Fill", "Times", "Plus", "NoStart", "Share", "Some", "Held", "Part", "Remains", "System", "Setting", "Moment", "GatherItem", "Line",
}

func TestGrammarHasTheParsersLiterals(t *testing.T) {
	g := pageGrammar(t)
	have := map[string]bool{}
	for _, name := range g.order {
		for _, w := range literals(g, name) {
			have[strings.ToLower(w)] = true
		}
	}
	theirs := map[string]bool{}
	for _, w := range parse.Words() {
		theirs[w.Text] = true
	}
	for _, m := range quoted.FindAllStringSubmatch(parse.Grammar(), -1) {
		theirs[m[1]] = true
	}
	for w := range theirs {
		require.True(t, have[w], "the parser knows %q, the page's grammar does not", w)
	}
	for _, name := range lexed {
		require.Contains(t, g.rules, name)
	}
	for _, name := range g.order {
		if slices.Contains(lexed, name) {
			continue
		}
		for _, w := range literals(g, name) {
			require.True(t, theirs[strings.ToLower(w)], "%s of the page's grammar has %q, the parser does not", name, w)
		}
	}
}

// literals are the words of some rules of the grammar.
func literals(g grammar, rules ...string) []string {
	var out []string
	for _, r := range rules {
		walk(g.rules[r], func(n *node) {
			if n.kind == literal && isWord(n.text) {
				out = append(out, n.text)
			}
		})
	}
	slices.Sort(out)
	return out
}

func TestGrammarHasTheUnits(t *testing.T) {
	g := pageGrammar(t)
	have := literals(g, "ShortUnit", "WordUnit", "Container")
	var want []string
	for _, u := range quantity.Units() {
		want = append(want, u.Name)
	}
	slices.Sort(want)
	require.Equal(t, want, have)

	var packs []string
	for _, u := range quantity.Units() {
		if u.Packs {
			packs = append(packs, u.Name)
		}
	}
	slices.Sort(packs)
	require.Equal(t, packs, literals(g, "Container"))
}

func TestGrammarHasTheUnitsOfTime(t *testing.T) {
	for _, w := range literals(pageGrammar(t), "TimeUnit") {
		v, n, problems := quantity.ReadSpan("2 "+w, quantity.Options{})
		require.Empty(t, problems, w)
		require.Equal(t, len("2 "+w), n, w)
		require.Positive(t, v.Low, w)
	}
}

func TestUnitSizes(t *testing.T) {
	d := readPage(t)
	systems := []quantity.System{quantity.Metric, quantity.US, quantity.Imperial, quantity.AU}
	seen := map[string]bool{}
	for _, tab := range d.tables() {
		if tab.head[0] != "Unit" {
			continue
		}
		for i, s := range systems {
			require.Equal(t, string(s), tab.head[i+1])
		}
		for _, row := range tab.rows {
			u, ok := quantity.UnitNamed(d.plain(row[0]))
			require.True(t, ok, d.plain(row[0]))
			seen[u.Name] = true
			for i, s := range systems {
				size, ok := u.Base(s)
				if cell := d.plain(row[i+1]); cell == "—" {
					require.False(t, ok, "%s %s", u.Name, s)
				} else {
					require.True(t, ok, "%s %s", u.Name, s)
					require.True(t, quantity.Decimal(cell).Equal(size), "%s %s: the page says %s", u.Name, s, cell)
				}
			}
		}
	}
	for _, u := range quantity.Units() {
		require.Equal(t, u.Regional, seen[u.Name], "%s: the table of sizes holds the units that depend on the system", u.Name)
	}
}

func TestGasMarks(t *testing.T) {
	d := readPage(t)
	marks := quantity.GasMarks()
	for _, tab := range d.tables() {
		if tab.head[0] != "Gas mark" {
			continue
		}
		require.Len(t, tab.rows, len(marks))
		for i, row := range tab.rows {
			m := marks[i]
			var cells []string
			for _, c := range row {
				cells = append(cells, d.plain(c))
			}
			require.Equal(t, m.Name, cells[0])
			for k, v := range []int{m.Customary, m.Fahrenheit, m.Fan} {
				require.True(t, quantity.Decimal(cells[k+1]).Equal(quantity.Int(int64(v))), "gas mark %s", m.Name)
			}
		}
		return
	}
	t.Fatal("no table of gas marks")
}

// wordCount finds what the page says of the number of words.
var wordCount = regexp.MustCompile(`The notation has (\d+) words: (\d+) that begin a line or a clause, and (\d+)`)

func TestNumberOfWords(t *testing.T) {
	begin, all := map[string]bool{}, map[string]bool{}
	for _, w := range parse.Words() {
		begin[w.Text], all[w.Text] = true, true
	}
	for _, w := range parse.Joining() {
		all[w] = true
	}
	m := wordCount.FindSubmatch(readPage(t).text)
	require.NotNil(t, m, "the page does not say how many words there are")
	require.Equal(t, []string{fmt.Sprint(len(all)), fmt.Sprint(len(begin)), fmt.Sprint(len(all) - len(begin))}, []string{string(m[1]), string(m[2]), string(m[3])})
}

// TestWhatIsReadForWords holds the table of what is read and tidied against the parser's.
func TestWhatIsReadForWords(t *testing.T) {
	d := readPage(t)
	var have []string
	for _, tab := range d.tables() {
		if tab.head[0] != "Read" {
			continue
		}
		for _, row := range tab.rows {
			have = append(have, d.plain(row[0]))
		}
	}
	list := ", " + strings.Join(have, ", ") + ", "
	for _, r := range parse.ReadFor() {
		require.Contains(t, list, ", "+r[0]+", ", "no row of \"Read\" shows it")
	}
}

// TestFreePlaces holds the table of words that cannot begin a name against the
// parser's.
func TestFreePlaces(t *testing.T) {
	d := readPage(t)
	places := map[string]parse.Place{"gather": parse.InGather, "method": parse.InMethod, "larder": parse.InLarder, "course": parse.InCourse}
	for _, tab := range d.tables() {
		if tab.head[0] != "free place" {
			continue
		}
		for _, row := range tab.rows {
			name, _, _ := d.cellCode(row[0])
			place, ok := places[name]
			if !ok {
				continue
			}
			var want []string
			for _, w := range parse.WordsIn(place) {
				want = append(want, w.Text)
			}
			var have []string
			for _, w := range strings.Split(d.plain(row[1]), ", ") {
				if isWord(w) && w != "none" {
					have = append(have, w)
				}
			}
			slices.Sort(want)
			slices.Sort(have)
			require.Equal(t, strings.Join(want, " "), strings.Join(have, " "), name)
		}
		return
	}
	t.Fatal("no table of free places")
}

// TestClosedLists holds the lists of part words and verbs against the larder's.
func TestClosedLists(t *testing.T) {
	d := readPage(t)
	for n := d.root.FirstChild(); n != nil; n = n.NextSibling() {
		p, ok := n.(*ast.Paragraph)
		if !ok {
			continue
		}
		head, list, _ := strings.Cut(strings.Join(strings.Fields(string(p.Lines().Value(d.text))), " "), ": ")
		var want []string
		switch {
		case strings.HasPrefix(head, "*Part words*"):
			want = larder.Parts()
		case strings.HasPrefix(head, "*Verbs*"):
			want = larder.Verbs()
		default:
			continue
		}
		want = slices.Sorted(slices.Values(want))
		require.Equal(t, strings.Join(want, ", ")+".", list)
	}
}

// TestTablesAreInOrder holds the order of the tables, in which the formatter
// puts fields and clauses, against the parser's.
func TestTablesAreInOrder(t *testing.T) {
	d := readPage(t)
	places := map[string]parse.Place{
		"Menu field": parse.InMenu, "Dish field": parse.InRecipe, "Kitchen field": parse.InKitchen, "List clause": parse.OnLine,
		"Step clause": parse.OnStep, "Larder fact": parse.OnFact,
	}
	covered := map[parse.Place]map[string]bool{}
	for _, tab := range d.tables() {
		place, ok := places[tab.head[0]]
		if !ok {
			continue
		}
		last := -1
		for _, row := range tab.rows {
			text, start, _ := d.cellCode(row[len(row)-1])
			if strings.HasSuffix(text, " ?") { // how any clause is offered: at the end
				continue
			}
			word, _ := parse.LookUp(place, strings.TrimLeft(text, "0123456789 "))
			require.NotNil(t, word, "line %d: %s", d.line(start), text)
			at := parse.Order(place, word.Text)
			require.GreaterOrEqual(t, at, last, "line %d: %s stands too late", d.line(start), text)
			last = at
			if covered[place] == nil {
				covered[place] = map[string]bool{}
			}
			covered[place][word.Text] = true
		}
	}
	require.Len(t, covered, len(places))
	common := covered[parse.InRecipe]
	elsewhere := map[string]bool{ // told in a row of several, or in a section of their own
		"course": true, "about": true, "gather": true, "method": true, "rings": true, "watch": true, "leave": true, "freezer": true, "room": true,
		"cool place": true, "warm place": true, "replace step": true, "before step": true, "after step": true,
	}
	for name, place := range places {
		for _, w := range parse.WordsIn(place) {
			require.True(t, covered[place][w.Text] || elsewhere[w.Text] || common[w.Text], "no row of %q shows %q", name, w.Text)
		}
	}
}
