package quantity

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A line of a megabyte must cost no more than reading it.
func TestHostileText(t *testing.T) {
	const n = 1 << 18
	for _, s := range []string{"1 ", "1,", " ", "1 cup plus ", "1 g (", "1-", "½", "a ", "1 x ", "9", "1/", "1 h ", "2 g/", "per ", "1 to ", "é", "\xe2", "1 lb 1 oz ", "about 1 "} {
		text := "1 " + strings.Repeat(s, n)
		start := time.Now()
		for _, opt := range []Options{{}, {Alone: true}, {Prose: true}, {DecimalComma: true}} {
			ReadAmount(text, opt)
			ReadAmount(text[2:], opt)
			ReadMeasure(text, opt)
			ReadSpan(text, opt)
			ReadTemperature(text, opt)
			ReadHeat(text, opt)
		}
		require.Less(t, time.Since(start), 3*time.Second, "%q repeated", s)
	}
}
