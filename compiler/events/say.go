package events

import (
	"fmt"
	"strings"
	"time"

	"tamis/compiler/larder"

	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// Words is a length of time as it is said: "1 h 5 min".
func (n Minutes) Words() string { return quantity.TimeText(time.Duration(n) * time.Minute) }

// Left tells whether a phase asks for nobody.
func (p Phase) Left() bool { return StripKind(p.Kind) == LeaveStrip }

// Watched tells whether somebody only stands by in a phase.
func (p Phase) Watched() bool { return StripKind(p.Kind) == WatchStrip }

// Mark is the letter of an event's dish, with the number of its step: "B3".
func (e *Event) Mark() string { return e.mark }

// Say is the title of an event's job as a thing to do.
func (e *Event) Say() string { return e.say }

// Said is Say with the mark: "Boil the peas (B1)".
func (e *Event) Said() string {
	if e.mark == "" {
		return e.say
	}
	return fmt.Sprintf("%s (%s)", e.say, e.mark)
}

// Sentence is what a job is, at more length than its title.
func (e *Event) Sentence() string { return e.sentence }

// Words lists the places and things of a job: "main oven", "ring high".
func (w Place) Words() (out []string) {
	if w.Oven != "" {
		out = append(out, timeline.OvenWords(w.Oven))
	}
	switch {
	case w.Rings == 1:
		out = append(out, strings.TrimSpace("ring "+w.Level))
	case w.Rings > 1:
		out = append(out, strings.TrimSpace(fmt.Sprintf("%d rings %s", w.Rings, w.Level)))
	}
	if w.Grill {
		out = append(out, strings.TrimSpace("grill "+w.Level))
	}
	if w.Vessel != "" {
		out = append(out, w.Vessel)
	}
	return append(out, w.Tools...)
}

// Capital and Small are those of the larder, for renderers, which read events alone.
func Capital(s string) string { return larder.Capital(s) }
func Small(s string) string   { return larder.Small(s) }
