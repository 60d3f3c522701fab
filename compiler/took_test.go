package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/lang/diag"
)

// What a step took three times is offered to its margin, and goes where its longest phase
// says its length.
func TestTheKitchensOwnFigureIsOffered(t *testing.T) {
	for _, c := range []struct {
		name, cooked, margin string
		message, want        string // want: the margin afterwards; empty: there is no such finding
	}{
		{"three times", "step 1 took 50 min; step 1 took 45 min; step 1 took 1 h", "leave 30 min", "step 1 is planned for 30 min, and took 50 min when it was cooked (3 times)", "leave 50 min"},
		{"four times, the two in the middle", "step 1 took 50 min; step 1 took 40 min; step 1 took 46 min; step 1 took 44 min", "leave 30 min", "and took 45 min", "leave 45 min"},
		{"in other words", "Step 1 needed 50 min, and less salt; good, step 1 took about 50 min; step 1 took 45 to 55 min", "leave 30 min", "and took 50 min", "leave 50 min"},
		{"beside work", "step 1 took 50 min; step 1 took 50 min; step 1 took 50 min", "work 5 min | leave 20 min", "is planned for 25 min", "work 5 min | leave 45 min"},
		{"a guess is settled", "step 1 took 50 min; step 1 took 50 min; step 1 took 50 min", "leave 20 min ?", "is planned for 20 min", "leave 50 min"},
		{"a range", "step 1 took 50 min; step 1 took 50 min; step 1 took 50 min", "leave 20 to 30 min", "is planned for 20 min to 30 min", "leave 50 min"},
		{"an hour and more", "step 1 took 90 min; step 1 took 1 h 30 min; step 1 took 1½ h", "leave 1 h", "is planned for 1 h", "leave 1 h 30 min"},
		{"in words", "step 1 took an hour and 50 minutes; step 1 took 1 h 50 min; step 1 took 1 h 50", "leave 1 h", "and took 1 h 50 min", "leave 1 h 50 min"},
		{"longer than it was, and nobody says than what", "step 1 took 50 min longer; step 1 took 50 min longer; step 1 took 50 min longer; step 1 took 50 min more; step 1 took 50 min less; step 1 took another 50 min", "leave 30 min", "", ""},
		{"half of a range", "step 1 took 1 h 20 to 1 h 30; step 1 took 1:20 h; step 1 took 1 h 20/30", "leave 30 min", "", ""},
		{"twice only", "step 1 took 50 min; step 1 took 45 min", "leave 30 min", "", ""},
		{"another step", "step 2 took 50 min; step 2 took 45 min; step 3 took 1 h", "leave 30 min", "", ""},
		{"as planned", "step 1 took 31 min; step 1 took 30 min; step 1 took 33 min", "leave 30 min", "", ""},
		{"within the range", "step 1 took 40 min; step 1 took 40 min; step 1 took 40 min", "leave 30 to 45 min", "", ""},
		{"a time that grows", "step 1 took 50 min; step 1 took 45 min; step 1 took 1 h", "leave 30 min per kg leeks", "", ""},
		{"no time at all", "step 1 took long; step 1 took ages; step 1 took 0 min", "leave 30 min", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := "dish Leek pot\n  serves 4\n"
			for i, words := range strings.Split(c.cooked, "; ") {
				text += "  cooked 2027-05-0" + string(rune('1'+i)) + ", Bea: " + words + "\n"
			}
			text += "  gather\n    1 kg leeks\n  method\n    - Simmer the leeks. | ring low | " + c.margin + "\n    - Serve them. | work 1 min\n"
			tree, err := load.Texts(t.Context(), "", map[string]*string{"a.tamis": &text})
			require.NoError(t, err)
			var found []diag.Diagnostic
			for d := range compiler.Compile(t.Context(), tree, compiler.Options{NoPages: true}).Diags.All() {
				if d.Code == "H144" {
					found = append(found, d)
				}
			}
			if c.want == "" {
				require.Empty(t, found)
				return
			}
			require.Len(t, found, 1)
			require.Contains(t, found[0].Message, c.message)
			for _, n := range diag.Apply(found, func(diag.Fix) bool { return true }) {
				require.Contains(t, n.Text, "| ring low | "+c.want+"\n")
			}
		})
	}
}
