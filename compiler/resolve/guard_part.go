package resolve

import "strings"

// wholes may stand between an article and "of the flour" where all of it is meant: what it is
// cut into, made into, laid in, and what is only said of it.
var wholes = wordSet(`whole entirety all slice piece cube dice strip cut chunk half segment shred crumb spear floret wedge ring round
	juice zest rind peel yolk white flesh pulp leaf grain seed bone skin fillet meat liquor liquid water fat stick sprig head bunch packet pack package can tin jar carton box bag block slab
	rest remainder balance other first second last next one two three four pair couple addition sum help aid place instead sake
	flavour flavor taste smell scent colour color texture consistency thickness weight size shape surface look use kind fond
	batch lot amount portion share sheet square disc stack tier cup pint quart gill ounce pound gram kilo litre liter spoonful teaspoonful tablespoonful cupful
	benefit absence presence boiling heat cooking quantity number level edge outside inside combination matter dozen contents content`)

// partOfWhole asks about "the gist of the flour": a noun of a thing that is taken whole, where
// nothing is known of the noun. It may be a part, which nobody can weigh.
func (g *guarding) partOfWhole() bool {
	for k := g.from + 3; k < g.to; k++ {
		t := g.take(k)
		if t == nil || !t.All || t.Rest || t.Refers || t.ByMargin || t.Line.ToTaste || t.Line.Quantity == nil || g.words[k].stop {
			continue
		}
		of := k - 1
		if articles[g.lower(of)] {
			of--
		}
		if of < g.from+2 || g.lower(of) != "of" || g.words[of].stop || g.words[of+1].stop {
			continue
		}
		noun := g.words[of-1].key
		if g.words[of-1].stop || g.spent[of-1] || wholes[noun] || isPart(noun) || partNamed[noun] != "" || madeOfAll[noun] || vessels[noun] || timeWords[noun] || partly[noun] || putsIn[noun] || readies[noun] || strings.HasSuffix(g.lower(of-1), "ing") {
			continue
		}
		if u, n := g.unitAt(of - 1); n == of && u != nil {
			continue
		}
		first := of - 2
		for first > g.from && first > of-5 && !g.words[first+1].stop && !fillerStops[g.lower(first)] {
			first--
		}
		if w := g.lower(first); w != "a" && w != "an" && w != "the" || len(g.finder.at(g.words, of-1, false)) > 0 {
			continue
		}
		at := g.place(g.words[first].start, g.words[k].end)
		g.diags.Askf("U223", at, "is `%s` all of the %s", at.Text(), t.Line.Name).
			Because("it is read as all that is left of it").
			WithHelp("write how much goes in, `most of the %s`, `100 g of the %s`, or only the name", t.Line.Name, t.Line.Name)
		return true
	}
	return false
}
