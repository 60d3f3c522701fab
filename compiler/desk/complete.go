package desk

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/quantity"
)

// The kinds of completions, of LSP.
const (
	isWord     = 14 // keyword
	isUnit     = 11
	isThing    = 6 // variable
	isRecipe   = 7 // class
	isValue    = 12
	isSnippet  = 2 // the format of an insertion with places to fill in
	mostOffers = 200
)

// offers gathers what may be written at a place.
type offers struct {
	sh       *sheet
	offset   int
	snippets bool
	met      map[string]bool
	list     []completionItem
	more     bool // than is listed, for what has been written so far
}

// completion is what may be written at a place: words of the notation where one can
// stand, names where a name can, units behind a number.
func (s *server) completion(raw json.RawMessage) (any, error) {
	sh, offset, err := s.asked(raw)
	if err != nil {
		return nil, err
	}
	o := &offers{sh: sh, offset: offset, met: map[string]bool{}, snippets: s.caps.Capabilities.TextDocument.Completion.Item.Snippets, list: []completionItem{}}
	o.fill()
	more := o.more || len(o.list) > mostOffers
	return completionList{more, o.list[:min(len(o.list), mostOffers)]}, nil
}

// number is what stands before a unit that is being written.
var number = regexp.MustCompile(`(^|[ |(])[0-9½⅓⅔¼¾./⁄]+ ?([A-Za-z]*)$`)

// nameIn is the name that is being written in a gathered line, behind its amount and size.
func nameIn(line string) string {
	_, n, _ := quantity.ReadAmount(line+"x", quantity.Options{}) // an amount has a name behind it
	name := strings.TrimLeft(line[min(n, len(line)):], " \t")
	if n > 0 {
		name = strings.TrimPrefix(name, "of ")
	}
	if size, rest, found := strings.Cut(name, " "); found && n > 0 && quantity.IsSize(size) {
		return strings.TrimLeft(rest, " \t")
	}
	return name
}

func (o *offers) fill() {
	line := o.sh.before(o.offset)
	trimmed := strings.TrimLeft(line, " \t")
	place, ok := parse.PlaceAt(o.sh.text, o.offset)
	last := trimmed
	if i := strings.LastIndexAny(trimmed, "|,"); i >= 0 {
		last = strings.TrimLeft(trimmed[i+1:], " ")
	}
	inMargin := strings.Contains(line, "|")
	word, rest := o.key(place, last, trimmed)
	switch {
	case strings.HasPrefix(trimmed, "# "):
		return
	case word != nil && o.argument(word.Text, rest, place), o.toward(trimmed):
		return
	}
	if ok {
		o.words(place, last)
	}
	switch {
	case place == parse.InGather && !inMargin:
		if m := number.FindStringSubmatch(line); m != nil {
			o.units(m[2])
		}
		o.gathered(nameIn(trimmed))
	case (place == parse.InCourse || place == parse.InChapter) && !strings.Contains(trimmed, ","):
		o.recipes(trimmed)
	case place == parse.OnServing:
		o.options(trimmed, last)
	case inMargin, word != nil:
		if m := number.FindStringSubmatch(line); m != nil {
			o.figured(word, m[2])
		}
	default:
		if r := o.recipe(); r != nil && (place == parse.InMethod || place == parse.OnStep || o.sh.stepAt(o.offset) != nil || strings.HasPrefix(trimmed, "- ")) {
			o.names(r, trimmed[strings.LastIndexAny(trimmed, " -.,;(")+1:]) // by the word being written
		}
	}
}

// key is the word of the notation that the clause or line being written begins with,
// and what has been written behind it.
func (o *offers) key(place parse.Place, last, line string) (word *parse.Word, rest string) {
	for _, text := range []string{last, line} {
		for _, p := range []parse.Place{place, parse.OnStep, parse.OnLine, parse.InMenu, parse.InKitchen, parse.InRecipe, parse.InPart} {
			if w, n := parse.LookUp(p, text); w != nil && n < len(text) && text[n] == ' ' && (text != line || p == place || place == 0) {
				return w, strings.TrimLeft(text[n:], " ")
			}
		}
	}
	return nil, ""
}

// figured offers what may follow a number behind a word of the notation, as its form has it:
// lengths of time behind `leave 10 min`, units behind `makes 200 g`, degrees behind `oven
// 200 C`.
func (o *offers) figured(word *parse.Word, typed string) {
	form := ""
	if word != nil {
		form = strings.TrimPrefix(word.Form, word.Text+" ")
	}
	if _, n, _ := quantity.ReadTemperature(form, quantity.Options{}); n > 0 {
		for _, u := range []string{"C", "F"} {
			o.add(typed, u, isUnit, "degrees", "")
		}
		return
	}
	_, span, _ := quantity.ReadSpan(form, quantity.Options{})
	if span > 0 || form == "" {
		o.times(typed)
	}
	if _, n, _ := quantity.ReadAmount(form, quantity.Options{}); span == 0 && n > 0 || form == "" {
		o.units(typed)
	}
}

// towards is the thing that a time or a task of a menu is told from: "30 min after First".
var towards = regexp.MustCompile(`[ ,](?:before|after) ([^,|]*)$`)

// toward offers the courses and dishes of a menu behind "before" and "after".
func (o *offers) toward(line string) bool {
	m := towards.FindStringSubmatch(line)
	if m == nil {
		return false
	}
	before := len(o.list)
	for _, menu := range o.sh.result.Model.Menus {
		if menu.NameAt.File != o.sh.text || o.block() != o.sh.text.Position(menu.NameAt.Start).Line {
			continue
		}
		for _, c := range menu.Courses {
			o.add(m[1], c.Name, isThing, "course", "")
		}
		for _, c := range menu.Courses {
			for _, s := range c.Servings {
				o.add(m[1], s.Name, isRecipe, "on this menu", "")
			}
		}
	}
	return len(o.list) > before
}

// block is the line at which the block begins that a place stands in; 0: none does.
func (o *offers) block() (line int) {
	for _, b := range o.sh.file.Blocks() {
		if b.Span.Start <= o.offset {
			line = o.sh.text.Position(b.Span.Start).Line
		}
	}
	return line
}

// argument offers what follows a word; false where nothing is known of it.
func (o *offers) argument(key, rest string, place parse.Place) bool {
	scope := o.sh.result.Model.ScopeOf(o.sh.file.Dir)
	r := o.recipe()
	if i := strings.LastIndex(rest, ","); i >= 0 {
		rest = strings.TrimLeft(rest[i+1:], " ")
	}
	before := len(o.list)
	switch key {
	case "at":
		for s := scope; s != nil; s = s.Parent {
			for _, k := range sortedKitchens(s) {
				o.add(rest, k.Name, isRecipe, "kitchen", "")
			}
		}
	case "as", "shows", "goes with":
		o.recipes(rest)
	case "tool", "in", "by", "oven":
		o.kitchen(scope, key, rest)
	case "uses", "after":
		if r != nil {
			o.names(r, rest)
		}
	case "ring", "rings", "grill":
		for _, l := range []string{"high", "medium", "low", "medium to high", "low to medium"} {
			o.add(rest, l, isValue, "heat", "")
		}
	case "keeps", "stand", "thaw", "pause":
		for _, l := range []string{"fridge", "freezer", "room", "cool place", "warm place"} {
			o.add(rest, l, isValue, "place", "")
		}
	case "serve":
		for _, l := range []string{"hot", "warm", "cold", "at room temperature"} {
			o.add(rest, l, isValue, "how it is served", "")
		}
	case "units":
		for _, l := range quantity.Systems() {
			o.add(rest, string(l), isValue, "units", "")
		}
	}
	return len(o.list) > before
}

// kitchen offers what the kitchens of the folder have.
func (o *offers) kitchen(scope *resolve.Scope, key, rest string) {
	for s := scope; s != nil; s = s.Parent {
		for _, k := range sortedKitchens(s) {
			switch key {
			case "tool":
				for _, t := range k.Tools {
					o.add(rest, t.Name, isThing, "tool of "+k.Name, "")
				}
			case "in":
				for _, v := range k.Vessels {
					o.add(rest, v.Name, isThing, "vessel of "+k.Name, "")
				}
			case "by":
				for _, c := range k.Cooks {
					o.add(rest, c, isThing, "cook of "+k.Name, "")
				}
			case "oven":
				if strings.HasPrefix(strings.ToLower(rest), "in ") {
					for _, v := range k.Ovens {
						o.add(rest[3:], v.Name, isThing, "oven of "+k.Name, "")
					}
				}
			}
		}
	}
}

func sortedKitchens(s *resolve.Scope) (out []*resolve.Kitchen) {
	for _, k := range s.Kitchens {
		out = append(out, k)
	}
	slices.SortFunc(out, func(a, b *resolve.Kitchen) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// recipe is the block a place stands in; nil outside of dishes and bases.
func (o *offers) recipe() (in *resolve.Recipe) {
	for _, r := range o.sh.result.Model.Recipes {
		if r.Span.File == o.sh.text && r.Span.Start <= o.offset && (in == nil || r.Span.Start > in.Span.Start) {
			in = r
		}
	}
	for _, b := range o.sh.file.Blocks() {
		if in != nil && b.Span.Start > in.Span.Start && b.Span.Start <= o.offset {
			return nil
		}
	}
	return in
}

// words are those of the notation that may begin a line or a clause here.
func (o *offers) words(place parse.Place, typed string) {
	for i, w := range parse.WordsIn(place) {
		item := o.add(typed, w.Text, isWord, w.Form, diag.Sentence(w.Help))
		if item == nil {
			continue
		}
		item.SortText = fmt.Sprintf("1%03d", i)
		tail, ok := strings.CutPrefix(w.Form, w.Text+" ")
		if ok && o.snippets && place != parse.AtBlock {
			item.Format, item.Edit.NewText = isSnippet, w.Text+" ${1:"+strings.NewReplacer(`\`, `\\`, "$", `\$`, "}", `\}`).Replace(tail)+"}"
		} else if ok {
			item.Edit.NewText = w.Text + " "
		}
	}
}

// gathered offers what may be gathered: bases and by-products of the folder first, then
// what the larder knows.
func (o *offers) gathered(typed string) {
	for _, r := range o.sh.result.Model.Recipes {
		if r != o.recipe() && o.inScope(r.Scope) {
			if r.Base {
				o.add(typed, larder.Small(r.Name), isRecipe, "base", "")
			}
			for _, p := range r.Products {
				if p.Quantity != nil {
					o.add(typed, p.Name, isThing, "made in "+r.Name, "")
				}
			}
		}
	}
	if len(typed) < 2 {
		o.more = true // the larder is asked when there is something to ask by
		return
	}
	o.known(typed)
}

// known offers what other recipes of the folder gather, then what the larder has: what begins
// as was typed first, and several only of what is counted.
func (o *offers) known(typed string) {
	low := strings.ToLower(typed)
	for _, r := range o.sh.result.Model.Recipes {
		for _, l := range r.Lines {
			if l.From == nil && l.Product == nil && r != o.recipe() && strings.HasPrefix(l.Key, low) && o.inScope(r.Scope) {
				o.add(typed, l.Name, isThing, "gathered in "+r.Name, "")
			}
		}
	}
	for _, begins := range []bool{true, false} {
		for _, it := range larder.Builtin().Items() {
			if strings.HasPrefix(strings.ToLower(it.Name), low) != begins {
				continue
			}
			o.add(typed, it.Name, isThing, "larder", "")
			if it.Plural != it.Name {
				o.add(typed, it.Plural, isThing, "larder", "")
			}
		}
	}
}

// inScope tells whether a recipe's folder is that of the text, or one it stands in.
func (o *offers) inScope(of *resolve.Scope) bool {
	for s := o.sh.result.Model.ScopeOf(o.sh.file.Dir); s != nil; s = s.Parent {
		if s == of {
			return true
		}
	}
	return false
}

// recipes offers the dishes and bases of the folder, and of those it stands in by
// name; others by their path.
func (o *offers) recipes(typed string) {
	for _, r := range o.sh.result.Model.Recipes {
		name, kind := r.Name, "dish"
		if r.Base {
			kind = "base"
		}
		if !o.inScope(r.Scope) {
			name = r.Scope.Dir + "/" + r.Name
		}
		if strings.ContainsAny(name, ",|():+") {
			name = `"` + name + `"`
		}
		o.add(typed, name, isRecipe, kind, "")
	}
}

// options offers the labels of the choices of the dish that a line of a course names, behind
// a comma.
func (o *offers) options(line, typed string) {
	name, _, _ := strings.Cut(line, ",")
	if rest, ok := strings.CutPrefix(name, `"`); ok {
		name = strings.TrimSuffix(rest, `"`)
	}
	for _, r := range o.sh.result.Model.Recipes {
		if !o.inScope(r.Scope) || !strings.EqualFold(r.Name, strings.TrimSpace(name)) {
			continue
		}
		for _, c := range r.Choices {
			for _, op := range c.Options {
				o.add(typed, op.Label, isValue, "option of "+r.Name, "")
			}
		}
	}
}

// names are those of what a recipe gathers and makes.
func (o *offers) names(r *resolve.Recipe, typed string) {
	for _, l := range r.Lines {
		name := strings.TrimSpace(l.Name[strings.LastIndexByte(l.Name, '/')+1:])
		if name == "" {
			continue // "sauces/": it is being written
		}
		detail := strings.TrimSpace(l.AmountText + " gathered")
		o.add(typed, name, isThing, detail, "")
		if many := larder.PluralName(name); many != name && l.Quantity != nil && l.Quantity.Dim == quantity.None {
			o.add(typed, many, isThing, detail, "")
		}
		words := strings.Fields(name)
		if one := larder.Singular(words[len(words)-1]); one != words[len(words)-1] {
			o.add(typed, strings.Join(append(slices.Clone(words[:len(words)-1]), one), " "), isThing, detail, "")
		}
	}
	for _, p := range r.Products {
		o.add(typed, p.Name, isThing, "made in this method", "")
	}
}

// units are those an amount may have.
func (o *offers) units(typed string) {
	for _, u := range quantity.Units() {
		o.add(typed, u.Name, isUnit, "unit", "")
	}
}

// times are those a length of time may have.
func (o *offers) times(typed string) {
	for _, u := range []string{"min", "h", "s", "days", "weeks"} {
		o.add(typed, u, isUnit, "time", "")
	}
}

// begun is how many bytes before the place begin a name already, whole words of it: of
// "the brown but" for "brown butter" nine; as many as were typed where no more do.
func (o *offers) begun(low string, typed int) int {
	line := strings.ToLower(o.sh.before(o.offset))
	if len(line) != len(o.sh.before(o.offset)) {
		return typed // a letter that changes its length
	}
	for n := min(len(low), len(line)); n > typed; n-- {
		at := len(line) - n
		if (at == 0 || strings.IndexByte(" \t-(|,.;", line[at-1]) >= 0) && line[at] != ' ' && strings.HasPrefix(low, line[at:]) {
			return n
		}
	}
	return typed
}

// add offers a text for what was typed, if it begins so in any case, or one of its
// words does; nil where it does not.
func (o *offers) add(typed, text string, kind int, detail, help string) *completionItem {
	low, want := strings.ToLower(text), strings.ToLower(typed)
	if text == "" || o.met[text] || diag.Visible(text) != text || !strings.HasPrefix(low, want) && !strings.Contains(low, " "+want) {
		return nil
	}
	o.met[text] = true
	r := rangeOf(o.sh.text.Span(o.offset-o.begun(low, len(typed)), o.offset))
	o.list = append(o.list, completionItem{
		Label: text, Kind: kind, Detail: diag.Visible(detail), Documentation: help, FilterText: text,
		SortText: fmt.Sprintf("2%03d", min(999, len(o.list))), Edit: &textEdit{r, text},
	})
	return &o.list[len(o.list)-1]
}
