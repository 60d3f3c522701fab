package desk

import (
	"encoding/json"

	"tamis/lang/source"
)

// asked is what stands at a place an editor asks about.
func (s *server) asked(raw json.RawMessage) (*sheet, int, error) {
	p, err := read[placeParams](raw)
	if err != nil {
		return nil, 0, err
	}
	sh, err := s.sheet(p.TextDocument.URI)
	if err != nil {
		return nil, 0, err
	}
	return sh, offsetOf(sh.text, p.Position), nil
}

// text is the text that a request speaks of as a whole.
func (s *server) text(raw json.RawMessage) (*sheet, error) {
	p, err := read[documentParams](raw)
	if err != nil {
		return nil, err
	}
	return s.sheet(p.TextDocument.URI)
}

func (r *room) location(s source.Span) location {
	return location{r.uri(r.names().paths[s.File]), rangeOf(s)}
}

// named is everywhere that the thing at a place is named; nothing where none is.
func (sh *sheet) named(offset int) []mention {
	x := sh.room.names()
	m, ok := x.at(sh.text, offset)
	if !ok {
		return nil
	}
	return x.of(m.of)
}

// definition is where the thing at a place gets its name: the block of a base or a
// dish, the clause that makes a by-product, the line that is gathered.
func (s *server) definition(raw json.RawMessage) (any, error) {
	sh, offset, err := s.asked(raw)
	if err != nil {
		return nil, err
	}
	out := []location{}
	for _, o := range sh.named(offset) {
		if o.def {
			out = append(out, sh.room.location(o.at))
		}
	}
	return out, nil
}

// references are the places at which it is named, sentences too.
func (s *server) references(raw json.RawMessage) (any, error) {
	sh, offset, err := s.asked(raw)
	if err != nil {
		return nil, err
	}
	p, err := read[struct {
		Context struct {
			Declaration bool `json:"includeDeclaration"`
		} `json:"context"`
	}](raw)
	if err != nil {
		return nil, err
	}
	out := []location{}
	for _, o := range sh.named(offset) {
		if !o.def || p.Context.Declaration {
			out = append(out, sh.room.location(o.at))
		}
	}
	return out, nil
}

// highlights are those of them that stand in the same text.
func (s *server) highlights(raw json.RawMessage) (any, error) {
	sh, offset, err := s.asked(raw)
	if err != nil {
		return nil, err
	}
	out := []highlight{}
	for _, o := range sh.named(offset) {
		if o.at.File == sh.text {
			out = append(out, highlight{rangeOf(o.at), 2 + btoi(o.def)})
		}
	}
	return out, nil
}
