package problem

import (
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// assumedMinutes is what a step without a time is planned with.
const assumedMinutes = 5

// LongLeave is how long a step may be left, in minutes, before what should be
// done in it now and then takes nobody's time in the plan: nobody gets up at
// night to turn a joint.
const LongLeave = 6 * 60

// mostTouches is how many visits to one step are listed.
const mostTouches = 200

// addSteps makes a job of every step of a making that may take place.
func (d *Draft) addSteps(mk *Making) {
	if mk.M.Reading == nil {
		return
	}
	for _, sr := range mk.M.Reading.Steps {
		if ok, when := d.present(mk, sr.Step); ok {
			loads := d.stepJobs(mk, sr)
			for _, j := range loads {
				j.When = when
				uses, roles := d.stepUses(mk, j)
				d.Activity(j, uses, roles)
				d.Jobs = append(d.Jobs, j)
			}
			d.inTurn(loads)
			mk.Steps = append(mk.Steps, loads[len(loads)-1])
		}
	}
}

// stepJob works out the phases of a step, or of one load of it, at times
// counted from its start. Load is 0 for all of the loads in one.
func (d *Draft) stepJob(mk *Making, sr *resolve.StepReading, loads, load int) *Job {
	s := sr.Step
	j := &Job{Mk: mk, Place: s.Span}
	j.Piece = timeline.Piece{Kind: timeline.StepJob, Making: mk.M, Step: sr, Vessel: s.Vessel, Rings: s.Rings}
	j.Title, j.Words = d.fig.StepWords(mk.M, sr)
	j.Hot = len(s.Heats) > 0 || s.Rings > 0 || s.Grill
	j.Loads, j.Load = loads, load
	if load > 0 {
		j.Title += ", " + j.LoadText()
	}
	times := max(1, s.Times)
	for n := range times * len(s.Phases) {
		i := n % len(s.Phases)
		sp := &s.Phases[i]
		if sp.Every != nil && len(s.Phases) > 1 {
			continue // repeated attention, not a phase
		}
		fixed, count := 1, d.count(mk, sr, sp, loads)
		if load > 0 {
			fixed, count = share(s, i, loads, load, count)
		}
		l := spellLength(sp, quantity.Int(int64(fixed)), count)
		j.AddPhase(sp.Kind, sp.Place, l)
		if sp.Kind == resolve.Leave && n == times*len(s.Phases)-1 && !j.Hot {
			j.Extra, j.upTo, j.Open = l.extra, l.upTo, l.open
		}
	}
	if len(j.Parts) == 0 || j.Length == 0 {
		j.Parts, j.Length, j.Assumed = nil, 0, true
		j.AddPhase(resolve.Work, s.Place, Length{Most: assumedMinutes, Least: assumedMinutes})
	}
	j.Lengthen(d.More(j))
	j.WorkEnd = j.worked()
	j.touched(s)
	j.swaps()
	j.handled(mk)
	return j
}

// handMinutes is how long it takes to put a thing in or on, or to take it out or off:
// common practice, no source.
const handMinutes = 1

// handled notes who is wanted to put a thing in and to take it out, where no other work
// of the step does: in its first minute, and when it is hot in its last. What stays
// where it is for the next step is not taken out, and what only stands is put nowhere.
func (j *Job) handled(mk *Making) {
	if first := j.Parts[0]; first.Kind == resolve.Leave && j.Load < 2 && (j.Hot || first.Place != "" && first.Place != "room") {
		j.Touches = append([]touch{{From: 0, To: handMinutes, Put: timeline.PutIn}}, j.Touches...)
	}
	j.Stays = mk.leftThere(j)
	if last := j.Parts[len(j.Parts)-1]; j.Hot && last.Kind == resolve.Leave && last.Length() > handMinutes && !j.Stays {
		j.Touches = append(j.Touches, touch{From: Offset(j.Length - handMinutes), To: Offset(j.Length), Put: timeline.TakeOut})
	}
}

// leftThere tells whether what a step leaves stays on its ring or in its oven for the
// next step.
func (mk *Making) leftThere(j *Job) bool {
	all := mk.M.Reading.Steps
	i := slices.Index(all, j.Step)
	if i < 0 || i+1 == len(all) || j.Load > 0 && j.Load < j.Loads {
		return false
	}
	s, n := j.Step.Step, all[i+1].Step
	if n.Meanwhile || n.AnyTime || len(n.After) > 0 || n.Pause != s.Pause || len(n.If) > 0 || n.Vessel != s.Vessel {
		return false
	}
	return s.Rings > 0 && n.Rings > 0 || oneStay(s, n)
}

// AddPhase appends a phase to a job.
func (j *Job) AddPhase(kind resolve.SpellKind, place string, l Length) {
	if l.Most == 0 {
		return
	}
	least := l.Least
	if kind != resolve.Leave || l.Least > l.Most {
		least = min(l.Least, l.Most)
	}
	j.Parts = append(j.Parts, Part{kind, Offset(j.Length), Offset(j.Length + l.Most), least, place})
	j.Guesses = append(j.Guesses, l.guess)
	j.Length += l.Most
	j.About = j.About || l.About
}

// Lengthen makes the last phase of a job longer.
func (j *Job) Lengthen(by int) {
	j.Parts[len(j.Parts)-1].To += Offset(by)
	j.Length += by
}

// worked is when the hands leave a job, the end of its work, from its start.
func (j *Job) worked() int {
	for _, p := range j.Parts {
		if p.Kind != resolve.Work {
			return int(p.From)
		}
	}
	return j.Length
}

// Cooked is when a job comes off its fire, from its start.
func (j *Job) Cooked() int {
	kinds := make([]resolve.SpellKind, len(j.Parts))
	for i, p := range j.Parts {
		kinds[i] = p.Kind
	}
	if off := timeline.OffFire(kinds); off < len(kinds) {
		return int(j.Parts[off].From)
	}
	return j.Length
}

// touched notes the short attentions a step wants while it is left. Moments count
// from the end of the work.
func (j *Job) touched(s *resolve.Step) {
	for _, p := range j.Parts {
		if p.Kind != resolve.Leave {
			continue
		}
		for i := range s.Phases {
			sp := &s.Phases[i]
			if sp.Every == nil || sp.Every.High <= 0 || len(s.Phases) < 2 {
				continue
			}
			l := Offset(max(1, spellLength(sp, quantity.Int(1), quantity.Int(0)).Most))
			step := max(Offset(timeline.Minutes(sp.Every.High)), l)
			for at := p.From + step; at+l <= p.To && at < p.To && len(j.Touches) < mostTouches; at += step {
				j.Touches = append(j.Touches, touch{From: at, To: at + l})
			}
		}
	}
	for _, m := range s.Moments {
		at := j.momentAt(m)
		l := 1
		for _, c := range m.Margin {
			if c, ok := c.(*resolve.Spell); ok && c.Kind != resolve.Leave && c.Fixed != nil {
				l = max(l, timeline.Minutes(c.Fixed.High))
			}
		}
		at = max(0, min(at, j.Length-l))
		j.Touches = append(j.Touches, touch{From: Offset(at), To: Offset(min(at+l, j.Length)), Text: m.Says(), Moment: m})
	}
	slices.SortStableFunc(j.Touches, func(a, b touch) int { return int(a.From - b.From) })
}

// LongLeft tells whether a step is left for so long that nobody can be asked to
// be there at a given minute of it.
func (j *Job) LongLeft() bool {
	return slices.ContainsFunc(j.Parts, func(p Part) bool { return p.Kind == resolve.Leave && p.Length() > LongLeave })
}

// momentAt is when a moment of a step comes, counted from the step's start.
func (j *Job) momentAt(m *resolve.Moment) int {
	worked := j.WorkEnd
	if worked == j.Length {
		worked = 0
	}
	if m.At == nil {
		return worked + (j.Cooked()-worked)/2
	}
	return worked + timeline.Minutes(m.At.High)
}

// stepUses is what a step holds, and when, with what each use is for.
func (d *Draft) stepUses(mk *Making, j *Job) (uses []plan.Use, roles []RoleKind) {
	s := j.Step.Step
	add := func(role RoleKind, u plan.Use) {
		uses, roles = append(uses, u), append(roles, role)
	}
	units := timeline.CeilDiv(j.Length, d.Grid)
	mine, help := d.handUses(j)
	for _, u := range mine {
		add(CookRole, u)
	}
	for _, u := range help {
		add(HelpRole, u)
	}
	for _, u := range d.hereUses(mk, j, units) {
		add(HereRole, u)
	}
	cooked := timeline.CeilDiv(j.Cooked(), d.Grid)
	for _, u := range d.ovenUses(mk, j, cooked) {
		add(OvenRole, u)
	}
	if s.Rings > 0 && d.Kit.Rings >= 0 {
		if s.Rings > d.Kit.RingCount {
			d.tooFew(j, "rings", s.Rings, d.Kit.RingCount)
		}
		add(ringRole, plan.Use{Of: []int{d.Kit.Rings}, Amount: min(s.Rings, d.Kit.RingCount), To: cooked})
	}
	if s.Grill && d.Kit.grill >= 0 {
		add(grillRole, plan.Use{Of: []int{d.Kit.grill}, Amount: 1, To: cooked})
	}
	from, to := 0, units
	if w := j.attended(d.Grid); len(w) > 0 {
		from, to = w[0].from, w[len(w)-1].to
	}
	for _, key := range s.Tools {
		t, ok := d.Kit.Tools[key]
		j.Tools = append(j.Tools, d.nameOf(s, resolve.WordTool, key, t, ok))
		if ok {
			add(ToolRole, plan.Use{Of: []int{t.Res}, Amount: 1, From: from, To: to})
		}
	}
	if s.Vessel != "" {
		v, ok := d.Kit.Vessels[s.Vessel]
		j.Vessel, j.Vessels = d.nameOf(s, resolve.WordIn, s.Vessel, v, ok), vesselsWanted(mk, j)
		if ok {
			if j.Vessels > v.Count {
				d.tooFew(j, v.Name+"s", j.Vessels, v.Count)
			}
			add(vesselRole, plan.Use{Of: []int{v.Res}, Amount: min(j.Vessels, v.Count)})
		}
	}
	return uses, roles
}

// nameOf is how a tool or vessel is printed: as the kitchen writes it, else as
// the step does.
func (d *Draft) nameOf(s *resolve.Step, clause resolve.Word, key string, t thing, listed bool) string {
	if listed {
		return t.Name
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
func (j *Job) attended(grid int) (out []unitSpan) {
	for _, p := range j.Parts {
		if p.Kind != resolve.Leave {
			out = append(out, unitSpan{int(p.From) / grid, timeline.CeilDiv(int(p.To), grid)})
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
// hands that its work wants. One cook is enough to watch it and to touch it. A cook has
// as many hands as the grid has minutes: who works has all of them at it, who only
// touches a thing has some left for another in the same unit.
func (d *Draft) handUses(j *Job) (mine, help []plan.Use) {
	s := j.Step.Step
	by := s.By
	if p := j.Mk.M.Serving.Pin(s); p != nil && len(p.By) > 0 {
		by = p.By
	}
	set := d.Hands(by)
	if len(by) > 0 && len(set) == 0 {
		d.nobody(j, by)
		set = d.Hands(nil)
	}
	all := set // any of them may help
	if k := d.keeper(j.Mk); len(by) == 0 && !s.Meanwhile && len(k) > 0 {
		set = d.Hands(k)
	}
	attended := j.attended(d.Grid)
	var part []plan.Use // touches of less than a unit
	spans := slices.Clone(attended)
	if k := d.Set.Keep; k == nil || !k.Loose {
		for _, t := range j.Touches {
			if t.Put != timeline.NoPutting && d.Set.Handless || t.Put == timeline.NoPutting && j.LongLeft() {
				continue
			}
			w := unitSpan{int(t.From) / d.Grid, timeline.CeilDiv(int(t.To), d.Grid)}
			switch n := int(t.To - t.From); {
			case slices.ContainsFunc(attended, func(a unitSpan) bool { return a.from <= w.from && w.to <= a.to }):
			case w.to-w.from == 1 && n < d.Grid && t.Put != timeline.NoPutting:
				part = append(part, plan.Use{Of: set, Amount: max(1, n), From: w.from, To: w.to})
			default:
				spans = append(spans, w)
			}
		}
	}
	if len(spans)+len(part) == 0 {
		return nil, nil
	}
	if len(set) == 0 {
		d.nobody(j, nil)
		return nil, nil
	}
	for _, w := range merged(spans) {
		mine = append(mine, plan.Use{Of: set, Amount: d.Grid, From: w.from, To: w.to})
	}
	mine = append(mine, part...)
	if len(attended) == 0 {
		return mine, nil
	}
	wanted := s.Cooks
	if wanted > len(all) {
		d.tooFew(j, "cooks", wanted, len(all))
		wanted = len(all)
	}
	to := attended[0].to
	if w := j.WorkEnd; w > 0 {
		to = min(to, timeline.CeilDiv(w, d.Grid))
	}
	for range wanted - 1 {
		help = append(help, plan.Use{Of: all, Amount: d.Grid, From: attended[0].from, To: to})
	}
	return mine, help
}

// hereUses ask for someone in the kitchen when a step that nobody works on is
// begun, when food comes off the heat, and when it is put away for a pause.
func (d *Draft) hereUses(mk *Making, j *Job, units int) (uses []plan.Use) {
	if d.Kit.Here < 0 {
		return nil
	}
	if j.Parts[0].Kind == resolve.Leave && j.Load < 2 {
		uses = append(uses, plan.Use{Of: []int{d.Kit.Here}, Amount: 1, From: 0, To: 1})
	}
	last := j.Parts[len(j.Parts)-1]
	putAway := mk.pausedAfter(j.Step.Step) && last.Place != "fridge" && last.Place != "freezer"
	if (j.Hot || putAway) && units > 1 && last.Kind == resolve.Leave {
		uses = append(uses, plan.Use{Of: []int{d.Kit.Here}, Amount: 1, From: units - 1, To: units})
	}
	return uses
}

// pausedAfter tells whether a step is the last before a pause that is or may be
// taken.
func (mk *Making) pausedAfter(s *resolve.Step) bool {
	for _, p := range mk.Pauses {
		if p.State != Straight && p.Model.After == s.Index+1 {
			return true
		}
	}
	return false
}
