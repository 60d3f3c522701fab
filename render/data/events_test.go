package data_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/events"
	"tamis/compiler/load"
	"tamis/lang/effort"
	"tamis/render/data"
	"tamis/testdata/menus"
)

func schemaOfEvents(t *testing.T) *jsonschema.Schema { return schemaOf(t, "events.schema.json") }

func schemaOf(t *testing.T, name string) *jsonschema.Schema {
	t.Helper()
	raw, err := os.ReadFile("../../spec/" + name)
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(raw))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource(name, doc))
	s, err := c.Compile(name)
	require.NoError(t, err)
	return s
}

// said is what the data of a document says of its events.
type said struct {
	Kind, Start, End, Words string
	Minute, Minutes         int
}

// written writes the documents of a folder and gives back the events of each
// that has a plan, checked against the schema and beside the plan's own.
func written(t *testing.T, schema *jsonschema.Schema, tree *load.Tree, check func([]said, *events.List)) {
	t.Helper()
	r := compiler.Compile(context.Background(), tree, compiler.Options{PlanAll: true})
	for i, doc := range r.Documents {
		var b bytes.Buffer
		require.NoError(t, data.Write(&b, doc))
		var all struct{ Events json.RawMessage }
		require.NoError(t, json.Unmarshal(b.Bytes(), &all))
		if len(doc.Events) == 0 {
			require.Empty(t, all.Events)
			continue
		}
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(all.Events))
		require.NoError(t, err)
		require.NoError(t, schema.Validate(v))
		var list []said
		require.NoError(t, json.Unmarshal(all.Events, &list))
		check(list, events.Of(r.Timelines[i]))
	}
}

// The data carry every event of the plan at its moment, as the published schema
// says; the moments are in order as instants too, whatever the zone.
func TestEventsAreInTheData(t *testing.T) {
	schema := schemaOfEvents(t)
	checked, counted, bare := 0, 0, 0
	check := func(list []said, want *events.List) {
		require.Len(t, list, len(want.Events))
		var last time.Time
		for i, s := range list {
			e := want.Events[i]
			require.Equal(t, string(e.Kind), s.Kind)
			require.Equal(t, e.Words, s.Words)
			require.Equal(t, int(e.Start-want.Zero), s.Minute)
			require.Equal(t, int(e.End-e.Start), s.Minutes)
			if !want.Clocked() {
				counted++
				sign, n := "", s.Minute
				if n < 0 {
					sign, n = "-", -n
				}
				require.Equal(t, fmt.Sprintf("%sPT%dM", sign, n), s.Start)
				continue
			}
			at, err := time.Parse(time.RFC3339, s.Start)
			if err != nil {
				bare++
				at, err = time.Parse("2006-01-02T15:04:05", s.Start)
			}
			require.NoError(t, err)
			require.Equal(t, want.Clock(e.Start), at.Format("15:04"), "the data and the sheets show one clock")
			if e.At == e.Start { // what is only left stands where somebody puts it in
				require.False(t, at.Before(last), "%s before %s", at, last)
				last = at
			}
		}
		checked++
	}
	dirs, err := filepath.Glob("../../examples/*/README.md")
	require.NoError(t, err)
	for i, d := range dirs {
		if i%2 == 1 && !effort.Long() { // each plan takes its time
			continue
		}
		tree, err := load.Path(filepath.Dir(d))
		require.NoError(t, err)
		written(t, schema, tree, check)
	}
	require.GreaterOrEqual(t, checked, effort.Rounds(3, 5))
	for seed := range uint64(25) {
		tree, err := load.FS(menus.ByChance(seed), ".", "", "")
		require.NoError(t, err)
		written(t, schema, tree, check)
	}
	require.Greater(t, checked, 10)
	require.NotZero(t, counted, "no menu without a clock")
	require.NotZero(t, bare, "no kitchen without a zone")
}

// The schema is worth having: it refuses what is no event.
func TestSchemaOfEventsBites(t *testing.T) {
	schema := schemaOfEvents(t)
	good := `{"kind": "serve", "start": "2027-09-19T12:30:00+01:00", "end": "2027-09-19T12:30:00+01:00", "minute": 0, "minutes": 0, "thing": "Pie", "words": "Serve: Pie"}`
	valid := func(text string) bool {
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader([]byte("[" + text + "]")))
		require.NoError(t, err)
		return schema.Validate(v) == nil
	}
	require.True(t, valid(good))
	for _, c := range [][2]string{
		{`"serve"`, `"eat"`},
		{`"2027-09-19T12:30:00+01:00", "end"`, `"12:30", "end"`},
		{`"minutes": 0, `, ``},
		{`"minutes": 0`, `"minutes": -5`},
		{`"thing": "Pie", `, ``},
		{`"thing": "Pie"`, `"thing": "Pie", "mood": "good"`},
		{`"serve"`, `"job"`},
	} {
		bad := string(bytes.Replace([]byte(good), []byte(c[0]), []byte(c[1]), 1))
		require.NotEqual(t, good, bad)
		require.False(t, valid(bad), bad)
	}
}
