package hazard

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// clockWords are hours of the day by name. Common practice, no source.
var clockWords = map[string]int{
	"dawn": 6, "sunrise": 6, "breakfast": 8, "morning": 9, "opening": 9, "noon": 12, "midday": 12, "lunch": 13, "lunchtime": 13,
	"afternoon": 15, "teatime": 17, "closing": 18, "evening": 18, "tonight": 19, "supper": 19, "dinner": 19, "dusk": 19, "night": 22, "bedtime": 22, "midnight": 24,
}

// numberWords are the hours in words.
var numberWords = []string{"", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

var (
	hourNamed   = regexp.MustCompile(`\b(?:at|from|by|till|until|before|after|since|in|for|this|that|same|early|late)(?: the| this| that)? (dawn|sunrise|breakfast|morning|opening|noon|midday|lunch|lunchtime|afternoon|teatime|closing|evening|supper|dinner|dusk|night|bedtime|midnight)\b|\b(noon|midday|midnight|tonight)\b`)
	hourCounted = regexp.MustCompile(`\b(?:at|from|by|till|until|before|after|since|past|to)(?: about| around)? (half past |(?:a )?quarter past )?(1[0-9]|2[0-4]|[1-9]|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)(?:[:.]([0-5][0-9]))?( o'clock| ?am\b| ?pm\b| ?a\.m\.| ?p\.m\.| in the (?:morning|afternoon|evening))?([ ,.;!?)]|$)(\w*)`)
)

// hour is an hour of the day that a text names, where it stands.
type hour struct{ minute, from, to int }

// hoursIn are the hours of the day that a sentence names, in the order they stand in.
func hoursIn(sentence string) (out []hour) {
	for _, m := range hourNamed.FindAllStringSubmatchIndex(sentence, -1) {
		at := m[2:4]
		if at[0] < 0 {
			at = m[4:6]
		}
		out = append(out, hour{clockWords[sentence[at[0]:at[1]]] * 60, m[0], at[1]})
	}
	for _, m := range hourCounted.FindAllStringSubmatchIndex(sentence, -1) {
		part := func(n int) string {
			if m[2*n] < 0 {
				return ""
			}
			return sentence[m[2*n]:m[2*n+1]]
		}
		past, num, minutes, half, after := part(1), part(2), part(3), strings.Trim(part(4), " "), part(6)
		if past == "" && minutes == "" && half == "" && after != "" && !slices.Contains([]string{"and", "or", "to", "till", "until", "when", "for", "in", "on", "then", "they"}, after) {
			continue // "at 180 C", "until two are left"
		}
		n, err := strconv.Atoi(num)
		if err != nil {
			n = slices.Index(numberWords, num)
		}
		t := n * 60
		switch more, _ := strconv.Atoi(minutes); {
		case strings.HasPrefix(past, "half"):
			t += 30
		case past != "":
			t += 15
		default:
			t += more
		}
		if n < 12 && (strings.HasPrefix(half, "p") || strings.HasSuffix(half, "noon") || strings.HasSuffix(half, "evening")) {
			t += 12 * 60
		}
		if !slices.ContainsFunc(out, func(h hour) bool { return h.from <= m[0] && m[0] < h.to }) {
			out = append(out, hour{t, m[0], m[5]})
		}
	}
	slices.SortFunc(out, func(a, b hour) int { return a.from - b.from })
	return out
}

// SaidHours is how long it is from the first hour of the day that a sentence of the step
// names to the last one, with the words from one to the other: "they go into the bags at
// seven and are eaten at half past one".
func (st *Stage) SaidHours() (words string, d time.Duration) {
	if !st.Says("at", "from", "noon", "midday", "morning", "breakfast", "lunch", "dawn") { // most steps, and at less cost
		return "", 0
	}
	at := 0
	for sentence := range strings.FieldsFuncSeq(st.text[:st.said], func(r rune) bool { return strings.ContainsRune(";!?\n", r) }) {
		at += strings.Index(st.text[at:], sentence)
		hours := hoursIn(sentence)
		if len(hours) < 2 {
			continue
		}
		first, last := hours[0], hours[len(hours)-1]
		gap := last.minute - first.minute
		for gap <= 0 {
			gap += 12 * 60
		}
		if t := time.Duration(gap) * time.Minute; t > d {
			words, d = sentence[first.from:last.to], t
		}
	}
	return words, d
}
