package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"
)

func pngOf(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	return b.Bytes()
}

// withOrientation is a JPEG whose APP1 segment holds a TIFF header with one
// entry, tag 0x0112, and after it some words that say where it was taken.
func withOrientation(t *testing.T, img image.Image, how uint16) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, &jpeg.Options{Quality: 100}))
	tiff := []byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01")
	tiff = binary.BigEndian.AppendUint16(tiff, how)
	tiff = append(tiff, 0, 0, 0, 0, 0, 0)
	body := append(append([]byte("Exif\x00\x00"), tiff...), "GPS 54.1 N 2.3 W"...)
	seg := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(body)+2))
	return append(append(append([]byte{0xff, 0xd8}, seg...), body...), b.Bytes()[2:]...)
}

// The eight orientations of the TIFF 6.0 specification (page 36) and EXIF 2.3,
// 4.6.4 (both from memory): where the first row and the first column of the stored picture are
// seen. The stored picture is 16 by 32 with its top left quarter black.
func TestSetUpright(t *testing.T) {
	stored := image.NewGray(image.Rect(0, 0, 16, 32))
	for y := range 32 {
		for x := range 16 {
			stored.SetGray(x, y, color.Gray{255})
			if x < 8 && y < 16 {
				stored.SetGray(x, y, color.Gray{0})
			}
		}
	}
	for how, want := range map[uint16]struct {
		w, h  int
		where string // of the black quarter
	}{
		1: {16, 32, "top left"}, 2: {16, 32, "top right"}, 3: {16, 32, "bottom right"}, 4: {16, 32, "bottom left"},
		5: {32, 16, "top left"}, 6: {32, 16, "top right"}, 7: {32, 16, "bottom right"}, 8: {32, 16, "bottom left"},
	} {
		img, f := Read(withOrientation(t, stored, how))
		require.Nil(t, f)
		require.Equal(t, []int{want.w, want.h}, []int{img.Width, img.Height}, "orientation %d", how)
		seen, err := jpeg.Decode(bytes.NewReader(img.Data))
		require.NoError(t, err)
		dark := func(x, y int) bool { r, _, _, _ := seen.At(x, y).RGBA(); return r < 0x8000 }
		for where, at := range map[string][2]int{
			"top left": {3, 3}, "top right": {want.w - 4, 3}, "bottom left": {3, want.h - 4}, "bottom right": {want.w - 4, want.h - 4},
		} {
			require.Equal(t, where == want.where, dark(at[0], at[1]), "orientation %d, %s", how, where)
		}
		require.NotContains(t, string(img.Data), "GPS", "nobody learns where it was taken")
		require.NotContains(t, string(img.Data), "Exif")
	}
}

// A header that claims a hundred thousand pixels each way is not believed.
func TestAPictureThatIsTooLarge(t *testing.T) {
	head := []byte("\x00\x00\x00\x0dIHDR\x00\x01\x86\xa0\x00\x01\x86\xa0\x08\x02\x00\x00\x00")
	bomb := append([]byte("\x89PNG\r\n\x1a\n"), head...)
	bomb = binary.BigEndian.AppendUint32(bomb, crc32.ChecksumIEEE(head[4:]))
	_, f := Read(bomb)
	require.NotNil(t, f)
	require.Equal(t, "it has 100000 by 100000 pixels, and no more than 40 million are unpacked", f.Message)
	_, f = Read(make([]byte, MaxBytes+1))
	require.Contains(t, f.Message, "it is 32 MB large")
}

func TestBrokenPictures(t *testing.T) {
	whole := pngOf(t, image.NewRGBA(image.Rect(0, 0, 40, 40)))
	photo := withOrientation(t, image.NewRGBA(image.Rect(0, 0, 40, 40)), 6)
	for _, data := range [][]byte{nil, []byte("hello"), whole[:20], whole[:len(whole)-20], photo[:12], photo[:len(photo)/2]} {
		img, f := Read(data)
		require.Nil(t, img)
		require.NotNil(t, f)
		require.NotEmpty(t, f.Help)
	}
}

// Large pictures are made smaller, small ones stay; what is seen through is
// white; grey is kept grey; the same file gives the same bytes.
func TestReduced(t *testing.T) {
	img, f := Read(pngOf(t, image.NewRGBA(image.Rect(0, 0, 3200, 800))))
	require.Nil(t, f)
	require.Equal(t, []int{1600, 400}, []int{img.Width, img.Height})
	seen, err := png.Decode(bytes.NewReader(img.Data))
	require.NoError(t, err)
	require.Equal(t, color.Gray{255}, seen.At(10, 10), "transparent is the white of paper")
	again, _ := Read(pngOf(t, image.NewRGBA(image.Rect(0, 0, 3200, 800))))
	require.Equal(t, img.Data, again.Data)
	small, _ := Read(pngOf(t, image.NewRGBA(image.Rect(0, 0, 30, 8))))
	require.Equal(t, []int{30, 8}, []int{small.Width, small.Height})
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("\x89PNG\r\n\x1a\n"))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00MM\x00*\x00\x00\x00\x08"))
	f.Add([]byte("GIF89a\x01\x00\x01\x00"))
	f.Add([]byte("RIFF\x00\x00\x00\x00WEBPVP8 "))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<16 {
			return
		}
		img, fault := Read(data)
		require.True(t, (img == nil) != (fault == nil))
	})
}
