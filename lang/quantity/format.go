package quantity

import (
	"strconv"
	"strings"
)

// Text writes n as the notation does: 1/2, 1 1/2, 0.35. Halves, thirds,
// quarters, sixths, eighths and sixteenths are fractions; what else ends as a
// decimal is one. comma asks for the decimal comma.
func (n Number) Text(comma bool) string { return n.text(false, comma) }

// text is Text; metric prefers decimals (0.5 kg) to fractions (1/2 lb).
func (n Number) text(metric, comma bool) string {
	if n.IsInt() {
		return n.String()
	}
	den := n.below()
	common := false
	switch den {
	case 2, 3, 4, 6, 8, 16:
		common = true
	}
	if metric || !common {
		if places, ok := decimals(den); ok {
			s := n.rat().FloatString(places)
			if comma {
				s = strings.Replace(s, ".", ",", 1)
			}
			return s
		}
	}
	sign, m := "", n
	if n.Sign() < 0 {
		sign, m = "-", Int(0).Sub(n)
	}
	whole := m.Floor()
	frac := m.Sub(whole).String()
	if whole.IsZero() {
		return sign + frac
	}
	return sign + whole.String() + " " + frac
}

// below is what stands below the stroke; 0 when it is beyond all reckoning.
func (n Number) below() int64 {
	if n.r == nil {
		return int64(n.less) + 1
	}
	if den := n.r.Denom(); den.IsInt64() {
		return den.Int64()
	}
	return 0
}

// decimals is how many places 1/den takes, if it ends within maxDecimal.
func decimals(den int64) (int, bool) {
	if den == 0 {
		return 0, false
	}
	d := den
	two, five := 0, 0
	for d%2 == 0 {
		d, two = d/2, two+1
	}
	for d%5 == 0 {
		d, five = d/5, five+1
	}
	places := max(two, five)
	return places, d == 1 && places <= maxDecimal
}

// String is the formatter's text: "2", "2 to 3", "1 1/2".
func (r Range) String() string { return r.text(false, false) }

func (r Range) text(metric, comma bool) string {
	if !r.IsRange() {
		return r.Low.text(metric, comma)
	}
	return r.Low.text(metric, comma) + " to " + r.High.text(metric, comma)
}

// String is the formatter's text: "250 g", "2 litres", "1 heaped tbsp".
func (t Term) String() string { return t.text(false) }

func (t Term) text(comma bool) string {
	if t.Unit == nil {
		return t.Value.text(false, comma)
	}
	s := t.Value.text(t.Unit.metric, comma) + " "
	if t.Modifier != "" {
		s += t.Modifier + " "
	}
	return s + t.Unit.For(t.Value)
}

// String is the formatter's text: "2 lb 10 oz", "1 cup plus 2 tbsp".
func (m Measure) String() string { return m.text(false) }

func (m Measure) text(comma bool) string {
	var b strings.Builder
	for i, t := range m.Terms {
		if i > 0 {
			b.WriteByte(' ')
			if t.Unit != nil && t.Unit.Dim == Volume || t.Unit == m.Terms[i-1].Unit {
				b.WriteString("plus ")
			}
		}
		b.WriteString(t.text(comma))
	}
	return b.String()
}

// String is the formatter's text. Read back, it gives an equal amount.
func (a Amount) String() string { return a.Text(false) }

// Text is String, with the decimal comma if comma is set.
func (a Amount) Text(comma bool) string {
	switch a.Kind {
	case Paired:
		return a.Measure.text(comma) + " (" + a.Also.text(comma) + ")"
	case Packages:
		s := a.Count.text(false, comma) + " x " + a.Each.text(comma)
		if a.Container != nil {
			s += " " + a.Container.For(a.Count)
		}
		return s
	case PerHead:
		s := a.Measure.text(comma) + perCovers(a.PerCovers)
		if len(a.Plus.Terms) > 0 {
			s += " plus " + a.Plus.text(comma)
		}
		return s
	case Percent:
		return a.Percent.text(true, comma) + "%"
	}
	return a.Measure.text(comma)
}

func perCovers(n int) string {
	if n == 1 {
		return " per cover"
	}
	return " per " + strconv.Itoa(n) + " covers"
}

// Equal tells whether two ranges have the same ends.
func (r Range) Equal(s Range) bool { return r.Low.Equal(s.Low) && r.High.Equal(s.High) }

// Equal tells whether two terms say the same in the same unit.
func (t Term) Equal(u Term) bool {
	return t.Value.Equal(u.Value) && t.Unit == u.Unit && t.Modifier == u.Modifier
}

// Equal tells whether two measures have equal terms. "3 tsp" and "1 tbsp" are
// not equal here: compare their Quantities for that.
func (m Measure) Equal(o Measure) bool {
	if len(m.Terms) != len(o.Terms) {
		return false
	}
	for i := range m.Terms {
		if !m.Terms[i].Equal(o.Terms[i]) {
			return false
		}
	}
	return true
}

// IsZero tells whether there is no measure at all.
func (m Measure) IsZero() bool { return len(m.Terms) == 0 }

// Equal tells whether two amounts say the same in the same form.
func (a Amount) Equal(b Amount) bool {
	return a.Kind == b.Kind && a.Measure.Equal(b.Measure) && a.Also.Equal(b.Also) && a.Count.Equal(b.Count) &&
		a.Each.Equal(b.Each) && a.Container == b.Container && a.PerCovers == b.PerCovers && a.Plus.Equal(b.Plus) &&
		a.Percent.Equal(b.Percent)
}

// IsZero tells whether there is no amount at all.
func (a Amount) IsZero() bool { return a.Equal(Amount{}) }
