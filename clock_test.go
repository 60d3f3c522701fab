package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// --clock changes the print, never the plan: the same lines in the same order, each begun
// at the last whole step before, servings to the minute.
func TestTheClockChangesThePrintOnly(t *testing.T) {
	lines := func(flags ...string) (out []string) {
		var b bytes.Buffer
		require.Equal(t, exitClean, run(context.Background(), append([]string{"plan", "examples/harvest-lunch"}, flags...), os.Stdin, &b, &b))
		for l := range strings.Lines(b.String()) {
			if timed.MatchString(l) {
				out = append(out, l)
			}
		}
		return out
	}
	exact := lines()
	require.Greater(t, len(exact), 60)
	require.Equal(t, exact, lines("--clock", "1"))
	for _, step := range []int{5, 10, 15} {
		coarse := lines("--clock", strconv.Itoa(step))
		require.Len(t, coarse, len(exact))
		for i, l := range coarse {
			want, got := timed.FindStringSubmatch(exact[i]), timed.FindStringSubmatch(l)
			hour, _ := strconv.Atoi(want[1])
			minute, _ := strconv.Atoi(want[2])
			if !strings.Contains(l, "  Serve ") {
				minute = minute / step * step
			}
			require.Equal(t, fmt.Sprintf("%02d:%02d", hour, minute), got[1]+":"+got[2], exact[i])
			require.Equal(t, what(exact[i]), what(l))
			if end := regexp.MustCompile(` to (\d\d:\d\d)`).FindStringSubmatch(l); end != nil {
				require.NotEqual(t, got[1]+":"+got[2], end[1], "no line begins and ends at one time")
			}
		}
	}
}

var timed = regexp.MustCompile(`^[• ] (\d\d):(\d\d) `)

// what is the last column of a line of the plan, without its times.
func what(line string) string {
	fields := strings.Fields(line)
	return regexp.MustCompile(`, for \d\d:\d\d$`).ReplaceAllString(strings.Join(fields[len(fields)-3:], " "), "")
}
