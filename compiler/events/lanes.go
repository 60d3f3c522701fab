package events

import (
	"cmp"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
)

// Day is what is drawn of one day.
type Day struct {
	Number     int    // from the serving day
	Start, End Moment // of what is drawn, to the quarter of an hour
	Lanes      []Lane
	Uses       []Use // of what the dishes share
	Servings   []*Event
}

// Lane is a dish or base, its bases above it; without a dish, all that belongs
// to none: tasks and washing up.
type Lane struct {
	Dish   *demand.Making
	Rows   int // at least 1
	Strips []Strip
}

// StripKind says how a strip is drawn.
type StripKind string

// The kinds of strip: the phases of a job.
const (
	WorkStrip  = StripKind(resolve.Work)
	WatchStrip = StripKind(resolve.Watch)
	LeaveStrip = StripKind(resolve.Leave)
)

// Strip is a phase of a job or a touch, in the lowest row that is free; a touch
// lies in the row of its job.
type Strip struct {
	Event      *Event
	Kind       StripKind
	Start, End Moment
	Row        int
	Who        []string
	Place      string // where it is left: "fridge"
	First      bool   // the first strip of its job on that day
}

// UseKind tells what is used.
type UseKind string

// What dishes share, in the order it stands.
const (
	OvenUse  UseKind = "oven"
	RingUse  UseKind = "rings"
	HandsUse UseKind = "hands"
)

// Use is how an oven, the rings or the hands are used through a day, in order and
// without overlaps; where nothing is said, nothing of it is in use.
type Use struct {
	Kind  UseKind
	Oven  string // its name
	Spans []Span
}

// Span is a stretch of a use in which nothing changes.
type Span struct {
	From, To Moment
	Heating  bool     // the oven is not hot yet
	Words    string   // what the oven is set to
	Count    int      // of the rings, how many are in use
	Full     bool     // nothing of it is left
	Free     []string // of the hands, whose are free
}

// Days are the days on which somebody begins something, something is left, or a
// dish is served, in order.
func (l *List) Days() (out []int) {
	see := func(m Moment) { out = append(out, l.Day(m)) }
	for _, e := range l.Events {
		switch e.Kind {
		case Touch, Serve:
			see(e.Start)
		case Job:
			see(e.Start)
			for _, p := range e.Phases {
				if p.Length() > 0 {
					see(p.Start)
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// day gathers the lanes of a day.
type day struct {
	from, to    Moment
	first, last Moment
}

// has tells whether a moment is of the day.
func (d *day) has(m Moment) bool { return d.from <= m && m < d.to }

// see widens what is drawn.
func (d *day) see(from, to Moment) { d.first, d.last = min(d.first, from), max(d.last, to) }

// Lanes are the lanes of a day: a dish each, with what is done to it, and what
// the dishes share. What goes on overnight ends at the edge.
func (l *List) Lanes(number int) Day {
	d := &day{from: l.DayStart(number), to: l.DayStart(number + 1)}
	d.first, d.last = d.to, d.from
	out := Day{Number: number}
	add := func(lane Lane) {
		if len(lane.Strips) > 0 {
			lane.spread()
			out.Lanes = append(out.Lanes, lane)
		}
	}
	for _, m := range l.meal.Makings { // a base before what draws on it
		add(Lane{Dish: m, Strips: l.strips(d, m)})
	}
	add(Lane{Strips: l.strips(d, nil)})
	for _, e := range l.Each(Serve) {
		if d.has(e.Start) {
			out.Servings = append(out.Servings, e)
			d.see(e.Start, e.Start)
		}
	}
	for _, e := range l.Each(Heat) {
		if d.has(e.Start) {
			d.see(e.Start, e.Start)
		}
	}
	out.Start = d.from.Add(d.first.Since(d.from) / 15 * 15)
	out.End = d.from.Add((d.last.Since(d.from) + 14) / 15 * 15)
	if out.End <= out.Start {
		out.End = out.Start.Add(60)
	}
	for i := range out.Lanes {
		for k := range out.Lanes[i].Strips {
			s := &out.Lanes[i].Strips[k]
			s.End = min(s.End, out.End)
		}
	}
	out.Uses = l.uses(&out)
	return out
}

// strips are the phases and touches of what is done to a dish on a day; of nil,
// of what belongs to no dish.
func (l *List) strips(d *day, m *demand.Making) (out []Strip) {
	for _, e := range l.Events {
		if e.Dish != m {
			continue
		}
		switch e.Kind {
		case Touch:
			if d.has(e.Start) && !e.Then { // what is worked at the end is a phase of its job
				out = append(out, Strip{Event: e, Kind: WorkStrip, Start: e.Start, End: max(e.End, e.Start.Add(1)), Who: e.Who})
				d.see(e.Start, e.End)
			}
		case Job:
			first := true
			for _, p := range e.Phases {
				if p.Length() <= 0 || !d.has(p.Start) {
					continue
				}
				out = append(out, Strip{Event: e, Kind: StripKind(p.Kind), Start: p.Start, End: min(p.End, d.to), Who: p.Who, Place: p.Place, First: first})
				first = false
				// what is left when all else is done is seen to begin, and what rests may end out of sight
				d.see(p.Start, p.Start.Add(1))
				if p.Kind != resolve.Leave || e.Where.Oven != "" || e.Where.Rings > 0 {
					d.see(p.End, min(p.End, d.to))
				}
			}
		}
	}
	return out
}

// spread gives jobs rows: two share one where hands do not overlap hands, nor what
// is left alone something else that is: hands may be at work above what is left.
// The phases of a job keep to one row, and its touches lie on it.
func (l *Lane) spread() {
	slices.SortStableFunc(l.Strips, func(x, y Strip) int {
		return cmp.Or(cmp.Compare(x.Start, y.Start), cmp.Compare(y.End, x.End), cmp.Compare(x.Event.Number, y.Event.Number))
	})
	var jobs []*Event
	of := map[*Event][]*Strip{}
	for i := range l.Strips {
		s := &l.Strips[i]
		job := s.Event
		if job.Kind == Touch {
			job = job.Of
		}
		if of[job] == nil {
			jobs = append(jobs, job)
		}
		of[job] = append(of[job], s)
	}
	var rows [][]*Strip
	for _, job := range jobs {
		row := slices.IndexFunc(rows, func(taken []*Strip) bool {
			return !slices.ContainsFunc(of[job], func(s *Strip) bool {
				return slices.ContainsFunc(taken, func(t *Strip) bool {
					return (s.Kind == LeaveStrip) == (t.Kind == LeaveStrip) && s.Start < t.End && t.Start < s.End
				})
			})
		})
		if row < 0 {
			row = len(rows)
			rows = append(rows, nil)
		}
		rows[row] = append(rows[row], of[job]...)
		for _, s := range of[job] {
			s.Row = row
		}
	}
	l.Rows = max(1, len(rows))
}
