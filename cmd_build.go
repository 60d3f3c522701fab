package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/render/calendar"
	"tamis/render/data"
	"tamis/render/fonts"
	"tamis/render/html"
	"tamis/render/jsonld"
	"tamis/render/markdown"
	"tamis/render/page"
	"tamis/render/pdf"
	"tamis/render/shopcsv"
	"tamis/render/text"
)

// writers are the formats build can write. Each gets the whole document.
var writers = map[string]func(context.Context, *written, *sheets.Document, buildOptions) error{
	"pdf": func(ctx context.Context, w *written, d *sheets.Document, o buildOptions) error {
		book, err := page.LayContext(ctx, d, o.page())
		if err != nil {
			return err
		}
		w.missing = book.Missing
		if !o.booklet && !strings.EqualFold(o.paper, page.A3.Name) {
			w.leaves = severalLeaves(d, book)
		}
		w.over = overLeaf(d, book, o)
		if book.Folded.W > 0 {
			w.folded = len(page.Sides(len(book.Pages))) / 2
		}
		return pdf.DrawContext(ctx, w, book)
	},
	"html": func(_ context.Context, w *written, d *sheets.Document, _ buildOptions) error { return html.Write(w, d) },
	"json": func(_ context.Context, w *written, d *sheets.Document, _ buildOptions) error { return data.Write(w, d) },
	"text": func(_ context.Context, w *written, d *sheets.Document, _ buildOptions) error {
		return text.Write(w, d, text.Options{})
	},
	"jsonld": func(_ context.Context, w *written, d *sheets.Document, _ buildOptions) error {
		return jsonld.Write(w, d)
	},
	"markdown": func(_ context.Context, w *written, d *sheets.Document, _ buildOptions) error {
		return markdown.Write(w, d)
	},
	"csv": func(_ context.Context, w *written, d *sheets.Document, _ buildOptions) error {
		return shopcsv.Write(w, d)
	},
	"ics": func(_ context.Context, w *written, d *sheets.Document, _ buildOptions) error {
		all, err := calendar.Of(d)
		for _, c := range all {
			w.parts = append(w.parts, output{c.Cook, []byte(c.Text)})
		}
		return err
	},
}

// severalLeaves are the titles of the wall sheets that take more than one page.
func severalLeaves(d *sheets.Document, book *page.Book) (titles []string) {
	for i, s := range d.Sheets {
		n := 0
		for _, p := range book.Pages {
			if p.Sheet == i {
				n++
			}
		}
		if s.Kind == sheets.Wall && n > 1 {
			titles = append(titles, s.Title)
		}
	}
	return titles
}

// overLeaf is how many pages the leaf of a part has, if that is more than one sheet of paper; else 0.
func overLeaf(d *sheets.Document, book *page.Book, o buildOptions) int {
	if len(d.Sheets) != 1 || d.Sheets[0].Kind != sheets.Leaf || o.page().Paper.Card || len(book.Pages) <= page.LeafPages(book.Pages[0].W) {
		return 0
	}
	return len(book.Pages)
}

// written is a document in one format, and what is to be said of it.
type written struct {
	bytes.Buffer
	missing []rune   // the characters that are not on paper
	folded  int      // how many sheets of paper a booklet has; 0: it is none
	over    int      // how many pages the leaf of a part has that goes on no one sheet; 0: it does
	leaves  []string // the wall sheets that a larger paper could have on one page
	parts   []output // where a format has several files: each by what its name ends in
}

var endings = map[string]string{"pdf": ".pdf", "html": ".html", "json": ".json", "text": ".txt", "jsonld": ".jsonld", "markdown": ".md", "csv": ".csv", "ics": ".ics"}

type buildOptions struct {
	out     string
	to      []string
	paper   string
	sheets  []string
	charge  string
	large   bool
	ink     string
	fonts   []string
	faces   fonts.Set
	booklet bool
}

func (o buildOptions) page() pdf.Options {
	paper, _ := page.PaperNamed(o.paper)
	return pdf.Options{Paper: paper, Large: o.large, Light: o.ink == "light", Fonts: o.faces, Booklet: o.booklet}
}

// check looks at the options before anything is read.
func (o buildOptions) check() error {
	for _, f := range o.to {
		if writers[f] == nil {
			var names []string
			for n := range writers {
				names = append(names, n)
			}
			slices.Sort(names)
			help := "it can be " + strings.Join(names, ", ")
			if near := diag.Nearest(f, names); near != "" {
				help = fmt.Sprintf("did you mean %s?", near)
			}
			return fmt.Errorf("there is no format %q: %s", f, help)
		}
	}
	paper, ok := page.PaperNamed(o.paper)
	if !ok {
		return fmt.Errorf("there is no paper %q: it can be %s", o.paper, paperNames())
	}
	if paper.Card && o.large {
		return fmt.Errorf("large type does not go on a card of %s inches: take a4, letter or a5", paper.Name)
	}
	if _, ok := paper.Half(); o.booklet && !ok {
		return fmt.Errorf("a booklet is folded from a4 or letter, not from %s: --paper is the paper in the printer", paper.Name)
	}
	if o.ink != "full" && o.ink != "light" {
		return fmt.Errorf("there is no ink %q: it can be full or light", o.ink)
	}
	return nil
}

func (a *app) build() *cobra.Command {
	var o buildOptions
	var size sizes
	cmd := &cobra.Command{
		Use:   "build PATH",
		Short: "Print the sheets",
		Long: `Build reads a folder, or one file, and writes its sheets. For each menu, what a
kitchen cooks from: a wall sheet for each day, the timeline as a chart, mise-en-place
list, shopping list, and a prep sheet for every dish and base. With --sheets office what
is planned and kept on file: the meal at a glance, run sheet, countdown, oven, pots and
tools, allergens, temperatures, labels, costs; with --sheets "cook Ana" what one cook does.
A folder without a menu gives a notebook: a card for every recipe. One with a
book gives the book: title page, contents, chapters and index, as PDF and as a
folder of pages with a search; on cards a box with dividers. A series
gives a leaf for each part, one sheet of paper for those who watch it, and the whole:
its parts, the shopping by day, the countdown, the last day. With --sheets crew what
those need who show it: the filming days with running order, copies and swaps.

--to jsonld, ics, csv and markdown are for other programs: every recipe at its
written size as a schema.org Recipe, which ` + "`tamis draft`" + ` reads back; the plan as a
calendar for each cook, with an alarm at the beginning of everything; the shopping
list as a table; the sheets as Markdown. spec/document.schema.json is the shape of
the JSON.

Nothing is written while the text has errors, and no file is left half
written. The same text always gives the same bytes. Sheets are stamped with a sum of
the text, or, where the folder lies as git has it, with the commit and its day.`,
		Example: `  tamis build examples/harvest-lunch
  tamis build examples/harvest-lunch -o print --to pdf
  tamis build examples/harvest-lunch --covers 20 --paper letter
  tamis build examples/family-notebook --paper a5
  tamis build examples/evening-class --sheets leaf,series
  tamis build examples/family-notebook --paper 6x4 --to pdf
  tamis build examples/family-notebook --booklet --to pdf
  tamis build examples/harvest-lunch --fit "lamb shoulder 3.2 kg" --have "onions 1 kg"`,
		Args: onePath,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.check(); err != nil {
				return err
			}
			opt, err := size.options()
			if err != nil {
				return err
			}
			if opt.Sheets, opt.Cook, err = kinds(o.sheets); err != nil {
				return err
			}
			if paper, ok := page.PaperNamed(o.paper); ok {
				opt.Card = paper.Card
			}
			var left string
			if opt.Sheets, left, err = o.fitting(opt.Sheets); err != nil {
				return err
			}
			if o.faces, err = readFonts(o.fonts, args[0]); err != nil {
				return err
			}
			if opt.Charge, err = charge(o.charge); err != nil {
				return err
			}
			if o.out != "-" {
				if err := recoverFolder(cmd.Context(), o.out); err != nil {
					return err
				}
			}
			opt.Revision = func(tree *load.Tree, pictures []string) string {
				return committed(cmd.Context(), filepath.FromSlash(tree.Root), pictures)
			}
			r, err := a.read(cmd.Context(), args[0], opt)
			if err != nil {
				return err
			}
			size.unused(r)
			a.report(r.Diags, diag.Question)
			if a.code != exitClean {
				fmt.Fprintln(a.errOut, "nothing was written: mend the errors first")
				return nil
			}
			if len(r.Documents) == 0 && slices.ContainsFunc(opt.Sheets, func(k sheets.Kind) bool { return slices.Contains(sheets.SeriesKinds(), k) }) {
				return fmt.Errorf("%q holds no series, so there is no leaf and no crew's paper to print", args[0])
			}
			if len(r.Documents) == 0 && slices.Equal(opt.Sheets, []sheets.Kind{sheets.Book}) {
				return fmt.Errorf("%q holds no book: write a `book` with the names of its chapters", args[0])
			}
			if len(r.Documents) == 0 {
				return fmt.Errorf("%q holds no menu, dish or base, so there is nothing to print", args[0])
			}
			if opt.Cook != "" && !r.Cooks(opt.Cook) {
				return fmt.Errorf("--sheets: no plan here has work for a cook called %q", opt.Cook)
			}
			if left != "" && slices.Contains(o.to, "pdf") {
				fmt.Fprintln(a.errOut, left)
			}
			missing, err := a.write(cmd.Context(), r, o)
			if err != nil {
				return err
			}
			slices.Sort(missing)
			letters := &diag.List{}
			missingLetters(r.Tree, slices.Compact(missing), letters)
			a.report(letters, diag.Question)
			return nil
		},
	}
	cmd.Flags().StringVarP(&o.out, "out", "o", "sheets", "`DIR` to write to; it is made if it is not there; - is standard output, for one file")
	cmd.Flags().StringSliceVar(&o.sheets, "sheets", nil, "`SHEETS` to print, or a pack of them: "+strings.Join(kindNames(), ", ")+"; the kitchen's if not said")
	cmd.Flags().StringSliceVar(&o.to, "to", []string{"pdf", "html"}, "`FORMATS`: pdf, html, json, text, markdown, jsonld (recipes), csv (shopping list), ics (a calendar a cook)")
	cmd.Flags().StringVar(&o.charge, "charge", "", "`PRICE` a cover is charged: the cost card then says the food cost in per cent")
	cmd.Flags().BoolVar(&o.large, "large", false, "large type in the PDF, 16 points and up")
	cmd.Flags().StringVar(&o.paper, "paper", "a4", "`PAPER` of the PDF: "+paperNames()+"; on a3 is what hangs, all else then on a4; the last two are cards in inches, for recipes")
	cmd.Flags().StringArrayVar(&o.fonts, "font", nil, "font `FILE` for letters that the type of the PDF lacks; may be said again; FILE#2 is the second of a collection")
	cmd.Flags().BoolVar(&o.booklet, "booklet", false, "pages of half the paper, a4 or letter, two by two in the order for folding and stapling")
	cmd.Flags().StringVar(&o.ink, "ink", "full", "`INK` of the PDF: full, or light for thin rules and open bars")
	size.flags(cmd)
	return cmd
}

// charge reads an amount of money without its currency: "24.50".
func charge(text string) (quantity.Number, error) {
	if text == "" {
		return quantity.Number{}, nil
	}
	n, read, problems := quantity.ReadNumber(text, quantity.Options{})
	if len(problems) > 0 || read != len(text) || n.Sign() <= 0 {
		return n, fmt.Errorf("--charge %q is no price: write a number such as 24.50", text)
	}
	if most := quantity.Int(1_000_000); most.Less(n) {
		return n, fmt.Errorf("--charge %q: no cover costs more than 1000000", text)
	}
	return n, nil
}

func paperNames() string {
	var names []string
	for _, p := range page.Papers() {
		names = append(names, p.Name)
	}
	return strings.Join(names, ", ")
}

// spaced puts characters side by side.
func spaced(chars []rune) string {
	parts := make([]string, len(chars))
	for i, c := range chars {
		parts[i] = string(c)
	}
	return strings.Join(parts, " ")
}

// kinds reads the names of sheets and packs; cook is whose paper alone was asked
// for, with "cook Ana".
func kinds(names []string) (out []sheets.Kind, cook string, err error) {
	for _, n := range names {
		n = strings.Join(strings.Fields(n), " ")
		low := strings.ToLower(n)
		pack := slices.IndexFunc(sheets.Packs(), func(p sheets.Pack) bool { return p.Name == low })
		switch {
		case pack >= 0 && low == "kitchen" && len(names) == 1:
			return nil, "", nil // what is printed when nothing is said
		case pack >= 0:
			out = append(out, sheets.Packs()[pack].Kinds...)
		case slices.Contains(sheets.Kinds(), sheets.Kind(low)):
			out = append(out, sheets.Kind(low))
		case strings.HasPrefix(low, "cook "):
			if len(names) > 1 {
				return nil, "", fmt.Errorf("--sheets: %q is a pack of its own: print the others by another build", n)
			}
			cook = n[len("cook "):]
			out = append(out, sheets.ByCook, sheets.Prep)
		default:
			help := "it can be " + strings.Join(kindNames(), ", ")
			if near := diag.Nearest(low, kindNames()); near != "" {
				help = fmt.Sprintf("did you mean %s?", near)
			}
			return nil, "", fmt.Errorf("there is no sheet %q: %s", n, help)
		}
	}
	return out, cook, nil
}

// ofOneCook is the pack that is called by who cooks.
const ofOneCook = "cook NAME"

// kindNames lists the packs, then the sheets.
func kindNames() (out []string) {
	for _, p := range sheets.Packs() {
		out = append(out, p.Name)
	}
	out = append(out, ofOneCook)
	for _, k := range sheets.Kinds() {
		out = append(out, string(k))
	}
	return out
}

// lack is what a document has nothing for: a calendar without a date, a table without a list.
type lack struct {
	format string
	err    error
}

// write renders everything first and puts files in place only when all of it
// has worked. It returns the characters that are not on paper, in no order.
func (a *app) write(ctx context.Context, r *compiler.Result, o buildOptions) (missing []rune, err error) {
	var files []output
	name := fileNames()
	bases := make([]string, len(r.Documents))
	var lacking []lack
	had := map[string]bool{}
	for n, d := range r.Documents {
		bases[n] = name(cmp.Or(d.File, d.Title))
	}
	for _, d := range r.Documents {
		for k := range d.Folder {
			for n, o := range r.Documents {
				if o.File == d.Folder[k].File {
					d.Folder[k].Name = bases[n]
				}
			}
		}
	}
	for n, d := range r.Documents {
		base := bases[n]
		what := "setting the pages"
		if len(r.Documents) > 1 {
			what = fmt.Sprintf("setting the pages of document %d of %d", n+1, len(r.Documents))
		}
		for i, format := range o.to {
			if slices.Contains(o.to[:i], format) {
				continue // said twice
			}
			if format == "html" && d.Bound && o.out != "-" {
				pages, err := shown(ctx, a.progress, what, func() ([]html.File, error) { return html.Book(d), nil })
				if err != nil {
					return nil, err
				}
				for _, p := range pages {
					files = append(files, output{filepath.Join(base, p.Name), p.Data})
				}
				continue
			}
			w, err := shown(ctx, a.progress, what, func() (*written, error) {
				w := &written{}
				return w, writers[format](ctx, w, d, o)
			})
			if err != nil {
				err = fmt.Errorf("%s as %s: %w", d.Title, format, err)
				if errors.Is(err, calendar.ErrNoDate) || errors.Is(err, shopcsv.ErrNoList) || errors.Is(err, jsonld.ErrNoRecipe) {
					lacking = append(lacking, lack{format, err}) // another document may have it
					continue
				}
				return nil, err
			}
			had[format] = true
			missing = append(missing, w.missing...)
			for _, title := range w.leaves {
				fmt.Fprintf(a.errOut, "%s: the wall sheet of %s takes more than one leaf of %s; --paper a3 has larger ones\n", d.Title, title, strings.ToLower(o.paper))
			}
			if w.over > 0 {
				cure := "show less in the part, or say less in what it shows"
				if o.large {
					cure = "without --large its letters are as small as it wants"
				}
				fmt.Fprintf(a.errOut, "%s: its leaf takes %d pages, which is more than one sheet of paper; %s\n", d.Title, w.over, cure)
			}
			if w.folded > 0 {
				fmt.Fprintln(a.errOut, howToFold(d.Title, w.folded, strings.ToLower(o.paper)))
			}
			if w.parts == nil {
				files = append(files, output{base + endings[format], w.Bytes()})
			}
			for _, part := range w.parts {
				files = append(files, output{name(d.Title+" "+part.name) + endings[format], part.data})
			}
		}
	}
	for _, l := range lacking {
		if !had[l.format] {
			return nil, l.err
		}
	}
	if o.out == "-" {
		if len(files) != 1 {
			return nil, fmt.Errorf("%d files cannot all go to standard output: name one format, such as `--to text`, and a folder or file that gives one document", len(files))
		}
		if o.to[0] == "pdf" && a.onTerminal() {
			return nil, fmt.Errorf("a PDF is not for a terminal: name a folder with -o, or send it to a file with >")
		}
		_, err := a.exact.Write(files[0].data)
		return missing, err
	}
	if err := writeTogether(ctx, o.out, files); err != nil {
		return nil, err
	}
	for _, f := range files {
		if in := filepath.Dir(f.name); in == "." || filepath.Base(f.name) == "index.html" { // a folder by its first page
			fmt.Fprintln(a.out, filepath.Join(o.out, f.name))
		}
	}
	return missing, nil
}
