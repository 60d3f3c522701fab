package quantity

import (
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Sources beside each row of testdata/quantity/units.csv: NIST, UK Weights and
// Measures Act 1985, NSW Government conversion chart, GNU units 2.22.
func TestUnitsAgainstPublishedSizes(t *testing.T) {
	for _, row := range readTable(t, "units.csv") {
		t.Run(row["unit"], func(t *testing.T) {
			q := quantityOf(t, row["written"], System(row["units"]))
			want := Decimal(row["value"])
			if row["value_unit"] == "cm" {
				want = want.Mul(Int(10))
			}
			require.Equal(t, want.String(), q.Value.Low.String(), "exact, from %s", row["source"])
			require.False(t, q.Value.IsRange())
		})
	}
}

// Source: US TM 10-412 card A-1(3) and NIST SP 430; UK Weights and Measures Act.
func TestRatiosOfUnits(t *testing.T) {
	for _, row := range readTable(t, "ratios.csv") {
		a := quantityOf(t, row["written"], System(row["units"]))
		b, p := Of(Int(1), MustUnit(row["per"]), System(row["units"]))
		require1(t, p)
		n, p := a.Ratio(b)
		require1(t, p)
		require.Equal(t, Decimal(row["value"]).String(), n.String(), "%s in %s", row["written"], row["per"])
	}
}

// TestAgainstGNUUnits asks the program itself, where it is installed.
func TestAgainstGNUUnits(t *testing.T) {
	if _, err := exec.LookPath("units"); err != nil {
		t.Skip("GNU units is not installed")
	}
	names := map[System]map[string]string{
		US: {
			"tsp": "ustsp", "tbsp": "ustbsp", "fl oz": "usfloz", "cup": "uscup", "pint": "uspint", "quart": "usquart",
			"gallon": "usgallon", "gill": "usgill", "oz": "oz", "lb": "lb", "inch": "inch", "g": "g", "kg": "kg",
		},
		Imperial: {"fl oz": "brfloz", "pint": "brpint", "quart": "brquart", "gallon": "brgallon", "gill": "brgill", "cup": "brcup"},
		Metric:   {"cup": "metriccup", "tsp": "australiateaspoon", "ml": "ml", "cl": "cl", "dl": "dl", "litre": "l", "mm": "mm", "cm": "cm"},
		AU:       {"tbsp": "australiatablespoon", "tsp": "australiateaspoon", "cup": "metriccup"},
	}
	base := map[Dimension]string{Mass: "g", Volume: "ml", Length: "mm"}
	for s, list := range names {
		for name, theirs := range list {
			u := MustUnit(name)
			out, err := exec.Command("units", "-t", "-o", "%.12g", theirs, base[u.Dim]).CombinedOutput()
			require.NoError(t, err, "%s: %s", theirs, out)
			want, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
			require.NoError(t, err)
			have, ok := u.Base(s)
			require.True(t, ok)
			require.InEpsilon(t, want, have.Float(), 1e-9, "%s %s", s, name)
		}
	}
}

func TestUnitForms(t *testing.T) {
	same := map[string][]string{
		"g": {"g", "G", "gram", "Grams", "grammes"}, "kg": {"kg", "KG", "Kg", "kilo"}, "lb": {"lb", "lbs", "pounds"},
		"litre": {"l", "L", "liter", "Litres"}, "ml": {"ml", "mL", "ML"}, "tbsp": {"tbsp", "Tbsp", "TBSP", "tablespoons"},
		"fl oz": {"fl oz", "Fl Oz", "fluid ounces"}, "leaf": {"leaf", "leaves"}, "pint": {"pt", "pints"},
		"bunch": {"bunch", "bunches"}, "pinch": {"pinches"}, "batch": {"batches"}, "inch": {"inch", "Inches"},
	}
	for want, forms := range same {
		for _, f := range forms {
			u, ok := UnitNamed(f)
			require.True(t, ok, f)
			require.Equal(t, want, u.Name, f)
		}
	}
	for _, f := range []string{"T", "t", "c", "C", "m", "M", "in", "F", "", "x", "pot", "fronds"} {
		_, ok := UnitNamed(f)
		require.False(t, ok, "%q is no unit", f)
	}
}

func TestUnitNamesAreUnique(t *testing.T) {
	seen := map[string]string{}
	for _, u := range Units() {
		for _, f := range append([]string{u.Name, u.Plural}, u.forms...) {
			require.Equal(t, Fold(f), f, "forms are kept folded")
			if other, ok := seen[f]; ok {
				require.Equal(t, u.Name, other, "%s means two units", f)
			}
			seen[f] = u.Name
		}
	}
}

func TestUnitsWithoutSize(t *testing.T) {
	for name, ml := range map[string]string{"tsp": "5", "tbsp": "15"} {
		n, ok := MustUnit(name).Base(NoSystem)
		require.True(t, ok)
		require.Equal(t, ml, n.String(), "%s without `units`", name)
	}
	for _, name := range []string{"cup", "pint", "fl oz", "quart", "gallon"} {
		_, ok := MustUnit(name).Base(NoSystem)
		require.False(t, ok, "%s without `units`", name)
	}
	for _, name := range []string{"pint", "quart", "gallon", "fl oz", "gill"} {
		_, ok := MustUnit(name).Base(Metric)
		require.False(t, ok, "a metric %s is an error", name)
		_, p := Of(Int(1), MustUnit(name), Metric)
		require.Equal(t, CodeNotThere, p.Code)
		require.Contains(t, p.Message, "no metric "+name)
		require.Contains(t, p.Help, "units imperial")
	}
	_, p := Of(Int(1), MustUnit("cup"), NoSystem)
	require.Equal(t, CodeNoSystem, p.Code)
	require.Contains(t, p.Help, "units metric")
	for _, name := range []string{"clove", "pinch", "batch", "tin"} {
		_, ok := MustUnit(name).Base(US)
		require.False(t, ok, name)
	}
}

func TestPluralOf(t *testing.T) {
	for one, many := range map[string]string{
		"frond": "fronds", "bunch": "bunches", "loaf": "loaves", "leaf": "leaves",
		"berry": "berries", "tray": "trays", "box": "boxes", "spear": "spears", "glass": "glasses", "": "",
	} {
		require.Equal(t, many, PluralOf(one))
	}
}

// Source: the Celsius and Fahrenheit formulae (NIST Handbook 44 Appendix C);
// GNU units 2.22 agrees with every row.
func TestTemperatureConversion(t *testing.T) {
	for _, row := range readTable(t, "temperatures.csv") {
		temp, n, problems := ReadTemperature(row["written"], Options{})
		require.Empty(t, problems)
		require.Equal(t, len(row["written"]), n)
		want := Decimal(row["value"])
		require.True(t, CtoF(Int(int64(temp.Low))).Equal(want), row["written"])
		require.True(t, FtoC(want).Equal(Int(int64(temp.Low))), row["written"])
	}
	require.Equal(t, "176 2/3", FtoC(Int(350)).Text(false))
	// A difference of 20 C degrees is 36 F degrees, not 68.
	require.True(t, CtoF(Int(20)).Sub(CtoF(Int(0))).Equal(Int(36)))
}
