package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tamis/compiler/load"
	"tamis/lang/diag"
)

// beside is a new text for a folder that may hold others: without the dishes and the kitchen
// that stand there already, which it then uses. left are their names. It is an error if the
// thing that is begun is itself there.
func beside(ctx context.Context, name, text string) (out string, left []string, err error) {
	tree, err := load.PathContext(ctx, filepath.Dir(name))
	if _, there := os.Lstat(name); err != nil || there == nil {
		return text, nil, ctx.Err() // there is nothing yet; or the very file, which is told of when it is written
	}
	there := map[string]bool{}
	for _, f := range tree.Files {
		for _, b := range f.Blocks() {
			if f.Dir == tree.Dir {
				there[blockName(b)] = true
			}
		}
	}
	fresh, err := load.Texts(ctx, ".", map[string]*string{"new" + load.Ending: &text})
	if err != nil {
		return "", nil, err
	}
	blocks := fresh.Files[0].Blocks()
	out = text
	for i := len(blocks) - 1; i >= 0; i-- {
		head, _, _ := strings.Cut(blocks[i].Span.Text(), "\n")
		kind, title, _ := strings.Cut(diag.Visible(strings.TrimSpace(head)), " ")
		switch {
		case !there[blockName(blocks[i])]:
		case i == 0:
			return "", nil, fmt.Errorf("there is a %s called %s in this folder already: name another", kind, title)
		default:
			left = append(left, title)
			from, to := withComments(text, blocks[i].Span.Start), len(out)
			if i+1 < len(blocks) {
				to = withComments(text, blocks[i+1].Span.Start) // what was left out lies behind it
			}
			out = out[:from] + out[to:]
		}
	}
	slices.Reverse(left)
	laid, ok := reads(out)
	if !ok {
		return "", nil, fmt.Errorf("what is new cannot be cut out of %q", name)
	}
	return laid, left, nil
}

// blockName is a block as it can be named once in a folder: a base is a dish.
func blockName(b load.Block) string {
	head, _, _ := strings.Cut(b.Span.Text(), "\n")
	kind, name, _ := strings.Cut(strings.ToLower(strings.Join(strings.Fields(head), " ")), " ")
	if kind = strings.TrimSuffix(kind, ":"); kind == "base" {
		kind = "dish"
	}
	if name == "" { // a larder has none, and there may be several
		return ""
	}
	return kind + " " + strings.Trim(name, `"`)
}

// withComments is where the comment lines begin that stand close upon a block.
func withComments(text string, at int) int {
	for at > 0 {
		line := strings.LastIndexByte(text[:at-1], '\n') + 1
		if !strings.HasPrefix(text[line:at], "#") {
			break
		}
		at = line
	}
	return at
}
