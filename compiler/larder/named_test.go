package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tamis/lang/quantity"
)

// Every name of the built-in table is read as a name, alone and behind an
// amount, or asked about, though some begin as numbers and amounts do.
func TestNamesAreNoAmounts(t *testing.T) {
	for _, it := range Builtin().Items() {
		for _, name := range append([]string{it.Name, it.Plural}, it.Other...) {
			if name == "" || strings.Contains(name, "%") || strings.Contains(name, " of ") { // 70% chocolate takes quotes, and a stick of cinnamon is one
				continue
			}
			_, n, problems := quantity.ReadAmount(name, quantity.Options{})
			assert.Zero(t, n, "%q begins with an amount", name)
			assert.Empty(t, problems, name)
			_, n, problems = quantity.ReadAmount("250 g "+name, quantity.Options{})
			if n != len("250 g") { // "250 g packet suet" is asked about
				assert.NotEmpty(t, problems, name)
			} else {
				assert.Empty(t, problems, name)
			}
		}
	}
}
