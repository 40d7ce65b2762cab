package main

import (
	"errors"
	"io"
	"net/http"
	"os"
	"strings"

	"latewood/api"
)

// maxFile is the longest request read from a file; the service's own limit on
// a body is lower and gives the clearer problem.
const maxFile = 8 << 20

func (p *program) ask(words []string) int {
	set := flags("ask")
	accept := set.String("accept", "", "")
	if err := set.Parse(words); err != nil {
		return p.misused(err)
	}
	if set.NArg() < 1 || set.NArg() > 2 {
		return p.misused(errors.New("ask takes a route and a file"))
	}
	path := set.Arg(0)
	if !strings.HasPrefix(path, "/") {
		path = "/v1/" + path
	}
	service, err := api.New(api.Config{Version: version, Licences: notice})
	if err != nil {
		p.complain(err)
		return exitProblem
	}
	method, body := http.MethodGet, []byte(nil)
	if api.TakesBody(path) {
		method = http.MethodPost
		if body, err = p.read(set.Arg(1)); err != nil {
			p.complain(err)
			return exitUsage
		}
	}
	status, reply := service.Ask(method, path, *accept, body)
	if _, err := p.stdout.Write(reply); err != nil {
		return exitProblem
	}
	if status != http.StatusOK {
		return exitProblem
	}
	return exitOK
}

func (p *program) read(file string) ([]byte, error) {
	if file == "" || file == "-" {
		return io.ReadAll(io.LimitReader(p.stdin, maxFile))
	}
	f, err := os.Open(file) //nolint:gosec // the file the caller named is the point of the command
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read from
	return io.ReadAll(io.LimitReader(f, maxFile))
}
