package desk

import (
	"cmp"
	"encoding/json"
	"slices"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// inlayHints show what an amount comes to in the menus that serve it, and when the
// plan has a step.
func (s *server) inlayHints(raw json.RawMessage) (any, error) {
	p, err := read[rangeParams](raw)
	if err != nil {
		return nil, err
	}
	sh, err := s.sheet(p.TextDocument.URI)
	if err != nil {
		return nil, err
	}
	asked := spanOf(sh.text, p.Range)
	out := []inlayHint{}
	add := func(offset int, label, tip string) {
		if offset >= asked.Start && offset <= asked.End {
			out = append(out, inlayHint{Position: at(sh.text, offset), Label: diag.Visible(label), Tooltip: diag.Visible(tip), PaddingLeft: true})
		}
	}
	for _, r := range sh.result.Model.Recipes {
		if r.Span.File != sh.text || r.Span.End < asked.Start || r.Span.Start > asked.End {
			continue
		}
		makings := sh.makings(r)
		for _, l := range r.Lines {
			if l.NameAt.File == sh.text {
				label, tip := sh.scaled(l, makings)
				if label != "" {
					add(l.NameAt.End, label, tip)
				}
			}
		}
		for i, st := range r.Steps {
			if st.Span.File != sh.text || len(st.Lines) == 0 || i > 0 && r.Steps[i-1].Span == st.Span {
				continue // part of a step that was parted: its first part says when
			}
			if clock := sh.clock(st); len(clock) > 0 {
				var tips []string
				for _, h := range clock {
					tips = append(tips, h.String())
				}
				add(st.Lines[len(st.Lines)-1].Span.End, clock[0].when, strings.Join(tips, "\n"))
			}
		}
	}
	slices.SortStableFunc(out, func(a, b inlayHint) int {
		return cmp.Or(cmp.Compare(a.Position.Line, b.Position.Line), cmp.Compare(a.Position.Character, b.Position.Character))
	})
	return out, nil
}

// scaled is what a line comes to where it is made at another size: the amounts of the
// menus, each once, and in the tip which menu has which.
func (sh *sheet) scaled(l *resolve.Line, makings []making) (label, tip string) {
	var amounts, tips []string
	for _, m := range makings {
		a := m.Of(l)
		if a == nil || a.Quantity == nil || l.Quantity != nil && m.Factor.String() == "1" {
			continue
		}
		f := m.set.Line(a).String()
		if f == "" {
			continue
		}
		if !slices.Contains(amounts, f) {
			amounts = append(amounts, f)
		}
		tips = append(tips, m.meal.Title+": "+f)
	}
	if len(amounts) == 0 {
		return "", ""
	}
	return "→ " + strings.Join(amounts, ", "), strings.Join(tips, "\n")
}
