package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const secret = "41.5N 70.2W"

func drawn() image.Image {
	i := image.NewGray(image.Rect(0, 0, 24, 17))
	for n := range i.Pix {
		i.Pix[n] = byte(7 * n)
	}
	return i
}

func asJPEG(t testing.TB) []byte {
	var out bytes.Buffer
	require.NoError(t, jpeg.Encode(&out, drawn(), nil))
	return out.Bytes()
}

func segment(marker byte, body string) []byte {
	return append(binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(2+len(body))), body...)
}

// exif says a way up and a position, in either order of bytes.
func exif(order binary.AppendByteOrder, way uint16) []byte {
	head := "MM"
	if order.String() == "LittleEndian" {
		head = "II"
	}
	body := order.AppendUint16([]byte(exifHead+head), 42)
	body = order.AppendUint32(body, 8)
	body = order.AppendUint16(body, 2)
	for _, entry := range [][2]uint16{{0x010f, 7}, {orientationTag, way}} {
		body = order.AppendUint16(order.AppendUint16(body, entry[0]), shortType)
		body = order.AppendUint16(order.AppendUint32(body, 1), entry[1])
		body = append(body, 0, 0)
	}
	return segment(exifApp, string(body)+"\x00\x00\x00\x00"+secret)
}

// What a camera wrote beside the picture is gone; the pixels and which way up it is stay.
func TestBareJPEG(t *testing.T) {
	plain := asJPEG(t)
	for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
		sent := bytes.Join([][]byte{plain[:2], exif(order, 6), segment(exifApp, "http://ns.adobe.com/xap/1.0/\x00"+secret), segment(0xed, secret),
			segment(comment, secret), segment(iccApp, "ICC_PROFILE\x00\x01\x01x"), segment(iccApp, "MPF\x00"+secret), plain[2:], []byte("\xff\xd8 another picture "), []byte(secret)}, nil)
		media, bare, err := Bare(sent)
		require.NoError(t, err)
		assert.Equal(t, JPEG, media)
		assert.NotContains(t, string(bare), secret)
		assert.Contains(t, string(bare), "ICC_PROFILE")
		assert.Equal(t, uint16(6), orientation(bare[2:]), "which way up")
		is, err := jpeg.Decode(bytes.NewReader(bare))
		require.NoError(t, err)
		was, err := jpeg.Decode(bytes.NewReader(plain))
		require.NoError(t, err)
		assert.Equal(t, was, is)
		_, again, err := Bare(bare)
		require.NoError(t, err)
		assert.Equal(t, bare, again)
	}
	_, bare, err := Bare(append(plain[:2:2], append(exif(binary.BigEndian, 1), plain[2:]...)...))
	require.NoError(t, err)
	assert.NotContains(t, string(bare), "Exif", "upright as it is")
}

func chunk(name, body string) []byte {
	all := append(binary.BigEndian.AppendUint32(nil, uint32(len(body))), name+body...)
	return binary.BigEndian.AppendUint32(all, crc32.ChecksumIEEE(all[4:]))
}

func TestBarePNG(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, drawn()))
	plain := out.Bytes()
	const afterHead = pngHead + 25
	sent := bytes.Join([][]byte{plain[:afterHead], chunk("eXIf", secret), chunk("tEXt", "GPS\x00"+secret), chunk("tIME", "1234567"), plain[afterHead:], []byte(secret)}, nil)
	media, bare, err := Bare(sent)
	require.NoError(t, err)
	assert.Equal(t, PNG, media)
	assert.Equal(t, plain, bare)
}

// onePixel are the pixels of a picture of one, without losses.
const onePixel = "\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07"

func riff(chunks ...[]byte) []byte {
	body := append([]byte("WEBP"), bytes.Join(chunks, nil)...)
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

func piece(name, body string) []byte {
	all := append(binary.LittleEndian.AppendUint32([]byte(name), uint32(len(body))), body...)
	if len(body)%2 == 1 {
		all = append(all, 0)
	}
	return all
}

func TestBareWebP(t *testing.T) {
	pixels := piece("VP8L", onePixel)
	flags := func(f byte) []byte { return piece("VP8X", string([]byte{f})+"\x00\x00\x00\x17\x00\x00\x10\x00\x00") }
	sent := append(riff(flags(0x3c), pixels, piece("EXIF", secret), piece("XMP ", secret)), secret...)
	media, bare, err := Bare(sent)
	require.NoError(t, err)
	assert.Equal(t, WebP, media)
	assert.Equal(t, riff(flags(0x30), pixels), bare)
}

// Whatever is sent, nothing panics, and what comes out comes out again.
func FuzzBare(f *testing.F) {
	f.Add(asJPEG(f))
	f.Add(append(asJPEG(f)[:2:2], exif(binary.LittleEndian, 3)...))
	f.Add(riff(piece("VP8 ", "x"), piece("EXIF", secret)))
	var out bytes.Buffer
	require.NoError(f, png.Encode(&out, drawn()))
	f.Add(out.Bytes())
	f.Fuzz(func(t *testing.T, picture []byte) {
		media, bare, err := Bare(picture)
		if err != nil {
			return
		}
		again, twice, err := Bare(bare)
		require.NoError(t, err)
		require.Equal(t, media, again)
		require.Equal(t, bare, twice)
	})
}

func TestNoPicture(t *testing.T) {
	for _, sent := range []string{"", "x", "<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>", "GIF89a", "%PDF-1.7"} {
		_, _, err := Bare([]byte(sent))
		assert.ErrorIs(t, err, errNone, sent)
	}
	plain := asJPEG(t)
	for _, sent := range [][]byte{plain[:len(plain)-2], plain[:30], []byte("RIFF\xff\xff\xff\xffWEBPVP8 "), append([]byte("\x89PNG\r\n\x1a\n"), 0xff, 0xff, 0xff, 0xff)} {
		_, _, err := Bare(sent)
		assert.ErrorIs(t, err, errBroken)
	}
}

// The size that each form tells is read, and limited.
func TestSize(t *testing.T) {
	webp := func(name, body string) []byte {
		out := append([]byte("RIFF\x00\x00\x00\x00WEBP"), name...)
		out = append(binary.LittleEndian.AppendUint32(out, uint32(len(body))), body...)
		binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8))
		return out
	}
	var asPNG bytes.Buffer
	require.NoError(t, png.Encode(&asPNG, drawn()))
	progressive := bytes.Replace(asJPEG(t), []byte{0xff, 0xc0}, []byte{0xff, 0xc2}, 1)
	for _, c := range []struct {
		media string
		bytes []byte
	}{
		{JPEG, asJPEG(t)}, {JPEG, progressive}, {PNG, asPNG.Bytes()},
		{WebP, webp("VP8X", "\x00\x00\x00\x00\x17\x00\x00\x10\x00\x00")},
		{WebP, webp("VP8L", "\x2f\x17\x00\x04\x00\x00\x00\x00\x00\x00")},
		{WebP, webp("VP8 ", "\x00\x00\x00\x9d\x01\x2a\x18\x00\x11\x00")},
	} {
		width, height, told := map[string]func([]byte) (int64, int64, bool){JPEG: sizeJPEG, PNG: sizePNG, WebP: sizeWebP}[c.media](c.bytes)
		assert.Equal(t, []any{int64(24), int64(17), true}, []any{width, height, told}, "%s % x", c.media, c.bytes[:20])
		_, err := fits(c.media, c.bytes)
		assert.NoError(t, err)
	}
	sized := func(width, height uint32) error {
		picture := bytes.Clone(asPNG.Bytes())
		binary.BigEndian.PutUint32(picture[16:], width)
		binary.BigEndian.PutUint32(picture[20:], height)
		_, err := fits(PNG, picture)
		return err
	}
	assert.NoError(t, sized(10_000, 5_000))
	for _, wrong := range [][2]uint32{{10_001, 5_000}, {0, 5}, {5, 0}, {1 << 31, 1 << 31}} {
		assert.ErrorIs(t, sized(wrong[0], wrong[1]), errSize)
	}
	for _, cut := range [][]byte{webp("VP8 ", "short"), webp("VP8L", "no such picture"), []byte("\xff\xd8\xff\xd9"), []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x00IEND\x00\x00\x00\x00")} {
		_, _, err := Bare(cut)
		assert.ErrorIs(t, err, errBroken, "% x", cut)
	}
}

// What no program can show is refused: tables, scans, rows or sums that are missing or wrong.
func TestDamagedPictures(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, drawn()))
	asPNG, plain := out.Bytes(), asJPEG(t)
	head, end := asPNG[:pngHead+25], asPNG[len(asPNG)-12:]
	taller := bytes.Clone(asPNG)
	binary.BigEndian.PutUint32(taller[20:], 18)
	binary.BigEndian.PutUint32(taller[29:], crc32.ChecksumIEEE(taller[12:29]))
	flipped := bytes.Clone(asPNG)
	flipped[len(flipped)-14] ^= 1
	without := func(marker byte) []byte {
		cut := []byte{0xff, startOfImage}
		for at := 2; plain[at+1] != endOfImage; {
			end := at + 2 + int(binary.BigEndian.Uint16(plain[at+2:]))
			if plain[at+1] == startOfScan {
				end = len(plain) - 2
			}
			if plain[at+1] != marker {
				cut = append(cut, plain[at:end]...)
			}
			at = end
		}
		return append(cut, 0xff, endOfImage)
	}
	for name, sent := range map[string][]byte{
		"no pixels": bytes.Join([][]byte{head, end}, nil), "noise": bytes.Join([][]byte{head, chunk("IDAT", "noise"), end}, nil), "too few rows": taller, "sum": flipped,
		"no scan": without(startOfScan), "no tables": without(quantTables), "no codes": without(0xc4),
		"WebP": riff(piece("VP8L", onePixel[:7])), "no WebP": riff(piece("VP8X", "\x00\x00\x00\x00\x17\x00\x00\x10\x00\x00")),
	} {
		_, _, err := Bare(sent)
		assert.ErrorIs(t, err, errBroken, name)
	}
	for name, sent := range map[string][]byte{"PNG": asPNG, "JPEG": plain, "WebP": riff(piece("VP8L", onePixel))} {
		_, _, err := Bare(sent)
		assert.NoError(t, err, name)
	}
	interlaced := []byte("\x00\x00\x00\x05\x00\x00\x00\x03\x01\x00\x00\x00\x01") // 5 by 3, one bit
	n, is := bytesPNG(interlaced)
	assert.True(t, is)
	assert.Equal(t, int64(2+2+2+2+2*2+2), n, "passes 1, 2, 4, 5, 6, 7")
}
