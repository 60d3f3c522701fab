package plantext

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"

	"tamis/compiler/timeline"
)

// WriteLate writes the rest of a plan after a delay: whether the courses are on
// time, what would help if they are not, how much moves, and the run sheet from
// that moment on. The error is w's.
func WriteLate(w io.Writer, old *timeline.Timeline, r *timeline.Replanned) error {
	var b strings.Builder
	ends := r.Now + r.By
	fmt.Fprintf(&b, "%s ends at %s instead of %s, %s late.\n", r.Job.Said(), old.OnDay(ends, timeline.FloorDiv(ends, timeline.Day) != timeline.FloorDiv(r.Now, timeline.Day)), old.OnDay(r.Now, false), timeline.SpanWords(r.By))
	if r.Timeline == nil {
		b.WriteString("There is no plan for what is left.\n")
	} else {
		b.WriteString(courses(r))
	}
	if r.Why != "" {
		b.WriteString("Why: " + r.Why + ".\n")
	}
	for _, c := range r.Cures {
		b.WriteString("What would mend it: " + c + ".\n")
	}
	if r.Why != "" && len(r.Cures) == 0 {
		b.WriteString("Nothing that was tried would mend it.\n")
	}
	for _, c := range r.Tried {
		b.WriteString(capitalised(c) + ".\n")
	}
	if r.Timeline != nil {
		b.WriteString(movedWords(r.Moved) + ".\n")
		for _, o := range r.Over {
			b.WriteString(capitalised(o) + ".\n")
		}
		fmt.Fprintf(&b, "\nFrom %s on\n", r.TimeText(r.Now))
		b.WriteString(byDay(r.Timeline, rest(r)))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func capitalised(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}

func movedWords(moved []timeline.Move) string {
	later, earlier, most := 0, 0, 0
	for _, m := range moved {
		if by := m.Job.Start() - m.Was; by > 0 {
			later++
			most = max(most, by)
		} else {
			earlier++
		}
	}
	var out []string
	if later > 0 {
		out = append(out, fmt.Sprintf("%s later, by up to %s", beginWords(later), timeline.SpanWords(most)))
	}
	if len(moved) == 0 {
		return "Nothing else moves"
	}
	if earlier > 0 {
		out = append(out, fmt.Sprintf("%s earlier", beginWords(earlier)))
	}
	return strings.Join(out, "; ")
}

func beginWords(n int) string {
	if n == 1 {
		return "1 job begins"
	}
	return fmt.Sprintf("%d jobs begin", n)
}

// courses says which courses still to come are late.
func courses(r *timeline.Replanned) string {
	var late, said []string
	left := 0
	for _, s := range r.Servings {
		if s.Served < r.Now || slices.Contains(said, s.Course) {
			continue
		}
		said = append(said, s.Course)
		left++
		if s.Served > s.At {
			name := s.Course
			if name == "" {
				name = "serving"
			}
			late = append(late, fmt.Sprintf("%s is %s late: %s instead of %s", name, timeline.SpanWords(s.Served-s.At), r.TimeText(s.Served), r.TimeText(s.At)))
		}
	}
	switch {
	case len(late) > 0:
		return capitalised(strings.Join(late, "; ")) + ".\n"
	case left == 1:
		return "It is still served on time.\n"
	}
	return "All courses are still on time.\n"
}

// rest is the run sheet from the moment on, with the times that have changed.
func rest(r *timeline.Replanned) (out []entry) {
	was := map[*timeline.Job]timeline.Minute{}
	for _, m := range r.Moved {
		was[m.Job] = m.Was
	}
	for _, e := range entries(r.Timeline) {
		running := e.job != nil && e.rank == jobRank && e.job.End() > r.Now
		if e.at < r.Now && !running {
			continue
		}
		if at, ok := was[e.job]; ok && e.rank == jobRank {
			e.cells[4] += " · was " + r.OnDay(at, timeline.FloorDiv(at, timeline.Day) != timeline.FloorDiv(e.at, timeline.Day))
		}
		e.mark = false // the chain is the whole meal's
		if e.job == r.Job && e.rank == jobRank {
			e.cells[4] += fmt.Sprintf(" · %s longer", timeline.SpanWords(r.By))
		}
		out = append(out, e)
	}
	return out
}
