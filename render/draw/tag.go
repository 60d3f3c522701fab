package draw

// Tag is a part of what a document is made of, for those who hear a page
// instead of seeing it: a heading, a list and its items, a table and its cells.
// Role is a standard structure type (ISO 32000-1, 14.8.4). All text of one part
// points to one Tag; text without any is furniture of the page.
type Tag struct {
	Role  string
	Above *Tag   // what it is part of; nil for a whole sheet
	Alt   string // what a drawing shows, in words
	Scope string // of a head of a table: Column or Row
	Order int    // parts of one whole are read in this order
	Cols  int    // of a table: its columns; every row has as many, empty cells too
	Col   int    // of a cell: the column it begins in, from 1; with none, it is over all of them
}

// Part is a new part of t.
func (t *Tag) Part(role string) *Tag { return &Tag{Role: role, Above: t} }

// Cell is a new cell of a row, in a column from 1 up, or over all of them for 0.
func (t *Tag) Cell(role string, col int) *Tag { return &Tag{Role: role, Above: t, Col: col} }

// Mark makes all text of ops that belongs nowhere yet a part, and returns it.
func Mark(ops []Op, part *Tag) *Tag {
	for _, o := range ops {
		if t, ok := o.(*Text); ok && t.Tag == nil {
			t.Tag = part
		}
	}
	return part
}

// MarkFields makes every paragraph of ops that belongs nowhere yet a part of
// whole by itself.
func MarkFields(ops []Op, whole *Tag, role string) {
	parts := map[int]*Tag{}
	for _, o := range ops {
		t, ok := o.(*Text)
		if !ok || t.Tag != nil || t.Field == 0 {
			continue
		}
		if parts[t.Field] == nil {
			parts[t.Field] = whole.Part(role)
		}
		t.Tag = parts[t.Field]
	}
}
