package diag_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/source"
)

// The fields that SARIF 2.1.0 (OASIS standard, sections 3.13 to 3.30) requires
// or defines, from memory: version, runs, tool.driver.name, message.text, the
// four levels, and regions that count from 1.
func TestSARIF(t *testing.T) {
	src := source.New("sauces/green oil.tamis", "dish Öl\n  sreves 4\n")
	list := &diag.List{}
	list.Errorf("N121", src.Span(11, 17), "`sreves` is no word of a dish").
		Because("it could be mistaken").WithHelp("write `serves`").
		See(src.Span(0, 4), "in this dish").
		Replace("write serves", true, src.Span(11, 17), "serves")
	list.Askf("U201", source.Span{}, "nothing in particular")
	var b bytes.Buffer
	require.NoError(t, diag.WriteSARIF(&b, list.Sorted(), []diag.SARIFRule{
		{Code: "N121", Title: "a word nobody knows", Severity: diag.Error}, {Code: "Q999", Title: "not found here"},
	}))
	var got map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	require.Equal(t, "2.1.0", got["version"])
	run := got["runs"].([]any)[0].(map[string]any)
	require.Equal(t, "unicodeCodePoints", run["columnKind"])
	driver := run["tool"].(map[string]any)["driver"].(map[string]any)
	require.Equal(t, "tamis", driver["name"])
	require.Len(t, driver["rules"], 1, "only what was found")
	results := run["results"].([]any)
	require.Len(t, results, 2)
	var first map[string]any
	for _, r := range results {
		if m := r.(map[string]any); m["ruleId"] == "N121" {
			first = m
		}
	}
	require.Equal(t, "error", first["level"])
	require.EqualValues(t, 0, first["ruleIndex"])
	phys := first["locations"].([]any)[0].(map[string]any)["physicalLocation"].(map[string]any)
	require.Equal(t, "sauces/green%20oil.tamis", phys["artifactLocation"].(map[string]any)["uri"], "a valid URI")
	region := phys["region"].(map[string]any)
	require.EqualValues(t, 2, region["startLine"])
	require.EqualValues(t, 3, region["startColumn"])
	require.EqualValues(t, 9, region["endColumn"], "one past the last character")
	fix := first["fixes"].([]any)[0].(map[string]any)["artifactChanges"].([]any)[0].(map[string]any)
	require.Equal(t, "serves", fix["replacements"].([]any)[0].(map[string]any)["insertedContent"].(map[string]any)["text"])
}

func TestApplyCarriesOutSafeFixesOnce(t *testing.T) {
	src := source.New("a", "one two three\n")
	list := &diag.List{}
	list.Errorf("A1", src.Span(0, 3), "x").Replace("1", true, src.Span(0, 3), "1")
	list.Errorf("A2", src.Span(4, 7), "x").Replace("2", false, src.Span(4, 7), "2")
	list.Errorf("A3", src.Span(8, 13), "x").Replace("3", true, src.Span(8, 13), "3")
	list.Errorf("A4", src.Span(2, 5), "x").Replace("overlaps the first", true, src.Span(2, 5), "-")
	got := diag.Apply(list.Sorted(), func(f diag.Fix) bool { return f.Safe })
	require.Equal(t, "1 two 3\n", got[src].Text, "safe ones only, and none that overlaps another")
	require.Equal(t, 2, got[src].Fixes)
}
