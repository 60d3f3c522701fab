package larder

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/lang/quantity"
)

// Every name of the built-in table is read as a name, alone and behind an
// amount, or asked about, though some begin as numbers and amounts do.
func TestNamesAreNoAmounts(t *testing.T) {
	for _, it := range Builtin().Items() {
		for _, name := range append([]string{it.Name, it.Plural}, it.Other...) {
			if name == "" || strings.Contains(name, "%") || strings.Contains(name, " of ") { // 70% chocolate takes quotes, and a stick of cinnamon is one
				continue
			}
			_, n, problems := quantity.ReadAmount(name, quantity.Options{})
			assert.Zero(t, n, "%q begins with an amount", name)
			assert.Empty(t, problems, name)
			_, n, problems = quantity.ReadAmount("250 g "+name, quantity.Options{})
			if n != len("250 g") { // "250 g packet suet" is asked about
				assert.NotEmpty(t, problems, name)
			} else {
				assert.Empty(t, problems, name)
			}
		}
	}
}

// Names as cooks type them: from the lists of recipes, old and new, from an audit of
// the table, and its own names with words of state and size before them. At least 97
// in a hundred are known, and none as another thing than the one beside it, which
// was looked through by hand. Those with nothing beside them are not known: bones,
// steak, yeast and others may each mean several things.
func TestEverydayNames(t *testing.T) {
	f, err := os.Open("../../testdata/larder/names.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	rows = rows[1:]
	require.GreaterOrEqual(t, len(rows), 2500)
	known := 0
	for _, r := range rows {
		k, ok := Builtin().Know(r[0])
		if !ok {
			require.Empty(t, r[1], "%s is not known", r[0])
			continue
		}
		known++
		require.Equal(t, r[1], k.Item.Name, r[0])
	}
	require.GreaterOrEqual(t, known*100, len(rows)*97, "%d of %d are known", known, len(rows))
}

// Every row says what its allergens are taken from; what is from memory names no
// document.
func TestEveryRowHasItsEvidence(t *testing.T) {
	seen := 0
	for _, it := range Builtin().Items() {
		require.NotNil(t, it.Evidence.Source, it.Name)
		require.Equal(t, it.Evidence.FromMemory, it.Evidence.Source.Key == "memory", it.Name)
		if !it.Evidence.FromMemory {
			seen++
			require.NotEmpty(t, it.Contains, it.Name)
		}
	}
	require.Greater(t, seen, 200)
}
