// Package calendar writes the plan of a document as calendars of RFC 5545, one for each cook,
// with an alarm at the beginning of everything that cook does. Where the kitchen says in which
// zone it is, times are in UTC; else they are floating, and every clock shows them as its own
// (3.3.5, forms 1 and 2). Lines are folded at 75 octets, never within a letter (3.1).
//
// RFC 5545 is from memory; .ci/exchange.mjs has another reader see the same events.
package calendar

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"tamis/compiler/sheets"
	"tamis/render/runes"
)

// Calendar is the calendar of one cook.
type Calendar struct {
	Cook string
	Text string
}

// ErrNoDate says that nothing of a document has a date.
var ErrNoDate = errors.New("nothing is planned to a day and an hour: a calendar needs `on the table 2027-05-02 13:00` in the menu")

// Of are the calendars of a document, by cook in the order in which they begin.
func Of(doc *sheets.Document) ([]Calendar, error) {
	var cooks []string
	for _, e := range doc.Events {
		for _, who := range e.Who {
			if !slices.Contains(cooks, who) {
				cooks = append(cooks, who)
			}
		}
	}
	if len(cooks) == 0 {
		return nil, ErrNoDate
	}
	var out []Calendar
	for _, cook := range cooks {
		text, err := of(doc, cook)
		if err != nil {
			return nil, err
		}
		out = append(out, Calendar{cook, text})
	}
	return out, nil
}

func of(doc *sheets.Document, cook string) (string, error) {
	w := &writer{}
	w.line("BEGIN", "VCALENDAR")
	w.line("VERSION", "2.0")
	w.line("PRODID", "-//Tamis//Plan of a meal//EN")
	w.line("CALSCALE", "GREGORIAN")
	w.line("METHOD", "PUBLISH")
	w.text("NAME", doc.Title+", "+cook) // RFC 7986
	w.text("X-WR-CALNAME", doc.Title+", "+cook)
	seen := map[string]int{}
	for _, e := range doc.Events {
		if !concerns(e, cook) {
			continue
		}
		start, err := stamp(e.Start)
		if err != nil {
			return "", err
		}
		end, err := stamp(handsEnd(e, cook))
		if err != nil {
			return "", err
		}
		uid := uidOf(doc.Title, cook, e)
		if seen[uid]++; seen[uid] > 1 {
			uid = uidOf(doc.Title, cook, e, seen[uid])
		}
		w.line("BEGIN", "VEVENT")
		w.line("UID", uid)
		w.line("DTSTAMP", strings.TrimSuffix(start, "Z")+"Z") // of the same text the same calendar: no clock of today's
		w.line("DTSTART", start)
		if end > start {
			w.line("DTEND", end)
		}
		w.text("SUMMARY", Summary(e))
		if d := details(e); d != "" {
			w.text("DESCRIPTION", d)
		}
		if p := place(e.Where); p != "" {
			w.text("LOCATION", p)
		}
		w.line("BEGIN", "VALARM")
		w.line("ACTION", "DISPLAY")
		w.text("DESCRIPTION", Summary(e))
		w.line("TRIGGER", "PT0S")
		w.line("END", "VALARM")
		w.line("END", "VEVENT")
	}
	w.line("END", "VCALENDAR")
	return w.b.String(), nil
}

// concerns tells whether an event is one of a cook's; what goes to the table is everybody's.
func concerns(e sheets.Event, cook string) bool {
	return e.Kind == "serve" || slices.Contains(e.Who, cook)
}

// Summary is an event in a line: what to do, with the dish and its step.
func Summary(e sheets.Event) string {
	mark := e.Letter
	if mark != "" && e.Step > 0 {
		mark += strconv.Itoa(e.Step)
	}
	text := e.Words
	if mark != "" {
		text = mark + " " + text
	}
	if e.Amount != nil {
		text += ", " + e.Amount.Printed
	}
	return runes.Clean(text)
}

// details are the parts of a job and its dish.
func details(e sheets.Event) string {
	var out []string
	if e.Dish != "" {
		out = append(out, runes.Clean(e.Dish))
	}
	for _, p := range e.Phases {
		out = append(out, p.Kind+" "+clock(p.Start)+"–"+clock(p.End))
	}
	if len(e.Who) > 1 {
		out = append(out, "with "+runes.Clean(strings.Join(e.Who, ", ")))
	}
	return strings.Join(out, "\n")
}

func clock(at string) string {
	if len(at) < 16 {
		return at
	}
	return at[11:16]
}

func place(w sheets.Where) string {
	var out []string
	if w.Oven != "" {
		out = append(out, runes.Clean(w.Oven)+" oven")
	}
	if len(w.Rings) > 0 {
		out = append(out, "ring")
	}
	for _, s := range []string{w.Place, w.Vessel} {
		if s != "" {
			out = append(out, runes.Clean(s))
		}
	}
	return strings.Join(out, ", ")
}

// handsEnd is when the hands of a cook leave an event.
func handsEnd(e sheets.Event, cook string) string {
	end := ""
	for _, p := range e.Phases {
		if slices.Contains(p.Who, cook) {
			end = p.End
		}
	}
	switch {
	case end != "":
		return end
	case len(e.Phases) > 0:
		return e.Start
	case e.Kind == "heat" || e.Kind == "off":
		return e.Start // a turn of the knob
	}
	return e.End
}

func uidOf(title, cook string, e sheets.Event, more ...int) string {
	h := sha256.New()
	for _, s := range []string{title, cook, e.Kind, e.Letter, strconv.Itoa(e.Step), strconv.Itoa(e.Load), e.Words, e.Start} {
		h.Write([]byte(s + "\x00"))
	}
	for _, n := range more {
		h.Write([]byte(strconv.Itoa(n)))
	}
	return hex.EncodeToString(h.Sum(nil))[:32] + "@tamis.invalid"
}

// stamp is a moment as RFC 5545 writes it: in UTC, or floating without a zone.
func stamp(at string) (string, error) {
	if t, err := time.Parse(time.RFC3339, at); err == nil {
		return t.UTC().Format("20060102T150405Z"), nil
	}
	if t, err := time.Parse("2006-01-02T15:04:05", at); err == nil {
		return t.Format("20060102T150405"), nil
	}
	return "", ErrNoDate
}

// writer writes content lines.
type writer struct{ b strings.Builder }

// text writes a property whose value is TEXT (3.3.11).
func (w *writer) text(name, value string) {
	w.line(name, strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`).Replace(value))
}

// line writes one content line, folded.
func (w *writer) line(name, value string) {
	s := name + ":" + value
	room := 75
	for len(s) > room {
		cut := room
		for cut > 0 && !utf8.RuneStart(s[cut]) {
			cut--
		}
		w.b.WriteString(s[:cut] + "\r\n ")
		s, room = s[cut:], 74 // the blank counts
	}
	w.b.WriteString(s + "\r\n")
}
