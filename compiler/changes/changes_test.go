package changes_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/changes"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
)

const book = `menu Supper
  covers 4
  on the table 2027-05-02 19:00
  at Boat

  course Main
    Roast leeks
    Bean mash

dish Roast leeks
  serves 4
  gather
    800 g    leeks, sliced
    40 g     butter
    10 g     salt
  method
    - Toss the leeks with the butter and the salt. | work 5 min
    - Roast until soft. | oven 200 C | leave 35 min
    - Warm the plates. | ring low | leave 5 min
  serve hot, within 20 min

dish Bean mash
  serves 4
  gather
    1 kg     beans
    60 ml    olive oil
  method
    - Cook the beans. | ring high | leave 20 min
    - Mash with the olive oil. | work 5 min
  serve hot, within 20 min

kitchen Boat
  cooks Nell, Omar
  oven main, 2 shelves
  rings 4
`

func compiled(t *testing.T, files map[string]string) *compiler.Result {
	t.Helper()
	texts := map[string]*string{}
	for name, text := range files {
		texts[name] = &text
	}
	tree, err := load.Texts(t.Context(), "", texts)
	require.NoError(t, err)
	r := compiler.Compile(t.Context(), tree, compiler.Options{NoPages: true})
	for d := range r.Diags.All() {
		require.NotEqual(t, "error", d.Severity.String(), d.Message)
	}
	return r
}

// between is what is said of an edit, "title: line".
func between(t *testing.T, edits ...string) (out []string) {
	t.Helper()
	text := book
	for i := 0; i < len(edits); i += 2 {
		require.Contains(t, text, edits[i])
		text = strings.ReplaceAll(text, edits[i], edits[i+1])
	}
	for _, g := range changes.Between(compiled(t, map[string]string{"a.tamis": book}), compiled(t, map[string]string{"a.tamis": text})) {
		for _, l := range g.Lines {
			out = append(out, g.Title+": "+l)
		}
	}
	return out
}

func TestNothingForTheCook(t *testing.T) {
	require.Empty(t, between(t))
	require.Empty(t, between(t, "1 kg     beans", "1000 g   beans"), "as much, written in another way")
	require.Empty(t, between(t, "dish Bean mash\n", "# By heart.\ndish Bean mash\n"), "a comment")
	said := strings.Replace(book, "Cook the beans. | ring high | leave 20 min", "Simmer the beans for 20 minutes.", 1)
	confirmed := strings.Replace(said, "for 20 minutes.", "for 20 minutes. | ring low | leave 20 min", 1)
	require.Empty(t, changes.Between(compiled(t, map[string]string{"a.tamis": said}), compiled(t, map[string]string{"a.tamis": confirmed})), "what was read, and is right")
}

func TestWhatHasChanged(t *testing.T) {
	for _, c := range []struct {
		edits []string
		want  []string
		only  bool // nothing else is said of the dish
	}{
		{[]string{"10 g     salt", "12 g     salt"}, []string{"dish Roast leeks: salt: 12 g, before 10 g"}, false},
		{[]string{"leave 35 min", "leave 40 min"}, []string{"dish Roast leeks: step 2 (Roast until soft): leave 40 min, before 35 min, 5 min longer"}, false},
		{[]string{"leeks, sliced", "leeks, halved"}, []string{"dish Roast leeks: leeks: halved, before sliced"}, false},
		{[]string{"200 C", "180 C"}, []string{"dish Roast leeks: step 2 (Roast until soft): oven 180 C, before 200 C"}, false},
		{[]string{"60 ml    olive oil", "60 g     butter", "the olive oil", "the butter"}, []string{"dish Bean mash: new: 60 g butter", "dish Bean mash: gone: 60 ml olive oil", "dish Bean mash: now contains milk"}, false},
		{[]string{"covers 4", "covers 8"}, []string{"menu Supper: for 8 covers, before 4"}, false},
		{[]string{"dish Bean mash", "dish Soft beans", "    Bean mash", "    Soft beans"}, []string{"dish Soft beans: was called Bean mash"}, false},
		{[]string{"    Bean mash\n", ""}, []string{"menu Supper: no longer on the menu: Bean mash"}, false},
		{[]string{"    - Warm the plates. | ring low | leave 5 min\n", ""}, []string{"dish Roast leeks: gone: step 3, Warm the plates"}, true},
		{[]string{"    - Toss the leeks", "    - Wash your hands. | work 1 min\n    - Toss the leeks"}, []string{"dish Roast leeks: new: step 1, Wash your hands"}, true},
		// What the margins, the fields and the kitchen say beside times and heats.
		{[]string{"| oven 200 C | leave 35 min", "| oven 200 C, top shelf | tool rack | leave 35 min"}, []string{"dish Roast leeks: step 2 (Roast until soft): now tool rack", "dish Roast leeks: step 2 (Roast until soft): now top shelf"}, true},
		{[]string{"    800 g    leeks, sliced", "    800 g    leeks, sliced | work 6 min"}, []string{"dish Roast leeks: leeks: now work 6 min"}, true},
		{[]string{"within 20 min\n\ndish Bean", "within 10 min\n\ndish Bean"}, []string{"dish Roast leeks: serve hot, within 10 min, before serve hot, within 20 min"}, true},
		{[]string{"  serves 4\n  gather\n    800", "  about\n    For a cold day.\n  serves 4\n  gather\n    800"}, []string{"dish Roast leeks: the headnote is in other words"}, true},
		{[]string{"  rings 4", "  rings 2"}, []string{"menu Supper: the kitchen: rings 2, before rings 4"}, false},
		{[]string{"    Bean mash\n", "    Bean mash, for 6\n"}, []string{"menu Supper: now Bean mash, for 6"}, false},
		{[]string{"  at Boat\n", "  at Boat\n  task Lay the table, work 20 min, before Main\n"}, []string{"menu Supper: now task Lay the table, work 20 min, before Main"}, false},
		{[]string{"oven 200 C | leave 35 min", "oven 220 C for 10 min then 190 C | leave 35 min"}, []string{"dish Roast leeks: step 2 (Roast until soft): oven 220 C for 10 min then 190 C, before 200 C"}, true},
		// A time that only the sentence says, and one that is confirmed in the margin.
		{[]string{"Cook the beans. | ring high | leave 20 min", "Simmer the beans for 30 minutes, or until soft."}, []string{"dish Bean mash: step 1 (Simmer the beans for 30 minutes): leave 30 min, before 20 min, 10 min longer"}, false},
		// What a sentence takes, and where it stands.
		{[]string{"butter and the salt.", "butter and half the salt."}, []string{`dish Roast leeks: step 1 is in other words: "… butter and half the salt.", before "… butter and the salt."`, "dish Roast leeks: step 1 (Toss the leeks with the butter): takes 5 g salt, before all 10 g salt"}, true},
		{[]string{"    - Roast until soft. | oven 200 C | leave 35 min\n    - Warm the plates. | ring low | leave 5 min\n", "    - Warm the plates. | ring low | leave 5 min\n    - Roast until soft. | oven 200 C | leave 40 min\n"}, []string{"dish Roast leeks: step 3 (Roast until soft) was step 2", "dish Roast leeks: step 3 (Roast until soft): leave 40 min, before 35 min, 5 min longer"}, true},
		// A new step does not make the one below it another.
		{[]string{"    - Toss the leeks with the butter and the salt. | work 5 min", "    - Wash the leeks. | work 2 min\n    - Toss the leeks with the butter and with the salt. | work 5 min"}, []string{"dish Roast leeks: new: step 1, Wash the leeks", `dish Roast leeks: step 2 is in other words: "… butter and with the salt.", before "… butter and the salt."`}, false},
		// A sentence that has the new name of what it takes is no other sentence.
		{[]string{"800 g    leeks", "800 g    onions", "Toss the leeks", "Toss the onions"}, []string{"dish Roast leeks: 800 g onions in place of leeks"}, true},
	} {
		got := between(t, c.edits...)
		if c.only {
			require.Equal(t, c.want, slices.DeleteFunc(got, func(l string) bool { return strings.HasPrefix(l, "menu ") }))
		}
		for _, w := range c.want {
			require.Contains(t, got, w, "%q", c.edits)
		}
	}
}

// What the plan makes of it is said too.
func TestThePlanHasChanged(t *testing.T) {
	got := strings.Join(between(t, "leave 35 min", "leave 50 min"), "\n")
	require.Contains(t, got, "menu Supper: work starts 15 min earlier: ")
	// While the plates get warm for so long, the beans boil beside them.
	require.Contains(t, between(t, "ring high | leave 20 min", "3 rings high | leave 20 min", "ring low | leave 5 min", "ring low | leave 50 min"), "menu Supper: now needs 4 rings at once, before one ring")
}

// When work starts is told by the clock, also where the table is laid at another hour; where
// the day is another, as seen from the table.
func TestWorkStartsByTheClock(t *testing.T) {
	got := between(t, "2027-05-02 19:00", "2027-05-02 18:30")
	require.Contains(t, got, "menu Supper: on the table 2 May 18:30, before 2 May 19:00")
	require.Contains(t, strings.Join(got, "\n"), "menu Supper: work starts 30 min earlier: ")
	require.NotContains(t, strings.Join(between(t, "2027-05-02", "2027-05-09"), "\n"), "work starts")
	require.Contains(t, strings.Join(between(t, "2027-05-02", "2027-05-09", "leave 35 min", "leave 50 min"), "\n"), "work starts 15 min earlier, as seen from the table: ")
}

func TestMovedAndGone(t *testing.T) {
	oil := "base Herb oil\n  makes 300 ml\n  gather\n    300 ml   olive oil\n    20 g     parsley\n  method\n    - Blend the parsley with the olive oil. | work 5 min\n"
	was := compiled(t, map[string]string{"book.tamis": "book Ours\n  by us\n", "a/oil.tamis": oil})
	moved := changes.Between(was, compiled(t, map[string]string{"book.tamis": "book Ours\n  by us\n", "b/oil.tamis": oil}))
	require.Equal(t, []changes.Group{{Title: "base Herb oil", Lines: []string{"was in a, is now in b"}}}, moved)
	ours, menu := "book Ours\n  by us\n", "menu Supper\n  covers 4\n\n  course Main\n    Toast, to be written\n"
	here, below := compiled(t, map[string]string{"book.tamis": ours, "supper.tamis": menu}), compiled(t, map[string]string{"book.tamis": ours, "sweet/supper.tamis": menu})
	require.Equal(t, []changes.Group{{Title: "menu Supper", Lines: []string{"was in the book's own folder, is now in sweet"}}}, changes.Between(here, below))
	require.Equal(t, []changes.Group{{Title: "menu Supper", Lines: []string{"was in sweet, is now in the book's own folder"}}}, changes.Between(below, here))
	gone := changes.Between(was, compiled(t, map[string]string{"book.tamis": "book Ours\n  by us\n", "a/other.tamis": "dish Toast\n  serves 1\n  gather\n    2 slices bread\n  method\n    - Toast the bread. | work 2 min\n"}))
	require.Equal(t, []changes.Group{{Title: "dish Toast", Lines: []string{"is new"}}, {Title: "base Herb oil", Lines: []string{"is gone"}}}, gone)
	d := changes.Document(gone)
	require.Equal(t, "base Herb oil", d.Sheets[0].Blocks[2].(*sheets.Heading).Text)
}

// Half of what a dish gathers and its name have changed at once: in its own file it is known
// again, and elsewhere it is another dish.
func TestRenamedAndRewrittenInItsPlace(t *testing.T) {
	const soup = "dish Leek soup\n  serves 4\n  gather\n    500 g leeks\n    40 g butter\n  method\n    - Soften the leeks. | ring low | leave 10 min\n    - Stir in the butter. | work 1 min\n    - Crush the leeks. | work 2 min\n"
	onions := strings.NewReplacer("Leek soup", "Onion soup", "leeks", "onions").Replace(soup)
	was := compiled(t, map[string]string{"soup.tamis": soup})
	groups := changes.Between(was, compiled(t, map[string]string{"soup.tamis": onions}))
	require.Len(t, groups, 1)
	require.Equal(t, "dish Onion soup", groups[0].Title)
	require.Contains(t, groups[0].Lines, "was called Leek soup")
	require.Len(t, changes.Between(was, compiled(t, map[string]string{"other.tamis": onions})), 2)
}
