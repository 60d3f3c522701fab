package draft

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// Microdata marks a Recipe in the elements of a page: itemscope, itemtype and itemprop, as the
// HTML Standard has them (from memory). It is read as the node of JSON-LD that says the same.

// itemsIn are the Recipes that the elements of a page mark, with a list or a method.
func itemsIn(n *html.Node) (out []*object) {
	if o := marking(n); o != nil && o.is("Recipe") {
		o.properties(n)
		if o.get("recipeIngredient") != nil || o.get("ingredients") != nil || o.get("recipeInstructions") != nil {
			return []*object{o}
		}
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		out = append(out, itemsIn(c)...)
	}
	return out
}

// marking is the node of an element that marks one, without its properties; nil: it marks none.
func marking(n *html.Node) *object {
	if _, ok := attrOf(n, "itemscope"); !ok {
		return nil
	}
	typ, _ := attrOf(n, "itemtype")
	var types []any
	for t := range strings.FieldsSeq(typ) {
		types = append(types, t)
	}
	return &object{values: map[string]any{"@type": types}}
}

// properties takes those that stand within an element, and in no item of their own.
func (o *object) properties(n *html.Node) {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		inner := marking(c)
		if names, ok := attrOf(c, "itemprop"); ok {
			var v any = valueOf(c)
			if inner != nil {
				inner.properties(c)
				v = inner
			}
			for name := range strings.FieldsSeq(names) {
				o.add(name, v)
			}
		}
		if inner == nil {
			o.properties(c)
		}
	}
}

// add gives a node a further value of a property.
func (o *object) add(key string, v any) {
	before, again := o.values[key]
	if !again {
		o.keys = append(o.keys, key)
		o.values[key] = v
		return
	}
	o.values[key] = append(list(before), v)
}

// valueOf is what an element says of its property: in an attribute, or with its text.
func valueOf(n *html.Node) string {
	if v, ok := attrOf(n, "content"); ok {
		return html.EscapeString(v)
	}
	of := map[atom.Atom]string{atom.A: "href", atom.Link: "href", atom.Area: "href", atom.Img: "src", atom.Audio: "src", atom.Video: "src", atom.Time: "datetime", atom.Data: "value", atom.Meter: "value"}
	if v, ok := attrOf(n, of[n.DataAtom]); ok {
		return html.EscapeString(v)
	}
	var b strings.Builder
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if err := html.Render(&b, c); err != nil { // nothing that a browser would show
			return html.EscapeString(rawText(n))
		}
	}
	return strings.ReplaceAll(b.String(), "\n", " ")
}

func attrOf(n *html.Node, key string) (string, bool) {
	for _, a := range n.Attr {
		if a.Key == key && key != "" {
			return a.Val, true
		}
	}
	return "", false
}
