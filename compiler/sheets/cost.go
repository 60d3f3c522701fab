package sheets

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/buying"
	"tamis/lang/quantity"
)

// cost is the cost card: what each dish and a portion of it cost, by the
// prices of the larder. Without prices there is none.
func (b *builder) cost() *Sheet {
	list := b.buying()
	dishes, ok := list.ByDish(b.meal)
	if !ok {
		return nil
	}
	currency := list.Costs[0].Currency
	t := &Table{Columns: []Column{
		{Kind: MarkColumn},
		{Title: "Dish", Kind: TextColumn, Weight: 4},
		{Title: "In all", Kind: ClockColumn},
		{Title: "A portion", Kind: ClockColumn},
		{Title: "Without a price", Kind: TextColumn, Weight: 4},
	}}
	served, bases := Group{Title: "Dishes", Note: "each with its share of the bases"}, Group{Title: "Bases", Note: "contained in the above"}
	covers := quantity.Number{}
	cents := sharesOf(list.Costs[0].Amount, dishes)
	for i, d := range dishes {
		m := d.Making
		portion := ""
		if p, ok := d.PerPortion(); ok {
			portion = money(buying.Cost{Amount: p})
			covers = quantity.Max(covers, m.Portions)
		}
		row := Row{Cells: []Cell{
			{Runs: []Run{{Text: b.mark(m), Link: b.linkTo(m)}}},
			{Runs: []Run{{Text: m.Recipe.Name, Style: Thing}}},
			{Runs: []Run{{Text: money(buying.Cost{Amount: quantity.Frac(cents[i], 100)})}}},
			{Runs: []Run{{Text: portion}}},
			{Runs: []Run{{Text: strings.Join(d.Unpriced, ", "), Style: Quiet}}},
		}}
		if m.Supply == nil {
			served.Rows = append(served.Rows, row)
		} else {
			bases.Rows = append(bases.Rows, row)
		}
	}
	total, foodCost := list.Costs[0], ""
	sum := Row{Strong: true, Cells: []Cell{{}, {Runs: []Run{{Text: "The meal, and a cover"}}}, {Runs: []Run{{Text: money(buying.Cost{Amount: total.Amount})}}}, {}, {}}}
	if c := b.opt.Charge; c.Sign() > 0 && covers.Sign() > 0 {
		percent, _ := total.Amount.Div(covers).Div(c).Mul(quantity.Int(100)).Add(quantity.Frac(1, 2)).Int64()
		foodCost = fmt.Sprintf("food cost %d%% of the %s charged for a cover", percent, money(buying.Cost{Amount: c}))
	}
	if covers.Sign() > 0 {
		sum.Cells[3] = Cell{Runs: []Run{{Text: money(buying.Cost{Amount: total.Amount.Div(covers)})}}}
	}
	served.Rows = append(served.Rows, sum)
	t.Groups = append(t.Groups, served)
	if len(bases.Rows) > 0 {
		t.Groups = append(t.Groups, bases)
	}
	facts := []string{"by the prices in the larder, for what is used; whole packs and fuel are not counted"}
	if foodCost != "" {
		facts = append(facts, foodCost)
	}
	if currency != "" {
		facts = append(facts, "in "+currency)
	}
	if n := len(list.Unpriced); n > 0 {
		facts = append(facts, fmt.Sprintf("%s without a price", plural(n, "thing", "things")))
	}
	return &Sheet{ID: b.id("cost"), Kind: CostCard, Title: "Cost card", Facts: facts, Blocks: []Block{t}}
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
