// Package raster makes a picture the size that a page or a screen needs, as a
// file to be embedded.
package raster

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/draw"

	"tamis/compiler/sheets"
)

// Fit is a picture of at most w by h pixels, as a PNG or JPEG file; grey asks
// for no colour. It is never made larger than it is. kind is "png" or "jpeg".
// The error is of a picture whose data are no picture.
func Fit(p *sheets.Picture, w, h int, grey bool) (data []byte, kind string, err error) {
	img, _, err := image.Decode(bytes.NewReader(p.Data))
	if err != nil {
		return nil, "", fmt.Errorf("picture %s: %w", p.Name, err)
	}
	b := img.Bounds()
	tw, th := size(b.Dx(), b.Dy(), max(w, 1), max(h, 1))
	_, isGrey := img.(*image.Gray)
	if tw == b.Dx() && th == b.Dy() && (!grey || isGrey) {
		return p.Data, p.Type, nil
	}
	var out draw.Image
	if grey || isGrey {
		out = image.NewGray(image.Rect(0, 0, tw, th))
	} else {
		out = image.NewRGBA(image.Rect(0, 0, tw, th))
	}
	if tw == b.Dx() && th == b.Dy() {
		draw.Draw(out, out.Bounds(), img, b.Min, draw.Src)
	} else {
		draw.Draw(out, out.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
		draw.CatmullRom.Scale(out, out.Bounds(), img, b, draw.Over, nil)
	}
	var buf bytes.Buffer
	if p.Type == "jpeg" {
		err = jpeg.Encode(&buf, out, &jpeg.Options{Quality: 85})
	} else {
		err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&buf, out)
	}
	if err != nil {
		return nil, "", fmt.Errorf("picture %s: %w", p.Name, err)
	}
	return buf.Bytes(), p.Type, nil
}

// size is w by h made smaller, in proportion, to stand in a box.
func size(w, h, boxW, boxH int) (int, int) {
	if w <= boxW && h <= boxH {
		return w, h
	}
	if w*boxH > h*boxW {
		return boxW, max(1, h*boxW/w)
	}
	return max(1, w*boxH/h), boxH
}
