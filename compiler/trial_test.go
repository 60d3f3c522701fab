package compiler_test

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/render/text"
)

// The findings of the second trial that would burn, mislead or poison someone,
// each as one small text and what should be true of it, with its neighbours.
//
// An open case must still fail: whoever mends it takes the word `open` away,
// so that no finding is forgotten and none is called closed that is not.

// tried is one text with what is to be true of it.
type tried struct {
	number string // of the finding: "R1"
	what   string // unique under its number
	open   bool   // not mended yet
	faulty bool   // the text may have errors
	text   string
	beside fstest.MapFS // what else lies in the folder
	opt    compiler.Options
	want   func(t require.TestingT, m *made)
}

// elsewhere are the findings of the same weight that no small text shows: why,
// and where they are held instead.
var elsewhere = map[string]string{
	"K1": "growth in time, not a meaning: work counted in compiler/check and compiler/larder",
	"K2": "growth in time, not a meaning: allocations counted in lang/parse",
	"X2": "what fmt does to files: testdata/cli",
	"X7": "whether it builds for another system: .ci/run",
	"V2": "a leaf for the viewer is a new sheet: nothing to read yet",
}

// weighty are the findings that must stand in the table or in elsewhere.
const weighty = "R1 R2 R3 R4 R19 R20 T1 T2 T3 T4 T5 T6 T11 T12 T13 T14 F1 F2 F3 F4 F5 D1 D2 P1 P2 P3 P4 P5 P6 P7 P8 P9 P15 P16 S1 S2 K1 K2 X1 X2 X7 V1 V2"

func TestTrial(t *testing.T) {
	var all []tried
	for _, part := range [][]tried{triedReading(), triedSheets(), triedFood(), triedPlan(), triedPage()} {
		all = append(all, part...)
	}
	seen := map[string]bool{}
	open := map[string]int{}
	for _, c := range all {
		name := c.number + " " + c.what
		require.False(t, seen[name], "twice: %s", name)
		seen[name], seen[c.number] = true, true
		if c.open {
			open[c.number]++
		}
		t.Run(name, func(t *testing.T) {
			m := compiled(t, c)
			if !c.open {
				c.want(t, m)
				return
			}
			failed := fails(func(r require.TestingT) { c.want(r, m) })
			require.NotEmpty(t, failed, "this is mended: take `open` away from it, so that it stays so")
			t.Log("open: ", failed)
		})
	}
	for _, n := range strings.Fields(weighty) {
		_, other := elsewhere[n]
		require.True(t, seen[n] != other, "%s must be tried here, or said to be held elsewhere, and not both", n)
	}
	for _, n := range strings.Fields(weighty) {
		if open[n] > 0 {
			t.Logf("%s: %d open", n, open[n])
		}
	}
}

// fails runs an assertion and gives what it said when it failed.
func fails(want func(require.TestingT)) string {
	r := &recorder{}
	done := make(chan any)
	go func() {
		defer func() { done <- recover() }()
		want(r)
	}()
	if p := <-done; p != nil {
		panic(p) // an assertion that breaks says nothing
	}
	return r.said
}

// recorder is a test that only remembers that it failed.
type recorder struct{ said string }

func (r *recorder) Errorf(format string, args ...any) { r.said += fmt.Sprintf(format, args...) }
func (r *recorder) FailNow()                          { runtime.Goexit() }

// made is a text after every pass.
type made struct {
	*compiler.Result
}

// plans keeps what came of the meals of all tests here: many of them look at other sheets of
// the same examples.
var plans plan.Memory

// compiledTree compiles what was read.
func compiledTree(tree *load.Tree, opt compiler.Options) *compiler.Result {
	opt.Plans = &plans
	return compiler.Compile(context.Background(), tree, opt)
}

// compileText compiles one file.
func compileText(t testing.TB, text string, opt compiler.Options) *compiler.Result {
	t.Helper()
	return compileFiles(t, map[string]string{"trial.tamis": text}, opt)
}

// compileFiles compiles a folder.
func compileFiles(t testing.TB, files map[string]string, opt compiler.Options) *compiler.Result {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	tree, err := load.FS(fsys, ".", "", "")
	require.NoError(t, err)
	return compiledTree(tree, opt)
}

func compiled(t *testing.T, c tried) *made {
	t.Helper()
	files := fstest.MapFS{"a.tamis": {Data: []byte(c.text)}}
	maps.Copy(files, c.beside)
	tree, err := load.FS(files, ".", "", "")
	if c.faulty && err != nil {
		return nil
	}
	require.NoError(t, err)
	if len(c.opt.Sheets) == 0 {
		c.opt.Sheets = append(sheets.DefaultKinds(), sheets.RunSheet)
	}
	r := compiledTree(tree, c.opt)
	if !c.faulty {
		for _, d := range r.Diags.Sorted() {
			require.Less(t, d.Severity, diag.Error, "%s %s: %s", d.Code, d.At.Span.Text(), d.Message)
		}
	}
	return &made{r}
}

// recipe finds a dish or base, the first if no name is given.
func (m *made) recipe(name string) *resolve.Recipe {
	for _, r := range m.Model.Recipes {
		if name == "" || r.Name == name {
			return r
		}
	}
	panic("no recipe " + name)
}

// part is the share of a line that a step of the first recipe takes, in words:
// "1/8", "all", "some", "none".
func (m *made) part(step int, line string) string {
	sum, some := quantity.Number{}, false
	for _, tk := range m.recipe("").Reading.Steps[step].Takes {
		switch {
		case tk.Line == nil || tk.Line.Name != line || tk.Refers:
		case tk.Unmeasured:
			some = true
		default:
			sum = sum.Add(tk.Part)
		}
	}
	switch {
	case sum.Equal(quantity.Int(1)):
		return "all"
	case sum.Sign() > 0:
		return sum.String()
	case some:
		return "some"
	}
	return "none"
}

// finds tells whether there is a finding with one of some codes.
func (m *made) finds(codes ...string) bool {
	return slices.ContainsFunc(m.Diags.Sorted(), func(d diag.Diagnostic) bool { return slices.Contains(codes, d.Code) })
}

// codes are the codes of all findings.
func (m *made) codes() (out []string) {
	for _, d := range m.Diags.Sorted() {
		out = append(out, d.Code)
	}
	return out
}

// asks tells whether a finding marks a place that holds, or lies in, some words.
func (m *made) asks(words string) bool {
	return slices.ContainsFunc(m.Diags.Sorted(), func(d diag.Diagnostic) bool {
		at := d.At.Span.Text()
		return at != "" && (strings.Contains(at, words) || strings.Contains(words, at))
	})
}

// sheets of a kind, of all documents.
func (m *made) sheets(kind sheets.Kind) (out []*sheets.Sheet) {
	for _, d := range m.Documents {
		for i := range d.Sheets {
			if d.Sheets[i].Kind == kind {
				out = append(out, &d.Sheets[i])
			}
		}
	}
	return out
}

// words are all that is printed on the sheets of some kinds (all kinds when
// none is given), with figures written plainly and blanks run together.
func (m *made) words(kinds ...sheets.Kind) string {
	var b bytes.Buffer
	for _, d := range m.Documents {
		c := *d
		if len(kinds) > 0 {
			c.Sheets = nil
			for _, s := range d.Sheets {
				if slices.Contains(kinds, s.Kind) {
					c.Sheets = append(c.Sheets, s)
				}
			}
		}
		if err := text.Write(&b, &c, text.Options{Width: 400}); err != nil {
			panic(err)
		}
	}
	return plainly(b.String())
}

var plainFigures = strings.NewReplacer("½", " 1/2", "⅓", " 1/3", "⅔", " 2/3", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅙", " 1/6", "⅚", " 5/6", "\u00a0", " ", "\u202f", " ", "°", "", "–", " to ", "×", "x", "’", "'")

var rules = regexp.MustCompile(`[-=]{5,}`)

func plainly(s string) string {
	return strings.Join(strings.Fields(plainFigures.Replace(rules.ReplaceAllString(s, ""))), " ")
}

// sentence is a step of a prep sheet as printed; the first sheet if no dish is
// named.
func (m *made) sentence(dish string, step int) string {
	for _, s := range m.sheets(sheets.Prep) {
		if dish == "" || s.Title == dish {
			return plainly(runText(steps(s)[step].Runs))
		}
	}
	panic("no prep sheet " + dish)
}

// listed are the lines of a prep sheet's list as printed.
func (m *made) listed(dish string) (out []string) {
	for _, s := range m.sheets(sheets.Prep) {
		if dish == "" || s.Title == dish {
			for _, r := range rows(s) {
				out = append(out, plainly(r))
			}
			if len(out) == 0 { // what the steps take is the list
				for _, st := range steps(s) {
					for _, tk := range st.Takes {
						out = append(out, plainly(strings.TrimSuffix(tk.Amount+" | "+tk.Name+", "+tk.Note, ", ")))
					}
				}
			}
		}
	}
	return out
}

// line is the plan of the only meal.
func (m *made) line() *timeline.Timeline {
	for _, l := range m.Timelines {
		if l != nil {
			return l
		}
	}
	return nil
}

// job finds a job by the beginning of its sentence.
func (m *made) job(begins string) *timeline.Job {
	for _, j := range m.line().Jobs {
		if strings.HasPrefix(j.Title, begins) || j.Step != nil && strings.HasPrefix(j.Step.Step.Prose.Text, begins) {
			return j
		}
	}
	panic("no job " + begins)
}
