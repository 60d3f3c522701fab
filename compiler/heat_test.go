package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/events"
	"tamis/compiler/sheets"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// An oven's heat is what its dial has, by one table (quantity), in every place
// that prints it: the margin of the step, and the row that lights the oven.
func TestOvenHeatsAgree(t *testing.T) {
	const kitchen = "kitchen Trial kitchen\n  cooks Ana\n  oven main, 2 shelves, preheat 15 min\n"
	for _, c := range []struct {
		heat, units string
		margin, lit string
		asked       quantity.System // --units
		fan         bool
	}{
		{heat: "350 F", margin: "oven 350 °F", lit: "180 °C"}, // customary British oven table: 350 F is gas 4 is 180 C
		{heat: "400 F", margin: "oven 400 °F", lit: "200 °C"},
		{heat: "325 F", margin: "oven 325 °F", lit: "165 °C"},
		{heat: "340 F", margin: "oven 340 °F", lit: "170 °C"}, // not in the table: to the nearest 5
		{heat: "gas 6", margin: "oven gas 6 (200 °C)", lit: "200 °C"},
		{heat: "gas 6", units: "US", margin: "oven gas 6 (400 °F)", lit: "200 °C"},
		{heat: "hot", margin: "oven hot (200 to 230 °C)", lit: "210 °C"}, // a range is a permission
		{heat: "moderate", margin: "oven moderate (180 °C)", lit: "180 °C"},
		{heat: "200 C", margin: "oven 400 °F", lit: "400 °F", asked: quantity.US},
		{heat: "180 to 200 C", margin: "oven 350 to 400 °F", lit: "375 °F", asked: quantity.US},
		{heat: "350 F", margin: "oven 180 °C", lit: "180 °C", asked: quantity.Metric},
		{heat: "180 C", margin: "oven 180 °C", lit: "160 °C fan", fan: true},
		{heat: "fan 160 C", margin: "oven 160 °C fan", lit: "160 °C fan", fan: true},
		{heat: "150 F", margin: "oven 150 °F", lit: "65 °C fan", fan: true}, // warming: a fan makes no difference
		{heat: "70 C", margin: "oven 70 °C", lit: "70 °C fan", fan: true},
		{heat: "fan 90 C", margin: "oven 90 °C fan", lit: "110 °C"},
		{heat: "180 C | core 75 C", margin: "core 167 °F", lit: "350 °F", asked: quantity.US},
	} {
		text := "menu Trial\n  covers 4\n  on the table 2027-05-02 13:00\n  at Trial kitchen\n\n  course One\n    Pie\n\ndish Pie\n  serves 4\n"
		if c.units != "" {
			text += "  units " + c.units + "\n"
		}
		text += "  gather\n    500 g pastry\n  method\n    - Bake the pastry.\n      | oven " + c.heat + " | leave 30 min\n  serve hot\n\n" + kitchen
		if c.fan {
			text = strings.Replace(text, "2 shelves,", "2 shelves, fan,", 1)
		}
		d := pages(t, text, compiler.Options{Units: c.asked, Sheets: []sheets.Kind{sheets.Prep}})
		step := sheetOf(t, d, sheets.Prep, "Pie").Blocks
		margin := ""
		for _, b := range step {
			if s, ok := b.(*sheets.Steps); ok {
				margin = strings.Join(s.Items[0].(*sheets.Step).Look, " | ")
			}
		}
		require.Contains(t, margin+" |", c.margin+" |", c.heat)
		lit := ""
		for _, e := range d.Events {
			if string(e.Kind) == string(events.Heat) {
				lit = e.Words
			}
		}
		require.True(t, strings.HasSuffix(lit, c.lit) || strings.Contains(lit, c.lit+","), "%s: %q, not %q", c.heat, lit, c.lit)
	}
}

// An oven at nothing cannot be lit; one that only proves is asked about.
func TestOvenAtNothing(t *testing.T) {
	for heat, want := range map[string]diag.Severity{
		"0 C": diag.Error, "0 F": diag.Error, "gas 0": diag.Error, "24 C": diag.Question, "25 C": diag.Hint,
	} {
		r := compileText(t, "dish Pie\n  serves 4\n  gather\n    500 g pastry\n  method\n    - Bake the pastry.\n      | oven "+heat+" | leave 30 min\n", compiler.Options{})
		got := diag.Hint // nothing
		for _, d := range r.Diags.Sorted() {
			if d.Code == "H140" {
				got = d.Severity
			}
		}
		require.Equal(t, want, got, heat)
	}
}
