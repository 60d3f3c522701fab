package build

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/filming"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// thing is what must be there, as a writer names it: "24 skewers", "pie tin of 20 cm".
type thing struct {
	count int // 0: none is said
	name  string
	size  string // " of 20 cm": it is not put in the plural
	key   string // in the plural and without an article, so that one tin is one of two
	whose []string
}

var sizeOfThing = regexp.MustCompile(`^(.*\pL)( (?:of|for) \d.*)$`)

func readThing(text string) *thing {
	t := &thing{name: text}
	if figure, rest, ok := strings.Cut(text, " "); ok {
		if n, err := strconv.Atoi(figure); err == nil {
			t.count, t.name = n, rest
		}
	}
	if m := sizeOfThing.FindStringSubmatch(t.name); m != nil {
		t.name, t.size = m[1], m[2]
	}
	t.key = larder.Fold(larder.PluralName(strings.TrimPrefix(t.name, "the ")))
	return t
}

// same tells whether two names say one thing.
func (t *thing) same(other *thing) bool { return t.key == other.key && t.size == other.size }

// covers tells whether something written is also what a step says: "large stockpot" is the
// stockpot of a step, "pie tin of 20 cm" its pie tin.
func (t *thing) covers(other *thing) bool {
	return (t.key == other.key || strings.HasSuffix(t.key, " "+other.key)) && (other.size == "" || t.size == other.size)
}

// atLeast has as many of a thing as another asks for.
func (t *thing) atLeast(count int) {
	if count > max(t.count, 1) {
		t.count, t.name = count, larder.PluralName(t.name)
	}
}

// said is a thing with its number, if it has one.
func (t *thing) said() (number, name string) {
	if t.count == 0 {
		return "", t.name + t.size
	}
	return strconv.Itoa(t.count), figures.InNumber(t.name, quantity.Int(int64(t.count))) + t.size
}

// haveAll counts what must be there: what is weighed and prepared, once for the camera and
// once for each copy; then pots, tools, props and equipment, each once however many name it.
func (h *handouts) haveAll(d *filming.Day) *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn},
		{Title: "Have", Kind: sheets.AmountColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 3},
		{Title: "For", Kind: sheets.TextColumn, Weight: 2},
	}}
	for _, p := range d.Of.Parts {
		h.use(p.Meal)
		for _, m := range p.Shown {
			g := sheets.Group{Title: m.Recipe.Name}
			if len(d.Of.Parts) > 1 {
				g.Note = partTitle(p)
			}
			for _, a := range m.Lines {
				g.Rows = append(g.Rows, h.weighed(d, p, m, a)...)
			}
			if len(g.Rows) > 0 {
				t.Groups = append(t.Groups, g)
			}
		}
	}
	gear := sheets.Group{Title: "Pots, tools, props and equipment"}
	for _, n := range h.gearOfDay(d) {
		number, name := n.said()
		g := sheets.Cell{}
		if number != "" {
			g.Runs = amountRun(number)
		}
		gear.Rows = append(gear.Rows, sheets.Row{Cells: []sheets.Cell{{}, g, say(name), say(strings.Join(n.whose, ", "))}})
	}
	if len(gear.Rows) > 0 {
		t.Groups = append(t.Groups, gear)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return t
}

// gearOfDay are the things of a day: pots and tools of the steps, one set for the camera and
// one for each copy, and what writers name.
func (h *handouts) gearOfDay(d *filming.Day) (list []*thing) {
	add := func(n *thing, same func(have *thing) bool, whose string) {
		i := slices.IndexFunc(list, same)
		if i < 0 {
			list = append(list, n)
			i = len(list) - 1
		} else {
			list[i].atLeast(n.count)
		}
		if at := list[i]; whose != "" && !slices.Contains(at.whose, whose) {
			at.whose = append(at.whose, whose)
		}
	}
	named := func(texts []resolve.Text, whose string) {
		for _, text := range texts {
			n := readThing(text.Text)
			add(n, n.same, whose)
		}
	}
	of := h.series.Of.Notes
	named(slices.Concat(of.Equipment, of.Props), "")
	for _, p := range d.Of.Parts {
		named(slices.Concat(p.Of.Notes.Equipment, p.Of.Notes.Props), "")
		for _, m := range p.Shown {
			named(slices.Concat(m.Recipe.Own.Notes.Equipment, m.Recipe.Own.Notes.Props), h.letter(m))
		}
	}
	sets := map[string][]string{}
	var order []string
	holds := func(m *demand.Making, whose string) {
		for _, sr := range m.Reading.Steps {
			for _, c := range sr.Step.Margin {
				name := ""
				switch c := c.(type) {
				case *resolve.InVessel:
					name = c.Name.Text
				case *resolve.WithTool:
					name = c.Name.Text
				default:
					continue
				}
				if sets[name] == nil {
					order = append(order, name)
				}
				if !slices.Contains(sets[name], whose) {
					sets[name] = append(sets[name], whose)
				}
			}
		}
	}
	for _, p := range d.Of.Parts {
		for _, m := range p.Shown {
			holds(m, h.letter(m)+" on camera")
		}
	}
	for _, c := range d.Copies {
		holds(c.Making, fmt.Sprintf("copy %d of %s", c.Making.Copy, h.letter(c.Making)))
	}
	for _, name := range order {
		n := readThing(name)
		if n.count = len(sets[name]); n.count == 1 {
			n.count = 0
		}
		for _, whose := range sets[name] {
			add(n, func(have *thing) bool { return have == n || have.covers(n) }, whose)
		}
	}
	return list
}

// weighed are the rows of what is weighed: for the camera, and as often again as copies
// take as much; what another amount goes into has a row of its own.
func (h *handouts) weighed(d *filming.Day, p *demand.Part, m *demand.Making, a *demand.Amount) (out []sheets.Row) {
	type share struct {
		of     *demand.Amount
		camera bool
		copies []string
	}
	shares := []share{{of: a, camera: true}}
	for _, c := range d.Copies {
		of := c.Making.Of(a.Line)
		if c.Part != p || c.Making.Recipe != m.Recipe || of == nil {
			continue
		}
		name := strconv.Itoa(c.Making.Copy)
		if i := slices.IndexFunc(shares, func(s share) bool { return h.showLine(s.of) == h.showLine(of) }); i >= 0 {
			shares[i].copies = append(shares[i].copies, name)
		} else {
			shares = append(shares, share{of: of, copies: []string{name}})
		}
	}
	for _, s := range shares {
		amount, n := h.amountRuns(s.of), len(s.copies)
		var whose []string
		if s.camera {
			n++
			whose = append(whose, "camera")
		}
		switch len(s.copies) {
		case 0:
		case 1:
			whose = append(whose, "copy "+s.copies[0])
		default:
			whose = append(whose, "copies "+strings.Join(s.copies, ", "))
		}
		if n > 1 {
			amount = append([]sheets.Run{{Text: fmt.Sprintf("%d\u00a0×\u00a0", n)}}, amount...)
		}
		if len(d.Copies) == 0 {
			whose = nil
		}
		out = append(out, sheets.Row{Cells: []sheets.Cell{{}, {Runs: amount}, h.lineCell(a), say(strings.Join(whose, ", "))}})
	}
	return out
}
