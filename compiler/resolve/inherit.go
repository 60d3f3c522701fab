package resolve

import (
	"fmt"
	"maps"
	"slices"

	"tamis/lang/ast"
)

// inherit gives a recipe's statements with `as X, but` carried out: the other
// block's statements, save that a field given here replaces its like, a gather
// line of a known name replaces that line, a new line is added, a method given here
// replaces the whole method, and what is changed by name or number is changed
// (variant.go). Of several blocks the lists are added up; one of them may have a method.
func (b *builder) inherit(r *Recipe, path []*Recipe) *changed {
	plain := &changed{items: r.ast.Items, renamed: map[*ast.Line][]string{}, numbers: map[*ast.Step]map[int]int{}}
	var as *ast.As
	var change ast.Node
	for _, it := range r.ast.Items {
		switch x := it.(type) {
		case *ast.As:
			as = x
		case *ast.Without, *ast.Replace, *ast.Change:
			change = x
		}
	}
	if as == nil {
		if change != nil {
			b.diags.Errorf("U146", change.Base().Span, "%s is like no other block, so there is nothing to change", r.Name).
				WithHelp("write the other block first: `as Brown roux, but`")
		}
		return plain
	}
	path = append(path, r)
	out := &changed{renamed: map[*ast.Line][]string{}, numbers: map[*ast.Step]map[int]int{}}
	var first *ast.Name // the block whose method it is
	for i, ref := range append([]ast.Name{as.Ref}, as.Also...) {
		other := b.find(r.Scope, ref.Text)
		if other == nil {
			b.unknownRecipe(r.Scope, nameText(ref), "this block is like")
			return plain
		}
		for _, p := range path {
			if p == other {
				b.diags.Errorf("U106", ref.Span, "%s is like %s, which in the end is like %s", r.Name, other.Name, r.Name).
					WithHelp("write one of them out in full")
				return plain
			}
		}
		if len(path) == 1 && !slices.Contains(r.parents, other) { // r itself is being read, not what another is like
			r.parents = append(r.parents, other)
		}
		theirs := b.inherit(other, path)
		if slices.ContainsFunc(theirs.items, func(it ast.RecipeItem) bool { _, ok := it.(*ast.Method); return ok }) {
			if first != nil {
				b.diags.Errorf("U144", ref.Span, "%s has a method, and so has %s", ref.Text, first.Text).
					See(first.Span, "the first").
					Because("steps of two methods have no order between them").
					WithHelp("write the method here, or leave one of the two out and gather it by its name")
				return plain
			}
			first = &ref
		}
		if i == 0 {
			out.items = slices.Clone(theirs.items)
		} else {
			out.items = addUp(out.items, theirs.items)
		}
		out.gone = append(out.gone, theirs.gone...)
		maps.Copy(out.renamed, theirs.renamed)
		maps.Copy(out.numbers, theirs.numbers)
	}
	b.variant(r, out)
	out.items = merge(out.items, r.ast.Items, b.fold)
	return out
}

// addUp puts the statements of a further block to those of the first: its lines come
// after theirs, and where both have a field the first one's holds.
func addUp(first, more []ast.RecipeItem) []ast.RecipeItem {
	have := map[string]int{}
	for i, it := range first {
		have[itemKey(it)] = i
	}
	for _, it := range more {
		at, ok := have[itemKey(it)]
		if !ok {
			first = append(first, it)
			continue
		}
		if g, ok := it.(*ast.Gather); ok {
			sum := *first[at].(*ast.Gather)
			sum.Items = slices.Concat(sum.Items, g.Items)
			first[at] = &sum
		}
	}
	return first
}

func merge(theirs, ours []ast.RecipeItem, fold func(string) string) []ast.RecipeItem {
	given := map[string]ast.RecipeItem{}
	for _, it := range ours {
		given[itemKey(it)] = it
	}
	var out []ast.RecipeItem
	for _, it := range theirs {
		key := itemKey(it)
		mine, ok := given[key]
		switch {
		case !ok:
			out = append(out, it)
		case key == "gather":
			out = append(out, mergeGather(it.(*ast.Gather), mine.(*ast.Gather), fold))
		default:
			out = append(out, mine)
		}
		delete(given, key)
	}
	for _, it := range ours {
		if _, left := given[itemKey(it)]; left {
			switch it.(type) {
			case *ast.As, *ast.Without, *ast.Replace, *ast.Change: // carried out
			default:
				out = append(out, it)
			}
		}
	}
	return out
}

// itemKey names the field an item is, so that one given here can replace it.
func itemKey(it ast.RecipeItem) string {
	switch x := it.(type) {
	case *ast.Common:
		return x.Key + x.Code
	case *ast.Gather:
		return "gather"
	case *ast.Method:
		return "method"
	}
	return fmt.Sprintf("%T", it)
}

func mergeGather(theirs, ours *ast.Gather, fold func(string) string) *ast.Gather {
	out := *theirs
	if len(ours.PercentOf) > 0 {
		out.PercentOf = ours.PercentOf
	}
	replaced := map[*ast.Line]*ast.Line{}
	out.Items = nil
	var added []ast.GatherItem
	for _, it := range ours.Items {
		line, ok := it.(*ast.Line)
		if !ok {
			added = append(added, it)
			continue
		}
		if old := findLine(theirs.Items, fold(line.Name.Text), fold); old != nil {
			replaced[old] = line
		} else {
			added = append(added, line)
		}
	}
	out.Items = append(replaceLines(theirs.Items, replaced), added...)
	return &out
}

func findLine(items []ast.GatherItem, key string, fold func(string) string) *ast.Line {
	for _, it := range items {
		switch x := it.(type) {
		case *ast.Line:
			if fold(x.Name.Text) == key {
				return x
			}
		case *ast.SubList:
			if l := findLine(x.Items, key, fold); l != nil {
				return l
			}
		case *ast.Choice:
			for _, o := range x.Options {
				if l := findLine(o.Items, key, fold); l != nil {
					return l
				}
			}
		}
	}
	return nil
}

func replaceLines(items []ast.GatherItem, with map[*ast.Line]*ast.Line) []ast.GatherItem {
	out := make([]ast.GatherItem, 0, len(items))
	for _, it := range items {
		switch x := it.(type) {
		case *ast.Line:
			if n, ok := with[x]; ok {
				if x = n; n == nil {
					continue
				}
			}
			out = append(out, x)
		case *ast.SubList:
			c := *x
			c.Items = replaceLines(x.Items, with)
			out = append(out, &c)
		case *ast.Choice:
			c := *x
			c.Options = nil
			for _, o := range x.Options {
				oc := *o
				oc.Items = replaceLines(o.Items, with)
				c.Options = append(c.Options, &oc)
			}
			out = append(out, &c)
		default:
			out = append(out, it)
		}
	}
	return out
}
