package quantity

import "fmt"

// ClockText writes a moment as every page does. With a clock m is in minutes
// from some midnight, "12:30"; else from the first serving, "T−0:30".
func ClockText(clock bool, m int) string {
	const day = 24 * 60
	if clock {
		m = ((m % day) + day) % day
		return fmt.Sprintf("%02d:%02d", m/60, m%60)
	}
	switch {
	case m == 0:
		return "T"
	case m < 0:
		return fmt.Sprintf("T−%d:%02d", -m/60, -m%60)
	}
	return fmt.Sprintf("T+%d:%02d", m/60, m%60)
}
