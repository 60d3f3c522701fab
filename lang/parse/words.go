package parse

import "strings"

// Place is where a line or a clause stands. Rule one of the notation: a line
// is what its place and first word make it.
type Place int

// The places of a file.
const (
	AtBlock   Place = iota // a line at column 0
	InMenu                 // the lines of a menu
	InCourse               // the servings of a course
	OnServing              // after a serving's comma
	InRecipe               // the lines of a dish or a base
	InGather               // the lines of a list
	OnLine                 // the margin of a gathered line
	InMethod               // the lines of a method
	OnStep                 // the margin of a step
	InKitchen              // the lines of a kitchen
	InLarder               // the lines of a larder
	OnFact                 // the margin of a larder line
	InSeries               // the lines of a series
	InPart                 // the lines of a part
	InBook                 // the lines of a book
	InChapter              // the names of a chapter
	placeCount
)

var placeNames = [placeCount]string{
	"at the start of a line", "a menu", "a course", "a serving", "a dish or a base", "a `gather` list",
	"the margin of a gathered line", "a method", "the margin of a step", "a kitchen", "a larder",
	"the margin of a larder line", "a series", "a part", "a book", "a chapter",
}

// String names the place in a cook's words: "a menu".
func (p Place) String() string {
	if p < 0 || p >= placeCount {
		return "nowhere"
	}
	return placeNames[p]
}

// Word is one literal of the notation.
type Word struct {
	Text  string  // in small letters: "never above"
	In    []Place // where it may stand
	Since int     // the first notation that has it
	Form  string  // how it is written, by example: "never above 80 C"
	Help  string  // one line for completions and the manual
}

// Allowed tells whether the word may stand in a place.
func (w *Word) Allowed(p Place) bool {
	for _, in := range w.In {
		if in == p {
			return true
		}
	}
	return false
}

// Notation is the newest version of the notation this program reads.
const Notation = 1

var (
	anyBody = []Place{InMenu, InRecipe, InKitchen, InSeries, InPart, InBook}
	menu    = []Place{InMenu}
	recipe  = []Place{InRecipe}
	kitchen = []Place{InKitchen}
	onLine  = []Place{OnLine}
	onStep  = []Place{OnStep}
	onBoth  = []Place{OnLine, OnStep}
	onFact  = []Place{OnFact}
	serving = []Place{OnServing}
)

// words is the one table of literals, in the order the formatter keeps.
var words = []Word{
	{"notation", []Place{AtBlock}, 1, "notation 1", "the version of the notation, as a file's first line"},
	{"menu", []Place{AtBlock}, 1, "menu Harvest lunch", "a meal: what is served, to how many, when and where"},
	{"dish", []Place{AtBlock}, 1, "dish Barley pilaf", "something that goes to the table"},
	{"base", []Place{AtBlock}, 1, "base Herb oil", "a preparation that dishes draw on"},
	{"kitchen", []Place{AtBlock}, 1, "kitchen Farmhouse", "the place: cooks, ovens, rings, tools"},
	{"larder", []Place{AtBlock}, 1, "larder", "facts about ingredients, and the units of the folder"},
	{"series", []Place{AtBlock}, 1, "series Evening class", "meals or lessons in parts"},
	{"book", []Place{AtBlock}, 1, "book House book", "chapters of dishes, with a house style"},

	{"by", anyBody, 1, "by Ana Roe", "who wrote it"},
	{"source", anyBody, 1, "source a handwritten card", "where it comes from"},
	{"picture", anyBody, 1, "picture pilaf.jpg", "a picture to print beside it"},
	{"link", anyBody, 1, "link https://example.org/pilaf", "a page to point to"},
	{"practice", anyBody, 1, "practice UK", "whose limits for keeping and cooking are checked"},
	{"language", []Place{InMenu, InRecipe, InKitchen, InSeries, InPart, InBook, InLarder}, 1, "language en", "the language of names, units and sheets"},
	{"allow", anyBody, 1, "allow E201: the old name is meant", "a finding that is meant, with the reason"},

	{"covers", menu, 1, "covers 12", "how many sit down"},
	{"serve", menu, 1, "serve 2027-09-19 13:00", "the day and time of serving"},
	{"at", menu, 1, "at Farmhouse", "the kitchen the menu is cooked in"},
	{"hours", menu, 1, "hours day before, 17:00 to 20:00, Ana", "when the kitchen is worked, and by whom"},
	{"course", menu, 1, "course Main, 30 min after First", "a course, with its dishes below it"},
	{"task", menu, 1, "task Lay the table, work 20 min, before First", "work that is no dish"},

	{"for", serving, 1, "Plum crumble, for 10", "a number of its own for this dish"},
	{"ahead", serving, 1, "Slow lamb, ahead", "made ahead: at least one pause is taken"},
	{"straight through", serving, 1, "Slow lamb, straight through", "made without a pause"},
	{"bought", serving, 1, "Lemon sorbet, bought", "bought, not made"},
	{"to be written", serving, 1, "Baked apples, to be written", "a dish that has no recipe yet"},
	{"cook for", serving, 1, "Slow lamb, cook for 10", "more is cooked than is served"},
	{"keep the remains for", serving, 1, "Slow lamb, keep the remains for Monday", "what is left is wanted for another meal"},

	{"as", recipe, 1, "as Brown roux, but", "like another block, save the lines given here"},
	{"serves", recipe, 1, "serves 6", "the number of portions"},
	{"makes", recipe, 1, "makes 300 ml", "what comes of it"},
	{"keeps", recipe, 1, "keeps 2 days, fridge", "how long it keeps, and where"},
	{"tested", recipe, 1, "tested 4 to 12", "the numbers of portions that were tried"},
	{"units", []Place{InRecipe, InLarder}, 1, "units metric", "whose cups, spoons and pints: metric, US, imperial or AU"},
	{"whole batches", recipe, 1, "whole batches", "made in whole batches only"},
	{"takes", recipe, 1, "takes 1 h 30 min, work 20 min", "the time the writer gives at the head"},
	{"about", recipe, 1, "about", "prose about the dish, below it"},
	{"gather", recipe, 1, "gather", "the list of what is gathered, below it"},
	{"method", recipe, 1, "method", "the steps, below it, each after a dash"},
	{"serve", recipe, 1, "serve hot, within 10 min", "how it is served: hot, warm, cold or at room temperature"},

	{"for", []Place{InGather}, 1, "for the dressing", "a list within the list"},
	{"either", []Place{InGather}, 1, "either plain", "the first of two or more ways"},
	{"or", []Place{InGather}, 1, "or with almonds", "another way"},
	{"instead", []Place{InGather}, 1, "instead 300 ml vegetable stock", "what may be used instead, below the line"},
	{"said", []Place{InGather}, 1, `said "as much as it will drink"`, "the writer's own words, below the line"},
	{"pause", []Place{InMethod}, 1, "pause up to 1 day, fridge", "the work may rest here"},

	{"if", onStep, 1, "if with almonds", "only when this option, or a pause, is taken"},
	{"unless", onStep, 1, "unless paused", "not when this option, or a pause, is taken"},
	{"only if needed", onStep, 1, "only if needed", "may not happen"},
	{"meanwhile", onStep, 1, "meanwhile", "beside the step before, not after it"},
	{"after start", onStep, 1, "after start", "waits for no step"},
	{"after", onStep, 1, "after pastry", "waits for what this names, not for the step before"},
	{"oven", onStep, 1, "oven 200 C", "the heat of the oven"},
	{"ring", onStep, 1, "ring high", "on a ring: high, medium or low"},
	{"rings", onStep, 1, "2 rings high", "on several rings"},
	{"grill", onStep, 1, "grill high", "under the grill"},
	{"fridge", onStep, 1, "fridge", "in the fridge"},
	{"freezer", onStep, 1, "freezer", "in the freezer"},
	{"room", onStep, 1, "room, 20 C", "at room temperature"},
	{"larder", onStep, 1, "larder", "in a cool larder"},
	{"warm place", onStep, 1, "warm place, 27 C", "somewhere warm"},
	{"in", onStep, 1, "in roasting tin, holds 5 litres", "the vessel"},
	{"into", onStep, 1, "into 20 tart cases, 90 ml each", "shared out into vessels or pieces"},
	{"tool", onStep, 1, "tool stick blender", "a tool of the kitchen"},
	{"work", onBoth, 1, "work 5 min", "time with hands on"},
	{"watch", onBoth, 1, "watch 10 min", "time at hand, not hands on"},
	{"leave", onBoth, 1, "leave 35 to 40 min", "time left alone"},
	{"rest", onStep, 1, "rest 20 min", "left alone at room temperature"},
	{"stand", onStep, 1, "stand 3 days, up to 8 weeks, larder", "left in a place"},
	{"thaw", onStep, 1, "thaw 12 h, fridge", "thawed in a place"},
	{"core", onStep, 1, "core 75 C", "the heat at the centre"},
	{"reach", onStep, 1, "reach 121 C", "the heat to be reached"},
	{"never above", onStep, 1, "never above 80 C", "the heat not to be passed"},
	{"within", onStep, 1, "within 10 min", "how soon after the step before"},
	{"start", onStep, 1, "start 30 min before serving", "when it starts, counted from serving"},
	{"done", onStep, 1, "done 10 min before serving", "when it is done, counted from serving"},
	{"uses", onStep, 1, "uses 20 g butter", "what the step takes, whatever the prose says"},
	{"makes", onStep, 1, "makes 200 ml lamb fat", "what the step gives beside, or the name of what it made"},
	{"draws", onStep, 1, "draws 600 g golden onions", "lifted out, while the rest cooks on"},
	{"keeps", []Place{OnLine, OnStep, OnFact}, 1, "keeps 2 days, fridge", "how long it keeps, and where"},
	{"hold", onStep, 1, "hold hot up to 1 h, above 63 C", "how long it may be held"},
	{"by", onStep, 1, "by Ana", "who does it"},
	{"with", onStep, 1, "with 2 cooks", "how many it takes"},
	{"caution", onBoth, 1, "caution hot sugar burns", "a caution to print"},

	{"bought", onLine, 1, "bought", "the shop's, though a base of the folder has the name"},
	{"drained", onLine, 1, "drained 240 g", "what is left of it when drained"},
	{"bought as", onLine, 1, "bought as 3 7/8 lb", "what is bought to give a trimmed amount"},
	{"as bought", onLine, 1, "as bought", "the figure is as bought"},
	{"net", onLine, 1, "net", "the figure is as used, trimmed"},
	{"plus extra", onLine, 1, "plus extra for dusting", "a little more, unmeasured"},
	{"optional", onLine, 1, "optional", "may be left out"},
	{"to taste", onLine, 1, "to taste", "as much as tastes right"},
	{"seasoning", onLine, 1, "seasoning", "used throughout, never runs out"},
	{"fixed", onLine, 1, "fixed", "does not grow with the portions"},
	{"whole", onLine, 1, "whole", "only whole ones"},
	{"per vessel", onLine, 1, "per vessel", "grows with the number of vessels"},
	{"by area", onLine, 1, "by area", "grows with the size of the vessel"},
	{"left from", onLine, 1, "left from Saturday", "left of an earlier meal"},
	{"made in part", onLine, 1, "made in part 1", "made in an earlier part of the series"},

	{"cooks", kitchen, 1, "cooks Ana, Jo", "who works in the kitchen"},
	{"oven", kitchen, 1, "oven main, 2 shelves, fan, preheat 15 min", "an oven"},
	{"rings", kitchen, 1, "rings 4", "how many rings the hob has"},
	{"tools", kitchen, 1, "tools mandoline, stick blender, washed in 3 min", "the tools there are, and how long it takes to wash one"},
	{"vessel", kitchen, 1, "vessel stockpot, holds 20 litres, 2", "a vessel, what it holds, how many"},
	{"wash up", kitchen, 1, "wash up 10 min, after each dish", "time for washing up: after each dish, every 2 h, or before serving"},
	{"waits", kitchen, 1, "waits hot 10 min", "how long things may wait: hot, cold or prepared"},
	{"zone", kitchen, 1, "zone Europe/London", "the time zone"},

	{"decimal", []Place{InLarder}, 1, "decimal comma", "the mark between whole and part: comma or point"},
	{"piece", onFact, 1, "piece 600 g", "what one weighs, bought or trimmed"},
	{"yields", onFact, 1, "yields 75%", "what trimming leaves"},
	{"buy", onFact, 1, "buy greengrocer", "the counter it is bought at"},
	{"price", onFact, 1, "price 1.80 each", "what it costs, each or per amount"},
	{"weighs", onFact, 1, "weighs 0.99 g per ml", "what a measure of it weighs"},
	{"packs", onFact, 1, "packs 300 ml or 600 ml", "the packs it is sold in"},
	{"contains", onFact, 1, "contains milk", "allergens in it"},
	{"same as", onFact, 1, "same as courgette", "another name for the same thing"},
	{"plural", onFact, 1, "plural loaves", "its plural"},
	{"measure", onFact, 1, "measure", "a word to count by, like clove or sprig"},
	{"gives", onFact, 1, "gives 1 egg white and 1 egg yolk", "what one of it gives"},

	{"part", []Place{InSeries}, 1, "part 1 The lamb", "one part of the series"},
	{"shows", []Place{InPart}, 1, "shows Slow lamb", "a dish or base shown in the part"},
	{"date", []Place{InPart}, 1, "date 2027-08-30", "the day of the part"},
	{"stand-ins", []Place{InPart}, 1, "stand-ins 2 of Slow lamb, as rested lamb", "made beforehand, to be shown"},

	{"style", []Place{InBook}, 1, "style range dash", "a rule of house style"},
	{"chapter", []Place{InBook}, 1, "chapter Soups", "a chapter, with its dishes below it"},
}

// index finds words by place and first word, longest group first.
var index = buildIndex()

func buildIndex() (idx [placeCount]map[string][]*Word) {
	for p := range idx {
		idx[p] = map[string][]*Word{}
	}
	for i := range words {
		w := &words[i]
		first, _, _ := strings.Cut(w.Text, " ")
		for _, p := range w.In {
			list := append(idx[p][first], w)
			for k := len(list) - 1; k > 0 && len(list[k].Text) > len(list[k-1].Text); k-- {
				list[k], list[k-1] = list[k-1], list[k]
			}
			idx[p][first] = list
		}
	}
	return idx
}

// Words is the table of literals, in the order the formatter keeps.
func Words() []Word {
	var out []Word
	for _, w := range words {
		w.In = append([]Place(nil), w.In...)
		out = append(out, w)
	}
	return out
}

// WordsIn lists the literals that may begin a line, or a clause, in a place.
func WordsIn(p Place) []Word {
	var out []Word
	for _, w := range words {
		if w.Allowed(p) {
			out = append(out, w)
		}
	}
	return out
}

// Order is the rank of a word in a place, for putting fields and clauses in
// table order; unknown words come last.
func Order(p Place, text string) int {
	for i := range words {
		if words[i].Text == text && words[i].Allowed(p) {
			return i
		}
	}
	return len(words)
}

// LookUp finds the literal a text begins with in a place, in any case, and the
// number of bytes it fills, a final colon with it. A word end must follow.
func LookUp(p Place, text string) (*Word, int) {
	end := 0
	for end < len(text) && isKeyByte(text[end]) {
		end++
	}
	if end == 0 {
		return nil, 0
	}
	first := lower(text[:end])
	for _, w := range index[p][first] {
		if n := matchGroup(text, w.Text); n > 0 {
			return w, n
		}
	}
	return nil, 0
}

func isKeyByte(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '-'
}

// matchGroup matches the words of a group, which may be any number of blanks
// apart, and returns the bytes matched or 0.
func matchGroup(text, group string) int {
	i := 0
	for g := 0; g < len(group); {
		if group[g] == ' ' {
			n := blanks(text[i:])
			if n == 0 {
				return 0
			}
			i += n
			g++
			continue
		}
		if i >= len(text) || lowerByte(text[i]) != group[g] {
			return 0
		}
		i++
		g++
	}
	if i < len(text) && text[i] == ':' {
		return i + 1
	}
	if !wordEnd(text[i:]) {
		return 0
	}
	return i
}

func lowerByte(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

// lower is strings.ToLower, free of allocation for small letters.
func lower(s string) string {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= 0x80 || 'A' <= c && c <= 'Z' {
			return strings.ToLower(s)
		}
	}
	return s
}
