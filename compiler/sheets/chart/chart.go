// Package chart draws a plan as a chart of the neutral document: a panel a day, a
// lane for each dish and base, and below them what the dishes share: the ovens,
// the rings and the hands. Which bars there are, and in which rows, package
// events has said.
package chart

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// How many letters a bar is given, and how many where there is less room.
const (
	usual = 22
	least = 11
)

// Of is the chart of a plan, or nil when nothing happens. title heads a day by
// its number from the serving day; letter is the mark of an event's dish.
func Of(l *events.List, title func(day int) string, letter func(*events.Event) string) *sheets.Chart {
	c := &sheets.Chart{Note: l.Bound}
	names := initials(l.Cooks)
	for _, d := range l.Days() {
		p := panel(l, l.Lanes(d), letter, names)
		p.Title = title(d)
		c.Panels = append(c.Panels, p)
	}
	if len(c.Panels) == 0 {
		return nil
	}
	return c
}

// initials are the shortest beginnings of names, of two letters or more, that
// tell the cooks apart: one letter is a dish.
func initials(cooks []string) map[string]string {
	out := map[string]string{}
	for _, c := range cooks {
		name := []rune(c)
		n := min(2, len(name))
		for n < len(name) && slices.ContainsFunc(cooks, func(o string) bool {
			return o != c && strings.HasPrefix(strings.ToLower(o), strings.ToLower(string(name[:n])))
		}) {
			n++
		}
		out[c] = strings.TrimSpace(string(name[:n]))
	}
	return out
}

func panel(l *events.List, d events.Day, letter func(*events.Event) string, names map[string]string) sheets.Panel {
	from := l.DayStart(d.Number)
	at := func(m events.Moment) int { return int(m.Since(from)) }
	p := sheets.Panel{Start: at(d.Start), End: at(d.End)}
	for _, c := range l.Changes(d.Number) {
		p.Changes = append(p.Changes, quantity.Change{At: at(events.Moment(c.At)), By: c.By})
	}
	if !l.Clocked() {
		p.Counts, p.Zero = true, at(l.Zero)
	}
	courses := map[*demand.Making]string{}
	for _, e := range l.Events {
		if _, known := courses[e.Dish]; e.Kind == events.Serve && e.Dish != nil && !known { // the first it is served in
			courses[e.Dish] = e.Course
		}
	}
	for _, ln := range d.Lanes {
		lane := sheets.Lane{Name: "Tasks, washing up", Rows: ln.Rows}
		if ln.Dish != nil {
			lane.Name, lane.Base = ln.Dish.Recipe.Name, ln.Dish.Recipe.Base
			lane.Letter = letter(ln.Strips[0].Event)
			lane.Course = courses[ln.Dish]
		}
		for _, s := range ln.Strips {
			b := sheets.Bar{
				Start: at(s.Start), End: at(s.End), Kind: sheets.BarKind(s.Kind), Row: s.Row,
				Letter: letter(s.Event), Number: s.Event.Number, Who: who(s.Who, names), Goes: s.Event.Kind == events.Job && !s.First,
			}
			b.Label, b.Short = label(s)
			lane.Bars = append(lane.Bars, b)
		}
		p.Lanes = append(p.Lanes, lane)
	}
	for i, ln := range slices.Backward(p.Lanes) { // a base stands above the first that draws on it
		if ln.Base && i+1 < len(p.Lanes) {
			p.Lanes[i].Course = p.Lanes[i+1].Course
		}
	}
	for _, u := range d.Uses {
		p.Uses = append(p.Uses, use(l, u, at, names))
	}
	for _, e := range d.Servings {
		if flag := (sheets.Flag{At: at(e.Start), Label: e.Course}); !slices.Contains(p.Flags, flag) {
			p.Flags = append(p.Flags, flag)
		}
	}
	return p
}

func who(cooks []string, names map[string]string) string {
	var out []string
	for _, c := range cooks {
		out = append(out, names[c])
	}
	return strings.Join(out, " ")
}

// label is a few words for a bar, and fewer. What is begun says them; later
// phases and looks say their number.
func label(s events.Strip) (usually, short string) {
	text := s.Event.Title
	switch {
	case s.Event.Kind == events.Touch && s.Event.Text == "", s.Event.Kind == events.Job && !s.First && s.Place == "":
		return "", ""
	case s.Event.Text != "":
		text = s.Event.Text
	case !s.First:
		return s.Place, s.Place
	}
	usually, short = events.Brief(text, usual), events.Brief(text, least)
	if n := utf8.RuneCountInString(usually); n > 2*usual {
		usually = "" // a word that long is none
	}
	if utf8.RuneCountInString(short) > usual {
		short = ""
	}
	if s.Event.Unsure && usually != "" {
		usually += " ?"
	}
	return usually, short
}

func use(l *events.List, u events.Use, at func(events.Moment) int, names map[string]string) sheets.Use {
	out := sheets.Use{Name: "Rings"}
	switch u.Kind {
	case events.OvenUse:
		out.Name = events.OvenName(u.Oven)
		if len(l.Ovens) == 1 {
			out.Name = "Oven"
		}
	case events.HandsUse:
		out.Name = "Hands free"
	}
	for _, s := range u.Spans {
		b := sheets.Bar{Start: at(s.From), End: at(s.To), Kind: sheets.UseBar}
		switch {
		case u.Kind == events.OvenUse:
			b.Label = s.Words
			if s.Heating {
				b.Kind = sheets.HeatBar
			}
		case u.Kind == events.RingUse:
			b.Label = strconv.Itoa(s.Count)
		case u.Kind == events.HandsUse:
			b.Label, b.Kind = who(s.Free, names), sheets.FreeBar
		}
		switch {
		case s.Full && u.Kind == events.HandsUse:
			b.Kind = sheets.BusyBar
		case s.Full:
			b.Kind = sheets.FullBar
		}
		out.Bars = append(out.Bars, b)
	}
	return out
}
