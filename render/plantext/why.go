package plantext

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tamis/compiler/events"
)

// WriteWhy writes when a job is done and why then: what it waits for, what
// keeps it from being later, how much later it could be, and whether it is on
// the critical chain. The error is w's.
func WriteWhy(w io.Writer, l *events.List, e *events.Event) error {
	var b strings.Builder
	head := e.Sentence()
	if m := e.Mark(); m != "" {
		head = m + "  " + head
	}
	b.WriteString(head + "\n")
	row := func(name, text string) { fmt.Fprintf(&b, "  %-14s %s\n", name, text) }
	if e.Dish != nil {
		dish := e.Dish.Recipe.Name
		if e.Number > 0 {
			dish += fmt.Sprintf(", step %d", e.Number)
		}
		row("dish", dish)
	}
	if e.Asked != "" {
		row("asked for by", "`"+e.Asked+"`")
	}
	row("when", fmt.Sprintf("%s to %s, %s", l.OnDay(e.At), l.ClockFrom(e.At, e.End), e.End.Since(e.At).Words()))
	if n := len(e.Who); n == 1 {
		row("who", e.Who[0])
	} else if n > 1 {
		row("who", strings.Join(e.Who[:n-1], ", ")+" and "+e.Who[n-1])
	}
	if where := e.Where.Words(); len(where) > 0 {
		row("where", strings.Join(where, ", "))
	}
	name := "waits for"
	for _, a := range e.After {
		row(name, fmt.Sprintf("%s, done %s", a.Said(), l.ClockFrom(e.Start, a.End)))
		name = ""
	}
	if len(e.After) == 0 {
		row("waits for", "nothing")
	}
	name = "not later for"
	if e.Slack > 0 {
		name = "then"
		row("slack", fmt.Sprintf("%s: it could begin as late as %s, if what follows moves along", e.Slack.Words(), l.ClockFrom(e.Start, e.Start.Add(e.Slack))))
	}
	for _, h := range e.Holds {
		row(name, h)
		name = ""
	}
	if e.Slack == 0 {
		row("slack", "none: begun a minute late, something is late or waits too long")
	}
	if e.Critical {
		row("critical chain", "yes: "+chainPlace(l, e))
	} else {
		row("critical chain", "no")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// chainPlace says where a job stands in the critical chain.
func chainPlace(l *events.List, e *events.Event) string {
	i := slices.Index(l.Critical, e)
	if i < 0 {
		return ""
	}
	after := "it begins the chain"
	if i > 0 {
		after = "it follows " + l.Critical[i-1].Said()
	}
	if i+1 < len(l.Critical) {
		return after + ", and " + l.Critical[i+1].Said() + " follows it"
	}
	return after + ", and is the last before the table"
}
