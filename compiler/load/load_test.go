package load_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/load"
)

func file(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

func asked(t *load.Tree) (out []string) {
	for _, f := range t.Files {
		if t.Asked(f) {
			out = append(out, f.Path)
		}
	}
	return out
}

func TestWhatIsAskedFor(t *testing.T) {
	plain := fstest.MapFS{
		"menu.tamis":       file("menu M\n  covers 2\n"),
		"soups/leek.tamis": file("dish Leek soup\n  serves 2\n"),
		"notes.txt":        file("not ours"),
		".hidden/x.tamis":  file("dish Hidden\n  serves 2\n"),
	}
	tree, err := load.FS(plain, ".", "", "kitchen")
	require.NoError(t, err)
	require.Equal(t, []string{"menu.tamis"}, asked(tree), "a folder is one scope")
	require.Len(t, tree.Files, 2, "what stands below is read, since names may lead there")
	require.Equal(t, "kitchen/menu.tamis", tree.Files[0].AST.Source.Name)

	tree, err = load.FS(plain, "soups", "", "kitchen")
	require.NoError(t, err)
	require.Equal(t, []string{"soups/leek.tamis"}, asked(tree))

	plain["book.tamis"] = file("book B\n  by nobody\n")
	tree, err = load.FS(plain, ".", "", "kitchen")
	require.NoError(t, err)
	require.Equal(t, []string{"book.tamis", "menu.tamis", "soups/leek.tamis"}, asked(tree), "a book stands for everything below it")

	tree, err = load.FS(plain, ".", "menu.tamis", "kitchen")
	require.NoError(t, err)
	require.Equal(t, []string{"menu.tamis"}, asked(tree), "one file is one file")
}

// A larder's word units and decimal mark hold in its folder and below.
func TestSettingsHoldBelow(t *testing.T) {
	tree, err := load.FS(fstest.MapFS{
		"larder.tamis":     file("larder\n  decimal comma\n"),
		"soups/leek.tamis": file("dish Leek soup\n  serves 2\n  gather\n    1,5 kg   leeks\n  method\n    - Boil the leeks.\n"),
	}, ".", "", "")
	require.NoError(t, err)
	require.Zero(t, tree.Diags.Len(), "%v", tree.Diags.Sorted())
}

func TestTrouble(t *testing.T) {
	for name, tt := range map[string]struct {
		files fstest.MapFS
		want  string
	}{
		"no file of ours": {fstest.MapFS{"a.txt": file("x")}, "holds no .tamis file"},
		"they lie below":  {fstest.MapFS{"sweet things/tart.tamis": file("dish Tart\n  serves 4\n")}, `holds no .tamis file itself; they lie below it: name a folder that has some, as "here/sweet things"`},
		"too large":       {fstest.MapFS{"a.tamis": file(strings.Repeat("x", load.MaxSize+1))}, "no more than 8 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := load.FS(tt.files, ".", "", "here")
			require.ErrorContains(t, err, tt.want)
		})
	}
	_, err := load.Path(filepath.Join(t.TempDir(), "nowhere"))
	require.ErrorContains(t, err, "there is no file or folder")
}

// The book's root is the nearest folder above that holds a book.
func TestTheRootIsFoundAbove(t *testing.T) {
	dir := t.TempDir()
	sub := filepath.Join(dir, "soups")
	require.NoError(t, os.Mkdir(sub, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "book.tamis"), []byte("Book: All\n  by nobody\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(sub, "leek.tamis"), []byte("dish Leek soup\n  serves 2\n"), 0o644))
	tree, err := load.Path(sub)
	require.NoError(t, err)
	require.Equal(t, "soups", tree.Dir)
	require.Len(t, tree.Files, 2)
	require.Equal(t, []string{"soups/leek.tamis"}, asked(tree))
}
