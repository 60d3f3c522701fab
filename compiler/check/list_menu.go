package check

import (
	"slices"

	"tamis/lang/diag"
)

var menuRules = slices.Concat(kitchenRules, []*Rule{
	noCovers,
	noKitchen,
	mainThing,
	noTask,
	courseOrder,
	leftNoKeeps,
	notFed,
	sameTwice,
	toWrite,
	ovenNotListed,
	carriedFromNowhere,
	partsAgree,
	partsInOrder,
	waitsOnCamera,
	shopDay,
	pinWrong,
})

// pinWrong is found while a menu is read: package resolve.
var pinWrong = &Rule{
	Code: "M115", Title: "A line for a step that cannot be.", Family: Menu, Severity: diag.Error,
	What:    "A line below a serving speaks of a step that the dish has not or that has a line already, of a dish that is bought or not written yet, of a cook or an oven that the kitchen has not, or of a clock time on a menu without a serving time.",
	Why:     "What is to be fixed cannot be told, and the plan would be made without it.",
	Fix:     "Count the dashes of the method from the top, and write names as the kitchen has them.",
	Bad:     "menu Supper\n  covers 4\n  on the table 2027-09-19 13:00\n  course First\n    Leek pot\n      step 2: at 12:00\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 10 min\n",
	At:      "6:7",
	Good:    "menu Supper\n  covers 4\n  on the table 2027-09-19 13:00\n  course First\n    Leek pot\n      step 1: at 12:45\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 10 min\n",
	Sources: []string{"the Tamis notation, 2.15"},
}

// shopDay is found while a menu is read: package resolve.
var shopDay = &Rule{
	Code: "M114", Title: "Shopping on a day that cannot be.", Family: Menu, Severity: diag.Error,
	What:    "`shop` names a day after the meal; or a day of the week, and the menu has no serving time to count back from.",
	Why:     "Nobody can say what must be bought by then.",
	Fix:     "Write dates up to that of `on the table`, or give the menu its date.",
	Bad:     "menu Supper\n  covers 4\n  on the table 2027-09-19 13:00\n  shop 2027-09-20\n  course First\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	At:      "4:3",
	Good:    "menu Supper\n  covers 4\n  on the table 2027-09-19 13:00\n  shop Friday\n  course First\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.15"},
}
