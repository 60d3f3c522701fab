package hazard

import (
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// Caution is one of the cautions that sheets print and that rules speak of,
// from the one table data/cautions.csv.
type Caution struct {
	Key    string
	Words  []string // of a tool, a vessel or a step, that call for it
	Text   string
	Source string // as printed: who, and how it was seen; or that nobody was
}

var cautions = sync.OnceValue(func() []*Caution {
	f, err := embedded.Open("data/cautions.csv")
	if err != nil {
		panic("hazard: " + err.Error())
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		panic("hazard: the built-in cautions cannot be read: " + err.Error()) // the tests read every row
	}
	var out []*Caution
	for _, r := range rows[1:] {
		c := &Caution{Key: r[0], Text: r[2], Source: r[3]}
		for _, w := range strings.Split(r[1], "/") {
			if w = strings.TrimSpace(w); w != "" {
				c.Words = append(c.Words, w)
			}
		}
		switch {
		case r[5] == "from memory":
			c.Source = "common practice, no source"
		case r[4] == "secondary":
			c.Source += ", as seen quoted"
		}
		out = append(out, c)
	}
	return out
})

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

// Hand tells whether a step calls for a caution about hands: by its tool, its
// vessel or its words.
func (c *Caution) Hand(st *Stage) bool {
	if len(c.Words) == 0 || !st.Tool(c.Words...) {
		return false
	}
	switch c.Key {
	case "blender":
		return st.Before.Warmth == Hot && st.Before.wet() && !st.Tool("stick blender", "hand blender", "immersion blender")
	case "sugar": // not jam or chutney in the name of a dish, and not bought caramel
		return st.Heats
	}
	return true
}

// wet tells whether there is liquid in a pot, or what gives it.
func (p Pot) wet() bool {
	return slices.ContainsFunc(p.Items, func(i *Item) bool {
		q := i.Line.Quantity
		return i.Plant || i.Strong || i.Line.Water || q != nil && q.Dim == quantity.Volume
	})
}

// Raw are the kinds of raw food that the recipe takes and that have a limit of
// cooking, save bones, thin cured meat, fish and eggs.
func (t *Trace) Raw() (out []Kind) {
	for _, k := range []Kind{Poultry, Mince, Pork, Stuffing} {
		if slices.ContainsFunc(t.End.Items, func(i *Item) bool {
			return i.Is(k) && !i.Before && !i.IsKind("bones") && !i.IsKind("cured")
		}) {
			out = append(out, k)
		}
	}
	return out
}

// Facts are what a trace calls for, by the keys of the table and four that
// depend on the practice: cook, cool, reheat and hold.
func (t *Trace) Facts() map[string]bool {
	f := map[string]bool{"cook": len(t.Raw()) > 0}
	for _, i := range t.End.Items {
		f["rice"] = f["rice"] || i.isRice()
		f["kidney beans"] = f["kidney beans"] || i.Has(larder.KidneyBean) && !Tinned(i.Line)
		f["raw egg"] = f["raw egg"] || i.Is(Egg) && !i.Heated && !t.Reading.Recipe.Base
		f["raw fish"] = f["raw fish"] || i.Is(Fish) && !i.Heated && !t.Reading.Recipe.Base
		f["shellfish"] = f["shellfish"] || i.Has(larder.RawShell) || i.Has(larder.Sprouts)
		f["honey"] = f["honey"] || i.Has(larder.Honey)
	}
	for _, b := range t.Breaks {
		f["cool"] = f["cool"] || (b.Pause.Place == "fridge" || b.Pause.Place == "freezer") && b.Pot.Cooked && b.Pot.Grows()
	}
	r := t.Reading.Recipe
	f["cool"] = f["cool"] || r.Keeps != nil && (r.Keeps.Place == "fridge" || r.Keeps.Place == "freezer") && t.End.Cooked && t.End.Grows()
	for _, st := range t.Stages {
		f["cool"] = f["cool"] || st.Before.Warmth == Hot && st.Before.Cooked && st.Before.Grows() && st.Cools && !st.Heats && !st.Before.Baked()
		f["reheat"] = f["reheat"] || st.Warms && st.Before.Strong()
		if state, _ := HoldsFor(st.Step); state == "hot" {
			f["hold"] = true // whoever fills the hot cupboard does not ask what is in it
		}
		f["jar"] = f["jar"] || st.Says("jar", "jars", "bottling", "canning")
		for _, c := range cautions() {
			f[c.Key] = f[c.Key] || c.Hand(st)
		}
	}
	return f
}
