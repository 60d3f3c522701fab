package timeline

import (
	"fmt"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// assumedMinutes is what a step without a time is planned with.
const assumedMinutes = 5

// longLeave is how long a step may be left, in minutes, before what should be
// done in it now and then takes nobody's time in the plan: nobody gets up at
// night to turn a joint.
const longLeave = 6 * 60

// addSteps makes a job of every step of a making that may take place.
func (d *draft) addSteps(mk *making) {
	if mk.m.Reading == nil {
		return
	}
	for _, sr := range mk.m.Reading.Steps {
		if ok, when := d.present(mk, sr.Step); ok {
			loads := d.stepJobs(mk, sr)
			for _, j := range loads {
				j.when = when
				uses, roles := d.stepUses(mk, j)
				d.activity(j, uses, roles)
				d.jobs = append(d.jobs, j)
			}
			d.inTurn(loads)
			mk.steps = append(mk.steps, loads[len(loads)-1])
		}
	}
}

// stepJob works out the phases of a step, or of one load of it, at times
// counted from its start. Load is 0 for all of the loads in one.
func (d *draft) stepJob(mk *making, sr *resolve.StepReading, loads, load int) *job {
	s := sr.Step
	j := &job{mk: mk, place: s.Span}
	j.Piece = Piece{Kind: StepJob, Making: mk.m, Step: sr, Title: s.Title, Vessel: s.Vessel, Rings: s.Rings}
	j.hot = len(s.Heats) > 0 || s.Rings > 0 || s.Grill
	j.Loads, j.Load = loads, load
	if load > 0 {
		j.Title = fmt.Sprintf("%s, load %d of %d", s.Title, load, loads)
	}
	for i := range s.Phases {
		sp := &s.Phases[i]
		if sp.Every != nil && len(s.Phases) > 1 {
			continue // repeated attention, not a phase
		}
		fixed, count := 1, d.count(mk, sr, sp, loads)
		if load > 0 {
			fixed, count = share(s, i, loads, load, count)
		}
		l := spellLength(sp, quantity.Int(int64(fixed)), count)
		j.addPhase(sp.Kind, sp.Place, l)
		if sp.Kind == resolve.Leave && i == len(s.Phases)-1 && !j.hot {
			j.extra, j.upTo, j.open = l.extra, l.upTo, l.open
		}
	}
	if len(j.parts) == 0 || j.length == 0 {
		j.parts, j.length, j.Assumed = nil, 0, true
		j.addPhase(resolve.Work, s.Place, length{most: assumedMinutes, least: assumedMinutes})
	}
	j.lengthen(d.more(j))
	j.workEnd = j.worked()
	j.touched(s)
	j.swaps()
	return j
}

// addPhase appends a phase to a job.
func (j *job) addPhase(kind resolve.SpellKind, place string, l length) {
	if l.most == 0 {
		return
	}
	least := l.least
	if kind != resolve.Leave || l.least > l.most {
		least = min(l.least, l.most)
	}
	j.parts = append(j.parts, part{kind, offset(j.length), offset(j.length + l.most), least, place})
	j.guesses = append(j.guesses, l.guess)
	j.length += l.most
	j.About = j.About || l.about
}

// lengthen makes the last phase of a job longer.
func (j *job) lengthen(by int) {
	j.parts[len(j.parts)-1].to += offset(by)
	j.length += by
}

// worked is when the hands leave a job, the end of its work, from its start.
func (j *job) worked() int {
	for _, p := range j.parts {
		if p.kind != resolve.Work {
			return int(p.from)
		}
	}
	return j.length
}

// touched notes the short attentions a step wants while it is left. Moments count
// from the end of the work.
func (j *job) touched(s *resolve.Step) {
	left := slices.IndexFunc(j.parts, func(p part) bool { return p.kind == resolve.Leave })
	if left >= 0 && j.parts[left].length() <= longLeave {
		p := j.parts[left]
		for i := range s.Phases {
			sp := &s.Phases[i]
			if sp.Every == nil || sp.Every.High <= 0 || len(s.Phases) < 2 {
				continue
			}
			l := offset(max(1, spellLength(sp, quantity.Int(1), quantity.Int(0)).most))
			step := max(offset(minutes(sp.Every.High)), l)
			for at := p.from + step; at+l <= p.to && at < p.to; at += step {
				j.touches = append(j.touches, touch{from: at, to: at + l})
			}
		}
	}
	for _, m := range s.Moments {
		at := j.momentAt(m)
		l := 1
		for _, c := range m.Margin {
			if c, ok := c.(*resolve.Spell); ok && c.Kind != resolve.Leave && c.Fixed != nil {
				l = max(l, minutes(c.Fixed.High))
			}
		}
		at = max(0, min(at, j.length-l))
		j.touches = append(j.touches, touch{from: offset(at), to: offset(min(at+l, j.length)), text: m.Prose.Text})
	}
	slices.SortStableFunc(j.touches, func(a, b touch) int { return int(a.from - b.from) })
}

// longLeft tells whether a step is left for so long that nobody can be asked to
// be there at a given minute of it.
func (j *job) longLeft() bool {
	return slices.ContainsFunc(j.parts, func(p part) bool { return p.kind == resolve.Leave && p.length() > longLeave })
}

// momentAt is when a moment of a step comes, counted from the step's start.
func (j *job) momentAt(m *resolve.Moment) int {
	worked := j.workEnd
	if worked == j.length {
		worked = 0
	}
	if m.At == nil {
		return worked + (j.length-worked)/2
	}
	return worked + minutes(m.At.High)
}

// stepUses is what a step holds, and when, with what each use is for.
func (d *draft) stepUses(mk *making, j *job) (uses []plan.Use, roles []roleKind) {
	s := j.Step.Step
	add := func(role roleKind, u plan.Use) {
		uses, roles = append(uses, u), append(roles, role)
	}
	units := ceilDiv(j.length, d.grid)
	mine, help := d.handUses(j)
	for _, u := range mine {
		add(cookRole, u)
	}
	for _, u := range help {
		add(helpRole, u)
	}
	for _, u := range d.hereUses(mk, j, units) {
		add(hereRole, u)
	}
	for _, u := range d.ovenUses(mk, j, units) {
		add(ovenRole, u)
	}
	if s.Rings > 0 && d.kit.rings >= 0 {
		if s.Rings > d.kit.ringCount {
			d.tooFew(j, "rings", s.Rings, d.kit.ringCount)
		}
		add(ringRole, plan.Use{Of: []int{d.kit.rings}, Amount: min(s.Rings, d.kit.ringCount)})
	}
	if s.Grill && d.kit.grill >= 0 {
		add(grillRole, plan.Use{Of: []int{d.kit.grill}, Amount: 1})
	}
	from, to := 0, units
	if w := j.attended(d.grid); len(w) > 0 {
		from, to = w[0].from, w[len(w)-1].to
	}
	for _, key := range s.Tools {
		t, ok := d.kit.tools[key]
		j.Tools = append(j.Tools, d.nameOf(s, resolve.WordTool, key, t, ok))
		if ok {
			add(toolRole, plan.Use{Of: []int{t.res}, Amount: 1, From: from, To: to})
		}
	}
	if s.Vessel != "" {
		v, ok := d.kit.vessels[s.Vessel]
		j.Vessel, j.Vessels = d.nameOf(s, resolve.WordIn, s.Vessel, v, ok), vesselsWanted(mk, j)
		if ok {
			if j.Vessels > v.count {
				d.tooFew(j, v.name, j.Vessels, v.count)
			}
			add(vesselRole, plan.Use{Of: []int{v.res}, Amount: min(j.Vessels, v.count)})
		}
	}
	return uses, roles
}

// nameOf is how a tool or vessel is printed: as the kitchen writes it, else as
// the step does.
func (d *draft) nameOf(s *resolve.Step, clause resolve.Word, key string, t thing, listed bool) string {
	if listed {
		return t.name
	}
	n := 0
	for _, c := range s.Margin {
		if c.Begins() == clause {
			if clause != resolve.WordTool || n < len(s.Tools) && s.Tools[n] == key {
				return c.Names().Text
			}
			n++
		}
	}
	return key
}

// unitSpan is a hold in the engine's units from the start of a job.
type unitSpan struct{ from, to int }

// attended is when a job has a cook by it from its beginning, in units.
func (j *job) attended(grid int) (out []unitSpan) {
	for _, p := range j.parts {
		if p.kind != resolve.Leave {
			out = append(out, unitSpan{int(p.from) / grid, ceilDiv(int(p.to), grid)})
		}
	}
	return merged(out)
}

func merged(in []unitSpan) (out []unitSpan) {
	slices.SortFunc(in, func(a, b unitSpan) int { return a.from - b.from })
	for _, s := range in {
		if n := len(out); n > 0 && s.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

// handUses are the cooks a step wants: mine whoever has the job, help the other
// hands that its work wants. One cook is enough to watch it and to touch it.
func (d *draft) handUses(j *job) (mine, help []plan.Use) {
	s := j.Step.Step
	set := d.hands(s.By)
	if len(s.By) > 0 && len(set) == 0 {
		d.nobody(j, s.By)
		set = d.hands(nil)
	}
	attended := j.attended(d.grid)
	spans := slices.Clone(attended)
	if k := d.set.keep; !j.longLeft() && (k == nil || !k.loose) {
		for _, t := range j.touches {
			spans = append(spans, unitSpan{int(t.from) / d.grid, ceilDiv(int(t.to), d.grid)})
		}
	}
	if len(spans) == 0 {
		return nil, nil
	}
	if len(set) == 0 {
		d.nobody(j, nil)
		return nil, nil
	}
	for _, w := range merged(spans) {
		mine = append(mine, plan.Use{Of: set, Amount: 1, From: w.from, To: w.to})
	}
	if len(attended) == 0 {
		return mine, nil
	}
	wanted := s.Cooks
	if wanted > len(set) {
		d.tooFew(j, "cooks", wanted, len(set))
		wanted = len(set)
	}
	to := attended[0].to
	if w := j.workEnd; w > 0 {
		to = min(to, ceilDiv(w, d.grid))
	}
	for range wanted - 1 {
		help = append(help, plan.Use{Of: set, Amount: 1, From: attended[0].from, To: to})
	}
	return mine, help
}

// hereUses ask for someone in the kitchen when a step that nobody works on is
// begun, when food comes off the heat, and when it is put away for a pause.
func (d *draft) hereUses(mk *making, j *job, units int) (uses []plan.Use) {
	if d.kit.here < 0 {
		return nil
	}
	if j.parts[0].kind == resolve.Leave && j.Load < 2 {
		uses = append(uses, plan.Use{Of: []int{d.kit.here}, Amount: 1, From: 0, To: 1})
	}
	last := j.parts[len(j.parts)-1]
	putAway := mk.pausedAfter(j.Step.Step) && last.place != "fridge" && last.place != "freezer"
	if (j.hot || putAway) && units > 1 && last.kind == resolve.Leave {
		uses = append(uses, plan.Use{Of: []int{d.kit.here}, Amount: 1, From: units - 1, To: units})
	}
	return uses
}

// pausedAfter tells whether a step is the last before a pause that is or may be
// taken.
func (mk *making) pausedAfter(s *resolve.Step) bool {
	for _, p := range mk.pauses {
		if p.state != straight && p.model.After == s.Index+1 {
			return true
		}
	}
	return false
}
