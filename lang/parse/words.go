package parse

// Place is where a line or a clause stands. Rule one of the notation: a line
// is what its place and first word make it.
type Place int

// The places of a file.
const (
	AtBlock   Place = iota // a line at column 0
	InMenu                 // the lines of a menu
	InCourse               // the servings of a course
	OnServing              // after a serving's comma
	OnPin                  // the lines below a serving
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
	"at the start of a line", "a menu", "a course", "a serving", "a line for a step", "a dish or a base", "a `gather` list",
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

// Word is one literal of the notation that begins a line or a clause.
type Word struct {
	Text  string  // in small letters: "never above"
	In    []Place // where it may stand
	Since int     // the first notation that has it
	Form  string  // how it is written, by example: "never above 80 C"
	Help  string  // one line for completions and the manual

	reads rule  // how the lexer reads what stands behind it
	is    trait // what else the parser must know
	opens Place // what the lines below it are; none when nothing stands below
}

// trait is what the parser knows of a word beside its grammar.
type trait uint16

const (
	once       trait = 1 << iota // at most one in a block, or in a margin
	body                         // the lines below it are read even when its own is wrong
	titled                       // a word and a name, which a colon may close
	asNote                       // may be written as a note; it is moved behind the bar
	worked                       // time with hands on; comes first in a margin
	watched                      // time at hand; comes next
	left                         // time left alone; comes next, and only once
	afterwards                   // work when it has been left; comes last
	counted                      // wants a whole number
	plain      trait = 0
)

// none is where no line leads: a block stands below nothing.
const none = AtBlock

func (w *Word) has(t trait) bool { return w != nil && w.is&t != 0 }

// rank is where a time stands in a margin: it is worked, then watched, then
// left, then worked again; 0 for what is no time.
func (w *Word) rank() int {
	switch {
	case w.has(worked):
		return 1
	case w.has(watched):
		return 2
	case w.has(left):
		return 3
	case w.has(afterwards):
		return 4
	}
	return 0
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
	service = []Place{InKitchen, InMenu}
	noted   = []Place{InRecipe, InSeries, InPart}
)

// words is the one table of the words that begin something: where each may
// stand, how it is written, what it is for, how it is read, and what else the
// parser must know, in the order the formatter keeps. A new word is a row here,
// an alternative of its place in grammar.go, and its meaning; tests hold the
// grammar, the page of the notation and the formatter against the table.
var words = []Word{
	{"notation", []Place{AtBlock}, 1, "notation 1", "the version of the notation, as a file's first line", aCount, counted, none},
	{"menu", []Place{AtBlock}, 1, "menu Harvest lunch", "a meal: what is served, to how many, when and where", aTitle, plain, InMenu},
	{"dish", []Place{AtBlock}, 1, "dish Barley pilaf", "something that goes to the table", aTitle, plain, InRecipe},
	{"base", []Place{AtBlock}, 1, "base Herb oil", "a preparation that dishes draw on", aTitle, plain, InRecipe},
	{"kitchen", []Place{AtBlock}, 1, "kitchen Farmhouse", "the place: cooks, ovens, rings, tools", aTitle, plain, InKitchen},
	{"larder", []Place{AtBlock}, 1, "larder", "facts about ingredients, and the units of the folder", nothing, plain, InLarder},
	{"series", []Place{AtBlock}, 1, "series Evening class", "meals or lessons in parts", aTitle, plain, InSeries},
	{"book", []Place{AtBlock}, 1, "book House book", "chapters of dishes, with a house style", aTitle, plain, InBook},

	{"by", anyBody, 1, "by Ana Roe", "who wrote it", freeText, plain, none},
	{"source", anyBody, 1, "source a handwritten card", "where it comes from", freeText, plain, none},
	{"picture", anyBody, 1, "picture pilaf.jpg", "a picture to print beside it", freeText, plain, none},
	{"link", anyBody, 1, "link https://example.org/pilaf", "a page to point to", freeText, plain, none},
	{"licence", anyBody, 1, "licence CC BY 4.0", "on what terms others may use it", freeText, plain, none},
	{"rules", anyBody, 1, "rules UK", "whose limits for keeping and cooking are checked", freeText, once, none},
	{"language", []Place{InMenu, InRecipe, InKitchen, InSeries, InPart, InBook, InLarder}, 1, "language en", "the language of names, units and sheets", freeText, once, none},
	{"allow", anyBody, 1, "allow E201: the old name is meant", "a finding that is meant, with the reason", rule{wCode, wText, nil}, plain, none},
	{"for", []Place{InBook}, 1, "for Bea and Tom, who asked", "for whom it was made: a line of the title page", freeText, once, none},

	{"covers", menu, 1, "covers 12", "how many sit down", rule{wInt, wInt, []string{"children", "child"}}, once | counted, none},
	{"on the table", menu, 1, "on the table 2027-09-19 13:00", "the day and time of serving", rule{wDate, wClock, nil}, once, none},
	{"at", menu, 1, "at Farmhouse", "the kitchen the menu is cooked in", aTitle, once, none},
	{"hours", menu, 1, "hours day before, 17:00 to 20:00, Ana", "when the kitchen is worked, and by whom", rule{wDate, wClock, []string{"on the day", "day before", "days before", "to"}}, plain, none},
	{"shop", menu, 1, "shop 2027-09-16, 2027-09-18", "the days of shopping, or one by its name: the last before serving", rule{wDate, wDate, nil}, once, none},
	{"course", menu, 1, "course Main, 30 min after First", "a course, with its dishes below it", rule{wTitle, wTime, []string{"at", "after"}}, titled, InCourse},
	{"task", menu, 1, "task Lay the table, work 20 min, before First", "work that is no dish", rule{wTitle, wTitle, []string{"work", "by", "before serving", "before", "after", "done"}}, plain, none},

	{"for", serving, 1, "Plum crumble, for 10", "a number of its own for this dish", nothing, plain, none},
	{"ahead", serving, 1, "Slow lamb, ahead", "made ahead: at least one pause is taken", nothing, plain, none},
	{"straight through", serving, 1, "Slow lamb, straight through", "made without a pause", nothing, plain, none},
	{"from", serving, 1, "Lemon sorbet, from the shop", "bought, not made", nothing, plain, none},
	{"to be written", serving, 1, "Baked apples, to be written", "a dish that has no recipe yet", nothing, plain, none},
	{"cook for", serving, 1, "Slow lamb, cook for 10", "more is cooked than is served", nothing, plain, none},
	{"keep the remains for", serving, 1, "Slow lamb, keep the remains for Monday", "what is left is wanted for another meal", nothing, plain, none},

	{"step", []Place{OnPin}, 1, "step 3: at day before, 17:30, by Nell, in small", "when a step of the dish begins this time, who does it, and in which oven", nothing, counted, none},

	{"as", recipe, 1, "as Brown roux, but", "like another block, save the lines given here", rule{wTitle, wName, []string{"but"}}, once, none},
	{"serves", recipe, 1, "serves 6", "the number of portions", rule{wRange, wMeasure, []string{"each"}}, once | counted, none},
	{"makes", recipe, 1, "makes 300 ml", "what comes of it", rule{wAlone, wMeasure, []string{"each", "about", "nearly"}}, once, none},
	{"keeps", recipe, 1, "keeps 2 days, fridge", "how long it keeps, and where", aStay, plain, none},
	{"tested", recipe, 1, "tested 4 to 12", "the numbers of portions that were tried", aFigure, once | counted, none},
	{"units", []Place{InRecipe, InLarder}, 1, "units metric", "whose cups, spoons and pints: metric, US, imperial or AU", aTitle, once, none},
	{"whole batches", recipe, 1, "whole batches", "made in whole batches only", nothing, once, none},
	{"takes", recipe, 1, "takes 1 h 30 min, work 20 min", "the time the writer gives at the head", rule{wTime, wTime, []string{"work"}}, once, none},
	{"also called", recipe, 1, "also called Leek stew, Leek hotpot", "other names by which it is found", aTitle, once, none},
	{"goes with", recipe, 1, "goes with rye bread, Bean mash", "what it is good with", aTitle, once, none},
	{"props", noted, 1, "props blue plates, linen cloth", "what is to be seen beside it, where it is shown or photographed", aTitle, once, none},
	{"equipment", noted, 1, "equipment fish kettle, thermometer", "what must be there to make it", aTitle, once, none},
	{"cooked", recipe, 1, "cooked 2026-12-25, Bea: less salt", "when it was cooked, by whom, and what came of it", aDiary, plain, none},
	{"corrected", noted, 1, "corrected 2027-10-03: 12 g salt, not 20", "what was put right after it was printed", aDiary, plain, none},
	{"about", []Place{InRecipe, InSeries, InPart, InBook}, 1, "about", "prose about it, below it", nothing, once | body, none},
	{"gather", recipe, 1, "gather", "the list of what is gathered, below it", rule{wName, wName, []string{"percent of"}}, once | body, InGather},
	{"method", recipe, 1, "method", "the steps, below it, each after a dash", nothing, once | body, InMethod},
	{"without step", recipe, 1, "without step 2", "a step of the other block that is left out", aStep, titled, none},
	{"replace step", recipe, 1, `replace step 2, "Strain"`, "a step of the other block, and below it what is done in its place", aStep, titled, InMethod},
	{"before step", recipe, 1, `before step 2, "Strain"`, "steps that come before one of the other block, below it", aStep, titled, InMethod},
	{"after step", recipe, 1, `after step 2, "Strain"`, "steps that come after one of the other block, below it", aStep, titled, InMethod},
	{"without", recipe, 1, "without milk", "what the other block gathers and this one leaves out", aTitle, plain, none},
	{"replace", recipe, 1, "replace milk with 300 ml cream", "another thing in place of what the other block gathers", rule{wNamed, wText, []string{"with"}}, plain, none},
	{"serve", recipe, 1, "serve hot, within 10 min", "how it is served: hot, warm, cold or at room temperature", rule{wRange, wTime, []string{"hot", "warm", "cold", "at room temperature", "within"}}, once, none},

	{"for", []Place{InGather}, 1, "for the dressing", "a list within the list", rule{wName, wName, []string{"the"}}, titled, none},
	{"either", []Place{InGather}, 1, "either plain", "the first of two or more ways", aTitle, titled, none},
	{"or", []Place{InGather}, 1, "or with almonds", "another way", aTitle, titled, none},
	{"instead", []Place{InGather}, 1, "instead 300 ml vegetable stock", "what may be used instead, below the line", nothing, plain, none},
	{"said", []Place{InRecipe, InGather}, 1, `said "as much as it will drink"`, "the writer's own words: of the block, or below a line or a step", freeText, plain, none},
	{"pause", []Place{InMethod}, 1, "pause up to 1 day, fridge", "the work may rest here", rule{wTime, wName, append([]string{"up to"}, placeWords...)}, plain, none},

	{"if", onStep, 1, "if with almonds", "only when this option is chosen", aTitle, plain, none},
	{"unless", onStep, 1, "unless with almonds", "not when this option is chosen", aTitle, plain, none},
	{"only after a pause", onStep, 1, "only after a pause", "only if the pause above is taken", nothing, plain, none},
	{"only before a pause", onStep, 1, "only before a pause", "only if the pause below will be taken", nothing, plain, none},
	{"not after a pause", onStep, 1, "not after a pause", "not if the pause above is taken", nothing, plain, none},
	{"not before a pause", onStep, 1, "not before a pause", "not if the pause below will be taken", nothing, plain, none},
	{"only if needed", onStep, 1, "only if needed", "may not happen", nothing, once, none},
	{"twice", onStep, 1, "twice", "the whole step, one time after the other; its amounts are for both", nothing, once, none},
	{"three times", onStep, 1, "three times", "the whole step, one time after the other; its amounts are for all", nothing, once, none},
	{"four times", onStep, 1, "four times", "the whole step, one time after the other; its amounts are for all", nothing, once, none},
	{"meanwhile", onStep, 1, "meanwhile", "beside the step before, not after it", nothing, once, none},
	{"any time", onStep, 1, "any time", "waits for no step", nothing, once, none},
	{"after", onStep, 1, "after pastry", "waits for what this names, not for the step before", aName, plain, none},
	{"oven", onStep, 1, "oven 200 C", "the heat of the oven", rule{wTemp, wInt, ovenWords}, once, none},
	{"ring", onStep, 1, "ring high", "on a ring: high, medium or low", aLevel, plain, none},
	{"rings", onStep, 1, "2 rings high", "on several rings", aLevel, plain, none},
	{"grill", onStep, 1, "grill high", "under the grill", aLevel, once, none},
	{"fridge", onStep, 1, "fridge", "in the fridge", someDegrees, plain, none},
	{"freezer", onStep, 1, "freezer", "in the freezer", someDegrees, plain, none},
	{"room", onStep, 1, "room, 20 C", "at room temperature", someDegrees, plain, none},
	{"cool place", onStep, 1, "cool place", "somewhere cool: a larder, a cellar", someDegrees, plain, none},
	{"warm place", onStep, 1, "warm place, 27 C", "somewhere warm", someDegrees, plain, none},
	{"in", onStep, 1, "in roasting tin, holds 5 litres", "the vessel", rule{wVessel, wMeasure, []string{"holds"}}, plain, none},
	{"into", onStep, 1, "into 20 tart cases, 90 ml each", "shared out into vessels or pieces", rule{wInt, wMeasure, []string{"each"}}, plain, none},
	{"tool", onStep, 1, "tool stick blender", "a tool of the kitchen", aName, plain, none},
	{"work", onBoth, 1, "work 5 min", "time with hands on", aSpell, worked, none},
	{"watch", onBoth, 1, "watch 10 min", "time at hand, not hands on", aSpell, watched, none},
	{"leave", onBoth, 1, "leave 35 to 40 min", "time left alone", aSpell, left, none},
	{"rest", onStep, 1, "rest 20 min", "left alone at room temperature", aSpell, left, none},
	{"stand", onStep, 1, "stand 3 days, up to 8 weeks, cool place", "left in a place", aStay, left, none},
	{"thaw", onStep, 1, "thaw 12 h, fridge", "thawed in a place", aStay, left, none},
	{"then work", onBoth, 1, "then work 2 min", "time with hands on when it has been watched or left: draining, turning out", aSpell, afterwards, none},
	{"core", onStep, 1, "core 75 C", "the heat at the centre", rule{wTemp, wTemp, []string{"for"}}, once, none},
	{"reach", onStep, 1, "reach 121 C", "the heat to be reached", someDegrees, once, none},
	{"never above", onStep, 1, "never above 80 C", "the heat not to be passed", someDegrees, once, none},
	{"within", onStep, 1, "within 10 min", "how soon after the step before", aTime, once, none},
	{"start", onStep, 1, "start 30 min before serving", "when it starts, counted from serving", beforeServing, once, none},
	{"done", onStep, 1, "done 10 min before serving", "when it is done, counted from serving", beforeServing, once, none},
	{"uses", onStep, 1, "uses 20 g butter", "what the step takes, whatever the prose says", rule{wAmount, wName, []string{"nothing", "the"}}, plain, none},
	{"makes", onStep, 1, "makes 200 ml lamb fat", "what the step gives beside, or the name of what it made", rule{wAmount, wName, []string{"the"}}, plain, none},
	{"sets aside", onStep, 1, "sets aside 600 g golden onions", "lifted out, while the rest cooks on", rule{wAmount, wName, []string{"the"}}, plain, none},
	{"keeps", []Place{OnLine, OnStep, OnFact}, 1, "keeps 2 days, fridge", "how long it keeps, and where", aStay, once, none},
	{"hold", onStep, 1, "hold hot up to 1 h, above 63 C", "how long it may be held", rule{wTime, wTemp, []string{"hot", "warm", "cold", "up to", "above", "below"}}, once, none},
	{"by", onBoth, 1, "by Ana", "who does it", aTitle, once, none},
	{"with", onStep, 1, "with 2 cooks", "how many it takes", rule{wInt, wName, []string{"cooks", "cook"}}, once, none},
	{"caution", onBoth, 1, "caution hot sugar burns", "a caution to print", freeText, plain, none},

	{"from", onLine, 1, "from the shop", "bought, though a base of the folder has the name; and where", aSeller, once, none},
	{"drained", onLine, 1, "drained 240 g", "what is left of it when drained", aMeasure, once, none},
	{"buy", onLine, 1, "buy 3 lb whole chicken", "what is bought for this amount, by another name too", rule{wAlone, wName, nil}, once, none},
	{"as sold", onLine, 1, "as sold", "the figure is of the thing as it is sold", nothing, once, none},
	{"trimmed", onLine, 1, "trimmed", "the figure is of what is left after trimming", nothing, once, none},
	{"plus extra", onLine, 1, "plus extra for dusting", "a little more, unmeasured", freeText, once, none},
	{"optional", onLine, 1, "optional", "may be left out", nothing, once | asNote, none},
	{"to taste", onLine, 1, "to taste", "as much as tastes right", nothing, once | asNote, none},
	{"scales less", onLine, 1, "scales less", "grows less than the rest", nothing, once, none},
	{"fixed", onLine, 1, "fixed", "does not grow with the portions", nothing, once, none},
	{"whole", onLine, 1, "whole", "only whole ones", nothing, once, none},
	{"per vessel", onLine, 1, "per vessel", "grows with the number of vessels", nothing, once, none},
	{"by area", onLine, 1, "by area", "grows with the size of the vessel", nothing, once, none},
	{"left from", onLine, 1, "left from Saturday", "left of an earlier meal", freeText, once, none},
	{"made in part", onLine, 1, "made in part 1", "made in an earlier part of the series", aCount, once, none},

	{"cooks", kitchen, 1, "cooks Ana, Jo", "who works in the kitchen", aTitle, plain, none},
	{"oven", kitchen, 1, "oven main, 2 shelves, fan, preheat 15 min", "an oven", rule{wTitle, wInt, []string{"shelves", "shelf", "fan", "gas", "preheat", "heats", "cools", "within"}}, plain, none},
	{"rings", kitchen, 1, "rings 4", "how many rings the hob has", aCount, once | counted, none},
	{"tools", kitchen, 1, "tools mandoline, stick blender, washed in 3 min", "the tools there are, and how long it takes to wash one", rule{wTitle, wTitle, []string{"washed in"}}, plain, none},
	{"vessel", kitchen, 1, "vessel stockpot, holds 20 litres, 2", "a vessel, what it holds, how many", rule{wTitle, wInt, []string{"holds"}}, plain, none},
	{"wash up", kitchen, 1, "wash up 10 min, after each dish", "time for washing up: after each dish, every 2 h, or before serving", rule{wTime, wTime, []string{"after each dish", "every", "before serving", "by"}}, plain, none},
	{"hold", kitchen, 1, "hold hot 10 min", "how long things may wait: hot, cold or prepared", rule{wTime, wTime, []string{"hot", "cold", "prepared"}}, plain, none},
	{"plates", service, 1, "plates 20 s a cover", "how long plating takes", rule{wTime, wTime, []string{"a cover"}}, once, none},
	{"clears", service, 1, "clears 5 min, after each course", "how long clearing takes", rule{wTime, wTime, []string{"after each course"}}, once, none},
	{"cleans down", service, 1, "cleans down 30 min", "how long the kitchen is cleaned at the end", aTime, once, none},
	{"breaks", service, 1, "breaks 10 min, every 4 h", "the rest that a cook has", rule{wTime, wTime, []string{"every"}}, once, none},
	{"knives down", service, 1, "knives down 45 min before", "how long before serving the work on the boards ends", rule{wTime, wTime, []string{"before"}}, once, none},
	{"zone", kitchen, 1, "zone Europe/London", "the time zone", freeText, once, none},

	{"decimal", []Place{InLarder}, 1, "decimal comma", "the mark between whole and part: comma or point", aTitle, once, none},
	{"piece", onFact, 1, "piece 600 g", "what one weighs, as sold or trimmed", rule{wMeasure, wName, []string{"as sold", "trimmed"}}, plain, none},
	{"yields", onFact, 1, "yields 75%", "what trimming leaves", rule{wPercent, wName, nil}, plain, none},
	{"from", onFact, 1, "from the greengrocer", "the counter or the shop that sells it", aSeller, plain, none},
	{"price", onFact, 1, "price 1.80 each", "what it costs, each or per amount", rule{wNumber, wName, []string{"each", "per"}}, plain, none},
	{"weighs", onFact, 1, "weighs 0.99 g per ml", "what a measure of it weighs", rule{wMeasure, wName, []string{"per"}}, plain, none},
	{"packs", onFact, 1, "packs 300 ml or 600 ml", "the packs it is sold in, by weight, volume or count", rule{wPack, wPack, []string{"or"}}, plain, none},
	{"contains", onFact, 1, "contains milk", "allergens in it", aTitle, plain, none},
	{"same as", onFact, 1, "same as courgette", "another name for the same thing", aTitle, plain, none},
	{"plural", onFact, 1, "plural loaves", "its plural", aTitle, plain, none},
	{"measure", onFact, 1, "measure", "a word to count by, like clove or sprig", nothing, plain, none},
	{"gives", onFact, 1, "gives 1 egg white and 1 egg yolk", "what one of it gives", rule{wInt, wInt, []string{"and"}}, plain, none},

	{"part", []Place{InSeries}, 1, "part 1 The lamb", "one part of the series", rule{wInt, wTitle, nil}, counted, InPart},
	{"shows", []Place{InPart}, 1, "shows Slow lamb", "a dish or base shown in the part", aTitle, plain, none},
	{"date", []Place{InPart}, 1, "date 2027-08-30", "the day of the part", rule{wDate, wDate, nil}, once, none},
	{"copies", []Place{InPart}, 1, "copies 2 of Slow lamb, as rested lamb", "made beforehand, to be shown", rule{wInt, wTitle, []string{"of", "as"}}, counted, none},

	{"style", []Place{InBook}, 1, "style range dash", "a rule of house style", freeText, plain, none},
	{"chapter", []Place{InBook}, 1, "chapter Soups", "a chapter, with its dishes below it", aTitle, titled, InChapter},
}
