package quantity

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Number is an exact rational number. The zero Number is 0. A Number never
// changes once made.
//
// Nearly every number of a kitchen is a fraction of two small figures, and
// those are kept and reckoned as they are. What outgrows them is a big.Rat;
// what shrinks again is a small fraction again, so that each number has one
// form only.
type Number struct {
	num  int32    // above the stroke, -maxSmall to maxSmall
	less int32    // one less than what is below the stroke, so that the zero Number is 0/1
	r    *big.Rat // set when the two do not fit; they are 0 then
}

const maxSmall = math.MaxInt32

// Int is the whole number n.
func Int(n int64) Number {
	if -maxSmall <= n && n <= maxSmall {
		return Number{num: int32(n)}
	}
	return Number{r: new(big.Rat).SetInt64(n)}
}

// Frac is the fraction a/b; b must not be 0.
func Frac(a, b int64) Number {
	if b == 0 {
		panic("quantity: division by nothing")
	}
	if a == math.MinInt64 || b == math.MinInt64 {
		return ofRat(big.NewRat(a, b))
	}
	if b < 0 {
		a, b = -a, -b
	}
	if b != 1 {
		if g := gcd(max(a, -a), b); g != 1 {
			a, b = a/g, b/g
		}
	}
	if -maxSmall <= a && a <= maxSmall && b <= maxSmall {
		return Number{num: int32(a), less: int32(b - 1)}
	}
	return Number{r: big.NewRat(a, b)}
}

// gcd is the greatest whole number that goes into both; b is above 0.
func gcd(a, b int64) int64 {
	for a != 0 {
		a, b = b%a, a
	}
	return b
}

// ofRat is r in its one form.
func ofRat(r *big.Rat) Number {
	if r.Num().IsInt64() && r.Denom().IsInt64() {
		a, b := r.Num().Int64(), r.Denom().Int64()
		if -maxSmall <= a && a <= maxSmall && b <= maxSmall {
			return Number{num: int32(a), less: int32(b - 1)}
		}
	}
	return Number{r: r}
}

// Decimal reads a plain decimal such as "236.5882365". It panics on anything
// else: it is for tables in code, not for what a writer typed.
func Decimal(text string) Number {
	r, ok := new(big.Rat).SetString(text)
	if !ok || strings.ContainsAny(text, "eEpP_xX") {
		panic("quantity: not a decimal: " + text)
	}
	return ofRat(r)
}

// small is n as a/b, if it is kept so.
func (n Number) small() (a, b int64, ok bool) { return int64(n.num), int64(n.less) + 1, n.r == nil }

// rat is n as a big.Rat, which must not be changed.
func (n Number) rat() *big.Rat {
	if n.r == nil {
		return big.NewRat(int64(n.num), int64(n.less)+1)
	}
	return n.r
}

// Add is n + m.
func (n Number) Add(m Number) Number {
	a, b, ok1 := n.small()
	c, d, ok2 := m.small()
	if !ok1 || !ok2 {
		return ofRat(new(big.Rat).Add(n.rat(), m.rat()))
	}
	if b == d {
		return Frac(a+c, b)
	}
	return Frac(a*d+c*b, b*d) // of figures below 2^31: no int64 overflows
}

// Sub is n - m.
func (n Number) Sub(m Number) Number {
	if m.r == nil {
		m.num = -m.num
		return n.Add(m)
	}
	return ofRat(new(big.Rat).Sub(n.rat(), m.r))
}

// Mul is n × m.
func (n Number) Mul(m Number) Number {
	a, b, ok1 := n.small()
	c, d, ok2 := m.small()
	if !ok1 || !ok2 {
		return ofRat(new(big.Rat).Mul(n.rat(), m.rat()))
	}
	return Frac(a*c, b*d)
}

// Div is n ÷ m; m must not be 0.
func (n Number) Div(m Number) Number {
	a, b, ok1 := n.small()
	c, d, ok2 := m.small()
	if !ok1 || !ok2 {
		return ofRat(new(big.Rat).Quo(n.rat(), m.rat()))
	}
	return Frac(a*d, b*c)
}

// Cmp is -1, 0 or +1 as n is below, equal to or above m.
func (n Number) Cmp(m Number) int {
	a, b, ok1 := n.small()
	c, d, ok2 := m.small()
	if !ok1 || !ok2 {
		return n.rat().Cmp(m.rat())
	}
	switch x, y := a*d, c*b; {
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return 0
}

// Less tells whether n < m.
func (n Number) Less(m Number) bool { return n.Cmp(m) < 0 }

// Equal tells whether n and m are the same number.
func (n Number) Equal(m Number) bool { return n.Cmp(m) == 0 }

// Sign is -1, 0 or +1.
func (n Number) Sign() int {
	switch {
	case n.r != nil:
		return n.r.Sign()
	case n.num < 0:
		return -1
	case n.num > 0:
		return 1
	}
	return 0
}

// IsZero tells whether n is 0.
func (n Number) IsZero() bool { return n.Sign() == 0 }

// IsInt tells whether n is a whole number.
func (n Number) IsInt() bool {
	if n.r != nil {
		return n.r.IsInt()
	}
	return n.less == 0
}

// Float is the nearest float64, for drawing and for messages only.
func (n Number) Float() float64 {
	if a, b, ok := n.small(); ok {
		return float64(a) / float64(b) // both are exact, so the quotient is the nearest
	}
	f, _ := n.r.Float64()
	return f
}

// Floor is the largest whole number not above n.
func (n Number) Floor() Number {
	if a, b, ok := n.small(); ok {
		q := a / b
		if a%b < 0 {
			q--
		}
		return Int(q)
	}
	q := new(big.Int)
	q.Div(n.r.Num(), n.r.Denom()) // Euclidean: rounds down for a positive denominator
	return ofRat(new(big.Rat).SetInt(q))
}

// Ceil is the smallest whole number not below n.
func (n Number) Ceil() Number {
	f := n.Floor()
	if f.Equal(n) {
		return f
	}
	return f.Add(Int(1))
}

// Int64 is n cut to a whole number; ok is false when it does not fit.
func (n Number) Int64() (v int64, ok bool) {
	f := n.Floor()
	if f.r == nil {
		return int64(f.num), true
	}
	return f.r.Num().Int64(), f.r.Num().IsInt64()
}

// String writes the exact value: "3", "1/3", "5/2".
func (n Number) String() string {
	if n.r != nil {
		return n.r.RatString()
	}
	s := strconv.Itoa(int(n.num))
	if n.less != 0 {
		s += "/" + strconv.Itoa(int(n.less)+1)
	}
	return s
}

// Max is the larger of n and m.
func Max(n, m Number) Number {
	if n.Less(m) {
		return m
	}
	return n
}

// Min is the smaller of n and m.
func Min(n, m Number) Number {
	if m.Less(n) {
		return m
	}
	return n
}
