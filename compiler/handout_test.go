package compiler_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

const twoEvenings = `series Two evenings
  by Nell Ferry
  part 1 Stock
    shows Stock
    date 2027-03-04
  part 2 Soup
    shows Soup
    date 2027-03-06
    copies 2 of Soup, as soft leeks
larder
  units metric
base Stock
  makes 2 litres
  keeps 3 days, fridge
  gather
    1 kg     carrots
    2 litres water
  method
    - Simmer the carrots in the water, and strain. | ring low | work 5 min | leave 1 h
    - Cool in iced water. | work 5 min | leave 45 min
dish Soup
  serves 4
  gather
    600 g    leeks
    40 g     butter
    800 ml   stock               | made in part 1
  method
    - Soften the leeks in the butter. | ring low | work 5 min | leave 15 min | makes soft leeks
    - Pour in the stock and heat through. | ring medium | work 2 min | leave 10 min
  serve hot, within 10 min
`

func handouts(t *testing.T, text string, kinds ...sheets.Kind) []*sheets.Document {
	t.Helper()
	r := compileText(t, text, compiler.Options{Sheets: kinds})
	require.False(t, r.Diags.HasErrors(), "%v", r.Diags.Sorted())
	return r.Documents
}

// plain is every row of a sheet as text, cells parted by bars.
func plain(s sheets.Sheet) (out []string) {
	words := func(runs []sheets.Run) (t string) {
		for _, r := range runs {
			t += r.Text
		}
		return t
	}
	for _, b := range s.Blocks {
		switch b := b.(type) {
		case *sheets.Heading:
			out = append(out, "# "+b.Text)
		case *sheets.Table:
			for _, g := range b.Groups {
				if g.Title != "" {
					out = append(out, strings.TrimSpace("## "+g.Title+" "+g.Note))
				}
				for _, r := range g.Rows {
					var cells []string
					for _, c := range r.Cells {
						cells = append(cells, strings.TrimSpace(words(c.Runs)+" "+words(c.Sub)))
					}
					out = append(out, strings.ReplaceAll(strings.Join(cells, "|"), "\u00a0", " "))
				}
			}
		}
	}
	return out
}

func TestHandouts(t *testing.T) {
	docs := handouts(t, twoEvenings, sheets.Crew)
	require.Len(t, docs, 1, "only the series was asked for")
	d := docs[0]
	require.Equal(t, "Two evenings: for the crew", d.Title)
	require.Equal(t, "Nell Ferry", d.By)
	require.Equal(t, "4 March to 6 March 2027", d.When)
	var ids []string
	for _, s := range d.Sheets {
		ids = append(ids, s.ID)
	}
	require.Equal(t, []string{"series", "to-buy", "filming", "filming-2"}, ids)

	require.Equal(t, []string{
		"## Part 1: Stock Thursday 4 March 2027",
		"A|Stock|800 ml|800 ml in part 2, B Soup|fridge, use by 7 March|",
		"## Part 2: Soup Saturday 6 March 2027",
		"B|Soup|for 4|||",
		"B*1–2|Soup|2|stands ready, as soft leeks||",
	}, plain(d.Sheets[0]))

	require.Equal(t, []string{
		"## Part 1: Stock Thursday 4 March 2027",
		"|400 g|carrots|A",
		"## Part 2: Soup Saturday 6 March 2027",
		"|1.8 kg|leeks|B 600 g · B*1–2 1.2 kg", // one pot and two copies of it
		"|1 block of 250 g|butter 120 g needed|B 40 g · B*1–2 80 g",
	}, plain(d.Sheets[1]))

	require.Equal(t, []string{
		"# Brought from an earlier part", "|800 ml|Stock B Soup|part 1, 4 March|fridge, use by 7 March",
		"# Copies that stand ready", "|B|Copy 1 of Soup, soft leeks|T−0:20|T|after Soup, step 1", "|B|Copy 2 of Soup, soft leeks|T−0:25|T|spare",
	}, before(plain(d.Sheets[3]), "# Made earlier"))
	two := strings.Join(plain(d.Sheets[3]), "\n")
	for _, want := range []string{
		"# Running order\n## Soup for 4\n", "# Everything to have\n## Soup\n",
		"|3 × 600 g|leeks|camera, copies 1, 2\n", "|3 × 40 g|butter|camera, copies 1, 2\n", "|800 ml|stock made in part 1|camera",
	} {
		require.Contains(t, two, want)
	}
	require.NotContains(t, two, "Order of work", "the running order has the steps")
	require.Contains(t, plain(d.Sheets[2]), "|800 ml|Stock|part 2, B Soup|fridge, use by 7 March")
}

// before are the lines above one.
func before(lines []string, at string) []string {
	if i := slices.Index(lines, at); i >= 0 {
		return lines[:i]
	}
	return lines
}

// A folder with a series has the whole and the leaves in the usual pack, after the notebook
// of its recipes or the sheets of its menu; the crew's paper is asked for.
func TestWhatASeriesPrintsUnasked(t *testing.T) {
	docs := handouts(t, twoEvenings)
	var titles []string
	for _, d := range docs[1:] {
		titles = append(titles, d.Title)
	}
	require.Equal(t, []string{"Two evenings", "Two evenings, part 1", "Two evenings, part 2"}, titles)
	require.Len(t, handouts(t, twoEvenings, sheets.Prep), 1)
}

// On the day that the plan works on (32 minutes of soup before 19:00, on the grid of five), the order of work has its clock; letters
// are those of the meal's own sheets.
func TestOrderOfWorkByTheClock(t *testing.T) {
	menu := `menu Supper
  covers 8
  on the table 2027-03-06 19:00
  course Main
    Soup
`
	docs := handouts(t, menu+twoEvenings, sheets.Crew)
	require.Len(t, docs, 1)
	rows := strings.Join(plain(docs[0].Sheets[3]), "\n")
	require.Contains(t, rows, "# Order of work\n18:25|A|Soften the leeks in the butter Soup, step 1|Cook|ring low|20 min\n18:45|A|")
	require.Contains(t, rows, "## Soup for 8\n")
	require.Contains(t, rows, "|3 × 1.2 kg|leeks", "one before the camera and two copies")
}

// What is done for a part on the days before it stands in its order of work,
// with what earlier parts made for the meal; the part before keeps its own days.
// What a piece counts as is said in the units of the page.
func TestOrderOfWorkBeginsOnTheDaysBefore(t *testing.T) {
	const text = `menu Supper
  covers 4
  on the table 2027-03-06 19:00
  hours 2027-03-01, 17:00 to 21:00
  hours day before, 17:00 to 21:00
  hours on the day, 14:00 to 22:00
  course Main
    Curd
    Pickle
series Two evenings
  part 1 Pickle
    shows Pickle
    date 2027-03-01
  part 2 Curd
    shows Curd
    date 2027-03-06
larder
  units US
  onions | piece 8 oz as sold | price 1.10 USD per lb
dish Curd
  serves 4
  gather
    2 lb     yogurt
  method
    - Hang the yogurt in cloth. | work 5 min | stand 20 h, up to 1 day, fridge
    - Turn it out. | work 3 min
  serve cold, within 30 min
dish Pickle
  serves 4
  gather
    8        onions, sliced
    1 quart  white vinegar
  method
    - Pour the vinegar over the onions. | work 5 min | stand 4 days, up to 3 weeks, fridge
    - Lift out of the brine. | work 3 min
  serve cold, within 1 h
`
	d := handouts(t, text, sheets.Crew)[0]
	sheet := func(id string) string {
		i := slices.IndexFunc(d.Sheets, func(s sheets.Sheet) bool { return s.ID == id })
		return strings.Join(plain(d.Sheets[i]), "\n")
	}
	one, two := sheet("filming"), sheet("filming-2")
	order := func(s string) string {
		_, s, _ = strings.Cut(s, "# Order of work")
		s, _, _ = strings.Cut(s, "\n# ")
		return s
	}
	require.Contains(t, two, "|for 4|Pickle for Supper|part 1, 1 March|")
	require.Contains(t, one, "# What goes on from here\n|for 4|Pickle|Supper|")
	require.Regexp(t, `(?s)## Friday 5 March 2027\n[^#]*A\|Hang the yogurt[^#]*## Saturday 6 March 2027\n[^#]*A\|Turn it out`, order(two))
	require.Contains(t, order(two), "20 h 5 min or more", "5 min of work and 20 h at least, not the minutes of the plan")
	require.Contains(t, order(two), "B|Lift out of the brine")
	require.NotContains(t, order(two), "Pour the vinegar", "that was done in part 1")
	require.Contains(t, order(one), "B|Pour the vinegar")
	require.NotContains(t, order(one), "Lift out", "that is for the last part")
	require.NotContains(t, order(one), "##", "one day needs no heading")
	require.Contains(t, sheet("to-buy"), "each counted as 8 oz (the larder)")
}

// Shares that come to an amount no spoon has stand each for itself.
func TestSharesOfSpoons(t *testing.T) {
	text := "menu M\n  covers 4\n  course C\n"
	for _, n := range []string{"A", "B", "C", "D", "E", "F"} {
		text += "    Dish " + n + "\n"
	}
	text += "larder\n  units US\n"
	for i, tsp := range []string{"1", "2", "1 1/2", "1 1/2", "1 1/4", "2"} {
		text += "dish Dish " + string(rune('A'+i)) + "\n  serves 4\n  gather\n    " + tsp + " tsp fine salt\n  method\n    - Mix the salt. | work 1 min\n"
	}
	d := handouts(t, text, sheets.Shopping)[0]
	require.Equal(t, []string{"## From the cupboard: check there is enough", "|3 tbsp + ¼ tsp|fine salt|A 1 tsp · B 2 tsp · C 1½ tsp · D 1½ tsp · E 1¼ tsp · F 2 tsp"}, plain(d.Sheets[0]))
}

// What those who watch a series make has no copies in it, also not by way of what an earlier
// part makes for them; the crew's has. The files of a long name are told apart by their parts.
func TestTheWholeSeriesHasNoCopiesInIt(t *testing.T) {
	text := strings.Replace(twoEvenings, "copies 2 of Soup, as soft leeks", "copies 2 of Soup", 1)
	text = strings.Replace(text, "series Two evenings", `series "Two evenings by the long table of the old station master, who had a pan for every wind and every day of the week"`, 1)
	docs := handouts(t, text, sheets.Crew, sheets.Series, sheets.Leaf)
	require.Len(t, docs, 4)
	made := func(d *sheets.Document, of string) string {
		for _, line := range plain(d.Sheets[0]) {
			if strings.Contains(line, "|"+of+"|") || strings.HasPrefix(line, of+"|") {
				return line
			}
		}
		return ""
	}
	require.Equal(t, "A|Stock|2.4 litres|800 ml in part 2, B Soup; 1.6 litres in part 2, B*1–2 Soup|fridge, use by 7 March|", made(docs[3], "Stock"))
	require.Equal(t, "Stock|800 ml|800 ml in part 2, Soup|fridge, use by 7 March", made(docs[0], "Stock"))
	var files []string
	for _, d := range docs {
		files = append(files, d.File)
	}
	const name = "Two evenings by the long table of the"
	require.Equal(t, []string{name, name + " 1 Stock", name + " 2 Soup", name + " crew"}, files)
}
