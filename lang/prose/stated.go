package prose

import (
	"strings"
	"time"

	"tamis/lang/ast"
	"tamis/lang/format"
	"tamis/lang/quantity"
)

// Stated is one step of a passage, with a margin that says nothing but what the passage
// says: no guess of how long "until golden" is, no sum and no double.
type Stated struct {
	From, To int    // bytes of the text
	Margin   string // each clause with a `?`; may be empty
	Timed    bool   // the margin says how long
	Fired    bool   // it says where: an oven, a ring, a grill, a place
}

// Parts makes steps of a passage whose margin is yet to be written. Where it has two times
// one after the other, it is parted between them. oven is the heat an oven was set to
// before; after is that for what follows.
func Parts(text string, oven *Heat) (out []Stated, after *Heat) {
	return parts(text, 0, oven, 8)
}

func parts(text string, at int, oven *Heat, deep int) (out []Stated, after *Heat) {
	said := Read(text)
	of := said.Offer(Given{}, oven)
	after = oven
	for _, s := range of.Stages {
		if deep > 0 {
			if cut := said.between(s.From, s.To); cut > s.From {
				for _, half := range [2][2]int{{s.From, cut}, {cut, s.To}} {
					var more []Stated
					more, after = parts(text[half[0]:half[1]], at+half[0], after, deep-1)
					out = append(out, more...)
				}
				continue
			}
		}
		p := Stated{From: at + s.From, To: at + s.To}
		var clauses []ast.Clause
		often := said.repeats(s.Clauses) // how long each time is would be a guess
		for _, c := range s.Clauses {
			if t, timed := c.Clause.(*ast.Timed); timed && often && t.Spell.Every != nil {
				continue
			}
			if len(s.Moments) > 0 || c.Weighed || !said.states(c.Clause) {
				continue // the reading offers what is due
			}
			clauses = append(clauses, c.Clause)
			switch c := c.Clause.(type) {
			case *ast.Timed:
				p.Timed = true
			case *ast.Stay:
				p.Timed, p.Fired = true, true
			case *ast.Heat, *ast.Ring, *ast.InPlace:
				p.Fired = true
			case *ast.Named:
				p.Fired = p.Fired || c.Word == "grill"
			}
		}
		if len(clauses) > 0 {
			p.Margin = format.Margin(clauses)
		}
		out = append(out, p)
	}
	if len(of.Stages) == 1 || after == oven {
		after = of.Oven
	}
	return out, after
}

// repeats tells whether one of the clauses is done again and again, and how long each time
// is a guess.
func (s *Said) repeats(clauses []Clause) bool {
	for _, c := range clauses {
		if t, ok := c.Clause.(*ast.Timed); ok && t.Spell.Every != nil && !s.states(t) {
			every := *t
			every.Spell.Fixed, every.Spell.Per = nil, nil
			if s.states(&every) {
				return true
			}
		}
	}
	return false
}

// between is where a stage is parted that has two times of two acts; 0: it is not.
func (s *Said) between(from, to int) int {
	r := s.r
	var first *Time
	for i := range s.Times {
		t := &s.Times[i]
		if t.From < from || t.To > to || t.Brackets || t.Role > AtMost {
			continue
		}
		if first == nil {
			first = t
			continue
		}
		act := first.next // what is done next begins before it
		for _, a := range r.acts(s.Times) {
			if r.words[a.word].from > first.To && r.words[a.word].from < t.From {
				act = a.word + 1
				break
			}
		}
		for w := first.next; w <= t.word; w++ {
			if w == t.word && r.words[w].stop == 0 {
				break
			}
			strong := r.words[w].stop == ';' || r.words[w].stop == '.' || r.low(w) == "then" || r.says(w, "after", "which") || w == t.word
			if strong || w+1 == t.word && r.low(w) == "and" || w < act && (r.words[w].stop != 0 || r.low(w) == "and") {
				if !r.runsOn(w) {
					return r.words[w].from
				}
			}
		}
		first = t
	}
	return 0
}

// runsOn tells whether what begins at word i still belongs to what stands before it: how it
// is done, or until when.
func (r *reader) runsOn(i int) bool {
	for leads[r.low(i)] {
		i++
	}
	if _, time, _ := r.spanAtSafe(i); time || r.says(i, "after", "which") || (r.low(i) == "a" || r.low(i) == "an" || r.low(i) == "for") && (r.low(i+1) == "further" || r.low(i+1) == "a" && r.low(i+2) == "further") {
		return false // the next time itself
	}
	w := r.low(i)
	return strings.HasSuffix(w, "ing") || runOn[w]
}

var runOn = set("until till or if with without covered uncovered per a on each turned but so as when which that")

// states tells whether a clause has no length of time but those that the text says.
func (s *Said) states(c ast.Clause) bool {
	said := map[time.Duration]bool{}
	for _, t := range s.Times {
		if t.Role == Side || t.Role == AtMost {
			continue // the one is told of both together, the other from nothing on
		}
		for _, d := range []time.Duration{t.Span.Low, t.Span.High, t.Span.UpTo} {
			said[d] = true
		}
	}
	all := true
	look := func(spans ...*quantity.Span) {
		for _, sp := range spans {
			if sp != nil && !sp.Overnight {
				all = all && said[sp.Low] && said[sp.High] && (sp.UpTo == 0 || said[sp.UpTo])
			}
		}
	}
	switch c := c.(type) {
	case *ast.Timed:
		look(c.Spell.Fixed, c.Spell.Per, c.Spell.Every)
	case *ast.Stay:
		look(&c.Keep.Time)
	case *ast.Heat:
		for _, p := range c.Phases {
			look(p.For)
		}
	case *ast.Degrees:
		look(c.For)
	case *ast.Timing:
		look(c.Time)
	case *ast.Hold:
		look(c.UpTo)
	}
	return all
}
