package page

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/render/runes"
	"tamis/testdata/fixture"
)

// allOptions is every paper in every size of type and both inks, and booklets.
var allOptions = func() (all []Options) {
	for _, large := range []bool{false, true} {
		for _, light := range []bool{false, true} {
			for _, p := range Papers() {
				if large && p.Card {
					continue // the command refuses it
				}
				all = append(all, Options{Paper: p, Large: large, Light: light})
			}
			all = append(all, Options{Paper: A4, Large: large, Light: light, Booklet: true})
		}
		all = append(all, Options{Paper: Letter, Large: large, Booklet: true})
	}
	return all
}()

// supper is one document laid out in every one of these ways, once for all
// tests, which only look.
var supper = fixture.Supper()

var laid = map[string]*Book{}

func supperAs(opt Options) *Book {
	key := fmt.Sprintf("%+v", opt)
	if laid[key] == nil {
		laid[key] = Lay(supper, opt)
	}
	return laid[key]
}

// sizesAs are the sizes that a document is set in with opt.
func sizesAs(opt Options) sizes {
	if half, ok := opt.Paper.Half(); opt.Booklet && ok {
		opt.Paper = half
	}
	return sizesOf(opt)
}

// checkPages looks at every page for words that touch and marks outside the
// margins.
func checkPages(t *testing.T, b *Book, note string) {
	t.Helper()
	for n, p := range b.Pages {
		var words []*draw.Text
		for _, o := range p.Ops {
			checkInside(t, p, o, fmt.Sprintf("%s, page %d", note, n+1))
			if w, ok := o.(*draw.Text); ok && strings.TrimSpace(w.Str) != "" {
				words = append(words, w)
			}
		}
		slices.SortFunc(words, func(a, b *draw.Text) int { return int(math.Copysign(1, a.Y-b.Y)) })
		for i, a := range words {
			for _, b := range words[i+1:] {
				if b.Y-b.Size > a.Y {
					continue
				}
				if overlap(a, b) {
					t.Fatalf("%s, page %d: %q and %q overlap: %+v %+v", note, n+1, a.Str, b.Str, *a, *b)
				}
			}
		}
	}
}

// overlap compares the boxes of capitals and of short descenders; the letters
// of neighbouring lines may share what lies between.
func overlap(a, b *draw.Text) bool {
	const slack = 0.3
	top := func(x *draw.Text) float64 { return x.Y - fonts.CapHeight*x.Size }
	low := func(x *draw.Text) float64 { return x.Y + 0.2*x.Size }
	return a.X+slack < b.X+b.W && b.X+slack < a.X+a.W && top(a)+slack < low(b) && top(b)+slack < low(a)
}

func checkInside(t *testing.T, p *Page, o draw.Op, note string) {
	t.Helper()
	const slack = 1.3 // half the width of a rule
	left, right := math.Inf(1), math.Inf(-1)
	see := func(x float64) { left, right = min(left, x), max(right, x) }
	switch o := o.(type) {
	case *draw.Text:
		see(o.X)
		see(o.X + o.W)
		require.InDelta(t, o.Face.Width(o.Str, o.Size), o.W, 0.5, "%s: the width of %q", note, o.Str)
	case *draw.Line:
		see(o.X1)
		see(o.X2)
	case *draw.Rect:
		see(o.X)
		see(o.X + o.W)
	case *draw.Poly:
		for _, q := range o.Points {
			see(q[0])
		}
	}
	top, bottom := o.Span()
	a := p.Area
	if left < a.X-slack || right > a.X+a.W+slack || top < a.Y-slack || bottom > a.Y+a.H+slack {
		t.Fatalf("%s: %T lies outside the margins: x %.1f–%.1f y %.1f–%.1f in %+v: %+v", note, o, left, right, top, bottom, a, o)
	}
}

// opsOf are the marks of sheet i on p.
func (p *Page) opsOf(i int) (out []draw.Op) {
	for n, o := range p.Ops {
		if p.SheetOf(n) == i {
			out = append(out, o)
		}
	}
	return out
}

// spoken is what the pages of sheet i say, in the order of the fields.
func spoken(b *Book, i int) string {
	type field struct {
		n     int
		words strings.Builder
	}
	byNumber := map[int]*field{}
	var order []*field
	for _, p := range b.Pages {
		for _, o := range p.opsOf(i) {
			w, ok := o.(*draw.Text)
			if !ok || w.Field == 0 {
				continue
			}
			f := byNumber[w.Field]
			if f == nil {
				f = &field{n: w.Field}
				byNumber[w.Field] = f
				order = append(order, f)
			} else if !w.Glued {
				f.words.WriteByte(' ')
			}
			f.words.WriteString(w.Str)
		}
	}
	slices.SortFunc(order, func(a, b *field) int { return a.n - b.n })
	var all []string
	for _, f := range order {
		all = append(all, f.words.String())
	}
	return strings.Join(all, " ")
}

// printable is the fields of sheet i as the faces can show them. Labels need
// no heads of columns.
func printable(doc *sheets.Document, i int, set fonts.Set) []fixture.Field {
	if doc.Sheets[i].Kind == sheets.DateLabels {
		d := *doc
		d.Sheets = slices.Clone(doc.Sheets)
		d.Sheets[i].Blocks = slices.Clone(doc.Sheets[i].Blocks)
		for k, b := range d.Sheets[i].Blocks {
			if t, ok := b.(*sheets.Table); ok && labelled(t) {
				d.Sheets[i].Blocks[k] = &sheets.Table{Columns: slices.Clone(t.Columns), Groups: t.Groups}
				for n := range t.Columns {
					d.Sheets[i].Blocks[k].(*sheets.Table).Columns[n].Title = ""
				}
			}
		}
		doc = &d
	}
	var out []fixture.Field
	for _, f := range fixture.Fields(doc, i) {
		f.Text = runes.Replace(f.Text, set.Has, func(rune) {})
		out = append(out, f)
	}
	return out
}

func TestEveryFieldIsOnPaperInReadingOrder(t *testing.T) {
	doc := supper
	for _, opt := range allOptions {
		b := supperAs(opt)
		for i := range doc.Sheets {
			rest, err := fixture.Follow(spoken(b, i), printable(doc, i, opt.Fonts))
			require.NoError(t, err, "%+v, sheet %s", opt, doc.Sheets[i].ID)
			if len(rest) == 0 || doc.Sheets[i].Kind == sheets.Timeline {
				continue
			}
			// what remains is the key, the line below the masthead and dots between facts
			extra := doc.Facts()
			for _, d := range doc.Dishes {
				extra = append(extra, d.Letter+" "+d.Name)
			}
			left := strings.Join(rest, "")
			for _, s := range append(extra, "·") {
				left = strings.ReplaceAll(left, strings.ReplaceAll(s, " ", ""), "")
			}
			left = strings.TrimPrefix(left, "Sheets")
			require.Empty(t, left, "words that the document does not have, on sheet %s", doc.Sheets[i].ID)
		}
	}
}

func TestNothingOverlapsOrLiesOutsideTheMargins(t *testing.T) {
	for _, opt := range allOptions {
		checkPages(t, supperAs(opt), fmt.Sprintf("%+v", opt))
	}
}

func TestRandomDocuments(t *testing.T) {
	for seed := range effort.Rounds[uint64](40, 200) {
		doc := fixture.Random(seed)
		opt := allOptions[seed%uint64(len(allOptions))]
		b := Lay(doc, opt)
		note := fmt.Sprintf("seed %d", seed)
		checkPages(t, b, note)
		for i := range doc.Sheets {
			_, err := fixture.Follow(spoken(b, i), printable(doc, i, opt.Fonts))
			require.NoError(t, err, note)
		}
	}
}

func TestPagesAreNumberedThrough(t *testing.T) {
	b := Lay(fixture.Supper(), Options{})
	for i, p := range b.Pages {
		var feet []string
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok && strings.HasPrefix(w.Str, "page ") {
				feet = append(feet, fixture.Squash(w.Str))
			}
		}
		require.Equal(t, []string{fmt.Sprintf("page %d of %d", i+1, len(b.Pages))}, feet)
	}
}

func TestEveryPageSaysWhereItBelongs(t *testing.T) {
	doc := fixture.Supper()
	b := Lay(doc, Options{})
	for i, p := range b.Pages {
		var head []string
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok && w.Field == 0 {
				head = append(head, w.Str)
			}
		}
		all := fixture.Squash(strings.Join(head, " "))
		for _, s := range []string{doc.Title, doc.Covers, "19:00", "Revision " + doc.Revision} {
			require.Contains(t, all, s, "page %d", i+1)
		}
		require.Contains(t, all, strings.Fields(doc.Sheets[p.Sheet].Title)[0], "page %d", i+1)
	}
}

func TestSheetsBeginOnANewPage(t *testing.T) {
	doc := fixture.Supper()
	b := Lay(doc, Options{})
	require.Len(t, b.Sheets, len(doc.Sheets))
	for _, s := range b.Sheets {
		i := slices.IndexFunc(doc.Sheets, func(d sheets.Sheet) bool { return d.ID == s.ID })
		p := b.Pages[s.Page]
		if s.Y > 0 { // a short recipe below another
			require.True(t, slices.ContainsFunc(p.Below, func(x Below) bool { return x.Sheet == i }), s.ID)
			continue
		}
		require.Equal(t, i, p.Sheet)
		if s.Page > 0 {
			require.NotEqual(t, i, b.Pages[s.Page-1].Sheet)
		}
		require.Equal(t, doc.Sheets[i].Wide, p.W > p.H)
	}
}

// A step is all that lies between its number and the next; none may be on two
// pages.
func TestNoStepIsSplit(t *testing.T) {
	doc := supper
	for _, opt := range allOptions {
		if opt.Paper.Card {
			continue // a step may be taller than a card
		}
		b := supperAs(opt)
		for i, s := range doc.Sheets {
			if s.Kind != sheets.Prep {
				continue
			}
			for _, blk := range s.Blocks {
				st, ok := blk.(*sheets.Steps)
				if !ok {
					continue
				}
				for _, it := range st.Items {
					step, ok := it.(*sheets.Step)
					if !ok || len(step.Look)+len(step.Margin) == 0 {
						continue
					}
					require.True(t, together(b, i, step, sizesAs(opt).number), "%+v: step %d of %s", opt, step.Number, s.Title)
				}
			}
		}
	}
}

// together tells whether the number of a step and its last fact are on one page.
func together(b *Book, sheet int, s *sheets.Step, number float64) bool {
	for _, p := range b.Pages {
		if p.Sheet != sheet {
			continue
		}
		seen, field := false, 0
		for _, o := range p.Ops {
			w, ok := o.(*draw.Text)
			if !ok {
				continue
			}
			if w.Size >= number && w.Str == fmt.Sprint(s.Number) {
				seen, field = true, w.Field
			}
			if seen && w.Field > field && strings.Contains(fixture.Squash(w.Str), append(slices.Clone(s.Margin), s.Look...)[0]) {
				return true
			}
		}
	}
	return false
}

func TestAStepTallerThanAPageIsCutBetweenLines(t *testing.T) {
	long := strings.Repeat("Stir and wait and look and stir again. ", 400)
	doc := &sheets.Document{Title: "Patience", Sheets: []sheets.Sheet{{
		ID: "p", Kind: sheets.Prep, Title: "Patience",
		Blocks: []sheets.Block{&sheets.Steps{Items: []sheets.StepItem{
			&sheets.Step{Number: 1, Takes: []sheets.Take{{Amount: "1", Name: "spoon"}}, Runs: []sheets.Run{{Text: long}}},
			&sheets.Step{Number: 2, Runs: []sheets.Run{{Text: "Serve."}}},
		}}},
	}}}
	b := Lay(doc, Options{})
	require.Greater(t, len(b.Pages), 3)
	checkPages(t, b, "long step")
	_, err := fixture.Follow(spoken(b, 0), fixture.Fields(doc, 0))
	require.NoError(t, err)
}

func TestTurnOverHint(t *testing.T) {
	b := Lay(fixture.Supper(), Options{})
	for i, p := range b.Pages {
		more := i+1 < len(b.Pages) && b.Pages[i+1].Sheet == p.Sheet
		said := slices.ContainsFunc(p.Ops, func(o draw.Op) bool {
			w, ok := o.(*draw.Text)
			return ok && strings.HasPrefix(w.Str, "Turn over")
		})
		require.Equal(t, more, said, "page %d", i+1)
	}
}

func TestTurnOverNamesWhatComesNext(t *testing.T) {
	doc := fixture.Supper()
	for i, p := range Lay(doc, Options{Large: true}).Pages {
		if !p.Turn || doc.Sheets[p.Sheet].ID != "prep-tart" {
			continue
		}
		last := 0 // the number of the last step on the page
		hint := ""
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok {
				if w.Size == large.number {
					fmt.Sscan(w.Str, &last)
				}
				if strings.HasPrefix(w.Str, "Turn over") {
					hint = fixture.Squash(w.Str)
				}
			}
		}
		require.Equal(t, fmt.Sprintf("Turn over: step %d", last+1), hint, "page %d", i+1)
	}
}

func TestHeadsOfTablesRepeat(t *testing.T) {
	tb := &sheets.Table{Columns: []sheets.Column{{Title: "At", Kind: sheets.ClockColumn}, {Title: "Do", Weight: 1}}}
	g := sheets.Group{Title: "Saturday"}
	for i := range 120 {
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			{Runs: []sheets.Run{{Text: fmt.Sprintf("%02d:%02d", i/10, i%10)}}}, {Runs: []sheets.Run{{Text: "stir"}}},
		}})
	}
	tb.Groups = []sheets.Group{g}
	b := Lay(&sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "r", Kind: sheets.RunSheet, Title: "Run", Blocks: []sheets.Block{tb}}}}, Options{})
	require.Greater(t, len(b.Pages), 2)
	for i, p := range b.Pages {
		var all []string
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok {
				all = append(all, w.Str)
			}
		}
		require.Contains(t, all, "At", "page %d", i+1)
		require.Contains(t, all, "Saturday", "page %d", i+1)
		require.Equal(t, i > 0, slices.ContainsFunc(all, func(s string) bool { return s == ", continued" }), "page %d", i+1)
	}
	checkPages(t, b, "long table")
}

func TestContentsNamePages(t *testing.T) {
	doc := fixture.Supper()
	b := Lay(doc, Options{})
	for _, s := range b.Sheets[1:] {
		found := false
		for _, o := range b.Pages[0].Ops {
			if w, ok := o.(*draw.Text); ok && w.Link == "#"+s.ID && w.Str == fmt.Sprint(s.Page+1) {
				found = true
			}
		}
		require.True(t, found, "%s on page %d", s.Title, s.Page+1)
	}
}

func TestMissingLettersAreReported(t *testing.T) {
	b := Lay(fixture.Supper(), Options{})
	require.Contains(t, string(b.Missing), "🍐")
	require.Contains(t, string(b.Missing), "梨")
	require.NotContains(t, string(b.Missing), "г", "Cyrillic is in the faces")
	require.NotContains(t, string(b.Missing), "α", "Greek is in the faces")
}

// RNIB, Clear Print guidelines: large print is 16 points and up (from memory:
// 12 is the least, 14 better, 16 to 18 large).
func TestLargeTypeHasNothingBelowSixteenPoints(t *testing.T) {
	for _, p := range Lay(fixture.Supper(), Options{Large: true}).Pages {
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok && w.Size < 16 {
				t.Fatalf("%q is set in %.1f points", w.Str, w.Size)
			}
		}
	}
}

func TestKeyNamesTheLettersThatASheetUses(t *testing.T) {
	doc := fixture.Supper()
	letters := func(id string) (out string) {
		for i := range doc.Sheets {
			if doc.Sheets[i].ID == id {
				for _, m := range Key(doc, &doc.Sheets[i]) {
					out += m.Letter
				}
			}
		}
		return out
	}
	require.Equal(t, "ABCDE", letters("shopping"))
	require.Equal(t, "ABCD", letters("run"))
	require.Equal(t, "ABCD", letters("timeline"))
	require.Empty(t, letters("prep-trout"), "a sheet about one dish")
	require.Empty(t, letters("overview"), "its contents name them")

	log := &sheets.Sheet{Kind: sheets.TempLog, Blocks: []sheets.Block{&sheets.Table{Groups: []sheets.Group{{Rows: []sheets.Row{
		{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: "A"}}}, {Runs: []sheets.Run{{Text: doc.Dishes[0].Name + ", step 2"}}}}},
		{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: "B"}}}, {Runs: []sheets.Run{{Text: "Held hot"}}}}},
	}}}}}}
	require.Equal(t, []sheets.Mark{doc.Dishes[1]}, Key(doc, log), "a row that says its dish needs no key")
	for words, want := range map[string]bool{
		"Serve: Rice\n": true, "Rice, step 2": true, "Held hot (Rice)": true, "Peas and Rice\n": true,
		"Rice pudding, step 2": false, "Fried Rice\n": false, "": false,
	} {
		require.Equal(t, want, named(words, "Rice"), words)
	}
}

func TestShortGroupsStayTogetherInColumns(t *testing.T) {
	tb := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What", Weight: 1}}}
	for g := range 14 {
		gr := sheets.Group{Title: fmt.Sprintf("Counter %d", g)}
		for range 3 + g%4 {
			gr.Rows = append(gr.Rows, sheets.Row{Cells: []sheets.Cell{{}, {Runs: []sheets.Run{{Text: "450 g"}}}, {Runs: []sheets.Run{{Text: "green beans"}}}}})
		}
		tb.Groups = append(tb.Groups, gr)
	}
	b := Lay(&sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "s", Kind: sheets.Shopping, Title: "Shopping", Blocks: []sheets.Block{tb}}}}, Options{})
	columns := map[bool]int{}
	for _, p := range b.Pages {
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok {
				require.False(t, w.Str == ", continued" && w.Size == normal.small, "a counter is parted")
				if strings.HasPrefix(w.Str, "Counter") {
					columns[w.X > p.W/2]++
				}
			}
		}
	}
	require.Greater(t, columns[false], 3)
	require.Greater(t, columns[true], 3)
}

func TestAListOfOneGroupFillsBothColumns(t *testing.T) {
	tb := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TickColumn}, {Title: "Amount", Kind: sheets.AmountColumn}, {Title: "What", Weight: 1}}}
	gr := sheets.Group{}
	for range 8 {
		gr.Rows = append(gr.Rows, sheets.Row{Cells: []sheets.Cell{{}, {Runs: []sheets.Run{{Text: "450 g"}}}, {Runs: []sheets.Run{{Text: "green beans"}}}}})
	}
	tb.Groups = append(tb.Groups, gr)
	b := Lay(&sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "s", Kind: sheets.Prep, Title: "Beans", Blocks: []sheets.Block{&sheets.Heading{Text: "Gather"}, tb}}}}, Options{})
	columns := map[bool]int{}
	for _, o := range b.Pages[0].Ops {
		if w, ok := o.(*draw.Text); ok && fixture.Squash(w.Str) == "green beans" {
			columns[w.X > b.Pages[0].W/2]++
		}
	}
	require.Equal(t, map[bool]int{false: 4, true: 4}, columns)
}
