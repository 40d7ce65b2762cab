package rack

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	"latewood/api/internal/rack/photo"
	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// KeptPhoto is what the rack knows of a photo.
type KeptPhoto struct {
	ETag      string `json:"etag" required:"true" description:"of the photo, for If-Match and If-None-Match"`
	Media     string `json:"media_type" required:"true" enum:"image/jpeg,image/png,image/webp" description:"of the photo"`
	Bytes     int64  `json:"bytes" required:"true" description:"its length"`
	ChangedAt string `json:"changed_at" required:"true" description:"when it was put there, by the clock of the service, in UTC"`
	ChangedBy string `json:"changed_by,omitempty" description:"key id of the token that did it"`
}

// RemovedPhoto is what is told of a photo that was taken off.
type RemovedPhoto struct {
	ChangedAt string `json:"changed_at" required:"true" description:"when it was taken off, by the clock of the service, in UTC"`
	ChangedBy string `json:"changed_by,omitempty" description:"key id of the token that did it"`
}

// Tag is the entity tag of the photo.
func (k KeptPhoto) Tag() string { return k.ETag }

func photoKept(p *store.Photo) *KeptPhoto {
	return &KeptPhoto{ETag: photoTag(p), Media: p.Media, Bytes: p.Size, ChangedAt: p.At.UTC().Format(time.RFC3339Nano), ChangedBy: p.By}
}

// photoTag is the entity tag of a photo: of its bytes. Empty for none.
func photoTag(p *store.Photo) string {
	if p.Digest == "" {
		return ""
	}
	return `"` + p.Digest[:24] + `"`
}

// PutPhoto keeps a photo of the wood of the path.
func PutPhoto(kind store.Kind) func(context.Context, *Rack, *shelf.Tables, *wire.Sent) (*KeptPhoto, error) {
	return func(ctx context.Context, r *Rack, _ *shelf.Tables, s *wire.Sent) (*KeptPhoto, error) {
		key, err := keyOf(kind, s)
		if err != nil {
			return nil, err
		}
		if err := noKey(s); err != nil {
			return nil, err
		}
		media, bare, err := photo.Bare(s.Body)
		if err != nil || media != s.Media {
			return nil, notAPhoto(s, media, err)
		}
		seen, err := r.sawPhoto(ctx, key, s, store.DigestOf(bare))
		if err != nil {
			return nil, err
		}
		done, err := r.store.PutPhoto(ctx, &store.Photo{Key: key, Media: media, By: s.By, Body: bare}, seen)
		if err != nil {
			return nil, toldPhoto(err)
		}
		return photoKept(&done), nil
	}
}

// notAPhoto says what is wrong with what was sent as one.
func notAPhoto(s *wire.Sent, media string, err error) error {
	switch {
	case !slices.Contains(photo.Media, s.Media):
		return &wire.Refused{Why: wire.Unfit, Parameter: "Content-Type", Code: "not_a_choice", Limit: method.OneOf(photo.Media...), Detail: "send the picture itself, with Content-Type: " + strings.Join(photo.Media, ", ")}
	case err != nil:
		return &wire.Refused{Why: wire.Wrong, Code: "invalid_format", Detail: err.Error()}
	}
	return &wire.Refused{Why: wire.Wrong, Parameter: "Content-Type", Code: "conflict", Detail: "the bytes are " + media + ", and Content-Type says " + wire.Clipped(s.Media)}
}

// noKey refuses a key: the bytes of a photo say whether it is sent again.
func noKey(s *wire.Sent) error {
	if s.Key == "" {
		return nil
	}
	return &wire.Refused{Why: wire.Unread, Parameter: idempotencyKey, Code: "not_supported", Detail: "a photo takes no Idempotency-Key: the same one sent again changes nothing"}
}

// sawPhoto is what the sender says it saw. One that sends what is there already had its answer
// lost, whatever it saw before.
func (r *Rack) sawPhoto(ctx context.Context, key store.Key, s *wire.Sent, sends string) (*store.Seen, error) {
	switch {
	case s.New && len(s.Seen) > 0: // both cannot be
		return nil, changedPhoto()
	case s.New:
		return &store.Seen{None: true}, nil
	case slices.Contains(s.Seen, "*"):
		return &store.Seen{Any: true}, nil
	case len(s.Seen) == 0:
		return nil, &wire.Refused{Why: wire.Unseen, Parameter: ifMatch, Code: "missing", Detail: "say what you saw: If-Match with the ETag of the photo, or * for any, or If-None-Match: * where there was none"}
	}
	now, err := r.store.Photo(ctx, key)
	if err != nil {
		return nil, told(err)
	}
	if now.Digest != sends && !slices.Contains(s.Seen, photoTag(&now)) {
		return nil, changedPhoto()
	}
	return &store.Seen{Digest: now.Digest}, nil
}

func changedPhoto() error {
	return &wire.Refused{Why: wire.Changed, Parameter: ifMatch, Code: "conflict", Detail: "the photo is another one than you saw, or there is none: look at it, and change that"}
}

// toldPhoto words what the store refuses of a photo.
func toldPhoto(err error) error {
	var refused *wire.Refused
	if err = told(err); errors.As(err, &refused) && refused.Why == wire.Changed {
		return changedPhoto()
	}
	return err
}

// GetPhoto is the photo of the wood of the path.
func GetPhoto(ctx context.Context, r *Rack, kind store.Kind, s *wire.Sent) (*wire.Bytes, error) {
	key, err := keyOf(kind, s)
	if err != nil {
		return nil, err
	}
	p, err := r.store.Photo(ctx, key)
	if err != nil {
		return nil, noPhoto(err)
	}
	return &wire.Bytes{Media: p.Media, ETag: photoTag(&p), Body: p.Body}, nil
}

// noPhoto words that there is none.
func noPhoto(err error) error {
	var refused *wire.Refused
	if err = told(err); errors.As(err, &refused) && refused.Why == wire.NotThere {
		refused.Detail = "there is no photo of " + strings.TrimSuffix(refused.Detail, " is not on the rack")
		refused.Absent = wire.Absent{} // others have another one
	}
	return err
}

// RemovePhoto takes the photo off the wood of the path; the store keeps it.
func RemovePhoto(ctx context.Context, r *Rack, kind store.Kind, s *wire.Sent) (*RemovedPhoto, error) {
	key, err := keyOf(kind, s)
	if err != nil {
		return nil, err
	}
	if err := noKey(s); err != nil {
		return nil, err
	}
	s.New = s.New && len(s.Seen) > 0 // there has to be one
	seen, err := r.sawPhoto(ctx, key, s, "")
	if err != nil {
		return nil, noPhoto(err)
	}
	done, err := r.store.PutPhoto(ctx, &store.Photo{Key: key, By: s.By}, seen)
	if err != nil {
		return nil, toldPhoto(err)
	}
	now := photoKept(&done)
	return &RemovedPhoto{now.ChangedAt, now.ChangedBy}, nil
}

// photos are the photos of all wood.
func (r *Rack) photos(ctx context.Context) (map[store.Key]*KeptPhoto, error) {
	all, err := r.store.Photos(ctx)
	if err != nil {
		return nil, err
	}
	of := map[store.Key]*KeptPhoto{}
	for i := range all {
		of[all[i].Key] = photoKept(&all[i])
	}
	return of, nil
}
