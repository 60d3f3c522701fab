// Package data writes a document as JSON with steady names, whose shape is published in
// spec/document.schema.json: every block is an
// object whose "kind" says what it is. Numbers place bars; all else is text as
// it is printed.
package data

import (
	"encoding/json"
	"fmt"
	"io"

	"tamis/compiler/sheets"
	"tamis/render/runes"
)

// Format is the version of the shape; it changes when a reader would break.
const Format = 1

// Write writes doc as JSON, indented, keys in a fixed order. It fails only
// when w does.
func Write(w io.Writer, doc *sheets.Document) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(document(doc)); err != nil {
		return fmt.Errorf("json: %w", err)
	}
	return nil
}

type jDocument struct {
	Format   int       `json:"format"`
	Title    string    `json:"title"`
	Covers   string    `json:"covers,omitempty"`
	When     string    `json:"when,omitempty"`
	Place    string    `json:"place,omitempty"`
	Zone     string    `json:"zone,omitempty"`
	By       string    `json:"by,omitempty"`
	Language string    `json:"language,omitempty"`
	Revision string    `json:"revision,omitempty"`
	For      string    `json:"for,omitempty"`
	Bound    bool      `json:"bound,omitempty"` // a book
	Dishes   []jMark   `json:"dishes"`
	Sheets   []jSheet  `json:"sheets"`
	Figures  []jFigure `json:"figures,omitempty"`
	Events   []jEvent  `json:"events,omitempty"`
}

type jFigure struct {
	Of      string   `json:"of"`
	Sheet   string   `json:"sheet,omitempty"`
	Recipe  string   `json:"recipe,omitempty"`
	Thing   string   `json:"thing"`
	Exact   string   `json:"exact"`
	High    string   `json:"high,omitempty"`
	Unit    string   `json:"unit,omitempty"`
	Printed string   `json:"printed"`
	Source  string   `json:"source,omitempty"`
	How     []string `json:"how,omitempty"`
}

type jMark struct {
	Letter string `json:"letter"`
	Name   string `json:"name"`
	Base   bool   `json:"base"`
}

type jSheet struct {
	ID       string   `json:"id"`
	Kind     string   `json:"kind"`
	Title    string   `json:"title"`
	Letter   string   `json:"letter,omitempty"`
	Facts    []string `json:"facts,omitempty"`
	Wide     bool     `json:"wide,omitempty"`
	Contents bool     `json:"contents,omitempty"`
	Chapter  string   `json:"chapter,omitempty"`
	Filed    string   `json:"filed,omitempty"` // where its card is filed
	Blocks   []any    `json:"blocks"`
}

type jRun struct {
	Text  string `json:"text"`
	Style string `json:"style,omitempty"`
	Link  string `json:"link,omitempty"`
}

type jHeading struct {
	Kind string `json:"kind"`
	Text string `json:"text"`
	Note string `json:"note,omitempty"`
}

type jProse struct {
	Kind  string  `json:"kind"`
	Small bool    `json:"small,omitempty"`
	Spare bool    `json:"spare,omitempty"` // may be left out on paper
	Paras []jPara `json:"paragraphs"`
}

// jAlphabet is the index of a book.
type jAlphabet struct {
	Kind    string    `json:"kind"`
	Letters []jLetter `json:"letters"`
}

type jLetter struct {
	Letter  string   `json:"letter"`
	Entries []jEntry `json:"entries"`
}

type jEntry struct {
	Name string `json:"name"`
	At   []jRun `json:"at"`
	Note string `json:"note,omitempty"`
}

type jPara struct {
	Kind   string `json:"kind"`
	Number int    `json:"number,omitempty"`
	Runs   []jRun `json:"runs"`
}

type jTable struct {
	Kind    string    `json:"kind"`
	Columns []jColumn `json:"columns"`
	Groups  []jGroup  `json:"groups"`
}

type jColumn struct {
	Title  string `json:"title"`
	Kind   string `json:"kind"`
	Weight int    `json:"weight"`
}

type jGroup struct {
	Title string `json:"title,omitempty"`
	Note  string `json:"note,omitempty"`
	Rows  []jRow `json:"rows"`
}

type jRow struct {
	Strong bool    `json:"strong,omitempty"`
	Spare  bool    `json:"spare,omitempty"` // may be left out on paper
	Cells  []jCell `json:"cells"`
}

type jCell struct {
	Runs []jRun `json:"runs"`
	Sub  []jRun `json:"sub,omitempty"`
}

// jPicture names a picture; the pixels stay with the file.
type jPicture struct {
	Kind   string `json:"kind"`
	Name   string `json:"name"`
	Alt    string `json:"alt"`
	Words  string `json:"words,omitempty"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
}

type jSteps struct {
	Kind  string `json:"kind"`
	Items []any  `json:"items"`
}

type jStep struct {
	Kind    string    `json:"kind"`
	Number  int       `json:"number"`
	Clock   string    `json:"clock,omitempty"`
	Who     string    `json:"who,omitempty"`
	Takes   []jTake   `json:"takes,omitempty"`
	When    string    `json:"when,omitempty"`
	Look    []string  `json:"look,omitempty"`
	Margin  []string  `json:"margin,omitempty"`
	Runs    []jRun    `json:"runs"`
	Moments []jMoment `json:"moments,omitempty"`
}

type jTake struct {
	Amount string `json:"amount,omitempty"`
	Name   string `json:"name"`
	Note   string `json:"note,omitempty"`
	Link   string `json:"link,omitempty"`
}

type jMoment struct {
	At     string   `json:"at,omitempty"`
	Runs   []jRun   `json:"runs"`
	Margin []string `json:"margin,omitempty"`
}

type jBreak struct {
	Kind string `json:"kind"`
	Text string `json:"text"`
}

type jChart struct {
	Kind   string   `json:"kind"`
	Text   string   `json:"text"`
	Note   string   `json:"note,omitempty"`
	Panels []jPanel `json:"panels"`
}

type jPanel struct {
	Title string  `json:"title"`
	Start int     `json:"start"` // minutes after midnight of the day
	End   int     `json:"end"`
	Lanes []jLane `json:"lanes"`
	Uses  []jUse  `json:"uses"`
	Flags []jFlag `json:"flags"`
	// Zero is the minute of the first serving where times count from it.
	Zero *int `json:"countsFrom,omitempty"`
}

// jUse is what dishes share: an oven, the rings, the hands.
type jUse struct {
	Name string `json:"name"`
	Bars []jBar `json:"bars"`
}

type jLane struct {
	Letter string `json:"letter,omitempty"`
	Name   string `json:"name"`
	Rows   int    `json:"rows"`
	Bars   []jBar `json:"bars"`
}

type jBar struct {
	Kind   string `json:"kind"`
	Start  int    `json:"start"`
	End    int    `json:"end"`
	Letter string `json:"letter,omitempty"`
	Number int    `json:"number,omitempty"`
	Label  string `json:"label,omitempty"`
	Who    string `json:"who,omitempty"`
	Row    int    `json:"row"`
}

type jFlag struct {
	At    int    `json:"at"`
	Label string `json:"label"`
}

type jBoard struct {
	Kind    string      `json:"kind"`
	Columns []string    `json:"columns"`
	Rows    []jBoardRow `json:"rows"`
}

type jBoardRow struct {
	At    string    `json:"at"`
	Bar   string    `json:"bar,omitempty"`
	Cells [][]jPost `json:"cells,omitempty"`
}

type jPost struct {
	Mark  string `json:"mark,omitempty"`
	Words string `json:"words"`
	Until string `json:"until,omitempty"`
	Looks string `json:"looks,omitempty"`
	Link  string `json:"link,omitempty"`
}

type jCautions struct {
	Kind  string     `json:"kind"`
	Items []jCaution `json:"items"`
}

type jCaution struct {
	Text   string `json:"text"`
	Source string `json:"source,omitempty"`
}

type jMasthead struct {
	Kind    string    `json:"kind"`
	Series  string    `json:"series"`
	Part    string    `json:"part"`
	Watch   string    `json:"watch,omitempty"`
	Link    string    `json:"link,omitempty"`
	Picture *jPicture `json:"picture,omitempty"`
}

type jList struct {
	Kind  string   `json:"kind"`
	Tick  bool     `json:"tick"`
	Items [][]jRun `json:"items"`
}

// each turns a list into another, never nil, so that JSON has [] and not null.
func each[A, B any](list []A, f func(A) B) []B {
	out := make([]B, 0, len(list))
	for _, x := range list {
		out = append(out, f(x))
	}
	return out
}

func clean(s string) string { return runes.Clean(s) }

func document(d *sheets.Document) jDocument {
	return jDocument{
		Format: Format, Title: clean(d.Title), Covers: clean(d.Covers), When: clean(d.When), Place: clean(d.Place), Zone: clean(d.Zone),
		By: clean(d.By), For: clean(d.For), Bound: d.Bound, Language: clean(d.Language), Revision: clean(d.Revision),
		Dishes: each(d.Dishes, func(m sheets.Mark) jMark { return jMark{clean(m.Letter), clean(m.Name), m.Base} }),
		Sheets: each(d.Sheets, sheet), Figures: each(d.Figures, figure),
		Events: each(d.Events, event),
	}
}

func figure(f sheets.Figure) jFigure {
	return jFigure{
		Of: f.Of, Sheet: clean(f.Sheet), Recipe: clean(f.Recipe), Thing: clean(f.Thing), Exact: f.Exact, High: f.High, Unit: clean(f.Unit),
		Printed: clean(f.Printed), Source: clean(f.Source), How: each(f.How, clean),
	}
}

func sheet(s sheets.Sheet) jSheet {
	return jSheet{
		ID: clean(s.ID), Kind: clean(string(s.Kind)), Title: clean(s.Title), Letter: clean(s.Letter), Facts: each(s.Facts, clean),
		Wide: s.Wide, Contents: s.Contents, Chapter: clean(s.Chapter), Filed: clean(s.Filed), Blocks: each(s.Blocks, block),
	}
}

func block(b sheets.Block) any {
	switch b := b.(type) {
	case *sheets.Heading:
		return jHeading{"heading", clean(b.Text), clean(b.Note)}
	case *sheets.Prose:
		return jProse{"prose", b.Small, b.Spare, each(b.Paras, func(p sheets.Para) jPara { return jPara{paraKind(p.Kind), p.Number, runsOf(p.Runs)} })}
	case *sheets.Table:
		b = b.OffPaper() // data has no pages
		return jTable{"table", each(b.Columns, func(c sheets.Column) jColumn {
			return jColumn{clean(c.Title), columnKind(c.Kind), c.Weight}
		}), each(b.Groups, group)}
	case *sheets.Steps:
		return jSteps{"steps", each(b.Items, item)}
	case *sheets.Chart:
		return jChart{"chart", clean(b.Text), clean(b.Note), each(b.Panels, panel)}
	case *sheets.Board:
		return jBoard{"board", each(b.Columns, clean), each(b.Rows, boardRow)}
	case *sheets.Cautions:
		return jCautions{"cautions", each(b.Items, func(c sheets.Caution) jCaution { return jCaution{clean(c.Text), clean(c.Source)} })}
	case *sheets.List:
		return jList{"list", b.Tick, each(b.Items, runsOf)}
	case *sheets.Alphabet:
		return jAlphabet{"alphabet", each(b.Letters, func(l sheets.Letter) jLetter {
			return jLetter{clean(l.Letter), each(l.Entries, func(e sheets.Entry) jEntry { return jEntry{clean(e.Name), runsOf(e.At), clean(e.Note)} })}
		})}
	case *sheets.Masthead:
		out := jMasthead{Kind: "masthead", Series: clean(b.Series), Part: clean(b.Part), Watch: clean(b.Watch), Link: clean(b.Link)}
		if q := b.Picture; q != nil {
			out.Picture = &jPicture{"picture", clean(q.Name), clean(q.Alt), clean(q.Words), q.Width, q.Height}
		}
		return out
	case *sheets.Picture:
		return jPicture{"picture", clean(b.Name), clean(b.Alt), clean(b.Words), b.Width, b.Height}
	}
	return nil
}

func boardRow(r sheets.BoardRow) jBoardRow {
	out := jBoardRow{At: clean(r.At), Bar: clean(r.Bar)}
	if r.Bar == "" {
		out.Cells = each(r.Cells, func(c []sheets.Post) []jPost {
			return each(c, func(p sheets.Post) jPost {
				return jPost{clean(p.Mark), clean(p.Words), clean(p.Until), clean(p.Looks), clean(p.Link)}
			})
		})
	}
	return out
}

func runsOf(list []sheets.Run) []jRun {
	return each(list, func(r sheets.Run) jRun { return jRun{clean(r.Text), style(r.Style), clean(r.Link)} })
}

func style(s sheets.Style) string {
	switch s {
	case sheets.Strong:
		return "strong"
	case sheets.Emph:
		return "emphasis"
	case sheets.Amount:
		return "amount"
	case sheets.Thing:
		return "thing"
	case sheets.Quiet:
		return "quiet"
	}
	return ""
}

func paraKind(k sheets.ParaKind) string {
	switch k {
	case sheets.Item:
		return "item"
	case sheets.Numbered:
		return "numbered"
	case sheets.Subhead:
		return "subhead"
	case sheets.Quote:
		return "quote"
	}
	return "paragraph"
}

func columnKind(k sheets.ColumnKind) string {
	switch k {
	case sheets.TickColumn:
		return "tick"
	case sheets.MarkColumn:
		return "mark"
	case sheets.AmountColumn:
		return "amount"
	case sheets.ClockColumn:
		return "clock"
	case sheets.PencilColumn:
		return "pencil"
	}
	return "text"
}

func group(g sheets.Group) jGroup {
	return jGroup{clean(g.Title), clean(g.Note), each(g.Rows, func(r sheets.Row) jRow {
		return jRow{r.Strong, r.Spare, each(r.Cells, func(c sheets.Cell) jCell { return jCell{runsOf(c.Runs), runsOf(c.Sub)} })}
	})}
}

func item(i sheets.StepItem) any {
	switch s := i.(type) {
	case *sheets.Step:
		return jStep{
			Kind: "step", Number: s.Number, Clock: clean(s.Clock), Who: clean(s.Who), When: clean(s.When),
			Takes: each(s.Takes, func(t sheets.Take) jTake {
				return jTake{clean(t.Amount), clean(t.Name), clean(t.Note), clean(t.Link)}
			}),
			Look: each(s.Look, clean), Runs: runsOf(s.Runs), Margin: each(s.Margin, clean),
			Moments: each(s.Moments, func(m sheets.Moment) jMoment {
				return jMoment{clean(m.At), runsOf(m.Runs), each(m.Margin, clean)}
			}),
		}
	case *sheets.Break:
		return jBreak{"break", clean(s.Text)}
	}
	return nil
}

func bar(b sheets.Bar) jBar {
	return jBar{clean(string(b.Kind)), b.Start, b.End, clean(b.Letter), b.Number, clean(b.Label), clean(b.Who), b.Row}
}

func panel(p sheets.Panel) jPanel {
	var zero *int
	if p.Counts {
		zero = &p.Zero
	}
	return jPanel{
		clean(p.Title), p.Start, p.End,
		each(p.Lanes, func(l sheets.Lane) jLane {
			return jLane{clean(l.Letter), clean(l.Name), max(l.Rows, 1), each(l.Bars, bar)}
		}),
		each(p.Uses, func(u sheets.Use) jUse { return jUse{clean(u.Name), each(u.Bars, bar)} }),
		each(p.Flags, func(f sheets.Flag) jFlag { return jFlag{f.At, clean(f.Label)} }), zero,
	}
}
