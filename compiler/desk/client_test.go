package desk

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// An editor that keeps a byte order mark counts it: places in the first line go by its count, both ways.
func TestAByteOrderMarkIsCounted(t *testing.T) {
	e := newEditor(t, map[string]string{"oil.tamis": mark + herbOil})
	e.version = 1
	open := func(name, text string) {
		e.tell("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": e.uri(name), "languageId": "tamis", "version": e.version, "text": text}})
		e.findings(name)
	}
	open("oil.tamis", mark+herbOil)
	prepare := func(line, character int) prepared {
		var p prepared
		e.call("textDocument/prepareRename", map[string]any{"textDocument": map[string]any{"uri": e.uri("oil.tamis")}, "position": position{line, character}}, &p)
		return p
	}
	p := prepare(0, 8)
	require.Equal(t, "Herb oil", p.Placeholder)
	require.Equal(t, textRange{position{0, 6}, position{0, 14}}, p.Range, "one further than without the mark")
	require.Equal(t, position{3, 13}, prepare(3, 15).Range.Start, "other lines are as they are")

	// the name is typed over behind the mark: it stays
	change := func(r textRange, text string) {
		e.version++
		e.tell("textDocument/didChange", map[string]any{
			"textDocument":   map[string]any{"uri": e.uri("oil.tamis"), "version": e.version},
			"contentChanges": []any{map[string]any{"range": r, "text": text}},
		})
		e.findings("oil.tamis")
	}
	change(p.Range, "Green oil")
	p = prepare(0, 8)
	require.Equal(t, "Green oil", p.Placeholder)
	require.Equal(t, position{0, 6}, p.Range.Start)

	// and goes with what is replaced
	change(textRange{position{0, 0}, position{0, 6}}, "base ")
	require.Equal(t, textRange{position{0, 5}, position{0, 14}}, prepare(0, 8).Range)
}

// One file under two addresses is one text: findings go to both, and closing one leaves the other open.
func TestTwoAddressesOfAFile(t *testing.T) {
	e := supper(t)
	e.open("oil.tamis", herbOil)
	other := strings.Replace(e.uri("oil.tamis"), "oil.tamis", "%6Fil.tamis", 1)
	require.NotEqual(t, e.uri("oil.tamis"), other)
	tell := func(method string, version int, more map[string]any) {
		p := map[string]any{"textDocument": map[string]any{"uri": other, "languageId": "tamis", "version": version, "text": herbOil}}
		for k, v := range more {
			p[k] = v
		}
		e.tell(method, p)
	}
	heard := func(uri string, version int, fits func([]diagnostic) bool) {
		t.Helper()
		for {
			m := e.next()
			if m.Method != "textDocument/publishDiagnostics" {
				continue
			}
			p, err := read[publishParams](m.Params)
			require.NoError(t, err)
			if p.URI == uri && (version == 0 || p.Version != nil && *p.Version == version) && fits(p.Diagnostics) {
				return
			}
		}
	}
	all := func([]diagnostic) bool { return true }
	bad := func(l []diagnostic) bool { return len(l) > 0 && l[0].Severity == 1 }
	tell("textDocument/didOpen", 71, nil)
	heard(other, 71, all)
	tell("textDocument/didChange", 72, map[string]any{"contentChanges": []any{map[string]any{"text": "bse Herb oil\n"}}})
	heard(e.uri("oil.tamis"), e.version, bad)
	tell("textDocument/didChange", 73, map[string]any{"contentChanges": []any{map[string]any{"text": herbOil}}})
	heard(other, 73, all)
	tell("textDocument/didClose", 0, nil)
	heard(other, 0, func(l []diagnostic) bool { return len(l) == 0 })
	e.edit("oil.tamis", "base Herb", "bse Herb")
	require.NotEmpty(t, e.found["oil.tamis"].Diagnostics, "it is open still")
}

// Edits go by address alone to an editor that does not say that it knows versions, and a
// request that takes nothing has no parameters (JSON-RPC 2.0, 4.2: they are an object or a list).
func TestAClientThatKnowsLittle(t *testing.T) {
	e := supper(t)
	e.open("oil.tamis", herbOil)
	var w workspaceEdit
	e.call("textDocument/rename", e.with(e.at("oil.tamis", "base He^rb oil"), "newName", "Green oil"), &w)
	require.Nil(t, w.Changes)
	require.Len(t, w.DocumentChanges, 2)

	little := &editor{TB: t, dir: e.dir, found: map[string]publishParams{}, texts: map[string]string{}, from: make(chan message, 4096), clean: make(chan bool, 1), idle: e.idle, little: true}
	little.start()
	little.open("oil.tamis", herbOil)
	w = workspaceEdit{}
	little.call("textDocument/rename", little.with(little.at("oil.tamis", "base He^rb oil"), "newName", "Green oil"), &w)
	require.Nil(t, w.DocumentChanges)
	require.Len(t, w.Changes, 2)
	require.Len(t, w.Changes[e.uri("oil.tamis")], 1)

	var out strings.Builder
	(&writer{out: &out}).ask("workspace/inlayHint/refresh", nil)
	require.NotContains(t, out.String(), "params")
}

// A large folder is looked through beside the conversation: what came, changed or went
// behind the editor's back is taken in all the same.
func TestALargeFolderIsLookedThroughBeside(t *testing.T) {
	files := map[string]string{"oil.tamis": herbOil, "beans.tamis": beans}
	for i := range manyEntries {
		files["letters/"+itoa(i)+".txt"] = "A word."
	}
	e := newEditor(t, files)
	has := func(name string, fits func([]string) bool) {
		t.Helper()
		for !fits(codes(e.found[name].Diagnostics)) {
			e.next()
		}
	}
	some := func(l []string) bool { return len(l) > 0 }
	e.open("oil.tamis", herbOil)
	e.write("beans.tamis", strings.Replace(beans, "serves 6", "srves 6", 1))
	e.write("broken.tamis", "dsh Leeks\n")
	e.tell("textDocument/didSave", e.of("oil.tamis"))
	has("broken.tamis", some)
	has("beans.tamis", some)
	require.NoError(t, os.Remove(filepath.Join(e.dir, "broken.tamis")))
	e.tell("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{}})
	e.tell("workspace/didChangeWatchedFiles", map[string]any{"changes": []any{}})
	has("broken.tamis", func(l []string) bool { return len(l) == 0 })
}
