package events

import (
	"cmp"
	"slices"

	"tamis/compiler/resolve"
)

// Day is what is drawn of one day.
type Day struct {
	Number     int    // from the serving day
	Start, End Moment // of what is drawn, to the quarter of an hour
	Lanes      []Lane
	Servings   []*Event
}

// LaneKind tells lanes apart.
type LaneKind string

// The kinds of lane, in the order they stand.
const (
	CookLane  LaneKind = "cook"
	OvenLane  LaneKind = "oven"
	RingLane  LaneKind = "rings"
	AloneLane LaneKind = "alone" // what is left, in neither oven nor pan
)

// Lane is one cook, one oven, the rings, or what is left alone.
type Lane struct {
	Kind   LaneKind
	Name   string // the cook's or the oven's
	Rows   int    // at least 1
	Strips []Strip
}

// StripKind says how a strip is drawn.
type StripKind string

// The kinds of strip: the phases, and an oven that is not hot yet.
const (
	WorkStrip  = StripKind(resolve.Work)
	WatchStrip = StripKind(resolve.Watch)
	LeaveStrip = StripKind(resolve.Leave)
	HeatStrip  = StripKind(Heat)
)

// Strip is what an event is in one lane, in the lowest row that is free.
type Strip struct {
	Event      *Event
	Kind       StripKind
	Start, End Moment
	Row        int
	Place      string // of a strip left alone: "fridge"
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

// Lanes are the lanes of a day: its cooks, its ovens, its rings, and what is
// left alone. What goes on overnight ends at the edge.
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
	for _, c := range l.Cooks {
		add(Lane{Kind: CookLane, Name: c, Strips: l.atWork(d, c)})
	}
	for _, o := range l.Ovens {
		add(Lane{Kind: OvenLane, Name: o, Strips: l.inOven(d, o)})
	}
	add(Lane{Kind: RingLane, Strips: l.onRings(d)})
	add(Lane{Kind: AloneLane, Strips: l.leftAlone(d)})
	for _, e := range l.Each(Serve) {
		if d.has(e.Start) {
			out.Servings = append(out.Servings, e)
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
	return out
}

// atWork is what a cook does on a day: phases and touches.
func (l *List) atWork(d *day, cook string) (out []Strip) {
	for _, e := range l.Events {
		switch {
		case e.Kind == Touch && !e.Then && slices.Contains(e.Who, cook) && d.has(e.Start):
			out = append(out, Strip{Event: e, Kind: WorkStrip, Start: e.Start, End: max(e.End, e.Start.Add(1))})
			d.see(e.Start, e.End)
		case e.Kind == Job:
			for _, p := range e.Phases {
				if slices.Contains(p.Who, cook) && p.Length() > 0 && d.has(p.Start) {
					out = append(out, Strip{Event: e, Kind: StripKind(p.Kind), Start: p.Start, End: p.End})
					d.see(p.Start, p.End)
				}
			}
		}
	}
	return out
}

// inOven is what an oven does on a day: it heats up, and has things in it.
func (l *List) inOven(d *day, oven string) (out []Strip) {
	for _, e := range l.Events {
		if e.Where.Oven != oven {
			continue
		}
		switch e.Kind {
		case Heat:
			if d.has(e.Start) {
				if e.Length() > 0 {
					out = append(out, Strip{Event: e, Kind: HeatStrip, Start: e.Start, End: e.End})
				}
				d.see(e.Start, e.End)
			}
		case Job:
			for _, p := range e.Phases {
				if p.Kind != resolve.Work && d.has(p.Start) {
					out = append(out, Strip{Event: e, Kind: StripKind(p.Kind), Start: p.Start, End: p.End})
					d.see(p.Start, min(p.End, d.to))
				}
			}
		}
	}
	return out
}

// onRings is what stands on the rings on a day, a strip for each ring.
func (l *List) onRings(d *day) (out []Strip) {
	for _, e := range l.Each(In) {
		if e.Where.Rings == 0 || !d.has(e.Start) {
			continue
		}
		for range e.Where.Rings {
			out = append(out, Strip{Event: e, Kind: e.Of.longest(), Start: e.Start, End: e.End})
		}
		d.see(e.Start, min(e.End, d.to))
	}
	return out
}

// longest is the kind of the longest phase of a job.
func (e *Event) longest() StripKind {
	kind, most := WorkStrip, Minutes(0)
	for _, p := range e.Phases {
		if n := p.Length(); n > most {
			most, kind = n, StripKind(p.Kind)
		}
	}
	return kind
}

// leftAlone is what rests, chills or soaks on a day.
func (l *List) leftAlone(d *day) (out []Strip) {
	for _, e := range l.Each(Job) {
		if e.Where.Oven != "" || e.Where.Rings > 0 {
			continue
		}
		for _, p := range e.Phases {
			if p.Kind == resolve.Leave && p.Length() > 0 && d.has(p.Start) {
				out = append(out, Strip{Event: e, Kind: LeaveStrip, Start: p.Start, End: min(p.End, d.to), Place: p.Place})
				d.see(p.Start, p.Start)
			}
		}
	}
	return out
}

// spread gives strips that overlap rows of their own.
func (l *Lane) spread() {
	slices.SortStableFunc(l.Strips, func(x, y Strip) int {
		return cmp.Or(cmp.Compare(x.Start, y.Start), cmp.Compare(y.End, x.End), cmp.Compare(x.Event.letter(), y.Event.letter()), cmp.Compare(x.Event.Number, y.Event.Number))
	})
	var ends []Moment
	for i := range l.Strips {
		s := &l.Strips[i]
		s.Row = slices.IndexFunc(ends, func(e Moment) bool { return e <= s.Start })
		if s.Row < 0 {
			s.Row = len(ends)
			ends = append(ends, 0)
		}
		ends[s.Row] = s.End
	}
	l.Rows = max(1, len(ends))
}

func (e *Event) letter() string {
	if e.Dish == nil {
		return ""
	}
	return e.Dish.Letter
}
