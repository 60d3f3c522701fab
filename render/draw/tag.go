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
}

// Part is a new part of t.
func (t *Tag) Part(role string) *Tag { return &Tag{Role: role, Above: t} }

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
