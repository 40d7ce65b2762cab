package species

// Checked says how a figure was verified against the publication its source
// names. It is the only authority on that.
type Checked string

// How a figure was verified, from the strongest to the weakest.
const (
	ReadAgreeing Checked = "read-agreeing" // read in a copy, and a second table that was read agrees
	Read         Checked = "read"          // read in a copy of the publication
	// ReadTranscript was read in one transcription of the publication, which names table and page.
	ReadTranscript Checked = "read-transcript"
	ReadByOrder    Checked = "read-by-order" // read in a copy with names and figures out of register; paired by row order
	Computed       Checked = "computed"      // computed here from figures that carry their own mark
	Derived        Checked = "derived"       // inverted from figures read in another table of the publication
	Secondary      Checked = "secondary"     // seen only in a repeat by a third party
	Inferred       Checked = "inferred"      // concluded from how figures fit together; stated nowhere that was read
	Disputed       Checked = "disputed"      // publications print different figures; the other stands beside it
	Memory         Checked = "memory"        // recalled from the publication or common knowledge; no copy was read
	Estimated      Checked = "estimated"     // follows from other figures by a published relation; printed nowhere

	// Practice marks a fact of the trade that no publication is named for.
	Practice Checked = "common-practice"
)

// Marks returns all marks, the strongest first.
func Marks() []Checked {
	return []Checked{ReadAgreeing, Read, ReadTranscript, ReadByOrder, Computed, Derived, Secondary, Inferred, Disputed,
		Memory, Estimated, Practice}
}

// Meaning returns one line for people, or "" for a mark that does not exist.
func (c Checked) Meaning() string {
	switch c {
	case ReadAgreeing:
		return "read in a copy of the publication, and a second table that was read agrees"
	case Read:
		return "read in a copy of the publication"
	case ReadTranscript:
		return "read in one transcription of the publication, which names table and page"
	case ReadByOrder:
		return "read in a copy that has names and figures out of register; paired by row order"
	case Computed:
		return "computed here from figures that carry their own mark"
	case Derived:
		return "not visible itself; inverted from figures read in another table of the publication"
	case Secondary:
		return "seen only in a repeat by a third party, not in the publication"
	case Inferred:
		return "concluded from how published figures fit together; stated nowhere that was read"
	case Disputed:
		return "publications print different figures; the other one stands beside it"
	case Estimated:
		return "follows from other figures of the wood by a published relation, within a band; printed nowhere"
	case Memory:
		return "recalled from memory; no copy was read"
	case Practice:
		return "common practice of the trade, no source; a starting value, not a standard"
	}
	return ""
}

// SeenInPrint reports whether the figure itself was read in a copy of the
// publication or in a transcription of it.
func (c Checked) SeenInPrint() bool {
	return c == ReadAgreeing || c == Read || c == ReadTranscript || c == ReadByOrder
}
