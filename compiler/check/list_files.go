package check

import (
	"strings"

	"tamis/lang/diag"
)

// fileRules are about what is written to files; reading pictures and
// building make the findings.
var fileRules = []*Rule{
	{
		Code: "F101", Title: "A character that the type of the PDF lacks.", Family: Files, Severity: diag.Question,
		What: "A character is in none of the typefaces that the PDF is printed with, nor in a font that was named. The place is the first that it stands at.",
		Why:  "On paper a □ stands for it, and a cook cannot read that.",
		Fix:  "Name a font file that has it, as in `tamis build --font FILE`, or write a word for it; emoji and other characters beyond U+FFFF are shown by the web page only.",

		Sources: []string{"the printed page itself"},
	},
	{
		Code: "F102", Title: "Writing that the PDF cannot set.", Family: Files, Severity: diag.Question,
		What: "The letters of some scripts, Arabic and those of India among them, join, move or change with their neighbours; the PDF sets letter by letter.",
		Why:  "Set so it cannot be read, so a □ stands for each letter.",
		Fix:  "Print from the web page: the browser sets every script.",

		Sources: []string{"the Unicode Standard, chapters 9 and 12 to 16"},
	},
	{
		Code: "F103", Title: "A picture that is not there.", Family: Files, Severity: diag.Warning,
		What:    "A `picture` names a file that is not beside the text, lies outside the folder of the book, or is an address of the net.",
		Why:     "The page is printed without it. Nothing is fetched, so that the same folder always gives the same pages.",
		Fix:     "Put the file beside the text and write its name as it is, large and small letters alike.",
		Bad:     pictured("leeks.png", "leek.png"),
		At:      "book.tamis:3:11",
		Good:    strings.Replace(pictured("leeks.png", "leek.png"), "  picture leek.png\n", "", 1),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "F104", Title: "A picture that cannot be printed.", Family: Files, Severity: diag.Warning,
		What:    "A file is no PNG, JPEG, GIF or WebP, is broken, or has more than 40 million pixels or 32 MB.",
		Why:     "The page is printed without it.",
		Fix:     "Save it as PNG or JPEG, 1600 pixels across: that is enough for any page.",
		Bad:     pictured("leeks.png", "leeks.png"),
		At:      "book.tamis:3:11",
		Good:    strings.Replace(pictured("leeks.png", "leeks.png"), "  picture leeks.png\n", "", 1),
		Sources: []string{"the Tamis notation, 2.6"},
	},
	{
		Code: "F105", Title: "A file that cannot be read.", Family: Files, Severity: diag.Warning,
		What:    "Something in the folder has the name of a recipe file and cannot be read: you may not, it is a link that leads nowhere, it is no file, or it is longer than 8 MB. Files whose name starts with a full stop are other programs' own and are passed over.",
		Why:     "What is written there is on no page. The rest is read without it.",
		Fix:     "Allow yourself to read it, put it right, or take it away.",
		Sources: []string{"the folder itself"},
	},
	{
		Code: "F107", Title: "A copy beside the file.", Family: Files, Severity: diag.Warning,
		What:    "Two files of one folder hold the same text. The one with the longer name is left out.",
		Why:     "The same names twice would mean two things, and what is changed in one would not be changed in the other.",
		Fix:     "Take one of the two away, or move it out of the folder.",
		Bad:     "-- leeks.tamis --\ndish Leek pot\n  serves 4\n-- leeks copy.tamis --\ndish Leek pot\n  serves 4\n",
		At:      "leeks copy.tamis:1:1",
		Good:    "-- leeks.tamis --\ndish Leek pot\n  serves 4\n",
		Sources: []string{"the Tamis notation, 2.21"},
	},
	{
		Code: "F201", Title: "A name that a merge left behind.", Family: Files, Severity: diag.Warning,
		What:    "`check --merge`: one branch gave something another name, and a line of the other branch still has the old one.",
		Why:     "No line clashes, so git puts the two together without a word; what the old name says is gathered, made or cooked no more.",
		Fix:     "Write the new name.",
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "F202", Title: "A sentence that a merge has changed.", Family: Files, Severity: diag.Warning,
		What:    "`check --merge`: put together, a sentence takes something else than the branches say, though nobody has changed it so.",
		Why:     "Each branch was right by itself. What one has gathered, taken or named changes how a sentence of the other is read.",
		Fix:     "See what is gathered, and how much of it the other sentences take.",
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "F203", Title: "A line that a merge parts from its base.", Family: Files, Severity: diag.Warning,
		What:    "`check --merge`: a line drew on a base in one branch, and the other has taken that away.",
		Why:     "Nothing makes it now, and it would be bought.",
		Fix:     "Write the name that it has now, or bring the base back.",
		Sources: []string{"common practice, no source"},
	},
	{
		Code: "F204", Title: "An amount that a merge left at another size.", Family: Files, Severity: diag.Warning,
		What:    "`check --merge`: one branch made a recipe over for another number, and the other changed or added an amount that is for the number before.",
		Why:     "Between amounts for eight stands one for four.",
		Fix:     "Make this amount over too.",
		Sources: []string{"common practice, no source"},
	},
	tangled,
}

// pictured is a folder with a dish that names a picture, and a file beside it
// that is none.
func pictured(file, named string) string {
	return "-- book.tamis --\ndish Leeks\n  serves 4\n  picture " + named + `
  gather
    800 g    leeks
    40 g     butter
  method
    - Cook the leeks in the butter. | ring low | work 5 min | leave 20 min
  serve hot
-- ` + file + ` --
Not a picture at all.
`
}
