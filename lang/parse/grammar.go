package parse

import "strings"

// The grammars. Layout and prose are read by hand; a line that is no prose, and
// every clause of a margin, is lexed by its place and goes through one of the
// grammars below, each of which owns its place. Literals are in small letters: the
// lexer folds keywords. A slot is filled by the number of a token (shape.go).

type item struct {
	Tok slot `parser:"@Name"`
}

type list struct {
	First slot   `parser:"@Name"`
	More  []item `parser:"( Comma @@ )*"`
}

// each is what a time grows with.
type each struct {
	Load slot `parser:"  @'load':Word"`
	Qty  slot `parser:"| ( @Qty"`
	Unit slot `parser:"  | @Unit )"`
	Of   slot `parser:"  (   @Name"`
	Big  slot `parser:"    | @'of the largest':Word )?"`
	Name slot `parser:"| @Name"`
}

// weight is a further point of a time that goes by weight, or its end.
type weight struct {
	Time slot `parser:"  @Time"`
	At   slot `parser:"  'at':Word @Qty"`
	Most slot `parser:"| 'at most':Word @Time"`
}

// keep is a time in a place.
type keep struct {
	Time  slot `parser:"@Time"`
	Place slot `parser:"Comma @('fridge'|'freezer'|'room'|'cool place'|'warm place')"`
}

// clauseNode is the grammar of one clause of a margin.
type clauseNode struct {
	Spell   *spellNode   `parser:"  @@"`
	Heat    *heatNode    `parser:"| @@"`
	Ring    *ringNode    `parser:"| @@"`
	Named   *namedNode   `parser:"| @@"`
	Takes   *takesNode   `parser:"| @@"`
	Degrees *degreesNode `parser:"| @@"`
	Mark    *markNode    `parser:"| @@"`
	Where   *whereNode   `parser:"| @@"`
	Vessel  *vesselNode  `parser:"| @@"`
	Keep    *keepNode    `parser:"| @@"`
	Hold    *holdNode    `parser:"| @@"`
	When    *whenNode    `parser:"| @@"`
	Who     *whoNode     `parser:"| @@"`
	Says    *saysNode    `parser:"| @@"`
	Size    *sizeNode    `parser:"| @@"`
}

type spellNode struct {
	Time  slot     `parser:"('work'|'leave'|'watch'|'rest'|'then work') (   @Time"`
	Plus  slot     `parser:"    ( ( 'plus':Word @Time )?"`
	Each  *each    `parser:"      'per':Word @@"`
	Every slot     `parser:"    | 'every':Word @Time"`
	At    slot     `parser:"    | 'at':Word @Qty"`
	Of    slot     `parser:"      @Name?"`
	More  []weight `parser:"    ( Comma @@ )* )?"`
	Until slot     `parser:"  | 'until':Word @Text Comma 'say':Word"`
	Say   slot     `parser:"    @Time )"`
}

type heatNode struct {
	Heats []phase  `parser:"'oven':Key @@ ( 'then':Word @@ )*"`
	Opts  []ovenIn `parser:"( Comma @@ )*"`
}

type phase struct {
	Temp slot `parser:"(   @Temp"`
	Fan  slot `parser:"  | @'fan':Word"`
	Set  slot `parser:"    @Temp"`
	Gas  slot `parser:"  | 'gas':Word @Number"`
	Word slot `parser:"  | @('very slow'|'very hot'|'moderately slow'|'moderately hot'|'moderate'|'slow'|'hot') )"`
	For  slot `parser:"( 'for':Word @Time )?"`
}

type ovenIn struct {
	In      slot `parser:"  'in':Word @Name"`
	Shelf   slot `parser:"| @('top shelf'|'middle shelf'|'bottom shelf')"`
	Shelves slot `parser:"| @Int ('shelves'|'shelf')"`
	Fan     slot `parser:"| @('fan on'|'fan off')"`
	Shut    slot `parser:"| 'shut':Word @Time"`
}

type ringNode struct {
	Count slot `parser:"(   @Int?"`
	Ring  slot `parser:"    @('ring'|'rings')"`
	Level slot `parser:"    @('medium to high'|'low to medium'|'high'|'medium'|'low')"`
	Grill slot `parser:"  | @'grill':Key"`
	Heat  slot `parser:"    @('medium to high'|'low to medium'|'high'|'medium'|'low')? )"`
}

type namedNode struct {
	Name slot `parser:"('if'|'unless'|'after'|'tool') @Name"`
}

type takesNode struct {
	Nothing slot   `parser:"(   'uses':Key (   @'nothing':Word"`
	Used    *taken `parser:"               | @@ )"`
	Given   *taken `parser:"  | ('makes'|'sets aside') @@ )"`
}

// taken is so much of something.
type taken struct {
	Share slot `parser:"  @Share"`
	Of    slot `parser:"  @Name"`
	Qty   slot `parser:"| @Qty?"`
	Name  slot `parser:"  'the':Word? @Name"`
}

type degreesNode struct {
	Core  slot `parser:"(   'core':Key @Temp"`
	For   slot `parser:"    ( 'for':Word @Time )?"`
	Limit slot `parser:"  | ('reach'|'never above') @Temp )"`
}

type markNode struct {
	Key slot `parser:"@('twice'|'three times'|'four times'|'meanwhile'|'any time'|'only if needed'|'only after a pause'|'only before a pause'|'not after a pause'|'not before a pause'|'optional'|'to taste'|'trimmed'|'as sold'|'scales less'|'fixed'|'whole'|'per vessel'|'by area')"`
}

type whereNode struct {
	Key  slot `parser:"@('fridge'|'freezer'|'room'|'cool place'|'warm place')"`
	Temp slot `parser:"( Comma @Temp )?"`
}

type vesselNode struct {
	In    slot `parser:"(   @'in':Key"`
	Many  slot `parser:"    @Int?"`
	Name  slot `parser:"    @Name"`
	Holds slot `parser:"    ( Comma 'holds':Word @Qty"`
	Piece slot `parser:"      @Name? )?"`
	Into  slot `parser:"  | @'into':Key"`
	Count slot `parser:"    @Int"`
	Of    slot `parser:"    @Name"`
	Each  slot `parser:"    ( Comma @Qty 'each':Word )? )"`
}

type keepNode struct {
	At keep `parser:"('stand'|'thaw'|'keeps') @@"`
}

type holdNode struct {
	State slot `parser:"'hold':Key @('hot'|'warm'|'cold')?"`
	Time  slot `parser:"'up to':Word? @Time"`
	Bound slot `parser:"( Comma @('above'|'below')"`
	Temp  slot `parser:"  @Temp )?"`
}

type whenNode struct {
	Key    slot `parser:"(   @'within':Key"`
	Within slot `parser:"    @Time"`
	Edge   slot `parser:"  | @('start'|'done')"`
	Time   slot `parser:"    @Time 'before serving':Word )"`
}

type whoNode struct {
	By    slot `parser:"(   @'by':Key"`
	Cooks list `parser:"    @@"`
	With  slot `parser:"  | @'with':Key"`
	Count slot `parser:"    @Int ('cooks'|'cook') )"`
}

type saysNode struct {
	Key  slot `parser:"(   @('caution'|'left from')"`
	Text slot `parser:"    @Text"`
	More slot `parser:"  | @'plus extra':Key"`
	For  slot `parser:"    @Text? )"`
}

type sizeNode struct {
	Key  slot `parser:"(   @'drained':Key"`
	Qty  slot `parser:"    @Qty"`
	Buy  slot `parser:"  | 'buy':Key @Qty"`
	Name slot `parser:"    @Name?"`
	The  slot `parser:"  | 'from':Key @'the':Word?"`
	From slot `parser:"    @Name"`
	Part slot `parser:"  | @'made in part':Key"`
	No   slot `parser:"    @Int )"`
}

// lineNode is the grammar of a gathered line, up to its margin.
type lineNode struct {
	Share   slot `parser:"(   @Share"`
	Qty     slot `parser:"  | @Qty )?"`
	Size    slot `parser:"@Size?"`
	Name    slot `parser:"@Name"`
	Bracket slot `parser:"@Bracket?"`
	Note    slot `parser:"( Comma @Text )?"`
}

// servingNode is the grammar of a serving.
type servingNode struct {
	Ref  slot          `parser:"@Name"`
	Opts []servingItem `parser:"( Comma @@ )*"`
}

type servingItem struct {
	For   slot `parser:"  'for':Word @Int"`
	Cook  slot `parser:"| 'cook for':Word @Int"`
	Keep  slot `parser:"| 'keep the remains for':Word @Text"`
	Mark  slot `parser:"| @('ahead'|'straight through'|'to be written')"`
	The   slot `parser:"| 'from':Word @'the':Word?"`
	From  slot `parser:"  @Name"`
	Label slot `parser:"| @Name"`
}

// pinNode is the grammar of a line below a serving.
type pinNode struct {
	Step slot      `parser:"'step':Key @Int ':':Word"`
	Opts []pinItem `parser:"@@ ( Comma @@ )*"`
}

type pinItem struct {
	At    slot `parser:"  @'at':Word"`
	Date  slot `parser:"  ( (   @Date"`
	Day   slot `parser:"      | @('on the day'|'day before')"`
	Count slot `parser:"      | @Int 'days before':Word ) Comma? )?"`
	Clock slot `parser:"  @Clock"`
	By    slot `parser:"| 'by':Word @Name"`
	In    slot `parser:"| 'in':Word @Name"`
	Also  slot `parser:"| @Name"`
}

// factNode is the grammar of one fact of a larder margin.
type factNode struct {
	Key    slot    `parser:"(   @'piece':Key"`
	Piece  slot    `parser:"    @Qty"`
	State  slot    `parser:"    @('as sold'|'trimmed')?"`
	Yields slot    `parser:"  | @'yields':Key"`
	Rate   slot    `parser:"    @Percent"`
	Price  slot    `parser:"  | @'price':Key"`
	Number slot    `parser:"    @Number"`
	Money  slot    `parser:"    @Code?"`
	Each   slot    `parser:"    (   @'each':Word"`
	Per    *per    `parser:"      | 'per':Word ( @@"`
	Many   slot    `parser:"      | @Int ) )"`
	Weighs slot    `parser:"  | @'weighs':Key"`
	Mass   slot    `parser:"    @Qty"`
	Of     *per    `parser:"    'per':Word @@"`
	Packs  slot    `parser:"  | @'packs':Key"`
	Sizes  []pack  `parser:"    @@ ( 'or':Word @@ )*"`
	Names  slot    `parser:"  | @('contains'|'same as'|'plural')"`
	List   *list   `parser:"    @@"`
	Sold   slot    `parser:"  | @'from':Key"`
	The    slot    `parser:"    @'the':Word?"`
	From   slot    `parser:"    @Name"`
	Gives  slot    `parser:"  | @'gives':Key"`
	Given  []given `parser:"    @@ ( 'and':Word @@ )*"`
	Keeps  slot    `parser:"  | @'keeps':Key"`
	At     *keep   `parser:"    @@"`
	Bare   slot    `parser:"  | @'measure':Key )"`
}

type per struct {
	Qty  slot `parser:"  @Qty"`
	Unit slot `parser:"| @Unit"`
}

type pack struct {
	Tok   slot `parser:"  @Qty"`
	Count slot `parser:"| @Int"`
}

type given struct {
	Count slot `parser:"@Int"`
	Name  slot `parser:"@Name"`
}

// The fields of each place.

type blockNode struct {
	Notation slot `parser:"  'notation':Key @Int"`
	Key      slot `parser:"| ( @('menu'|'dish'|'base'|'kitchen'|'series'|'book')"`
	Title    slot `parser:"    @Name )"`
	Larder   slot `parser:"| @'larder':Key"`
}

type commonNode struct {
	Key  slot `parser:"(   @('by'|'source'|'picture'|'link'|'licence'|'rules'|'language')"`
	Text slot `parser:"    @Text"`
	Code slot `parser:"  | 'allow':Key @Code"`
	Why  slot `parser:"    @Text )"`
}

// notedNode is what is noted of a block and changes nothing in it.
type notedNode struct {
	Key  slot   `parser:"(   @('props'|'equipment')"`
	List *list  `parser:"    @@"`
	Mend slot   `parser:"  | @'corrected':Key"`
	Date slot   `parser:"    @Date"`
	Who  []item `parser:"    ( Comma @@ )*"`
	Text slot   `parser:"    ':':Word @Text )"`
}

// serviceNode is the time that service takes.
type serviceNode struct {
	Key   slot `parser:"(   @'plates':Key"`
	Each  slot `parser:"    @Time 'a cover':Word"`
	Clear slot `parser:"  | @'clears':Key"`
	After slot `parser:"    @Time Comma 'after each course':Word"`
	Clean slot `parser:"  | @'cleans down':Key"`
	Time  slot `parser:"    @Time"`
	Break slot `parser:"  | @'breaks':Key"`
	Long  slot `parser:"    @Time Comma"`
	Every slot `parser:"    'every':Word @Time"`
	Knife slot `parser:"  | @'knives down':Key"`
	Early slot `parser:"    @Time 'before':Word )"`
}

type menuNode struct {
	Covers slot         `parser:"  'covers':Key @Int"`
	Small  slot         `parser:"  ( Comma @Int ('children'|'child') )?"`
	Date   slot         `parser:"| 'on the table':Key @Date"`
	Clock  slot         `parser:"  @Clock"`
	At     slot         `parser:"| 'at':Key @Name"`
	Hours  *hoursNode   `parser:"| 'hours':Key @@"`
	Course *courseNode  `parser:"| 'course':Key @@"`
	Task   *taskNode    `parser:"| 'task':Key @@"`
	Days   *daysNode    `parser:"| 'shop':Key @@"`
	Serve  *serviceNode `parser:"| @@"`
	Common *commonNode  `parser:"| @@"`
}

// daysNode is days of shopping, or one by its name.
type daysNode struct {
	First slot      `parser:"  @Date"`
	More  []dayItem `parser:"  ( Comma @@ )*"`
	Name  slot      `parser:"| @Name"`
}

type dayItem struct {
	Tok slot `parser:"@Date"`
}

type hoursNode struct {
	Date  slot   `parser:"(   @Date"`
	Day   slot   `parser:"  | @('on the day'|'day before')"`
	Count slot   `parser:"  | @Int 'days before':Word )"`
	From  slot   `parser:"Comma? @Clock 'to':Word"`
	Until slot   `parser:"@Date?"`
	To    slot   `parser:"@Clock"`
	Cooks []item `parser:"( Comma @@ )*"`
}

type courseNode struct {
	Title slot `parser:"@Name"`
	At    slot `parser:"( Comma (   'at':Word @Clock"`
	Later slot `parser:"          | @Time"`
	After slot `parser:"            'after':Word @Name ) )?"`
}

type taskNode struct {
	Title slot       `parser:"@Name"`
	Opts  []taskItem `parser:"( Comma @@ )*"`
}

type taskItem struct {
	Work   slot `parser:"  'work':Word @Time"`
	By     slot `parser:"| 'by':Word @Name"`
	Before slot `parser:"| 'before':Word @Name"`
	After  slot `parser:"| 'after':Word @Name"`
	Done   slot `parser:"| 'done':Word @Time 'before serving':Word"`
	Also   slot `parser:"| @Name"`
}

type recipeNode struct {
	Serves  slot        `parser:"  'serves':Key @Range"`
	Portion slot        `parser:"  ( Comma @Qty 'each':Word )?"`
	Near    slot        `parser:"| 'makes':Key @('about'|'nearly')?"`
	Makes   slot        `parser:"  @Qty"`
	Made    slot        `parser:"  @Name?"`
	Piece   slot        `parser:"  ( Comma @Qty 'each':Word )?"`
	Keeps   *keep       `parser:"| 'keeps':Key @@"`
	Tested  slot        `parser:"| 'tested':Key @Range"`
	Units   slot        `parser:"| 'units':Key @Name"`
	Whole   slot        `parser:"| @'whole batches':Key"`
	Serve   slot        `parser:"| 'serve':Key @('hot'|'warm'|'cold'|'at room temperature')"`
	Within  slot        `parser:"  ( Comma 'within':Word @Time )?"`
	Takes   slot        `parser:"| 'takes':Key @Time"`
	Work    slot        `parser:"  ( Comma 'work':Word @Time )?"`
	As      slot        `parser:"| 'as':Key @Name"`
	Also    []asItem    `parser:"  ( Comma? @@ )+"`
	Change  slot        `parser:"| @('replace step'|'before step'|'after step')"`
	Step    slot        `parser:"  @Int"`
	Begins  slot        `parser:"  Comma @Name"`
	Less    slot        `parser:"| 'without step':Key @Int"`
	Begun   slot        `parser:"  ( Comma @Name )?"`
	Without *list       `parser:"| 'without':Key @@"`
	Old     slot        `parser:"| 'replace':Key @Name 'with':Word"`
	Qty     slot        `parser:"  @Qty?"`
	New     slot        `parser:"  @Name"`
	Note    slot        `parser:"  ( Comma @Text )?"`
	Other   slot        `parser:"| @('also called'|'goes with')"`
	Names   *list       `parser:"  @@"`
	Said    slot        `parser:"| 'said':Key @Text"`
	Cooked  slot        `parser:"| 'cooked':Key @Date"`
	Who     []item      `parser:"  ( Comma @@ )*"`
	Words   slot        `parser:"  ':':Word @Text"`
	Noted   *notedNode  `parser:"| @@"`
	Head    slot        `parser:"| @('about'|'method')"`
	Gather  slot        `parser:"| @'gather':Key"`
	Percent *list       `parser:"  ( Comma 'percent of':Word @@ )?"`
	Common  *commonNode `parser:"| @@"`
}

// asItem is a further block that a block is like, or the word that ends the list.
type asItem struct {
	But  slot `parser:"  @'but':Word"`
	Name slot `parser:"| @Name"`
}

type gatherNode struct {
	The   slot `parser:"(   'for':Key @'the':Word?"`
	List  slot `parser:"    @Name"`
	Title slot `parser:"  | ('either'|'or') @Name"`
	Said  slot `parser:"  | 'said':Key @Text )"`
}

type methodNode struct {
	Pause *keep `parser:"'pause':Key 'up to':Word @@"`
}

type kitchenNode struct {
	Oven   slot         `parser:"  'oven':Key @Name"`
	Opts   []ovenItem   `parser:"  ( Comma @@ )*"`
	Rings  slot         `parser:"| 'rings':Key @Int"`
	Cooks  *list        `parser:"| 'cooks':Key @@"`
	Tool   slot         `parser:"| 'tools':Key @Name"`
	Tools  []toolItem   `parser:"  ( Comma @@ )*"`
	Wash   *washNode    `parser:"| 'wash up':Key @@"`
	Vessel slot         `parser:"| 'vessel':Key @Name"`
	Holds  slot         `parser:"  ( Comma (   'holds':Word @Qty"`
	More   slot         `parser:"              ( Comma @Int )?"`
	Count  slot         `parser:"            | @Int ) )?"`
	Hold   slot         `parser:"| 'hold':Key @('hot'|'cold'|'prepared')"`
	Time   slot         `parser:"  @Time"`
	Zone   slot         `parser:"| 'zone':Key @Text"`
	Serve  *serviceNode `parser:"| @@"`
	Common *commonNode  `parser:"| @@"`
}

type toolItem struct {
	Washed slot `parser:"  'washed in':Word @Time"`
	Name   slot `parser:"| @Name"`
}

type washNode struct {
	Time  slot  `parser:"@Time"`
	After slot  `parser:"Comma (   @'after each dish'"`
	Every slot  `parser:"        | 'every':Word @Time"`
	Ahead slot  `parser:"        | @'before serving' )"`
	By    *list `parser:"( Comma 'by':Word @@ )?"`
}

type ovenItem struct {
	Shelves slot `parser:"  @Int ('shelves'|'shelf')"`
	Kind    slot `parser:"| @('fan'|'gas')"`
	Preheat slot `parser:"| 'preheat':Word @Time"`
	Pace    slot `parser:"| @('heats'|'cools')"`
	By      slot `parser:"  @Temp 'within':Word"`
	Within  slot `parser:"  @Time"`
}

type larderNode struct {
	Key   slot `parser:"(   @('units'|'decimal')"`
	Value slot `parser:"    @Name"`
	Lang  slot `parser:"  | 'language':Key @Text )"`
}

type seriesNode struct {
	Part   slot        `parser:"  'part':Key @Int"`
	Title  slot        `parser:"  @Name"`
	About  slot        `parser:"| @'about':Key"`
	Noted  *notedNode  `parser:"| @@"`
	Common *commonNode `parser:"| @@"`
}

type partNode struct {
	Shows  slot        `parser:"  'shows':Key @Name"`
	Date   slot        `parser:"| 'date':Key @Date"`
	Count  slot        `parser:"| 'copies':Key @Int"`
	Of     slot        `parser:"  'of':Word @Name"`
	As     slot        `parser:"  ( Comma 'as':Word @Name )?"`
	About  slot        `parser:"| @'about':Key"`
	Noted  *notedNode  `parser:"| @@"`
	Common *commonNode `parser:"| @@"`
}

type bookNode struct {
	Style   slot        `parser:"  'style':Key @Text"`
	Chapter slot        `parser:"| 'chapter':Key @Name"`
	For     slot        `parser:"| 'for':Key @Text"`
	About   slot        `parser:"| @'about':Key"`
	Common  *commonNode `parser:"| @@"`
}

// grammars are the grammars of the places.
var grammars struct {
	block   grammar[blockNode]
	menu    grammar[menuNode]
	recipe  grammar[recipeNode]
	gather  grammar[gatherNode]
	method  grammar[methodNode]
	kitchen grammar[kitchenNode]
	larder  grammar[larderNode]
	series  grammar[seriesNode]
	part    grammar[partNode]
	book    grammar[bookNode]
	line    grammar[lineNode]
	clause  grammar[clauseNode]
	serving grammar[servingNode]
	pin     grammar[pinNode]
	fact    grammar[factNode]
}

// Grammar is the text of the grammars that participle works by, in its EBNF.
func Grammar() string {
	g := &grammars
	return strings.Join([]string{
		g.block.String(), g.menu.String(), g.recipe.String(), g.gather.String(), g.method.String(), g.kitchen.String(),
		g.larder.String(), g.series.String(), g.part.String(), g.book.String(), g.line.String(), g.clause.String(),
		g.serving.String(), g.pin.String(), g.fact.String(),
	}, "\n\n") + "\n"
}
