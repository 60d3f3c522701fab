package compiler_test

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// The readings: phrases in every manner of speaking, with what each must take.
// testdata/readings/README.md says how they are written.

// phrase is one sentence, or one gathered line, with its reading.
type phrase struct {
	file    string
	line    int
	fields  []string // serves 8, units US
	gather  []string
	earlier []string
	text    string
	want    []string
}

func (p phrase) String() string { return fmt.Sprintf("%s:%d: %s", p.file, p.line, p.text) }

// phrases reads the corpus.
func phrases(t *testing.T) (sentences, lines []phrase) {
	names, err := filepath.Glob("../testdata/readings/*.txt")
	require.NoError(t, err)
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		var all []phrase
		var here phrase
		for n, l := range strings.Split(string(text), "\n") {
			rest := strings.TrimSpace(l[min(len(l), 1):])
			switch {
			case strings.HasPrefix(l, "## "):
				here = phrase{file: filepath.Base(name)}
			case strings.HasPrefix(l, "= "):
				switch word, _, _ := strings.Cut(rest, " "); word {
				case "serves", "makes", "units":
					here.fields = append(here.fields, rest)
				default:
					here.gather = append(here.gather, rest)
				}
			case strings.HasPrefix(l, "> "):
				here.earlier = append(slices.Clone(here.earlier), "- "+rest)
			case strings.HasPrefix(l, "| "):
				here.earlier = append(slices.Clone(here.earlier), "  "+l)
			case strings.HasPrefix(l, "- "):
				p := here
				p.line, p.text = n+1, rest
				all = append(all, p)
			case strings.HasPrefix(l, "  "):
				last := &all[len(all)-1]
				last.want = append(last.want, strings.TrimSpace(l))
			}
		}
		for _, p := range all {
			require.NotEmpty(t, p.want, "%s has no reading", p)
		}
		if strings.HasPrefix(filepath.Base(name), "list") {
			lines = append(lines, all...)
		} else {
			sentences = append(sentences, all...)
		}
	}
	return sentences, lines
}

// source writes the dish that a phrase stands in.
func (p phrase) source(list bool) string {
	var b strings.Builder
	b.WriteString("dish Trial\n")
	units := "units metric"
	for _, f := range p.fields {
		if strings.HasPrefix(f, "units ") {
			units = f
			continue
		}
		b.WriteString("  " + f + "\n")
	}
	if len(p.fields) == 0 || list || len(b.String()) == len("dish Trial\n") {
		b.WriteString("  serves 4\n")
	}
	b.WriteString("  " + units + "\n")
	if list || len(p.gather) > 0 {
		b.WriteString("  gather\n")
	}
	if list {
		return b.String() + "    " + p.text + "\n  method\n    - Use everything.\n"
	}
	for _, g := range p.gather {
		b.WriteString("    " + g + "\n")
	}
	b.WriteString("  method\n")
	for _, e := range p.earlier {
		b.WriteString("    " + e + "\n")
	}
	return b.String() + "    - " + p.text + "\n"
}

func (p phrase) system() quantity.System {
	for _, f := range p.fields {
		if u, ok := strings.CutPrefix(f, "units "); ok {
			return quantity.System(u)
		}
	}
	return quantity.Metric
}

// outcome is how a phrase was read.
type outcome int

const (
	right outcome = iota
	asked
	wrong
	needless
)

// read compiles the dish of a phrase.
func (p phrase) read(t *testing.T, list bool) (*resolve.Recipe, []diag.Diagnostic) {
	text := p.source(list)
	r := compileText(t, text, compiler.Options{NoPlan: true, NoPages: true})
	at := strings.LastIndex(text, p.text)
	var here []diag.Diagnostic
	for _, d := range r.Diags.Sorted() {
		s := d.At.Span
		if d.Severity >= diag.Question && strings.ContainsAny(d.Code[:1], "QDNU") && !strings.HasPrefix(d.Code, "U3") && d.Code != "D206" && s.Start < at+len(p.text) && s.End > at {
			here = append(here, d)
		}
	}
	if len(r.Model.Recipes) == 0 {
		return nil, here
	}
	return r.Model.Recipes[0], here
}

// judge says how a sentence was read, and what was read instead of what is
// wanted.
func (p phrase) judge(t *testing.T) (outcome, string) {
	recipe, diags := p.read(t, false)
	require.NotNil(t, recipe, "%s", p)
	said := ""
	for _, d := range diags {
		said += " " + d.Code
	}
	if slices.Contains(p.want, "ask") {
		if len(diags) > 0 {
			return right, said
		}
		return wrong, "nothing is asked"
	}
	if len(recipe.Reading.Steps) == 0 {
		return asked, said
	}
	step := recipe.Reading.Steps[len(recipe.Reading.Steps)-1]
	missing, extra := p.compare(step)
	switch ok := missing == "" && extra == ""; {
	case ok && len(diags) == 0:
		return right, ""
	case ok:
		return needless, said
	case len(diags) > 0:
		return asked, said
	}
	return wrong, "misses " + missing + "; has " + extra
}

// compare holds what a step takes against what it should.
func (p phrase) compare(step *resolve.StepReading) (missing, extra string) {
	var left []resolve.Take
	for _, t := range step.Takes {
		if t.Refers {
			continue
		}
		// "two of the carrots in dice and the other two in ribbons" are four, where four are wanted
		same := func(o resolve.Take) bool { return o.Line == t.Line && t.Line != nil && !t.Unmeasured && !o.Unmeasured }
		if k := slices.IndexFunc(left, same); k >= 0 && p.once(t.Line.Name) {
			left[k].Part, left[k].Amount = left[k].Part.Add(t.Part), nil
			continue
		}
		left = append(left, t)
	}
	for _, w := range p.want {
		switch word, _, _ := strings.Cut(w, " "); word {
		case "nothing":
			continue
		case "makes", "each", "loads", "keeps":
			if !p.figure(step, w) {
				missing += " [" + w + "]"
			}
			continue
		}
		i := slices.IndexFunc(left, func(t resolve.Take) bool { return p.takes(t, w) })
		if i < 0 && strings.HasPrefix(w, "[again] ") {
			continue
		}
		if i < 0 {
			missing += " [" + w + "]"
			continue
		}
		left = slices.Delete(left, i, i+1)
	}
	for _, t := range left {
		extra += " [" + describe(t) + "]"
	}
	return missing, extra
}

// once tells whether a line is named in one reading only.
func (p phrase) once(name string) bool {
	n := 0
	for _, w := range p.want {
		if sameName(name, w) || strings.HasSuffix(larder.Fold(w), " "+larder.Fold(name)) {
			n++
		}
	}
	return n == 1
}

// figure tells whether a figure of the sentence was read as it should be.
func (p phrase) figure(step *resolve.StepReading, want string) bool {
	word, rest, _ := strings.Cut(want, " ")
	kind := map[string]resolve.FigureKind{"makes": resolve.FigureScaled, "each": resolve.FigureEach, "loads": resolve.FigureLoad, "keeps": resolve.FigureKept}[word]
	a, _, _ := quantity.ReadAmount(rest, quantity.Options{System: p.system(), Alone: true})
	q, _ := a.Quantity(p.system(), 1)
	same := func(k resolve.FigureKind, f resolve.Figure) bool { // "50 ml at a time" is a load, and for each
		return k == f.Kind || f.Unit != nil && (k == resolve.FigureEach && f.Kind == resolve.FigureLoad)
	}
	return slices.ContainsFunc(step.Figures, func(f resolve.Figure) bool { return same(kind, f) && f.Quantity.Value.High.Equal(q.Value.High) }) ||
		kind == resolve.FigureEach && slices.ContainsFunc(step.Takes, func(t resolve.Take) bool { return t.Each })
}

func describe(t resolve.Take) string {
	if t.Line == nil {
		return t.NameAt.Text()
	}
	switch {
	case t.Unmeasured:
		return "some " + t.Line.Name
	case t.Amount != nil:
		return fmt.Sprintf("%v %s", t.Amount.Value.High, t.Line.Name)
	}
	return t.Part.String() + " of " + t.Line.Name
}

// takes tells whether a take is the one that is wanted.
func (p phrase) takes(t resolve.Take, want string) bool {
	if t.Line == nil {
		return false
	}
	if share, name, ok := strings.Cut(want, "] "); ok && strings.HasPrefix(want, "[") {
		if !sameName(t.Line.Name, name) {
			return false
		}
		switch share = share[1:]; share {
		case "some":
			return t.Unmeasured
		case "all", "rest":
			return t.All || !t.Unmeasured && t.LeftAfter.IsZero() && t.Part.Sign() > 0
		}
		n, _, _ := quantity.ReadNumber(share, quantity.Options{})
		return !t.Unmeasured && t.Part.Equal(n)
	}
	a, n, _ := quantity.ReadAmount(want, quantity.Options{System: p.system()})
	if n == 0 || !sameName(t.Line.Name, want[n:]) {
		return false
	}
	q, problem := a.Quantity(p.system(), 1)
	if w := t.Line.Written; problem != nil && w != nil && len(w.Measure.Terms) == 1 && len(a.Measure.Terms) == 1 { // a gill of two
		mine, all := a.Measure.Terms[0], w.Measure.Terms[0]
		return !t.Unmeasured && mine.Unit == all.Unit && t.Part.Equal(mine.Value.High.Div(all.Value.High))
	}
	if problem != nil || t.Unmeasured {
		return problem == nil && q.Value.IsRange() && t.Amount != nil && t.Amount.Equal(q)
	}
	if t.Line.Quantity != nil && t.Line.Quantity.Dim == q.Dim {
		have := t.Line.Quantity.Scale(t.Part)
		return have.Value.High.Equal(q.Value.High)
	}
	return t.Amount != nil && t.Amount.Dim == q.Dim && t.Amount.Value.High.Equal(q.Value.High)
}

func sameName(a, b string) bool {
	return larder.Fold(strings.TrimSpace(strings.TrimPrefix(b, "of "))) == larder.Fold(a)
}

// judgeLine says how a gathered line was read.
func (p phrase) judgeLine(t *testing.T) (outcome, string) {
	recipe, diags := p.read(t, true)
	codes := ""
	for _, d := range diags {
		codes += " " + d.Code
	}
	if p.want[0] == "ask" {
		if len(diags) > 0 {
			return right, codes
		}
		return wrong, "nothing is asked"
	}
	if recipe == nil || len(recipe.Lines) != len(p.want) {
		if len(diags) > 0 {
			return asked, codes
		}
		return wrong, "not as many lines as are wanted"
	}
	why := ""
	for i, l := range recipe.Lines {
		why += p.unlike(l, p.want[i])
	}
	switch {
	case why == "" && len(diags) == 0:
		return right, ""
	case why == "":
		return needless, codes
	case len(diags) > 0:
		return asked, codes
	}
	return wrong, why
}

// unlike says what a line was read as instead of what is wanted; nothing when
// it is the same.
func (p phrase) unlike(l *resolve.Line, want string) string {
	fields := strings.Split(want, "|")
	amount, name, note := strings.TrimSpace(fields[0]), strings.TrimSpace(fields[1]), ""
	if len(fields) > 2 {
		note = strings.TrimSpace(fields[2])
	}
	got := "-"
	if l.Written != nil {
		got = l.Written.String()
		if l.Size != "" {
			got += " " + l.Size
		}
	}
	if amount != "-" {
		if a, n, _ := quantity.ReadAmount(amount+" thing", quantity.Options{System: p.system()}); n > 0 {
			size := strings.TrimSuffix(strings.TrimSpace((amount + " thing")[n:]), "thing")
			amount = strings.TrimSpace(a.String() + " " + strings.TrimSpace(size))
		}
	}
	said := []string{l.Note.Text}
	if l.Brackets.Text != "" {
		said = append([]string{l.Brackets.Text}, said...)
	}
	if l.ToTaste {
		said = append(said, "to taste")
	}
	for _, o := range l.Instead {
		said = append(said, "or "+o.AmountText+" "+o.Name)
	}
	about := strings.Join(slices.DeleteFunc(said, func(s string) bool { return s == "" }), ", ")
	if l.Written != nil && l.Written.Kind == quantity.Paired && got != amount {
		got = quantity.Amount{Measure: l.Written.Measure}.String()
	}
	ok := got == amount && sameName(l.Name, name) && (note == "" || about == note)
	if ok {
		return ""
	}
	return fmt.Sprintf("is %s | %s | %s", got, l.Name, about)
}

// readingsToday is how much of each file is read right, and how much wrongly
// without a word, at present. Whoever mends a reading writes the better
// figures here; they never grow worse.
var readingsToday = map[string]struct{ right, wrong int }{
	"books.txt":           {19, 0},
	"old-books.txt":       {70, 0},
	"counts.txt":          {106, 0},
	"each.txt":            {63, 0},
	"exceptions.txt":      {90, 0},
	"heldback2.txt":       {116, 0}, // at the first run: 64 right, 17 asked, 30 wrong, 9 needless
	"list-heldback2.txt":  {75, 0},  // 54, 8, 9, 9
	"heldback.txt":        {197, 0},
	"heldback5.txt":       {125, 0}, // at the first run: 69 right, 3 asked, 11 wrong, 4 needless
	"list-heldback5.txt":  {94, 0},  // 67, 1, 7, 0
	"heldback4.txt":       {43, 0},  // at the first run: 27 right, 4 asked, 12 wrong, 3 needless
	"list-heldback4.txt":  {28, 0},  // 18, 3, 7, 2
	"heldback3.txt":       {120, 0}, // at the first run: 76 right, 7 asked, 30 wrong, 8 needless
	"list-heldback3.txt":  {85, 0},  // 64, 4, 15, 3
	"heldback6.txt":       {107, 0}, // at the first run: 59 right, 8 asked, 35 wrong, 8 needless
	"list-heldback6.txt":  {53, 0},  // 37, 1, 14, 1
	"heldback7.txt":       {51, 0},  // 35, 3, 12, 2
	"list-heldback7.txt":  {18, 0},  // 13, 0, 4, 1
	"heldback8.txt":       {109, 1}, // 68, 14, 45, 4
	"list-heldback8.txt":  {62, 0},  // 42, 6, 19, 1
	"heldback9.txt":       {83, 0},  // 52, 4, 33, 2
	"list-heldback9.txt":  {50, 1},  // 40, 4, 11, 0
	"heldback10.txt":      {52, 1},  // 37, 1, 16, 2
	"list-heldback10.txt": {30, 0},  // 26, 0, 3, 1
	"heldback11.txt":      {79, 2},  // 54, 10, 35, 4
	"list-heldback11.txt": {22, 0},  // 17, 1, 7, 3
	"heldback12.txt":      {75, 5},  // 55, 5, 23, 7
	"list-heldback12.txt": {18, 1},  // 15, 2, 4, 3
	"heldback13.txt":      {63, 7},  // 51, 6, 20, 3
	"list-heldback13.txt": {17, 1},  // 16, 1, 2, 1
	"heldback14.txt":      {88, 4},  // 58, 14, 23, 6
	"list-heldback14.txt": {24, 0},  // 19, 1, 5, 0
	"heldback15.txt":      {41, 1},  // 26, 10, 11, 3
	"list-heldback15.txt": {9, 1},   // 9, 0, 1, 0
	"heldback16.txt":      {81, 3},  // 56, 3, 26, 4
	"list-heldback16.txt": {27, 0},  // 21, 1, 6, 2
	"heldback17.txt":      {71, 1},  // 47, 4, 22, 2
	"list-heldback17.txt": {37, 0},  // 30, 3, 7, 0
	"heldback18.txt":      {26, 0},  // 19, 3, 5, 1
	"list-mended.txt":     {28, 0},
	"mended.txt":          {102, 0},
	"idle.txt":            {108, 0},
	"list-books.txt":      {3, 0},
	"list-old-books.txt":  {85, 0},
	"list-lines.txt":      {110, 0},
	"names.txt":           {53, 0},
	"nearby.txt":          {64, 0},
	"shares.txt":          {146, 0},
}

func TestReadings(t *testing.T) {
	sentences, lines := phrases(t)
	require.Greater(t, len(sentences)+len(lines), 500)
	counts := map[string]*[4]int{}
	count := func(p phrase, o outcome, why string) {
		c := counts[p.file]
		if c == nil {
			c = &[4]int{}
			counts[p.file] = c
		}
		c[o]++
		if o != right {
			t.Logf("%-8s %s  %s", [...]string{"right", "asked", "WRONG", "needless"}[o], p, why)
		}
	}
	for _, p := range sentences {
		o, why := p.judge(t)
		count(p, o, why)
	}
	for _, p := range lines {
		o, why := p.judgeLine(t)
		count(p, o, why)
	}
	var sum [4]int
	table := "\n                 right asked wrong needless\n"
	for _, f := range slices.Sorted(maps.Keys(counts)) {
		c := counts[f]
		table += fmt.Sprintf("%-16s %5d %5d %5d %5d\n", f, c[0], c[1], c[2], c[3])
		for i := range sum {
			sum[i] += c[i]
		}
	}
	t.Log(table + fmt.Sprintf("%-16s %5d %5d %5d %5d\n", "all", sum[0], sum[1], sum[2], sum[3]))
	for f, c := range counts {
		today := readingsToday[f]
		require.Equal(t, [2]int{today.right, today.wrong}, [2]int{c[right], c[wrong]}, "%s: right and wrong: if this is better, write it into readingsToday", f)
	}
}
