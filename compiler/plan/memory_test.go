package plan

import (
	"context"
	"fmt"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
)

// twoPots are two pots of 30 and 20 minutes on some rings, both due at 60.
func twoPots(rings int) *Problem {
	on := func(name string, d int) Activity {
		return Activity{Name: name, Modes: []Mode{{Duration: d, Uses: []Use{{Of: []int{0}, Amount: 1}}}}}
	}
	return &Problem{
		Horizon: 60, Resources: []Resource{{Name: "ring", Capacity: rings}}, Activities: []Activity{on("stew", 30), on("rice", 20)},
	}
}

// What is remembered is what is worked out, of the very problem, and nobody can change it.
func TestMemoryIsTheSolution(t *testing.T) {
	var m Memory
	ctx := context.Background()
	for _, rings := range []int{1, 2, 1, 2} {
		for _, b := range []Budget{{}, {Seed: 3}, {Steps: 40}} {
			want, err := Solve(ctx, twoPots(rings), b)
			require.NoError(t, err)
			got, err := m.Solve(ctx, twoPots(rings), b)
			require.NoError(t, err)
			require.Equal(t, want, got)
			got.Solution.Tasks[0].Start = -9 // a caller's own
			got.Solution.Tasks[0].Members[0] = -9
		}
	}
	require.Equal(t, 6, m.Solved())
	none := twoPots(1)
	none.Horizon = 40
	for range 2 {
		want, err := Solve(ctx, none, Budget{})
		require.NoError(t, err)
		got, err := m.Solve(ctx, none, Budget{})
		require.NoError(t, err)
		require.Equal(t, want, got, "that there is no plan is remembered, with what is in conflict")
		require.NotNil(t, got.Conflict)
		got.Conflict.Activities[0] = -9
	}
	brief, err := m.Solve(ctx, none, Budget{NoConflict: true})
	require.NoError(t, err)
	require.Empty(t, brief.Conflict.Activities, "another question")
	var nobody *Memory
	got, err := nobody.Solve(ctx, twoPots(2), Budget{})
	require.NoError(t, err)
	require.NotNil(t, got.Solution)
}

// A plan that was stopped is not the best there is, and is not kept; a problem that is
// malformed is an error each time; what is old is forgotten.
func TestMemoryForgets(t *testing.T) {
	var m Memory
	over, stop := context.WithCancel(context.Background())
	stop()
	_, _ = m.Solve(over, twoPots(1), Budget{})
	got, err := m.Solve(context.Background(), twoPots(1), Budget{})
	require.NoError(t, err)
	require.NotNil(t, got.Solution)
	require.Equal(t, 2, m.Solved())
	for range 2 {
		_, err = m.Solve(context.Background(), &Problem{Activities: []Activity{{Name: "no mode"}}}, Budget{})
		require.Error(t, err)
	}
	for n := range mostKept + 3 {
		p := twoPots(2)
		p.Name = fmt.Sprint(n)
		_, err := m.Solve(context.Background(), p, Budget{})
		require.NoError(t, err)
	}
	require.Len(t, m.known, mostKept)
	require.Len(t, m.order, mostKept)
}

// All of a question is written down, or two that differ would be taken for one: whatever is
// changed in it, the key is another.
func TestNothingOfAProblemIsHidden(t *testing.T) {
	whole := func() (*Problem, *Budget) {
		p, b := &Problem{}, &Budget{}
		fill(reflect.ValueOf(p).Elem())
		fill(reflect.ValueOf(b).Elem())
		return p, b
	}
	text := func(p *Problem, b *Budget) string {
		return string(written(written(nil, reflect.ValueOf(p)), reflect.ValueOf(*b)))
	}
	seen := map[string]bool{text(whole()): true}
	for n := 0; ; n++ {
		p, b := whole()
		left := n
		if change(reflect.ValueOf(p).Elem(), &left); left >= 0 {
			change(reflect.ValueOf(b).Elem(), &left)
		}
		if left >= 0 {
			require.Greater(t, n, 80)
			return
		}
		require.False(t, seen[text(p, b)], "change %d", n)
		seen[text(p, b)] = true
	}
}

// fill gives slices one element and pointers something to point to.
func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem())
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fill(v.Index(0))
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i))
		}
	}
}

// change changes the part of a value with a number, which is then below 0: a length, or what
// has no parts.
func change(v reflect.Value, left *int) {
	here := func() bool { *left--; return *left == -1 }
	switch v.Kind() {
	case reflect.Bool:
		if here() {
			v.SetBool(!v.Bool())
		}
	case reflect.Int:
		if here() {
			v.SetInt(7)
		}
	case reflect.Uint8, reflect.Uint64:
		if here() {
			v.SetUint(7)
		}
	case reflect.String:
		if here() {
			v.SetString("x")
		}
	case reflect.Pointer:
		if here() {
			v.SetZero()
			return
		}
		change(v.Elem(), left)
	case reflect.Slice:
		if here() {
			v.Set(reflect.AppendSlice(v, v))
			return
		}
		fallthrough
	case reflect.Array:
		for i := 0; i < v.Len() && *left >= 0; i++ {
			change(v.Index(i), left)
		}
	case reflect.Struct:
		for i := 0; i < v.NumField() && *left >= 0; i++ {
			change(v.Field(i), left)
		}
	}
}
