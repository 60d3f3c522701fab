package timeline

import (
	"fmt"
	"io"
	"strings"
)

// WriteWhy writes when a job is done and why then: what it waits for, what
// keeps it from being later, how much later it could be, and whether it is on
// the critical chain. The error is w's.
func WriteWhy(w io.Writer, t *Timeline, j *Job) error {
	var b strings.Builder
	head := j.line()
	if m := j.mark(); m != "" {
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
	row("when", fmt.Sprintf("%s to %s, %s", t.onDay(j.Start(), true), t.onDay(j.End(), floorDiv(j.End(), day) != floorDiv(j.Start(), day)), spanWords(j.End()-j.Start())))
	if len(j.Cooks) > 0 {
		row("who", listed(j.Cooks))
	}
	if where := j.where(); len(where) > 0 {
		row("where", strings.Join(where, ", "))
	}
	name := "waits for"
	for _, a := range j.After {
		row(name, fmt.Sprintf("%s, done %s", a.said(), t.onDay(a.End(), floorDiv(a.End(), day) != floorDiv(j.Start(), day))))
		name = ""
	}
	if len(j.After) == 0 {
		row("waits for", "nothing")
	}
	name = "not later for"
	if j.Slack > 0 {
		name = "then"
		row("slack", fmt.Sprintf("%s: it could begin as late as %s, if what follows moves along", spanWords(j.Slack), t.onDay(j.Start()+j.Slack, floorDiv(j.Start()+j.Slack, day) != floorDiv(j.Start(), day))))
	}
	for _, h := range j.Holds {
		row(name, h)
		name = ""
	}
	if j.Slack == 0 {
		row("slack", "none: begun a minute late, something is late or waits too long")
	}
	if j.Critical {
		row("critical chain", "yes: "+t.chainPlace(j))
	} else {
		row("critical chain", "no")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// said is a job as a thing to do, with its letter and number.
func (j *Job) said() string {
	if m := j.mark(); m != "" {
		return fmt.Sprintf("%s (%s)", j.say(), m)
	}
	return j.say()
}

// chainPlace says where a job stands in the critical chain.
func (t *Timeline) chainPlace(j *Job) string {
	for i, c := range t.Chain {
		if c != j {
			continue
		}
		after := "it begins the chain"
		if i > 0 {
			after = "it follows " + t.Chain[i-1].said()
		}
		if i+1 < len(t.Chain) {
			return after + ", and " + t.Chain[i+1].said() + " follows it"
		}
		return after + ", and is the last before the table"
	}
	return ""
}

// onDay is a clock time, with its day if that is wanted.
func (t *Timeline) onDay(m Minute, named bool) string {
	if !t.Clock || !named {
		return t.clock(m)
	}
	return t.DayOf(floorDiv(m, day), 0) + " " + t.clock(m)
}

// where lists the places and things of a job.
func (j *Job) where() (out []string) {
	if j.Oven != "" {
		out = append(out, ovenWords(j.Oven))
	}
	switch {
	case j.Rings == 1:
		out = append(out, strings.TrimSpace("ring "+j.level()))
	case j.Rings > 1:
		out = append(out, strings.TrimSpace(fmt.Sprintf("%d rings %s", j.Rings, j.level())))
	}
	if j.Step != nil && j.Step.Step.Grill {
		out = append(out, strings.TrimSpace("grill "+j.level()))
	}
	if j.Vessel != "" {
		out = append(out, j.Vessel)
	}
	return append(out, j.Tools...)
}
