package parse_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/parse"
	"tamis/lang/source"
)

// The caret ^ marks the offset.
func TestPlaceAt(t *testing.T) {
	none := parse.Place(-1)
	for text, want := range map[string]parse.Place{
		"^":                                parse.AtBlock,
		"di^sh A\n":                        parse.AtBlock,
		"dish A\n  ^":                      parse.InRecipe,
		"dish A\n  ser^":                   parse.InRecipe,
		"dish A\n  serves 6\n^":            parse.AtBlock,
		"dish A\n  serves 6 ^":             none,
		"dish A\n  gather\n    ^":          parse.InGather,
		"dish A\n  gather\n    2 eggs | ^": parse.OnLine,
		"dish A\n  gather\n    2 eggs\n      ins^":        parse.InGather,
		"dish A\n  gather\n    2 eggs\n      | wo^":       parse.OnLine,
		"dish A\n  gather\n    for the sauce\n      ^":    parse.InGather,
		"dish A\n  method\n    pau^":                      parse.InMethod,
		"dish A\n  method\n    - Fry^":                    none,
		"dish A\n  method\n    - Fry. | work 2 min | ne^": parse.OnStep,
		"dish A\n  method\n    - Fry.\n      | ^\n":       parse.OnStep,
		"dish A\n  about\n    Pro^":                       none,
		"menu A\n  ^\n  covers 2\n":                       parse.InMenu,
		"menu A\n  course B\n    Soup, str^":              parse.OnServing,
		"menu A\n  course B\n    ^":                       parse.InCourse,
		"larder\n  egg | gi^":                             parse.OnFact,
		"larder\n  egg\n    | ^":                          parse.OnFact,
		"series A\n  part 1 B\n    sh^":                   parse.InPart,
		"book A\n  chapter B\n    ^":                      parse.InChapter,
		"kitchen A\n  ov^":                                parse.InKitchen,
		"# comment ^\n":                                   none,
	} {
		at := strings.IndexByte(text, '^')
		got, ok := parse.PlaceAt(source.New("x", strings.Replace(text, "^", "", 1)), at)
		if want == none {
			require.False(t, ok, text)
			continue
		}
		require.True(t, ok, text)
		require.Equal(t, want.String(), got.String(), text)
	}
}
