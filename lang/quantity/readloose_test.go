package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Amounts as people write them in a list, each with the name it leaves and the
// code of the remark or question it earns.
func TestAmountsInWords(t *testing.T) {
	for _, c := range []struct{ text, amount, rest, code string }{
		{"two onions", "2", "onions", ""},
		{"Two tbsp oil", "2 tbsp", "oil", ""},
		{"two 400 g tins beans", "2 x 400 g tins", "beans", ""},
		{"twenty-five prunes", "25", "prunes", ""},
		{"two or three leeks", "2 to 3", "leeks", ""},
		{"two pounds 3 ounces beef", "2 lb 3 oz", "beef", ""},
		{"two x 400 g tins beans", "2 x 400 g tins", "beans", ""},
		{"one per 4 covers loaves", "1 per 4 covers", "loaves", ""},
		{"two fronds dill", "2", "fronds dill", CodeUnknownWord},
		{"two cup cakes", "2 cups", "cakes", CodePlural},
		{"Half a lemon", "1/2", "lemon", ""},
		{"half an onion", "1/2", "onion", ""},
		{"half lemon", "1/2", "lemon", ""},
		{"half pint beer", "1/2 pint", "beer", ""},
		{"half a pint of beer", "1/2 pint", "beer", ""},
		{"half-cup sugar", "1/2 cup", "sugar", ""},
		{"a half cup sugar", "1/2 cup", "sugar", ""},
		{"one-half cup sugar", "1/2 cup", "sugar", ""},
		{"quarter pound lard", "1/4 lb", "lard", ""},
		{"quarter of a cabbage", "1/4", "cabbage", ""},
		{"a quarter of a pound of suet", "1/4 lb", "suet", ""},
		{"three quarters of a pound of currants", "3/4 lb", "currants", ""},
		{"a third cup milk", "1/3 cup", "milk", ""},
		{"one and a half lemons", "1 1/2", "lemons", ""},
		{"a pound and a half of beef", "1 1/2 lb", "beef", ""},
		{"1 pound and a half beef", "1 1/2 lb", "beef", ""},
		{"2 pints and a quarter milk", "2 1/4 pints", "milk", ""},
		{"a lemon", "1", "lemon", ""},
		{"an onion", "1", "onion", ""},
		{"a dozen eggs", "12", "eggs", ""},
		{"2 dozen eggs", "24", "eggs", ""},
		{"half a dozen eggs", "6", "eggs", ""},
		{"a pair of kippers", "2", "kippers", ""},
		{"a couple of sprigs of thyme", "2 sprigs", "thyme", ""},
		{"an egg and a half", "1", "egg and a half", CodeWords},
		{"1-1/2 cups milk", "1 1/2 cups", "milk", ""},
		{"2 tablespoonfuls of capers", "2 tbsp", "capers", ""},
		{"1 lb less 2 oz flour", "7/8 lb", "flour", ""},

		{"Pinch of salt", "1 pinch", "salt", ""},
		{"knob butter", "1 knob", "butter", ""},
		{"clove of garlic", "1 clove", "garlic", ""},
		{"a good pinch of saffron", "1 good pinch", "saffron", ""},
		{"a big handful of mint", "1 big handful", "mint", ""},
		{"2 fat cloves garlic", "2 fat cloves", "garlic", ""},
		{"a thumb-sized piece of ginger", "1 thumb-sized piece", "ginger", ""},
		{"two small pieces of lemon rind", "2 small pieces", "lemon rind", ""},
		{"1/2 a cucumber", "1/2", "cucumber", ""},
		{"2 (ripe) plums", "2", "(ripe) plums", ""},
		{"1/4 cup (packed) brown sugar", "1/4 cup", "(packed) brown sugar", ""},
		{"1 quart and 1/2 a pint of milk", "1 quart plus 1/2 pint", "milk", ""},
		{"1 gal 2-1/2 qts water", "1 gallon plus 2 1/2 quarts", "water", ""},
		{"2 No. 10 cans tomatoes", "2 #10 cans", "tomatoes", ""},
		{"3cm piece fresh ginger", "3 cm", "fresh ginger", ""},
		{"2 inch piece of ginger", "2 inches", "ginger", ""},
		{"6 nos. green chillies", "6", "green chillies", ""},
		{"a piece of butter", "1 piece", "butter", ""},
		{"rather more than 1 pint of stock", "1 pint", "stock", CodeAbout},
		{"1 rice bowl of rice", "1", "rice bowl of rice", CodeUnknownWord},
		{"¾ of an onion", "3/4", "onion", ""},
		{"4 x 150 g salmon fillets", "4 x 150 g", "salmon fillets", ""},
		{"1 (8-ounce) package cream cheese", "1 x 8 oz packet", "cream cheese", ""},
		{"1 lb of the best end", "1 lb", "the best end", ""},
		{"sprigs of thyme", "", "thyme", CodeWords},
		{"a few sprigs thyme", "", "thyme", CodeWords},
		{"some parsley", "", "parsley", CodeWords},
		{"a little oil", "", "oil", CodeWords},
		{"a little gem lettuce", "", "a little gem lettuce", ""},

		{"about 200 g flour", "200 g", "flour", CodeAbout},
		{"c. 200 g flour", "200 g", "flour", CodeAbout},
		{"ca. 200 g flour", "200 g", "flour", CodeAbout},
		{"~200 g flour", "200 g", "flour", CodeAbout},
		{"about two onions", "2", "onions", CodeAbout},
		{"about a pound of plums", "1 lb", "plums", CodeAbout},

		{"a 400 g tin tomatoes", "1 x 400 g tin", "tomatoes", ""},
		{"2 400g tins tomatoes", "2 x 400 g tins", "tomatoes", ""},
		{"1 tin (400 g) tomatoes", "1 x 400 g tin", "tomatoes", ""},
		{"2 (14 oz) cans tomatoes", "2 x 14 oz cans", "tomatoes", ""},
		{"2 (14-ounce) cans tomatoes", "2 x 14 oz cans", "tomatoes", ""},
		{"2 14-oz cans tomatoes", "2 x 14 oz cans", "tomatoes", ""},
		{"200g/7oz flour", "200 g (7 oz)", "flour", ""},
		{"200g/12oz flour", "200 g (12 oz)", "flour", CodePair},
		{"1 bunch (about 30 g) dill", "1 bunch (30 g)", "dill", ""},
		{"1 in. ginger", "1 inch", "ginger", ""},

		{"five spice", "", "five spice", ""},
		{"half and half", "", "half and half", ""},
		{"half fat milk", "", "half fat milk", ""},
		{"quarter pounder buns", "", "quarter pounder buns", ""},
		{"three-bean salad", "", "three-bean salad", ""},
		{"seven-hour lamb", "", "seven-hour lamb", ""},
		{"twenty-one-day beef", "", "twenty-one-day beef", ""},
		{"three bean salad", "", "three bean salad", CodeWords},
		{"quarter cabbage", "", "quarter cabbage", CodeWords},
		{"a third egg", "", "a third egg", CodeWords},

		{"6OO g leeks", "600 g", "leeks", CodeTyped},
		{"l00 g flour", "100 g", "flour", CodeTyped},
		{"O.5 kg flour", "0.5 kg", "flour", CodeTyped},
		{"6 00 g leeks", "600 g", "leeks", CodeTyped},
		{"600 g g leeks", "600 g", "leeks", CodeTyped},
		{"½½ g yeast", "0.5 g", "yeast", CodeTwoNumbers},
		{"5l milk", "5 litres", "milk", ""},
		{"00 flour", "", "00 flour", ""},
		{"2 00 flour", "2", "00 flour", ""},
		{"7up", "", "7up", ""},
	} {
		a, rest, problems := readLine(c.text, Options{})
		if a.IsNone() {
			require.Equal(t, "", c.amount, c.text)
		} else {
			require.Equal(t, c.amount, a.String(), c.text)
		}
		for len(rest) > 3 && rest[:3] == "of " {
			rest = rest[3:]
		}
		require.Equal(t, c.rest, rest, c.text)
		code := ""
		for _, p := range problems {
			require.True(t, p.Ask || p.Hint || p.Code == CodeTwoNumbers || p.Code == CodePlural, c.text)
			code += p.Code
		}
		require.Equal(t, c.code, code, c.text)
	}
}
