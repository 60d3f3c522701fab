package sheets

import "strings"

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

func say(s string) Cell { return Cell{Runs: plainRun(s)} }

func plainRun(s string) []Run {
	if s == "" {
		return nil
	}
	return []Run{{Text: s}}
}

func quiet(s string) []Run {
	if s == "" {
		return nil
	}
	return []Run{{Text: s, Style: Quiet}}
}

func linked(s, link string) []Run {
	if s == "" {
		return nil
	}
	return []Run{{Text: s, Link: link}}
}
