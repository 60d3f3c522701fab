package format_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A moment by sight keeps what to look for and the guess; a sentence that only begins so is
// a sentence.
func TestMomentBySight(t *testing.T) {
	text := "dish A\n  method\n    - Prove.\n      | leave 1 h\n      When  risen well, say about 20 mins : Turn it down. | work 2 min\n"
	require.Equal(t, "dish A\n  method\n    - Prove.\n      | leave 1 h\n      when risen well, say 20 min: Turn it down. | work 2 min\n", tidied(t, text))
	prose := "dish A\n  method\n    - Prove the dough.\n      When risen, turn it down: it sinks, say your prayers.\n      | leave 1 h\n"
	require.Equal(t, prose, tidied(t, prose))
}
