package check

import (
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// massOut compares what a block makes with what goes in.
var massOut = &Rule{
	Code: "D208", Title: "More comes out than went in.", Family: Amounts, Severity: diag.Error,
	What:    "What a dish or a base makes weighs more than all that is gathered for it, with every volume and piece counted at the heaviest it is known to be. Where something may drink water that is not gathered, or a line cannot be weighed, nothing is said. A yield by volume is a question, for air may be beaten in.",
	Why:     "What draws on it is short by the difference.",
	Fix:     "Correct the yield or the list.",
	Bad:     "base Dough\n  makes 900 g\n  gather\n    400 g plain flour\n    240 ml water\n  method\n    - Knead the plain flour with the water. | work 10 min\n",
	At:      "2:3",
	Good:    "base Dough\n  makes 600 g\n  gather\n    400 g plain flour\n    240 ml water\n  method\n    - Knead the plain flour with the water. | work 10 min\n",
	Sources: []string{"the Tamis notation, 2.12", "common practice, no source, for the 3% that are let pass"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			out, at, ok := yieldOf(r)
			if !ok || !mine(r, at) || r.Reading == nil || drinks(r) {
				continue
			}
			in, known := intake(r.Reading.Lines)
			if !known || in.IsZero() {
				continue
			}
			for _, pr := range r.Products {
				if pr.Made.Drawn() && pr.Quantity != nil && pr.Quantity.Dim == quantity.Mass {
					in = in.Sub(pr.Quantity.Value.Low)
				}
			}
			switch out.Dim {
			case quantity.Mass:
				if most := in.Mul(quantity.Frac(103, 100)); most.Less(out.Value.Low) {
					p.Report(at, "%s come out, and at the most %s went in: %s too much", grams(r, out.Value.Low), grams(r, in), grams(r, out.Value.Low.Sub(in))).
						WithHelp("correct the yield, or the list")
				}
			case quantity.Volume:
				room := bulkAtMost(r.Reading.Lines)
				if !speaks(r, beaten) && room.Mul(quantity.Frac(105, 100)).Less(out.Value.Low) {
					p.ReportAs(diag.Question, at, "%s come out, and at the most about %s went in", r.Say(out), r.Say(quantity.Millilitres(room))).
						WithHelp("correct the yield, or the list")
				}
			}
		}
	},
}

// yieldOf is what a block makes in all, by weight or volume.
func yieldOf(r *resolve.Recipe) (q quantity.Quantity, at source.Span, ok bool) {
	if y := r.Makes; y != nil {
		at = orTitle(r, r.Own.Makes)
		if y.Each != nil {
			q = y.Each.Scale(y.Quantity.Value.Low)
		} else {
			q = y.Quantity
		}
		return q, at, q.Dim == quantity.Mass || q.Dim == quantity.Volume
	}
	if r.Serves != nil && !r.ServesEach.IsZero() {
		at = orTitle(r, r.Own.Serves)
		each, problem := r.ServesEach.Quantity(r.System)
		if problem != nil {
			return q, at, false
		}
		q = each.Scale(r.Serves.Low)
		return q, at, q.Dim == quantity.Mass || q.Dim == quantity.Volume
	}
	return q, at, false
}

// intake is the most that all lines can weigh, in grams.
func intake(lines []*resolve.Line) (sum quantity.Number, known bool) {
	for _, l := range lines {
		if l.Quantity == nil {
			if !seasoningOnly(l) {
				return sum, false
			}
			continue
		}
		g, ok := gramsAtMost(l, *l.Quantity)
		if !ok {
			return sum, false
		}
		if a := l.Written; a != nil && a.Kind == quantity.Paired { // whichever of the two is more
			if also, problem := a.Also.Quantity(l.Recipe.System); problem == nil {
				if more, ok := gramsAtMost(l, also); ok {
					g = quantity.Max(g, more)
				}
			}
		}
		if sized := l.BoughtAs; sized != nil && sized.Dim == quantity.Mass {
			g = quantity.Max(g, sized.Value.High)
		}
		sum = sum.Add(g)
	}
	return sum, true
}

// bulkAtMost is the most room that all lines can take up, in ml.
func bulkAtMost(lines []*resolve.Line) (sum quantity.Number) {
	for _, l := range lines {
		if l.Quantity == nil {
			continue
		}
		if l.Quantity.Dim == quantity.Volume {
			sum = sum.Add(l.Quantity.Value.High)
			continue
		}
		g, ok := gramsAtMost(l, *l.Quantity)
		if !ok {
			continue
		}
		d := quantity.Frac(1, 2)
		if low, _, known := densities(l); known && l.Quantity.Dim == quantity.Mass {
			d = quantity.Max(low, lightest)
		}
		sum = sum.Add(g.Div(d))
	}
	return sum
}

// drinks tells whether water may go in that nobody gathered: the sentences
// speak of water, or something dry is cooked, and no water is on the list.
func drinks(r *resolve.Recipe) bool {
	dry := false
	for _, l := range r.Reading.Lines {
		if l.Water {
			return false
		}
		if it, _ := itemOf(l); it != nil && (it.Counter == "dry goods" && !it.Has(larder.RawFlour) || it.Has(larder.Rice)) {
			dry = true
		}
	}
	return speaks(r, watery) || dry && speaks(r, cooked)
}

var (
	watery = mustCompile(`(?i)\b(water|kettle|ice|soak(ed|ing)?|steam(ed|ing)?|blanch(ed)?|slaked|stock|broth)\b`)
	cooked = mustCompile(`(?i)\b(boil|cook|simmer|soak|swell)`)
	beaten = mustCompile(`(?i)\b(whip|whipped|whisk|beat|churn|froth|foam|freeze|prove|rise|risen|souffl)`)
)

// speaks tells whether a word stands in a sentence of a recipe.
func speaks(r *resolve.Recipe, word *pattern) bool {
	return slices.ContainsFunc(r.Steps, func(s *resolve.Step) bool { return word.MatchString(s.Prose.Text) })
}
