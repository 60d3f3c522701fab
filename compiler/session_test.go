package compiler_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/render/text"
	"tamis/testdata/bigbook"
)

// A session that follows a writer through many edits always says what a compiler
// says that reads the book for the first time.
func TestSessionIsAFreshCompile(t *testing.T) {
	pages := compiler.Options{NoPlan: true}
	check := compiler.Options{NoPages: true}
	for _, c := range []struct {
		name  string
		files map[string]string
		dir   string
		edits int
		opt   compiler.Options
	}{
		{"one recipe a file", bigbook.Book{Recipes: 40, Seed: 5, Chapter: 10}.Files(), ".", effort.Rounds(16, 2000), check},
		{"chapters in files", bigbook.Book{Recipes: 36, Seed: 6, Chapter: 12, PerFile: 6}.Files(), ".", effort.Rounds(10, 1000), check},
		{"one folder", bigbook.Book{Recipes: 30, Seed: 7, Chapter: 30}.Files(), ".", effort.Rounds(10, 1000), check},
		{"one chapter of a book", bigbook.Book{Recipes: 30, Seed: 8, Chapter: 10}.Files(), "chapter-003", effort.Rounds(8, 300), check},
		{"small blocks that hang together", tangle(), ".", effort.Rounds(60, 8000), check},
		{"pages", tangle(), ".", effort.Rounds(16, 500), pages},
		{"a menu", exampleTexts(t, "harvest-lunch"), ".", effort.Rounds(6, 100), check},
		{"a notebook", exampleTexts(t, "family-notebook"), ".", effort.Rounds(8, 200), pages},
		{"lessons", exampleTexts(t, "evening-class"), ".", effort.Rounds(6, 100), pages},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			w := &writer{Rand: rand.New(rand.NewPCG(11, uint64(len(c.name)))), t: t, now: maps.Clone(c.files), first: c.files}
			tree, err := w.fresh(c.dir)
			require.NoError(t, err)
			s := compiler.NewSession(c.opt)
			s.Compile(t.Context(), tree)
			for n := range c.edits {
				change, what := w.edit()
				next, err := tree.Change(t.Context(), change)
				whole, wrong := w.fresh(c.dir)
				if wrong != nil {
					require.EqualError(t, err, wrong.Error())
					w.now = maps.Clone(w.first) // nothing is left: begin again
					change = map[string]*string{}
					for _, f := range tree.Files {
						change[f.Path] = nil
					}
					for name, text := range w.now {
						change[name] = &text
					}
					next, err = tree.Change(t.Context(), change)
					require.NoError(t, err)
					whole, err = w.fresh(c.dir)
				}
				require.NoError(t, err)
				tree = next
				got, want := said(t, s.Compile(t.Context(), tree)), said(t, compiler.Compile(t.Context(), whole, c.opt))
				if got != want {
					t.Fatalf("edit %d, %s:\n%s", n, what, apart(want, got))
				}
			}
		})
	}
}

// An edit costs the work that depends on it, and no more.
func TestAnEditCostsWhatDependsOnIt(t *testing.T) {
	files := bigbook.Book{Recipes: 120, Seed: 4, Chapter: 20}.Files()
	files["chapter-001/pots.tamis"] = "base Broth of bones\n  makes 2 litres\n  gather\n    1 kg beef bones\n    3 litres water\n  method\n    - Simmer the beef bones in the water. | ring low | leave 2 h\n" +
		"\nbase Glaze of broth\n  makes 400 ml\n  gather\n    800 ml broth of bones\n  method\n    - Boil the broth of bones down. | ring high | work 5 min | leave 20 min\n"
	files["chapter-001/dish.tamis"] = "dish Glazed roots\n  serves 4\n  gather\n    800 g carrots\n    100 ml glaze of broth\n  method\n    - Roast the carrots with the glaze of broth. | oven 200 C | leave 30 min\n  serve hot\n"
	files["chapter-002/talk.tamis"] = "dish Bread and talk\n  serves 4\n  gather\n    8 slices rye bread\n    100 g tomato relish\n  method\n    - Spread the tomato relish on the rye bread, and put the pickled crumb relish beside it. | work 5 min\n  serve cold\n"
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	tree, err := load.FS(fsys, ".", "", "")
	require.NoError(t, err)
	s := compiler.NewSession(compiler.Options{NoPages: true})
	s.Compile(t.Context(), tree)
	all, ruled := s.Work()
	require.Equal(t, []int{124, 124}, []int{all, ruled}, "at first everything is read")
	inChapter := 0
	for name := range files {
		if strings.HasPrefix(name, "chapter-003/") {
			inChapter++
		}
	}
	for _, c := range []struct {
		what, file, old, new string
		parsed, work         int
	}{
		{"nothing", "chapter-001/dish.tamis", "", "", 0, 0},
		{"a word of a dish", "chapter-001/dish.tamis", "800 g carrots", "900 g carrots", 1, 1},
		{"a base, and both that hang on it", "chapter-001/pots.tamis", "3 litres water", "4 litres water", 1, 3},
		{"a file moves down by a line: its blocks, and the dish", "chapter-001/pots.tamis", "base Broth", "\nbase Broth", 1, 3},
		{"a dish that nobody draws on takes another name", "chapter-001/dish.tamis", "dish Glazed roots", "dish Roots with a shine", 1, 1},
		{"a file is broken", "chapter-001/dish.tamis", "  gather", "gather", 1, 1},
		{"and mended", "chapter-001/dish.tamis", "\ngather", "\n  gather", 1, 1},
		{"a base comes that a sentence elsewhere speaks of", "chapter-001/new.tamis", "", "base Pickled crumb relish\n  makes 200 g\n  gather\n    200 g bread\n  method\n    - Grate the bread. | work 5 min\n", 1, 2},
		{"the book's title", "book.tamis", "A long shelf", "A longer shelf", 1, 0},
		{"a folder's larder speaks of an ingredient", "chapter-003/larder.tamis", "", "larder\n  carrots | piece 90 g\n", 1, inChapter},
		{"a folder's larder says how numbers are written", "chapter-003/larder.tamis", "larder", "larder\n  decimal comma", 1 + inChapter, inChapter},
		{"a house style", "book.tamis", "  by", "  style range dash\n  by", 1, 0},
	} {
		before := map[*load.File]bool{}
		for _, f := range tree.Files {
			before[f] = true
		}
		text := strings.Replace(files[c.file], c.old, c.new, 1)
		change := map[string]*string{c.file: &text}
		if c.old == c.new {
			change = nil
		}
		files[c.file] = text
		tree, err = tree.Change(t.Context(), change)
		require.NoError(t, err)
		s.Compile(t.Context(), tree)
		parsed := 0
		for _, f := range tree.Files {
			if !before[f] {
				parsed++
			}
		}
		require.Equal(t, c.parsed, parsed, "files read: %s", c.what)
		resolved, checked := s.Work()
		require.Equal(t, c.work, resolved, "recipes resolved: %s", c.what)
		if c.what == "a house style" {
			require.Equal(t, 125, checked, "all rules may ask for it")
		} else {
			require.Equal(t, c.work, checked, "recipes checked: %s", c.what)
		}
	}
}

// apart is where two texts begin to differ.
func apart(want, got string) string {
	w, g := strings.SplitAfter(want, "\n"), strings.SplitAfter(got, "\n")
	i := 0
	for i < min(len(w), len(g)) && w[i] == g[i] {
		i++
	}
	return fmt.Sprintf("line %d\nfresh:\n%s\nsession:\n%s", i, strings.Join(w[max(0, i-4):min(len(w), i+8)], ""), strings.Join(g[max(0, i-4):min(len(g), i+8)], ""))
}

// said is all that a result says: findings, what sentences take, pages.
func said(t *testing.T, r *compiler.Result) string {
	var b bytes.Buffer
	require.NoError(t, diag.WriteJSON(&b, r.Diags.Sorted()))
	resolve.WriteReading(&b, r.Model)
	for _, m := range r.Meals {
		fmt.Fprintf(&b, "meal %s:", m.Title)
		for _, mk := range m.Makings {
			fmt.Fprintf(&b, " %s %s × %s;", mk.Letter, mk.Recipe.Name, mk.Factor)
		}
		b.WriteByte('\n')
	}
	for _, d := range r.Documents {
		require.NoError(t, text.Write(&b, d, text.Options{}))
	}
	return b.String()
}

func exampleTexts(t *testing.T, name string) map[string]string {
	out := map[string]string{}
	dir := os.DirFS("../examples/" + name)
	require.NoError(t, fs.WalkDir(dir, ".", func(p string, d fs.DirEntry, err error) error {
		if err == nil && path.Ext(p) == load.Ending {
			text, err := fs.ReadFile(dir, p)
			out[p] = string(text)
			return err
		}
		return err
	}))
	return out
}

// tangle is a small book in which much depends on much: bases of bases, a circle,
// products of steps, shares, blocks like others, choices, names that come near.
func tangle() map[string]string {
	out := map[string]string{
		"book.tamis":   "book Tangle\n  practice UK\n  style range to\n  style units metric\n\n  chapter Pots\n    Leek pot\n    Onion pot\n",
		"larder.tamis": "larder\n  units metric\n  crumb mix | piece 20 g | contains wheat\n",
		"base.tamis": "base Dill butter\n  makes 280 g\n  keeps 3 days, fridge\n  gather\n    250 g butter, soft\n    30 g dill leaves, chopped\n  method\n    - Beat the dill leaves into the butter. | work 6 min\n\n" +
			"base Leek stock\n  makes 1 litre\n  gather\n    400 g leeks\n    1.2 litres water\n  method\n    - Simmer the leeks in the water. | ring low | leave 40 min\n    - Lift out the leeks. | draws 300 g soft leeks\n    - Strain it.\n",
		"pots/leek.tamis": "dish Leek pot\n  serves 4\n  about\n    My aunt made it every Sunday of the long winter.\n  gather\n    800 g leeks\n    40 g dill butter\n    500 ml leek stock\n    either plain\n      20 g parsley\n    or with cream\n      100 ml double cream\n  method\n    - Soften the leeks in the dill butter. | ring low | work 10 min\n    - Add the leek stock, and simmer for 20 min. | ring low | leave 20 min\n    - Finish with the parsley. | if plain | work 1 min\n    - Finish with the double cream. | if with cream | work 1 min\n  serve hot\n",
		"pots/onion.tamis": "dish Onion pot\n  as Leek pot, but\n  gather\n    600 g onions\n\n" +
			"dish Second pot\n  serves 2\n  gather\n    half the leek stock\n    200 g soft leeks\n    2 eggs\n  method\n    - Warm the leek stock with the soft leeks. | ring low | work 5 min\n    - Poach the eggs in it. | ring low | work 4 min\n  serve hot\n",
		"round/round.tamis": "base First round\n  makes 200 g\n  gather\n    100 g second round\n    150 g flour\n  method\n    - Knead the second round into the flour. | work 5 min\n\n" +
			"base Second round\n  makes 200 g\n  gather\n    100 g first round\n    150 ml water\n    20 g raw eggs\n  method\n    - Stir the first round into the water and the raw eggs. | work 5 min\n\n" +
			"dish Round bread\n  serves 8\n  gather\n    200 g first round\n    1 cup flour\n  method\n    - Shape the first round with the flour. | work 5 min | leave 30 min\n    - Bake it. | oven 200 C | leave 30 min\n  serve cold\n",
		"talk.tamis": "dish Table talk\n  serves 4\n  gather\n    200 g soft leeks\n    100 g tomato relish\n    300 g rye bread\n    60 ml olive oil\n    1 lemon\n  method\n    - Warm the soft leeks in the oil. | ring low | work 5 min\n" +
			"    - Spread the crumb relish on the bread, and keep the plain tart warm. | work 5 min\n    - Put the relish and the lemon beside it, with the herb oil. | work 2 min\n  serve warm\n",
		"makers/makes.tamis": "base Sour broth\n  makes 1 litre\n  gather\n    1.2 litres water\n    30 g dried lime\n  method\n    - Boil the dried lime in the water. | ring low | leave 20 min\n      | draws 80 g hot pulp\n    - Strain it. | work 2 min\n\n" +
			"dish Pulp on bread\n  serves 2\n  gather\n    40 g hot pulp\n    2 slices bread\n  method\n    - Spread the hot pulp on the bread. | work 2 min\n  serve warm\n",
		"round/first.tamis": "dish Entry\n  serves 2\n  gather\n    50 g second round\n  method\n    - Toast the second round. | work 2 min\n  serve hot\n",
		"cups.tamis":        "dish Cup cake\n  serves 8\n  gather\n    2 cups flour\n    1 cup sugar\n    3 egg yolks\n  method\n    - Whisk the egg yolks with the sugar. | work 5 min\n    - Fold in the flour. | work 2 min | makes 400 g batter\n    - Bake the batter. | oven 180 C | leave 30 min\n  serve cold\n",
	}
	return out
}

// writer edits a book at random, as writers do, well and badly.
type writer struct {
	*rand.Rand
	t     *testing.T
	now   map[string]string
	first map[string]string
}

func (w *writer) fresh(dir string) (*load.Tree, error) {
	fsys := fstest.MapFS{}
	for name, text := range w.now {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return load.FS(fsys, dir, "", "")
}

func (w *writer) of(words ...string) string { return words[w.IntN(len(words))] }

// edit changes one file or two, and says how.
func (w *writer) edit() (map[string]*string, string) {
	names := slices.Sorted(maps.Keys(w.now))
	change := map[string]*string{}
	put := func(name, text string) {
		w.now[name] = text
		change[name] = &text
	}
	name := w.of(names...)
	text := w.now[name]
	lines := strings.SplitAfter(text, "\n")
	i := w.IntN(len(lines))
	other := strings.SplitAfter(w.now[w.of(names...)], "\n")
	whole := func() string { return strings.Join(lines, "") }
	what := ""
	switch w.IntN(20) {
	case 0, 1, 2:
		at := w.IntN(len(text) + 1)
		put(name, text[:at]+w.of("a", "e", " ", "s", "1", "|", ",", "\n", "½", "cups ", "half the ", "bought ")+text[at:])
		what = "typed a letter"
	case 3:
		from := w.IntN(len(text) + 1)
		put(name, text[:from]+text[min(len(text), from+1+w.IntN(3)):])
		what = "took letters out"
	case 4:
		lines = slices.Delete(lines, i, i+1)
		put(name, whole())
		what = "took a line out"
	case 5:
		lines = slices.Insert(lines, i, other[w.IntN(len(other))])
		put(name, whole())
		what = "copied a line"
	case 6, 7: // a block takes another name, sometimes that of another
		for k := range lines {
			if head, _, ok := strings.Cut(lines[k], " "); ok && (head == "base" || head == "dish") && w.IntN(2) == 0 {
				lines[k] = w.of("base ", "dish ") + w.of("Dill butter", "Leek stock", "Leeks", "Onion", "First round", "Eggs", "Bread", "Double cream", "Plain tart", "Soft leeks", "Leek pot", "Crumb relish", "Tart", "Herb oil", "Hot pulp", "Lemon", "Talk") + "\n"
				break
			}
		}
		put(name, whole())
		what = "renamed a block"
	case 8:
		delete(w.now, name)
		change[name] = nil
		what = "took a file away"
	case 9: // as it was at first
		old := w.of(slices.Sorted(maps.Keys(w.first))...)
		put(old, w.first[old])
		name, what = old, "put a file back"
	case 10:
		delete(w.now, name)
		change[name] = nil
		put(path.Join(w.of(".", "pots", "chapter-001", "chapter-002", "new"), path.Base(name)), text)
		what = "moved a file"
	case 11:
		put(w.of("larder.tamis", "pots/larder.tamis", "chapter-001/larder.tamis"), w.of(
			"larder\n  units US\n", "larder\n  decimal comma\n  units metric\n", "larder\n  units metric\n  leeks | piece 150 g | price 2 EUR per kg\n  leek stock | contains celery\n",
			"larder\n  units metric\n  ladle | measure\n  second round | same as flour\n", "larder\n"))
		what = "changed settings"
	case 12:
		put("book.tamis", w.of("book Tangle\n  style range dash\n  style divided\n", "book Tangle\n  practice US\n  style units US\n  style credits\n  by nobody\n", "book Other\n\n  chapter Pots\n    Leek pot\n    Nothing\n", "larder\n  units metric\n"))
		what = "changed the house style"
	case 13:
		put("kitchen.tamis", w.of("kitchen Mill\n  practice EU-FR\n  cooks Ana\n  rings 2\n", "kitchen Mill\n  cooks Ana, Jo\n", ""))
		what = "changed the kitchen"
	case 14: // what a list gathers
		for k := range lines {
			if strings.HasPrefix(lines[k], "    ") && strings.Contains(lines[k], " g ") && w.IntN(3) == 0 {
				lines[k] = "    " + w.of("100 g ", "half the ", "the rest of the ", "2 cups ", "") + w.of("dill butter", "leek stock", "soft leeks", "batter", "first round", "Leek stock/soft leeks", "pots/Leek pot", "base/Nothing", "dil butter", "leek pot") + "\n"
				break
			}
		}
		put(name, whole())
		what = "gathered another thing"
	case 15: // what a step makes
		for k := range lines {
			for _, word := range []string{"| makes ", "| draws "} {
				if before, _, ok := strings.Cut(lines[k], word); ok && w.IntN(2) == 0 {
					lines[k] = before + word + w.of("80 g ", "300 g ", "") + w.of("hot pulp", "soft leeks", "batter", "tomato relish", "pulp") + "\n"
				}
			}
		}
		put(name, whole())
		what = "named what a step makes"
	case 16: // another block, such as sentences speak of
		put(w.of("more.tamis", "pots/more.tamis", "makers/more.tamis"), w.of("base ", "dish ")+w.of("Crumb relish", "Plain tart", "Herb oil", "Rye bread", "Soft leeks", "Hot pulp", "Leek pot", "Nothing")+
			w.of("\n  makes 200 g\n  gather\n    200 g leeks\n    20 ml oil\n  method\n    - Fry the leeks in the oil. | work 5 min | makes 90 g hot pulp\n    - Stir.\n", "\n"))
		what = "wrote another block"
	case 17:
		put("menu.tamis", w.of("", "menu Supper\n  covers 6\n  course First\n    "+w.of("Second pot", "Cup cake")+"\n  course Main\n    "+w.of("Leek pot", "Leek pot, with cream", "Onion pot", "Table talk")+"\n"))
		what = "changed the menu"
	case 18: // the block it is like, misspelt or not
		for k := range lines {
			if strings.HasPrefix(lines[k], "  as ") {
				lines[k] = "  as " + w.of("Leek pot", "Leek poti", "Table tak", "Crumb relsh", "Cup cke") + ", but\n"
			}
		}
		put(name, whole())
		what = "changed what a block is like"
	case 19:
		put(name, text[:w.IntN(len(text)+1)])
		what = "cut a file off"
	}
	return change, what + " in " + name
}

// A word in a sentence does not make a meal another one: it is not planned again, and a
// minute more is.
func TestAMealIsPlannedAgainWhenItsWorkChanges(t *testing.T) {
	files := exampleTexts(t, "harvest-lunch")
	name := ""
	for f, text := range files {
		if strings.Contains(text, "work 5 min") && strings.Contains(text, "dish ") {
			name = f
		}
	}
	require.NotEmpty(t, name)
	w := &writer{t: t, now: maps.Clone(files), first: files}
	tree, err := w.fresh(".")
	require.NoError(t, err)
	known := &plan.Memory{}
	s := compiler.NewSession(compiler.Options{NoPages: true, Plans: known})
	require.NotNil(t, s.Compile(t.Context(), tree).Timelines[0])
	before := known.Solved()
	require.Positive(t, before)
	change := func(from, to string) {
		text := strings.Replace(files[name], from, to, 1)
		require.NotEqual(t, files[name], text)
		tree, err = tree.Change(t.Context(), map[string]*string{name: &text})
		require.NoError(t, err)
		require.NotNil(t, s.Compile(t.Context(), tree).Timelines[0])
	}
	change("\n  method\n", "\n  # a remark\n  method\n")
	require.Equal(t, before, known.Solved(), "nothing is planned again")
	change("work 5 min", "work 6 min")
	require.Greater(t, known.Solved(), before, "and now it is")
}
