package pdf

import (
	"bytes"
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/page"
)

// asked is a context that ends when it has been asked so often.
type asked struct {
	context.Context
	times, end int
}

func (a *asked) Err() error {
	if a.times++; a.times > a.end {
		return context.Canceled
	}
	return nil
}

// Pages are laid out and drawn one by one, and none after the context ends; no
// byte is written then.
func TestStopped(t *testing.T) {
	doc := &sheets.Document{Title: "Many", Language: "en-GB"}
	for range 20 {
		doc.Sheets = append(doc.Sheets, sheets.Sheet{ID: "a", Title: "A sheet"})
	}
	for n := range 20 {
		ctx := &asked{Context: t.Context(), end: n}
		book, err := page.LayContext(ctx, doc, page.Options{})
		require.ErrorIs(t, err, context.Canceled)
		require.Nil(t, book)
		require.Equal(t, n+1, ctx.times, "once for each sheet until then")
	}
	book := page.Lay(doc, page.Options{})
	require.Len(t, book.Pages, 20)
	for n := range 21 {
		var b bytes.Buffer
		require.ErrorIs(t, DrawContext(&asked{Context: t.Context(), end: n}, &b, book), context.Canceled)
		require.Zero(t, b.Len())
	}
	var b bytes.Buffer
	require.NoError(t, DrawContext(&asked{Context: t.Context(), end: 21}, &b, book))
	require.NotZero(t, b.Len())
}
