package format

import (
	"fmt"
	"strconv"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/parse"
	"tamis/lang/quantity"
)

func itoa(n int) string { return strconv.Itoa(n) }

func (p *printer) menuItem(it ast.MenuItem) {
	m := it.Base()
	switch it := it.(type) {
	case *ast.Covers:
		text := "covers " + itoa(it.Count)
		switch {
		case it.Children == 1:
			text += ", 1 child"
		case it.Children > 1:
			text += ", " + itoa(it.Children) + " children"
		}
		p.field(indent, m, text)
	case *ast.ServeAt:
		p.field(indent, m, "on the table "+date(it.Date)+" "+clock(it.Clock))
	case *ast.At:
		p.field(indent, m, "at "+title(it.Kitchen))
	case *ast.Hours:
		p.field(indent, m, hours(it))
	case *ast.Course:
		text := "course " + title(it.Title)
		if it.At != nil {
			text += ", at " + clock(*it.At)
		}
		if it.After != nil {
			text += ", " + it.After.String() + " after " + title(it.AfterOf)
		}
		p.head(indent, m, text)
		for _, s := range it.Servings {
			p.field(indent+indent, &s.Meta, serving(s))
			for _, n := range s.Pins {
				p.field(indent+indent+indent, &n.Meta, pin(n))
			}
		}
	case *ast.Task:
		p.field(indent, m, task(it))
	case *ast.Shop:
		days := it.Weekday
		if days == "" {
			days = join(it.Dates, date)
		}
		p.field(indent, m, "shop "+days)
	case *ast.Service:
		p.service(it)
	case *ast.Common:
		p.common(it)
	case *ast.Bad:
		p.bad(indent, it)
	}
}

func date(d ast.Date) string    { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }
func clock(c ast.Clock) string  { return fmt.Sprintf("%02d:%02d", c.Hour, c.Minute) }
func names(l []ast.Name) string { return join(l, title) }

func join[T any](list []T, text func(T) string) string {
	var parts []string
	for _, n := range list {
		parts = append(parts, text(n))
	}
	return strings.Join(parts, ", ")
}

func hours(h *ast.Hours) string {
	day := itoa(h.DaysBefore) + " days before"
	switch {
	case !h.Date.IsZero():
		day = date(h.Date)
	case h.DaysBefore == 0:
		day = "on the day"
	case h.DaysBefore == 1:
		day = "day before"
	}
	text := "hours " + day + ", " + clock(h.From) + " to "
	if !h.UntilDate.IsZero() {
		text += date(h.UntilDate) + " "
	}
	text += clock(h.To)
	if len(h.Cooks) > 0 {
		text += ", " + names(h.Cooks)
	}
	return text
}

func serving(s *ast.Serving) string {
	text := ref(s.Ref)
	if s.For > 0 {
		text += ", for " + itoa(s.For)
	}
	if s.CookFor > 0 {
		text += ", cook for " + itoa(s.CookFor)
	}
	if s.Ahead {
		text += ", ahead"
	}
	if s.Straight {
		text += ", straight through"
	}
	for _, o := range s.Options {
		text += ", " + title(o)
	}
	if !s.From.IsZero() {
		text += ", " + seller(s.From)
	}
	if s.ToWrite {
		text += ", to be written"
	}
	if s.KeepFor.Text != "" {
		text += ", keep the remains for " + s.KeepFor.Text
	}
	return text
}

func pin(n *ast.Pin) string {
	var parts []string
	if n.At != nil {
		at := "at "
		switch {
		case !n.Date.IsZero():
			at += date(n.Date) + ", "
		case n.DaysBefore == 1:
			at += "day before, "
		case n.DaysBefore > 1:
			at += itoa(n.DaysBefore) + " days before, "
		}
		parts = append(parts, at+clock(*n.At))
	}
	if len(n.By) > 0 {
		parts = append(parts, "by "+names(n.By))
	}
	if !n.Oven.IsZero() {
		parts = append(parts, "in "+title(n.Oven))
	}
	return "step " + itoa(n.Step) + ": " + strings.Join(parts, ", ")
}

func seller(s ast.Seller) string {
	if s.The {
		return "from the " + title(s.Name)
	}
	return "from " + title(s.Name)
}

func task(t *ast.Task) string {
	text := "task " + title(t.Title)
	if t.Work != nil {
		text += ", work " + t.Work.String()
	}
	if len(t.By) > 0 {
		text += ", by " + names(t.By)
	}
	if !t.Before.IsZero() {
		text += ", before " + title(t.Before)
	}
	if !t.After.IsZero() {
		text += ", after " + title(t.After)
	}
	if t.Done != nil {
		text += ", done " + t.Done.String() + " before serving"
	}
	return text
}

func (p *printer) kitchenItem(it ast.KitchenItem) {
	m := it.Base()
	switch it := it.(type) {
	case *ast.Oven:
		text := "oven " + title(it.Title)
		if it.Shelves > 0 {
			text += ", " + shelves(it.Shelves)
		}
		if it.Fan {
			text += ", fan"
		}
		if it.Gas {
			text += ", gas"
		}
		if it.Preheat != nil {
			text += ", preheat " + it.Preheat.String()
		}
		if it.Heats != nil {
			text += ", heats " + pace(it.Heats)
		}
		if it.Cools != nil {
			text += ", cools " + pace(it.Cools)
		}
		p.field(indent, m, text)
	case *ast.Rings:
		p.field(indent, m, "rings "+itoa(it.Count))
	case *ast.Names:
		text := it.Key + " " + names(it.Names)
		if it.Washed != nil {
			text += ", washed in " + it.Washed.String()
		}
		p.field(indent, m, text)
	case *ast.Vessel:
		text := "vessel " + title(it.Title)
		if !it.Holds.IsZero() {
			text += ", holds " + p.measure(it.Holds)
		}
		if it.Count > 0 {
			text += ", " + itoa(it.Count)
		}
		p.field(indent, m, text)
	case *ast.WashUp:
		text := "wash up " + it.Time.String() + ", " + it.When
		if it.Every != nil {
			text += " " + it.Every.String()
		}
		if len(it.By) > 0 {
			text += ", by " + names(it.By)
		}
		p.field(indent, m, text)
	case *ast.Waits:
		p.field(indent, m, "hold "+it.State+" "+it.Time.String())
	case *ast.Service:
		p.service(it)
	case *ast.Zone:
		p.field(indent, m, "zone "+it.Text.Text)
	case *ast.Common:
		p.common(it)
	case *ast.Bad:
		p.bad(indent, it)
	}
}

// serviceTails are what stands behind the time of a line of service.
var serviceTails = map[string]string{"plates": " a cover", "clears": ", after each course", "knives down": " before"}

func (p *printer) service(s *ast.Service) {
	text := s.Key + " " + s.Time.String() + serviceTails[s.Key]
	if s.Every != nil {
		text += ", every " + s.Every.String()
	}
	p.field(indent, &s.Meta, text)
}

// noted writes what is noted of a block.
func (p *printer) noted(in string, n *ast.Noted) {
	text := n.Key
	if !n.Date.IsZero() {
		text += " " + date(n.Date)
		for _, who := range n.Names {
			text += ", " + title(who)
		}
		text += ":"
	} else if len(n.Names) > 0 {
		text += " " + names(n.Names)
	}
	switch {
	case n.Key == "said":
		text += ` "` + n.Text.Text + `"`
	case n.Text.Text != "":
		text += " " + n.Text.Text
	}
	p.field(in, &n.Meta, text)
}

func (p *printer) about(in string, a *ast.About) {
	p.head(in, &a.Meta, "about")
	for _, l := range strings.Split(a.Text.Text, "\n") {
		if l == "" {
			p.b.WriteByte('\n')
			continue
		}
		p.line(in+indent, l)
	}
}

func shelves(n int) string {
	if n == 1 {
		return "1 shelf"
	}
	return itoa(n) + " shelves"
}

func (p *printer) measure(m quantity.Measure) string {
	return quantity.Amount{Measure: m}.Text(p.comma)
}

func (p *printer) ranged(r quantity.Range) string {
	return p.measure(quantity.Measure{Terms: []quantity.Term{{Value: r}}})
}

func keep(k ast.Keep) string { return k.Time.String() + ", " + k.Place }

func (p *printer) larderItem(it ast.LarderItem) {
	m := it.Base()
	switch it := it.(type) {
	case *ast.Setting:
		p.field(indent, m, it.Key+" "+it.Value.Text)
	case *ast.Entry:
		text := ref(it.Name)
		for i := range it.Facts {
			text += " | " + p.fact(it.Facts[i])
		}
		if wide(indent+text) <= lineWidth {
			p.field(indent, m, text)
			return
		}
		p.field(indent, m, ref(it.Name))
		for i := range it.Facts {
			p.line(indent+indent, "| "+p.fact(it.Facts[i]))
		}
	case *ast.Bad:
		p.bad(indent, it)
	}
}

func (p *printer) fact(f ast.Fact) string {
	word := f.Base().Word
	switch f := f.(type) {
	case *ast.Piece:
		return strings.TrimSpace(word + " " + p.measure(f.Weight) + " " + f.State.Text)
	case *ast.Yield:
		return word + " " + quantity.Amount{Kind: quantity.Percent, Percent: f.Percent}.Text(p.comma)
	case *ast.Price:
		text := word + " " + p.money(f.Amount)
		if f.Money.Text != "" {
			text += " " + f.Money.Text
		}
		if f.Per.IsZero() {
			return text + " each"
		}
		return text + " per " + p.unitOr(f.Per)
	case *ast.Density:
		return word + " " + p.measure(f.Weight) + " per " + p.unitOr(f.Per)
	case *ast.Packs:
		var parts []string
		for _, m := range f.Sizes {
			parts = append(parts, p.measure(m))
		}
		return word + " " + strings.Join(parts, " or ")
	case *ast.Contains:
		return word + " " + names(f.Names)
	case *ast.Also:
		return word + " " + title(f.Name)
	case *ast.From:
		return seller(f.Seller)
	case *ast.ShelfLife:
		return word + " " + keep(f.Keep)
	case *ast.Gives:
		var parts []string
		for _, g := range f.Given {
			parts = append(parts, g.Count.Text(p.comma)+" "+title(g.Name))
		}
		return word + " " + strings.Join(parts, " and ")
	case *ast.Unread:
		return f.Span.Text()
	}
	return word
}

// unitOr writes one of a unit as the unit alone: per kg.
func (p *printer) unitOr(m quantity.Measure) string {
	if u, ok := oneUnit(m); ok {
		return u.Name
	}
	return p.measure(m)
}

func oneUnit(m quantity.Measure) (*quantity.Unit, bool) {
	if len(m.Terms) != 1 || m.Terms[0].Unit == nil || m.Terms[0].Modifier != "" || !m.Terms[0].Value.Equal(quantity.Exactly(quantity.Int(1))) {
		return nil, false
	}
	return m.Terms[0].Unit, true
}

// money writes a price: whole, or with two places where two are enough.
func (p *printer) money(n quantity.Number) string {
	cents := n.Mul(quantity.Int(100))
	c, ok := cents.Int64()
	if n.IsInt() || !cents.IsInt() || !ok {
		return strings.TrimSuffix(quantity.Amount{Kind: quantity.Percent, Percent: n}.Text(p.comma), "%")
	}
	mark := "."
	if p.comma {
		mark = ","
	}
	return fmt.Sprintf("%d%s%02d", c/100, mark, c%100)
}

func (p *printer) seriesItem(it ast.SeriesItem) {
	switch it := it.(type) {
	case *ast.Part:
		p.head(indent, &it.Meta, "part "+itoa(it.Number)+" "+title(it.Title))
		for _, x := range sorted(parse.InPart, it.Items) {
			p.partItem(x)
		}
	case *ast.About:
		p.about(indent, it)
	case *ast.Noted:
		p.noted(indent, it)
	case *ast.Common:
		p.common(it)
	case *ast.Bad:
		p.bad(indent, it)
	}
}

func (p *printer) partItem(it ast.PartItem) {
	in := indent + indent
	m := it.Base()
	switch it := it.(type) {
	case *ast.Shows:
		p.field(in, m, "shows "+title(it.Ref))
	case *ast.PartDate:
		p.field(in, m, "date "+date(it.Date))
	case *ast.Copies:
		text := "copies " + itoa(it.Count) + " of " + title(it.Of)
		if !it.As.IsZero() {
			text += ", as " + title(it.As)
		}
		p.field(in, m, text)
	case *ast.About:
		p.about(in, it)
	case *ast.Noted:
		p.noted(in, it)
	case *ast.Common:
		text := it.Key + " "
		if it.Key == "allow" {
			text += it.Code + ": "
		}
		p.field(in, m, text+it.Text.Text)
	case *ast.Bad:
		p.bad(in, it)
	}
}

func (p *printer) bookItem(it ast.BookItem) {
	switch it := it.(type) {
	case *ast.Style:
		p.field(indent, &it.Meta, "style "+it.Text.Text)
	case *ast.Chapter:
		p.head(indent, &it.Meta, "chapter "+title(it.Title))
		if it.About != nil {
			p.about(indent+indent, it.About)
		}
		for _, r := range it.Refs {
			p.field(indent+indent, &r.Meta, ref(r.Ref))
		}
	case *ast.For:
		p.field(indent, &it.Meta, "for "+it.Text.Text)
	case *ast.About:
		p.about(indent, it)
	case *ast.Common:
		p.common(it)
	case *ast.Bad:
		p.bad(indent, it)
	}
}

func pace(x *ast.Pace) string { return x.By.String() + " within " + x.Time.String() }
