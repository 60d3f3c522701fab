package hazard

import (
	"strconv"
	"strings"
	"sync"
	"time"
)

// Poison is a thing that harms by what it is, not by what grows in it: a row of
// data/poisons.csv.
type Poison struct {
	Key     string
	Undo    string        // heat, boil, dose; none: nothing undoes it
	Long    time.Duration // so long, at least
	steam   time.Duration // in steam, where that is another
	AHead   float64       // grams a head, for dose
	Text    string
	Source  string // as printed: who, and how it was seen; or that nobody was
	is, but string // signs
}

var poisons = sync.OnceValue(func() (out []*Poison) {
	for _, r := range rowsOf("poisons") {
		p := &Poison{Key: r[0], Undo: r[3], Text: r[6], Source: r[7], is: "poison " + r[0], but: "no poison " + r[0]}
		long, steam, _ := strings.Cut(r[4], " steam ")
		p.Long, p.steam = minutes(long), minutes(steam)
		p.AHead, _ = strconv.ParseFloat(r[5], 64)
		switch {
		case r[9] == "from memory":
			p.Source = "common practice, no source"
		case strings.HasPrefix(r[8], "secondary"):
			p.Source += ", as seen quoted"
		}
		out = append(out, p)
	}
	return out
})

func minutes(s string) time.Duration {
	n, _ := strconv.Atoi(s)
	return time.Duration(n) * time.Minute
}

// PoisonOf is the poison that a line brings by its name and its note; nil when it
// brings none.
func PoisonOf(i *Item) *Poison {
	s := i.said
	if !s.poisons() {
		return nil
	}
	for _, p := range poisons() {
		if s.Tell(p.is) && !s.Tell(p.but) && !(i.Cooked && (p.Undo == "heat" || p.Undo == "boil")) {
			return p
		}
	}
	return nil
}

// poisons tells whether a text has the sign of any poison.
func (s *Signs) poisons() bool {
	for _, f := range signs().poison {
		if s.bits[f/64]&(1<<(f%64)) != 0 {
			return true
		}
	}
	return false
}

// Undone tells whether a method undoes a poison in a thing.
func (p *Poison) Undone(t *Trace, i *Item) bool {
	took := time.Duration(0)
	for _, st := range t.Stages {
		if !st.Heats || st.N < i.in {
			continue
		}
		if p.Undo == "boil" && !st.Boils() && !st.Thorough() && !st.Tells("pressure") {
			continue
		}
		t := max(st.Time, st.Allowed())
		if p.steam > 0 && st.Says("steam") {
			t = time.Duration(float64(t) * float64(p.Long) / float64(p.steam))
		}
		took += t
		if st.Time == 0 && len(st.Step.Phases) == 0 {
			return true // nobody says how long: it is not for this to ask
		}
	}
	return took > 0 && took >= p.Long
}

// PoisonNamed finds a poison by its key; it panics on a key that is not in the
// table.
func PoisonNamed(key string) *Poison {
	for _, p := range poisons() {
		if p.Key == key {
			return p
		}
	}
	panic("hazard: no poison " + key)
}
