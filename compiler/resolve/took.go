package resolve

import (
	"regexp"
	"strconv"
	"time"

	"tamis/lang/prose"
	"tamis/lang/quantity"
)

// Took is how long a step took somebody who cooked it, as the record says.
type Took struct {
	Step   int // counted from 1, as it is printed
	Length time.Duration
	Record *Record
}

// stepTook is where a record speaks of the time of a step.
var stepTook = regexp.MustCompile(`(?i)\bstep (\d{1,3}) (?:took|needed|wanted) (?:only |just |nearly |almost )?`)

// Took are the times that the records of a block tell: `cooked 2027-05-01: step 3 took
// 50 min`. Of a range it is the middle.
func (n *Notes) Took() (out []Took) {
	for i := range n.Cooked {
		text := n.Cooked[i].Text.Text
		for _, at := range stepTook.FindAllStringSubmatchIndex(text, -1) {
			step, err := strconv.Atoi(text[at[2]:at[3]])
			if length := lengthSaid(text[at[1]:]); err == nil && step > 0 && length > 0 {
				out = append(out, Took{step, length, &n.Cooked[i]})
			}
		}
	}
	return out
}

// besides is what a time is followed by that is no length of the step: what it took more or
// less, or the rest of a figure that was not read.
var besides = regexp.MustCompile(`(?i)^\s*(?:longer|more|less|shorter|extra|over|under|sooner|earlier|later|too |or |to |and a|and \d|[-–—:/\d])`)

// compared is a time that is said to be more or less than another.
var compared = regexp.MustCompile(`(?i)\b(?:longer|more|less|shorter|extra|another)$`)

// lengthSaid is the time with which a text begins, "50 min", "an hour and 50 minutes"; 0: it
// begins with none.
func lengthSaid(text string) time.Duration {
	span, read, _ := quantity.ReadSpan(text, quantity.Options{})
	if times := prose.Read(text).Times; len(times) > 0 && times[0].From == 0 && times[0].To > read {
		span, read = times[0].Span, times[0].To
	}
	if read == 0 || besides.MatchString(text[read:]) || compared.MatchString(text[:read]) {
		return 0
	}
	return (span.Low + span.High) / 2
}
