package build

import (
	"strings"

	"tamis/compiler/sheets"
)

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

func say(s string) sheets.Cell { return sheets.Cell{Runs: plainRun(s)} }

func plainRun(s string) []sheets.Run {
	if s == "" {
		return nil
	}
	return []sheets.Run{{Text: s}}
}

func quiet(s string) []sheets.Run {
	if s == "" {
		return nil
	}
	return []sheets.Run{{Text: s, Style: sheets.Quiet}}
}

func linked(s, link string) []sheets.Run {
	if s == "" {
		return nil
	}
	return []sheets.Run{{Text: s, Link: link}}
}
