package compiler_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Letters that are longer or shorter when they are made small: the sign of kelvin has
// three bytes and its k one, the A with a stroke two and its small letter three. A place
// that is found in the small text is none in the text itself.
func TestLettersThatChangeTheirLength(t *testing.T) {
	for _, odd := range []string{"\u212a", "\u023a", strings.Repeat("\u212a", 9), strings.Repeat("\u023a", 9)} {
		for _, line := range []string{
			"1 %s of x", "1 %s bowls of x", "2 %s, x or y", "1 %s or y", "%s and %s", "1 %s plus extra for x", "2 %s, red, sliced", "1 %s the size of a nut", "%s eggs plus 1 yolk",
		} {
			text := "dish " + odd + "pot\n  serves 4\n  gather\n    " + strings.ReplaceAll(line, "%s", odd) + "\n  method\n    - Make as for " + odd + " the same as " + odd + ".\n"
			require.NotPanics(t, func() { foundIn(t, map[string]string{"a.tamis": text}) }, text)
		}
	}
}

// A weight of nothing is refused where it is written, and every time stays finite.
func TestAWeightOfNothing(t *testing.T) {
	for _, margin := range []string{"leave 2 h at 0 kg", "leave 2 h at 0 g, 3 h at 1 kg", "leave 2 h at 0 kg, 3 h at 0 kg"} {
		text := "dish Roast\n  serves 4\n  gather\n    2 kg beef\n  method\n    - Roast the beef.\n      | oven 180 C | " + margin + "\n"
		var codes []string
		require.NotPanics(t, func() {
			for _, d := range foundIn(t, map[string]string{"a.tamis": text}) {
				codes = append(codes, d.Code)
			}
		}, margin)
		require.Contains(t, codes, "N168", margin)
	}
}

// A letter with an accent is a letter in a slip as well: its place and its capital are whole.
func TestASlipWithAccents(t *testing.T) {
	const pie = "dish Pie\n  serves 4\n  gather\n    600 g %s\n  method\n    - %s\n      | work 5 min\n"
	for _, c := range []struct{ gathered, says, slip, right string }{
		{"éclairs", "Éclars go in first.", "Éclars", "Éclairs"},
		{"jalapeños", "Slice the jalapeñs.", "jalapeñs", "jalapeños"},
		{"crème fraîche", "Stir in the fraîhce.", "fraîhce", "fraîche"},
	} {
		found := 0
		for _, d := range foundIn(t, map[string]string{"a.tamis": fmt.Sprintf(pie, c.gathered, c.says)}) {
			if d.Code == "U201" {
				found++
				require.Equal(t, c.slip, d.At.Span.Text())
				require.Equal(t, c.right, d.Fixes[0].Edits[0].Text)
			}
		}
		require.Equal(t, 1, found, c.says)
	}
}
