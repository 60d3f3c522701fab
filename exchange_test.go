package main

import (
	"bytes"
	"context"
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/draft"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/render/jsonld"
)

// exchanged is what must come back of a recipe: its name, every amount with its thing, every
// time of its margins.
func exchanged(r *resolve.Recipe) (out []string) {
	for _, l := range r.Lines {
		amount := ""
		if l.Written != nil {
			amount = l.Written.String()
		}
		in := ""
		if l.Option != nil && slices.ContainsFunc(r.Lines, func(o *resolve.Line) bool {
			return o.Option != nil && o.Option != l.Option && o.Option.Choice == l.Option.Choice
		}) { // of a choice that a variant has not settled
			in = ", of " + l.Option.Label
		}
		if l.Sub != nil {
			in += ", for " + l.Sub.Name
		}
		out = append(out, "line "+amount+" "+l.Name+in)
		for _, other := range l.Instead {
			out = append(out, "instead "+other.AmountText+" "+other.Name)
		}
		for i := range l.Prep {
			if !l.Prep[i].Said {
				out = append(out, "prepare "+l.Name+" "+spelt(&l.Prep[i]))
			}
		}
	}
	for _, s := range r.Steps {
		for i := range s.Phases {
			if !s.Phases[i].Said {
				out = append(out, "step "+spelt(&s.Phases[i]))
			}
		}
	}
	for _, p := range r.Pauses {
		out = append(out, "pause "+quantity.TimeText(p.UpTo))
	}
	if r.ServeHow != nil {
		out = append(out, strings.Join(strings.Fields(r.ServeHow.Span.Text()), " "))
	}
	if r.Keeps != nil {
		out = append(out, "keeps "+r.Keeps.String())
	}
	if r.About != nil {
		out = append(out, "about "+strings.Join(strings.Fields(r.About.Text.Text), " "))
	}
	if r.Takes != nil {
		out = append(out, "takes "+r.Takes.Total.String())
	}
	if r.Serves != nil {
		out = append(out, "serves "+r.Serves.String())
	}
	if r.Makes != nil && r.Own.Yield != nil {
		out = append(out, "makes "+r.Own.Yield.String()+" "+r.Makes.What)
	}
	slices.Sort(out)
	return out
}

func spelt(s *resolve.Spell) string {
	least, most, _ := s.Written()
	return string(s.Word) + " " + least.String() + " " + most.String()
}

// TestRoundTrip: a recipe that is written as JSON-LD, and drafted from that, has the names,
// amounts and times it had.
func TestRoundTrip(t *testing.T) {
	var names []string
	for _, pattern := range []string{"examples/*/README.md", "testdata/texts/*/*.tamis", "testdata/exchange/*/*.tamis"} {
		found, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, f := range found {
			if dir := filepath.Dir(f); !slices.Contains(names, dir) {
				names = append(names, dir)
			}
		}
	}
	recipes, facts, kept := 0, 0, 0
	for _, dir := range names {
		tree, err := load.Path(dir)
		require.NoError(t, err)
		r := compiler.Compile(context.Background(), tree, compiler.Options{NoPlan: true})
		for _, doc := range r.Documents {
			require.True(t, len(doc.Recipes) > 0 || !doc.Bound && len(r.Series) == 0, "%s: a book or a series has recipes", doc.Title)
			for i := range doc.Recipes {
				was := r.Model.Recipes[slices.IndexFunc(r.Model.Recipes, func(x *resolve.Recipe) bool { return x.Name == doc.Recipes[i].Name })]
				one := *doc
				one.Recipes = doc.Recipes[i : i+1]
				var b bytes.Buffer
				require.NoError(t, jsonld.Write(&b, &one))
				back, err := draft.Make(context.Background(), "x.jsonld", b.String(), draft.Options{Units: was.System})
				require.NoError(t, err)
				text := back.Text
				read, err := load.Texts(context.Background(), ".", map[string]*string{"x.tamis": &text})
				require.NoError(t, err)
				var diags diag.List
				now := resolve.Build(read, &diags).Recipes
				require.Len(t, now, 1, text)
				require.Equal(t, was.Name, now[0].Name)
				want, have := exchanged(was), exchanged(now[0])
				recipes++
				for _, w := range want {
					facts++
					if at := slices.Index(have, w); at >= 0 {
						have = slices.Delete(have, at, at+1)
						kept++
					} else {
						t.Logf("%s, %s: lost %s; has %v", dir, was.Name, w, have)
					}
				}
			}
		}
	}
	t.Logf("%d recipes, %d of %d names with their amounts and times kept", recipes, kept, facts)
	require.Equal(t, facts, kept)
}

// TestExchangeOnDisk builds every format of exchange of an example.
func TestExchangeOnDisk(t *testing.T) {
	dir := t.TempDir()
	var out, errOut bytes.Buffer
	require.Equal(t, exitClean, run(context.Background(), []string{"build", "examples/harvest-lunch", "-o", dir, "--to", "jsonld,markdown,csv,ics"}, nil, &out, &errOut), errOut.String())
	var made []string
	for l := range strings.Lines(out.String()) {
		made = append(made, filepath.Base(strings.TrimSpace(l)))
	}
	assert.Equal(t, []string{"harvest-lunch.jsonld", "harvest-lunch.md", "harvest-lunch.csv", "harvest-lunch-ana.ics", "harvest-lunch-jo.ics"}, made)
	data, err := load.ReadFile(filepath.Join(dir, "harvest-lunch.jsonld"))
	require.NoError(t, err)
	require.True(t, json.Valid([]byte(data)))
}
