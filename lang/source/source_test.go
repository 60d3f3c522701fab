package source_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/source"
)

// A carriage return alone ends a line, as old machines wrote it; one before a
// line feed belongs to it. No offset moves.
func TestLineEnds(t *testing.T) {
	for text, want := range map[string]string{
		"a\rb\r": "a\nb\n", "a\r\nb": "a\r\nb", "a\r\r\nb": "a\r\r\nb", "a\r\rb": "a\n\nb", "\r\n\r": "\r\n\n", "a\rb\r\n": "a\nb\r\n", "a": "a", "\ufeffa\r": "a\n",
	} {
		f := source.New("x", text)
		require.Equal(t, want, f.Text, "%q", text)
	}
	require.Equal(t, source.Position{Line: 2, Column: 2}, source.New("x", "ab\rcd\r").Position(4))
}
