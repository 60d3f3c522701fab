package check_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/check"
	"tamis/lang/diag"
)

// What a message offers must work: the finding is gone when it is done, and no
// other comes. Here each is done to the text that its rule calls bad: the fixes
// of the finding, and of its advice all that is a text to put in its place.

// offers are the forms of advice that say word for word what to write where the
// finding is.
var offers = regexp.MustCompile("^(?:write|did you mean) [\"`]([^\"`…]+)[\"`]\\??$")

// revealed are questions that are only asked of what reads: they are no harm done.
var revealed = map[string]bool{"H123": true}

type cure struct {
	title string
	texts []string // the whole text when it is done, in each place where it may be meant
}

func cures(text string, d diag.Diagnostic) (out []cure) {
	for _, f := range d.Fixes {
		f.Safe = true
		one := d
		one.Fixes = []diag.Fix{f}
		for _, n := range diag.Apply([]diag.Diagnostic{one}, func(diag.Fix) bool { return true }) {
			out = append(out, cure{f.Title, []string{n.Text}})
		}
	}
	for _, h := range d.Help {
		if m := offers.FindStringSubmatch(h); m != nil && !d.At.Span.IsZero() {
			out = append(out, cure{h, placed(text, d, m[1])})
		}
	}
	return out
}

// placed puts what is offered where the finding is: in place of it, of its line, of
// the line without its margin, or after it when it is a margin.
func placed(text string, d diag.Diagnostic, offer string) (out []string) {
	at := d.At.Span
	start := strings.LastIndexByte(text[:at.Start], '\n') + 1
	end := start + strings.IndexByte(text[start:]+"\n", '\n')
	start += len(text[start:end]) - len(strings.TrimLeft(text[start:end], " -"))
	if strings.HasPrefix(offer, "|") {
		return []string{text[:end] + " " + offer + text[end:]}
	}
	out = append(out, text[:at.Start]+offer+text[at.End:], text[:start]+offer+text[end:])
	if bar := strings.Index(text[start:end], " |"); bar >= 0 {
		out = append(out, text[:start]+offer+text[start+bar:])
	}
	return out
}

func TestCuresWork(t *testing.T) {
	tried := 0
	for _, r := range check.All {
		if r.Bad == "" {
			continue
		}
		bad := findings(t, r.Bad)
		had := map[string]int{}
		for _, d := range bad {
			had[d.Code]++
		}
		for _, d := range bad {
			if d.Code != r.Code || d.At.Span.File == nil || strings.Contains(r.Bad, "\n-- ") {
				continue
			}
			for _, c := range cures(d.At.Span.File.Text, d) {
				tried++
				wrong := ""
				for _, text := range c.texts {
					if wrong = notCured(t, d, had, text); wrong == "" {
						break
					}
				}
				if wrong != "" {
					t.Errorf("%s: %s: %s", d.Code, c.title, wrong)
				}
			}
		}
	}
	require.Greater(t, tried, 50)
	t.Logf("%d cures of %d rules", tried, len(check.All))
}

// notCured tells what is wrong with a text in which something was mended; "" when
// nothing is.
func notCured(t *testing.T, d diag.Diagnostic, had map[string]int, text string) string {
	have := map[string]int{}
	after := findings(t, text)
	for _, a := range after {
		have[a.Code]++
		if had[a.Code] == 0 && a.Severity > diag.Hint && !revealed[a.Code] && !(slices.Contains([]string{"P305", "P307", "P308"}, d.Code) && a.Code == "E121") { // what is offered is to be confirmed
			return fmt.Sprintf("brings %s %s\n%s", a.Code, a.Message, text)
		}
	}
	if have[d.Code] >= had[d.Code] && d.Code != "H123" { // what it writes is to be confirmed, and is asked about as that
		return fmt.Sprintf("is still there\n%s\n%s", text, show(after))
	}
	return ""
}
