package data_test

import (
	"bytes"
	"context"
	"path/filepath"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/render/data"
)

// Every document of three examples, of a menu, a series and a notebook, with every sheet there is, has the published shape; and the
// shape is no sieve: what it does not name is refused.
func TestDocumentsHaveThePublishedShape(t *testing.T) {
	schema := schemaOf(t, "document.schema.json")
	blocks := map[string]bool{}
	for _, name := range []string{"harvest-lunch", "evening-class", "family-notebook"} {
		tree, err := load.Path(filepath.Join("../../examples", name))
		require.NoError(t, err)
		r := compiler.Compile(context.Background(), tree, compiler.Options{Sheets: sheets.Kinds()})
		for _, doc := range r.Documents {
			var b bytes.Buffer
			require.NoError(t, data.Write(&b, doc))
			v, err := jsonschema.UnmarshalJSON(bytes.NewReader(b.Bytes()))
			require.NoError(t, err)
			require.NoError(t, schema.Validate(v), doc.Title)
			for _, s := range v.(map[string]any)["sheets"].([]any) {
				for _, x := range s.(map[string]any)["blocks"].([]any) {
					blocks[x.(map[string]any)["kind"].(string)] = true
				}
			}
			v.(map[string]any)["another"] = "word"
			require.Error(t, schema.Validate(v))
		}
	}
	for _, kind := range []string{"heading", "prose", "table", "steps", "chart", "board", "cautions", "list"} {
		require.True(t, blocks[kind], "no %s was looked at", kind)
	}
}
