// Command translate turns requests of the drafts before the present language of the
// contract into it. The table of names stands in the folder renames; what is more than a name
// stands in the files shapes*.go. It is for who has requests of a draft; no release needs it.
//
//	go run ./testdata/translate request PATH < old > new     one request, of the old path
//	go run ./testdata/translate lines < old > new            a stream of items, one on each line
//	go run ./testdata/translate files PATH FILE...           files of requests, in place
//	go run ./testdata/translate corpus FILE...               seeds of fuzzing, in place
//	go run ./testdata/translate asked < old > new            requests of testdata/answers
package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

func main() {
	if err := run(os.Args[1:], os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "translate:", err)
		os.Exit(1)
	}
}

func run(words []string, in io.Reader, out io.Writer) error {
	text, err := renamesText()
	if err != nil {
		return err
	}
	t, err := tableOf(text)
	if err != nil {
		return err
	}
	switch {
	case len(words) == 2 && words[0] == "request":
		return whole(in, out, func(text []byte) []byte { return t.request(words[1], text, (*node).written) })
	case len(words) == 1 && words[0] == "lines":
		return whole(in, out, t.lines)
	case len(words) > 2 && words[0] == "files":
		return inPlace(words[2:], func(text []byte) []byte { return t.request(words[1], text, (*node).written) })
	case len(words) > 1 && words[0] == "corpus":
		return inPlace(words[1:], t.corpus)
	case len(words) == 1 && words[0] == "asked":
		return t.asked(in, out)
	}
	return errors.New("translate request PATH | lines | files PATH FILE... | corpus FILE... | asked")
}

func whole(in io.Reader, out io.Writer, turn func([]byte) []byte) error {
	text, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	_, err = out.Write(turn(text))
	return err
}

func inPlace(files []string, turn func([]byte) []byte) error {
	for _, file := range files {
		old, err := os.ReadFile(file) //nolint:gosec // the file is named on the command line
		if err != nil {
			return err
		}
		if err := os.WriteFile(file, turn(old), 0o644); err != nil { //nolint:gosec // committed, and read by all
			return err
		}
	}
	return nil
}

// asked turns the requests that testdata/answers has gathered.
func (t *table) asked(in io.Reader, out io.Writer) error {
	type request struct {
		Verb    string   `json:"verb"`
		Target  string   `json:"target"`
		Headers []string `json:"headers,omitempty"`
		Body    []byte   `json:"body,omitempty"`
	}
	from, to := json.NewDecoder(bufio.NewReader(in)), json.NewEncoder(out)
	for {
		var r request
		if err := from.Decode(&r); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
		switch {
		case slices.Contains(r.Headers, "application/x-ndjson") && strings.HasPrefix(r.Target, batchPath):
			r.Body = t.lines(r.Body)
		case len(r.Body) > 0:
			r.Body = t.request(r.Target, r.Body, func(n *node) []byte { return n.line(nil) })
		}
		r.Target = t.target(r.Target)
		if err := to.Encode(r); err != nil {
			return err
		}
	}
}

// Seeds of fuzzing hold texts and bytes, each quoted on a line of its own.
var (
	corpusPath = regexp.MustCompile(`(?m)^string\("(/v1/[a-z/-]+)`)
	corpusText = regexp.MustCompile(`(?m)^(\[\]byte|string)\((".*")\)$`)
)

// corpus turns a seed: its paths, and its requests as those of the path it names, or,
// where it names none, by the rules of every path.
func (t *table) corpus(text []byte) []byte {
	path := ""
	if found := corpusPath.FindSubmatch(text); found != nil {
		path = string(found[1])
	}
	return corpusText.ReplaceAllFunc(text, func(line []byte) []byte {
		parts := corpusText.FindSubmatch(line)
		old, err := strconv.Unquote(string(parts[2]))
		if err != nil {
			return line
		}
		turned := string(t.request(path, []byte(old), func(n *node) []byte { return n.line(nil) }))
		if len(old) > 0 && old[0] == '/' {
			turned = t.target(old)
		}
		return fmt.Appendf(nil, "%s(%s)", parts[1], strconv.Quote(turned))
	})
}
