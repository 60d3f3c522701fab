// Package picture reads the pictures that stand beside recipes: PNG, JPEG, GIF
// and WebP. What it returns is upright, no larger than a page needs, and holds
// nothing but pixels: where a photograph was taken, and with what, stays behind.
package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/draw"
	"golang.org/x/image/webp"
)

const (
	// MaxBytes is the largest file that is read.
	MaxBytes = 32 << 20
	// MaxPixels is the most pixels that are unpacked: a header may claim any
	// number, and 40 million take 160 MB already.
	MaxPixels = 40_000_000
	// MaxMemory is the most bytes a picture may take unpacked: as many pixels of
	// 16 bits a colour, or of a PNG that comes in several passes, take twice that.
	MaxMemory = 4 * MaxPixels
	// MaxSide is the longer side that is kept, in pixels: 200 to the inch over
	// 200 mm, wider than the text of any page.
	MaxSide = 1600
)

// Image is a picture ready to be set: Data is a PNG or JPEG file of our making.
type Image struct {
	Type          string // "png" or "jpeg"
	Data          []byte
	Width, Height int // in pixels
}

// Fault is what is wrong with a file, for a cook to read.
type Fault struct{ Message, Help string }

func fault(help, format string, args ...any) *Fault {
	return &Fault{Message: fmt.Sprintf(format, args...), Help: help}
}

// kind is a format with its way in.
type kind struct {
	name   string
	is     func([]byte) bool
	config func([]byte) (image.Config, error)
	decode func([]byte) (image.Image, error)
	turned func([]byte) int // the orientation of EXIF, 1 to 8
	photo  bool             // kept as JPEG
}

var kinds = []kind{
	{
		name: "PNG",
		is:   func(b []byte) bool { return bytes.HasPrefix(b, []byte("\x89PNG\r\n\x1a\n")) },
		config: func(b []byte) (image.Config, error) {
			return png.DecodeConfig(bytes.NewReader(b))
		},
		decode: func(b []byte) (image.Image, error) { return png.Decode(bytes.NewReader(b)) },
		turned: pngOrientation,
	},
	{
		name:   "JPEG",
		is:     func(b []byte) bool { return bytes.HasPrefix(b, []byte("\xff\xd8\xff")) },
		config: func(b []byte) (image.Config, error) { return jpeg.DecodeConfig(bytes.NewReader(b)) },
		decode: func(b []byte) (image.Image, error) { return jpeg.Decode(bytes.NewReader(b)) },
		turned: jpegOrientation, photo: true,
	},
	{
		name: "GIF",
		is: func(b []byte) bool {
			return bytes.HasPrefix(b, []byte("GIF87a")) || bytes.HasPrefix(b, []byte("GIF89a"))
		},
		config: func(b []byte) (image.Config, error) { return gif.DecodeConfig(bytes.NewReader(b)) },
		decode: func(b []byte) (image.Image, error) { return gif.Decode(bytes.NewReader(b)) }, // the first of them, if it moves
		turned: func([]byte) int { return 1 },
	},
	{
		name:   "WebP",
		is:     func(b []byte) bool { return len(b) >= 12 && string(b[:4]) == "RIFF" && string(b[8:12]) == "WEBP" },
		config: func(b []byte) (image.Config, error) { return webp.DecodeConfig(bytes.NewReader(b)) },
		decode: func(b []byte) (image.Image, error) { return webp.Decode(bytes.NewReader(b)) },
		turned: webpOrientation,
	},
}

const asWhat = "save it as PNG or JPEG"

// Read unpacks a file. The size is looked at in the header before anything is
// unpacked.
func Read(data []byte) (img *Image, f *Fault) {
	defer func() {
		if r := recover(); r != nil { // a decoder that a broken file confuses costs a picture, not the page
			img, f = nil, fault(asWhat, "it is broken")
		}
	}()
	if len(data) > MaxBytes {
		return nil, fault("save it smaller: 1600 pixels across is enough for any page", "it is %d MB large, and no more than %d MB is read", len(data)>>20, MaxBytes>>20)
	}
	for _, k := range kinds {
		if k.is(data) {
			return k.read(data)
		}
	}
	return nil, fault(asWhat, "it is no picture that can be read: PNG, JPEG, GIF and WebP can")
}

func (k kind) read(data []byte) (*Image, *Fault) {
	c, err := k.config(data)
	switch {
	case err != nil || c.Width <= 0 || c.Height <= 0:
		return nil, fault(asWhat, "it begins as %s does, and cannot be read", k.name)
	case int64(c.Width)*int64(c.Height) > MaxPixels:
		return nil, fault("save it smaller: 1600 pixels across is enough for any page",
			"it has %d by %d pixels, and no more than %d million are unpacked", c.Width, c.Height, MaxPixels/1_000_000)
	}
	if each := k.memory(c, data); int64(c.Width)*int64(c.Height)*each > MaxMemory {
		return nil, fault("save it smaller, or with 8 bits a colour and without passes (interlacing)",
			"its %d by %d pixels would take %d MB unpacked, and no more than %d MB is given to a picture",
			c.Width, c.Height, int64(c.Width)*int64(c.Height)*each>>20, MaxMemory>>20)
	}
	raw, err := k.decode(data)
	if err != nil {
		return nil, fault(asWhat, "it is a broken %s: a part of it is missing or damaged", k.name)
	}
	if b := raw.Bounds(); int64(b.Dx())*int64(b.Dy()) > MaxPixels || b.Empty() {
		return nil, fault(asWhat, "it is a broken %s", k.name)
	}
	flat := turn(reduce(raw, MaxSide), k.turned(data))
	photo := k.photo
	if !photo && k.name == "WebP" && bytes.Contains(data[:min(len(data), 64)], []byte("VP8 ")) {
		photo = true
	}
	return encode(flat, photo)
}

// memory is the bytes a pixel takes while it is unpacked.
func (k kind) memory(c image.Config, data []byte) int64 {
	each := int64(4)
	switch c.ColorModel {
	case color.RGBA64Model, color.NRGBA64Model:
		each = 8
	case color.GrayModel:
		each = 1
	case color.Gray16Model:
		each = 2
	}
	const interlace = 28 // in the header of a PNG (ISO/IEC 15948, 11.2.2 IHDR; from memory)
	if k.name == "PNG" && len(data) > interlace && data[interlace] != 0 {
		each *= 2
	}
	return each
}

// reduce sets a picture on white, for paper is not seen through, and makes it
// smaller where a side is longer than most. It never makes it larger.
func reduce(raw image.Image, most int) *image.RGBA {
	b := raw.Bounds()
	w, h := fit(b.Dx(), b.Dy(), most)
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	if w == b.Dx() && h == b.Dy() {
		draw.Draw(out, out.Bounds(), raw, b.Min, draw.Over)
		return out
	}
	draw.CatmullRom.Scale(out, out.Bounds(), raw, b, draw.Over, nil)
	return out
}

// fit is a size with no side longer than most.
func fit(w, h, most int) (int, int) {
	long := max(w, h)
	if long <= most {
		return w, h
	}
	return max(1, w*most/long), max(1, h*most/long)
}

// encode writes a photograph as JPEG and a drawing as PNG, grey where it is grey.
func encode(img *image.RGBA, photo bool) (*Image, *Fault) {
	b := img.Bounds()
	out := &Image{Type: "png", Width: b.Dx(), Height: b.Dy()}
	var buf bytes.Buffer
	var err error
	if photo {
		out.Type = "jpeg"
		err = jpeg.Encode(&buf, img, &jpeg.Options{Quality: 92})
	} else {
		var what image.Image = img
		if g := grey(img); g != nil {
			what = g
		}
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&buf, what)
	}
	if err != nil {
		return nil, fault(asWhat, "it cannot be set")
	}
	out.Data = buf.Bytes()
	return out, nil
}

// grey is the picture in grey if it has no colour; else nil.
func grey(img *image.RGBA) *image.Gray {
	b := img.Bounds()
	out := image.NewGray(b)
	for i, j := 0, 0; i+3 < len(img.Pix); i, j = i+4, j+1 {
		if img.Pix[i] != img.Pix[i+1] || img.Pix[i] != img.Pix[i+2] {
			return nil
		}
		out.Pix[j] = img.Pix[i]
	}
	return out
}

// turn sets a picture upright, by the orientation that EXIF gives: 2 to 4 are
// mirrored or upside down, 5 to 8 lie on a side.
func turn(img *image.RGBA, how int) *image.RGBA {
	if how < 2 || how > 8 {
		return img
	}
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	ow, oh := w, h
	if how >= 5 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range oh {
		for x := range ow {
			sx, sy := x, y
			switch how {
			case 2:
				sx = w - 1 - x
			case 3:
				sx, sy = w-1-x, h-1-y
			case 4:
				sy = h - 1 - y
			case 5:
				sx, sy = y, x
			case 6:
				sx, sy = y, h-1-x
			case 7:
				sx, sy = w-1-y, h-1-x
			case 8:
				sx, sy = w-1-y, x
			}
			copy(out.Pix[out.PixOffset(x, y):][:4], img.Pix[img.PixOffset(sx, sy):][:4])
		}
	}
	return out
}
