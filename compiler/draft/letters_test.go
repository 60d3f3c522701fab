package draft_test

import (
	"context"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler/draft"
)

// Letters that are not UTF-8 keep their figures, and it is said how they were read: 0xBD is
// a half and 0xB0 a degree in ISO 8859-1 and Windows-1252, from memory.
func TestOtherLetters(t *testing.T) {
	const text = "Soup\n\nIngredients\n\n½ cup cream\n2½ lb leeks\n\nMethod\n\nBake at 200 °C for 20 minutes.\n"
	var latin, little, big []byte
	little, big = []byte{0xFF, 0xFE}, []byte{0xFE, 0xFF}
	for _, c := range text {
		latin = append(latin, byte(c))
	}
	for _, u := range utf16.Encode([]rune(text)) {
		little, big = append(little, byte(u), byte(u>>8)), append(big, byte(u>>8), byte(u))
	}
	want := made("x.txt", text)
	assert.Contains(t, want.Text, "1/2 cup")
	for code, bytes := range map[string][]byte{"Windows-1252": latin, "UTF-16": little, "UTF-16 ": big} {
		r := made("x.txt", string(bytes))
		assert.Equal(t, want.Text, r.Text, code)
		require.Len(t, r.Told, 1, code)
		assert.Contains(t, r.Told[0], code[:6])
	}
	assert.Empty(t, want.Told)
	assert.Contains(t, made("x.txt", "Soup\n\n½ cup crème\n\xBD lb leeks\n").Text, "1/2 cup  crème") // both in one
}

// What is no text, or nothing, is refused.
func TestNoText(t *testing.T) {
	for text, want := range map[string]error{
		"":                                  draft.ErrNothing,
		" \n\t\r\n":                         draft.ErrNothing,
		"\uFEFF\n":                          draft.ErrNothing,
		"PK\x03\x04\x14\x00\x00\x00abcdef":  draft.ErrNoText,
		"\x89PNG\r\n\x1a\n\x01\x02\x81\x8d": draft.ErrNoText,
		"salt \uFFFD\uFFFD\uFFFD":           draft.ErrNoText,
	} {
		_, err := draft.Make(context.Background(), "x.txt", text, draft.Options{})
		assert.ErrorIs(t, err, want, "%q", text)
	}
}
