package resolve

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// pieces of meat, and other words before "of" that are no measures: what is bought is called so.
var cuts = wordSet("leg shoulder saddle loin rib neck breast end knuckle shin shank haunch hand hock joint side quarter fillet rump chine scrag brisket tail head ear foot trotter heart liver kidney tongue cheek tripe bone carcass carcase round silverside undercut sirloin collar belly cutlet chop steak escalope medallion rack crown pair brace cut piece trimming scrap oil essence milk cream flower water salt sugar flour spirit extract syrup loaf cake tip heart best middle back top rind skin crust crumb leaf stalk root stem bunch ball lump slab block bar tablet thumb")

// measuredBy asks about a name that begins with a measure nobody knows, before the thing itself:
// "a pottle of strawberries", "twopennyworth of saffron". It is counted as a thing of its own.
func (b *builder) measuredBy(r *Recipe, l *Line, quoted bool) {
	head, tail, ok := cutFold(l.Name, " of ")
	if !ok || quoted || l.Share != nil || l.Item != nil || r.Scope.Entry(l.Key) != nil {
		return
	}
	words := strings.Fields(larder.Fold(head))
	if len(words) == 0 || len(words) > 2 {
		return
	}
	last := words[len(words)-1]
	if isPart(last) || cuts[last] || partNamed[last] != "" {
		return
	}
	for _, a := range [...]string{"the ", "a ", "an "} {
		tail = strings.TrimPrefix(tail, a)
	}
	if it, known := larder.Builtin().Find(tail); !known || it == nil || it.Counter == "butcher" || it.Counter == "fishmonger" { // a griskin of pork is a cut
		return
	}
	b.diags.Askf(string(quantity.CodeUnknownWord), l.NameAt, "`%s` may be a measure, and nobody can tell how much it holds", head).
		Because("it is bought as a thing called %s, and nothing is known of that: not what it weighs, nor what it may hold for those who must avoid it", l.Name).
		WithHelp("write such as `200 g` or `1 cup`; for a measure of your own put `%s | measure` in the larder", head).
		WithHelp("if it is called so, put quotes round the name")
}
