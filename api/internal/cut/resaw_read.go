package cut

import (
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// reading turns the words of a request for a plan into those of the chapters, and
// notes what stood in for what was not given.
type reading struct {
	t      *shelf.Tables
	report wire.Reporter
	bench  *shelf.Bench
	notes  *method.Notes
}

// place names a member of the request.
func place(list string, i int) string { return list + "/" + strconv.Itoa(i) }

// ids gives each entry of a list the id by which the answer calls it, and refuses an
// id that is taken.
type ids struct{ taken map[string]bool }

// of is the id of the i-th entry: its own, or its position.
func (n *ids) of(given string, i int, what string) (string, error) {
	if n.taken == nil {
		n.taken = map[string]bool{}
	}
	id := given
	if id == "" {
		id = strconv.Itoa(i + 1)
	}
	var err error
	if n.taken[id] {
		err = &method.Error{Code: method.Duplicate, Input: "id", Detail: "another " + what + " has the id " + id}
	}
	n.taken[id] = true
	return id, err
}

// called is what people call an entry: its name, its id, or what stands in.
func called(name, id, standIn string) string {
	switch {
	case name != "":
		return name
	case id != "":
		return id
	}
	return standIn
}
