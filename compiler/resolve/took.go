package resolve

import (
	"regexp"
	"strconv"
	"time"

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
			span, read, _ := quantity.ReadSpan(text[at[1]:], quantity.Options{})
			if length := (span.Low + span.High) / 2; err == nil && read > 0 && step > 0 && length > 0 {
				out = append(out, Took{step, length, &n.Cooked[i]})
			}
		}
	}
	return out
}
