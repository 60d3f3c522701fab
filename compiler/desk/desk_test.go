package desk

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/check"
	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/format"
	"tamis/lang/quantity"
)

const herbOil = `base Herb oil
  makes 300 ml
  gather
    280 ml   olive oil
    60 g     parsley leaves
  method
    - Blend the parsley leaves with the olive oil. | work 5 min
`

const beans = `dish Charred beans
  serves 6
  gather
    600 g    green beans, topped                | work 5 min
    60 ml    herb oil
    2        lemons, halved
  method
    - Get a heavy pan very hot. Char the beans in batches.
      | ring high | work 4 min per 300 g green beans
    - Toss with half the herb oil and one of the lemons.
      | work 2 min
    - Spoon over the rest of the oil and squeeze the other lemon. | work 1 min
  serve hot, within 10 min
`

const lunch = `menu Bean lunch
  covers 12
  on the table 2027-05-02 13:00
  at Barn

  course Table
    Charred beans

kitchen Barn
  cooks Ana
  rings 2
  tools mandoline
`

func supper(t testing.TB) *editor {
	return newEditor(t, map[string]string{"oil.tamis": herbOil, "beans.tamis": beans, "lunch.tamis": lunch})
}

func TestFindingsWhileTyping(t *testing.T) {
	e := supper(t)
	require.NotContains(t, codes(e.open("beans.tamis", beans)), "U104")
	found := e.edit("beans.tamis", "serves 6", "servse 6")
	i := slices.IndexFunc(found, func(d diagnostic) bool { return d.Severity == 1 })
	require.GreaterOrEqual(t, i, 0)
	require.Equal(t, "tamis", found[i].Source)
	require.Contains(t, found[i].Message, "Try: ")
	require.Contains(t, e.span("beans.tamis", found[i].Range), "servse")
	for _, d := range e.edit("beans.tamis", "servse 6", "serves 6") {
		require.NotEqual(t, 1, d.Severity, d.Message)
	}
}

// What the editor is told is what the command says of the same folder.
func TestFindingsAreThoseOfCheck(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", strings.Replace(beans, "60 ml    herb oil", "600 ml   herb oil", 1))
	for len(e.asked) < 2 {
		e.next()
	}
	e.write("beans.tamis", e.texts["beans.tamis"])
	tree, err := load.Path(e.dir)
	require.NoError(t, err)
	want, got := map[string][]string{}, map[string][]string{}
	for _, d := range compiler.Compile(t.Context(), tree, compiler.Options{NoPages: true}).Diags.Sorted() {
		name := filepath.Base(d.At.Span.File.Name)
		want[name] = append(want[name], d.Code)
	}
	for name, p := range e.found {
		if len(p.Diagnostics) > 0 {
			got[name] = codes(p.Diagnostics)
		}
	}
	for name := range want {
		require.ElementsMatch(t, want[name], got[name], name)
	}
	require.Len(t, got, len(want))
}

func TestRelatedPlaceInAnotherFile(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	e.open("oil.tamis", herbOil)
	e.edit("oil.tamis", "makes 300 ml", "makes 3 loaves")
	var related []relatedInfo
	for _, p := range e.found {
		for _, d := range p.Diagnostics {
			related = append(related, d.Related...)
		}
	}
	var files []string
	for _, r := range related {
		files = append(files, filepath.Base(r.Location.URI))
	}
	require.Contains(t, files, "oil.tamis")
}

func TestPlansWhenNobodyTypes(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	for len(e.asked) < 2 { // the first asks to be told of files
		e.next()
	}
	require.Equal(t, "workspace/inlayHint/refresh", e.asked[1].Method)
	var hints []inlayHint
	e.call("textDocument/inlayHint", e.with(e.of("beans.tamis"), "range", textRange{End: position{100, 0}}), &hints)
	var labels []string
	for _, h := range hints {
		labels = append(labels, h.Label)
	}
	all := strings.Join(labels, "; ")
	require.Contains(t, all, "→ 1.2 kg", "600 g for six are 1.2 kg for twelve")
	require.Contains(t, all, "→ 120 ml")
	require.Contains(t, all, "→ 4")
	require.Contains(t, all, "12:55 to 12:56")
}

func TestHover(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	e.open("lunch.tamis", lunch)
	says := func(name, words string) string {
		var h *hover
		e.call("textDocument/hover", e.at(name, words), &h)
		if h == nil {
			return ""
		}
		return h.Contents.Value
	}
	got := says("beans.tamis", "half the herb^ oil")
	require.Contains(t, got, "**base Herb oil**\n\nMakes 300 ml as it is written.")
	require.Contains(t, got, "120 ml goes into Charred beans")
	require.Contains(t, got, "takes 30 ml herb oil, leaves 30 ml")
	require.Contains(t, says("beans.tamis", "600 g    green^ beans"), "Bean lunch: 1.2 kg")
	require.Contains(t, says("beans.tamis", "To^ss with"), "takes 30 ml herb oil, leaves 30 ml")
	require.Contains(t, says("beans.tamis", "To^ss with"), "60 ml herb oil", "for twelve")
	require.Contains(t, says("beans.tamis", "| ri^ng high"), "on a ring: high, medium or low")
	require.Contains(t, says("beans.tamis", "with^in 10 min"), "how it is served", "the word of the line")
	require.Contains(t, says("lunch.tamis", "cov^ers 12"), "how many sit down")
	require.Contains(t, says("lunch.tamis", "at B^arn"), "kitchen Barn")
	require.Contains(t, says("lunch.tamis", "    Char^red beans"), "Serves 6 as it is written.\n\nBean lunch: for 12.")
	require.Empty(t, says("lunch.tamis", "12^\n"))
}

func TestHoverNamesTheSourceOfACaution(t *testing.T) {
	e := newEditor(t, nil)
	e.open("fish.tamis", `dish Crisps
  serves 4
  gather
    500 g    potatoes
    1 litre  sunflower oil
  method
    - Slice the potatoes on a mandoline. | work 5 min | tool mandoline
    - Heat the oil to 180 C and deep-fry the potatoes. | ring high | watch 10 min
  serve hot
`)
	var h *hover
	e.call("textDocument/hover", e.at("fish.tamis", "Sl^ice the"), &h)
	require.Contains(t, h.Contents.Value, "Caution: ")
	require.Contains(t, h.Contents.Value, "ource")
}

func TestCompletion(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	e.open("lunch.tamis", lunch)
	e.open("oil.tamis", herbOil)
	offered := func(name, old, text string) []string {
		was := e.texts[name]
		e.edit(name, old, text)
		var list completionList
		e.call("textDocument/completion", e.at(name, text), &list)
		e.open(name, was)
		var out []string
		for _, it := range list.Items {
			out = append(out, it.Label)
		}
		return out
	}
	require.Contains(t, offered("beans.tamis", "  serve hot, within 10 min\n", "  te"), "tested")
	require.NotContains(t, offered("beans.tamis", "  serve hot, within 10 min\n", "  te"), "tool", "a margin's word")
	require.Contains(t, offered("beans.tamis", "| ring high", "| me"), "meanwhile")
	require.NotContains(t, offered("beans.tamis", "| ring high", "| "), "serves")
	require.Subset(t, offered("beans.tamis", "Char the beans", "Char the gre"), []string{"green beans"})
	require.Subset(t, offered("beans.tamis", "one of the lemons", "one of the lem"), []string{"lemons", "lemon"})
	require.Contains(t, offered("beans.tamis", "    60 ml    herb oil", "    60 ml    he"), "herb oil")
	require.Contains(t, offered("beans.tamis", "    60 ml    herb oil", "    60 m"), "ml")
	require.Contains(t, offered("beans.tamis", "    60 ml    herb oil", "    60 ml    aub"), "aubergine")
	require.Contains(t, offered("beans.tamis", "| work 2 min", "| tool "), "mandoline")
	require.Contains(t, offered("beans.tamis", "| work 2 min", "| work 2 "), "min")
	require.Equal(t, []string{"min", "h", "s", "days", "weeks"}, offered("beans.tamis", "| work 2 min", "| work 2 "), "and no grams")
	require.Equal(t, []string{"C", "F"}, offered("beans.tamis", "| work 2 min", "| core 70 "))
	require.Contains(t, offered("beans.tamis", "| work 2 min", "| makes 200 "), "ml")
	require.Contains(t, offered("beans.tamis", "  serve hot, within 10 min\n", "  keeps 2 "), "days")
	require.NotContains(t, offered("beans.tamis", "    60 ml    herb oil", "    60 g     bee"), "beefs", "of what is weighed there are no several")
	require.Equal(t, "green beans", offered("oil.tamis", "    280 ml   olive oil", "    300 g    gre")[0], "what others gather comes first")
	require.Contains(t, offered("lunch.tamis", "  covers 12", "  task Lay the table, work 5 min, before "), "Charred beans")
	require.Contains(t, offered("beans.tamis", "| work 2 min", "| uses "), "herb oil")
	require.Contains(t, offered("lunch.tamis", "    Charred beans", "    Ch"), "Charred beans")
	require.Contains(t, offered("lunch.tamis", "    Charred beans", "    Charred beans, ah"), "ahead")
	require.Contains(t, offered("lunch.tamis", "at Barn", "at B"), "Barn")
	require.Empty(t, offered("beans.tamis", "    60 ml    herb oil", "    60 ml    sauces/"), "a path that is being written")
	require.Empty(t, offered("beans.tamis", "  serve hot, within 10 min\n", "  # a not"))
}

func TestDefinitionAndReferences(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	e.open("lunch.tamis", lunch)
	var list []location
	e.call("textDocument/definition", e.at("beans.tamis", "half the herb^ oil"), &list)
	require.Equal(t, []string{"oil.tamis: Herb oil"}, e.said(list))
	e.call("textDocument/definition", e.at("lunch.tamis", "    Char^red"), &list)
	require.Equal(t, []string{"beans.tamis: Charred beans"}, e.said(list))
	e.call("textDocument/definition", e.at("lunch.tamis", "at Ba^rn"), &list)
	require.Equal(t, []string{"lunch.tamis: Barn"}, e.said(list))
	all := e.with(e.at("beans.tamis", "60 ml    herb^ oil"), "context", map[string]any{"includeDeclaration": true})
	e.call("textDocument/references", all, &list)
	require.Equal(t, []string{"beans.tamis: herb oil", "beans.tamis: herb oil", "beans.tamis: oil", "oil.tamis: Herb oil"}, e.said(list))
	e.call("textDocument/references", e.at("beans.tamis", "600 g    green^ beans"), &list)
	require.Equal(t, []string{"beans.tamis: beans", "beans.tamis: green beans"}, e.said(list))
	var marked []highlight
	e.call("textDocument/documentHighlight", e.at("beans.tamis", "60 ml    herb^ oil"), &marked)
	require.Len(t, marked, 3)
}

func TestRename(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	e.open("lunch.tamis", lunch)
	rename := func(name, words, to string) *workspaceEdit {
		t.Helper()
		var w *workspaceEdit
		e.call("textDocument/rename", e.with(e.at(name, words), "newName", to), &w)
		return w
	}
	w := rename("beans.tamis", "half the herb^ oil", "Green dressing")
	require.Contains(t, e.carriedOut("oil.tamis", w), "base Green dressing\n")
	got := e.carriedOut("beans.tamis", w)
	require.Contains(t, got, "    60 ml    green dressing\n")
	require.Contains(t, got, "half the green dressing and")
	require.Contains(t, got, "the rest of the green dressing and", "`the oil` is no word for it any more")

	w = rename("beans.tamis", "half the herb^ oil", "Basil oil")
	require.Contains(t, e.carriedOut("beans.tamis", w), "the rest of the oil and", "the short form fits the new name too")

	w = rename("beans.tamis", "2        lem^ons", "limes")
	got = e.carriedOut("beans.tamis", w)
	require.Contains(t, got, "2        limes, halved")
	require.Contains(t, got, "one of the limes")
	require.Contains(t, got, "the other lime.")

	w = rename("lunch.tamis", "    Char^red", "Burnt beans")
	require.Contains(t, e.carriedOut("beans.tamis", w), "dish Burnt beans\n")
	require.Contains(t, e.carriedOut("lunch.tamis", w), "    Burnt beans\n")

	require.Contains(t, e.refused("textDocument/rename", e.with(e.at("beans.tamis", "half the herb^ oil"), "newName", "Charred beans")).Message, "cannot be called")
	require.Contains(t, e.refused("textDocument/rename", e.with(e.at("beans.tamis", "2        lem^ons"), "newName", "green beans")).Message, "cannot be called")
	require.Contains(t, e.refused("textDocument/rename", e.with(e.at("beans.tamis", "half the herb^ oil"), "newName", "a | b")).Message, "cannot be a name")
	require.Contains(t, e.refused("textDocument/prepareRename", e.at("lunch.tamis", "cov^ers 12")).Message, "nothing that has a name")
	var p prepared
	e.call("textDocument/prepareRename", e.at("beans.tamis", "rest of the o^il"), &p)
	require.Equal(t, "Herb oil", p.Placeholder)
}

// What is named in fields and headnotes is renamed with the rest.
func TestRenameInFieldsAndHeadnotes(t *testing.T) {
	e := newEditor(t, nil)
	e.open("a.tamis", `dish Milk loaf
  about
    Better than any plain loaf, milk loaf keeps a week. A milk loafer it is not.
  makes 2 loaves
  gather, percent of flour
    100 %    flour
    60 %     milk
    2 %      salt
  method
    - Mix the flour, the milk and the salt. | work 10 min
    - Bake. | oven 200 C | leave 40 min

dish Water loaf
  as Milk loaf, but
  replace milk with water

dish Lean loaf
  about
    A Milk loaf without milk.
  as Milk loaf, but
  without milk
`)
	var w *workspaceEdit
	e.call("textDocument/rename", e.with(e.at("a.tamis", "60 %     mi^lk"), "newName", "buttermilk"), &w)
	got := e.carriedOut("a.tamis", w)
	require.Contains(t, got, "  replace buttermilk with water")
	require.Contains(t, got, "  without buttermilk")
	require.Contains(t, got, "the flour, the buttermilk and")
	e.call("textDocument/rename", e.with(e.at("a.tamis", "100 %    fl^our"), "newName", "strong flour"), &w)
	require.Contains(t, e.carriedOut("a.tamis", w), "gather, percent of strong flour\n    100 %    strong flour")
	e.call("textDocument/rename", e.with(e.at("a.tamis", "as Milk^ loaf, but\n  replace"), "newName", "House bread"), &w)
	got = e.carriedOut("a.tamis", w)
	require.Contains(t, got, "plain loaf, house bread keeps a week. A milk loafer")
	require.Contains(t, got, "A House bread without milk")
	require.Equal(t, 2, strings.Count(got, "as House bread, but"))
}

// What the larder says of a thing goes with it to its new name, and is never lost.
func TestRenameTakesTheLarderAlong(t *testing.T) {
	toast := func(name, spread string) string {
		return "dish " + name + `
  serves 4
  gather
    200 g    ` + spread + `
    8 slices toast
  method
    - Put the ` + spread + ` on the toast. | work 5 min
  serve warm
`
	}
	rows := `larder
units metric
house spread | contains milk, nuts | price 8.40 per kg
brown spread | same as house spread
`
	done := func(texts map[string]string, old, to, in string) (map[string]string, string) {
		t.Helper()
		all := map[string]*string{}
		for name, text := range texts {
			all[name] = &text
		}
		tree, err := load.Texts(t.Context(), "book", all)
		require.NoError(t, err)
		list, err := Rename(t.Context(), compiler.Compile(t.Context(), tree, compiler.Options{NoPages: true, NoPlan: true}), old, to, in)
		if err != nil {
			return nil, err.Error()
		}
		out := map[string]string{}
		for f, a := range diag.Edited(list) {
			out[filepath.Base(f.Name)] = a.Text
		}
		return out, ""
	}
	book := map[string]string{"larder.tamis": rows, "a.tamis": toast("Toast", "house spread"), "b.tamis": toast("Late toast", "house spread"), "c.tamis": toast("Brown toast", "brown spread")}
	got, refused := done(book, "house spread", "our spread", "")
	require.Empty(t, refused)
	require.Contains(t, got["larder.tamis"], "our spread | contains milk, nuts | price 8.40 per kg\nbrown spread | same as our spread\n")
	require.Contains(t, got["a.tamis"], "200 g    our spread")
	require.Contains(t, got["b.tamis"], "200 g    our spread")

	_, refused = done(book, "house spread", "our spread", "Toast")
	require.Contains(t, refused, `in Late toast, "house spread" would lose what is known of it: it contains milk, it contains nut`)
	require.Contains(t, refused, "its price")

	book["larder.tamis"] = rows + "our spread | contains milk, nuts | price 9 per kg\n"
	got, refused = done(book, "house spread", "our spread", "Toast")
	require.Empty(t, refused, "the new name has a row of its own")
	require.Len(t, got, 1)

	book["larder.tamis"] = rows + "our spread | contains milk\n"
	_, refused = done(book, "house spread", "our spread", "")
	require.Contains(t, refused, "it contains nut")

	_, refused = done(map[string]string{"a.tamis": toast("Toast", "butter")}, "butter", "grobbins", "")
	require.Contains(t, refused, "it contains milk")
	require.Contains(t, refused, "`grobbins | same as butter`")
}

func TestByProducts(t *testing.T) {
	e := newEditor(t, nil)
	e.open("lamb.tamis", `dish Slow lamb
  serves 4
  gather
    1 kg     lamb shoulder
  method
    - Roast the lamb shoulder. | oven 160 C | leave 3 h | makes 200 ml lamb fat
  serve hot

dish Potatoes in fat
  serves 4
  gather
    800 g    potatoes
    100 ml   lamb fat
  method
    - Roast the potatoes in the lamb fat. | oven 200 C | leave 40 min
  serve hot
`)
	var list []location
	e.call("textDocument/definition", e.at("lamb.tamis", "in the lamb^ fat"), &list)
	require.Len(t, list, 1)
	require.Equal(t, 5, list[0].Range.Start.Line)
	var w *workspaceEdit
	e.call("textDocument/rename", e.with(e.at("lamb.tamis", "100 ml   lamb^ fat"), "newName", "dripping"), &w)
	got := e.carriedOut("lamb.tamis", w)
	require.Contains(t, got, "makes 200 ml dripping")
	require.Contains(t, got, "100 ml   dripping")
	require.Contains(t, got, "in the dripping.")
}

func TestCodeActions(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	found := e.edit("beans.tamis", "| ring high", "| rign high")
	actions := func(r textRange, only ...string) (out []codeAction) {
		e.call("textDocument/codeAction", map[string]any{"textDocument": map[string]any{"uri": e.uri("beans.tamis")}, "range": r, "context": map[string]any{"diagnostics": []any{}, "only": only}}, &out)
		return out
	}
	list := actions(found[0].Range)
	require.NotEmpty(t, list)
	require.Equal(t, "quickfix", list[0].Kind)
	require.Contains(t, e.carriedOut("beans.tamis", list[0].Edit), "| ring high")
	require.Equal(t, found[0].Code, list[0].Diagnostics[0].Code)
	require.Equal(t, e.version, *list[0].Edit.DocumentChanges[0].TextDocument.Version, "for the text that the editor has")
	e.edit("beans.tamis", "| rign high", "| ring high")

	// What a sentence says is offered for its margin.
	e.edit("beans.tamis", "Toss with half", "Simmer gently for 20 minutes with half")
	e.edit("beans.tamis", "\n      | work 2 min", "")
	whole := textRange{End: position{100, 0}}
	var written, allowed string
	for _, a := range actions(whole) {
		if strings.HasPrefix(a.Title, "Write into the margin:") {
			written = e.carriedOut("beans.tamis", a.Edit)
		}
		if strings.HasPrefix(a.Title, "Allow ") && allowed == "" {
			allowed = e.carriedOut("beans.tamis", a.Edit)
		}
	}
	require.Contains(t, written, "20 min ?")
	require.Contains(t, allowed, "dish Charred beans\n  allow ")
	all := actions(whole, "source.fixAll.tamisOffered")
	require.Len(t, all, 1)
	require.Contains(t, e.carriedOut("beans.tamis", all[0].Edit), "20 min ?")
}

// Every cure that the rules offer of their own bad texts is offered to an editor, and
// the finding is gone when it is carried out.
func TestEveryCureIsOffered(t *testing.T) {
	fixes, worked, asked := 0, 0, 0
	e := newEditor(t, nil)
	for _, r := range check.All {
		if r.Bad == "" || strings.Contains(r.Bad, "\n-- ") || strings.HasPrefix(r.Bad, "-- ") {
			continue
		}
		name := r.Code + "/a.tamis" // a folder of its own
		found := e.open(name, r.Bad)
		for _, d := range found {
			if d.Code != r.Code {
				continue
			}
			var list []codeAction
			e.call("textDocument/codeAction", map[string]any{"textDocument": map[string]any{"uri": e.uri(name)}, "range": d.Range, "context": map[string]any{}}, &list)
			for _, a := range list {
				if a.Kind != quickFix || len(a.Diagnostics) == 0 || a.Diagnostics[0].Code != r.Code || strings.HasPrefix(a.Title, "Allow") {
					continue
				}
				if a.Edit != nil {
					fixes++
					continue // tried where the rules are
				}
				asked++
				a.Data.Version = e.version
				m := e.answer(e.ask("codeAction/resolve", a))
				if m.Error != nil {
					t.Logf("%s: %s: %s", r.Code, a.Title, m.Error.Message)
					continue
				}
				var done codeAction
				require.NoError(t, json.Unmarshal(m.Result, &done))
				text := e.carriedOut(name, done.Edit)
				require.NotEqual(t, r.Bad, text)
				count := func(list []diagnostic) (n int) {
					for _, d := range list {
						n += btoi(d.Code == r.Code)
					}
					return n
				}
				before := count(found)
				require.Less(t, count(e.open(name, text)), before, "%s: %s\n%s", r.Code, a.Title, text)
				e.open(name, r.Bad)
				worked++
			}
		}
		e.tell("textDocument/didClose", e.of(name))
	}
	t.Logf("%d fixes; of %d pieces of advice %d have their place", fixes, asked, worked)
	require.Greater(t, fixes, 30)
	require.Greater(t, worked, asked*9/10)
}

// What the planner tried before it says it is offered too, and is no less true when it
// is written down.
func TestCuresOfAPlanAreOffered(t *testing.T) {
	leeks := "\n  course Main\n    Buttered leeks\n\ndish Buttered leeks\n  serves 4\n  gather\n    800 g    leeks\n    40 g     butter\n  method\n" +
		"    - Soften the leeks in the butter. | work 40 min\n    - Chill them. | work 2 min\n    pause up to 1 day, fridge\n    - Dress them. | work 2 min\n  serve cold\n\nkitchen Boat\n  cooks Nell, Omar\n  rings 2\n"
	menu := "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n  at Boat\n  hours on the day, 18:45 to 20:00\n" + leeks
	late := func(list []diagnostic) bool {
		return slices.ContainsFunc(list, func(d diagnostic) bool { return d.Code == "P201" || d.Code == "P202" || d.Code == "P203" })
	}
	e := newEditor(t, nil)
	e.open("a.tamis", menu)
	for !late(e.found["a.tamis"].Diagnostics) {
		e.next()
	}
	var list []codeAction
	e.call("textDocument/codeAction", map[string]any{"textDocument": map[string]any{"uri": e.uri("a.tamis")}, "range": textRange{End: position{99, 0}}, "context": map[string]any{}}, &list)
	written := map[string]string{}
	for _, a := range list {
		if len(a.Diagnostics) > 0 && late(a.Diagnostics) && a.Edit != nil {
			written[a.Title] = e.carriedOut("a.tamis", a.Edit)
		}
	}
	all := ""
	for title, text := range written {
		t.Log(title)
		all += text
		tree, err := load.Texts(t.Context(), "", map[string]*string{"a.tamis": &text})
		require.NoError(t, err)
		for d := range compiler.Compile(t.Context(), tree, compiler.Options{NoPages: true}).Diags.All() {
			require.False(t, late([]diagnostic{{Code: d.Code}}), "%s: %s\n%s", title, d.Message, text)
		}
	}
	require.Contains(t, all, "  hours on the day, 17:45 to 20:00\n")
}

func TestAllowSilences(t *testing.T) {
	e := newEditor(t, nil)
	text := "dish Leeks\n  serves 4\n  gather\n    800 g    leeks\n    40 g     butter\n  method\n    - Soften the leeks. | ring low | work 10 min\n  serve hot\n"
	found := e.open("a.tamis", text)
	require.Contains(t, codes(found), "U201")
	var list []codeAction
	e.call("textDocument/codeAction", map[string]any{"textDocument": map[string]any{"uri": e.uri("a.tamis")}, "range": textRange{End: position{9, 0}}, "context": map[string]any{}}, &list)
	for _, a := range list {
		if a.Title == "Allow U201 here, with a reason" {
			require.Contains(t, e.carriedOut("a.tamis", a.Edit), "dish Leeks\n  allow U201: ")
			require.NotContains(t, codes(e.open("a.tamis", e.carriedOut("a.tamis", a.Edit))), "U201")
			return
		}
	}
	require.Fail(t, "it is not offered")
}

func TestSymbolsFoldsAndTokens(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	var list []documentSymbol
	e.call("textDocument/documentSymbol", e.of("beans.tamis"), &list)
	require.Len(t, list, 1)
	require.Equal(t, "Charred beans", list[0].Name)
	require.Equal(t, "gather", list[0].Children[0].Name)
	require.Equal(t, "600 g", list[0].Children[0].Children[0].Detail)
	require.Len(t, list[0].Children[1].Children, 3, "the steps")
	var found []workspaceSymbol
	e.call("workspace/symbol", map[string]any{"query": "oil"}, &found)
	require.Len(t, found, 1)
	require.Equal(t, "Herb oil", found[0].Name)
	var folds []foldingRange
	e.call("textDocument/foldingRange", e.of("beans.tamis"), &folds)
	require.Contains(t, folds, foldingRange{Start: 0, End: 12})
	require.Contains(t, folds, foldingRange{Start: 2, End: 5})
	var tokens semanticTokens
	e.call("textDocument/semanticTokens/full", e.of("beans.tamis"), &tokens)
	got := map[string]string{}
	p := position{}
	for i := 0; i < len(tokens.Data); i += 5 {
		if tokens.Data[i] > 0 {
			p = position{p.Line + tokens.Data[i], 0}
		}
		p.Character += tokens.Data[i+1]
		end := position{p.Line, p.Character + tokens.Data[i+2]}
		got[e.span("beans.tamis", textRange{p, end})] += tokenTypes[tokens.Data[i+3]] + " "
	}
	for words, want := range map[string]string{
		"dish": "keyword", "Charred beans": "class", "600 g": "number", "green beans": "variable", "topped": "string",
		"ring": "keyword", "beans": "variable", "herb oil": "variable", "5 min": "number", "serve": "keyword",
	} {
		require.Contains(t, got[words], want, "%q of %v", words, got)
	}
}

func TestFormatting(t *testing.T) {
	e := supper(t)
	laid := strings.Replace(strings.Replace(beans, "topped                |", "topped               |", 1), "other lemon. |", "other lemon.\n      |", 1)
	loose := strings.ReplaceAll(laid, "60 ml    herb oil", "60 ml herb oil")
	e.open("beans.tamis", loose)
	var edits []textEdit
	e.call("textDocument/formatting", e.of("beans.tamis"), &edits)
	require.Equal(t, laid, applied(loose, edits))
	require.Len(t, edits, 1)
	require.Equal(t, 4, edits[0].Range.Start.Line, "other lines are left alone")
	e.edit("beans.tamis", "serves 6", "servse 6")
	e.call("textDocument/formatting", e.of("beans.tamis"), &edits)
	require.Empty(t, edits, "a text with errors stays as it is")
}

func TestFilesThatComeAndGo(t *testing.T) {
	e := supper(t)
	e.open("lunch.tamis", lunch)
	has := func(code string) bool {
		for _, d := range e.found["lunch.tamis"].Diagnostics {
			if d.Code == code {
				return true
			}
		}
		return false
	}
	require.False(t, has("M101") || has("U101"))
	require.NoError(t, os.Remove(filepath.Join(e.dir, "beans.tamis")))
	before := codes(e.found["lunch.tamis"].Diagnostics)
	e.tell("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{map[string]any{"uri": e.uri("beans.tamis"), "type": 3}}})
	e.edit("lunch.tamis", "covers 12", "covers 13")
	require.NotEqual(t, before, codes(e.found["lunch.tamis"].Diagnostics), "the dish is gone")
	e.write("sub/more.tamis", beans)
	e.write("beans.tamis", beans)
	e.tell("textDocument/didSave", e.of("lunch.tamis"))
	e.edit("lunch.tamis", "covers 13", "covers 12")
	require.Equal(t, before, codes(e.found["lunch.tamis"].Diagnostics))

	// A text that was never saved, one that is no file, and one of another folder.
	require.NotEmpty(t, e.open("new/idea.tamis", "dish Leeks\n  servse 4\n"))
	other := t.TempDir()
	e.tell("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": uriOf(filepath.Join(other, "x.tamis")), "version": 1, "text": "dish X\n"}})
	e.tell("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": "untitled:Untitled-1", "version": 1, "text": "dish Leeks\n  serves 4\n  gather\n    2 leeks\n"}})
	var list []documentSymbol
	e.call("textDocument/documentSymbol", map[string]any{"textDocument": map[string]any{"uri": "untitled:Untitled-1"}}, &list)
	require.Equal(t, "Leeks", list[0].Name)
	e.tell("textDocument/didClose", map[string]any{"textDocument": map[string]any{"uri": "untitled:Untitled-1"}})
	e.refused("textDocument/hover", map[string]any{"textDocument": map[string]any{"uri": "untitled:Untitled-1"}, "position": position{}})
	e.tell("textDocument/didClose", e.of("new/idea.tamis"))
	for e.found["new/idea.tamis"].Version != nil {
		e.next()
	}
	require.Empty(t, e.found["new/idea.tamis"].Diagnostics)
}

// A text in a folder below which half the disk lies is read with its neighbours alone.
func TestATextInAHomeFolder(t *testing.T) {
	effort.SkipUnlessLong(t) // it writes 21,000 files; load has the same with few
	dir := t.TempDir()
	for i := range 210 {
		sub := filepath.Join(dir, "much", itoa(i))
		require.NoError(t, os.MkdirAll(sub, 0o755))
		for j := range 100 {
			require.NoError(t, os.WriteFile(filepath.Join(sub, itoa(j)+".txt"), nil, 0o644))
		}
	}
	e := newEditor(t, nil)
	e.dir = dir
	e.write("oil.tamis", herbOil)
	e.write("much/0/bread.tamis", "dish Bread\n")
	e.open("beans.tamis", beans)
	require.Equal(t, "oil.tamis: Herb oil", e.def("beans.tamis", "half the herb^ oil", "oil.tamis"))
	e.write("oil.tamis", strings.Replace(herbOil, "Herb oil", "Green oil", 1))
	e.tell("textDocument/didSave", e.of("beans.tamis"))
	require.Empty(t, e.def("beans.tamis", "half the herb^ oil", "oil.tamis"))
	var found []workspaceSymbol
	e.call("workspace/symbol", map[string]any{"query": "bread"}, &found)
	require.Empty(t, found)
}

func TestABookBeginsAboveAnOpenText(t *testing.T) {
	e := newEditor(t, map[string]string{"bases/oil.tamis": herbOil, "mains/beans.tamis": beans})
	e.open("mains/beans.tamis", beans)
	require.Empty(t, e.def("mains/beans.tamis", "half the herb^ oil", "bases/oil.tamis"))
	e.write("book.tamis", "book Ours\n")
	e.tell("textDocument/didSave", e.of("mains/beans.tamis"))
	e.edit("mains/beans.tamis", "    60 ml    herb oil", "    60 ml    bases/Herb oil")
	require.Equal(t, "bases/oil.tamis: Herb oil", e.def("mains/beans.tamis", "half the herb^ oil", "bases/oil.tamis"))
}

// def is where a thing gets its name, if in a file.
func (e *editor) def(name, words, in string) string {
	var list []location
	e.call("textDocument/definition", e.at(name, words), &list)
	for _, s := range e.said(list) {
		if strings.HasPrefix(s, in+":") {
			return s
		}
	}
	return ""
}

func TestColumnsAreUTF16(t *testing.T) {
	e := newEditor(t, nil)
	text := "dish 🍋 Cre\u0300me\n  serves 4\n  gather\n    2        lemons, 🍋🍋 big\n  method\n    - Squeeze 🍋 the lemons. | work 5 min\n  serve hot\n"
	e.open("a.tamis", text)
	var list []location
	e.call("textDocument/references", e.at("a.tamis", "2        lem^ons"), &list)
	require.Len(t, list, 1)
	require.Equal(t, textRange{position{5, 21}, position{5, 27}}, list[0].Range, "the lemon is two units wide")
	e.edit("a.tamis", "🍋 the lemons", "🍋 🍋 the lemons")
	e.call("textDocument/references", e.at("a.tamis", "2        lem^ons"), &list)
	require.Equal(t, textRange{position{5, 24}, position{5, 30}}, list[0].Range)
	var symbols []documentSymbol
	e.call("textDocument/documentSymbol", e.of("a.tamis"), &symbols)
	require.Equal(t, textRange{position{0, 5}, position{0, 14}}, symbols[0].Selection, "an accent of its own is a unit")
	for p, want := range map[position]int{{0, 6}: 5, {0, 7}: 9, {0, 99}: 17, {99, 0}: -1, {-1, 3}: 0} {
		f := e.source("a.tamis")
		if want < 0 {
			want = len(f.Text)
		}
		require.Equal(t, want, offsetOf(f, p), "%v", p)
	}
}

func TestNothingHiddenIsSent(t *testing.T) {
	said := words(diag.Diagnostic{Message: "a\u202eb", Why: "c\x1bd", Help: []string{"e\x07f"}})
	require.Equal(t, "a<U+202E>b\nc<U+001B>d\nTry: e<U+0007>f", said)
	e := newEditor(t, nil)
	found := e.open("a.tamis", "dish Le\u202eeks\x1b[31m\n  servse\x07 4\n  gather\n    2 le\u202eeks\n")
	require.NotEmpty(t, found)
	for _, d := range found {
		require.NotContains(t, d.Message, "\u202e")
		require.NotContains(t, d.Message, "\x1b")
		require.NotContains(t, d.Message, "\x07")
	}
	raw := e.answer(e.ask("textDocument/documentSymbol", e.of("a.tamis")))
	require.NotContains(t, string(raw.Result), "\u202e")
	require.NotContains(t, string(raw.Result), `\u001b`)
	raw = e.answer(e.ask("textDocument/hover", e.at("a.tamis", "dish L^e")))
	require.NotContains(t, string(raw.Result), "\u202e")
}

func TestTheProtocol(t *testing.T) {
	e := supper(t)
	require.Equal(t, methodNotFound, e.refused("textDocument/dance", nil).Code)
	require.Equal(t, invalidRequest, e.refused("initialize", nil).Code)
	require.Equal(t, invalidParams, e.refused("textDocument/hover", e.of("never.tamis")).Code)
	require.Equal(t, invalidParams, e.refused("textDocument/hover", []int{1}).Code)
	e.tell("textDocument/didChange", "what")
	e.raw("{ no json")
	for m := e.next(); m.Error == nil || m.Error.Code != parseError; m = e.next() {
	}
	e.open("beans.tamis", beans)
	var list []documentSymbol
	e.call("textDocument/documentSymbol", e.of("beans.tamis"), &list)
	require.Len(t, list, 1, "the conversation goes on")
	e.call("shutdown", nil, nil)
	require.Equal(t, invalidRequest, e.refused("textDocument/hover", e.at("beans.tamis", "Toss")).Code)
	e.tell("exit", nil)
	require.True(t, <-e.clean)

	e = supper(t)
	e.tell("exit", nil)
	require.False(t, <-e.clean, "exit without shutdown")
	e = supper(t)
	e.to.Close()
	require.False(t, <-e.clean, "the editor went away")
	e = supper(t)
	_, err := e.to.Write([]byte("this is no header\r\n\r\n"))
	require.NoError(t, err)
	require.False(t, <-e.clean)
}

func TestARequestIsTakenBack(t *testing.T) {
	one := &inbox{called: make(chan struct{}, 1), off: map[string]bool{}}
	text := func(s string) string { return "Content-Length: " + itoa(len(s)) + "\r\n\r\n" + s }
	one.fill(newReader(text(`{"id":7,"method":"textDocument/hover"}`) + text(`{"method":"$/cancelRequest","params":{"id":7}}`) + text(`{"id":8,"method":"textDocument/hover"}`) + text(`{"method":"$/cancelRequest","params":{"id":99}}`)))
	m, taken, ok := one.take()
	require.True(t, ok && taken)
	require.Equal(t, json.RawMessage("7"), m.ID)
	_, taken, ok = one.take()
	require.True(t, ok && !taken)
	require.Empty(t, one.off)
}

// A file that was laid out is so after a name in it has become longer: margins move, and
// sentences break elsewhere. One that was not keeps the layout its writer gave it.
func TestRenameLaysOutAgain(t *testing.T) {
	laid, ok := format.Text(strings.Replace(beans, "herb oil\n", "herb oil | work 1 min\n", 1), quantity.Options{})
	require.True(t, ok)
	e := newEditor(t, map[string]string{"oil.tamis": herbOil, "beans.tamis": laid})
	e.open("beans.tamis", laid)
	var w *workspaceEdit
	e.call("textDocument/rename", e.with(e.at("beans.tamis", "half the herb^ oil"), "newName", "bright green dressing of the barn and orchard"), &w)
	got := e.carriedOut("beans.tamis", w)
	require.Contains(t, got, "bright green dressing of the barn and orchard")
	tidy, ok := format.Text(got, quantity.Options{})
	require.True(t, ok)
	require.Equal(t, tidy, got)

	loose := strings.Replace(laid, "    2        lemons", "    2 lemons", 1)
	e.open("beans.tamis", loose)
	e.call("textDocument/rename", e.with(e.at("beans.tamis", "half the herb^ oil"), "newName", "bright green dressing of the barn and orchard"), &w)
	require.Contains(t, e.carriedOut("beans.tamis", w), "    2 lemons, halved")
}
