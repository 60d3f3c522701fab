// Package plantext draws a plan for the terminal: the run sheet (text.go), why a job
// is done when it is (why.go), what happens at a moment (moments.go), and the rest of a
// plan after a delay (late.go). It reads the list of what happens, as paper does, and
// nothing of the plan behind it.
//
// Read RunSheet first.
package plantext

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"tamis/compiler/events"
)

// WriteText writes a plan as a run sheet in order of time, for the terminal:
// when, until, who, the dish's letter, what, where. Servings and ovens have
// lines of their own; each day has a heading. The error is w's.
//
// Its times are in whole steps of some minutes, down to the last that has passed, but those
// of servings.
func WriteText(w io.Writer, l *events.List, step events.Minutes) error {
	_, err := io.WriteString(w, RunSheet(l, step))
	return err
}

// RunSheet is what WriteText writes.
func RunSheet(l *events.List, step events.Minutes) string {
	var b strings.Builder
	b.WriteString(l.Title + "\n")
	if l.Note != "" {
		b.WriteString(l.Note + "\n")
	}
	b.WriteString(byDay(l, entries(l, step)))
	b.WriteString(remarks(l))
	return b.String()
}

// entry is one line of the run sheet.
type entry struct {
	*events.Event
	cells [5]string
	mark  bool // on the critical chain
}

// The cells of an entry.
const (
	atCell = iota
	untilCell
	whoCell
	markCell
	whatCell
)

// entries are the lines of the run sheet, in the order of the events; step as in WriteText.
func entries(l *events.List, step events.Minutes) (lines []entry) {
	for _, e := range l.Events {
		line := entry{Event: e, cells: [5]string{atCell: l.ClockBy(e.At, step), whoCell: strings.Join(e.Who, ", "), markCell: e.Mark()}}
		switch {
		case e.Kind == events.In || e.Swap: // the line of its job says it
			continue
		case e.Kind == events.Out || e.Kind == events.Off:
			line.cells[whatCell] = e.Words
			if e.Of != nil {
				line.cells[whatCell] = e.Of.Title + ": " + strings.ToLower(e.Words[:1]) + e.Words[1:]
			}
		case e.Kind == events.Heat:
			line.cells[whatCell] = e.Words + ", for " + l.ClockBy(e.End, step)
		case e.Kind == events.Job:
			line.cells[untilCell], line.cells[whatCell], line.mark = until(l, e, step), words(e), e.Critical
		case e.Kind == events.Touch:
			text := e.Text
			if text == "" {
				text = "see to it"
			}
			line.cells[whatCell] = e.Title + ": " + text
		case e.Kind == events.Serve:
			line.cells[atCell], line.cells[whatCell] = l.Clock(e.At), "Serve "+e.Thing
			if late := e.Start.Since(e.Due); late > 0 {
				line.cells[whatCell] += fmt.Sprintf(", %s late", late.Words())
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// byDay sets entries out, each day under a heading.
func byDay(l *events.List, lines []entry) string {
	var b strings.Builder
	lastDay := 0
	for i, row := range rowsOf(lines) {
		if day := l.Day(lines[i].At); l.Clocked() && (i == 0 || day != lastDay) {
			b.WriteString("\n" + l.DayName(day) + "\n")
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
			text = events.ChainMark + text[1:]
		}
		out = append(out, strings.TrimRight(text, " ")+"\n")
	}
	return out
}

// remarks stand under the run sheet: the call times, what the mark means, and the chances.
func remarks(l *events.List) string {
	out := l.Calls()
	if l.Chain != "" {
		out = append(out, events.ChainMark+" the critical chain: "+l.Chain)
	}
	if l.Bound != "" {
		out = append(out, l.Bound+": "+l.Why+".")
	}
	if l.Leeway != "" {
		out = append(out, l.Leeway)
	}
	if l.Odds != nil {
		out = append(out, oddsWords(l.Odds))
	}
	if len(out) == 0 {
		return ""
	}
	return "\n" + strings.Join(out, "\n") + "\n"
}

// oddsWords says the chance, what to watch, and what both rest on.
func oddsWords(o *events.Odds) string {
	text := fmt.Sprintf("If every time falls as it may: on time in %d of 100", o.OnTime*100/o.Runs)
	if o.Worst > 0 {
		text += fmt.Sprintf(", at worst %s late", o.Worst.Words())
	}
	var watch []string
	for _, j := range o.Watch {
		if j.Mark() == "" { // a task has no letter
			watch = append(watch, j.Say())
			continue
		}
		watch = append(watch, fmt.Sprintf("%s (%s)", j.Say(), j.Mark()))
	}
	if len(watch) > 0 && o.Worst > 0 {
		text += "; watch: " + strings.Join(watch, ", ")
	}
	var late []string
	for _, c := range o.Courses {
		if len(o.Courses) > 1 && c.Late*100 >= o.Runs {
			late = append(late, fmt.Sprintf("%s in %d", c.Course, c.Late*100/o.Runs))
		}
	}
	if len(late) > 0 {
		text += ".\nLate, of 100: " + strings.Join(late, ", ")
	}
	if o.Buffer > 0 {
		text += ".\n" + earlierWords(o)
	}
	return text + `.
Hands are taken to be a tenth quicker or slower than written, one time in ten more. The plan allows for the longer
figure of each range, and for "about" and "say" as they are written. Here one time in ten takes longer still: than
its range, than a tenth more than "about", than three tenths more than "say".`
}

// until is when a job is over, with its day behind it if that is another one.
func until(l *events.List, e *events.Event, step events.Minutes) string {
	text := "to " + l.ClockBy(e.End, step)
	if step > 1 && l.ClockBy(e.At, step) == l.ClockBy(e.End, step) && l.Day(e.At) == l.Day(e.End) {
		return "" // within the step
	}
	if e.Unsure {
		text += "?"
	}
	if from, to := l.Day(e.Start), l.Day(e.End); l.Clocked() && from != to {
		text += " " + l.DayOf(to, from)
	}
	return text
}

// words is what a job is: its title, where it stands, how long it is left.
func words(e *events.Event) string {
	out := append([]string{e.Say()}, e.Where.Words()...)
	for _, p := range e.Phases {
		if !p.Left() {
			continue
		}
		place := ""
		if p.Place != "" {
			place = ", " + p.Place
		}
		out = append(out, "left "+p.Length().Words()+place)
	}
	if e.Loads > 1 && e.Load == 0 {
		out = append(out, fmt.Sprintf("%d loads", e.Loads))
	}
	if e.IfNeeded {
		out = append(out, "only if needed")
	}
	if e.Assumed {
		out = append(out, e.Length().Words()+"?")
	}
	return strings.Join(out, " · ")
}

// earlierWords say how much earlier all would have to begin, and what stands against that.
func earlierWords(o *events.Odds) string {
	switch n := o.Buffer.Words(); {
	case o.TooLong != "":
		return fmt.Sprintf("%s more between the work and the table would make it 95 of 100, but %s would then wait longer than is written", n, o.TooLong)
	case o.Closed:
		return fmt.Sprintf("Begun %s earlier it would be on time in 95 of 100, but nobody is there so early", n)
	default:
		return fmt.Sprintf("Begin all of it %s earlier, and it is on time in 95 of 100", n)
	}
}
