package parse

import (
	"strings"

	"tamis/lang/diag"
)

// unknown reports a line whose first word a place does not know.
func (p *parser) unknown(place Place, l *line) {
	if p.newer {
		return
	}
	t := p.content(l)
	n := 0
	for n < len(t) && strings.IndexByte(" \t,:|", t[n]) < 0 {
		n++
	}
	word := lower(t[:n])
	from, to := l.start, l.start+max(n, 1)
	other := p.elsewhere(place, t)
	kind := Place(-1)
	if other != nil {
		kind = other.In[0]
	}
	if p.stray.follows(l, kind) && meant(place, word) == nil {
		return // said of the line above
	}
	if other != nil && synonyms[place][word] == "" {
		d := p.err(codeElsewhere, from, to, "`%s` does not stand in %s", other.Text, place)
		if other.Text == "serves" && place == InMenu {
			d.WithHelp("a menu says how many sit down: `covers 12`").Replace("write covers", false, p.span(from, to), "covers")
			return
		}
		if other.Text == "covers" && place == InRecipe {
			d.WithHelp("a dish says how many portions it makes: `serves 6`").Replace("write serves", false, p.span(from, to), "serves")
			return
		}
		p.stray = foreign{l, kind}
		d.WithHelp("it belongs in %s: `%s`", other.In[0], other.Form)
		if head := opener(kind); head != nil && l.parent != nil && l.no+1 < len(l.parent.kids) {
			if w, _ := LookUp(kind, p.content(l.parent.kids[l.no+1])); w != nil && !w.Allowed(place) {
				d.WithHelp("is a line such as `%s` missing above it?", head.Form)
			}
		}
		return
	}
	d := p.err(codeFieldWord, from, to, "`%s` is no word of %s", shorten(t[:max(n, 1)]), place).
		Because("the lines of %s begin with a word that is known, so that none is mistaken for something else", place)
	if right, n := says(place, t); right != "" {
		d.WithHelp("did you mean `%s`?", right).Replace("write "+right, false, p.span(from, from+n), right)
		return
	}
	p.stray = foreign{l, kind}
	var all []string
	for _, w := range WordsIn(place) {
		all = append(all, "`"+w.Text+"`")
	}
	d.WithHelp("the words here are %s", strings.Join(all, ", "))
	if place == InRecipe && startsNumber(t) {
		d.WithHelp("things to gather stand below `gather`")
	}
	if place == InMenu {
		d.WithHelp("dishes stand below a `course`")
	}
}

// foreign is a line that does not belong where it stands. When the lines after
// it do not either, and for the same reason, a line above them is missing, and
// that is one slip.
type foreign struct {
	last *line
	kind Place
}

// follows tells whether l comes right after the last foreign line and is of its
// kind; l is then the last.
func (r *foreign) follows(l *line, kind Place) bool {
	if r.last == nil || r.kind != kind || l.parent == nil || r.last.parent != l.parent || r.last.no+1 != l.no {
		return false
	}
	r.last = l
	return true
}

func shorten(t string) string {
	if len(t) <= 30 {
		return t
	}
	cut := 27
	for cut > 0 && t[cut]&0xC0 == 0x80 {
		cut--
	}
	return t[:cut] + "…"
}

// elsewhere finds the word a line begins with in the places of fields.
func (p *parser) elsewhere(place Place, t string) *Word {
	for _, other := range []Place{InMenu, InRecipe, InKitchen, InSeries, InPart, InBook} {
		if other == place {
			continue
		}
		if w, _ := LookUp(other, t); w != nil {
			return w
		}
	}
	return nil
}

// nearest finds the word of a place nearest to one that is unknown. On a menu a line of
// service has a figure; a dish that stands in no course has none.
func nearest(place Place, word string, figure bool) *Word {
	var texts []string
	var found []*Word
	for i := range words {
		if words[i].Allowed(place) && (figure || place != InMenu || !words[i].Allowed(InKitchen) || words[i].Allowed(InBook)) {
			texts = append(texts, words[i].Text)
			found = append(found, &words[i])
		}
	}
	best := diag.Nearest(word, texts)
	for i, t := range texts {
		if t == best && best != "" {
			return found[i]
		}
	}
	return nil
}
