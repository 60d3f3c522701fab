package desk

import (
	"context"

	"tamis/compiler"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// planning is the plan of a room's menus, which is made beside the conversation when
// nobody has typed for a while: a banquet may take seconds.
type planning struct {
	wanted bool               // the text as it is has menus that were not planned yet
	by     *compiler.Session  // compiles with plans; nil while it is at it
	stop   context.CancelFunc // gives up the plan being made; nil: none is
	last   made
}

// made is a plan that was made.
type made struct {
	round  int              // of the text it is of
	result *compiler.Result // nil: it is used up, for the next is being made
	found  []diag.Diagnostic
}

// planned is a room with its menus planned, as it was in one round.
type planned struct {
	room   *room
	round  int
	by     *compiler.Session
	result *compiler.Result
}

// wantsPlan tells whether the menus of the room are to be planned.
func (r *room) wantsPlan() bool { return r.now != nil && r.plan.wanted && r.plan.stop == nil }

// schedule is the room with its menus planned; nil where there is no plan of the text as
// it is.
func (r *room) schedule() *compiler.Result {
	if r.plan.last.round != r.round {
		return nil
	}
	return r.plan.last.result
}

// startPlan plans the menus.
func (r *room) startPlan(s *server) {
	ctx, cancel := context.WithCancel(s.ctx)
	p, tree := planned{room: r, round: r.round, by: r.plan.by}, r.tree
	r.plan = planning{stop: cancel, last: made{found: r.plan.last.found}}
	if p.by == nil {
		p.by = compiler.NewSession(compiler.Options{NoPages: true})
	}
	go func() {
		defer func() { _ = recover() }() // no plan is shown then
		if p.result = p.by.Compile(ctx, tree); ctx.Err() != nil {
			return // a session that was stopped is not used again
		}
		select {
		case s.plans <- p:
		case <-ctx.Done():
		}
	}()
}

func (r *room) stopPlan() {
	if r.plan.stop != nil {
		r.plan.stop()
		r.plan.stop = nil
	}
}

// planned takes in a plan, if nothing was typed since.
func (r *room) planned(s *server, p planned) {
	r.plan.by = p.by
	if r.now == nil || p.round != r.round {
		return
	}
	r.stopPlan() // it is done; its context goes too
	r.plan.last = made{round: p.round, result: p.result}
	type finding struct {
		code string
		at   source.Span
	}
	known := map[finding]bool{}
	for d := range r.now.Diags.All() {
		known[finding{d.Code, d.At.Span}] = true
	}
	for d := range p.result.Diags.All() {
		if !known[finding{d.Code, d.At.Span}] {
			r.plan.last.found = append(r.plan.last.found, d)
		}
	}
	r.publish(s)
	if s.caps.Capabilities.Workspace.InlayHint.Refresh {
		s.out.ask("workspace/inlayHint/refresh", nil)
	}
}
