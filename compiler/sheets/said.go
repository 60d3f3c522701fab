package sheets

import (
	"fmt"
	"slices"
	"strings"
)

// What every format without a layout says in the same words.

// Facts are when and where the document's meal is, for how many, and who wrote it.
func (d *Document) Facts() []string { return said(d.When, d.Covers, d.Place, d.By) }

// Side is what stands before the sentence of a step: when, who, on what condition.
func (s *Step) Side() []string { return said(s.Clock, s.Who, s.When) }

func said(list ...string) []string {
	return slices.DeleteFunc(list, func(s string) bool { return s == "" })
}

// Said is the label of a bar with the number of its step.
func (b Bar) Said() string {
	if b.Number > 0 {
		return strings.TrimSpace(fmt.Sprint(b.Number, " ", b.Label))
	}
	return b.Label
}

// Said is a kind of bar in a word.
func (k BarKind) Said() string {
	switch k {
	case HeatBar:
		return "heating"
	case UseBar:
		return "in use"
	case BusyBar:
		return "nobody"
	}
	return string(k)
}

// Outside tells whether a run leads out of all our documents, to an address of the writer's.
func (r Run) Outside() bool {
	return r.Link != "" && !strings.HasPrefix(r.Link, "#") && !strings.HasPrefix(r.Link, "doc:")
}

// Places names where an entry is found; not the recipe of its own name, which it names itself.
func (e Entry) Places() (out []string) {
	for _, r := range e.At {
		if r.Style != Strong || r.Text != e.Name {
			out = append(out, r.Text)
		}
	}
	return append(out, said(e.Note)...)
}

// Sheet finds a sheet by its ID; nil: there is none.
func (d *Document) Sheet(id string) *Sheet {
	for i := range d.Sheets {
		if d.Sheets[i].ID == id {
			return &d.Sheets[i]
		}
	}
	return nil
}

// ChapterNumber is the number of a chapter of a book, from 0: each has a stripe of its own.
func (d *Document) ChapterNumber(name string) (n int) {
	for _, s := range d.Sheets {
		switch {
		case s.Kind != Chapter:
		case s.Chapter == name:
			return n
		default:
			n++
		}
	}
	return 0
}
