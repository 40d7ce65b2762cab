package wire

import (
	"errors"

	"latewood/woodphys/method"
)

// Sent is what comes with a request about something that is kept, besides its body.
type Sent struct {
	ID     string            // in the path; empty for a whole collection
	Seen   []string          // entity tags that the sender saw; "*" is any
	Key    string            // made by the sender for this request alone; empty: none
	By     string            // key id of the sender; empty where no tokens are asked for
	Base   string            // how the service was called: https://host:port
	Digest [32]byte          // of all that was sent
	New    bool              // the sender saw that there was none
	Body   []byte            // as it was sent
	Media  string            // of a body that is no JSON
	Asked  map[string]string // parameters of the query
	Offset int               // of a page
	Limit  int
	Sheet  bool // the answer is a table: it holds all rows where no limit was asked for
}

// Refused says why something that is kept is not answered or changed as it was asked.
type Refused struct { //nolint:errname // it is told as a problem
	Why       RefusedFor
	Pointer   string // RFC 6901, into the body; empty for all of it
	Parameter string // of the path or the query, in place of Pointer
	Code      string // of the error; empty: none speaks of a member
	Detail    string
	Limit     *method.Limit // as that of a domain error
	Absent    Absent        // what is not there, where that is why
}

// Absent names an entry that is not there.
type Absent struct{ Kind, ID string }

func (r *Refused) Error() string { return string(r.Why) + ": " + r.Detail }

// RefusedFor is the kind of a refusal.
type RefusedFor string

// What is refused.
const (
	NotThere RefusedFor = "not there"        // there is no such entry
	Conflict RefusedFor = "conflict"         // it does not go with what is there
	Changed  RefusedFor = "changed"          // another version is there than was seen
	Unseen   RefusedFor = "unseen"           // the sender has to say which version it saw
	Wrong    RefusedFor = "wrong"            // the request is readable but cannot be carried out
	Unread   RefusedFor = "cannot be read"   // of a parameter or a header
	NoRoom   RefusedFor = "no room"          // as much is kept as may be
	Unfit    RefusedFor = "unfit"            // the body is of another form than it may be
	Failed   RefusedFor = "the rack is down" // the rack itself failed; it is worth sending again
)

// Bytes are an answer that is no JSON.
type Bytes struct {
	Media, ETag string
	Body        []byte
}

// Tag is its entity tag.
func (b *Bytes) Tag() string { return b.ETag }

// Tagged is an answer whose version has an entity tag.
type Tagged interface{ Tag() string }

// ErrBusy says that there is no room for a question just now.
var ErrBusy = errors.New("as much work as fits is under way")
