package api

import (
	"net/http"
	"strings"

	"latewood/api/internal/rack/store"
)

// nouns are what the contract calls the entries of a kind.
var nouns = map[store.Kind]struct{ one, many, holds string }{
	store.Billet:  {"a billet", "billets", "A billet is kept as the questions take it, with the place it lies in, the stays it has had and what it is to come to."},
	store.Reading: {"a reading", "readings", "A reading of any kind that the questions take, of a billet on the rack."},
	store.Event:   {"an event", "events", "What was done to a billet on a day: trimmed, planed, moved, resawn and the like."},
	store.Piece:   {"a piece", "pieces", "A leaf or an offcut is kept as a billet is, with what it was cut from and the leaf of the plan that it is."},
	store.Plan:    {"a plan", "plans", "How a billet is to be sawn: the saws and the parts that its plan is asked with."},
	store.Stay:    {"a stay", "stays", "A time that wood lay somewhere, from a day on until the next stay begins."},
	store.Target:  {"a target", "targets", "Something that the shop builds for, with what its wood is to come to."},
	store.Note:    {"a note", "notes", "A remark on anything else on the rack, or on the shop."},
	store.Place:   {"a place", "places", "A room or a corner of the shop, with its air where that is known."},
}

const (
	sentOnce = " Make the id, and an Idempotency-Key for the request, before you send it: sent twice, it is carried out once."
	asSeen   = " If-Match names the version you saw: what was changed since is left as it is. The earlier versions stay."
)

// wordedAs adds the words of an operation on the entries of a kind.
func wordedAs(kind store.Kind, id string) wording {
	n := nouns[kind]
	bare := n.one[strings.IndexByte(n.one, ' ')+1:]
	switch {
	case strings.HasSuffix(id, "Versions"):
		return wording{"Every version of " + n.one + " on the rack", "The first one first, also of one that was removed. Nothing is ever overwritten."}
	case strings.HasPrefix(id, "list"):
		return wording{"The " + n.many + " on the rack", "In order of their days, then of their ids. " + n.holds}
	case strings.HasPrefix(id, "add"):
		return wording{"Put " + n.one + " on the rack", n.holds + sentOnce}
	case strings.HasPrefix(id, "get"):
		return wording{"One " + bare + " on the rack", "Its current version, with the ETag by which a change names it; also of one that was removed."}
	case strings.HasPrefix(id, "replace"):
		return wording{"Change " + n.one + " on the rack", "Send the whole entry." + asSeen}
	case strings.HasPrefix(id, "patch"):
		return wording{"Change some members of " + n.one + " on the rack", "A merge patch (RFC 7396): members that are sent take the place of those that are there, null takes one off, all others stay. " +
			"What comes of it is checked as if all of it had been sent." + asSeen}
	case strings.HasPrefix(id, "remove"):
		return wording{"Take " + n.one + " off the rack", "What belongs to it stays, and undo brings it back." + asSeen}
	}
	return wording{"Take back the last change of " + n.one, "Brings an earlier version back as a new one. Undone again, it goes back one more; with to_version it goes where you say." + asSeen}
}

// photoWords are the words of an operation on the photo of wood.
func photoWords(one, method string) wording {
	switch method {
	case http.MethodPut:
		return wording{"Keep a photo of " + one,
			"The picture is the body: JPEG, PNG or WebP, by its bytes and not only by its Content-Type, at most as long as GET /v1/limits says (2 MB unless the operator says otherwise). " +
				"Position, time, camera, names, text and thumbnails are taken out before it is kept; which way up it was held stays. Earlier photos stay in the rack."}
	case http.MethodDelete:
		return wording{"Take the photo off " + one, "It stays in the rack, and in what is exported of it." + asSeen}
	}
	return wording{"The photo of " + one, "The picture itself, as it was sent but for what the camera wrote beside it."}
}

// rackWords are those of the operations that stand alone.
var rackWords = map[string]wording{
	"addWeighingDay": {
		"Keep all that was read on a weighing day",
		"Up to 500 readings of any billets on the rack, all of them or none: where one is wrong the answer says which. One weight of a piece a day, from the day of stacking to today." + sentOnce,
	},
	"getRackOverview": {
		"What is ready, what is next, what to weigh",
		"Of all billets and pieces that are there: what is ready now and for which step, what is ready next and when, what to read next and what to " +
			"expect, and which readings contradict each other; limit and offset hold for each of the lists. Answers that are not known yet are worked out meanwhile and kept until what they rest on " +
			"changes; those of before stand in their place until then. Also as a table, a drawing and a page to print.",
	},
	"getWeighingList": {
		"What to weigh, and what the scale will show",
		"All wood that is there, in the order in which it lies, with its last weight and the one to be expected on a day, so that a slip is seen at the scale. " +
			"Keep it on the phone: it is as good without a signal. Also as a table and as a page to print.",
	},
	"getRackProgress": {
		"How far the answers of the overview are",
		"Starts what is not known yet. As server-sent events: an event progress with each change, and an event done at the end.",
	},
	"getRackCalendar": {
		"What is to be read and what will be ready, by day",
		"What the overview tells of the days to come. As a calendar (RFC 5545) that a phone subscribes to: GET /v1/rack/calendar.ics is the same for programs that " +
			"say nothing of forms.",
	},
	"listLabels": {
		"Labels for the wood on the rack",
		"Each with a QR code that leads to the card of its wood. As a page to print.",
	},
	"getBilletCard": {
		"What is known of one billet",
		"What the overview tells of it, with its last readings and events, by its id in any case: a label may have it in capitals. Also as a page for a phone.",
	},
	"getPieceCard": {
		"What is known of one piece",
		"What the overview tells of it, with its last readings and events, by its id in any case: a label may have it in capitals. Also as a page for a phone.",
	},
	"addSheet": {
		"Put the rows of a spreadsheet on the rack",
		"Up to 1000 entries of one kind. Each row that cannot be taken is told with its number, and then nothing is taken, or the other rows on wish. " +
			"GET of a list with Accept: text/csv gives such a sheet." + sentOnce,
	},
	"addCutting": {
		"Keep what came of wood that was sawn up",
		"The event and the pieces, all of it or nothing: each piece keeps what it was cut from." + sentOnce,
	},
	"compareResawTimingOfBillet": {
		"Saw this billet on the rack now, or dry it whole",
		"The answer of /v1/resaw-timing for a billet as it is today, by what its readings taught, and where it goes on lying.",
	},
	"planResawOfBillet": {
		"How many sets this billet on the rack yields",
		"The answer of /v1/resaw-plan for one billet, with saws and parts of the request, of a plan on the rack, or of what it is kept for.",
	},
	"calculateMovementOfBillet": {
		"How far this billet on the rack will move",
		"The answer of /v1/movement for one of its sizes, from what its readings say it holds today to what it is to come to.",
	},
	"assessReadinessOfPiece": {
		"Is this piece on the rack ready",
		"The answer of /v1/readiness for a piece and its readings as they are kept.",
	},
	"assessReadinessOfBillet": {
		"Is this billet on the rack ready",
		"The answer of /v1/readiness for a billet and its readings as they are kept. Errors that point at the billet or " +
			"its readings speak of what is kept.",
	},
}
