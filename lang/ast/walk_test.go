package ast_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

func read(t *testing.T, text string) *ast.File {
	t.Helper()
	var list diag.List
	f := parse.File(source.New("x.tamis", text), &list)
	require.Empty(t, list.Sorted())
	return f
}

const soup = "# head\ndish A\n  gather\n    2 eggs, beaten | optional\n      instead 1 duck egg\n    either plain\n      salt\n    or rich\n      20 g butter\n  method\n    - Fry. | work 2 min\n      at half time: Turn. | work 1 min\n"

func TestWalkMeetsEveryStatement(t *testing.T) {
	var kinds []string
	ast.Walk(read(t, soup), func(n ast.Node) bool {
		kinds = append(kinds, strings.TrimPrefix(fmt.Sprintf("%T", n), "*ast."))
		return true
	})
	require.Equal(t, strings.Fields("Recipe Gather Line Line Choice Option Line Option Line Method Step Moment"), kinds)

	n := 0
	ast.Walk(read(t, soup), func(ast.Node) bool { n++; return false })
	require.Equal(t, 1, n, "what is below is passed over")
}

func TestEqual(t *testing.T) {
	same := func(a, b string) bool { return ast.Equal(read(t, a), read(t, b)) }
	require.True(t, same(soup, strings.ReplaceAll(soup, "  ", "   ")), "places do not count")
	require.True(t, same("dish A\n  serves 6\n", "dish \"A\"\n\n  serves  6\n"), "nor quotes and blank lines")
	require.True(t, same("dish A\n  gather\n    1/2 lemon\n", "dish A\n  gather\n    0.5 lemon\n"))
	for _, change := range [][2]string{
		{"2 eggs", "3 eggs"},
		{"2 eggs", "2 leeks"},
		{"beaten", "whisked"},
		{"# head", "# foot"},
		{"optional", "whole"},
		{"20 g", "20 ml"},
		{"2 min", "2 h"},
		{"half time", "10 min"},
		{"Fry.", "Fry!"},
		{"dish A", "base A"},
		{" | work 1 min", ""},
	} {
		other := strings.Replace(soup, change[0], change[1], 1)
		require.NotEqual(t, soup, other)
		require.False(t, same(soup, other), change)
	}
	require.Contains(t, ast.Difference(read(t, soup), read(t, strings.Replace(soup, "2 eggs", "3 eggs", 1))), "Blocks[0].Items[0].Items[0].Amount")
}
