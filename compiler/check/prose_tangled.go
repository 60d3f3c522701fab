package check

import (
	"fmt"
	"strings"

	"tamis/lang/diag"
)

// tangled finds prose that no one wrote by hand. Reading Markdown takes time
// that grows with the square of the marks that may open something, and faster
// with the depth of its lists: a file of a few megabytes would take minutes.
var tangled = &Rule{
	Code: "F106", Title: "Prose that is no prose.", Family: Files, Severity: diag.Error,
	What:    "The text under `about` is longer than 256 KB, one of its paragraphs is longer than 32 KB or holds more than 500 brackets, stars and other marks of Markdown, or its lists stand more than 20 deep.",
	Why:     "No page can be made of it in good time, and no person has written it.",
	Fix:     "Take it out, or break it into paragraphs.",
	Bad:     "dish Leek pot\n  serves 4\n  about\n    " + strings.Repeat("- ", mostDeep+1) + "leeks\n  gather\n    600 g    leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "3:3",
	Good:    "dish Leek pot\n  serves 4\n  about\n    As [the valley](https://example.org/valley) has it.\n  gather\n    600 g    leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"the CommonMark specification, appendix: A parsing strategy (from memory)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			if r.About == nil || !mine(r, r.About.Span) {
				continue
			}
			if what := Tangled(r.About.Text.Text); what != "" {
				at := r.About.Span
				at.End = min(at.End, at.Start+len("about"))
				p.Report(at, "the prose of %s cannot be set: %s", r.Name, what).WithHelp("take it out, or break it into paragraphs")
			}
		}
	},
}

// What is far more than any headnote has.
const (
	mostProse     = 256 << 10 // bytes of all
	mostParagraph = 32 << 10  // bytes of a paragraph
	mostMarks     = 500       // marks of a paragraph
	mostDeep      = 20        // lists and quotes in one another
)

// Tangled says what keeps prose from being read as Markdown in good time; empty
// when nothing does. It takes time in proportion to the text.
func Tangled(prose string) string {
	if len(prose) > mostProse {
		return fmt.Sprintf("it is %d KB long, and no more than %d KB is set", len(prose)>>10, mostProse>>10)
	}
	size, marks := 0, 0
	for line := range strings.Lines(prose) {
		rest := strings.TrimLeft(line, " \t")
		if strings.TrimSpace(rest) == "" {
			size, marks = 0, 0
			continue
		}
		if n := deep(line); n > mostDeep {
			return fmt.Sprintf("its lists stand more than %d deep in one another", mostDeep)
		}
		if size += len(line); size > mostParagraph {
			return fmt.Sprintf("one paragraph is longer than %d KB", mostParagraph>>10)
		}
		for i := 0; i < len(line); i++ {
			switch line[i] {
			case '[', ']', '*', '_', '`', '<', '&':
				marks++
			}
		}
		if marks > mostMarks {
			return fmt.Sprintf("one paragraph has more than %d brackets, stars and other marks of Markdown", mostMarks)
		}
	}
	return ""
}

// deep is how many lists and quotes a line may stand in, by its indentation and
// its leading marks.
func deep(line string) int {
	rest := strings.TrimLeft(line, " \t")
	n, first := 0, true
	blanks := len(line) - len(rest)
	for rest != "" {
		k := 0
		switch c := rest[0]; {
		case c == '>':
			k = 1
		case c == '-' || c == '*' || c == '+':
			k = 1
		case c >= '0' && c <= '9':
			for k < len(rest) && k < 9 && rest[k] >= '0' && rest[k] <= '9' {
				k++
			}
			if k == len(rest) || rest[k] != '.' && rest[k] != ')' {
				return n
			}
			k++
		default:
			return n
		}
		if rest[0] != '>' && k < len(rest) && rest[k] != ' ' && rest[k] != '\t' && rest[k] != '\n' {
			return n // no list: a figure, a star beside a word
		}
		if first {
			n, first = blanks/2, false
		}
		n++
		rest = strings.TrimLeft(rest[k:], " \t")
	}
	return n
}
