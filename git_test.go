package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

// Who has no git is told so by every command that asks it, in words that name no flag they
// did not say.
func TestWithoutGit(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	for _, args := range [][]string{
		{"log", "Herb oil", "examples/harvest-lunch"},
		{"diff", "--git", "HEAD", "examples/harvest-lunch"},
		{"check", "examples/harvest-lunch", "--merge", "HEAD"},
	} {
		var out, errOut bytes.Buffer
		require.Equal(t, exitTrouble, run(t.Context(), args, nil, &out, &errOut), args)
		require.Contains(t, errOut.String(), "git is not installed here", args)
		require.NotContains(t, errOut.String(), "--git", args)
	}
}
