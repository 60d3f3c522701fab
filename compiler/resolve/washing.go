package resolve

import (
	"slices"
	"strings"
	"time"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// WashWhen says when a kitchen washes up.
type WashWhen string

// The kinds of washing up.
const (
	WashAfterDish WashWhen = "after each dish"
	WashEvery     WashWhen = "every"
	WashBefore    WashWhen = "before serving"
)

// leastEvery is the least time between two washings-up that leaves time to
// cook: common practice, no source.
const leastEvery = 30 * time.Minute

// WashUp is time that a kitchen gives to washing up.
type WashUp struct {
	Span    source.Span
	When    WashWhen
	Time    time.Duration  // how long it takes
	Every   time.Duration  // of WashEvery
	By      []string       // folded names of those who may do it; empty: anyone
	Written quantity.Span  // Time as written
	Again   *quantity.Span // Every as written
	Named   []Text         // By as written
}

// Words is the line as it is written: "wash up 10 min, after each dish, by Jo".
func (w WashUp) Words() string {
	out := "wash up " + w.Written.String() + ", " + string(w.When)
	if w.Again != nil {
		out += " " + w.Again.String()
	}
	for i, n := range w.Named {
		if i == 0 {
			out += ", by"
		} else {
			out += ","
		}
		out += " " + n.Text
	}
	return out
}

// washUp notes a line of washing up, if it makes sense.
func (b *builder) washUp(x *ast.Kitchen, k *Kitchen, item ast.KitchenItem) {
	it, ok := item.(*ast.WashUp)
	if !ok {
		return
	}
	w := WashUp{Span: it.Span, When: WashWhen(it.When), Time: longest(&it.Time), Written: it.Time, Again: it.Every, Named: nameTexts(it.By)}
	if slices.ContainsFunc(k.WashUps, func(o WashUp) bool { return o.When == w.When }) {
		return // the parser has reported it
	}
	if it.Every != nil {
		w.Every = it.Every.Low
	}
	every := w.When == WashEvery
	switch {
	case w.Time <= 0:
		b.diags.Errorf("U138", it.Pos(), "this washing up takes no time").
			WithHelp("write how long it takes: `wash up 10 min, %s`", strings.TrimPrefix(w.Words(), "wash up "+it.Time.String()+", "))
		return
	case every && w.Every < leastEvery:
		b.diags.Errorf("U138", it.Pos(), "washing up every %s leaves no time to cook", it.Every.String()).
			WithHelp("write 30 min or more after `every`, or `after each dish`")
		return
	case every && w.Time >= w.Every:
		b.diags.Errorf("U138", it.Pos(), "this washing up takes %s, and the next is due %s after it", it.Time.String(), it.Every.String()).
			Because("nothing would be cooked in between").
			WithHelp("make it shorter, or write it less often: `every 2 h`")
		return
	}
	cooks := cooksOf(x)
	for _, n := range it.By {
		if len(cooks) > 0 && !slices.ContainsFunc(cooks, func(c string) bool { return b.fold(c) == b.fold(n.Text) }) {
			d := b.diags.Errorf("U133", n.Span, "%s is no cook of %s", n.Text, k.Name).
				WithHelp("its cooks are %s", strings.Join(cooks, ", "))
			if near := diag.Nearest(n.Text, cooks); near != "" {
				d.Replace("write "+near, false, n.Span, near)
			}
			continue
		}
		w.By = append(w.By, b.fold(n.Text))
	}
	k.WashUps = append(k.WashUps, w)
}

// cooksOf are the cooks a kitchen names, on whichever of its lines.
func cooksOf(x *ast.Kitchen) (out []string) {
	for _, item := range x.Items {
		if it, ok := item.(*ast.Names); ok && it.Key == "cooks" {
			for _, n := range it.Names {
				out = append(out, n.Text)
			}
		}
	}
	return out
}
