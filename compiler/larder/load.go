package larder

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"

	"tamis/lang/quantity"
)

// Load reads a larder from a folder of data files; see data/README.md for their
// columns. The error names file and line of everything that is wrong.
func Load(files fs.FS) (*Table, error) {
	l := loader{files: files, named: make(map[string]*Item, 2048), read: map[string]quantity.Number{}, t: &Table{
		byFold: make(map[string]*Item, 4096), several: map[string]*Item{}, sources: map[string]*Source{}, flags: map[Flag]*FlagInfo{},
		groups: map[string][]*Group{}, substances: map[string]*substance{}, states: map[string]bool{}, spellings: map[string]string{},
		plain: map[string]bool{}, leave: map[string]bool{}, change: map[string]bool{}, quiet: map[string]bool{},
	}}
	l.each("sources.csv", "key,title", l.source)
	l.each("counters.csv", "counter", func(r row) { l.t.counters = append(l.t.counters, r.text("counter")) })
	l.each("words.csv", "list,word", l.word)
	l.each("flags.csv", "flag,group,meaning,implies,source", l.flag)
	l.each("groups.csv", "practice,number,name,source,ref,verified,note", l.group)
	l.each("substances.csv", "name,other,outside Europe,EU/UK,US,CA,AU", l.substance)
	shelves, err := fs.Glob(files, "ingredients/*.csv")
	l.fail(err)
	for _, file := range shelves {
		counter := strings.ReplaceAll(strings.TrimSuffix(path.Base(file), ".csv"), "-", " ")
		l.each(file, "name,plural,other,cupboard,flags,contains,source,allergens from,verified,in sentences", func(r row) { l.item(counter, r) })
	}
	for _, index := range l.plurals {
		index()
	}
	l.each("density.csv", "name,form,usual,grams,measure,source,ref,verified,note", l.density)
	l.each("pieces.csv", "name,part,size,practice,usual,grams,basis,source,ref,verified,note", l.piece)
	l.each("yields.csv", "name,state,practice,usual,percent,source,ref,verified,note", l.yield)
	l.each("packs.csv", "name,uk,us,source", l.packs)
	l.each("classes.csv", "class,names,source", l.class)
	l.each("gives.csv", "name,per,amount,unit,gives,source,ref,verified,note", l.gives)
	l.each("keeping.csv", "what,names,days,source,ref,verified,note", l.keeping)
	if len(l.errs) > 0 {
		return nil, errors.Join(l.errs...)
	}
	l.t.givers = map[string][]*Item{}
	for _, it := range l.t.items {
		for _, g := range it.Gives {
			if all := l.t.givers[g.Name]; len(all) == 0 || all[len(all)-1] != it {
				l.t.givers[g.Name] = append(all, it)
			}
		}
	}
	l.unaccented()
	l.t.leads = map[string]bool{}
	for key := range l.t.byFold {
		if lead := Lead(key); lead != "" {
			l.t.leads[lead] = true
		}
	}
	return l.t, nil
}

// unaccented lets a name with accents be written without them, where that is no other
// name and not that of two things.
func (l *loader) unaccented() {
	bare := map[string]*Item{}
	for key, it := range l.t.byFold {
		plain := plainLetters(key)
		if plain == key || l.t.byFold[plain] != nil {
			continue
		}
		if other := bare[plain]; other != nil && other != it {
			it = &Item{} // of two things
		}
		bare[plain] = it
	}
	for plain, it := range bare {
		if it.Name != "" {
			l.t.byFold[plain] = it
			l.t.quiet[plain] = l.t.quiet[Fold(it.Name)]
		}
	}
}

type loader struct {
	files fs.FS
	t     *Table
	named map[string]*Item           // by main name, as written
	read  map[string]quantity.Number // decimals read already: the same few come again and again
	errs  []error

	plurals []func() // to be entered when all names are
}

func (l *loader) fail(err error) {
	if err != nil {
		l.errs = append(l.errs, err)
	}
}

// row is one line of a file.
type row struct {
	l      *loader
	file   string
	line   int
	names  []string
	fields []string
}

func (r row) fail(format string, args ...any) {
	r.l.fail(fmt.Errorf("%s:%d: %s", r.file, r.line, fmt.Sprintf(format, args...)))
}

func (l *loader) each(file, header string, read func(row)) {
	f, err := l.files.Open(file)
	if err != nil {
		l.fail(err)
		return
	}
	defer f.Close()
	rows := csv.NewReader(f)
	rows.ReuseRecord = true
	names, err := rows.Read()
	if err != nil || strings.Join(names, ",") != header {
		l.fail(fmt.Errorf("%s:1: the header must be %s", file, header))
		return
	}
	r := row{l: l, file: file, names: strings.Split(header, ",")}
	for {
		if r.fields, err = rows.Read(); err != nil {
			break
		}
		r.line, _ = rows.FieldPos(0)
		for i, f := range r.fields {
			if f != strings.TrimSpace(f) {
				r.fail("blanks around %q", r.fields[i])
			}
		}
		read(r)
	}
	if !errors.Is(err, io.EOF) {
		l.fail(fmt.Errorf("%s: %w", file, err))
	}
}

func (r row) text(column string) string {
	return r.fields[slices.Index(r.names, column)]
}

// must is text that may not be empty.
func (r row) must(column string) string {
	s := r.text(column)
	if s == "" {
		r.fail("%s is empty", column)
	}
	return s
}

// list is text cut at " / "; empty text is an empty list.
func (r row) list(column string) []string {
	s := r.text(column)
	if s == "" {
		return nil
	}
	return strings.Split(s, " / ")
}

func (r row) yes(column, word string) bool {
	switch r.text(column) {
	case word:
		return true
	case "":
		return false
	}
	r.fail("%s must be %q or empty", column, word)
	return false
}

// number reads a positive decimal or fraction: 29.4, 1/4.
func (r row) number(text string) quantity.Number {
	if n, ok := r.l.read[text]; ok {
		return n
	}
	top, bottom, fraction := strings.Cut(text, "/")
	a, ok := decimal(top)
	if fraction && ok {
		var b quantity.Number
		if b, ok = decimal(bottom); ok {
			a = a.Div(b)
		}
	}
	if !ok {
		r.fail("%q is not a positive number", text)
		return quantity.Int(1)
	}
	r.l.read[text] = a
	return a
}

func decimal(s string) (quantity.Number, bool) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v <= 0 || len(s) > 20 || strings.Trim(s, "0123456789.") != "" {
		return quantity.Number{}, false
	}
	return quantity.Decimal(s), true
}

func (r row) source() *Source {
	if s := r.l.t.sources[r.must("source")]; s != nil {
		return s
	}
	r.fail("%q is not in sources.csv", r.text("source"))
	return &Source{}
}

// fact reads source, ref, verified and note around a value.
func fact[T any](r row, value T) Fact[T] {
	f := Fact[T]{Value: value, Source: r.source(), Ref: r.text("ref"), Note: r.text("note")}
	switch r.must("verified") {
	case "seen in source":
	case "from memory":
		f.FromMemory = true
	default:
		r.fail("verified must be %q or %q", "seen in source", "from memory")
	}
	return f
}
