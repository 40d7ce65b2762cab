package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image/jpeg"
	"io"
	"sync"

	"golang.org/x/image/vp8"
	"golang.org/x/image/vp8l"
)

// mostDecoded is how many bytes the pixels of a picture may take that is decoded to see whether it
// can be shown; of a larger one the parts are looked at alone. Own choice: a phone's usual picture
// of 12 megapixels takes 18 to 100 MB.
const mostDecoded = 100 << 20

// bytesPerPixel are what a decoder needs at most: of a JPEG that is built up in passes the
// coefficients of three full planes beside the planes, of a WebP four planes twice.
var bytesPerPixel = map[string]int64{JPEG: 15, WebP: 8}

// decoding lets one picture be decoded at a time.
var decoding sync.Mutex

// whole refuses a picture that no program can show, of a size that fits.
func whole(media string, picture []byte, pixels int64) error {
	switch {
	case media == PNG:
		return wholePNG(picture)
	case media == JPEG && !hasJPEG(picture):
		return errBroken
	case pixels*bytesPerPixel[media] > mostDecoded:
		return nil
	}
	decoding.Lock()
	defer decoding.Unlock()
	if media == WebP {
		return wholeWebP(picture)
	}
	_, err := jpeg.Decode(bytes.NewReader(picture))
	var unsupported jpeg.UnsupportedError // others may show it
	if err != nil && !errors.As(err, &unsupported) {
		return errBroken
	}
	return nil
}

// wholeWebP refuses a picture whose pixels cannot be read. Those of a moving picture are looked for
// alone: no decoder here reads them.
func wholeWebP(picture []byte) (err error) {
	defer func() {
		if recover() != nil { // what a decoder does not survive no one has to look at
			err = errBroken
		}
	}()
	for at := webpHead; at+8 <= len(picture); {
		size := int(binary.LittleEndian.Uint32(picture[at+4:]))
		body := picture[at+8 : min(at+8+size, len(picture))]
		switch string(picture[at : at+4]) {
		case "ANMF":
			return nil
		case "VP8L":
			_, err = vp8l.Decode(bytes.NewReader(body))
			return broken(err)
		case "VP8 ":
			d := vp8.NewDecoder()
			d.Init(bytes.NewReader(body), len(body))
			if _, err = d.DecodeFrameHeader(); err == nil {
				_, err = d.DecodeFrame()
			}
			return broken(err)
		}
		at += 8 + size + size%2
	}
	return errBroken
}

// broken words what a decoder says.
func broken(err error) error {
	if err != nil {
		return errBroken
	}
	return nil
}

// hasJPEG reports a picture with tables of quantisation and a scan (ITU-T T.81, B.2).
func hasJPEG(picture []byte) bool {
	tables := false
	for at := 2; at+4 <= len(picture); {
		switch picture[at+1] {
		case quantTables:
			tables = true
		case startOfScan:
			return tables
		case endOfImage:
			return false
		}
		at += 2 + int(binary.BigEndian.Uint16(picture[at+2:]))
	}
	return false
}

// quantTables is the marker of the tables of quantisation.
const quantTables = 0xdb

// wholePNG refuses a picture (ISO/IEC 15948) of which a chunk is not what its sum says, or whose
// pixels are not all there; they are counted as they come, and not kept.
func wholePNG(picture []byte) error {
	var head, pixels []byte
	palette := false
	for at := pngHead; at+12 <= len(picture); {
		size := int(binary.BigEndian.Uint32(picture[at:]))
		end := at + 12 + size
		if crc32.ChecksumIEEE(picture[at+4:end-4]) != binary.BigEndian.Uint32(picture[end-4:]) {
			return errBroken
		}
		switch body := picture[at+8 : end-4]; string(picture[at+4 : at+8]) {
		case "IHDR":
			head = body
		case "PLTE":
			palette = true
		case "IDAT":
			pixels = append(pixels, body...)
		}
		at = end
	}
	if len(head) != 13 {
		return errBroken
	}
	most, is := bytesPNG(head)
	if !is || head[9] == 3 && !palette {
		return errBroken
	}
	in, err := zlib.NewReader(bytes.NewReader(pixels))
	if err != nil {
		return errBroken
	}
	// The sum at the end is checked where there is no more to come.
	if _, err := io.CopyN(io.Discard, in, most); err != nil {
		return errBroken
	}
	if n, err := in.Read(make([]byte, 1)); n == 0 && err != io.EOF {
		return errBroken
	}
	return nil
}

// channelsPNG are those of each type of colour.
var channelsPNG = map[byte]int64{0: 1, 2: 3, 3: 1, 4: 2, 6: 4}

// bytesPNG is how many bytes the pixels take that IHDR tells of, each row with its filter; in seven
// passes where they are interlaced (ISO/IEC 15948, 8.2).
func bytesPNG(head []byte) (bytes int64, is bool) {
	width, height := int64(binary.BigEndian.Uint32(head)), int64(binary.BigEndian.Uint32(head[4:]))
	channels, known := channelsPNG[head[9]]
	bits := int64(head[8])
	if !known || bits != 1 && bits != 2 && bits != 4 && bits != 8 && bits != 16 || head[10] != 0 || head[11] != 0 || head[12] > 1 {
		return 0, false
	}
	rows := func(width, height int64) int64 {
		if width == 0 || height == 0 {
			return 0
		}
		return height * (1 + (width*channels*bits+7)/8)
	}
	if head[12] == 0 {
		return rows(width, height), true
	}
	for _, pass := range [][4]int64{{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}} {
		bytes += rows((width-pass[0]+pass[2]-1)/pass[2], (height-pass[1]+pass[3]-1)/pass[3])
	}
	return bytes, true
}
