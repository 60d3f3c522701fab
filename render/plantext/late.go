package plantext

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tamis/compiler/events"
)

// WriteLate writes the rest of a plan after a delay: whether the courses are on
// time, what would help if they are not, how much moves, and the run sheet from
// that moment on. The list is the plan's before the delay. The error is w's.
func WriteLate(w io.Writer, old *events.List, r *events.Rest) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s ends at %s instead of %s, %s late.\n", r.Job.Said(), old.ClockFrom(r.Now, r.Now.Add(r.By)), old.Clock(r.Now), r.By.Words())
	if r.List == nil {
		b.WriteString("There is no plan for what is left.\n")
	} else {
		b.WriteString(courses(r))
	}
	if r.Why != "" {
		b.WriteString("Why: " + r.Why + "\n")
	}
	for _, c := range r.Cures {
		b.WriteString("What would mend it: " + c + ".\n")
	}
	if r.Why != "" && len(r.Cures) == 0 {
		b.WriteString("Nothing that was tried would mend it.\n")
	}
	for _, c := range r.Tried {
		b.WriteString(events.Capital(c) + ".\n")
	}
	if r.List != nil {
		b.WriteString(movedWords(r.Was) + ".\n")
		for _, o := range r.Over {
			b.WriteString(events.Capital(o) + ".\n")
		}
		fmt.Fprintf(&b, "\nFrom %s on\n", r.List.Clock(r.Now))
		b.WriteString(byDay(r.List, rest(r)))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func movedWords(was map[*events.Event]events.Moment) string {
	later, earlier, most := 0, 0, events.Minutes(0)
	for e, at := range was {
		if by := e.Start.Since(at); by > 0 {
			later++
			most = max(most, by)
		} else {
			earlier++
		}
	}
	var out []string
	if later > 0 {
		out = append(out, fmt.Sprintf("%s later, by up to %s", beginWords(later), most.Words()))
	}
	if len(was) == 0 {
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
func courses(r *events.Rest) string {
	var late, said []string
	left := 0
	for _, s := range r.List.Each(events.Serve) {
		if s.Start < r.Now || slices.Contains(said, s.Course) {
			continue
		}
		said = append(said, s.Course)
		left++
		if by := s.Start.Since(s.Due); by > 0 {
			name := s.Course
			if name == "" {
				name = "serving"
			}
			late = append(late, fmt.Sprintf("%s is %s late: %s instead of %s", name, by.Words(), r.List.Clock(s.Start), r.List.Clock(s.Due)))
		}
	}
	switch {
	case len(late) > 0:
		return events.Capital(strings.Join(late, "; ")) + ".\n"
	case left == 1:
		return "It is still served on time.\n"
	}
	return "All courses are still on time.\n"
}

// rest is the run sheet from the moment on, with the times that have changed.
func rest(r *events.Rest) (out []entry) {
	for _, e := range entries(r.List, 1) {
		running := e.Kind == events.Job && e.End > r.Now
		if e.Start < r.Now && !running {
			continue
		}
		if at, ok := r.Was[e.Event]; ok {
			e.cells[whatCell] += " · was " + r.List.ClockFrom(e.Start, at)
		}
		e.mark = false // the chain is the whole meal's
		if e.Event == r.Job {
			e.cells[whatCell] += fmt.Sprintf(" · %s longer", r.By.Words())
		}
		out = append(out, e)
	}
	return out
}
