package main

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// sizes are the flags that say for how many, and how it is measured; commands
// that reckon share them.
type sizes struct {
	covers             int
	fit, portion, have []string
	units              string
}

func (s *sizes) flags(cmd *cobra.Command) {
	cmd.Flags().Var(whole{to: &s.covers, min: 1, max: 100000}, "covers", "for this `NUMBER` of covers in place of the menu's")
	cmd.Flags().StringArrayVar(&s.fit, "fit", nil, "make everything over so that this `AMOUNT` is just used up: \"lamb shoulder 3.2 kg\"")
	cmd.Flags().StringArrayVar(&s.portion, "portion", nil, "for portions of another `SIZE`: \"Cucumber soup 250 ml\"")
	cmd.Flags().StringArrayVar(&s.have, "have", nil, "this `AMOUNT` is in the house and need not be bought: \"plain flour 1 kg\"")
	cmd.Flags().StringVar(&s.units, "units", "", "print amounts in these `UNITS`: metric, US, imperial or AU; as written if not said")
}

// options reads what was said.
func (s *sizes) options() (compiler.Options, error) {
	o := compiler.Options{Demand: demand.Options{Covers: s.covers}}
	var known bool
	if o.Units, known = quantity.SystemNamed(s.units); !known && s.units != "" {
		return o, fmt.Errorf("there are no %q units: say metric, US, imperial or AU", s.units)
	}
	for _, list := range []struct {
		flag  string
		texts []string
		put   func(demand.Wanted)
	}{
		{"--fit", s.fit, func(w demand.Wanted) { o.Demand.Fit = append(o.Demand.Fit, w) }},
		{"--portion", s.portion, func(w demand.Wanted) { o.Demand.Portions = append(o.Demand.Portions, w) }},
		{"--have", s.have, func(w demand.Wanted) { o.Have = append(o.Have, buying.Have{Name: w.Name, Quantity: w.Quantity}) }},
	} {
		for _, text := range list.texts {
			w, err := wanted(text, o.Units)
			if err != nil {
				return o, fmt.Errorf("%s %q: %w", list.flag, text, err)
			}
			list.put(w)
		}
	}
	return o, nil
}

// below is a figure with a minus before it.
var below = regexp.MustCompile(`(^|\s)[-−–]\s*[0-9½¼¾⅓⅔]`)

// unused says of what is in the house what nothing needs, so that a slip in a
// name is seen.
func (s *sizes) unused(r *compiler.Result) {
	if len(s.have) == 0 {
		return
	}
	opt, err := s.options()
	if err != nil {
		return
	}
	bought := map[string]bool{} // by any menu
	var names []string
	for _, meal := range r.Meals {
		list := buying.Build(figures.Of(meal, figures.Options{}), opt.Have)
		for _, h := range opt.Have {
			bought[h.Name] = bought[h.Name] || !slices.Contains(list.Unused, h.Name)
		}
		for _, it := range list.Items {
			names = append(names, it.Name)
		}
	}
	for _, h := range opt.Have {
		if bought[h.Name] {
			continue
		}
		help := "name it as the gather list does"
		if near := diag.Nearest(h.Name, names); near != "" {
			help = fmt.Sprintf("did you mean %s?", near)
		}
		r.Diags.Add(diag.Diagnostic{
			Code: "D120", Severity: diag.Question, Message: fmt.Sprintf("--have: nothing here needs %s", h.Name),
			Why: "nothing was taken off what is bought", Help: []string{help},
		})
	}
}

// wanted reads a name and an amount, in either order: "lamb shoulder 3.2 kg",
// "3.2 kg lamb shoulder", "eggs 12".
func wanted(text string, sys quantity.System) (demand.Wanted, error) {
	text = strings.TrimSpace(text)
	if below.MatchString(text) {
		return demand.Wanted{}, fmt.Errorf("an amount is not less than nothing")
	}
	name, amount := "", text
	if c := text; c != "" && (c[0] < '0' || c[0] > '9') {
		i := strings.IndexAny(text, "0123456789")
		if i < 0 {
			return demand.Wanted{}, fmt.Errorf("an amount is missing: write `lamb shoulder 3.2 kg`")
		}
		name, amount = strings.TrimSpace(text[:i]), text[i:]
	}
	a, n, problems := quantity.ReadAmount(amount, quantity.Options{System: sys, Alone: name != ""})
	if len(problems) > 0 {
		return demand.Wanted{}, fmt.Errorf("%s", problems[0].Message)
	}
	if rest := strings.TrimSpace(amount[n:]); name == "" {
		name = rest
	} else if rest != "" {
		return demand.Wanted{}, fmt.Errorf("%q is no amount: write `lamb shoulder 3.2 kg`", amount)
	}
	if n == 0 || name == "" {
		return demand.Wanted{}, fmt.Errorf("a name and an amount are wanted: `lamb shoulder 3.2 kg`")
	}
	q, problem := a.Quantity(sys, 0)
	if problem != nil {
		return demand.Wanted{}, fmt.Errorf("%s", problem.Message)
	}
	if q.Value.High.Sign() <= 0 {
		return demand.Wanted{}, fmt.Errorf("the amount must be more than nothing")
	}
	return demand.Wanted{Name: name, Quantity: q}, nil
}
