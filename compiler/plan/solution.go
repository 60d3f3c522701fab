package plan

import "context"

// Solution is a plan.
type Solution struct {
	Options []int    // the option taken, for each branch
	Tasks   []Task   // for each activity
	States  []Steady // the settings of resources with a State rule, in order of resource and time
	Score   Score
	Bound   int // no plan has a smaller Score[0]
	// Bounds says of each place of the score that no plan as good in all places before it
	// has a smaller value there. The first is Bound.
	Bounds Score
	Proven bool // no plan has a smaller Score, taken whole
}

// Task is the place of one activity in the plan.
type Task struct {
	On         bool // false: its When does not hold, and nothing else here counts
	Start, End int
	Mode       int
	Members    []int // for each use of the mode, the resource taken
	Settings   []int // for each use of the mode, the state given (0 where none was asked)
}

// Steady is a spell in which a resource is held at one setting. Making ready lasts from
// Ready to From (a preheat, or a change from the setting before); the uses lie in [From, To).
type Steady struct {
	Resource        int
	Ready, From, To int
	Setting         int
}

// Score measures a plan; smaller is better, and an earlier place decides before a later.
// Under Kitchen the places are Lateness, Waiting, Lead, Earliness and Cost. Under Makespan
// the first place is the makespan, the last is Cost, and those between are 0.
type Score [5]int

// The places of a kitchen's score.
const (
	Lateness  = iota // sum over dues of weight x time late
	Waiting          // sum over waits of weight x time beyond free
	Lead             // horizon less the first use of a Hands resource (of any activity, if there are no hands)
	Earliness        // sum over activities that take place of horizon less start
	Cost             // sum of the costs of options of branches and of modes taken
)

// Less says whether s is the better of the two.
func (s Score) Less(t Score) bool {
	for i := range s {
		if s[i] != t[i] {
			return s[i] < t[i]
		}
	}
	return false
}

// Conflict is a set of rules that cannot all be kept, as small as could be found: leaving
// out any one of them would, as far as the search could tell, let a plan be made. The slices
// hold indices into those of the Problem.
type Conflict struct {
	Activities []int // whose durations, hours and deadlines take part
	Resources  []int // whose capacity, calendar or state takes part
	Lags       []int
	Dues       []int // taken as hard
	Branches   []int // fixed ones whose option takes part
	Horizon    bool  // the end of the time allowed takes part
	Proven     bool  // false: no plan was found within the budget, but there may be one
}

// Budget limits and steers a search. The zero value is a sensible default.
type Budget struct {
	Seed uint64
	// Steps limits the work: one is about one plan made or one dead end of the search (in the
	// classical problem, where plans are made a hundred times faster, a dead end counts
	// several). Looking for a conflict may take twice as much again. 0 chooses by the size of
	// the problem, to take some tenths of a second.
	Steps int
	// NoConflict leaves out the search for what is in conflict when there is no plan:
	// the Conflict then names no rules, and only says whether it is proven.
	NoConflict bool
	// Enough, if set, is a score that need not be bettered in its last place that counts
	// time (Earliness of a kitchen): a plan as good in all places up to it ends the search
	// there. Where a rule was added to a problem, it is what was had without.
	Enough *Score
	// Starts, if set, is when each activity begins, -1 where that is open: only the rest is
	// looked for, and with all of them given nothing is left to be made better.
	Starts []int
	// Progress, if set, is told of every better plan, from the goroutine of the caller.
	Progress func(Progress)
}

// Progress is what is known so far.
type Progress struct {
	Score Score
	Bound int
	Steps int
}

// Outcome is what a search ends with: a Solution, or a Conflict, and the steps it took.
type Outcome struct {
	Solution *Solution
	Conflict *Conflict
	Steps    int
}

// Solve searches for the best plan. The error is for malformed problems (see
// [Problem.Check]) and for a context done before any plan was found; a context done later
// ends the search with the best plan so far. A problem that has no plan is no error: the
// outcome holds a Conflict.
func Solve(ctx context.Context, p *Problem, b Budget) (Outcome, error) {
	return solve(ctx, p, b)
}

// Explain says why the plan cannot be on time: it takes every due as hard and looks for a
// conflict. An outcome with a Solution means that it can.
func Explain(ctx context.Context, p *Problem, b Budget) (Outcome, error) {
	hard := *p
	hard.Dues = append([]Due(nil), p.Dues...)
	for i := range hard.Dues {
		hard.Dues[i].Hard = true
	}
	return solve(ctx, &hard, b)
}
