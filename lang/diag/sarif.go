package diag

import (
	"io"
	"net/url"
	"path"
	"strings"

	"tamis/lang/source"
)

// SARIFRule describes a code for SARIF's list of rules.
type SARIFRule struct {
	Code, Title, What, Help string
	Severity                Severity
}

// The part of SARIF 2.1.0 (OASIS standard) that is written. Columns count
// characters, which SARIF calls unicodeCodePoints.
type sarifLog struct {
	Schema  string     `json:"$schema"`
	Version string     `json:"version"`
	Runs    []sarifRun `json:"runs"`
}

type sarifRun struct {
	Tool       sarifTool     `json:"tool"`
	ColumnKind string        `json:"columnKind"`
	Results    []sarifResult `json:"results"`
}

type sarifTool struct {
	Driver sarifDriver `json:"driver"`
}

type sarifDriver struct {
	Name  string      `json:"name"`
	Rules []sarifRule `json:"rules"`
}

type sarifRule struct {
	ID               string       `json:"id"`
	ShortDescription sarifText    `json:"shortDescription"`
	FullDescription  *sarifText   `json:"fullDescription,omitempty"`
	Help             *sarifText   `json:"help,omitempty"`
	Default          sarifDefault `json:"defaultConfiguration"`
}

type sarifDefault struct {
	Level string `json:"level"`
}

type sarifText struct {
	Text string `json:"text"`
}

type sarifResult struct {
	RuleID    string          `json:"ruleId"`
	RuleIndex *int            `json:"ruleIndex,omitempty"`
	Level     string          `json:"level"`
	Message   sarifText       `json:"message"`
	Locations []sarifLocation `json:"locations,omitempty"`
	Related   []sarifLocation `json:"relatedLocations,omitempty"`
	Fixes     []sarifFix      `json:"fixes,omitempty"`
}

type sarifLocation struct {
	Physical sarifPhysical `json:"physicalLocation"`
	Message  *sarifText    `json:"message,omitempty"`
}

type sarifPhysical struct {
	Artifact sarifArtifact `json:"artifactLocation"`
	Region   sarifRegion   `json:"region"`
}

type sarifArtifact struct {
	URI string `json:"uri"`
}

type sarifRegion struct {
	StartLine   int `json:"startLine"`
	StartColumn int `json:"startColumn"`
	EndLine     int `json:"endLine"`
	EndColumn   int `json:"endColumn"`
}

type sarifFix struct {
	Description sarifText     `json:"description"`
	Changes     []sarifChange `json:"artifactChanges"`
}

type sarifChange struct {
	Artifact     sarifArtifact      `json:"artifactLocation"`
	Replacements []sarifReplacement `json:"replacements"`
}

type sarifReplacement struct {
	Deleted  sarifRegion `json:"deletedRegion"`
	Inserted sarifText   `json:"insertedContent"`
}

// level is SARIF's word for a severity: it has no questions and no hints.
func (s Severity) level() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	}
	return "note"
}

// WriteSARIF prints findings as a SARIF 2.1.0 log with one run. Rules that are
// not found are left out of its list.
func WriteSARIF(w io.Writer, list []Diagnostic, rules []SARIFRule) error {
	run := sarifRun{ColumnKind: "unicodeCodePoints", Results: []sarifResult{}}
	run.Tool.Driver = sarifDriver{Name: "tamis", Rules: []sarifRule{}}
	index := map[string]int{}
	found := map[string]bool{}
	for _, d := range list {
		found[d.Code] = true
	}
	for _, r := range rules {
		if !found[r.Code] {
			continue
		}
		index[r.Code] = len(run.Tool.Driver.Rules)
		sr := sarifRule{ID: r.Code, ShortDescription: sarifText{r.Title}, Default: sarifDefault{r.Severity.level()}}
		if r.What != "" {
			sr.FullDescription = &sarifText{r.What}
		}
		if r.Help != "" {
			sr.Help = &sarifText{r.Help}
		}
		run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, sr)
	}
	for _, d := range list {
		res := sarifResult{RuleID: d.Code, Level: d.Severity.level(), Message: sarifText{sarifMessage(d)}}
		if i, ok := index[d.Code]; ok {
			res.RuleIndex = &i
		}
		if !d.At.Span.IsZero() {
			res.Locations = []sarifLocation{location(d.At)}
		}
		for _, r := range d.Related {
			if !r.Span.IsZero() {
				res.Related = append(res.Related, location(r))
			}
		}
		for _, f := range d.Fixes {
			res.Fixes = append(res.Fixes, sarifFixOf(f))
		}
		run.Results = append(run.Results, res)
	}
	return writeJSON(w, sarifLog{
		Schema:  "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
		Version: "2.1.0", Runs: []sarifRun{run},
	})
}

// sarifMessage is the message with its why and its first advice, since most
// viewers show nothing else.
func sarifMessage(d Diagnostic) string {
	s := d.Message + "."
	if d.Why != "" {
		s += " Why: " + strings.TrimSuffix(d.Why, ".") + "."
	}
	if len(d.Help) > 0 {
		s += " Try: " + strings.TrimSuffix(d.Help[0], ".") + "."
	}
	return s
}

func location(l Label) sarifLocation {
	out := sarifLocation{Physical: sarifPhysical{artifact(l.Span), region(l.Span)}}
	if l.Text != "" {
		out.Message = &sarifText{l.Text}
	}
	return out
}

func artifact(s source.Span) sarifArtifact {
	u := url.URL{Path: path.Clean(s.File.Name)}
	return sarifArtifact{URI: u.String()}
}

func region(s source.Span) sarifRegion {
	a, b := s.File.Position(s.Start), s.File.Position(s.End)
	return sarifRegion{a.Line, a.Column, b.Line, b.Column}
}

// sarifFixOf groups a fix's edits by file, in the order they are met.
func sarifFixOf(f Fix) sarifFix {
	out := sarifFix{Description: sarifText{f.Title}}
	for _, e := range f.Edits {
		a := artifact(e.Span)
		i := len(out.Changes) - 1
		if i < 0 || out.Changes[i].Artifact != a {
			out.Changes = append(out.Changes, sarifChange{Artifact: a})
			i++
		}
		out.Changes[i].Replacements = append(out.Changes[i].Replacements, sarifReplacement{region(e.Span), sarifText{e.Text}})
	}
	return out
}
