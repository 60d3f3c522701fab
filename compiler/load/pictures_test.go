package load_test

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// pictures reads a folder on disk with a dish whose field is as given, a
// picture `parcel.png` beside it, one in a folder below and one outside.
func pictures(t *testing.T, field string) ([]*load.Picture, []diag.Diagnostic) {
	t.Helper()
	root := t.TempDir()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 20, 10))))
	folder := filepath.Join(root, "book")
	require.NoError(t, os.MkdirAll(filepath.Join(folder, "drawings"), 0o755))
	for name, data := range map[string][]byte{
		"book/parcel.png": b.Bytes(), "book/drawings/fold, twice.png": b.Bytes(), "outside.png": b.Bytes(), "book/words.png": []byte("no picture"),
		"book/dish.tamis": []byte("dish Parcels\n  picture " + field + "\n  serves 4\n  gather\n    1 kg     leeks\n  method\n    - Boil the leeks.\n"),
	} {
		require.NoError(t, os.WriteFile(filepath.Join(root, filepath.FromSlash(name)), data, 0o644))
	}
	if err := os.Symlink(filepath.Join(root, "outside.png"), filepath.Join(folder, "link.png")); err != nil {
		t.Skip("no links here")
	}
	tree, err := load.Path(folder)
	require.NoError(t, err)
	diags := &diag.List{}
	var out []*load.Picture
	for _, p := range tree.Pictures(func(*source.File) bool { return true }, diags) {
		out = append(out, p)
	}
	return out, diags.Sorted()
}

func TestPicturesBesideARecipe(t *testing.T) {
	for field, want := range map[string][2]string{
		"parcel.png":                   {"parcel.png", ""},
		"parcel.png, Fold, then press": {"parcel.png", "Fold, then press"},
		"drawings/fold, twice.png":     {"drawings/fold, twice.png", ""},
	} {
		got, diags := pictures(t, field)
		require.Empty(t, diags, field)
		require.Len(t, got, 1)
		require.Equal(t, want, [2]string{got[0].Path, got[0].Words})
		require.Equal(t, []int{20, 10}, []int{got[0].Width, got[0].Height})
	}
}

func TestPicturesThatCannotBeHad(t *testing.T) {
	for field, want := range map[string]string{
		"parcl.png":                    `F103 there is no picture "parcl.png" here`,
		"../outside.png":               `F103 the picture "../outside.png" is not in this folder`,
		"/etc/hostname":                `F103 the picture "/etc/hostname" is not in this folder`,
		"link.png":                     `F103 the picture "link.png" is not in this folder`,
		"https://example.org/leek.png": "F103 a picture is a file beside this one, and no address is followed",
		"words.png":                    `F104 the picture "words.png" cannot be printed: it is no picture that can be read: PNG, JPEG, GIF and WebP can`,
	} {
		got, diags := pictures(t, field)
		require.Empty(t, got, field)
		require.Len(t, diags, 1, field)
		require.Equal(t, want, diags[0].Code+" "+diags[0].Message)
		require.NotEmpty(t, diags[0].Help)
	}
	_, diags := pictures(t, "parcl.png")
	require.Contains(t, diags[0].Help, `did you mean "parcel.png"?`)
}
