package check

import (
	"sort"
	"strings"
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// saying is the prose of a step or a moment as one text, with the places its
// words were written at.
type saying struct {
	text   string
	lines  []resolve.Text
	starts []int // where each line begins in text
	known  *told // what was read of it already; nil: nothing
}

// told is what more than one rule wants to know of a saying.
type told struct {
	sentences [][2]int
	times     []saidTime
}

// sayingOf reads written lines as one text, joined by blanks.
func sayingOf(lines []resolve.Text) saying {
	s := saying{lines: lines}
	var b strings.Builder
	for i, l := range lines {
		if i > 0 {
			b.WriteByte(' ')
		}
		s.starts = append(s.starts, b.Len())
		b.WriteString(l.Text)
	}
	s.text = b.String()
	return s
}

// place is where the bytes from and to of the text were written.
func (s saying) place(from, to int) source.Span {
	if len(s.lines) == 0 {
		return source.Span{}
	}
	at := func(off int) int {
		i := max(sort.SearchInts(s.starts, off+1)-1, 0)
		return s.lines[i].Span.Start + off - s.starts[i]
	}
	return s.lines[0].Span.File.Span(at(from), at(max(to-1, from))+1)
}

// find is where a pattern stands, as spans of the text.
func (s saying) find(re *pattern) [][]int { return re.FindAllStringIndex(s.text, -1) }

var sentenceEnd = mustCompile(`[.!?]["')]*(\s+|$)`)

// sentences are the spans of the sentences of the text.
func (s saying) sentences() (out [][2]int) {
	if s.known != nil {
		return s.known.sentences
	}
	from := 0
	for _, m := range sentenceEnd.FindAllStringIndex(s.text, -1) {
		out = append(out, [2]int{from, m[1]})
		from = m[1]
	}
	if strings.TrimSpace(s.text[from:]) != "" {
		out = append(out, [2]int{from, len(s.text)})
	}
	return out
}

// sentenceAt is the sentence that byte i of the text stands in.
func (s saying) sentenceAt(i int) string {
	from, to := s.sentenceSpan(i)
	return s.text[from:to]
}

// saidTime is a length of time in prose.
type saidTime struct {
	from, to int
	span     quantity.Span
}

var (
	figureStart = mustCompile(`(?:^|[\s(])(\d|½|¼|¾)`)
	wordTime    = mustCompile(`(?i)\b(half an hour|an hour and a half|overnight|(a|an|one|two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty|thirty|forty|fifty) (second|minute|hour|day|week)s?)\b`)
	timeNumbers = map[string]int{
		"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
		"twelve": 12, "fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
	}
	timeNames = map[string]time.Duration{
		"second": time.Second, "minute": time.Minute, "hour": time.Hour, "day": 24 * time.Hour, "week": 7 * 24 * time.Hour,
	}
)

// times are the lengths of time that the text tells, in figures or in words.
func (s saying) times() (out []saidTime) {
	if s.known != nil {
		return s.known.times
	}
	end := 0
	for _, m := range figureStart.FindAllStringSubmatchIndex(s.text, -1) {
		at := m[2]
		if at < end {
			continue
		}
		span, n, problems := quantity.ReadSpan(s.text[at:], quantity.Options{Prose: true})
		if n == 0 || len(problems) > 0 || span.UpTo > 0 || at+n < len(s.text) && s.text[at+n] == '-' {
			continue
		}
		out = append(out, saidTime{at, at + n, span})
		end = at + n
	}
	for _, m := range wordTime.FindAllStringSubmatchIndex(s.text, -1) {
		words := strings.ToLower(s.text[m[2]:m[3]])
		var d time.Duration
		switch {
		case words == "overnight":
			out = append(out, saidTime{m[2], m[3], quantity.Span{Low: quantity.OvernightLow, High: quantity.OvernightHigh, Overnight: true}})
			continue
		case words == "half an hour":
			d = 30 * time.Minute
		case words == "an hour and a half":
			d = 90 * time.Minute
		default:
			n := timeNumbers[strings.ToLower(s.text[m[4]:m[5]])]
			d = time.Duration(n) * timeNames[strings.ToLower(s.text[m[6]:m[7]])]
		}
		out = append(out, saidTime{m[2], m[3], quantity.Span{Low: d, High: d, About: true}})
	}
	return out
}

// mine tells whether a place stands in the text of the recipe itself: a step
// that came with `as … but` is judged where it is written.
func mine(r *resolve.Recipe, at source.Span) bool {
	own := r.Span
	return at.File == own.File && at.Start >= own.Start && at.End <= own.End
}

// eachStep calls f for every step that is written in a recipe asked for.
func (p *Pass) eachStep(f func(r *resolve.Recipe, s *resolve.Step, prose saying)) {
	for _, r := range p.Recipes() {
		for _, s := range r.Steps {
			if mine(r, s.Span) {
				f(r, s, p.saying(s))
			}
		}
	}
}

// aboutText is the prose of a recipe's `about`; empty without one.
func aboutText(r *resolve.Recipe) string {
	if r.About == nil {
		return ""
	}
	return r.About.Text.Text
}

// clausesOf are the clauses of a step and of its moments.
func clausesOf(s *resolve.Step) []resolve.Clause {
	out := s.Margin
	for _, m := range s.Moments {
		out = append(out[:len(out):len(out)], m.Margin...)
	}
	return out
}

// firstLine is the first written line of a step, with its dash.
func firstLine(s *resolve.Step) source.Span {
	at := s.Span
	if lines := s.Lines; len(lines) > 0 {
		at.End = lines[0].Span.End
	}
	return at
}

// orTitle is where a field of a recipe stands; the title where it has none.
func orTitle(r *resolve.Recipe, at source.Span) source.Span {
	if at.IsZero() {
		return r.NameAt
	}
	return at
}
