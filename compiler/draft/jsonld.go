package draft

import (
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io"
	"slices"
	"strings"

	"tamis/lang/prose"
	"tamis/lang/quantity"
)

// object is one node of JSON-LD, its keys in the order of the text.
type object struct {
	keys   []string
	values map[string]any
}

// decode reads one value; objects keep the order of their keys.
func decode(dec *json.Decoder, deep int) (any, error) {
	if deep > 60 {
		return nil, errors.New("it is nested too deeply")
	}
	t, err := dec.Token()
	if err != nil {
		return nil, err
	}
	switch t := t.(type) {
	case json.Delim:
		if t == '[' {
			var out []any
			for dec.More() {
				v, err := decode(dec, deep+1)
				if err != nil {
					return nil, err
				}
				out = append(out, v)
			}
			_, err := dec.Token()
			return out, err
		}
		o := &object{values: map[string]any{}}
		for dec.More() {
			k, err := dec.Token()
			if err != nil {
				return nil, err
			}
			key, ok := k.(string)
			if !ok {
				return nil, errors.New("a key is no text")
			}
			v, err := decode(dec, deep+1)
			if err != nil {
				return nil, err
			}
			if _, again := o.values[key]; !again {
				o.keys = append(o.keys, key)
			}
			o.values[key] = v
		}
		_, err := dec.Token()
		return o, err
	}
	return t, nil
}

// recipesIn are the Recipe nodes of a JSON-LD text, wherever in it they stand.
func recipesIn(text string) ([]*object, error) {
	dec := json.NewDecoder(strings.NewReader(text))
	dec.UseNumber()
	var out []*object
	for {
		v, err := decode(dec, 0)
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		if err != nil {
			return out, err
		}
		out = append(out, find(v)...)
	}
}

func find(v any) (out []*object) {
	switch v := v.(type) {
	case []any:
		for _, e := range v {
			out = append(out, find(e)...)
		}
	case *object:
		if v.is("Recipe") {
			return []*object{v}
		}
		for _, k := range v.keys {
			out = append(out, find(v.values[k])...)
		}
	}
	return out
}

// is tells whether a node is of a type of schema.org's, however it is named.
func (o *object) is(name string) bool {
	for _, t := range list(o.get("@type")) {
		s, _ := t.(string)
		if s == name || s == "schema:"+name || s == "https://schema.org/"+name || s == "http://schema.org/"+name {
			return true
		}
	}
	return false
}

// get is a value under a key, with or without schema.org's own prefix.
func (o *object) get(key string) any {
	for _, p := range []string{"", "schema:", "https://schema.org/", "http://schema.org/"} {
		if v, ok := o.values[p+key]; ok {
			return v
		}
	}
	return nil
}

func list(v any) []any {
	switch v := v.(type) {
	case nil:
		return nil
	case []any:
		return v
	case *object:
		if l := v.get("@list"); l != nil {
			return list(l)
		}
	}
	return []any{v}
}

var (
	tags   = lazily(`<[^<>]+>`)
	breaks = lazily(`(?i)</?(?:p|br|li|div|ol|ul|h\d)\b[^<>]*>`)
)

// said is a value as plain text; lines where it had paragraphs.
func said(v any) string {
	switch v := v.(type) {
	case string:
		if strings.Contains(v, "<") {
			v = tags.ReplaceAllString(breaks.ReplaceAllString(v, "\n"), "")
		}
		v = html.UnescapeString(html.UnescapeString(v))
		var lines []string
		for l := range strings.SplitSeq(parted(clean(v)), "\n") {
			if l = strings.Join(strings.Fields(l), " "); l != "" {
				lines = append(lines, l)
			}
		}
		return strings.Join(lines, "\n")
	case json.Number:
		return v.String()
	case bool:
		return fmt.Sprint(v)
	case *object:
		for _, k := range []string{"@value", "name", "text", "url", "@id"} {
			if s := said(v.get(k)); s != "" {
				return s
			}
		}
		if n := said(v.get("value")); n != "" {
			return strings.TrimSpace(n + " " + said(v.get("unitText")))
		}
	case []any:
		var out []string
		for _, e := range v {
			if s := said(e); s != "" {
				out = append(out, s)
			}
		}
		return strings.Join(out, ", ")
	}
	return ""
}

// linked makes a recipe of a schema.org Recipe.
func (d *drafting) linked(o *object) {
	s := &sorting{drafting: d, cur: &recipe{}}
	r := s.cur
	r.title = said(o.get("name"))
	d.spoken.WriteString(r.title + "\n")
	remark := func(key string, v any) {
		if t := strings.ReplaceAll(said(v), "\n", " "); t != "" {
			d.spoken.WriteString(t + "\n")
			r.comments = append(r.comments, key+": "+t)
			return
		}
		for _, e := range list(v) {
			if n, ok := e.(*object); ok {
				for _, k := range n.keys {
					if t := strings.ReplaceAll(said(n.values[k]), "\n", " "); t != "" && !strings.HasPrefix(k, "@") {
						d.spoken.WriteString(t + "\n")
						r.comments = append(r.comments, key+" "+k+": "+t)
					}
				}
			}
		}
	}
	for _, key := range []string{"recipeYield", "yield"} { // before a sentence that says otherwise
		if v := o.get(key); v != nil {
			s.yield(v)
		}
	}
	for _, full := range o.keys {
		v := o.values[full]
		key := full[strings.LastIndexAny(full, ":/")+1:]
		switch key {
		case "recipeYield", "yield":
		case "@type", "@context", "@id", "name":
		case "description":
			for p := range strings.SplitSeq(said(v), "\n") {
				if p != "" {
					d.spoken.WriteString(p + "\n")
					r.about = append(r.about, p)
				}
			}
		case "recipeIngredient", "ingredients", "supply":
			for _, e := range list(v) {
				for t := range strings.SplitSeq(said(e), "\n") {
					if t != "" {
						d.spoken.WriteString(t + "\n")
						s.ingredient(t)
					}
				}
			}
		case "recipeInstructions", "step", "steps":
			s.sec = inMethod
			s.instructions(v)
		case "totalTime":
			if sp, ok := duration(said(v)); ok && parses("takes "+sp.String()) {
				r.field("takes "+sp.String(), false)
			} else {
				remark(key, v)
			}
		case "author", "creator":
			for _, e := range list(v) {
				if t := said(e); t != "" && parses("by "+t) {
					d.spoken.WriteString(t + "\n")
					r.field("by "+t, false)
				} else {
					remark(key, e)
				}
			}
		case "url", "mainEntityOfPage", "isBasedOn":
			if t := said(v); strings.HasPrefix(t, "http") && parses("link "+t) {
				d.spoken.WriteString(t + "\n")
				r.field("link "+t, false)
			} else {
				remark(key, v)
			}
		case "alternateName":
			if t := said(v); t != "" && parses("also called "+t) {
				d.spoken.WriteString(t + "\n")
				r.field("also called "+t, false)
			} else {
				remark(key, v)
			}
		case "tool":
			if t := said(v); t != "" && parses("equipment "+t) {
				d.spoken.WriteString(t + "\n")
				r.field("equipment "+t, false)
			} else {
				remark(key, v)
			}
		case "prepTime", "cookTime", "performTime":
			if sp, ok := duration(said(v)); ok {
				r.comments = append(r.comments, map[string]string{"prepTime": "To prepare: ", "cookTime": "To cook: ", "performTime": "Hands: "}[key]+sp.String())
			} else {
				remark(key, v)
			}
		case "nutrition", "aggregateRating", "video":
			if n, ok := v.(*object); ok {
				for _, k := range n.keys {
					if !strings.HasPrefix(k, "@") {
						remark(key+" "+k, n.values[k])
					}
				}
				break
			}
			remark(key, v)
		default:
			remark(key, v)
		}
	}
	s.close()
}

// duration reads a time as ISO 8601 has it, or as people write it.
func duration(s string) (sp quantity.Span, ok bool) {
	text := s
	if m := iso.FindStringSubmatch(strings.ToUpper(strings.TrimSpace(s))); m != nil {
		text = ""
		for i, unit := range []string{" weeks ", " days ", " h ", " min ", " s "} {
			if m[i+1] != "" && strings.Trim(m[i+1], "0.") != "" {
				text += m[i+1] + unit
			}
		}
	}
	text = strings.TrimSpace(text)
	sp, n, problems := quantity.ReadSpan(text, quantity.Options{})
	if n == 0 || n < len(text) {
		if got := prose.Read(text); len(got.Times) == 1 && got.Times[0].From == 0 && got.Times[0].To == len(text) {
			return got.Times[0].Span, true
		}
	}
	return sp, n > 0 && n == len(text) && len(problems) == 0
}

var iso = lazily(`^P(?:(\d+)W)?(?:(\d+)D)?(?:T(?:(\d+(?:\.\d+)?)H)?(?:(\d+(?:\.\d+)?)M)?(?:(\d+)(?:\.\d+)?S)?)?$`)

// ingredient takes a line of recipeIngredient; one that ends in a colon heads a list.
func (s *sorting) ingredient(t string) {
	if strings.HasSuffix(t, ":") && s.option(strings.TrimSuffix(t, ":")) {
		return
	}
	if strings.HasSuffix(t, ":") && len(strings.Fields(t)) <= 6 {
		bare := strings.TrimSuffix(t, ":")
		if m := forThe.FindStringSubmatch(bare); m != nil {
			bare = m[1]
		}
		s.cur.groups = append(s.cur.groups, group{title: bare})
		s.cur.listed = true
		return
	}
	for _, x := range listItems(t) {
		s.cur.line(x)
	}
}

// option takes the heads of a choice as Tamis writes them, "Either plain", "Or with almonds",
// "In per cent of strong flour", and "Besides", where a part of the list is over.
func (s *sorting) option(head string) bool {
	r := s.cur
	word, label, _ := strings.Cut(head, " ")
	word = strings.ToLower(word)
	of, percent := strings.CutPrefix(head, "In per cent of ")
	switch {
	case percent && len(r.groups) == 0:
		_, ok := laid("dish X\n  gather, percent of " + of + "\n    1 kg salt\n")
		if ok {
			r.percent = of
		}
		return ok
	case word == "besides" && label == "":
		r.groups = append(r.groups, group{})
		return true
	case word == "or" && (len(r.groups) == 0 || r.groups[len(r.groups)-1].option == ""), word != "either" && word != "or":
		return false
	}
	if _, ok := laid("dish X\n  gather\n    either " + label + "\n      salt\n    or other\n      pepper\n"); !ok {
		return false
	}
	r.groups = append(r.groups, group{title: label, option: word})
	r.listed = true
	return true
}

// yield takes recipeYield: of several the fullest, for "4" often stands beside "4 servings".
func (s *sorting) yield(v any) {
	var all []string
	for _, e := range list(v) {
		if t := said(e); t != "" {
			all = append(all, t)
			s.spoken.WriteString(t + "\n")
		}
	}
	slices.SortStableFunc(all, func(a, b string) int { return len(b) - len(a) })
	for i := 0; i < len(all); i++ { // "makes 16 fritters (serves 4)" says two things
		if m := bothYields.FindStringSubmatch(all[i]); m != nil && isYield(m[1]) && isYield(m[2]) {
			all = slices.Replace(all, i, i+1, m[1], m[2])
		}
	}
	for i, t := range all {
		if i > 0 && strings.Contains(all[0], t) {
			continue
		}
		if l, rest := labelled(t); l == theServes || l == theMakes {
			s.fact(l, rest, t)
			continue
		}
		n := serves(t)
		switch {
		case n != "" && !manyThings(t) && parses("serves "+n):
			s.cur.field("serves "+n, n == t) // a bare number may be of anything
		case parses("makes " + t):
			s.cur.field("makes "+t, false)
		default:
			s.cur.comments = append(s.cur.comments, t)
		}
	}
}

// isYield tells whether words say for how many something is, or how much it makes.
func isYield(s string) bool {
	l, _ := labelled(s)
	return l == theServes || l == theMakes || serves(s) != "" || startsAmount(s) && parses("makes "+s)
}

// bothYields is a yield with another in brackets, or behind a stroke.
var bothYields = lazily(`^([^()/;|]+?)\s*(?:\(|;|\||/)\s*([^()/;|]+?)\)?$`)

// instructions takes recipeInstructions in all the forms it has: a text, texts, HowToStep,
// HowToSection, ItemList.
func (s *sorting) instructions(v any) {
	lines := func(text string, one bool) {
		for l := range strings.SplitSeq(said(text), "\n") {
			s.spoken.WriteString(l + "\n")
			if m := counted.FindStringSubmatch(l); m != nil && dotted.MatchString(l) {
				l = m[2]
			}
			s.do(l, one)
		}
	}
	switch v := v.(type) {
	case string:
		lines(v, false)
	case []any:
		for _, e := range v {
			if t, ok := e.(string); ok {
				lines(t, true)
				continue
			}
			s.instructions(e)
		}
	case *object:
		if v.is("HowToStep") || v.is("HowToDirection") || v.is("HowToTip") || v.get("text") != nil && v.get("itemListElement") == nil {
			s.howTo(v)
			return
		}
		if name := said(v.get("name")); name != "" {
			s.headed(name)
		}
		if l := v.get("itemListElement"); l != nil {
			s.instructions(list(l))
		} else if l := v.get("steps"); l != nil {
			s.instructions(list(l))
		}
	}
}

// headed notes the name of a section or a step, below that of the section it begins.
func (s *sorting) headed(name string) {
	s.spoken.WriteString(name + "\n")
	if s.above != "" && s.above != name {
		name = s.above + ": " + name
	}
	s.above = name
}

// howTo is one step. A tip in it that is a margin is one: so Tamis writes its own.
func (s *sorting) howTo(v *object) {
	text := strings.ReplaceAll(said(v.get("text")), "\n", " ")
	name := strings.ReplaceAll(said(v.get("name")), "\n", " ")
	margin := ""
	var moments []string
	var below []any
	for _, e := range list(v.get("itemListElement")) {
		o, ok := e.(*object)
		if !ok {
			below = append(below, e)
			continue
		}
		if t := said(o.get("text")); o.is("HowToTip") && margin == "" && isMargin(t) {
			margin = strings.ReplaceAll(t, "; ", " | ")
			s.spoken.WriteString(t + "\n")
			continue
		}
		if text != "" && said(o.get("text")) == text {
			continue // said twice
		}
		if t := said(o.get("text")); o.is("HowToDirection") && margin != "" && isMoment(t) {
			moments = append(moments, t)
			s.spoken.WriteString(t + "\n")
			continue
		}
		below = append(below, e)
	}
	if text == "" && len(below) == 0 {
		text = name
	}
	if v.is("HowToTip") {
		if s.ownTip(text) {
			behind := text[strings.Index(text, ": ")+1:] // the name stands in the list already
			s.spoken.WriteString(behind + "\n")
			return
		}
		s.spoken.WriteString(text + "\n")
		if n := len(s.cur.steps); n > 0 {
			s.cur.steps[n-1].text += " " + text
		} else {
			s.cur.about = append(s.cur.about, text)
		}
		return
	}
	if text != "" {
		if name != "" && !strings.HasPrefix(text, strings.TrimRight(name, ".… ")) && name != text {
			s.headed(name)
		}
		s.spoken.WriteString(text + "\n")
		if margin != "" {
			s.cur.prose = append(s.cur.prose, text)
			s.cur.steps = append(s.cur.steps, step{text: text, margin: margin, above: s.above, moments: moments})
			s.above = ""
		} else {
			s.do(text, true)
		}
	}
	s.instructions(below)
}

// ownTip takes a tip that Tamis wrote: a pause, or the margin of a gathered line, "leeks: work
// 8 min".
func (s *sorting) ownTip(text string) bool {
	r := s.cur
	if strings.HasPrefix(text, "pause ") {
		if _, ok := laid("dish X\n  method\n    - Do.\n    " + text + "\n    - Do.\n"); ok {
			r.steps = append(r.steps, step{text: text, pause: true})
			return true
		}
	}
	if word, _, _ := strings.Cut(text, " "); (word == "serve" || word == "keeps") && parses(text) {
		r.field(text, false)
		return true
	}
	name, margin, found := strings.Cut(text, ": ")
	if strings.HasPrefix(margin, "instead ") {
		return s.standsIn(name, margin)
	}
	margin = strings.ReplaceAll(margin, "; ", " | ")
	if _, ok := laid("dish X\n  gather\n    1 g salt | " + margin + "\n"); !found || !ok {
		return false
	}
	for gi := range r.groups {
		for i, l := range r.groups[gi].lines {
			whole := l[nameAfter(l):]
			if (strings.HasPrefix(whole, name) || strings.HasPrefix(unsized(whole), name)) && !strings.Contains(l, "|") {
				r.groups[gi].lines[i] = l + " | " + margin
				if in := r.groups[gi].instead; in != nil {
					in[l+" | "+margin] = in[l]
				}
				return true
			}
		}
	}
	return false
}

// standsIn takes what may stand in for a gathered line: "instead 700 ml chicken stock".
func (s *sorting) standsIn(name, instead string) bool {
	if _, ok := laid("dish X\n  gather\n    1 g salt\n      " + instead + "\n"); !ok {
		return false
	}
	for gi := range s.cur.groups {
		g := &s.cur.groups[gi]
		for _, l := range g.lines {
			if whole := l[nameAfter(l):]; strings.HasPrefix(whole, name) || strings.HasPrefix(unsized(whole), name) {
				if g.instead == nil {
					g.instead = map[string][]string{}
				}
				g.instead[l] = append(g.instead[l], instead)
				return true
			}
		}
	}
	return false
}

// unsized is a name without the word of a size before it.
func unsized(name string) string {
	if size, rest, found := strings.Cut(name, " "); found && quantity.IsSize(size) {
		return rest
	}
	return name
}

// isMoment tells whether a text is what is done while a step lasts, as the notation has it.
func isMoment(t string) bool {
	if t == "" || strings.ContainsAny(t, "|\n") {
		return false
	}
	out, ok := laid("dish X\n  method\n    - Do.\n      | leave 5 h\n      " + t + "\n")
	return ok && strings.Count(out, "\n") == 5
}

// isMargin tells whether a text is clauses of a margin, parted by semicolons.
func isMargin(t string) bool {
	if t == "" || strings.ContainsAny(t, "|\n") {
		return false
	}
	_, ok := laid("dish X\n  method\n    - Do.\n      | " + strings.ReplaceAll(t, "; ", " | ") + "\n")
	return ok
}
