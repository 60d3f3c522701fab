package build

import (
	"tamis/compiler/sheets"
)

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
