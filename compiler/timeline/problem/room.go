package problem

import "tamis/compiler/timeline"

// Room is left between the work and the table, so that a slip is not late: a habit. What
// is written of a dish binds: what is served within 5 min of the pan has no more room
// than that.

// room is how many minutes what goes to a course is ready before it must be, of so many
// that it may wait (negative: no limit), so many of them while it is plated.
func (d *Draft) room(course *Job, most, plating int) int {
	if d.Set.Keep != nil { // the evening has begun
		return 0
	}
	for i, c := range d.Courses {
		if c != course || i >= len(d.Set.Habits.Room) {
			continue
		}
		n := d.Set.Habits.Room[i]
		if most >= 0 {
			n = min(n, max(0, timeline.FloorDiv(most-plating, d.Grid)*d.Grid-d.Grid))
		}
		return n
	}
	return 0
}

// spare is the room that a link leaves: from a last step, something gathered or a task to
// its course. Where that is plated, the room lies before the plating.
func (d *Draft) spare(from, course *Job, gap, most int, w why) int {
	switch {
	case course.Kind != "" || from.Kind == "" || gap > 0:
		return 0
	case w == ForTask && most >= 0: // plating and clearing come just before the course
		return 0
	case w != ForTask && w != toTable:
		return 0
	case from.Step != nil && (from.Step.Step.DoneBefore != nil || from.Step.Step.StartBefore != nil):
		return 0
	}
	if minutes, _ := d.plating(course); minutes > 0 && w == toTable {
		return 0
	}
	return d.room(course, most, 0)
}

// HotAt is how many dishes go to a course hot.
func (d *Draft) HotAt(course *Job) (n int) {
	for _, mk := range d.Makings {
		if mk.Course == course && mk.M.Serving != nil && !mk.cold() {
			n++
		}
	}
	return n
}
