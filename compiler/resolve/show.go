package resolve

import (
	"fmt"
	"io"
	"strings"

	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// say prints a quantity in a message.

// WriteReading writes, for every recipe asked for, what each sentence takes,
// what it leaves and what it waits for: the way to see that a text is read as
// it was meant.
func WriteReading(w io.Writer, m *Model) {
	first := true
	for _, r := range m.Recipes {
		if !r.Asked || r.Reading == nil {
			continue
		}
		if !first {
			fmt.Fprintln(w)
		}
		first = false
		kind := "dish"
		if r.Base {
			kind = "base"
		}
		fmt.Fprintf(w, "%s %s\n", kind, r.Name)
		for _, l := range r.Reading.Lines {
			if from := l.origin(); from != "" {
				fmt.Fprintf(w, "  %s %s\n", l.Name, from)
			}
			for _, o := range r.Offers {
				if o.Line == l {
					fmt.Fprintf(w, "  %s offers %s\n", l.Name, o.Margin)
				}
			}
		}
		pauses := r.Pauses
		for _, sr := range r.Reading.Steps {
			for len(pauses) > 0 && pauses[0].After <= sr.Step.Index {
				fmt.Fprintf(w, "  pause up to %s, %s\n", pauses[0].Keep.Time, pauses[0].Place)
				pauses = pauses[1:]
			}
			fmt.Fprintf(w, "  %d  %s\n", sr.Step.Index+1, sr.Step.Line)
			for _, line := range sr.Lines() {
				fmt.Fprintf(w, "     %s\n", line)
			}
			for _, o := range r.Offers {
				if len(o.Steps) == 0 || o.Steps[0] != sr.Step {
					continue
				}
				if o.Margin != "" && len(o.Steps) == 1 {
					fmt.Fprintf(w, "     offers %s\n", o.Margin)
				} else if o.Margin != "" {
					fmt.Fprintf(w, "     offers, as %d steps, %s\n", len(o.Steps), o.Margin)
				}
				for _, t := range o.Asked {
					fmt.Fprintf(w, "     is not planned with %s\n", t.Text)
				}
			}
		}
	}
}

// origin says where a line comes from when it is not bought.
func (l *Line) origin() string {
	switch {
	case l.From != nil && l.From.Base:
		return "is made here: base " + l.From.Name
	case l.From != nil:
		return "is made here: dish " + l.From.Name
	case l.Product != nil:
		return "comes from " + l.Product.Recipe.Name
	case l.Carried != "":
		return "is " + l.Carried
	}
	return ""
}

// Lines says what one step takes, leaves and waits for, at its written size.
func (sr *StepReading) Lines() (out []string) {
	waits := waitsFor(sr.Step)
	for _, t := range sr.Takes {
		if t.Product != nil {
			if !t.Refers {
				waits = append(waits, t.Product.Name)
			}
			continue
		}
		if t.Refers {
			out = append(out, fmt.Sprintf("speaks of %s again", t.Line.Name))
			continue
		}
		text := "takes " + t.Says()
		if t.measured() && t.LeftAfter.Sign() > 0 {
			text += ", leaves " + strings.TrimSpace(t.Line.partText(t.LeftAfter))
		}
		if t.measured() && t.ByMargin {
			text += " (by the margin)"
		}
		out = append(out, text)
	}
	if len(waits) > 0 {
		out = append(out, "waits for "+strings.Join(waits, ", "))
	}
	for _, p := range sr.Step.Makes {
		text := "makes " + p.Name
		if p.Quantity != nil {
			text = "makes " + p.Say(*p.Quantity) + " " + p.Name
		}
		out = append(out, text)
	}
	if len(sr.Takes) == 0 {
		out = append([]string{"takes nothing"}, out...)
	}
	for _, f := range sr.Figures {
		out = append(out, f.reading())
	}
	return out
}

// measured tells whether what is taken has a share of its line.
func (t *Take) measured() bool { return !t.Line.ToTaste && !t.Unmeasured && !t.AfterSome }

// Says is how much of a gathered line is taken, at its written size: "all 12 g salt".
func (t *Take) Says() string {
	l := t.Line
	switch {
	case l.ToTaste:
		return l.Name + " to taste"
	case t.Unmeasured:
		return "some of " + l.Name
	case t.AfterSome:
		return "the rest of " + l.Name
	case t.Part.Equal(one):
		return "all " + l.partText(one) + l.Name
	}
	return l.partText(t.Part) + l.Name
}

// reading says what a figure was taken for that belongs to nothing gathered.
func (f *Figure) reading() string {
	said := diag.Visible(strings.Join(strings.Fields(f.At.Text()), " "))
	switch f.Kind {
	case FigureScaled:
		return fmt.Sprintf("scales %q", said)
	case FigureEach:
		return fmt.Sprintf("keeps %q as written: for each", said)
	case FigureLoad:
		return fmt.Sprintf("keeps %q as written: a load", said)
	}
	if f.As == "" {
		return fmt.Sprintf("keeps %q as written", said)
	}
	return fmt.Sprintf("keeps %q as written: %s", said, f.As)
}

// partText is a share of the line as an amount with a blank behind it, or as
// a fraction where the line has none.
func (l *Line) partText(part quantity.Number) string {
	switch {
	case l.Quantity != nil:
		st := quantity.Style{System: l.Recipe.System, Tolerance: quantity.Frac(1, 200)}
		if a := l.Written; a != nil && len(a.Measure.Terms) > 0 {
			st.Unit = a.Measure.Terms[0].Unit
		}
		if st.Unit != nil && st.Unit.InMetric() { // a third and two thirds of a litre come to a litre
			st.Tolerance = quantity.Frac(1, 1000)
		}
		q := l.Quantity.Scale(part)
		q.Packs = nil
		return q.Print(st) + " "
	case part.Equal(one) && l.Share != nil:
		return l.AmountText + " "
	case part.Equal(one):
		return ""
	}
	return part.String() + " of "
}

// waitsFor says in words what the clock of a step hangs on, products aside.
func waitsFor(s *Step) (out []string) {
	switch {
	case s.AnyTime:
		out = append(out, "nothing before it")
	case len(s.After) > 0:
		for _, m := range s.After {
			out = append(out, fmt.Sprintf("step %d", m.Index+1))
		}
	case s.Meanwhile:
		out = append(out, "the start of the step before it")
	}
	return out
}
