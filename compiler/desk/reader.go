package desk

import (
	"strings"

	"tamis/compiler"
)

// Reader says of a compiled book what a hover says, to who has no editor.
type Reader struct{ room *room }

// NewReader reads a result of the compiler; plan is the same book with its menus planned,
// or nil. It is used up when one of them is.
func NewReader(now, plan *compiler.Result) *Reader {
	return &Reader{&room{tree: now.Tree, now: now, plan: planning{last: made{result: plan}}}}
}

// Line is what is said of a line of a file, counted from 1, in Markdown: of the sentence
// that stands there, else of the first thing named there, else of its first word. It is
// empty where nothing is to be said.
func (r *Reader) Line(path string, line int) string {
	f := r.room.file(path)
	if f == nil || line < 1 || line > f.Source.Lines() {
		return ""
	}
	sh := &sheet{room: r.room, result: r.room.now, file: f, text: f.Source}
	at := f.Source.LineSpan(line)
	first := at.Start + len(at.Text()) - len(strings.TrimLeft(at.Text(), " \t-"))
	if st := sh.stepAt(first); st != nil {
		c := &card{}
		sh.step(c, st)
		return c.String()
	}
	for _, m := range r.room.names().all {
		if m.at.File == f.Source && at.Start <= m.at.Start && m.at.End <= at.End {
			return sh.card(m.at.Start).String()
		}
	}
	return sh.card(first).String()
}
