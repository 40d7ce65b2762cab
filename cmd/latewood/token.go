package main

import (
	"errors"
	"fmt"

	"latewood/api"
)

// token makes a token. The secret goes to standard error and the line for the
// tokens file to standard output, so that the line can be appended to the file and
// the secret cannot by mistake.
func (p *program) token(words []string) int {
	set := flags("token")
	if err := set.Parse(words); err != nil {
		return p.misused(err)
	}
	if set.NArg() < 1 || set.NArg() > 2 {
		return p.misused(errors.New("token takes one name, of the caller who gets it, and what it may do with a rack: read, weigh or all"))
	}
	secret, line, err := api.NewToken(set.Arg(0))
	if err != nil {
		return p.misused(err)
	}
	if set.NArg() == 2 {
		line += " " + set.Arg(1)
		if _, err := api.ParseKeys(line); err != nil {
			return p.misused(fmt.Errorf("a token may read, weigh or do all, not %q", set.Arg(1)))
		}
	}
	_, _ = fmt.Fprintf(p.stderr, "The token of %s, shown this once and kept nowhere:\n\n  %s\n\nThe line for the tokens file:\n\n", set.Arg(0), secret)
	p.print(line + "\n")
	return exitOK
}
