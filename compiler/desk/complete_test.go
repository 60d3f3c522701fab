package desk

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What is completed takes the place of all the words of it that stand there, not of the
// last alone: "green be" becomes "green beans", no "green green beans".
func TestCompletionReplacesWhatIsBegun(t *testing.T) {
	e := supper(t)
	e.open("beans.tamis", beans)
	replaced := func(old, text, label string) string {
		was := e.texts["beans.tamis"]
		e.edit("beans.tamis", old, text)
		defer e.open("beans.tamis", was)
		var list completionList
		e.call("textDocument/completion", e.at("beans.tamis", text), &list)
		for _, it := range list.Items {
			if it.Label == label {
				require.Equal(t, label, it.Edit.NewText)
				return e.span("beans.tamis", it.Edit.Range)
			}
		}
		t.Fatalf("%q offers no %s", text, label)
		return ""
	}
	require.Equal(t, "green be", replaced("Char the beans", "Char the green be", "green beans"))
	require.Equal(t, "be", replaced("Char the beans", "Char the be", "green beans"))
	require.Equal(t, "black pep", replaced("    60 ml    herb oil", "    8 black pep", "black peppercorns"))
	require.Equal(t, "black pep", replaced("    60 ml    herb oil", "    black pep", "black pepper"))
	require.Equal(t, "bay le", replaced("    60 ml    herb oil", "    2 bay le", "bay leaves"))
	for _, amount := range []string{"1 fl oz", "2 x 400 ml tins", "a pinch of", "1/2 cup", "2 large", "2 tbsp."} {
		require.Equal(t, "olive o", replaced("    60 ml    herb oil", "    "+amount+" olive o", "olive oil"), amount)
	}
	require.Equal(t, "olive o", replaced("    60 ml    herb oil", "    60 ml    olive o", "olive oil"))

	e.edit("beans.tamis", "    60 ml    herb oil", "    500 g ")
	var list completionList
	e.call("textDocument/completion", e.at("beans.tamis", "    500 g "), &list)
	require.True(t, list.Incomplete, "the larder is asked once a letter is written")
}

// Behind the comma of a course the options of its dish are offered, and what a course can say.
func TestCompletionBehindAComma(t *testing.T) {
	pilaf := "dish Pilaf\n  serves 4\n  gather\n    300 g    barley\n    either plain\n      30 g     butter\n    or with almonds\n      60 g     almonds\n  method\n    - Boil the barley.\n      | ring low | leave 30 min\n"
	menu := "menu Supper\n  covers 4\n\n  course Table\n    Pilaf, wi\n"
	e := newEditor(t, map[string]string{"pilaf.tamis": pilaf, "menu.tamis": menu})
	e.open("menu.tamis", menu)
	labels := func(place string) (out []string) {
		var list completionList
		e.call("textDocument/completion", e.at("menu.tamis", place), &list)
		for _, it := range list.Items {
			out = append(out, it.Label)
		}
		return out
	}
	require.Contains(t, labels("Pilaf, wi^"), "with almonds")
	e.edit("menu.tamis", "Pilaf, wi", "Pilaf, ")
	require.Contains(t, labels("Pilaf, ^"), "plain")
	require.Contains(t, labels("Pilaf, ^"), "with almonds")
	e.edit("menu.tamis", "Pilaf, ", "Pilaf, for 3, pl")
	require.Equal(t, []string{"plain"}, labels("Pilaf, for 3, pl^"))
}
