package events_test

import (
	"context"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/events"
	"tamis/compiler/load"
)

// listOf plans a text with one menu.
func listOf(t *testing.T, text string) *events.List {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"menu.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	r := compiler.Compile(context.Background(), tree, compiler.Options{PlanAll: true, NoPages: true})
	require.False(t, r.Diags.HasErrors(), "%v", r.Diags.Sorted())
	require.Len(t, r.Timelines, 1)
	require.NotNil(t, r.Timelines[0])
	return events.Of(r.Timelines[0])
}
