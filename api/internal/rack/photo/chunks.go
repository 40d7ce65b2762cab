package photo

import (
	"encoding/binary"
	"slices"
)

// Chunks that a picture needs to be shown: of PNG (ISO/IEC 15948) the critical ones and those
// of colours and size; of WebP (RFC 9649) all but Exif and XMP.
var (
	neededPNG  = []string{"IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT", "cICP", "pHYS"}
	neededWebP = []string{"VP8 ", "VP8L", "VP8X", "ALPH", "ANIM", "ANMF", "ICCP"}
)

const pngHead = 8

// barePNG keeps the chunks that the picture needs, to its end.
func barePNG(picture []byte) ([]byte, error) {
	out := append(make([]byte, 0, len(picture)), picture[:pngHead]...)
	for at := pngHead; ; {
		if len(picture)-at < 12 {
			return nil, errBroken
		}
		size, name := int64(binary.BigEndian.Uint32(picture[at:])), string(picture[at+4:at+8])
		if size > int64(len(picture)-at-12) {
			return nil, errBroken
		}
		end := at + 12 + int(size)
		if slices.Contains(neededPNG, name) {
			out = append(out, picture[at:end]...)
		}
		if at = end; name == "IEND" {
			return out, nil
		}
	}
}

const (
	webpHead = 12
	// hasXMP and hasExif are the flags of VP8X that say so.
	hasXMP, hasExif = 0x04, 0x08
)

// bareWebP keeps the chunks that the picture needs, and says that the others are not there.
func bareWebP(picture []byte) ([]byte, error) {
	whole := 8 + int64(binary.LittleEndian.Uint32(picture[4:]))
	if whole > int64(len(picture)) {
		return nil, errBroken
	}
	out := append(make([]byte, 0, len(picture)), picture[:webpHead]...)
	for at := webpHead; at < int(whole); {
		if int(whole)-at < 8 {
			return nil, errBroken
		}
		name, size := string(picture[at:at+4]), int64(binary.LittleEndian.Uint32(picture[at+4:]))
		size += size % 2 // chunks begin at even places
		if size > whole-int64(at)-8 {
			return nil, errBroken
		}
		end := at + 8 + int(size)
		if slices.Contains(neededWebP, name) {
			from := len(out)
			if out = append(out, picture[at:end]...); name == "VP8X" && size > 0 {
				out[from+8] &^= hasXMP | hasExif
			}
		}
		at = end
	}
	if len(out) == webpHead {
		return nil, errBroken
	}
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8)) // no longer than it was
	return out, nil
}
