package larder

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ours is what the larder says now of a row of the audit: of its field, and of a thing in a
// form, a size, a part or a country, where the row names them ("part, size, country").
func ours(row map[string]string) string {
	var out []string
	for name := range strings.SplitSeq(row["name"], " / ") {
		k := Builtin().Named(name)
		if k == nil {
			out = append(out, "not known")
			continue
		}
		switch row["field"] {
		case "name":
			text := k.Item.Name
			if k.Part != "" {
				text += " (" + k.Part + ")"
			}
			out = append(out, text)
		case "contains":
			var all []string
			for _, c := range k.Item.Contains {
				text := c.Named()
				if c.Depends {
					text += "?"
				}
				all = append(all, text)
			}
			if k.Item.Has("read the label") {
				all = append(all, "read the label")
			}
			out = append(out, strings.Join(all, ", "))
		case "density":
			if d, ok := k.Item.Density(row["of"]); ok {
				out = append(out, d.Grams.Text(false)+" g a "+d.Measure)
			}
		case "piece":
			of := strings.Split(row["of"]+",,", ",")
			if p, ok := k.Item.Piece(strings.TrimSpace(of[0]), strings.TrimSpace(of[1]), strings.TrimSpace(of[2])); ok {
				out = append(out, fmt.Sprintf("%s g %s", p.Grams.Value.Text(false), map[bool]string{true: "as bought", false: "trimmed"}[p.Bought]))
			}
		case "yield":
			state, country, _ := strings.Cut(row["of"], ",")
			if y, ok := k.Item.Yield(strings.TrimSpace(state), strings.TrimSpace(country)); ok {
				out = append(out, y.Percent.Value.Text(false)+"%")
			}
		case "counter":
			out = append(out, k.Item.Counter)
		}
	}
	return strings.Join(out, " / ")
}

// An audit of the table went through 528 rows. Each is accepted, or the reason why not
// stands beside it; what the larder says now is worked out again, so that what was
// accepted stays so. A row about the program names the test that holds it.
func TestAuditRowByRow(t *testing.T) {
	rows := readRows(t, "audit.csv")
	require.Len(t, rows, 528)
	tests := testNames(t)
	accepted := 0
	for _, r := range rows {
		switch r["field"] {
		case "program":
			assert.True(t, tests[r["ours"]], "row %s: no test %s", r["no"], r["ours"])
		default:
			assert.Equal(t, r["ours"], ours(r), "row %s, %s of %s: asked for %s", r["no"], r["field"], r["name"], r["asked"])
		}
		switch r["verdict"] {
		case "accepted":
			accepted++
			assert.NotContains(t, r["ours"], "not known", r["no"])
		case "accepted otherwise", "not accepted":
			assert.NotEmpty(t, r["reason"], r["no"])
		default:
			t.Errorf("row %s: verdict %q", r["no"], r["verdict"])
		}
	}
	require.GreaterOrEqual(t, accepted, 450)
	t.Logf("%d of %d rows accepted as they were asked for", accepted, len(rows))
}

// testNames are the names of all tests of the program.
func testNames(t *testing.T) map[string]bool {
	out := map[string]bool{}
	require.NoError(t, filepath.WalkDir("../..", func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		data, err := os.ReadFile(path)
		for line := range strings.SplitSeq(string(data), "\n") {
			if rest, ok := strings.CutPrefix(line, "func "); ok && strings.HasPrefix(rest, "Test") {
				name, _, _ := strings.Cut(rest, "(")
				out[name] = true
			}
		}
		return err
	}))
	return out
}
