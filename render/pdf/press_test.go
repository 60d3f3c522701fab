package pdf

import (
	"compress/zlib"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The contents of a page come back as they were, whatever went before; what is
// not written as fpdf does is refused.
func TestPresser(t *testing.T) {
	p := &presser{}
	for _, text := range []string{strings.Repeat("0 0 m 10 10 l S ", 500), "q Q", "", "(endstream) >>\nstream\n"} {
		body, err := p.content(fmt.Sprintf("<</Length %d>>\nstream\n%s\nendstream\n", len(text), text))
		require.NoError(t, err)
		var n int
		_, err = fmt.Sscanf(body, "<</Filter /FlateDecode /Length %d>>\n", &n)
		require.NoError(t, err)
		_, packed, _ := strings.Cut(body, "stream\n")
		require.Equal(t, "\nendstream\n", packed[n:])
		z, err := zlib.NewReader(strings.NewReader(packed[:n]))
		require.NoError(t, err)
		got, err := io.ReadAll(z)
		require.NoError(t, err)
		require.Equal(t, text, string(got))
	}
	for _, body := range []string{"", "<</Length 5>>\nstream\nabc\nendstream\n", "<</Length 3 /X 1>>\nstream\nabc\nendstream\n", "<</Length 2>>\nstream\nabc\nendstream\n"} {
		_, err := p.content(body)
		require.ErrorIs(t, err, errShape, "%q", body)
	}
}
