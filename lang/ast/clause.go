package ast

import (
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Clause is one clause of a margin, in a gather line or a step. Key is the
// words it begins with; which other fields are set follows from Key:
//
//	work, watch, leave, rest       Spell
//	stand, thaw                    Spell Place
//	oven                           Heats [Shelf | Shelves] [Name = which oven]
//	ring                           Count Level
//	grill                          [Level]
//	fridge, freezer, room, larder, warm place   [Temp]
//	tool                           Name
//	in                             [Count] Name [Measure = holds]
//	into                           Count Name [Measure = each]
//	core                           Temp [Spell = for]
//	reach, never above             Temp
//	uses                           Nothing | [Share | Amount] Name
//	makes, draws                   [Amount] Name
//	keeps                          Spell Place
//	hold                           Level(hot, warm, cold) Spell [Bound Temp]
//	meanwhile, after start, only if needed
//	after                          Name
//	within, start, done            Spell     (start, done: before serving)
//	if, unless                     Name      (a label, or "paused")
//	by                             Names
//	with                           Count     (with 2 cooks)
//	caution, plus extra, left from Text
//	drained, bought as             Measure
//	made in part                   Count
//	optional, to taste, net, as bought, bought, seasoning, fixed, whole, per vessel, by area
//	bad                            Text      (could not be read, reported)
type Clause struct {
	Span    source.Span
	Key     string
	Offered bool // written with a closing "?": a guess of the tool's that the writer has not confirmed

	Spell   *Spell
	Heats   []HeatPhase
	Shelf   string // top, middle, bottom
	Shelves int
	Count   int
	Level   string
	Place   string
	Bound   string // above or below
	Temp    *quantity.Temperature
	Amount  *quantity.Amount
	Share   *Share
	Measure quantity.Measure
	Name    Name
	Names   []Name
	Nothing bool
	Text    Text
}

// Spell is how long something takes: Fixed plus Per for each Each. When
// nothing is "per", only Fixed is set. Every repeats the work during the step:
// `work 1 min every 10 min`. Until is what to look for: `watch until brown,
// say 45 min`.
type Spell struct {
	Fixed *quantity.Span // nil when there is only a Per part
	Per   *quantity.Span
	Each  Each
	Every *quantity.Span
	Until Text
}

// Each is what a time grows with: a load, an amount of something ("300 g green
// beans"), or one of something ("onion", "clove"). Load means `per load`.
type Each struct {
	Load    bool
	Measure quantity.Measure // empty: one
	Name    Name             // empty: the one thing the step takes
}

// HeatPhase is one oven setting. For is how long, nil for the last or only one.
type HeatPhase struct {
	Temp *quantity.Temperature // nil when Gas or Word is used
	Fan  bool
	Gas  string // "6", "1/2"
	Word string // slow, moderate, hot …
	For  *quantity.Span
}

// Share is a part of a gathered line. Of is the whole line or what is left.
type Share struct {
	Fraction quantity.Number // 1/2 for "half"; ignored when Rest or Some
	OfRest   bool            // "half the rest"
	Rest     bool            // "the rest of the"
	Some     bool            // "some of the": an unmeasured part
}

// Fact is one fact about an ingredient. Key, and the fields it sets:
//
//	piece        Measure [Text = bought | trimmed]
//	yields       Number   (per cent)
//	buy          Text     (counter of the shop)
//	price        Number [Measure = per, empty: each] [Text = currency]
//	weighs       Measure Per
//	packs        Packs
//	contains     Names
//	same as, plural   Name
//	measure
//	keeps        Keep
//	gives        Gives
//	bad          Text
type Fact struct {
	Span    source.Span
	Key     string
	Measure quantity.Measure
	Per     quantity.Measure
	Packs   []quantity.Measure
	Number  quantity.Number
	Names   []Name
	Name    Name
	Text    Text
	Keep    Keep
	Gives   []Given
}

// Given is one of the things an ingredient gives: 1 egg white.
type Given struct {
	Count quantity.Number
	Name  Name
}
