package parse_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

func harvest(tb testing.TB) string {
	tb.Helper()
	b, err := os.ReadFile("testdata/harvest.tamis")
	require.NoError(tb, err)
	return string(b)
}

// tree reads a text that must have no findings.
func tree(t *testing.T, text string) *ast.File {
	t.Helper()
	var list diag.List
	f := parse.File(source.New("x.tamis", text), &list)
	require.Empty(t, list.Sorted(), text)
	return f
}

// first finds the first statement of a kind.
func first[N ast.Node](t *testing.T, f *ast.File) N {
	t.Helper()
	var found N
	ok := false
	ast.Walk(f, func(n ast.Node) bool {
		if m, is := n.(N); is && !ok {
			found, ok = m, true
		}
		return !ok
	})
	require.True(t, ok, "no such statement")
	return found
}

func TestHarvestReadsClean(t *testing.T) {
	f := tree(t, harvest(t))
	require.Len(t, f.Blocks, 7)

	menu := first[*ast.Menu](t, f)
	require.Equal(t, "Harvest lunch", menu.Title.Text)
	require.Equal(t, 12, first[*ast.Covers](t, f).Count)
	at := first[*ast.ServeAt](t, f)
	require.Equal(t, ast.Date{Year: 2027, Month: 9, Day: 19}, at.Date)
	require.Equal(t, ast.Clock{Hour: 13}, at.Clock)
	hours := first[*ast.Hours](t, f)
	require.Equal(t, 1, hours.DaysBefore)
	require.Equal(t, "Ana", hours.Cooks[0].Text)
	task := first[*ast.Task](t, f)
	require.Equal(t, 20*time.Minute, task.Work.High)
	require.Equal(t, "Jo", task.By[0].Text)
	require.Equal(t, "Ana", task.By[1].Text)
	require.Equal(t, "First", task.Before.Text)

	oven := first[*ast.Oven](t, f)
	require.Equal(t, 2, oven.Shelves)
	require.True(t, oven.Fan)
	require.Equal(t, 15*time.Minute, oven.Preheat.Low)
}

func TestServings(t *testing.T) {
	f := tree(t, "menu A\n  course Main, at 13:30\n    Slow lamb, ahead, for 10, with almonds, keep the remains for Monday\n    \"Beans, charred\", from the shop\n    Apples, to be written, cook for 12\n")
	c := first[*ast.Course](t, f)
	require.Equal(t, ast.Clock{Hour: 13, Minute: 30}, *c.At)
	lamb, beans, apples := c.Servings[0], c.Servings[1], c.Servings[2]
	require.True(t, lamb.Ahead)
	require.Equal(t, 10, lamb.For)
	require.Equal(t, "with almonds", lamb.Options[0].Text)
	require.Equal(t, "Monday", lamb.KeepFor.Text)
	require.Equal(t, "Beans, charred", beans.Ref.Text)
	require.True(t, beans.Ref.Quoted)
	require.True(t, beans.From.Shop())
	require.True(t, apples.ToWrite)
	require.Equal(t, 12, apples.CookFor)
}

func TestGatheredLines(t *testing.T) {
	f := tree(t, `dish A
  gather, percent of strong flour, rye flour
    500 g strong flour
    65% water
    2 large eggs (free range), beaten | optional
    for the sauce
      # the cheap one
      1 1/2 tbsp of oil, to taste
        said "as much as it will drink"
        instead 20 g butter | work 1 min
        | plus extra for the tin | buy 3 7/8 lb
    either plain
      salt
    or with almonds
      60 g flaked almonds
`)
	g := first[*ast.Gather](t, f)
	require.Equal(t, "rye flour", g.PercentOf[1].Text)
	water := g.Items[1].(*ast.Line)
	require.Equal(t, quantity.Percent, water.Amount.Kind)
	eggs := g.Items[2].(*ast.Line)
	require.Equal(t, "large", eggs.Size)
	require.Equal(t, "eggs", eggs.Name.Text)
	require.Equal(t, "free range", eggs.Brackets.Text)
	require.Equal(t, "beaten", eggs.Note.Text)
	require.Equal(t, "optional", eggs.Clauses[0].Base().Word)
	sauce := g.Items[3].(*ast.SubList)
	require.Equal(t, "the", sauce.Article)
	require.Equal(t, "sauce", sauce.Name.Text)
	require.Equal(t, "sauce", sauce.Name.Span.Text())
	oil := sauce.Items[0].(*ast.Line)
	require.Equal(t, "the cheap one", oil.Comments[0].Text)
	require.Equal(t, "oil", oil.Name.Text)
	require.Equal(t, "1 1/2 tbsp", oil.AmountAt.Text)
	require.Empty(t, oil.Note.Text)
	require.Equal(t, "to taste", oil.Clauses[0].Base().Word)
	require.Equal(t, "as much as it will drink", oil.Said.Text)
	require.Equal(t, "butter", oil.Instead[0].Name.Text)
	require.Equal(t, "work", oil.Instead[0].Clauses[0].Base().Word)
	require.Equal(t, "for the tin", oil.Clauses[1].(*ast.Note).Text.Text)
	require.Equal(t, "3 7/8 lb", oil.Clauses[2].(*ast.Buy).Measure.String())
	choice := g.Items[4].(*ast.Choice)
	require.Equal(t, "with almonds", choice.Options[1].Label.Text)
	require.Equal(t, "flaked almonds", choice.Options[1].Items[0].(*ast.Line).Name.Text)
}

func TestStepsKeepTheirProse(t *testing.T) {
	text := "dish A\n  method\n    - Toast the  barley\u00a0well, pour on\n      # why so hot?\n      the stock. | ring low | leave 35 to 40 min\n      at 10 min: Stir,\n         then cover. \n        | work 1 min\n      at half time: Turn it. | watch 2 min\n"
	f := tree(t, text)
	s := first[*ast.Step](t, f)
	require.Equal(t, "Toast the  barley\u00a0well, pour on the stock.", s.Prose.Text)
	require.Equal(t, "why so hot?", s.Comments[0].Text)
	for _, l := range s.Lines {
		require.Equal(t, l.Text, l.Span.Text())
	}
	require.Len(t, s.Clauses, 2)
	require.Equal(t, 40*time.Minute, s.Clauses[1].(*ast.Timed).Spell.Fixed.High)
	require.Len(t, s.Moments, 2)
	require.Equal(t, 10*time.Minute, s.Moments[0].At.Low)
	require.Equal(t, "Stir, then cover.", s.Moments[0].Prose.Text)
	require.Equal(t, "work", s.Moments[0].Clauses[0].Base().Word)
	require.Nil(t, s.Moments[1].At)
}

// clause reads one clause of a step, which must be of a kind.
func clause[C ast.Clause](t *testing.T, text string) C {
	t.Helper()
	f := tree(t, "dish A\n  method\n    - Do it.\n      | "+text+"\n")
	c, ok := first[*ast.Step](t, f).Clauses[0].(C)
	require.True(t, ok, text)
	return c
}

func TestClauses(t *testing.T) {
	timed := clause[*ast.Timed](t, "work 15 min plus 13 min per lb lamb")
	require.Equal(t, 15*time.Minute, timed.Spell.Fixed.Low)
	require.Equal(t, 13*time.Minute, timed.Spell.Per.Low)
	require.Equal(t, "1 lb", timed.Spell.Each.Measure.String())
	require.Equal(t, "lamb", timed.Spell.Each.Name.Text)

	timed = clause[*ast.Timed](t, "work 4 min per 300 g green beans ?")
	require.True(t, timed.Offered)
	require.Nil(t, timed.Spell.Fixed)
	require.Equal(t, "300 g", timed.Spell.Each.Measure.String())
	require.Equal(t, "green beans", timed.Spell.Each.Name.Text)

	timed = clause[*ast.Timed](t, "work 2 min per clove")
	require.Empty(t, timed.Spell.Each.Measure.Terms)
	require.Equal(t, "clove", timed.Spell.Each.Name.Text)
	timed = clause[*ast.Timed](t, "work 2 min per clove garlic")
	require.Equal(t, "1 clove", timed.Spell.Each.Measure.String())
	require.True(t, clause[*ast.Timed](t, "leave 10 min per load").Spell.Each.Load)

	timed = clause[*ast.Timed](t, "watch until brown at the edges, say 45 min")
	require.Equal(t, "brown at the edges", timed.Spell.Until.Text)
	require.True(t, timed.Spell.Fixed.About)
	require.Equal(t, 45*time.Minute, timed.Spell.Fixed.Low)
	timed = clause[*ast.Timed](t, "work 1 min every 10 min")
	require.Equal(t, 10*time.Minute, timed.Spell.Every.Low)

	for text, holds := range map[string]string{ // tins are called by their size
		"20 cm tin": "", "9 x 13 pan": "", "9x13 pan": "", "2 litre dish": "", "23 cm springform tin": "2.5 litres",
	} {
		written := "in " + text
		if holds != "" {
			written += ", holds " + holds
		}
		vessel := clause[*ast.InVessel](t, written)
		require.Equal(t, text, vessel.Name.Text)
		require.Equal(t, holds, vessel.Size.String())
	}
	for text, want := range map[string]struct { // several of a kind, and those called by a number
		n    int
		name string
	}{
		"in 3 deep trays": {3, "deep trays"}, "in 2 sheet pans, holds 1 kg": {2, "sheet pans"}, "in 1 stockpot": {1, "stockpot"},
		"in 12 hole tin": {0, "12 hole tin"}, "in 20 cm tins": {0, "20 cm tins"}, "in 2 cup ramekins": {0, "2 cup ramekins"}, "in 9 x 13 pans": {0, "9 x 13 pans"},
	} {
		vessel := clause[*ast.InVessel](t, text)
		require.Equal(t, want.n, vessel.Count, text)
		require.Equal(t, want.name, vessel.Name.Text, text)
	}
	heat := clause[*ast.Heat](t, "oven 220 C for 20 min then fan 160 C, in small, top shelf, 2 shelves")
	require.Len(t, heat.Phases, 2)
	require.Equal(t, 220, heat.Phases[0].Temp.Low)
	require.Equal(t, 20*time.Minute, heat.Phases[0].For.Low)
	require.True(t, heat.Phases[1].Fan)
	require.Equal(t, "small", heat.Oven.Text)
	require.Equal(t, "top", heat.Shelf)
	require.Equal(t, 2, heat.Shelves)
	require.Equal(t, "1/2", clause[*ast.Heat](t, "oven gas 1/2").Phases[0].Gas)
	require.Equal(t, "moderately hot", clause[*ast.Heat](t, "oven moderately hot").Phases[0].Word)

	stay := clause[*ast.Stay](t, "stand 3 days, up to 8 weeks, cool place")
	require.Equal(t, 3*24*time.Hour, stay.Keep.Time.Low)
	require.Equal(t, 8*7*24*time.Hour, stay.Keep.Time.UpTo)
	require.Equal(t, "cool place", stay.Keep.Place)
	stay = clause[*ast.Stay](t, "stand overnight, warm place")
	require.True(t, stay.Keep.Time.Overnight)
	require.Equal(t, "warm place", stay.Keep.Place)
	require.Equal(t, 27, clause[*ast.InPlace](t, "warm place, 27 C").Temp.Low)

	hold := clause[*ast.Hold](t, "hold hot up to 1 h, above 63 C")
	require.Equal(t, "hot", hold.State)
	require.Equal(t, time.Hour, hold.UpTo.High)
	require.Equal(t, "above", hold.Bound)
	require.Equal(t, 63, hold.Temp.Low)

	ring := clause[*ast.Ring](t, "2 rings high")
	require.Equal(t, "ring", ring.Word)
	require.Equal(t, 2, ring.Count)
	require.Equal(t, "high", ring.Level)

	for text, share := range map[string]string{
		"uses half the herb oil": "1/2", "uses a third of the herb oil": "1/3", "uses 2/3 of the herb oil": "2/3", "uses half of the herb oil": "1/2",
	} {
		uses := clause[*ast.Taking](t, text)
		require.Equal(t, share, uses.Share.Fraction.String(), text)
		require.Equal(t, "herb oil", uses.Name.Text, text)
	}
	require.True(t, clause[*ast.Taking](t, "uses the rest of the butter").Share.Rest)
	require.True(t, clause[*ast.Taking](t, "uses half the remaining butter").Share.OfRest)
	require.True(t, clause[*ast.Taking](t, "uses nothing").Nothing)
	require.Equal(t, "20 g", clause[*ast.Taking](t, "uses 20 g butter").Amount.String())
	require.Nil(t, clause[*ast.Taking](t, "uses butter").Amount)
	require.Equal(t, "leg of lamb", clause[*ast.Taking](t, "uses leg of lamb").Name.Text)

	vessel := clause[*ast.InVessel](t, "into 20 tart cases, 90 ml each")
	require.Equal(t, 20, vessel.Count)
	require.Equal(t, "tart cases", vessel.Name.Text)
	require.Equal(t, "90 ml", vessel.Size.String())
	require.Equal(t, "5 litres", clause[*ast.InVessel](t, "in roasting tin, holds 5 litres").Size.String())
	require.Equal(t, 2, clause[*ast.Hands](t, "with 2 cooks").Count)
	require.Equal(t, "Jo", clause[*ast.Hands](t, "by Ana, Jo").Cooks[1].Text)
	require.Equal(t, 30*time.Minute, clause[*ast.Timing](t, "start 30 min before serving").Time.Low)
	require.Equal(t, "pastry", clause[*ast.Named](t, "after pastry").Name.Text)
	require.Equal(t, "any time", clause[*ast.Mark](t, "any time").Word)
}

func TestLarderFacts(t *testing.T) {
	f := tree(t, "larder\n  double cream | weighs 0.99 g per ml | packs 300 ml or 600 ml\n    | contains milk, whey | price 2.40 GBP per kg\n  egg | gives 1 egg white and 1 egg yolk | piece 55 g as sold | yields 88% | keeps 3 weeks, fridge\n")
	l := first[*ast.Larder](t, f)
	cream := l.Items[0].(*ast.Entry)
	require.Equal(t, "0.99 g", cream.Facts[0].(*ast.Density).Weight.String())
	require.Equal(t, "1 ml", cream.Facts[0].(*ast.Density).Per.String())
	require.Len(t, cream.Facts[1].(*ast.Packs).Sizes, 2)
	require.Equal(t, "whey", cream.Facts[2].(*ast.Contains).Names[1].Text)
	price := cream.Facts[3].(*ast.Price)
	require.Equal(t, "12/5", price.Amount.String())
	require.Equal(t, "GBP", price.Money.Text)
	require.Equal(t, "1 kg", price.Per.String())
	egg := l.Items[1].(*ast.Entry)
	require.Equal(t, "egg white", egg.Facts[0].(*ast.Gives).Given[0].Name.Text)
	require.Equal(t, "egg yolk", egg.Facts[0].(*ast.Gives).Given[1].Name.Text)
	require.Equal(t, "as sold", egg.Facts[1].(*ast.Piece).State.Text)
	require.Equal(t, "88", egg.Facts[2].(*ast.Yield).Percent.String())
	require.Equal(t, "fridge", egg.Facts[3].(*ast.ShelfLife).Keep.Place)
}

// What costs so much a dozen: the price is for twelve.
func TestPriceOfSoMany(t *testing.T) {
	for said, want := range map[string]string{
		"per 12": "12", "per dozen": "12", "per a dozen": "12", "per 2 dozen": "24", "GBP per half a dozen": "6", "per 250 g": "250 g", "per kg": "1 kg", "each": "",
	} {
		f := tree(t, "larder\n  egg | price 2.40 "+said+" | packs 6 or 12\n")
		facts := first[*ast.Larder](t, f).Items[0].(*ast.Entry).Facts
		require.Len(t, facts, 2)
		require.Equal(t, want, facts[0].(*ast.Price).Per.String(), said)
		require.Len(t, facts[1].(*ast.Packs).Sizes, 2)
	}
}

// Nothing is made for nobody, in no time, or in a pot that holds nothing.
func TestZerosAreRefused(t *testing.T) {
	kitchen, dish, larder := "kitchen K\n  cooks Ana\n  ", "dish A\n  serves 4\n  gather\n    1 egg\n  method\n    - Boil the egg. | ring low | leave 5 min\n  ", "larder\n  egg | "
	for _, text := range []string{
		"menu A\n  covers 0\n", "dish A\n  serves 0\n", "dish A\n  serves 0 to 4\n", "dish A\n  serves 4\n  tested 0\n",
		kitchen + "oven main, 0 shelves\n", kitchen + "vessel pan, holds 0 litres\n", kitchen + "vessel pan, holds 3 litres, 0\n", kitchen + "breaks 10 min, every 0 h\n",
		dish + "keeps 0 days, fridge\n", larder + "price 2 per 0\n", larder + "price 2 per 0 g\n", larder + "yields 0%\n", larder + "piece 0 g\n", larder + "weighs 0 g per ml\n",
		larder + "packs 0 g\n", larder + "packs 6 or 0\n",
	} {
		var list diag.List
		parse.File(source.New("x.tamis", text), &list)
		got := list.Sorted()
		require.Len(t, got, 1, text)
		require.Equal(t, "N135", got[0].Code, text)
		require.Equal(t, diag.Error, got[0].Severity, text)
		require.True(t, strings.HasPrefix(text[got[0].At.Span.Start:], "0"), text)
	}
	for _, text := range []string{ // no work at all, hot for no time, given away
		kitchen + "oven main, preheat 0 min\n  hold hot 0 min\n  cleans down 0 min\n", larder + "price 0 per kg\n",
		"dish A\n  serves 4\n  gather\n    200 g 00 flour\n    0.5 kg salt\n    0 to 2 chillies\n",
	} {
		var list diag.List
		parse.File(source.New("x.tamis", text), &list)
		require.Empty(t, list.Sorted(), text)
	}
}

// A file's own larder says how its numbers are written, and which words count.
func TestOwnSettings(t *testing.T) {
	f := tree(t, "dish A\n  gather\n    1,5 kg flour\n    3 fronds dill\n\nlarder\n  decimal comma\n  frond | measure\n")
	require.True(t, f.Comma)
	g := first[*ast.Gather](t, f)
	require.Equal(t, "3/2", g.Items[0].(*ast.Line).Amount.Measure.Terms[0].Value.Low.String())
	require.Equal(t, "frond", g.Items[1].(*ast.Line).Amount.Measure.Terms[0].Unit.Name)
	require.Equal(t, "dill", g.Items[1].(*ast.Line).Name.Text)
}

// The title of a part may have a comma, as that of a block may.
func TestACommaInTheTitleOfAPart(t *testing.T) {
	f := tree(t, "series Six weeks\n  part 3 One bird, two pots\n    shows Cold chicken\n")
	p := first[*ast.Part](t, f)
	require.Equal(t, "One bird, two pots", p.Title.Text)
	require.True(t, p.Title.Quoted, "so that it is laid out with quotes")
}

// Seven slips in seven places give seven messages, each at its place.
func TestSevenSlips(t *testing.T) {
	text := harvest(t)
	slips := []struct{ from, to, at, code string }{
		{"covers 12", "cover 12", "cover 12", "N121"},
		{"on the table 2027-09-19 13:00", "on the table 2027-09-19 1pm", "1pm", "N131"},
		{"  rings 4", "  rings four", "four", "N135"},
		{"60 g     parsley leaves", "- 60 g parsley leaves", "- 60 g", "N140"},
		{"tool stick blender | work 4 min", "tools stick blender | work 4 min", "tools stick", "N161"},
		{"| ring high | work 4 min per", "| ring hot | work 4 min per", "hot | work 4", "N168"},
		{"yields 75%", "yield 75%", "yield 75%", "N171"},
	}
	for _, s := range slips {
		require.Equal(t, 1, strings.Count(text, s.from), s.from)
		text = strings.Replace(text, s.from, s.to, 1)
	}
	var list diag.List
	f := parse.File(source.New("x.tamis", text), &list)
	got := list.Sorted()
	require.Len(t, got, len(slips))
	for i, s := range slips {
		require.Equal(t, s.code, got[i].Code, got[i].Message)
		require.Equal(t, strings.Index(text, s.at), got[i].At.Span.Start, s.at)
	}
	require.Len(t, f.Blocks, 7, "the rest of the file is read")
}

// Every example in the table of words reads in its place.
func TestFormsOfTheTable(t *testing.T) {
	for _, w := range parse.Words() {
		for _, p := range w.In {
			text := ""
			switch p {
			case parse.AtBlock:
				text = w.Form + "\n" + map[string]string{
					"menu": "  covers 2", "dish": "  serves 2", "base": "  serves 2", "kitchen": "  rings 2", "larder": "  units metric",
					"series": "  by Ana", "book": "  by Ana", "notation": "dish A\n  serves 6",
				}[w.Text] + "\n"
			case parse.InMenu:
				text = "menu A\n  " + w.Form + "\n"
				if w.Text == "course" {
					text += "    Soup\n"
				}
			case parse.OnServing:
				text = "menu A\n  course B\n    " + w.Form + "\n"
			case parse.OnPin:
				text = "menu A\n  course B\n    Soup\n      " + w.Form + "\n"
			case parse.InRecipe:
				text = "dish A\n  " + w.Form + "\n" + map[string]string{"about": "    Text.\n", "gather": "    2 eggs\n", "method": "    - Fry.\n", "replace step": "    - Fry.\n", "before step": "    - Fry.\n", "after step": "    - Fry.\n"}[w.Text]
			case parse.InGather:
				switch w.Text {
				case "instead", "said":
					text = "dish A\n  gather\n    2 eggs\n      " + w.Form + "\n"
				case "or":
					text = "dish A\n  gather\n    either plain\n      1 egg\n    " + w.Form + "\n      2 eggs\n"
				case "either":
					text = "dish A\n  gather\n    " + w.Form + "\n      1 egg\n    or rich\n      2 eggs\n"
				default:
					text = "dish A\n  gather\n    " + w.Form + "\n      1 egg\n"
				}
			case parse.OnLine:
				text = "dish A\n  gather\n    2 eggs | " + w.Form + "\n"
			case parse.InMethod:
				text = "dish A\n  method\n    - Fry.\n    " + w.Form + "\n"
			case parse.OnStep:
				text = "dish A\n  method\n    - Fry.\n      | " + w.Form + "\n"
			case parse.InKitchen:
				text = "kitchen A\n  " + w.Form + "\n"
			case parse.InLarder:
				text = "larder\n  " + w.Form + "\n"
			case parse.OnFact:
				text = "larder\n  egg | " + w.Form + "\n"
			case parse.InSeries:
				text = "series A\n  " + w.Form + "\n" + map[string]string{"about": "    Text.\n"}[w.Text]
				if w.Text == "part" {
					text += "    shows Soup\n"
				}
			case parse.InPart:
				text = "series A\n  part 1 B\n    " + w.Form + "\n" + map[string]string{"about": "      Text.\n"}[w.Text]
			case parse.InBook:
				text = "book A\n  " + w.Form + "\n" + map[string]string{"about": "    Text.\n"}[w.Text]
				if w.Text == "chapter" {
					text += "    Soup\n"
				}
			default:
				t.Fatalf("%s: no case for the place %v", w.Text, p)
			}
			require.Empty(t, read(text), "%s in %v:\n%s", w.Text, p, text)
			require.NotEmpty(t, w.Help, w.Text)
			require.Positive(t, w.Since, w.Text)
		}
	}
}

// In places with word lists that are frozen, no further word may begin a line:
// a name would be captured.
func TestFrozenLists(t *testing.T) {
	list := func(p parse.Place) (out []string) {
		for _, w := range parse.WordsIn(p) {
			out = append(out, w.Text)
		}
		return out
	}
	require.ElementsMatch(t, []string{"for", "either", "or", "instead", "said"}, list(parse.InGather))
	require.ElementsMatch(t, []string{"pause"}, list(parse.InMethod))
	require.ElementsMatch(t, []string{"units", "decimal", "language"}, list(parse.InLarder))
	require.Empty(t, list(parse.InCourse))
	require.Empty(t, list(parse.InChapter))
	blocks := list(parse.AtBlock)
	for p := parse.InMenu; p <= parse.InChapter; p++ {
		if p == parse.OnStep || p == parse.OnServing || p == parse.OnLine || p == parse.OnFact {
			continue
		}
		for _, w := range list(p) {
			require.NotContains(t, blocks, w, "no word is both a block and a field")
		}
	}
}

func TestGrammarNamesItsTokens(t *testing.T) {
	g := parse.Grammar()
	for _, part := range []string{"ClauseNode", "LineNode", "ServingNode", "FactNode", "RecipeNode", `"never above"`, "<time>", "<qty>"} {
		require.Contains(t, g, part)
	}
}

// A missing comma is said, and then read as if it were there.
func TestMissingCommaIsReadAsMeant(t *testing.T) {
	var list diag.List
	f := parse.File(source.New("x.tamis", "menu A\n  course Main 30 min after First\n    Beans for 10\n    Slow lamb ahead\n"), &list)
	require.Equal(t, []string{"N137", "N137", "N137"}, codes(list.Sorted()))
	c := first[*ast.Course](t, f)
	require.Equal(t, "Main", c.Title.Text)
	require.Equal(t, "Beans", c.Servings[0].Ref.Text)
	require.Equal(t, 10, c.Servings[0].For)
	require.Equal(t, "Slow lamb", c.Servings[1].Ref.Text)
	require.True(t, c.Servings[1].Ahead)
}

// What stands below a word from elsewhere is read as if the right word stood there.
func TestWordsFromElsewhere(t *testing.T) {
	var list diag.List
	f := parse.File(source.New("x.tamis", "dish A\n  Ingredients:\n    2 eggs\n  Steps\n    - Boil the eggs.\n"), &list)
	require.Equal(t, []string{"N121", "N121"}, codes(list.Sorted()))
	require.Equal(t, "eggs", first[*ast.Line](t, f).Name.Text)
	require.Equal(t, "Boil the eggs.", first[*ast.Step](t, f).Prose.Text)
}
