package parse_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// above is what stands above a line of a place, and before it.
var above = map[parse.Place]string{
	parse.AtBlock:   "",
	parse.InMenu:    "menu Lunch\n  ",
	parse.OnServing: "menu Lunch\n  course First\n    ",
	parse.OnPin:     "menu Lunch\n  course First\n    Soup\n      ",
	parse.InRecipe:  "dish Soup\n  ",
	parse.InGather:  "dish Soup\n  gather\n    ",
	parse.OnLine:    "dish Soup\n  gather\n    2 onions | ",
	parse.InMethod:  "dish Soup\n  method\n    - Chop.\n    ",
	parse.OnStep:    "dish Soup\n  method\n    - Chop. | ",
	parse.InKitchen: "kitchen Farmhouse\n  ",
	parse.InLarder:  "larder\n  ",
	parse.OnFact:    "larder\n  loaf | ",
	parse.InSeries:  "series Class\n  ",
	parse.InPart:    "series Class\n  part 1 The lamb\n    ",
	parse.InBook:    "book House book\n  ",
}

// below is what must stand below some words.
var below = map[string]string{
	"menu": "  covers 2\n", "dish": "  serves 2\n", "base": "  makes 2 litres\n", "kitchen": "  rings 2\n", "larder": "  leek | piece 200 g\n",
	"series": "  part 1 The lamb\n    shows Slow lamb\n", "book": "  chapter Soups\n    Soup\n", "course": "    Soup\n", "about": "    Words.\n",
	"gather": "    2 onions\n", "method": "    - Chop.\n", "part": "    shows Slow lamb\n", "chapter": "    Soup\n",
}

// Each word of the table, written as its row shows it in each of its places, is
// read without a finding, and gives a node that says it begins with that word.
func TestTheTableShowsHowEachWordIsWritten(t *testing.T) {
	for _, w := range parse.Words() {
		for _, place := range w.In {
			t.Run(place.String()+"/"+w.Text, func(t *testing.T) {
				frame, ok := above[place]
				require.True(t, ok)
				text := frame + w.Form + "\n"
				if strings.HasSuffix(w.Text, " step") && w.Text != "without step" {
					text += "    - Do it.\n"
				}
				if place != parse.OnStep { // a larder there is only a cool place
					text += strings.Repeat(" ", max(0, len(frame)-strings.LastIndexByte(frame, '\n')-3)) + below[w.Text]
				}
				switch {
				case place == parse.InGather && w.Text == "for":
					text += "      2 onions\n"
				case place == parse.InGather && w.Text == "either":
					text += "      2 onions\n    or rich\n      2 leeks\n"
				case place == parse.InGather && w.Text == "or":
					text = frame + "either plain\n      2 onions\n    " + w.Form + "\n      2 leeks\n"
				case place == parse.InGather && (w.Text == "instead" || w.Text == "said"):
					text = frame + "2 onions\n      " + w.Form + "\n"
				}
				var list diag.List
				f := parse.File(source.New("x.tamis", text), &list)
				require.Empty(t, list.Sorted(), text)
				require.True(t, says(f, place, w.Text), text)
			})
		}
	}
}

// says tells whether some node of a place begins with a word.
func says(f *ast.File, place parse.Place, word string) bool {
	if word == "notation" {
		return f.Notation == 1
	}
	found := false
	clauses := func(list []ast.Clause) {
		for _, c := range list {
			ring, _ := c.(*ast.Ring)
			found = found || c.Base().Word == word || word == "rings" && ring != nil && ring.Count == 2
		}
	}
	ast.Walk(f, func(n ast.Node) bool {
		found = found || n.Word() == word
		switch n := n.(type) {
		case *ast.Line:
			clauses(n.Clauses)
			found = found || word == "instead" && len(n.Instead) == 1 || word == "said" && n.Said.Text != ""
		case *ast.Step:
			clauses(n.Clauses)
		case *ast.Choice:
			found = found || word == "or" && len(n.Options) == 2
		case *ast.Entry:
			for _, fact := range n.Facts {
				found = found || fact.Base().Word == word
			}
		case *ast.Serving:
			found = found || place == parse.OnServing && n.Ref.Text != "" &&
				(n.For+n.CookFor > 0 || n.Ahead || n.Straight || !n.From.IsZero() || n.ToWrite || n.KeepFor.Text != "")
		}
		return true
	})
	return found
}
