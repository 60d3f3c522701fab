package format_test

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// writer writes random texts in the notation, in the untidy ways people have.
type writer struct {
	r *rand.Rand
	b strings.Builder
}

func (w *writer) one(of ...string) string { return of[w.r.Intn(len(of))] }

func (w *writer) maybe(text string) string {
	if w.r.Intn(3) == 0 {
		return text
	}
	return ""
}

// fill puts random words in the place of capitals in angle brackets.
func (w *writer) fill(t string) string {
	for {
		i := strings.IndexByte(t, '<')
		if i < 0 {
			return t
		}
		j := i + strings.IndexByte(t[i:], '>')
		t = t[:i] + w.word(t[i+1:j]) + t[j+1:]
	}
}

func (w *writer) word(kind string) string {
	n := 2 + w.r.Intn(40)
	switch kind {
	case "NAME":
		return w.one("lamb", "herb oil", "Slow lamb", `"cup cakes"`, "plum tomatoes", "crème fraîche", `"leg of lamb"`, "cook’s butter", `"5 spice"`, "leg of lamb", `"salt, flaky"`, "rapeseed  oil", `"slow oven"`, `"or so"`, "olive\u00a0oil")
	case "TITLE":
		return w.one("First", "Main dish", `"Pudding"`, "with almonds", "Herb oil", `"Pilaf, plain"`, "2nd try")
	case "COOK":
		return w.one("Ana", "Jo", `"Ana Roe"`)
	case "TIME":
		return w.one("5 min", "1 h", "90 minutes", "1h20min", "35-40 mins", "35 to 40 min", "about 2 h", "at least 2 hours", "overnight", "2 h, up to 1 day", "3 days to 8 weeks", "½ h", "30 sec", fmt.Sprint(n, " min"))
	case "SHORT":
		return w.one("5 min", "1 h", "1h20min", "90 sec", fmt.Sprint(n, " min"))
	case "TEMP":
		return w.one("180 C", "180°C", "350 F", "180 to 200 C", "-18 C", "63 ℃")
	case "MEASURE":
		return w.one("300 g", "300g", "1½ kg", "2 lb 10 oz", "1/2 litre", "2 litres", "0.35 kg", "2-3 cm", "1 cup plus 2 tbsp", "5 cl", "3 heaped tbsp", "700 millilitres")
	case "COUNT":
		return fmt.Sprint(n)
	case "AMOUNT":
		return w.one(w.word("MEASURE"), w.word("MEASURE"), fmt.Sprint(n), "2 to 3", "2 x 400 g tins", "1 × 800g can", "a pinch", "3 cloves", "6 sprigs of", "120 g per cover", "120 g per cover plus 200 g", "1 per 4 covers", "900 g (2 lb)", "2 large", "1 1/2", "2 batches", "1/3", "1.25")
	case "PLACE":
		return w.one("fridge", "freezer", "room", "cool place", "larder", "cellar", "warm place")
	case "PROSE":
		return w.one("Chop the onions  finely.", "Toast, then stir «well»", "Warm to 60ºC — no more:", "1½ cups (about) go in", "Fold; rest?", "– and so on")
	case "NOTE":
		return w.one("chopped", "at room temperature: soft", "peeled, sliced (thin)", "“fresh” + good")
	}
	panic(kind)
}

func (w *writer) line(in string, text string) {
	if w.r.Intn(12) == 0 {
		w.b.WriteString(w.one("", "  ", "\t") + "\n")
	}
	if w.r.Intn(12) == 0 {
		w.b.WriteString(in + w.one("# remark", "#", "#   spaced  out ") + "\n")
	}
	w.b.WriteString(in + w.fill(text) + w.one("", "", "", " ", "\r") + "\n")
}

var stepClauses = []string{
	"if <TITLE>", "not after a pause", "only before a pause", "only if needed", "meanwhile", "any time", "after <NAME>", "oven <TEMP>", "oven gas 6 for <SHORT> then fan <TEMP>, in <NAME>, top shelf",
	"Oven very slow, 2 shelves", "ring high", "3 rings low", "grill", "grill medium", "fridge", "warm place, <TEMP>", "in <NAME>", "in <NAME>, holds <MEASURE>", "into <COUNT> <NAME>, <MEASURE> each",
	"tool <NAME>", "core <TEMP> for <SHORT>", "reach <TEMP>", "never above <TEMP>", "within <SHORT>", "start <SHORT> before serving",
	"hold hot up to <SHORT>, above <TEMP>", "hold <SHORT>", "uses nothing", "uses half the <NAME>", "uses a third of the <NAME>", "uses 3/4 of <NAME>", "uses the rest of the <NAME>",
	"uses half the remaining <NAME>", "uses some of the <NAME>", "uses <MEASURE> <NAME>", "uses <NAME>", "makes <NAME>", "makes <MEASURE> <NAME>", "sets aside <MEASURE> of <NAME>",
	"keeps <TIME>, <PLACE>", "by <COOK>, <COOK>", "with 2 cooks", "caution hot, and “heavy”: mind!", "done <SHORT> before serving",
}

var timeClauses = []string{
	"work <SHORT>", "work <SHORT> per <MEASURE> <NAME>", "work <SHORT> plus <SHORT> per lb <NAME>", "work <SHORT> per <NAME>", "work <SHORT> per load", "work <SHORT> every <SHORT>",
	"watch <TIME>", "watch until just brown, say <SHORT>", "leave <TIME>", "leave <SHORT> per clove of <NAME>", "rest <TIME>", "stand <TIME>, <PLACE>", "thaw <TIME>, <PLACE>", "leave <SHORT> per 2 cloves",
}

// margin writes clauses that may stand together.
func (w *writer) margin(list []string, times ...[]string) []string {
	var out []string
	used := map[string]bool{}
	for range w.r.Intn(4) {
		c := w.one(list...)
		key := strings.Fields(strings.ToLower(c))[0]
		if !used[key] && !(used["within"] && key == "start") {
			used[key] = true
			out = append(out, w.fill(c)+w.one("", "", "", " ?"))
		}
	}
	for i, group := range times {
		if w.r.Intn(3) == i {
			out = append(out, w.fill(w.one(group...)))
		}
	}
	return out
}

func (w *writer) gather(in string, depth int) {
	for range 1 + w.r.Intn(4) {
		switch {
		case depth < 2 && w.r.Intn(6) == 0:
			w.line(in, w.one("for the <NAME>", "For <NAME>"))
			w.gather(in+"   ", depth+1)
		default:
			text := w.one("<AMOUNT> <NAME>", "<AMOUNT>   <NAME>", "<NAME>", "<AMOUNT> <NAME>, <NOTE>", "<NAME> (<NOTE2>)", "<NAME>, optional", "<AMOUNT> <NAME> (big ones) ,<NOTE>")
			text = strings.ReplaceAll(text, "<NOTE2>", "any kind")
			m := w.margin([]string{"optional", "to taste", "trimmed", "as sold", w.one("from the shop", "from the baker", "from the store", "store-bought", "from Low Farm"), "scales less", "fixed", "whole", "per vessel", "by area", "plus extra", "plus extra for the tin", "drained <MEASURE>", "buy <MEASURE>", "buy <MEASURE> <NAME>", "left from Saturday", "made in part 2", "keeps <TIME>, <PLACE>", "caution peel it"}, timeClauses[:6], timeClauses[6:8], timeClauses[8:10])
			if strings.Contains(text, "optional") {
				m = nil
			}
			if len(m) > 0 && w.r.Intn(2) == 0 {
				text += w.one("|", "  | ") + strings.Join(m, w.one("|", " | "))
				m = nil
			}
			w.line(in, text)
			for _, c := range m {
				w.line(in+"  ", "|"+w.one("", " ")+c)
			}
			if w.r.Intn(6) == 0 {
				w.line(in+"  ", w.one(`said "as much as it takes"`, "said by the handful"))
			}
			if w.r.Intn(6) == 0 {
				w.line(in+"  ", "instead <AMOUNT> <NAME>"+w.one("", " | optional"))
			}
		}
	}
}

func (w *writer) dish(n int) {
	w.line("", w.one("dish", "Base", "DISH")+fmt.Sprintf(" Number %d", n))
	fields := []string{"serves <COUNT>", "serves 6-8, <MEASURE> each", "makes <MEASURE>", "makes about <MEASURE>", "makes nearly <COUNT> loaves", "makes <COUNT> pieces, <MEASURE> each", "makes 2 loaves", "keeps <TIME>, <PLACE>", "tested 4-12", "units us", "whole batches", "takes <TIME>", "takes <SHORT>, work <SHORT>", w.one("as <NAME>, but", "as <NAME>, <NAME>, but"), "without <NAME>", "without step 2", `without step 3, "Strain"`, "replace <NAME> with <MEASURE> <NAME>", "replace <NAME> with <NAME>, sliced thin", "serve hot,within <SHORT>", "serve at room temperature", "by <COOK>", "source a card, | and all", "allow E201: it is  meant", "language en"}
	w.r.Shuffle(len(fields), func(i, j int) { fields[i], fields[j] = fields[j], fields[i] })
	used := map[string]bool{}
	for _, f := range fields[:w.r.Intn(6)] {
		key := strings.Fields(f)[0]
		if !used[key] {
			used[key] = true
			w.line("  ", f)
		}
	}
	if w.r.Intn(2) == 0 {
		w.line("  ", "about")
		w.b.WriteString("      Some prose, *loud*.\n\n        # deep | bar  \n      end\n")
	}
	w.line("  ", w.one("gather", "Gather:", "gather, percent of <NAME>, <NAME>"))
	w.gather("    ", 0)
	if w.r.Intn(3) == 0 {
		w.line("    ", "either plain")
		w.gather("      ", 2)
		w.line("    ", "or with almonds")
		w.gather("      ", 2)
	}
	w.line("  ", "method")
	for range 1 + w.r.Intn(4) {
		m := w.margin(stepClauses, timeClauses[:6], timeClauses[6:8], timeClauses[8:])
		text := w.one("- ", "-   ", "• ", "– ") + "<PROSE>"
		if len(m) > 0 && w.r.Intn(3) == 0 {
			text += " | " + strings.Join(m, " | ")
			m = nil
			w.line("    ", text)
		} else {
			w.line("    ", text)
			for range w.r.Intn(3) {
				w.line("       ", "<PROSE>")
			}
			for len(m) > 0 {
				k := 1 + w.r.Intn(len(m))
				w.line("      ", "| "+strings.Join(m[:k], " | "))
				m = m[k:]
			}
		}
		for range w.r.Intn(3) / 2 {
			w.line("      ", w.one("at half time: <PROSE>", "at <SHORT>: <PROSE> | work <SHORT>", "At <SHORT> : <PROSE>"))
		}
		if w.r.Intn(5) == 0 {
			w.line("    ", "pause up to <SHORT>,<PLACE>")
		}
	}
}

func (w *writer) file() string {
	if w.r.Intn(5) == 0 {
		w.b.WriteString("notation 1\n")
	}
	for n := range 1 + w.r.Intn(3) {
		w.dish(n)
	}
	if w.r.Intn(2) == 0 {
		w.line("", "menu Banquet")
		for _, f := range []string{"covers <COUNT>", "on the table 2027-09-19 13:00", "at <TITLE>", "hours day before, 17:00 to 20:00, <COOK>", "hours 3 days before 08:00 to 09:00", "hours 2027-09-18 20:00 to 2027-09-19 01:00", "task Lay the table, work <SHORT>, by <COOK>, <COOK>, before <TITLE>", "task Sweep, done <SHORT> before serving, after <NAME>"} {
			if w.r.Intn(2) == 0 {
				w.line("  ", f)
			}
		}
		w.line("  ", w.one("course <TITLE>", "course <TITLE>, at 13:30", "course <TITLE>, <SHORT> after <TITLE>"))
		for range 1 + w.r.Intn(3) {
			w.line("    ", w.one("Beans", "Slow lamb")+w.maybe(", for <COUNT>")+w.maybe(" ,ahead")+w.maybe(", with almonds")+w.maybe(", cook for <COUNT>")+w.maybe(", from the shop")+w.maybe(", keep the remains for Monday  lunch"))
		}
	}
	if w.r.Intn(2) == 0 {
		w.line("", "kitchen Farm")
		for _, f := range []string{"oven main, 2 shelves, fan, preheat <SHORT>", "oven <NAME>, gas, 1 shelf", "oven <NAME>, preheat <SHORT>, heats 60 C within <SHORT>, cools 20 C within <SHORT>", "rings 4", "cooks <COOK>, <COOK>", "tools <NAME>", "tools <NAME> , <NAME>,washed in <SHORT>", "Wash up <SHORT> ,after each dish", "wash up <SHORT>, every <SHORT>, by <COOK>, <COOK>", "wash up: <SHORT>, before serving,by <COOK>", "vessel <NAME>, holds <MEASURE>, 2", "hold hot <SHORT>", "zone Europe/London", "rules UK"} {
			if w.r.Intn(2) == 0 {
				w.line("  ", f)
			}
		}
		w.line("  ", "hold cold 1 h")
	}
	if w.r.Intn(2) == 0 {
		w.line("", "larder")
		if w.r.Intn(2) == 0 {
			w.line("  ", "UNITS Metric")
		}
		for range 1 + w.r.Intn(4) {
			w.line("  ", w.one("<NAME>", "celeriac"))
			w.line("    ", "| "+w.one("piece <MEASURE> as sold", "yields 75%", "yields 62.5%", "price 1.5 each", "price 12 EUR per kg", "price 0.125 per <MEASURE>", "weighs <MEASURE> per ml", "weighs <MEASURE> per <MEASURE>", "packs <MEASURE> or <MEASURE>", "contains <NAME>, <NAME>", "same as <NAME>", "plural loaves", "keeps <TIME>, <PLACE>", "gives 1 egg white and 2 <NAME>", "from the greengrocer"))
		}
	}
	if w.r.Intn(3) == 0 {
		w.line("", "series Evening class")
		w.line("  ", "part 1 The lamb")
		for _, f := range []string{"shows <NAME>", "date 2027-08-30", "copies 2 of <NAME>, as <NAME>", "copies 1 of <NAME>"} {
			w.line("    ", f)
		}
		w.line("", "book House book")
		w.line("  ", "style range dash")
		w.line("  ", "chapter <TITLE>")
		w.line("    ", "<NAME>")
	}
	return w.b.String()
}

// TestRandomTexts: whatever way a text is written, formatting keeps what it
// says, and formatting again changes nothing.
func TestRandomTexts(t *testing.T) {
	for seed := range effort.Rounds[int64](80, 400) {
		w := &writer{r: rand.New(rand.NewSource(seed))}
		text := w.file()
		var list diag.List
		parse.File(source.New("x.tamis", text), &list)
		for _, d := range list.Sorted() {
			p := d.At.Span.Position()
			require.NotEqual(t, diag.Error, d.Severity, "seed %d: %d:%d %s %s: %q in\n%s", seed, p.Line, p.Column, d.Code, d.Message, d.At.Span.Text(), lineAt(text, p.Line))
		}
		checkFormat(t, text)
		if t.Failed() {
			t.Fatalf("seed %d:\n%s", seed, text)
		}
	}
}

func lineAt(text string, n int) string { return strings.Split(text, "\n")[n-1] }
