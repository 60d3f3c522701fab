package planner

import (
	"io"

	"tamis/compiler/events"
	"tamis/compiler/timeline"
	"tamis/render/plantext"
)

// writeWhy answers `--why` of a plan.
func writeWhy(w io.Writer, t *timeline.Timeline, j *timeline.Job) error {
	l := events.Of(t)
	return plantext.WriteWhy(w, l, l.JobOf(j))
}

// writeLate answers `--late` of a plan.
func writeLate(w io.Writer, t *timeline.Timeline, r *timeline.Replanned) error {
	l := events.Of(t)
	return plantext.WriteLate(w, l, l.RestOf(r))
}
