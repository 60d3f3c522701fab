package parse_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

func TestWashingUp(t *testing.T) {
	f := tree(t, `kitchen Boat
  cooks Nell, Omar
  tools mandoline, stick blender, washed in 3 min
  tools scales
  wash up 10 min, after each dish
  Wash up: 15 to 20 min , every 2 h 30 min, by Nell, Omar
  wash up 20 min, before serving, by Omar
`)
	items := f.Blocks[0].(*ast.Kitchen).Items
	tools := items[1].(*ast.Names)
	require.Equal(t, "tools", tools.Key)
	require.Len(t, tools.Names, 2)
	require.Equal(t, "stick blender", tools.Names[1].Text)
	require.Equal(t, 3*time.Minute, tools.Washed.High)
	require.Nil(t, items[2].(*ast.Names).Washed)

	each, every, before := items[3].(*ast.WashUp), items[4].(*ast.WashUp), items[5].(*ast.WashUp)
	require.Equal(t, "after each dish", each.When)
	require.Equal(t, 10*time.Minute, each.Time.High)
	require.Empty(t, each.By)
	require.Equal(t, "every", every.When)
	require.Equal(t, 150*time.Minute, every.Every.High)
	require.Equal(t, 15*time.Minute, every.Time.Low)
	require.Equal(t, 20*time.Minute, every.Time.High)
	require.Equal(t, "Nell", every.By[0].Text)
	require.Equal(t, "Omar", every.By[1].Text)
	require.Equal(t, "before serving", before.When)
	require.Nil(t, before.Every)
	require.Equal(t, "Omar", before.By[0].Text)
}

func TestWashingUpFaults(t *testing.T) {
	for text, want := range map[string]string{
		"wash up 10 min":                                                          "N129 something is missing after `wash up 10 min`",
		"wash up after each dish":                                                 "N129",
		"wash up 10 min, now and then":                                            "N129 `now and then` does not fit after `wash up 10 min,`",
		"wash up 10 min, every dish":                                              "N129",
		"wash up 10 min, before serving, Omar":                                    "N129",
		"tools mandoline, washed in 3 min, scales":                                "N129 `washed in` stands last, after the tools it is about",
		"tools mandoline, washed in a trice":                                      "N129",
		"wash up 5 min, every 2 h\n  wash up 6 min, every 3 h":                    "N124 washing up `every` so many hours is written twice",
		"wash up 5 min, before serving\n  wash up 6 min, before serving, by Omar": "N124 washing up `before serving` is written twice",
		"cleaning 5 min, before serving":                                          "N121",
	} {
		var list diag.List
		parse.File(source.New("x.tamis", "kitchen Boat\n  rings 2\n  "+text+"\n"), &list)
		found := list.Sorted()
		require.Len(t, found, 1, text)
		require.Contains(t, found[0].Code+" "+found[0].Message, want, text)
		require.NotEmpty(t, found[0].Help, text)
	}
}
