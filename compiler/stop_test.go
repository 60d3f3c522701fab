package compiler

import (
	"context"
	"io/fs"
	"sync/atomic"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/check"
	"tamis/compiler/load"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/planner"
	"tamis/lang/diag"
)

// opened counts the files that are opened.
type opened struct {
	fstest.MapFS
	files *atomic.Int32
	do    func()
}

func (o opened) Open(name string) (fs.File, error) {
	if name != "." {
		o.files.Add(1)
		o.do()
	}
	return o.MapFS.Open(name)
}

const stopMenu = `menu Supper
  covers 4
  on the table 2027-09-19 19:00
  at Home
  course Main
    Leeks

kitchen Home
  rules UK
  cooks Ada
  rings 2

dish Leeks
  serves 4
  gather
    800 g    leeks
    40 g     butter
  method
    - Melt the butter and cook the the leeks in it until soft.
      | ring low | work 3 min | leave 15 min
  serve hot, within 10 min
`

// Every pass stops when its context ends: what it has not begun is not done.
func TestPassesStop(t *testing.T) {
	over, end := context.WithCancel(t.Context())
	files := fstest.MapFS{}
	for i := range 900 {
		files[string(rune('a'+i/30))+string(rune('a'+i%30))+"x.tamis"] = &fstest.MapFile{Data: []byte(stopMenu)}
	}
	var read atomic.Int32
	_, err := load.FSContext(over, opened{files, &read, func() {
		if read.Load() == 10 {
			end()
		}
	}}, ".", "", "t")
	require.ErrorIs(t, err, context.Canceled)
	require.Less(t, int(read.Load()), 200, "those that were being read, and no more")

	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(stopMenu)}}, ".", "", "t")
	require.NoError(t, err)
	whole := Compile(t.Context(), tree, Options{})
	require.Len(t, whole.Documents, 1)
	require.NotNil(t, whole.Timelines[0])

	r := Compile(over, tree, Options{})
	require.Nil(t, r.Meals, "amounts come after the names")
	require.Empty(t, r.Documents)
	require.NotNil(t, r.Diags)

	require.Nil(t, planner.Plan(over, whole.Meals[0], timeline.Options{}, &diag.List{}))
	require.Nil(t, planner.Replan(over, whole.Timelines[0], whole.Timelines[0].Jobs[0], 10))

	diags := &diag.List{}
	check.Run(over, check.Pass{Tree: tree, Model: whole.Model, Meals: whole.Meals, Timelines: whole.Timelines}, check.Planned, diags)
	require.Zero(t, diags.Len(), "no rule runs")
	check.Run(t.Context(), check.Pass{Tree: tree, Model: whole.Model, Meals: whole.Meals, Timelines: whole.Timelines}, check.Planned, diags)
	require.NotZero(t, diags.Len(), "else some find something")
}
