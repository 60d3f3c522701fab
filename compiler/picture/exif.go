package picture

import (
	"bytes"
	"encoding/binary"
)

// Orientation is the only thing that is read of what a camera writes beside
// the pixels: tag 0x0112 of the first directory (CIPA DC-008, Exif 2.32, 4.6.4
// A; from memory). 1 is upright, and stands for whatever cannot be read.

// jpegOrientation looks in the APP1 segments before the pixels.
func jpegOrientation(b []byte) int {
	for i := 2; i+4 <= len(b) && b[i] == 0xff; {
		marker := b[i+1]
		if marker == 0xff { // padding
			i++
			continue
		}
		if marker == 0xda || marker == 0xd9 {
			return 1
		}
		n := int(binary.BigEndian.Uint16(b[i+2:]))
		if n < 2 || i+2+n > len(b) {
			return 1
		}
		if seg := b[i+4 : i+2+n]; marker == 0xe1 && bytes.HasPrefix(seg, []byte("Exif\x00\x00")) {
			return tiffOrientation(seg[6:])
		}
		i += 2 + n
	}
	return 1
}

// pngOrientation looks in the eXIf chunk (PNG, third edition, 11.3.4.2; from
// memory).
func pngOrientation(b []byte) int {
	for i := 8; i+8 <= len(b); {
		n := int64(binary.BigEndian.Uint32(b[i:]))
		if int64(i)+12+n > int64(len(b)) {
			return 1
		}
		if string(b[i+4:i+8]) == "eXIf" {
			return tiffOrientation(b[i+8 : i+8+int(n)])
		}
		i += 12 + int(n)
	}
	return 1
}

// webpOrientation looks in the EXIF chunk (WebP container, RIFF; from memory).
func webpOrientation(b []byte) int {
	for i := 12; i+8 <= len(b); {
		n := int64(binary.LittleEndian.Uint32(b[i+4:]))
		if int64(i)+8+n > int64(len(b)) {
			return 1
		}
		if string(b[i:i+4]) == "EXIF" {
			return tiffOrientation(bytes.TrimPrefix(b[i+8:i+8+int(n)], []byte("Exif\x00\x00")))
		}
		i += 8 + int(n) + int(n&1)
	}
	return 1
}

// tiffOrientation reads the tag in the first directory of a TIFF header.
func tiffOrientation(b []byte) int {
	var order binary.ByteOrder
	switch {
	case len(b) < 8:
		return 1
	case string(b[:2]) == "II":
		order = binary.LittleEndian
	case string(b[:2]) == "MM":
		order = binary.BigEndian
	default:
		return 1
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return 1
	}
	for i, n := at+2, int(order.Uint16(b[at:])); n > 0 && i+12 <= int64(len(b)); i, n = i+12, n-1 {
		if order.Uint16(b[i:]) != 0x0112 {
			continue
		}
		if v := int(order.Uint16(b[i+8:])); order.Uint16(b[i+2:]) == 3 && v >= 1 && v <= 8 {
			return v
		}
		return 1
	}
	return 1
}
