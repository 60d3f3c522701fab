package build

import (
	"bytes"
	"image"
	"image/color"
	"image/png"

	"rsc.io/qr"

	"tamis/compiler/sheets"
)

// quiet is the white round a QR code, in modules, and module the dots of one: four
// modules at least by ISO/IEC 18004 (from memory).
const (
	quietZone = 4
	module    = 8
)

// codeOf is an address as a QR code, of which up to 15 in 100 may be lost; nil where the
// address is too long for one.
func codeOf(address string) *sheets.Picture {
	code, err := qr.Encode(address, qr.M)
	if err != nil {
		return nil
	}
	side := (code.Size + 2*quietZone) * module
	img := image.NewPaletted(image.Rect(0, 0, side, side), color.Palette{color.Gray{Y: 255}, color.Gray{}})
	for y := range side {
		for x := range side {
			if code.Black(x/module-quietZone, y/module-quietZone) {
				img.SetColorIndex(x, y, 1)
			}
		}
	}
	var data bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&data, img); err != nil {
		return nil
	}
	return &sheets.Picture{Name: "code.png", Alt: "QR code of " + address, Type: "png", Data: data.Bytes(), Width: side, Height: side}
}
