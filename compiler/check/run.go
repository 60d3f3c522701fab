package check

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/cores"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Run runs every rule whose stage has been reached, on all cores. A rule writes
// to a list of its own, and the lists are joined in the order of the rules: the
// findings are the same however many run at once. When ctx ends, rules that
// have not begun are left out.
func Run(ctx context.Context, p Pass, reached Stage, diags *diag.List) {
	var rules []*Rule
	for _, r := range All {
		if r.Check != nil && r.After <= reached {
			rules = append(rules, r)
		}
	}
	p.broken, p.shared = brokenBlocks(p.Tree, diags), read(&p)
	found := make([]diag.List, len(rules))
	cores.Each(len(rules), func(i int) {
		if ctx.Err() != nil {
			return
		}
		own := p
		own.rule, own.diags = rules[i], &found[i]
		rules[i].Check(&own)
	})
	for i := range found {
		diags.AddAll(&found[i])
	}
}

// reading is what several rules look at. It is read before the first of them
// runs, and none of them changes it.
type reading struct {
	recipes []*resolve.Recipe
	prose   map[*resolve.Step][]saying // of each step: its sentence, then its moments
	plates  func() []*plate            // for the safety rules
}

func read(p *Pass) *reading {
	sh := &reading{prose: map[*resolve.Step][]saying{}}
	for _, r := range p.Model.Recipes {
		if r.Asked {
			sh.recipes = append(sh.recipes, r)
		}
	}
	said := make([][]([]saying), len(sh.recipes))
	cores.Each(len(said), func(i int) {
		for _, s := range sh.recipes[i].Steps {
			said[i] = append(said[i], sayingsOf(s))
		}
	})
	for i, r := range sh.recipes {
		for k, s := range r.Steps {
			sh.prose[s] = said[i][k]
		}
	}
	sh.plates = sync.OnceValue(p.followed)
	return sh
}

// sayingsOf reads the sentence of a step and its moments.
func sayingsOf(s *resolve.Step) []saying {
	out := make([]saying, 0, 1+len(s.Moments))
	out = append(out, sayingOf(s.Lines))
	for _, m := range s.Moments {
		out = append(out, sayingOf(m.Lines))
	}
	for i := range out {
		out[i].known = &told{sentences: out[i].sentences(), times: out[i].times()}
	}
	return out
}

// passages are the places of a step where prose stands: itself and its moments.
func (p *Pass) passages(s *resolve.Step) []saying {
	if out, ok := p.shared.prose[s]; ok {
		return out
	}
	return sayingsOf(s)
}

// saying is the prose of a step without its moments.
func (p *Pass) saying(s *resolve.Step) saying { return p.passages(s)[0] }

// blocks are places of blocks, by file and in order.
type blocks map[*source.File][]source.Span

// hold tells whether a place lies in one of the blocks.
func (b blocks) hold(at source.Span) bool { return !b.around(at).IsZero() }

// around is the block that a place lies in, or nothing.
func (b blocks) around(at source.Span) source.Span {
	in := b[at.File]
	i, exact := slices.BinarySearchFunc(in, at.Start, func(s source.Span, start int) int { return cmp.Compare(s.Start, start) })
	if !exact {
		i--
	}
	if i >= 0 && holds(in[i], at) {
		return in[i]
	}
	return source.Span{}
}

// blocksOf are the places of all blocks.
func blocksOf(tree *load.Tree) blocks {
	out := blocks{}
	for _, f := range tree.Files {
		for _, b := range f.Blocks() {
			out[f.Source] = append(out[f.Source], b.Span)
		}
	}
	return out
}

// brokenBlocks are the blocks with an error of notation or of an amount.
func brokenBlocks(tree *load.Tree, diags *diag.List) blocks {
	if !diags.HasErrors() {
		return nil
	}
	all := blocksOf(tree)
	out, seen := blocks{}, map[source.Span]bool{}
	for _, d := range diags.Sorted() {
		if d.Severity < diag.Error || d.Code[0] != 'N' && d.Code[0] != 'Q' {
			continue
		}
		if at := all.around(d.At.Span); !at.IsZero() && !seen[at] {
			seen[at] = true
			out[at.File] = append(out[at.File], at)
		}
	}
	return out
}
