package timeline

import (
	"context"
	"os"
	"testing"
	"time"

	"tamis/compiler/plan"
)

func TestLadder(t *testing.T) {
	dir := os.Getenv("TDIR")
	if dir == "" {
		t.Skip()
	}
	meals, _ := loaded(t, dir)
	for _, m := range meals {
		a := &attempts{ctx: context.Background(), meal: m, opt: Options{Grid: 5, Steps: defaultSteps}}
		for _, set := range a.ladder() {
			start := time.Now()
			d := translate(m, set, nil)
			t1 := time.Since(start)
			out, err := plan.Solve(context.Background(), &d.p, plan.Budget{Steps: defaultSteps})
			took := time.Since(start)
			t.Logf("%+v: acts %d lags %d horizon %d coarse %v translate %v solve %v steps %d err %v", set, len(d.p.Activities), len(d.p.Lags), d.p.Horizon, d.coarse, t1, took, out.Steps, err)
			if out.Solution != nil {
				t.Logf("   score %v bound %d proven %v", out.Solution.Score, out.Solution.Bound, out.Solution.Proven)
			} else {
				t.Logf("   conflict %+v", out.Conflict)
				c := d.clashOf(out.Conflict)
				t.Log("   ", c.because(d, ""))
			}
		}
	}
}
