package hazard

import "strings"

// RawEgg tells whether egg is eaten that no step heats: the whole of a line, or one half
// of eggs that were separated, such as whites folded in behind cooked yolks.
func (t *Trace) RawEgg(i *Item) bool {
	if !i.Is(Egg) || !i.Heated {
		return i.Is(Egg)
	}
	if i.Before || !hasWord(strings.ToLower(i.Line.Note.Text), "separated", "separate") && !t.separates(i) {
		return false
	}
	for _, half := range [][]string{{"white", "whites"}, {"yolk", "yolks"}} {
		said, hot := false, false
		for _, st := range t.Stages {
			said = said || st.Says(half...)
			hot = hot || said && st.Heats && !st.melts()
		}
		if said && !hot {
			return true
		}
	}
	return false
}

// separates tells whether a step parts the whites from the yolks.
func (t *Trace) separates(i *Item) bool {
	for _, st := range t.Stages {
		if i.In(st) && st.Says("separate", "separated") && st.Says("egg", "eggs", "whites", "yolks") {
			return true
		}
	}
	return false
}
