package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"math"

	"github.com/go-pdf/fpdf"

	"tamis/render/draw"
	"tamis/render/raster"
)

// perInch is how fine a picture is printed: finer is not seen on paper.
const perInch = 200

// picture sets a picture. One that is set twice at one size goes in once. What
// is no picture leaves its place empty.
func (d *drawer) picture(o *draw.Picture) {
	pixels := func(pt float64) int { return int(math.Ceil(pt * perInch / 72)) }
	data, kind, err := raster.Fit(o.Of, pixels(o.W), pixels(o.H), o.Grey)
	if err != nil {
		return
	}
	sum := sha256.Sum256(data)
	name := hex.EncodeToString(sum[:])
	opt := fpdf.ImageOptions{ImageType: map[string]string{"png": "PNG", "jpeg": "JPG"}[kind]}
	d.f.RegisterImageOptionsReader(name, opt, bytes.NewReader(data))
	if d.f.Err() {
		d.f.ClearError()
		return
	}
	d.f.ImageOptions(name, o.X, o.Y, o.W, o.H, false, opt, 0, "")
}
