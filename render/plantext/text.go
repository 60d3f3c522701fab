// Package plantext draws a plan for the terminal: the run sheet (text.go), why a job
// is done when it is (why.go), what happens at a moment (moments.go), and the rest of a
// plan after a delay (late.go). It reads the plan and nothing of how it was made.
//
// Read runSheet first.
package plantext

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// WriteText writes a plan as a run sheet in order of time, for the terminal:
// when, until, who, the dish's letter, what, where. Servings and ovens have
// lines of their own; each day has a heading. The error is w's.
func WriteText(w io.Writer, t *timeline.Timeline) error {
	_, err := io.WriteString(w, RunSheet(t))
	return err
}

// entry is one line of the run sheet.
type entry struct {
	at    timeline.Minute
	rank  int // order within a minute
	cells [5]string
	mark  bool          // on the critical chain
	job   *timeline.Job // nil for ovens and servings
}

// The order of entries within a minute.
const (
	heatRank = iota
	jobRank
	touchRank
	servingRank
)

func RunSheet(t *timeline.Timeline) string {
	var b strings.Builder
	b.WriteString(t.Meal.Title + "\n")
	if t.Note != "" {
		b.WriteString(t.Note + "\n")
	}
	b.WriteString(byDay(t, entries(t)))
	b.WriteString(remarks(t))
	return b.String()
}

// byDay sets entries out, each day under a heading.
func byDay(t *timeline.Timeline, lines []entry) string {
	var b strings.Builder
	lastDay := 0
	for i, row := range rowsOf(lines) {
		if day := timeline.FloorDiv(lines[i].at, timeline.Day); t.Clock && (i == 0 || day != lastDay) {
			b.WriteString("\n" + t.DayName(day) + "\n")
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
			text = timeline.ChainMark + text[1:]
		}
		out = append(out, strings.TrimRight(text, " ")+"\n")
	}
	return out
}

func entries(t *timeline.Timeline) (lines []entry) {
	for _, h := range t.Heats {
		verb := "Heat"
		if h.Turned {
			verb = "Turn"
		}
		lines = append(lines, entry{h.Preheat, heatRank, [5]string{
			t.TimeText(h.Preheat), "", "", "", fmt.Sprintf("%s the %s to %s, for %s", verb, timeline.OvenWords(h.Oven), t.Setting(h), t.TimeText(h.Start)),
		}, false, nil})
	}
	for _, j := range t.Jobs {
		lines = append(lines, entry{j.Start(), jobRank, [5]string{
			t.TimeText(j.Start()), until(t, j), strings.Join(j.Cooks, ", "), j.Mark(), words(j),
		}, j.Critical, j})
		for _, touch := range j.Touches {
			if touch.Swap { // the job's own line says it
				continue
			}
			text := touch.Text
			if text == "" {
				text = "see to it"
			}
			lines = append(lines, entry{touch.Start, touchRank, [5]string{t.TimeText(touch.Start), "", strings.Join(touch.Cooks, ", "), j.Mark(), j.Title + ": " + text}, false, j})
		}
	}
	for _, s := range t.Servings {
		name := "Serve " + s.Name
		if s.Served > s.At {
			name += fmt.Sprintf(", %s late", timeline.SpanWords(s.Served-s.At))
		}
		letter := ""
		if s.Making != nil {
			letter = s.Making.Letter
		}
		lines = append(lines, entry{s.Served, servingRank, [5]string{t.TimeText(s.Served), "", "", letter, name}, false, nil})
	}
	slices.SortStableFunc(lines, func(a, b entry) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.rank, b.rank)) })
	return lines
}

// remarks stand under the run sheet: what the mark means, and the chances.
func remarks(t *timeline.Timeline) string {
	var out []string
	if len(t.Chain) > 0 {
		out = append(out, timeline.ChainMark+" the critical chain: "+t.ChainWords())
	}
	if text, why := t.BoundAndWhy(); text != "" {
		out = append(out, text+": "+why+".")
	}
	if t.Odds != nil {
		out = append(out, oddsWords(t.Odds))
	}
	if len(out) == 0 {
		return ""
	}
	return "\n" + strings.Join(out, "\n") + "\n"
}

// oddsWords says the chance, what to watch, and what both rest on.
func oddsWords(o *timeline.Odds) string {
	text := fmt.Sprintf("If every time falls as it may: on time in %d of 100", o.OnTime*100/o.Runs)
	if o.Worst > 0 {
		text += fmt.Sprintf(", at worst %s late", timeline.SpanWords(o.Worst))
	}
	var watch []string
	for _, j := range o.Watch {
		watch = append(watch, fmt.Sprintf("%s (%s)", j.Say(), j.Mark()))
	}
	if len(watch) > 0 && o.Worst > 0 {
		text += "; watch: " + strings.Join(watch, ", ")
	}
	return text + `.
The plan allows for the longer figure of each range, and for "about" and "say" as they are written. Here one
time in ten takes longer still: than its range, than a tenth more than "about", than three tenths more than "say".`
}

func until(t *timeline.Timeline, j *timeline.Job) string {
	end := j.End()
	if t.Clock && timeline.FloorDiv(end, timeline.Day) != timeline.FloorDiv(j.Start(), timeline.Day) {
		return "to " + t.TimeText(end) + " " + t.DayOf(timeline.FloorDiv(end, timeline.Day), timeline.FloorDiv(j.Start(), timeline.Day))
	}
	return "to " + t.TimeText(end)
}

// words is what a job is: its title, where it stands, how long it is left.
func words(j *timeline.Job) string {
	out := append([]string{j.Say()}, j.Where()...)
	for _, p := range j.Phases {
		if p.Kind != resolve.Leave {
			continue
		}
		place := ""
		if p.Place != "" {
			place = ", " + p.Place
		}
		out = append(out, "left "+timeline.SpanWords(p.End-p.Start)+place)
	}
	if j.Loads > 1 && j.Load == 0 {
		out = append(out, fmt.Sprintf("%d loads", j.Loads))
	}
	if j.IfNeeded() {
		out = append(out, "only if needed")
	}
	if j.Assumed {
		out = append(out, fmt.Sprintf("%d min?", j.End()-j.Start()))
	}
	return strings.Join(out, " · ")
}
