// Package plan is a scheduling engine. It is told of resources, activities and the rules
// between them, all in whole units of time, and answers with the best plan it can find, a
// bound on how much better any plan could be, and, where no plan exists, a small set of
// rules that cannot all hold. It knows nothing of food.
//
// # The problem
//
// A [Problem] has [Resource]s (people, hobs, ovens, tools) with capacities, opening hours
// and, for some, a state such as a temperature that everything inside must share. It has
// [Activity]s, each with one or more [Mode]s: a duration and what the activity holds, and
// when, while it lasts. [Lag]s keep moments of two activities at least, or at most, so far
// apart; a chain of lags without slack moves as one. A [Branch] is a choice between
// alternatives (straight through, or paused and brought back) that switches activities and
// lags on and off. [Due]s and [Wait]s say what being late and being kept waiting cost.
//
// This is the resource-constrained project scheduling problem with generalised precedence
// relations (time windows) and multiple modes: in the notation of the literature
// MPS|temp, with alternative subgraphs, calendars and state resources on top.
//
// # The search
//
// Two engines share the model.
//
// The general one is lazy clause generation: constraint propagation in which each deduction
// remembers its reasons, so that every dead end is turned into a new rule (a learnt clause)
// that keeps the search from failing twice for one cause. It handles everything the model
// can say, proves optima, proves that no plan exists, and is also run on parts of a plan
// while the rest stands still, to improve plans too large to solve outright.
//
// The other serves the classical problem alone (one mode, finish-to-start precedence,
// constant capacities, least makespan): a genetic search over activity lists with serial
// and parallel schedule generation and double justification.
//
// Work is counted, never timed: with the same problem, seed and budget the answer is the
// same on every machine.
//
// # Trust
//
// [Verify] checks a solution against a problem. It shares no code with the engines and no
// plan should be printed that it has not passed.
//
// Read model.go first, then solve.go and search.go, which call everything else; verify.go
// stands apart from them.
package plan
