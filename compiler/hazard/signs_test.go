package hazard

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// Words that say the same in other forms are one, and what is denied is not said.
func TestSigns(t *testing.T) {
	for _, c := range []struct {
		text, sign string
		want       bool
	}{
		{"Turned over glowing coals", "heat device", true},
		{"hung in the tandoor", "heat device", true},
		{"Cook them in the air-fryer.", "heat device", true},
		{"Do not wash the bird", "rinse", false},
		{"washing the bird", "rinse", true},
		{"Thaw beside the radiator", "thaw", true},
		{"still half frozen", "half frozen", true},
		{"keep the brine. In oil now", "under oil", true},
		{"cover. with the oil", "under oil", true},
		{"cover it well. Then fry. The oil", "under oil", false},
		{"on the same board", "same tools", true},
		{"in the same pan", "same tools", false},
		{"wash the board", "tools washed", true},
		{"2.5 psi", "pressure", true},
		{"as soon as you can bear it", "jar", false},
		{"a canning kettle", "jar", true},
		{"raw beef with sweetcorn and corn", "cure it", false},
		{"corned beef", "cure it", true},
		{"something to sink your teeth into", "infants", false},
		{"low-cal", "caustic", false},
		{"inside a chimney", "indoors", false},
		{"toss in barbecue sauce", "heat device", false},
		{"over the barbecue, with barbecue sauce", "heat device", true},
		{"Lay under the broiler", "heat device", true},
		{"a broiler chicken", "heat device", false},
		{"spit out the stones", "heat device", false},
		{"turn the spit", "heat device", true},
		{"wash your hands", "rinse", false},
		{"wash hands, then rinse the bird", "rinse", true},
		{"baby carrots", "infants", false},
		{"baby carrots for a baby", "infants", true},
		{"baby carrots", "frail", false},
		{"not suitable for babies", "infants", false},
		{"not suitable for babies or the pregnant", "heat device", false},
		{"ready in under two hours", "toddlers", false},
		{"ready in under one hour", "infants", false},
		{"for the under-twos", "toddlers", true},
		{"my mum's apple cake", "pregnant", false},
		{"when you are expecting guests", "pregnant", false},
		{"for women who are expecting", "pregnant", true},
		{"be patient", "frail", false},
		{"for hospital patients", "frail", true},
		{"old-school ragu", "frail", false},
		{"school dinners", "frail", true},
		{"the old way", "frail", false},
		{"lunch for old people", "frail", true},
		{"a shoulder of kid", "frail", false},
		{"a tot of rum", "toddlers", false},
		{"a cheese six months old", "infants", false},
		{"from six months", "infants", true},
		{"with ground cumin", "ground", false},
		{"ground beef with ground cumin", "ground", true},
		{"for burger buns", "ground", false},
		{"mince the garlic finely", "mince it", false},
		{"mince the beef finely", "mince it", true},
		{"in the spice grinder", "mince it", false},
		{"rolled in herbs", "rolled", false},
		{"boned and rolled", "rolled", true},
	} {
		require.Equal(t, c.want, SignsOf(c.text).Tell(c.sign), "%s: %s", c.text, c.sign)
	}
}

// A stem is the stem of itself.
func TestStem(t *testing.T) {
	for in, want := range map[string]string{"washes": "wash", "washed": "wash", "washing": "wash", "grilled": "gril", "grill": "gril", "smoke": "smok", "smoked": "smok", "berries": "berri", "coals": "coal", "thawing": "thaw", "loss": "los", "egg": "egg"} {
		require.Equal(t, want, stem(in), in)
	}
}

// What is said of poisons and printed as cautions promises nothing and blames nobody,
// no two poisons say the same, and each says what its remedy needs.
func TestTablesKeepTheTone(t *testing.T) {
	bad := regexp.MustCompile(`(?i)\bsafe(ly)?\b|\bfree from\b|-free\b|\byou (must|should|have to)\b|\byour (mistake|error|fault)\b|\binvalid\b|\billegal\b|!`)
	for _, c := range cautions() {
		require.NotRegexp(t, bad, c.Text, c.Key)
	}
	said := map[string]string{}
	for _, p := range poisons() {
		require.NotRegexp(t, bad, p.Text, p.Key)
		require.NotRegexp(t, `\.$`, p.Text, p.Key)
		require.Empty(t, said[p.Text], p.Key)
		said[p.Text] = p.Key
		require.NotEmpty(t, p.Source, p.Key)
		require.Contains(t, []string{"heat", "boil", "dose", "none"}, p.Undo, p.Key)
		require.Equal(t, p.Undo == "heat" || p.Undo == "boil", p.Long > 0, p.Key)
		require.Equal(t, p.Undo == "dose", p.AHead > 0, p.Key)
	}
}

// What is written out when its first word is met is all there is to a way of saying it,
// wherever its brackets are; an empty alternative leaves the next word first.
func TestOpenings(t *testing.T) {
	for p, want := range map[string][]string{
		"turn (the |)(spit|roast)":    {"turn (the |)(spit|roast)"},
		"(up to|at) full pressure":    {"up to full pressure", "at full pressure"},
		"(the |)(spit|big roast) ~ x": {"the (spit|big roast) ~ x", "spit ~ x", "big roast ~ x"},
		"oven(s|) hot":                {"ovens hot", "oven hot"},
	} {
		require.Equal(t, want, openings(p), p)
	}
	for text, sign := range map[string]string{
		"at full pressure": "heat device", "up to full pressure": "heat device", "hot fat": "heat device", "take it well away from the coals": "set aside",
	} {
		require.True(t, SignsOf(text).Tell(sign), text)
	}
}

// A kind of one word is meant wherever it stands in a name; what only keeps, sweetens or is
// oil is meant where it stands last: butter beans are no butter.
func TestKindsInNames(t *testing.T) {
	for _, c := range []struct {
		kind, name string
		want       bool
	}{
		{"plant", "swede fingers", true},
		{"plant", "fingers of swede", true},
		{"keeps", "salted butter", true},
		{"keeps", "butter beans", false},
		{"keeps", "honey fingers", false},
	} {
		require.Equal(t, c.want, isKind(c.kind, c.name), "%s: %s", c.kind, c.name)
	}
}
