package resolve

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Reading a method: walk the steps in order and keep, for every line, the
// share of it that is left. The whole line is 1.
//
// A dish that may pause has two stories, one with the `only after a pause` steps and
// one with the `not after a pause` ones. Both are followed side by side, and each
// step is read in the stories it belongs to.

// story is the state of the lines in one course of events.
type story struct {
	left    map[*Line]quantity.Number
	touched map[*Line]bool // part of it was taken, or it was used up
	vague   map[*Line]bool // an unmeasured part was taken
	named   map[*Line]source.Span
	made    map[*Product]bool
	done    map[*Line][]word           // what was said of a line in the step in which something of it first went in
	parts   map[target]quantity.Number // of things that are used in parts, how much of each part went in
}

func newStory(lines []*Line) *story {
	s := &story{
		left: map[*Line]quantity.Number{}, touched: map[*Line]bool{}, vague: map[*Line]bool{},
		named: map[*Line]source.Span{}, made: map[*Product]bool{}, done: map[*Line][]word{},
	}
	for _, l := range lines {
		s.left[l] = one
	}
	return s
}

// goneIn tells whether something of a name went in before.
func (s *story) goneIn(t target) bool {
	switch {
	case t.line != nil:
		return s.touched[t.line]
	case t.sub != nil:
		return slices.ContainsFunc(t.sub.Lines, func(l *Line) bool { return s.touched[l] })
	}
	return true
}

var one = quantity.Int(1)

// reader reads one recipe with one option chosen for every choice.
type reader struct {
	*builder
	recipe      *Recipe
	chosen      map[*Choice]*Option
	lines       []*Line
	stories     []*story // unpaused, and paused if the dish may pause
	made        []*Product
	finder      *finder
	everyOption *finder         // with the lines of options that were not chosen: never decoys
	saw         map[string]bool // decoys reported in this recipe
	drawing     bool            // a `sets aside` is being read: what it lifts out went in before
	figures     []Figure        // of the step that is being read
	makes       []*Product      // of the step that is being read
	now         *Step           // that step
	saidOnce    *said           // the words of its sentences; nil until somebody asks
	reworded    []Rewording     // what its sentence says otherwise here
	takes       []Take          // room for those of a sentence
}

// Read reads the sentences of a recipe for a set of options: one for every
// choice, the first where the map does not say.
func (m *Model) Read(r *Recipe, chosen map[*Choice]*Option, diags *diag.List) *Reading {
	b := *m.builder
	b.ownCaches()
	b.diags = diags
	return b.read(r, chosen)
}

// Present tells whether a line is there for a set of options.
func (l *Line) Present(chosen map[*Choice]*Option) bool {
	return l.Option == nil || chosenOf(l.Option.Choice, chosen) == l.Option
}

func chosenOf(c *Choice, chosen map[*Choice]*Option) *Option {
	if o := chosen[c]; o != nil {
		return o
	}
	if len(c.Options) == 0 {
		return nil
	}
	return c.Options[0]
}

// Has tells whether a reading is that of an option.
func (rd *Reading) Has(o *Option) bool { return chosenOf(o.Choice, rd.Chosen) == o }

// present tells whether a step is there; paused conditions are left to the
// stories.
func (s *Step) present(chosen map[*Choice]*Option) bool {
	for _, c := range s.If {
		if c.Option != nil && (chosenOf(c.Option.Choice, chosen) == c.Option) == c.Unless {
			return false
		}
	}
	return true
}

func (b *builder) read(r *Recipe, chosen map[*Choice]*Option) *Reading {
	rd := &reader{builder: b, recipe: r, chosen: chosen, saw: map[string]bool{}}
	out := &Reading{Recipe: r, Chosen: chosen}
	for _, l := range r.Lines {
		if !l.Present(chosen) {
			continue
		}
		out.Lines = append(out.Lines, l)
		if !l.again { // it is bought and printed; sentences mean the first
			rd.lines = append(rd.lines, l)
		}
	}
	rd.stories = []*story{newStory(rd.lines)}
	if len(r.Pauses) > 0 {
		rd.stories = append(rd.stories, newStory(rd.lines))
	}
	rd.finder = b.finder(r, rd.lines, nil)
	rd.everyOption = rd.finder
	if len(rd.lines) < len(r.Lines) {
		rd.everyOption = b.finder(r, r.Lines, nil)
	}
	for _, s := range r.Steps {
		if s.present(chosen) {
			out.Steps = append(out.Steps, rd.step(s))
		}
	}
	if len(out.Steps) > 0 {
		rd.remains()
	}
	b.giveBack(rd.finder)
	if rd.everyOption != rd.finder {
		b.giveBack(rd.everyOption)
	}
	b.page = b.page[:0]
	return out
}

// storiesOf are the stories a step belongs to.
func (rd *reader) storiesOf(s *Step) []*story {
	if len(rd.stories) == 1 {
		return rd.stories
	}
	for _, c := range s.If {
		if c.Paused {
			if c.Unless {
				return rd.stories[:1]
			}
			return rd.stories[1:]
		}
	}
	return rd.stories
}

func (rd *reader) step(s *Step) *StepReading {
	out := &StepReading{Step: s}
	rd.reworded = nil
	if own := rd.finder; s.cameAlong() {
		rd.finder = rd.builder.ghosts(own, rd.recipe, rd.lines)
		rd.reworded = rd.renumber(s, s.Lines)
		for _, m := range s.Moments {
			rd.reworded = append(rd.reworded, rd.renumber(s, m.Lines)...)
		}
		defer func() {
			slices.SortFunc(rd.reworded, func(x, y Rewording) int { return cmp.Compare(x.At.Start, y.At.Start) })
			out.Reworded = slices.Compact(rd.reworded)
			if rd.chosen == nil { // the first reading names the step
				s.reword(out.Reworded)
			}
			if len(s.Makes) == 0 {
				rd.finder = own
			}
		}()
	}
	rd.now = s
	for i, st := range rd.storiesOf(s) {
		rd.figures, rd.makes = nil, s.Makes
		takes := rd.sentence(s, st)
		if i == 0 {
			out.Takes, out.Figures = takes, rd.figures
		}
		for _, p := range s.Makes {
			st.made[p] = true
		}
	}
	if len(s.Makes) > 0 {
		rd.made = append(rd.made, s.Makes...)
		rd.finder = rd.builder.finder(rd.recipe, rd.lines, rd.made)
	}
	return out
}

// sentence reads one step: the margin's `uses` if there are any, else the prose.
func (rd *reader) sentence(s *Step, st *story) (takes []Take) {
	byMargin := First[*Uses](s.Margin) != nil
	before := st
	if byMargin {
		before = st.clone()
	}
	for _, c := range s.Margin {
		if c, ok := c.(*Uses); ok {
			takes = append(takes, rd.usesClause(s, c, st)...)
		}
	}
	if byMargin {
		rd.overruled(s.Lines, before, takes)
	} else {
		rd.drawing = drawsOff(s.Margin)
		takes = rd.prose(s.Lines, st)
		rd.drawing = false
		for _, m := range s.Moments {
			takes = append(takes, rd.moment(m, st)...)
		}
	}
	for i := range takes {
		if l := takes[i].Line; l != nil {
			takes[i].LeftAfter = st.left[l]
		}
	}
	return takes
}

func (rd *reader) moment(m *Moment, st *story) (takes []Take) {
	uses := First[*Uses](m.Margin) != nil
	before := st
	if uses {
		before = st.clone()
	}
	for _, c := range m.Margin {
		if c, ok := c.(*Uses); ok {
			takes = append(takes, rd.usesClause(nil, c, st)...)
		}
	}
	if uses {
		rd.overruled(m.Lines, before, takes)
		return takes
	}
	rd.drawing = drawsOff(m.Margin)
	defer func() { rd.drawing = false }()
	return rd.prose(m.Lines, st)
}

// drawsOff tells whether something is lifted out of what is cooking.
func drawsOff(margin []Clause) bool {
	return FirstOf(margin, WordSetsAside) != nil
}

// lineStart is where a written line begins in the text of a step, and in its file.
type lineStart struct{ at, source int }

// prose reads written lines as one text.
func (rd *reader) prose(lines []Text, st *story) []Take {
	var text strings.Builder
	var starts []lineStart
	for i, l := range lines {
		if i > 0 {
			text.WriteByte(' ')
		}
		starts = append(starts, lineStart{text.Len(), l.Span.Start})
		text.WriteString(l.Text)
	}
	if len(lines) == 0 {
		return nil
	}
	file := lines[0].Span.File
	place := func(from, to int) source.Span {
		at := func(off int) int {
			i := len(starts) - 1
			for i > 0 && starts[i].at > off {
				i--
			}
			return starts[i].source + off - starts[i].at
		}
		if to == from {
			return file.Span(at(from), at(from))
		}
		return file.Span(at(from), at(to-1)+1)
	}
	sc := &scanner{reader: rd, text: loosened(text.String()), place: place, starts: starts, story: st, takes: rd.takes[:0]}
	from := len(rd.page)
	rd.page = rd.tokensInto(rd.page, sc.text)
	sc.words = rd.apart(rd.page[from:len(rd.page):len(rd.page)])
	sc.abbreviations()
	sc.spent = make([]bool, len(sc.words))
	asked := rd.diags.Len()
	sc.scan()
	sc.figures()
	sc.guard(asked)
	rd.figures = append(rd.figures, sc.found...)
	rd.takes = sc.takes
	return slices.Clone(sc.takes)
}

// joinedAmounts are amounts that are hyphened throughout: half-a-pint, a pint-and-a-half.
var joinedAmounts = regexp.MustCompile(`(?i)\b(?:half|third|quarters?|fourths?)(?:-of)?-an?[- ]|-and-a-(?:half|quarter)\b|-of-an?[- ]`)

// loosened is a text with blanks for the hyphens of such amounts, as long as it was.
func loosened(text string) string {
	if !strings.Contains(text, "-a") {
		return text
	}
	return joinedAmounts.ReplaceAllStringFunc(text, func(s string) string { return strings.ReplaceAll(s, "-", " ") })
}

// remains asks about what no step named and what is left at the end.
func (rd *reader) remains() {
	if rd.likeAnother() {
		return
	}
	for _, l := range rd.lines {
		if l.Optional || l.ToTaste || l.Serving {
			continue
		}
		unnamed := !slices.ContainsFunc(rd.stories, func(s *story) bool { _, ok := s.named[l]; return ok })
		if unnamed {
			rd.unused(l)
			continue
		}
		for _, st := range rd.stories {
			if _, ok := st.named[l]; !ok || st.vague[l] || st.left[l].Sign() <= 0 {
				continue
			}
			rd.diags.Askf("U202", l.Span, "%s left when %s is done", rd.muchIs(l, st.left[l]), rd.recipe.Name).
				Because("a cook who weighs out the whole line will wonder where the rest goes").
				WithHelp("say `the rest of the %s` where it goes in, or gather less", l.Name)
			break
		}
	}
}

// likeAnother asks about a method that only points to another one: "make as for
// white sauce". Nothing of the list is named in it, and that is said once.
func (rd *reader) likeAnother() bool {
	unused, all := 0, 0
	for _, l := range rd.lines {
		if l.Optional || l.ToTaste || l.Serving {
			continue
		}
		all++
		if _, ok := rd.stories[0].named[l]; !ok {
			unused++
		}
	}
	if all < 2 || unused*2 <= all {
		return false
	}
	for _, s := range rd.recipe.Steps {
		for _, line := range s.Lines {
			for _, words := range [...]string{"same as ", "same way as ", "as for ", "directions for ", "as in the preceding", "as in the recipe", "in the manner of ", "exactly as ", "proceed as "} {
				at := quantity.IndexFold(line.Text, words)
				if at < 0 {
					continue
				}
				rd.diags.Askf("U220", line.Span.File.Span(line.Span.Start+at, line.Span.Start+at+len(strings.TrimSpace(words))), "this method points to another recipe").
					Because("%d of the things that are gathered go in where nobody here can see it, so no step weighs them and no time is planned", unused).
					WithHelp("write `as` and the other's name in place of the list, `as White sauce, but`, and below it only what differs").
					WithHelp("or write the steps out here")
				return true
			}
		}
	}
	return false
}

// shareText says a share of a line as an amount if the line has one.
func (rd *reader) shareText(l *Line, share quantity.Number) string {
	if l.Quantity != nil {
		if y := yieldOfBatches(l); y != nil { // 20 of the biscuits, not a ninth of a batch
			return l.From.Say(y.Scale(l.Quantity.Value.High.Mul(share)))
		}
		return l.Say(l.Quantity.Scale(share))
	}
	return share.String()
}

// muchIs says so much of a line, and that it is: "40 g of butter is", "1 lemon is", "3 eggs are".
func (rd *reader) muchIs(l *Line, share quantity.Number) string {
	if l.Quantity == nil || l.Quantity.Dim != quantity.None || l.From != nil {
		return rd.shareText(l, share) + " of " + l.Name + " is"
	}
	if one.Less(l.Quantity.Value.High.Mul(share)) {
		return rd.shareText(l, share) + " " + larder.PluralName(l.Name) + " are"
	}
	head, last := "", l.Name
	if i := strings.LastIndexByte(last, ' '); i >= 0 {
		head, last = last[:i+1], last[i+1:]
	}
	return rd.shareText(l, share) + " " + head + larder.Singular(last) + " is"
}

// take records that a share of a line goes into the step.
func (st *story) take(l *Line, t *Take, part quantity.Number) {
	t.Line, t.Part = l, part
	if l.ToTaste {
		t.Unmeasured = true
	} else {
		st.left[l] = st.left[l].Sub(part)
	}
	st.touched[l] = true
	if _, ok := st.named[l]; !ok {
		st.named[l] = t.Span
	}
}
