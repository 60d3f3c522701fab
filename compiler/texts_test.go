package compiler_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// The old books: recipes of published historical sources written in the
// notation (testdata/texts), with every fact that stands in them or follows
// from them (facts.csv), and what the program makes of it. README.md there
// says how they are written; texts_look_test.go looks the figures up.

// fact is one row of facts.csv.
type fact struct {
	line   int
	text   string // the folder
	what   string // the fact, in our words
	kind   string // amount, time, heat …
	origin string // given, derived, conflict
	said   string // naturally, awkwardly, not: by honest count
	at     string // the size it is asked at; see sized
	check  string // what is looked up; see looked
}

func facts(t *testing.T) (out []fact) {
	f, err := os.Open("../testdata/texts/facts.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"text", "fact", "kind", "origin", "said", "at", "check"}, rows[0])
	for i, c := range rows[1:] {
		out = append(out, fact{i + 2, c[0], c[1], c[2], c[3], c[4], c[5], c[6]})
	}
	return out
}

func textFolders(t *testing.T) (out []string) {
	files, err := filepath.Glob("../testdata/texts/*/*.tamis")
	require.NoError(t, err)
	for _, f := range files {
		if dir := filepath.Dir(f); !slices.Contains(out, dir) {
			out = append(out, dir)
		}
	}
	return out
}

var (
	factKinds = strings.Fields("amount yield serves time heat share alternative condition reference cost conflict order keeping place total note menu name")
	origins   = strings.Fields("given derived conflict")
	manners   = strings.Fields("naturally awkwardly not")
)

// TestTexts holds every fact against the program, and counts for each text
// what could be said naturally, awkwardly and not at all.
func TestTexts(t *testing.T) {
	folders := textFolders(t)
	all := facts(t)
	made := map[string]*made{}
	total := map[string]int{}
	for _, dir := range folders {
		text := filepath.Base(dir)
		count, derived, conflicts, named := map[string]int{}, 0, 0, 0
		t.Run(text, func(t *testing.T) {
			for _, f := range all {
				if f.text != text {
					continue
				}
				require.Contains(t, factKinds, f.kind, "line %d", f.line)
				require.Contains(t, origins, f.origin, "line %d", f.line)
				require.Contains(t, manners, f.said, "line %d", f.line)
				count[f.said]++
				switch f.origin {
				case "derived":
					derived++
				case "conflict":
					conflicts++
					if strings.HasPrefix(f.check, "finds ") {
						named++
					} else {
						require.Contains(t, f.what, ": ", "line %d: say why nothing finds it", f.line)
					}
				}
				if reason, ok := strings.CutPrefix(f.check, "none: "); ok {
					require.Equal(t, "not", f.said, "line %d: what is said can be looked up", f.line)
					require.NotEmpty(t, reason)
					continue
				}
				key := fmt.Sprint(f.text, " @ ", f.at, f.ofPlan())
				if _, tried := made[key]; !tried {
					if failed := fails(func(r require.TestingT) { made[key] = sized(r, f) }); failed != "" {
						made[key] = nil
						t.Errorf("facts.csv:%d: %s\n%s", f.line, f.at, failed)
					}
				}
				if made[key] == nil {
					continue // it is reported
				}
				if failed := fails(func(r require.TestingT) { looked(r, made[key], f) }); failed != "" {
					t.Errorf("facts.csv:%d: %s\n\t%s @ %s\n%s", f.line, f.what, f.check, f.at, failed)
				}
			}
			require.NotEmpty(t, count, "no facts")
		})
		for k, n := range count {
			total[k] += n
		}
		total["derived"], total["conflicts"], total["found"] = total["derived"]+derived, total["conflicts"]+conflicts, total["found"]+named
		sum := count["naturally"] + count["awkwardly"] + count["not"]
		t.Logf("%-34s %3d facts: %3d naturally (%3d %%), %2d awkwardly, %2d not; %2d derived, %d of %d conflicts found",
			text, sum, count["naturally"], 100*count["naturally"]/max(sum, 1), count["awkwardly"], count["not"], derived, named, conflicts)
	}
	sum := total["naturally"] + total["awkwardly"] + total["not"]
	t.Logf("%d texts, %d facts (%d derived; %d of %d conflicts found by check): %d naturally (%.1f %%), %d awkwardly (%.1f %%), %d not (%.1f %%)", len(folders), sum, total["derived"], total["found"], total["conflicts"],
		total["naturally"], 100*float64(total["naturally"])/float64(sum), total["awkwardly"], 100*float64(total["awkwardly"])/float64(sum),
		total["not"], 100*float64(total["not"])/float64(sum))
}

// TestTextsAreClean: a text has no finding but those that facts.csv names (its
// conflicts, and questions that are right to ask). Hints are not counted.
func TestTextsAreClean(t *testing.T) {
	folders := textFolders(t)
	all := facts(t)
	for _, dir := range folders {
		text := filepath.Base(dir)
		t.Run(text, func(t *testing.T) {
			m := sized(t, fact{text: text})
			for _, d := range m.Diags.Sorted() {
				if d.Severity <= diag.Hint {
					continue
				}
				named := slices.ContainsFunc(all, func(f fact) bool {
					return f.text == text && f.at == "" && strings.HasPrefix(f.check, "finds "+d.Code+" = ") && known(d, f)
				})
				if !named {
					t.Errorf("%s %s: %s", d.Code, lineOf(d), d.Message)
				}
			}
		})
	}
}

// known tells whether a finding is the one a check names: `finds U305 = words
// of its line`.
func known(d diag.Diagnostic, f fact) bool {
	head, words, _ := strings.Cut(f.check, " = ")
	return d.Code == strings.TrimPrefix(head, "finds ") && strings.Contains(lineOf(d), words)
}

func lineOf(d diag.Diagnostic) string {
	s := d.At.Span
	if s.File == nil {
		return d.Message
	}
	text := s.File.Text
	start := strings.LastIndexByte(text[:s.Start], '\n') + 1
	line, _, _ := strings.Cut(text[start:], "\n")
	return strings.Join(strings.Fields(line), " ")
}

// ofPlan tells whether the check looks at the plan; only then is one made.
func (f fact) ofPlan() bool {
	verb, _, _ := strings.Cut(f.check, " ")
	return slices.Contains(strings.Fields("time touches touch start end elapsed attended follows finds"), verb)
}

var unitsOf = regexp.MustCompile(`(?m)^  units .+`)

var portionsAt = regexp.MustCompile(`^for (\d+) (.+)$`)

// sized compiles the folder of a fact at the size it is asked at:
//
//	(nothing)             the folder as it is, with its menus
//	for 12 Roast beef     its recipes, and a menu that serves so many of one (an option may follow a comma, another dish a plus)
//	fit 12 lb beef, Roast beef  as many portions of a dish as so much of a thing is used up by
//	10 quart Brown sauce  its recipes, and a dish that takes so much of one (a margin may follow a semicolon)
func sized(t require.TestingT, f fact) *made {
	dir := filepath.Join("../testdata/texts", f.text)
	names, err := filepath.Glob(filepath.Join(dir, "*.tamis"))
	require.NoError(t, err)
	files, units := fstest.MapFS{}, "  units metric"
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		if f.at != "" && strings.HasPrefix(filepath.Base(name), "menu") {
			continue
		}
		files[filepath.Base(name)] = &fstest.MapFile{Data: text}
		if u := unitsOf.FindString(string(text)); u != "" {
			units = u
		}
	}
	menu := "menu Asked\n  covers 1\n  course Main\n    "
	opt := compiler.Options{Sheets: append(sheets.DefaultKinds(), sheets.RunSheet), PlanAll: f.at != "", NoPlan: f.at != "" && !f.ofPlan()}
	switch c := portionsAt.FindStringSubmatch(f.at); {
	case f.at == "":
	case strings.HasPrefix(f.at, "fit "):
		thing, dish, ok := strings.Cut(strings.TrimPrefix(f.at, "fit "), ", ")
		require.True(t, ok, "%s", f.at)
		a, n, _ := quantity.ReadAmount(thing, quantity.Options{System: quantity.System(strings.TrimPrefix(units, "  units "))})
		q, problem := a.Quantity(quantity.System(strings.TrimPrefix(units, "  units ")), 1)
		require.Nil(t, problem)
		opt.Demand.Fit = []demand.Wanted{{Name: strings.TrimSpace(thing[n:]), Quantity: q}}
		files["menu.tamis"] = &fstest.MapFile{Data: []byte(menu + dish + "\n")}
	case c != nil:
		for _, one := range strings.Split(c[2], " + ") {
			dish, option, _ := strings.Cut(one, ",")
			menu += dish + ", for " + c[1]
			if option != "" {
				menu += "," + option
			}
			menu += "\n    "
		}
		files["menu.tamis"] = &fstest.MapFile{Data: []byte(strings.TrimRight(menu, " \n") + "\n")}
	default:
		menu += "Probe\n\ndish Probe\n  serves 1\n" + units + "\n  gather\n    " + strings.Replace(f.at, "; ", " | ", 1) + "\n  method\n    - Serve everything.\n      | work 5 min\n"
		files["menu.tamis"] = &fstest.MapFile{Data: []byte(menu)}
	}
	tree, err := load.FS(files, ".", "", "")
	require.NoError(t, err)
	r := compiledTree(tree, opt)
	for _, d := range r.Diags.Sorted() {
		require.Less(t, d.Severity, diag.Error, "%s @ %s: %s %s: %s", f.text, f.at, d.Code, lineOf(d), d.Message)
	}
	return &made{r}
}

// subject takes `Brown sauce/3: butter` apart.
func subject(s string) (block string, step int, thing string) {
	block, thing, _ = strings.Cut(s, ": ")
	if i := strings.LastIndexByte(block, '/'); i >= 0 {
		if n, err := strconv.Atoi(block[i+1:]); err == nil {
			return block[:i], n, thing
		}
	}
	return block, 0, thing
}
