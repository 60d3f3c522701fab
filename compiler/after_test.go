package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
)

const drained = `menu Supper
  covers 4
  on the table 2027-09-19 13:00
  at Home
  course Main
    Beans, with oil
    Greens
kitchen Home
  cooks Ana
  rings 1
dish Beans, with oil
  serves 4
  gather
    600 g beans
  method
    - Simmer the beans, then drain.
      | ring low | work 2 min | leave 20 min | then work 6 min
  serve hot, within 30 min
dish Greens
  serves 4
  gather
    400 g greens
  method
    - Wilt the greens.
      | ring high | watch 5 min
  serve hot, within 3 min
`

func jobOf(t *testing.T, p *timeline.Timeline, title string) *timeline.Job {
	t.Helper()
	for _, j := range p.Jobs {
		if j.Title == title {
			return j
		}
	}
	require.Fail(t, "no such job", title)
	return nil
}

// "Simmer, then drain": the ring is free when the draining begins, which has hands of
// its own and a row of its own. By hand, on the one ring: greens from 12:55, so the
// beans come off by then at the latest, and are drained before or after.
func TestThenWorkComesOffTheRing(t *testing.T) {
	for _, margin := range []string{"ring low | work 2 min | leave 20 min | then work 6 min", "ring low | work 2 min | leave 20 min | work 6 min", "then work 6 min | work 2 min | leave 20 min | ring low"} {
		m := compiled(t, tried{text: with(t, drained, "ring low | work 2 min | leave 20 min | then work 6 min", margin)})
		beans := jobOf(t, m.Timelines[0], "Simmer the beans")
		require.Equal(t, []resolve.SpellKind{resolve.Work, resolve.Leave, resolve.Work}, []resolve.SpellKind{beans.Phases[0].Kind, beans.Phases[1].Kind, beans.Phases[2].Kind}, margin)
		require.Equal(t, []string{"Ana"}, beans.Phases[2].Cooks)
		require.Equal(t, 28, beans.End()-beans.Start())
		require.Regexp(t, `Off the ring: drain Ana \[ \] Beans, with oil, step 1`, m.words(sheets.RunSheet))
		require.Regexp(t, `hands-on 2 min.*leave 20 min.*then hands-on 6 min`, m.words(sheets.Prep))
	}
}

// On one ring, what is boiled next begins when the draining does. Held to the end, the greens could not
// be on it before 13:01.
func TestTheRingIsFreeWhileItIsDrained(t *testing.T) {
	text := with(t, drained, "cooks Ana", "cooks Ana, Bo")
	text = with(t, text, "serve hot, within 3 min", "serve hot, within 1 min")
	text = with(t, text, "serve hot, within 30 min", "serve hot, within 1 min")
	m := compiled(t, tried{text: text})
	line := m.Timelines[0]
	beans, greens := jobOf(t, line, "Simmer the beans"), jobOf(t, line, "Wilt the greens")
	require.Zero(t, line.Late)
	require.Greater(t, beans.End(), greens.Start(), "the greens are on the ring while the beans are drained")
	require.LessOrEqual(t, beans.Phases[1].End, greens.Start())
}

// Turned every quarter of an hour: hands are asked for at those minutes, beside work
// before and after; in a leave of a day the visits fall in the hours of the kitchen.
func TestBasting(t *testing.T) {
	text := with(t, drained, "ring low | work 2 min | leave 20 min | then work 6 min", "work 5 min | work 2 min every 15 min | leave 1 h | work 4 min")
	beans := jobOf(t, compiled(t, tried{text: text}).Timelines[0], "Simmer the beans")
	var at []int
	for _, c := range beans.Touches {
		require.Equal(t, []string{"Ana"}, c.Cooks)
		at = append(at, c.Start-beans.Start())
	}
	require.Equal(t, []int{20, 35, 50}, at, "5 min of work, then every 15 of 60")

	text = with(t, drained, "ring low | work 2 min | leave 20 min | then work 6 min", "work 5 min | work 2 min every 3 h | leave 24 h")
	text = with(t, text, "  at Home\n", "  at Home\n  hours day before, 10:00 to 20:00\n  hours on the day, 08:00 to 14:00\n")
	beans = jobOf(t, compiled(t, tried{text: text}).Timelines[0], "Simmer the beans")
	require.NotEmpty(t, beans.Touches)
	for _, c := range beans.Touches {
		require.Empty(t, c.Cooks, "nobody is asked to be there at a minute of a day")
		day := (c.Start%timeline.Day + timeline.Day) % timeline.Day
		require.True(t, c.Start < 0 && day >= 10*60 && day < 20*60 || c.Start >= 0 && day >= 8*60, "at %d", c.Start)
	}
}

// with is a text with one thing in place of another that stands in it.
func with(t *testing.T, text, was, now string) string {
	t.Helper()
	require.Contains(t, text, was)
	return strings.Replace(text, was, now, 1)
}
