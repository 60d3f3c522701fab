package quantity

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// table reads a file of published values: one map a row. The columns source
// and seen_via say where each row comes from; "from memory" rows are leads,
// not evidence.
func readTable(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "quantity", name))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = row[i]
		}
		out = append(out, m)
	}
	return out
}

// measure reads a measure that must be right, with nothing left over.
func measure(t testing.TB, text string) Measure {
	t.Helper()
	m, n, problems := ReadMeasure(text, Options{})
	require.Empty(t, problems, text)
	require.Equal(t, len(text), n, text)
	return m
}

func quantityOf(t testing.TB, text string, s System) Quantity {
	t.Helper()
	q, p := measure(t, text).Quantity(s)
	require.Nil(t, p, text)
	return q
}

func require1(t testing.TB, p *Problem) {
	t.Helper()
	if p != nil {
		t.Fatalf("unexpected problem: %s", p.Message)
	}
}

// isNear compares to the last figure of a printed value.
func isNear(t testing.TB, want string, have Number, delta float64, note string) {
	t.Helper()
	require.InDelta(t, Decimal(want).Float(), have.Float(), delta, note)
}
