package resolve

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Clause is one clause of a margin: *Spell, *InOven, *OnRing, *UnderGrill,
// *InPlace, *WithTool, *InVessel, *Into, *Target, *Uses, *Made, *Keeping,
// *Hold, *After, *Within, *Helpers, *Caution, or *Plain for one that has no
// more to say than its first words.
type Clause interface {
	Where() source.Span // the whole clause
	Begins() Word       // the words it begins with
	Names() Text        // what it names: a tool, a vessel, a thing; zero: nothing
	head() *Head
}

// Head is what every clause has.
type Head struct {
	Span    source.Span
	Word    Word
	Name    Text // zero: it names nothing
	Offered bool // written with a closing "?", or read from a sentence: the writer has not confirmed it
	Said    bool // read from the sentence: the margin has no such clause, and Span is where it is said
}

// Where is the place of the clause.
func (h *Head) Where() source.Span { return h.Span }

// Begins are the words the clause begins with.
func (h *Head) Begins() Word { return h.Word }

func (h *Head) head() *Head { return h }

// Names is what the clause names.
func (h *Head) Names() Text { return h.Name }

// Unconfirmed tells whether a clause stands in the margin with a "?".
func Unconfirmed(c Clause) bool { return c.head().Offered && !c.head().Said }

// FromSentence tells whether a clause was read from the sentence: no margin has it.
func FromSentence(c Clause) bool { return c.head().Said }

// Word is what a clause begins with.
type Word string

// The words that a pass asks for.
const (
	WordWork       Word = "work"
	WordThenWork   Word = "then work" // work when the step has been watched or left
	WordWatch      Word = "watch"
	WordLeave      Word = "leave"
	WordRest       Word = "rest"
	WordStand      Word = "stand"
	WordThaw       Word = "thaw"
	WordOven       Word = "oven"
	WordRing       Word = "ring"
	WordGrill      Word = "grill"
	WordTool       Word = "tool"
	WordIn         Word = "in"
	WordCore       Word = "core"
	WordReach      Word = "reach"
	WordNeverAbove Word = "never above"
	WordMakes      Word = "makes"
	WordSetsAside  Word = "sets aside"
	WordKeeps      Word = "keeps"
	WordHold       Word = "hold"
	WordCaution    Word = "caution"
)

// First is the first clause of one type in a margin; nil when there is none.
func First[T Clause](margin []Clause) (none T) {
	for _, c := range margin {
		if t, ok := c.(T); ok {
			return t
		}
	}
	return none
}

// FirstOf is the first clause in a margin that begins with one of some words;
// nil when none does.
func FirstOf(margin []Clause, words ...Word) Clause {
	for _, c := range margin {
		for _, w := range words {
			if c.Begins() == w {
				return c
			}
		}
	}
	return nil
}

// InOven is `oven 200 C, top shelf`. Its Name is which oven.
type InOven struct {
	Head
	Heats   []Heat
	Shelf   string // top, middle, bottom
	Shelves int    // 0 when not said
	Fan     string // on, off; "" when not said
	Shut    *quantity.Span
}

// OnRing is `ring low`, `2 rings high`.
type OnRing struct {
	Head
	Count int // 0 when not said
	Level string
}

// UnderGrill is `grill high`.
type UnderGrill struct {
	Head
	Level string
}

// InPlace is `fridge`, `freezer 2 C`, `warm place`: its Word is the place.
type InPlace struct {
	Head
	Temp *quantity.Temperature // nil when not said
}

// WithTool is `tool mandoline`.
type WithTool struct{ Head }

// InVessel is `in 2 stockpots, 5 litres`.
type InVessel struct {
	Head
	Count int              // 0 when not said
	Holds quantity.Measure // empty when not said
	Of    Text             // of what, where that is counted: fritters; zero when not said
	Line  *Line            // the line that Of means, when it means one
	Made  int              // how many pieces of that name the block makes at its written size; 0: none
}

// Into is `into 24 rolls, 60 g each`.
type Into struct {
	Head
	Count int
	Each  quantity.Measure // empty when not said
}

// vesselWords end the names of what food is put into; "into 24 dumplings" are
// no vessels.
var vesselWords = []string{"tin", "tray", "case", "mould", "ramekin", "dish", "bowl", "jar", "pot", "cup", "glass", "basket", "bottle", "plate", "pan"}

// IntoVessels tells whether the pieces are vessels: tins, pie dishes.
func (c *Into) IntoVessels() bool {
	words := strings.Fields(larder.Fold(c.Name.Text))
	return len(words) > 0 && slices.Contains(vesselWords, words[len(words)-1])
}

// Target is a temperature: `core 75 C for 2 min`, `reach 82 C`, `never above 85 C`.
type Target struct {
	Head
	Temp *quantity.Temperature // nil when it did not read, which is reported
	For  *quantity.Span        // of `core`; nil when not said
}

// Celsius is the lower end of the temperature in whole degrees Celsius; false where none is
// said, also of a nil Target.
func (t *Target) Celsius() (low int, said bool) {
	if t == nil || t.Temp == nil {
		return 0, false
	}
	return t.Temp.To(quantity.Celsius).Low, true
}

// Uses is `uses half the herb oil`. Without Share and Amount it is all that is
// left.
type Uses struct {
	Head
	Nothing bool // `uses nothing`
	Share   *Share
	Amount  *quantity.Amount
}

// Made is `makes 200 g stock` or `sets aside 1 litre broth`.
type Made struct {
	Head
	Amount  *quantity.Amount // as written; nil: only a name
	Product *Product         // nil when another step made one of this name before
}

// Drawn tells whether it is lifted out of what goes on cooking.
func (m *Made) Drawn() bool { return m.Word == WordSetsAside }

// Keeping is `keeps 2 days, fridge`.
type Keeping struct {
	Head
	Keep Keep
}

// Hold is `hold hot up to 1 h, above 63 C`.
type Hold struct {
	Head
	State string                // hot, warm, cold
	UpTo  *quantity.Span        // nil when it did not read
	Bound string                // above or below, with Temp
	Temp  *quantity.Temperature // nil when not said
}

// After is `after NAME`: the maker that is waited for instead of the step before.
type After struct{ Head }

// Within is `within 10 min`.
type Within struct {
	Head
	Time *quantity.Span
}

// Helpers is `with 2 cooks`.
type Helpers struct {
	Head
	Count int
}

// Caution is `caution: …`, in the writer's own words.
type Caution struct {
	Head
	Text Text
}

// Plain is a clause that has been read into a field of its step, or that says
// no more than its first words.
type Plain struct{ Head }

// clauseOf gives a written clause its meaning.
func (b *builder) clauseOf(c ast.Clause) Clause {
	h := headOf(c)
	switch c := c.(type) {
	case *ast.Timed:
		s := spell(c)
		return &s
	case *ast.Stay:
		if h.Word == WordKeeps {
			return &Keeping{h, Keep(c.Keep)}
		}
		return &Spell{Head: h, Kind: Leave, Fixed: &c.Keep.Time, Place: c.Keep.Place}
	case *ast.Heat:
		return &InOven{h, heats(c), c.Shelf, c.Shelves, c.Fan, c.Shut}
	case *ast.Ring:
		if h.Word == WordGrill {
			return &UnderGrill{h, c.Level}
		}
		return &OnRing{h, c.Count, c.Level}
	case *ast.InPlace:
		return &InPlace{h, c.Temp}
	case *ast.Named:
		switch h.Word {
		case WordTool:
			return &WithTool{h}
		case "after":
			return &After{h}
		}
	case *ast.InVessel:
		if h.Word == WordIn {
			return &InVessel{Head: h, Count: c.Count, Holds: c.Size, Of: nameText(c.Piece)}
		}
		return &Into{h, c.Count, c.Size}
	case *ast.Degrees:
		return &Target{h, c.Temp, c.For}
	case *ast.Taking:
		if h.Word == "uses" {
			return &Uses{h, c.Nothing, (*Share)(c.Share), c.Amount}
		}
		return &Made{Head: h, Amount: c.Amount}
	case *ast.Hold:
		return &Hold{h, c.State, c.UpTo, c.Bound, c.Temp}
	case *ast.Timing:
		if h.Word == "within" {
			return &Within{h, c.Time}
		}
	case *ast.Hands:
		if h.Word == "with" {
			return &Helpers{h, c.Count}
		}
	case *ast.Note:
		if h.Word == WordCaution {
			return &Caution{h, Text(c.Text)}
		}
	}
	return &Plain{h}
}

func headOf(c ast.Clause) Head {
	l := c.Base()
	h := Head{Span: l.Span, Word: Word(l.Word), Offered: l.Offered}
	switch c := c.(type) {
	case *ast.Heat:
		h.Name = nameText(c.Oven)
	case *ast.Named:
		h.Name = nameText(c.Name)
	case *ast.InVessel:
		h.Name = nameText(c.Name)
	case *ast.Taking:
		h.Name = nameText(c.Name)
	}
	return h
}

// nameText is a written name without its quotation marks.
func nameText(n ast.Name) Text { return Text{n.Text, n.Span} }

func nameTexts(ns []ast.Name) (out []Text) {
	for _, n := range ns {
		out = append(out, nameText(n))
	}
	return out
}

// spell keeps the parts of a length of time for scaling.
func spell(c *ast.Timed) Spell {
	t := &c.Spell
	s := Spell{
		Head: headOf(c), Kind: SpellKind(c.Word), Fixed: t.Fixed, Per: t.Per, Every: t.Every, Until: Text(t.Until),
		Each: Each{t.Each.Load, t.Each.Measure, nameText(t.Each.Name), t.Each.Largest}, AtMost: t.AtMost,
	}
	for _, p := range t.Points {
		grams, _ := p.Weight.Quantity(quantity.NoSystem)
		s.Points = append(s.Points, Point{*p.Time, p.Weight, grams.Value.High})
	}
	switch s.Word {
	case WordRest:
		s.Kind, s.Place = Leave, "room"
	case WordThenWork:
		s.Kind = Work
	}
	return s
}
