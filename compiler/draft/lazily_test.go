package draft

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Nobody who only checks a recipe waits for the expressions of a draft: each is compiled
// when it is first wanted.
func TestNoExpressionIsCompiledAtTheStart(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	atStart := regexp.MustCompile(`(?m)^(?:var |\t)\w+ *= regexp\.MustCompile\(.*`)
	for _, f := range files {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		require.Empty(t, atStart.FindAllString(string(text), -1), f)
	}
}
