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

// All of a problem can be written down, or two that differ would be taken for one.
func TestNothingOfAProblemIsHidden(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var look func(reflect.Type)
	look = func(x reflect.Type) {
		if seen[x] {
			return
		}
		seen[x] = true
		switch x.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array:
			look(x.Elem())
		case reflect.Struct:
			for f := range x.NumField() {
				require.True(t, x.Field(f).IsExported(), "%s of %s", x.Field(f).Name, x)
				require.Empty(t, x.Field(f).Tag)
				look(x.Field(f).Type)
			}
		case reflect.Func, reflect.Interface, reflect.Chan, reflect.Map:
			t.Errorf("%s cannot be written down", x)
		}
	}
	look(reflect.TypeFor[Problem]())
}
