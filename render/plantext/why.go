package plantext

import (
	"fmt"
	"io"
	"strings"

	"tamis/compiler/timeline"
)

// WriteWhy writes when a job is done and why then: what it waits for, what
// keeps it from being later, how much later it could be, and whether it is on
// the critical chain. The error is w's.
func WriteWhy(w io.Writer, t *timeline.Timeline, j *timeline.Job) error {
	var b strings.Builder
	head := j.LineWords()
	if m := j.Mark(); m != "" {
		head = m + "  " + head
	}
	b.WriteString(head + "\n")
	row := func(name, text string) { fmt.Fprintf(&b, "  %-14s %s\n", name, text) }
	if j.Making != nil {
		dish := j.Making.Recipe.Name
		if j.Number > 0 {
			dish += fmt.Sprintf(", step %d", j.Number)
		}
		row("dish", dish)
	}
	if j.Asked != "" {
		row("asked for by", "`"+j.Asked+"`")
	}
	row("when", fmt.Sprintf("%s to %s, %s", t.OnDay(j.Start(), true), t.OnDay(j.End(), timeline.FloorDiv(j.End(), timeline.Day) != timeline.FloorDiv(j.Start(), timeline.Day)), timeline.SpanWords(j.End()-j.Start())))
	if len(j.Cooks) > 0 {
		row("who", timeline.Listed(j.Cooks))
	}
	if where := j.Where(); len(where) > 0 {
		row("where", strings.Join(where, ", "))
	}
	name := "waits for"
	for _, a := range j.After {
		row(name, fmt.Sprintf("%s, done %s", a.Said(), t.OnDay(a.End(), timeline.FloorDiv(a.End(), timeline.Day) != timeline.FloorDiv(j.Start(), timeline.Day))))
		name = ""
	}
	if len(j.After) == 0 {
		row("waits for", "nothing")
	}
	name = "not later for"
	if j.Slack > 0 {
		name = "then"
		row("slack", fmt.Sprintf("%s: it could begin as late as %s, if what follows moves along", timeline.SpanWords(j.Slack), t.OnDay(j.Start()+j.Slack, timeline.FloorDiv(j.Start()+j.Slack, timeline.Day) != timeline.FloorDiv(j.Start(), timeline.Day))))
	}
	for _, h := range j.Holds {
		row(name, h)
		name = ""
	}
	if j.Slack == 0 {
		row("slack", "none: begun a minute late, something is late or waits too long")
	}
	if j.Critical {
		row("critical chain", "yes: "+chainPlace(t, j))
	} else {
		row("critical chain", "no")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// chainPlace says where a job stands in the critical chain.
func chainPlace(t *timeline.Timeline, j *timeline.Job) string {
	for i, c := range t.Chain {
		if c != j {
			continue
		}
		after := "it begins the chain"
		if i > 0 {
			after = "it follows " + t.Chain[i-1].Said()
		}
		if i+1 < len(t.Chain) {
			return after + ", and " + t.Chain[i+1].Said() + " follows it"
		}
		return after + ", and is the last before the table"
	}
	return ""
}
