package rack

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strconv"
	"time"

	"latewood/api/internal/rack/store"
	"latewood/woodphys/method"
)

// Keeping is what the rack knows of an entry besides what was sent.
type Keeping struct {
	Version   int64  `json:"version" required:"true" description:"1 when it was added, one more with each change"`
	Restores  *int64 `json:"restores_version,omitempty" description:"the version that an undo brought back; 0 where it took the adding back"`
	Removed   bool   `json:"removed,omitempty" description:"it was taken off the rack; an undo brings it back"`
	ChangedAt string `json:"changed_at" required:"true" description:"when this version was made, by the clock of the service, in UTC"`
	ChangedBy string `json:"changed_by,omitempty" description:"key id of the token that made it"`
	ETag      string `json:"etag" required:"true" description:"of this version, for If-Match"`
}

// Kept is one version of an entry: what was sent, byte for byte but for spaces, with what
// the rack knows of it.
type Kept struct {
	Keeping
	Warned
	body []byte
}

// Warned is what is odd about what was sent.
type Warned struct {
	Warnings []method.Warning `json:"warnings,omitempty" description:"what looks like a slip, in the answer to the request that sent it: it was kept as it was sent; and who still names an entry that was taken off. Not kept, and not told again"`
}

func kept(r *store.Record) *Kept {
	k := &Kept{Keeping: Keeping{Version: r.Version, Removed: r.Gone, ChangedAt: r.At.UTC().Format(time.RFC3339Nano), ChangedBy: r.By, ETag: tagOf(r)}, body: r.Body}
	if r.Restores != store.NoUndo {
		k.Restores = &r.Restores
	}
	return k
}

// Tag is the entity tag of the version.
func (k Keeping) Tag() string { return k.ETag }

// MarshalJSON is what was sent with the members of the keeping.
func (k *Kept) MarshalJSON() ([]byte, error) {
	text, err := json.Marshal(struct {
		Keeping
		Warned
	}{k.Keeping, k.Warned})
	if err != nil {
		return nil, err
	}
	text[len(text)-1] = ','
	return append(text, bytes.TrimLeft(bytes.TrimLeft(k.body, " \t\r\n")[1:], " \t\r\n")...), nil
}

// tagOf is the entity tag of a version: of no two versions it is the same, also not of
// those that were made from one backup.
func tagOf(r *store.Record) string {
	sum := sha256.New()
	for _, part := range []string{string(r.Kind), r.ID, strconv.FormatInt(r.Version, 10), strconv.FormatInt(r.At.UnixMicro(), 10), strconv.FormatBool(r.Gone)} {
		_, _ = sum.Write([]byte(part + "\x00"))
	}
	_, _ = sum.Write(r.Body)
	return `"` + hex.EncodeToString(sum.Sum(nil)[:12]) + `"`
}
