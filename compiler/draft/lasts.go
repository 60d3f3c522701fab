package draft

import (
	"strings"

	"tamis/lang/prose"
)

// A label that says how long the cooking takes: "10 lb., 4 hours; 15 lb., 5 hours", "4 hours
// to simmer gently". Its time is offered to the step in which the cooking is.

var (
	weights = lazily(`(?i)(\d[\d/-]*)(?:\s*(?:to|or|–)\s*(\d[\d/-]*))?\s*(lb|pound|kg|kilo)s?\b\.?`)
	cooking = lazily(`(?i)\b(?:simmer|boil|roast|bak(?:e|ing)|stew|bast(?:e|ing)|fire|spit|steam|cook|fry|poach|brais)`)
)

// lasts offers what a label says of the time of cooking, where no step has a time.
func (r *recipe) lasts(said string) {
	at := -1
	for i, s := range r.steps {
		if strings.Contains(s.margin, "leave") || strings.Contains(s.margin, "watch") || strings.Contains(s.margin, "stand") {
			if cooking.MatchString(s.text) {
				return
			}
			continue
		}
		if at < 0 && cooking.MatchString(s.text) {
			at = i
		}
	}
	if at < 0 {
		return
	}
	clause := byWeight(said)
	if clause == "" {
		times := prose.Read(said).Times
		if len(times) != 1 || times[0].Role > prose.AtMost {
			return
		}
		clause = "leave " + times[0].Span.String() + " ?"
	}
	s := &r.steps[at]
	margin := clause
	if s.margin != "" {
		margin = s.margin + " | " + clause
	}
	if _, ok := laid("dish X\n  gather\n    salt\n  method\n    - Do.\n      | " + margin + "\n"); ok {
		s.margin = margin
	}
}

// byWeight is a time that goes by the weight, as the notation has it; empty: there is none.
func byWeight(said string) string {
	var points []string
	for part := range strings.SplitSeq(said, ";") {
		m := weights.FindStringSubmatch(part)
		times := prose.Read(part).Times
		if m == nil || len(times) != 1 {
			continue
		}
		unit := strings.ToLower(m[3][:2])
		if unit == "po" || unit == "lb" {
			unit = "lb"
		} else {
			unit = "kg"
		}
		low, high := times[0].Span, times[0].Span
		low.High, high.Low = low.Low, high.High
		switch {
		case m[2] != "" && low.Low != high.High:
			points = append(points, low.String()+" at "+m[1]+" "+unit, high.String()+" at "+m[2]+" "+unit)
		case m[2] == "" && low.Low == high.High:
			points = append(points, low.String()+" at "+m[1]+" "+unit)
		}
	}
	if len(points) == 0 {
		return ""
	}
	return "leave " + strings.Join(points, ", ") + " ?"
}
