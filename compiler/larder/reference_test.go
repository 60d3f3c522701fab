package larder

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// readRows reads a table of testdata/larder. Each row carries its source; those
// with an item number (NDB) are rows of the USDA National Nutrient Database for
// Standard Reference, Release 28, weight and food description files.
func readRows(t *testing.T, name string) []map[string]string {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "larder", name))
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, fields := range all[1:] {
		row := map[string]string{}
		for i, column := range all[0] {
			row[column] = fields[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func find(t *testing.T, name string) *Item {
	it, ok := Builtin().Find(name)
	require.True(t, ok, "%s is not in the larder", name)
	return it
}

func number(t *testing.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err, text)
	return v
}

// sameSource holds a fact against the row it was taken from: the item number
// must stand in the row's source, and only what was seen may claim to be.
func sameSource[T any](t *testing.T, f Fact[T], row map[string]string) {
	require.Equal(t, row["verified"] == "from memory", f.FromMemory, "%s: %s", row["name"], row["source"])
	if _, ndb, ok := strings.Cut(row["source"], "NDB "); ok && !f.FromMemory {
		require.Equal(t, "NDB "+ndb, f.Ref)
		require.Contains(t, f.From(), "Standard Reference, Release 28")
	}
}

// Densities against the measures of the source: grams over the millilitres of
// an exact US measure.
func TestDensitiesAgainstTheirSource(t *testing.T) {
	seen := 0
	for _, row := range readRows(t, "density.csv") {
		t.Run(row["name"]+" "+row["form"], func(t *testing.T) {
			it := find(t, row["name"])
			d, ok := it.Density(row["form"])
			require.True(t, ok)
			require.Equal(t, row["form"], d.Form)
			require.InDelta(t, number(t, row["g_per_ml"]), d.GPerML.Value.Float(), 0.00006)
			if row["grams"] != "" {
				require.InDelta(t, number(t, row["grams"])/number(t, row["measure_ml"]), d.GPerML.Value.Float(), 0.00006)
			}
			sameSource(t, d.GPerML, row)
		})
		seen++
	}
	require.GreaterOrEqual(t, seen, 110)
}

func TestYieldsAgainstTheirSource(t *testing.T) {
	seen := 0
	for _, row := range readRows(t, "yields.csv") {
		t.Run(row["name"]+" "+row["state"], func(t *testing.T) {
			it := find(t, row["name"])
			y, ok := it.Yield(row["state"], "")
			require.True(t, ok)
			require.Equal(t, row["state"], y.State)
			require.InDelta(t, number(t, row["percent"]), y.Percent.Value.Float(), 1e-9)
			sameSource(t, y.Percent, row)
		})
		seen++
	}
	require.GreaterOrEqual(t, seen, 100)
}

func TestPiecesAgainstTheirSource(t *testing.T) {
	seen := 0
	for _, row := range readRows(t, "pieces.csv") {
		t.Run(row["name"]+" "+row["part"]+" "+row["size"]+" "+row["practice"], func(t *testing.T) {
			it := find(t, row["name"])
			p, ok := it.Piece(row["part"], row["size"], row["practice"])
			require.True(t, ok)
			require.Equal(t, row["practice"], p.Practice)
			require.Equal(t, row["size"], p.Size)
			require.Equal(t, row["basis"] != "edible part", p.Bought, "trimmed or as bought")
			low, high, isRange := strings.Cut(strings.Replace(row["grams"], "under ", "", 1), " to ")
			require.InDelta(t, number(t, low), p.Range.Low.Float(), 1e-9)
			if isRange {
				require.InDelta(t, number(t, high), p.Range.High.Float(), 1e-9)
			}
			sameSource(t, p.Grams, row)
		})
		seen++
	}
	require.GreaterOrEqual(t, seen, 80)
}

// The two ways to an egg agree: a US large egg weighs at least 24 oz a dozen in
// its shell (USDA AMS 56), 12% of an egg is shell (SR28 refuse field, NDB 01123),
// and its contents weigh 50 g (SR28 weight file, NDB 01123).
func TestEggInShellAndOut(t *testing.T) {
	egg := find(t, "egg")
	shell, ok := egg.Piece("shell", "large", "US")
	require.True(t, ok)
	require.True(t, shell.Bought)
	y, ok := egg.Yield("shelled", "")
	require.True(t, ok)
	contents, ok := egg.PieceGrams("large")
	require.True(t, ok)
	require.False(t, contents.Bought)
	require.InDelta(t, contents.Grams.Value.Float(), shell.Grams.Value.Float()*y.Percent.Value.Float()/100, 0.2)
	// EU/UK L is 63 to under 73 g in shell (Regulation (EC) 589/2008, Article 4):
	// nearer a US extra large than a US large.
	uk, ok := egg.Piece("shell", "large", "UK")
	require.True(t, ok)
	require.Equal(t, "68", uk.Grams.Value.String())
	require.True(t, uk.Range.IsRange())
	inside, ok := egg.Piece("", "large", "EU-FR")
	require.True(t, ok)
	require.InDelta(t, 68*0.88, inside.Grams.Value.Float(), 0.001)
	require.Equal(t, []string{"egg"}, names(Builtin().Givers(find(t, "egg yolk"))))
}

// SR28 pieces are weighed after trimming: a medium onion of 110 g, of which 90%
// is left, is bought as 122 g (SR28, NDB 11282).
func TestOnionAsBought(t *testing.T) {
	onion := find(t, "onion")
	p, ok := onion.PieceGrams("")
	require.True(t, ok)
	require.Equal(t, "medium", p.Size)
	require.False(t, p.Bought)
	y, ok := onion.Yield("finely chopped", "")
	require.True(t, ok)
	require.InDelta(t, 122.2, p.Grams.Value.Float()/y.Percent.Value.Float()*100, 0.05)
}

func names(items []*Item) []string {
	var out []string
	for _, it := range items {
		out = append(out, it.Name)
	}
	return out
}
