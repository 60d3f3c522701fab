package jsonld_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/jsonld"
)

// A page puts JSON-LD into a script element, which the letters "</script" would end whatever
// stands around them (HTML Standard, restrictions for contents of script elements, from
// memory).
func TestInAScriptElement(t *testing.T) {
	var b bytes.Buffer
	const about = "</script><script>alert(1)</script><!-- & more"
	require.NoError(t, jsonld.Write(&b, &sheets.Document{Recipes: []sheets.Recipe{{Name: "Soup", About: about}}}))
	assert.NotContains(t, b.String(), "<")
	var back struct {
		Graph []struct{ Description string } `json:"@graph"`
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &back))
	assert.Equal(t, about, back.Graph[0].Description)
}

// A document without recipes is told of, and nothing is written of it.
func TestNoRecipe(t *testing.T) {
	var b bytes.Buffer
	require.ErrorIs(t, jsonld.Write(&b, &sheets.Document{Title: "Empty"}), jsonld.ErrNoRecipe)
	assert.Empty(t, b.String())
}
