package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/lang/quantity"
)

const stove = `menu Supper
  covers 4
  course Main
    Pie
kitchen Yard
  cooks Mo
  oven main
  rings 2
dish Pie
  serves 4
  gather
    1 kg     potatoes
    150 to 200 ml milk
    75 g     butter
    2 cups   stock
    4        eggs
  units US
  method
    - Boil the potatoes in 2.5 litres of water until tender, then beat in 100 ml of the milk.
      | ring high | work 2 min | leave 25 min | then work 3 min
      at 10 min: Stir in 50 g of the butter. | work 1 min
    - Whisk in 1 1/2 cups of the stock, two of the eggs and the rest of the butter.
      | work 4 min
    - Shape into 8 cakes and brush with what is left of the milk.
      | work 8 min
    - Bake, pouring 1/2 cup of the stock over.
      | oven 180 C | leave 20 min
    - Break in the rest of the eggs.
      | work 2 min
`

// What hangs beside the stove says of a step what its prep sheet says: the same
// sentence, with the same figures, however far it is cut.
func TestRowsOfThePlanSayTheSentenceOfTheirStep(t *testing.T) {
	books := map[string]fs.FS{"by hand": fstest.MapFS{"menu.tamis": {Data: []byte(stove)}}}
	if effort.Long() {
		for _, pattern := range []string{"examples/*/menu.tamis", "testdata/texts/*/menu.tamis"} {
			found, err := filepath.Glob(pattern)
			require.NoError(t, err)
			for _, f := range found {
				books[filepath.Dir(f)] = os.DirFS(filepath.Dir(f))
			}
		}
	}
	compared, withFigure := 0, 0
	for dir, book := range books {
		tree, err := load.FS(book, ".", "", "")
		require.NoError(t, err)
		for _, n := range []int{0, 7, 30} {
			for _, units := range []quantity.System{quantity.NoSystem, quantity.US} {
				where := fmt.Sprintf("%s, covers %d, units %q", dir, n, units)
				r := compiled(tree, compiler.Options{
					Demand: demand.Options{Covers: n}, Units: units, PlanAll: true, Sheets: []sheets.Kind{sheets.Prep, sheets.RunSheet},
				})
				for _, doc := range r.Documents {
					a, b := comparePlan(t, where, doc)
					compared, withFigure = compared+a, withFigure+b
				}
			}
		}
	}
	t.Logf("%d rows compared, %d of them with a figure", compared, withFigure)
	require.Greater(t, compared, 40)
	require.Greater(t, withFigure, 30)
}

func comparePlan(t *testing.T, where string, doc *sheets.Document) (compared, withFigure int) {
	sentences := map[string][]string{} // by dish and number: the step's and its moments'
	for i := range doc.Sheets {
		s := &doc.Sheets[i]
		if s.Kind != sheets.Prep {
			continue
		}
		for _, b := range s.Blocks {
			steps, ok := b.(*sheets.Steps)
			if !ok {
				continue
			}
			for _, it := range steps.Items {
				if st, ok := it.(*sheets.Step); ok {
					key := fmt.Sprintf("%s, step %d", s.Title, st.Number)
					sentences[key] = append(sentences[key], withoutAsides(st.Runs))
					for _, mo := range st.Moments {
						sentences[key] = append(sentences[key], withoutAsides(mo.Runs))
					}
				}
			}
		}
	}
	for i := range doc.Sheets {
		if doc.Sheets[i].Kind != sheets.RunSheet {
			continue
		}
		for _, row := range tableRows(&doc.Sheets[i]) {
			what := row.Cells[2]
			said, ok := sentences[sheets.Words(what.Sub)]
			words := sheets.Words(what.Runs)
			if !ok || strings.HasPrefix(words, "Take out") || strings.HasPrefix(words, "Take off") {
				continue
			}
			for _, before := range []string{"Put in: ", "See to it: ", "Again: ", "Out of the oven: ", "Off the ring: "} {
				words = strings.TrimPrefix(words, before)
			}
			words, _, _ = strings.Cut(words, ": load ")
			words, _, _ = strings.Cut(words, ", load ")
			words = events.Small(strings.TrimSuffix(strings.TrimSuffix(words, ", only if needed"), "…"))
			if sight, moment, ok := strings.Cut(words, ": "); ok && strings.HasPrefix(sight, "when ") { // a moment by sight
				words = events.Small(moment)
			}
			compared++
			if strings.ContainsAny(words, "0123456789½⅓⅔¼¾") {
				withFigure++
			}
			same := slices.ContainsFunc(said, func(sentence string) bool { return strings.HasPrefix(sentence, words) })
			again := strings.Contains(said[0], " then "+words) // "then drain", when it has been left
			require.True(t, same || again, "%s: %s: the run sheet says %q, the prep sheet %q", where, sheets.Words(what.Sub), words, said)
		}
	}
	return compared, withFigure
}

// withoutAsides are runs without what the shares in them come to.
func withoutAsides(runs []sheets.Run) string {
	var text strings.Builder
	for _, run := range runs {
		if run.Style != sheets.Amount || !strings.HasPrefix(run.Text, " (") {
			text.WriteString(run.Text)
		}
	}
	return events.Small(text.String())
}
