package resolve

import (
	"time"

	"tamis/lang/ast"
)

// How long food may wait when neither the writer nor the kitchen says:
// common practice, no source.
const (
	WaitHot      = 10 * time.Minute
	WaitCold     = time.Hour
	WaitPrepared = 4 * time.Hour
)

// DefaultPreheat is how long an oven takes to come to heat when the kitchen
// does not say: common practice, no source.
const DefaultPreheat = 15 * time.Minute

func (b *builder) addKitchen(scope *Scope, x *ast.Kitchen) {
	key := b.fold(x.Title.Text)
	if first, ok := scope.Kitchens[key]; ok {
		b.twice("kitchen", x.Title, first.AST.Title)
		return
	}
	k := &Kitchen{AST: x, Name: x.Title.Text, WaitHot: WaitHot, WaitCold: WaitCold, WaitPrepared: WaitPrepared}
	scope.Kitchens[key] = k
	for _, item := range x.Items {
		b.washUp(k, item)
		switch it := item.(type) {
		case *ast.Oven:
			o := Oven{Name: it.Title.Text, Key: b.fold(it.Title.Text), Shelves: max(1, it.Shelves), Fan: it.Fan, Gas: it.Gas, Preheat: DefaultPreheat}
			if it.Preheat != nil {
				o.Preheat = it.Preheat.High
			}
			k.Ovens = append(k.Ovens, o)
		case *ast.Rings:
			k.Rings = it.Count
		case *ast.Names:
			for _, n := range it.Names {
				if it.Key == "cooks" {
					k.Cooks = append(k.Cooks, n.Text)
				} else {
					t := Tool{Name: n.Text, Key: b.fold(n.Text)}
					if it.Washed != nil {
						t.Washed = longest(it.Washed)
					}
					k.Tools = append(k.Tools, t)
				}
			}
		case *ast.Vessel:
			v := Vessel{Name: it.Title.Text, Key: b.fold(it.Title.Text), Count: max(1, it.Count)}
			if len(it.Holds.Terms) > 0 {
				v.Holds = b.measure(&Recipe{Scope: scope, System: scope.Units()}, it.Holds, it.Span)
			}
			k.Vessels = append(k.Vessels, v)
		case *ast.Waits:
			switch it.State {
			case "hot":
				k.WaitHot = longest(&it.Time)
			case "cold":
				k.WaitCold = longest(&it.Time)
			case "prepared":
				k.WaitPrepared = longest(&it.Time)
			}
		case *ast.Common:
			if it.Key == "practice" {
				k.Practice = it.Text.Text
			}
		}
	}
}

func (b *builder) findKitchen(s *Scope, name ast.Name) *Kitchen {
	key := b.fold(name.Text)
	for ; s != nil; s = s.Parent {
		if k, ok := s.Kitchens[key]; ok {
			return k
		}
	}
	return nil
}
