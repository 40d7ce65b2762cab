// Package photo takes out of a picture all that is not the picture: where and when it was
// taken, with what and by whom.
package photo

import (
	"bytes"
	"errors"
)

// Media types of pictures.
const (
	JPEG = "image/jpeg"
	PNG  = "image/png"
	WebP = "image/webp"
)

// Media are all of them.
var Media = []string{JPEG, PNG, WebP}

// errBroken is told of what begins like a picture and goes on like none.
var errBroken = errors.New("the picture is cut off or damaged")

// errNone is told of what is no picture.
var errNone = errors.New("this is no JPEG, PNG or WebP picture")

// Bare is a picture by what its bytes are, whatever it was called, with only what it takes to
// show it: its pixels, its colours and which way up it is. Position, time, camera, names,
// thumbnails, text, and whatever follows its end are gone.
func Bare(picture []byte) (media string, bare []byte, err error) {
	switch {
	case bytes.HasPrefix(picture, []byte("\xff\xd8\xff")):
		media = JPEG
		bare, err = bareJPEG(picture)
	case bytes.HasPrefix(picture, []byte("\x89PNG\r\n\x1a\n")):
		media = PNG
		bare, err = barePNG(picture)
	case bytes.HasPrefix(picture, []byte("RIFF")) && len(picture) > webpHead && bytes.HasPrefix(picture[8:], []byte("WEBPVP8")):
		media = WebP
		bare, err = bareWebP(picture)
	default:
		err = errNone
	}
	if err == nil {
		var pixels int64
		if pixels, err = fits(media, bare); err == nil {
			err = whole(media, bare, pixels)
		}
	}
	return media, bare, err
}
