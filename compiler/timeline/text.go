package timeline

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// WriteText writes a plan as a run sheet in order of time, for the terminal:
// when, until, who, the dish's letter, what, where. Servings and ovens have
// lines of their own; each day has a heading. The error is w's.
func WriteText(w io.Writer, t *Timeline) error {
	_, err := io.WriteString(w, t.runSheet())
	return err
}

// entry is one line of the run sheet.
type entry struct {
	at    Minute
	rank  int // order within a minute
	cells [5]string
	mark  bool // on the critical chain
	job   *Job // nil for ovens and servings
}

// The order of entries within a minute.
const (
	heatRank = iota
	jobRank
	touchRank
	servingRank
)

func (t *Timeline) runSheet() string {
	var b strings.Builder
	b.WriteString(t.Meal.Title + "\n")
	if t.Note != "" {
		b.WriteString(t.Note + "\n")
	}
	b.WriteString(t.byDay(t.entries()))
	b.WriteString(t.remarks())
	return b.String()
}

// byDay sets entries out, each day under a heading.
func (t *Timeline) byDay(lines []entry) string {
	var b strings.Builder
	lastDay := 0
	for i, row := range rowsOf(lines) {
		if day := floorDiv(lines[i].at, day); t.Clock && (i == 0 || day != lastDay) {
			b.WriteString("\n" + t.dayName(day) + "\n")
			lastDay = day
		} else if i == 0 {
			b.WriteString("\n")
		}
		b.WriteString(row)
	}
	return b.String()
}

// rowsOf sets entries out in columns, a line each.
func rowsOf(lines []entry) (out []string) {
	width := [5]int{}
	for _, e := range lines {
		for i, c := range e.cells {
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	for _, e := range lines {
		var row strings.Builder
		for i, c := range e.cells {
			if width[i] > 0 {
				row.WriteString("  " + c + strings.Repeat(" ", width[i]-utf8.RuneCountInString(c)))
			}
		}
		text := row.String()
		if e.mark {
			text = ChainMark + text[1:]
		}
		out = append(out, strings.TrimRight(text, " ")+"\n")
	}
	return out
}

func (t *Timeline) entries() (lines []entry) {
	for _, h := range t.Heats {
		verb := "Heat"
		if h.Turned {
			verb = "Turn"
		}
		lines = append(lines, entry{h.Preheat, heatRank, [5]string{
			t.clock(h.Preheat), "", "", "", fmt.Sprintf("%s the %s to %s, for %s", verb, ovenWords(h.Oven), t.setting(h), t.clock(h.Start)),
		}, false, nil})
	}
	for _, j := range t.Jobs {
		lines = append(lines, entry{j.Start(), jobRank, [5]string{
			t.clock(j.Start()), t.until(j), strings.Join(j.Cooks, ", "), j.mark(), j.words(),
		}, j.Critical, j})
		for _, touch := range j.Touches {
			if touch.Swap { // the job's own line says it
				continue
			}
			text := touch.Text
			if text == "" {
				text = "see to it"
			}
			lines = append(lines, entry{touch.Start, touchRank, [5]string{t.clock(touch.Start), "", strings.Join(touch.Cooks, ", "), j.mark(), j.Title + ": " + text}, false, j})
		}
	}
	for _, s := range t.Servings {
		name := "Serve " + s.Name
		if s.Served > s.At {
			name += fmt.Sprintf(", %s late", spanWords(s.Served-s.At))
		}
		letter := ""
		if s.Making != nil {
			letter = s.Making.Letter
		}
		lines = append(lines, entry{s.Served, servingRank, [5]string{t.clock(s.Served), "", "", letter, name}, false, nil})
	}
	slices.SortStableFunc(lines, func(a, b entry) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.rank, b.rank)) })
	return lines
}

// ChainMark stands before the jobs of the critical chain.
const ChainMark = "•"

// mark is the letter of a job's dish, with the number of its step.
func (j *Job) mark() string {
	switch {
	case j.Making == nil:
		return ""
	case j.Number == 0:
		return j.Making.Letter
	}
	return fmt.Sprintf("%s%d", j.Making.Letter, j.Number)
}

// remarks stand under the run sheet: what the mark means, and the chances.
func (t *Timeline) remarks() string {
	var out []string
	if len(t.Chain) > 0 {
		out = append(out, ChainMark+" the critical chain: "+t.ChainWords())
	}
	if text, why := t.bound(); text != "" {
		out = append(out, text+": "+why+".")
	}
	if t.Odds != nil {
		out = append(out, t.Odds.words())
	}
	if len(out) == 0 {
		return ""
	}
	return "\n" + strings.Join(out, "\n") + "\n"
}

// ChainWords says what the mark of the critical chain means.
func (t *Timeline) ChainWords() string {
	spare := "nothing to spare"
	if t.Grid > 1 {
		spare = fmt.Sprintf("less than %d min to spare", t.Grid)
	}
	return spare + " from its first step to the table"
}

// words says the chance, what to watch, and what both rest on.
func (o *Odds) words() string {
	text := fmt.Sprintf("If every time falls as it may: on time in %d of 100", o.OnTime*100/o.Runs)
	if o.Worst > 0 {
		text += fmt.Sprintf(", at worst %s late", spanWords(o.Worst))
	}
	var watch []string
	for _, j := range o.Watch {
		watch = append(watch, fmt.Sprintf("%s (%s)", j.say(), j.mark()))
	}
	if len(watch) > 0 && o.Worst > 0 {
		text += "; watch: " + strings.Join(watch, ", ")
	}
	return text + `.
The plan allows for the longer figure of each range, and for "about" and "say" as they are written. Here one
time in ten takes longer still: than its range, than a tenth more than "about", than three tenths more than "say".`
}

// ovenWords is an oven's name with the word oven in it.
func ovenWords(name string) string {
	if strings.Contains(strings.ToLower(name), "oven") {
		return name
	}
	return name + " oven"
}

func (t *Timeline) until(j *Job) string {
	end := j.End()
	if t.Clock && floorDiv(end, day) != floorDiv(j.Start(), day) {
		return "to " + t.clock(end) + " " + t.DayOf(floorDiv(end, day), floorDiv(j.Start(), day))
	}
	return "to " + t.clock(end)
}

// words is what a job is: its title, where it stands, how long it is left.
func (j *Job) words() string {
	out := append([]string{j.say()}, j.where()...)
	for _, p := range j.Phases {
		if p.Kind != resolve.Leave {
			continue
		}
		place := ""
		if p.Place != "" {
			place = ", " + p.Place
		}
		out = append(out, "left "+spanWords(p.End-p.Start)+place)
	}
	if j.Loads > 1 && j.Load == 0 {
		out = append(out, fmt.Sprintf("%d loads", j.Loads))
	}
	if j.ifNeeded() {
		out = append(out, "only if needed")
	}
	if j.Assumed {
		out = append(out, fmt.Sprintf("%d min?", j.End()-j.Start()))
	}
	return strings.Join(out, " · ")
}

// say is a job's title as a thing to do.
func (j *Job) say() string {
	if j.Kind == PrepJob {
		return "Prepare " + j.Title
	}
	return j.Title
}

func (j *Job) level() string {
	if j.Step == nil {
		return ""
	}
	return j.Step.Step.Level
}

// clock is a time of day, or without a clock the time from the first serving.
func (t *Timeline) clock(m Minute) string { return ClockText(t.Clock, m) }

// ClockText writes a moment as every page does: with a clock as a time of day,
// "12:30", else counted from the first serving, "T−0:30".
func ClockText(clock bool, m Minute) string { return quantity.ClockText(clock, m) }

// clockText is a time of day in a message; other days are named.
func (r *result) clockText(m Minute) string { return r.draft.clockText(m) }

func (d *draft) clockText(m Minute) string {
	text := ClockText(d.clock, m)
	if !d.clock {
		return text
	}
	switch n := floorDiv(m, day); {
	case n == -1:
		return text + " the day before"
	case n < 0:
		return fmt.Sprintf("%s %d days before", text, -n)
	case n > 0:
		return text + " the day after"
	}
	return text
}

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

func (t *Timeline) dayName(n int) string {
	date := t.date(n).Format("Monday 2 January 2006")
	switch {
	case n == 0:
		return date
	case n == -1:
		return date + ", the day before"
	case n < 0:
		return fmt.Sprintf("%s, %d days before", date, -n)
	}
	return date + ", the day after"
}
