package check_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

const allowMenu = `menu Supper
  covers 4
%SERVE%
  course Main
    Buttered leeks

dish Buttered leeks
  allow P101: the cook knows
  serves 4
  gather
    800 g    leeks
    40 g     butter
  method
    - Soften the leeks in the butter%MORE%.
      | ring low%TIME%
  serve hot
`

// An allow is only missed where the finding it allows could have been made.
func TestAllowIsMissedOnlyWhereItCouldCount(t *testing.T) {
	text := func(serve, time, more string) string {
		return replaced(allowMenu, "%SERVE%", serve, "%TIME%", time, "%MORE%", more)
	}
	const clock = "  on the table 2027-05-02 19:00\n"
	codes := func(text string) (out []string) {
		for _, d := range findings(t, text) {
			out = append(out, d.Code)
		}
		return out
	}
	require.Empty(t, codes(text(clock, "", "")), "it silences the step without a time")
	require.Equal(t, []string{"E900"}, codes(text(clock, " | work 10 min", "")), "all steps have a time")
	require.Empty(t, codes(text("", " | work 10 min", "")), "without a clock nothing is planned")
	require.NotContains(t, codes(text(clock, " | oven | work 10 min", "")), "E900", "with an error nothing is planned")
}

// An allow reaches no further than its block.
func TestAllowHoldsInItsBlock(t *testing.T) {
	found := findings(t, `dish Buttered leeks
  allow U201: the butter is for the table
  serves 4
  gather
    800 g    leeks
    40 g     butter
  method
    - Soften the leeks, covered.
      | ring low | work 10 min
  serve hot

dish Buttered carrots
  serves 4
  gather
    800 g    carrots
    40 g     butter
  method
    - Soften the carrots, covered.
      | ring low | work 10 min
  serve hot
`)
	require.Len(t, found, 1)
	require.Equal(t, "U201", found[0].Code)
	require.Equal(t, "16:14", place(found[0]))
}
