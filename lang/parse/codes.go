package parse

import "tamis/lang/diag"

// The N codes: what can be wrong with the notation itself. A code is printed,
// can be searched for and is never reused.
const (
	codeBinary    = "N101" // not a text file
	codeEncoding  = "N102" // bytes that are no UTF-8
	codeInvisible = "N103" // a mark without ink
	codeWideDigit = "N104" // a full-width digit
	codeFalseBar  = "N105" // a sign that looks like the bar
	codeControl   = "N106" // a control character
	codeLongLine  = "N107" // a line no hand wrote
	codeTabs      = "N108" // tabs against blanks
	codeIndent    = "N109" // an indentation that matches no line above
	codeLost      = "N110" // the indentation is lost
	codeHash      = "N111" // #text
	codeNotation  = "N112" // notation not on the first line, or not a number
	codeNewer     = "N113" // a newer notation
	codeDeeper    = "N114" // lines under a line that takes none
	codeEmpty     = "N115" // nothing under a line that needs something
	codeMerge     = "N116" // both sides of a merge

	codeBlockWord  = "N120" // an unknown word at column 0
	codeFieldWord  = "N121" // an unknown word in a closed place
	codeElsewhere  = "N122" // a word of another place
	codeTwice      = "N124" // a field twice
	codeNoTitle    = "N125" // a title is missing
	codeTitle      = "N126" // more than a title
	codeQuote      = "N127" // a quote that is not closed, or empty
	codeName       = "N128" // not a name
	codeForm       = "N129" // a field that does not read
	codeDate       = "N130" // not a date
	codeClock      = "N131" // not a time of day
	codeLabel      = "N132" // a label that cannot be one
	codeLabelTwice = "N133" // two options of a dish with one label
	codeEither     = "N134" // either without or, or without either
	codeWholeCount = "N135" // a whole number is expected
	codeSystem     = "N136" // an unknown value of a setting
	codeNoComma    = "N137" // a comma is missing before `for 10`, `30 min after First`

	codeAmountLast = "N139" // butter 200 g

	codeListDash   = "N140" // a bullet in a list
	codeNoName     = "N141" // a gathered line without a name
	codeSwallowed  = "N142" // salt to taste
	codePercent    = "N143" // a percentage without "percent of"
	codeOr         = "N144" // chicken or vegetable stock
	codeUnderLine  = "N145" // instead or said without a line above
	codeBarDepth   = "N146" // a margin line that is not deeper than its line
	codeAfterName  = "N147" // text after the name that belongs nowhere
	codeMarginOnly = "N148" // a margin where none can be
	codeDashInName = "N149" // a dash or semicolon where a comma should be

	codeNoDash      = "N150" // a line at step depth without a dash
	codeNumbered    = "N151" // 1. 2. 3.
	codeDashBlank   = "N152" // -Blanch
	codeStepDepth   = "N153" // a step deeper than its siblings
	codeProseAfter  = "N154" // prose after a margin line
	codeNoProse     = "N155" // a step without words
	codeMoment      = "N156" // a moment that does not read
	codeMomentAfter = "N157" // a margin line of the step after a moment
	codeNoMethod    = "N158" // steps in a list: the line `method` is missing

	codeEmptyClause = "N160" // nothing between bars
	codeClauseWord  = "N161" // an unknown word in a margin
	codeCookWord    = "N162" // a cooking verb in a margin
	codeClausePlace = "N163" // a clause of the other kind of margin
	codeClauseOrder = "N164" // worked, watched, left
	codeClauseTwice = "N165" // a clause twice
	codeBareHeat    = "N166" // oven 200
	codeEach        = "N167" // each what?
	codeClauseForm  = "N168" // a clause that does not read

	codeServing   = "N170" // a serving that does not read
	codeFactWord  = "N171" // an unknown word in a larder margin
	codeFactForm  = "N172" // a fact that does not read
	codeGrowsLast = "N173" // the part that grows comes last
	codeFigure    = "N174" // twice 200 g flour
)

// CodeHelp explains one N code. Wrong is a file that has the fault and nothing
// else; Right is the same without it. Both are empty where a text would be too
// long to show.
type CodeHelp struct {
	Code     string
	Title    string // a few words
	Severity diag.Severity
	What     string // what is found
	Why      string // why it matters
	Fix      string // what to write instead
	Wrong    string
	Right    string
}

// CodeTable lists every N code in order.
func CodeTable() []CodeHelp { return append([]CodeHelp(nil), codeTable...) }
