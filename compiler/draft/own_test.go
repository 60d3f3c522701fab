package draft_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler/draft"
	"tamis/lang/quantity"
)

// TestManners drafts pieces of our own in twelve manners (testdata/draft) and holds each to
// what a reader takes from it. README.md there tells what the first look at each gave.
func TestManners(t *testing.T) {
	wanted := map[string][][]string{}
	var order []string
	for _, r := range table(t, "../../testdata/draft/expected.csv")[1:] {
		if wanted[r[0]] == nil {
			order = append(order, r[0])
		}
		wanted[r[0]] = append(wanted[r[0]], r)
	}
	total := map[string]*count{}
	for _, name := range order {
		t.Run(name, func(t *testing.T) {
			b, err := os.ReadFile(filepath.Join("../../testdata/draft", name))
			require.NoError(t, err)
			made, err := draft.Make(context.Background(), name, string(b), draft.Options{})
			require.NoError(t, err)
			g := faithful(t, string(b), made)
			for _, r := range wanted[name] {
				if r[1] == "not yet" {
					assert.False(t, g.has("time", r[2]), "%s is read now: say so", r[2])
					continue
				}
				if total[r[1]] == nil {
					total[r[1]] = &count{}
				}
				ok := g.has(r[1], r[2])
				total[r[1]].add(ok)
				assert.True(t, ok, "%s %s", r[1], r[2])
			}
			if t.Failed() {
				t.Log("\n" + made.Text)
			}
		})
	}
	for _, k := range []string{"amount", "time", "name", "title", "serves", "makes"} {
		t.Logf("%s: %d of %d", k, total[k].right, total[k].all)
	}
}

// has looks a fact up in a draft; each line and each time is used once.
func (g *got) has(kind, value string) bool {
	field := func(f string) bool {
		return strings.Contains(g.text, "  "+f+" "+value+"\n") || strings.Contains(g.text, "  "+f+" "+value+" ?\n")
	}
	switch kind {
	case "title":
		return strings.Contains(g.text, "dish "+value+"\n") || strings.Contains(g.text, "base "+value+"\n")
	case "serves":
		return field("serves")
	case "makes":
		return field("makes") || strings.Contains(g.text, "  makes about "+value)
	case "name":
		return slices.ContainsFunc(g.lines, func(l string) bool { return shares(l, value) })
	case "amount":
		amount, thing, _ := strings.Cut(value, " = ")
		want, _, _ := quantity.ReadAmount(amount+" x", quantity.Options{})
		for i, l := range g.lines {
			if !shares(l, thing) {
				continue
			}
			parts := strings.Split(unsized(g.amount[i]), " plus ")
			for k, p := range parts {
				if p == unsized(want.String()) {
					parts[k] = "used"
					g.amount[i] = strings.Join(parts, " plus ")
					return true
				}
			}
		}
	case "time":
		want := said(value)
		if value == "overnight" {
			want = []quantity.Span{{Overnight: true}}
		}
		if len(want) == 0 {
			return false
		}
		i := slices.IndexFunc(g.times, func(have quantity.Span) bool { return same(have, want[len(want)-1]) })
		if i >= 0 {
			g.times = slices.Delete(g.times, i, i+1)
		}
		return i >= 0
	}
	return false
}
