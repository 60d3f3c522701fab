package quantity

import "strings"

// Print is the quantity as a cook reads it: "450 g", "1.2 kg", "1/2 tsp",
// "1 cup + 2 tbsp", "2 to 3 cloves"; of a bare count only the figure. It is
// rounded as Round does it: hand it the exact quantity, not a rounded one.
func (q Quantity) Print(st Style) string {
	low, high := q.figures(st)
	return st.between(low, high)
}

// between is a figure, or a range of two.
func (st Style) between(low, high figure) string {
	if low.value.Equal(high.value) {
		return high.print(st)
	}
	if len(low.terms) == 1 && len(high.terms) == 1 {
		a, b := low.terms[0], high.terms[0]
		if a.Unit != b.Unit && a.Unit != nil && b.Unit != nil && a.Unit.metric && b.Unit.metric {
			// 900 g to 1.2 kg -> 0.9 to 1.2 kg
			as, bs := a.Unit.sizes[NoSystem], b.Unit.sizes[NoSystem]
			a = Term{Value: a.Value.Mul(as.Div(bs)), Unit: b.Unit}
		}
		if a.Unit == b.Unit {
			s := st.number(a.Value.Low, a.Unit) + st.to() + st.number(b.Value.Low, b.Unit)
			if b.Unit != nil {
				s += " " + b.Unit.For(b.Value)
			}
			return s
		}
	}
	return low.print(st) + " to " + high.print(st)
}

func (st Style) to() string {
	if st.Dash {
		return "–"
	}
	return " to "
}

func (f figure) print(st Style) string {
	var b strings.Builder
	for i, t := range f.terms {
		if i > 0 {
			b.WriteByte(' ')
			if t.Unit == nil || t.Unit.Dim != Mass {
				b.WriteString("+ ")
			}
		}
		if st.Modifier != "" && len(f.terms) == 1 && t.Unit == st.Unit {
			t.Modifier = st.Modifier
		}
		b.WriteString(t.Print(st))
	}
	return b.String()
}

// Print is a term as it was written, in print: "1½ tbsp", "2–3 cups".
func (t Term) Print(st Style) string {
	s := st.number(t.Value.Low, t.Unit)
	if t.Value.IsRange() {
		s += st.to() + st.number(t.Value.High, t.Unit)
	}
	if t.Unit == nil {
		return s
	}
	if t.Modifier != "" {
		s += " " + t.Modifier
	}
	return s + " " + t.Unit.For(t.Value)
}

// Print is a measure as it was written, in print. Nothing is rounded.
func (m Measure) Print(st Style) string { return figure{terms: m.Terms}.print(st) }

// Print is an amount as it was written, in print. Nothing is rounded.
func (a Amount) Print(st Style) string {
	switch a.Kind {
	case Paired:
		return a.Measure.Print(st) + " (" + a.Also.Print(st) + ")"
	case Packages:
		s := Term{Value: a.Count}.Print(st) + " × " + a.Each.Print(st)
		if a.Container != nil {
			s += " " + a.Container.For(a.Count)
		}
		return s
	case PerHead:
		s := a.Measure.Print(st) + perCovers(a.PerCovers)
		if !a.Plus.IsZero() {
			s += " plus " + a.Plus.Print(st)
		}
		return s
	case Percent:
		return a.Text(st.Comma)
	}
	return a.Measure.Print(st)
}

// number is a number beside a unit, with glyphs if the style wants them.
func (st Style) number(n Number, u *Unit) string {
	s := n.text(u != nil && u.metric, st.Comma)
	if st.Glyphs {
		return glyphs(s)
	}
	return s
}

var glyphOf = map[string]string{
	"1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾", "1/5": "⅕", "2/5": "⅖", "3/5": "⅗", "4/5": "⅘",
	"1/6": "⅙", "5/6": "⅚", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞",
}

// glyphs turns "1 1/2" into "1½". Fractions without a glyph stay as they are.
func glyphs(s string) string {
	whole, frac, mixed := strings.Cut(s, " ")
	if !mixed {
		whole, frac = "", s
	}
	if g, ok := glyphOf[frac]; ok {
		return whole + g
	}
	return s
}
