package check

import (
	"strings"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// allowRules are what Silence reports.
var allowRules = []*Rule{staleAllow, unknownAllow, vainAllow}

var staleAllow = &Rule{
	Code: "E900", Title: "An allow that silences nothing.", Family: Style, Severity: diag.Hint,
	What:    "A block says `allow CODE: reason`, and no finding of that code is made in it. Where a text has errors, or is not planned, findings that would come later are not missed.",
	Why:     "A permission that is left behind hides the next fault of its kind.",
	Fix:     "Take the line out.",
	Bad:     allowing("U201: the butter is for the table", "- Soften the leeks in the butter."),
	At:      "2:3",
	Good:    allowing("U201: the butter is for the table", "- Soften the leeks."),
	Sources: []string{"the Tamis notation, 2.6"},
}

var unknownAllow = &Rule{
	Code: "E901", Title: "An allow of a code that is not there.", Family: Style, Severity: diag.Question,
	What:    "A block allows a code that no finding has.",
	Why:     "It silences nothing, now or ever.",
	Fix:     "Write the code as the finding has it: a letter and three figures.",
	Bad:     allowing("U021: the butter is for the table", "- Soften the leeks in the butter."),
	At:      "2:3",
	Good:    allowing("U201: the butter is for the table", "- Soften the leeks."),
	Sources: []string{"the Tamis notation, 2.6"},
}

var vainAllow = &Rule{
	Code: "E902", Title: "An error cannot be allowed.", Family: Style, Severity: diag.Question,
	What:    "A block allows a finding that is made in it and is an error.",
	Why:     "What stops a build is no matter of taste: there would be nothing to print.",
	Fix:     "Put the fault right, and take the line out.",
	Bad:     allowing("U203: we know", "- Soften the leeks in 60 g of the butter."),
	At:      "2:3",
	Good:    allowing("U202: we know", "- Soften the leeks in 30 g of the butter."),
	Sources: []string{"the Tamis notation, 2.6"},
}

// allowing is a dish of leeks and butter that allows something.
func allowing(what, step string) string {
	return "dish Buttered leeks\n  allow " + what + `
  serves 4
  gather
    800 g    leeks
    40 g     butter
  method
    ` + step + ` | ring low | work 10 min
  serve hot
`
}

// permit is one `allow CODE: reason`.
type permit struct {
	code  string
	at    source.Span
	in    source.Span // the block it stands in
	asked bool        // the file is one that was asked for
	used  bool
	vain  bool // it is an error
}

// Silence takes out the findings that the text allows, and reports an `allow`
// that silences nothing. Errors cannot be silenced: a build would not stop
// being wrong. What a later stage than the one reached would find is not
// missed.
func Silence(tree *load.Tree, diags *diag.List, reached Stage) *diag.List {
	permits := permitsOf(tree)
	if len(permits) == 0 {
		return diags
	}
	out := &diag.List{}
	all, byBlock := blocksOf(tree), map[source.Span][]*permit{}
	for _, p := range permits {
		byBlock[p.in] = append(byBlock[p.in], p)
	}
	for _, d := range diags.Sorted() {
		p := find(byBlock[all.around(d.At.Span)], d)
		switch {
		case p == nil:
		case d.Severity < diag.Error:
			p.used = true
			continue
		default:
			p.vain = true
		}
		out.Add(d)
	}
	broken := brokenBlocks(tree, diags)
	for _, p := range permits {
		if !p.used && p.asked {
			p.report(out, reached, broken.hold(p.in))
		}
	}
	return out
}

// report says what is wrong with an `allow` that silenced nothing.
func (p *permit) report(out *diag.List, reached Stage, broken bool) {
	r := Find(p.code)
	switch {
	case r == nil:
		d := out.Askf(unknownAllow.Code, p.at, "no finding has the code %s", p.code).Because("%s", unknownAllow.Why)
		if near := diag.Nearest(p.code, codes()); near != "" {
			d.WithHelp("is %s meant: %s?", near, Find(near).Title)
		}
	case p.vain:
		out.Askf(vainAllow.Code, p.at, "%s is an error here, and cannot be allowed", p.code).
			Because("%s", vainAllow.Why).WithHelp("put it right, and take this line out")
	case broken || stageOf(r) > reached:
	default:
		out.Hintf(staleAllow.Code, p.at, "this allows %s, which is not found here", p.code).
			WithHelp("take the line out")
	}
}

// stageOf is the stage at which a rule's findings are made.
func stageOf(r *Rule) Stage {
	switch {
	case r.Check != nil:
		return r.After
	case r.Family == Plan:
		return Planned
	}
	return Resolved
}

func codes() (out []string) {
	for _, r := range All {
		out = append(out, r.Code)
	}
	return out
}

// find is the permit for a finding among those of its block.
func find(permits []*permit, d diag.Diagnostic) *permit {
	for _, p := range permits {
		if strings.EqualFold(p.code, d.Code) {
			return p
		}
	}
	return nil
}

func permitsOf(tree *load.Tree) (out []*permit) {
	for _, f := range tree.Files {
		for _, b := range f.Blocks() {
			for _, a := range b.Allows {
				out = append(out, &permit{code: a.Code, at: a.Span, in: b.Span, asked: tree.Asked(f)})
			}
		}
	}
	return out
}
