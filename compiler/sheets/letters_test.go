package sheets

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestUnmarked(t *testing.T) {
	for text, want := range map[string]string{
		"Smørrebrød": "Smorrebrod", "Œufs à la coque": "Oeufs a la coque", "Żurek, Łódź": "Zurek, Lodz", "Weißbrot": "Weissbrot",
		"Æbleskiver": "Aebleskiver", "crème bru\u0302le\u0301e": "creme brulee", "ﬁne": "fine", "餃子": "餃子", "": "",
	} {
		require.Equal(t, want, Unmarked(text))
	}
}
