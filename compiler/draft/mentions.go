package draft

import (
	"context"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/prose"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// mention is an amount of something that a sentence tells.
type mention struct {
	amount  quantity.Amount
	written string // the amount as the sentence has it
	name    string
	again   bool // "of the": of what was gathered
	behind  bool // it stands behind its name, and is what that weighs
}

// mentioned adds to the list of a recipe what its sentences measure and no list has. What
// is measured twice is a sum, as it was said.
func (d *drafting) mentioned(r *recipe) {
	var found []mention
	for _, text := range r.prose {
		for _, s := range sentences(text) {
			found = append(found, mentions(s)...)
		}
	}
	own := ""
	for _, g := range r.groups {
		own += "\n" + strings.Join(g.lines, "\n")
	}
	type line struct {
		name    string
		amounts []mention
	}
	var lines []*line
	for _, m := range found {
		if hasName(own, m.name) {
			if !m.again && !bare(m.amount) {
				r.measure(m)
			}
			continue
		}
		if m.again && (bare(m.amount) || r.listed) || bare(m.amount) && ofTheTap(m.name) {
			continue
		}
		var at *line
		for _, l := range lines {
			if sameThing(l.name, m.name) {
				at = l
			}
		}
		switch {
		case at == nil:
			lines = append(lines, &line{name: m.name, amounts: []mention{m}})
		case m.again:
		case m.behind && len(at.amounts) == 1 && bare(at.amounts[0].amount): // a shoulder of lamb, about 2 kg
			if one := at.amounts[0].amount.String(); one == "1" {
				at.amounts[0] = m
			}
		default:
			if len(m.name) > len(at.name) {
				at.name = m.name
			}
			at.amounts = append(at.amounts, m)
		}
	}
	if len(lines) == 0 {
		return
	}
	g := group{}
	for _, l := range lines {
		sum := l.amounts[0].written
		var more []string // what cannot be added to it
		for _, m := range l.amounts[1:] {
			with := sum + " plus " + m.amount.String()
			if sum == l.amounts[0].written {
				with = l.amounts[0].amount.String() + " plus " + m.amount.String()
			}
			if out, ok := oneLine(with + " " + l.name); ok && len(out) == 1 && m.amount.String() != l.amounts[0].amount.String() {
				sum = with
			} else if m.amount.String() != l.amounts[0].amount.String() {
				more = append(more, m.written+" "+m.name)
			}
		}
		g.lines = append(append(g.lines, sum+" "+l.name), more...)
	}
	if r.listed {
		r.groups = append(r.groups, g)
	} else {
		r.groups = []group{g}
	}
}

// measure gives a line of the list that has no amount the one that a sentence tells of it.
func (r *recipe) measure(m mention) {
	for gi := range r.groups {
		lines := r.groups[gi].lines
		for i, l := range lines {
			if !startsAmount(l) && sameThing(l, m.name) {
				lines[i] = m.written + " " + l
				return
			}
		}
	}
}

// ofTheTap tells whether a name is that of water, boiling or salted too: nobody counts it.
func ofTheTap(name string) bool {
	k, ok := larder.Builtin().Know(name)
	return ok && k.Item != nil && k.Item.Water
}

// hasName tells whether a list names a thing, by all of its name or by the last word of it.
func hasName(list, name string) bool {
	if list == "" {
		return false
	}
	w := words(name)
	if len(w) == 0 {
		return true
	}
	have := map[string]bool{}
	for _, x := range words(list) {
		have[x] = true
		have[larder.Fold(larder.Singular(x))] = true
	}
	last := w[len(w)-1]
	return have[last] || have[larder.Fold(larder.Singular(last))]
}

// sameThing tells whether two names of a text are one thing: one of them ends in the other.
func sameThing(a, b string) bool {
	x, y := " "+larder.Fold(a), " "+larder.Fold(b)
	return strings.HasSuffix(x, y) || strings.HasSuffix(y, x)
}

// mentions finds the amounts of a sentence that are of something to eat.
func mentions(s string) (out []mention) {
	said := prose.Read(s)
	last := 0 // where the last of them ends
	for i := 0; i < len(s); {
		c, n := utf8.DecodeRuneInString(s[i:])
		if !unicode.IsLetter(c) && !unicode.IsNumber(c) {
			i += n
			continue
		}
		if end := timeAt(said, i); end > i {
			i = end
			continue
		}
		if m, end, ok := mentionAt(s, i); ok {
			if n := len(out); n > 0 && sameThing(out[n-1].name, m.name) && corrects.MatchString(s[last:i]) {
				out = out[:n-1] // six cloves, no, sorry, eight cloves
			}
			out = append(out, m)
			i, last = end, end
			continue
		}
		i = wordEnd(s, i)
	}
	return out
}

// corrects is what somebody says who takes back what was said last.
var corrects = lazily(`(?i)^[\s,.–—-]*(?:(?:no|sorry|wait|actually|er|um|well|oh|hang on|i mean|i meant|or rather|rather|make (?:that|it)|i tell a lie)\b[\s,.–—-]*)+$`)

// timeAt is where the time or heat ends that begins at a byte; 0: none does.
func timeAt(said *prose.Said, i int) int {
	for _, t := range said.Times {
		if i >= t.From && i < t.To {
			return t.To
		}
	}
	for _, h := range said.Heats {
		if i >= h.From && i < h.To {
			return h.To
		}
	}
	return 0
}

func wordEnd(s string, i int) int {
	for i < len(s) {
		c, n := utf8.DecodeRuneInString(s[i:])
		if !unicode.IsLetter(c) && !unicode.IsNumber(c) && c != '-' && c != '\'' && c != '’' && c != '/' {
			return i
		}
		i += n
	}
	return i
}

// mentionAt reads an amount and a name at a byte.
func mentionAt(s string, i int) (m mention, end int, ok bool) {
	a, n, _ := quantity.ReadAmount(s[i:], quantity.Options{Prose: true})
	written := ""
	if w := weighty.FindStringSubmatch(s[i:]); w != nil { // a ten-pound turkey
		if each, k, _ := quantity.ReadAmount(w[1]+" "+w[2]+" x", quantity.Options{}); k > 0 {
			a, n, written = each, len(w[0]), each.String()
		}
	}
	if n == 0 {
		a, n, _ = quantity.ReadAmount(s[i:], quantity.Options{})
		if n > 0 && a.Kind == quantity.Plain && bare(a) {
			n = 0
		}
	}
	if more := andPart.FindString(s[i+n:]); n > 0 && more != "" { // a kilo and a half, cut up
		if whole, k, _ := quantity.ReadAmount(s[i:i+n+len(more)], quantity.Options{Alone: true}); k == n+len(more) && weighs(whole) {
			a, n = whole, k
		}
	}
	if low := strings.ToLower(s[i:]); n == 0 && strings.HasPrefix(low, "another ") { // another ounce and a half
		one := "an " + s[i+len("another "):]
		if more, k, _ := quantity.ReadAmount(one, quantity.Options{Prose: true}); k > len("an ") && weighs(more) {
			a, n, written = more, k+len("another")-len("an"), more.String()
		}
	}
	if n == 0 {
		if a, n = countAt(s[i:]); n == 0 {
			return m, i, false
		}
	}
	if a.IsZero() || a.IsNone() {
		return m, i, false
	}
	if before := strings.Fields(strings.ToLower(s[:i])); len(before) > 0 && notAnAmount[strings.Trim(before[len(before)-1], ",.;:()")] {
		return m, i, false
	}
	k := i + n
	rest := s[k:]
	trimmed := strings.TrimLeft(rest, " ")
	k += len(rest) - len(trimmed)
	for _, of := range []string{"of the ", "of this ", "of that ", "of these ", "of your ", "of it", "of them", "of my ", "of "} {
		if strings.HasPrefix(strings.ToLower(s[k:]), of) {
			m.again = len(of) > 3 && of != "of my "
			k += len(of)
			break
		}
	}
	if bare(a) && strings.HasSuffix(strings.ToLower(s[:k]), " of ") && !m.again { // three of flour: of what?
		return m, i, false
	}
	name, end, known := nameAt(s, k)
	if weighs(a) && !known && (asItIs.MatchString(s[k:]) || ofWeight.MatchString(s[:i])) || weighs(a) && asItIs.MatchString(s[k:]) {
		name = "" // "two kilos, bone in": of what stands before, and "a goose of ten pounds wants"
	}
	if name == "" && weighs(a) && !m.again { // "potatoes, three quarters of a kilo"
		name, known, end, m.behind = nameBefore(s, i), true, k, true
	}
	if name == "" || measuresSize(a) {
		return m, i, false
	}
	if !known && !weighs(a) {
		return m, i, false
	}
	if written == "" {
		written = strings.TrimSpace(s[i : i+n])
	}
	m.amount, m.written, m.name = a, written, name
	return m, end, true
}

// andPart is a part that is added behind a unit.
var andPart = lazily(`^ and (?:an?|one|three) (?:half|quarters?|third)\b`)

// vessels are what a thing is measured in whose size nobody knows.
var vessels = setOf("pot glass jar bowl mug packet sachet carton knob dollop splash drizzle lump square ladle ladleful spoonful tumbler punnet bag box tub bottle slice slab")

// weighty is one thing that is named by its weight.
var weighty = lazily(`^(?i)(?:an? )?([a-z]+|\d[\d/.]*)-(pound|lb|kilo|kg|ounce|oz|gram|g)\b\.?`)

// countAt reads a number of things, "nine", "half a"; an article is one of what can be
// counted.
func countAt(s string) (a quantity.Amount, n int) {
	sp, n := quantity.ReadSpoken(s, quantity.Options{})
	if n == 0 || n >= len(s) || s[n] != ' ' {
		return a, 0
	}
	if sp.Part {
		rest := strings.ToLower(s[n:])
		switch {
		case strings.HasPrefix(rest, " a "):
			n += len(" a")
		case strings.HasPrefix(rest, " an "):
			n += len(" an")
		default:
			return a, 0 // half the butter
		}
	}
	if sp.Article && vessels[strings.ToLower(s[n+1:wordEnd(s, n+1)])] { // a pot of yoghurt
		if rest, ok := strings.CutPrefix(s[wordEnd(s, n+1):], " of "); ok {
			if _, _, known := nameAt(rest, 0); known {
				a.Measure.Terms = []quantity.Term{{Value: sp.Value}}
				return a, n
			}
		}
	}
	if sp.Article {
		name, _, known := nameAt(s, n+1)
		if k, ok := larder.Builtin().Know(name); !known || !ok || len(k.Item.Pieces) == 0 || k.Item.Water {
			return a, 0
		}
	}
	a.Measure.Terms = []quantity.Term{{Value: sp.Value}}
	return a, n
}

// bare tells whether an amount is a mere count.
func bare(a quantity.Amount) bool {
	return a.Kind == quantity.Plain && len(a.Measure.Terms) > 0 && a.Measure.Terms[0].Unit == nil
}

// weighs tells whether an amount is a weight or a volume, or a little of something.
func weighs(a quantity.Amount) bool {
	for _, t := range a.Measure.Terms {
		if t.Unit == nil || t.Unit.Dim != quantity.Mass && t.Unit.Dim != quantity.Volume && t.Unit.Dim != quantity.Vague {
			return false
		}
	}
	return len(a.Measure.Terms) > 0
}

// measuresSize tells whether an amount is a length.
func measuresSize(a quantity.Amount) bool {
	for _, t := range a.Measure.Terms {
		if t.Unit != nil && t.Unit.Dim == quantity.Length {
			return true
		}
	}
	return false
}

// notAnAmount are words behind which a figure is of something else than what is gathered.
var notAnAmount = setOf("into no not or without than instead makes serves page pages step steps number each every per nos by formula recipe than least getting giving making yielding =")

// ends are words that no name goes on past.
var ends = setOf(`and or in into with to for from on over until till at by that which who when if then as of is are was were be being it them they this these those the a an your my our its
so but not than through upon under before after while during about around per each every again more longer only also well together gradually slowly gently quickly finely thinly coarsely roughly
mixed melted rubbed beaten chopped cut stirred peeled sliced diced grated added put will would may must should can has have had you we i add stir mix let boil bake cook simmer place serve dissolved
hour hours minute minutes min mins second seconds day days week weeks persons people inches inch pieces times degrees roughly lightly very all both too off out up down apiece apart first last next just still once twice`)

// nameAt reads a name at a byte: the longest words that the larder knows, else all up to a
// word or a mark that ends it.
func nameAt(s string, i int) (name string, end int, known bool) {
	var stops []int
	k := i
	for len(stops) < 6 && k < len(s) {
		c, n := utf8.DecodeRuneInString(s[k:])
		if c == ' ' || c == ',' && len(stops) > 0 && joinsOn(s[i:k]) {
			k += n
			continue
		}
		if !unicode.IsLetter(c) && !(unicode.IsNumber(c) && len(stops) > 0) {
			break
		}
		e := wordEnd(s, k)
		low := strings.ToLower(s[k:e])
		if quantity.IsNumberWord(low) && len(stops) > 0 {
			break
		}
		if ends[low] && !states[low] && !(len(stops) == 0 && strings.HasSuffix(low, "ly")) || len(stops) > 0 && strings.HasSuffix(low, "ly") {
			break
		}
		stops = append(stops, e)
		k = e
	}
	table := larder.Builtin()
	begin := i
	for from := range 3 { // past "thin strips"
		for n := len(stops) - 1; n >= from; n-- {
			words := strings.TrimSpace(s[begin:stops[n]])
			if got, ok := table.Know(words); ok && !(n == from && states[strings.ToLower(words)]) && got.Item != nil {
				for n > from && states[strings.ToLower(lastWord(s[i:stops[n]]))] { // butter melted
					n--
				}
				return withOf(s, i, stops[n])
			}
		}
		if from < len(stops) {
			begin = stops[from]
		}
	}
	n := min(len(stops), 3)
	for n > 0 && ends[strings.ToLower(lastWord(s[i:stops[n-1]]))] {
		n--
	}
	if n == 0 {
		return "", i, false
	}
	name, end = strings.TrimSpace(s[i:stops[n-1]]), stops[n-1]
	if whole, to, _ := withOf(s, i, end); len(whole) > len(name) {
		return whole, to, true
	}
	return name, end, false
}

// ofWeight is what joins a thing with its weight: "a rabbit of about a kilo and a half".
var ofWeight = lazily(`(?i)\p{L} of (?:about |around |roughly |some )?$`)

// asItIs is how a piece of meat is as it is weighed.
var asItIs = lazily(`(?i)^,?\s*(?:with )?(?:the )?(?:on the bone|(?:bone|skin|fat|rind|shell|head)s?[ -](?:in|on|off|out)|boned|boneless|skinned|untrimmed)\b`)

// nameBefore is the name of what is known that stands before an amount at a byte, with a comma
// or a word for how sure it is between; empty: none does.
func nameBefore(s string, i int) string {
	head, ok := strings.TrimRight(s[:i], " "), false
	for _, w := range []string{"about", "around", "roughly", "say", "some", "nearly", "weighing"} {
		if less, found := strings.CutSuffix(head, " "+w); found {
			head, ok = strings.TrimRight(less, " "), true
		}
	}
	for _, joint := range []string{",", " of"} {
		if less, found := strings.CutSuffix(head, joint); found {
			head, ok = less, true
		}
	}
	if !ok {
		return ""
	}
	all := strings.Fields(head[strings.LastIndexAny(head, ".,;:!?()")+1:])
	for n := min(len(all), 3); n > 0; n-- {
		words := strings.Join(all[len(all)-n:], " ")
		if got, ok := larder.Builtin().Know(words); ok && got.Item != nil {
			return words
		}
	}
	return ""
}

// withOf is a name that is known, with what it is of: "shin of beef", "stick of cinnamon".
func withOf(s string, i, end int) (string, int, bool) {
	if rest, ok := strings.CutPrefix(s[end:], " of "); ok && rest != "" {
		next := end + len(" of ")
		whole := strings.TrimSpace(s[i:wordEnd(s, next)]) // cream of tartar
		if _, known := larder.Builtin().Know(whole); known {
			return whole, wordEnd(s, next), true
		}
		if name, stop, known := nameAt(s, next); known && !strings.HasPrefix(name, "the ") {
			if _, whole := larder.Builtin().Know(strings.TrimSpace(s[i:stop])); whole || !strings.Contains(name, " ") {
				return strings.TrimSpace(s[i:stop]), stop, true
			}
		}
	}
	return strings.TrimSpace(s[i:end]), end, true
}

// joinsOn tells whether a comma behind these words stands between two adjectives:
// "even-sized, red-skinned onions".
func joinsOn(s string) bool {
	last := strings.ToLower(lastWord(strings.TrimRight(s, " ,")))
	_, known := larder.Builtin().Know(strings.TrimRight(s, " ,"))
	return !known && (strings.HasSuffix(last, "ed") || strings.HasSuffix(last, "less"))
}

func lastWord(s string) string { return s[strings.LastIndexByte(s, ' ')+1:] }

// unlisted adds to a recipe without a list of its own what its steps use and nobody gathers,
// as resolve finds it.
func (d *drafting) unlisted(ctx context.Context) {
	text := sound(d.compose())
	tree, err := load.Texts(ctx, ".", map[string]*string{"draft.tamis": &text})
	if err != nil {
		return
	}
	var diags diag.List
	model := resolve.Build(tree, &diags)
	for _, f := range diags.Sorted() {
		if f.Code != "U206" || len(f.Fixes) > 0 {
			continue
		}
		r := d.recipeAt(model, f.At.Span)
		if r == nil || r.listed {
			continue
		}
		name := strings.Join(strings.Fields(f.At.Span.Text()), " ")
		if len(r.groups) == 0 {
			r.groups = []group{{}}
		}
		if g := &r.groups[0]; !hasName(strings.Join(g.lines, "\n"), name) {
			g.lines = append(g.lines, name)
		}
	}
}

// recipeAt is the recipe whose block a place of the composed text stands in.
func (d *drafting) recipeAt(m *resolve.Model, at source.Span) *recipe {
	for _, block := range m.Recipes {
		if block.Span.Start <= at.Start && at.End <= block.Span.End {
			for _, r := range d.recipes { // no two have one title
				if r.title == block.Name {
					return r
				}
			}
		}
	}
	return nil
}
