package check

import "tamis/lang/diag"

// What reading the sentences of a method reports: package resolve.
var takeRules = []*Rule{
	{
		Code: "U201", Title: "gathered and never used", Family: Names, Severity: diag.Query,
		What:    "No step names a line of the list. Lines that are `optional`, `to taste` or under `for serving` are passed over.",
		Why:     "It would be bought and never go in.",
		Fix:     "Name it in the step where it goes in, write `| uses …` in that step's margin, or put it under `for serving`.",
		Bad:     leeks("- Soften the leeks. | work 10 min"),
		At:      "5:14",
		Good:    leeks("- Melt the butter and soften the leeks. | work 10 min"),
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "U202", Title: "some is left over", Family: Names, Severity: diag.Query,
		What:    "The steps take less of a line than is gathered, and nothing says where the rest goes.",
		Why:     "A cook who weighs out the whole line will wonder where the rest goes.",
		Fix:     "Say `the rest of the …` where it goes in, or gather less.",
		Bad:     leeks("- Melt half the butter and soften the leeks. | work 10 min"),
		At:      "5:5",
		Good:    leeks("- Melt half the butter and soften the leeks. | work 10 min", "- Stir in the rest of the butter. | work 1 min"),
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "U203", Title: "more is used than is left", Family: Names, Severity: diag.Error,
		What:    "A step asks for more of a line than the steps before it have left.",
		Why:     "The cook runs out at the stove.",
		Fix:     "Gather more, or take less here.",
		Bad:     leeks("- Melt 30 g of the butter and soften the leeks. | work 10 min", "- Stir in 20 g of the butter. | work 1 min"),
		At:      "8:15",
		Good:    leeks("- Melt 30 g of the butter and soften the leeks. | work 10 min", "- Stir in 10 g of the butter. | work 1 min"),
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "U204", Title: "all of it has gone in", Family: Names, Severity: diag.Error,
		What:    "A step asks for the rest, or an amount, of a line that an earlier step has used up. A bare name takes all.",
		Why:     "There is none to take.",
		Fix:     "Say in the earlier step how much goes in there: `half the butter`, or an amount.",
		Bad:     leeks("- Melt the butter and soften the leeks. | work 10 min", "- Stir in the rest of the butter. | work 1 min"),
		At:      "8:15",
		Good:    leeks("- Melt half the butter and soften the leeks. | work 10 min", "- Stir in the rest of the butter. | work 1 min"),
		Sources: []string{"the Tamis notation, 2.10"},
	},
	{
		Code: "U205", Title: "which of two", Family: Names, Severity: diag.Error,
		What:    "A short name fits several lines that have something left.",
		Why:     "The amount must come from one of them, and a cook may take the other.",
		Fix:     "Write the whole name.",
		Bad:     "dish Bean toasts\n  serves 2\n  gather\n    30 ml    rapeseed oil\n    20 ml    herb oil\n  method\n    - Warm the oil.\n    - Stir in the rapeseed oil and the herb oil.\n",
		At:      "7:16",
		Good:    "dish Bean toasts\n  serves 2\n  gather\n    30 ml    rapeseed oil\n    20 ml    herb oil\n  method\n    - Warm the rapeseed oil.\n    - Stir in the herb oil.\n",
		Sources: []string{"the Tamis notation, 2.9"},
	},
	{
		Code: "U206", Title: "used and not gathered", Family: Names, Severity: diag.Query,
		What:    "A step names something that the larder or the folder knows and the list does not have. Tap water is passed over.",
		Why:     "What a step uses should stand in the list, or nobody buys it.",
		Fix:     "Add a line for it, or write `| uses …` in the margin to say what this step takes.",
		Bad:     leeks("- Melt the butter and soften the leeks. | work 10 min", "- Stir in the double cream. | work 1 min"),
		At:      "8:19",
		Good:    leeks("- Melt the butter and soften the leeks. | work 10 min"),
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "U210", Title: "some, and then the name again", Family: Names, Severity: diag.Query,
		What:    "Part of a line went in before, and a later step says its bare name. It is read as all that is left.",
		Why:     "It may also mean what is in the pan already.",
		Fix:     "Write `the rest of the …`.",
		Bad:     leeks("- Melt half the butter and soften the leeks. | work 10 min", "- Stir in the butter. | work 1 min"),
		At:      "8:19",
		Good:    leeks("- Melt half the butter and soften the leeks. | work 10 min", "- Stir in the rest of the butter. | work 1 min"),
		Sources: []string{"the Tamis notation, 2.10"},
	},
	{
		Code: "U211", Title: "the rest of a whole", Family: Names, Severity: diag.Query,
		What:    "A step says `the rest` of a line of which nothing was taken before.",
		Why:     "Probably an earlier step should have taken a part.",
		Fix:     "Write the bare name, or say in an earlier step how much goes in there.",
		Bad:     leeks("- Soften the leeks in the rest of the butter. | work 10 min"),
		At:      "7:27",
		Good:    leeks("- Soften the leeks in the butter. | work 10 min"),
		Sources: []string{"the Tamis notation, 2.10"},
	},
	{
		Code: "U212", Title: "said in another kind of measure", Family: Names, Severity: diag.Query,
		What:    "A step says an amount of a line in another kind of measure than the list has.",
		Why:     "How much is left cannot be told.",
		Fix:     "Use one kind of measure in both places, or a share: `half the butter`.",
		Bad:     leeks("- Melt 20 ml of the butter and soften the leeks. | work 10 min"),
		At:      "7:12",
		Good:    leeks("- Melt 20 g of the butter and soften the leeks. | work 10 min", "- Stir in the rest of the butter. | work 1 min"),
		Sources: []string{"the Tamis notation, 2.10"},
	},
	{
		Code: "U213", Title: "a part of a list was named before", Family: Names, Severity: diag.Query,
		What:    "A step names a sub-list of which some lines went in before, and some did not.",
		Why:     "It may mean all of it, or what is left.",
		Fix:     "Name the lines one by one, or write `the rest of the …`.",
		Bad:     "dish Salad\n  serves 4\n  gather\n    400 g    green beans\n    for the dressing\n      30 ml    olive oil\n      10 ml    vinegar\n  method\n    - Toss the beans with the olive oil. | work 2 min\n    - Stir in the dressing. | work 2 min\n",
		At:      "10:19",
		Good:    "dish Salad\n  serves 4\n  gather\n    400 g    green beans\n    for the dressing\n      30 ml    olive oil\n      10 ml    vinegar\n  method\n    - Whisk the dressing. | work 2 min\n    - Toss the beans with the dressing. | work 2 min\n",
		Sources: []string{"the Tamis notation, 2.10"},
	},
}

// leeks is a dish of leeks and butter with these steps, the first on line 7.
func leeks(steps ...string) string {
	out := "dish Buttered leeks\n  serves 4\n  gather\n    800 g    leeks\n    40 g     butter\n  method\n"
	for _, s := range steps {
		out += "    " + s + "\n"
	}
	return out
}
