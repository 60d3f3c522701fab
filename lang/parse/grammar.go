package parse

import (
	"errors"
	"strings"
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// The grammars. Layout and prose are read by hand; a line that is no prose, and
// every clause of a margin, is lexed by its place and goes through one of the
// parsers below. Literals are in small letters: the lexer folds keywords.

type token = lexer.Token

type item struct {
	Tok token `parser:"@Name"`
}

type list struct {
	First token  `parser:"@Name"`
	More  []item `parser:"( Comma @@ )*"`
}

// each is what a time grows with.
type each struct {
	Load token `parser:"  @'load':Word"`
	Qty  token `parser:"| ( @Qty"`
	Unit token `parser:"  | @Unit )"`
	Of   token `parser:"  @Name?"`
	Name token `parser:"| @Name"`
}

// keep is a time in a place.
type keep struct {
	Time  token `parser:"@Time"`
	Place token `parser:"Comma @('fridge'|'freezer'|'room'|'larder'|'warm place')"`
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
	Time  token `parser:"('work'|'leave'|'watch'|'rest') (   @Time"`
	Plus  token `parser:"    ( ( 'plus':Word @Time )?"`
	Each  *each `parser:"      'per':Word @@"`
	Every token `parser:"    | 'every':Word @Time )?"`
	Until token `parser:"  | 'until':Word @Text Comma 'say':Word"`
	Say   token `parser:"    @Time )"`
}

type heatNode struct {
	Heats []phase  `parser:"'oven':Key @@ ( 'then':Word @@ )*"`
	Opts  []ovenIn `parser:"( Comma @@ )*"`
}

type phase struct {
	Temp token `parser:"(   @Temp"`
	Fan  token `parser:"  | @'fan':Word"`
	Set  token `parser:"    @Temp"`
	Gas  token `parser:"  | 'gas':Word @Number"`
	Word token `parser:"  | @('very slow'|'very hot'|'moderately slow'|'moderately hot'|'moderate'|'slow'|'hot') )"`
	For  token `parser:"( 'for':Word @Time )?"`
}

type ovenIn struct {
	In      token `parser:"  'in':Word @Name"`
	Shelf   token `parser:"| @('top shelf'|'middle shelf'|'bottom shelf')"`
	Shelves token `parser:"| @Int ('shelves'|'shelf')"`
}

type ringNode struct {
	Count token `parser:"(   @Int?"`
	Ring  token `parser:"    @('ring'|'rings')"`
	Level token `parser:"    @('high'|'medium'|'low')"`
	Grill token `parser:"  | @'grill':Key"`
	Heat  token `parser:"    @('high'|'medium'|'low')? )"`
}

type namedNode struct {
	Name token `parser:"('if'|'unless'|'after'|'tool') @Name"`
}

type takesNode struct {
	Nothing token `parser:"('uses'|'makes'|'draws') (   @'nothing':Word"`
	Share   token `parser:"  | ( @Share"`
	Qty     token `parser:"    | @Qty )?"`
	Name    token `parser:"    'the':Word? @Name )"`
}

type degreesNode struct {
	Temp token `parser:"('core'|'reach'|'never above') @Temp"`
	For  token `parser:"( 'for':Word @Time )?"`
}

type markNode struct {
	Key token `parser:"@('meanwhile'|'after start'|'only if needed'|'optional'|'to taste'|'net'|'as bought'|'bought'|'seasoning'|'fixed'|'whole'|'per vessel'|'by area')"`
}

type whereNode struct {
	Key  token `parser:"@('fridge'|'freezer'|'room'|'larder'|'warm place')"`
	Temp token `parser:"( Comma @Temp )?"`
}

type vesselNode struct {
	In    token `parser:"(   @'in':Key"`
	Many  token `parser:"    @Int?"`
	Name  token `parser:"    @Name"`
	Holds token `parser:"    ( Comma 'holds':Word @Qty )?"`
	Into  token `parser:"  | @'into':Key"`
	Count token `parser:"    @Int"`
	Of    token `parser:"    @Name"`
	Each  token `parser:"    ( Comma @Qty 'each':Word )? )"`
}

type keepNode struct {
	At keep `parser:"('stand'|'thaw'|'keeps') @@"`
}

type holdNode struct {
	State token `parser:"'hold':Key @('hot'|'warm'|'cold')?"`
	Time  token `parser:"'up to':Word? @Time"`
	Bound token `parser:"( Comma @('above'|'below')"`
	Temp  token `parser:"  @Temp )?"`
}

type whenNode struct {
	Key    token `parser:"(   @'within':Key"`
	Within token `parser:"    @Time"`
	Edge   token `parser:"  | @('start'|'done')"`
	Time   token `parser:"    @Time 'before serving':Word )"`
}

type whoNode struct {
	By    token `parser:"(   @'by':Key"`
	Cooks list  `parser:"    @@"`
	With  token `parser:"  | @'with':Key"`
	Count token `parser:"    @Int ('cooks'|'cook') )"`
}

type saysNode struct {
	Key  token `parser:"(   @('caution'|'left from')"`
	Text token `parser:"    @Text"`
	More token `parser:"  | @'plus extra':Key"`
	For  token `parser:"    @Text? )"`
}

type sizeNode struct {
	Key  token `parser:"(   @('drained'|'bought as')"`
	Qty  token `parser:"    @Qty"`
	Part token `parser:"  | @'made in part':Key"`
	No   token `parser:"    @Int )"`
}

// lineNode is the grammar of a gathered line, up to its margin.
type lineNode struct {
	Share   token `parser:"(   @Share"`
	Qty     token `parser:"  | @Qty )?"`
	Size    token `parser:"@Size?"`
	Name    token `parser:"@Name"`
	Bracket token `parser:"@Bracket?"`
	Note    token `parser:"( Comma @Text )?"`
}

// servingNode is the grammar of a serving.
type servingNode struct {
	Ref  token         `parser:"@Name"`
	Opts []servingItem `parser:"( Comma @@ )*"`
}

type servingItem struct {
	For   token `parser:"  'for':Word @Int"`
	Cook  token `parser:"| 'cook for':Word @Int"`
	Keep  token `parser:"| 'keep the remains for':Word @Text"`
	Mark  token `parser:"| @('ahead'|'straight through'|'bought'|'to be written')"`
	Label token `parser:"| @Name"`
}

// factNode is the grammar of one fact of a larder margin.
type factNode struct {
	Key    token     `parser:"(   @'piece':Key"`
	Piece  token     `parser:"    @Qty"`
	State  token     `parser:"    @('bought'|'trimmed')?"`
	Yields token     `parser:"  | @'yields':Key"`
	Rate   token     `parser:"    @Percent"`
	Price  token     `parser:"  | @'price':Key"`
	Number token     `parser:"    @Number"`
	Money  token     `parser:"    @Code?"`
	Each   token     `parser:"    (   @'each':Word"`
	Per    *per      `parser:"      | 'per':Word @@ )"`
	Weighs token     `parser:"  | @'weighs':Key"`
	Mass   token     `parser:"    @Qty"`
	Of     *per      `parser:"    'per':Word @@"`
	Packs  token     `parser:"  | @'packs':Key"`
	Sizes  []qtyItem `parser:"    @@ ( 'or':Word @@ )*"`
	Names  token     `parser:"  | @('contains'|'buy'|'same as'|'plural')"`
	List   *list     `parser:"    @@"`
	Gives  token     `parser:"  | @'gives':Key"`
	Given  []given   `parser:"    @@ ( 'and':Word @@ )*"`
	Keeps  token     `parser:"  | @'keeps':Key"`
	At     *keep     `parser:"    @@"`
	Bare   token     `parser:"  | @'measure':Key )"`
}

type per struct {
	Qty  token `parser:"  @Qty"`
	Unit token `parser:"| @Unit"`
}

type qtyItem struct {
	Tok token `parser:"@Qty"`
}

type given struct {
	Count token `parser:"@Int"`
	Name  token `parser:"@Name"`
}

// The fields of each place.

type blockNode struct {
	Notation token `parser:"  'notation':Key @Int"`
	Key      token `parser:"| ( @('menu'|'dish'|'base'|'kitchen'|'series'|'book')"`
	Title    token `parser:"    @Name )"`
	Larder   token `parser:"| @'larder':Key"`
}

type commonNode struct {
	Key  token `parser:"(   @('by'|'source'|'picture'|'link'|'practice'|'language')"`
	Text token `parser:"    @Text"`
	Code token `parser:"  | 'allow':Key @Code"`
	Why  token `parser:"    @Text )"`
}

type menuNode struct {
	Covers token       `parser:"  'covers':Key @Int"`
	Small  token       `parser:"  ( Comma @Int ('children'|'child') )?"`
	Date   token       `parser:"| 'serve':Key @Date"`
	Clock  token       `parser:"  @Clock"`
	At     token       `parser:"| 'at':Key @Name"`
	Hours  *hoursNode  `parser:"| 'hours':Key @@"`
	Course *courseNode `parser:"| 'course':Key @@"`
	Task   *taskNode   `parser:"| 'task':Key @@"`
	Common *commonNode `parser:"| @@"`
}

type hoursNode struct {
	Date  token  `parser:"(   @Date"`
	Day   token  `parser:"  | @('on the day'|'day before')"`
	Count token  `parser:"  | @Int 'days before':Word )"`
	From  token  `parser:"Comma? @Clock 'to':Word"`
	Until token  `parser:"@Date?"`
	To    token  `parser:"@Clock"`
	Cooks []item `parser:"( Comma @@ )*"`
}

type courseNode struct {
	Title token `parser:"@Name"`
	At    token `parser:"( Comma (   'at':Word @Clock"`
	Later token `parser:"          | @Time"`
	After token `parser:"            'after':Word @Name ) )?"`
}

type taskNode struct {
	Title token      `parser:"@Name"`
	Opts  []taskItem `parser:"( Comma @@ )*"`
}

type taskItem struct {
	Work   token `parser:"  'work':Word @Time"`
	By     token `parser:"| 'by':Word @Name"`
	Before token `parser:"| 'before':Word @Name"`
	After  token `parser:"| 'after':Word @Name"`
	Done   token `parser:"| 'done':Word @Time 'before serving':Word"`
	Also   token `parser:"| @Name"`
}

type recipeNode struct {
	Serves  token       `parser:"  'serves':Key @Range"`
	Portion token       `parser:"  ( Comma @Qty 'each':Word )?"`
	Makes   token       `parser:"| 'makes':Key @Qty"`
	Made    token       `parser:"  @Name?"`
	Piece   token       `parser:"  ( Comma @Qty 'each':Word )?"`
	Keeps   *keep       `parser:"| 'keeps':Key @@"`
	Tested  token       `parser:"| 'tested':Key @Range"`
	Units   token       `parser:"| 'units':Key @Name"`
	Whole   token       `parser:"| @'whole batches':Key"`
	Serve   token       `parser:"| 'serve':Key @('hot'|'warm'|'cold'|'at room temperature')"`
	Within  token       `parser:"  ( Comma 'within':Word @Time )?"`
	Takes   token       `parser:"| 'takes':Key @Time"`
	Work    token       `parser:"  ( Comma 'work':Word @Time )?"`
	As      token       `parser:"| 'as':Key @Name Comma? 'but':Word"`
	Head    token       `parser:"| @('about'|'gather'|'method')"`
	Percent *list       `parser:"  ( Comma 'percent of':Word @@ )?"`
	Common  *commonNode `parser:"| @@"`
}

type gatherNode struct {
	The   token `parser:"(   'for':Key @'the':Word?"`
	List  token `parser:"    @Name"`
	Title token `parser:"  | ('either'|'or') @Name"`
	Said  token `parser:"  | 'said':Key @Text )"`
}

type methodNode struct {
	Pause *keep `parser:"'pause':Key 'up to':Word @@"`
}

type kitchenNode struct {
	Oven   token       `parser:"  'oven':Key @Name"`
	Opts   []ovenItem  `parser:"  ( Comma @@ )*"`
	Rings  token       `parser:"| 'rings':Key @Int"`
	Cooks  *list       `parser:"| 'cooks':Key @@"`
	Tools  []toolItem  `parser:"| 'tools':Key @@ ( Comma @@ )*"`
	Wash   *washNode   `parser:"| 'wash up':Key @@"`
	Vessel token       `parser:"| 'vessel':Key @Name"`
	Holds  token       `parser:"  ( Comma (   'holds':Word @Qty"`
	More   token       `parser:"              ( Comma @Int )?"`
	Count  token       `parser:"            | @Int ) )?"`
	Waits  token       `parser:"| 'waits':Key @('hot'|'cold'|'prepared')"`
	Time   token       `parser:"  @Time"`
	Zone   token       `parser:"| 'zone':Key @Text"`
	Common *commonNode `parser:"| @@"`
}

type toolItem struct {
	Washed token `parser:"  'washed in':Word @Time"`
	Name   token `parser:"| @Name"`
}

type washNode struct {
	Time  token `parser:"@Time"`
	After token `parser:"Comma (   @'after each dish'"`
	Every token `parser:"        | 'every':Word @Time"`
	Ahead token `parser:"        | @'before serving' )"`
	By    *list `parser:"( Comma 'by':Word @@ )?"`
}

type ovenItem struct {
	Shelves token `parser:"  @Int ('shelves'|'shelf')"`
	Kind    token `parser:"| @('fan'|'gas')"`
	Preheat token `parser:"| 'preheat':Word @Time"`
	Pace    token `parser:"| @('heats'|'cools')"`
	By      token `parser:"  @Temp 'within':Word"`
	Within  token `parser:"  @Time"`
}

type larderNode struct {
	Key   token `parser:"(   @('units'|'decimal')"`
	Value token `parser:"    @Name"`
	Lang  token `parser:"  | 'language':Key @Text )"`
}

type seriesNode struct {
	Part   token       `parser:"  'part':Key @Int"`
	Title  token       `parser:"  @Name"`
	Common *commonNode `parser:"| @@"`
}

type partNode struct {
	Shows  token       `parser:"  'shows':Key @Name"`
	Date   token       `parser:"| 'date':Key @Date"`
	Count  token       `parser:"| 'stand-ins':Key @Int"`
	Of     token       `parser:"  'of':Word @Name"`
	As     token       `parser:"  ( Comma 'as':Word @Name )?"`
	Common *commonNode `parser:"| @@"`
}

type bookNode struct {
	Style   token       `parser:"  'style':Key @Text"`
	Chapter token       `parser:"| 'chapter':Key @Name"`
	Common  *commonNode `parser:"| @@"`
}

// grammars holds every parser. They are built together, once, when first
// wanted: participle's table of token names must be ready by then.
type grammars struct {
	block   *participle.Parser[blockNode]
	menu    *participle.Parser[menuNode]
	recipe  *participle.Parser[recipeNode]
	gather  *participle.Parser[gatherNode]
	method  *participle.Parser[methodNode]
	kitchen *participle.Parser[kitchenNode]
	larder  *participle.Parser[larderNode]
	series  *participle.Parser[seriesNode]
	part    *participle.Parser[partNode]
	book    *participle.Parser[bookNode]
	line    *participle.Parser[lineNode]
	clause  *participle.Parser[clauseNode]
	serving *participle.Parser[servingNode]
	fact    *participle.Parser[factNode]

	// The productions of a clause. Its keyword tells which one it is, and
	// going there at once spares the tries of all those before it.
	spell   *participle.Parser[spellNode]
	heat    *participle.Parser[heatNode]
	ring    *participle.Parser[ringNode]
	named   *participle.Parser[namedNode]
	takes   *participle.Parser[takesNode]
	degrees *participle.Parser[degreesNode]
	mark    *participle.Parser[markNode]
	where   *participle.Parser[whereNode]
	vessel  *participle.Parser[vesselNode]
	keep    *participle.Parser[keepNode]
	hold    *participle.Parser[holdNode]
	when    *participle.Parser[whenNode]
	who     *participle.Parser[whoNode]
	says    *participle.Parser[saysNode]
	size    *participle.Parser[sizeNode]
}

var parsers = sync.OnceValue(func() *grammars {
	g := &grammars{
		block: build[blockNode](), menu: build[menuNode](), recipe: build[recipeNode](), gather: build[gatherNode](),
		method: build[methodNode](), kitchen: build[kitchenNode](), larder: build[larderNode](), series: build[seriesNode](),
		part: build[partNode](), book: build[bookNode](),
		line: build[lineNode](), clause: build[clauseNode](), serving: build[servingNode](), fact: build[factNode](),
	}
	c := g.clause
	g.spell, g.heat, g.ring, g.named = part[spellNode](c), part[heatNode](c), part[ringNode](c), part[namedNode](c)
	g.takes, g.degrees, g.mark, g.where = part[takesNode](c), part[degreesNode](c), part[markNode](c), part[whereNode](c)
	g.vessel, g.keep, g.hold, g.when = part[vesselNode](c), part[keepNode](c), part[holdNode](c), part[whenNode](c)
	g.who, g.says, g.size = part[whoNode](c), part[saysNode](c), part[sizeNode](c)
	return g
})

// part is the parser of one production of a clause.
func part[N any](clause *participle.Parser[clauseNode]) *participle.Parser[N] {
	p, err := participle.ParserForProduction[N](clause)
	if err != nil {
		panic(err) // the production is missing from clauseNode
	}
	return p
}

// runClause puts a clause through the production of its keyword.
func runClause(g *grammars, key string, s *piece) (c clauseNode, stuck token, ok bool) {
	switch key {
	case "work", "watch", "leave", "rest":
		c.Spell, stuck, ok = run(g.spell, s)
	case "oven":
		c.Heat, stuck, ok = run(g.heat, s)
	case "ring", "rings", "grill":
		c.Ring, stuck, ok = run(g.ring, s)
	case "tool", "after", "if", "unless":
		c.Named, stuck, ok = run(g.named, s)
	case "uses", "makes", "draws":
		c.Takes, stuck, ok = run(g.takes, s)
	case "core", "reach", "never above":
		c.Degrees, stuck, ok = run(g.degrees, s)
	case "fridge", "freezer", "room", "larder", "warm place":
		c.Where, stuck, ok = run(g.where, s)
	case "in", "into":
		c.Vessel, stuck, ok = run(g.vessel, s)
	case "stand", "thaw", "keeps":
		c.Keep, stuck, ok = run(g.keep, s)
	case "hold":
		c.Hold, stuck, ok = run(g.hold, s)
	case "within", "start", "done":
		c.When, stuck, ok = run(g.when, s)
	case "by", "with":
		c.Who, stuck, ok = run(g.who, s)
	case "caution", "left from", "plus extra":
		c.Says, stuck, ok = run(g.says, s)
	case "drained", "bought as", "made in part":
		c.Size, stuck, ok = run(g.size, s)
	default:
		c.Mark, stuck, ok = run(g.mark, s)
	}
	return c, stuck, ok
}

func build[G any]() *participle.Parser[G] {
	return participle.MustBuild[G](participle.Lexer(definition{}), participle.UseLookahead(0))
}

// Grammar is the text of the grammars that participle works by, in its EBNF.
func Grammar() string {
	g := parsers()
	return strings.Join([]string{
		g.block.String(), g.menu.String(), g.recipe.String(), g.gather.String(), g.method.String(), g.kitchen.String(),
		g.larder.String(), g.series.String(), g.part.String(), g.book.String(), g.line.String(), g.clause.String(),
		g.serving.String(), g.fact.String(),
	}, "\n\n") + "\n"
}

// run puts a lexed piece through a parser. stuck is the token it could not
// take: EOF when something is missing at the end.
func run[G any](parser *participle.Parser[G], s *piece) (node *G, stuck token, ok bool) {
	stream, _ := lexer.Upgrade(s) // a piece never fails
	node, err := parser.ParseFromLexer(stream)
	if err == nil {
		return node, token{}, true
	}
	var unexpected *participle.UnexpectedTokenError
	if errors.As(err, &unexpected) {
		return node, unexpected.Unexpected, false
	}
	var at participle.Error
	if errors.As(err, &at) {
		return node, token{Type: tJunk, Pos: at.Position()}, false
	}
	return node, token{Type: lexer.EOF, Pos: lexer.Position{Offset: s.end}}, false
}
