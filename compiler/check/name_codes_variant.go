package check

import "tamis/lang/diag"

// likeSoup is a soup, and one that is like it with these lines.
func likeSoup(lines string) string {
	return `dish White soup
  serves 4
  gather
    600 g    leeks
    400 ml   milk
  method
    - Simmer the leeks in the milk.
      | ring low | leave 15 min
    - Strain.
      | work 3 min

dish Other soup
  as White soup, but
` + lines
}

// What changing another block reports: package resolve.
var variantRules = []*Rule{
	{
		Code: "U141", Title: "A sentence still needs what was left out.", Family: Names, Severity: diag.Question,
		What:    "A sentence that comes from another block names a line, or a step by its number, that is left out here.",
		Why:     "It is printed as it stands, and the cook looks for what is not there.",
		Fix:     "Write the step anew: `replace step 1, \"Simmer the leeks\"`, and the step below it.",
		Bad:     likeSoup("  without milk\n"),
		At:      "7:31",
		Good:    likeSoup("  without milk\n  gather\n    400 ml   water\n  replace step 1, \"Simmer the leeks\"\n    - Simmer the leeks in the water.\n      | ring low | leave 15 min\n"),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U142", Title: "A change to a step that does not begin so.", Family: Names, Severity: diag.Question,
		What:    "`replace step 2, \"Strain\"` and its like name a step by its number and its first words, and the other block has another step there.",
		Why:     "A step that was put in there would move the change to another one, and nobody would see it.",
		Fix:     "Write the number and the first words that the step has now.",
		Bad:     likeSoup("  after step 1, \"Strain\"\n    - Season.\n      | work 1 min\n"),
		At:      "14:3",
		Good:    likeSoup("  after step 2, \"Strain\"\n    - Season.\n      | work 1 min\n"),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U143", Title: "A change to what is not gathered there.", Family: Names, Severity: diag.Error,
		What:    "`without` or `replace` names a thing, and the other block gathers nothing of that name.",
		Why:     "Nothing would be changed, and nobody would see it.",
		Fix:     "Write the name as it stands in the list of the other block.",
		Bad:     likeSoup("  replace cream with 300 ml soya milk\n"),
		At:      "14:11",
		Good:    likeSoup("  replace milk with 300 ml soya milk\n"),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U144", Title: "Like two blocks, and both have a method.", Family: Names, Severity: diag.Error,
		What:    "`as Stock, Soup, but` takes from several blocks, and more than one of them has steps.",
		Why:     "Steps of two methods have no order between them.",
		Fix:     "Leave one of them out and gather it by its name.",
		Bad:     likeSoup("  serves 4\n\ndish Third soup\n  as White soup, Other soup, but\n  serves 6\n"),
		At:      "17:18",
		Good:    likeSoup("  serves 4\n\ndish Third soup\n  as White soup, but\n  serves 6\n"),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U145", Title: "Replaced with what is there already.", Family: Names, Severity: diag.Question,
		What:    "A line is replaced with a thing that the other block gathers on a line of its own.",
		Why:     "Both amounts are added up, and that may not be meant.",
		Fix:     "Give the whole amount in the `gather` list here, and leave the other line out.",
		Bad:     likeSoup("  replace milk with 100 g leeks\n"),
		At:      "14:3",
		Good:    likeSoup("  replace milk with 400 ml water\n"),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "U146", Title: "A change to no other block.", Family: Names, Severity: diag.Error,
		What:    "`without`, `replace` and their like stand in a block that is like no other.",
		Why:     "There is nothing to change.",
		Fix:     "Write `as White soup, but` above, or take the line out.",
		Bad:     "dish Other soup\n  serves 4\n  without milk\n",
		At:      "3:3",
		Good:    "dish Other soup\n  serves 4\n",
		Sources: []string{"the Tamis notation, 2.6"},
	},
}
