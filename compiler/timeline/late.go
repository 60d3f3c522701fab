package timeline

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
)

// Delayed reads a step and by how much it is late: "Slow lamb 3 15 min", "B3
// 0:15", "B3 by 1 h 20 min". The error says what to write.
func (t *Timeline) Delayed(text string) (*Job, int, error) {
	plain := strings.TrimSpace(text)
	for _, end := range []string{"late", "later", "longer"} {
		plain = strings.TrimSpace(strings.TrimSuffix(plain, " "+end))
	}
	for i, c := range plain { // the longest end that is a length of time
		if !unicode.IsDigit(c) || i == 0 || plain[i-1] != ' ' {
			continue
		}
		n, err := lengthMeant(plain[i:])
		if err != nil || strings.Trim(plain[i:], "0123456789") == "" {
			continue
		}
		if n == 0 || n > day {
			return nil, 0, fmt.Errorf("%s late? Say from 1 min to 24 h", plain[i:])
		}
		step := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(plain[:i]), " by"))
		j, err := t.Find(strings.TrimSuffix(step, ","))
		return j, n, err
	}
	return nil, 0, errors.New("how late? Write the step and the time: `B3 15 min`")
}

// WriteLate writes the rest of a plan after a delay: whether the courses are on
// time, what would help if they are not, how much moves, and the run sheet from
// that moment on. The error is w's.
func WriteLate(w io.Writer, old *Timeline, r *Replanned) error {
	var b strings.Builder
	ends := r.Now + r.By
	fmt.Fprintf(&b, "%s ends at %s instead of %s, %s late.\n", r.Job.said(), old.onDay(ends, floorDiv(ends, day) != floorDiv(r.Now, day)), old.onDay(r.Now, false), spanWords(r.By))
	if r.Timeline == nil {
		b.WriteString("There is no plan for what is left.\n")
	} else {
		b.WriteString(r.courses())
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
		fmt.Fprintf(&b, "\nFrom %s on\n", r.clock(r.Now))
		b.WriteString(r.byDay(r.rest()))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// OnTime tells whether there is a plan for the rest and every course still to
// come is on time in it.
func (r *Replanned) OnTime() bool {
	return r.Timeline != nil && !slices.ContainsFunc(r.Servings, func(s *Serving) bool { return s.Served >= r.Now && s.Served > s.At })
}

func capitalised(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}

func movedWords(moved []Move) string {
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
		out = append(out, fmt.Sprintf("%s later, by up to %s", beginWords(later), spanWords(most)))
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
func (r *Replanned) courses() string {
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
			late = append(late, fmt.Sprintf("%s is %s late: %s instead of %s", name, spanWords(s.Served-s.At), r.clock(s.Served), r.clock(s.At)))
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
func (r *Replanned) rest() (out []entry) {
	was := map[*Job]Minute{}
	for _, m := range r.Moved {
		was[m.Job] = m.Was
	}
	for _, e := range r.entries() {
		running := e.job != nil && e.rank == jobRank && e.job.End() > r.Now
		if e.at < r.Now && !running {
			continue
		}
		if at, ok := was[e.job]; ok && e.rank == jobRank {
			e.cells[4] += " · was " + r.onDay(at, floorDiv(at, day) != floorDiv(e.at, day))
		}
		e.mark = false // the chain is the whole meal's
		if e.job == r.Job && e.rank == jobRank {
			e.cells[4] += fmt.Sprintf(" · %s longer", spanWords(r.By))
		}
		out = append(out, e)
	}
	return out
}
