package html

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

var fourDigits = regexp.MustCompile(`\b[12]\d{3}\b`)

// yearOf is the year in a date that is written out, or 0.
func yearOf(when string) int {
	y, _ := strconv.Atoi(fourDigits.FindString(when))
	return y
}

// day is the date of a day that is written out without its year, "Sunday 19
// September", as 2027-09-19; empty when s is no day, or the menu has no date. Work
// may begin in the year before; the day of the week tells.
func (p *printer) day(s string) string {
	d, err := time.Parse("Monday 2 January", strings.TrimSpace(s))
	if err != nil || p.year == 0 {
		return ""
	}
	name, _, _ := strings.Cut(strings.TrimSpace(s), " ")
	for _, y := range []int{p.year, p.year - 1} {
		t := time.Date(y, d.Month(), d.Day(), 0, 0, 0, 0, time.UTC)
		if t.Day() == d.Day() && t.Weekday().String() == name {
			return t.Format(time.DateOnly)
		}
	}
	return ""
}

// minuteOf is a clock time in minutes after midnight, or -1.
func minuteOf(s string) int {
	t, err := time.Parse("15:04", strings.TrimSpace(s))
	if err != nil {
		return -1
	}
	return t.Hour()*60 + t.Minute()
}

var timed = regexp.MustCompile(`^(?:work|watch|leave|rest|stand|thaw)(?: about)? (?:(\d+) h ?)?(?:(\d+) min)?(?: to (?:(?:\d+ h ?)?(?:\d+ min)?))?(?:,.*| a load)?$`)

var bareRange = regexp.MustCompile(`^(\w+(?: about)? )(\d+) to (\d+) min`)

// timer is how many minutes to set a timer to for a fact such as "leave 35 to
// 40 min": the shorter time, when one looks first. It is 0 for a fact that
// is no length of time, one that asks for a hand again and again, and for
// anything longer than a day.
func timer(fact string) int {
	fact = bareRange.ReplaceAllString(fact, "$1$2 min to $3 min")
	m := timed.FindStringSubmatch(fact)
	if m == nil {
		return 0
	}
	if len(m[1]) > 2 || len(m[2]) > 4 {
		return 0
	}
	h, _ := strconv.Atoi(m[1])
	minutes, _ := strconv.Atoi(m[2])
	if n := h*60 + minutes; n <= 24*60 {
		return n
	}
	return 0
}

// margin writes the facts of a step; those that are a length of time carry its
// minutes, for the timers of the script.
func (p *printer) margin(class string, list []string) {
	if len(list) == 0 {
		return
	}
	p.raw("<ul class=\"%s\">", class)
	for _, s := range list {
		mark := ""
		if n := timer(s); n > 0 {
			mark = fmt.Sprintf(" data-min=\"%d\"", n)
		}
		p.raw("<li%s%s>%s</li>", mark, dir(s), esc(s))
	}
	p.raw("</ul>\n")
}
