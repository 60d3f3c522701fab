package compiler_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
)

// clockOf is all that a plan wants of the steps of a recipe.
func clockOf(r *resolve.Recipe) string {
	var b strings.Builder
	for _, s := range r.Steps {
		fmt.Fprintf(&b, "%d %q %v %v %q %v %q %v", s.Index, s.Prose.Text, s.Rings, s.Level, s.Place, s.Grill, s.Oven, s.Heats)
		for _, sp := range s.Phases {
			fmt.Fprintf(&b, " %s %v %v %v %q %q %v", sp.Kind, sp.Fixed, sp.Per, sp.Every, sp.Place, sp.Until.Text, sp.Offered)
		}
		for _, m := range s.Moments {
			fmt.Fprintf(&b, " at %v %q", m.At, m.Prose.Text)
		}
		if s.StartBefore != nil {
			fmt.Fprintf(&b, " start %v", *s.StartBefore)
		}
		b.WriteByte('\n')
	}
	for _, l := range r.Lines {
		for _, sp := range l.Prep {
			fmt.Fprintf(&b, "%s %s %v\n", l.Name, sp.Kind, sp.Fixed)
		}
	}
	return b.String()
}

// written is a text with its offers written into it, in the form of fmt.
func written(t *testing.T, text string, r *compiler.Result) string {
	out := text
	for _, n := range diag.Apply(r.Diags.Sorted(), func(f diag.Fix) bool { return f.Offered }) {
		out = n.Text
	}
	form, found := format.Source(source.New("trial.tamis", out))
	for _, d := range found {
		require.Less(t, d.Severity, diag.Error, "%s\n%s", d.Message, out)
	}
	return form
}

// Every offer of the corpus can be written into the text; then it is in the form
// of fmt, nothing more is offered, and the plan is made of the same steps.
func TestOffersAreWritten(t *testing.T) {
	names, err := filepath.Glob("../testdata/readings/offered/*.txt")
	require.NoError(t, err)
	for _, name := range names {
		for _, p := range offers(t, name) {
			text := p.source(strings.HasPrefix(p.file, "notes"))
			before := compileText(t, text, compiler.Options{NoPlan: true, NoPages: true})
			out := written(t, text, before)
			again, _ := format.Source(source.New("trial.tamis", out))
			require.Equal(t, out, again, "%s", p)
			after := compileText(t, out, compiler.Options{NoPlan: true, NoPages: true})
			a, b := before.Model.Recipes[0], after.Model.Recipes[0]
			require.Equal(t, clockOf(a), clockOf(b), "%s\n%s", p, out)
			for _, o := range b.Offers {
				require.Empty(t, o.Margin, "%s is offered again\n%s", p, out)
			}
		}
	}
}
