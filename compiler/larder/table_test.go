package larder

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBuiltinIsWhole(t *testing.T) {
	_, err := Load(builtinFiles(t))
	require.NoError(t, err)
	table := Builtin()
	require.GreaterOrEqual(t, len(table.Items()), 400)
	used := map[string]bool{}
	for _, it := range table.Items() {
		used[it.Counter] = true
		require.NotNil(t, it.Source, it.Name)
		require.Equal(t, it.Counter == "", it.Water, it.Name)
		require.False(t, strings.ContainsAny(it.Name+it.Plural+strings.Join(it.Other, ""), `,|():"+/`), "%s could not be written in a gather line", it.Name)
		for _, d := range it.Densities {
			require.True(t, d.GPerML.Value.Float() > 0.02 && d.GPerML.Value.Float() < 1.6, "%s %s: %v g/ml", it.Name, d.Form, d.GPerML.Value.Float())
		}
		for _, p := range it.Pieces {
			require.True(t, p.Grams.Value.Float() >= 0.05 && p.Grams.Value.Float() <= 4000, "%s %s", it.Name, p.Size)
			require.False(t, p.Range.High.Less(p.Range.Low), it.Name)
		}
		for _, y := range it.Yields {
			require.True(t, y.Percent.Value.Float() >= 10, it.Name)
		}
	}
	for _, c := range table.Counters() {
		require.True(t, used[c], "nothing is sold at the counter %s", c)
	}
}

// A size must not weigh more than the next.
func TestSizesRise(t *testing.T) {
	order := []string{"peewee", "small", "medium", "large", "extra large", "jumbo"}
	for _, it := range Builtin().Items() {
		for _, p := range it.Pieces {
			for _, q := range it.Pieces {
				if p.Part == q.Part && p.Practice == q.Practice && p.Bought == q.Bought && p.Size != "" && q.Size != "" &&
					slices.Index(order, p.Size) < slices.Index(order, q.Size) {
					require.True(t, p.Grams.Value.Less(q.Grams.Value), "%s: %s and %s", it.Name, p.Size, q.Size)
				}
			}
		}
	}
}

// A fact from memory names no published source, and one that was seen does.
func TestMemoryNamesNoSource(t *testing.T) {
	check := func(name string, s *Source, fromMemory bool) {
		require.Equal(t, fromMemory, s.Key == "memory" || s.Key == "practice", "%s: %s", name, s.Key)
	}
	for _, it := range Builtin().Items() {
		for _, d := range it.Densities {
			check(it.Name, d.GPerML.Source, d.GPerML.FromMemory)
		}
		for _, p := range it.Pieces {
			check(it.Name, p.Grams.Source, p.Grams.FromMemory)
		}
		for _, y := range it.Yields {
			check(it.Name, y.Percent.Source, y.Percent.FromMemory)
		}
		for _, g := range it.Gives {
			check(it.Name, g.Amount.Source, g.Amount.FromMemory)
		}
		for _, p := range it.Packs {
			require.Equal(t, "common practice, no source", p.Source.Title)
		}
	}
}

func TestFindWhateverIsWritten(t *testing.T) {
	items := Builtin().Items()
	rapid.Check(t, func(t *rapid.T) {
		it := rapid.SampledFrom(items).Draw(t, "item")
		name := rapid.SampledFrom(append([]string{it.Name, it.Plural}, it.Other...)).Draw(t, "name")
		for _, written := range []string{
			name, Fold(name), strings.ToUpper(name), " " + strings.ReplaceAll(name, " ", " \u00A0") + " ",
			strings.ReplaceAll(name, "'", "’"),
		} {
			got, ok := Builtin().Find(written)
			require.True(t, ok, written)
			require.Same(t, it, got, written)
		}
	})
	for _, it := range items {
		require.Equal(t, Fold(it.Plural), Fold(Fold(it.Plural)))
		got, ok := Builtin().Find(it.Plural)
		require.True(t, ok && got == it, it.Plural)
	}
	_, ok := Builtin().Find("moon dust")
	require.False(t, ok)
	_, ok = Builtin().Find("")
	require.False(t, ok)
}

func TestOtherNamesOfTheSame(t *testing.T) {
	for name, others := range map[string]string{
		"coriander":           "cilantro / coriander leaves / Fresh coriander",
		"aubergine":           "eggplant / Eggplants / brinjal",
		"courgette":           "zucchini / zucchinis",
		"spring onion":        "scallions / green onions / salad onion",
		"plain flour":         "all-purpose flour / flour / All Purpose Flour",
		"strong flour":        "bread flour",
		"bicarbonate of soda": "baking soda / bicarb",
		"caster sugar":        "superfine sugar",
		"icing sugar":         "confectioners’ sugar / powdered sugar",
		"cornflour":           "cornstarch",
		"whipping cream":      "heavy cream",
		"swede":               "rutabaga",
		"rocket":              "arugula",
		"beetroot":            "beets",
		"red pepper":          "red bell pepper / red capsicums",
		"sweet pepper":        "bell pepper / capsicums / peppers / mixed peppers",
		"king prawn":          "tiger prawns",
		"minced beef":         "ground beef / beef mince",
		"lamb leg":            "leg of lamb / legs of lamb",
		"sultana":             "golden raisins",
		"black pepper":        "pepper / freshly ground black pepper",
		"jalapeño":            "jalapeno / jalapeños",
		"crème fraîche":       "creme fraiche / CRÈME FRAÎCHE",
		"tomato purée":        "tomato paste",
		"chilli flakes":       "red pepper flakes",
		"corn on the cob":     "ears of corn",
	} {
		for _, other := range strings.Split(others, " / ") {
			require.Equal(t, name, find(t, other).Name, other)
		}
	}
}

// Names that look alike and are not the same thing.
func TestNearMissesStayApart(t *testing.T) {
	for _, pair := range [][2]string{
		{"coriander", "coriander seed"},
		{"coriander", "ground coriander"},
		{"baking powder", "baking soda"},
		{"single cream", "double cream"},
		{"double cream", "heavy cream"},
		{"double cream", "clotted cream"},
		{"whipping cream", "thickened cream"},
		{"single cream", "half and half"},
		{"plain flour", "self-raising flour"},
		{"plain flour", "bread flour"},
		{"cornflour", "cornmeal"},
		{"potato flour", "potato starch"},
		{"allspice", "mixed spice"},
		{"chilli powder", "chili powder"},
		{"black pepper", "red pepper"},
		{"mince", "mincemeat"},
		{"garlic", "wild garlic"},
		{"ginger", "ground ginger"},
		{"chicory", "curly endive"},
		{"tomato purée", "passata"},
		{"coconut milk", "coconut cream"},
		{"coconut milk", "coconut water"},
		{"desiccated coconut", "sweetened shredded coconut"},
		{"condensed milk", "evaporated milk"},
		{"fresh yeast", "dried yeast"},
		{"dried yeast", "instant yeast"},
		{"leaf gelatine", "gelatine"},
		{"kosher salt", "salt"},
		{"golden syrup", "corn syrup"},
		{"ginger beer", "ginger ale"},
		{"stock cube", "chicken stock"},
		{"dried kidney bean", "tinned kidney bean"},
		{"dried chickpea", "chickpea"},
		{"Thai basil", "holy basil"},
		{"fennel", "fennel seed"},
		{"celery", "celery seed"},
		{"celery", "celeriac"},
		{"mustard", "mustard seed"},
		{"clove", "garlic"},
		{"vanilla extract", "vanilla pod"},
		{"smoked salmon", "salmon"},
		{"prawn", "brown shrimp"},
		{"sirloin steak", "rump steak"},
		{"chicken breast", "chicken thigh"},
	} {
		a, okA := Builtin().Find(pair[0])
		b, okB := Builtin().Find(pair[1])
		require.True(t, !okA || !okB || a != b, "%s is not %s", pair[0], pair[1])
	}
	for _, unknown := range []string{"corn flour", "beans", "steak", "seasoning", "crisp", "fry", "sprinkle", "wrap", "label"} {
		_, ok := Builtin().Find(unknown)
		require.False(t, ok, "%s may mean several things", unknown)
	}
	// What names that fit several things share is known, and no more.
	for _, generic := range []string{"cream", "cheese", "oil", "vinegar", "wine", "mince", "endive", "tortilla", "gelatine"} {
		it := find(t, generic)
		require.True(t, it.Has(Generic), generic)
		require.Empty(t, it.Densities, generic)
		require.Empty(t, it.Yields, generic)
	}
}

func TestFormsAndStates(t *testing.T) {
	sugar := find(t, "brown sugar")
	packed, ok := sugar.Density("")
	require.True(t, ok)
	require.Equal(t, "packed", packed.Form)
	loose, ok := sugar.Density("loosely filled, loose")
	require.True(t, ok)
	require.Equal(t, "loose", loose.Form)
	// Two kosher salts differ by 1.7 times: which is not guessed.
	_, ok = find(t, "kosher salt").Density("")
	require.False(t, ok)
	rolled, ok := find(t, "kosher salt").Density("rolled flakes")
	require.True(t, ok)
	require.True(t, rolled.GPerML.FromMemory)

	cucumber := find(t, "cucumber")
	plain, _ := cucumber.Yield("", "")
	require.Equal(t, "97", plain.Percent.Value.String())
	peeled, _ := cucumber.Yield("peeled, seeded and diced", "")
	require.Equal(t, "73", peeled.Percent.Value.String())
	// A leg of lamb is bought on the bone: only boning takes anything away.
	_, ok = find(t, "leg of lamb").Yield("", "")
	require.False(t, ok)
	boned, ok := find(t, "leg of lamb").Yield("boned and rolled", "")
	require.True(t, ok)
	require.Equal(t, "79", boned.Percent.Value.String())
	_, ok = find(t, "saffron").Yield("", "")
	require.False(t, ok)

	clove, ok := find(t, "garlic").Piece("cloves", "", "")
	require.True(t, ok)
	require.Equal(t, "3", clove.Grams.Value.String())
	large, ok := find(t, "onion").PieceGrams("large")
	require.True(t, ok)
	require.Equal(t, "150", large.Grams.Value.String())
	_, ok = find(t, "onion").PieceGrams("gigantic")
	require.False(t, ok)
	medium, ok := find(t, "egg").Piece("shell", "", "UK")
	require.True(t, ok)
	require.Equal(t, "medium", medium.Size)
}

func TestDecoysThatWouldMislead(t *testing.T) {
	table := Builtin()
	for _, words := range []string{"cooked prawns", "fresh thyme", "chopped tomatoes", "raw prawn", "grated nutmeg", "fish", "pastry", "stock", "bitter", "spelt"} {
		_, known := table.Find(words)
		_, decoy := table.Decoy(words)
		require.True(t, known && !decoy, words)
	}
	for _, words := range []string{"olive oil", "butter beans", "double cream", "boiling water", "dried apricots", "cream", "jam jars", "fish sauce", "puff pastry"} {
		_, ok := table.Decoy(words)
		require.True(t, ok, words)
	}
}

func TestPartsAndPlainWords(t *testing.T) {
	for written, want := range map[string][2]string{
		"thyme sprigs": {"thyme", "sprig"}, "sprigs of thyme": {"thyme", "sprig"}, "garlic cloves": {"garlic", "clove"},
		"zest of a lemon": {"lemon", "zest"}, "lemon zest": {"lemon", "zest"}, "Parsley Stalks": {"parsley", "stalk"},
		"ripe tomatoes": {"tomato", ""}, "large free-range eggs": {"egg", ""}, "skinless salmon fillets": {"salmon", ""},
		"heads of garlic": {"garlic", "head"}, "parsley leaves": {"parsley", ""}, "leg of lamb": {"lamb leg", ""},
		"large ripe mangoes": {"mango", ""}, "fresh thyme leaves": {"thyme", ""}, "lemon juice": {"lemon juice", ""},
	} {
		it, part, ok := Builtin().FindPart(written)
		require.True(t, ok, written)
		require.Equal(t, want, [2]string{it.Name, part}, written)
	}
	for _, unknown := range []string{"", "ripe", "cloves of moon dust", "of", "zest of", "moon dust leaves", "leaf", "sprig"} {
		_, _, ok := Builtin().FindPart(unknown)
		require.False(t, ok, unknown)
	}
	rapid.Check(t, func(t *rapid.T) {
		Builtin().FindPart(rapid.String().Draw(t, "any"))
	})
}

func TestFlags(t *testing.T) {
	for name, flags := range map[string][]Flag{
		"chicken thigh": {Meat, Poultry, RawPoultry}, "pork mince": {Meat, Pork, RawPork, RawMince, RawMeat},
		"basmati rice": {Rice}, "dried kidney beans": {KidneyBean}, "kidney beans": {KidneyBean},
		"egg": {Egg, RawEgg}, "plain flour": {RawFlour}, "mussels": {Shellfish, RawShell}, "parmesan": {Dairy, Rennet},
		"gelatine": {Gelatine}, "honey": {Honey}, "red wine": {Alcohol}, "bean sprouts": {Sprouts}, "brie": {SoftCheese, Dairy},
		"chicken livers": {Liver, RawPoultry}, "cod": {Fish, RawFish}, "almonds": {Nut}, "stock cube": {ReadLabel}, "lard": {Pork, Meat},
	} {
		for _, f := range flags {
			require.True(t, find(t, name).Has(f), "%s should be marked %s", name, f)
		}
	}
	for name, flag := range map[string]Flag{
		"tinned kidney beans": KidneyBean, "smoked salmon": RawFish, "ham": RawPork, "duck confit": RawPoultry,
		"mayonnaise": RawEgg, "cooked prawns": RawShell, "cheddar": SoftCheese, "onion": Meat,
	} {
		require.False(t, find(t, name).Has(flag), "%s is not %s", name, flag)
	}
	declared := map[Flag]bool{}
	for _, f := range Builtin().Flags() {
		declared[f.Flag] = true
		require.Contains(t, []string{"diet", "name", "risk"}, f.Group)
	}
	all := []Flag{
		Meat, Beef, Lamb, Pork, Poultry, Game, Fish, Shellfish, Dairy, Egg, Honey, Gelatine, Rennet, Alcohol, ReadLabel, Generic,
		RawMeat, RawPoultry, RawPork, RawMince, RawFish, RawShell, RawEgg, RawFlour, Rice, KidneyBean, Sprouts, SoftCheese, Liver, Nut,
	}
	require.Len(t, declared, len(all))
	for _, f := range all {
		require.True(t, declared[f], f)
	}
}

func TestWordsAndWater(t *testing.T) {
	require.True(t, find(t, "boiling water").Water)
	require.False(t, find(t, "sparkling water").Water)
	require.True(t, find(t, "olive oil").Cupboard)
	require.False(t, find(t, "double cream").Cupboard)
	for _, w := range strings.Fields("leaf clove sprig stick pod zest juice fillet thigh breast leg shoulder") {
		require.Contains(t, Parts(), w)
	}
	require.Equal(t, strings.Fields("butter oil salt pepper flour sugar water cream juice zest ice spice crumb honey spray glaze batter bread lard"), Verbs())
	// 10 to 12 cloves in a head of garlic: from memory.
	garlic := find(t, "garlic")
	require.Equal(t, "head", garlic.Gives[0].Per)
	require.Equal(t, "clove", garlic.Gives[0].Unit)
	require.True(t, garlic.Gives[0].Amount.FromMemory)
	cream := find(t, "double cream")
	require.Equal(t, "ml", cream.Packs[0].Unit)
	require.Equal(t, "150", cream.Packs[0].Amount.String())
	milk := find(t, "milk")
	i := slices.IndexFunc(milk.Packs, func(p Pack) bool { return p.Amount.String() == "1136" })
	require.GreaterOrEqual(t, i, 0, "1.136 litre is two imperial pints")
}
