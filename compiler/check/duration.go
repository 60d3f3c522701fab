package check

import (
	"time"

	"tamis/compiler/resolve"
)

// forever stands for a time with no upper end.
const forever = 1000 * 24 * time.Hour

// spellLengths is how long a phase lasts at the written size: at the least, at
// what is said, and at the most. ok is false where it grows with something
// that cannot be counted here; then it is at least the fixed part.
func spellLengths(sp *resolve.Spell) (least, usual, most time.Duration, ok bool) {
	ok = true
	if f := sp.Fixed; f != nil {
		least, usual, most = f.Low, f.High, max(f.High, f.UpTo)
		if f.Overnight {
			usual = f.Low
		}
		if f.AtLeast {
			most = forever
		}
	}
	if sp.Grows() {
		low, high, counted := sp.Written()
		if !counted {
			return least, usual, forever, false
		}
		least, usual, most = low, high, most+high-usual
	}
	return least, usual, most, ok
}

// repeated tells whether a spell is attention again and again during another.
func repeated(sp *resolve.Spell, of []resolve.Spell) bool { return sp.Every != nil && len(of) > 1 }

// stepLengths adds up the phases of a step. ok is false when one of them
// cannot be counted here.
func stepLengths(s *resolve.Step) (least, usual, most time.Duration, ok bool) {
	ok = true
	for i := range s.Phases {
		sp := &s.Phases[i]
		if repeated(sp, s.Phases) {
			continue
		}
		l, u, m, counted := spellLengths(sp)
		least, usual, most, ok = least+l, usual+u, most+m, ok && counted
	}
	n := time.Duration(max(1, s.Times))
	return least * n, usual * n, min(most, forever/n) * n, ok
}

// always tells whether a step takes place whatever the menu chooses.
func always(s *resolve.Step) bool { return len(s.If) == 0 && !s.OnlyIfNeeded }

// chain is the least time from the first step of a recipe to the end of its
// last: the longest way through what waits for what. Steps that may not take
// place, preparation and what other blocks make are left out of it.
func chain(r *resolve.Recipe) time.Duration {
	end := map[*resolve.Step]time.Duration{}
	var before, host, strand, whole time.Duration // ends of the last plain step and of its strand; start of that step
	for _, s := range r.Steps {
		if !always(s) {
			continue
		}
		least, _, _, _ := stepLengths(s)
		var start time.Duration
		switch {
		case s.AnyTime:
		case len(s.After) > 0:
			for _, a := range s.After {
				start = max(start, end[a])
			}
		case s.Meanwhile:
			start = max(host, strand)
		default:
			start = max(before, strand)
		}
		end[s] = start + least
		if s.Meanwhile {
			strand = end[s]
		} else {
			host, before, strand = start, end[s], 0
		}
		whole = max(whole, end[s])
	}
	return whole
}

// hands is the least time that hands are busy or must stay near: work and
// watch of every step that always takes place, and preparation of the list.
func hands(r *resolve.Recipe, watch, prep bool) (sum time.Duration) {
	add := func(spells []resolve.Spell) {
		for i := range spells {
			sp := &spells[i]
			if sp.Kind == resolve.Leave || sp.Kind == resolve.Watch && !watch || repeated(sp, spells) {
				continue
			}
			least, _, _, _ := spellLengths(sp)
			sum += least
		}
	}
	for _, s := range r.Steps {
		if always(s) {
			for range max(1, s.Times) {
				add(s.Phases)
			}
		}
	}
	if prep {
		for _, l := range r.Lines {
			if l.Option == nil && !l.Optional {
				add(l.Prep)
			}
		}
	}
	return sum
}
