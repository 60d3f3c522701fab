package check_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/check"
	"tamis/lang/diag"
)

// Every published limit, just inside and just outside: inside nothing is found
// under its code, outside that is. testdata/safety/limits.csv names the document
// beside each.
func TestLimitsInsideAndOutside(t *testing.T) {
	rows := readTable(t, "../../testdata/safety/limits.csv")
	require.Greater(t, len(rows), 80)
	for _, r := range rows {
		code, practice, what, inside, outside := r[0], r[1], r[2], r[3], r[4]
		t.Run(strings.Join([]string{code, practice, what, outside}, "/"), func(t *testing.T) {
			in := findings(t, limitText(code, practice, what, inside))
			require.Empty(t, of(in, code), "inside, %s:\n%s", inside, show(in))
			out := findings(t, limitText(code, practice, what, outside))
			require.Len(t, of(out, code), 1, "outside, %s:\n%s", outside, show(out))
			d := of(out, code)[0]
			require.Equal(t, diag.Warning, d.Severity)
			require.Contains(t, d.Why, "Local rules and qualified people come first.")
			require.Contains(t, strings.ToLower(d.Why), "rules "+strings.ToLower(practice))
			require.Contains(t, d.Why, credit(r[5]), "the document")
			for _, found := range slices.Concat(in, out) {
				require.Less(t, found.Severity, diag.Error, "%s:\n%s", outside, show(out))
			}
		})
	}
}

// credit is the part of a source that the message must name: the document,
// without what the table adds in words.
func credit(source string) string {
	source, _, _ = strings.Cut(source, " (copy)")
	source, _, _ = strings.Cut(source, " chart")
	source, _, _ = strings.Cut(source, ", two stages")
	if strings.HasPrefix(source, "FDA Food Code 2022 3-401.11") {
		return "FDA Food Code 2022 3-401.11" // the row printed is the one of its group
	}
	if strings.HasPrefix(source, "Food Safety and Hygiene (England)") {
		return "Food Safety and Hygiene (England) Regulations 2013 Sch. 4"
	}
	return source
}

func readTable(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func of(list []diag.Diagnostic, code string) (out []diag.Diagnostic) {
	for _, d := range list {
		if d.Code == code {
			out = append(out, d)
		}
	}
	return out
}

// limitText is a recipe, or a small folder, with one figure in it.
func limitText(code, practice, what, figure string) string {
	switch code {
	case "S103":
		how := "| ring medium | watch 20 min"
		if name, ok := strings.CutSuffix(what, ", roasted"); ok {
			what, how = name, "| oven 150 C | leave 2 h"
		}
		return fmt.Sprintf("dish Test dish\n  rules %s\n  serves 4\n  gather\n    800 g    %s\n  method\n    - Cook the %s, covered.\n      %s | core %s\n", practice, what, what, how, figure)
	case "S106":
		hold := ""
		if what == "held" {
			hold = " | hold hot up to 1 h, above 63 C"
		}
		return fmt.Sprintf("dish Test dish\n  rules %s\n  serves 4\n  gather\n    800 g    lamb shoulder\n    500 ml   water\n  method\n    - Simmer the lamb in the water, covered.\n      | ring low | leave 2 h\n    - Cool in iced water.\n      | work 5 min | leave 50 min | reach 8 C\n    pause up to 1 day, fridge\n    - Heat through, covered.\n      | ring medium | watch 10 min | core %s%s\n", practice, figure, hold)
	case "S109":
		reach := ""
		if what != "" && what != "rice" {
			reach = " | reach " + what + " C"
		}
		food, amount := "lamb shoulder", "800 g"
		if what == "rice" {
			food, amount = "basmati rice", "300 g"
		}
		return fmt.Sprintf("dish Test dish\n  rules %s\n  serves 4\n  gather\n    %s    %s\n    500 ml   water\n  method\n    - Simmer the %s in the water, covered.\n      | ring low | leave 2 h\n    - Cool in shallow pans.\n      | work 1 min | leave %s%s\n", practice, amount, food, food, figure, reach)
	case "S110":
		food := "lamb shoulder"
		if what == "rice" {
			food = "basmati rice"
		}
		return fmt.Sprintf("base Test base\n  rules %s\n  makes 500 g\n  keeps %s, fridge\n  gather\n    800 g    %s\n    500 ml   water\n  method\n    - Simmer the %s in the water, covered.\n      | ring low | leave 2 h\n    - Cool in iced water.\n      | work 1 min | leave 50 min\n", practice, figure, food, food)
	case "S111":
		return fmt.Sprintf("base Test base\n  rules %s\n  makes 300 ml\n  keeps %s, fridge\n  gather\n    6 cloves garlic\n    300 ml   olive oil\n  method\n    - Crush the garlic into the olive oil.\n      | work 5 min\n", practice, figure)
	case "S112":
		return fmt.Sprintf("dish Test dish\n  rules %s\n  serves 4\n  gather\n    800 g    lamb shoulder\n    500 ml   water\n  method\n    - Simmer the lamb in the water, covered.\n      | ring low | leave 2 h | hold hot up to 1 h, above %s\n", practice, figure)
	case "S114":
		serve := "hot"
		if what == "cold" {
			serve = "cold"
		}
		return fmt.Sprintf("menu Test menu\n  covers 4\n  on the table 2027-05-02 19:00\n  at Mill\n\n  course Main\n    Test dish\n\nkitchen Mill\n  rules %s\n  cooks Ana\n\ndish Test dish\n  serves 4\n  gather\n    800 g    lamb shoulder\n  method\n    - Poach the lamb, covered.\n      | ring low | leave 2 h\n    - Let it stand under a cloth.\n      | rest %s\n  serve %s\n", practice, figure, serve)
	case "S117":
		soak, boil := "overnight", "30 min"
		if what == "soak" {
			soak = figure
		} else {
			boil = figure
		}
		return fmt.Sprintf("dish Test dish\n  rules %s\n  serves 4\n  gather\n    500 g    dried red kidney beans\n    2 litres water\n  method\n    - Soak the kidney beans in cold water.\n      | work 2 min | stand %s, room\n    - Throw the water away and boil hard in the water, uncovered.\n      | ring high | leave %s\n    - Simmer until soft, covered.\n      | ring low | leave 1 h\n", practice, soak, boil)
	}
	panic(code)
}

// Each entry of the lists of the European Union and the United Kingdom
// (Regulation (EU) 1169/2011 Annex II) and of the United States (FD&C Act
// 201(qq)), by ingredients that hold it: a `contains` that leaves it out is
// asked about, one that names it is not.
func TestContainsAgainstTheLists(t *testing.T) {
	groups := map[string]bool{}
	for _, r := range readTable(t, "../../testdata/larder/allergens.csv") {
		if r[5] != "seen in source" || r[0] != "EU/UK" && r[0] != "US" {
			continue
		}
		for _, food := range strings.Split(r[3], " / ") {
			text := "larder\n  " + food + " | contains "
			less := of(findings(t, text+"xanthan\n"), "A101")
			if len(less) == 0 {
				continue // only its maker knows
			}
			require.Len(t, less, 1, food)
			require.Equal(t, diag.Question, less[0].Severity)
			groups[r[0]+" "+r[2]] = true
			_, holds, ok := strings.Cut(less[0].Message, " holds ")
			require.True(t, ok, less[0].Message)
			holds, _, _ = strings.Cut(holds, ", which")
			names := strings.NewReplacer(" and ", ", ").Replace(holds)
			for _, n := range strings.Split(names, ", ") {
				name, _, _ := strings.Cut(n, " (")
				names = strings.Replace(names, n, name, 1)
			}
			whole := findings(t, text+names+"\n")
			require.Empty(t, of(whole, "A101"), "%s contains %s:\n%s", food, names, show(whole))
			require.Empty(t, of(whole, "A102"), "%s contains %s:\n%s", food, names, show(whole))
		}
	}
	for _, g := range []string{
		"EU/UK cereals containing gluten", "EU/UK crustaceans", "EU/UK eggs", "EU/UK fish", "EU/UK peanuts", "EU/UK soybeans", "EU/UK milk",
		"EU/UK nuts", "EU/UK celery", "EU/UK mustard", "EU/UK sesame seeds", "EU/UK lupin", "EU/UK molluscs",
		"US milk", "US eggs", "US fish", "US Crustacean shellfish", "US tree nuts", "US wheat", "US peanuts", "US soybeans", "US sesame",
	} { // sulphites are a matter of how much, which no name tells
		require.True(t, groups[g], g)
	}
}

// A figure from memory is compared with, and credited to nobody.
func TestFiguresFromMemorySaySo(t *testing.T) {
	for _, c := range []struct{ code, practice, figure, nobody string }{
		{"S106", "AU", "59 C", "Standard 3.2.2"},
		{"S112", "CA", "59 C", "Provincial"},
	} {
		list := of(findings(t, limitText(c.code, c.practice, "", c.figure)), c.code)
		require.Len(t, list, 1, c.practice)
		require.Contains(t, list[0].Why, "Rules "+c.practice+": from memory, no source seen.")
		require.NotContains(t, list[0].Why, c.nobody)
	}
}

// Where the chosen practice has no figure that was seen, another's is only a
// hint; where none is chosen, the strictest rules, and it says whose it is.
func TestStrictestSaysWhose(t *testing.T) {
	ca := of(findings(t, limitText("S110", "CA", "", "5 days")), "S110")
	require.Len(t, ca, 1)
	require.Equal(t, diag.Hint, ca[0].Severity)
	require.Contains(t, ca[0].Why, "No figure of CA has been seen; this is the strictest of the others, that of UK home: Food Standards Scotland consumer advice.")
	none := of(findings(t, strings.Replace(limitText("S106", "UK", "", "75 C"), "  rules UK\n", "", 1)), "S106")
	require.Len(t, none, 1)
	require.Equal(t, diag.Warning, none[0].Severity)
	require.Contains(t, none[0].Why, "No `rules` are named, so the strictest figure seen holds, that of Scotland: Food Hygiene (Scotland) Regulations 2006")
}

// Where authorities differ the finding says so.
func TestContestedFiguresSaySo(t *testing.T) {
	uk := of(findings(t, limitText("S110", "UK", "", "5 days")), "S110")
	require.Contains(t, uk[0].Why, "Contested: other UK guides say day of making plus 2.")
	us := of(findings(t, limitText("S110", "US", "", "8 days")), "S110")
	require.Contains(t, us[0].Why, "There the day of making counts as the first: made on the 1st, used by the 7th.")
}

// No finding of these families promises anything, in any of its words.
func TestSafetyFindingsPromiseNothing(t *testing.T) {
	for _, r := range check.All {
		if r.Family != check.Safety && r.Family != check.Allergens {
			continue
		}
		for _, d := range of(findings(t, r.Bad), r.Code) {
			for _, text := range append([]string{d.Message, d.Why}, d.Help...) {
				require.NoError(t, tone(text), r.Code)
			}
			if r.Family == check.Safety && r.Code != "S101" {
				require.Contains(t, d.Why, "Local rules and qualified people come first.", r.Code)
			}
		}
	}
}
