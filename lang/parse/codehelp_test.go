package parse_test

import (
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/parse"
)

// What the table calls wrong is reported under its code and no other, and what
// it calls right is not reported at all.
func TestCodeTable(t *testing.T) {
	src, err := os.ReadFile("codes.go")
	require.NoError(t, err)
	var declared, listed []string
	for _, m := range regexp.MustCompile(`"(N\d\d\d)"`).FindAllStringSubmatch(string(src), -1) {
		declared = append(declared, m[1])
	}
	for _, h := range parse.CodeTable() {
		listed = append(listed, h.Code)
		for _, text := range []string{h.Title, h.What, h.Why, h.Fix} {
			require.NotEmpty(t, text, h.Code)
		}
		if h.Wrong == "" {
			continue
		}
		found := read(h.Wrong)
		require.NotEmpty(t, found, "%s:\n%s", h.Code, h.Wrong)
		for _, d := range found {
			require.Equal(t, h.Code, d.Code, "%s:\n%s", d.Message, h.Wrong)
			require.Equal(t, h.Severity, d.Severity)
		}
		require.Empty(t, read(h.Right), "%s:\n%s", h.Code, h.Right)
	}
	require.NotEmpty(t, declared)
	require.Equal(t, declared, listed)
}
