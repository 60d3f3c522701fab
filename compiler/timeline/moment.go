package timeline

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"

	"tamis/lang/quantity"
)

var (
	clockIn    = regexp.MustCompile(`\b(\d{1,2})[:.](\d{2})\b`)
	daysBefore = regexp.MustCompile(`^(\d+) days? before$`)
	dateIn     = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)
)

// Moment reads a moment as a cook says it: "12:30", "Sat 17:30", "day before
// 18:00", "2 days before 9:00", "2027-09-18 18:00", or from the first serving
// "T-0:40", "T-40 min". A time without a day is on the day of serving. The
// error says what to write.
func (t *Timeline) Moment(text string) (Minute, error) {
	plain := strings.Join(strings.Fields(strings.ToLower(strings.NewReplacer("−", "-", "–", "-", ",", " ").Replace(text))), " ")
	if rest, ok := strings.CutPrefix(plain, "t"); ok && (rest == "" || strings.ContainsAny(rest[:1], "+- ")) {
		return t.fromServing(text, strings.ReplaceAll(rest, " ", ""))
	}
	if !t.Clock {
		if strings.HasPrefix(plain, "-") || strings.HasPrefix(plain, "+") {
			return t.fromServing(text, plain)
		}
		return 0, fmt.Errorf("%q: the menu has no serving time, so its clock counts from the first serving: write `T-0:40`", text)
	}
	at := clockIn.FindStringSubmatch(plain)
	if at == nil {
		return 0, momentHelp(text)
	}
	h, _ := strconv.Atoi(at[1])
	m, _ := strconv.Atoi(at[2])
	if h > 24 || m > 59 || h == 24 && m > 0 {
		return 0, fmt.Errorf("there is no %s on a clock of 24 hours", at[0])
	}
	where := clockIn.FindStringIndex(plain)
	n, ok := t.dayMeant(strings.TrimSpace(strings.TrimSpace(plain[:where[0]]) + " " + strings.TrimSpace(plain[where[1]:])))
	if !ok {
		return 0, momentHelp(text)
	}
	passed, _, _ := t.Meal.Menu.Wall.Passed(n*Day + h*60 + m)
	return passed, nil
}

func momentHelp(text string) error {
	return fmt.Errorf("when is %q? Write `12:30`, `Sat 17:30`, `day before 18:00`, or `T-0:40` for 40 minutes before the first serving", text)
}

// fromServing reads a time counted from the first serving: "-0:40", "-40min".
func (t *Timeline) fromServing(text, rest string) (Minute, error) {
	first := 0
	for i, s := range t.Servings {
		if i == 0 || s.At < first {
			first = s.At
		}
	}
	if rest == "" {
		return first, nil
	}
	sign := 1
	if rest[0] == '-' {
		sign = -1
	}
	n, err := lengthMeant(rest[1:])
	if err != nil {
		return 0, momentHelp(text)
	}
	return first + sign*n, nil
}

// lengthMeant reads a length of time, in minutes: "0:40", "40 min", "1 h 20
// min".
func lengthMeant(text string) (int, error) {
	text = strings.TrimSpace(text)
	if c := clockIn.FindStringSubmatch(text); c != nil && c[0] == text {
		h, _ := strconv.Atoi(c[1])
		m, _ := strconv.Atoi(c[2])
		return h*60 + m, nil
	}
	span, n, problems := quantity.ReadSpan(text, quantity.Options{})
	if n == 0 || n < len(text) || len(problems) > 0 || span.High <= 0 || Minutes(span.High) > MaxMinutes {
		return 0, errors.New("no length of time")
	}
	return Minutes(span.High), nil
}

// dayMeant is the day that words name, counted from the day of serving.
func (t *Timeline) dayMeant(words string) (int, bool) {
	words = strings.TrimPrefix(words, "on ")
	words = strings.TrimPrefix(words, "the ")
	words = strings.TrimSuffix(words, " at")
	switch words {
	case "", "day", "on", "at", "day of serving":
		return 0, true
	case "day before":
		return -1, true
	case "day after":
		return 1, true
	}
	if m := daysBefore.FindStringSubmatch(words); m != nil {
		n, err := strconv.Atoi(m[1])
		return -n, err == nil && n < 10000
	}
	if dateIn.MatchString(words) {
		date, err := time.Parse(time.DateOnly, words)
		if err != nil {
			return 0, false
		}
		serve := t.date(0)
		midnight := time.Date(serve.Year(), serve.Month(), serve.Day(), 0, 0, 0, 0, time.UTC)
		return int(date.Sub(midnight).Hours()) / 24, true
	}
	for n := 0; n > -7; n-- { // the last such day; the one before it must be written as a date
		if name := strings.ToLower(t.date(n).Weekday().String()); len(words) >= 2 && strings.HasPrefix(name, words) {
			return n, true
		}
	}
	return 0, false
}

// Delayed reads a step and by how much it is late: "Slow lamb 3 15 min", "B3
// 0:15", "B3 by 1 h 20 min". The error says what to write.
func (t *Timeline) Delayed(text string) (*Job, int, error) {
	plain := strings.TrimSpace(text)
	for _, end := range []string{"late", "later", "longer"} {
		plain = strings.TrimSpace(strings.TrimSuffix(plain, " "+end))
	}
	for i, c := range plain { // the longest end that is a length of time
		if !unicode.IsDigit(c) || i == 0 || plain[i-1] != ' ' {
			continue
		}
		n, err := lengthMeant(plain[i:])
		if err != nil || strings.Trim(plain[i:], "0123456789") == "" {
			continue
		}
		if n == 0 || n > Day {
			return nil, 0, fmt.Errorf("%s late? Say from 1 min to 24 h", plain[i:])
		}
		step := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(plain[:i]), " by"))
		j, err := t.Find(strings.TrimSuffix(step, ","))
		return j, n, err
	}
	return nil, 0, errors.New("how late? Write the step and the time: `B3 15 min`")
}
