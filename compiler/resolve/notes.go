package resolve

import (
	"time"

	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Notes are what a block says of itself and that changes nothing in it.
type Notes struct {
	Also      []Text // `also called`: other names by which a recipe is found
	GoesWith  []Text
	Props     []Text
	Equipment []Text
	Said      []Text
	Cooked    []Record
	Corrected []Record
	About     Text // of a series or a part: Markdown
}

// Record is one dated note: `cooked 2026-12-25, Bea: less salt`.
type Record struct {
	Span source.Span
	Date time.Time // midnight, in UTC
	Who  []Text
	Text Text
}

// notesOf are the notes among the items of a block.
func notesOf[T ast.Node](items []T) (out Notes) {
	for _, it := range items {
		if a, ok := any(it).(*ast.About); ok {
			out.About = Text(a.Text)
		}
		n, ok := any(it).(*ast.Noted)
		if !ok {
			continue
		}
		record := Record{Span: n.Span, Date: dayOf(n.Date), Who: nameTexts(n.Names), Text: Text(n.Text)}
		switch n.Key {
		case "also called":
			out.Also = append(out.Also, nameTexts(n.Names)...)
		case "goes with":
			out.GoesWith = append(out.GoesWith, nameTexts(n.Names)...)
		case "props":
			out.Props = append(out.Props, nameTexts(n.Names)...)
		case "equipment":
			out.Equipment = append(out.Equipment, nameTexts(n.Names)...)
		case "said":
			out.Said = append(out.Said, Text(n.Text))
		case "cooked":
			out.Cooked = append(out.Cooked, record)
		case "corrected":
			out.Corrected = append(out.Corrected, record)
		}
	}
	return out
}

// dayOf is a date as the midnight it begins with, in UTC.
func dayOf(d ast.Date) time.Time {
	return time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
}

// Service is how long one thing of service takes, in a kitchen or on a menu: `plates 20
// s a cover`.
type Service struct {
	Span  source.Span
	Kind  ServiceKind
	Time  quantity.Span
	Every *quantity.Span // of breaks
}

// Words is the line as it is written, without a mark.
func (s *Service) Words() string {
	out := string(s.Kind) + " " + s.Time.String()
	switch s.Kind {
	case Plates:
		out += " a cover"
	case Clears:
		out += ", after each course"
	case KnivesDown:
		out += " before"
	}
	if s.Every != nil {
		out += ", every " + s.Every.String()
	}
	return out
}

// ServiceKind is which thing of service a line is of, by its first words.
type ServiceKind string

// The things of service.
const (
	Plates     ServiceKind = "plates"      // a cover of one course
	Clears     ServiceKind = "clears"      // after each course
	CleansDown ServiceKind = "cleans down" // when all is served
	Breaks     ServiceKind = "breaks"      // in every so many hours of work
	KnivesDown ServiceKind = "knives down" // before the first serving
)

func serviceOf(x *ast.Service) Service { return Service{x.Span, ServiceKind(x.Key), x.Time, x.Every} }

// shopDays are the days of shopping of a menu. A day by its name is the last before the
// day of serving; without a serving time nobody knows which that is.
func (b *builder) shopDays(m *Menu, x *ast.Shop, serve *ast.ServeAt) {
	for _, d := range x.Dates {
		day := dayOf(d)
		if serve != nil && day.After(dayOf(serve.Date)) {
			b.diags.Errorf("M114", x.Pos(), "this day of shopping comes after the meal").
				WithHelp("write days up to that of `on the table`")
			continue
		}
		m.Shop = append(m.Shop, day)
	}
	if x.Weekday == "" {
		return
	}
	if serve == nil {
		b.diags.Askf("M114", x.Pos(), "which %s is meant: the menu has no serving time to count back from", x.Weekday).
			WithHelp("write `on the table 2027-09-19 13:00` in the menu, or the date in place of the day")
		return
	}
	day := dayOf(serve.Date).AddDate(0, 0, -1)
	for day.Weekday().String() != x.Weekday {
		day = day.AddDate(0, 0, -1)
	}
	m.Shop = append(m.Shop, day)
}

// called lets recipes be found by their other names, where nothing else has them.
func (b *builder) called() {
	for _, r := range b.model.Recipes {
		for _, other := range r.Own.Notes.Also {
			key := b.fold(other.Text)
			first, taken := r.Scope.Recipes[key]
			switch {
			case !taken:
				r.Scope.Recipes[key] = r
			case first != r:
				b.diags.Errorf("U101", other.Span, "there are two blocks called %q in this folder", other.Text).
					Because("a name must mean one thing, or a gather line could mean either").
					See(first.NameAt, "the other is here").
					WithHelp("take this name out, or give one of the two another")
			}
		}
	}
}

// unconfirmed are the fields of a file that end in a "?": by the words they begin with.
func unconfirmed(f *ast.File) (out []Text) {
	ast.Walk(f, func(n ast.Node) bool {
		if m := n.Base(); m.Offered {
			out = append(out, Text{n.Word(), m.Span})
		}
		return true
	})
	return out
}
