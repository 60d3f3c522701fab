package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/diff"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"
)

// Small menus that use what the examples do not (testdata/small): the words of
// every sheet, the plan, and what each sentence was read as. They are read by
// people before they are kept, and again in every change of theirs:
//
//	go test . -run Small -update
//
// An archive holds the text, and then what commands print, each under the
// command's own words; "." is the folder of the text.
func TestSmall(t *testing.T) {
	root, err := os.Getwd()
	require.NoError(t, err)
	for _, name := range smallMenus(t) {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(name)
			require.NoError(t, err)
			t.Chdir(unpack(t, archive))
			want := txtar.Format(archive)
			for i, f := range archive.Files {
				if words, ok := strings.CutPrefix(f.Name, "tamis "); ok {
					archive.Files[i].Data = []byte(said(words))
				}
			}
			got := txtar.Format(archive)
			if *update {
				require.NoError(t, os.WriteFile(filepath.Join(root, name), got, 0o644))
				return
			}
			if change := diff.Diff("kept", want, "now", got); len(change) > 0 {
				t.Errorf("%s: read it, then go test . -run Small -update\n%s", name, change)
			}
		})
	}
}

func smallMenus(t *testing.T) []string {
	names, err := filepath.Glob(filepath.Join("testdata", "small", "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	return names
}

// unpack writes the texts of an archive to a folder.
func unpack(t *testing.T, a *txtar.Archive) string {
	dir := t.TempDir()
	for _, f := range a.Files {
		if !strings.HasPrefix(f.Name, "tamis ") {
			require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, f.Name)), 0o755))
			require.NoError(t, os.WriteFile(filepath.Join(dir, f.Name), f.Data, 0o644))
		}
	}
	return dir
}

// said is what a command prints, without spaces at the ends of lines; what it
// complains of if it prints nothing. Words stand in "…" where they hold spaces.
func said(words string) string {
	var args []string
	for i, quoted := range strings.Split(words, `"`) {
		if i%2 == 1 {
			args = append(args, quoted)
			continue
		}
		args = append(args, strings.Fields(quoted)...)
	}
	var out, findings bytes.Buffer
	run(withPlans(), args, nil, &out, &findings)
	if out.Len() == 0 {
		out = findings
	}
	lines := strings.Split(out.String(), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.TrimRight(strings.Join(lines, "\n"), "\n") + "\n"
}
