package plan

import "slices"

// Tidying: where an activity wants one of a set several times, and the plan has different
// members without need, the later use goes to the member who had the earlier one. (For pools,
// see deal.) Nothing else of the plan changes, and the score does not.

func (p *Problem) tidy(s *Solution) {
	for i, t := range s.Tasks {
		if !t.On {
			continue
		}
		uses := p.Activities[i].Modes[t.Mode].Uses
		for n := range uses {
			for before := range n {
				r := t.Members[before]
				if r != t.Members[n] && sameSet(&uses[before], &uses[n]) && p.spare(s, i, n, r) {
					s.Tasks[i].Members[n] = r
					break
				}
			}
		}
	}
}

// sameSet says whether two uses without a tie ask for one of the same set.
func sameSet(a, b *Use) bool {
	return len(a.Of) == len(b.Of) && len(a.Of) > 1 && a.Tie == 0 && b.Tie == 0 &&
		slices.Equal(slices.Sorted(slices.Values(a.Of)), slices.Sorted(slices.Values(b.Of)))
}

// spare says whether resource r could take use n of task i as well, in place of its member.
func (p *Problem) spare(s *Solution, i, n, r int) bool {
	t := &s.Tasks[i]
	m := &p.Activities[i].Modes[t.Mode]
	from, to := m.Uses[n].window(m.Duration)
	from, to = t.Start+from, t.Start+to
	res := &p.Resources[r]
	if res.State != nil || res.Stock || res.Hands != p.Resources[t.Members[n]].Hands || !res.IsOpen(from, to) {
		return false
	}
	// The load is highest where some hold starts, or at from.
	moments := []int{from}
	var holds []block
	for j, other := range s.Tasks {
		if !other.On {
			continue
		}
		om := &p.Activities[j].Modes[other.Mode]
		for k, u := range om.Uses {
			a, b := u.window(om.Duration)
			a, b = other.Start+a, other.Start+b
			if other.Members[k] == r && a < to && from < b {
				holds = append(holds, block{int32(a), int32(b), int32(u.Amount)})
				moments = append(moments, max(a, from))
			}
		}
	}
	for _, at := range moments {
		load := m.Uses[n].Amount
		for _, h := range holds {
			if int(h.from) <= at && at < int(h.to) {
				load += int(h.amount)
			}
		}
		if load > res.Capacity {
			return false
		}
	}
	return true
}

// IsOpen says whether the resource can be used throughout [from, to).
func (r *Resource) IsOpen(from, to int) bool {
	if len(r.Calendar) == 0 {
		return true
	}
	for _, spell := range r.Calendar {
		if from >= to {
			return true
		}
		if spell.From <= from && from < spell.To {
			from = spell.To
		}
	}
	return from >= to
}
