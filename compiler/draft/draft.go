// Package draft makes a first draft in the notation of a text that is not in it: a letter, a
// page of an old book, Markdown, a schema.org Recipe. What is certain is written; what is
// read from sentences has a "?", and what could not be placed stays as the writer's words
// (`said`), as `about` or as a comment. No word is lost, and no figure is made up: a time
// that is only guessed, a sum or a converted measure is never written.
//
// Read this file first. The way of a text: input.go says what it is; plain.go, markdown.go,
// page.go, microdata.go and jsonld.go cut it into pieces or read what is marked already; sort.go makes
// recipes of pieces; list.go writes what is gathered, steps.go what is done, mentions.go
// finds what only sentences tell, and write.go puts it down and holds it to the words of the
// text. Amounts are read by lang/parse, times and heats by lang/prose, and what is used and
// not gathered by resolve: there is no second reader here.
package draft

import (
	"context"
	"strings"

	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// Options are what a caller knows of the text.
type Options struct {
	Title string          // of a text that has none
	Units quantity.System // whose cups and pints; empty: guessed, with a `?`
}

// Result is a draft.
type Result struct {
	Text  string
	Kind  Kind     // what the text was taken for
	Told  []string // what is to be said of it, in whole sentences
	Lines int      // gathered lines
	Steps int
	Asked int // clauses and fields with a `?`
}

// Make drafts a text. name is its file's, by whose ending it may be known. What is no text,
// or has nothing in it, is an error.
func Make(ctx context.Context, name, text string, opt Options) (*Result, error) {
	text, code, err := decoded(text)
	if err != nil {
		return nil, err
	}
	text = clean(text)
	if strings.TrimSpace(text) == "" {
		return nil, ErrNothing
	}
	out := &Result{Kind: kindOf(name, text)}
	if opt.Title == "" {
		opt.Title = titleOf(name)
	}
	if out.Kind == Prose || out.Kind == Markdown {
		text = parted(text)
	}
	d := &drafting{opt: opt, out: out}
	if code != "" {
		d.tell("Letters of it are not UTF-8 and were read as "+code+": see that accents and fractions are right.", nil)
	}
	whole := text // the words that must stand in the draft
	switch out.Kind {
	case JSONLD:
		all, err := recipesIn(text)
		if len(all) == 0 {
			out.Kind = Prose
			d.tell("It holds no schema.org Recipe and is read as prose.", err)
			d.sort(plain(text))
			break
		}
		for _, n := range all {
			d.linked(n)
		}
		whole = d.spoken.String()
	case HTML:
		page := readPage(text)
		for _, script := range page.scripts {
			all, err := recipesIn(script)
			if err != nil {
				d.tell("A part of the page that is marked as JSON-LD cannot be read.", err)
			}
			for _, n := range all {
				d.linked(n)
			}
		}
		if len(d.recipes) == 0 {
			for _, n := range page.items {
				d.linked(n)
			}
		}
		whole = d.spoken.String()
		if len(d.recipes) == 0 {
			for i := range page.pieces {
				page.pieces[i].text = parted(page.pieces[i].text)
			}
			d.sort(page.pieces)
			whole = wordsOf(page.pieces)
			d.beside = page.beside
		} else {
			d.tell("Its schema.org Recipe was read; what else stands on the page was not.", nil)
		}
	case Markdown:
		d.sort(markdown(text))
	default:
		d.sort(plain(text))
	}
	d.write(ctx, whole)
	return out, nil
}

// drafting is the making of one draft.
type drafting struct {
	opt     Options
	out     *Result
	recipes []*recipe
	beside  []string        // of a page: what is not read, and stands at the end
	spoken  strings.Builder // of marked data: every value that was read
}

func (d *drafting) tell(said string, err error) {
	if err != nil {
		said += " (" + diag.Visible(err.Error()) + ")"
	}
	d.out.Told = append(d.out.Told, said)
}

// recipe is one recipe as far as it is understood.
type recipe struct {
	title    string
	fields   []field
	comments []string
	about    []string
	percent  string // of what the list is in per cent: "strong flour, rye flour"
	groups   []group
	steps    []step
	prose    []string // every sentence that may name a thing, in order
	listed   bool     // it has a list of its own
}

// field is a field of the block: "serves 6", "makes 24 rolls".
type field struct {
	text    string
	offered bool
}

// group is a list or a sub-list; for names the latter.
type group struct {
	title   string
	option  string              // of a choice: "either", "or"; title is its label
	lines   []string            // as they were written
	instead map[string][]string // by line, what may stand in for it: "instead 700 ml chicken stock"
}

// step is one step: its prose, its margin, what stands above it.
type step struct {
	text, margin string
	above        string // a heading of a part of the method
	moments      []string
	pause        bool // it is no step: text is a pause
}

func (r *recipe) empty() bool {
	return len(r.groups) == 0 && len(r.steps) == 0 && len(r.prose) == 0
}

func (r *recipe) field(text string, offered bool) {
	word, _, _ := strings.Cut(text, " ")
	for _, f := range r.fields {
		if w, _, _ := strings.Cut(f.text, " "); w == word && !repeats[word] {
			r.comments = append(r.comments, text)
			return
		}
	}
	r.fields = append(r.fields, field{text, offered})
}

// repeats are fields that may stand more than once.
var repeats = map[string]bool{"by": true, "link": true}

func (r *recipe) line(text string) {
	if len(r.groups) == 0 {
		r.groups = append(r.groups, group{})
	}
	g := &r.groups[len(r.groups)-1]
	g.lines = append(g.lines, text)
	r.listed = true
}
