package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"tamis/compiler"
	"tamis/compiler/changes"
	"tamis/compiler/load"
	"tamis/lang/diag"
)

// errConflict is what git says of two branches that it cannot put together itself.
var errConflict = errors.New("git cannot put the two together by itself: merge them, mend what it marks, and then check with `--merge MERGE_HEAD`")

// merged compares a book that was put together with the branches it was put together
// from: of a merge that was made, of the one that is being made (MERGE_HEAD), or of one
// that a branch would make.
func (a *app) merged(ctx context.Context, dir, rev string) (*diag.List, error) {
	root := load.Root(dir)
	head, err := commitOf(ctx, root, "HEAD")
	if err != nil {
		return nil, err
	}
	other, err := commitOf(ctx, root, rev)
	name := "the other branch"
	if being, called := beingMerged(); err != nil && rev == "MERGE_HEAD" && being != "" {
		name = called
		other, err = commitOf(ctx, root, being)
	}
	if err != nil {
		return nil, err
	}
	parents, err := git(ctx, root, "rev-list", "--parents", "-n", "1", other)
	if err != nil {
		return nil, err
	}
	beginning := func(a, b string) (string, error) {
		said, err := git(ctx, root, "merge-base", a, b)
		if err != nil {
			return "", fmt.Errorf("the two branches have no beginning in common")
		}
		return strings.TrimSpace(string(said)), nil
	}
	base, err := beginning(head, other)
	if err != nil {
		return nil, err
	}
	made := base == other // it is in this branch already
	ours, theirs, names := head, other, [2]string{"this branch", rev}
	var together func() (*compiler.Result, error)
	of := func(tree string) (*compiler.Result, error) {
		return bookIn(ctx, root, tree, compiler.Options{NoPages: true})
	}
	switch p := strings.Fields(string(parents)); {
	case rev == "MERGE_HEAD":
		names[1] = name
		together = func() (*compiler.Result, error) { return a.read(ctx, root, compiler.Options{NoPages: true}) }
	case made && len(p) > 3:
		return nil, fmt.Errorf("%q puts %d branches together at once, and two are compared", rev, len(p)-1)
	case made && len(p) == 3:
		ours, theirs, names = p[1], p[2], [2]string{"the one branch (" + p[1][:8] + ")", "the other (" + p[2][:8] + ")"}
		together = func() (*compiler.Result, error) { return of(other) }
	default:
		together = func() (*compiler.Result, error) {
			said, err := git(ctx, root, "merge-tree", "--write-tree", "--name-only", "--no-messages", head, other)
			if err != nil {
				return nil, err
			}
			return of(strings.TrimSpace(string(said)))
		}
	}
	if made {
		if base, err = beginning(ours, theirs); err != nil {
			return nil, err
		}
	}
	if base == ours || base == theirs {
		return &diag.List{}, nil // one of them holds the other
	}
	m := changes.Merge{}
	if m.Base, err = of(base); err != nil {
		return nil, err
	}
	for i, c := range []string{ours, theirs} {
		m.Branches[i].Name = names[i]
		if m.Branches[i].Result, err = of(c); err != nil {
			return nil, err
		}
	}
	if m.Together, err = together(); err != nil {
		return nil, err
	}
	return m.Broken(), ctx.Err()
}

// beingMerged is the commit that git is about to merge, and what it was called, as git
// tells its pre-merge-commit hook: MERGE_HEAD is written after that.
func beingMerged() (commit, name string) {
	for _, set := range os.Environ() {
		if of, ok := strings.CutPrefix(set, "GITHEAD_"); ok {
			commit, name, _ = strings.Cut(of, "=")
		}
	}
	return commit, name
}

// mergeFindings prints what a merge has broken. Whatever it is fails the check.
func (a *app) mergeFindings(found *diag.List, o checkOptions) error {
	if found.Len() == 0 && o.format == "text" {
		fmt.Fprintln(a.out, "put together, the two say what each of them says")
	}
	if err := a.findings(found, o); err != nil {
		return err
	}
	if slices.ContainsFunc(found.Sorted(), func(d diag.Diagnostic) bool { return d.Severity > diag.Hint }) {
		a.code = exitFaults
	}
	return nil
}
