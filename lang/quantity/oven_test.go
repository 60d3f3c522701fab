package quantity

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Source: customary British oven table and the NSW Government conversion chart,
// beside each row of testdata/quantity/oven.csv.
func TestOvenTables(t *testing.T) {
	for _, row := range readTable(t, "oven.csv") {
		switch row["kind"] {
		case "gas mark":
			h, n, problems := ReadHeat("gas "+row["key"], Options{})
			require.Empty(t, problems)
			require.Equal(t, len("gas "+row["key"]), n)
			m, ok := gasMarkNamed(h.Gas)
			require.True(t, ok)
			require.Equal(t, row["celsius_customary"], strconv.Itoa(m.Customary))
			require.Equal(t, row["fahrenheit"], strconv.Itoa(m.Fahrenheit))
			require.Equal(t, row["fan_celsius"], strconv.Itoa(m.Fan))
			isNear(t, row["celsius_exact"], m.Exact(), 0.0051, "gas "+m.Name)
			require.True(t, strings.HasPrefix(row["term"], m.Word), "%s: %s", m.Name, m.Word)
			c, ok := h.Conventional()
			require.True(t, ok)
			require.Equal(t, m.Customary, c.Low)
		case "term":
			h, ok := HeatNamed(row["term"])
			require.True(t, ok, row["term"])
			require.Equal(t, row["celsius_customary"]+" C", h.Celsius.String())
			require.Equal(t, row["fahrenheit"]+" F", h.Fahrenheit.String())
			read, n, problems := ReadHeat(row["term"], Options{})
			require.Empty(t, problems)
			require.Equal(t, len(row["term"]), n)
			require.Equal(t, row["term"], read.Word)
		case "fan offset":
			require.Equal(t, row["celsius_customary"], strconv.Itoa(-FanOffset))
		case "fan offset, older", "fan offset, US": // known, not used
		default:
			t.Fatalf("unknown row %s", row["kind"])
		}
	}
}

// Source: GNU units 2.22: gas mark 6 is 275 + 25 x 5 = 400 F.
func TestGasMarkRule(t *testing.T) {
	for _, m := range GasMarks() {
		n, end, _ := ReadNumber(m.Name, Options{})
		require.Equal(t, len(m.Name), end)
		if n.Less(Int(1)) {
			continue
		}
		require.True(t, Int(250).Add(n.Mul(Int(25))).Equal(Int(int64(m.Fahrenheit))), m.Name)
	}
}

func TestGasMarkNear(t *testing.T) {
	for text, want := range map[string]string{"180 C": "4", "200 C": "6", "350 F": "4", "210 C": "6", "170 C": "3", "425 F": "7", "180 to 200 C": "5", "240 C": "9"} {
		temp, _, _ := ReadTemperature(text, Options{})
		m, ok := GasMarkNear(temp)
		require.True(t, ok, text)
		require.Equal(t, want, m.Name, text)
	}
	for _, text := range []string{"80 C", "300 C", "-18 C"} {
		temp, _, _ := ReadTemperature(text, Options{})
		_, ok := GasMarkNear(temp)
		require.False(t, ok, text)
	}
}

func TestHeat(t *testing.T) {
	for _, c := range []struct{ text, again, plain, all string }{
		{"180 C", "180 C", "180 °C", "180 °C, 160 °C fan, gas 4"},
		{"180 to 200 C", "180 to 200 C", "180 to 200 °C", "180 to 200 °C, 160 to 180 °C fan, gas 5"},
		{"fan 180 C", "fan 180 C", "180 °C fan", "180 °C fan, 200 °C without fan, gas 6"},
		{"350 F", "350 F", "350 °F", "350 °F, 320 °F fan, gas 4"},
		{"gas 6", "gas 6", "gas 6", "gas 6, 200 °C, 180 °C fan"},
		{"gas 1/2", "gas 1/2", "gas ½", "gas ½, 130 °C, 110 °C fan"},
		{"moderately hot", "moderately hot", "moderately hot oven", "moderately hot oven, 190 °C, 170 °C fan, gas 5"},
		{"Gas Mark 4", "gas 4", "gas 4", "gas 4, 180 °C, 160 °C fan"},
	} {
		h, n, problems := ReadHeat(c.text, Options{})
		require.Empty(t, problems, c.text)
		require.Equal(t, len(c.text), n, c.text)
		require.Equal(t, c.again, h.String())
		require.Equal(t, c.plain, h.Print(HeatStyle{}))
		require.Equal(t, c.all, h.Print(HeatStyle{Fan: true, Gas: true}))
		back, _, _ := ReadHeat(h.String(), Options{})
		require.Equal(t, h, back)
	}
	for text, code := range map[string]string{"gas 12": CodeTempLimits, "gas": CodeTempLimits, "200": CodeNoScale, "fan": CodeNoScale, "180 C fan": CodeScaleForm} {
		_, _, problems := ReadHeat(text, Options{})
		require.Len(t, problems, 1, text)
		require.Equal(t, code, problems[0].Code, text)
	}
	require.Equal(t, "180 °C", Heat{Temp: Temperature{350, 350, Fahrenheit}}.Print(HeatStyle{Scale: Celsius}))
	require.Equal(t, "−18 °C", Temperature{-18, -18, Celsius}.Print())
	_, ok := Heat{}.Conventional()
	require.False(t, ok)
}

// A core temperature is converted exactly, an oven's by custom. Source: FDA
// prints 165 F for 74 C, so neither scale is ever got from the other there.
func TestExactAndCustomary(t *testing.T) {
	f := Temperature{350, 350, Fahrenheit}
	require.Equal(t, "177 C", f.To(Celsius).String())
	require.Equal(t, "180 C", f.Customary(Celsius).String())
	require.Equal(t, "165 F", Temperature{74, 74, Celsius}.To(Fahrenheit).String())
	require.Equal(t, "-4 F", Temperature{-20, -20, Celsius}.To(Fahrenheit).String())
}
