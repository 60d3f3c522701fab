package resolve_test

import (
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// kitchenBook has most kinds of lines; the tests below say what the model holds
// of them. The passes after this one see nothing else of a text.
const kitchenBook = `larder
  units metric
  quince  | piece 240 g trimmed | yields 70% | from the greengrocer | price 3.20 EUR per kg | packs 500 g or 1 kg | contains sulphites
  coing   | same as quince

base Quince syrup
  makes 400 ml
  keeps 5 days, fridge
  rules UK
  by R. Voss
  source the orchard's own sheet
  about
    Clear and pink.
  gather
    2 large  "quince" (ripe), in eighths | trimmed | keeps 1 day, fridge | work 4 min
      instead 500 g pears, peeled
      said "two fine ones"
    300 g    sugar
  method
    - Boil the quince gently
      with the sugar.
      | ring low | in 2 wide pans, holds 4 litres | tool fine sieve | work 5 min
      | watch until it drops from the spoon, say 40 min | core 95 C for 2 min | never above 104 C
      | caution it spits | makes 380 ml pink syrup | hold hot up to 1 h, above 70 C
      at 10 min: Skim it. | work 2 min | sets aside 20 g foam | keeps 2 h, room
    pause up to 2 days, fridge
    - Pour the pink syrup into jars.
      | oven 120 C, top shelf, in spare | work 3 min | into 6 jars, 60 ml each

dish Cold quince
  as Quince syrup, but
  serves 6
  serve cold, within 20 min

menu Supper
  covers 6
  on the table 2027-03-06 19:00
  hours day before, 17:00 to 20:00, Ana
  course Late
    Cold quince, for 4, keep the remains for Sunday
    Wafers, from the shop
    Baked apples, to be written
  task Polish the glasses, work 15 min, by Ana, before Late, done 10 min before serving

book The orchard
  rules US
  style range dash
  chapter Syrups
    Quince syrup
`

// written is the text at a place.
func written(at source.Span) string { return at.Text() }

func book(t *testing.T) *resolve.Model {
	t.Helper()
	m, ds := build(t, kitchenBook)
	for _, d := range ds {
		require.NotEqual(t, byte('N'), d.Code[0], "%s at %q: the text of this test must read", d.Message, written(d.At.Span))
	}
	return m
}

func TestWhatARecipeHoldsOfItsOwnText(t *testing.T) {
	m := book(t)
	syrup, cold := m.Recipes[0], m.Recipes[1]
	require.Equal(t, "Quince syrup", written(syrup.NameAt))
	require.Equal(t, "makes 400 ml", written(syrup.Own.Makes))
	require.Equal(t, "ml", syrup.Own.Yield.Measure.Terms[0].Unit.Name)
	require.Equal(t, "keeps 5 days, fridge", written(syrup.Own.Keeps))
	require.Equal(t, "UK", syrup.Own.Practice.Text)
	require.Len(t, syrup.Own.Credits, 2)
	require.Equal(t, resolve.By, syrup.Own.Credits[0].Kind)
	require.Equal(t, "R. Voss", syrup.Own.Credits[0].Text.Text)
	require.Equal(t, resolve.FromSource, syrup.Own.Credits[1].Kind)
	require.Equal(t, "Clear and pink.", syrup.About.Text.Text)

	// What comes with `as … but` is the recipe's, and not said in its own text.
	require.Equal(t, "fridge", cold.Keeps.Place)
	require.True(t, cold.Own.Keeps.IsZero())
	require.True(t, cold.Own.Practice.IsZero())
	require.Nil(t, cold.Own.Yield)
	require.Equal(t, "Quince syrup", cold.Own.Like.Text)
	require.Equal(t, "serve cold, within 20 min", written(cold.Own.ServeHow))
	require.Equal(t, "cold", cold.ServeHow.State)
	require.Equal(t, 20*time.Minute, cold.ServeHow.Within.High)
}

func TestWhatALineHoldsOfItsWords(t *testing.T) {
	l := book(t).Recipes[0].Lines[0]
	require.Equal(t, "quince", l.Name)
	require.True(t, l.Quoted)
	require.Equal(t, `"quince"`, written(l.NameAt))
	require.Equal(t, "2", l.AmountText)
	require.Equal(t, "2", written(l.AmountAt))
	require.Equal(t, quantity.Plain, l.Written.Kind)
	require.Equal(t, "large", l.Size)
	require.Equal(t, "ripe", l.Brackets.Text)
	require.Equal(t, "in eighths", written(l.Note.Span))
	require.Equal(t, "two fine ones", l.Said.Text)
	require.True(t, l.Net)
	require.False(t, l.AsBought || l.Drained)
	require.Equal(t, "fridge", l.Keeps.Place)
	require.Equal(t, 24*time.Hour, l.Keeps.Time.High)
	require.Equal(t, "work 4 min", written(l.Prep[0].Span))
	require.Len(t, l.Instead, 1)
	require.Equal(t, "pears", l.Instead[0].Name)
	require.Equal(t, "500 g", l.Instead[0].AmountText)
	require.Equal(t, "peeled", l.Instead[0].Note.Text)
}

// Every clause of a margin has a type of its own, in the order written; the
// fields of the step point at the same clauses.
func TestTheMarginOfAStep(t *testing.T) {
	syrup := book(t).Recipes[0]
	s := syrup.Steps[0]
	require.Equal(t, "Boil the quince gently with the sugar.", s.Prose.Text)
	require.Len(t, s.Lines, 2)
	require.Equal(t, "with the sugar.", written(s.Lines[1].Span))

	var words []resolve.Word
	for _, c := range s.Margin {
		words = append(words, c.Begins())
	}
	require.Equal(t, []resolve.Word{"ring", "in", "tool", "work", "watch", "core", "never above", "caution", "makes", "hold"}, words)

	in := resolve.First[*resolve.InVessel](s.Margin)
	require.Equal(t, 2, in.Count)
	require.Equal(t, "wide pans", written(in.Name.Span))
	require.Equal(t, "4 litres", in.Holds.String())
	require.Equal(t, "it drops from the spoon", s.Phases[1].Until.Text)
	require.Equal(t, 40*time.Minute, s.Phases[1].Fixed.High)
	require.Equal(t, 95, s.Core.Temp.Low)
	require.Equal(t, 2*time.Minute, s.Core.For.High)
	require.Nil(t, s.Reach, "`never above` is no `reach`")
	require.Equal(t, "it spits", resolve.First[*resolve.Caution](s.Margin).Text.Text)
	require.Equal(t, "hot", s.Hold.State)
	require.Equal(t, time.Hour, max(s.Hold.UpTo.High, s.Hold.UpTo.UpTo))
	require.Equal(t, "above", s.Hold.Bound)
	require.Equal(t, 70, s.Hold.Temp.Low)
	require.Nil(t, resolve.First[*resolve.Within](s.Margin))

	made := resolve.First[*resolve.Made](s.Margin)
	require.False(t, made.Drawn())
	require.Same(t, s.Makes[0], made.Product)
	require.Same(t, made, s.Makes[0].Made)
	require.Nil(t, s.Makes[0].Moment, "it is there when the step ends")

	pour := syrup.Steps[1]
	oven := resolve.First[*resolve.InOven](pour.Margin)
	require.Equal(t, "spare", oven.Name.Text)
	require.Equal(t, "top", oven.Shelf)
	require.Equal(t, 120, oven.Heats[0].High)
	require.Equal(t, 6, pour.Into.Count)
	require.Equal(t, "jars", pour.Into.Name.Text)
	require.Equal(t, "60 ml", pour.Into.Each.String())
	require.Equal(t, "pause up to 2 days, fridge", written(syrup.Pauses[0].Span))
}

func TestAMomentGivesWhatItDraws(t *testing.T) {
	s := book(t).Recipes[0].Steps[0]
	require.Len(t, s.Moments, 1)
	m := s.Moments[0]
	require.Equal(t, "Skim it.", m.Prose.Text)
	require.Equal(t, 10*time.Minute, m.At.High)
	foam := s.Makes[1]
	require.Equal(t, "foam", foam.Name)
	require.Same(t, m, foam.Moment)
	require.True(t, foam.Made.Drawn())
	require.Equal(t, "room", foam.Keeps.Place)
	require.Nil(t, s.Makes[0].Keeps, "the moment's `keeps` is of what the moment gives")
}

// A second step that makes a thing of the same name is reported, and its clause
// gives nothing.
func TestAClauseWhoseProductIsAnothers(t *testing.T) {
	m, ds := build(t, "dish Leeks\n  serves 2\n  gather\n    600 g leeks\n  method\n    - Boil the leeks. | ring low | work 5 min | makes broth\n    - Drain. | work 1 min | makes broth\n")
	require.Contains(t, codes(ds), "U115")
	first := resolve.First[*resolve.Made](m.Recipes[0].Steps[0].Margin)
	second := resolve.First[*resolve.Made](m.Recipes[0].Steps[1].Margin)
	require.Same(t, m.Recipes[0].Products[0], first.Product)
	require.Nil(t, second.Product)
}

func TestWhatAnEntryOfTheLarderSays(t *testing.T) {
	m := book(t)
	e := m.Recipes[0].Scope.Entry("quince")
	require.Equal(t, "240 g", e.Piece.Weight.String())
	require.Equal(t, "trimmed", e.Piece.State)
	require.Equal(t, "70", e.Yields.Text(false))
	require.Equal(t, "greengrocer", e.Buy.Text)
	require.Equal(t, "3.2", e.Price.Amount.Text(false))
	require.Equal(t, "EUR", e.Price.Currency)
	require.Equal(t, "kg", e.Price.Per.Terms[0].Unit.Name)
	require.Len(t, e.Packs.Sizes, 2)
	require.Equal(t, "sulphites", written(e.Contains.Substances[0].Span))
	require.Nil(t, e.Weighs)
	require.Nil(t, e.SameAs)
	require.Equal(t, "quince", m.Recipes[0].Scope.Entry("coing").SameAs.Text)
	require.Len(t, m.Entries, 2)
	require.True(t, m.Entries[0].Asked)
}

// Larders add up from the root to the folder, and the nearest wins, fact by fact.
func TestFactsOfALarderAddUp(t *testing.T) {
	tree, err := load.FS(fstest.MapFS{
		"book.tamis":      {Data: []byte("book House\nlarder\n  butter | price 2 per 250 g | keeps 2 weeks, fridge\n")},
		"suppers/a.tamis": {Data: []byte("larder\n  butter | price 3 per 250 g | from the dairy\ndish Toast\n  serves 2\n  gather\n    20 g butter\n")},
	}, ".", "", "")
	require.NoError(t, err)
	e := resolve.Build(tree, &diag.List{}).Recipes[0].Scope.Entry("butter")
	require.Equal(t, "3", e.Price.Amount.Text(false))
	require.Equal(t, "dairy", e.Buy.Text)
	require.NotNil(t, e.Keeps)
}

func TestWhatAMenuAndABookHold(t *testing.T) {
	m := book(t)
	menu := m.Menus[0]
	require.Equal(t, "Supper", written(menu.NameAt))
	require.Equal(t, "Ana", menu.Hours[0].Named[0].Text)
	cold, wafers, apples := menu.Courses[0].Servings[0], menu.Courses[0].Servings[1], menu.Courses[0].Servings[2]
	require.Equal(t, "Cold quince", written(cold.NameAt))
	require.Equal(t, 4, cold.For)
	require.True(t, cold.Counted)
	require.Equal(t, "Sunday", cold.KeepFor.Text)
	require.True(t, wafers.Bought)
	require.False(t, wafers.Counted, "it is for all, as the menu says")
	require.Equal(t, 6, wafers.Covers)
	require.True(t, apples.ToWrite)
	task := menu.Tasks[0]
	require.Equal(t, "Polish the glasses", task.Name)
	require.Equal(t, 15*time.Minute, task.Work.High)
	require.Equal(t, "Ana", task.By[0].Text)
	require.Equal(t, "Late", task.Before.Text)
	require.True(t, task.After.IsZero())
	require.Equal(t, 10*time.Minute, task.Done.High)

	b := m.Books[0]
	require.Equal(t, "The orchard", b.Name)
	require.Equal(t, "US", b.Practice.Text)
	require.Equal(t, "range dash", b.Styles[0].Text)
	require.Equal(t, "Syrups", b.Chapters[0].Name)
	require.Equal(t, "Quince syrup", b.Chapters[0].Names[0].Text)
	require.Equal(t, "dash", m.House(m.Recipes[0].Span).Range)

	var spoken []string
	for _, n := range m.Spoken {
		spoken = append(spoken, n.Text)
	}
	require.Equal(t, []string{"Quince syrup", "Cold quince", "Wafers", "Baked apples", "Quince syrup"}, spoken)
}
