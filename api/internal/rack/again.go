package rack

import (
	"context"
	"slices"
	"strconv"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
)

// Back are the members that the rack adds to an entry: who reads one, changes it and sends it back
// may leave them in. They say which version was read, and change nothing.
type Back struct {
	Version   *int64       `json:"version,omitempty" validate:"omitempty,gte=1,lte=10000" description:"as it was read; sent back it changes nothing, and another value is refused. Left out: not compared"`
	Restores  *int64       `json:"restores_version,omitempty" validate:"omitempty,gte=0,lte=10000" description:"as version"`
	Removed   *bool        `json:"removed,omitempty" description:"as version"`
	ChangedAt string       `json:"changed_at,omitempty" validate:"max=64" description:"as version"`
	ChangedBy string       `json:"changed_by,omitempty" validate:"max=64" description:"as version"`
	ETag      string       `json:"etag,omitempty" validate:"max=64" description:"as version; If-Match is what names the version that is changed"`
	Warnings  []WarnedBack `json:"warnings,omitempty" validate:"max=10,dive" description:"those of an earlier answer; sent back they change nothing"`
}

// WarnedBack is a warning that comes back with its entry.
type WarnedBack struct {
	Code    string `json:"code" validate:"required,max=64" description:"as it was told"`
	Detail  string `json:"detail" validate:"required,max=2000" description:"as it was told"`
	Pointer string `json:"pointer,omitempty" validate:"max=500" description:"as it was told"`
}

func (b *Back) back() *Back { return b }

// Again is an entry that is sent in the place of one that was read.
type Again interface {
	Entered
	back() *Back
}

// keepingMembers are what the rack adds to an entry.
var keepingMembers = []string{"version", "restores_version", "removed", "changed_at", "changed_by", "etag", "warnings"}

// withoutKeeping is an entry as it is kept: without what the rack added to it.
func withoutKeeping(body []byte) ([]byte, error) {
	all, err := membersOf(body)
	if err != nil {
		return nil, err
	}
	var own []member
	for _, m := range all {
		if !slices.Contains(keepingMembers, m.name) {
			own = append(own, m)
		}
	}
	if len(own) == len(all) {
		return body, nil
	}
	return objectText(own)
}

// differs is a member that is not as the rack tells it of a version; empty for none.
func (b *Back) differs(k *Keeping) (member, told string) {
	number := func(v *int64) string {
		if v == nil {
			return "left out"
		}
		return strconv.FormatInt(*v, 10)
	}
	for _, one := range []struct {
		member, sent, is string
		given            bool
	}{
		{"version", number(b.Version), strconv.FormatInt(k.Version, 10), b.Version != nil},
		{"restores_version", number(b.Restores), number(k.Restores), b.Restores != nil},
		{"removed", strconv.FormatBool(b.Removed != nil && *b.Removed), strconv.FormatBool(k.Removed), b.Removed != nil},
		{"changed_at", b.ChangedAt, k.ChangedAt, b.ChangedAt != ""},
		{"changed_by", b.ChangedBy, k.ChangedBy, b.ChangedBy != ""},
		{"etag", b.ETag, k.ETag, b.ETag != ""},
	} {
		if one.given && one.sent != one.is {
			return one.member, one.is
		}
	}
	return "", ""
}

// ofVersion refuses what the rack tells of an entry where it comes back changed; seen is the
// version that the sender says it saw, and the answer is the one that it changes: where it says
// any, the one that came back.
func (r *Rack) ofVersion(ctx context.Context, key store.Key, b *Back, seen int64) (int64, error) {
	if b.Version == nil && b.Restores == nil && b.Removed == nil && b.ChangedAt == "" && b.ChangedBy == "" && b.ETag == "" {
		return seen, nil
	}
	all, err := r.store.History(ctx, key)
	if err != nil {
		return 0, told(err)
	}
	of := &all[len(all)-1]
	if v := b.Version; v != nil && *v >= 1 && *v <= int64(len(all)) {
		of = &all[*v-1]
	}
	is := kept(of).Keeping
	if member, told := b.differs(&is); member != "" {
		return 0, &wire.Refused{Why: wire.Wrong, Pointer: "/" + member, Code: "conflict",
			Detail: member + " is told by the rack and cannot be changed: it is " + told + "; send it as it is, or leave it out"}
	}
	now := all[len(all)-1].Version
	switch {
	case b.Version == nil || of.Version == now:
		return seen, nil
	case seen == now:
		return 0, &wire.Refused{Why: wire.Wrong, Pointer: "/version", Code: "conflict",
			Detail: "version is " + strconv.FormatInt(of.Version, 10) + ", and If-Match names version " + strconv.FormatInt(now, 10) + ": read the entry again, and change that"}
	}
	return of.Version, nil // which the store refuses, unless it knows the key of the request
}

// BilletAgain is a billet as it is sent in the place of one that was read.
type BilletAgain struct {
	Back
	BilletEntry
}

// ReadingAgain is a reading as it is sent in the place of one that was read.
type ReadingAgain struct {
	Back
	ReadingEntry
}

// EventAgain is an event as it is sent in the place of one that was read.
type EventAgain struct {
	Back
	EventEntry
}

// PlaceAgain is a place as it is sent in the place of one that was read.
type PlaceAgain struct {
	Back
	PlaceEntry
}

// PieceAgain is a piece as it is sent in the place of one that was read.
type PieceAgain struct {
	Back
	PieceEntry
}

// PlanAgain is a plan as it is sent in the place of one that was read.
type PlanAgain struct {
	Back
	PlanEntry
}

// StayAgain is a stay as it is sent in the place of one that was read.
type StayAgain struct {
	Back
	StayEntry
}

// TargetAgain is a target as it is sent in the place of one that was read.
type TargetAgain struct {
	Back
	TargetEntry
}

// NoteAgain is a note as it is sent in the place of one that was read.
type NoteAgain struct {
	Back
	NoteEntry
}
