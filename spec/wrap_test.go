package spec

import "strings"

// wrapper puts a fragment into the smallest file in which it can stand.
type wrapper struct {
	before string // whole lines, then, perhaps, the start of the fragment's first line
	indent string // before every line of the fragment
	tail   string // behind its last line
	after  string
}

func (w wrapper) wrap(fragment string) string {
	lines := strings.Split(strings.TrimSuffix(fragment, "\n"), "\n")
	for i, l := range lines {
		if l != "" {
			lines[i] = w.indent + l
		}
	}
	return w.before + strings.Join(lines, "\n") + w.tail + "\n" + w.after
}

const (
	gatherTail = "  method\n    - Cook everything.\n"
	metric     = "\nlarder\n  units metric\n"
)

// wrappers are the kinds of fragments of fenced blocks. The empty kind is a
// whole file.
var wrappers = map[string]wrapper{
	"":        {},
	"menu":    {before: "menu Example\n", indent: "  "},
	"course":  {before: "menu Example\n  covers 8\n  course Main\n", indent: "    "},
	"dish":    {before: "dish Example\n", indent: "  ", after: metric},
	"gather":  {before: "dish Example\n  serves 8\n  gather\n", indent: "    ", after: gatherTail + metric},
	"method":  {before: "dish Example\n  serves 8\n  method\n", indent: "    ", after: metric},
	"kitchen": {before: "kitchen Example\n", indent: "  "},
	"larder":  {before: "larder\n", indent: "  "},
	"series":  {before: "series Example\n", indent: "  "},
	"book":    {before: "book Example\n", indent: "  "},
}

// inMargin puts a clause, or the rest of one, behind the bar of a second step.
func inMargin(clause string) wrapper {
	return wrapper{before: "dish Example\n  serves 8\n  method\n    - Begin.\n", indent: "    - Cook. | " + clause, after: metric}
}

// rowWrappers are the places of the examples in tables, by the first heading.
var rowWrappers = map[string]wrapper{
	"Menu field":           wrappers["menu"],
	"On a course line":     wrappers["course"],
	"Dish field":           {before: "dish Example\n", indent: "  ", after: "  gather\n    2 onions\n" + gatherTail + metric},
	"List line":            wrappers["gather"],
	"List clause":          {before: "dish Example\n  serves 8\n  gather\n", indent: "    200 g butter | ", after: gatherTail + metric},
	"Step clause":          inMargin(""),
	"Amount":               {before: "dish Example\n  serves 8\n  gather\n", indent: "    ", tail: " plain flour", after: gatherTail + metric},
	"Time":                 inMargin("watch "),
	"Temperature":          inMargin("core "),
	"Oven heat":            inMargin("leave 20 min | oven "),
	"Kitchen field":        wrappers["kitchen"],
	"Larder line":          wrappers["larder"],
	"Larder fact":          {before: "larder\n", indent: "  celeriac | "},
	"Part line":            {before: "series Example\n  part 1 Soup\n", indent: "    "},
	"Book line":            wrappers["book"],
	"Written in a list":    wrappers["gather"],
	"Written in a method":  wrappers["method"],
	"Written on a menu":    wrappers["menu"],
	"Written in a larder":  wrappers["larder"],
	"Written in a kitchen": wrappers["kitchen"],
	"Written in a margin":  inMargin(""),
}
