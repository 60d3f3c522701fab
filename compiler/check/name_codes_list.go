package check

import "tamis/lang/diag"

// What resolving the names of lists and blocks reports: package resolve.
var listNameRules = []*Rule{
	{
		Code: "U101", Title: "Two blocks of one name.", Family: Names, Severity: diag.Error,
		What:    "Two blocks of one kind, or a dish and a base, have the same name in one folder.",
		Why:     "A line that gathers the name could mean either.",
		Fix:     "Give one of the two another name, or move it to a folder of its own.",
		Bad:     "dish Leek pot\n  serves 4\n\nbase Leek pot\n  makes 1 litre\n",
		At:      "4:6",
		Good:    "dish Leek pot\n  serves 4\n\nbase Leek stock\n  makes 1 litre\n",
		Sources: []string{"the Tamis notation, 2.3"},
	},
	{
		Code: "U102", Title: "An ingredient twice in the larder.", Family: Names, Severity: diag.Error,
		What:    "The larders of one folder have two entries of the same name.",
		Why:     "Their facts may differ, and nothing says which of them hold.",
		Fix:     "Put all the facts on one entry.",
		Bad:     "larder\n  butter | from the dairy\n  butter | contains milk\n",
		At:      "3:3",
		Good:    "larder\n  butter | from the dairy | contains milk\n",
		Sources: []string{"the Tamis notation, 2.18"},
	},
	{
		Code: "U103", Title: "Whose cup?", Family: Names, Severity: diag.Error,
		What:    "A cup, a pint or the like is used, and nothing says of which country. Said once a folder, at the first.",
		Why:     "A pint is 473 ml in one country and 568 ml in another.",
		Fix:     "Write `units metric` (or US, imperial, AU) in a larder of the folder.",
		Bad:     "dish Pancakes\n  serves 4\n  gather\n    2 cups   plain flour\n",
		At:      "4:5",
		Good:    "larder\n  units US\n\ndish Pancakes\n  serves 4\n  gather\n    2 cups   plain flour\n",
		Sources: []string{"the Tamis notation, 2.4"},
	},
	{
		Code: "U104", Title: "The same line twice.", Family: Names, Severity: diag.Question,
		What:    "One list has two lines of one name.",
		Why:     "A sentence that says the name could mean either.",
		Fix:     "Write one line with the whole amount and share it out in the steps, or put each under its own `for the …`.",
		Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g    leeks\n    30 g     butter\n    20 g     butter\n",
		At:      "6:14",
		Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g    leeks\n    50 g     butter\n",
		Sources: []string{"the Tamis notation, 2.3"},
	},
	{
		Code: "U105", Title: "A dish or base that is not there.", Family: Names, Severity: diag.Error,
		What:    "A menu, a chapter, `as`, or a path names a block that no file of the folder has.",
		Why:     "Nothing can be cooked, counted or printed for it.",
		Fix:     "Write the name as the block has it, or write `, from the shop` or `, to be written` after it on the menu.",
		Bad:     "menu Supper\n  covers 4\n\n  course Main\n    Leek port\n\ndish Leek pot\n  serves 4\n",
		At:      "5:5",
		Good:    "menu Supper\n  covers 4\n\n  course Main\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "U106", Title: "Blocks that are like each other.", Family: Names, Severity: diag.Error,
		What:    "A block is `as` another which in the end is `as` the first.",
		Why:     "Neither of them is ever written out.",
		Fix:     "Write one of them out in full.",
		Bad:     "base Pale stock\n  as Dark stock, but\n  makes 2 litres\n\nbase Dark stock\n  as Pale stock, but\n  makes 1 litre\n",
		At:      "2:6",
		Good:    "base Pale stock\n  as Dark stock, but\n  makes 2 litres\n\nbase Dark stock\n  makes 1 litre\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U107", Title: "A base that gathers itself.", Family: Names, Severity: diag.Error,
		What:    "A line of a base has the base's own name.",
		Why:     "No amount of it would ever be enough.",
		Fix:     "Write `| from the shop` or `| left from …` after the line, or name what is really meant.",
		Bad:     "base Sourdough\n  makes 1 kg\n  gather\n    100 g    sourdough\n    900 g    flour\n",
		At:      "4:14",
		Good:    "base Sourdough\n  makes 1 kg\n  gather\n    100 g    sourdough  | left from Saturday\n    900 g    flour\n",
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "U108", Title: "An option offered twice, through another block.", Family: Names, Severity: diag.Error,
		What:    "A block that is `as` another offers an option of a name that the other offers already.",
		Why:     "Steps and menus name options, and the name would mean two.",
		Fix:     "Choose another name for the option.",
		Bad:     "dish Pilaf\n  serves 4\n  gather\n    either plain\n      20 g     butter\n    or rich\n      60 g     butter\n\ndish Herb pilaf\n  as Pilaf, but\n  gather\n    either plain\n      10 g     dill\n    or green\n      30 g     dill\n",
		At:      "12:12",
		Good:    "dish Pilaf\n  serves 4\n  gather\n    either plain\n      20 g     butter\n    or rich\n      60 g     butter\n\ndish Herb pilaf\n  as Pilaf, but\n  gather\n    either pale\n      10 g     dill\n    or green\n      30 g     dill\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U109", Title: "A percentage of what is not in the list.", Family: Names, Severity: diag.Error,
		What:    "`gather, percent of` names a line that the list does not have.",
		Why:     "The percentages cannot be worked out.",
		Fix:     "Name a line of the list.",
		Bad:     "dish Rolls\n  serves 8\n  gather, percent of rye flour\n    500 g    strong flour\n    65%      water\n",
		At:      "3:22",
		Good:    "dish Rolls\n  serves 8\n  gather, percent of strong flour\n    500 g    strong flour\n    65%      water\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U110", Title: "Flour without a weight.", Family: Names, Severity: diag.Error,
		What:    "The line that percentages are of has no amount.",
		Why:     "A share of an unknown amount is unknown.",
		Fix:     "Give it a weight.",
		Bad:     "dish Rolls\n  serves 8\n  gather, percent of strong flour\n    strong flour\n    65%      water\n",
		At:      "4:5",
		Good:    "dish Rolls\n  serves 8\n  gather, percent of strong flour\n    500 g    strong flour\n    65%      water\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U111", Title: "Flours measured in two ways.", Family: Names, Severity: diag.Error,
		What:    "Percentages are of several lines, and these are not measured in one kind.",
		Why:     "The sum of a weight and a volume is no amount.",
		Fix:     "Weigh all of them.",
		Bad:     "dish Rolls\n  serves 8\n  gather, percent of strong flour, rye flour\n    400 g    strong flour\n    200 ml   rye flour\n    65%      water\n",
		At:      "5:5",
		Good:    "dish Rolls\n  serves 8\n  gather, percent of strong flour, rye flour\n    400 g    strong flour\n    100 g    rye flour\n    65%      water\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U113", Title: "Several blocks make it.", Family: Names, Severity: diag.Error,
		What:    "A line gathers something that the steps of several blocks make.",
		Why:     "It would be taken from one of them, and nothing says from which.",
		Fix:     "Write the block before it: `Slow onions/onion liquor`.",
		Bad:     liquor("150 ml   onion liquor"),
		At:      "4:14",
		Good:    liquor("150 ml   Slow onions/onion liquor"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "U114", Title: "Nothing of that name is made there.", Family: Names, Severity: diag.Error,
		What:    "A line gathers `Block/thing`, and no step of the block makes the thing.",
		Why:     "There would be none when it is wanted.",
		Fix:     "Write it as the step has it, or write `| makes 200 g …` in the margin of that step.",
		Bad:     liquor("150 ml   Slow onions/onion juice"),
		At:      "4:14",
		Good:    liquor("150 ml   Slow onions/onion liquor"),
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "U140", Title: "Copies as something no step makes.", Family: Names, Severity: diag.Error,
		What:    "`copies 2 of Slow lamb, as rested lamb` names a moment, and no step of the recipe makes it.",
		Why:     "Nobody would know how far to make the copies, nor what to buy for them.",
		Fix:     "Write the moment as the step has it, or name it there: `| makes rested lamb`.",
		Bad:     standInBad("as brown onions"),
		At:      "4:33",
		Good:    standInBad("as soft onions"),
		Sources: []string{"the Tamis notation, 2.19"},
	},
	{
		Code: "U115", Title: "Two steps make one thing.", Family: Names, Severity: diag.Error,
		What:    "Two steps of a block make or draw something of one name.",
		Why:     "What waits for it would not know for which.",
		Fix:     "Call what they make by two names.",
		Bad:     "dish Potato layers\n  serves 4\n  gather\n    300 g    potatoes\n  method\n    - Slice half the potatoes. | work 3 min | makes 150 g rounds\n    - Slice the rest of the potatoes. | work 3 min | makes 150 g rounds\n    - Layer the rounds. | work 2 min\n",
		At:      "7:66",
		Good:    "dish Potato layers\n  serves 4\n  gather\n    300 g    potatoes\n  method\n    - Slice half the potatoes. | work 3 min | makes 150 g thick rounds\n    - Slice the rest of the potatoes. | work 3 min | makes 150 g thin rounds\n    - Layer the thick rounds and the thin rounds. | work 2 min\n",
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "U116", Title: "Flours by weight and by percentage.", Family: Names, Severity: diag.Error,
		What:    "Of the lines that percentages are of, some have weights and some percentages.",
		Why:     "A percentage of the flours that is one of the flours goes round in a circle.",
		Fix:     "Give all of them weights, or all of them percentages that add up to 100.",
		Bad:     "dish Rolls\n  serves 8\n  makes 1 kg\n  gather, percent of strong flour, rye flour\n    400 g    strong flour\n    20%      rye flour\n    65%      water\n",
		At:      "5:5",
		Good:    "dish Rolls\n  serves 8\n  makes 1 kg\n  gather, percent of strong flour, rye flour\n    80%      strong flour\n    20%      rye flour\n    65%      water\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U117", Title: "Flours that do not add up to 100%.", Family: Names, Severity: diag.Error,
		What:    "The lines that percentages are of are percentages themselves, and their sum is not 100.",
		Why:     "Baker's percentages are of all the flour together.",
		Fix:     "Correct one of them.",
		Bad:     "dish Rolls\n  serves 8\n  makes 1 kg\n  gather, percent of strong flour, rye flour\n    80%      strong flour\n    30%      rye flour\n    65%      water\n",
		At:      "6:5",
		Good:    "dish Rolls\n  serves 8\n  makes 1 kg\n  gather, percent of strong flour, rye flour\n    70%      strong flour\n    30%      rye flour\n    65%      water\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U118", Title: "Percentages of no weight.", Family: Names, Severity: diag.Error,
		What:    "All lines of a list are percentages, and the block does not say how much it makes.",
		Why:     "One weight is wanted, or nothing can be weighed out.",
		Fix:     "Write what it makes: `makes 3 kg`, or `makes 12 pieces, 540 g each`.",
		Bad:     "dish Rolls\n  serves 8\n  gather, percent of strong flour\n    100%     strong flour\n    65%      water\n",
		At:      "4:5",
		Good:    "dish Rolls\n  serves 8\n  makes 1 kg\n  gather, percent of strong flour\n    100%     strong flour\n    65%      water\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
}

// liquor is a dish that gathers the liquor of onions, and two that make some.
func liquor(line string) string {
	return "dish Onion potatoes\n  serves 4\n  gather\n    " + line + `
    1 kg     potatoes
  method
    - Simmer the potatoes in the onion liquor, covered. | ring low | work 5 min | leave 20 min

dish Slow onions
  serves 4
  gather
    1 kg     onions
  method
    - Cook the onions, covered. | ring low | leave 40 min | makes 200 ml onion liquor

dish Onion pot
  serves 4
  gather
    600 g    small onions
  method
    - Cook the onions, covered. | ring low | leave 40 min | makes 200 ml onion liquor
`
}

// standInBad is a series that has onions ready, as far as a moment.
func standInBad(as string) string {
	return `series Two evenings
  part 1 Onions
    shows Slow onions
    copies 1 of Slow onions, ` + as + `
larder
  units metric
dish Slow onions
  serves 4
  gather
    1 kg     onions
  method
    - Cook the onions, covered. | ring low | work 2 min | leave 40 min | makes soft onions
    - Spread the soft onions on a plate. | work 1 min
`
}
