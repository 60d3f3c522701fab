package timeline

import (
	"fmt"
	"strings"
	"time"

	"tamis/lang/quantity"
)

// ClockText writes a moment as every page does: with a clock as a time of day,
// "12:30", else counted from the first serving, "T−0:30".
func ClockText(clock bool, m Minute) string { return quantity.ClockText(clock, m) }

// TimeText is a time of day, or without a clock the time from the first serving.
func (t *Timeline) TimeText(m Minute) string { return ClockText(t.Clock, t.Meal.Shown(m)) }

func (t *Timeline) date(n int) time.Time {
	return t.Meal.Menu.Serve.AddDate(0, 0, n)
}

// DayOf is a day in short, as seen from another: "Mon", and a week or more away
// with its date, "Mon 4 Oct".
func (t *Timeline) DayOf(n, from int) string {
	if n-from >= 7 || from-n >= 7 {
		return t.date(n).Format("Mon 2 Jan")
	}
	return t.date(n).Format("Mon")
}

// OvenWords is an oven's name with the word oven in it.
func OvenWords(name string) string {
	if strings.Contains(strings.ToLower(name), "oven") {
		return name
	}
	return name + " oven"
}

// ChainWords says what the mark of the critical chain means.
func (t *Timeline) ChainWords() string {
	spare := "nothing to spare"
	if t.Grid > 1 {
		spare = "less than " + quantity.TimeText(time.Duration(t.Grid)*time.Minute) + " to spare"
	}
	return spare + " from its first step to the table"
}

// Mark is the letter of a job's dish, with the number of its step.
func (j *Job) Mark() string {
	switch {
	case j.Making == nil:
		return ""
	case j.Number == 0:
		return j.Making.Letter
	}
	return fmt.Sprintf("%s%d", j.Making.Letter, j.Number)
}

// Say is a job's title as a thing to do.
func (j *Job) Say() string { return j.SayAs(j.Title) }

// SayAs is Say with another title: the same at the size that is made.
func (j *Job) SayAs(title string) string {
	if j.Kind == PrepJob {
		return "Prepare " + title
	}
	return title
}

// OnDay is a clock time, with its day if that is wanted.
func (t *Timeline) OnDay(m Minute, named bool) string {
	if !t.Clock || !named {
		return t.TimeText(m)
	}
	return t.DayOf(FloorDiv(t.Meal.Shown(m), Day), 0) + " " + t.TimeText(m)
}

// LineWords is what a job is, at more length than its title.
func (j *Job) LineWords() string {
	if j.Step == nil {
		return j.Say()
	}
	return j.LineAs(j.Title, j.Words)
}

// LineAs is LineWords with another title and another line of its step.
func (j *Job) LineAs(title, line string) string {
	switch {
	case line == "":
		return j.SayAs(title)
	case j.Load > 0:
		return line + " (" + j.LoadText() + ")"
	}
	return line
}

// SpanWords is a length of time in whole minutes as it is said.
func SpanWords(min int) string { return quantity.TimeText(time.Duration(min) * time.Minute) }

// Listed joins words as a sentence does.
func Listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func Counted(n int, one, more string) string {
	if n == 1 {
		return "one " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// BoundWords says for a cook how far the plan is from the best there could be,
// and what that means: that it cannot start later, or by
// how much it might; of a late one, that it cannot be less late, or by how much it
// might. Both are empty where nothing is known.
func (t *Timeline) BoundWords() (text, why string) {
	least := t.Late - t.Bound
	switch {
	case t.Late > 0 && least <= 0:
		return "Cannot be less late", fmt.Sprintf("no plan for this kitchen and these hours is late by less than %s in all", SpanWords(t.Late))
	case t.Late > 0:
		return fmt.Sprintf("At most %s (%s) less late is possible", SpanWords(least), percent(least, t.Late)), "a better plan was looked for and not found"
	case t.Later < 0:
		return "", ""
	}
	latest := t.Start + t.Early + t.Later
	why = "a plan that begins after " + t.OnDay(latest, FloorDiv(t.Meal.Shown(latest), Day) != 0) + " would be late, or keep food waiting longer"
	if t.Orderly {
		why += ", or be less tidy: a thing cut twice, knives out in service, a dish in two hands"
	}
	if t.Roomy {
		why += ", or leave less to spare before the table"
	}
	if t.Early > 0 {
		return "Begins " + SpanWords(t.Early) + " before it must", "cold work is done before the rush; " + why
	}
	if t.Later == 0 {
		return "Cannot start later", why
	}
	return fmt.Sprintf("At most %s (%s) better is possible", SpanWords(t.Later), percent(t.Later, t.length())), why
}

// length is how long the meal takes, from the first hands-on work to the last
// serving.
func (t *Timeline) length() int {
	last := t.Start + 1
	for _, s := range t.Servings {
		last = max(last, s.Served)
	}
	return last - t.Start
}

// percent is a part of a whole in per cent, rounded up.
func percent(part, whole int) string { return fmt.Sprintf("%d %%", CeilDiv(100*part, max(1, whole))) }

// CeilDiv and FloorDiv divide towards plus and minus infinity; b > 0.
func CeilDiv(a, b int) int { return -FloorDiv(-a, b) }

func FloorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && a < 0 {
		q--
	}
	return q
}

// LoadText says which load of its step a job is, "load 2 of 3"; empty when it is
// all of it.
func (j *Piece) LoadText() string {
	if j.Load == 0 {
		return ""
	}
	return fmt.Sprintf("load %d of %d", j.Load, j.Loads)
}

// IfNeeded tells whether a job is a step that may not happen.
func (j *Piece) IfNeeded() bool { return j.Step != nil && j.Step.Step.OnlyIfNeeded }

// Minutes is a time in whole minutes, rounded up.
func Minutes(t time.Duration) int {
	return int((t + time.Minute - 1) / time.Minute)
}

// MaxMinutes bounds one phase: eight years are long enough for a vinegar.
const MaxMinutes = 1 << 21

// Day is a day in minutes.
const Day = 24 * 60
