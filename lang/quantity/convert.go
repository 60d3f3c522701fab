package quantity

// Nothing here is done by itself: whoever converts must know the density or
// the weight of a piece, and should say so beside the result.

// AsMass is the weight of a volume of something of a density in g per ml. A
// mass is returned as it is.
func (q Quantity) AsMass(density Number) (Quantity, *Problem) {
	return q.byDensity(Mass, density)
}

// AsVolume is the volume of a weight of something of a density in g per ml. A
// volume is returned as it is.
func (q Quantity) AsVolume(density Number) (Quantity, *Problem) {
	return q.byDensity(Volume, density)
}

func (q Quantity) byDensity(want Dimension, density Number) (Quantity, *Problem) {
	if q.Dim == want {
		return q, nil
	}
	if q.Dim != Mass && q.Dim != Volume {
		return Quantity{}, &Problem{
			Code: CodeKinds, Message: q.plain() + " is " + q.kind() + ": it has no volume or weight of its own",
			Help: "put what one weighs in the larder: `| piece 120 g`",
		}
	}
	if density.Sign() <= 0 {
		return Quantity{}, &Problem{
			Code: CodeNoDensity, Message: "what 1 ml of it weighs is not known",
			Help: "put it in the larder: `| weighs 1.03 g per ml`",
		}
	}
	factor := density
	if want == Volume {
		factor = Int(1).Div(density)
	}
	return Quantity{Dim: want, Value: q.Value.Mul(factor), Rough: q.Rough}, nil
}

// AsWeight is the weight of a count, or of word units, at grams each. A mass
// is returned as it is.
func (q Quantity) AsWeight(grams Number) (Quantity, *Problem) {
	if q.Dim == Mass {
		return q, nil
	}
	if !q.countable() {
		return Quantity{}, &Problem{Code: CodeKinds, Message: q.plain() + " is " + q.kind() + ", not a number of pieces"}
	}
	if grams.Sign() <= 0 {
		return Quantity{}, noPiece()
	}
	return Quantity{Dim: Mass, Value: q.Value.Mul(grams), Rough: q.Rough}, nil
}

// AsCount is how many pieces of grams each make a weight: of word units if
// unit is not nil. It is not rounded.
func (q Quantity) AsCount(grams Number, unit *Unit) (Quantity, *Problem) {
	if q.countable() && q.Unit == unit {
		return q, nil
	}
	if q.Dim != Mass {
		return Quantity{}, &Problem{Code: CodeKinds, Message: q.plain() + " is " + q.kind() + ", not a weight"}
	}
	if grams.Sign() <= 0 {
		return Quantity{}, noPiece()
	}
	c := Quantity{Unit: unit, Value: q.Value.Mul(Int(1).Div(grams)), Rough: q.Rough}
	if unit != nil {
		c.Dim = unit.Dim
	}
	return c, nil
}

func noPiece() *Problem {
	return &Problem{Code: CodeNoPiece, Message: "what one piece weighs is not known", Help: "put it in the larder: `| piece 120 g`"}
}
