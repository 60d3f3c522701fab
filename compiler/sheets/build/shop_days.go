package build

import (
	"cmp"
	"slices"
	"time"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/events"
)

// Where a menu says on which days there is shopping, what keeps is bought on the
// first of them, and what does not on the first from which it keeps until it is used.

// errand is a thing to buy and the day for it.
type errand struct {
	of      *buying.Item
	counter int // its place on the way round the shop
	day     int // the serving's being 0
}

// shopDays are the days of shopping by their numbers, in order.
func (b *builder) shopDays() (out []int) {
	m := b.meal.Menu
	if m == nil || m.Serve == nil {
		return nil
	}
	y, month, d := m.Serve.Date()
	serve := time.Date(y, month, d, 0, 0, 0, 0, time.UTC)
	for _, day := range m.Shop {
		if n := int(day.Sub(serve) / (24 * time.Hour)); !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	slices.Sort(out)
	return out
}

// daysSaid says which days of shopping there are.
func (b *builder) daysSaid(days []int) (out []string) {
	for _, d := range days {
		out = append(out, "shop on "+b.dayTitle(d))
	}
	if len(days) > 1 {
		out = append(out, "what keeps is bought first, what does not near its use")
	}
	return out
}

// byDay puts things of one counter in the order of the days on which they are bought.
func (b *builder) byDay(items []*buying.Item, days []int) (out []errand) {
	for i, it := range items {
		e := errand{of: it}
		if i > 0 {
			e.counter = out[i-1].counter
			if it.Counter != items[i-1].Counter || it.Cupboard != items[i-1].Cupboard {
				e.counter++
			}
		}
		if len(days) > 1 {
			e.day = b.buyOn(it, days)
		}
		if it.Cupboard {
			e.day = 0
		}
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(x, y errand) int {
		return cmp.Or(cmp.Compare(x.counter, y.counter), cmp.Compare(x.day, y.day))
	})
	return out
}

// buyOn is the day on which a thing is bought: the first from which it keeps until
// its last use; of what keeps no such time, the last before its first use.
func (b *builder) buyOn(it *buying.Item, days []int) int {
	first, last := b.used(it)
	keeps := it.Keeps()
	best := days[0]
	for _, d := range days {
		if d > first {
			break
		}
		best = d
		if keeps == 0 || last-d <= keeps {
			break
		}
	}
	return best
}

// used is the first and the last day on which a step or a preparation wants a thing.
func (b *builder) used(it *buying.Item) (first, last int) {
	for i, u := range it.Uses {
		from, to := b.usedOn(u.Amount)
		if i == 0 {
			first, last = from, to
		}
		first, last = min(first, from), max(last, to)
	}
	return first, last
}

func (b *builder) usedOn(a *demand.Amount) (first, last int) {
	if b.plan == nil {
		return 0, 0
	}
	known := false
	see := func(m events.Moment) {
		d := b.plan.Day(m)
		if !known {
			first, last, known = d, d, true
		}
		first, last = min(first, d), max(last, d)
	}
	for _, e := range b.plan.JobsOf(a.Making) {
		switch {
		case e.Line == a:
			see(e.Start)
		case e.Step != nil && e.Step.TakesOf(a.Line):
			see(e.Start)
		}
	}
	if !known {
		by, _ := b.wanted(a)
		see(by)
	}
	return first, last
}
