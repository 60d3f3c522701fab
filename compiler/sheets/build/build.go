// Package build decides what goes on the sheets of a planned meal: which there
// are, in what order, with what rows and words. It fills the neutral document of
// package sheets; what happens when it takes from package events, what is weighed from
// figures, what is bought from buying. Each sheet is a file; this one binds them.
//
// Read this file first, then amounts.go and happen.go, through which figures and events
// come in.
package build

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Options are what the caller knows and the meal does not.
type Options struct {
	Revision string        // short hash of all that was read
	Have     []buying.Have // what is in the house
	// Units is the system amounts are printed in; empty: as each writer wrote.
	Units quantity.System
	// Dash asks for ranges with a dash, 2–3, in place of 2 to 3: the house style
	// of the book. What a writer wrote in sentences stays.
	Dash bool
	// Charge is what a cover is charged, for the food cost in per cent; 0 when
	// nobody says.
	Charge quantity.Number
	// Pictures are those that `picture` fields name, where they can be had.
	Pictures map[source.Span]*sheets.Picture // by the place of the field
	// Kinds are the sheets to make; empty: DefaultKinds.
	Kinds []sheets.Kind
	// Card: the sheets go on file cards, where there is room to say a thing once.
	Card bool
	// Cook is whose work alone is printed: a cook's own list, and the dishes that
	// cook works at. Empty: everybody's.
	Cook string
}

// builder carries what every sheet of one document needs.
type builder struct {
	meal     *demand.Meal
	plan     *events.List // nil: there is no plan
	opt      Options
	books    []*resolve.Book // of a notebook
	volume   *volume         // of a book; nil for all else
	doc      *sheets.Document
	written  []*resolve.Recipe // those that the document has as data, in its order
	fig      *figures.Set      // of the meal
	figs     map[*demand.Meal]*figures.Set
	ids      map[string]bool
	links    map[*demand.Making]string       // sheet ids
	notebook map[*resolve.Recipe]sheets.Mark // in a notebook: every recipe's letter
	copies   map[*resolve.StandIn]string     // on the paper of a crew: which copies of their dish they are, where it has several
	unmarked bool                            // dishes go by their names, not by letters
	carried  bool                            // a list of the pack has what each dish gathers: its steps carry it, and it is not said again
	// caresOnce: the cautions of the whole meal stand on one sheet of the pack
	caresOnce bool
	bought    *buying.List // what the meal in hand buys; nil until it is asked for
	tracer    *hazard.Tracer
	traced    map[*demand.Making]*hazard.Trace // the way of the food of each making that has a sheet
	pages     map[*resolve.Recipe]string       // in a notebook: every recipe's sheet id
}

// Meal makes the document of one meal. plan is nil when none was asked for or
// none could be made: then there is no timeline, and steps carry no clock.
func Meal(meal *demand.Meal, plan *events.List, opt Options) *sheets.Document {
	b := &builder{
		plan: plan, opt: opt, ids: map[string]bool{}, links: map[*demand.Making]string{},
	}
	b.use(meal)
	b.doc = &sheets.Document{Title: meal.Title, Language: "en-GB", Revision: opt.Revision}
	b.head()
	b.carried = b.opt.Wants(sheets.Mise) && b.hasMise() && !b.opt.Card
	b.caresOnce = meal.Menu != nil && (b.opt.Wants(sheets.Overview) || b.opt.Wants(sheets.Shopping) && b.buysAnything())
	for _, m := range b.inOrder() {
		b.doc.Dishes = append(b.doc.Dishes, sheets.Mark{Letter: b.mark(m), Name: m.Recipe.Name, Base: m.Recipe.Base})
		b.links[m] = b.id("prep-" + m.Recipe.Name)
	}
	for _, s := range b.pack() {
		if b.opt.Wants(s.kind) {
			for _, sheet := range s.make() {
				b.add(sheet)
			}
		}
	}
	b.doc.Figures, b.doc.Events = b.figures(), b.happenings()
	b.asData(b.inOrder()...)
	if b.opt.Wants(sheets.Prep) {
		for _, m := range b.inOrder() {
			if b.worksAt(m) {
				b.add(b.prep(m))
			}
		}
	}
	return b.doc
}

// buysAnything tells whether there is a shopping list.
func (b *builder) buysAnything() bool { return len(b.buying().Items) > 0 || b.boughtDishes() != nil }

// maker makes one sheet of the pack.
type maker struct {
	kind sheets.Kind
	make func() []*sheets.Sheet
}

// one makes a sheet that there is one of.
func one(of func() *sheets.Sheet) func() []*sheets.Sheet {
	return func() []*sheets.Sheet { return []*sheets.Sheet{of()} }
}

// pack is the sheets that can be made of the meal, in the order they are
// bound; the prep sheets follow.
func (b *builder) pack() []maker {
	var out []maker
	menu, plan := b.meal.Menu != nil, b.plan != nil
	for _, s := range []struct {
		maker
		has bool
	}{
		{maker{sheets.Overview, one(b.overview)}, menu},
		{maker{sheets.Wall, b.walls}, plan},
		{maker{sheets.Timeline, one(b.chart)}, plan},
		{maker{sheets.RunSheet, one(b.run)}, plan},
		{maker{sheets.Countdown, one(b.countdown)}, plan},
		{maker{sheets.ByCook, one(b.cookSheets)}, plan},
		{maker{sheets.OvenDoor, one(b.ovenDoor)}, plan},
		{maker{sheets.Mise, one(b.mise)}, b.hasMise()},
		{maker{sheets.Shopping, one(b.shopping)}, true},
		{maker{sheets.Vessels, one(b.vessels)}, true},
		{maker{sheets.Allergens, one(b.allergenTable)}, true},
		{maker{sheets.TempLog, one(b.temperatureLog)}, true},
		{maker{sheets.DateLabels, one(b.labels)}, plan},
		{maker{sheets.CostCard, one(b.cost)}, menu},
	} {
		if s.has {
			out = append(out, s.maker)
		}
	}
	return out
}

// hasMise tells whether a mise-en-place list is made: a single dish has its own list.
func (b *builder) hasMise() bool { return b.meal.Menu != nil || len(b.meal.Makings) > 1 }

// Wants tells whether a kind of sheet was asked for.
func (o Options) Wants(k sheets.Kind) bool {
	kinds := o.Kinds
	if len(kinds) == 0 {
		kinds = sheets.DefaultKinds()
	}
	return slices.Contains(kinds, k)
}

// mark is the letter a making goes by.
func (b *builder) mark(m *demand.Making) string {
	if k, ok := b.notebook[m.Recipe]; ok && m.Copy > 0 {
		return fmt.Sprintf("%s*%d", k.Letter, m.Copy)
	} else if ok && m.StandIn != nil {
		return k.Letter + "*" + b.copies[m.StandIn]
	} else if ok {
		return k.Letter
	}
	return m.Letter
}

// named is a making by its letter and its name, or by its name alone.
func (b *builder) named(m *demand.Making) string {
	if b.unmarked {
		return m.Recipe.Name
	}
	return b.mark(m) + " " + m.Recipe.Name
}

func (b *builder) add(s *sheets.Sheet) {
	if s != nil {
		b.doc.Sheets = append(b.doc.Sheets, *s)
	}
}

// inOrder is the dishes in order of service, then the bases, as their letters run.
func (b *builder) inOrder() []*demand.Making {
	out := make([]*demand.Making, 0, len(b.meal.Makings))
	for _, m := range b.meal.Makings {
		if m.Supply == nil {
			out = append(out, m)
		}
	}
	for _, m := range b.meal.Makings {
		if m.Supply != nil {
			out = append(out, m)
		}
	}
	return out
}

// head fills in what stands at the top of every page.
func (b *builder) head() {
	menu := b.meal.Menu
	if menu == nil {
		if len(b.meal.Makings) > 0 {
			m := b.meal.Makings[len(b.meal.Makings)-1]
			if m.Portions.Sign() > 0 {
				b.doc.Covers = "serves " + b.eaters(m)
			}
		}
		return
	}
	if covers, children := b.coversServed(); covers > 0 {
		b.doc.Covers = plural(covers, "cover", "covers")
		if children > 0 {
			b.doc.Covers += " and " + plural(children, "child", "children")
		}
	}
	if menu.Serve != nil {
		b.doc.When = longDate(*menu.Serve) + ", " + menu.Serve.Format("15:04")
	}
	if menu.Kitchen != nil {
		b.doc.Place = menu.Kitchen.Name
		if z := menu.Kitchen.Zone; z != nil {
			b.doc.Zone = z.String()
		}
	}
	b.doc.By = menu.By
}

// coversServed is for how many a menu is: what --covers says, if it says, all of
// whom eat a whole portion; else the menu's covers, and its children.
func (b *builder) coversServed() (covers, children int) {
	menu := b.meal.Menu
	if menu == nil {
		return 0, 0
	}
	covers = menu.Covers
	for _, m := range b.meal.Makings {
		if m.Serving != nil && !m.Serving.Counted {
			if n, ok := m.Portions.Int64(); ok && n > 0 && !b.withChildren(m) {
				covers = int(n)
			}
		}
	}
	if covers == menu.Covers {
		children = menu.Children
	}
	return covers, children
}

// withChildren tells whether a making is for the menu's covers with its
// children on top.
func (b *builder) withChildren(m *demand.Making) bool {
	menu := b.meal.Menu
	if menu == nil || menu.Children == 0 || m.Serving == nil || m.Serving.Counted {
		return false
	}
	half := quantity.Frac(int64(menu.Children), 2)
	return m.Portions.Equal(quantity.Int(int64(menu.Covers)).Add(half))
}

// eaters says for how many a making is: "12", "12 and 5 children".
func (b *builder) eaters(m *demand.Making) string {
	if b.withChildren(m) {
		return fmt.Sprintf("%d and %s", b.meal.Menu.Covers, plural(b.meal.Menu.Children, "child", "children"))
	}
	if serves := m.Recipe.Serves; serves != nil && serves.IsRange() && m.Portions.Equal(serves.Low) && m.Factor.Equal(quantity.Int(1)) {
		return quantity.Quantity{Value: *serves}.Print(b.fig.Style())
	}
	return quantity.Pieces(m.Portions).Print(b.fig.Style())
}

// eatersOf says for how many a line of the menu is that is not made here; empty
// when nobody says.
func (b *builder) eatersOf(s *resolve.Serving) string {
	if s.Counted {
		return fmt.Sprint(s.Covers)
	}
	covers, children := b.coversServed()
	switch {
	case covers == 0:
		return ""
	case children > 0:
		return fmt.Sprintf("%d and %s", covers, plural(children, "child", "children"))
	}
	return fmt.Sprint(covers)
}

// id makes a unique word that is fit for a link.
func (b *builder) id(name string) string {
	var s strings.Builder
	for _, c := range strings.ToLower(name) {
		switch {
		case unicode.IsLetter(c) || unicode.IsDigit(c):
			s.WriteRune(c)
		case s.Len() > 0 && !strings.HasSuffix(s.String(), "-"):
			s.WriteByte('-')
		}
	}
	base := strings.TrimSuffix(s.String(), "-")
	id := base
	for n := 2; b.ids[id]; n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	b.ids[id] = true
	return id
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func longDate(t time.Time) string { return t.Format("Monday 2 January 2006") }

// dayName names the day a moment falls on: "Sunday 19 September", or without a
// date "The day", "The day before".
func (b *builder) dayName(m events.Moment) string { return b.dayTitle(b.plan.Day(m)) }

// dayTitle names a day by its number.
func (b *builder) dayTitle(d int) string {
	if b.meal.Menu != nil && b.meal.Menu.Serve != nil {
		return b.meal.Menu.Serve.AddDate(0, 0, d).Format("Monday 2 January")
	}
	return daysBefore(d)
}

// daysBefore says how far a day lies from the serving's.
func daysBefore(d int) string {
	s := quantity.DayText(d)
	return strings.ToUpper(s[:1]) + s[1:]
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

// onDay is a clock time with its day's short name if that is not the serving day.
func (b *builder) onDay(m events.Moment) string {
	if b.plan.Day(m) == 0 {
		return b.plan.Clock(m)
	}
	return b.plan.OnDay(m)
}

// minutes writes a length of time in whole minutes.
func minutes(n int) string { return quantity.TimeText(time.Duration(n) * time.Minute) }
