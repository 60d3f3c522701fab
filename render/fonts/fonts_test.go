package fonts

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFiguresAreOfOneWidth(t *testing.T) {
	for _, f := range []Face{Sans, SansBold, Serif, SerifBold} {
		want := f.Width("0", 10)
		for _, r := range "123456789" {
			require.InDelta(t, want, f.Width(string(r), 10), 1e-9, "%s %c", f.Name(), r)
		}
	}
}

func TestFacesHaveWhatAKitchenWrites(t *testing.T) {
	for _, f := range All() {
		for _, r := range "½⅓¼¾⅔⅛°×−–—…’“”éèçñøßŁ£€·" {
			require.True(t, f.Has(r), "%s lacks %c", f.Name(), r)
		}
	}
	for _, r := range "ЖжΩω□" {
		require.True(t, Sans.Has(r), "%c", r)
	}
	require.False(t, Sans.Has('梨'))
	require.False(t, Sans.Has('🍐'), "beyond two bytes")
}

func TestWidthIsKnownFromTheTables(t *testing.T) {
	// Source Sans 3 Regular: advance of 0 is 497 of 1000, of a space 200 (hmtx)
	require.InDelta(t, 4.97, Sans.Width("0", 10), 1e-9)
	require.InDelta(t, 2.0, Sans.Width(" ", 10), 1e-9)
	require.InDelta(t, 2*4.97+2.0, Sans.Width("0 0", 10), 1e-9)
}

func TestMeasuringFromManyPlacesAtOnce(t *testing.T) {
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for r := rune(0x400); r < 0x480; r++ {
				SerifItalic.Width(string(r), 12)
			}
		})
	}
	wg.Wait()
}

func TestKerning(t *testing.T) {
	// Source Serif 4 Semibold draws T and o together by 58 thousandths (GPOS)
	require.Equal(t, -58, SerifBold.Kern('T', 'o'))
	require.Equal(t, SerifBold.Kern('T', 'o'), SerifBold.Kern('T', 'o'), "the second time from what was kept")
	require.InDelta(t, SerifBold.Width("T", 10)+SerifBold.Width("o", 10)-0.58, SerifBold.Width("To", 10), 1e-9)
	require.Zero(t, Sans.Kern('1', '1'), "figures keep their width")
	require.Zero(t, Sans.Kern('T', ' '))
	require.Zero(t, Sans.Kern('T', '梨'))
}
