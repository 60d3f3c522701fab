package check

import "tamis/lang/diag"

// What resolving kitchens and their clocks reports: package resolve.
var kitchenRules = []*Rule{
	{
		Code: "M120", Title: "Two of one name in a kitchen.", Family: Menu, Severity: diag.Error,
		What:    "A kitchen has two cooks, two ovens or two vessels of one name.",
		Why:     "A plan tells them apart by their names alone.",
		Fix:     "Give one of the two another name, or take it out.",
		Bad:     "kitchen Back room\n  cooks Ana, Ana\n  rings 4\n",
		At:      "2:14",
		Good:    "kitchen Back room\n  cooks Ana, Ben\n  rings 4\n",
		Sources: []string{"the Tamis notation, 2.16"},
	},
	{
		Code: "M121", Title: "An unknown time zone.", Family: Menu, Severity: diag.Question,
		What:    "A kitchen names a time zone that the tz database does not have.",
		Why:     "The plan cannot know the nights on which the clocks change.",
		Fix:     "Write the name of the tz database: `zone Europe/London`.",
		Bad:     "kitchen Back room\n  cooks Ana\n  zone Europe/Puddlebury\n",
		At:      "3:8",
		Good:    "kitchen Back room\n  cooks Ana\n  zone Europe/London\n",
		Sources: []string{"the Tamis notation, 2.16", "the tz database (time/tzdata), as it comes with Go"},
	},
	{
		Code: "M122", Title: "No rings.", Family: Menu, Severity: diag.Error,
		What:    "A kitchen says `rings 0`.",
		Why:     "Where no rings are written nobody knows how many there are, and the plan takes what it needs.",
		Fix:     "Write how many there are, or take the line out.",
		Bad:     "kitchen Back room\n  cooks Ana\n  rings 0\n",
		At:      "3:3",
		Good:    "kitchen Back room\n  cooks Ana\n  rings 4\n",
		Sources: []string{"the Tamis notation, 2.16"},
	},
	{
		Code: "M123", Title: "An hour that does not come, or comes twice.", Family: Menu, Severity: diag.Question,
		What:    "A menu is served, its hours begin or end, or a step is fixed at an hour that is skipped, or comes twice, in the night in which the clocks of its zone change.",
		Why:     "Nobody can say when that is.",
		Fix:     "Write another hour.",
		Bad:     "menu Night watch\n  covers 4\n  on the table 2027-03-28 01:30\n  at Back room\n  course Soup\n    Leek pot\n\nkitchen Back room\n  cooks Ana\n  rings 4\n  zone Europe/London\n\ndish Leek pot\n  serves 4\n",
		At:      "3:3",
		Good:    "menu Night watch\n  covers 4\n  on the table 2027-03-27 01:30\n  at Back room\n  course Soup\n    Leek pot\n\nkitchen Back room\n  cooks Ana\n  rings 4\n  zone Europe/London\n\ndish Leek pot\n  serves 4\n",
		Sources: []string{"the tz database: in London the clocks went forward at 01:00 on 28 March 2027"},
	},
	{
		Code: "M124", Title: "The clocks change before the meal.", Family: Menu, Severity: diag.Hint,
		What:    "The clocks of the kitchen's zone change in the 24 hours before a menu is served.",
		Why:     "The plan goes by the time that passes and prints what the clock shows. A clock or a timer that nobody puts right is an hour out.",
		Fix:     "See that the clocks in the kitchen are put right, or set timers by minutes.",
		Bad:     "menu Late lunch\n  covers 4\n  on the table 2027-10-31 13:00\n  at Back room\n  course Soup\n    Leek pot\n\nkitchen Back room\n  cooks Ana\n  rings 4\n  zone Europe/London\n\ndish Leek pot\n  serves 4\n",
		At:      "3:3",
		Good:    "menu Late lunch\n  covers 4\n  on the table 2027-11-07 13:00\n  at Back room\n  course Soup\n    Leek pot\n\nkitchen Back room\n  cooks Ana\n  rings 4\n  zone Europe/London\n\ndish Leek pot\n  serves 4\n",
		Sources: []string{"the tz database: in London the clocks went back at 02:00 on 31 October 2027"},
	},
}
