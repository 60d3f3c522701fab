package draft

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// wide is how long a line of prose is at most.
const wide = 96

// write puts the recipes down, has what their sentences tell added to their lists, and holds
// the whole to the words of the text.
func (d *drafting) write(ctx context.Context, whole string) {
	var kept []*recipe
	var loose []string
	for _, r := range d.recipes {
		if r.title == "" && r.empty() && len(r.fields) == 0 && len(r.about) == 0 {
			loose = append(loose, r.comments...)
			continue
		}
		r.comments = append(loose, r.comments...)
		loose = nil
		if r.empty() && len(r.fields)+len(r.about) == 0 && len(d.recipes) > 1 { // a line that stands alone, as a name below a letter
			loose = append(r.comments, r.title)
			continue
		}
		kept = append(kept, r)
	}
	d.recipes = kept
	if len(kept) == 0 && strings.TrimSpace(whole) != "" {
		d.recipes = []*recipe{{about: []string{}, comments: loose}}
		loose = nil
	}
	d.titles()
	units := d.units(whole)
	for _, r := range d.recipes {
		if units != "" {
			r.fields = append(r.fields, field{"units " + units, d.opt.Units == ""})
		}
		d.mentioned(r)
		d.doubtful(r)
	}
	d.unlisted(ctx)
	text := d.compose()
	if lost := lostWords(whole, text+strings.Join(loose, " ")); len(lost) > 0 {
		loose = append(loose, "Left over: "+strings.Join(lost, " "))
	}
	for _, c := range d.beside {
		loose = append(loose, "Left over: "+c)
	}
	for _, c := range loose {
		text += comment(c, "")
	}
	d.out.Text = d.takenBack(ctx, sound(text))
	for _, r := range d.recipes {
		for _, g := range r.groups {
			d.out.Lines += len(g.lines)
		}
		d.out.Steps += len(r.steps)
	}
	d.out.Asked = strings.Count(d.out.Text, " ?\n") + strings.Count(d.out.Text, " ? |")
}

// titles gives every recipe a name of its own.
func (d *drafting) titles() {
	seen, times := map[string]bool{}, map[string]int{}
	for _, r := range d.recipes {
		raw := headNumber.ReplaceAllString(strings.TrimSpace(r.title), "")
		name := titled(raw)
		s := &sorting{drafting: d, cur: r}
		for _, part := range titleParts.Split(raw, -1)[1:] {
			s.yields(part)
		}
		for _, mark := range []string{" - ", " -- ", " – ", " / "} { // what is behind it says how much
			if at := strings.Index(raw, mark); at > 0 && strings.ContainsAny(raw[at:], "0123456789") {
				name = titled(raw[:at])
			}
		}
		if open := strings.IndexByte(raw, '('); open > 0 {
			if short := titled(raw[:open]); short != "" {
				name = short
			}
		}
		if name == "" {
			name = d.opt.Title
			if name == "" {
				name = "A draft"
			}
			r.comments = append(r.comments, "The text gives no title.")
		}
		for base := name; seen[larder.Fold(name)]; times[larder.Fold(base)]++ {
			name = base + " again" + letters(times[larder.Fold(base)])
		}
		seen[larder.Fold(name)] = true
		if len(lostWords(r.title, name)) > 0 || figures(r.title) != figures(name) {
			r.comments = append(r.comments, r.title)
		}
		r.title = name
	}
}

// letters tell many things of one name apart: nothing for the first, then b, c, … z, ba; a
// figure would be one that the text has not got.
func letters(n int) (out string) {
	for ; n > 0; n /= 26 {
		out = string(rune('a'+n%26)) + out
	}
	if out != "" {
		out = " " + out
	}
	return out
}

// closeMetric is a metric measure that stands close upon its figure.
var closeMetric = lazily(`\d(?:g|kg|ml|cl)\b`)

// shortCup is a cup that is cut short; a capital is a degree.
var shortCup = lazily(`\d ?c(?:\.|\s)`)

// titleParts part what a title is from what else its line says.
var titleParts = lazily(` --? | – | — | / |[(]|,? \bfor\b `)

func figures(s string) (n int) {
	for _, w := range words(s) {
		if isFigure(w) {
			n++
		}
	}
	return n
}

// units are whose cups and pints a text means: as it was asked for, else by the words it
// has; empty: it measures with nothing of the kind.
func (d *drafting) units(text string) string {
	seen := map[string]bool{}
	for _, w := range words(text) {
		seen[w] = true
	}
	any := func(of ...string) bool {
		for _, w := range of {
			if seen[w] {
				return true
			}
		}
		return false
	}
	american := any("cup", "cupful", "stick", "f", "fahrenheit") || shortCup.MatchString(text)
	british := any("pint", "pt", "gill", "gallon", "gal", "dessertspoon", "dessertspoonful", "wineglass", "wineglassful", "teacup", "teacupful", "breakfastcup")
	measured := american || british || any("quart", "qt")
	if d.opt.Units != quantity.NoSystem {
		if measured {
			return string(d.opt.Units)
		}
		return ""
	}
	guess := []quantity.System{quantity.US}
	switch metric := any("gram", "g", "ml", "kg", "litre", "millilitre") || closeMetric.MatchString(text); {
	case british && !american:
		guess = []quantity.System{quantity.Imperial}
	case !measured, !american && !any("quart", "qt", "pint", "pt", "gallon", "gal"):
		return ""
	case metric && american:
		guess = []quantity.System{quantity.Metric, quantity.US}
	case metric:
		guess = []quantity.System{quantity.Metric}
	}
	for _, s := range guess {
		if fits(s, text) {
			return string(s)
		}
	}
	return ""
}

// fits tells whether a system has every unit that a text names.
func fits(s quantity.System, text string) bool {
	all := words(text)
	for i, w := range all {
		w = strings.TrimLeft(w, "0123456789½¼¾⅓⅔⅛")
		for _, name := range []string{w, w + " " + strings.Join(all[i+1:min(i+2, len(all))], "")} { // fl oz
			u, n := quantity.ReadUnit(name, quantity.Options{})
			if n != len(name) || u == nil || !u.Regional {
				continue
			}
			if _, ok := u.Base(s); !ok {
				return false
			}
		}
	}
	return true
}

// compose writes all blocks.
func (d *drafting) compose() string {
	var b strings.Builder
	for i, r := range d.recipes {
		if i > 0 {
			b.WriteByte('\n')
		}
		for _, c := range r.comments {
			b.WriteString(comment(c, ""))
		}
		title := r.title
		if strings.Contains(title, ",") {
			title = `"` + title + `"`
		}
		fmt.Fprintf(&b, "%s %s\n", d.word(r), title)
		for _, f := range r.fields {
			text := f.text
			if f.offered {
				text += " ?"
			}
			if !parses(text) {
				b.WriteString(comment(f.text, "  "))
				continue
			}
			b.WriteString("  " + text + "\n")
		}
		if len(r.about) > 0 {
			b.WriteString("  about\n")
			for k, p := range r.about {
				if k > 0 {
					b.WriteByte('\n')
				}
				b.WriteString(wrapped(p, "    ", "    "))
			}
		}
		r.list(&b)
		r.method(&b)
	}
	return b.String()
}

// word is what a recipe is: a base where another one gathers it and it says how much it
// makes, else a dish.
func (d *drafting) word(r *recipe) string {
	makes := slices.ContainsFunc(r.fields, func(f field) bool { return strings.HasPrefix(f.text, "makes ") })
	for _, o := range d.recipes {
		if o == r || !makes {
			continue
		}
		for _, g := range o.groups {
			for _, l := range g.lines {
				if _, n, _ := quantity.ReadAmount(l, quantity.Options{}); sameThing(strings.TrimSpace(strings.SplitN(l[n:], ",", 2)[0]), r.title) {
					return "base"
				}
			}
		}
	}
	return "dish"
}

func (r *recipe) list(b *strings.Builder) {
	var out strings.Builder
	for _, g := range r.groups {
		in := "    "
		if g.option != "" {
			out.WriteString(in + g.option + " " + g.title + "\n")
			in = "      "
		} else if g.title != "" && len(g.lines) > 0 {
			name := larder.Small(titled(g.title))
			if _, ok := laid("dish X\n  gather\n    for the " + name + "\n      salt\n"); ok {
				out.WriteString("    for the " + name + "\n")
				in = "      "
			} else {
				out.WriteString(comment(g.title, in))
			}
		} else if g.title != "" {
			out.WriteString(comment(g.title, in))
		}
		capitals := 0
		for _, raw := range g.lines {
			if c := nameBegins(raw); unicode.IsUpper(c) {
				capitals++
			}
		}
		for _, raw := range g.lines {
			written := raw
			if capitals*4 >= len(g.lines)*3 && g.option == "" { // so is every line of this list
				raw = smallName(raw)
			}
			lines := gathered(raw)
			if r.percent != "" {
				if out, ok := oneLineOf(", percent of "+r.percent, raw); ok {
					lines = out
				}
			}
			if lines == nil {
				out.WriteString(comment(raw, in))
				continue
			}
			for _, l := range lines {
				out.WriteString(in + l + "\n")
			}
			for _, other := range g.instead[written] {
				out.WriteString(in + "  " + other + "\n")
			}
		}
	}
	if out.Len() == 0 {
		return
	}
	if onlyComments(out.String()) {
		b.WriteString(strings.ReplaceAll("\n"+out.String(), "\n    ", "\n  ")[1:])
		return
	}
	if r.percent != "" {
		b.WriteString("  gather, percent of " + r.percent + "\n" + out.String())
		return
	}
	b.WriteString("  gather\n" + out.String())
}

// nameAfter is where the name begins in a line of a list.
func nameAfter(raw string) int {
	_, n, _ := quantity.ReadAmount(raw, quantity.Options{})
	for n < len(raw) && raw[n] == ' ' {
		n++
	}
	return n
}

func nameBegins(raw string) rune {
	c, _ := utf8.DecodeRuneInString(raw[nameAfter(raw):])
	return c
}

// smallName is a line whose name begins with a small letter, unless it has that capital
// everywhere.
func smallName(raw string) string {
	n := nameAfter(raw)
	name, _, _ := strings.Cut(raw[n:], ",")
	first, _, _ := strings.Cut(name, " ")
	if k, ok := larder.Builtin().Know(name); ok && unicode.IsUpper(rune(k.Item.Name[0])) || first == strings.ToUpper(first) && len(first) > 1 {
		return raw
	}
	return raw[:n] + larder.Small(raw[n:])
}

func onlyComments(s string) bool {
	for l := range strings.Lines(s) {
		if t := strings.TrimSpace(l); t != "" && !strings.HasPrefix(t, "#") {
			return false
		}
	}
	return true
}

func (r *recipe) method(b *strings.Builder) {
	if len(r.steps) == 0 {
		return
	}
	b.WriteString("  method\n")
	for _, s := range r.steps {
		if s.above != "" {
			b.WriteString(comment(s.above, "    "))
		}
		if s.pause {
			b.WriteString("    " + s.text + "\n")
			continue
		}
		b.WriteString(wrapped(sentence(strings.ReplaceAll(s.text, "|", "/")), "    - ", "      "))
		if s.margin != "" {
			b.WriteString("      | " + s.margin + "\n")
		}
		for _, m := range s.moments {
			b.WriteString("      " + m + "\n")
		}
	}
}

// comment writes a text as comment lines.
func comment(text, in string) string {
	return wrapped(text, in+"# ", in+"# ")
}

// wrapped sets a text in lines, first behind first and then behind next. No line begins with
// a word that would mean something there.
func wrapped(text, first, next string) string {
	var b strings.Builder
	line := first
	bare := true
	for w := range strings.FieldsSeq(text) {
		mayBegin := strings.HasSuffix(next, "# ") || !begins[strings.ToLower(w)] && !strings.ContainsAny(w[:1], "#|-–—•*'\"")
		if !bare && len(line)+1+len(w) > wide && mayBegin {
			b.WriteString(line + "\n")
			line, bare = next, true
		}
		if !bare {
			line += " "
		}
		line += w
		bare = false
	}
	return b.String() + strings.TrimRight(line, " ") + "\n"
}

var begins = setOf("at when said pause #")

// sound lays a text out. A line that the notation cannot hold becomes a comment, so that
// what comes out has no error of notation, whatever went in.
func sound(text string) string {
	for range 1 + strings.Count(text, "\n") {
		src := source.New("draft", text)
		out, found := format.Source(src)
		at := -1
		for _, d := range found {
			if d.Severity == diag.Error && d.At.Span.File == src {
				at = d.At.Span.Start
				break
			}
		}
		if at < 0 {
			return out
		}
		start := strings.LastIndexByte(text[:at], '\n') + 1
		end := strings.IndexByte(text[start:], '\n') + start
		if end < start {
			end = len(text)
		}
		line := text[start:end]
		in := line[:len(line)-len(strings.TrimLeft(line, " "))]
		if said, is := strings.CutPrefix(strings.TrimLeft(line, " "), "#"); is && len(line) > 2*longWord {
			text = text[:start] + strings.TrimSuffix(comment(said, in), "\n") + text[end:]
			continue
		} else if is {
			text = text[:start] + text[min(end+1, len(text)):]
			continue
		}
		text = text[:start] + strings.TrimSuffix(comment(line, in), "\n") + text[end:]
	}
	return text
}
