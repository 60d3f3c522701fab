package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
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
