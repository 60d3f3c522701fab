package prose

import (
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"tamis/lang/quantity"
)

// Role says what a time in a sentence is the time of.
type Role int

// The roles. Only Lasts, More, AtMost, Side and Per are how long something is done.
const (
	Lasts  Role = iota // "for 40 minutes"
	More               // "for another 10 minutes"
	AtMost             // "not more than 2 minutes"
	Side               // "3 minutes a side": the span is of both
	Per                // "20 minutes per pound"
	Base               // "and 20 minutes over"
	Every              // "every 10 minutes"
	After              // "after 20 minutes", "10 minutes later"
	Last               // "for the last 20 minutes"
	Ahead              // "2 days before serving"
	Keeps              // "keeps 3 days"
	Holds              // "keep warm for up to half an hour"
	Else               // "or 12 for hard", "if it sticks, a minute": another time for another case
	Other              // a name, an age, "within 10 minutes", "20 minutes in all"
)

// Time is a length of time in a text.
type Time struct {
	From, To int // bytes of the text
	Span     quantity.Span
	Role     Role
	Per      quantity.Measure // of Per: "1 lb", "500 g"
	Brackets bool             // it stands in brackets

	word, next int // its words
}

// Lasting tells whether it is how long something is done.
func (t *Time) Lasting() bool { return t.Role <= Per }

const (
	day   = 24 * time.Hour
	month = 30 * day
)

var timeUnits = map[string]time.Duration{
	"second": time.Second, "seconds": time.Second, "sec": time.Second, "secs": time.Second, "s": time.Second,
	"minute": time.Minute, "minutes": time.Minute, "min": time.Minute, "mins": time.Minute,
	"hour": time.Hour, "hours": time.Hour, "hr": time.Hour, "hrs": time.Hour, "h": time.Hour,
	"day": day, "days": day, "week": 7 * day, "weeks": 7 * day, "fortnight": 14 * day,
	"month": month, "months": month, "year": 365 * day, "years": 365 * day,
}

// singular are the units that name a thing when a number above one stands
// before them: a 10 minute egg.
var singular = set("second minute hour day week month year")

// numberWords may begin a number in words.
var numberWords = set("a an half one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety")

// number reads a number at word i.
func (r *reader) number(i int) (s quantity.Spoken, next int, ok bool) {
	if i >= len(r.words) || r.words[i].glue {
		return s, i, false
	}
	w := r.words[i]
	if !numberWords[w.low] && !isNumeral(r.text[w.from:]) {
		return s, i, false
	}
	text := r.text[w.from:]
	if end := closedUp(text); end > 0 {
		text = text[:end]
	}
	s, n := quantity.ReadSpoken(text, quantity.Options{Prose: true})
	if n == 0 {
		return s, i, false
	}
	next = r.at(i+1, w.from+n)
	return s, next, true
}

// closedUp is where the figures end that a unit of time stands close upon: 24hrs, 10-12mins, 45';
// 0: none does.
func closedUp(text string) int {
	end := 0
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || strings.IndexByte(".,-/", text[end]) >= 0 || strings.HasPrefix(text[end:], "–") || strings.HasPrefix(text[end:], "½") || strings.HasPrefix(text[end:], "¼") || strings.HasPrefix(text[end:], "¾")) {
		_, n := utf8.DecodeRuneInString(text[end:])
		end += n
	}
	if end > 0 && primeAt(text[end:]) {
		return end
	}
	unit := end
	for unit < len(text) && text[unit]|0x20 >= 'a' && text[unit]|0x20 <= 'z' {
		unit++
	}
	if u := strings.ToLower(text[end:unit]); end == 0 || len(u) < 2 && u != "h" && u != "m" || timeUnits[u] == 0 && u != "m" {
		return 0
	}
	return end
}

func isNumeral(text string) bool {
	if text[0] >= '0' && text[0] <= '9' {
		return true
	}
	for _, f := range [...]string{"½", "¼", "¾", "⅓", "⅔"} {
		if strings.HasPrefix(text, f) {
			return true
		}
	}
	return false
}

// span is a length of time as it was said.
type span struct {
	low, high time.Duration
	unit      time.Duration
	about     bool
	least     bool // a good hour, an hour or more
	night     bool
	more      bool // 5 more minutes
	named     bool // joined to a noun: 5-minute
}

// minutesBehind are the minutes at word k that go with the hours before it without a word of
// their own: 1h30, or "2 hours 30" before a stop. next is k where there are none.
func (r *reader) minutesBehind(k int) (more time.Duration, next int) {
	if k >= len(r.words) {
		return 0, k
	}
	w := r.words[k]
	n, err := strconv.Atoi(w.low)
	if err != nil || n >= 60 || len(w.low) != 2 {
		return 0, k
	}
	next = k + 1
	switch closed := w.from == r.words[k-1].to; {
	case closed && (timeUnits[r.low(next)] == time.Minute || r.low(next) == "m"):
		next++
	case closed:
	case w.glue, r.stops(k) != 0, next < len(r.words) && r.stops(next) == 0:
		return 0, k
	}
	return time.Duration(n) * time.Minute, next
}

// halved tells whether a hyphen joins a part to its hour and no more: half-an-hour, for another
// half-hour; but a half-hour roast is named by it.
func (r *reader) halved(i, k int, n quantity.Spoken) bool {
	return n.Part && (r.low(k) == "a" || r.low(k) == "an" || r.low(k-1) == "an" || r.low(k-1) == "a" ||
		r.before(i, "another", "further", "for", "last", "first", "every", "about", "good", "the") > 0)
}

// spanAt reads a length of time at word i, without what stands before it.
func (r *reader) spanAt(i int) (s span, next int, ok bool) {
	switch {
	case r.low(i) == "overnight":
		noun := r.before(i, "the", "an", "a", "your", "its") > 0 || i+1 < len(r.words) && (r.words[i+1].glue || r.stops(i+1) == 0 && !following[r.low(i+1)])
		return span{night: true, named: noun}, i + 1, true
	case r.says(i, "all", "night"), r.says(i, "over", "night"):
		return span{night: true}, i + 2, true
	}
	n, k, ok := r.number(i)
	if r.low(i) == "another" {
		n, k, ok, s.more = quantity.Spoken{Value: quantity.Exactly(quantity.Int(1)), Article: true}, i+1, true, true
	}
	if !ok {
		return s, i, false
	}
	if m, is := r.primed(i, k, n); is {
		return m, r.rangeOn(i, k, &m), true
	}
	if k < len(r.words) && r.words[k].glue {
		s.named = !r.halved(i, k, n)
	}
	if r.stops(k) != 0 {
		return s, i, false
	}
	if n.Part {
		if r.low(k) == "of" {
			k++
		}
		if r.low(k) == "a" || r.low(k) == "an" {
			k++
		}
	}
	if r.says(k, "or", "so") {
		s.about, k = true, k+2
	}
	for {
		switch r.low(k) {
		case "good":
			s.least = true
		case "further", "more", "extra", "additional":
			s.more = true
		case "full", "whole", "bare", "short", "scant", "brief", "little":
		case "of":
			if n.Article || n.Part {
				return s, i, false
			}
		default:
			goto unit
		}
		k++
	}
unit:
	if f, e, is := r.number(k); is && f.Part && n.Article && k > i+1 { // a full quarter of an hour
		n, k = f, e
		if r.low(k) == "of" {
			k++
		}
		if r.low(k) == "a" || r.low(k) == "an" {
			k++
		}
	} else if p := (map[string]int64{"quarter": 4, "third": 3})[r.low(k)]; p > 0 && n.Article && (k > i+1 || s.more) && r.says(k+1, "of", "an") {
		n, k = quantity.Spoken{Value: quantity.Exactly(quantity.Frac(1, p)), Part: true}, k+3
	}
	unit, is := timeUnits[r.low(k)]
	if !is && r.low(k) == "m" && k == i+1 && closedUp(r.text[r.words[i].from:]) > 0 && (r.stops(k+1) != 0 || following[r.low(k+1)]) { // rest 10m
		unit, is = time.Minute, true
	}
	if !is || k > i+1 && r.stops(k) != 0 {
		return s, i, false
	}
	if k > 0 && r.words[k].glue && !s.named {
		s.named = !r.halved(i, k, n)
	}
	if !n.Article && !n.Part && singular[r.low(k)] && quantity.Int(1).Less(n.Value.High) && k+1 < len(r.words) && r.stops(k+1) == 0 && !following[r.low(k+1)] {
		s.named = true
	}
	s.unit = unit
	s.low, s.high = timesUnit(n.Value.Low, unit), timesUnit(n.Value.High, unit)
	k++
	if unit == time.Hour {
		if more, next := r.minutesBehind(k); next > k {
			s.low, s.high, unit, k = s.low+more, s.high+more, time.Minute, next
		}
	}
	// "and a half", "and twenty minutes"
	if r.low(k) == "and" && r.stops(k) == 0 {
		if f, e, is := r.number(k + 1); is && f.Part && timeUnits[r.low(e)] == 0 && r.low(e) != "of" && r.low(e) != "the" && r.low(e) != "an" && r.low(e) != "a" {
			s.low, s.high, k = s.low+timesUnit(f.Value.High, unit), s.high+timesUnit(f.Value.High, unit), e
		}
	}
	for unit > time.Second && r.stops(k) == 0 {
		e := k
		if r.low(e) == "and" {
			e++
		}
		more, e2, is := r.number(e)
		if !is || more.Part && e == k {
			break
		}
		if more.Part && (r.low(e2) == "an" || r.low(e2) == "a") {
			break
		}
		u := timeUnits[r.low(e2)]
		if u == 0 || u >= unit {
			break
		}
		s.low, s.high = s.low+timesUnit(more.Value.Low, u), s.high+timesUnit(more.Value.High, u)
		unit, k = u, e2+1
	}
	return s, r.rangeOn(i, k, &s), true
}

// primed reads figures with the sign of minutes close upon them, 45': k is the word behind
// them. In a quotation it may be the end of that.
func (r *reader) primed(i, k int, n quantity.Spoken) (s span, ok bool) {
	if n.Article || n.Part || k <= i || !primeAt(r.text[r.words[k-1].to:]) || r.stops(k) == 0 && !following[r.low(k)] ||
		strings.Contains(r.text[:r.words[i].from], "‘") || strings.Count(r.text[:r.words[i].from], " '")%2 != 0 {
		return s, false
	}
	return span{low: timesUnit(n.Value.Low, time.Minute), high: timesUnit(n.Value.High, time.Minute), unit: time.Minute}, true
}

// primeAt tells whether a text begins with the sign of minutes, and not with that of inches
// or a letter behind an apostrophe.
func primeAt(text string) bool {
	for _, sign := range [...]string{"'", "’", "′"} {
		if rest, ok := strings.CutPrefix(text, sign); ok {
			after, _ := utf8.DecodeRuneInString(rest)
			return rest == "" || !unicode.IsLetter(after) && !unicode.IsNumber(after) && !strings.ContainsRune("'’′", after)
		}
	}
	return false
}

// rangeOn reads "to half an hour", "or two", "or so" behind a time.
func (r *reader) rangeOn(i, k int, s *span) int {
	if r.stops(k) != 0 && r.low(k) != "or" {
		return k
	}
	if k < len(r.words) { // 45 mins-1 hr
		if dash := strings.TrimSpace(r.text[r.words[k-1].to:r.words[k].from]); dash == "-" || dash == "–" {
			glued := r.words[k].glue
			r.words[k].glue = false
			if later, e, is := r.spanAt(k); is && !later.night && later.high > s.high {
				s.high, s.unit = later.high, later.unit
				return e
			}
			r.words[k].glue = glued
		}
	}
	switch {
	case r.says(k, "or", "so"), r.says(k, "or", "thereabouts"):
		s.about = true
		return k + 2
	case r.says(k, "or", "more"), r.says(k, "or", "longer"):
		s.least = true
		return k + 2
	case r.stops(k) != 0:
		return k
	case r.says(k, "at", "least"):
		s.least = true
		return k + 2
	case r.says(k, "at", "the", "least"), r.says(k, "at", "a", "minimum"), r.says(k, "as", "a", "minimum"):
		s.least = true
		return k + 3
	case r.says(k, "at", "the", "very", "least"):
		s.least = true
		return k + 4
	case r.low(k) == "minimum":
		s.least = true
		return k + 1
	case r.says(k, "at", "minimum"):
		s.least = true
		return k + 2
	case r.low(k) == "more" || r.low(k) == "longer":
		s.more = true
		return k + 1
	case r.low(k) == "to":
		if later, e, is := r.spanAt(k + 1); is && !later.night && later.high > s.high {
			s.high, s.unit = later.high, later.unit
			s.about = s.about || later.about
			return e
		}
	case r.low(k) == "or":
		n, e, is := r.number(k + 1)
		if !is || n.Article || n.Part {
			break
		}
		if timeUnits[r.low(e)] == 0 && (e >= len(r.words) || r.stops(e) != 0 || !loose[r.low(e)]) {
			if d := timesUnit(n.Value.High, s.unit); d > s.high {
				s.high = d
				return e
			}
		}
	}
	return k
}

// loose are words that a number of something else stands before: "or two of", "or 12 for hard".
var loose = set("for of if when")

// following may stand behind a time: it is no name then.
var following = set("a an the at in on to until till or and before after per for over with each every so then from by if it longer more as without under of is while stirring turning whisking basting gently covered uncovered")

func timesUnit(n quantity.Number, unit time.Duration) time.Duration {
	return time.Duration(n.Float() * float64(unit)).Round(time.Second)
}

// span makes a quantity.Span of it.
func (s span) span() quantity.Span {
	if s.night {
		return quantity.Span{Low: quantity.OvernightLow, High: quantity.OvernightHigh, Overnight: true}
	}
	out := quantity.Span{Low: s.low, High: s.high, About: s.about && !s.least && s.low == s.high, AtLeast: s.least}
	if s.least {
		out.High = out.Low
	}
	return out
}

// times reads all lengths of time in the text, with their roles.
func (r *reader) times() (out []Time) {
	var last time.Duration // unit of the time before, in this sentence
	for i := 0; i < len(r.words); {
		if r.words[i].stop == '.' {
			last = 0
		}
		s, next, ok := r.spanAt(i)
		if !ok && last > 0 {
			s, next, ok = r.bareAt(i, last)
		}
		if !ok {
			i++
			continue
		}
		t := r.timeOf(i, next, s, out)
		if !s.night {
			last = s.unit
		}
		if u, e, upto := r.permitted(t, next); upto {
			t.Span, t.To, t.next, next = u, r.words[e-1].to, e, e
		}
		out = append(out, t)
		i = next
	}
	return out
}

// bareAt reads a number whose unit the time before it has: "then a further 5",
// "then simmer for 30", "12 for hard".
func (r *reader) bareAt(i int, unit time.Duration) (s span, next int, ok bool) {
	n, k, is := r.number(i)
	if !is || n.Article || n.Part || k < len(r.words) && r.words[k].glue {
		return s, i, false
	}
	ends := k >= len(r.words) || r.stops(k) != 0 || r.low(k) == "until" || r.low(k) == "more" || r.low(k) == "and" || r.low(k) == "then"
	lead := r.before(i, "further", "another", "for", "or") > 0 || i > 0 && verbs[r.low(i-1)].kind != noKind && r.stops(i) == 0
	alternative := r.low(k) == "for" && degreeWords[r.low(k+1)] || r.before(i, "or") > 0 && (r.low(k) == "by" || r.low(k) == "with" || r.low(k) == "without") || r.low(k) == "if" && r.before(i, "or") > 0
	if !(ends && lead) && !alternative {
		return s, i, false
	}
	return span{low: timesUnit(n.Value.Low, unit), high: timesUnit(n.Value.High, unit), unit: unit}, k, true
}

// permitted reads ", or up to 2 days", "and up to 2 days" behind a time: a permission.
func (r *reader) permitted(t Time, k int) (quantity.Span, int, bool) {
	if t.Role != Lasts || t.Span.AtLeast && t.Span.Overnight {
		return t.Span, k, false
	}
	if r.low(k) == "or" || r.low(k) == "and" {
		k++
	}
	n := r.any(k, "up to", "at most", "not more than", "no more than", "no longer than", "not longer than", "for up to")
	if n == 0 {
		return t.Span, k, false
	}
	s, e, ok := r.spanAt(k + n)
	if !ok || s.night || s.high <= t.Span.Low {
		return t.Span, k, false
	}
	out := quantity.Span{Low: t.Span.Low, High: t.Span.Low, UpTo: s.high}
	return out, e, true
}

// timeOf gives a time that stands from word i to word next its role.
func (r *reader) timeOf(i, next int, s span, earlier []Time) Time {
	from := i
	role := Lasts
	switch {
	case s.named:
		role = Other
	case s.more:
		role = More
	}
	// What stands just before it.
	for again := true; again; {
		again = false
		if w := r.low(from - 1); quantity.InDoubt(w) && r.before(from, w) > 0 {
			s.about, from, again = s.about || w != "barely" && w != "just", from-1, true
		}
		if n := r.before(from, "the best part of", "best part of", "the better part of", "the greater part of", "something like", "in the region of"); n > 0 {
			s.about, from, again = true, from-n, true
		}
		if n := r.before(from, "at least", "not less than", "no less than", "at the least", "a good", "a minimum of", "minimum"); n > 0 {
			s.least, from, again = true, from-n, true
		}
		if n := r.before(from, "up to", "at most", "not more than", "no more than", "no longer than", "not longer than", "less than", "under", "for at most"); n > 0 {
			if role == Lasts {
				role = AtMost
			}
			from, again = from-n, true
		}
		if n := r.before(from, "another", "a further", "further", "an extra", "an additional"); n > 0 {
			if role == Lasts {
				role = More
			}
			from, again = from-n, true
		}
		if n := r.before(from, "from"); n > 0 && s.low < s.high {
			from, again = from-n, true
		}
		if n := r.before(from, "a"); n > 0 && s.least {
			from, again = from-n, true
		}
	}
	t := Time{From: r.words[from].from, To: r.words[next-1].to, word: from, next: next, Role: role, Brackets: r.bracketed(from)}
	t.Span = s.span()
	if role == AtMost && !s.night {
		t.Span = quantity.Span{High: s.high}
	}
	if role == Other {
		return t
	}
	r.roleBehind(&t, earlier)
	r.roleBefore(&t, earlier)
	return t
}

// bracketed tells whether word i stands in brackets.
func (r *reader) bracketed(i int) bool {
	for k := i; k >= 0 && k > i-30; k-- {
		switch r.words[k].stop {
		case '(':
			return true
		case ')', '.':
			return false
		}
	}
	return false
}

// outOfTheCold tells whether something is taken out of the fridge in the sentence of word i.
func (r *reader) outOfTheCold(i int) bool {
	from, to := r.sentence(i)
	for k := from; k < to; k++ {
		if w := r.low(k); w == "fridge" || w == "freezer" || w == "refrigerator" {
			for b := k; b >= from && b >= k-3; b-- {
				if w := r.low(b); w == "out" || w == "from" {
					return true
				}
			}
		}
	}
	return false
}

var degreeWords = set("rare medium soft hard well firm runny crisp thick thin pink large small big frozen fresh old")

// roleBehind reads what follows a time.
func (r *reader) roleBehind(t *Time, earlier []Time) {
	k := t.next
	w, stop := r.low(k), r.stops(k)
	switch {
	case stop != 0 && w != "before" && w != "later":
	case w == "of", w == "ago", w == "earlier", w == "ahead", w == "beforehand", w == "previously", w == "old", w == "in" && r.low(k+1) == "advance", w == "off":
		t.Role = Other
	case w == "later", r.says(k, "into"):
		t.Role = After
	case w == "before":
		switch next := r.low(k + 1); {
		case r.leftThere(t.word), r.before(t.word, "for", "sit", "stand", "rest", "cool", "chill", "soak", "sit about", "stand about", "rest about") > 0: // leave for 2 minutes before serving
		case r.stops(k+1) != 0 && r.outOfTheCold(t.word): // before it is cooked
			t.Role = Other
		case r.stops(k+1) != 0:
			t.Role = Ahead
		case r.any(k+1, "the end", "the end of cooking", "the end of the cooking", "it is done", "it is ready", "they are done", "they are ready", "it comes out", "the time is up") > 0:
			t.Role = Last
			t.next = k + 1 + r.any(k+1, "the end of the cooking time", "the end of the cooking", "the end of cooking", "the end of the time", "the end", "it is done", "it is ready", "they are done", "they are ready", "it comes out", "the time is up")
		case next == "serving" || next == "serve" || next == "dinner" || next == "supper" || next == "lunch" || next == "breakfast" || next == "tea" || next == "eating",
			r.any(k+1, "you serve", "you eat", "it is served", "it is wanted", "they are served", "the meal", "the table", "you want", "it is eaten", "it goes to") > 0:
			t.Role = Ahead
		default:
			t.Role = Other
		}
	case r.any(k, "a side", "each side", "per side", "on each side", "on both sides", "on either side", "a face", "for each side", "on every side", "to a side") > 0:
		t.Role = Side
		t.Span.Low, t.Span.High = 2*t.Span.Low, 2*t.Span.High
	case r.otherSide(t, k):
	case r.any(k, "in all", "altogether", "all told", "in total", "all together") > 0:
		if !r.onlyTimeOf(t, earlier) {
			t.Role = Other
		}
	case (w == "over" || w == "extra") && len(earlier) > 0 && earlier[len(earlier)-1].Role == Per:
		t.Role = Base
	case w == "for" && (r.low(k+1) == "a" || r.low(k+1) == "an") && degreeWords[r.low(k+2)] && r.stops(k+2) == 0:
		t.Role = Else
	case w == "for" && degreeWords[r.low(k+1)] && r.stops(k+1) == 0 && (r.stops(k+2) != 0 || r.low(k+2) == "done" || r.low(k+2) == "ones" || r.low(k+2) == "and"):
		t.Role = Else
	case w == "if" || w == "when" && r.low(k+1) != "the":
		t.Role = Else
	default:
		r.perWeight(t, k)
	}
}

// allowedTo tells whether something is allowed to rest, to cool, between two words: the time is
// that of what it does, and not one to be allowed for.
func (r *reader) allowedTo(from, to int) bool {
	for k := from + 1; k < to && k < from+6; k++ {
		if r.low(k) == "to" && verbs[r.low(k+1)].kind == Leave {
			return true
		}
	}
	return false
}

// leftThere tells whether something is left or let for the time at word i: "leave it ten
// minutes before you cut it".
func (r *reader) leftThere(i int) bool {
	if r.before(i, "it", "them") > 0 {
		i--
	}
	return r.before(i, "leave", "let it rest", "let it stand", "let them rest") > 0
}

// onlyTimeOf tells whether a time that is said to be all is that of what the sentence has done,
// which has no other: "brown it, a quarter of an hour altogether".
func (r *reader) onlyTimeOf(t *Time, earlier []Time) bool {
	from, _ := r.sentence(t.word)
	for _, e := range earlier {
		if e.word >= from && e.Lasting() {
			return false
		}
	}
	for k := from; k < t.word; k++ {
		if name := r.low(k); verbs[name].device != NoDevice && (r.orders(k, name) || r.before(k, "let it", "let them", "leave to", "it", "them") > 0) {
			return true
		}
	}
	return false
}

// otherSide reads "3 minutes on the first side and 2 on the second": the time is of both.
func (r *reader) otherSide(t *Time, k int) bool {
	n := r.any(k, "on the first side", "on one side", "on the first", "on the skin side", "skin side down", "on the skin", "fat side down")
	if n == 0 {
		return false
	}
	e := k + n
	if w := r.low(e); w == "and" || w == "then" {
		e++
	}
	if r.low(e) == "then" || r.low(e) == "about" {
		e++
	}
	s, next, ok := r.spanAt(e)
	if !ok {
		f, after, is := r.number(e)
		if !is || f.Article || f.Part || t.Span.High <= 0 {
			return false
		}
		unit := time.Minute
		if t.Span.High < time.Minute {
			unit = time.Second
		}
		s, next = span{low: timesUnit(f.Value.Low, unit), high: timesUnit(f.Value.High, unit)}, after
	}
	if r.any(next, "on the other", "on the second", "on the flesh", "flesh side", "on its back") == 0 {
		return false
	}
	t.Span.Low, t.Span.High = t.Span.Low+s.low, t.Span.High+s.high
	t.next, t.To = next, r.words[next-1].to
	return true
}

// mayBe and waits say together that a thing can be kept so long, and not that it is.
var (
	mayBe = set("will can may could would")
	waits = set("sit stand wait hold freeze")
)

// holdState is how something is kept for the table that is "kept hot" at word k; empty:
// it is not.
func (r *reader) holdState(k int) string {
	for e := k + 1; e <= k+3 && e < len(r.words) && r.stops(e) == 0; e++ {
		if w := r.low(e); w == "hot" || w == "warm" {
			return w
		}
	}
	return ""
}

// holdsBefore tells whether something is kept hot in the words from one to another.
func (r *reader) holdsBefore(from, to int) bool {
	for k := from; k < to; k++ {
		if w := r.low(k); (w == "keep" || w == "hold") && r.holdState(k) != "" {
			return true
		}
	}
	return false
}

// perWeight reads "per pound", "to the pound", "for every 500 g" behind a time.
func (r *reader) perWeight(t *Time, k int) {
	n := r.any(k, "per", "to the", "to each", "to every", "for each", "for every", "for the", "each", "every", "a", "the")
	if n == 0 {
		return
	}
	figure := quantity.Int(1)
	e := k + n
	if s, next, ok := r.number(e); ok && !s.Article {
		figure, e = s.Value.High, next
	}
	if e >= len(r.words) || r.stops(e) != 0 {
		return
	}
	u, size := quantity.ReadSpokenUnit(r.text[r.words[e].from:], quantity.Options{Prose: true})
	if u == nil || u.Dim != quantity.Mass || size < r.words[e].to-r.words[e].from {
		return
	}
	t.Role = Per
	t.Per = quantity.Measure{Terms: []quantity.Term{{Value: quantity.Exactly(figure), Unit: u}}}
	t.next = r.at(e, r.words[e].from+size)
	t.To = r.words[t.next-1].to
}

// roleBefore reads what leads up to a time.
func (r *reader) roleBefore(t *Time, earlier []Time) {
	i := t.word
	sentence, _ := r.sentence(i)
	if t.Role == Else || t.Role == Other || t.Role == Ahead || t.Role == Base {
		return
	}
	if t.Span.Low >= month && r.before(i, "from", "age of", "aged", "over", "until", "ages", "for ages") > 0 && t.Span.Low == t.Span.High || t.Role == AtMost && t.Span.High >= month && (r.low(i) == "under" || r.before(i, "under") > 0) { // from 8 months
		t.Role = Other
		return
	}
	if t.Span.Low >= day && !t.Span.Overnight && t.Lasting() && r.daily(sentence, i) {
		t.Role = Else
		return
	}
	switch {
	case r.before(i, "after", "when") > 0, r.whenPast(i):
		t.Role = After
	case r.before(i, "at") > 0 && !t.Span.Overnight: // turn it at 9 hours
		t.Role = After
	case r.doneIn(i) && r.onlyTimeOf(t, earlier):
	case r.before(i, "within", "in", "by", "than", "past", "first", "the first", "since", "inside", "next") > 0 && t.Role != Per:
		t.Role = Other
	case r.before(i, "last", "final") > 0:
		t.Role = Last
	case r.before(i, "every", "each") > 0:
		t.Role = Every
	case t.Span.Low == t.Span.High && t.Span.High >= day && r.before(i, "once", "twice", "times") > 0:
		t.Role = Other
	}
	if t.Role != Lasts && t.Role != More && t.Role != AtMost {
		return
	}
	for k := i - 1; k >= sentence; k-- {
		w, upTo := r.low(k), t.Role == AtMost
		switch {
		case (waits[w] || w == "rest" && upTo) && (mayBe[r.low(k-1)] || k-2 >= sentence && mayBe[r.low(k-2)]), // it will sit for an hour
			(w == "freeze" || w == "freezing" || w == "freezes") && upTo, (w == "chill" || w == "refrigerate") && upTo && t.Span.High >= day/2:
			t.Role = Keeps
			return
		case (w == "keep" || w == "hold") && r.holdState(k) != "":
			t.Role = Holds
			return
		case w == "while", verbs[w].kind != noKind && w != "keep" && w != "hold" && w != "hot" && w != "warm" && r.holdsBefore(sentence, k): // the time is of another thing than what is kept hot
			return
		}
		switch r.low(k) {
		case "keep", "keeps", "kept", "store", "stores", "stored", "lasts":
			if v := verbs[strings.TrimSuffix(r.low(k+1), "ing")]; r.low(k+1) == "stirring" || r.low(k+1) == "simmering" || r.low(k+1) == "cooking" || v.kind != noKind && r.low(k+1) != "cool" || r.keptDoing(k) {
				continue
			}
			t.Role = Keeps
			return
		}
	}
	if r.better(i) || r.before(i, "or") > 0 || r.before(i, "for") > 0 && r.low(i-2) == "or" || r.low(i-1) == "or" {
		for _, e := range earlier {
			if e.word >= sentence && e.Lasting() {
				t.Role = Else
				return
			}
		}
	}
	for k := sentence; k < i; k++ {
		if (r.low(k) == "if" || r.low(k) == "unless") && (r.stops(k) != 0 || k == sentence || r.low(k-1) == "or" || r.low(k-1) == "and") {
			t.Role = Else
			return
		}
	}
	if r.low(sentence) == "allow" && !r.allowedTo(sentence, i) || r.low(sentence) == "begin" || r.low(sentence) == "start" {
		t.Role = Other
	}
	k := i
	for k > sentence && (r.before(k, "for", "about", "only", "gently", "slowly", "well", "them", "it") > 0) {
		k--
	}
	if r.stops(k) == 0 && participles[r.low(k-1)] && !r.passive(k-1) {
		t.Role = Other
	}
}

// better tells whether the time at word i is another that would do better: "4 hours, ideally
// overnight".
func (r *reader) better(i int) bool {
	if w := r.low(i - 1); r.stops(i) == 0 && (w == "for" || w == "even" || w == "still") {
		i--
	}
	switch r.low(i - 1) {
	case "better", "ideally", "preferably", "best":
		return r.stops(i) == 0 || r.stops(i) == ',' && r.stops(i-1) != 0
	}
	return false
}

// doneIn tells whether what the sentence has done is done in the time at word i: "until
// tender, which will be in from 3 to 4 hours", "it will be ready in half an hour".
func (r *reader) doneIn(i int) bool {
	if r.before(i, "in") == 0 {
		return false
	}
	for k := i - 2; k > i-5 && k >= 0; k-- {
		if r.low(k) == "be" && (r.before(k, "will", "should", "ought to") > 0) {
			return r.low(i-2) == "be" || doneWords[r.low(i-2)]
		}
		if r.stops(k) != 0 {
			return false
		}
	}
	return false
}

// doneWords are what food is when it has had its time.
var doneWords = set("done ready tender cooked soft enough set baked boiled roasted risen")

// keptDoing tells whether something is kept doing what it does at word k: "keep it simmering",
// "keep the pot just boiling".
func (r *reader) keptDoing(k int) bool {
	for e := k + 1; e <= k+4 && e < len(r.words) && r.stops(e) == 0; e++ {
		if gerunds[r.low(e)] != "" {
			return true
		}
	}
	return false
}

// daily tells whether the sentence has something done every day up to word i: not so long at
// one go.
func (r *reader) daily(from, i int) bool {
	waits := false
	for k := from; k < i; k++ {
		v := verbs[r.low(k)]
		waits = waits || v.kind == Leave && r.orders(k, r.low(k))
		if !waits && (r.low(k) == "daily" || r.says(k, "every", "day") || r.says(k, "each", "day") || r.says(k, "a", "day") || r.says(k, "night", "and", "morning")) {
			return true
		}
	}
	return false
}

// whenPast tells whether a clause that leads up to word i says when: "when the pot has
// been going an hour".
func (r *reader) whenPast(i int) bool {
	has := false
	for k := i - 1; k >= 0; k-- {
		switch w := r.low(k); {
		case w == "when" || w == "once" || w == "after":
			return has
		case w == "has" || w == "have" || w == "had":
			has = true
		case verbs[w].kind != noKind && !has && !adjectives[w]:
			return false // "when it has boiled simmer for an hour"
		}
		if r.words[k].stop != 0 {
			return false
		}
	}
	return false
}

// passive tells whether the participle at k is an order: "should be simmered".
func (r *reader) passive(k int) bool {
	return r.before(k, "should be", "must be", "to be", "may be", "is then", "are then", "is", "be") > 0 && r.before(k, "that is", "which is", "has been") == 0
}
