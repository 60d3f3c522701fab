package spec

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
)

// writer makes random sentences of the page's grammar.
type writer struct {
	g    grammar
	rand *rand.Rand
}

// samples stand for rules whose text has sense beyond the grammar: ranges that
// rise, compounds that fall, dates there are, names that are no words.
var samples = map[string][]string{
	"Amount": {
		"3", "250 g", "1 1/2 cups", "½ tsp", "2 to 3", "250-300 g", "2 lb 10 oz", "1 cup plus 2 tbsp", "900 g (2 lb)", "2 x 400 g tins",
		"120 g per cover", "120 g per cover plus 200 g", "1 per 4 covers", "a pinch", "1 heaped tbsp", "2 batches", "1.5 litres",
	},
	"Measure":  {"300 g", "1.2 litres", "2 lb 10 oz", "1 to 2 tbsp", "540 g"},
	"Range":    {"6", "4 to 12", "6–8"},
	"Num":      {"2", "1.80", "75", "1/2"},
	"Int":      {"1", "2", "12"},
	"Time":     {"20 min", "1 h 20 min", "about 2 h", "35 to 40 min", "3 days", "2 weeks", "30 s"},
	"Temp":     {"180 C", "350 F", "180 to 200 C", "-18 C", "75°C"},
	"Unit":     {"kg", "clove", "litre"},
	"Name":     {"butter", "olive oil", "leg of lamb", `"half and half"`, "00 flour"},
	"Ref":      {"Slow lamb", "Barley pilaf", "sauces/Herb oil"},
	"Title":    {"First", "Slow lamb", "Two-day stock", `"By the sea, with friends"`},
	"Text":     {"A line of text, with a comma"},
	"NoteText": {"a few words"},
	"Prose":    {"Stir it well."},
	"Brackets": {"(a sharp one)"},
	"Quoted":   {`"as much as it will drink"`},
	"Date":     {"2027-09-19"},
	"Clock":    {"09:30", "13:00"},
	"Code":     {"E105"},
	"Currency": {"GBP", "EUR"},
	"Part":     {"half", "a third", "two thirds", "a quarter", "three quarters", "1/3", "⅔"},
}

func (w *writer) rule(name string) string {
	if of, ok := samples[name]; ok {
		return of[w.rand.IntN(len(of))]
	}
	switch name {
	case "S":
		return " "
	case "C":
		return ", "
	case "NL", "IN", "OUT":
		return ""
	}
	return w.write(w.g.rules[name])
}

func (w *writer) write(n *node) string {
	switch n.kind {
	case literal:
		return n.text
	case ref:
		return w.rule(n.text)
	case choice:
		return w.write(n.of[w.rand.IntN(len(n.of))])
	case seq:
		var b strings.Builder
		for _, c := range n.of {
			b.WriteString(w.write(c))
		}
		return b.String()
	case repeat:
		times := w.rand.IntN(2)
		if n.text == "+" {
			times = 1
		}
		if n.text == "*" {
			times = w.rand.IntN(3)
		}
		var b strings.Builder
		for range times {
			b.WriteString(w.write(n.of[0]))
		}
		return b.String()
	}
	panic("the writer has no sample for a rule that needs one")
}

// sentencesOf lists the rules of single lines and clauses that are tried, and
// where each is put.
var sentencesOf = []struct {
	rule string
	in   wrapper
}{
	{"StepClause", inMargin("")},
	{"LineClause", rowWrappers["List clause"]},
	{"Fact", rowWrappers["Larder fact"]},
	{"KitchenLine", wrappers["kitchen"]},
	{"PartLine", rowWrappers["Part line"]},
	{"Serving", wrappers["course"]},
	{"Setting", wrappers["larder"]},
	{"Line", wrappers["gather"]},
	{"Common", wrappers["dish"]},
	{"Spell", inMargin("watch ")},
	{"Heat", inMargin("leave 20 min | oven ")},
	{"Share", wrapper{before: inMargin("").before, indent: inMargin("").indent + "uses ", tail: " butter", after: metric}},
}

func TestSentencesOfTheGrammarAreRead(t *testing.T) {
	g := pageGrammar(t)
	for _, of := range sentencesOf {
		t.Run(of.rule, func(t *testing.T) {
			require.Contains(t, g.rules, of.rule)
			w := &writer{g, rand.New(rand.NewPCG(1, 2))}
			for i := range 400 {
				line := w.rule(of.rule)
				found := read(of.in.wrap(line), "")
				for _, f := range found {
					require.NotEqual(t, diag.Error, f.Severity, fmt.Sprintf("sentence %d of %s: %s\n%s", i, of.rule, line, messages(found, of.in)))
				}
			}
		})
	}
}
