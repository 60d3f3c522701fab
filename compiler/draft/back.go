package draft

import (
	"context"
	"slices"
	"strings"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/lang/diag"
)

// manyFields is how many guesses are tried one by one; each takes a reading of the draft.
const manyFields = 24

// takenBack puts a draft once through the compiler, as the next thing that its reader does.
// A guessed field without which there are fewer errors becomes a comment.
func (d *drafting) takenBack(ctx context.Context, text string) string {
	found := errorsIn(ctx, text)
	lines := strings.Split(text, "\n")
	for i, tried := 0, 0; i < len(lines) && found > 0 && tried < manyFields && ctx.Err() == nil; i++ {
		if !strings.HasPrefix(lines[i], "  ") || strings.HasPrefix(lines[i], "   ") || !strings.HasSuffix(lines[i], " ?") {
			continue
		}
		tried++
		field := strings.TrimSuffix(strings.TrimSpace(lines[i]), " ?")
		without := slices.Clone(lines)
		without[i] = "  # " + field
		if n := errorsIn(ctx, strings.Join(without, "\n")); n < found {
			found, lines = n, without
			d.tell("It was guessed to have `"+field+"`, which does not agree with the rest, and stands as a comment.", nil)
		}
	}
	return sound(strings.Join(lines, "\n"))
}

// errorsIn counts what the compiler calls an error in a text alone.
func errorsIn(ctx context.Context, text string) (n int) {
	tree, err := load.Texts(ctx, ".", map[string]*string{"draft.tamis": &text})
	if err != nil {
		return 0
	}
	for _, f := range compiler.Compile(ctx, tree, compiler.Options{NoPlan: true}).Diags.Sorted() {
		if f.Severity == diag.Error {
			n++
		}
	}
	return n
}
