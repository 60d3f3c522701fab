package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// brokenBy is a way to spoil a plan, and the rule that is then broken.
type brokenBy struct {
	rule  string
	spoil func(p *Problem, s *Solution)
}

// The checker finds each kind of fault in a plan that was right before.
func TestVerifyFindsFaults(t *testing.T) {
	build := func() (*Problem, *Solution) {
		p := &Problem{Horizon: 100}
		cook := p.AddResource(Resource{Name: "cook", Capacity: 1, Hands: true, Calendar: []Span{{10, 100}}})
		oven := p.AddResource(Resource{Name: "oven", Capacity: 2, State: &State{First: 15, Change: 10}})
		oven2 := p.AddResource(Resource{Name: "oven 2", Capacity: 2, State: &State{First: 15, Change: 10}})
		eggs := p.AddResource(Resource{Name: "eggs", Capacity: 3, Stock: true})
		b := p.AddBranch(Branch{Options: []Option{{}, {Cost: 2}}, Fixed: true})
		mix := work(p, "mix", 10, one(cook), Use{Of: []int{eggs}, Amount: 2})
		bake := p.AddActivity(Activity{Name: "bake", Release: 5, Deadline: 95, Modes: []Mode{{Duration: 30, Uses: []Use{
			{Of: []int{oven, oven2}, Amount: 1, State: &Range{180, 200}, Tie: 1},
			{Of: []int{oven, oven2}, Amount: 1, From: 5, To: 10, State: &Range{180, 200}, Tie: 1},
		}}}})
		p.AddActivity(Activity{Name: "never", When: When{{b, 1}}, Modes: []Mode{{Duration: 1}}})
		rest := work(p, "rest", 40, one(cook))
		p.Exactly(EndOf(mix), StartOf(bake), 0, "")
		p.Dues = append(p.Dues, Due{Of: EndOf(bake), At: 90, Weight: 1, Exact: true})
		_ = rest
		return p, solved(t, p)
	}
	p, s := build()
	require.Equal(t, 60, s.Tasks[1].Start)
	require.Equal(t, 50, s.Tasks[0].Start)
	for _, c := range []brokenBy{
		{"branch", func(_ *Problem, s *Solution) { s.Options[0] = 1 }},
		{"branch", func(_ *Problem, s *Solution) { s.Options[0] = 2 }},
		{"branch", func(_ *Problem, s *Solution) { s.Tasks[0].On = false }},
		{"mode", func(_ *Problem, s *Solution) { s.Tasks[0].Mode = 1 }},
		{"mode", func(_ *Problem, s *Solution) { s.Tasks[0].Members[0] = 1 }},
		{"mode", func(_ *Problem, s *Solution) { s.Tasks[0].Members = nil }},
		{"time", func(_ *Problem, s *Solution) { s.Tasks[0].End++ }},
		{"time", func(p *Problem, _ *Solution) { p.Activities[1].Release = 61 }},
		{"time", func(p *Problem, _ *Solution) { p.Activities[1].Deadline = 89 }},
		{"time", func(p *Problem, _ *Solution) { p.Horizon = 80 }},
		{"lag", func(p *Problem, _ *Solution) { p.Lags[0].Gap = 1 }},
		{"due", func(p *Problem, _ *Solution) { p.Dues[0].At = 91 }},
		{"due", func(p *Problem, _ *Solution) { p.Dues[0] = Due{Of: EndOf(1), At: 89, Hard: true} }},
		{"capacity", func(_ *Problem, s *Solution) { s.Tasks[3].Start, s.Tasks[3].End = 45, 85 }},
		{"capacity", func(p *Problem, _ *Solution) { p.Resources[1].Capacity, p.Resources[2].Capacity = 1, 1 }},
		{"calendar", func(p *Problem, _ *Solution) { p.Resources[0].Calendar = []Span{{10, 55}, {56, 100}} }},
		{"stock", func(p *Problem, _ *Solution) { p.Resources[3].Capacity = 1 }},
		{"state", func(_ *Problem, s *Solution) { s.Tasks[1].Settings[0] = 201 }},
		{"state", func(_ *Problem, s *Solution) { s.Tasks[1].Settings[0] = 180 }},
		{"state", func(p *Problem, _ *Solution) { p.Resources[1].State.First, p.Resources[2].State.First = 61, 61 }},
		{"tie", func(_ *Problem, s *Solution) { s.Tasks[1].Members[0] = 3 - s.Tasks[1].Members[0] }},
		{"report", func(_ *Problem, s *Solution) { s.States = nil }},
		{"report", func(_ *Problem, s *Solution) { s.States[0].Ready = s.States[0].From }},
		{"report", func(_ *Problem, s *Solution) { s.Tasks = s.Tasks[1:] }},
		{"score", func(_ *Problem, s *Solution) { s.Score[Lead]++ }},
		{"score", func(_ *Problem, s *Solution) { s.Bound = 1 }},
	} {
		p, s := build()
		require.Empty(t, Verify(p, s))
		c.spoil(p, s)
		var rules []string
		for _, v := range Verify(p, s) {
			rules = append(rules, v.Rule)
		}
		require.Contains(t, rules, c.rule)
	}
	require.Equal(t, "report: no solution", Verify(p, nil)[0].String())
}

// How long a change takes counts from the setting just before: here the oven goes down from
// 2 to 0, which takes a minute, and from there up to 1 at once.
func TestReportCountsFromTheSettingBefore(t *testing.T) {
	p := &Problem{Horizon: 60}
	oven := p.AddResource(Resource{Name: "oven", Capacity: 1, State: &State{First: 1, Down: 2}})
	for _, use := range [][2]int{{34, 2}, {38, 0}, {39, 1}} {
		p.AddActivity(Activity{Release: use[0], Deadline: use[0] + 1, Modes: []Mode{{Duration: 1, Uses: []Use{
			{Of: []int{oven}, Amount: 1, State: &Range{use[1], use[1]}},
		}}}})
	}
	s := solved(t, p)
	require.Len(t, s.States, 3)
	require.Equal(t, 39, s.States[2].Ready)
	require.Empty(t, Verify(p, s))
	s.States[1].Ready = s.States[1].From
	require.Equal(t, "report: resource 0: from 2 to 0 in 0, takes 1", Verify(p, s)[0].String())
}
