package hazard

import (
	"slices"
	"strings"
	"sync"
	"time"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/prose"
	"tamis/lang/quantity"
)

// Caution is one of the cautions that sheets print and that rules speak of,
// from the one table data/cautions.csv.
type Caution struct {
	Key    string
	Words  []string // of a tool, a vessel or a step, that call for it
	Signs  []string // whose words a finding points at
	Speaks []string // words by which a writer's caution speaks of it
	Short  string   // beside the step that calls for it; empty: only the whole of it is printed
	Text   string
	Source string // as printed: who, and how it was seen; or that nobody was
}

var cautions = sync.OnceValue(func() []*Caution {
	var out []*Caution
	for _, r := range rowsOf("cautions") {
		c := &Caution{Key: r[0], Words: listed(r[1]), Signs: listed(r[2]), Speaks: listed(r[3]), Short: r[4], Text: r[5], Source: r[6]}
		switch {
		case r[8] == "from memory":
			c.Source = "common practice, no source"
		case r[7] == "secondary":
			c.Source += ", as seen quoted"
		}
		out = append(out, c)
	}
	return out
})

// listed are the things of a cell, which " / " stands between.
func listed(cell string) (out []string) {
	for w := range strings.SplitSeq(cell, "/") {
		if w = strings.TrimSpace(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// Cautions are all of them, in the order they are printed in.
func Cautions() []*Caution { return cautions() }

// Find finds a caution by its key; it panics on a key that is not in the table.
func Find(key string) *Caution {
	for _, c := range cautions() {
		if c.Key == key {
			return c
		}
	}
	panic("hazard: no caution " + key)
}

// Hand tells whether a step calls for a caution about hands: by what is in the pot,
// how hot it is, and what is done with it. size is how many times the written size
// is made.
func (c *Caution) Hand(st *Stage, size float64) bool {
	switch c.Key {
	case "mandoline":
		return st.Tells("slicer") && !st.Tells("egg slicer")
	case "pressure cooker":
		return st.Tells("pressure")
	case "blowtorch":
		return st.Tells("torch")
	case "flambé":
		return st.Tells("set alight") && st.flammable()
	case "deep fat":
		return st.deepFat()
	case "sugar":
		return st.hotSugar()
	case "blender":
		return st.blendsHot()
	case "water in fat":
		return st.wetInFat()
	case "heavy pot":
		return st.liftsHot(size)
	case "caustic":
		return st.Tells("caustic") || st.takes("caustic")
	case "dry ice":
		return st.Tells("dry ice") || st.takes("dry ice")
	case "coals indoors":
		return st.Tells("live coals") && st.Tells("indoors") && !st.Tells("outdoors")
	case "hot chillies":
		return st.bareChillies()
	case "glass":
		return st.glassBreaks()
	}
	return false
}

// At tells whether a step calls for a caution: one about hands, or one about what the
// step does with raw food.
func (c *Caution) At(st *Stage, size float64) bool {
	raw := st.After.Totals.Flesh || st.After.Totals.Fish
	switch c.Key {
	case "same tools":
		return raw && st.Tells("same tools")
	case "rinse":
		return st.Tells("rinse") && slices.ContainsFunc(st.After.Items, func(i *Item) bool { return i.Is(Poultry) && i.RawAt(st.N) })
	case "marinade":
		return raw && st.Tells("left liquid")
	case "thaw":
		return raw && !st.Before.Cooked && st.Tells("thaw", "half frozen", "refreeze")
	}
	return c.Hand(st, size)
}

// Beside are the cautions that a step calls for and that have a short line, save where
// the writer has put a caution there.
func (t *Trace) Beside(s *resolve.Step, size float64) (out []*Caution) {
	i := slices.IndexFunc(t.Stages, func(st *Stage) bool { return st.Step.Same(s) })
	if i < 0 || resolve.First[*resolve.Caution](s.Margin) != nil {
		return nil
	}
	for _, c := range cautions() {
		if c.Short != "" && c.At(t.Stages[i], size) && !(c.Key == "thaw" && s.Place == "fridge") {
			out = append(out, c)
		}
	}
	return out
}

// takes tells whether a line that the step takes has a sign.
func (st *Stage) takes(sign string) bool {
	return slices.ContainsFunc(st.Taken, func(i *Item) bool { return i.Says(sign) })
}

// flammable tells whether there is spirit in the pot, or the word leaves no doubt.
func (st *Stage) flammable() bool {
	return hasWord(st.text, "flambé", "flambe", "flambéed", "flambéing", "ignite", "set it alight", "set alight", "match") ||
		slices.ContainsFunc(st.After.Items, func(i *Item) bool {
			return i.Has(larder.Alcohol) || hasWord(strings.ToLower(i.Name), "brandy", "rum", "cognac", "whisky", "whiskey", "calvados", "vodka", "liqueur", "spirit", "kirsch", "grappa", "tequila", "sambuca", "armagnac", "bourbon", "schnapps", "gin")
		})
}

// deepFat tells whether a step fries in so much fat that food swims in it: the words
// say so, or there is more than half a litre of it and it is hot enough to fry.
func (st *Stage) deepFat() bool {
	if said := st.SaidBy("deep fat"); strings.Contains(said, "deep") && !strings.Contains(said, "fr") && !strings.Contains(said, "fat") && !strings.Contains(said, "oil") {
		if f := st.After.fat(); f > 0 && f < lined || !st.Says("oil", "fat", "lard", "dripping", "ghee", "tallow", "fry", "fries") { // batter an inch deep
			return false
		}
	}
	if st.Tells("deep fat") && !(st.Tells("not a fryer") && st.After.Totals.Fat < deep) {
		bought := slices.ContainsFunc(st.After.Items, func(i *Item) bool { return hasWord(strings.ToLower(i.Name), "deep-fried", "deep fried") })
		return !bought || st.After.Totals.Fat >= deep
	}
	if st.Boils() && !st.takesFat() && !st.Says("oil", "fat", "lard", "dripping", "ghee", "fry", "fries") {
		return false // the fat of another pan
	}
	if st.Step.Level == "low" && st.Says("poach", "poaches", "confit", "gently", "slowly") {
		return false
	}
	return st.After.Totals.Fat >= deep && (st.Heats && (st.saysDegrees(140, 205) || st.Step.Level == "high" || st.Says("fry", "fried", "crisp", "golden", "batches")) || st.Tells("burning oil", "into fat") || st.Says(frying...))
}

// takesFat tells whether a step takes fat.
func (st *Stage) takesFat() bool {
	return slices.ContainsFunc(st.Taken, func(i *Item) bool { return i.fat })
}

// fat is how much fat the list has for a pot.
func (p Pot) fat() (g float64) {
	for _, i := range p.Items {
		if i.fat {
			g += i.mass
		}
	}
	return g
}

// frying are words of what swims in hot fat.
var frying = []string{"fry", "fries", "frying", "fried", "crisp", "crispy", "golden", "brown", "browned", "swim", "sizzle", "sizzles"}

// lined is how many grams of fat are too few for any depth of it. Common practice, no source.
const lined = 250

// deep is how many grams of fat are deep. Common practice, no source.
const deep = 500

// hotSugar tells whether a step boils sugar: by its words, or to degrees that only
// boiling sugar reaches. Jam sets below them.
func (st *Stage) hotSugar() bool {
	if !st.Heats {
		return false
	}
	if t := st.After.Totals.Sugar; t < 60 && t != 1 { // 1: somebody's sugar without an amount
		return false
	}
	return st.Tells("hot sugar") && !st.Tells("like caramel") || st.saysDegrees(110, 185) && len(st.Step.Heats) == 0 && !st.Says("bake", "roast", "oven", "toast") && st.After.Totals.Fat < deep
}

// blendsHot tells whether what is hot and wet goes into a jug with a lid.
func (st *Stage) blendsHot() bool {
	if st.Tells("stick") && !st.Says("jug", "goblet", "liquidiser", "liquidizer", "food processor") || st.Cools || !st.Before.wet() || st.Before.Warmth != Hot && !st.Heats {
		return false
	}
	if st.Tells("cooled first") && !st.Says("while hot", "boiling", "still hot", "straight from the pan") {
		return false
	}
	tool := st.Tells("jug")
	if st.Before.Warmth != Hot { // it is heated in this very step, and blended after
		return (tool || st.After.Totals.Liquid >= 250 && !st.Tells("stick")) && (st.Tells("whizz") || st.Says("blend")) && st.Boils()
	}
	return tool && (st.Tells("whizz") || st.Says("blend") || len(st.Step.Tools) > 0) || st.Tells("whizz") && st.Before.Totals.Liquid >= 250 && !st.Heats && !st.Opens("fold", "stir")
}

// wetInFat tells whether water, or what drips or is icy, goes into hot fat.
func (st *Stage) wetInFat() bool {
	if !st.Heats {
		return false
	}
	icy := st.Tells("wet food") || slices.ContainsFunc(st.Taken, func(i *Item) bool { return i.Says("wet food") })
	if icy && (st.Tells("into fat") || st.Tells("burning oil")) && st.After.Totals.Fat >= 200 {
		return true
	}
	if st.Says(drips...) && st.deepFat() && st.Says("tip", "drop", "lower", "slide", "add", "throw", "plunge", "put", "into", "batches") {
		return true
	}
	return st.Tells("burning oil") && st.Tells("pour water") && st.After.Totals.Fat > 0
}

// drips are words of what is wetter or colder than a fryer bears, whatever it is sold as.
var drips = []string{"icy", "dripping wet", "still wet", "still dripping", "undrained", "ice crystals", "frosty", "from the freezer", "straight from the water", "straight from the sink", "covered in ice", "in ice", "without drying", "wet from"}

// mostLifted is how many grams of hot food one person may be asked to lift: 16 kg at
// the height of the waist, of which the pot has its share. The guideline weight of
// the UK Health and Safety Executive, from memory.
const mostLifted = 16000

// liftsHot tells whether a step lifts or drains a pot of hot food that is too heavy.
func (st *Stage) liftsHot(size float64) bool {
	if !st.Tells("lift pot") || st.Before.Warmth != Hot && !st.Heats {
		return false
	}
	return st.After.Totals.Mass*size > mostLifted
}

// glassBreaks tells whether glass goes from cold to heat, or from heat to cold.
func (st *Stage) glassBreaks() bool {
	hot := st.Heats || st.Says("boiling", "hot", "scalding")
	return st.Tells("glass shock") && hot || st.Tells("cold jars") && (hot || st.Before.Warmth == Hot)
}

// SourInMetal tells whether food that is sour stands or cooks in bare copper, brass,
// zinc or aluminium. What sugar covers, as in a jam pan, is not asked about.
func (st *Stage) SourInMetal() bool {
	if !st.Tells("bare metal") {
		return false
	}
	sour, sweet := 0.0, st.After.Totals.Sugar
	for _, i := range st.After.Items {
		if i.Sour || hasWord(strings.ToLower(i.Name), "tomato", "tomatoes", "passata", "rhubarb", "wine", "lemon", "lemons", "orange juice", "gooseberries", "cranberries", "buttermilk", "sauerkraut", "cider", "vinegar") {
			sour += max(i.mass, 1)
		}
	}
	return sour > 0 && sour >= 0.1*st.After.Totals.Mass && sweet < 0.4*st.After.Totals.Mass
}

// bareChillies tells whether many hot chillies are cut, or any with bare hands.
func (st *Stage) bareChillies() bool {
	for _, i := range st.Taken {
		name := strings.ToLower(i.Name)
		hot := hasWord(name, "scotch bonnet", "scotch bonnets", "habanero", "habaneros", "bird's eye", "bird's-eye", "naga", "ghost pepper", "ghost peppers", "ghost chillies", "hot chillies", "hot chilli", "hot red chillies", "hot green chillies", "carolina", "scorpion")
		chilli := hot || hasWord(name, "chilli", "chillies", "chilies", "chiles", "chili", "jalapeño", "jalapeños", "serrano", "serranos")
		if !chilli || hasWord(name, "dried", "flakes", "powder", "sauce", "oil", "paste") {
			continue
		}
		if st.Tells("bare hands") || (hot && i.mass >= 60 || i.mass >= 400) && st.Says("chop", "slice", "seed", "deseed", "halve", "cut", "mince", "shred", "dice", "split") {
			return true
		}
	}
	return false
}

// saysDegrees tells whether the words of the step name degrees between two of
// Celsius.
func (st *Stage) saysDegrees(low, high int) bool {
	return slices.ContainsFunc(st.degrees(), func(n int) bool { return low <= n && n <= high })
}

// Warm tells whether the words of the step name so many degrees of Celsius, or more.
func (st *Stage) Warm(c int) bool { return st.saysDegrees(c, 300) }

// degrees are those that the words of the step name, in Celsius.
func (st *Stage) degrees() (out []int) {
	t := st.text
	for i := 0; i < len(t); i++ {
		if !digit(t[i]) || i > 0 && (digit(t[i-1]) || t[i-1] == '.') {
			continue
		}
		n, k := 0, i
		for k < len(t) && digit(t[k]) && n < 10000 {
			n, k = n*10+int(t[k]-'0'), k+1
		}
		rest := strings.TrimLeft(t[k:], " \u00a0")
		rest = strings.TrimLeft(strings.TrimPrefix(rest, "°"), " ")
		rest = strings.TrimPrefix(rest, "degrees ")
		if rest == "" {
			continue
		}
		after := len(rest) == 1 || !isWord(rest[1])
		switch {
		case rest[0] == 'c' && (after || strings.HasPrefix(rest, "celsius")):
			out = append(out, n)
		case rest[0] == 'f' && (after || strings.HasPrefix(rest, "fahrenheit")):
			out = append(out, (n-32)*5/9)
		}
	}
	return out
}

// Bath is how hot the water or the steam is that is all around the food, as the words
// have it: the middle gets no hotter.
func (st *Stage) Bath() (quantity.Temperature, bool) {
	if !st.Heats || !st.Tells("bath") || st.Says("custard", "ramekins", "jars", "oven") {
		return quantity.Temperature{}, false
	}
	d := st.degrees()
	if len(d) == 0 {
		return quantity.Temperature{}, false
	}
	n := slices.Max(d)
	return quantity.Temperature{Low: n, High: n, Scale: quantity.Celsius}, n >= 40 && n < 100
}

// SaidTime is the longest that the words of the step say something lasts.
func (st *Stage) SaidTime() (d time.Duration) {
	for _, t := range prose.Read(st.text[:st.said]).Times {
		if t.Lasting() {
			d = max(d, longest(t.Span))
		}
	}
	return d
}

// SaidTimeOf is how long the words of the step say that one of some verbs lasts, in all: the
// times that no other verb of cooking parts from it. "Boil 10 minutes, then simmer an hour"
// boils for 10.
func (st *Stage) SaidTimeOf(verbs ...string) (d time.Duration) {
	text := st.text[:st.said]
	for _, t := range prose.Read(text).Times {
		if !t.Lasting() {
			continue
		}
		at := -1
		for from := 0; ; {
			i, ok := findWord(text[from:t.From], verbs...)
			if !ok {
				break
			}
			at, from = from+i, from+i+1
		}
		if at >= 0 && !hasWord(text[at+1:t.From], "simmer", "simmers", "cook", "stew", "braise", "bake", "leave", "rest", "soak") {
			d += longest(t.Span)
		}
	}
	return d
}

// wet tells whether there is liquid in a pot, or what gives it.
func (p Pot) wet() bool {
	return slices.ContainsFunc(p.Items, func(i *Item) bool {
		q := i.Line.Quantity
		return i.Plant || i.Strong || i.Line.Water || i.it != nil && i.it.Counter == "greengrocer" || q != nil && q.Dim == quantity.Volume
	})
}

// Raw are the kinds of raw food that the recipe takes and that have a limit of
// cooking, save bones, thin cured meat, fish and eggs.
func (t *Trace) Raw() (out []Kind) {
	for _, k := range []Kind{Poultry, Mince, Pork, Stuffing, Rolled, Offal} {
		if slices.ContainsFunc(t.End.Items, func(i *Item) bool {
			return i.Is(k) && !i.Before && !i.IsKind("bones") && !i.IsKind("cured")
		}) {
			out = append(out, k)
		}
	}
	return out
}

// Facts are what a trace calls for, by the keys of the table and four that
// depend on the practice: cook, cool, reheat and hold. size is how many times the
// written size is made, and e who eats it.
func (t *Trace) Facts(size float64, e *Eaters) map[string]bool {
	r := t.Reading.Recipe
	f := map[string]bool{"cook": len(t.Raw()) > 0}
	for _, i := range t.End.Items {
		f["rice"] = f["rice"] || i.isRice()
		f["kidney beans"] = f["kidney beans"] || i.DriedBeans()
		f["raw egg"] = f["raw egg"] || !t.Reading.Recipe.Base && t.RawEgg(i)
		f["raw fish"] = f["raw fish"] || i.Is(Fish) && !i.Heated && !t.Reading.Recipe.Base
		table := !r.Base && !i.Heated && t.finished()
		f["shellfish"] = f["shellfish"] || i.Shell && !table
		f["raw shellfish"] = f["raw shellfish"] || i.Shell && !i.Before && table
		f["sprouts"] = f["sprouts"] || i.Has(larder.Sprouts)
		f["raw meat"] = f["raw meat"] || i.Flesh && !i.Before && table && r.ServeHow != nil && !i.IsKind("cured") && !i.IsKind("bones")
		f["raw milk"] = f["raw milk"] || i.Says("raw milk") && table
		f["curing salt"] = f["curing salt"] || i.Says("curing salt")
		f["thaw"] = f["thaw"] || i.Frozen && i.Flesh
		f["honey"] = f["honey"] || i.Has(larder.Honey)
	}
	f["garlic oil"] = r.Keeps != nil && t.InOil(t.End)
	for _, b := range t.Breaks {
		f["cool"] = f["cool"] || (b.Pause.Place == "fridge" || b.Pause.Place == "freezer") && b.Pot.Cooked && b.Pot.Grows()
	}
	cold := r.Keeps != nil && (r.Keeps.Place == "fridge" || r.Keeps.Place == "freezer")
	f["raw flour"] = len(t.RawFlour()) > 0
	f["foraged"] = len(t.Foraged()) > 0
	f["choking"] = e.Small && len(t.Chokes()) > 0
	f["pregnant"] = e.Pregnant
	f["cool"] = f["cool"] || r.Keeps != nil && (r.Keeps.Place == "fridge" || r.Keeps.Place == "freezer") && t.End.Cooked && t.End.Grows()
	for _, st := range t.Stages {
		f["cool"] = f["cool"] || st.Cooling()
		f["reheat"] = f["reheat"] || st.Warms && st.Before.Grows()
		if state, _ := HoldsFor(st.Step); state == "hot" {
			f["hold"] = true // whoever fills the hot cupboard does not ask what is in it
		}
		out := !st.Heats && st.Before.Warmth == Hot && st.After.Cooked && st.After.Grows() && !st.After.Baked() && st.Place == ""
		f["cool"] = f["cool"] || out && (st.Tells("overnight") || st.Allowed() >= 2*time.Hour)
		f["jar"] = f["jar"] || st.Tells("jar") && !cold // jars for the fridge stand on no shelf
		raw := st.After.Totals.Flesh || st.After.Totals.Fish
		f["cold smoke"] = f["cold smoke"] || raw && st.Tells("cold smoke")
		f["ferment"] = f["ferment"] || st.Tells("low salt ferment") && st.Allowed() >= 24*time.Hour && st.Place != "fridge" && !st.After.Dough
		f["metal"] = f["metal"] || st.SourInMetal()
		for _, c := range cautions() {
			f[c.Key] = f[c.Key] || c.At(st, size)
		}
	}
	return f
}
