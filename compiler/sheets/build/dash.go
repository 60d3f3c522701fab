package build

import "regexp"

// figureTo is "35 to 40", where a dash may stand in place of the word. Between
// "1 h" and "1 h 20 min" the word stays: a dash would tie min to h.
var figureTo = regexp.MustCompile(`([\d½⅓⅔¼¾⅛⅜⅝⅞]) to ([\d½⅓⅔¼¾⅛⅜⅝⅞])`)

// dash writes the ranges of a text as the house does.
func (b *builder) dash(text string) string {
	if !b.opt.Dash {
		return text
	}
	return figureTo.ReplaceAllString(text, "${1}–${2}")
}

func (b *builder) dashes(texts []string) []string {
	for i, t := range texts {
		texts[i] = b.dash(t)
	}
	return texts
}
