// Package filming is the day on which parts of a series are shown: what is done before the
// camera, step by step, and which copies stand ready for it, by when.
//
// Read this file first: it is all there is. Minutes count from when the camera starts. How long a step
// is before the camera comes from the plan of its dish by itself; when a copy is begun, from
// the plan of all copies of the day, which is made like that of any meal (Meal, Plan).
package filming

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/resolve"
)

// cut is the wait after which nobody goes on filming: common practice, no source.
const cut = events.Minutes(10)

// stands is how long a copy may stand before it is shown, so that one pair of hands can make
// several one after the other. Common practice, no source.
const stands = 2 * time.Hour

// Day is a day of filming.
type Day struct {
	Of     *demand.Day
	Scenes []*Scene
	Copies []*Copy
	Length events.Minutes // from the first scene to the end of the last
	Plan   *events.List   // of the copies; nil: there are none, or no plan was found
}

// Scene is a step before the camera.
type Scene struct {
	Part   *demand.Part
	Dish   *demand.Making
	Step   *resolve.StepReading
	Number int // as it is printed
	At     events.Minutes
	Length events.Minutes // how long hands are at it, and a wait too short to be cut
	Waits  events.Minutes // how long it then stands by itself, off camera; 0: no time
	In     *Copy          // the copy that it goes on with; nil: with what the scene before left
	Out    *Copy          // the copy that takes its place when it is over; nil: none
	Past   *Copy          // a copy that is brought before it and has it done; nil: it is shown
}

// Copy is one copy that stands ready.
type Copy struct {
	Part   *demand.Part
	Making *demand.Making // by itself, see demand.Part.Copies
	Of     int            // how many of this kind there are
	Spare  bool           // another of its kind is used
	Scene  *Scene         // after which it is brought; nil: its dish is not shown
	Ready  events.Minutes // by when it must stand there
	Begin  events.Minutes // when work on it begins
	Stands events.Minutes // when it stands there by the plan: later than Ready where there are too few hands
	Known  bool           // Begin is known
}

// Name tells a copy from the others: "copy 1 of Spinach pies, finished".
func (c *Copy) Name() string {
	return fmt.Sprintf("copy %d of %s, %s", c.Making.Copy, c.Making.Recipe.Name, c.State())
}

// State is how far a copy is made.
func (c *Copy) State() string {
	if m := c.Making.StandIn.Moment; m != nil {
		return m.Name
	}
	return "finished"
}

// Of works out the day. alone is the plan of each dish by itself; a step of which it
// knows nothing takes no time.
func Of(day *demand.Day, alone map[*demand.Making]*events.List) *Day {
	d := &Day{Of: day}
	for _, p := range day.Parts {
		for _, m := range inTime(p.Shown) {
			d.show(p, m, alone[m])
		}
	}
	kinds := map[*resolve.StandIn]bool{}
	for _, p := range day.Parts {
		for _, one := range p.Copies() {
			c := &Copy{Part: p, Making: one, Of: one.StandIn.Count, Spare: kinds[one.StandIn]}
			kinds[one.StandIn] = true
			if s := d.swap(p, one); s != nil {
				c.Scene, c.Ready = s, s.At+s.Length
				if s.Out == nil && !c.Spare {
					s.Out = c
					d.goOn(s, c)
				}
			}
			d.Copies = append(d.Copies, c)
		}
	}
	return d
}

// inTime is what a part shows in the order written, but with what one dish draws on before it:
// nobody spoons on before the camera what is only then blended.
func inTime(shown []*demand.Making) (out []*demand.Making) {
	for _, m := range shown {
		for _, one := range append(demand.DrawnOn(m), m) {
			if slices.Contains(shown, one) && !slices.Contains(out, one) {
				out = append(out, one)
			}
		}
	}
	return out
}

// show adds the steps of a dish.
func (d *Day) show(p *demand.Part, m *demand.Making, plan *events.List) {
	number := 0
	for _, sr := range m.Reading.Steps {
		if plan.Skips(m, sr.Step) {
			continue
		}
		number++
		s := &Scene{Part: p, Dish: m, Step: sr, Number: number, At: d.Length}
		for _, e := range plan.Jobs(m, sr.Step) {
			s.Length += e.Hands()
			s.Waits += e.Alone()
		}
		if s.Waits < cut {
			s.Length, s.Waits = s.Length+s.Waits, 0
		}
		d.Length += s.Length
		d.Scenes = append(d.Scenes, s)
	}
}

// goOn has a dish go on with a copy: what is only waiting then is not shown.
func (d *Day) goOn(s *Scene, c *Copy) {
	m := c.Making.StandIn.Moment
	for next := d.after(s); next != nil; next = d.after(next) {
		if m == nil && next.Length > 0 || m != nil && next.Step.Step.Index > m.Step.Index {
			next.In = c
			return
		}
		next.Past = c
	}
}

// swap is the scene after which a copy is brought: the step that makes its moment; of a
// finished one the last with hands after which one would have to wait, else the last of all.
func (d *Day) swap(p *demand.Part, one *demand.Making) (out *Scene) {
	waited := false
	for _, s := range d.Scenes {
		if s.Part != p || s.Dish.Recipe != one.Recipe {
			continue
		}
		if m := one.StandIn.Moment; m != nil {
			if s.Step.Step == m.Step {
				for out = s; out.Length == 0; {
					last := d.before(out)
					if last == nil || last.Waits == 0 {
						break
					}
					out = last // it has waited already: nobody sees it wait on
				}
				return out
			}
			continue
		}
		switch {
		case s.Waits > 0 && s.Length == 0 && waited && d.after(out) == s: // the wait goes on
		case s.Waits > 0 || !waited:
			out, waited = s, waited || s.Waits > 0
		}
	}
	return out
}

// before is the scene of the same dish that comes before one.
func (d *Day) before(s *Scene) *Scene {
	i := slices.Index(d.Scenes, s) - 1
	if i >= 0 && d.Scenes[i].Dish == s.Dish {
		return d.Scenes[i]
	}
	return nil
}

// after is the scene of the same dish that follows one.
func (d *Day) after(s *Scene) *Scene {
	i := slices.Index(d.Scenes, s) + 1
	if i < len(d.Scenes) && d.Scenes[i].Dish == s.Dish {
		return d.Scenes[i]
	}
	return nil
}

// Meal is the copies of the day as a meal: each is served at the minute at which it must
// stand ready, by whoever is not before the camera. Where that is nobody, all are ready when
// it starts. Nil: there are no copies.
func (d *Day) Meal(s *demand.Series) *demand.Meal {
	if len(d.Copies) == 0 {
		return nil
	}
	meal := &demand.Meal{Title: "the copies", Menu: &resolve.Menu{Name: "the copies"}}
	kitchen := resolve.Kitchen{WaitCold: resolve.WaitCold}
	if s.Meal != nil && s.Meal.Kitchen != nil {
		kitchen = *s.Meal.Kitchen
	}
	all := kitchen.Cooks
	kitchen.Service, kitchen.WashUps = nil, nil
	kitchen.Vessels = slices.Clone(kitchen.Vessels)
	for i := range kitchen.Vessels { // each copy has its own: they are on the list of what must be there
		kitchen.Vessels[i].Count += len(d.Copies)
	}
	kitchen.WaitHot, kitchen.WaitPrepared = max(kitchen.WaitHot, stands), max(kitchen.WaitPrepared, stands)
	if kitchen.Cooks = behind(all, d.Of, s.Of); len(kitchen.Cooks) == 0 {
		kitchen.Cooks = all
		d.allReady()
	}
	meal.Kitchen, meal.Menu.Kitchen = &kitchen, &kitchen
	for _, c := range d.Copies {
		course := &resolve.Course{Name: c.Name(), At: int(c.Ready)}
		serving := &resolve.Serving{Course: course, Recipe: c.Making.Recipe, Name: c.Making.Recipe.Name, Straight: true}
		course.Servings = []*resolve.Serving{serving}
		meal.Menu.Courses = append(meal.Menu.Courses, course)
		c.Making.Serving = serving
		for _, b := range demand.DrawnOn(c.Making) {
			if !slices.Contains(meal.Makings, b) {
				meal.Makings = append(meal.Makings, b)
			}
		}
	}
	for _, c := range d.Copies {
		meal.Makings = append(meal.Makings, c.Making)
	}
	return meal
}

func (d *Day) allReady() {
	for _, c := range d.Copies {
		c.Ready = 0
	}
}

// behind are the cooks who are not before the camera on a day: all but those whom the parts
// of that day are by, or the series where a part does not say; where that is no cook, all but
// the first.
func behind(cooks []string, day *demand.Day, of *resolve.Series) (out []string) {
	before := map[string]bool{}
	for _, p := range day.Parts {
		by := presenters(p.Of.Credits)
		if len(by) == 0 {
			by = presenters(of.Credits)
		}
		for _, name := range by {
			before[name] = true
		}
	}
	for _, c := range cooks {
		if !before[c] {
			out = append(out, c)
		}
	}
	if len(out) == len(cooks) && len(cooks) > 0 {
		return cooks[1:]
	}
	return out
}

// presenters are the names of a `by`, whole and word by word: "Orla, Finn" is Orla and Finn.
func presenters(credits []resolve.Credit) (out []string) {
	for _, c := range credits {
		if c.Kind == resolve.By {
			out = append(append(out, c.Text.Text), strings.FieldsFunc(c.Text.Text, func(r rune) bool { return r == ' ' || r == ',' || r == '&' })...)
		}
	}
	return out
}

// Planned takes in the plan of the copies: when each is begun. Without one, each is begun as
// long before it is wanted as it takes by itself, where that is known.
func (d *Day) Planned(plan *events.List, alone map[*demand.Making]*events.List) {
	d.Plan = plan
	for _, c := range d.Copies {
		c.Stands = c.Ready
		if plan != nil {
			for _, m := range append(demand.DrawnOn(c.Making), c.Making) { // a copy begins with what is made for it
				for _, e := range plan.JobsOf(m) {
					if at := events.Minutes(e.At); !c.Known || at < c.Begin {
						c.Begin, c.Known = at, true
					}
				}
			}
			for _, e := range plan.Each(events.Serve) {
				if e.Dish == c.Making {
					c.Stands = events.Minutes(e.At)
				}
			}
			continue
		}
		for m, list := range alone {
			if m.Recipe != c.Making.Recipe {
				continue
			}
			jobs := list.JobsOf(m)
			if moment := c.Making.StandIn.Moment; moment != nil { // it is made no further
				jobs = slices.DeleteFunc(slices.Clone(jobs), func(e *events.Event) bool { return e.Step != nil && e.Step.Step.Index > moment.Step.Index })
			}
			if len(jobs) > 0 {
				from := jobs[0].Start
				for _, b := range demand.DrawnOn(m) {
					for _, e := range list.JobsOf(b) {
						from = min(from, e.Start)
					}
				}
				c.Begin, c.Known = c.Ready-jobs[len(jobs)-1].End.Since(from), true
			}
		}
	}
}
