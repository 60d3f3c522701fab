package resolve

import (
	"maps"

	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// A step whose margin says what it `uses` takes that and nothing else. Its sentence
// still has figures: they grow with the dish as they would without the margin, and an
// amount that differs from the margin's is asked about.

// overruled reads the sentence beside a margin that overrules it, from the story as it
// was before the step.
func (rd *reader) overruled(lines []Text, before *story, takes []Take) {
	own, names := rd.builder.diags, rd.saw
	rd.builder.diags, rd.saw = &diag.List{}, maps.Clone(names) // what it asks is settled by the margin
	said := rd.prose(lines, before)
	rd.builder.diags, rd.saw = own, names
	for k := range said {
		t := &said[k]
		if t.Line == nil || t.AmountAt.End <= t.AmountAt.Start {
			continue
		}
		if t.Amount != nil {
			f := Figure{At: t.AmountAt, Kind: FigureScaled, Quantity: *t.Amount, Unit: t.Unit}
			if t.Amount.Dim == quantity.None {
				f.Name = t.NameAt
			}
			rd.figures = append(rd.figures, f)
		}
		rd.differs(t, said, takes)
	}
}

// differs asks about an amount of a sentence, the first of its line, where the margin
// takes another one of the same thing.
func (rd *reader) differs(t *Take, said, takes []Take) {
	sum, own := quantity.Number{}, quantity.Number{}
	for k := range said {
		o := &said[k]
		if o.Line != t.Line || o.Refers {
			continue
		}
		if o.All || o.Unmeasured || o.Each || o.AmountAt.File == nil || sum.IsZero() && o.Span != t.Span {
			return
		}
		sum = sum.Add(o.Part)
	}
	found := false
	for _, o := range takes {
		if o.Line == t.Line {
			if o.Unmeasured || o.Refers {
				return
			}
			own, found = own.Add(o.Part), true
		}
	}
	if !found || sum.IsZero() || own.Equal(sum) {
		return
	}
	rd.diags.Askf("U222", t.Span, "the sentence says %s of %s, and the margin %s: which", rd.shareText(t.Line, sum), t.Line.Name, rd.shareText(t.Line, own)).
		Because("the margin wins, and a cook who reads the sentence takes the other amount").
		WithHelp("write the same amount in both, or take the `uses` out")
}

// clone is a story that goes its own way from here.
func (s *story) clone() *story {
	return &story{
		left: maps.Clone(s.left), touched: maps.Clone(s.touched), vague: maps.Clone(s.vague), named: maps.Clone(s.named),
		made: maps.Clone(s.made), done: maps.Clone(s.done), parts: maps.Clone(s.parts),
	}
}
