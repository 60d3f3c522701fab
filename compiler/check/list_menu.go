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
	partsInOrder,
	shopDay,
})

// shopDay is found while a menu is read: package resolve.
var shopDay = &Rule{
	Code: "M114", Title: "A day of shopping that is none.", Family: Menu, Severity: diag.Error,
	What:    "`shop` names a day after the meal; or a day of the week, and the menu has no serving time to count back from.",
	Why:     "Nobody can say what must be bought by then.",
	Fix:     "Write dates up to that of `on the table`, or give the menu its date.",
	Bad:     "menu Supper\n  covers 4\n  on the table 2027-09-19 13:00\n  shop 2027-09-20\n  course First\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	At:      "4:3",
	Good:    "menu Supper\n  covers 4\n  on the table 2027-09-19 13:00\n  shop Friday\n  course First\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.15"},
}
