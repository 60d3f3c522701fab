package quantity

// Quantity is an amount in canonical form, exact and ready for sums. Value is
// in g, ml, mm or pieces by Dim. Unit is set for Word, Vague and Batch, which
// count only their own kind; it is nil for the rest. The zero Quantity is
// nothing of anything, and adds to everything.
type Quantity struct {
	Dim   Dimension
	Unit  *Unit
	Value Range

	// Packs is set when the amount was written in packages; Value is then the
	// contents of all of them.
	Packs *Packs

	// Rough is set when the size is not exact although it has a figure: a
	// heaped, rounded, level or scant spoon. It is reckoned as a plain one.
	Rough bool
}

// Packs is how many packages an amount was written in, and what each holds.
type Packs struct {
	Count     Range
	Each      Quantity
	Container *Unit // nil if the writer left it out
}

// Pieces is a bare count.
func Pieces(n Number) Quantity { return Quantity{Value: Exactly(n)} }

// Grams is a mass.
func Grams(n Number) Quantity { return Quantity{Dim: Mass, Value: Exactly(n)} }

// Millilitres is a volume.
func Millilitres(n Number) Quantity { return Quantity{Dim: Volume, Value: Exactly(n)} }

// Of is n of a unit: of a word, vague or batch unit any system will do.
func Of(n Number, u *Unit, s System) (Quantity, *Problem) {
	return Measure{Terms: []Term{{Value: Exactly(n), Unit: u}}}.Quantity(s)
}

// Quantity is the canonical value of a measure under the system of its folder.
// It is a Problem when a regional unit has no size there, or when the terms do
// not belong together.
func (m Measure) Quantity(s System) (Quantity, *Problem) {
	var sum Quantity
	for i, t := range m.Terms {
		q, p := t.quantity(s)
		if p != nil {
			return Quantity{}, p
		}
		if i == 0 {
			sum = q
			continue
		}
		if sum, p = sum.Add(q); p != nil {
			return Quantity{}, p
		}
	}
	return sum, nil
}

func (t Term) quantity(s System) (Quantity, *Problem) {
	u := t.Unit
	if u == nil {
		return Quantity{Value: t.Value}, nil
	}
	switch u.Dim {
	case None, Word, Vague, Batch:
		return Quantity{Dim: u.Dim, Unit: u, Value: t.Value}, nil
	}
	size, ok := u.Base(s)
	if !ok {
		return Quantity{}, unsized(u, s)
	}
	rough := false
	switch t.Modifier {
	case "heaped", "rounded", "scant":
		rough = true
	}
	return Quantity{Dim: u.Dim, Value: t.Value.Mul(size), Rough: rough}, nil
}

// unsized says why a unit has no size in a system.
func unsized(u *Unit, s System) *Problem {
	switch {
	case u.Regional && s == NoSystem:
		return &Problem{
			Code: CodeNoSystem, Message: "how large is a " + u.Name + " here?",
			Help: "write `units metric`, `units US`, `units imperial` or `units AU` in the larder or the dish",
		}
	case u.Regional:
		sizes := ""
		for _, other := range []System{Metric, US, Imperial} {
			if n, ok := u.Base(other); ok {
				if sizes != "" {
					sizes += ", "
				}
				sizes += "`units " + string(other) + "` (" + round3(n) + " ml)"
			}
		}
		return &Problem{
			Code: CodeNotThere, Message: "there is no " + string(s) + " " + u.Name,
			Help: "write it in another unit, or say whose " + u.Name + " it is: " + sizes,
		}
	}
	return &Problem{Code: CodeNoSize, Message: "a " + u.Name + " has no fixed size"}
}

// Quantity is the canonical value of an amount for a number of covers, which
// matters only to PerHead. Of a Paired amount the first measure counts;
// packages are multiplied out and kept in Packs. A percentage has no value of
// its own: it is a Problem, and the caller multiplies Percent itself.
func (a Amount) Quantity(s System, covers int) (Quantity, *Problem) {
	switch a.Kind {
	case Percent:
		return Quantity{}, &Problem{
			Code: CodePercent, Message: a.String() + " of what?",
			Help: "write the percentages in a list headed `gather, percent of` and the flour's name",
		}
	case Packages:
		each, p := a.Each.Quantity(s)
		if p != nil {
			return Quantity{}, p
		}
		q := each
		q.Value = Range{a.Count.Low.Mul(each.Value.Low), a.Count.High.Mul(each.Value.High)}
		q.Packs = &Packs{Count: a.Count, Each: each, Container: a.Container}
		return q, nil
	case PerHead:
		q, p := a.Measure.Quantity(s)
		if p != nil {
			return Quantity{}, p
		}
		q = q.Scale(Frac(int64(max(covers, 0)), int64(max(a.PerCovers, 1))))
		if a.Plus.IsZero() {
			return q, nil
		}
		plus, p := a.Plus.Quantity(s)
		if p != nil {
			return Quantity{}, p
		}
		return q.Add(plus)
	}
	q, p := a.Measure.Quantity(s)
	if p != nil && (p.Code == CodeNoSystem || p.Code == CodeNotThere) {
		if of := a.likely(); of != NoSystem { // 1/2 pint (300 ml)
			return a.Measure.Quantity(of)
		}
	}
	return q, p
}

// IsZero tells whether it is nothing, of whatever kind.
func (q Quantity) IsZero() bool { return q.Value.Low.IsZero() && q.Value.High.IsZero() }

// Same tells whether two quantities can be added and compared.
func (q Quantity) Same(o Quantity) bool { return q.Dim == o.Dim && q.Unit == o.Unit }

// Equal tells whether two quantities are the same, leaving Packs and Rough
// aside. Two nothings are equal whatever they are nothing of.
func (q Quantity) Equal(o Quantity) bool {
	return q.Value.Equal(o.Value) && (q.Same(o) || q.IsZero())
}

// Add is q + o. Nothing adds to everything; otherwise the kinds must agree.
func (q Quantity) Add(o Quantity) (Quantity, *Problem) {
	switch {
	case q.IsZero():
		o.Rough = o.Rough || q.Rough
		return o, nil
	case o.IsZero():
		q.Rough = q.Rough || o.Rough
		return q, nil
	case !q.Same(o):
		return Quantity{}, kinds(q, o, "added")
	}
	sum := Quantity{
		Dim: q.Dim, Unit: q.Unit, Rough: q.Rough || o.Rough,
		Value: Range{q.Value.Low.Add(o.Value.Low), q.Value.High.Add(o.Value.High)},
	}
	if a, b := q.Packs, o.Packs; a != nil && a.Alike(b) {
		sum.Packs = &Packs{
			Each: a.Each, Container: a.Container,
			Count: Range{a.Count.Low.Add(b.Count.Low), a.Count.High.Add(b.Count.High)},
		}
	}
	return sum, nil
}

// Alike tells whether packages are of one kind and size; nil is none.
func (p *Packs) Alike(o *Packs) bool {
	if p == nil || o == nil {
		return p == o
	}
	return p.Container == o.Container && p.Each.Equal(o.Each)
}

// Sub is q - o, which may be below 0. Low is taken from low and high from
// high: 2 to 3 lemons less 1 leave 1 to 2.
func (q Quantity) Sub(o Quantity) (Quantity, *Problem) {
	if o.IsZero() {
		return q, nil
	}
	if !q.IsZero() && !q.Same(o) {
		return Quantity{}, kinds(q, o, "taken from each other")
	}
	low, high := q.Value.Low.Sub(o.Value.Low), q.Value.High.Sub(o.Value.High)
	return Quantity{Dim: o.Dim, Unit: o.Unit, Rough: q.Rough || o.Rough, Value: Range{Min(low, high), Max(low, high)}}, nil
}

// Scale is q × n, packages too.
func (q Quantity) Scale(n Number) Quantity {
	q.Value = q.Value.Mul(n)
	if q.Packs != nil {
		packs := *q.Packs
		packs.Count = packs.Count.Mul(n)
		q.Packs = &packs
	}
	return q
}

// Cmp compares the larger ends, by which things are bought.
func (q Quantity) Cmp(o Quantity) (int, *Problem) {
	if !q.Same(o) && !q.IsZero() && !o.IsZero() {
		return 0, kinds(q, o, "compared")
	}
	return q.Value.High.Cmp(o.Value.High), nil
}

// Ratio is q ÷ o by the larger ends; o must not be nothing.
func (q Quantity) Ratio(o Quantity) (Number, *Problem) {
	if o.Value.High.IsZero() || !q.Same(o) && !q.IsZero() {
		return Number{}, kinds(q, o, "divided")
	}
	return q.Value.High.Div(o.Value.High), nil
}

func kinds(a, b Quantity, verb string) *Problem {
	p := &Problem{
		Code:    CodeKinds,
		Message: a.plain() + " and " + b.plain() + " cannot be " + verb + ": one is " + a.kind() + ", the other " + b.kind(),
	}
	switch {
	case a.Dim == Mass && b.Dim == Volume || a.Dim == Volume && b.Dim == Mass:
		p.Help = "put what 1 ml weighs in the larder: `| weighs 1.03 g per ml`"
	case a.countable() && b.Dim == Mass || b.countable() && a.Dim == Mass:
		p.Help = "put what one weighs in the larder: `| piece 120 g`"
	default:
		p.Help = "write both in one unit"
	}
	return p
}

func (q Quantity) countable() bool { return q.Dim == None || q.Dim == Word }

// kind says what a quantity is, for messages.
func (q Quantity) kind() string {
	switch q.Dim {
	case Mass:
		return "a weight"
	case Volume:
		return "a volume"
	case Length:
		return "a length"
	case None:
		return "a number of pieces"
	}
	return "a number of " + q.Unit.Plural
}

// plain is a quantity in its own unit, to about three figures, for messages.
func (q Quantity) plain() string {
	s := round3(q.Value.Low)
	if q.Value.IsRange() {
		s += " to " + round3(q.Value.High)
	}
	if q.Unit != nil {
		return s + " " + q.Unit.For(q.Value)
	}
	if u := baseUnit(q.Dim); u != "" {
		return s + " " + u
	}
	return s
}
