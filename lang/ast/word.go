package ast

// Word is the word of the notation that the statement begins with, as it stands
// in the parser's table: "serves", "wash up". It is "" for what begins with a
// name, an amount or a dash, and for what could not be read.
func (*Meta) Word() string { return "" }

func (*Menu) Word() string    { return "menu" }
func (*Kitchen) Word() string { return "kitchen" }
func (*Larder) Word() string  { return "larder" }
func (*Series) Word() string  { return "series" }
func (*Book) Word() string    { return "book" }

// Word is dish or base.
func (r *Recipe) Word() string {
	if r.IsBase {
		return "base"
	}
	return "dish"
}

// Word is by, source, picture, link, licence, rules, language or allow.
func (c *Common) Word() string { return c.Key }

func (*Covers) Word() string  { return "covers" }
func (*ServeAt) Word() string { return "on the table" }
func (*At) Word() string      { return "at" }
func (*Hours) Word() string   { return "hours" }
func (*Course) Word() string  { return "course" }
func (*Task) Word() string    { return "task" }

func (*As) Word() string           { return "as" }
func (*Serves) Word() string       { return "serves" }
func (*Makes) Word() string        { return "makes" }
func (*Keeps) Word() string        { return "keeps" }
func (*Tested) Word() string       { return "tested" }
func (*Units) Word() string        { return "units" }
func (*WholeBatches) Word() string { return "whole batches" }
func (*Takes) Word() string        { return "takes" }
func (*About) Word() string        { return "about" }
func (*Gather) Word() string       { return "gather" }
func (*Method) Word() string       { return "method" }
func (*ServeHow) Word() string     { return "serve" }

// Word is plates, clears, cleans down, breaks or knives down.
func (s *Service) Word() string { return s.Key }

func (*Pin) Word() string { return "step" }

func (*Shop) Word() string { return "shop" }

// Word is also called, goes with, props, equipment, said, cooked or corrected.
func (n *Noted) Word() string { return n.Key }

func (*Without) Word() string { return "without" }
func (*Replace) Word() string { return "replace" }

// Word is without step, replace step, before step or after step.
func (c *Change) Word() string { return c.Key }

func (*SubList) Word() string { return "for" }
func (*Choice) Word() string  { return "either" }
func (*Pause) Word() string   { return "pause" }

func (*Oven) Word() string   { return "oven" }
func (*Rings) Word() string  { return "rings" }
func (*Vessel) Word() string { return "vessel" }
func (*WashUp) Word() string { return "wash up" }
func (*Waits) Word() string  { return "hold" }
func (*Zone) Word() string   { return "zone" }

// Word is cooks or tools.
func (n *Names) Word() string { return n.Key }

// Word is units, decimal or language.
func (s *Setting) Word() string { return s.Key }

func (*Part) Word() string     { return "part" }
func (*Shows) Word() string    { return "shows" }
func (*PartDate) Word() string { return "date" }
func (*Copies) Word() string   { return "copies" }

func (*Style) Word() string   { return "style" }
func (*For) Word() string     { return "for" }
func (*Chapter) Word() string { return "chapter" }
