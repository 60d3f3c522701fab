package check

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Messages speak of one thing and of many in good English.
func TestIsOrAre(t *testing.T) {
	for name, verb := range map[string]string{"butter": "is", "whites": "are", "Onions": "are", "asparagus": "is", "watercress": "is", "couscous": "is", "egg yolks": "are"} {
		require.Equal(t, verb, isOrAre(name), name)
	}
}
