package larder

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func groupNames(practice string) []string {
	var out []string
	for _, g := range Builtin().Groups(practice) {
		out = append(out, g.Name)
	}
	return out
}

// Regulation (EU) 1169/2011, Annex II: 14 points, in this order.
func TestFourteenAllergensOfTheEU(t *testing.T) {
	for _, practice := range []string{"EU", "UK"} {
		require.Equal(t, []string{
			"cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts",
			"celery", "mustard", "sesame seeds", "sulphur dioxide and sulphites", "lupin", "molluscs",
		}, groupNames(practice))
		require.Equal(t, "Regulation (EU) 1169/2011, Annex II, point 9", Builtin().Groups(practice)[8].Law.From())
	}
	// Point 1 names the cereals, point 8 a closed list of eight nuts.
	require.Equal(t, []string{"barley", "oats", "rye", "wheat"}, named("UK", 1, "wheat", "rye", "barley", "oats", "pine nut"))
	require.Equal(t,
		[]string{"Brazil nut", "almond", "cashew", "hazelnut", "macadamia", "pecan", "pistachio", "walnut"},
		named("EU", 8, "almond", "hazelnut", "walnut", "cashew", "pecan", "Brazil nut", "pistachio", "macadamia",
			"pine nut", "chestnut", "coconut", "peanut"))
}

// US FD&C Act 201(qq): FALCPA 2004 names eight, the FASTER Act 2021 adds sesame.
func TestNineAllergensOfTheUS(t *testing.T) {
	require.Equal(t, []string{
		"milk", "eggs", "fish", "Crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans", "sesame",
	}, groupNames("US"))
	require.Empty(t, Builtin().Regulate("US", []Content{
		{Substance: "barley"},
		{Substance: "rye"},
		{Substance: "oats"},
		{Substance: "mollusc"},
		{Substance: "celery"},
		{Substance: "mustard"},
		{Substance: "lupin"},
		{Substance: "sulphites"},
	}), "none of these is a US major allergen")
}

func named(practice string, group int, substances ...string) []string {
	var contents []Content
	for _, s := range substances {
		contents = append(contents, Content{Substance: s})
	}
	var out []string
	for _, a := range Builtin().Regulate(practice, contents) {
		if a.Number == group {
			out = append(out, a.Named())
		}
	}
	return out
}

// Every example of testdata/larder/allergens.csv is in its group; the nuts of
// FDA's Q&A on food allergens, edition 5 (January 2025), Table 1, are US tree
// nuts, and those struck from it are not.
func TestExamplesOfEachAllergen(t *testing.T) {
	groups, nuts := 0, 0
	for _, row := range readRows(t, "allergens.csv") {
		switch row["regime"] {
		case "EU/UK", "US":
			groups++
			practice, _, _ := strings.Cut(row["regime"], "/")
			no, err := strconv.Atoi(row["no"])
			require.NoError(t, err)
			g := Builtin().Groups(practice)[no-1]
			require.Equal(t, row["allergen"], g.Name)
			for _, example := range strings.Split(row["examples"], " / ") {
				has := false
				for _, a := range find(t, example).Allergens(practice) {
					has = has || a.Number == no
				}
				require.True(t, has, "%s: %s should stand under %s", practice, example, g.Name)
			}
		case "US tree nut":
			nuts++
			name, _, _ := strings.Cut(row["allergen"], " / ")
			name, _, _ = strings.Cut(name, " (")
			substance, ok := Builtin().Substance(name)
			require.True(t, ok, name)
			require.Len(t, named("US", 5, substance), 1, name)
		case "US tree nut, removed":
			nuts++
			substance, known := Builtin().Substance(strings.TrimSuffix(row["allergen"], " nut"))
			require.True(t, !known || len(named("US", 5, substance)) == 0, row["allergen"])
		}
	}
	require.Equal(t, 23, groups)
	require.Equal(t, 24, nuts)
}

func TestAllergensByPractice(t *testing.T) {
	list := func(name, practice string) []string {
		var out []string
		for _, a := range find(t, name).Allergens(practice) {
			s := a.Group + ": " + a.Named()
			if a.Depends {
				s += "?"
			}
			out = append(out, s)
		}
		return out
	}
	require.Equal(t, []string{"cereals containing gluten: wheat", "soybeans: soya"}, list("soy sauce", "UK"))
	require.Equal(t, []string{"wheat: wheat", "soybeans: soy"}, list("soy sauce", "US home"))
	require.Equal(t, []string{"cereals containing gluten: barley"}, list("pearl barley", "EU-FR"))
	require.Empty(t, list("pearl barley", "US"))
	require.Equal(t, []string{"soy: soy"}, list("tofu", "AU"))
	require.Equal(t, []string{"soybeans: soy"}, list("tofu", "US"))
	require.Equal(t, []string{"molluscs: mollusc (squid)"}, list("calamari", "Scotland"))
	require.Empty(t, list("calamari", "US"))
	require.Equal(t, []string{"Crustacean shellfish: crustacean (prawn)"}, list("shrimp", "US"))
	require.Empty(t, list("pine nuts", "UK"))
	require.Equal(t, []string{"tree nuts: pine nut"}, list("pine nuts", "US"))
	require.Equal(t, []string{"celery: celery"}, list("celery root", "UK"))
	require.Contains(t, list("vegetable stock cube", "UK"), "celery: celery?")
	require.Empty(t, list("buckwheat", "UK"), "not a wheat")
	require.Empty(t, list("coriander", "UK"))
	require.Nil(t, Builtin().Groups("Mars"))
	require.Empty(t, Builtin().Regulate("UK", []Content{{Substance: "sunshine"}}))
}

// What an ingredient is and what it contains must tell the same story.
func TestKindAndContentsAgree(t *testing.T) {
	for _, it := range Builtin().Items() {
		has := map[string]bool{}
		for _, c := range it.Contains {
			if !c.Depends {
				has[c.Substance] = true
			}
		}
		for substance, flag := range map[string]Flag{"egg": Egg, "milk": Dairy, "fish": Fish, "crustacean": Shellfish, "mollusc": Shellfish} {
			if has[substance] {
				assert.True(t, it.Has(flag), "%s contains %s but is not marked %s", it.Name, substance, flag)
			}
		}
		assert.True(t, !it.Has(Egg) || has["egg"], "%s is marked egg", it.Name)
		assert.True(t, !it.Has(Dairy) || has["milk"], "%s is marked dairy", it.Name)
		assert.True(t, !it.Has(Fish) || has["fish"] || has["crustacean"] || has["mollusc"], "%s is marked fish", it.Name)
		assert.True(t, !it.Has(Shellfish) || has["crustacean"] || has["mollusc"], "%s is marked shellfish", it.Name)
		if it.Counter == "butcher" && it.Name != "stuffing balls" {
			require.True(t, it.Has(Meat), "%s from the butcher", it.Name)
		}
		if it.Counter == "fishmonger" {
			require.True(t, it.Has(Fish) || it.Has(Shellfish), it.Name)
		}
	}
}

// A row that is named by an animal says that it is one, so that a claim to be vegetarian or
// halal meets it; but for names that only sound so.
func TestRowsNamedByAnAnimalSaySo(t *testing.T) {
	words := strings.Fields("beef pork lamb chicken turkey duck goose veal ham bacon sausage chorizo salami pancetta steak mince liver kidney rabbit venison pigeon quail pheasant partridge mutton oxtail tripe meat meatball lardon prosciutto pepperoni frankfurter jerky biltong gammon brisket rillettes brawn terrine haggis kiev nugget lard suet")
	sounds := regexp.MustCompile(`(?i)vegan|vegetarian|veggie|vegetable|plant|meatless|soya|\bbean|\beggs?$|sauce|pigeon pea|crab meat|beef tomato|lamb's lettuce|seasoning|masala|rub$|cranberry|meat-free`)
	for _, it := range Builtin().Items() {
		for w := range strings.FieldsSeq(strings.ToLower(it.Name)) {
			if slices.Contains(words, strings.TrimSuffix(w, "'s")) && !sounds.MatchString(it.Name) {
				assert.True(t, it.Has(Meat), "%s is not marked meat", it.Name)
			}
		}
	}
	for name, flag := range map[string]Flag{"game stock": Meat, "bone broth": Meat, "consommé": Meat, "hot water crust": Pork, "pork and beans": Pork, "jelly baby": Gelatine, "gummy bear": Gelatine, "brandy butter": Alcohol, "Scotch egg": Egg, "seafood stock": Shellfish} {
		k := Builtin().Named(name)
		require.NotNil(t, k, name)
		assert.True(t, k.Item.Has(flag), "%s is not marked %s", name, flag)
	}
}

// A name with accents is known without them too, and as the same thing.
func TestNamesWithoutTheirAccents(t *testing.T) {
	for bare, name := range map[string]string{"creme anglaise": "crème anglaise", "bearnaise": "béarnaise", "consomme": "consommé", "pate": "pâté", "landjager": "landjäger", "acai": "açaí"} {
		k := Builtin().Named(bare)
		require.NotNil(t, k, bare)
		assert.Equal(t, name, k.Item.Name)
	}
}
