package check

import "tamis/lang/diag"

// What is said about washing up: by package resolve of the lines of a kitchen,
// and by package timeline of what a plan leaves in the sink.

var washingTime = &Rule{
	Code: "U138", Title: "Washing up that leaves no time.", Family: Names, Severity: diag.Error,
	What:    "A line of washing up takes no time, or as long as it is to the next, or asks for one more often than every half hour.",
	Why:     "Nothing would be cooked in between.",
	Fix:     "Write how long it takes, and less than is after `every`: `wash up 15 min, every 2 h`.",
	Bad:     washingBoat("wash up 40 min, every 30 min"),
	At:      "4:3",
	Good:    washingBoat("wash up 15 min, every 2 h"),
	Sources: []string{"common practice, no source"},
}

var washedLater = &Rule{
	Code: "P109", Title: "Washing up left until after serving.", Family: Plan, Severity: diag.Hint,
	What:    "Hot food would wait for some of the washing up that the kitchen asks for, so the plan leaves that until after serving.",
	Why:     "Hot food comes before the sink.",
	Fix:     "Give it to one more cook, make it shorter, or write `before serving` in place of `after each dish`.",
	Bad:     twoHot("wash up 10 min, after each dish"),
	At:      "14:3",
	Good:    twoHot("wash up 10 min, before serving"),
	Sources: []string{"the Tamis notation, 2.16"},
}

func washingBoat(line string) string {
	return "kitchen Boat\n  cooks Nell\n  rings 2\n  " + line + "\n"
}

// twoHot is a supper of two hot dishes, one cooked while the other is left, in
// a kitchen of one cook with this line.
func twoHot(line string) string {
	return `menu Supper
  covers 4
  on the table 2027-05-02 19:00
  at Boat

  course Main
    Boiled leeks
    Pancakes

kitchen Boat
  rules UK
  cooks Nell
  rings 2
  ` + line + `

dish Boiled leeks
  serves 4
  method
    - Wash and boil. | ring high | work 5 min | leave 10 min
  serve hot

dish Pancakes
  serves 4
  method
    - Fry them one by one. | ring high | work 10 min
  serve hot
`
}
