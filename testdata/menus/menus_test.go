package menus_test

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/testdata/menus"
)

// What a seed gives does not depend on what was drawn before.
func TestASeedGivesOneText(t *testing.T) {
	text := func(seed uint64) string {
		b, err := fs.ReadFile(menus.ByChance(seed), "menu.tamis")
		require.NoError(t, err)
		return string(b)
	}
	first := text(3)
	text(4)
	require.Equal(t, first, text(3))
}
