package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// MostPixels is how many a picture may have, in millions. Own choice: what phones take fits,
// and a page that shows one needs 200 MB for it.
const MostPixels = 50

// errSize is told of a picture that cannot be shown, or only with more memory than a phone has.
var errSize = errors.New("the picture is at least one pixel wide and high, and has at most 50 million pixels; send a smaller one")

// fits is how many pixels the head of a picture tells; too many, or none, are refused.
func fits(media string, picture []byte) (pixels int64, err error) {
	width, height, told := map[string]func([]byte) (int64, int64, bool){JPEG: sizeJPEG, PNG: sizePNG, WebP: sizeWebP}[media](picture)
	switch {
	case !told:
		return 0, errBroken
	case width < 1 || height < 1 || width > MostPixels*1_000_000/height:
		return 0, errSize
	}
	return width * height, nil
}

// sizePNG is what IHDR says, which comes first.
func sizePNG(picture []byte) (width, height int64, told bool) {
	const head = 8 + 8 + 13
	if len(picture) < head || !bytes.Equal(picture[8:16], []byte("\x00\x00\x00\x0dIHDR")) {
		return 0, 0, false
	}
	return int64(binary.BigEndian.Uint32(picture[16:])), int64(binary.BigEndian.Uint32(picture[20:])), true
}

// sizeJPEG is what the head of the frame says (ITU-T T.81, B.2.2): the segments before it were
// read once and are whole.
func sizeJPEG(picture []byte) (width, height int64, told bool) {
	for at := 2; at+9 <= len(picture); {
		marker := picture[at+1]
		if marker == startOfScan || marker == endOfImage {
			break
		}
		if isFrame(marker) {
			return int64(binary.BigEndian.Uint16(picture[at+7:])), int64(binary.BigEndian.Uint16(picture[at+5:])), true
		}
		at += 2 + int(binary.BigEndian.Uint16(picture[at+2:]))
	}
	return 0, 0, false
}

// isFrame reports the marker of a frame: SOF0 to SOF15 without the tables among them.
func isFrame(marker byte) bool {
	return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc
}

// sizeWebP is what the first chunk says (RFC 9649, 2.5 to 2.7).
func sizeWebP(picture []byte) (width, height int64, told bool) {
	if len(picture) < webpHead+8+10 {
		return 0, 0, false
	}
	body := picture[webpHead+8:]
	switch string(picture[webpHead : webpHead+4]) {
	case "VP8X": // less one, in three bytes each
		return 1 + int64(binary.LittleEndian.Uint32(body[3:])>>8), 1 + int64(binary.LittleEndian.Uint32(body[6:])>>8), true
	case "VP8L": // less one, in 14 bits each
		bits := binary.LittleEndian.Uint32(body[1:])
		return 1 + int64(bits&0x3fff), 1 + int64(bits>>14&0x3fff), body[0] == 0x2f
	case "VP8 ": // behind the tag and the start code, in 14 bits each
		return int64(binary.LittleEndian.Uint16(body[6:]) & 0x3fff), int64(binary.LittleEndian.Uint16(body[8:]) & 0x3fff), bytes.Equal(body[3:6], []byte("\x9d\x01\x2a"))
	}
	return 0, 0, false
}
