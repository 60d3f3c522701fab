package advice

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/timeline"
)

const (
	// mostSlips is how many slips are worked out beforehand.
	mostSlips = 3
	// slipPart is by how much of its time a slip is late, in per cent, in whole fives of
	// minutes from five to thirty: common practice, no source.
	slipPart = 20
	// mostMoves is how many jobs that are done at another time a slip names.
	mostMoves = 3
)

// Slip is a job that is not done in time, and what to do then.
type Slip struct {
	Words string // a sentence, for who asks
	Brief string // in a few words, for the wall: "E3 10 min late: Pudding 14:25"
}

// Slips are the likeliest slips of an evening, worked out beforehand: of the jobs that cost
// most time by chance, what to do when one is not done in time. Cures are tried where they
// are asked for; the few words have no room for them.
func Slips(ctx context.Context, t *timeline.Timeline, cures bool) (out []Slip) {
	if t.Odds == nil || t.Late > 0 {
		return nil
	}
	for _, j := range t.Odds.Watch {
		if len(out) == mostSlips || ctx.Err() != nil {
			return out
		}
		by := min(30, max(5, timeline.CeilDiv((j.End()-j.Start())*slipPart/100, 5)*5))
		if r := replan(ctx, t, j, by, asked{why: cures}); r != nil {
			out = append(out, slip(t, j, r))
		}
	}
	return out
}

// slip says what to do: what is served when, what is begun at another time.
func slip(t *timeline.Timeline, j *timeline.Job, r *timeline.Replanned) Slip {
	name, mark := j.Say(), j.Say()
	if m := j.Mark(); m != "" {
		name, mark = m+" ("+j.Title+")", m
	}
	out := fmt.Sprintf("%s not done by %s but %s later: ", name, t.TimeText(j.End()), timeline.SpanWords(r.By))
	brief := fmt.Sprintf("%s %s late: ", mark, timeline.SpanWords(r.By))
	if r.Timeline == nil {
		return Slip{out + "no plan keeps every limit; " + strings.TrimSuffix(r.Why, ".") + ".", ""}
	}
	var does, few, said []string
	for _, s := range r.Servings {
		what := s.Course
		if what == "" {
			what = s.Name
		}
		if s.Served > s.At && !slices.Contains(said, what) {
			said = append(said, what)
			does = append(does, fmt.Sprintf("serve %s at %s", what, t.TimeText(s.Served)))
			few = append(few, what+" "+t.TimeText(s.Served))
		}
	}
	if len(does) == 0 {
		does, few = append(does, "all is still served in time"), append(few, "all in time")
	}
	n := 0
	for _, m := range r.Moved {
		if m.Job.Making == nil || m.Job.Number == 0 {
			continue
		}
		if n++; n > mostMoves {
			does = append(does, fmt.Sprintf("and %d more move", len(r.Moved)-mostMoves))
			break
		}
		does = append(does, fmt.Sprintf("%s at %s", m.Job.Mark(), t.TimeText(m.Job.Start())))
	}
	if len(r.Over) > 0 {
		does, few = append(does, r.Over[0]), nil // no few words say that
	}
	i := slices.IndexFunc(r.Cures, func(c string) bool { return !strings.HasPrefix(c, "serve ") }) // that is said already
	if !r.OnTime() && i >= 0 {
		does = append(does, "or "+r.Cures[i])
	}
	out += strings.Join(does, ", ") + "."
	if len(few) == 0 {
		return Slip{Words: out}
	}
	return Slip{out, brief + strings.Join(few, ", ")}
}
