package parse_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// A note that counts out another thing is asked about, for nothing of it is bought; one
// that speaks of what the line has is not.
func TestASecondThingBehindTheComma(t *testing.T) {
	asked := func(line string) (out string) {
		diags := &diag.List{}
		parse.File(source.New("a.tamis", "dish Soup\n  gather\n    "+line+"\n  method\n    - Boil.\n"), diags)
		for d := range diags.All() {
			if d.Code == "N174" {
				out += d.At.Span.Text()
			}
		}
		return out
	}
	for line, want := range map[string]string{
		"1 large onion, 2 carrots and 2 sticks of celery, all diced": "2 carrots and 2 sticks of celery, all diced",
		"2 oranges, stuck with 6 cloves each":                        "6 cloves each",
		"1 ham, glazed with 3 tbsp honey":                            "3 tbsp honey",
		"200 g flour, 100 g butter":                                  "100 g butter",
		"1 loaf, 2 days old":                                         "",
		"1 chicken, 8 pieces":                                        "",
		"2 fillets of beef, 6 oz each":                               "",
		"6 potatoes, 2 cm dice":                                      "",
		"1 tin, with its juice":                                      "",
	} {
		require.Equal(t, want, strings.TrimSpace(asked(line)), line)
	}
}
