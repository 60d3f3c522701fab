package compiler_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

// walk is what went into a dish or base.
type walk struct{ example, dish, went string }

// walked are dishes of the examples with what went in, walked by hand through every base
// down to what is bought: each thing with what Regulation (EU) 1169/2011 Annex II has in
// it, and nothing behind what has none. Read off the texts of the examples and of their
// larders, not off any sheet.
var walked = []walk{
	{"harvest-lunch", "Cucumber soup", "cucumbers; fine salt; thick yoghurt = milk; garlic; mint leaves; lemon juice; herb oil ( parsley leaves; chives; rapeseed oil )"},
	{"harvest-lunch", "Slow lamb", "lamb shoulder; fine salt; rapeseed oil; onions; garlic; rosemary; red wine = sulphites; water; brown stock ( chicken carcasses; onions; carrots; celery = celery; tomato puree; water; bay leaves; black peppercorns ); black pepper"},
	{"harvest-lunch", "Barley pilaf", "onions; rapeseed oil; pearl barley = barley; brown stock ( chicken carcasses; onions; carrots; celery = celery; tomato puree; water; bay leaves; black peppercorns ); fine salt; olive oil; lemon juice; flaked almonds, which the menu chose = almond; parsley leaves"},
	{"harvest-lunch", "Charred beans", "green beans; herb oil ( parsley leaves; chives; rapeseed oil ); lemon; flaky salt"},
	{"harvest-lunch", "Plum crumble", "butter = milk; plain flour = wheat; rolled = oats oats; demerara sugar; fine salt; plums; caster sugar; cornflour; double cream = milk"},
	{"harvest-lunch", "Brown stock", "chicken carcasses; onions; carrots; celery = celery; tomato puree; water; bay leaves; black peppercorns"},
	{"harvest-lunch", "Herb oil", "parsley leaves; chives; rapeseed oil"},
	{"dumpling-supper", "Dumplings in broth", "Chinese cabbage; fine salt; minced pork; light soy sauce = soya wheat; sesame oil = sesame; ginger; spring onions; wheat dough ( plain flour = wheat; fine salt; water ); ginger broth ( chicken wings; water; ginger; spring onions; fine salt ); black vinegar dip ( black vinegar = wheat; light soy sauce = soya wheat; sesame oil = sesame; water; white sugar; ginger )"},
	{"dumpling-supper", "Chive parcels", "rapeseed oil; eggs = egg; firm tofu = soya; garlic chives; light soy sauce = soya wheat; fine salt; wheat dough ( plain flour = wheat; fine salt; water ); water; black vinegar dip ( black vinegar = wheat; light soy sauce = soya wheat; sesame oil = sesame; water; white sugar; ginger )"},
	{"dumpling-supper", "Smashed cucumbers", "cucumbers; fine salt; garlic; black vinegar = wheat; sesame oil = sesame; white sugar; chilli oil"},
	{"dumpling-supper", "Braised greens", "rapeseed oil; shiitake mushrooms; garlic; pak choi; ginger broth ( chicken wings; water; ginger; spring onions; fine salt ); light soy sauce = soya wheat; cornflour"},
	{"village-hall-curry", "Cauliflower and potato curry", "rapeseed oil; ginger; garlic; curry spice ( coriander seeds; cumin seeds; fennel seeds; black peppercorns; turmeric; chilli powder ); golden onions ( rapeseed oil; onions; fine salt ); plum tomatoes; potatoes; water; fine salt; cauliflower; coconut milk; frozen peas; coriander leaves"},
	{"village-hall-curry", "Red lentil dal", "red lentils; water; turmeric; golden onions ( rapeseed oil; onions; fine salt ); curry spice ( coriander seeds; cumin seeds; fennel seeds; black peppercorns; turmeric; chilli powder ); fine salt; lemon juice; cumin seeds; rapeseed oil; garlic"},
	{"village-hall-curry", "Cucumber raita", "cucumbers; fine salt; cumin seeds; natural yoghurt = milk; mint leaves"},
	{"village-hall-curry", "Tomato and ginger chutney", "tomatoes; onions; ginger; raisins; cider vinegar = sulphites; caster sugar; fine salt; chilli powder"},
	{"village-hall-curry", "Baked rice", "basmati rice; water; fine salt; rapeseed oil"},
	{"regatta-picnic", "Boathouse pie", "pork shoulder; unsmoked streaky bacon; sage leaves; ground mace; fine salt; ground white pepper; plain flour = wheat; lard; water; egg = egg; chicken broth of part 3 ( chicken; water; onion; carrots; celery = celery; bay leaves; fine salt; green sauce ( parsley leaves; mint leaves; basil leaves; capers; garlic; Dijon mustard = mustard sulphites; cider vinegar = sulphites; olive oil ) ); leaf gelatine; pickled cucumbers of part 1 ( small cucumbers; fine salt; cider vinegar = sulphites; caster sugar; mustard seeds = mustard; dill )"},
	{"regatta-picnic", "Trout over the coals", "trout fillets = fish; rapeseed oil; fine salt; caper butter of part 2 ( butter = milk; capers; lemons; parsley )"},
	{"regatta-picnic", "Grill breads", "boat dough of part 5 ( strong white flour = wheat; dried yeast; fine salt; water; olive oil ); olive oil; caper butter of part 2 ( butter = milk; capers; lemons; parsley )"},
	{"regatta-picnic", "New potato salad", "new potatoes; olive oil; Dijon mustard = mustard sulphites; cider vinegar = sulphites; pickled cucumbers of part 1 ( small cucumbers; fine salt; cider vinegar = sulphites; caster sugar; mustard seeds = mustard; dill ); spring onions; dill; fine salt"},
	{"regatta-picnic", "Courgettes off the grill", "courgettes; olive oil; flaky salt; lemon; mint leaves; hazelnuts = hazelnut"},
	{"regatta-picnic", "Lamb skewers", "lamb leg; natural yoghurt = milk; garlic; ground cumin; dried oregano; fine salt; lemon"},
	{"regatta-picnic", "Gooseberry cake", "butter = milk; caster sugar; eggs = egg; ground almonds = almond; self-raising flour = wheat; gooseberries; flaked almonds = almond"},
	{"regatta-picnic", "Towpath cup", "elderflower syrup of part 1 ( water; granulated sugar; lemons; citric acid; elderflower heads ); sparkling water; lemon; cucumber; mint leaves"},
	{"family-notebook", "Cottage pie", "savoury mince ( minced beef; rapeseed oil; onions; carrots; celery = celery; tomato puree; chicken stock ( chicken carcasses; onions; carrots; celery = celery; bay leaves; black peppercorns; water ); brown roux ( butter = milk; plain flour = wheat ); bay leaves; salt; black pepper ); floury potatoes; butter = milk; whole milk = milk; salt"},
	{"family-notebook", "Chicken and leek pie", "cooked chicken; leeks; butter = milk; white sauce ( whole milk = milk; bay leaf; pale roux ( butter = milk; plain flour = wheat ); salt; nutmeg ); English mustard = mustard; shortcrust pastry ( plain flour = wheat; salt; butter = milk; lard; water ); egg = egg; salt; white pepper"},
	{"family-notebook", "Toad in the hole", "beef dripping; pork sausages = wheat sulphites; plain batter ( plain flour = wheat; eggs = egg; whole milk = milk; salt ); onion gravy ( onions; butter = milk; chicken stock = celery; brown roux ( butter = milk; plain flour = wheat ); cider vinegar; salt )"},
	{"family-notebook", "Bread and butter pudding", "everyday loaf ( bread dough ( strong white flour = wheat; salt; dried yeast; water; rapeseed oil ); rapeseed oil ); butter = milk; sultanas; eggs = egg; caster sugar; whole milk = milk; double cream = milk; demerara sugar; nutmeg"},
	{"family-notebook", "Trifle", "sponge cake ( butter = milk; caster sugar; eggs = egg; self-raising flour = wheat; whole milk = milk ); raspberry jam ( raspberries; granulated sugar; lemon juice ); sweet sherry = sulphites; raspberries; custard ( whole milk = milk; double cream = milk; vanilla pod; egg yolks = egg; caster sugar; cornflour ); double cream = milk; flaked almonds = almond"},
	{"family-notebook", "Oat gingerbread", "butter = milk; dark brown sugar; black treacle; golden syrup; medium oatmeal = oats; self-raising flour = wheat; ground ginger; mixed spice; egg = egg; whole milk = milk"},
	{"family-notebook", "Green tomato chutney", "green tomatoes; cooking apples; onions; sultanas; soft brown sugar; malt vinegar = barley; salt; ground ginger; mustard seeds = mustard"},
	{"family-notebook", "Potato salad", "new potatoes; mustard dressing ( cider vinegar; English mustard = mustard; salt; caster sugar; rapeseed oil ); pickled onions ( pickling onions; salt; malt vinegar = barley; granulated sugar; pickling spice = mustard ); chives; salt"},
}

// ofWalk is the union of what the things of a walk hold.
func ofWalk(went string) (out []string) {
	for _, thing := range strings.FieldsFunc(went, func(r rune) bool { return strings.ContainsRune(";()", r) }) {
		_, holds, _ := strings.Cut(thing, " = ")
		for _, w := range strings.Fields(holds) {
			if !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	slices.Sort(out)
	return out
}

func TestAllergensWalkedByHand(t *testing.T) {
	results := map[string]*compiler.Result{}
	compared := 0
	for _, w := range walked {
		want := ofWalk(w.went)
		r := results[w.example]
		if r == nil {
			r = example(t, w.example, everySheet)
			results[w.example] = r
		}
		seen := 0
		for _, s := range r.Documents[0].Sheets {
			switch s.Kind {
			case sheets.Prep:
				if s.Title == w.dish {
					require.Equal(t, strings.Join(want, ", "), strings.Join(sheetHolds(&s), ", "), "%s, its prep sheet", w.dish)
					seen++
				}
			case sheets.DateLabels:
				for _, g := range table(t, &s, 0).Groups {
					for _, row := range g.Rows {
						if runText(row.Cells[1].Runs) == w.dish {
							require.Equal(t, strings.Join(want, ", "), strings.TrimPrefix(runText(row.Cells[4].Runs), "contains "), "%s, its label", w.dish)
							seen++
						}
					}
				}
			case sheets.Allergens:
				for _, g := range table(t, &s, 0).Groups {
					for _, row := range g.Rows {
						if runText(row.Cells[1].Runs) == w.dish {
							require.Equal(t, strings.Join(want, ", "), strings.Join(inGrid(row), ", "), "%s, in the grid", w.dish)
							seen++
						}
					}
				}
			}
		}
		require.Positive(t, seen, w.dish)
		compared += seen
	}
	require.GreaterOrEqual(t, compared, 28)
	t.Logf("%d sheets and rows equal to the walks of %d dishes and bases", compared, len(walked))
}
