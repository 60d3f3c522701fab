package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

// Lemons that give their zest to one part and their juice to another are bought once: the
// row names the parts, and no amounts of theirs that come to more than is bought.
func TestWhatIsBoughtForItsPartsIsNotAddedUp(t *testing.T) {
	seen := 0
	for _, d := range example(t, "regatta-picnic", compiler.Options{Sheets: []sheets.Kind{sheets.Series}}).Documents {
		for _, s := range d.Sheets {
			if s.Kind != sheets.Shopping {
				continue
			}
			for _, b := range s.Blocks {
				tb, ok := b.(*sheets.Table)
				if !ok {
					continue
				}
				for _, g := range tb.Groups {
					for _, r := range g.Rows {
						if how := runText(r.Cells[1].Sub) + runText(r.Cells[2].Sub); strings.Contains(how, "for the zest") && strings.Contains(how, "for the juice") && strings.HasPrefix(runText(r.Cells[3].Runs), "part ") {
							seen++
							require.Regexp(t, `^part \d( · part \d)*$`, runText(r.Cells[3].Runs))
						}
					}
				}
			}
		}
	}
	require.NotZero(t, seen)
}
