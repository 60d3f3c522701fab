package quantity

import (
	"math/big"
	"strings"
)

// Number is an exact rational number. The zero Number is 0. A Number never
// changes once made.
type Number struct{ r *big.Rat }

// Int is the whole number n.
func Int(n int64) Number { return Number{big.NewRat(n, 1)} }

// Frac is the fraction a/b; b must not be 0.
func Frac(a, b int64) Number { return Number{big.NewRat(a, b)} }

// Decimal reads a plain decimal such as "236.5882365". It panics on anything
// else: it is for tables in code, not for what a writer typed.
func Decimal(text string) Number {
	r, ok := new(big.Rat).SetString(text)
	if !ok || strings.ContainsAny(text, "eEpP_xX") {
		panic("quantity: not a decimal: " + text)
	}
	return Number{r}
}

func (n Number) rat() *big.Rat {
	if n.r == nil {
		return new(big.Rat)
	}
	return n.r
}

// Add is n + m.
func (n Number) Add(m Number) Number { return Number{new(big.Rat).Add(n.rat(), m.rat())} }

// Sub is n - m.
func (n Number) Sub(m Number) Number { return Number{new(big.Rat).Sub(n.rat(), m.rat())} }

// Mul is n × m.
func (n Number) Mul(m Number) Number { return Number{new(big.Rat).Mul(n.rat(), m.rat())} }

// Div is n ÷ m; m must not be 0.
func (n Number) Div(m Number) Number { return Number{new(big.Rat).Quo(n.rat(), m.rat())} }

// Cmp is -1, 0 or +1 as n is below, equal to or above m.
func (n Number) Cmp(m Number) int { return n.rat().Cmp(m.rat()) }

// Less tells whether n < m.
func (n Number) Less(m Number) bool { return n.Cmp(m) < 0 }

// Equal tells whether n and m are the same number.
func (n Number) Equal(m Number) bool { return n.Cmp(m) == 0 }

// Sign is -1, 0 or +1.
func (n Number) Sign() int { return n.rat().Sign() }

// IsZero tells whether n is 0.
func (n Number) IsZero() bool { return n.Sign() == 0 }

// IsInt tells whether n is a whole number.
func (n Number) IsInt() bool { return n.rat().IsInt() }

// Float is the nearest float64, for drawing and for messages only.
func (n Number) Float() float64 { f, _ := n.rat().Float64(); return f }

// Floor is the largest whole number not above n.
func (n Number) Floor() Number {
	q := new(big.Int)
	q.Div(n.rat().Num(), n.rat().Denom()) // Euclidean: rounds down for a positive denominator
	return Number{new(big.Rat).SetInt(q)}
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
	f := n.Floor().rat().Num()
	return f.Int64(), f.IsInt64()
}

// String writes the exact value: "3", "1/3", "5/2".
func (n Number) String() string { return n.rat().RatString() }

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
