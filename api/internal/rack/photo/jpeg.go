package photo

import (
	"bytes"
	"encoding/binary"
)

// Markers of JPEG (ITU-T T.81, table B.1).
const (
	startOfImage, endOfImage, startOfScan = 0xd8, 0xd9, 0xda
	firstRestart, lastRestart             = 0xd0, 0xd7
	firstApp, exifApp, iccApp, adobeApp   = 0xe0, 0xe1, 0xe2, 0xee
	lastApp, comment                      = 0xef, 0xfe
)

// bareJPEG keeps the segments that the pixels need, the profile of the colours, and of what
// the camera wrote which way up it was held.
func bareJPEG(picture []byte) ([]byte, error) {
	out := append(make([]byte, 0, len(picture)), 0xff, startOfImage)
	upright := false
	for at := 2; ; {
		for at < len(picture) && picture[at] == 0xff && at+1 < len(picture) && picture[at+1] == 0xff {
			at++ // fill bytes
		}
		if at+1 >= len(picture) || picture[at] != 0xff {
			return nil, errBroken
		}
		marker := picture[at+1]
		if marker == endOfImage {
			return append(out, 0xff, endOfImage), nil // what follows is no part of it
		}
		if at+4 > len(picture) {
			return nil, errBroken
		}
		end := at + 2 + int(binary.BigEndian.Uint16(picture[at+2:]))
		if end < at+4 || end > len(picture) {
			return nil, errBroken
		}
		segment := picture[at:end]
		if way := orientation(segment); way > 1 && !upright {
			out, upright = append(out, orientedBy(way)...), true
		}
		if neededJPEG(marker, segment[4:]) {
			out = append(out, segment...)
		}
		if at = end; marker == startOfScan {
			at = scanEnd(picture, end)
			out = append(out, picture[end:at]...)
		}
	}
}

// bareJFIF is the length of what JFIF says without a thumbnail.
const bareJFIF = 14

// neededJPEG reports a segment without which the picture looks otherwise.
func neededJPEG(marker byte, body []byte) bool {
	switch marker {
	case firstApp: // JFIF: its density; one with a thumbnail goes
		return bytes.HasPrefix(body, []byte("JFIF\x00")) && len(body) == bareJFIF
	case iccApp:
		return bytes.HasPrefix(body, []byte("ICC_PROFILE\x00"))
	case adobeApp: // how its colours are coded
		return bytes.HasPrefix(body, []byte("Adobe"))
	}
	return (marker < firstApp || marker > lastApp) && marker != comment
}

// scanEnd is where the coded pixels end: at the next marker that is no restart.
func scanEnd(picture []byte, at int) int {
	for ; at+1 < len(picture); at++ {
		if picture[at] != 0xff {
			continue
		}
		if next := picture[at+1]; next != 0 && next != 0xff && (next < firstRestart || next > lastRestart) {
			return at
		}
	}
	return len(picture)
}

// Of Exif (CIPA DC-008): its head, and the tag of the orientation.
const (
	exifHead       = "Exif\x00\x00"
	orientationTag = 0x0112
	shortType      = 3
)

// orientation is which way up a segment says the picture is, 1 to 8; 0 where it does not say.
func orientation(segment []byte) uint16 {
	if segment[1] != exifApp || !bytes.HasPrefix(segment[4:], []byte(exifHead)) {
		return 0
	}
	tiff := segment[4+len(exifHead):]
	var order binary.ByteOrder = binary.BigEndian
	if bytes.HasPrefix(tiff, []byte("II")) {
		order = binary.LittleEndian
	}
	if len(tiff) < 8 {
		return 0
	}
	first := uint64(order.Uint32(tiff[4:]))
	if first+2 > uint64(len(tiff)) {
		return 0
	}
	entries := tiff[first+2:]
	for range order.Uint16(tiff[first:]) {
		if len(entries) < 12 {
			return 0
		}
		if order.Uint16(entries) == orientationTag && order.Uint16(entries[2:]) == shortType {
			if way := order.Uint16(entries[8:]); way <= 8 {
				return way
			}
			return 0
		}
		entries = entries[12:]
	}
	return 0
}

// orientedBy is a segment of Exif that says which way up the picture is, and nothing else.
func orientedBy(way uint16) []byte {
	body := []byte(exifHead + "MM\x00\x2a\x00\x00\x00\x08\x00\x01") // one entry
	body = binary.BigEndian.AppendUint16(body, orientationTag)
	body = binary.BigEndian.AppendUint16(body, shortType)
	body = binary.BigEndian.AppendUint32(body, 1)
	body = binary.BigEndian.AppendUint16(body, way)
	body = append(body, 0, 0, 0, 0, 0, 0) // to four bytes; no further list
	segment := []byte{0xff, exifApp}
	segment = binary.BigEndian.AppendUint16(segment, uint16(2+len(body)))
	return append(segment, body...)
}
