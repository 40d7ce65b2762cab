package api_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"net/http"
	"net/http/httptest"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
	"latewood/api/internal/serve"
)

const photoPath = "/v1/rack/billets/billet-1/photo"

// picture is one of so many pixels, as PNG.
func picture(t testing.TB, width int) []byte {
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, image.NewGray(image.Rect(0, 0, width, 2))))
	return out.Bytes()
}

// sending sends a body of bytes.
func sending(t testing.TB, s http.Handler, verb, target string, body []byte, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(verb, target, bytes.NewReader(body))
	for i := 0; i+1 < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	return w
}

// A photo is kept with the billet, seen before it is changed, sent as what it is, and taken
// off.
func TestPhotoOfABillet(t *testing.T) {
	for _, wood := range []string{"billets/billet-1", "pieces/piece-1"} {
		t.Run(wood, func(t *testing.T) { photoOf(t, "/v1/rack/"+wood) })
	}
}

func photoOf(t *testing.T, wood string) {
	t.Helper()
	s, photoPath := asking.FreshRack(t), wood+"/photo"
	put := func(body []byte, headers ...string) *httptest.ResponseRecorder {
		return sending(t, s, http.MethodPut, photoPath, body, append([]string{"Content-Type", "image/png"}, headers...)...)
	}
	assert.Equal(t, http.StatusNotFound, asking.Getting(photoPath).Of(t, s).Code)
	assert.Equal(t, http.StatusPreconditionRequired, put(picture(t, 3)).Code)
	first := put(picture(t, 3), "If-None-Match", "*")
	require.Equal(t, http.StatusOK, first.Code, first.Body.String())
	kept := asking.Decoded[rack.KeptPhoto](t, first.Body.Bytes())
	assert.Equal(t, "image/png", kept.Media)
	assert.Equal(t, kept.ETag, first.Header().Get("ETag"))
	assert.Equal(t, kept.ETag, put(picture(t, 3), "If-None-Match", "*").Header().Get("ETag"), "sent twice")

	got := asking.Getting(photoPath, "Accept", "image/avif,image/webp,*/*;q=0.8", "Accept-Encoding", "gzip").Of(t, s)
	assert.Equal(t, picture(t, 3), got.Body.Bytes())
	assert.Equal(t, "image/png", got.Header().Get("Content-Type"))
	assert.Equal(t, "nosniff", got.Header().Get("X-Content-Type-Options"))
	assert.Equal(t, kept.ETag, got.Header().Get("ETag"))
	assert.Contains(t, got.Header().Get("Content-Security-Policy"), "default-src 'none'")
	assert.Equal(t, http.StatusNotModified, asking.Getting(photoPath, "If-None-Match", kept.ETag).Of(t, s).Code)
	assert.Equal(t, http.StatusNotAcceptable, asking.Getting(photoPath, "Accept", "application/json").Of(t, s).Code)

	assert.Equal(t, http.StatusPreconditionFailed, put(picture(t, 4), "If-None-Match", "*").Code)
	assert.Equal(t, http.StatusPreconditionFailed, put(picture(t, 4), "If-Match", `"0123456789abcdef01234567"`).Code)
	second := put(picture(t, 4), "If-Match", kept.ETag)
	require.Equal(t, http.StatusOK, second.Code)
	_, card := right(t, s, asking.Getting(wood+"/card"))
	shown := asking.Decoded[rack.Card](t, []byte(card)).Standing.Photo
	require.NotNil(t, shown)
	assert.Equal(t, second.Header().Get("ETag"), shown.ETag)

	remove := func() int { return sending(t, s, http.MethodDelete, photoPath, nil, "If-Match", "*").Code }
	assert.Equal(t, http.StatusOK, remove())
	assert.Equal(t, http.StatusNotFound, asking.Getting(photoPath).Of(t, s).Code)
	assert.Equal(t, http.StatusPreconditionFailed, remove())
	assert.Equal(t, http.StatusNotFound, sending(t, s, http.MethodPut, path.Dir(wood)+"/none/photo", picture(t, 3), "Content-Type", "image/png", "If-None-Match", "*").Code)
}

// What is none, is called otherwise, is too long or of unknown length is refused; where the
// camera was is not kept.
func TestPhotoIsLookedAt(t *testing.T) {
	s, err := api.New(serve.Config{Version: "test", Rack: asking.Rack(), Upload: 3000})
	require.NoError(t, err)
	put := func(media string, body []byte) *httptest.ResponseRecorder {
		return sending(t, s, http.MethodPut, photoPath, body, "Content-Type", media, "If-None-Match", "*")
	}
	svg := []byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`)
	assert.Equal(t, http.StatusUnsupportedMediaType, put("image/svg+xml", svg).Code)
	assert.Equal(t, http.StatusUnsupportedMediaType, put("", picture(t, 3)).Code)
	assert.Equal(t, http.StatusUnprocessableEntity, put("image/png", svg).Code)
	wrong := put("image/jpeg", picture(t, 3))
	assert.Equal(t, http.StatusUnprocessableEntity, wrong.Code)
	assert.Contains(t, wrong.Body.String(), "the bytes are image/png")
	assert.Equal(t, http.StatusRequestEntityTooLarge, put("image/png", append(picture(t, 3), make([]byte, 3000)...)).Code)
	unknown := httptest.NewRequest(http.MethodPut, photoPath, io.MultiReader(bytes.NewReader(picture(t, 3))))
	unknown.Header.Set("Content-Type", "image/png")
	unknown.Header.Set("If-None-Match", "*")
	w := httptest.NewRecorder()
	s.ServeHTTP(w, unknown)
	assert.Equal(t, http.StatusBadRequest, w.Code)

	var plain bytes.Buffer
	require.NoError(t, jpeg.Encode(&plain, image.NewGray(image.Rect(0, 0, 8, 8)), nil))
	const position = "Exif\x00\x00 41.5N 70.2W"
	sent := append(append(plain.Bytes()[:2:2], 0xff, 0xe1, 0, byte(2+len(position))), position...)
	sent = append(sent, plain.Bytes()[2:]...)
	require.Equal(t, http.StatusOK, put("image/jpeg", sent).Code)
	assert.Equal(t, plain.Bytes(), asking.Getting(photoPath).Of(t, s).Body.Bytes())
	_, limits := right(t, s, asking.Getting("/v1/limits"))
	assert.Equal(t, 2, strings.Count(limits, `"body_bytes":3000`), "of billets and of pieces")
}

// A photo is in the document of the rack, byte for byte, and in a copy made of it.
func TestPhotoIsExported(t *testing.T) {
	one := asking.Rack()
	s, err := api.New(serve.Config{Version: "test", Rack: one})
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, sending(t, s, http.MethodPut, photoPath, picture(t, 3), "Content-Type", "image/png", "If-None-Match", "*").Code)
	two := opened(t, t.TempDir()+"/rack")
	require.NoError(t, two.Import(t.Context(), strings.NewReader(exported(t, one))))
	assert.Equal(t, exported(t, one), exported(t, two))
	elsewhere, err := api.New(serve.Config{Version: "test", Rack: two})
	require.NoError(t, err)
	assert.Equal(t, picture(t, 3), asking.Getting(photoPath).Of(t, elsewhere).Body.Bytes())
}

// An answer that was lost is given again: the same bytes are the same photo, whatever was seen
// before; a key for it is refused, and so is what cannot be shown.
func TestPhotoSentAgain(t *testing.T) {
	s, err := api.New(serve.Config{Version: "test", Rack: asking.Rack()})
	require.NoError(t, err)
	put := func(body []byte, headers ...string) *httptest.ResponseRecorder {
		return sending(t, s, http.MethodPut, photoPath, body, append([]string{"Content-Type", "image/png"}, headers...)...)
	}
	first := put(picture(t, 3), "If-None-Match", "*")
	require.Equal(t, http.StatusOK, first.Code, first.Body.String())
	second := put(picture(t, 4), "If-Match", first.Header().Get("ETag"))
	require.Equal(t, http.StatusOK, second.Code, second.Body.String())
	again := put(picture(t, 4), "If-Match", first.Header().Get("ETag"))
	assert.Equal(t, http.StatusOK, again.Code, again.Body.String())
	assert.Equal(t, second.Body.String(), again.Body.String())
	assert.Equal(t, http.StatusPreconditionFailed, put(picture(t, 5), "If-Match", first.Header().Get("ETag")).Code)
	assert.Equal(t, http.StatusPreconditionFailed, sending(t, s, http.MethodDelete, photoPath, nil, "If-Match", first.Header().Get("ETag")).Code)
	for _, keyed := range []*httptest.ResponseRecorder{put(picture(t, 4), "If-Match", "*", "Idempotency-Key", "k"), sending(t, s, http.MethodDelete, photoPath, nil, "If-Match", "*", "Idempotency-Key", "k")} {
		assert.Equal(t, "Idempotency-Key", asking.ProblemOf(t, keyed, http.StatusBadRequest).Errors[0].Parameter)
	}
	large := picture(t, 3)
	copy(large[16:24], []byte{0, 0, 0x75, 0x30, 0, 0, 0x75, 0x30}) // 30 000 by 30 000
	assert.Contains(t, asking.ProblemOf(t, put(large, "If-Match", "*"), http.StatusUnprocessableEntity).Detail, "50 million pixels")
}
