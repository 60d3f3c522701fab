package quantity

// pairTolerance is how far the two measures of a pair may differ before it is asked
// about. Printed conversions are round: 150 g for 5 oz is 5.8% out, and 600 ml for a
// pint 5.6% (common practice, no source). An ounce of exactly 25 g, as old conversions
// count it, is 12% out and meant so.
var pairTolerance = Frac(6, 100)

// CheckPair compares the two measures of a Paired amount. It is nil when they
// agree within 6%, when they are of
// different dimensions, or when a size is not known. Start and End are 0.
func (a Amount) CheckPair(s System) *Problem {
	if a.Kind != Paired {
		return nil
	}
	x, ok1 := total(a.Measure, s)
	y, ok2 := total(a.Also, s)
	if !ok1 || !ok2 || a.Measure.Terms[0].Unit.Dim != a.Also.Terms[0].Unit.Dim {
		return nil
	}
	if near(x.Low, y.Low, pairTolerance) && near(x.High, y.High, pairTolerance) {
		return nil
	}
	if oldOunces(a.Measure, a.Also) || oldOunces(a.Also, a.Measure) {
		return nil
	}
	u := baseUnit(a.Measure.Terms[0].Unit.Dim)
	return &Problem{
		Code: CodePair, Ask: true,
		Message: "the two measures differ: " + a.Also.String() + " is " + round3(y.Low) + " " + u + ", not " + round3(x.Low) + " " + u,
		Help:    "the first counts; correct the one that is wrong",
	}
}

// oldOunces tells whether so many ounces and grams are of 25 g each: 1 oz (25 g).
func oldOunces(oz, g Measure) bool {
	if len(oz.Terms) != 1 || len(g.Terms) != 1 || oz.Terms[0].Unit.Name != "oz" || g.Terms[0].Unit.Name != "g" {
		return false
	}
	x, y := oz.Terms[0].Value, g.Terms[0].Value
	return x.Low.Mul(Int(25)).Equal(y.Low) && x.High.Mul(Int(25)).Equal(y.High)
}

// likely is the system of which the first measure of a pair comes nearest to the second,
// where nobody has said whose pint it is; NoSystem: none fits.
func (a Amount) likely() System {
	if a.Kind != Paired || len(a.Also.Terms) == 0 || a.Also.Terms[0].Unit == nil {
		return NoSystem
	}
	for _, s := range [...]System{Imperial, Metric, US, AU} {
		if x, ok := total(a.Measure, s); ok {
			if y, ok := total(a.Also, s); ok && a.Measure.Terms[0].Unit.Dim == a.Also.Terms[0].Unit.Dim && near(x.Low, y.Low, pairTolerance) && near(x.High, y.High, pairTolerance) {
				return s
			}
		}
	}
	return NoSystem
}

func near(x, y, tol Number) bool {
	d := x.Sub(y)
	if d.Sign() < 0 {
		d = y.Sub(x)
	}
	return !Max(x, y).Mul(tol).Less(d)
}

// total is the size of a measure in its base unit.
func total(m Measure, s System) (sum Range, ok bool) {
	for _, t := range m.Terms {
		size, known := t.Unit.Base(s)
		if !known {
			return Range{}, false
		}
		sum.Low = sum.Low.Add(t.Value.Low.Mul(size))
		sum.High = sum.High.Add(t.Value.High.Mul(size))
	}
	return sum, len(m.Terms) > 0
}

func baseUnit(d Dimension) string {
	switch d {
	case Mass:
		return "g"
	case Volume:
		return "ml"
	case Length:
		return "mm"
	}
	return ""
}

// round3 is a number to about three figures, for messages.
func round3(n Number) string {
	f := n.Float()
	step := Int(1)
	switch {
	case f < 10:
		step = Frac(1, 100)
	case f < 100:
		step = Frac(1, 10)
	}
	return n.Div(step).Add(Frac(1, 2)).Floor().Mul(step).text(true, false)
}
