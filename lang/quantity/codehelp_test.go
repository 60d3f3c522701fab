package quantity

import (
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the table calls wrong is complained of under its code, and what it
// calls right is not.
func TestCodeTable(t *testing.T) {
	src, err := os.ReadFile("codes.go")
	require.NoError(t, err)
	var declared []string
	for _, m := range regexp.MustCompile(`"(Q\d\d\d)"`).FindAllStringSubmatch(string(src), -1) {
		declared = append(declared, m[1])
	}
	require.NotEmpty(t, declared)
	var listed []string
	for _, h := range CodeTable() {
		listed = append(listed, h.Code)
		require.NotEmpty(t, h.Title)
		require.NotEmpty(t, h.Text)
		if h.Wrong == "" {
			continue
		}
		read := func(text string) (n int, problems []Problem) {
			switch h.Code[1] {
			case '1':
				_, n, problems = ReadAmount(text, Options{})
			case '2':
				_, n, problems = ReadSpan(text, Options{})
			case '3':
				_, n, problems = ReadHeat(text, Options{})
			}
			return n, problems
		}
		_, problems := read(h.Wrong)
		require.Len(t, problems, 1, h.Wrong)
		require.Equal(t, h.Code, problems[0].Code, h.Wrong)
		n, problems := read(h.Right)
		require.Empty(t, problems, h.Right)
		require.Positive(t, n, h.Right)
	}
	require.Equal(t, declared, listed)
}
