package larder

import (
	"sort"
	"strings"
)

// Content is one thing in an ingredient that some law calls an allergen. The
// cereal, nut or species is always named.
type Content struct {
	Substance string // a name of the substances list: wheat, almond, fish
	Species   string // for fish, crustaceans and molluscs: cod, prawn
	Depends   bool   // on the maker: the label must be read
}

// Allergen is a content as one practice names it.
type Allergen struct {
	Content
	Group  string        // as the list of that practice has it: "cereals containing gluten"
	Number int           // its place in that list, from 1
	Law    *Fact[string] // the article or section; From tells it
}

// Named is the name to print: "wheat", "almond", "fish (cod)".
func (c Content) Named() string {
	if c.Species != "" {
		return c.Substance + " (" + c.Species + ")"
	}
	return c.Substance
}

// Group is one entry of the list of allergens of a practice.
type Group struct {
	Practice string
	Number   int
	Name     string
	Note     string
	Law      Fact[string]
}

// substance is a row of the substances list.
type substance struct {
	name   string
	abroad string            // as the lists outside Europe spell it; empty: alike
	groups map[string]*Group // by practice
}

// Practice brings what a file calls its practice to one of those with a list
// of allergens: EU, UK, US, CA or AU. "US home" is US, "EU-FR" is EU, Scotland,
// England, Wales and NI are UK, NZ is AU. Anything else comes back as it is.
func Practice(name string) string {
	word, _, _ := strings.Cut(strings.TrimSpace(name), " ")
	word, _, _ = strings.Cut(word, "-")
	switch strings.ToUpper(word) {
	case "EU":
		return "EU"
	case "UK", "GB", "SCOTLAND", "ENGLAND", "WALES", "NI", "NORTHERN":
		return "UK"
	case "US", "USA":
		return "US"
	case "CA", "CANADA":
		return "CA"
	case "AU", "NZ", "AUSTRALIA":
		return "AU"
	}
	return strings.TrimSpace(name)
}

// Groups is the list of allergens of a practice, in the order of its law: 14
// for EU and UK, 9 for US. Nil: no list known for that practice.
func (t *Table) Groups(practice string) []*Group { return t.groups[Practice(practice)] }

// Substance finds one of the named things that allergen lists speak of, by
// name or other name: "soy" is soya, "hazelnuts" is hazelnut.
func (t *Table) Substance(name string) (string, bool) {
	s, ok := t.substances[Fold(name)]
	if !ok {
		return "", false
	}
	return s.name, true
}

// Regulate is how a practice names what is contained; contents its list does
// not have are left out. The result follows the order of the list, then names.
func (t *Table) Regulate(practice string, contents []Content) []Allergen {
	p := Practice(practice)
	var out []Allergen
	for _, c := range contents {
		s, ok := t.substances[Fold(c.Substance)]
		if !ok {
			continue
		}
		if g := s.groups[p]; g != nil {
			c.Substance = s.name
			if s.abroad != "" && p != "EU" && p != "UK" {
				c.Substance = s.abroad
			}
			out = append(out, Allergen{Content: c, Group: g.Name, Number: g.Number, Law: &g.Law})
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Number != out[j].Number {
			return out[i].Number < out[j].Number
		}
		return out[i].Named() < out[j].Named()
	})
	return out
}

// Allergens is what the ingredient contains by its nature, as a practice names
// it. It never says that something is absent: a maker may add what it likes.
func (it *Item) Allergens(practice string) []Allergen {
	return Builtin().Regulate(practice, it.Contains)
}
