package check

import "tamis/lang/diag"

// fileRules are about what is written to files; building makes the findings.
var fileRules = []*Rule{
	{
		Code: "F101", Title: "a character that the type of the PDF lacks", Family: Files, Severity: diag.Query,
		What: "A character is in none of the typefaces that the PDF is printed with, nor in a font that was named. The place is the first that it stands at.",
		Why:  "On paper a □ stands for it, and a cook cannot read that.",
		Fix:  "Name a font file that has it, as in `tamis build --font FILE`, or write a word for it; emoji and other characters beyond U+FFFF are shown by the web page only.",

		Sources: []string{"the printed page itself"},
	},
	{
		Code: "F102", Title: "writing that the PDF cannot set", Family: Files, Severity: diag.Query,
		What: "The letters of some scripts, Arabic and those of India among them, join, move or change with their neighbours; the PDF sets letter by letter.",
		Why:  "Set so it cannot be read, so a □ stands for each letter.",
		Fix:  "Print from the web page: the browser sets every script.",

		Sources: []string{"the Unicode Standard, chapters 9 and 12 to 16"},
	},
}
