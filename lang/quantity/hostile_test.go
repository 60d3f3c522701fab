package quantity

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"tamis/lang/effort"
)

// A line of a megabyte must cost no more than reading it.
func TestHostileText(t *testing.T) {
	const n = 1 << 18
	for _, s := range []string{"1 ", "1,", " ", "1 cup plus ", "1 g (", "1-", "½", "a ", "1 x ", "9", "1/", "1 h ", "2 g/", "per ", "1 to ", "é", "\xe2", "1 lb 1 oz ", "about 1 "} {
		text := "1 " + strings.Repeat(s, n)
		effort.Within(t, 3*time.Second, fmt.Sprintf("%q repeated", s), func() {
			for _, opt := range []Options{{}, {Alone: true}, {Prose: true}, {DecimalComma: true}} {
				ReadAmount(text, opt)
				ReadAmount(text[2:], opt)
				ReadMeasure(text, opt)
				ReadSpan(text, opt)
				ReadTemperature(text, opt)
				ReadHeat(text, opt)
			}
		})
	}
}
