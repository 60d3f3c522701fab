package textmate_test

import (
	"encoding/json"
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/parse"
	"tamis/lang/textmate"
)

var update = flag.Bool("update", false, "write the grammar anew")

// The file is the table of words, and every word of the table is in it. That it colours
// as the language server does, .ci/grammar.mjs tries with an editor's own engine.
func TestTheFileIsOfTheTable(t *testing.T) {
	made, err := textmate.Grammar()
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile("tamis.tmLanguage.json", made, 0o644))
	}
	file, err := os.ReadFile("tamis.tmLanguage.json")
	require.NoError(t, err)
	require.Equal(t, string(made), string(file), "go test ./lang/textmate -update writes it")
	require.True(t, json.Valid(file))
	require.NotEmpty(t, parse.Words())
}
