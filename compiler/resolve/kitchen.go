package resolve

import (
	"time"
	_ "time/tzdata" // zones are known on every machine

	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// How long food may wait when neither the writer nor the kitchen says:
// common practice, no source.
const (
	WaitHot      = 10 * time.Minute
	WaitCold     = time.Hour
	WaitPrepared = 4 * time.Hour
)

// DefaultPreheat is how long an oven takes to come to heat when the kitchen
// does not say: common practice, no source.
const DefaultPreheat = 15 * time.Minute

// How far an oven gets in the time of its preheat when the kitchen does not
// say: up by 180 °C, for a preheat takes it from a room's 20 °C to some 200;
// down by a third of that, for it is built to keep its heat. With a preheat of
// 15 min that is 60 °C up and 20 °C down in 5 min. Common practice, no source.
const (
	preheatUp   = 180
	preheatDown = 60
)

// Paces are how fast an oven goes up and down from one heat to another: as the
// kitchen says, else by the time of its preheat.
func (o *Oven) Paces() (up, down Pace) {
	up, down = o.Heats, o.Cools
	if up.Degrees == 0 {
		up = Pace{preheatUp, max(o.Preheat, time.Minute)}
	}
	if down.Degrees == 0 {
		down = Pace{preheatDown, max(o.Preheat, time.Minute)}
	}
	return up, down
}

// paceOf is a pace as written, in degrees Celsius. Degrees of difference know no
// zero: 9 °F are 5 °C.
func paceOf(x *ast.Pace) Pace {
	if x == nil {
		return Pace{}
	}
	by := x.By.Low
	if x.By.Scale == quantity.Fahrenheit {
		by = max(1, (by*5+4)/9)
	}
	return Pace{by, x.Time.High}
}

func (b *builder) addKitchen(scope *Scope, x *ast.Kitchen) {
	key := b.fold(x.Title.Text)
	if first, ok := scope.Kitchens[key]; ok {
		b.twice("kitchen", x.Title.Span, x.Title.Text, first.NameAt)
		return
	}
	k := &Kitchen{Span: x.Span, Name: x.Title.Text, NameAt: x.Title.Span, WaitHot: WaitHot, WaitCold: WaitCold, WaitPrepared: WaitPrepared}
	scope.Kitchens[key] = k
	named := map[string]source.Span{}
	for _, item := range x.Items {
		b.washUp(x, k, item)
		switch it := item.(type) {
		case *ast.Oven:
			o := Oven{Name: it.Title.Text, Key: b.fold(it.Title.Text), Shelves: max(1, it.Shelves), Fan: it.Fan, Gas: it.Gas, Preheat: DefaultPreheat}
			if it.Preheat != nil {
				o.Preheat = it.Preheat.High
			}
			o.Heats, o.Cools = paceOf(it.Heats), paceOf(it.Cools)
			b.takenName(named, "oven", it.Title)
			k.Ovens = append(k.Ovens, o)
		case *ast.Service:
			k.Service = append(k.Service, serviceOf(it))
		case *ast.Zone:
			at, err := time.LoadLocation(it.Text.Text)
			if err != nil || it.Text.Text == "" || it.Text.Text == "Local" {
				b.diags.Askf("M121", it.Text.Span, "no time zone is called %q", it.Text.Text).
					Because("the plan cannot know the nights on which the clocks change").
					WithHelp("name it as the tz database does: `zone Europe/London`, `zone America/New_York`")
				continue
			}
			if k.Zone == nil {
				k.Zone = at
			}
		case *ast.Rings:
			k.Rings = it.Count
			if it.Count == 0 {
				b.diags.Errorf("M122", it.Span, "a kitchen with no rings").
					Because("where no rings are written nobody knows how many there are, and the plan takes what it needs").
					WithHelp("write how many there are, or take the line out")
			}
		case *ast.Names:
			for _, n := range it.Names {
				if it.Key == "cooks" {
					if b.takenName(named, "cook", n) {
						continue // one pair of hands
					}
					k.Cooks = append(k.Cooks, n.Text)
				} else {
					t := Tool{Name: n.Text, Key: b.fold(n.Text)}
					if it.Washed != nil {
						t.Washed = longest(it.Washed)
					}
					k.Tools = append(k.Tools, t)
				}
			}
		case *ast.Vessel:
			b.takenName(named, "vessel", it.Title)
			v := Vessel{Name: it.Title.Text, Key: b.fold(it.Title.Text), Count: max(1, it.Count), Written: it.Holds}
			if len(it.Holds.Terms) > 0 {
				v.Holds = b.measure(&Recipe{Scope: scope, System: scope.Units()}, it.Holds, it.Span)
			}
			k.Vessels = append(k.Vessels, v)
		case *ast.Waits:
			switch it.State {
			case "hot":
				k.WaitHot = longest(&it.Time)
			case "cold":
				k.WaitCold = longest(&it.Time)
			case "prepared":
				k.WaitPrepared = longest(&it.Time)
			}
		case *ast.Common:
			if it.Key == "rules" {
				k.Practice = it.Text.Text
			}
		}
	}
}

// takenName refuses a second thing of one name in a kitchen.
func (b *builder) takenName(named map[string]source.Span, what string, n ast.Name) bool {
	key := what + "\x00" + b.fold(n.Text)
	first, twice := named[key]
	if !twice {
		named[key] = n.Span
		return false
	}
	d := b.diags.Errorf("M120", n.Span, "two %s are called %q", larder.Plural(what), n.Text).
		Because("a plan tells them apart by their names alone").
		See(first, "the first is here").
		WithHelp("give one of the two another name, or take it out")
	if what == "vessel" {
		d.WithHelp("where there are two of a kind, say how many: `vessel %s, 2`", n.Text)
	}
	return true
}

func (b *builder) findKitchen(s *Scope, name ast.Name) *Kitchen {
	key := b.fold(name.Text)
	for ; s != nil; s = s.Parent {
		if k, ok := s.Kitchens[key]; ok {
			return k
		}
	}
	return nil
}
