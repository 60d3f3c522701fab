package quantity

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNumbersAreExact(t *testing.T) {
	third := Frac(1, 3)
	require.True(t, third.Add(third).Add(third).Equal(Int(1)))
	require.True(t, Decimal("0.1").Add(Decimal("0.2")).Equal(Decimal("0.3")))
	var zero Number
	require.True(t, zero.IsZero())
	require.True(t, zero.Add(Int(2)).Equal(Int(2)))
	for text, want := range map[string][2]int64{"2.5": {2, 3}, "-2.5": {-3, -2}, "3": {3, 3}, "-0.1": {-1, 0}} {
		n := Decimal(text)
		require.True(t, n.Floor().Equal(Int(want[0])), text)
		require.True(t, n.Ceil().Equal(Int(want[1])), text)
	}
	v, ok := Decimal("7.9").Int64()
	require.True(t, ok)
	require.EqualValues(t, 7, v)
	_, ok = Int(1 << 62).Mul(Int(4)).Int64()
	require.False(t, ok)
	for _, bad := range []string{"", "1e5", "0x10", "abc", "1_0"} {
		require.Panics(t, func() { Decimal(bad) }, bad)
	}
	require.Panics(t, func() { MustUnit("frond") })
}

func TestNumberText(t *testing.T) {
	for text, want := range map[string]string{"0.5": "1/2", "1.5": "1 1/2", "0.125": "1/8", "0.35": "0.35", "2": "2", "0": "0", "-1.5": "-1 1/2", "0.0625": "1/16", "6.625": "6 5/8"} {
		require.Equal(t, want, Decimal(text).Text(false), text)
	}
	require.Equal(t, "0,35", Decimal("0.35").Text(true))
	require.Equal(t, "1/7", Frac(1, 7).Text(false))
	require.Equal(t, "3 2/7", Frac(23, 7).Text(true))
	require.Equal(t, "1.5 kg", Term{Value: Exactly(Frac(3, 2)), Unit: MustUnit("kg")}.String(), "metric units take decimals")
	require.Equal(t, "1 1/2 lb", Term{Value: Exactly(Frac(3, 2)), Unit: MustUnit("lb")}.String())
	require.Equal(t, "1 1/3 litres", Term{Value: Exactly(Frac(4, 3)), Unit: MustUnit("litre")}.String())
}

// Half goes up, as on US TM 10-412 card A-1(1).
func TestRoundTo(t *testing.T) {
	for _, c := range []struct{ n, step, want string }{
		{"2.5", "1", "3"}, {"2.49", "1", "2"}, {"12.5", "5", "15"}, {"0.375", "0.25", "0.5"}, {"-2.5", "1", "-2"}, {"0", "5", "0"},
	} {
		require.True(t, RoundTo(Decimal(c.n), Decimal(c.step)).Equal(Decimal(c.want)), c.n)
	}
}

func TestScaleTakesPackagesAlong(t *testing.T) {
	a := amountOf(t, "2 x 400 g tins")
	q, p := a.Quantity(Metric, 1)
	require1(t, p)
	three := q.Scale(Frac(3, 2))
	require.Equal(t, "3", three.Packs.Count.String())
	require.Equal(t, "1200", three.Value.High.String())
	require.Equal(t, "2", q.Packs.Count.String(), "the first is not changed")
	require.True(t, Amount{}.IsZero())
	require.False(t, a.IsZero())
}

// Every operation on small figures gives what math/big gives, also where the
// result outgrows them and where it shrinks again; and a number has one form.
func TestSmallNumbersReckonLikeBigOnes(t *testing.T) {
	figures := rapid.OneOf(rapid.Int64Range(-12, 12), rapid.Int64Range(-1<<31-2, -1<<31+3), rapid.Int64Range(1<<31-3, 1<<31+2), rapid.Int64())
	rapid.Check(t, func(t *rapid.T) {
		var n [2]Number
		var r [2]*big.Rat
		for i := range n {
			a, b := figures.Draw(t, "a"), figures.Draw(t, "b")
			if b == 0 {
				b = 1
			}
			n[i], r[i] = Frac(a, b), big.NewRat(a, b)
			if b == 1 {
				require.Equal(t, n[i], Int(a))
			}
		}
		same := func(got Number, want *big.Rat) {
			require.Equal(t, want.RatString(), got.String())
			require.Equal(t, got.r != nil, !fits(want), "one form for each number")
			require.Equal(t, want.Sign(), got.Sign())
			require.Equal(t, want.IsInt(), got.IsInt())
			f, _ := want.Float64()
			require.Equal(t, f, got.Float())
			floor := new(big.Int).Div(want.Num(), want.Denom())
			require.Equal(t, floor.String(), got.Floor().String())
		}
		same(n[0], r[0])
		same(n[0].Add(n[1]), new(big.Rat).Add(r[0], r[1]))
		same(n[0].Sub(n[1]), new(big.Rat).Sub(r[0], r[1]))
		same(n[0].Mul(n[1]), new(big.Rat).Mul(r[0], r[1]))
		if r[1].Sign() != 0 {
			same(n[0].Div(n[1]), new(big.Rat).Quo(r[0], r[1]))
			same(n[0].Div(n[1]).Mul(n[1]), r[0])
		}
		require.Equal(t, r[0].Cmp(r[1]), n[0].Cmp(n[1]))
	})
	require.Panics(t, func() { Frac(1, 0) })
	require.Panics(t, func() { Int(1).Div(Number{}) })
	require.Equal(t, Number{}, Int(3).Sub(Int(3)), "the zero Number is nothing")
}

// fits tells whether a number can be kept in small figures.
func fits(r *big.Rat) bool {
	limit := big.NewInt(maxSmall)
	return new(big.Int).Abs(r.Num()).Cmp(limit) <= 0 && r.Denom().Cmp(limit) <= 0
}
