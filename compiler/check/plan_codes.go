package check

import (
	"strings"

	"tamis/lang/diag"
)

// What planning a meal reports: package timeline.
var timelineRules = []*Rule{
	{
		Code: "P101", Title: "A step without a time.", Family: Plan, Severity: diag.Question,
		What:    "Steps of a dish on the menu have no time in the margin. Said once a dish, at the first.",
		Why:     "A plan needs one; 5 minutes are allowed for each, and printed with a question mark.",
		Fix:     "Write what is known: `| work 5 min`, `| leave about 40 min`, `| watch until brown, say 20 min`.",
		Bad:     leekSupper("", "- Soften the leeks in the butter."),
		At:      "14:5",
		Good:    leekSupper("", "- Soften the leeks in the butter. | work 10 min"),
		Sources: []string{"the Tamis notation, 2.20"},
	},
	{
		Code: "P102", Title: "A time that grows with what cannot be counted.", Family: Plan, Severity: diag.Question,
		What:    "A time grows with an amount of something, and how much of that there is cannot be told in that kind of measure.",
		Why:     "The amount gathered and the amount after `per` must be of one kind: both weighed, both measured or both counted.",
		Fix:     "Say it by the amount that is gathered: `work 3 min per 200 g leeks`.",
		Bad:     leekSupper("", "- Soften the leeks in the butter. | work 3 min per 200 ml leeks"),
		At:      "14:41",
		Good:    leekSupper("", "- Soften the leeks in the butter. | work 3 min per 200 g leeks"),
		Sources: []string{"the Tamis notation, 2.5"},
	},
	{
		Code: "P111", Title: "How much is a load?", Family: Plan, Severity: diag.Question,
		What:    "A time is `per load`, and the step has no vessel that holds a known amount, is divided into no pieces, and is in no oven; or its vessel holds so many, such as 6 slices, and what goes in is not counted in them.",
		Why:     "Nobody can say how many loads there are.",
		Fix:     "Say what it is done in, and how much that holds: `in deep pan, holds 1 litre`.",
		Bad:     leekSupper("", "- Soften the leeks in the butter. | work 3 min per load"),
		At:      "14:41",
		Good:    leekSupper("", "- Soften the leeks in the butter. | in deep pan, holds 1 litre | work 3 min per load"),
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "P112", Title: "A weight beyond those with a time.", Family: Plan, Severity: diag.Question,
		What:    "A time is written for some weights, and the piece that is cooked is lighter or heavier than all of them.",
		Why:     "Below the lightest the time is taken in proportion, above the heaviest it goes on as between the last two; nobody has tried either.",
		Fix:     "Write a time for such a weight, or the longest it may be, `at most 5 h`; of meat say what its middle must reach, and go by a thermometer.",
		Bad:     leekSupper("", "- Soften the leeks in the butter. | leave 20 min at 1 kg leeks, 30 min at 2 kg"),
		At:      "14:41",
		Good:    leekSupper("", "- Soften the leeks in the butter. | leave 10 min at 500 g leeks, 30 min at 2 kg"),
		Sources: []string{"the Tamis notation, 2.5"},
	},
	{
		Code: "P103", Title: "How long it keeps, nobody says.", Family: Plan, Severity: diag.Hint,
		What:    "In the plan, a base or what a step makes waits for an hour or longer, and nothing says how long it keeps.",
		Why:     "Without `keeps`, 2 hours are allowed.",
		Fix:     "Write `keeps 2 days, fridge` where it is made, with your own figures.",
		Bad:     leekSupper("", "- Soften the leeks. | work 10 min | makes 700 g soft leeks", clarify, "- Warm the soft leeks. | work 5 min"),
		At:      "14:41",
		Good:    leekSupper("", "- Soften the leeks. | work 10 min | makes 700 g soft leeks | keeps 2 h, room", clarify, "- Warm the soft leeks. | work 5 min"),
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "P110", Title: "Loads wait for one another.", Family: Plan, Severity: diag.Hint,
		What:    "A step goes in several loads, and by the plan the first of them waits hot for the last longer than such food may wait.",
		Why:     "They go in one after the other, as near together as the plan can bring them.",
		Fix:     "Say how it is kept meanwhile, `| hold hot up to 45 min, above 63 C`, or cook more at a time.",
		Bad:     hotLeeks("at Boat", "- Steam the leeks in the butter. | 2 rings low | in kettle, holds 300 g | leave 20 min per load"),
		At:      "14:5",
		Good:    hotLeeks("at Boat", "- Steam the leeks in the butter. | 2 rings low | in kettle, holds 300 g | leave 20 min per load | hold hot up to 45 min, above 63 C"),
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "P104", Title: "More than the kitchen has.", Family: Plan, Severity: diag.Error,
		What:    "One step wants more shelves, rings, cooks or tools than the kitchen of the menu has.",
		Why:     "No order of work can give it what is not there.",
		Fix:     "Let it go in turns, `| leave 20 min per load`, or plan it in a kitchen that has more.",
		Bad:     leekSupper("at Boat", "- Soften the leeks in the butter. | 3 rings low | work 10 min"),
		At:      "14:5",
		Good:    leekSupper("at Boat", "- Soften the leeks in the butter. | 2 rings low | work 10 min"),
		Sources: []string{"the Tamis notation, 2.16"},
	},
	{
		Code: "P105", Title: "Nobody is there for it.", Family: Plan, Severity: diag.Error,
		What:    "A step is for somebody, by name, who has no hours on this menu, or nobody has any.",
		Why:     "The work would not be done.",
		Fix:     "Give them hours in the menu, or let another do it.",
		Bad:     leekSupper("at Boat\n  hours on the day, 17:00 to 20:00, Nell", "- Soften the leeks in the butter. | work 10 min | by Omar"),
		At:      "15:5",
		Good:    leekSupper("at Boat\n  hours on the day, 17:00 to 20:00, Nell", "- Soften the leeks in the butter. | work 10 min | by Nell"),
		Sources: []string{"the Tamis notation, 2.15"},
	},
	{
		Code: "P106", Title: "Hours without a serving time.", Family: Plan, Severity: diag.Hint,
		What:    "The menu has hours and no serving time. Said where such a menu is planned all the same: by `tamis plan` and `tamis build`.",
		Why:     "Without a clock nothing can be set against them.",
		Fix:     "Write `serve` with a date and a time in the menu.",
		Sources: []string{"the Tamis notation, 2.22"},
	},
	{
		Code: "P107", Title: "Meanwhile takes longer than its host.", Family: Plan, Severity: diag.Question,
		What:    "What is done `meanwhile` takes longer than the step it runs beside.",
		Why:     "The next step then waits for what was to be done beside it.",
		Fix:     "Let it begin earlier, or write it as a step of its own without `meanwhile`.",
		Bad:     leekSupper("", "- Soften the leeks. | leave 10 min", "- Clarify the butter. | meanwhile | leave 30 min", "- Pour it over. | work 1 min"),
		At:      "15:5",
		Good:    leekSupper("", "- Soften the leeks. | leave 40 min", "- Clarify the butter. | meanwhile | leave 30 min", "- Pour it over. | work 1 min"),
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "P108", Title: "A time that goes by what one weighs.", Family: Plan, Severity: diag.Hint,
		What:    "A time grows with a weight of something that is gathered by the piece, or with the pieces of something that is weighed. The plan goes by what one weighs.",
		Why:     "The weight is the larder's, and yours may be heavier.",
		Fix:     "Say it as it is gathered, or write what one weighs in the larder: `leek | piece 120 g`.",
		Bad:     leekSupper("", "- Soften the leeks in the butter. | work 3 min per leek"),
		At:      "14:41",
		Good:    leekSupper("", "- Soften the leeks in the butter. | work 3 min per 200 g leeks"),
		Sources: []string{"the Tamis notation, 2.5"},
	},
	{
		Code: "P201", Title: "A course is late.", Family: Plan, Severity: diag.Error,
		What:    "The best plan that keeps all other limits serves a course later than the menu says.",
		Why:     "The guests wait.",
		Fix:     "Give more hours or hands, make something ahead, or serve later; the message names what helps.",
		Bad:     leekSupper("at Boat\n  hours on the day, 18:45 to 20:00", "- Soften the leeks in the butter. | work 40 min"),
		At:      "8:5",
		Good:    leekSupper("at Boat\n  hours on the day, 18:00 to 20:00", "- Soften the leeks in the butter. | work 40 min"),
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "P202", Title: "No plan keeps it all.", Family: Plan, Severity: diag.Error,
		What:    "What was asked cannot be done together: the hands, the oven, the waits and the hours leave no order of work.",
		Why:     "Something has to give, and only the writer knows what.",
		Fix:     "Loosen one of the limits that the message names.",
		Bad:     leekSupper("at Boat\n  hours on the day, 18:45 to 19:15", "- Soften the leeks in the butter. | work 40 min"),
		At:      "15:5",
		Good:    leekSupper("at Boat\n  hours on the day, 18:00 to 19:15", "- Soften the leeks in the butter. | work 40 min"),
		Sources: []string{"the Tamis notation, 2.13"},
	},
	{
		Code: "P203", Title: "No plan was found.", Family: Plan, Severity: diag.Error,
		What:    "The search gave up before it found a plan, or showed that there is none; or a time or an amount is far out of the ordinary.",
		Why:     "Nothing can be printed by the clock.",
		Fix:     "Look for a slip in the times, loosen a limit, or plan parts of the meal by themselves.",
		Sources: []string{"the Tamis notation, 2.13"},
	},
}

const clarify = "- Clarify the butter. | ring low | work 1 min | leave 1 h 30 min"

// hotLeeks is leekSupper, served hot.
func hotLeeks(field string, steps ...string) string {
	return strings.Replace(leekSupper(field, steps...), "\nkitchen", "  serve hot\n\nkitchen", 1)
}

// leekSupper is a menu with this field and a dish of leeks with these steps,
// the first on line 14 if the field is of one line or none.
func leekSupper(field string, steps ...string) string {
	if field == "" {
		field = "by Nell"
	}
	out := "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n  " + field + "\n\n  course Main\n    Buttered leeks\n" + leeks(steps...)
	return out + `
kitchen Boat
  cooks Nell, Omar
  rings 2
`
}
