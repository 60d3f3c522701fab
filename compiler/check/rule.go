// Package check is the copy editor, the chef and the safety officer: rules that
// look at a finished model, meal and plan and say what somebody would question.
//
// A rule is one file: what it finds, why that matters, a text that has the
// fault and one that has not. The registry also describes the findings that
// earlier passes make themselves, so that `tamis explain` knows every code;
// those have no Check.
//
// Read this file first, then any rule, each of which is a file; run.go and parts.go run
// them, sentence.go reads the prose they look at, and pattern.go is why that is quick.
package check

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Family groups rules by who would raise them.
type Family string

// The families, with the letter their codes begin with.
const (
	Notation  Family = "notation"            // N: lines, words, layout
	Amounts   Family = "amounts"             // Q, D: figures, units, sums
	Names     Family = "names and use"       // U: list against method
	Heat      Family = "heat and time"       // H: ovens, rings, temperatures, headline times
	Plan      Family = "plan"                // P: hands, rings, hours, waiting
	Safety    Family = "safety"              // S: what can hurt someone
	Allergens Family = "allergens and diets" // A
	Style     Family = "editing style"       // E: how it is written
	Menu      Family = "menu"                // M: the meal as a whole
	Files     Family = "files"               // F
)

// Families are all of them, in the order they are listed in.
var Families = []Family{Notation, Amounts, Names, Heat, Plan, Safety, Allergens, Style, Menu, Files}

// Letters are the letters that codes of the family begin with.
func (f Family) Letters() string {
	switch f {
	case Notation:
		return "N"
	case Amounts:
		return "QD"
	case Names:
		return "U"
	case Heat:
		return "H"
	case Plan:
		return "P"
	case Safety:
		return "S"
	case Allergens:
		return "A"
	case Style:
		return "E"
	case Menu:
		return "M"
	case Files:
		return "F"
	}
	return ""
}

// Stage is the pass a rule needs the result of.
type Stage int

// The stages. A rule of a later stage does not run when an earlier pass failed.
const (
	Resolved Stage = iota
	Demanded
	Planned
)

// Rule is one thing that is checked.
type Rule struct {
	Code     string // "S104"; never reused
	Title    string // what is wrong, in a few words, with a capital and a full stop: "Hot food cools too slowly."
	Family   Family
	Severity diag.Severity // the usual one
	What     string        // what is found, a sentence or two
	Why      string        // why it matters, a sentence
	Fix      string        // what to write instead, a sentence
	Bad      string        // a file that has the fault; a folder in txtar form where it takes more
	At       string        // where Bad has it, "line:column"; in a folder "file:line:column"
	Good     string        // the same without it
	Sources  []string      // who says so, with section; or "common practice, no source"
	After    Stage
	// Whole: it compares recipes with each other, or looks at more of the book
	// than menus and what they make. Others are given one recipe at a time, or
	// the menus, and remember nothing from one to the next.
	Whole bool
	// Check looks at the whole pass. Nil: an earlier pass makes the finding.
	Check func(*Pass)
}

// Pass is what a rule may look at.
type Pass struct {
	Tree      *load.Tree
	Model     *resolve.Model
	Meals     []*demand.Meal
	Series    []*demand.Series
	Timelines []*timeline.Timeline // one for each meal; nil where there is no plan
	Before    *Memory              // of an earlier run, which this one may build on; nil: none

	rule   *Rule
	diags  *diag.List
	broken blocks // that did not read
	shared *shared
	plates func() []*plate // for the safety rules
	prose  *spoken         // of each step: its sentence, then its moments; nil: nobody keeps it
}

// Report makes a finding of the rule's usual severity. The message has no
// position and no full stop.
func (p *Pass) Report(at source.Span, format string, args ...any) *diag.Diagnostic {
	return p.ReportAs(p.rule.Severity, at, format, args...)
}

// ReportAs is Report with another severity. In a block that did not read,
// only errors are reported: what is missing there may be what was misspelt.
func (p *Pass) ReportAs(s diag.Severity, at source.Span, format string, args ...any) *diag.Diagnostic {
	if s < diag.Error && p.broken.hold(at) {
		return &diag.Diagnostic{}
	}
	var d *diag.Diagnostic
	switch s {
	case diag.Error:
		d = p.diags.Errorf(p.rule.Code, at, format, args...)
	case diag.Warning:
		d = p.diags.Warnf(p.rule.Code, at, format, args...)
	case diag.Question:
		d = p.diags.Askf(p.rule.Code, at, format, args...)
	default:
		d = p.diags.Hintf(p.rule.Code, at, format, args...)
	}
	if d.Why == "" {
		d.Why = p.rule.Why
	}
	return d
}

// holds tells whether a place lies within another.
func holds(outer, at source.Span) bool {
	return at.File == outer.File && at.Start >= outer.Start && at.End <= outer.End
}

// Find looks a rule up by its code, in any case.
func Find(code string) *Rule {
	for _, r := range All {
		if strings.EqualFold(r.Code, code) {
			return r
		}
	}
	return nil
}

// Recipes are the recipes asked for; where they are given one at a time, that one.
func (p *Pass) Recipes() []*resolve.Recipe { return p.shared.recipes }
