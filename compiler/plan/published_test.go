package plan

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
)

// Published instances:
//
//	go test -v ./compiler/plan -run Published -args -instances DIR -budget 1s
//
// reads every .sm, .mm and .sch under DIR and prints a line for each: makespan, lower bound,
// proven or not, seconds. What is known of them is read from bounds.csv beside them or above;
// there need be none. A file that is no instance (PSPLIB keeps its tables of results under the
// same endings) is named and left out. Without -instances it reads the few in testdata, in
// short. Without -v, go test shows the lines only if something fails.
//
// Where go test would end before all had their budget, each has less: -timeout 0 lifts that.

var (
	instances = flag.String("instances", "", "folder of .sm, .mm and .sch instances")
	budget    = flag.Duration("budget", time.Second, "time for each instance, at most")
)

// stepsFor maps a time to steps, as calibrated on one core of a common machine (BENCHMARKS.md).
func stepsFor(p *Problem, d time.Duration) int {
	perSecond := 25e6 / float64(len(p.Activities)+20)
	if _, ok := asClassic(p); !ok {
		perSecond /= deadEnd
	}
	return max(50, int(d.Seconds()*perSecond))
}

// capped is a context that is done when the process has used a certain time of a core, so
// that measurements do not depend on what else the machine does.
type capped struct {
	context.Context
	until time.Duration
}

func (c capped) Err() error {
	if spent, known := effort.Spent(); known && spent > c.until {
		return context.DeadlineExceeded
	}
	return nil
}

// tally sums up one folder.
type tally struct {
	n, optimal, proven, infeasible, missed int
	overCritical, worst, seconds           float64
}

func TestPublished(t *testing.T) {
	dir, each, long := *instances, *budget, true
	if dir == "" {
		dir, each, long = filepath.Join("..", "..", "testdata", "psplib"), 300*time.Millisecond, false
	}
	say := func(line string) {
		if long {
			fmt.Println(line)
		} else {
			t.Log(line)
		}
	}
	var paths []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if ext := strings.ToLower(filepath.Ext(path)); err == nil && !d.IsDir() && (ext == ".sm" || ext == ".mm" || ext == ".sch") {
			paths = append(paths, path)
		}
		return err
	})
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	sums := map[string]*tally{}
	known := map[string]map[string]published{}
	var folders []string
	for i, path := range paths {
		p, err := readInstance(path)
		if errors.Is(err, errNoInstance) {
			say(err.Error())
			continue
		}
		if err != nil {
			t.Error(err)
			continue
		}
		folder := filepath.Dir(path)
		if sums[folder] == nil {
			sums[folder] = &tally{}
			folders = append(folders, folder)
			known[folder], err = readBounds(folder, dir)
			require.NoError(t, err)
		}
		k, ok := known[folder][filepath.Base(path)]
		if !ok {
			k, ok = known[folder][strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))]
		}
		say(runPublished(t, path, p, each, share(t, each, len(paths)-i), k, ok, sums[folder]))
	}
	require.NotEmpty(t, folders, "no instance among %d files", len(paths))
	for _, folder := range folders {
		s := sums[folder]
		line := fmt.Sprintf("%s: %d instances, best known %d, missed %d, proven %d, no plan (proven) %d; mean over critical path %.3f%%, worst over best known %.2f%%; mean %.3f s",
			folder, s.n, s.optimal, s.missed, s.proven, s.infeasible, 100*s.overCritical/float64(max(1, s.n-s.infeasible-s.missed)), 100*s.worst, s.seconds/float64(s.n))
		say(line)
	}
}

// share is the time an instance may have of what go test leaves for so many: twice the same
// part for all, since most are done sooner.
func share(t *testing.T, each time.Duration, left int) time.Duration {
	end, ok := t.Deadline()
	if !ok {
		return each
	}
	return min(each, max(time.Until(end)-10*time.Second, 0)*9/10*2/time.Duration(max(2, left)))
}

// runPublished solves one instance, checks it, and adds it up. Most is the cap on its time,
// budget or less.
func runPublished(t *testing.T, path string, p *Problem, budget, most time.Duration, k published, isKnown bool, sum *tally) string {
	began, _ := effort.Spent()
	out, err := Solve(capped{context.Background(), began + most}, p, Budget{Seed: 1, Steps: stepsFor(p, budget)})
	ended, _ := effort.Spent()
	seconds := (ended - began).Seconds()
	sum.n++
	sum.seconds += seconds
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if err != nil && !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("%s: %v", path, err)
	}
	s := out.Solution
	if s == nil {
		proven := err == nil && out.Conflict != nil && out.Conflict.Proven
		if proven {
			sum.infeasible++
			if isKnown && k.status != "infeasible" {
				t.Errorf("%s: a plan of %d is known", path, k.ub)
			}
			return fmt.Sprintf("%-14s no plan, proven %24.3f s", name, seconds)
		}
		sum.missed++
		return fmt.Sprintf("%-14s no plan found %26.3f s", name, seconds)
	}
	for _, v := range Verify(p, s) {
		t.Errorf("%s: %v", path, v)
	}
	made := s.Score[0]
	if s.Proven {
		sum.proven++
	}
	cp := criticalPath(p)
	sum.overCritical += float64(made-cp) / float64(max(1, cp))
	note := ""
	if isKnown {
		if made < k.lb || k.status == "infeasible" || s.Bound > k.ub || s.Proven && made != k.ub && k.status == "optimal" {
			t.Errorf("%s: makespan %d, bound %d, proven %v; published %v", path, made, s.Bound, s.Proven, k)
		}
		sum.worst = max(sum.worst, float64(made-k.ub)/float64(max(1, k.ub)))
		if made <= k.ub {
			sum.optimal++
		}
		if made < k.ub {
			note = fmt.Sprintf(" below the best known %d", k.ub)
		} else if made > k.ub {
			note = fmt.Sprintf(" best known %d", k.ub)
		}
	}
	return fmt.Sprintf("%-14s %5d, at least %5d, proven %-5v %6.3f s%s", name, made, s.Bound, s.Proven, seconds, note)
}

// criticalPath is the longest path by the lags alone, each activity in its shortest mode.
func criticalPath(p *Problem) int {
	at := make([]int, len(p.Activities))
	short := make([]int, len(p.Activities))
	for i, a := range p.Activities {
		short[i] = slices.MinFunc(a.Modes, func(a, b Mode) int { return a.Duration - b.Duration }).Duration
	}
	for range p.Activities {
		for _, l := range p.Lags {
			from := at[l.Before.Activity]
			if l.Before.Edge == End {
				from += short[l.Before.Activity]
			}
			at[l.After.Activity] = max(at[l.After.Activity], from+l.Gap)
		}
	}
	longest := 0
	for i := range at {
		longest = max(longest, at[i]+short[i])
	}
	return longest
}
