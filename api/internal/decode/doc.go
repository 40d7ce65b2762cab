// Package decode makes a request of a body: it reads it strictly, checks it against its tags,
// and lists all that is wrong with its members at once.
package decode
