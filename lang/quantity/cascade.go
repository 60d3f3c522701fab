package quantity

// Cascade splits a quantity into as many units as there are, each a whole
// number but the last: 19 gallons 3 quarts 1 pint 1 cup 10 tbsp 2 3/4 tsp. The
// last is rounded to what its measure can show: a quarter of a teaspoon or an
// ounce, half a fluid ounce, a gram or a millilitre. Of a range the larger end
// is taken. A quantity that is no mass, volume or length is a Problem.
func Cascade(q Quantity, s System) (Measure, *Problem) {
	units, step := cascadeUnits(q.Dim, s)
	if units == nil {
		return Measure{}, &Problem{Code: CodeNoSize, Message: q.plain() + " is " + q.kind() + " and cannot be split into smaller measures"}
	}
	smallest := mustBase(units[len(units)-1], s)
	grain := smallest.Mul(step)
	left := q.Value.High
	if left.Sign() <= 0 {
		return Measure{}, nil
	}
	left = Max(RoundTo(left, grain), grain)
	var m Measure
	for i, u := range units {
		n := left.Div(mustBase(u, s))
		if i < len(units)-1 {
			n = n.Floor()
		}
		if n.Sign() > 0 {
			m.Terms = append(m.Terms, Term{Value: Exactly(n), Unit: u})
			left = left.Sub(n.Mul(mustBase(u, s)))
		}
	}
	return m, nil
}

func cascadeUnits(d Dimension, s System) ([]*Unit, Number) {
	old := s == US || s == Imperial
	switch {
	case d == Mass && old:
		return []*Unit{pound, ounce}, Frac(1, 4)
	case d == Mass:
		return []*Unit{kilogram, gram}, Int(1)
	case d == Length && old:
		return []*Unit{inch}, Frac(1, 8)
	case d == Length:
		return []*Unit{centimetre, millimetre}, Int(1)
	case d == Volume && s == US:
		return []*Unit{gallon, quart, pint, cup, tablespoon, teaspoon}, Frac(1, 4)
	case d == Volume && s == Imperial:
		return []*Unit{gallon, quart, pint, fluidOunce}, Frac(1, 2)
	case d == Volume:
		return []*Unit{litre, millilitre}, Int(1)
	}
	return nil, Number{}
}
