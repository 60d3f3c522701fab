package draft

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A guess without which there are fewer errors stands as a comment, and it is said; one that
// does no harm stays.
func TestGuessTakenBack(t *testing.T) {
	d := &drafting{out: &Result{}}
	text := d.takenBack(context.Background(), "dish Pie\n  serves 4 ?\n  units metric ?\n  gather\n    1 lb     flour\n    1 pint   milk\n    1 quart  cream\n  method\n    - Mix the flour, milk and cream.\n")
	assert.Contains(t, text, "  # units metric\n")
	assert.Contains(t, text, "  serves 4 ?\n")
	require.Len(t, d.out.Told, 1)
	assert.Contains(t, d.out.Told[0], "`units metric`")
}
