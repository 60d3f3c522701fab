package problem

import (
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// changeStep is what the time of an oven's change from one heat to another is
// rounded up to, in minutes.
const changeStep = 5

// theCook is who works in a kitchen that names nobody.
const theCook = "Cook"

// kitchen is what the problem's resources stand for. An index of -1 means that
// there is no limit.
type kitchen struct {
	waitHot, waitCold, waitPrepared int // minutes

	Cooks []cook
	Here  int // someone is in the kitchen: limits when things may be begun and taken out
	Ovens []Oven
	Rings int
	grill int
	// ringCount is 0 when there is no limit.
	RingCount int
	Tools     map[string]thing
	Vessels   map[string]thing
}

type cook struct {
	Name, Key string
	res       int
	away      bool // the menu gives hours, and none to this cook
}

type Oven struct {
	Name, key string
	Shelves   int
	Fan       bool
	Preheat   int // minutes
	Res       int
	State     *plan.State // how long it takes from one heat to another, in the engine's units
}

// thing is a tool or a vessel.
type thing struct {
	Name  string
	Res   int
	Count int
	holds *resolve.Vessel
}

// RoleKind says what a use of the engine's is for.
type RoleKind int

const (
	CookRole RoleKind = iota // whoever has the job
	HelpRole                 // one more pair of hands for its work
	HereRole
	OvenRole
	ringRole
	grillRole
	ToolRole
	vesselRole
)

// equip sets up the resources.
func (d *Draft) equip() {
	k := d.Meal.Kitchen
	d.Kit = kitchen{
		waitHot: timeline.Minutes(resolve.WaitHot), waitCold: timeline.Minutes(resolve.WaitCold), waitPrepared: timeline.Minutes(resolve.WaitPrepared),
		Here: -1, Rings: -1, grill: -1, Tools: map[string]thing{}, Vessels: map[string]thing{},
	}
	if k != nil && k.WaitHot > 0 {
		d.Kit.waitHot = timeline.Minutes(k.WaitHot)
	}
	if k != nil && k.WaitCold > 0 {
		d.Kit.waitCold = timeline.Minutes(k.WaitCold)
	}
	if k != nil && k.WaitPrepared > 0 {
		d.Kit.waitPrepared = timeline.Minutes(k.WaitPrepared)
	}
	d.staff(k)
	if d.Clock {
		d.Kit.Here = d.P.AddResource(plan.Resource{Name: "someone there", Capacity: 1000})
	}
	if k == nil {
		return
	}
	for _, o := range k.Ovens {
		d.addOven(o.Name, o)
	}
	for range d.Set.Ovens {
		if len(k.Ovens) > 0 {
			o := k.Ovens[0]
			d.addOven("second "+o.Name, o)
		}
	}
	if k.Rings > 0 {
		d.Kit.RingCount = k.Rings + d.Set.Rings
		d.Kit.Rings = d.P.AddResource(plan.Resource{Name: "rings", Capacity: d.Kit.RingCount})
	}
	d.Kit.grill = d.P.AddResource(plan.Resource{Name: "grill", Capacity: 1})
	spare := map[string]int{}
	for _, name := range d.Set.Spare {
		spare[name]++
	}
	for _, t := range k.Tools {
		d.addThing(d.Kit.Tools, t.Key, t.Name, 1+spare[t.Name], nil)
		delete(spare, t.Name) // a second of it has a line of its own
	}
	for i, v := range k.Vessels {
		d.addThing(d.Kit.Vessels, v.Key, v.Name, max(1, v.Count)+spare[v.Name], &k.Vessels[i])
	}
}

// staff sets up the cooks: those the kitchen names, else those the menu's
// hours name, else one.
func (d *Draft) staff(k *resolve.Kitchen) {
	var names []string
	if k != nil {
		names = k.Cooks
	}
	if menu := d.Meal.Menu; len(names) == 0 && menu != nil {
		for _, h := range menu.Hours {
			for _, n := range h.Named {
				if !slices.ContainsFunc(names, func(c string) bool { return larder.Fold(c) == larder.Fold(n.Text) }) {
					names = append(names, n.Text)
				}
			}
		}
	}
	if len(names) == 0 {
		names = []string{theCook}
	}
	for range d.Set.Cooks {
		names = append(slices.Clone(names), "one more cook")
	}
	for i, n := range names {
		c := cook{Name: n, Key: larder.Fold(n), res: -1}
		if d.Clock && i < len(names)-d.Set.Cooks {
			menu := d.Meal.Menu
			c.away = len(menu.Hours) > 0 && !slices.ContainsFunc(menu.Hours, func(h resolve.Hours) bool {
				return len(h.Cooks) == 0 || slices.Contains(h.Cooks, c.Key)
			})
		}
		if !c.away {
			c.res = d.P.AddResource(plan.Resource{Name: n, Capacity: d.Grid, Hands: true})
		}
		d.Kit.Cooks = append(d.Kit.Cooks, c)
	}
}

func (d *Draft) addOven(name string, o resolve.Oven) {
	shelves, preheat := max(1, o.Shelves)+d.Set.Shelves, timeline.Minutes(o.Preheat)
	// A change takes whole steps of at least five minutes, on the grid.
	step := timeline.CeilDiv(changeStep, d.Grid) * d.Grid
	up, down := o.Paces()
	state := &plan.State{
		First: timeline.CeilDiv(preheat, d.Grid), Step: step / d.Grid,
		Up: degreesIn(step, up), Down: degreesIn(step, down),
	}
	res := d.P.AddResource(plan.Resource{Name: name, Capacity: shelves, State: state})
	d.Kit.Ovens = append(d.Kit.Ovens, Oven{Name: name, key: o.Key, Shelves: shelves, Fan: o.Fan, Preheat: preheat, Res: res, State: state})
}

// degreesIn is how far an oven gets in so many minutes, in whole degrees, one
// at least.
func degreesIn(n int, p resolve.Pace) int {
	return max(1, min(timeline.MaxMinutes, p.Degrees*n/max(1, timeline.Minutes(p.Time))))
}

// longestChange is the longest any oven takes between two heats of the meal, in
// minutes.
func (d *Draft) longestChange() (n int) {
	var all *plan.Range
	for _, j := range d.Jobs {
		if j.Step == nil {
			continue
		}
		for _, h := range j.Step.Step.Heats {
			if all == nil {
				all = &plan.Range{Lo: h.Low, Hi: h.High}
			}
			all.Lo, all.Hi = min(all.Lo, h.Low, h.High), max(all.Hi, h.Low, h.High)
		}
	}
	for _, o := range d.Kit.Ovens {
		if all != nil {
			n = max(n, d.changes(o, *all, *all))
		}
	}
	return n
}

// changes is how long an oven takes from any heat of one range to any of
// another, at most, in minutes on the grid.
func (d *Draft) changes(o Oven, from, to plan.Range) (n int) {
	for _, a := range []int{from.Lo, from.Hi} {
		for _, b := range []int{to.Lo, to.Hi} {
			n = max(n, o.State.Gap(a, b))
		}
	}
	return n * d.Grid
}

func (d *Draft) addThing(to map[string]thing, key, name string, count int, v *resolve.Vessel) {
	t, ok := to[key]
	if !ok {
		t = thing{Name: name, Res: d.P.AddResource(plan.Resource{Name: name}), holds: v}
	}
	t.Count += count
	d.P.Resources[t.Res].Capacity = t.Count
	to[key] = t
}

// Hands are the resources of the cooks who may do a job; by names them, empty:
// anyone who is there.
func (d *Draft) Hands(by []string) (set []int) {
	for _, c := range d.Kit.Cooks {
		if c.res >= 0 && (len(by) == 0 || slices.Contains(by, c.Key)) {
			set = append(set, c.res)
		}
	}
	return set
}

// CookKeys are those who are there, by key.
func (d *Draft) CookKeys() (keys []string) {
	for _, c := range d.Kit.Cooks {
		if c.res >= 0 {
			keys = append(keys, c.Key)
		}
	}
	return keys
}

// CookOf finds a cook by resource.
func (k *kitchen) CookOf(res int) (cook, bool) {
	for _, c := range k.Cooks {
		if c.res == res {
			return c, true
		}
	}
	return cook{}, false
}

func (k *kitchen) OvenOf(res int) (Oven, bool) {
	for _, o := range k.Ovens {
		if o.Res == res {
			return o, true
		}
	}
	return Oven{}, false
}
