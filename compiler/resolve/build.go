package resolve

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/lang/ast"
	"tamis/lang/cores"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// builder carries what the steps of the pass share.
type builder struct {
	twins  map[[2]*source.File]int // how many names two files have both
	tree   *load.Tree
	diags  *diag.List
	model  *Model
	before *memory // the same book as it was; nil: it was not
	scopes map[string]*Scope

	noSystem map[*Scope]bool     // one "units are not said" a folder
	named    map[*Scope][]string // what names has answered
	folds    map[string]string
	lexemes  map[string]*lexeme // by the word as it is written
	cut      map[string]*name   // what cutUp has answered
	text     []byte             // for decoyAt
	makers   map[maker][]*Product
	made     []string // what makes has answered
	asking   *asked   // of the recipe that is being resolved; nil: no notes are taken
	last     bool     // the book is not resolved again
	spare    []*finder
	page     []word // room for the words of sentences
}

// Build resolves everything that was read. It always returns a model; what
// could not be resolved is left out of it and reported. The model is not one to Rebuild.
func Build(tree *load.Tree, diags *diag.List) *Model { return build(nil, tree, diags, true) }

// Rebuild is Build for a book that was resolved before, perhaps with other texts
// in some of its files. It gives the same model and the same findings; a recipe
// that would come out the same is taken over as it is, the same *Recipe, with
// all it draws on (see again.go). before may be nil; it is used up.
func Rebuild(before *Model, tree *load.Tree, diags *diag.List) *Model {
	return build(before, tree, diags, false)
}

func build(before *Model, tree *load.Tree, diags *diag.List, last bool) *Model {
	b := &builder{last: last, tree: tree, diags: diags, model: &Model{walked: map[*load.File]*walked{}}, scopes: map[string]*Scope{}, noSystem: map[*Scope]bool{}}
	b.ownCaches()
	if before != nil {
		b.before, b.model.round = before.memory(), before.round+1
	}
	b.collect()
	fresh := b.refresh()
	b.makers = b.allMakers()
	b.each(fresh, func(w *builder, r *Recipe) {
		w.link(r)
		w.linkProducts(r)
		w.shares(r)
	})
	circles(fresh)
	for _, s := range b.model.Scopes {
		s.lead()
	}
	b.each(fresh, (*builder).readings)
	b.menus()
	b.series()
	for _, r := range b.model.Recipes {
		b.tell(r)
	}
	b.before, b.makers = nil, nil
	b.model.builder, b.model.fresh = b, fresh
	return b.model
}

// ownCaches gives a builder caches that no other worker writes to.
func (b *builder) ownCaches() {
	b.named, b.folds, b.text, b.made = map[*Scope][]string{}, map[string]string{}, nil, nil
	b.lexemes, b.cut, b.spare, b.page = map[string]*lexeme{}, map[string]*name{}, nil, nil
}

// each calls f for recipes, on all cores, each with a list of findings of its
// own and a note of what it asks of other blocks.
func (b *builder) each(recipes []*Recipe, f func(w *builder, r *Recipe)) {
	cores.With(len(recipes), func() *builder {
		w := *b
		w.ownCaches()
		return &w
	}, func(w *builder, i int) {
		r := recipes[i]
		w.diags, w.noSystem = &r.found, map[*Scope]bool{}
		if !b.last {
			w.asking = &r.asked
		}
		f(w, r)
	})
}

// readings reads the sentences of a recipe.
func (b *builder) readings(r *Recipe) {
	r.Reading = b.read(r, nil)
	r.Readings = []*Reading{r.Reading}
	r.grown()
	for _, c := range r.Choices { // every option is read once, so that each is checked
		for _, o := range c.Options[min(1, len(c.Options)):] {
			r.Readings = append(r.Readings, b.read(r, map[*Choice]*Option{c: o}))
		}
	}
	r.asked.tidy()
}

// tell reports what was found in a recipe. That units are not said is told once
// a folder.
func (b *builder) tell(r *Recipe) {
	for d := range r.found.All() {
		if slices.ContainsFunc(r.parents, func(p *Recipe) bool { return p.found.Has(d.Code, d.At.Span) }) {
			continue // said once, there
		}
		if d.Code == codeNoUnits {
			if b.noSystem[r.Scope] {
				continue
			}
			b.noSystem[r.Scope] = true
		}
		b.diags.Add(d)
	}
}

// fold folds a name for comparing, remembering the answer.
func (b *builder) fold(name string) string {
	if f, ok := b.folds[name]; ok {
		return f
	}
	f := larder.Fold(name)
	b.folds[name] = f
	return f
}

// scope finds or makes the scope of a folder and of those it stands in.
func (b *builder) scope(dir string) *Scope {
	if s, ok := b.scopes[dir]; ok {
		return s
	}
	s := b.emptyScope(dir)
	b.scopes[dir] = s
	if dir != "." {
		parent := "."
		if i := strings.LastIndexByte(dir, '/'); i >= 0 {
			parent = dir[:i]
		}
		s.Parent = b.scope(parent)
	}
	b.model.Scopes = append(b.model.Scopes, s)
	return s
}

// collect puts every block where its name can be found.
func (b *builder) collect() {
	b.scope(".")
	b.twins = map[[2]*source.File]int{}
	for _, f := range b.tree.Files {
		scope, asked := b.scope(f.Dir), b.tree.Asked(f)
		walked := b.walked(f)
		b.model.Spoken = append(b.model.Spoken, walked.spoken...)
		if asked {
			b.model.Unsure = append(b.model.Unsure, walked.unsure...)
		}
		for _, block := range f.AST.Blocks {
			switch x := block.(type) {
			case *ast.Recipe:
				b.addRecipe(scope, x, f, asked)
			case *ast.Larder:
				b.addLarder(scope, x, asked)
			case *ast.Kitchen:
				scope.rulesOf(x)
			case *ast.Menu:
				b.model.Menus = append(b.model.Menus, &Menu{ast: x, Scope: scope, Name: x.Title.Text, NameAt: x.Title.Span, Asked: b.tree.Here(f)})
			case *ast.Series:
				b.model.Series = append(b.model.Series, &Series{ast: x, Scope: scope, Name: x.Title.Text, NameAt: x.Title.Span, Asked: b.tree.Here(f)})
			case *ast.Book:
				b.model.Books = append(b.model.Books, book(x, f.Dir, asked))
			}
		}
	}
	b.called()
	for _, f := range b.tree.Files { // when all larders are known: vessels have sizes
		for _, block := range f.AST.Blocks {
			if x, ok := block.(*ast.Kitchen); ok {
				b.addKitchen(b.scope(f.Dir), x)
			}
		}
	}
	seen := map[string]*Menu{}
	for _, m := range b.model.Menus {
		key := m.Scope.Dir + "/" + b.fold(m.Name)
		if first, ok := seen[key]; ok {
			b.twice("menu", m.NameAt, m.Name, first.NameAt)
			continue
		}
		seen[key] = m
	}
}

func (b *builder) twice(what string, again source.Span, name string, first source.Span) {
	files := [2]*source.File{first.File, again.File}
	if files[0] != files[1] {
		if b.twins[files]++; b.twins[files] > 1 { // a file that was copied and changed: once
			return
		}
	}
	b.diags.Errorf("U101", again, "there are two %s called %q in this folder", larder.Plural(what), name).
		Because("a name must mean one thing, or a gather line could mean either").
		See(first, "the first is here").
		WithHelp("give one of the two another name, or move it to a folder of its own").
		WithHelp("if one of the files is a copy of the other, take the copy away")
}

func (b *builder) addRecipe(scope *Scope, x *ast.Recipe, f *load.File, asked bool) {
	r := b.recipeOf(x, scope, f, asked)
	if first, ok := scope.Recipes[r.Key]; ok {
		what := "dish"
		if r.Base || first.Base {
			what = "block"
		}
		b.twice(what, r.NameAt, r.Name, first.NameAt)
		return
	}
	scope.Recipes[r.Key] = r
	r.place = len(b.model.Recipes)
	b.model.Recipes = append(b.model.Recipes, r)
}

func (b *builder) addLarder(scope *Scope, x *ast.Larder, asked bool) {
	scope.Larders, scope.larders = append(scope.Larders, x.Span), append(scope.larders, x)
	for _, item := range x.Items {
		switch it := item.(type) {
		case *ast.Setting:
			if it.Key == "units" {
				if sys, ok := quantity.SystemNamed(it.Value.Text); ok {
					scope.System = sys
				}
			}
		case *ast.Entry:
			e := entry(it)
			e.Asked = asked
			b.model.Entries = append(b.model.Entries, e)
			key := b.fold(e.Name)
			if first, ok := scope.Entries[key]; ok {
				b.diags.Errorf("U102", e.NameAt, "the larder has %q twice in this folder", e.Name).
					See(first.NameAt, "the first is here").
					WithHelp("put all its facts on one entry")
				continue
			}
			scope.Entries[key] = e
		}
	}
}

// spoken are the names by which a file speaks of recipes outside its lists.
func spoken(f *ast.File) (out []Text) {
	ast.Walk(f, func(n ast.Node) bool {
		switch x := n.(type) {
		case *ast.Serving:
			out = append(out, nameText(x.Ref))
		case *ast.ChapterRef:
			out = append(out, nameText(x.Ref))
		case *ast.Shows:
			out = append(out, nameText(x.Ref))
		case *ast.Copies:
			out = append(out, nameText(x.Of))
		case *ast.As:
			for _, ref := range append([]ast.Name{x.Ref}, x.Also...) {
				out = append(out, nameText(ref))
			}
		}
		return true
	})
	return out
}

// Units is the system that holds in a folder: its own larder's, else that of
// the nearest folder it stands in; else that of the rules its kitchens cook by.
func (s *Scope) Units() quantity.System {
	for up := s; up != nil; up = up.Parent {
		if up.System != quantity.NoSystem {
			return up.System
		}
	}
	for up := s; up != nil; up = up.Parent {
		if up.rules.system != quantity.NoSystem {
			return up.rules.system
		}
	}
	return quantity.NoSystem
}

// Country is whose sizes the things of a recipe have, as larder.Practice has it: that of
// its own rules, else of the kitchens of its folder or of one above, else that of its
// measures. Empty: nobody said.
func (r *Recipe) Country() string {
	if own := r.Own.Practice; !own.IsZero() {
		return larder.Practice(own.Text)
	}
	for up := r.Scope; up != nil; up = up.Parent {
		if up.rules.country != "" {
			return up.rules.country
		}
	}
	switch r.System {
	case quantity.US:
		return "US"
	case quantity.AU:
		return "AU"
	case quantity.Imperial:
		return "UK"
	}
	return ""
}

// rulesOf notes whose measures go with the rules of a kitchen. British cups and
// spoons are of several sizes, so those of other rules are asked about.
func (s *Scope) rulesOf(x *ast.Kitchen) {
	for _, item := range x.Items {
		if c, ok := item.(*ast.Common); ok && c.Key == "rules" {
			s.rules.country = larder.Practice(c.Text.Text)
			switch name, _, _ := strings.Cut(strings.TrimSpace(c.Text.Text), " "); strings.ToUpper(name) {
			case "US":
				s.rules.system = quantity.US
			case "AU": // and not New Zealand, whose tablespoon is another
				s.rules.system = quantity.AU
			}
		}
	}
}

// Entry finds what the larder blocks of a folder, and of those it stands in,
// say of a folded name.
func (s *Scope) Entry(key string) (out *Entry) {
	for ; s != nil; s = s.Parent {
		switch e := s.Entries[key]; {
		case e == nil:
		case out == nil:
			out = e
		default:
			out = out.over(e)
		}
	}
	return out
}

// find finds a recipe by name: in this folder, then in those it stands in. A
// name with a slash starts at the book's root: "sauces/Herb oil".
func (b *builder) find(s *Scope, name string) *Recipe {
	r := b.look(s, name)
	b.asking.draw(r)
	return r
}

// Named is the recipe that a name means in a folder, as in a list or a menu there;
// nil: none. It is for whoever asks when all is resolved.
func (m *Model) Named(s *Scope, name string) *Recipe {
	noted := m.builder.asking
	m.builder.asking = nil
	defer func() { m.builder.asking = noted }()
	return m.builder.look(s, name)
}

// ScopeOf is the scope of a folder; nil when nothing of ours lies in it.
func (m *Model) ScopeOf(dir string) *Scope { return m.builder.scopes[dir] }

func (b *builder) look(s *Scope, name string) *Recipe {
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		in, ok := b.scopes[strings.Trim(name[:i], "/ ")]
		if !ok && i == 0 {
			in, ok = b.scopes["."], true
		}
		key := b.fold(name[i+1:])
		b.asking.name(aRecipe, key)
		if !ok {
			return nil
		}
		return in.Recipes[key]
	}
	key := b.fold(name)
	b.asking.name(aRecipe, key)
	for ; s != nil; s = s.Parent {
		if r, ok := s.Recipes[key]; ok {
			return r
		}
	}
	return nil
}

// names lists what could have been meant where a recipe is named.
func (b *builder) names(s *Scope) []string {
	b.asking.everything()
	if out, ok := b.named[s]; ok {
		return out
	}
	var out []string
	for up := s; up != nil; up = up.Parent {
		for _, r := range up.Recipes {
			out = append(out, r.Name)
		}
	}
	slices.Sort(out)
	b.named[s] = out
	return out
}

// measure turns a written measure into a quantity, reporting a unit whose size
// nobody said once a folder.
func (b *builder) measure(r *Recipe, m quantity.Measure, at source.Span) *quantity.Quantity {
	return b.quantity(r, at, func(sys quantity.System) (quantity.Quantity, *quantity.Problem) { return m.Quantity(sys) })
}

func (b *builder) amount(r *Recipe, a *quantity.Amount, at source.Span) *quantity.Quantity {
	return b.quantity(r, at, func(sys quantity.System) (quantity.Quantity, *quantity.Problem) { return a.Quantity(sys, 0) })
}

func (b *builder) quantity(r *Recipe, at source.Span, of func(quantity.System) (quantity.Quantity, *quantity.Problem)) *quantity.Quantity {
	q, problem := of(r.System)
	if problem == nil {
		return &q
	}
	if problem.Code == quantity.CodeNoSystem {
		b.missingSystem(r.Scope, at)
		return nil
	}
	d := b.diags.Errorf(problem.Code, at, "%s", problem.Message)
	if problem.Help != "" {
		d.WithHelp("%s", problem.Help)
	}
	return nil
}

// codeNoUnits is the code of the finding that is made once a folder.
const codeNoUnits = "U103"

// missingSystem reports, once a folder, that nobody said how large a cup is.
func (b *builder) missingSystem(s *Scope, at source.Span) {
	if b.noSystem[s] {
		return
	}
	b.noSystem[s] = true
	b.diags.Errorf(codeNoUnits, at, "nobody has said whose %q this is", at.Text()).
		Because("a cup, a pint and a tablespoon have different sizes in different countries").
		WithHelp("write `larder`, and under it `units metric` (or US, imperial, AU), once for this folder")
}
