package hazard

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Kind is what a raw thing is, for a limit of cooking.
type Kind string

// The kinds that have limits of their own. The words are those of the limits.
const (
	Poultry  Kind = "poultry"
	Mince    Kind = "mince"
	Pork     Kind = "pork"
	Fish     Kind = "fish"
	Egg      Kind = "egg"
	Stuffing Kind = "stuffing"
	Rolled   Kind = "rolled" // a joint whose outside is inside
	Offal    Kind = "offal"
	Game     Kind = "game" // birds and beasts of the wild
)

// Printed is a kind as the sheets name it.
func (k Kind) Printed() string {
	switch k {
	case Rolled:
		return "rolled joints"
	case Offal:
		return "liver and offal"
	}
	return string(k)
}

// Item is one thing in the pot, as one line of the list brings it.
type Item struct {
	Line *resolve.Line // of the recipe looked at, also for what a base brings
	Name string        // of the thing itself: with a base, what the base was made of
	Base *resolve.Recipe
	it   *larder.Item // nil: not known
	mass float64      // about how many grams the list has, see gramsOf
	// taken is the share of them that its walk has put into pots so far.
	taken float64

	Kinds    []Kind // raw kinds; none for what was cooked before it came
	Strong   bool   // meat, fish, egg, dairy, rice: germs grow in it fast
	Plant    bool   // cooked vegetables, pulses, grains
	Sour     bool
	Sweet    bool
	Flesh    bool   // raw meat of any kind, in one piece or not
	Shell    bool   // raw crustaceans and molluscs
	Frozen   bool   // it comes frozen
	Leftover bool   // carried over, cooked and chilled
	Cooked   bool   // it comes cooked: by its maker, or by its own words
	Heated   bool   // heat was put to it
	Before   bool   // by the base that it comes with
	used     bool   // it was put in a pot of its walk
	in       int    // the stage that it came in
	hot      int    // the first stage that put heat to it, where it is Heated
	said     *Signs // of its line
	fat      bool   // oil, lard and what else one fries in
	liquid   bool
	sugar    bool
}

// RawAt tells whether no stage before the one of a number put heat to it.
func (i *Item) RawAt(n int) bool { return !i.Before && (!i.Heated || i.hot >= n) }

// In tells whether it has come in by a stage.
func (i *Item) In(st *Stage) bool { return i.in <= st.N }

// Since is the number of the stage it came in with.
func (i *Item) Since() int { return i.in }

// Totals are what a pot holds in all, in grams, and whether some kinds are in it.
type Totals struct {
	Mass, Fat, Liquid, Sugar           float64
	Flesh, Fish, Shell, Frozen, Scombr bool // raw, and not from a base; Scombr: fish of the tuna and mackerel kinds
}

// weigh adds a share of an item.
func (t *Totals) weigh(i *Item, share float64) {
	g := i.mass * share
	t.Mass += g
	switch {
	case i.fat:
		t.Fat += g
	case i.sugar:
		t.Sugar += g
	case i.liquid:
		t.Liquid += g
	}
}

// some takes up that there is some of an item, nobody says how much.
func (t *Totals) some(i *Item) {
	if i.sugar {
		t.Sugar = max(t.Sugar, 1)
	}
}

// add takes up an item that was not in the pot, with what was taken of it so far: two
// pots that have both of it are taken to have what the first has.
func (t *Totals) add(i *Item) {
	t.weigh(i, i.taken)
	if i.Before {
		return
	}
	t.Flesh = t.Flesh || i.Flesh && !i.IsKind("cured")
	t.Fish = t.Fish || i.Is(Fish)
	t.Shell = t.Shell || i.Shell
	t.Frozen = t.Frozen || i.Frozen && i.Strong
	t.Scombr = t.Scombr || i.Is(Fish) && hasWord(strings.ToLower(i.Name), scombroids...)
}

// scombroids are fish in which a poison forms when they are warm that heat does not
// undo.
var scombroids = []string{"tuna", "mackerel", "sardine", "sardines", "herring", "herrings", "anchovy", "anchovies", "bonito", "mahi", "bluefish", "swordfish", "sprats", "marlin", "kingfish", "yellowtail"}

// Has tells whether the larder puts a flag on it.
func (i *Item) Has(f larder.Flag) bool { return i.it != nil && i.it.Has(f) }

// Grams is about how much of it the list has at its written size; a millilitre
// counts as a gram. 0 when nobody can say.
func (i *Item) Grams() float64 { return i.mass }

// Item is what the larder knows of it; nil when it does not.
func (i *Item) Item() *larder.Item { return i.it }

// Says tells whether its line, with its note, has a sign.
func (i *Item) Says(sign string) bool { return i.said.Tell(sign) }

// Is tells whether it is raw of a kind.
func (i *Item) Is(k Kind) bool { return slices.Contains(i.Kinds, k) }

// IsKind tells whether its name is one of a list of words: keeps, plant, sour,
// sweet, oil, garlic, cured, bones, live.
func (i *Item) IsKind(kind string) bool { return isKind(kind, i.Name) }

// gramsOf is about how much of a thing its list has; a millilitre counts as a
// gram. 0 when nobody can say.
func gramsOf(l *resolve.Line) float64 {
	q := l.Quantity
	if q == nil {
		return 0
	}
	n := q.Value.High.Float()
	switch q.Dim {
	case quantity.Mass, quantity.Volume:
		return n
	case quantity.None:
		if g, _, ok := l.PieceGrams(); ok {
			return n * g.Float()
		}
	}
	return 0
}

// done are words of a name or a note that say a thing is not raw any more.
var done = []string{"cooked", "precooked", "roast", "roasted", "boiled", "leftover", "tinned", "canned", "poached", "fried", "grilled", "baked", "steamed", "braised", "stewed", "barbecued", "rotisserie", "pasteurised", "pasteurized", "confit", "toasted"}

// remains are words of what was cooked on another day.
var remains = []string{"left from yesterday", "left from last night", "left from sunday", "left over from", "leftover", "left over", "yesterday's", "from yesterday", "from last night", "from the night before", "from the day before", "remains of", "cooked yesterday", "cooked the day before"}

// cured are words of a name by which meat of one piece is eaten as it is. Smoked fish
// and pork are sold raw too.
var cured = []string{"smoked", "cured", "dried", "jerky", "biltong"}

// undone are words before one of those by which it is not so, or not yet.
var undone = map[string]bool{"for": true, "to": true, "be": true, "not": true, "never": true, "part": true, "partly": true, "par": true, "semi": true, "half": true, "un": true, "under": true, "lightly": true, "barely": true, "until": true, "when": true, "once": true}

// partHyphens parts words at their hyphens, which stay: a word that is joined to the
// next is of that, "stewed-style", "baked-on".
var partHyphens = strings.NewReplacer("left-over", "leftover", "left over", "leftover", "-", "- ")

// ready tells whether one of some words stands in a text in small letters and nothing
// before it says that it is not so. A "rib roast" and a "roast of pork" are joints.
func ready(text string, words []string) bool {
	parts := strings.FieldsFunc(partHyphens.Replace(text), func(r rune) bool { return r == ' ' || r == ';' || r == '(' || r == ')' })
	for i, w := range parts {
		joined := strings.HasSuffix(w, "-")
		w = strings.TrimSuffix(w, "-")
		parts[i] = w
		bare := strings.TrimRight(w, ",.")
		if joined || i+1 < len(parts) && strings.TrimRight(parts[i+1], ",.") == "later" {
			continue
		}
		if !slices.Contains(words, bare) || i > 0 && undone[parts[i-1]] || i > 1 && undone[parts[i-2]] && !strings.HasSuffix(parts[i-1], ",") {
			continue
		}
		if bare == "roast" && (i > 0 && !strings.HasSuffix(parts[i-1], ",") && (i+1 == len(parts) || w != bare) || i+1 < len(parts) && parts[i+1] == "of") {
			continue
		}
		return true
	}
	return false
}

// NewItem reads one line of a list that is bought or carried over.
func NewItem(l *resolve.Line) *Item {
	i := &Item{Line: l, Name: l.Name, Leftover: l.Carried != ""}
	name := l.Name[strings.LastIndexByte(l.Name, '/')+1:]
	known := l.Known
	if name != l.Name {
		known = larder.Builtin().Named(name)
	}
	if known != nil {
		i.it = known.Item
	}
	said := strings.ToLower(name + ", " + l.Note.Text + " " + l.Brackets.Text)
	i.Leftover = i.Leftover || hasWord(said, remains...)
	cooked := i.Leftover || Tinned(l) || ready(said, done) || hasWord(said, "smoked salmon", "smoked trout", "smoked mackerel")
	if i.it != nil {
		meat := i.it.Has(larder.RawMeat) || i.it.Has(larder.RawPoultry)
		i.flags(cooked || meat && !i.it.Has(larder.RawPork) && !i.it.Has(larder.RawMince) && ready(strings.ToLower(name), cured))
	} else {
		i.words(strings.ToLower(name), cooked)
	}
	i.Cooked = cooked
	i.said = SignsOf(said)
	i.cut(i.said, cooked)
	slices.Sort(i.Kinds)
	keeps := isKind("keeps", l.Name) || i.it != nil && (i.it.Counter == "spices" || i.it.Counter == "bakery" && !hasWord(strings.ToLower(name), "dough", "batter", "cream", "custard"))
	if keeps {
		i.Strong = false
	}
	i.Plant = !i.Strong && !keeps && isKind("plant", l.Name)
	i.Sour = isKind("sour", l.Name)
	i.Sweet = isKind("sweet", l.Name)
	i.mass = gramsOf(l)
	low := strings.ToLower(name)
	i.fat = isKind("oil", name) || hasWord(low, "lard", "dripping", "frying fat", "shortening", "tallow", "ghee", "duck fat", "goose fat", "beef fat")
	i.sugar = i.Sweet || hasWord(low, "sugar", "syrup", "glucose", "isomalt", "treacle", "honey", "jaggery", "piloncillo")
	i.liquid = l.Water || l.Quantity != nil && l.Quantity.Dim == quantity.Volume || isKind("liquid", name)
	if i.Leftover && !keeps && !i.Plant {
		i.Strong = i.Strong || i.it == nil && !i.Sour && !i.Sweet && !isKind("oil", l.Name)
	}
	return i
}

// rawKinds are the kinds of what the larder knows to be raw.
var rawKinds = []struct {
	flag larder.Flag
	kind Kind
}{{larder.RawPoultry, Poultry}, {larder.RawMince, Mince}, {larder.RawPork, Pork}, {larder.RawFish, Fish}, {larder.RawEgg, Egg}}

func (i *Item) flags(cooked bool) {
	for _, r := range rawKinds {
		if !cooked && i.it.Has(r.flag) {
			i.Kinds = append(i.Kinds, r.kind)
		}
	}
	raw := !cooked && (len(i.Kinds) > 0 || i.it.Has(larder.RawMeat))
	switch {
	case raw && i.it.Has(larder.Game): // birds of the wild are cooked as whoever rules on game says
		i.Kinds = slices.DeleteFunc(i.Kinds, func(k Kind) bool { return k == Poultry })
		i.Kinds = append(i.Kinds, Game)
	case raw && i.it.Has(larder.Liver) && !i.Is(Poultry):
		i.Kinds = append(i.Kinds, Offal)
	}
	i.Flesh = raw && !i.Is(Fish) && !i.Is(Egg)
	i.Shell = !cooked && i.it.Has(larder.RawShell)
	if i.Is(Mince) && i.Is(Pork) { // the limit of mince is the higher one
		i.Kinds = slices.DeleteFunc(i.Kinds, func(k Kind) bool { return k == Pork })
	}
	if !cooked && len(i.Kinds) > 0 && hasWord(strings.ToLower(i.Name), "stuffing") {
		i.Kinds = append(i.Kinds, Stuffing)
	}
	i.Strong = slices.ContainsFunc([]larder.Flag{larder.Meat, larder.Fish, larder.Shellfish, larder.Dairy, larder.Egg, larder.RawEgg, larder.Rice, larder.SoftCheese}, i.it.Has)
}

// words reads a name that the larder does not know.
func (i *Item) words(name string, cooked bool) {
	if hasWord(name, "stock", "broth", "fat", "dripping", "sauce", "powder", "cube", "seasoning", "vegan", "vegetarian", "bouillon", "paste") {
		i.Strong = hasWord(name, "stock", "broth") && hasWord(name, "chicken", "beef", "lamb", "duck", "ham", "fish", "veal")
		return
	}
	poultry := hasWord(name, "chicken", "chickens", "turkey", "turkeys", "duck", "ducks", "duckling", "goose", "guinea fowl", "poussin", "poussins", "quail", "quails", "capon", "ostrich")
	mince := hasWord(name, "mince", "minced", "ground beef", "ground pork", "ground lamb", "ground turkey", "ground chicken", "ground chuck", "burger", "burgers", "sausage", "sausages", "sausagemeat", "meatballs", "bratwurst")
	pork := hasWord(name, "pork", "boar", "pig", "pigs", "pig's")
	red := hasWord(name, "beef", "lamb", "lambs", "calf", "calfs", "calves", "ox", "cow", "mutton", "hogget", "veal", "goat", "kid", "bison", "buffalo meat", "horsemeat", "steak", "steaks", "brisket", "venison", "rabbit", "hare")
	fish := hasWord(name, "fish", "salmon", "cod", "haddock", "trout", "hake", "mackerel", "tuna", "kingfish", "hamachi", "snapper", "bream", "bass", "grouper", "swordfish", "halibut", "monkfish", "sardines", "herring", "mullet", "pollock", "char", "yellowtail", "barramundi")
	shell := hasWord(name, "prawn", "prawns", "shrimp", "shrimps", "crab", "lobster", "oyster", "oysters", "clam", "clams", "mussel", "mussels", "scallop", "scallops", "langoustine", "langoustines", "cockles", "whelks", "razor clams", "squid", "octopus")
	if hasWord(name, "cake", "crackers", "tea", "butter", "tofu", "seitan", "plant", "meatless", "oil", "extract", "mushroom", "mushrooms", "cheese", "milk", "curd", "yoghurt", "yogurt", "cream", "eggs", "egg", "gelatine", "gelatin", "crisps", "noodles", "spice", "rub", "pie", "pasty", "wine", "bouillon", "gravy") && !hasWord(name, "fish cakes") {
		poultry, mince, pork, red, fish, shell = false, false, false, false, false, false
	}
	i.Strong = poultry || mince || pork || red || fish || shell || hasWord(name, "ham", "rice", "cream", "milk", "yoghurt", "yogurt", "custard")
	if cooked || hasWord(name, "smoked", "dried", "cured", "salt", "jerky", "biltong", "pickled") {
		return
	}
	i.Flesh = poultry || mince || pork || red
	i.Shell = shell
	if i.Flesh && hasWord(name, "liver", "livers", "kidneys", "heart", "hearts", "sweetbreads") && !poultry {
		i.Kinds = append(i.Kinds, Offal)
	}
	for _, k := range []struct {
		is   bool
		kind Kind
	}{{poultry, Poultry}, {mince, Mince}, {pork && !mince, Pork}, {fish, Fish}} {
		if k.is {
			i.Kinds = append(i.Kinds, k.kind)
		}
	}
}

// cut reads what was done to raw flesh before it came: what is minced, pierced or
// rolled has its outside inside.
func (i *Item) cut(said *Signs, cooked bool) {
	i.Frozen = said.Tell("frozen") && (!said.Tell("thaw") || said.Tell("from frozen"))
	if !i.Flesh || cooked || i.IsKind("cured") || i.IsKind("bones") {
		return
	}
	poultry := i.Is(Poultry)
	switch {
	case i.Is(Mince):
	case said.Tell("ground") || said.Tell("mince it"), said.Tell("pierced"):
		i.Kinds = slices.DeleteFunc(i.Kinds, func(k Kind) bool { return k == Pork || k == Game })
		if !poultry { // the limit of poultry is the higher one
			i.Kinds = append(i.Kinds, Mince)
		}
	case said.Tell("rolled") && len(i.Kinds) == 0:
		i.Kinds = append(i.Kinds, Rolled)
	}
}

// mince makes minced meat of raw flesh.
func (i *Item) mince() {
	if !i.Flesh || i.Is(Mince) || i.Is(Poultry) || i.Heated || i.Before {
		return
	}
	i.Kinds = append(slices.DeleteFunc(slices.Clone(i.Kinds), func(k Kind) bool { return k == Pork || k == Game || k == Rolled }), Mince)
}

// DriedBeans tells whether it is of dried beans that hold the poison of kidney beans. A
// bare "kidney beans" by weight may be either: it is dried only where the line says so.
func (i *Item) DriedBeans() bool {
	if !i.Has(larder.KidneyBean) || i.Cooked {
		return false
	}
	text := strings.ToLower(i.Line.Name + " " + i.Line.Note.Text)
	switch {
	case hasWord(text, "tin", "tins", "jar", "jars", "jarred"):
		return false
	case hasWord(text, "dried", "dry", "soaked", "uncooked", "raw") || strings.Contains(text, "soak"):
		return true
	}
	return !strings.Contains(text, "kidney") && !hasWord(text, "drained")
}

// Tinned tells whether a line is of tins or jars: cooked by their maker.
func Tinned(l *resolve.Line) bool {
	a := l.Written
	if a == nil {
		return false
	}
	if a.Kind == quantity.Packages {
		return true
	}
	for _, t := range a.Measure.Terms {
		if t.Unit != nil && (t.Unit.Name == "tin" || t.Unit.Name == "can" || t.Unit.Name == "jar") {
			return true
		}
	}
	return false
}

// Speaks tells whether one of some words stands in a text in small letters, as whole
// words.
func Speaks(text string, words ...string) bool { return hasWord(text, words...) }

// hasWord tells whether one of some words stands in a text in small letters, as
// whole words.
func hasWord(text string, words ...string) bool {
	_, ok := findWord(text, words...)
	return ok
}

// findWord finds the first place in a text at which one of some words stands.
func findWord(text string, words ...string) (at int, ok bool) {
	return findFrom(text, begins(text), words)
}

// begins are the first letters of the words of a text, as bits: most words that are looked
// for begin otherwise.
func begins(text string) (bits uint32) {
	inside := false
	for i := 0; i < len(text); i++ {
		if !inside {
			bits |= 1 << (text[i] & 31)
		}
		inside = letter(text, i)
	}
	return bits
}

// findFrom is findWord for a text whose first letters are known.
func findFrom(text string, first uint32, words []string) (at int, ok bool) {
	best := -1
	for _, w := range words {
		if w != "" && first&(1<<(w[0]&31)) == 0 {
			continue
		}
		for from := 0; ; {
			i := strings.Index(text[from:], w)
			if i < 0 {
				break
			}
			i += from
			if !letter(text, i-1) && !letter(text, i+len(w)) {
				if best < 0 || i < best {
					best = i
				}
				break
			}
			from = i + 1
		}
	}
	return best, best >= 0
}

func letter(text string, i int) bool {
	return i >= 0 && i < len(text) && (text[i] >= 'a' && text[i] <= 'z' || text[i] >= 0x80)
}
