package practice

import (
	"fmt"
	"slices"
	"time"

	"tamis/lang/quantity"
)

// Choice is the practice that a text names. Practice is nil when it names none,
// or one that is not known.
type Choice struct {
	Written  string // as the text has it; empty: nobody said
	Practice *Practice
}

// Choose reads a practice as a text names it.
func Choose(written string) Choice {
	p, _ := Find(written)
	return Choice{Written: written, Practice: p}
}

// Basis says why a figure rules.
type Basis int

// The bases.
const (
	Named     Basis = iota // the practice chosen has it
	NoneNamed              // no practice was named: the strictest of all
	NoneSeen               // the practice chosen has none that was seen: the strictest of the others
)

// Ruling is what rules in one case. Each set holds the alternatives of one
// practice, of which one must be met; all sets must be.
type Ruling struct {
	Basis  Basis
	Choice Choice
	Sets   [][]*Limit
}

// Rule finds what rules for a topic. The foods are tried in order, each through
// the practice chosen and those it falls back on. Where no practice is chosen,
// or it has no figure, each of the others adds its first of these foods.
func (c Choice) Rule(topic string, foods ...string) Ruling {
	r := Ruling{Choice: c}
	if c.Practice != nil {
		for _, food := range foods {
			for _, name := range append([]string{c.Practice.Name}, c.Practice.Then...) {
				if set := rows(name, topic, food); len(set) > 0 {
					r.Sets = append(r.Sets, set)
					return r
				}
				if name == c.Practice.Name && silent(name, topic, food) {
					return r
				}
			}
		}
	}
	r.Basis = NoneNamed
	if c.Practice != nil {
		r.Basis = NoneSeen
	}
	for _, p := range builtin().practices {
		for _, food := range foods {
			if set := rows(p.Name, topic, food); len(set) > 0 {
				r.Sets = append(r.Sets, set)
				break
			}
		}
	}
	return r
}

// rows are the figures that are used for a food: nothing is to be changed in them, and what
// is added goes elsewhere.
func rows(practice, topic, food string) []*Limit {
	return slices.Clip(builtin().used[whose{practice, topic, food}])
}

// silent tells whether a practice says that it sets no figure: a row for the
// food that is only a note.
func silent(practice, topic, food string) bool {
	return slices.ContainsFunc(builtin().about[topic], func(l *Limit) bool {
		return !l.Use && l.Practice == practice && slices.Contains(l.Foods, food)
	})
}

// Short finds what a core temperature falls short of: the figure to print of
// the first set that is not met, nil when all are.
func (r Ruling) Short(t quantity.Temperature, held time.Duration) *Limit {
	var worst *Limit
	for _, set := range r.Sets {
		l := printed(set)
		met := func(l *Limit) bool { return l.Meets(t, held) }
		if slices.ContainsFunc(set, met) || atOnce(l, t) {
			continue
		}
		if worst == nil || hotter(l, worst) {
			worst = l
		}
	}
	return worst
}

// atOnce tells whether a temperature is so far above a limit that asks for a
// time that the same practice asks for none: 70 C where 63 C takes 3 minutes.
func atOnce(l *Limit, t quantity.Temperature) bool {
	p, ok := Find(l.Practice)
	if !ok || l.Topic != "cook" {
		return false
	}
	for _, o := range builtin().limits {
		if o.Use && o.Topic == "cook" && o.C.Set && o.Time == 0 && o.C.From > l.C.From &&
			(o.Practice == p.Name || slices.Contains(p.Then, o.Practice)) && o.Meets(t, 0) {
			return true
		}
	}
	return false
}

// hotter tells which of two figures for the middle asks for more.
func hotter(a, b *Limit) bool { return a.C.From > b.C.From }

// Hottest is the figure to print that asks for the highest temperature.
func (r Ruling) Hottest() (best *Limit) {
	for _, set := range r.Sets {
		if l := printed(set); best == nil || hotter(l, best) {
			best = l
		}
	}
	return best
}

// Coldest is the figure to print that allows the least warmth: the strictest of
// those for keeping cold.
func (r Ruling) Coldest() (best *Limit) {
	for _, set := range r.Sets {
		if l := printed(set); best == nil || l.C.To < best.C.To {
			best = l
		}
	}
	return best
}

// Shortest is the limit of the least time: the strictest "at most".
func (r Ruling) Shortest() (best *Limit) {
	for _, set := range r.Sets {
		if l := printed(set); best == nil || l.Time < best.Time {
			best = l
		}
	}
	return best
}

// Longest is the limit of the most time: the strictest "at least".
func (r Ruling) Longest() (best *Limit) {
	for _, set := range r.Sets {
		if l := printed(set); best == nil || l.Time > best.Time {
			best = l
		}
	}
	return best
}

// printed is the row of a set that is printed.
func printed(set []*Limit) *Limit {
	for _, l := range set {
		if l.Print {
			return l
		}
	}
	return set[0]
}

// Whose says by whose rules a figure is: "rules UK", or that nobody named
// one and the strictest rules.
func (r Ruling) Whose(l *Limit) string {
	switch r.Basis {
	case NoneNamed:
		if r.Choice.Written != "" {
			return fmt.Sprintf("nothing is known of the rules %s, so the strictest figure seen holds, that of %s", r.Choice.Written, l.Practice)
		}
		return fmt.Sprintf("no `rules` are named, so the strictest figure seen holds, that of %s", l.Practice)
	case NoneSeen:
		return fmt.Sprintf("no figure of %s has been seen; this is the strictest of the others, that of %s", r.Choice.Practice.Name, l.Practice)
	}
	if l.Practice != r.Choice.Practice.Name {
		return fmt.Sprintf("rules %s, which take the figure of %s", r.Choice.Practice.Name, l.Practice)
	}
	return "rules " + l.Practice
}
