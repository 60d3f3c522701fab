package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A value that is still to be rounded does not keep the one before it from a round one: the
// second bake was set to 224 degrees because the third stood at 212, and then went to 220.
func TestRoundSettingsDoNotWaitForOneAnother(t *testing.T) {
	p := &Problem{Horizon: 1000, Resources: []Resource{{Name: "oven", Capacity: 2, State: &State{First: 45, Change: 1, Off: 45, Up: 2, Down: 1}}}}
	s := &Solution{}
	for _, u := range []struct{ from, to, lo, hi, at int }{{750, 790, 230, 240, 230}, {799, 831, 220, 230, 224}, {842, 856, 210, 220, 212}, {862, 876, 210, 220, 210}} {
		p.Activities = append(p.Activities, Activity{Modes: []Mode{{Duration: u.to - u.from, Uses: []Use{{Of: []int{0}, Amount: 1, State: &Range{u.lo, u.hi}}}}}})
		s.Tasks = append(s.Tasks, Task{On: true, Start: u.from, End: u.to, Members: []int{0}, Settings: []int{u.at}})
	}
	p.settle(s)
	var got []int
	for _, task := range s.Tasks {
		got = append(got, task.Settings[0])
	}
	require.Equal(t, []int{230, 230, 220, 220}, got, "one heat for two, and a change by ten")
	require.Equal(t, []Steady{{Resource: 0, From: 750, To: 831, Setting: 230, Ready: 705}, {Resource: 0, From: 842, To: 876, Setting: 220, Ready: 832}}, s.States)
}
