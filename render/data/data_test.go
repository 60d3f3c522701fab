package data

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/testdata/fixture"
)

func write(t *testing.T, doc *sheets.Document) (string, map[string]any) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, doc))
	var m map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &m))
	return b.String(), m
}

// words collects every string below v, in the order of the text of the JSON.
func words(dec *json.Decoder) string {
	var b strings.Builder
	for {
		tok, err := dec.Token()
		if err != nil {
			return b.String()
		}
		switch tok := tok.(type) {
		case string:
			b.WriteString(tok)
		case float64:
			b.WriteString(strings.TrimSuffix(strings.TrimSuffix(json.Number(trim(tok)).String(), "."), " "))
		}
	}
}

func trim(f float64) string {
	s, _ := json.Marshal(f)
	return string(s)
}

func TestEveryFieldIsInTheData(t *testing.T) {
	doc := fixture.Supper()
	_, m := write(t, doc)
	list := m["sheets"].([]any)
	require.Len(t, list, len(doc.Sheets))
	for i, s := range list {
		raw, err := json.Marshal(s)
		require.NoError(t, err)
		flat := strings.ReplaceAll(words(json.NewDecoder(bytes.NewReader(raw))), " ", "")
		// runs stand apart in the data, with the names of their styles between
		for _, style := range []string{"styleamount", "stylething", "stylestrong", "styleemphasis", "stylequiet", "text"} {
			flat = strings.ReplaceAll(flat, style, "")
		}
		doc.Sheets[i].Contents = false // its list names the other sheets, which are in the data themselves
		for _, f := range fixture.Fields(doc, i) {
			for _, w := range strings.Fields(f.Text) {
				require.Contains(t, flat, strings.TrimRight(w, ".,;"), "%s: %q", doc.Sheets[i].ID, f.Text)
			}
		}
	}
}

func TestEveryBlockSaysItsKind(t *testing.T) {
	kinds := map[string]bool{}
	for seed := range uint64(20) {
		_, m := write(t, fixture.Random(seed))
		for _, s := range m["sheets"].([]any) {
			for _, b := range s.(map[string]any)["blocks"].([]any) {
				kind, ok := b.(map[string]any)["kind"].(string)
				require.True(t, ok)
				kinds[kind] = true
				if kind == "steps" {
					for _, it := range b.(map[string]any)["items"].([]any) {
						require.Contains(t, []any{"step", "break"}, it.(map[string]any)["kind"])
					}
				}
			}
		}
	}
	require.Equal(t, map[string]bool{"heading": true, "prose": true, "table": true, "steps": true, "chart": true, "cautions": true, "list": true}, kinds)
}

func TestStepInFull(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "a", Kind: sheets.Prep, Title: "A", Blocks: []sheets.Block{
		&sheets.Steps{Items: []sheets.StepItem{&sheets.Step{
			Number: 1, Clock: "11:35", Takes: []sheets.Take{{Amount: "450 g", Name: "beans", Link: "#b"}},
			Runs: []sheets.Run{{Text: "Char "}, {Text: "450 g", Style: sheets.Amount}}, Margin: []string{"10 min work"},
		}}},
	}}}}
	_, m := write(t, doc)
	b := m["sheets"].([]any)[0].(map[string]any)["blocks"].([]any)[0]
	require.Equal(t, map[string]any{
		"kind": "steps",
		"items": []any{map[string]any{
			"kind": "step", "number": 1.0, "clock": "11:35",
			"takes":  []any{map[string]any{"amount": "450 g", "name": "beans", "link": "#b"}},
			"runs":   []any{map[string]any{"text": "Char "}, map[string]any{"text": "450 g", "style": "amount"}},
			"margin": []any{"10 min work"},
		}},
	}, b)
}

func TestListsAreNeverNull(t *testing.T) {
	s, _ := write(t, &sheets.Document{Sheets: []sheets.Sheet{{Blocks: []sheets.Block{&sheets.Table{}, &sheets.Steps{}, &sheets.Chart{}, &sheets.List{}}}}})
	require.NotContains(t, s, "null")
}

func TestSameBytesTwice(t *testing.T) {
	a, _ := write(t, fixture.Supper())
	b, _ := write(t, fixture.Supper())
	require.Equal(t, a, b)
}
