// Package textmate makes the grammar by which editors colour the notation when no
// program is at hand: a TextMate grammar, drawn from the parser's one table of words.
// The file tamis.tmLanguage.json beside it is what it makes; a test writes it.
package textmate

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"tamis/lang/parse"
)

// rule is a rule of a TextMate grammar.
type rule struct {
	Name     string         `json:"name,omitempty"`
	Match    string         `json:"match,omitempty"`
	Begin    string         `json:"begin,omitempty"`
	While    string         `json:"while,omitempty"`
	Captures map[string]any `json:"captures,omitempty"`
	Begins   map[string]any `json:"beginCaptures,omitempty"`
	Include  string         `json:"include,omitempty"`
	Patterns []rule         `json:"patterns,omitempty"`
}

func scope(name string) map[string]string { return map[string]string{"name": name + ".tamis"} }

const (
	keyword = "keyword.control"
	clause  = "keyword.operator.word"
	title   = "entity.name.section"
	figure  = "constant.numeric"
	note    = "string.unquoted.note"
	ends    = `(?=[\s,:|]|$)`
	number  = `[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞][0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞.:/⁄–-]*`
)

// words is a pattern of the words of some places, the longest first.
func words(places ...parse.Place) string {
	var list []string
	for _, p := range places {
		for _, w := range parse.WordsIn(p) {
			list = append(list, w.Text)
		}
	}
	slices.Sort(list)
	list = slices.Compact(list)
	slices.SortStableFunc(list, func(a, b string) int { return len(b) - len(a) })
	return "(?i:" + strings.ReplaceAll(strings.Join(list, "|"), " ", `\s+`) + ")" + ends
}

// below is a rule for a line and all that is set in below it.
func below(head string, begins map[string]any, patterns ...rule) rule {
	return rule{Begin: `^(\s+)` + head, While: `^(?=\1\s+|\s*$)`, Begins: begins, Patterns: patterns}
}

func include(names ...string) (out []rule) {
	for _, n := range names {
		out = append(out, rule{Include: "#" + n})
	}
	return out
}

// Grammar is the grammar as JSON.
func Grammar() ([]byte, error) {
	margin := func(name string, places ...parse.Place) rule {
		return rule{
			Match: `(\|)\s*(` + number + `)?\s*(` + words(places...) + `)?`,
			Captures: map[string]any{
				"1": scope("punctuation.separator.margin"), "2": scope(figure), "3": scope(clause),
			},
			Name: "meta.margin." + name + ".tamis",
		}
	}
	closed := words(parse.InMenu, parse.InRecipe, parse.InKitchen, parse.InSeries, parse.InPart, parse.InBook)
	repository := map[string]rule{
		"comment": {Name: "comment.line.number-sign.tamis", Match: `^\s*#\s.*$`},
		"block": {
			Match:    `^((?i:menu|dish|base|kitchen|series|book)):?\s+(.*)$`,
			Captures: map[string]any{"1": scope(keyword), "2": scope(title)},
		},
		"notation": {Match: `^((?i:notation))\s+([0-9]+)`, Captures: map[string]any{"1": scope(keyword), "2": scope(figure)}},
		"number":   {Name: figure + ".tamis", Match: `(?<![\p{L}0-9])` + number},
		"quoted":   {Name: "string.quoted.double.tamis", Match: `"[^"]*"`},
		"onLine":   margin("line", parse.OnLine),
		"onStep":   margin("step", parse.OnStep),
		"onFact":   margin("fact", parse.OnFact),
		"lists":    {Match: `^\s+(` + words(parse.InGather) + `)`, Captures: map[string]any{"1": scope(keyword)}},
		"amount":   {Match: `^\s+(` + number + `)`, Captures: map[string]any{"1": scope(figure)}},
		"note":     {Name: note + ".tamis", Match: `(?<=,)[^|]*`},
		"step":     {Match: `^\s+(-)(?=\s)`, Captures: map[string]any{"1": scope("punctuation.definition.list.begin")}},
		"pause":    {Match: `^\s+((?i:pause))` + ends, Captures: map[string]any{"1": scope(keyword)}},
		"bare":     {Match: `^\s+(` + number + `)?\s*(?=\|)`, Captures: map[string]any{"1": scope(figure)}},
		"moment":   {Match: `^\s+((?i:at|when|said))` + ends, Captures: map[string]any{"1": scope(keyword)}},
		"serving":  {Match: `(?<=,)\s*(` + words(parse.OnServing) + `)`, Captures: map[string]any{"1": scope(clause)}},
		"pin":      {Match: `^\s+((?i:step))\s+([0-9]+)(?=:)`, Captures: map[string]any{"1": scope(keyword), "2": scope(figure)}},
		"setting":  {Match: `^\s+(` + words(parse.InLarder) + `)`, Captures: map[string]any{"1": scope(keyword)}},
		"field":    {Match: `^\s+(` + closed + `)`, Captures: map[string]any{"1": scope(keyword)}},
		"titled": {
			Match:    `^\s+((?i:part))\s+([0-9]+)\s+(.*)$`,
			Captures: map[string]any{"1": scope(keyword), "2": scope(figure), "3": scope(title)},
		},
		"about": below(`((?i:about)):?\s*$`, map[string]any{"2": scope(keyword)}, rule{Name: "string.unquoted.prose.tamis", Match: `.+`}),
		"gather": below(`((?i:gather)):?(.*)$`, map[string]any{"2": scope(keyword)},
			include("comment", "onLine", "lists", "amount", "quoted", "note", "number")...),
		"method": below(`((?i:method|replace\s+step|before\s+step|after\s+step)`+ends+`):?(.*)$`, map[string]any{"2": scope(keyword)},
			include("comment", "onStep", "step", "pause", "moment", "number")...),
		"course": below(`((?i:course|chapter)):?\s+([^,]*)(.*)$`, map[string]any{"2": scope(keyword), "3": scope(title)},
			include("comment", "pin", "serving", "quoted", "number")...),
		"larder": {
			Begin: `^((?i:larder)):?\s*$`, While: `^(?=\s+|\s*$)`, Begins: map[string]any{"1": scope(keyword)},
			Patterns: include("comment", "onFact", "setting", "quoted", "number"),
		},
	}
	grammar := struct {
		Name       string          `json:"name"`
		Scope      string          `json:"scopeName"`
		FileTypes  []string        `json:"fileTypes"`
		Patterns   []rule          `json:"patterns"`
		Repository map[string]rule `json:"repository"`
	}{
		"Tamis", "source.tamis",
		[]string{"tamis"},
		include("comment", "notation", "block", "larder", "about", "gather", "method", "course", "titled", "field", "quoted", "number"), repository,
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(grammar)
	return b.Bytes(), err
}
