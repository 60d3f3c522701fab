package build

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// margin is what stands beside a step's sentence, in the order a cook asks for it:
// what is looked up for from afar, which is heat, times and temperatures, and the
// rest, which is vessels, tools and what comes of it.
func (b *builder) margin(m *demand.Making, s *resolve.Step) (look, rest []string) {
	job := b.plan.First(m, s)
	if len(s.Heats) > 0 {
		oven := ""
		if job != nil {
			oven = job.Where.Oven
		}
		look = append(look, b.ovenText(s, oven)+doubt(s.FireOffered()))
	}
	if s.Rings > 0 {
		if s.Rings > 1 {
			look = append(look, fmt.Sprintf("%d rings, %s", s.Rings, s.Level)+doubt(s.FireOffered()))
		} else {
			look = append(look, "ring "+s.Level+doubt(s.FireOffered()))
		}
	}
	if s.Grill {
		look = append(look, strings.TrimSpace("grill "+s.Level)+doubt(s.FireOffered()))
	}
	if s.Times > 1 {
		look = append(look, timesWords[s.Times]+", one after the other")
	}
	times := false
	for _, c := range s.Margin {
		switch c := c.(type) {
		case *resolve.InPlace:
			look = append(look, string(c.Word)+b.degreesAfter(c.Temp)+doubt(c.Offered))
		case *resolve.WithTool:
			rest = append(rest, c.Name.Text)
		case *resolve.InVessel:
			rest = append(rest, "in "+b.vesselsOf(m, s, c))
		case *resolve.Into:
			text := "into " + intoText(m, c)
			if len(c.Each.Terms) > 0 {
				text += ", " + b.fig.Written(c.Each, m.Recipe.System) + " each"
			}
			rest = append(rest, text)
		case *resolve.Spell:
			if !times {
				times = true
				look = append(look, b.times(s, job)...)
			}
		case *resolve.Target:
			text := string(c.Word) + " " + b.degrees(c.Temp)
			if c.Word == resolve.WordCore && c.For != nil {
				text += " for " + c.For.String()
			}
			look = append(look, text+doubt(c.Offered))
		case *resolve.Within:
			if c.Time != nil {
				look = append(look, "within "+c.Time.String())
			}
		case *resolve.Hold:
			if c.UpTo != nil {
				text := "hold " + c.State + " up to " + c.UpTo.String()
				if c.Temp != nil {
					text += ", " + c.Bound + " " + b.degrees(c.Temp)
				}
				look = append(look, text)
			}
		case *resolve.Made:
			if p := c.Product; p != nil && p.Quantity != nil {
				rest = append(rest, string(c.Word)+" "+b.fig.OfStep(m, p)+" "+c.Name.Text)
			}
		case *resolve.Helpers:
			rest = append(rest, fmt.Sprintf("with %d cooks", c.Count))
		case *resolve.Caution:
			rest = append(rest, "mind: "+c.Text.Text)
		}
	}
	if job == nil { // no clock beside it says so
		for _, c := range []struct {
			word   string
			before *time.Duration
		}{{"start", s.StartBefore}, {"done", s.DoneBefore}} {
			if c.before != nil {
				look = append(look, c.word+" "+quantity.TimeText(*c.before)+" before serving")
			}
		}
	}
	if job != nil && job.Assumed {
		look = append(look, "5 min?")
	}
	return look, rest
}

var timesWords = map[int]string{2: "twice", 3: "three times", 4: "four times"}

// doubt is the mark of what nobody has confirmed.
func doubt(offered bool) string {
	if offered {
		return "?"
	}
	return ""
}

// intoText is `into 24 dumplings`, as many as there are at this size.
func intoText(m *demand.Making, c *resolve.Into) string {
	n := Into(m, c)
	return fmt.Sprintf("%d %s", n, figures.InNumber(c.Name.Text, quantity.Int(int64(n))))
}

// Into is how many vessels or pieces an `into` clause comes to at a making's
// size, to the nearest whole one and at least one.
func Into(m *demand.Making, c *resolve.Into) int {
	return figures.WholePieces(m.Factor.Mul(quantity.Int(int64(c.Count))))
}

func (b *builder) degreesAfter(t *quantity.Temperature) string {
	if t == nil {
		return ""
	}
	return ", " + b.degrees(t)
}

func withArticle(name string) string {
	for _, a := range []string{"a ", "an ", "the "} {
		if strings.HasPrefix(name, a) {
			return name
		}
	}
	return "the " + name
}

// vesselsOf is the vessel of a step, or how many of them at this size.
func (b *builder) vesselsOf(m *demand.Making, s *resolve.Step, c *resolve.InVessel) string {
	if c.Count == 0 {
		return withArticle(c.Name.Text)
	}
	n := b.vesselCount(m, s, c)
	return fmt.Sprintf("%d %s", n, figures.InNumber(c.Name.Text, quantity.Int(int64(n))))
}

// vesselText is a vessel, with how many there are of it.
func (b *builder) vesselText(w events.Place) string {
	name := b.vesselName(w.Vessel)
	if w.Vessels > 1 {
		return fmt.Sprintf("%d %s", w.Vessels, figures.InNumber(name, quantity.Int(2)))
	}
	return name
}

// vesselCount is how many vessels a step takes at this size.
func (b *builder) vesselCount(m *demand.Making, s *resolve.Step, c *resolve.InVessel) int {
	if job := b.plan.First(m, s); job != nil {
		return max(1, job.Where.Vessels)
	}
	n, _ := quantity.Int(int64(c.Count)).Mul(m.Factor).Ceil().Int64()
	return max(1, int(n))
}

// ovenText is the oven's settings, with the shelf, and the oven the plan chose
// where the step asks for one by name.
func (b *builder) ovenText(s *resolve.Step, oven string) string {
	var parts []string
	for _, h := range s.Heats {
		t := b.heatText(h, s.Recipe.System)
		if h.For > 0 {
			t += " for " + minutes(int(h.For/time.Minute))
		}
		parts = append(parts, t)
	}
	text := "oven " + strings.Join(parts, ", then ")
	if s.Fan != "" {
		text += ", fan " + s.Fan
	}
	if s.Shut != nil {
		text += ", shut for " + s.Shut.String()
	}
	if s.Shelf != "" {
		text += ", " + s.Shelf + " shelf"
	}
	if s.Shelves > 1 {
		text += fmt.Sprintf(", %d shelves", s.Shelves)
	}
	if oven != "" && s.Oven != "" {
		text += ", " + oven
	}
	return text
}

// degrees is a temperature of food in the scale that was asked for, to the
// nearest degree.
func (b *builder) degrees(t *quantity.Temperature) string {
	switch b.opt.Units {
	case quantity.NoSystem:
		return t.Print()
	case quantity.US:
		return t.To(quantity.Fahrenheit).Print()
	}
	return t.To(quantity.Celsius).Print()
}

// heatText is one setting of an oven: the writer's own, in the scale that was
// asked for; behind a mark or a word, what it stands for.
func (b *builder) heatText(h resolve.Heat, system quantity.System) string {
	if b.opt.Units != quantity.NoSystem {
		system = b.opt.Units
	}
	scale := quantity.Celsius
	if system == quantity.US {
		scale = quantity.Fahrenheit
	}
	w := h.Written
	switch {
	case w.Gas == "" && w.Word == "":
		t := w.Temp
		if b.opt.Units != quantity.NoSystem {
			t = t.Customary(scale)
		}
		if w.Fan {
			return t.Print() + " fan"
		}
		return t.Print()
	case h.High == 0:
		return w.String()
	}
	return w.String() + " (" + quantity.Temperature{Low: h.Low, High: h.High, Scale: quantity.Celsius}.Customary(scale).Print() + ")"
}

// times are the phases with their lengths at this size: as planned if there is
// a plan, else as written.
func (b *builder) times(s *resolve.Step, job *events.Event) (out []string) {
	i := -1 // the phase of the job: attention now and then is none
	for _, sp := range s.Phases {
		if sp.Every == nil {
			i++
		}
		word := onPaper(sp.Kind)
		switch sp.Word {
		case resolve.WordThenWork:
			word = "then " + word
		case resolve.WordRest, resolve.WordStand, resolve.WordThaw:
			word = string(sp.Word)
		}
		length := ""
		switch {
		case job != nil && job.Loads > 1 && sp.Per != nil && sp.Each.Load: // each load has its own time
			length = sp.Per.String() + " a load"
			if sp.Fixed != nil {
				length = sp.Fixed.String() + " and " + length
			}
			if loads := b.loads(job); !slices.Contains(out, loads) {
				out = append(out, loads)
			}
		case job != nil && sp.Every == nil && i < len(job.Phases) && job.Phases[i].Kind == sp.Kind:
			p := job.Phases[i]
			length = minutes(int(p.Length()))
			switch {
			case p.Stretch > 0 && sp.Per == nil:
				length = spellText(&sp) // as it is written: at least, and at most
			case p.Least > 0 && p.Least < p.Length():
				length = spanText(int(p.Least), int(p.Length()))
			}
		default:
			length = spellText(&sp)
		}
		text := word + " " + length
		if sp.Fixed != nil && sp.Fixed.About {
			text = word + " about " + strings.TrimPrefix(length, "about ")
		}
		if sp.Place != "" && sp.Place != "room" {
			text += ", " + sp.Place
		}
		if !sp.Until.IsZero() {
			text += ", until " + sp.Until.Text
		}
		if sp.Offered {
			text += "?"
		}
		out = append(out, text)
	}
	return out
}

// onPaper is what a sheet calls a kind of time: what the margin calls work is
// hands-on.
func onPaper(k resolve.SpellKind) string {
	if k == resolve.Work {
		return "hands-on"
	}
	return string(k)
}

// mostTimes is how many further loads have their times printed beside the step.
const mostTimes = 4

// loads says how many equal loads there are, and when those after the first
// are begun, where they are planned one by one.
func (b *builder) loads(first *events.Event) string {
	text := fmt.Sprintf("%d equal loads", first.Loads)
	var at []string
	for _, job := range b.plan.Jobs(first.Dish, first.Step.Step) {
		if job.Load > 1 {
			at = append(at, b.plan.Clock(job.At))
		}
	}
	if n := len(at); n == 0 || n > mostTimes {
		return text
	} else if n > 1 {
		at = []string{strings.Join(at[:n-1], ", ") + " and " + at[n-1]}
	}
	return text + ", the next at " + at[0]
}

// spanText writes "35 to 40 min".
func spanText(low, high int) string {
	return quantity.TimeRangeText(time.Duration(low)*time.Minute, time.Duration(high)*time.Minute)
}

func spellText(s *resolve.Spell) string {
	var parts []string
	for _, p := range s.Points {
		parts = append(parts, p.Time.String()+" at "+p.Weight.String())
	}
	if s.AtMost != nil {
		parts = append(parts, "at most "+s.AtMost.String())
	}
	if len(parts) > 0 {
		return strings.Join(parts, ", ")
	}
	if s.Fixed != nil {
		parts = append(parts, s.Fixed.String())
	}
	if s.Per != nil {
		each := "load"
		if !s.Each.Load {
			each = strings.TrimSpace(strings.TrimPrefix(s.Each.Measure.String(), "1 ") + " " + s.Each.Name.Text) // "per lb", as one says
			if s.Each.Largest {
				each += " of the largest"
			}
		}
		parts = append(parts, s.Per.String()+" per "+each)
	}
	text := strings.Join(parts, " plus ")
	if s.Every != nil {
		text += " every " + s.Every.String()
	}
	return text
}
