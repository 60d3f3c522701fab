package compiler_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/hazard"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/diag"
)

// safetyCase is a small recipe that hurts somebody, or only looks like one.
type safetyCase struct {
	name  string
	want  []string // codes, one of which must come; none: a lookalike, where nothing may
	text  string
	holds string // in place of codes: what the list of allergens must name
	at    string // words of the line that the finding must point at
	paper string // words that the cautions of its sheet must have
}

// alarms are the findings by which a cook is told of danger.
func alarms(text string) (codes []string, all []diag.Diagnostic) {
	tree, err := load.FS(fstest.MapFS{"case.tamis": {Data: []byte(text)}}, ".", "", "")
	if err != nil {
		return []string{"unread"}, nil
	}
	all = compiledTree(tree, compiler.Options{NoPages: true}).Diags.Sorted()
	for _, d := range all {
		if d.Severity == diag.Error {
			codes = append(codes, "error "+d.Code+" "+d.Message)
		} else if d.Code[0] == 'S' || d.Code[0] == 'A' {
			codes = append(codes, d.Code)
		}
	}
	return codes, all
}

// judge tells how many hazards are caught and how many lookalikes raise an
// alarm, and names those that are not as they should be.
func judge(t *testing.T, cases []safetyCase) (hazards, caught, lookalikes, false_ int) {
	for _, c := range cases {
		got, all := alarms(c.text)
		bad := slices.ContainsFunc(got, func(s string) bool { return strings.HasPrefix(s, "error") || s == "unread" })
		if bad {
			t.Errorf("%s does not read: %v", c.name, got)
		}
		said := func() {
			if os.Getenv("TAMIS_CASES") != "" {
				fmt.Printf("%-9s %-40s want %v got %v\n", map[bool]string{true: "MISSED", false: "FALSE"}[len(c.want) > 0], c.name, c.want, got)
				if os.Getenv("TAMIS_CASES") == "all" {
					for _, d := range all {
						fmt.Println("     ", d.Code, d.Message)
					}
				}
			}
		}
		if c.holds != "" {
			hazards++
			if missing := notNamed(t, c); len(missing) == 0 {
				caught++
			} else if os.Getenv("TAMIS_CASES") != "" {
				fmt.Println("MISSED   ", c.name, "does not name", missing)
			}
			continue
		}
		if len(c.want) > 0 {
			hazards++
			if slices.ContainsFunc(got, func(s string) bool { return slices.Contains(c.want, s) }) {
				caught++
			} else {
				said()
			}
			continue
		}
		lookalikes++
		got = slices.DeleteFunc(got, func(s string) bool { return s[0] == 'A' && s != "A104" && s != "A106" }) // a question of a list is no alarm
		if len(got) > 0 {
			false_++
			said()
		}
	}
	return hazards, caught, lookalikes, false_
}

// notNamed are the allergens that a case wants named and that neither what is
// contained nor the labels to be read name.
func notNamed(t *testing.T, c safetyCase) (missing []string) {
	var said []string
	for _, r := range compileText(t, c.text, compiler.Options{}).Model.Recipes {
		if r.Reading == nil {
			continue
		}
		a := hazard.AllergensOf("UK", hazard.AllThings(r.Reading))
		said = append(said, a.Contains...)
		for _, l := range a.Labels {
			said = append(said, l.May...)
		}
	}
	all := strings.Join(said, " ")
	for _, w := range strings.FieldsFunc(c.holds, func(r rune) bool { return r == ',' || r == ' ' }) {
		w = strings.TrimSuffix(w, "s")
		if allergenWords[w] && !strings.Contains(all, w) {
			missing = append(missing, w)
		}
	}
	return missing
}

var allergenWords = map[string]bool{"celery": true, "sesame": true, "barley": true, "mustard": true, "sulphite": true, "wheat": true, "rye": true, "mollusc": true, "soya": true, "milk": true, "egg": true, "hazelnut": true}

// ownCases reads one half of testdata/safety/cases.
func ownCases(t *testing.T, half string) (out []safetyCase) {
	files, err := filepath.Glob(filepath.Join("..", "testdata", "safety", "cases", half+"-*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		for _, part := range txtar.Parse(data).Files {
			kind, name, ok := strings.Cut(part.Name, ": ")
			require.True(t, ok, part.Name)
			c := safetyCase{name: name, text: string(part.Data)}
			if codes, ok := strings.CutPrefix(kind, "hazard "); ok {
				codes, more, _ := strings.Cut(codes, " | at ")
				c.want = strings.Fields(codes)
				c.at, c.paper, _ = strings.Cut(more, " | paper ")
			} else {
				require.Equal(t, "lookalike", kind)
			}
			out = append(out, c)
		}
	}
	return out
}

// Hazards of our own, written before the rules that find them, and texts that
// only look like one.
func TestSafetyCases(t *testing.T) {
	for _, half := range []string{"open", "blind"} {
		cases := ownCases(t, half)
		h, c, l, f := judge(t, cases)
		require.GreaterOrEqual(t, c*100, h*95, "%s: %d of %d hazards are caught", half, c, h)
		require.LessOrEqual(t, f, 3, "%s: %d lookalikes raise an alarm", half, f)
		t.Logf("%s: %d of %d hazards caught, %d of %d lookalikes raise an alarm", half, c, h, f, l)
	}
}

// placed tells whether a finding that a case wants points at the line it is to stand
// at, and printed whether the cautions of a sheet of it speak of it.
func placed(c safetyCase) bool {
	_, all := alarms(c.text)
	return slices.ContainsFunc(all, func(d diag.Diagnostic) bool {
		return slices.Contains(c.want, d.Code) && !d.At.Span.IsZero() && strings.Contains(strings.ToLower(lineAt(c.text, d.At.Span.Start)), strings.ToLower(c.at))
	})
}

// lineAt is the line of a place, and of a step the whole of it.
func lineAt(text string, at int) string {
	from := strings.LastIndexByte(text[:at], '\n') + 1
	if dash := strings.LastIndex(text[:at], "\n    - "); dash >= 0 && strings.HasPrefix(text[from:], "      ") {
		from = dash + 1
	}
	end := strings.Index(text[from+1:]+"\n    - ", "\n    - ") + from + 1
	if line, _, _ := strings.Cut(text[from:], "\n"); !strings.HasPrefix(line, "    - ") {
		return line
	}
	return text[from:min(end, len(text))]
}

func printed(t *testing.T, c safetyCase) bool {
	m := &made{compileText(t, c.text, compiler.Options{})}
	return slices.ContainsFunc(m.sheets(sheets.Prep), func(s *sheets.Sheet) bool {
		return strings.Contains(strings.ToLower(careOn(s)), strings.ToLower(c.paper))
	})
}

// The third set: hazards of all corners of a kitchen, with the step or line at which the
// finding stands and what the paper says.
func TestLaterSafetyCases(t *testing.T) {
	cases := ownCases(t, "later")
	h, caught, l, f := judge(t, cases)
	there, onPaper := 0, 0
	for _, c := range cases {
		if len(c.want) == 0 {
			continue
		}
		p, q := placed(c), printed(t, c)
		if p {
			there++
		}
		if q {
			onPaper++
		}
		if os.Getenv("TAMIS_CASES") != "" && (!p || !q) {
			fmt.Printf("%-24s place %v, paper %v: %q %q\n", c.name, p, q, c.at, c.paper)
		}
	}
	require.GreaterOrEqual(t, min(caught, there, onPaper)*100, h*95, "%d caught, %d at their step, %d on paper, of %d", caught, there, onPaper, h)
	require.Zero(t, f, "lookalikes raise an alarm")
	t.Logf("%d of %d hazards caught, %d at their line, %d on paper; %d of %d lookalikes raise an alarm", caught, h, there, onPaper, f, l)
}

// What reviewers found since: none may be missed again, and none may be false.
func TestMendedSafetyCases(t *testing.T) {
	for _, c := range ownCases(t, "mended") {
		t.Run(c.name, func(t *testing.T) {
			h, caught, _, f := judge(t, []safetyCase{c})
			got, _ := alarms(c.text)
			require.Equal(t, h, caught, "want one of %v, got %v", c.want, got)
			require.Zero(t, f, "a false alarm: %v", got)
		})
	}
}

// The fourth set and later ones, written as an officer, a nurse and a parent would try it.
func TestFreshSafetyCases(t *testing.T) {
	for _, half := range []string{"fresh", "again", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth"} {
		cases := ownCases(t, half)
		h, caught, l, f := judge(t, cases)
		there := 0
		for _, c := range cases {
			if len(c.want) > 0 && placed(c) { // third says no words: anywhere in the text
				there++
			} else if len(c.want) > 0 && os.Getenv("TAMIS_CASES") != "" {
				fmt.Printf("PLACE     %s: %q\n", c.name, c.at)
			}
		}
		require.GreaterOrEqual(t, caught*100, h*95, "%s: %d of %d hazards are caught", half, caught, h)
		require.GreaterOrEqual(t, there*100, h*95, "%s: %d of %d stand at their line", half, there, h)
		require.Zero(t, f, "%s: lookalikes raise an alarm", half)
		t.Logf("%s: %d of %d hazards caught, %d at their line; %d of %d lookalikes raise an alarm", half, caught, h, there, f, l)
	}
}
