package practice

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/quantity"
)

// Every figure that was seen in a source stands in the table, under the same
// practice, in both scales as printed, with the same document.
func TestEveryPublishedFigureIsThere(t *testing.T) {
	f, err := os.Open("../../testdata/safety/published.csv")
	require.NoError(t, err)
	defer f.Close()
	want, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	rows, err := table(mustFS(t), "limits.csv")
	require.NoError(t, err)
	require.Greater(t, len(want), 100)
	for _, w := range want[1:] {
		if w[0] == "EU-FR" && w[1] == "10 to 63" { // the serving temperature is what a cook can measure
			w[1] = "63"
		}
		found := false
		for _, r := range rows {
			found = found || r["practice"] == w[0] && r["temp_c"] == w[1] && r["temp_f"] == w[2] && r["time"] == w[3] && r["unit"] == w[4] &&
				r["source"] == w[5] && r["verified"] == "seen in source"
		}
		require.True(t, found, "%v", w)
	}
}

func mustFS(t *testing.T) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	for _, n := range []string{"limits.csv", "practices.csv"} {
		b, err := os.ReadFile("data/" + n)
		require.NoError(t, err)
		out[n] = &fstest.MapFile{Data: b}
	}
	return out
}

// A row from memory names nobody in what is printed.
func TestMemoryIsCreditedToNobody(t *testing.T) {
	n := 0
	for _, l := range Limits() {
		if !l.Memory {
			require.Contains(t, l.Credit(), l.Source)
			continue
		}
		n++
		require.Equal(t, "from memory, no source seen", l.Credit())
		require.Empty(t, l.Via, "%s %s", l.Practice, l.What)
	}
	require.Equal(t, 5, n)
}

// Where a figure was only seen through somebody else, the credit says so.
func TestCreditSaysHowItWasSeen(t *testing.T) {
	require.Contains(t, Choose("Scotland").Rule("reheat", "any").Hottest().Credit(), "Food Hygiene (Scotland) Regulations 2006 Sch. 4 para 3")
	require.NotContains(t, Choose("Scotland").Rule("reheat", "any").Hottest().Credit(), "as seen")
	require.Equal(t, "FDA Food Code 2022 3-403.11(A), as states adopt it", Choose("US").Rule("reheat", "held").Hottest().Credit())
	require.Contains(t, Choose("UK").Rule("cook", "poultry").Hottest().Credit(), "as seen quoted")
}

func TestDataIsRead(t *testing.T) {
	for _, p := range Practices() {
		got, ok := Find(strings.ToUpper(p.Name))
		require.True(t, ok)
		require.Same(t, p, got)
		for _, then := range p.Then {
			_, ok := Find(then)
			require.True(t, ok, "%s falls back on %s", p.Name, then)
		}
	}
	for _, name := range []string{"", "EU", "Ruritania"} {
		_, ok := Find(name)
		require.False(t, ok, "%q", name)
	}
	for _, l := range Limits() {
		require.NotEmpty(t, l.What)
		require.False(t, l.Print && !l.Use)
		require.False(t, l.Use && len(l.Foods) == 0, "%s %s %s is compared with, and for no food", l.Practice, l.Topic, l.What)
	}
	// One row of each kind is printed, so that it does not depend on their order.
	type kind struct{ practice, topic, food string }
	n := map[kind]int{}
	for _, l := range Limits() {
		for _, f := range l.Foods {
			if l.Print {
				n[kind{l.Practice, l.Topic, f}]++
			}
		}
	}
	for k, v := range n {
		require.Equal(t, 1, v, "%v", k)
	}
}

func TestBadDataIsRefused(t *testing.T) {
	head := "practice,topic,foods,temp_c,temp_f,temp_rule,time,unit,time_rule,use,what,source,seen_via,verified,note\n"
	for _, row := range []string{
		"UK,sing,any,75,,at least,30,s,at least,rule,x,S,primary,seen in source,",
		"UK,cook,any,hot,,at least,30,s,at least,rule,x,S,primary,seen in source,",
		"UK,cook,any,75,,at least,30,fortnight,at least,rule,x,S,primary,seen in source,",
		"UK,cook,any,75,,at least,half,s,at least,rule,x,S,primary,seen in source,",
		"UK,cook,any,75,,at least,30,s,at least,perhaps,x,S,primary,seen in source,",
		"UK,cook,any,75,,at least,30,s,at least,rule,x,S,,seen in source,",
		"UK,cook,any,75,,at least,30,s,at least,rule,x,S,primary,hearsay,",
	} {
		files := mustFS(t)
		files["limits.csv"] = &fstest.MapFile{Data: []byte(head + row + "\n")}
		_, err := load(files)
		require.ErrorContains(t, err, "limits.csv:2", row)
	}
}

// The chosen practice rules where two differ: Scots law has 82 C to bring food
// back, the advice for the rest of the kingdom 75 C.
func TestTheChosenPracticeRules(t *testing.T) {
	c75 := quantity.Temperature{Low: 75, High: 75, Scale: quantity.Celsius}
	require.Nil(t, Choose("UK").Rule("reheat", "any").Short(c75, 0))
	require.Equal(t, "82 °C", Choose("Scotland").Rule("reheat", "any").Short(c75, 0).Degrees())
	r := Choice{}.Rule("reheat", "any")
	require.Equal(t, NoneNamed, r.Basis)
	require.Equal(t, "82 °C", r.Short(c75, 0).Degrees(), "the strictest")
	require.Equal(t, "no `rules` are named, so the strictest figure seen holds, that of Scotland", r.Whose(r.Hottest()))
	// The Code sets no figure for food that is served at once.
	require.Empty(t, Choose("US").Rule("reheat", "served at once", "any", "held").Sets)
	// Nothing was seen of Canada: the strictest of the others, and it says so.
	r = Choose("CA").Rule("keep", "cooked")
	require.Equal(t, NoneSeen, r.Basis)
	require.Equal(t, 48*time.Hour, r.Shortest().Time)
	require.Equal(t, "no figure of CA has been seen; this is the strictest of the others, that of UK home", r.Whose(r.Shortest()))
	// A home has the trade's figure where it has none of its own.
	r = Choose("UK home").Rule("hot hold", "any")
	require.Equal(t, "rules UK home, which take the figure of UK", r.Whose(r.Hottest()))
}

// 74 C and 165 F are printed side by side and are not the same: each scale is
// compared with its own figure.
func TestScalesAreNotMixed(t *testing.T) {
	r := Choose("US").Rule("cook", "poultry")
	f := func(n int) quantity.Temperature {
		return quantity.Temperature{Low: n, High: n, Scale: quantity.Fahrenheit}
	}
	require.Nil(t, r.Short(f(165), 0), "165 F is 73.9 C")
	require.NotNil(t, r.Short(f(164), 0))
	require.Equal(t, "165 °F (74 °C)", r.Hottest().Core())
	uk := Choose("UK").Rule("cook", "poultry")
	require.Nil(t, uk.Short(f(167), 0), "75 C exactly")
	require.NotNil(t, uk.Short(f(166), 0))
	require.Nil(t, uk.Short(quantity.Temperature{Low: 75, High: 78, Scale: quantity.Celsius}, 0))
	require.NotNil(t, uk.Short(quantity.Temperature{Low: 74, High: 78, Scale: quantity.Celsius}, 0), "the lower end counts")
}

// The United States count the whole way in one total, Australia and Canada set
// two stages, each with its own time.
func TestCoolingInPrint(t *testing.T) {
	for practice, want := range map[string]string{
		"UK":    "into the fridge within 90 minutes",
		"US":    "135 to 70 °F (57 to 21 °C) within 2 hours, to 41 °F (5 °C) within 6 hours in all",
		"AU":    "60 to 21 °C within 2 hours, to 5 °C within 4 hours more",
		"CA":    "60 to 20 °C within 2 hours, to 4 °C within 4 hours more",
		"EU-FR": "63 to 10 °C within 2 hours",
		"":      "into the fridge within 90 minutes",
	} {
		text, limits := Choose(practice).Cooling()
		require.Equal(t, want, text, practice)
		require.NotEmpty(t, limits)
	}
}

func TestColdIsTheColdest(t *testing.T) {
	for practice, want := range map[string]string{
		"UK": "8 °C", "UK home": "5 °C", "US": "41 °F (5 °C)", "US home": "40 °F (4.4 °C)", "EU-FR": "3 °C", "AU": "5 °C", "CA": "4 °C", "": "3 °C",
	} {
		require.Equal(t, want, Choose(practice).Rule("cold hold", "any").Coldest().End(), practice)
	}
}
