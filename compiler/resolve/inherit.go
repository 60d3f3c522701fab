package resolve

import (
	"fmt"

	"tamis/lang/ast"
)

// items gives a recipe's statements with `as X, but` carried out: the other
// block's statements, save that a field given here replaces its like, a gather
// line of a known name replaces that line, a new line is added, and a method
// given here replaces the whole method.
func (b *builder) items(r *Recipe, path []*Recipe) []ast.RecipeItem {
	var as *ast.As
	for _, it := range r.ast.Items {
		if x, ok := it.(*ast.As); ok {
			as = x
		}
	}
	if as == nil {
		return r.ast.Items
	}
	other := b.find(r.Scope, as.Ref.Text)
	if other == nil {
		b.unknownRecipe(r.Scope, nameText(as.Ref), "this block is like")
		return r.ast.Items
	}
	path = append(path, r)
	for _, p := range path {
		if p == other {
			b.diags.Errorf("U106", as.Ref.Span, "%s is like %s, which in the end is like %s", r.Name, other.Name, r.Name).
				WithHelp("write one of them out in full")
			return r.ast.Items
		}
	}
	return merge(b.items(other, path), r.ast.Items, b.fold)
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
			if _, as := it.(*ast.As); !as {
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
	out := make([]ast.GatherItem, len(items))
	for i, it := range items {
		switch x := it.(type) {
		case *ast.Line:
			if n, ok := with[x]; ok {
				x = n
			}
			out[i] = x
		case *ast.SubList:
			c := *x
			c.Items = replaceLines(x.Items, with)
			out[i] = &c
		case *ast.Choice:
			c := *x
			c.Options = nil
			for _, o := range x.Options {
				oc := *o
				oc.Items = replaceLines(o.Items, with)
				c.Options = append(c.Options, &oc)
			}
			out[i] = &c
		default:
			out[i] = it
		}
	}
	return out
}
