package resolve

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// takeLine takes of a line what the sentence asks for.
func (rd *scanner) takeLine(l *Line, t Take, w *wanted, again bool) {
	rd.takes = append(rd.takes, rd.reader.resolveTake(rd.story, l, t, w, again))
}

// resolveTake works out the share of the line that is taken and keeps the
// story's books.
func (rd *reader) resolveTake(st *story, l *Line, t Take, w *wanted, again bool) Take {
	left := st.left[l]
	t.Line = l
	switch {
	case rd.drawing && left.Sign() <= 0: // half of the beans, out of the pot
		t.Refers = true
		return t
	case l.ToTaste && again:
		t.Refers = true
		return t
	case l.ToTaste:
		st.take(l, &t, quantity.Number{})
		return t
	case w != nil && w.but != nil && !w.but.unmeasured && left.Sign() > 0:
		if part, ok := rd.shareOf(l, &t, w.but); ok {
			if t.Amount = nil; w.but.measured() {
				t.But = part
			}
			if left.Less(part) {
				return rd.takePart(st, l, t, part) // reported there
			}
			return rd.takePart(st, l, t, left.Sub(part))
		}
		fallthrough
	case w != nil && (w.unmeasured || w.but != nil):
		if left.Sign() <= 0 {
			if !again || w.but != nil { // melt the butter, and fry in a little of the butter: in one step it is that butter
				rd.allGone(st, l, t)
			}
			t.Refers = true
			return t
		}
		t.Unmeasured = true
		st.vague[l], st.touched[l] = true, true
		if _, ok := st.named[l]; !ok {
			st.named[l] = t.Span
		}
		return t
	case w != nil && w.share != nil && w.share.Rest:
		t.Rest, t.All = true, true
		switch {
		case left.Sign() <= 0:
			rd.allGone(st, l, t)
			t.Refers = true
			return t
		case !st.touched[l]:
			rd.noRestYet(l, t)
		}
		t.AfterSome = st.vague[l]
		st.take(l, &t, left)
		return t
	case w != nil && w.share != nil:
		part, ok := w.share.Fraction, true
		if w.share.OfRest {
			part = part.Mul(left)
			if left.Sign() > 0 && !st.touched[l] {
				rd.noRestYet(l, t)
			}
		}
		if w.other && left.Sign() > 0 && !st.touched[l] {
			rd.noRestYet(l, t)
		}
		if w.each {
			part, ok = rd.forEach(l, &t, w, part)
		}
		if !ok {
			t.Unmeasured = true
			st.vague[l], st.touched[l] = true, true
			if _, named := st.named[l]; !named {
				st.named[l] = t.Span
			}
			return t
		}
		return rd.takePart(st, l, t, part)
	case w != nil && w.number != nil && left.Sign() <= 0 && l.Quantity != nil && (l.Quantity.Dim == quantity.Mass || l.Quantity.Dim == quantity.Volume):
		t.Refers = true // "set 25 rolled fillets in each pan": of those that went in by weight
		return t
	case w != nil && (w.amount != nil || w.number != nil):
		part, ok := rd.partOf(l, &t, w)
		if ok && w.each {
			part, ok = rd.forEach(l, &t, w, part)
		}
		if !ok {
			if left.Sign() <= 0 {
				t.Refers = true
				return t
			}
			t.Unmeasured = true
			st.vague[l], st.touched[l] = true, true
			if _, named := st.named[l]; !named {
				st.named[l] = t.Span
			}
			return t
		}
		if w.remains && left.Sign() > 0 && st.touched[l] && !st.vague[l] {
			rd.allThatRemains(st, l, t, part)
		}
		return rd.takePart(st, l, t, part)
	}
	// A bare name takes what is left; used up, or said again, it refers back.
	if left.Sign() <= 0 || again {
		t.Refers = true
		return t
	}
	if st.touched[l] && !st.vague[l] {
		rd.diags.Askf("U210", t.Span, "some of %s went in before; does this take the rest", l.Name).
			Because("it is read as all that is left: %s", rd.shareText(l, left)).
			WithHelp("write `the rest of the %s`", l.Name)
	}
	t.All = true
	st.take(l, &t, left)
	return t
}

func (rd *reader) noRestYet(l *Line, t Take) {
	rd.diags.Askf("U211", t.Span, "nothing was taken of %s before, so there is no rest yet", l.Name).
		WithHelp("write `the %s`, or say in an earlier step how much goes in there", l.Name)
}

// allThatRemains asks about "the remaining pint of the milk" where another amount is left.
func (rd *reader) allThatRemains(st *story, l *Line, t Take, part quantity.Number) {
	left := st.left[l]
	off := left.Sub(part)
	if off.Sign() < 0 || !left.Mul(quantity.Frac(1, 20)).Less(off) { // more than is left is an error of its own
		return
	}
	rd.diags.Askf("U211", t.Span, "%s is said to be what remains of %s, and %s is left", rd.shareText(l, part), l.Name, rd.shareText(l, left)).
		WithHelp("write `%s of the %s`, or say in an earlier step how much goes in there", rd.shareText(l, part), l.Name)
}

// takePart takes a known share, and reports more than is left.
func (rd *reader) takePart(st *story, l *Line, t Take, part quantity.Number) Take {
	left := st.left[l]
	if left.Less(part) {
		if left.Sign() <= 0 {
			rd.allGone(st, l, t)
		} else {
			rd.diags.Errorf("U203", t.Span, "%s asked for, and %s is left", rd.muchIs(l, part), rd.shareText(l, left)).
				See(l.Span, "gathered here").
				WithHelp("gather more, or take less here")
		}
		part = left
	}
	st.take(l, &t, part)
	return t
}

func (rd *reader) allGone(st *story, l *Line, t Take) {
	d := rd.diags.Askf("U204", t.Span, "all of %s has gone in before this step", l.Name)
	if first, ok := st.named[l]; ok {
		d.See(first, "it went in here")
	}
	if w := t.Span; !t.All && w.File != nil && liftedOut.MatchString(before(w)) {
		d.WithHelp("what is taken out of the pot again is named in the margin, with its amount: `sets aside %s cooked %s`", cmp.Or(amountText(t.AmountAt), "600 g"), l.Name)
	}
	d.WithHelp("say there how much goes in: `half the %s`, or an amount", l.Name)
}

func amountText(at source.Span) string {
	if at.File == nil {
		return ""
	}
	return at.Text()
}

// liftedOut is what is said before something that comes out of what is cooking.
var liftedOut = regexp.MustCompile(`(?i)\b(lift|take|scoop|fish|spoon|set|reserve|keep|remove|ladle)\w*( \w+)?( out| aside| off| back)?\s*$`)

// before are the words of a line before a place.
func before(at source.Span) string {
	text := at.File.Text[:at.Start]
	return text[strings.LastIndexByte(text, '\n')+1:]
}

// partOf turns an amount of the sentence into a share of the line.
// A range is not known: unless the line says the same range, it is some of it.
func (rd *reader) partOf(l *Line, t *Take, w *wanted) (quantity.Number, bool) {
	if part, ok := l.ofItsOwn(w); ok {
		if l.Written.Kind == quantity.Packages {
			mine := w.amount.Measure.Terms[0]
			t.Amount, t.Unit = &quantity.Quantity{Dim: mine.Unit.Dim, Unit: mine.Unit, Value: mine.Value}, mine.Unit
		}
		return part, true
	}
	if l.Quantity == nil || l.Quantity.Value.High.Sign() <= 0 {
		return quantity.Number{}, false
	}
	var q quantity.Quantity
	switch {
	case w.number != nil:
		q = quantity.Quantity{Dim: l.Quantity.Dim, Unit: l.Quantity.Unit, Value: *w.number}
		if y := yieldOfBatches(l); y != nil && (y.Dim == quantity.None || y.Dim == quantity.Word) { // "one of the rolls", of a batch of them
			q.Dim, q.Unit = y.Dim, y.Unit
		} else if l.Quantity.Dim != quantity.None && l.Quantity.Dim != quantity.Word {
			if !w.article { // "a butter" of 250 g says nothing; "two butter" says too little
				rd.otherMeasure(l, t, quantity.Pieces(w.number.High))
			}
			return quantity.Number{}, false
		}
	default:
		said := rd.amount(rd.recipe, w.amount, t.Span)
		if said == nil {
			return quantity.Number{}, false
		}
		q, t.Unit = *said, unitOf(w.amount)
	}
	spoken := q
	t.Amount = &spoken
	if q.Value.IsRange() && !q.Equal(*l.Quantity) {
		return quantity.Number{}, false
	}
	q = rd.bridged(l, q)
	if q.Dim != l.Quantity.Dim || q.Unit != l.Quantity.Unit {
		if q.Dim == quantity.Vague || l.Quantity.Dim == quantity.Vague {
			return quantity.Number{}, false
		}
		rd.otherMeasure(l, t, q)
		return quantity.Number{}, false
	}
	return q.Value.High.Div(l.Quantity.Value.High), true
}

// ofItsOwn is the share of a line that an amount in the line's own unit comes to,
// or so many of its packages: "half a gill" of a gill, "three tins" of four. ok is
// false where the size of the unit must be known.
func (l *Line) ofItsOwn(w *wanted) (part quantity.Number, ok bool) {
	if l.Written == nil || w.amount == nil || len(w.amount.Measure.Terms) != 1 || w.amount.Kind != quantity.Plain {
		return part, false
	}
	mine := w.amount.Measure.Terms[0]
	all, unit := l.Written.Count, l.Written.Container
	if l.Written.Kind == quantity.Plain && len(l.Written.Measure.Terms) == 1 && l.Quantity == nil {
		all, unit = l.Written.Measure.Terms[0].Value, l.Written.Measure.Terms[0].Unit
	} else if l.Written.Kind != quantity.Packages {
		return part, false
	}
	if unit == nil || !sameContainer(mine.Unit, unit) || mine.Value.IsRange() || all.High.Sign() <= 0 {
		return part, false
	}
	return mine.Value.High.Div(all.High), true
}

// sameContainer tells whether two units are one: a can is a tin.
func sameContainer(a, b *quantity.Unit) bool {
	name := func(u *quantity.Unit) string {
		if u != nil && u.Name == "can" {
			return "tin"
		}
		return u.Name
	}
	return a == b || a != nil && b != nil && name(a) == name(b)
}

// bridged is an amount by volume as a weight, or the reverse, where the line is
// measured so and what the thing weighs is known; of a line gathered in batches,
// it is so many batches; else the amount itself.
func (rd *reader) bridged(l *Line, q quantity.Quantity) quantity.Quantity {
	if y := yieldOfBatches(l); y != nil && y.Dim == q.Dim && y.Unit == q.Unit && y.Value.Low.Sign() > 0 {
		q.Value = quantity.Exactly(q.Value.High.Div(y.Value.Low))
		q.Dim, q.Unit = l.Quantity.Dim, l.Quantity.Unit
		return q
	}
	mass, volume := quantity.Mass, quantity.Volume
	if !(q.Dim == mass && l.Quantity.Dim == volume || q.Dim == volume && l.Quantity.Dim == mass) {
		return q
	}
	d, ok := l.Density()
	if !ok {
		return q
	}
	of := q.AsMass
	if q.Dim == mass {
		of = q.AsVolume
	}
	if out, problem := of(d); problem == nil {
		return out
	}
	return q
}

// yieldOfBatches is what one batch gives of a line gathered in batches; nil for
// another line.
func yieldOfBatches(l *Line) *quantity.Quantity {
	if l.Quantity.Dim != quantity.Batch || l.From == nil || l.From.Gives() == nil {
		return nil
	}
	return &l.From.Gives().Quantity
}

// otherMeasure asks how much is meant by an amount of another kind.
func (rd *reader) otherMeasure(l *Line, t *Take, q quantity.Quantity) {
	rd.diags.Askf("U212", t.Span, "%s is said here, and %s is gathered; how much of it is that", l.Say(q), l.Say(*l.Quantity)).
		See(l.Span, "gathered here").
		WithHelp("use the same kind of measure in both places, or a share: `half the %s`", l.Name)
}

// shareOf is the share of a line that a phrase asks for.
func (rd *reader) shareOf(l *Line, t *Take, w *wanted) (quantity.Number, bool) {
	if w.share != nil && !w.share.Rest && !w.share.OfRest {
		return w.share.Fraction, true
	}
	if !w.measured() {
		return quantity.Number{}, false
	}
	return rd.partOf(l, t, w)
}

// forEach multiplies what is taken for each of several.
func (rd *reader) forEach(l *Line, t *Take, w *wanted, part quantity.Number) (quantity.Number, bool) {
	t.Each, t.AmountAt = true, source.Span{}
	if w.pieces == 0 && w.of {
		return quantity.Number{}, false // so much to the pound of what is weighed at the stove
	}
	if s := rd.recipe.Serves; w.heads && s != nil && !s.IsRange() && part.Mul(s.High).Equal(one) { // two tortillas each
		return one, true
	}
	if w.pieces == 0 {
		rd.diags.Askf("U214", t.Span, "for each of how many").
			Because("how much %s goes in depends on it", l.Name).
			WithHelp("say into how many the step divides: `| into 24 cases`, or write the whole amount")
		return quantity.Number{}, false
	}
	n := quantity.Int(int64(w.pieces))
	if t.Amount != nil {
		all := t.Amount.Scale(n)
		t.Amount = &all
	}
	return part.Mul(n), true
}

// butFor reads what a word for several things leaves out, at word i: "the dry
// ingredients except the sugars", "everything but the cheese and the mint".
func (sc *scanner) butFor(i int) (out map[*Line]bool, end int) {
	k := i
	if w := sc.lower(k); (w == "in" || w == "together" || w == "up") && k+1 < len(sc.words) { // put the vegetables in, except the onions
		k++
	}
	switch sc.lower(k) {
	case "but", "except", "excepting", "save", "bar", "barring", "minus", "without", "omitting":
		k++
	case "apart", "aside", "other":
		if w := sc.lower(k + 1); w != "from" && w != "than" {
			return nil, i
		}
		k += 2
	default:
		return nil, i
	}
	if sc.lower(k) == "for" || sc.lower(k) == "not" {
		k++
	}
	out, end = map[*Line]bool{}, i
	for k < len(sc.words) && !sc.words[k].opens {
		if w := sc.lower(k); w == "and" || w == "or" || w == "nor" || articles[w] {
			k++
			continue
		}
		ms := sc.finder.at(sc.words, k, false)
		if len(ms) == 0 {
			break
		}
		for _, m := range ms {
			if m.target.sub != nil {
				for _, l := range m.target.sub.Lines {
					out[l] = true
				}
			} else if m.target.line != nil {
				out[m.target.line] = true
			}
		}
		k += ms[0].length
		end = k
	}
	return out, end
}

// sorted is a list without the lines left out, and without those that the word
// before word i does not fit: whole or ground spices.
func (sc *scanner) sorted(sub *SubList, i int, out map[*Line]bool) *SubList {
	adjective := ""
	if i > 0 && sub.class != "" {
		adjective = sc.lower(i - 1)
	}
	fits := func(l *Line) bool {
		ground := hasWord(l.Key, grounds) || l.Note.Text != "" && hasWord(larder.Fold(l.Note.Text), grounds)
		switch adjective {
		case "whole":
			return !ground
		case "ground", "powdered":
			return ground
		case "dried":
			return hasWord(l.Key, wordSet("dried dry"))
		case "fresh", "soft":
			return !hasWord(l.Key, wordSet("dried dry"))
		}
		return true
	}
	only := *sub
	only.Lines = nil
	for _, l := range sub.Lines {
		if !out[l] && fits(l) {
			only.Lines = append(only.Lines, l)
		}
	}
	if len(only.Lines) == 0 {
		return sub
	}
	return &only
}

// grounds are words of spices that are a powder.
var grounds = wordSet("ground powder powdered turmeric paprika cayenne masala curry")

func hasWord(text string, set map[string]bool) bool {
	for w := range strings.FieldsSeq(text) {
		if set[strings.Trim(w, ",;")] {
			return true
		}
	}
	return false
}

// withoutCitrus is the fruit without the lemons and limes that only flavour it: they are
// counted, and it is weighed.
func (rd *scanner) withoutCitrus(sub *SubList) *SubList {
	if sub.class != "fruit" {
		return sub
	}
	only, weighed := *sub, false
	only.Lines = slices.DeleteFunc(slices.Clone(sub.Lines), func(l *Line) bool {
		it := l.item()
		return it != nil && (it.Name == "lemon" || it.Name == "lime") && l.counted() != nil
	})
	for _, l := range only.Lines {
		weighed = weighed || l.Quantity != nil && l.Quantity.Dim != quantity.None
	}
	if !weighed {
		return sub
	}
	return &only
}

// severalLeft tells whether something is left of more than one line of a list.
func severalLeft(st *story, sub *SubList) bool {
	n := 0
	for _, l := range sub.Lines {
		if st.left[l].Sign() > 0 {
			n++
		}
	}
	return n > 1
}

// takeSub takes what is left of all the lines of a sub-list.
func (rd *scanner) takeSub(sub *SubList, t Take, w *wanted) {
	st := rd.story
	if sub.class != "" {
		sub = rd.notLater(rd.withoutCitrus(sub))
	}
	if w != nil && !w.at && !w.rest && !w.whole && (w.measured() || w.but != nil) && severalLeft(st, sub) {
		rd.diags.Askf("U213", t.Span, "the %s are several things, and of which of them is this", sub.Name).
			Because("all that is left of them is taken here, since the figure is for none of them alone").
			WithHelp("name the thing: `%s`", sub.Lines[0].Name)
	}
	var named, fresh int
	for _, l := range sub.Lines {
		if _, ok := st.left[l]; !ok {
			continue
		}
		if _, ok := st.named[l]; ok {
			named++
		} else {
			fresh++
		}
	}
	if sub.class == "" && named > 0 && fresh > 0 && (w == nil || !w.rest) {
		rd.diags.Askf("U213", t.Span, "some of what is gathered for the %s was named before, and some was not", sub.Name).
			WithHelp("name the lines one by one in this step, or write `the rest of the %s`", sub.Name)
	}
	for _, l := range sub.Lines {
		left, present := st.left[l]
		if !present {
			continue
		}
		u := t
		switch {
		case l.ToTaste:
			u = rd.resolveTake(st, l, u, nil, false)
		case w != nil && w.share != nil && !w.share.Rest && left.Sign() > 0:
			part := w.share.Fraction
			if w.share.OfRest {
				part = part.Mul(left)
			}
			u = rd.reader.takePart(st, l, u, quantity.Min(part, left))
		case left.Sign() <= 0:
			u.Line, u.Refers = l, true
		case w != nil && w.unmeasured:
			u = rd.resolveTake(st, l, u, w, false)
		default:
			u.All = true
			st.take(l, &u, left)
		}
		rd.takes = append(rd.takes, u)
	}
}

// startsLater are verbs by which a thing begins to be cooked, or goes in.
var startsLater = wordSet("boil parboil steam roast bake peel add stir scatter lay arrange put tip fold layer cover top wash slice cut chop")

// notLater is a class without what a later step takes up by its own name: "add the
// vegetables" leaves the potatoes alone that are boiled afterwards. Where less than two
// would be left it is the class.
func (rd *scanner) notLater(sub *SubList) *SubList {
	steps := rd.recipe.Steps
	at := slices.Index(steps, rd.now)
	if at < 0 || len(sub.Lines) < 3 {
		return sub
	}
	later := map[*Line]bool{}
	for _, s := range steps[at+1:] {
		ws := rd.apart(rd.tokens(s.Prose.Text))
		verb := -1
		for i := range ws {
			if ws[i].opens || i > 0 && (ws[i].stop || ws[i-1].key == "then" || ws[i-1].key == "and" && !articles[ws[i].low] && len(rd.finder.at(ws, i, false)) == 0) {
				verb = -1
			}
			if verb < 0 && startsLater[ws[i].key] {
				verb = i
				continue
			}
			if verb < 0 || i-verb > 7 {
				continue
			}
			for _, m := range rd.finder.at(ws, i, false) {
				if m.target.line != nil {
					later[m.target.line] = true
				}
			}
		}
	}
	only := *sub
	only.Lines = slices.DeleteFunc(slices.Clone(sub.Lines), func(l *Line) bool { return later[l] })
	if len(only.Lines) < 2 || len(only.Lines) == len(sub.Lines) {
		return sub
	}
	return &only
}

// takeProduct waits for, and takes of, what an earlier step made.
func (rd *scanner) takeProduct(p *Product, t Take, w *wanted) {
	t.Product = p
	if w != nil {
		t.Rest = w.rest
		t.Unmeasured = w.unmeasured
		if w.amount != nil {
			t.Amount = rd.amount(rd.recipe, w.amount, t.Span)
		}
		if w.share != nil {
			t.Part = w.share.Fraction
		}
	}
	rd.takes = append(rd.takes, t)
}

// usesClause reads `uses half the herb oil`. s is nil inside a moment.
func (rd *reader) usesClause(s *Step, c *Uses, st *story) []Take {
	if c.Nothing {
		return nil
	}
	w := &wanted{share: c.Share, amount: c.Amount}
	if c.Share != nil && c.Share.Some {
		w = &wanted{unmeasured: true}
	}
	if c.Share == nil && c.Amount == nil {
		w = nil
	}
	if w != nil && c.Share != nil {
		w.rest = c.Share.Rest
	}
	t := Take{Span: c.Span, NameAt: c.Name.Span, ByMargin: true}
	name := c.Name.Text
	if slash := strings.LastIndexByte(name, '/'); slash >= 0 && slices.ContainsFunc(rd.recipe.Lines, func(l *Line) bool { return rd.fold(l.Name) == rd.fold(name) }) {
		name = name[slash+1:] // gathered by its path, and so called in a sentence
	}
	ws := rd.words(name)
	if len(ws) == 0 {
		return nil
	}
	sc := &scanner{reader: rd, story: st}
	ms := rd.finder.at(ws, 0, false)
	if len(ms) == 0 || ms[0].length != len(ws) {
		rd.notGathered(rd.recipe, c.Name, "the margin uses")
		return nil
	}
	if len(ms) > 1 {
		if ms = sc.sieve(ms, c.Name.Span); len(ms) == 0 {
			return nil
		}
	}
	switch m := ms[0].target; {
	case m.line != nil:
		sc.takeLine(m.line, t, w, false)
	case m.sub != nil:
		sc.takeSub(m.sub, t, w)
	default:
		sc.takeProduct(m.product, t, w)
	}
	return sc.takes
}
