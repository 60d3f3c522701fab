package prose_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/lang/prose"
)

// Minutes behind hours may go without their word, as people say them; a figure that
// something follows is of that.
func TestHoursAndMinutesCutShort(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"Bake 1 hr 10.":                          70 * time.Minute,
		"Simmer for 2 hours 30":                  150 * time.Minute,
		"Simmer for 2 hours 30, then drain.":     150 * time.Minute,
		"Simmer for 2 hours 30 minutes.":         150 * time.Minute,
		"Bake for 1 hour 12 rolls at a time.":    time.Hour,
		"Leave for 1 hour. 12 rolls are enough.": time.Hour,
		"Roast for 1 hour 80.":                   time.Hour,
	} {
		got := prose.Read(text).Times
		require.Len(t, got, 1, text)
		assert.Equal(t, want, got[0].Span.Low, text)
		assert.Equal(t, want, got[0].Span.High, text)
	}
}
