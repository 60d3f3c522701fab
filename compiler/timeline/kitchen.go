package timeline

import (
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
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

	cooks []cook
	here  int // someone is in the kitchen: limits when things may be begun and taken out
	ovens []oven
	rings int
	grill int
	// ringCount is 0 when there is no limit.
	ringCount int
	tools     map[string]thing
	vessels   map[string]thing
}

type cook struct {
	name, key string
	res       int
	away      bool // the menu gives hours, and none to this cook
}

type oven struct {
	name, key string
	shelves   int
	fan       bool
	preheat   int // minutes
	res       int
	state     *plan.State // how long it takes from one heat to another, in the engine's units
}

// thing is a tool or a vessel.
type thing struct {
	name  string
	res   int
	count int
	holds *resolve.Vessel
}

// roleKind says what a use of the engine's is for.
type roleKind int

const (
	cookRole roleKind = iota // whoever has the job
	helpRole                 // one more pair of hands for its work
	hereRole
	ovenRole
	ringRole
	grillRole
	toolRole
	vesselRole
)

// equip sets up the resources.
func (d *draft) equip() {
	k := d.meal.Kitchen
	d.kit = kitchen{
		waitHot: minutes(resolve.WaitHot), waitCold: minutes(resolve.WaitCold), waitPrepared: minutes(resolve.WaitPrepared),
		here: -1, rings: -1, grill: -1, tools: map[string]thing{}, vessels: map[string]thing{},
	}
	if k != nil && k.WaitHot > 0 {
		d.kit.waitHot = minutes(k.WaitHot)
	}
	if k != nil && k.WaitCold > 0 {
		d.kit.waitCold = minutes(k.WaitCold)
	}
	if k != nil && k.WaitPrepared > 0 {
		d.kit.waitPrepared = minutes(k.WaitPrepared)
	}
	d.staff(k)
	if d.clock {
		d.kit.here = d.p.AddResource(plan.Resource{Name: "someone there", Capacity: 1000})
	}
	if k == nil {
		return
	}
	for _, o := range k.Ovens {
		d.addOven(o.Name, o)
	}
	for range d.set.ovens {
		if len(k.Ovens) > 0 {
			o := k.Ovens[0]
			d.addOven("second "+o.Name, o)
		}
	}
	if k.Rings > 0 {
		d.kit.ringCount = k.Rings + d.set.rings
		d.kit.rings = d.p.AddResource(plan.Resource{Name: "rings", Capacity: d.kit.ringCount})
	}
	d.kit.grill = d.p.AddResource(plan.Resource{Name: "grill", Capacity: 1})
	if d.set.spare {
		return
	}
	for _, t := range k.Tools {
		d.addThing(d.kit.tools, t.Key, t.Name, 1, nil)
	}
	for i, v := range k.Vessels {
		d.addThing(d.kit.vessels, v.Key, v.Name, max(1, v.Count), &k.Vessels[i])
	}
}

// staff sets up the cooks: those the kitchen names, else those the menu's
// hours name, else one.
func (d *draft) staff(k *resolve.Kitchen) {
	var names []string
	if k != nil {
		names = k.Cooks
	}
	if menu := d.meal.Menu; len(names) == 0 && menu != nil {
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
	for range d.set.cooks {
		names = append(slices.Clone(names), "one more cook")
	}
	for i, n := range names {
		c := cook{name: n, key: larder.Fold(n), res: -1}
		if d.clock && i < len(names)-d.set.cooks {
			menu := d.meal.Menu
			c.away = len(menu.Hours) > 0 && !slices.ContainsFunc(menu.Hours, func(h resolve.Hours) bool {
				return len(h.Cooks) == 0 || slices.Contains(h.Cooks, c.key)
			})
		}
		if !c.away {
			c.res = d.p.AddResource(plan.Resource{Name: n, Capacity: 1, Hands: true})
		}
		d.kit.cooks = append(d.kit.cooks, c)
	}
}

func (d *draft) addOven(name string, o resolve.Oven) {
	shelves, preheat := max(1, o.Shelves)+d.set.shelves, minutes(o.Preheat)
	// A change takes whole steps of at least five minutes, on the grid.
	step := ceilDiv(changeStep, d.grid) * d.grid
	up, down := o.Paces()
	state := &plan.State{
		First: ceilDiv(preheat, d.grid), Step: step / d.grid,
		Up: degreesIn(step, up), Down: degreesIn(step, down),
	}
	res := d.p.AddResource(plan.Resource{Name: name, Capacity: shelves, State: state})
	d.kit.ovens = append(d.kit.ovens, oven{name: name, key: o.Key, shelves: shelves, fan: o.Fan, preheat: preheat, res: res, state: state})
}

// degreesIn is how far an oven gets in so many minutes, in whole degrees, one
// at least.
func degreesIn(n int, p resolve.Pace) int {
	return max(1, min(maxMinutes, p.Degrees*n/max(1, minutes(p.Time))))
}

// longestChange is the longest any oven takes between two heats of the meal, in
// minutes.
func (d *draft) longestChange() (n int) {
	var all *plan.Range
	for _, j := range d.jobs {
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
	for _, o := range d.kit.ovens {
		if all != nil {
			n = max(n, d.changes(o, *all, *all))
		}
	}
	return n
}

// changes is how long an oven takes from any heat of one range to any of
// another, at most, in minutes on the grid.
func (d *draft) changes(o oven, from, to plan.Range) (n int) {
	for _, a := range []int{from.Lo, from.Hi} {
		for _, b := range []int{to.Lo, to.Hi} {
			n = max(n, o.state.Gap(a, b))
		}
	}
	return n * d.grid
}

func (d *draft) addThing(to map[string]thing, key, name string, count int, v *resolve.Vessel) {
	t, ok := to[key]
	if !ok {
		t = thing{name: name, res: d.p.AddResource(plan.Resource{Name: name}), holds: v}
	}
	t.count += count
	d.p.Resources[t.res].Capacity = t.count
	to[key] = t
}

// hands are the resources of the cooks who may do a job; by names them, empty:
// anyone who is there.
func (d *draft) hands(by []string) (set []int) {
	for _, c := range d.kit.cooks {
		if c.res >= 0 && (len(by) == 0 || slices.Contains(by, c.key)) {
			set = append(set, c.res)
		}
	}
	return set
}

// cookOf finds a cook by resource.
func (k *kitchen) cookOf(res int) (cook, bool) {
	for _, c := range k.cooks {
		if c.res == res {
			return c, true
		}
	}
	return cook{}, false
}

func (k *kitchen) ovenOf(res int) (oven, bool) {
	for _, o := range k.ovens {
		if o.res == res {
			return o, true
		}
	}
	return oven{}, false
}
