// Package sheets is the neutral document: titles, tables, steps, charts, and the
// data beside them. It holds nothing but text that is ready to print and numbers
// that place bars on a chart. Package build fills it; the renderers draw it and
// import nothing else of the compiler, so that paper, screen and data always say
// the same. Read this file first: event.go and figure.go hold what is data only.
package sheets

import (
	"slices"
	"strings"

	"tamis/lang/quantity"
)

// Document is everything that is printed for one menu, or for a folder of
// dishes without a menu.
type Document struct {
	Title    string // "Harvest lunch"
	File     string // what its file is called after, where that is not the title
	Covers   string // "12 covers"; empty without a menu
	When     string // "Sunday 19 September 2027, 13:00"; may be empty
	Place    string // "Farmhouse"; may be empty
	Zone     string // whose clock the times are by: "Europe/London"; may be empty
	By       string // the writer; may be empty
	Language string // BCP 47: "en-GB"
	Revision string // of all that was read: "4f2a9c", "8d2276ab of 1 May 2027"
	For      string // of a book: for whom it was made; may be empty
	Bound    bool   // a book: it is read, its pages face each other, and no letters stand for its recipes
	Dishes   []Mark // every dish of the document with its letter, in order of service
	Sheets   []Sheet
	Figures  []Figure // every amount, exact and printed; not drawn
	Recipes  []Recipe // every recipe once, at its written size; not drawn
	Events   []Event  // what happens by the plan, in order of time; not drawn

	// Folder are the documents that lie in one folder with this one, itself among them:
	// a link "doc:File" leads to one of them, on a screen.
	Folder []Beside
}

// Beside is a document of a folder.
type Beside struct {
	File  string // its Document.File
	Title string // "Part 2: Stew and pickle"
	Name  string // its file without the ending, filled in when it is written; empty: it is not there
}

// Mark is a dish's letter, which stands for it in every list and on every bar.
type Mark struct {
	Letter string // A, B … Z, AA …
	Name   string
	Base   bool // a shared preparation, not served by itself
}

// Kind tells the sheets apart.
type Kind string

// The kinds of sheet.
const (
	Overview   Kind = "overview" // the menu at a glance: courses, dishes, who eats when, contents
	Wall       Kind = "wall"     // a leaf a day to hang up: what each cook begins when
	Prep       Kind = "prep"     // one dish or base
	Mise       Kind = "mise"     // mise-en-place list
	Shopping   Kind = "shopping"
	Timeline   Kind = "timeline"  // the chart
	RunSheet   Kind = "run"       // the timeline in order of time
	Countdown  Kind = "countdown" // the same, counted back from the first serving
	ByCook     Kind = "cooks"     // the run sheet, cook by cook
	OvenDoor   Kind = "oven"      // what is in the oven when
	Allergens  Kind = "allergens" // dish by dish
	TempLog    Kind = "log"       // temperatures to fill in
	DateLabels Kind = "labels"    // to cut out and stick on
	CostCard   Kind = "cost"      // what each dish and portion costs
	Vessels    Kind = "vessels"   // pots, tins and tools
	Leaf       Kind = "leaf"      // of a part of a series: what those who watch are handed
	Series     Kind = "series"    // of a series: the whole, and what is bought for it when
	Crew       Kind = "crew"      // of a series: for those who show it, on the day of each part

	// Of a book: these come together, asked for as Book.
	Book      Kind = "book" // all of it; no sheet is of this kind
	TitlePage Kind = "title"
	Imprint   Kind = "imprint" // whose it is and how it is read: behind the title page
	Care      Kind = "care"    // its cautions
	Preface   Kind = "preface"
	Contents  Kind = "contents"
	Chapter   Kind = "chapter" // what opens a chapter
	Index     Kind = "index"
)

// Sheet starts on a new page.
type Sheet struct {
	ID       string // unique, fit for a link: "prep-slow-lamb"
	Kind     Kind
	Title    string   // "Slow lamb"
	Letter   string   // the dish's mark; may be empty
	Facts    []string // a line of short facts below the title: "for 12", "serve hot, within 10 min"
	Wide     bool     // better printed landscape
	Blocks   []Block
	Contents bool   // the first sheet carries the list of sheets, before its cautions
	Chapter  string // of a book: the chapter that a recipe stands in
	Filed    string // of a book: where its card is filed, "Soups 3"
}

// Around parts the blocks of a sheet where its list of sheets stands: cautions
// and what follows them come after it, so that it is on the first page.
func (s *Sheet) Around() (before, after []Block) {
	i := slices.IndexFunc(s.Blocks, func(b Block) bool { _, ok := b.(*Cautions); return ok })
	if !s.Contents || i < 0 {
		return s.Blocks, nil
	}
	return s.Blocks[:i], s.Blocks[i:]
}

// Block is *Heading, *Prose, *Table, *Steps, *Chart, *Board, *Cautions, *List, *Alphabet, *Picture or *Masthead.
type Block interface{ block() }

// Heading opens a part of a sheet.
type Heading struct {
	Text string
	Note string // said after it, quieter: "makes 700 ml, 640 ml drawn"
}

// Style is how a run of text stands out.
type Style int

// The styles of a run.
const (
	Plain  Style = iota
	Strong       // Markdown strong
	Emph         // Markdown emphasis
	Amount       // a scaled amount in a sentence: never broken over a line
	Thing        // the name of what a step takes
	Quiet        // an aside
)

// Run is a piece of a line in one style. A Run never holds a line break.
type Run struct {
	Text  string
	Style Style
	Link  string // an absolute link of the writer's, or "#sheet-id"
	// Page, where it is not empty, is what stands on paper in place of Text: # in it is
	// the page that Link leads to, ", p. #".
	Page string
}

// Words is the words of runs without their styles.
func Words(runs []Run) string {
	if len(runs) == 1 {
		return runs[0].Text
	}
	var b strings.Builder
	for _, r := range runs {
		b.WriteString(r.Text)
	}
	return b.String()
}

// ParaKind tells paragraphs apart.
type ParaKind int

// The kinds of paragraph. Item is a bulleted, Numbered a numbered one.
const (
	Paragraph ParaKind = iota
	Item
	Numbered
	Subhead
	Quote
)

// Para is a paragraph of prose.
type Para struct {
	Kind   ParaKind
	Number int // of a Numbered paragraph
	Runs   []Run
}

// Prose is the writer's words, from Markdown. Small prose is what is read last: where
// something is used, when it was cooked, whom it is from. Spare prose is left out on paper
// where it would cost a page.
type Prose struct {
	Paras []Para
	Small bool
	Spare bool
}

// ColumnKind says how a column is set.
type ColumnKind int

// The kinds of column.
const (
	TextColumn   ColumnKind = iota
	TickColumn              // an empty box to tick
	MarkColumn              // dish letters
	AmountColumn            // set so that figures and units line up: right-aligned figure, unit left
	ClockColumn             // clock times and durations, figures aligned
	PencilColumn            // an empty rule to write on; the title says what
	PageColumn              // on paper, the number of the page where the sheet that its cells lead to begins
)

// Column is one column of a table. Weight is its share of what is left after
// narrow columns have what they need; 0 for a narrow one.
type Column struct {
	Title  string
	Kind   ColumnKind
	Weight int
}

// Cell is what stands in one field. Sub is a second, quieter line.
type Cell struct {
	Runs []Run
	Sub  []Run
}

// Row is one line of a table. Strong rows (a serving, a deadline) stand out. A spare
// row is left out on paper where it would cost a page.
type Row struct {
	Cells  []Cell
	Strong bool
	Spare  bool
}

// Group is a run of rows under a heading that repeats when the group goes over
// the page. Note stands beside the heading.
type Group struct {
	Title string
	Note  string
	Rows  []Row
}

// Table is a table in groups. A plain one is set without rules and heads, as in a book.
type Table struct {
	Columns []Column
	Groups  []Group
	Plain   bool
}

// OffPaper is the table without its columns of page numbers, for what has no pages.
func (t *Table) OffPaper() *Table {
	paged := func(i int) bool { return i < len(t.Columns) && t.Columns[i].Kind == PageColumn }
	if !slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Kind == PageColumn }) {
		return t
	}
	out := &Table{Plain: t.Plain}
	for i, c := range t.Columns {
		if !paged(i) {
			out.Columns = append(out.Columns, c)
		}
	}
	for _, g := range t.Groups {
		rows := make([]Row, len(g.Rows))
		for k, r := range g.Rows {
			rows[k].Strong, rows[k].Spare = r.Strong, r.Spare
			for i, c := range r.Cells {
				if !paged(i) {
					rows[k].Cells = append(rows[k].Cells, c)
				}
			}
		}
		g.Rows = rows
		out.Groups = append(out.Groups, g)
	}
	return out
}

// Take is one thing a step uses, shown beside the step.
type Take struct {
	Amount string // "450 g"; may be empty
	Name   string // "green beans"
	Note   string // "topped"; may be empty
	Link   string // "#prep-herb-oil" when it is made on another sheet
}

// Step is one step of a method. A step is never split over two pages.
type Step struct {
	Number  int
	Clock   string // planned start, "11:35", or "Sat 17:20"; may be empty
	Who     string // the cook; may be empty
	When    string // "meanwhile", "only after a pause", "only if needed"; may be empty
	Takes   []Take
	Look    []string // what is looked up for: heat, times, temperatures: "oven 200 °C, top shelf", "leave 35–40 min"
	Margin  []string // what else the margin says: "in the roasting tin", "mind: it spits"
	Runs    []Run
	Moments []Moment
}

// Moment is something to do during a step.
type Moment struct {
	At     string // "at 30 min", "12:05"
	Runs   []Run
	Margin []string
}

// Steps is a method. Break, between steps, is a pause: a full-width line.
type Steps struct{ Items []StepItem }

// StepItem is a *Step or a *Break.
type StepItem interface{ stepItem() }

// Break is a pause or another line across a method.
type Break struct{ Text string }

// BarKind says what a bar stands for.
type BarKind string

// The kinds of bar of a lane: hands-on, watched, left alone; and of a use: an oven that heats up, what is in use, and what is used to the
// full; of hands, that somebody's are free, and nobody's.
const (
	WorkBar  BarKind = "work"
	WatchBar BarKind = "watch"
	LeaveBar BarKind = "leave"
	HeatBar  BarKind = "heat"
	UseBar   BarKind = "use"
	FullBar  BarKind = "full"
	FreeBar  BarKind = "free"
	BusyBar  BarKind = "busy"
)

// Bar is one bar of a lane or a use. Start and End are minutes after midnight of
// the panel's day.
type Bar struct {
	Start, End int
	Kind       BarKind
	Letter     string // dish mark
	Number     int    // step number; 0 for none
	Label      string // "char the beans", "200 °C"
	Short      string // the same where there is less room: "char"
	Who        string // initials of who does it, two letters or more: "An"
	Goes       bool   // it goes on from the bar before: a later phase of one job
	Row        int    // lane row, from 0, when bars of a lane overlap
}

// Lane is a dish or a base; without a letter, all that belongs to none.
type Lane struct {
	Letter string // the dish's mark
	Base   bool
	Name   string
	Course string // of the menu; of a base, that of the lane below, which draws on it; may be empty
	Rows   int    // at least 1
	Bars   []Bar
}

// Use is what dishes share, through a day: an oven with what it is set to, how
// many rings are in use, whose hands are free. Its bars do not overlap.
type Use struct {
	Name string
	Bars []Bar
}

// Flag is a moment drawn across all lanes: a serving.
type Flag struct {
	At    int
	Label string
}

// Panel is one day of a chart. Where nobody knows the time of serving, Counts is
// set and times are counted from the first serving, which is at Zero.
type Panel struct {
	Title      string // "Sunday 19 September"
	Start, End int    // minutes after midnight; End may pass 24 h
	Lanes      []Lane
	Uses       []Use
	Flags      []Flag
	Counts     bool
	Zero       int
	Changes    []quantity.Change // where the clock is put forward or back, in minutes of the panel
}

// Time writes a moment of the panel: "09:05", or counted, "T−1:30".
func (p *Panel) Time(m int) string {
	if p.Counts {
		m -= p.Zero
	}
	shown := m
	for _, c := range p.Changes {
		if c.At <= m {
			shown += c.By
		}
	}
	return quantity.ClockText(!p.Counts, shown)
}

// Chart is the timeline. Text says the same in words for those who cannot see it.
type Chart struct {
	Panels []Panel
	Text   string
	Note   string // how good the plan is, beside the key of the bars; may be empty
}

// Board is a day as it hangs on the wall: a column for each cook and one for
// what is on the fire, a row for each moment at which somebody begins something.
type Board struct {
	Columns []string
	Cooks   int // how many of the columns, from the left, are those of a cook
	Rows    []BoardRow
	Close   [][]BoardRow // the same in fewer rows, then in fewer words too, for paper that the rows do not go on
}

// BoardRow is a moment: what begins then, by column, or, of a serving, words that
// stand across all columns.
type BoardRow struct {
	At    string // "12:35"
	Bar   string // "First on the table: Cucumber soup"; there are no cells then
	Cells [][]Post
}

// Post is what somebody begins: a few words, and when the hands are free again.
type Post struct {
	At    string // ":40", of a close row: when it begins, where that is later than the row; else empty
	Mark  string // dish and step, "B6", or of a preparation its dishes, "B C"; may be empty
	Words string
	Until string // "12:44"; may be empty
	Looks string // when it is looked at again, "look 13:10, 13:15", or what it goes on to by itself; may be empty
	Link  string // to the dish's sheet
}

// Caution is one caution with who says so.
type Caution struct {
	Text   string
	Source string
}

// Cautions stand together, once a sheet.
type Cautions struct{ Items []Caution }

// List is a plain list; with Tick, each item has a box.
type List struct {
	Tick  bool
	Items [][]Run
}

// Alphabet is the index of a book: what is in it, letter by letter.
type Alphabet struct{ Letters []Letter }

// Letter is the entries that begin with a letter.
type Letter struct {
	Letter  string // "A"; "0–9"
	Entries []Entry
}

// Entry is one entry of an index. At is where it is found, in the order of the book,
// each a run whose Link leads there and whose Page is "#"; a Strong one is the recipe
// itself. Note stands in place of them: "in most recipes".
type Entry struct {
	Name string
	At   []Run
	Note string
}

// Picture is a picture of a dish, upright and without a camera's notes. Data is
// a PNG or JPEG file, no larger than a page needs. A renderer sets it where it
// costs no page, so its place among the blocks is where it is wished for.
type Picture struct {
	Name          string // the file: "dumplings.png"
	Alt           string // what it shows, for who cannot see it
	Words         string // the writer's own, to stand below it; may be empty
	Type          string // "png" or "jpeg"
	Data          []byte
	Width, Height int // in pixels
}

// Masthead is the head of a leaf: what it is a part of, and where that is to be watched.
// The sheet has the title of the part, and who and when among its facts.
type Masthead struct {
	Series  string   // "Table in four evenings"
	Part    string   // "part 3 of 4"
	Watch   string   // the address in letters, "example.org/evenings"; empty: nobody says
	Link    string   // the address
	Code    *Picture // the address as a QR code, with its quiet zone; nil: none
	Picture *Picture // of the series; nil: none
}

func (*Masthead) block() {}
func (*Picture) block()  {}
func (*Heading) block()  {}
func (*Prose) block()    {}
func (*Table) block()    {}
func (*Steps) block()    {}
func (*Chart) block()    {}
func (*Board) block()    {}
func (*Cautions) block() {}
func (*List) block()     {}
func (*Alphabet) block() {}

func (*Step) stepItem()  {}
func (*Break) stepItem() {}
