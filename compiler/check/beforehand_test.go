package check_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
)

// offeredFor is what the offered mend of a finding writes into a text; empty: there is none.
func offeredFor(t *testing.T, text, code string) (out string) {
	for _, d := range findings(t, text) {
		if d.Code != code {
			continue
		}
		require.Equal(t, diag.Hint, d.Severity)
		for _, f := range d.Fixes {
			for _, e := range f.Edits {
				require.True(t, f.Offered)
				out += e.Text
			}
		}
	}
	return out
}

func TestWhatIsWantedBeforehandIsOffered(t *testing.T) {
	tea := func(line, before, step string) string {
		return "menu Tea\n  covers 4\n  on the table 2027-05-02 16:00\n  course Tea\n    Buns\n\ndish Buns\n  serves 4\n  gather\n    " + line +
			"\n    200 g flour\n  method\n" + before + "    - " + step + " | work 10 min\n    - Bake. | oven 180 C | leave 20 min\n"
	}
	room := "Take the butter out of the fridge.\n      | uses nothing | work 1 min ? | stand 1 h, up to 2 h, room ?"
	for _, tt := range []struct{ line, before, step, code, want string }{
		{"100 g butter, soft", "", "Work the butter into the flour.", "P307", room},
		{"4 oz butter, softened", "", "Work the butter into the flour.", "P307", room},
		{"100 g butter", "", "Work the butter into the flour.", "P307", ""},
		{"100 g butter, soft", "    - Let the butter come to room temperature. | uses nothing | stand 1 h, room\n", "Work the butter into the flour.", "P307", ""},
		{"2 eggs, at room temperature", "", "Beat the eggs into the flour.", "P307", "eggs out of the fridge"},
		{"100 g soft brown sugar", "", "Work the sugar into the flour.", "P307", ""},
		{"1/2 cup boiling water", "", "Stir the boiling water into the flour.", "P308", "Put the kettle on.\n      | uses nothing | work 1 min ? | leave 5 min ?"},
		{"100 ml water, just boiled", "", "Stir the water into the flour.", "P308", "Put the kettle on."},
		{"100 ml freshly boiled water", "", "Stir the freshly boiled water into the flour.", "P308", "Put the kettle on."},
		{"100 ml just-boiled water", "", "Stir the just-boiled water into the flour.", "P308", "Put the kettle on."},
		{"100 ml water, boiled and cooled", "", "Stir the water into the flour.", "P308", ""},
		{"100 ml water", "", "Stir the water into the flour.", "P308", ""},
		{"100 ml boiling water", "    - Boil the water. | uses nothing | ring high | leave 5 min\n", "Stir the boiling water into the flour.", "P308", ""},
	} {
		got := offeredFor(t, tea(tt.line, tt.before, tt.step), tt.code)
		if tt.want == "" {
			require.Empty(t, got, tt.line)
			continue
		}
		require.Contains(t, got, tt.want, tt.line)
	}
	alone := strings.SplitAfterN(tea("100 g butter, soft", "", "Work the butter into the flour."), "\n\n", 2)[1]
	require.Empty(t, offeredFor(t, alone, "P307"), "no menu plans it")
}

func TestHotPlatesAreOffered(t *testing.T) {
	menu := func(covers, task, served string) string {
		return "menu Tea\n  covers " + covers + "\n  on the table 2027-05-02 16:00\n" + task + "  course Tea\n    Pie\n\ndish Pie\n  serves 12\n  gather\n    1 kg potatoes\n  method\n    - Bake the potatoes. | oven 180 C | leave 20 min\n  serve " + served + "\n"
	}
	const plates = "task Warm the plates, work 5 min, before Tea ?"
	require.Contains(t, offeredFor(t, menu("12", "", "hot"), "P305"), plates)
	require.NotContains(t, offeredFor(t, menu("12", "", "cold"), "P305"), "plates, work")
	require.NotContains(t, offeredFor(t, menu("12", "  task Heat the plates, work 5 min, before Tea\n", "hot"), "P305"), plates)
	require.Empty(t, offeredFor(t, menu("6", "", "hot"), "P305"))
	// Each by itself: who has said one thing of service is offered the others.
	for said, wants := range map[string]string{
		"  plates 15 s a cover\n  cleans down 20 min\n": "",
		"  cleans down 20 min\n":                        "plates 20 s a cover ?",
		"  plates 15 s a cover\n":                       "cleans down 30 min ?",
		"  breaks 10 min, every 3 h\n":                  "plates 20 s a cover ?\n  cleans down 30 min ?",
	} {
		got := offeredFor(t, menu("12", said, "hot"), "P305")
		if require.Contains(t, got, wants, said); wants == "" {
			require.Empty(t, got, said)
		}
	}
}
