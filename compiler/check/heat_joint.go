package check

import (
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// oneJoint asks whether a joint that is made over is one larger joint, whose time
// is another, or several of the written size, whose time stays.
var oneJoint = &Rule{
	Code: "H141", Title: "A joint of another size, with the written time.", Family: Heat, Severity: diag.Question,
	What:    "A joint or a bird that is weighed goes into the oven or a pot for a time that does not grow with it, and the menu makes the dish a quarter larger or smaller than it is written.",
	Why:     "A joint of twice the weight takes longer; two joints side by side do not.",
	Fix:     "Write how many pieces it is, `2 x 2 kg shoulders of lamb`, or let the time go by the weight: `| leave 20 min plus 20 min per 500 g lamb shoulder`.",
	Bad:     "menu Sunday\n  covers 16\n  course Main\n    Roast\n\ndish Roast\n  serves 8\n  gather\n    2 kg lamb shoulder\n  method\n    - Roast the lamb shoulder. | oven 180 C | work 5 min | leave 2 h | core 70 C\n  serve hot\n",
	At:      "11:60",
	Good:    "menu Sunday\n  covers 16\n  course Main\n    Roast\n\ndish Roast\n  serves 8\n  gather\n    2 kg lamb shoulder\n  method\n    - Roast the lamb shoulder. | oven 180 C | work 5 min | leave 20 min plus 25 min per 500 g lamb shoulder | core 70 C\n  serve hot\n",
	Sources: []string{noSource},
	Check: func(p *Pass) {
		seen, asked := map[*resolve.Spell]bool{}, map[*resolve.Line]bool{}
		for _, d := range p.dishes() {
			if d.making == nil || !otherSize(d.making.Factor) {
				continue
			}
			for _, st := range d.Stages {
				sp := ovenTime(st.Step)
				if !st.Heats || sp == nil || seen[sp] || !mine(d.recipe, sp.Span) {
					continue
				}
				for _, i := range st.After.Items {
					if asked[i.Line] || !oneWeighed(i) || pieced(d, st, i) { // once: what is browned first roasts no sooner
						continue
					}
					seen[sp], asked[i.Line] = true, true
					here, per := i.Line.Say(i.Line.Quantity.Scale(d.making.Factor)), "500 g"
					if u := i.Line.Written.Measure.Terms; len(u) > 0 && u[0].Unit != nil && !u[0].Unit.InMetric() {
						per = "lb"
					}
					p.Report(sp.Span, "%s of %s goes in here, and the time is that of %s", here, i.Line.Name, i.Line.Written.Print(quantity.Style{})).
						WithHelp("if it is several of the written size, say so: `2 x %s %s` keeps its time", i.Line.Written.Print(quantity.Style{}), i.Line.Name).
						WithHelp("if it is one piece, let the time go by its weight: `| leave 20 min plus 20 min per %s %s`", per, i.Line.Name)
					break
				}
			}
		}
	},
	After: Demanded,
}

// otherSize tells whether a dish is made a quarter larger or smaller.
func otherSize(factor quantity.Number) bool {
	return quantity.Frac(5, 4).Less(factor) || factor.Less(quantity.Frac(4, 5))
}

// ovenTime is the time a step is left in an oven or on a ring, where it does not grow with
// anything and is long enough to be that of a joint.
func ovenTime(s *resolve.Step) *resolve.Spell {
	if len(s.Heats) == 0 && s.Rings == 0 {
		return nil
	}
	for i := range s.Phases {
		sp := &s.Phases[i]
		if sp.Kind != resolve.Work && sp.Fixed != nil && sp.Per == nil && len(sp.Points) == 0 && sp.Fixed.High >= 30*time.Minute {
			return sp
		}
	}
	return nil
}

// oneWeighed tells whether a line weighs a joint or a bird that nobody cuts up.
func oneWeighed(i *hazard.Item) bool {
	q, w := i.Line.Quantity, i.Line.Written
	if q == nil || w == nil || q.Dim != quantity.Mass || q.Packs != nil || !i.Flesh || !large(i) {
		return false
	}
	low := strings.ToLower(i.Line.Name + ", " + i.Line.Note.Text + " " + i.Line.Brackets.Text + " " + i.Line.Size)
	return !speaksOf(low, cutUp...) && !strings.Contains(low, "minced")
}

// cutUp are words of meat that is in pieces, or is bought to be cut up.
var cutUp = []string{
	"dice", "diced", "cube", "cubes", "cubed", "chunk", "chunks", "slice", "slices", "sliced", "piece", "pieces", "strip", "strips", "jointed", "cut", "half", "halves", "halved", "quarters", "quartered", "each",
	"mince", "stewing", "stew", "braising", "casserole", "goulash", "curry", "kebab", "stir-fry", "pulled", "shredded", "steak", "steaks", "chop", "chops", "cutlet", "cutlets", "rib", "ribs", "bones", "trimmings", "offcuts", "in bite-sized", "bite-sized", "medallions", "escalopes", "rashers", "cheeks", "shanks", "oxtail", "tails", "kidneys", "liver", "hearts", "tongues", "wings", "thighs", "drumsticks", "hocks", "trotters",
}

// pieced tells whether a step up to this one cuts a thing up.
func pieced(d *plate, st *hazard.Stage, i *hazard.Item) bool {
	for _, o := range d.Stages[:st.N+1] {
		if i.In(o) && o.Says("dice", "cube", "cubes", "chunks", "pieces", "strips", "slices", "joint the", "portions") && o.Opens("dice", "cut", "cube", "slice", "joint", "chop", "portion", "divide") {
			return true
		}
	}
	return false
}
