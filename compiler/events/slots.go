package events

import "slices"

// slots gives every putting in its shelves or rings, counted from 0: the lowest
// that are free for as long as it lasts, side by side where that takes no more
// of them than are in use at the fullest moment. The events of the same job
// stand where it stands.
func (l *List) slots() {
	byPlace := map[string][]*Event{}
	for _, e := range l.Events { // in order of time
		if e.Kind == In {
			byPlace[e.Where.Oven] = append(byPlace[e.Where.Oven], e)
		}
	}
	for _, in := range byPlace {
		most := fullest(in)
		for i, e := range in {
			e.Where.Slots = free(in[:i], e.Start, wants(e), most)
			if of := e.Of; of.Where.Slots == nil {
				of.Where.Slots = e.Where.Slots
			}
		}
	}
	for _, e := range l.Events {
		if e.Of != nil && e.Where.Slots == nil {
			e.Where.Slots = e.Of.Where.Slots
		}
	}
}

// wants is how many shelves or rings a putting in takes.
func wants(e *Event) int {
	if e.Where.Oven != "" {
		return max(1, e.shelves)
	}
	return e.Where.Rings
}

// fullest is how many shelves or rings are in use at once at most.
func fullest(in []*Event) (most int) {
	for _, e := range in {
		n := 0
		for _, o := range in {
			if o.Start <= e.Start && e.Start < o.End || o == e {
				n += wants(o)
			}
		}
		most = max(most, n)
	}
	return most
}

// free finds want slots that none of the earlier events holds at a moment.
func free(earlier []*Event, at Moment, want, most int) []int {
	taken := map[int]bool{}
	for _, o := range earlier {
		if o.End > at {
			for _, s := range o.Where.Slots {
				taken[s] = true
			}
		}
	}
	var any, row []int
	for s := 0; s < most && len(row) < want; s++ {
		if taken[s] {
			row = row[:0]
			continue
		}
		any, row = append(any, s), append(row, s)
	}
	if len(row) == want {
		return slices.Clone(row)
	}
	for s := most; len(any) < want; s++ { // two that end and begin at one moment
		any = append(any, s)
	}
	return any[:want]
}
