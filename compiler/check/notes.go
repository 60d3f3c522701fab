package check

import (
	"strings"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
)

// notes are what rules that compare all recipes ask of each: worked out once for
// a recipe, and kept with what was found in it.
type notes struct {
	names []named // of the recipe, and of each line written in it
	title rune    // see caseOf
	about string  // its headnote, without line ends; empty where it is not its own
}

func notesOf(r *resolve.Recipe) *notes {
	n := &notes{title: caseOf(r.Name)}
	add := func(name, key string, l *resolve.Line, block, known bool) {
		if i := strings.LastIndexByte(name, '/'); i >= 0 {
			name = name[i+1:]
			key = larder.Fold(name)
			_, known = larder.Builtin().Find(name)
		}
		if utf8.RuneCountInString(key) >= leastSlip {
			n.names = append(n.names, named{key: key, text: name, recipe: r, line: l, block: block, known: known, figures: figuresOf(key)})
		}
	}
	_, known := larder.Builtin().FindFolded(r.Key, r.Name)
	add(r.Name, r.Key, nil, true, known)
	for _, l := range r.Lines {
		if ownLine(r, l) {
			add(l.Name, l.Key, l, l.From != nil, l.Item != nil)
		}
	}
	if r.About != nil && mine(r, r.About.Span) {
		n.about = strings.Join(strings.Fields(aboutText(r)), " ")
	}
	return n
}

// noted are the notes of every recipe, in their order.
func (p *Pass) noted() []*notes { return p.shared.notes }
