// Package practice knows what each country or body publishes about cooking,
// cooling, keeping, holding hot and reheating, who applies to a text, and what
// rules where several figures differ.
//
// The figures are rows of data/limits.csv; each says where it was seen, or
// that it is from memory. Nothing here promises that food will not hurt anybody.
//
// Read this file first, then ruling.go, which says whose figure holds; load.go reads the
// tables.
package practice

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"tamis/lang/quantity"
)

// Limit is one published figure.
type Limit struct {
	Practice string
	Topic    string   // one of Topics
	Foods    []string // what it is for, as rules ask for it
	C, F     Degrees  // as printed; neither is converted from the other
	TempRule string   // at least, at most, above, range, from..to, start
	Time     time.Duration
	TimeRule string // at least, at most, less than, instantaneous
	Use      bool   // compared with; else kept for the reader
	Print    bool   // the one of its kind to print
	What     string // the food or the stage
	Source   string // document and section
	Via      string // how it was seen
	Memory   bool   // from memory: a lead, credited to nobody
	Note     string

	length string // the time as printed: "3 to 4 days"
}

// Degrees are one or two temperatures of a scale.
type Degrees struct {
	From, To float64
	Set      bool
}

// Practice is a country or a body, for its trade or its homes.
type Practice struct {
	Name  string
	Other []string // other names a text may use
	Then  []string // where to look when it has no figure
}

// Find looks a practice up by the name a text gives it, in any case.
func Find(name string) (*Practice, bool) {
	same := func(s string) bool { return strings.EqualFold(s, strings.Join(strings.Fields(name), " ")) }
	for _, p := range builtin().practices {
		if same(p.Name) || slices.ContainsFunc(p.Other, same) {
			return p, true
		}
	}
	return nil, false
}

// Scales of a practice: the United States print Fahrenheit first.
func (l *Limit) fahrenheit() bool { return strings.HasPrefix(l.Practice, "US") && l.F.Set }

// Degrees is the temperature in print: "75 °C", "165 °F (74 °C)".
func (l *Limit) Degrees() string {
	if !l.C.Set {
		return ""
	}
	c := number(l.C.From) + " °C"
	if l.fahrenheit() {
		return number(l.F.From) + " °F (" + c + ")"
	}
	return c
}

// Clause is the temperature of a limit as a margin has it: "75 C", "165 F". Who
// cooks by a practice in Celsius is told in Celsius, whoever published it.
func (r Ruling) Clause(l *Limit) string {
	if r.inFahrenheit(l) {
		return number(l.F.From) + " F"
	}
	return number(l.C.From) + " C"
}

// ClauseBelow is the same of a limit that food is kept below: its upper figure.
func (r Ruling) ClauseBelow(l *Limit) string {
	if r.inFahrenheit(l) {
		return number(l.F.To) + " F"
	}
	return number(l.C.To) + " C"
}

func (r Ruling) inFahrenheit(l *Limit) bool {
	p := r.Choice.Practice
	return l.fahrenheit() && (p == nil || strings.HasPrefix(p.Name, "US"))
}

// Span is a range of temperatures in print: "57 to 21 °C", "135 to 70 °F (57 to 21 °C)".
func (l *Limit) Span() string {
	c := number(l.C.From) + " to " + number(l.C.To) + " °C"
	if l.fahrenheit() {
		return number(l.F.From) + " to " + number(l.F.To) + " °F (" + c + ")"
	}
	return c
}

func number(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

// Length is the time in print: "30 seconds", "3 to 4 days"; empty without one.
func (l *Limit) Length() string { return l.length }

// Stays is how long a core must stay at the temperature; 0 where the time of the
// row is about something else, such as how fast it must get there.
func (l *Limit) Stays() time.Duration {
	if l.TimeRule != "at least" {
		return 0
	}
	return l.Time
}

// Core is temperature and time in print: "75 °C for 30 seconds".
func (l *Limit) Core() string {
	if l.Stays() == 0 {
		return l.Degrees()
	}
	return l.Degrees() + " for " + l.length
}

// Credit is who says so and how it was seen. A figure from memory is credited
// to nobody.
func (l *Limit) Credit() string {
	if l.Memory {
		return "from memory, no source seen"
	}
	word, _, _ := strings.Cut(l.Via, ":")
	word, _, _ = strings.Cut(word, ",")
	switch {
	case strings.HasPrefix(word, "primary"):
		return l.Source
	case strings.HasPrefix(word, "adopted"):
		return l.Source + ", as states adopt it"
	case strings.HasPrefix(word, "reproduction"):
		return l.Source + ", as seen reproduced"
	}
	return l.Source + ", as seen quoted"
}

// Mind is what a reader of the figure must know: that others print another, or
// how days are counted. Empty for most.
func (l *Limit) Mind() string {
	if note, ok := strings.CutPrefix(l.Note, "CONTESTED: "); ok {
		return "Contested: " + note
	}
	if strings.HasPrefix(l.Note, "the day of making") {
		return "There " + l.Note
	}
	return ""
}

// short is a time that a probe takes to settle: a limit asks for less than a
// minute at the temperature, and nobody need write that down. Common practice,
// no source.
const short = time.Minute

// Meets tells whether a core that reaches a temperature, and stays there so
// long, is enough. Each scale is compared with the figure printed for it.
func (l *Limit) Meets(t quantity.Temperature, held time.Duration) bool {
	got, want := float64(t.Low), l.C.From
	if t.Scale == quantity.Fahrenheit {
		if l.F.Set {
			want = l.F.From
		} else {
			got = (got - 32) / 1.8
		}
	}
	return got >= want && (l.Stays() < short || held >= l.Stays())
}
