package timeline

import (
	"context"
	"os"
	"testing"
	"time"

	"tamis/compiler/plan"
)

func TestSteps(t *testing.T) {
	dir := os.Getenv("TDIR")
	if dir == "" {
		t.Skip()
	}
	meals, _ := loaded(t, dir)
	for _, m := range meals {
		for _, g := range []int{5, 1} {
			for _, steps := range []int{100, 300, 600, 1000, 2000, 4000, 16000} {
				start := time.Now()
				d := translate(m, setup{grid: g}, nil)
				out, err := plan.Solve(context.Background(), &d.p, plan.Budget{Steps: steps})
				took := time.Since(start)
				if out.Solution != nil {
					t.Log(g, steps, took, out.Solution.Score, out.Solution.Bound, out.Solution.Proven)
				} else {
					t.Log(g, steps, took, err)
				}
			}
		}
	}
}
