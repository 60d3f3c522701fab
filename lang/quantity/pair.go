package quantity

// How far the two measures of a pair may differ before it is asked about: old
// books count an ounce as 25 g, and cups are round figures.
var (
	pairTolerance = Frac(2, 100)
	cupTolerance  = Frac(5, 100)
)

// CheckPair compares the two measures of a Paired amount. It is nil when they
// agree within 2% (5% where a cup or spoon is in it), when they are of
// different dimensions, or when a size is not known. Start and End are 0.
func (a Amount) CheckPair(s System) *Problem {
	if a.Kind != Paired {
		return nil
	}
	x, cup1, ok1 := total(a.Measure, s)
	y, cup2, ok2 := total(a.Also, s)
	if !ok1 || !ok2 || a.Measure.Terms[0].Unit.Dim != a.Also.Terms[0].Unit.Dim {
		return nil
	}
	tol := pairTolerance
	if cup1 || cup2 {
		tol = cupTolerance
	}
	if near(x.Low, y.Low, tol) && near(x.High, y.High, tol) {
		return nil
	}
	u := baseUnit(a.Measure.Terms[0].Unit.Dim)
	return &Problem{
		Code: CodePair, Ask: true,
		Message: "the two measures differ: " + a.Also.String() + " is " + round3(y.Low) + " " + u + ", not " + round3(x.Low) + " " + u,
		Help:    "the first counts; correct the one that is wrong",
	}
}

func near(x, y, tol Number) bool {
	d := x.Sub(y)
	if d.Sign() < 0 {
		d = y.Sub(x)
	}
	return !Max(x, y).Mul(tol).Less(d)
}

// total is the size of a measure in its base unit. cup tells that cups or
// spoons are in it.
func total(m Measure, s System) (sum Range, cup, ok bool) {
	for _, t := range m.Terms {
		size, known := t.Unit.Base(s)
		if !known {
			return Range{}, false, false
		}
		sum.Low = sum.Low.Add(t.Value.Low.Mul(size))
		sum.High = sum.High.Add(t.Value.High.Mul(size))
		switch t.Unit.Name {
		case "cup", "tbsp", "tsp", "dessertspoon":
			cup = true
		}
	}
	return sum, cup, len(m.Terms) > 0
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
