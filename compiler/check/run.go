package check

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"tamis/compiler/hazard"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/cores"
	"tamis/lang/diag"
	"tamis/lang/prose"
	"tamis/lang/source"
)

// Run runs every rule whose stage has been reached, on all cores, and joins what
// they find in the order of the rules: the findings are the same however many
// run at once. A rule that looks at one recipe at a time is run for each by
// itself; what it found in a recipe that is the same as in p.Before, it is not
// asked again. When ctx ends, what has not begun is left out.
func Run(ctx context.Context, p Pass, reached Stage, diags *diag.List) *Memory {
	p.broken, p.shared = brokenBlocks(p.Tree, diags), sharedBy(&p)
	parts := p.parts()
	var whole []int // rules that look at all there is
	for i, r := range All {
		if r.Check != nil && r.Whole && r.After <= reached {
			whole = append(whole, i)
		}
	}
	cores.With(len(parts), hazard.NewTracer, func(t *hazard.Tracer, i int) {
		if ctx.Err() == nil {
			parts[i].run(p, reached, t)
		}
	})
	var joined [][]*diag.Diagnostic
	found := make([]diag.List, len(All))
	if ctx.Err() == nil {
		joined = join(parts, reached)
		for _, x := range parts[1:] {
			p.shared.notes = append(p.shared.notes, x.notes)
		}
	}
	p.plates = sync.OnceValue(func() []*plate { return p.followed(hazard.NewTracer()) })
	cores.Each(len(whole), func(i int) {
		if ctx.Err() != nil {
			return
		}
		own := p
		own.rule, own.diags = All[whole[i]], &found[whole[i]]
		own.rule.Check(&own)
	})
	n := 0
	for i := range joined {
		n += len(joined[i]) + found[i].Len()
	}
	diags.Grow(n)
	for i := range joined {
		for _, d := range joined[i] {
			diags.Add(*d)
		}
		diags.AddAll(&found[i])
	}
	return remember(&p, parts)
}

// shared is what all rules of a run look at.
type shared struct {
	recipes []*resolve.Recipe        // those asked for
	made    map[*resolve.Recipe]bool // by a menu
	notes   []*notes                 // of the recipes, for rules that are Whole
	slips   *slips                   // what checkOneLetter found, for the next run
}

func sharedBy(p *Pass) *shared {
	sh := &shared{made: map[*resolve.Recipe]bool{}}
	for _, r := range p.Model.Recipes {
		if r.Asked {
			sh.recipes = append(sh.recipes, r)
		}
	}
	for _, meal := range p.Meals {
		if meal.Menu == nil {
			continue
		}
		for _, m := range meal.Makings {
			sh.made[m.Recipe] = true
		}
	}
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
		out[i].known = &told{sentences: out[i].sentences()}
	}
	if s.Plain {
		out[0].known.clock = &nothing
	}
	return out
}

// nothing is what a sentence says that has neither a time nor a heat.
var nothing prose.Said

// passages are the places of a step where prose stands: itself and its moments.
// Within a part they are read once for all its rules.
func (p *Pass) passages(s *resolve.Step) []saying {
	if p.prose == nil {
		return sayingsOf(s)
	}
	known := p.prose.of(s)
	if *known == nil {
		*known = sayingsOf(s)
	}
	return *known
}

// spoken are the passages of steps, as far as they were read: those of one recipe by its
// steps.
type spoken struct {
	recipe *resolve.Recipe // nil: none above others
	steps  [][]saying
	others map[*resolve.Step]*[]saying
}

func spokenIn(r *resolve.Recipe) *spoken {
	s := &spoken{recipe: r, others: map[*resolve.Step]*[]saying{}}
	if r != nil {
		s.steps = make([][]saying, len(r.Steps))
	}
	return s
}

// of is the place of what was read of a step.
func (k *spoken) of(s *resolve.Step) *[]saying {
	if k.recipe != nil && s.Index < len(k.steps) && k.recipe.Steps[s.Index] == s {
		return &k.steps[s.Index]
	}
	out := k.others[s]
	if out == nil {
		out = new([]saying)
		k.others[s] = out
	}
	return out
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
	for d := range diags.All() {
		if d.Severity < diag.Error || d.Code[0] != 'N' && d.Code[0] != 'Q' {
			continue
		}
		if at := all.around(d.At.Span); !at.IsZero() && !seen[at] {
			seen[at] = true
			out[at.File] = append(out[at.File], at)
		}
	}
	for _, in := range out {
		slices.SortFunc(in, func(a, b source.Span) int { return cmp.Compare(a.Start, b.Start) })
	}
	return out
}
