package build

import (
	"strings"
	"time"

	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// notes is what a block says of itself beside its prose; nil when that is nothing.
func (b *builder) notes(n *resolve.Notes) *sheets.Prose {
	out := &sheets.Prose{}
	add := func(text string) { out.Paras = append(out.Paras, sheets.Para{Runs: plainRun(text)}) }
	list := func(head string, names []resolve.Text) {
		if len(names) > 0 {
			add(head + " " + strings.Join(texts(names), ", ") + ".")
		}
	}
	list("Also called", n.Also)
	for _, said := range n.Said {
		add("“" + said.Text + "”")
	}
	list("Goes with", n.GoesWith)
	list("Equipment:", n.Equipment)
	list("Props:", n.Props)
	for _, r := range n.Cooked {
		add("Cooked " + longDay(r.Date) + who(r.Who) + ": " + r.Text.Text)
	}
	for _, r := range n.Corrected {
		add("Corrected " + longDay(r.Date) + who(r.Who) + ": " + r.Text.Text)
	}
	if len(out.Paras) == 0 {
		return nil
	}
	return out
}

func longDay(t time.Time) string { return t.Format("2 January 2006") }

func who(names []resolve.Text) string {
	if len(names) == 0 {
		return ""
	}
	return ", " + strings.Join(texts(names), ", ")
}

func texts(names []resolve.Text) (out []string) {
	for _, n := range names {
		out = append(out, n.Text)
	}
	return out
}
