package compiler_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A word of each of the fourteen of Regulation (EU) 1169/2011 Annex II and the nine of the
// FD&C Act 201(qq), a thing that holds it, and one that only sounds like it.
var claimed = []struct{ words, holds, sounds string }{
	{"gluten", "pearl barley", "buckwheat"},
	{"gluten", "freekeh", "glutinous rice"},
	{"wheat", "spelt flour", "buckwheat flour"},
	{"barley", "malt extract", "millet"},
	{"rye", "pumpernickel", "wild rice"},
	{"oat", "porridge oats", "goat's cheese"},
	{"crustacean", "prawns", "prawn-flavoured rice"},
	{"shellfish", "crab meat", "oyster mushrooms"},
	{"egg", "mayonnaise", "eggplant"},
	{"fish", "Worcestershire sauce", "starfruit"},
	{"peanut", "satay sauce", "pine nuts"},
	{"soya", "tofu", "butter beans"},
	{"soy", "miso", "broad beans"},
	{"milk", "ghee", "coconut milk"},
	{"dairy", "crème fraîche", "cocoa butter"},
	{"lactose", "double cream", "lactose-free cream"},
	{"nut", "marzipan", "butternut squash"},
	{"tree nut", "praline paste of hazelnuts", "peanuts"},
	{"almond", "frangipane", "sunflower seeds"},
	{"hazelnut", "gianduja", "pumpkin seeds"},
	{"celery", "celeriac", "chicory"},
	{"mustard", "piccalilli", "horseradish"},
	{"sesame", "tahini", "sunflower seeds"},
	{"sulphite", "red wine", "olive oil"},
	{"lupin", "lupin flour", "rice flour"},
	{"mollusc", "squid", "prawns"},
	{"pork", "chorizo", "beef bacon"},
	{"alcohol", "sherry", "alcohol-free wine"},
}

// claims are ways of saying that something is not in it.
var claims = []string{"dish %s-free trial", "dish Trial, free from %s", "dish Trial without %s", "dish No %s trial", "dish %s free trial", "dish Trial with no %s", "dish Trial free of %s and lentils", "dish Trial\n  about\n    Made without %s.", "dish Trial\n  about\n    It is %s-free."}

func claimText(claim, word, thing string, base bool) string {
	text := fmt.Sprintf(claim, word) + "\n  rules UK\n  serves 4\n  gather\n    300 g courgettes\n"
	if base {
		return text + "    100 g second mix\n  method\n    - Boil the courgettes and stir in the second mix.\n      | ring low | watch 20 min\n  serve hot\n" +
			"base First mix\n  makes 200 g\n  gather\n    200 g " + thing + "\n  method\n    - Mash the " + thing + ".\n      | work 2 min\n" +
			"base Second mix\n  makes 200 g\n  gather\n    200 g first mix\n  method\n    - Beat the first mix.\n      | work 2 min\n"
	}
	return text + "    100 g " + thing + "\n  method\n    - Boil the courgettes and stir in the " + thing + ".\n      | ring low | watch 20 min\n  serve hot\n"
}

func TestClaimsInEveryForm(t *testing.T) {
	for _, c := range claimed {
		for _, form := range claims {
			for _, base := range []bool{false, true} {
				got, _ := alarms(claimText(form, c.words, c.holds, base))
				assert.Contains(t, got, "A104", "%s, and %s, through bases: %v", fmt.Sprintf(form, c.words), c.holds, base)
			}
			got, all := alarms(claimText(form, c.words, c.sounds, false))
			i := slices.Index(got, "A104")
			assert.Negative(t, i, "%s, and %s: %v", fmt.Sprintf(form, c.words), c.sounds, all)
		}
	}
}

// Diets by their names, in the title, in about, in the course and in an option.
func TestDietsInEveryForm(t *testing.T) {
	for _, c := range []struct{ word, holds, sounds string }{
		{"vegan", "honey", "agave syrup"},
		{"vegan", "egg noodles", "rice noodles"},
		{"vegan", "oyster sauce", "vegetarian oyster sauce"},
		{"vegan", "gelatine leaves", "agar flakes"},
		{"plant-based", "butter", "plant-based butter"},
		{"vegetarian", "lard", "vegetable lard"},
		{"vegetarian", "fish sauce", "vegetarian fish sauce"},
		{"vegetarian", "Parmesan", "vegetarian parmesan"},
		{"veggie", "beef suet", "vegetable suet"},
		{"meat-free", "pancetta", "meat-free mince"},
		{"pescatarian", "chicken", "salmon"},
		{"halal", "bacon", "turkey bacon"},
		{"halal", "mirin", "rice vinegar"},
		{"kosher", "prawns", "salmon"},
		{"kosher-style", "pork sausages", "beef salami"},
		{"coeliac", "couscous", "quinoa"},
		{"celiac", "soy sauce", "gluten-free soy sauce"},
		{"coeliac-friendly", "beer", "gluten-free beer"},
		{"Jain", "garlic", "asafoetida"},
	} {
		up := strings.ToUpper(c.word[:1]) + c.word[1:]
		for _, form := range []string{"dish " + up + " trial", "dish Trial\n  about\n    This is " + c.word + ".", "dish Trial\n  about\n    Suitable for " + c.word + " guests. Freezes well.", "dish A " + c.word + " trial", "dish Trial, " + c.word} {
			for _, thing := range []string{c.holds, c.sounds} {
				form = strings.ReplaceAll(form, "%", "%%")
				got, all := alarms(claimText(form+"%.0s", "", thing, thing == c.holds))
				assert.Equal(t, thing == c.holds, slices.Contains(got, "A104"), "%s, and %s: %v", form, thing, all)
			}
		}
		menu := "menu M\n  covers 4\n  course " + up + " plates\n    Trial\n\n"
		for _, thing := range []string{c.holds, c.sounds} {
			got, all := alarms(menu + claimText("dish Trial%.0s", "", thing, false))
			assert.Equal(t, thing == c.holds, slices.Contains(got, "A104"), "course %s, and %s: %v", c.word, thing, all)
		}
	}
}

// Little or nothing of sugar, salt and fat, by Regulation (EC) 1924/2006, Annex.
func TestLowClaims(t *testing.T) {
	for _, c := range []struct {
		title, line string
		found       bool
	}{
		{"Sugar-free", "60 g honey", true},
		{"No added sugar", "40 g caster sugar", true},
		{"Unsweetened", "50 ml maple syrup", true},
		{"Sugar-free", "200 g sugar snap peas", false},
		{"Low-sugar", "10 g caster sugar", false},
		{"Low in sugar", "60 g caster sugar", true},
		{"Sugar-free", "50 g sugar-free jam", false},
		{"Sugar-free", "100 g bean curd", false},
		{"Low-salt", "40 ml soy sauce", true},
		{"Salt-free", "5 g salt", true},
		{"Low in salt", "0.5 g salt", false},
		{"No added salt", "200 g salt cod", false},
		{"Low-sodium", "30 ml fish sauce", true},
		{"Low-fat", "60 ml olive oil", true},
		{"Fat-free", "30 g butter", true},
		{"Low-fat", "5 ml olive oil", false},
		{"Fat-free", "200 g butter beans", false},
		{"Not sugar-free", "60 g honey", false},
	} {
		got, all := alarms("dish " + c.title + " trial\n  rules UK\n  serves 4\n  gather\n    600 g courgettes\n    " + c.line + "\n  method\n    - Boil everything.\n      | ring low | watch 20 min\n  serve hot\n")
		assert.Equal(t, c.found, slices.Contains(got, "A106"), "%s, and %s: %v", c.title, c.line, all)
	}
}

// A title is held against what may be taken instead, and against the other option of a choice.
func TestClaimsAgainstWhatIsOffered(t *testing.T) {
	const method = "  method\n    - Mash the beans with everything.\n      | work 5 min\n"
	for _, c := range []struct {
		title, offer string
		found        bool
	}{
		{"Sesame-free dip", "    30 ml olive oil\n      instead 30 g tahini, sesame\n", true},
		{"Sesame-free dip", "    30 ml olive oil\n      instead 30 ml sunflower oil\n", false},
		{"Vegan dip", "    30 ml olive oil\n      instead 30 g butter, milk\n", true},
		{"Dip", "    30 ml olive oil\n      instead 30 g butter, milk\n", false},
		{"Gluten-free dip", "    either rice\n      50 g rice cakes\n    or wheat\n      50 g crackers\n", true},
		{"Gluten-free dip", "    either rice\n      50 g rice cakes\n    or maize\n      50 g corn tortillas\n", false},
	} {
		got, all := alarms("dish " + c.title + "\n  rules UK\n  serves 4\n  gather\n    400 g tinned white beans\n" + c.offer + method)
		assert.Equal(t, c.found, slices.Contains(got, "A104"), "%s, %s: %v", c.title, c.offer, all)
	}
}

// Letters that menus write for a claim.
func TestClaimsInLetters(t *testing.T) {
	for _, c := range []struct {
		title, thing string
		found        bool
	}{
		{"GF bowl", "udon noodles", true},
		{"GF bowl", "rice noodles", false},
		{"Bowl, DF", "butter", true},
		{"Bowl, DF", "coconut cream", false},
		{"NF slice", "walnuts", true},
		{"VG plate", "honey", true},
		{"Bowl", "butter", false},
	} {
		got, all := alarms(claimText("dish "+c.title+"%.0s", "", c.thing, false))
		assert.Equal(t, c.found, slices.Contains(got, "A104"), "%s, and %s: %v", c.title, c.thing, all)
	}
}
