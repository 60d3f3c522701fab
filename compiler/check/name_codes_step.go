package check

import "tamis/lang/diag"

// What resolving the margins of steps and the lines of a menu reports: package
// resolve.
var stepNameRules = []*Rule{
	{
		Code: "U120", Title: "Paused, and no pause.", Family: Names, Severity: diag.Error,
		What:    "A step says `only after a pause` and no pause stands above it, or `only before a pause` and none stands below.",
		Why:     "`after a pause` asks about the nearest pause above, `before a pause` about the next one below.",
		Fix:     "Write `pause up to 1 day, fridge` on a line of its own where the dish may wait; cooling before it is `only before a pause`.",
		Bad:     yoghurt("- Stir it again. | only after a pause | work 1 min"),
		At:      "7:24",
		Good:    yoghurt("pause up to 1 day, fridge", "- Stir it again. | only after a pause | work 1 min"),
		Sources: []string{"the Tamis notation, 2.14"},
	},
	{
		Code: "U121", Title: "An option that is not offered.", Family: Names, Severity: diag.Error,
		What:    "A step or the menu names an option that the list of the dish does not offer.",
		Why:     "The step would never take place, or the guest would not get what the menu says.",
		Fix:     "Write the name of an option, or add it to the list with `either` and `or`.",
		Bad:     pilaf("if rich"),
		At:      "11:32",
		Good:    pilaf("if plain"),
		Sources: []string{"the Tamis notation, 2.11"},
	},
	{
		Code: "U122", Title: "After what no step makes.", Family: Names, Severity: diag.Error,
		What:    "A step waits with `after` for something that no step of the block makes.",
		Why:     "It would wait for ever.",
		Fix:     "Write `| makes …` in the margin of the step that it waits for.",
		Bad:     "dish Salad\n  serves 4\n  gather\n    400 g    green beans\n    30 ml    olive oil\n  method\n    - Boil the beans. | ring high | work 5 min | makes blanched beans\n    - Dress them with the olive oil. | after cold beans | work 2 min\n",
		At:      "8:46",
		Good:    "dish Salad\n  serves 4\n  gather\n    400 g    green beans\n    30 ml    olive oil\n  method\n    - Boil the beans. | ring high | work 5 min | makes blanched beans\n    - Dress them with the olive oil. | after blanched beans | work 2 min\n",
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "U123", Title: "A step that waits for itself.", Family: Names, Severity: diag.Error,
		What:    "A step waits with `after` for what it makes itself.",
		Why:     "It could never begin.",
		Fix:     "Take `after` out, or name what another step makes.",
		Bad:     "dish Salad\n  serves 4\n  gather\n    400 g    green beans\n  method\n    - Boil the beans. | ring high | after blanched beans | work 5 min | makes blanched beans\n",
		At:      "6:37",
		Good:    "dish Salad\n  serves 4\n  gather\n    400 g    green beans\n  method\n    - Boil the beans. | ring high | work 5 min | makes blanched beans\n",
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "U124", Title: "Meanwhile, beside nothing.", Family: Names, Severity: diag.Error,
		What:    "The first step of a method, or the first after a pause, says `meanwhile`.",
		Why:     "It runs beside the step before it, and there is none.",
		Fix:     "Take `meanwhile` out, or move the step below the one it runs beside.",
		Bad:     leeks("- Soften the leeks in the butter. | meanwhile | work 10 min"),
		At:      "7:5",
		Good:    leeks("- Soften the leeks in the butter. | work 10 min"),
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "U125", Title: "A share of what nobody makes.", Family: Names, Severity: diag.Error,
		What:    "A line gathers a share, such as `the rest of the stock`, of what no block and no step makes, or a part that cannot be worked out.",
		Why:     "There is nothing to have a share of, and nobody would know how much to buy.",
		Fix:     "Write an amount, or the name of a base; what is left from another day is `| left from Saturday`.",
		Bad:     "dish Leek pot\n  serves 4\n  gather\n    the rest of the stock\n    600 g leeks\n  method\n    - Simmer the leeks in the stock. | ring low | leave 20 min\n",
		At:      "4:5",
		Good:    "dish Leek pot\n  serves 4\n  gather\n    800 ml stock\n    600 g leeks\n  method\n    - Simmer the leeks in the stock. | ring low | leave 20 min\n",
		Sources: []string{"the Tamis notation, 2.12"},
	},
	{
		Code: "U126", Title: "A margin names what is not gathered.", Family: Names, Severity: diag.Error,
		What:    "A time grows with a thing, or `uses` takes a thing, that is not in the list.",
		Why:     "Without an amount nothing can be worked out.",
		Fix:     "Write the name as the list has it.",
		Bad:     leeks("- Soften the leeks in the butter. | work 2 min per 100 g onions"),
		At:      "7:62",
		Good:    leeks("- Soften the leeks in the butter. | work 2 min per 100 g leeks"),
		Sources: []string{"the Tamis notation, 2.8"},
	},
	{
		Code: "U130", Title: "A kitchen that is not there.", Family: Names, Severity: diag.Error,
		What:    "The menu is cooked `at` a kitchen that no file of the folder has.",
		Why:     "Its hands, oven and rings are not known.",
		Fix:     "Write the name as the kitchen has it, or write a block `kitchen` with its cooks, oven and rings.",
		Bad:     boat("at Ferry house"),
		At:      "4:6",
		Good:    boat("at Ferry cottage"),
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "U131", Title: "Dated hours without a date.", Family: Names, Severity: diag.Error,
		What:    "Hours name a date, and the menu has no serving time.",
		Why:     "How many days before the meal that is cannot be told.",
		Fix:     "Write `serve` with a date and a time, or say `day before` and `on the day`.",
		Bad:     "menu Breakfast\n  covers 4\n  hours 2027-05-02, 07:00 to 10:00\n\n  course Table\n    Bread, from the shop\n",
		At:      "3:3",
		Good:    "menu Breakfast\n  covers 4\n  on the table 2027-05-02 09:30\n  hours 2027-05-02, 07:00 to 10:00\n\n  course Table\n    Bread, from the shop\n",
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "U132", Title: "Hours that end before they begin.", Family: Names, Severity: diag.Error,
		What:    "A span of hours with two dates ends before it begins.",
		Why:     "Nobody would be in the kitchen.",
		Fix:     "Correct one of the two; the later day comes second.",
		Bad:     boat("at Ferry cottage\n  hours 2027-05-02, 07:00 to 2027-05-01 10:00"),
		At:      "5:3",
		Good:    boat("at Ferry cottage\n  hours 2027-05-01, 20:00 to 2027-05-02 01:00"),
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "U133", Title: "Nobody of that name cooks here.", Family: Names, Severity: diag.Error,
		What:    "Hours, a task or a line of washing up name somebody who is not among the cooks of the kitchen.",
		Why:     "The work would be given to nobody.",
		Fix:     "Write the name as the kitchen has it, or add it to its `cooks`.",
		Bad:     boat("at Ferry cottage\n  hours on the day, 07:00 to 10:00, Nel"),
		At:      "5:37",
		Good:    boat("at Ferry cottage\n  hours on the day, 07:00 to 10:00, Nell"),
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "U134", Title: "A course by the clock, and no clock.", Family: Names, Severity: diag.Error,
		What:    "A course has a time of day, and the menu has no serving time.",
		Why:     "The day of it is not known.",
		Fix:     "Write `serve` with a date and a time in the menu.",
		Bad:     "menu Supper\n  covers 4\n\n  course Late, at 21:00\n    Bread, from the shop\n",
		At:      "4:3",
		Good:    "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n\n  course Late, at 21:00\n    Bread, from the shop\n",
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "U135", Title: "After a course that is not above.", Family: Names, Severity: diag.Error,
		What:    "A course is served after one that does not stand above it.",
		Why:     "Its time cannot be told.",
		Fix:     "Write the name of a course above it.",
		Bad:     "menu Supper\n  covers 4\n\n  course First\n    Soup, from the shop\n  course Main, 30 min after Starter\n    Bread, from the shop\n",
		At:      "6:29",
		Good:    "menu Supper\n  covers 4\n\n  course First\n    Soup, from the shop\n  course Main, 30 min after First\n    Bread, from the shop\n",
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "U136", Title: "Ahead, and no pause.", Family: Names, Severity: diag.Error,
		What:    "The menu has a dish made ahead, and its method has no pause.",
		Why:     "Nothing says where it may stop and how long it may wait there.",
		Fix:     "Write `pause up to 1 day, fridge` in its method.",
		Bad:     "menu Supper\n  covers 4\n\n  course Table\n    Herb yoghurt, ahead\n\n" + yoghurt(),
		At:      "5:5",
		Good:    "menu Supper\n  covers 4\n\n  course Table\n    Herb yoghurt, ahead\n\n" + yoghurt("pause up to 1 day, fridge", "- Stir it again. | work 1 min"),
		Sources: []string{"the Tamis notation, 2.14"},
	},
	{
		Code: "U137", Title: "A task beside nothing on the menu.", Family: Names, Severity: diag.Error,
		What:    "A task is done before or after something that the menu does not have.",
		Why:     "Its time cannot be told.",
		Fix:     "Name a course, or a dish as the menu writes it.",
		Bad:     boat("at Ferry cottage\n  task Lay the table, work 10 min, before Lunch"),
		At:      "5:43",
		Good:    boat("at Ferry cottage\n  task Lay the table, work 10 min, before Table"),
		Sources: []string{"the Tamis notation, 2.15"},
	},
}

// pilaf is a dish of two options whose last step has this condition.
func pilaf(condition string) string {
	return `dish Barley pilaf
  serves 4
  gather
    300 g    pearl barley
    either plain
      30 g     butter
    or with almonds
      60 g     flaked almonds
  method
    - Cook the barley. | leave 35 min | uses pearl barley
    - Fork in the butter. | ` + condition + ` | work 1 min
    - Fork in the almonds. | if with almonds | work 1 min
`
}

// yoghurt is a dish with these further steps, the first on line 7.
func yoghurt(steps ...string) string {
	out := "dish Herb yoghurt\n  serves 4\n  gather\n    500 g    thick yoghurt\n  method\n    - Stir the yoghurt. | work 2 min\n"
	for _, s := range steps {
		out += "    " + s + "\n"
	}
	return out
}

// boat is a menu at a cottage with this field, on line 4.
func boat(field string) string {
	return "menu Breakfast\n  covers 4\n  on the table 2027-05-02 09:30\n  " + field + `

  course Table
    Bread, from the shop

kitchen Ferry cottage
  cooks Nell, Omar
  rings 4
`
}
