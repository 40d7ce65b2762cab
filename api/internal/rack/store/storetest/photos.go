package storetest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/rack/store"
)

// photoOf is a photo as it is sent.
func photoOf(key store.Key, body string) *store.Photo {
	p := &store.Photo{Key: key, By: "bench", Body: []byte(body)}
	if body != "" {
		p.Media = "image/png"
	}
	return p
}

// every version of every photo there is.
func every(t *testing.T, s store.Store) []store.Photo {
	t.Helper()
	var all []store.Photo
	require.NoError(t, s.EachPhoto(t.Context(), func(p *store.Photo) error {
		all = append(all, *p)
		return nil
	}))
	return all
}

func photos(t *testing.T, s store.Store) {
	_, err := s.PutPhoto(t.Context(), photoOf(walnut, "one"), &store.Seen{None: true})
	assert.Equal(t, store.NotFound, why(err), "of nothing")
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `{}`), Made(store.Piece, "leaf", walnut, `{}`)))
	_, err = s.Photo(t.Context(), walnut)
	assert.Equal(t, store.NotFound, why(err))

	one, err := s.PutPhoto(t.Context(), photoOf(walnut, "one"), &store.Seen{None: true})
	require.NoError(t, err)
	assert.Equal(t, int64(1), one.Version)
	assert.Equal(t, store.DigestOf([]byte("one")), one.Digest)
	again, err := s.PutPhoto(t.Context(), photoOf(walnut, "one"), &store.Seen{None: true})
	require.NoError(t, err, "sent twice")
	assert.Equal(t, int64(1), again.Version)
	for _, seen := range []store.Seen{{None: true}, {Digest: store.DigestOf([]byte("two"))}, {}} {
		_, err = s.PutPhoto(t.Context(), photoOf(walnut, "two"), &seen)
		assert.Equal(t, store.Stale, why(err))
	}
	two, err := s.PutPhoto(t.Context(), photoOf(walnut, "two"), &store.Seen{Digest: one.Digest})
	require.NoError(t, err)
	assert.Equal(t, int64(2), two.Version)
	leaf := store.Key{Kind: store.Piece, ID: "leaf"}
	_, err = s.PutPhoto(t.Context(), photoOf(leaf, "\x00\xff"), &store.Seen{None: true})
	require.NoError(t, err)
	got, err := s.Photo(t.Context(), leaf)
	require.NoError(t, err)
	assert.Equal(t, []byte("\x00\xff"), got.Body)
	current, err := s.Photos(t.Context())
	require.NoError(t, err)
	require.Len(t, current, 2)
	assert.Empty(t, current[0].Body)

	off, err := s.PutPhoto(t.Context(), photoOf(walnut, ""), &store.Seen{Any: true})
	require.NoError(t, err)
	assert.Equal(t, int64(3), off.Version)
	_, err = s.Photo(t.Context(), walnut)
	assert.Equal(t, store.NotFound, why(err))
	_, err = s.PutPhoto(t.Context(), photoOf(walnut, "three"), &store.Seen{Any: true})
	assert.Equal(t, store.Stale, why(err), "there is none any more")
	assert.Len(t, every(t, s), 4, "nothing is overwritten")

	all, err := s.Since(t.Context(), 0, 100)
	require.NoError(t, err)
	elsewhere := NewModel()
	require.NoError(t, elsewhere.Load(t.Context(), all, nil, every(t, s)))
	assert.Equal(t, every(t, s), every(t, elsewhere))

	if _, is := s.(*Model); is {
		return
	}
	for _, wrong := range []*store.Photo{photoOf(store.Key{Kind: store.Place, ID: "shed"}, "x"), {Key: walnut, Media: "image/png"}, {Key: walnut, Media: "image/png", Body: make([]byte, store.MostPhoto+1)}} {
		_, err = s.PutPhoto(t.Context(), wrong, &store.Seen{Any: true})
		assert.Equal(t, store.Malformed, why(err))
	}
}
