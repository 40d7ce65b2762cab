package shelf

import "strconv"

// IDOf is the id of an item of a list: the caller's own, or else its position from 1.
func IDOf(own string, i int) string {
	if own != "" {
		return own
	}
	return strconv.Itoa(i + 1)
}
