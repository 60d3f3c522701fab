package check

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/prose"
)

var keptWarm = &Rule{
	Code: "S118", Title: "Food kept out of the fridge.", Family: Safety, Severity: diag.Warning,
	What:    "Cooked meat, fish, eggs, dairy, rice or vegetables, or raw meat, fish or dairy, keep, pause, stand, rest or are left in the room, the larder, a warm place or nowhere said for longer than the rules allow food to be out, or a sentence leaves them out overnight. Raw tuna, mackerel and their like: a hint from two hours.",
	Why:     "At the warmth of a room germs double every twenty minutes or so.",
	Fix:     "Cool it and put it in the fridge, or hold it hot.",
	Sources: []string{"FSANZ 2-hour/4-hour rule", "FDA Food Code 2022, 3-501.19(B), as states adopt it", "USDA National Agricultural Library, leftover food answer", "Food Hygiene Regulations (Northern Ireland) 2006 Sch. 4 para 5"},
	Bad: `dish Egg custard
  rules AU
  serves 4
  gather
    500 ml   milk
    4        eggs
  method
    - Stir the milk and eggs over the heat until thick.
      | ring low | watch 10 min | core 75 C
    - Leave under a cloth to settle.
      | stand 6 h, room
  serve at room temperature
`,
	At: "11:9",
	Good: `dish Egg custard
  rules AU
  serves 4
  gather
    500 ml   milk
    4        eggs
  method
    - Stir the milk and eggs over the heat until thick.
      | ring low | watch 10 min | core 75 C
    - Set the pan in iced water until cold.
      | work 5 min | leave 40 min | reach 5 C
    - Chill.
      | stand 6 h, fridge
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			cold := d.choice.Rule("time as control", "cold")
			hot := d.choice.Rule("time as control", "hot", "cold")
			for _, s := range append(d.stays(), d.left()...) {
				r := cold
				if s.pot.Warmth == hazard.Hot && d.servedHot() {
					r = hot
				}
				l := r.Shortest()
				tuna := s.pot.Totals.Scombr && !s.pot.Cooked && s.time >= mostTuna
				if s.place == "fridge" || s.place == "freezer" || !over(s.time, l) && !tuna || !spoils(s.pot) || d.souredBy(s) || d.jarredBy(s.n) || plainFat(s, d) || d.InOil(s.pot) || d.curedRaw(s.pot) || seen.again(s.at) {
					continue
				}
				if !over(s.time, l) {
					p.ReportAs(diag.Hint, s.at, "%s is out for %s; in tuna, mackerel and their like a poison forms in the warm", foodOf(s.pot), lengthOf(s.time)).
						Because("Neither cooking nor freezing undoes that poison (US Food and Drug Administration, as seen quoted); the two hours are common practice, no source. %s", comeFirst).
						WithHelp("keep it in the fridge or on ice: `stand %s, fridge`", lengthOf(s.time))
					continue
				}
				p.cite(p.ReportAs(softer(diag.Warning, r), s.at, "%s is out %s; the figure is %s", foodOf(s.pot), s.long(), l.Length()), r, l).
					WithHelp("cool it and write `fridge`, or hold it hot with degrees")
			}
			d.leftOut(p, cold, cold.Shortest(), seen)
		}
	},
}

// stoodOvernight tells whether a step comes a day later, and what was cooked before it was put
// into no cold.
func (d *plate) stoodOvernight(st *hazard.Stage) bool {
	b := st.Before
	if !st.Tells("next day") || st.Pause != nil || !b.Cooked || b.Chilled || b.Warmth != hazard.Hot && b.Warmth != hazard.Cooled || !spoils(b) || cures(st) || d.jarredBy(st.N) {
		return false
	}
	return !slices.ContainsFunc(d.Stages[:st.N], func(o *hazard.Stage) bool { return o.Tells("cold place") || o.Chills })
}

// saidHours are the words of a step for a time in which food may wait, that is longer than a
// limit, and how long it is.
func (d *plate) saidHours(st *hazard.Stage, l *practice.Limit) (words, long string) {
	for _, t := range prose.Read(st.Step.Prose.Text).Times {
		if most := longestOf(&t.Span); over(most, l) && t.Role != prose.Else && !(st.Heats && t.Role != prose.Keeps && t.Role != prose.Holds) {
			return strings.ToLower(st.Step.Prose.Text[t.From:t.To]), lengthOf(most)
		}
	}
	return "", "hours"
}

// souredBy tells whether what stands is milk that this very step sours.
func (d *plate) souredBy(s stay) bool {
	return s.n < len(d.Stages) && d.Stages[s.n].After.Soured && !d.Stages[s.n].After.Grows()
}

// curedRaw tells whether the raw meat or fish in a pot is salted or cured to hang or to
// dry, and is not cooked.
func (d *plate) curedRaw(pot hazard.Pot) bool {
	if pot.Cooked || !d.ripens() || !pot.Totals.Flesh && !pot.Totals.Fish {
		return false
	}
	salt, flesh, cured := 0.0, 0.0, false
	for _, i := range pot.Items {
		switch {
		case cureOf(i) != nil:
			cured = true
		case isSalt(i):
			salt += i.Grams()
		case i.Flesh || i.Is(hazard.Fish):
			flesh += i.Grams()
		}
	}
	return cured || flesh > 0 && salt >= mostFresh*flesh
}

// mostTuna is how long raw fish of the tuna and mackerel kinds may be out of the cold
// without a word. Common practice, no source.
const mostTuna = 2 * time.Hour

// spoils tells whether what is in a pot goes off in the warm: what was cooked and
// germs grow in, but for bread and cake; raw meat, fish, dairy and rice too, but not
// dough, nor eggs with sugar alone, which are meringue or icing.
func spoils(pot hazard.Pot) bool {
	if pot.Dough || pot.Baked() || !pot.Grows() {
		return false
	}
	eggs, sweet, flesh, milky := false, false, false, false
	for _, i := range pot.Items {
		sweet = sweet || i.Sweet
		milky = milky || i.IsMilky()
		if !i.Strong || i.IsKind("cured") || i.Has(larder.Rice) && !pot.Cooked && !i.Cooked { // dry, or in its soak
			continue
		}
		if (i.Has(larder.Egg) || i.Is(hazard.Egg)) && !(i.Cooked && !i.Is(hazard.Egg)) {
			eggs = true
		} else {
			flesh = true
		}
	}
	if flesh {
		return true
	}
	return pot.Cooked && (!(eggs && sweet) || milky)
}

// servedHot tells whether the dish is served hot or warm: what waits hot for it, or is brought
// back for it, may wait as long as hot food may.
func (d *plate) servedHot() bool {
	return d.recipe.ServeHow != nil && (d.recipe.ServeHow.State == "hot" || d.recipe.ServeHow.State == "warm")
}

// foodOf says what a pot holds in a word or two.
func foodOf(pot hazard.Pot) string {
	if pot.Cooked {
		return "cooked food"
	}
	return strings.TrimPrefix(strongName(pot), "the ")
}

// left are the times in which a step leaves its food, or lets it rest, where
// nothing is hot and no place is cold: whatever the clause is called, it stands.
func (d *plate) left() (out []stay) {
	for _, st := range d.Stages {
		if st.Heats || st.Cools || st.Chills || st.Step.Grill {
			continue
		}
		for _, c := range st.Step.Margin {
			if c, ok := c.(*resolve.Spell); ok && (c.Word == resolve.WordLeave || c.Word == resolve.WordRest) && !cures(st) {
				out = append(out, stay{at: c.Span, pot: st.After, place: st.Place, time: longestOf(c.Fixed), n: st.N, what: string(c.Word)})
			}
		}
	}
	return out
}

// cures tells whether a step lets something sour, ripen or dry on purpose.
func cures(st *hazard.Stage) bool {
	return st.Says("culture", "cultured", "incubate", "ferment", "fermenting", "yoghurt", "yogurt", "rennet", "curdle", "kefir", "clabber", "scoby", "starter", "hang", "dry-cure", "air-dry", "ripen")
}

// leftOut reports a sentence that leaves food out overnight, where the margin
// names neither a place nor a time.
func (d *plate) leftOut(p *Pass, r practice.Ruling, l *practice.Limit, seen once) {
	for _, i := range d.End.Items { // by its own note
		at := i.Line.NameAt
		if i.Base == nil && (i.Cooked || i.Leftover) && (i.Strong || i.Plant) && i.Says("overnight") && (i.Says("warm place") || speaksIn(i.Line.Note.Text, "left out", "out of the fridge")) && !seen.again(at) {
			p.cite(p.ReportAs(softer(diag.Warning, r), at, "the %s was out for a night; the figure is %s", i.Line.Name, l.Length()), r, l).
				WithHelp("throw it away; cook it anew, cool it fast and keep it in the fridge")
		}
	}
	for _, st := range d.Stages {
		if s, ok := d.saidStay(st); ok && over(s.Time, l) {
			continue // it is one of the stays
		}
		said, long := st.SaidBy("overnight"), "a night"
		if said == "" {
			said, long = st.SaidBy("till a meal"), "hours"
		}
		if said == "" && st.Tells("warm place") {
			if said = st.SaidBy("all day"); said == "" && st.Says("keep", "keeps", "kept", "wait", "waits", "last", "lasts", "stay", "stays", "hold", "holds") {
				said, long = d.saidHours(st, l)
			}
		}
		if words, hours := st.SaidHours(); said == "" && over(hours, l) {
			said, long = words, lengthOf(hours)
		}
		if said == "" && d.stoodOvernight(st) {
			if at := saidAt(st.Step, st.SaidBy("next day")); !seen.again(at) {
				p.cite(p.ReportAs(softer(diag.Warning, r), at, "%s was out for a night, for nothing says that it was chilled; the figure is %s", foodOf(st.Before), l.Length()), r, l).
					WithHelp("cool it and put it in the fridge in the step before: `| stand overnight, fridge`")
			}
			continue
		}
		if said == "" || st.Place != "" || st.Chills || cures(st) || st.Clause(resolve.WordLeave, resolve.WordRest, resolve.WordStand, resolve.WordThaw) != nil && !st.Heats || !spoils(st.After) {
			continue
		}
		off := st.Tells("heat off")
		if st.Heats && !off && !st.Tells("warm place") && !st.Says("worktop", "counter", "in the pan", "in the oven", "in the pot") {
			continue
		}
		at := saidAt(st.Step, said)
		if seen.again(at) || st.Thorough() && !off {
			continue
		}
		p.cite(p.ReportAs(softer(diag.Warning, r), at, "%s is out for %s; the figure is %s", foodOf(st.After), long, l.Length()), r, l).
			WithHelp("cool it and put it in the fridge: `| stand overnight, fridge`")
	}
}
