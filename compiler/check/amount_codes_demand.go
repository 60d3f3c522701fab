package check

import "tamis/lang/diag"

// What working out the amounts of a meal reports: package demand.
var demandRules = []*Rule{
	{
		Code: "D101", Title: "For how many, nobody says.", Family: Amounts, Severity: diag.Warning,
		What:    "A dish on the menu does not say how many it serves.",
		Why:     "It cannot be scaled to the covers, and is made once as written.",
		Fix:     "Write `serves 6` in the dish.",
		Bad:     "menu Supper\n  covers 8\n\n  course Main\n    Leek pot\n\ndish Leek pot\n  gather\n    600 g    leeks\n",
		At:      "5:5",
		Good:    "menu Supper\n  covers 8\n\n  course Main\n    Leek pot\n\ndish Leek pot\n  serves 4\n  gather\n    600 g    leeks\n",
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "D102", Title: "Per cover, of how many?", Family: Amounts, Severity: diag.Question,
		What:    "An amount is given per cover, and neither the menu nor the dish says for how many.",
		Why:     "The line is left without an amount.",
		Fix:     "Write `covers 12` in the menu, or `serves 6` in the dish.",
		Bad:     "dish Roast beef\n  gather\n    200 g per cover beef\n",
		At:      "3:5",
		Good:    "dish Roast beef\n  serves 6\n  gather\n    200 g per cover beef\n",
		Sources: []string{"the Tamis notation, 2.4"},
	},
	{
		Code: "D103", Title: "An unknown amount of a base.", Family: Amounts, Severity: diag.Question,
		What:    "A line gathers something that a base makes, without an amount.",
		Why:     "The base is made for what draws on it, and this line draws an unknown amount.",
		Fix:     "Put an amount before the name.",
		Bad:     rye("makes 280 g", "dill butter"),
		At:      "10:5",
		Good:    rye("makes 280 g", "120 g    dill butter"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "D104", Title: "A base that does not say how much it makes.", Family: Amounts, Severity: diag.Error,
		What:    "An amount is taken of a base that says neither `makes` nor `serves`.",
		Why:     "By how much it must be scaled cannot be worked out.",
		Fix:     "Write `makes 300 ml` (or a weight, or a number) in it.",
		Bad:     rye("keeps 3 days, fridge", "120 g    dill butter"),
		At:      "1:6",
		Good:    rye("makes 280 g", "120 g    dill butter"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "D105", Title: "Taken in one measure, made in another.", Family: Amounts, Severity: diag.Error,
		What:    "A line takes a base or a by-product in another kind of measure than it is made in, and the larder does not bridge them.",
		Why:     "A weight and a volume can only be compared when it is known what the thing weighs.",
		Fix:     "Say both in the same kind of measure, or give the larder `weighs 1.02 g per ml`, with the right figure.",
		Bad:     rye("makes 280 g", "100 ml   dill butter"),
		At:      "10:5",
		Good:    rye("makes 280 g", "100 g    dill butter"),
		Sources: []string{"the Tamis notation, 2.4"},
	},
	{
		Code: "D106", Title: "From a dish that is not made for this meal.", Family: Amounts, Severity: diag.Error,
		What:    "A dish takes a by-product of another that is not on the menu.",
		Why:     "There would be none.",
		Fix:     "Put the other dish on the menu, or write `| from the shop` or `| left from …` after the line.",
		Bad:     broth("Barley broth", "1 litre", "1.5 litres"),
		At:      "10:14",
		Good:    broth("Barley broth\n    Poached leeks", "1 litre", "1.5 litres"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "D107", Title: "More by-product taken than there is.", Family: Amounts, Severity: diag.Error,
		What:    "The dishes of a meal take more of a by-product than the one that makes it gives.",
		Why:     "A by-product comes in the amount its dish gives; more of it cannot be made alone.",
		Fix:     "Take less, or make a base of it.",
		Bad:     broth("Barley broth\n    Poached leeks", "2 litres", "1.5 litres"),
		At:      "11:5",
		Good:    broth("Barley broth\n    Poached leeks", "1 litre", "1.5 litres"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "D111", Title: "A share of what is all taken.", Family: Amounts, Severity: diag.Error,
		What:    "A line gathers the rest of a base, or a share of it, and the other lines take all of it.",
		Why:     "The dish would go without.",
		Fix:     "Write the amount that is wanted, or a larger `makes` if the recipe gives more.",
		Bad:     restOf("1.2 litres"),
		At:      "24:5",
		Good:    restOf("300 ml"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "D108", Title: "Nothing uses what is on hand.", Family: Amounts, Severity: diag.Error,
		What:    "The command line makes a meal fit what is on hand, and no line that is bought has that name in that kind of measure.",
		Why:     "There is nothing to fit it to.",
		Fix:     "Name it as the list does, and measure it alike.",
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "D112", Title: "Nearly so much, and all of it is wanted.", Family: Amounts, Severity: diag.Hint,
		What:    "A base `makes nearly` an amount, and more than nine tenths of what is made is drawn.",
		Why:     "The last of it may be missing.",
		Fix:     "Make a little more, or write the amount that surely comes of it.",
		Bad:     rye("makes nearly 280 g", "120 g    dill butter"),
		At:      "1:6",
		Good:    rye("makes about 280 g", "120 g    dill butter"),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "D120", Title: "Nothing needs what is in the house.", Family: Amounts, Severity: diag.Question,
		What:    "The command line names something in the house that need not be bought, and nothing that is cooked here needs a thing of that name.",
		Why:     "Nothing was taken off what is bought: the name may be a slip.",
		Fix:     "Name it as the list does.",
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "D109", Title: "How large a portion is, nobody says.", Family: Amounts, Severity: diag.Error,
		What:    "The command line asks for portions of another size, and the dish does not say how large one is, or says it in another kind of measure.",
		Why:     "It cannot be scaled from an unknown size to a known one.",
		Fix:     "Write `serves 6, 200 ml each` in the dish.",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "D110", Title: "Made from itself.", Family: Amounts, Severity: diag.Error,
		What:    "A base is made from another that in the end is made from the first.",
		Why:     "No amount of it would ever be enough.",
		Fix:     "Write `| from the shop` after one of the lines, or keep some back from an earlier day: `| left from Saturday`.",
		Bad:     pastes("red paste"),
		At:      "18:14",
		Good:    pastes("onions"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
}

// rye is a dish that gathers a base, on line 10.
func rye(field, line string) string {
	return "base Dill butter\n  " + field + `
  gather
    250 g    butter, soft
    40 g     dill

dish Buttered rye
  serves 8
  gather
    ` + line + `
    16 slices rye bread
`
}

// broth is a menu of these dishes: one takes the broth of another.
func broth(course, taken, made string) string {
	return "menu Supper\n  covers 4\n\n  course Main\n    " + course + `

dish Barley broth
  serves 4
  gather
    ` + (taken + "        ")[:8] + ` poaching broth
    120 g    pearl barley
  method
    - Simmer the barley in the broth, covered. | ring low | leave 35 min

dish Poached leeks
  serves 4
  gather
    800 g    leeks
  method
    - Poach the leeks, covered. | ring low | leave 30 min | makes ` + made + ` poaching broth
`
}

// restOf is a base that one dish takes an amount of, and another the rest.
func restOf(taken string) string {
	return `menu Supper
  covers 4

  course Main
    Leek soup
    Set greens

base Bay milk
  makes 1.2 litres
  gather
    1.2 litres milk
  method
    - Warm the milk. | ring low | watch 8 min
dish Leek soup
  serves 4
  gather
    ` + (taken + "        ")[:max(8, len(taken))] + ` bay milk
  method
    - Warm the bay milk. | ring low | watch 5 min

dish Set greens
  serves 4
  gather
    the rest of the bay milk
  method
    - Warm the bay milk. | ring low | watch 5 min
`
}

// pastes are two bases for a curry; the second gathers what is named.
func pastes(second string) string {
	return `dish Bean curry
  serves 4
  gather
    50 g     red paste
    600 g    green beans
  method
    - Fry the red paste and cook the beans in it. | ring medium | work 15 min

base Red paste
  makes 200 g
  gather
    100 g    green paste
    100 g    red chillies

base Green paste
  makes 200 g
  gather
    100 g    ` + second + `
    100 g    green chillies
`
}
