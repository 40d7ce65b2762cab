package wire

// Joined says which members of an object go together, for the contract. What is wrong
// with a request the service says in its own words.
type Joined struct {
	OneOf    [][]string          // just one of these sets of members is given
	AnyOf    [][]string          // one of these sets of members is given, or several
	Needs    map[string][]string // a member needs all of these
	NeedsAny map[string][]string // a member needs one of these
	NotAll   [][]string          // never all of these
}

// Joins is an object some of whose members go together.
type Joins interface{ Joins() Joined }
