package prose

import (
	"strings"
	"time"

	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// parted shares the text out among its stages.
func (r *reader) parted(stages []*stage, given Given) (out []Stage) {
	if len(stages) == 0 {
		return []Stage{{To: len(r.text)}}
	}
	from := 0
	for k, s := range stages {
		to, next := len(r.text), len(r.text)
		if k+1 < len(stages) {
			to, next = r.boundary(s, stages[k+1])
		}
		out = append(out, Stage{From: from, To: to, Clauses: s.clauses(given)})
		from = next
	}
	return out
}

// ends never begin a sentence of their own behind a mark.
var ends = set("until till or about around but which with without in on at for to so by as not no when if while covered uncovered")

// boundary is where one stage ends in the text, its mark with it, and the next begins.
func (r *reader) boundary(s, next *stage) (to, from int) {
	end, first := 0, len(r.words)
	for _, a := range s.acts {
		end = max(end, a.to)
	}
	for _, a := range next.acts {
		first = min(first, a.word, r.at(0, a.from))
	}
	at := first
	for k := r.at(0, end); k <= first && k < len(r.words); k++ {
		w := r.words[k]
		joined := w.low == "and" || w.low == "then"
		if w.stop == 0 && !joined || w.stop == '(' || w.stop == '/' {
			continue
		}
		b := k
		for r.low(b) == "and" {
			b++
		}
		if l := r.low(b); w.stop != '.' && (ends[l] || strings.HasSuffix(l, "ing") || strings.HasSuffix(l, "ly") || strings.HasSuffix(l, "ed") || b > first) {
			continue
		}
		at = b
		break
	}
	prev := at
	for prev > 0 && r.low(prev-1) == "and" {
		prev--
	}
	if prev == 0 {
		return r.words[at].from, r.words[at].from
	}
	to = r.words[prev-1].to
	for to < len(r.text) && strings.IndexByte(",;.!?:)", r.text[to]) >= 0 {
		to++
	}
	if to == r.words[prev-1].to && to < len(r.text) && r.text[to] == ' ' { // the blank becomes a full stop
		to++
	}
	return to, r.words[at].from
}

// length is how long a stage is watched and left, where that is certain.
func (s *Stage) length() (sum time.Duration) {
	for _, c := range s.Clauses {
		var sp *quantity.Span
		switch c := c.Clause.(type) {
		case *ast.Timed:
			if c.Word == "work" {
				continue
			}
			if c.Spell.Per != nil {
				return 0
			}
			sp = c.Spell.Fixed
		case *ast.Stay:
			sp = &c.Keep.Time
		default:
			continue
		}
		sum += sp.High
	}
	return sum
}

// moments takes sentences that speak of a moment of a stage out of its text:
// "After 20 minutes add the beans."
func (r *reader) moments(times []Time, stages []Stage) {
	cut := func(from, to, does, end int, at func(length time.Duration) (*quantity.Span, bool)) {
		for i := range times {
			if t := &times[i]; t.Lasting() && r.words[t.word].from >= from && r.words[t.word].from < to {
				return
			}
		}
		for k := range stages {
			s := &stages[k]
			if from <= s.From || to > s.To || strings.TrimSpace(r.text[does:end]) == "" {
				continue
			}
			length := s.length()
			if length == 0 {
				return
			}
			for _, c := range s.Clauses { // a fire that is read from it is no moment's
				if c.From >= from && c.From < to {
					return
				}
			}
			if m, ok := at(length); ok {
				s.Moments = append(s.Moments, Moment{From: from, To: to, Does: does, End: end, At: m})
			}
			return
		}
	}
	for i := range times {
		t := &times[i]
		if t.Role != After && t.Role != Last || t.Span.Overnight {
			continue
		}
		at := func(length time.Duration) (*quantity.Span, bool) {
			d := t.Span.High
			if t.Role == Last {
				d = length - d
			}
			return &quantity.Span{Low: d, High: d}, d > 0 && d < length
		}
		lead := t.word
		for lead > 0 && r.stops(lead) == 0 && (r.low(lead-1) == "after" || r.low(lead-1) == "for" || r.low(lead-1) == "the" || r.low(lead-1) == "last" || r.low(lead-1) == "final" || r.low(lead-1) == "then" || r.low(lead-1) == "during" || r.low(lead-1) == "and") {
			lead--
		}
		r.momentAt(lead, t.next, cut, at)
	}
	for i := range r.words {
		n := r.any(i, "halfway through", "half way through", "half-way through", "at half time", "after half the time")
		if n == 0 {
			continue
		}
		next := i + n
		next += r.any(next, "the cooking time", "the baking time", "the cooking", "the baking", "the time", "cooking", "baking")
		r.momentAt(i, next, cut, func(time.Duration) (*quantity.Span, bool) { return nil, true })
	}
}

// momentAt finds what is done at the moment that words lead to next speak of.
func (r *reader) momentAt(lead, next int, cut func(from, to, does, end int, at func(time.Duration) (*quantity.Span, bool)), at func(time.Duration) (*quantity.Span, bool)) {
	parts := func(k int) bool { return k >= len(r.words) || r.stops(k) == '.' || r.stops(k) == ';' }
	switch {
	case lead < len(r.words) && parts(lead) && next < len(r.words) && !parts(next):
		end := next
		for !parts(end) {
			end++
		}
		to := r.words[end-1].to
		for to < len(r.text) && strings.IndexByte(".;!", r.text[to]) >= 0 {
			to++
		}
		cut(r.words[lead].from, to, r.words[next].from, to, at)
	case parts(next) && lead > 0 && r.stops(lead) == 0:
		from := lead
		for !parts(from) {
			from--
		}
		to := r.words[next-1].to
		for to < len(r.text) && strings.IndexByte(".;!", r.text[to]) >= 0 {
			to++
		}
		cut(r.words[from].from, to, r.words[from].from, r.words[lead].from, at)
	}
}

// Note reads the note behind a gathered line, "soaked overnight": how long that
// is. Nil: it says nothing of the kind.
func Note(text string) *Clause {
	r := &reader{text: text, words: cut(text)}
	for i := range r.words {
		s, next, ok := r.spanAt(i)
		if !ok || s.named {
			continue
		}
		from, about := i, s.about
		for k := r.before(from, "about", "around", "at least", "for"); k > 0; k = r.before(from, "about", "around", "at least", "for") {
			about = about || r.low(from-k) == "about" || r.low(from-k) == "around"
			s.least = s.least || r.low(from-k) == "at"
			from -= k
		}
		s.about = about
		v := ""
		for k := from - 1; k >= 0 && k >= from-5 && r.stops(k+1) == 0; k-- {
			if v = infinitive(r.low(k)); v != "" {
				break
			}
		}
		kind := verbs[v].kind
		if v == "" || v == "keep" || kind != Leave || r.low(next) == "before" || r.low(next) == "ago" {
			return nil
		}
		span := s.span()
		return &Clause{Clause: &ast.Timed{Lead: ast.Lead{Word: "leave", Offered: true}, Spell: ast.Spell{Fixed: &span}}, From: r.words[0].from, To: r.words[next-1].to}
	}
	return nil
}
