package planner

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/attempt"
	"tamis/lang/diag"
)

var printTable = flag.Bool("table", false, "print what habits and moves make of the plans of the examples")

// figures of a plan that a head chef looks at first.
var columns = []struct {
	name string
	of   func(*pinup) int
}{
	{"cut again", func(p *pinup) int { return p.measure["cut again"] }},
	{"knife work in service, min", func(p *pinup) int { return p.measure["knife in window"] }},
	{"last half hour, %", func(p *pinup) int { return p.measure["peak load"] }},
	{"hot waiting, min", func(p *pinup) int { return p.measure["hot waiting"] }},
	{"idle before the rush, min", func(p *pinup) int { return p.measure["idle before rush"] }},
	{"hand-overs", func(p *pinup) int { return len(p.found[sameCook]) + len(p.owned[sameCook]) }},
	{"nameless", func(p *pinup) (n int) {
		for _, rule := range []string{putIn, takeOut, lit, ovenOff, servedBy} {
			n += len(p.found[rule]) + len(p.owned[rule])
		}
		return n
	}},
}

// asTheEngineHasIt plans a meal with none of the habits and none of the moves after it.
func asTheEngineHasIt(m *demand.Meal) *timeline.Timeline {
	opt := timeline.Options{Grid: 5, Steps: attempt.DefaultSteps, Known: &known}
	a := &attempt.Attempts{Ctx: context.Background(), Meal: m, Opt: opt, Diags: &diag.List{}}
	for _, set := range ladder(a) {
		if r := a.Try(set, false); r != nil && r.Solution != nil && r.Better(a.Best) {
			a.Best = r
		}
		if a.Best != nil && a.Best.OnTime() {
			break
		}
	}
	if a.Best == nil {
		return nil
	}
	return a.Best.Answer(opt, nil)
}

// What habits and moves are for: over all the examples there is less of each thing that a
// head chef would strike out than in the plans of the engine alone. With -table it prints
// the table that BENCHMARKS.md has:
//
//	go test ./compiler/timeline/planner -run TestHabitsPay -v -args -table
func TestHabitsPay(t *testing.T) {
	var before, after [7]int
	var b strings.Builder
	for _, root := range []string{"../../../examples", "../../../testdata/menus"} {
		for _, dir := range folders(t, root) {
			meals, _ := mealsOf(t, os.DirFS(dir))
			for _, m := range meals {
				if m.Menu == nil {
					continue
				}
				plain, line := asTheEngineHasIt(m), Plan(context.Background(), m, timeline.Options{Known: &known}, &diag.List{})
				if plain == nil || line == nil {
					continue
				}
				was, is := breaches(plain, ""), breaches(line, "")
				fmt.Fprintf(&b, "| %s |", filepath.Base(dir))
				for i, c := range columns {
					before[i] += c.of(was)
					after[i] += c.of(is)
					fmt.Fprintf(&b, " %d → %d |", c.of(was), c.of(is))
				}
				b.WriteString("\n")
			}
		}
	}
	fmt.Fprint(&b, "| in all |")
	for i := range columns {
		fmt.Fprintf(&b, " %d → %d |", before[i], after[i])
	}
	if *printTable {
		t.Logf("\n%s", b.String())
	}
	for i, c := range columns {
		switch c.name {
		case "hot waiting, min", "idle before the rush, min", "nameless":
			require.LessOrEqual(t, after[i], before[i]*3/2+5, c.name) // these may give way a little
		default:
			require.Less(t, after[i], before[i], c.name)
		}
	}
}
