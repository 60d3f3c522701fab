package check

import (
	"strings"

	"tamis/lang/diag"
	"tamis/lang/quantity"
)

var packedOrNot = &Rule{
	Code: "U322", Title: "Packed or loose?", Family: Names, Severity: diag.Hint,
	What: "Soft brown sugar is measured by the cup, and nothing says whether it is packed. A larder line with `weighs` settles it.",
	Why:  "A packed cup holds half as much again as a loose one.",
	Fix:  "Write `packed` after the comma, weigh it, or say in the larder what a cup weighs.",
	Bad: `dish Baked pears
  serves 4
  units US
  gather
    1 cup    light brown sugar
    6 cups   pears, peeled and sliced
  method
    - Tumble the pears with the brown sugar and bake. | oven 350 F | work 4 min | leave 30 min
`,
	At: "5:14",
	Good: `dish Baked pears
  serves 4
  units US
  gather
    1 cup    light brown sugar, packed
    6 cups   pears, peeled and sliced
  method
    - Tumble the pears with the brown sugar and bake. | oven 350 F | work 4 min | leave 30 min
`,
	Sources: []string{"USDA SR28 (2015), NDB 19334: 1 cup packed 220 g, 1 cup unpacked 145 g"},
	Check:   checkPacked,
}

var (
	brownSugar = mustCompile(`(?i)\b(brown|muscovado) sugar\b`)
	howFilled  = mustCompile(`(?i)\b(pack|press|loose|heaped|level|lightly|firm)`)
)

// aCupful is the least volume, in ml, that is asked about: a quarter of a cup.
const aCupful = 55

func checkPacked(p *Pass) {
	for _, r := range p.Recipes() {
		for _, l := range r.Lines {
			q := l.Quantity
			if q == nil || q.Dim != quantity.Volume || q.Value.High.Less(quantity.Int(aCupful)) || !ownLine(r, l) || !brownSugar.MatchString(l.Name) {
				continue
			}
			if howFilled.MatchString(lineNote(l)+" "+strings.ToLower(l.AmountText+" "+l.Name)) || says(r, l.Key).Weighs != nil || len(l.Written.Also.Terms) > 0 {
				continue
			}
			p.Report(l.NameAt, "is the %s packed", l.Name).
				WithHelp("write `%s, packed`, or its weight", l.Name).
				WithHelp("or say in the larder what a cup weighs: `%s | weighs 220 g per cup`", l.Name)
		}
	}
}
