package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

// A moment by sight is planned as the writer guesses, and printed with what to look for.
func TestAMomentBySight(t *testing.T) {
	m := compiled(t, tried{text: menuOf(4, "Loaf") + `dish Loaf
  serves 4
  gather
    500 g bread flour
    300 ml water
  method
    - Knead the bread flour with the water, and prove.
      | work 10 min | leave 1 h
      when risen, say 20 min: Fold it. | work 2 min
    - Shape it.
      | work 5 min
`})
	job := m.job("Knead")
	require.Len(t, job.Touches, 1)
	require.Equal(t, 20, job.Touches[0].Start-job.Start()-10, "20 min after the leaving began")
	require.Contains(t, m.words(sheets.RunSheet), "When risen: Fold it.")
	require.Contains(t, m.words(sheets.Prep), "when risen, say 20 min")
	require.NotContains(t, m.words(sheets.Prep), "at about")
}
