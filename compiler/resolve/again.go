package resolve

import (
	"fmt"
	"hash/maphash"
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/lang/ast"
)

// Resolving a book again.
//
// A recipe comes out as it did before where its text and its folder's settings
// are the same (then its tree is the same *ast.Recipe), where the larders of its
// folder and of those above are the same, and where every question it asked
// about other blocks has the same answer. So each recipe notes its questions
// while it is resolved. Some end at another recipe: it draws on that one, and is
// resolved again when that one is. The others only ask whether there is a
// recipe, or a product, of some name. When names come or go, those who asked for
// them are resolved again, wherever their folder is: that is more than need be,
// and simple.

// asked are the questions of one recipe. A nil *asked takes no notes.
type asked struct {
	names []uint64  // numbers of names, sorted once the recipe is resolved
	draws []*Recipe // the recipes that were found
	all   bool      // it looked for what was meant, among all names there are
}

// kind tells what a name is asked for.
type kind byte

const (
	aRecipe  kind = iota
	aProduct      // of a step
	aLead         // the first word of a recipe's name
)

var seed = maphash.MakeSeed()

// number stands for a name. Two that share one only cost work.
func (k kind) number(name string) uint64 { return maphash.String(seed, name)<<2 | uint64(k) }

// name notes that a name was asked for.
func (a *asked) name(k kind, name string) {
	if a != nil {
		a.names = append(a.names, k.number(name))
	}
}

// everything notes that all names were looked through.
func (a *asked) everything() {
	if a != nil {
		a.all = true
	}
}

// draw notes that a recipe was found; nil: none was.
func (a *asked) draw(r *Recipe) {
	if a != nil && r != nil && !slices.Contains(a.draws, r) {
		a.draws = append(a.draws, r)
	}
}

// tidy ends the taking of notes.
func (a *asked) tidy() {
	slices.Sort(a.names)
	a.names = slices.Clone(slices.Compact(a.names))
}

// memory is what a builder needs of the model before.
type memory struct {
	*Model
	blocks  map[*ast.Recipe]*Recipe
	larders map[*Scope][]*ast.Larder // of folders that are there again
	rules   map[*Scope]houseRules    // the same
}

func (m *Model) memory() *memory {
	out := &memory{m, make(map[*ast.Recipe]*Recipe, len(m.Recipes)), map[*Scope][]*ast.Larder{}, map[*Scope]houseRules{}}
	for _, r := range m.Recipes {
		out.blocks[r.ast] = r
	}
	return out
}

// emptyScope is the scope of a folder, with nothing in it: the same *Scope as
// before, for recipes that are taken over point to it.
func (b *builder) emptyScope(dir string) *Scope {
	s := &Scope{}
	if b.before != nil && b.before.builder.scopes[dir] != nil {
		s = b.before.builder.scopes[dir]
		b.before.larders[s], b.before.rules[s] = s.larders, s.rules
	}
	*s = Scope{Dir: dir, Recipes: map[string]*Recipe{}, Kitchens: map[string]*Kitchen{}, Entries: map[string]*Entry{}}
	return s
}

// recipeOf is the recipe of a block: the one it was before, else a new one that
// is still to be resolved.
func (b *builder) recipeOf(x *ast.Recipe, s *Scope, f *load.File, asked bool) *Recipe {
	if b.before != nil {
		if r := b.before.blocks[x]; r != nil && r.Scope == s && r.Asked == asked {
			return r
		}
	}
	r := &Recipe{
		ast: x, Span: x.Span, Scope: s, Name: x.Title.Text, NameAt: x.Title.Span, Key: b.fold(x.Title.Text),
		Base: x.IsBase, Asked: asked, Own: ownOf(x), reading: f.Reading, made: b.model.round,
	}
	r.reading.Prose = true
	return r
}

// walked is what walking the whole tree of a file gives, kept as long as the file.
type walked struct {
	spoken []Text // the names by which it speaks of recipes outside its lists
	unsure []Text // its clauses that nobody has confirmed
}

func (b *builder) walked(f *load.File) *walked {
	var w *walked
	if b.before != nil {
		w = b.before.walked[f]
	}
	if w == nil {
		w = &walked{spoken(f.AST), unconfirmed(f.AST)}
	}
	b.model.walked[f] = w
	return w
}

// refresh reads the lists and steps of all recipes that cannot be taken over,
// and returns them in order. What the steps of one make may be asked for by
// another, so it goes on until nothing more is asked for.
func (b *builder) refresh() []*Recipe {
	isFresh := func(r *Recipe) bool { return r.made == b.model.round }
	todo := among(b.model.Recipes, isFresh)
	for {
		b.each(todo, func(w *builder, r *Recipe) {
			w.recipe(r)
			w.method(r)
		})
		if b.before == nil {
			return todo
		}
		if todo = b.stale(); len(todo) == 0 {
			return among(b.model.Recipes, isFresh)
		}
		for i, r := range todo {
			todo[i] = b.replace(r)
		}
	}
}

func among(recipes []*Recipe, are func(*Recipe) bool) (out []*Recipe) {
	for _, r := range recipes {
		if are(r) {
			out = append(out, r)
		}
	}
	return out
}

// replace puts a recipe that is still to be resolved in the place of one.
func (b *builder) replace(old *Recipe) *Recipe {
	r := &Recipe{
		ast: old.ast, Span: old.Span, Scope: old.Scope, Name: old.Name, NameAt: old.NameAt, Key: old.Key,
		Base: old.Base, Asked: old.Asked, Own: old.Own, reading: old.reading, made: b.model.round, place: old.place,
	}
	r.Scope.Recipes[r.Key], b.model.Recipes[r.place] = r, r
	return r
}

// there tells whether a recipe is part of the model.
func (b *builder) there(r *Recipe) bool {
	return r.place < len(b.model.Recipes) && b.model.Recipes[r.place] == r
}

// stale are the recipes that would not come out as they are: one of their
// questions has another answer now.
func (b *builder) stale() []*Recipe {
	turned := b.turned()
	changed, any := b.cameAndWent()
	out, is := []*Recipe(nil), map[*Recipe]bool{}
	add := func(r *Recipe) {
		if !is[r] {
			is[r] = true
			out = append(out, r)
		}
	}
	for _, r := range b.model.Recipes {
		gone := slices.ContainsFunc(r.asked.draws, func(d *Recipe) bool { return !b.there(d) })
		if gone || r.made < b.model.round && (turned[r.Scope] || any && r.asked.all || r.asked.any(changed)) {
			add(r)
		}
	}
	if len(out) == 0 {
		return nil
	}
	users := map[*Recipe][]*Recipe{}
	for _, r := range b.model.Recipes {
		for _, d := range r.asked.draws {
			users[d] = append(users[d], r)
		}
	}
	for i := 0; i < len(out); i++ { // and those that draw on them
		for _, r := range users[out[i]] {
			add(r)
		}
	}
	return out
}

// any tells whether a recipe asked for one of some names.
func (a *asked) any(names []uint64) bool {
	return slices.ContainsFunc(names, func(n uint64) bool {
		_, ok := slices.BinarySearch(a.names, n)
		return ok
	})
}

// turned are the folders whose larders or measures by the rules, or those of a folder above, are others
// than before.
func (b *builder) turned() map[*Scope]bool {
	out := map[*Scope]bool{}
	for _, s := range b.model.Scopes { // those above come first
		if out[s.Parent] || !slices.Equal(s.larders, b.before.larders[s]) || s.rules != b.before.rules[s] {
			out[s] = true
		}
	}
	return out
}

// cameAndWent compares the recipes that are gone with those that are new: the
// numbers of names that are in a folder, or no longer, and whether any name at
// all is written otherwise.
func (b *builder) cameAndWent() (changed []uint64, any bool) {
	type name struct {
		kind
		dir, name string
	}
	count := map[name]int{}
	written := map[string]int{}
	tally := func(r *Recipe, by int) {
		dir := r.Scope.Dir
		count[name{aRecipe, dir, r.Key}] += by
		written[fmt.Sprintf("%s\n%s\n%v", dir, r.Name, r.Base)] += by
		for _, other := range r.Own.Notes.Also {
			count[name{aRecipe, dir, b.fold(other.Text)}] += by
			written[dir+"\n"+other.Text] += by
		}
		for _, p := range r.Products {
			if p.Quantity != nil {
				count[name{aProduct, dir, p.Key}] += by
				written[dir+"\n"+p.Name] += by
			}
		}
	}
	for _, r := range b.before.Recipes {
		if !b.there(r) {
			tally(r, -1)
		}
	}
	for _, r := range b.model.Recipes {
		if r.made == b.model.round {
			tally(r, 1)
		}
	}
	for n, by := range count {
		if by == 0 {
			continue
		}
		changed = append(changed, n.number(n.name))
		if lead := larder.Lead(n.name); lead != "" && n.kind == aRecipe {
			changed = append(changed, aLead.number(lead))
		}
	}
	for _, by := range written {
		any = any || by != 0
	}
	return changed, any
}
