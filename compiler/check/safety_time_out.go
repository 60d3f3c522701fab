package check

import (
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
)

var timeOut = &Rule{
	Code: "S114", Title: "Too long between cold and hot in the plan.", Family: Safety, Severity: diag.Warning, After: Planned,
	What:    "The minutes of the plan in which a dish with meat, fish, eggs, dairy or rice stands neither cold nor hot add up to more than the rules allow: resting, waiting, being worked on, held warm. Cooking and cooling are not counted: they have limits of their own.",
	Why:     "Germs do not start again from nothing at every spell in the warm: the minutes add up.",
	Fix:     "Hold it hot with degrees, put it in the fridge between the steps, or start the late steps later.",
	Sources: []string{"Food Hygiene (Wales) Regulations 2006 Sch. 4 para 7(2)", "Food Hygiene Regulations (Northern Ireland) 2006 Sch. 4 para 5", "FSANZ 2-hour/4-hour rule", "FDA Food Code 2022, 3-501.19(B), as states adopt it", "USDA National Agricultural Library, leftover food answer"},
	Bad: `menu Lunch
  covers 4
  on the table 2027-05-02 13:00
  at Mill

  course Main
    Pulled chicken

kitchen Mill
  rules UK
  cooks Ana

dish Pulled chicken
  serves 4
  gather
    600 g    chicken thighs
  method
    - Poach the chicken thighs, covered.
      | ring low | work 5 min | leave 25 min | core 75 C
    - Pull it apart.
      | work 10 min
    - Leave under a cloth.
      | rest 2 h 30 min
  serve hot
`,
	At: "23:9",
	Good: `menu Lunch
  covers 4
  on the table 2027-05-02 13:00
  at Mill

  course Main
    Pulled chicken

kitchen Mill
  rules UK
  cooks Ana

dish Pulled chicken
  serves 4
  gather
    600 g    chicken thighs
  method
    - Poach the chicken thighs, covered.
      | ring low | work 5 min | leave 25 min | core 75 C
    - Pull it apart.
      | work 10 min
    - Leave under a cloth.
      | rest 30 min
  serve hot
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			if d.line == nil || d.End.Dough || d.End.Baked() {
				continue
			}
			jobs := map[*hazard.Stage]*timeline.Job{}
			for _, j := range d.line.Jobs {
				if j.Making != d.making || j.Step == nil {
					continue
				}
				for _, st := range d.Stages {
					if st.Step.Same(j.Step.Step) {
						jobs[st] = j
					}
				}
			}
			d.addUp(p, jobs, seen)
		}
	},
}

// addUp adds the minutes in which food is neither cold nor hot, before and after
// it is cooked, and reports the longer of the two where it is too long.
func (d *plate) addUp(p *Pass, jobs map[*hazard.Stage]*timeline.Job, seen once) {
	var raw, cooked exposure
	for i, st := range d.Stages {
		j := jobs[st]
		if j == nil || !st.After.Strong() {
			continue
		}
		n := between(st, j, d.putAway(i))
		if st.After.Cooked {
			cooked.add(st, n)
		} else {
			raw.add(st, n)
		}
	}
	food := "hot"
	if s := d.recipe.ServeHow; s != nil && s.State != "hot" {
		food = "cold"
	}
	for _, e := range []struct {
		exposure
		food string
	}{{cooked, food}, {raw, "cold"}} {
		r := d.choice.Rule("time as control", e.food, "cold")
		l := r.Shortest()
		took := time.Duration(e.minutes) * time.Minute
		if e.worst == nil || !over(took, l) || seen.again(outAt(e.worst)) {
			continue
		}
		p.cite(p.ReportAs(softer(diag.Warning, r), outAt(e.worst), "%s: neither cold nor hot for %s in all, by the plan; the figure is %s %s",
			strings.TrimPrefix(strongName(e.worst.After), "the "), lengthOf(took), l.TimeRule, l.Length()), r, l).
			WithHelp("hold it hot with degrees, put it in the fridge between the steps, or move the late steps closer to serving")
	}
}

// putAway tells whether what a step leaves goes into the fridge or freezer: a
// pause follows, or it is the last step and the text says where it keeps.
func (d *plate) putAway(i int) bool {
	st := d.Stages[i]
	if c := resolve.First[*resolve.Keeping](st.Step.Margin); c != nil && (c.Keep.Place == "fridge" || c.Keep.Place == "freezer") {
		return true
	}
	if i+1 < len(d.Stages) {
		return d.Stages[i+1].Pause != nil
	}
	k := d.recipe.Keeps
	return k != nil && (k.Place == "fridge" || k.Place == "freezer")
}

func over(took time.Duration, l *practice.Limit) bool {
	if l.TimeRule == "less than" {
		return took >= l.Time
	}
	return took > l.Time
}

// exposure adds up minutes; worst is the step with the most of them.
type exposure struct {
	minutes, most int
	worst         *hazard.Stage
}

func (e *exposure) add(st *hazard.Stage, n int) {
	e.minutes += n
	if n > e.most {
		e.most, e.worst = n, st
	}
}

// between is how many minutes of a job its food is neither cold nor hot.
func between(st *hazard.Stage, j *timeline.Job, away bool) (n int) {
	if st.Heats {
		return 0
	}
	for _, ph := range j.Phases {
		cold := ph.Place == "fridge" || ph.Place == "freezer" || ph.Kind == "leave" && (st.Place == "fridge" || st.Place == "freezer")
		if !cold && !st.Cools {
			n += ph.End - ph.Start
		}
	}
	state, _ := hazard.HoldsFor(st.Step)
	if state != "hot" && state != "cold" && !away && !st.Chills && !st.Cools {
		n += j.Waits
	}
	return n
}

// outAt is the clause in which the time goes by.
func outAt(st *hazard.Stage) span {
	if c := st.Clause(resolve.WordLeave, resolve.WordRest, resolve.WordStand, resolve.WordHold, resolve.WordWatch, resolve.WordWork); c != nil {
		return c.Where()
	}
	return wordsAt(st.Step)
}
