package parse

import "tamis/lang/ast"

// tools reads a list of tools, and how long one takes to wash.
func (p *parser) tools(m ast.Meta, s *piece, n *kitchenNode) *ast.Names {
	out := &ast.Names{Meta: m, Key: "tools", Names: []ast.Name{s.nameOf(n.Tool)}}
	list := n.Tools
	for i := range list {
		switch it := &list[i]; {
		case it.Name.Type != 0:
			out.Names = append(out.Names, s.nameOf(it.Name))
		case i == len(list)-1:
			out.Washed = s.timeOf(it.Washed)
		default:
			t := s.of(it.Washed)
			p.err(codeForm, t.at, t.to(), "`washed in` stands last, after the tools it is about").
				Because("it holds for all the tools of its line").
				WithHelp("write tools that are washed in another time on a `tools` line of their own")
		}
	}
	return out
}

// washUp reads a line of washing up. met holds the lines of its kitchen so far.
func (p *parser) washUp(m ast.Meta, s *piece, n *washNode, l *line, met *seen) *ast.WashUp {
	v := &ast.WashUp{Meta: m, By: s.names(n.By), Every: s.timeOf(n.Every)}
	if t := s.timeOf(n.Time); t != nil {
		v.Time = *t
	}
	switch {
	case n.After.Type != 0:
		v.When = n.After.Value
	case n.Ahead.Type != 0:
		v.When = n.Ahead.Value
	default:
		v.When = "every"
	}
	if first := met.first(v.When, l); first != nil {
		p.err(codeTwice, l.start, l.end, "washing up %s is written twice", whenWords(v.When)).
			See(p.span(first.start, first.end), "first here").
			WithHelp("keep one of the two, with the time that it takes in all")
	}
	return v
}

func whenWords(when string) string {
	if when == "every" {
		return "`every` so many hours"
	}
	return "`" + when + "`"
}
