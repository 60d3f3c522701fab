package sheets

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// cooks is the run sheet once more, a group for each cook and day: the paper
// each carries.
func (b *builder) cookSheets() *Sheet {
	t := &Table{Columns: []Column{
		{Title: "Time", Kind: ClockColumn},
		{Kind: MarkColumn},
		{Title: "What", Kind: TextColumn, Weight: 6},
		{Title: "Where", Kind: TextColumn, Weight: 3},
		{Title: "Hands free", Kind: ClockColumn},
		{Title: "Done", Kind: TickColumn},
	}}
	type event struct {
		at  int
		row Row
	}
	for _, name := range b.cooks() {
		var events []event
		for _, j := range b.line.Jobs {
			for _, tc := range b.touches(j) {
				if slices.Contains(tc.cooks, name) {
					events = append(events, event{tc.at, Row{Cells: []Cell{
						say(b.clock(tc.at)),
						{Runs: linked(b.mark(j.Making), b.linkTo(j.Making))},
						{Runs: plainRun(tc.what), Sub: quiet(tc.dish)},
						say(b.place(j)),
						{},
						{},
					}}})
				}
			}
			if !slices.Contains(j.Cooks, name) {
				continue
			}
			free := j.Start()
			for _, p := range j.Phases {
				if p.Kind != resolve.Leave {
					free = p.End
				}
			}
			what, mark, link, dish := capital(j.Title), "", "", ""
			if j.Making != nil {
				mark, link, dish = b.mark(j.Making), b.linkTo(j.Making), j.Making.Recipe.Name
				if j.Step != nil {
					what = stepLine(j)
				}
			}
			events = append(events, event{j.Start(), Row{Cells: []Cell{
				say(b.clock(j.Start())),
				{Runs: linked(mark, link)},
				{Runs: plainRun(what), Sub: quiet(dish)},
				say(b.place(j)), say(b.clock(free)),
				{},
			}}})
		}
		slices.SortStableFunc(events, func(x, y event) int { return x.at - y.at })
		for i, e := range events {
			if i == 0 || b.dayOf(e.at) != b.dayOf(events[i-1].at) {
				t.Groups = append(t.Groups, Group{Title: name, Note: b.dayName(e.at)})
			}
			g := &t.Groups[len(t.Groups)-1]
			g.Rows = append(g.Rows, e.row)
		}
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &Sheet{ID: b.id("by-cook"), Kind: ByCook, Title: "Cook by cook", Facts: []string{"each cook’s own work, in order of time"}, Blocks: []Block{t}}
}

// touch is a moment at which something that is left wants a hand.
type touch struct {
	at              int
	what, dish, who string
	cooks           []string
}

// touches are the moments of a job, with words for a list.
func (b *builder) touches(j *timeline.Job) (out []touch) {
	if j.Making == nil || j.Step == nil {
		return nil
	}
	for _, t := range j.Touches {
		if t.Swap { // the job's own line says it
			continue
		}
		what := t.Text
		if what == "" {
			what = "See to it: " + lowerFirst(j.Step.Step.Title)
		}
		out = append(out, touch{
			at: t.Start, what: what, dish: fmt.Sprintf("%s, step %d", j.Making.Recipe.Name, b.number(j)), who: strings.Join(t.Cooks, ", "), cooks: t.Cooks,
		})
	}
	return out
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

func say(s string) Cell { return Cell{Runs: plainRun(s)} }

func plainRun(s string) []Run {
	if s == "" {
		return nil
	}
	return []Run{{Text: s}}
}

func quiet(s string) []Run {
	if s == "" {
		return nil
	}
	return []Run{{Text: s, Style: Quiet}}
}

func linked(s, link string) []Run {
	if s == "" {
		return nil
	}
	return []Run{{Text: s, Link: link}}
}

// ovenHeat is a heat as the oven is set, in the degrees of the practice.
func (b *builder) ovenHeat(celsius int, fan bool) string {
	return timeline.Setting(celsius, fan, larder.Practice(b.practice()) == "US")
}

// stepLine is what a step says, with the load of it that is meant.
func stepLine(j *timeline.Job) string {
	if j.Step.Step.OnlyIfNeeded {
		return strings.TrimSuffix(j.Step.Step.Line, ".") + ", only if needed"
	}
	if load := j.LoadText(); load != "" {
		return strings.TrimSuffix(j.Step.Step.Line, ".") + ": " + load
	}
	return j.Step.Step.Line
}
