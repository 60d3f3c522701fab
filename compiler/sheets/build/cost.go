package build

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// cost is the cost card: what each dish and a portion of it cost, by the
// prices of the larder. Without prices there is none.
func (b *builder) cost() *sheets.Sheet {
	list := b.buying()
	dishes, ok := list.ByDish(b.meal)
	if !ok {
		return nil
	}
	currency := list.Costs[0].Currency
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.MarkColumn},
		{Title: "Dish", Kind: sheets.TextColumn, Weight: 4},
		{Title: "For", Kind: sheets.ClockColumn},
		{Title: "In all", Kind: sheets.ClockColumn},
		{Title: "Each", Kind: sheets.ClockColumn},
		{Title: "Without a price", Kind: sheets.TextColumn, Weight: 4},
	}}
	served := sheets.Group{Title: "What is used", Note: "a dish with its share of the bases, and what a portion comes to"}
	bases := sheets.Group{Title: "Bases", Note: "contained in the above"}
	cents := sharesOf(list.Costs[0].Amount, dishes)
	for i, d := range dishes {
		m := d.Making
		all, portion := costCell(buying.Cost{Amount: quantity.Frac(cents[i], 100)}, d.Unpriced), sheets.Cell{}
		if p, ok := d.PerPortion(); ok {
			if portion = say(money(buying.Cost{Amount: p})); len(d.Unpriced) > 0 {
				portion = say("?")
			}
		}
		row := sheets.Row{Cells: []sheets.Cell{
			{Runs: []sheets.Run{{Text: b.mark(m), Link: b.linkTo(m)}}},
			{Runs: []sheets.Run{{Text: m.Recipe.Name, Style: sheets.Thing}}},
			portionsCell(m), all, portion,
			{Runs: []sheets.Run{{Text: strings.Join(d.Unpriced, ", "), Style: sheets.Quiet}}},
		}}
		if m.Supply == nil {
			served.Rows = append(served.Rows, row)
		} else {
			bases.Rows = append(bases.Rows, row)
		}
	}
	total := list.Costs[0]
	var missing []string
	for _, it := range list.Unpriced {
		missing = append(missing, it.Name)
	}
	covers := b.portionsServed()
	each := func(c buying.Cost) sheets.Cell {
		if covers.Sign() <= 0 {
			return sheets.Cell{}
		}
		return say(money(buying.Cost{Amount: c.Amount.Div(covers), Currency: currency}))
	}
	count := sheets.Cell{}
	if covers.Sign() > 0 {
		count = say(portions(covers))
	}
	whole := func(c buying.Cost) sheets.Row {
		a := each(c)
		if len(missing) > 0 && covers.Sign() > 0 {
			a = say("?")
		}
		return sheets.Row{Strong: true, Cells: []sheets.Cell{{}, say("The meal, and a cover"), count, costCell(c, missing), a, {}}}
	}
	served.Rows = append(served.Rows, whole(total))
	t.Groups = append(t.Groups, served)
	if len(bases.Rows) > 0 {
		t.Groups = append(t.Groups, bases)
	}
	if till := list.Till; len(till) == 1 {
		bought := sheets.Group{Title: "What is paid at the till", Note: "whole packs and pieces, as on the shopping list"}
		bought.Rows = append(bought.Rows, whole(till[0]))
		t.Groups = append(t.Groups, bought)
	}
	if c := b.opt.Charge; c.Sign() > 0 && covers.Sign() > 0 {
		percent, _ := total.Amount.Div(covers).Div(c).Mul(quantity.Int(100)).Add(quantity.Frac(1, 2)).Int64()
		cost := fmt.Sprintf("%d%%", percent)
		if len(missing) > 0 {
			cost = "at least " + cost
		}
		t.Groups = append(t.Groups, sheets.Group{Title: "What is charged", Rows: []sheets.Row{
			{Cells: []sheets.Cell{{}, say("Charged for a cover"), {}, {}, say(money(buying.Cost{Amount: c, Currency: currency})), {}}},
			{Strong: true, Cells: []sheets.Cell{{}, say("Food cost"), {}, {}, say(cost), {}}},
		}})
	}
	named := "the prices name no currency"
	if currency != "" {
		named = "in " + currency
	}
	facts := []string{named + "; fuel is not counted"}
	if n := len(missing); n > 0 {
		facts = append(facts, fmt.Sprintf("prices are known for %d of %s; a ? stands where one is missing", len(list.Items)-n, plural(len(list.Items), "thing", "things")))
	}
	return &sheets.Sheet{ID: b.id("cost"), Kind: sheets.CostCard, Title: "Cost card", Facts: facts, Blocks: []sheets.Block{t}}
}

// portionsCell is for how many a served dish is.
func portionsCell(m *demand.Making) sheets.Cell {
	if m.Supply != nil || m.Portions.Sign() <= 0 {
		return sheets.Cell{}
	}
	return say(portions(m.Portions))
}

// portions is for how many, where a child may count half: 26½.
func portions(n quantity.Number) string {
	return quantity.Pieces(n).Print(quantity.Style{Glyphs: true, Exact: true})
}

// costCell is a sum; where a price is missing nobody knows it, and what is known
// of it stands below.
func costCell(c buying.Cost, unpriced []string) sheets.Cell {
	if len(unpriced) == 0 {
		return say(money(c))
	}
	out := say("?")
	if c.Amount.Sign() > 0 {
		out.Sub = quiet(money(c) + " known")
	}
	return out
}

// portionsServed is for how many the menu is, a child counting half; 0 when
// nobody says.
func (b *builder) portionsServed() quantity.Number {
	covers, children := b.coversServed()
	return quantity.Int(int64(covers)).Add(quantity.Frac(int64(children), 2))
}

// sharesOf are what the dishes cost in hundredths. Where the served dishes come
// to the whole, their printed costs add up to the printed whole: what rounding
// leaves over goes to those that lost most by it.
func sharesOf(total quantity.Number, dishes []*buying.DishCost) []int64 {
	out := make([]int64, len(dishes))
	var sum quantity.Number
	var served []int
	for i, d := range dishes {
		out[i], _ = d.Amount.Mul(quantity.Int(100)).Add(quantity.Frac(1, 2)).Int64()
		if d.Making.Supply == nil {
			sum = sum.Add(d.Amount)
			served = append(served, i)
		}
	}
	if !sum.Equal(total) {
		return out
	}
	left, _ := total.Mul(quantity.Int(100)).Add(quantity.Frac(1, 2)).Int64()
	lost := func(i int) quantity.Number { return dishes[i].Amount.Sub(quantity.Frac(out[i], 100)) }
	for _, i := range served {
		left -= out[i]
	}
	for ; left != 0 && len(served) > 0; left -= sign(left) {
		slices.SortStableFunc(served, func(x, y int) int { return lost(y).Cmp(lost(x)) })
		if left > 0 {
			out[served[0]]++
		} else {
			out[served[len(served)-1]]--
		}
	}
	return out
}

func sign(n int64) int64 {
	if n < 0 {
		return -1
	}
	return 1
}
