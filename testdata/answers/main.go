// Command answers holds what the program answers today against what it answered
// before: for a change that is meant to change no answer, or only those it names.
//
//	go run ./testdata/answers collect [WALK] > requests
//	go run ./testdata/answers record PROGRAM requests > before
//	go run ./testdata/answers compare before after [TARGET]...
//
// collect gathers the examples, the demo and what fuzzing found, and adds the requests
// of WALK, which the tests write:
//
//	LATEWOOD_ASKED=WALK go test ./api/... -count=1
//
// (LATEWOOD_WALK=3000 sets how many of them the walk draws). record asks all of them
// of the built binary, one at a time, and writes a line for each answer. compare
// tells the answers that differ, but for targets that begin as one of those named; the
// exit status is 1 if any does.
//
// Left out of an answer: the id of the request, and the version of the tables.
package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"time"
)

// request is one line of what is asked.
type request struct {
	Verb    string   `json:"verb"`
	Target  string   `json:"target"`
	Headers []string `json:"headers,omitempty"` // name, value, name, value
	Body    []byte   `json:"body,omitempty"`
}

// answered is one line of what was answered.
type answered struct {
	request
	Status int    `json:"status"`
	Media  string `json:"media"`
	Answer []byte `json:"answer"`
}

func main() {
	words := os.Args[1:]
	var err error
	switch {
	case len(words) >= 1 && len(words) <= 2 && words[0] == "collect":
		err = collect(words[1:], os.Stdout)
	case len(words) == 3 && words[0] == "record":
		err = record(words[1], words[2], os.Stdout)
	case len(words) >= 3 && words[0] == "compare":
		err = compare(words[1], words[2], words[3:], os.Stdout)
	default:
		err = errors.New("answers collect [WALK] | record PROGRAM REQUESTS | compare BEFORE AFTER [TARGET]...")
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "answers:", err)
		os.Exit(1)
	}
}

// calculations are the routes that every body is sent to: a body of another route is
// refused, and the refusal is an answer too.
var calculations = []string{
	"/v1/readiness", "/v1/seasoning", "/v1/resaw-plan", "/v1/leaf-yield", "/v1/resaw-timing", "/v1/bookmatch", "/v1/movement", "/v1/section-shape",
	"/v1/laminate", "/v1/assembly-movement", "/v1/year-in-service", "/v1/moisture", "/v1/emc", "/v1/air", "/v1/batch",
}

// lookUps are asked as they are; the paths of the entries of a table follow from them.
var lookUps = []string{
	"/v1/species?limit=500", "/v1/stations?limit=500", "/v1/part-sizes?limit=500", "/v1/sawing-losses?limit=500", "/v1/methods?limit=500",
	"/v1/stations/madison-wi?report_in=inch", "/v1/part-sizes?report_in=inch&limit=500", "/v1/sawing-losses?report_in=inch", "/v1/limits",
	"/version", "/livez", "/readyz", "/openapi.json", "/problems/invalid", "/nothing",
}

// collect writes what is to be asked.
func collect(walks []string, to io.Writer) error {
	out := json.NewEncoder(to)
	say := func(r request) error { return out.Encode(r) }
	for _, target := range lookUps {
		if err := say(request{Verb: http.MethodGet, Target: target}); err != nil {
			return err
		}
	}
	bodies, err := bodiesIn("api", "testdata/demo", "../shared/trial")
	if err != nil {
		return err
	}
	for _, body := range bodies {
		for _, r := range variants(body) {
			if err := say(r); err != nil {
				return err
			}
		}
	}
	for _, walk := range walks {
		text, err := os.ReadFile(walk) //nolint:gosec // the file is named on the command line
		if err != nil {
			return err
		}
		seen := map[string]bool{}
		for line := range bytes.Lines(text) {
			if seen[string(line)] {
				continue
			}
			seen[string(line)] = true
			if _, err := to.Write(line); err != nil {
				return err
			}
		}
	}
	return nil
}

// bodiesIn finds the examples, the demo and the corpus of fuzzing, each once, in the
// order of their paths.
func bodiesIn(folders ...string) ([][]byte, error) {
	var all [][]byte
	for _, folder := range folders {
		err := filepath.WalkDir(folder, func(path string, entry os.DirEntry, err error) error {
			if errors.Is(err, os.ErrNotExist) {
				return nil
			}
			if err != nil || entry.IsDir() {
				return err
			}
			corpus := strings.Contains(path, "testdata/fuzz/")
			if !corpus && !strings.HasSuffix(path, ".json") {
				return nil
			}
			text, err := os.ReadFile(path) //nolint:gosec // found in the tree
			if err != nil {
				return err
			}
			if corpus {
				text = corpusBody(text)
			}
			if text != nil && !slices.ContainsFunc(all, func(b []byte) bool { return bytes.Equal(b, text) }) {
				all = append(all, text)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return all, nil
}

var corpusBytes = regexp.MustCompile(`(?m)^\[\]byte\((".*")\)$`)

// corpusBody reads the bytes of an entry of a fuzzing corpus; nil if it has none.
func corpusBody(text []byte) []byte {
	found := corpusBytes.FindSubmatch(text)
	if found == nil {
		return nil
	}
	var body string
	if _, err := fmt.Sscanf(string(found[1]), "%q", &body); err != nil {
		return nil
	}
	return []byte(body)
}

// variants are a body sent to each route: as it is, and, where it is an object, also in
// inches and in the other forms of an answer.
func variants(body []byte) []request {
	var all []request
	for _, path := range calculations {
		all = append(all, request{Verb: http.MethodPost, Target: path, Body: body})
	}
	var members map[string]any
	if json.Unmarshal(body, &members) != nil {
		return all
	}
	units := [][]byte{body}
	members["report_in"] = "inch"
	if inch, err := json.Marshal(members); err == nil {
		units = append(units, inch)
	}
	for i, text := range units {
		for _, path := range calculations {
			if i > 0 {
				all = append(all, request{Verb: http.MethodPost, Target: path, Body: text})
			}
			for _, media := range []string{"image/svg+xml", "text/csv"} {
				all = append(all, request{Verb: http.MethodPost, Target: path, Headers: []string{"Accept", media}, Body: text})
			}
		}
		all = append(all, request{Verb: http.MethodPost, Target: "/v1/resaw-plan?as=template", Body: text})
	}
	return all
}

// record asks the program and writes its answers.
func record(program, requests string, to io.Writer) error {
	base, stop, err := start(program)
	if err != nil {
		return err
	}
	defer stop()
	asks, err := os.Open(requests) //nolint:gosec // the file is named on the command line
	if err != nil {
		return err
	}
	defer asks.Close() //nolint:errcheck // only read
	out := json.NewEncoder(to)
	var last answered
	again := func(r request) error {
		if last, err = ask(base, r); err != nil {
			return err
		}
		return out.Encode(last)
	}
	in := json.NewDecoder(bufio.NewReader(asks))
	for {
		var r request
		if err := in.Decode(&r); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
		if err := again(r); err != nil {
			return err
		}
		for _, entry := range entries(last) {
			if err := again(entry); err != nil {
				return err
			}
		}
	}
}

// entries are the look-ups of what the first page of a table lists.
func entries(a answered) []request {
	table, query, is := strings.Cut(a.Target, "?")
	if !is || a.Verb != http.MethodGet || query != "limit=500" {
		return nil
	}
	var page struct {
		Items []struct{ ID string } `json:"items"`
	}
	if json.Unmarshal(a.Answer, &page) != nil {
		return nil
	}
	var all []request
	for _, item := range page.Items {
		if item.ID != "" && table != "/v1/methods" && table != "/v1/sawing-losses" {
			all = append(all, request{Verb: http.MethodGet, Target: table + "/" + item.ID})
		}
	}
	return all
}

// start runs the program on a free port of the loopback.
func start(program string) (base string, stop func(), err error) {
	free, err := net.Listen("tcp", "127.0.0.1:0") //nolint:noctx // closed at once
	if err != nil {
		return "", nil, err
	}
	address := free.Addr().String()
	if err := free.Close(); err != nil {
		return "", nil, err
	}
	command := exec.Command(program, "serve", "--listen", address) //nolint:gosec,noctx // the program is named on the command line
	if err := command.Start(); err != nil {
		return "", nil, err
	}
	stop = func() {
		_ = command.Process.Kill()
		_ = command.Wait()
	}
	for range 200 {
		if reply, err := http.Get("http://" + address + "/readyz"); err == nil { //nolint:noctx // waits for the start
			_ = reply.Body.Close()
			return "http://" + address, stop, nil
		}
		time.Sleep(50 * time.Millisecond)
	}
	stop()
	return "", nil, errors.New("the program does not answer")
}

func ask(base string, r request) (answered, error) {
	a := answered{request: r}
	out, err := http.NewRequest(r.Verb, base+r.Target, bytes.NewReader(r.Body)) //nolint:noctx // one at a time, to its end
	if err != nil {                                                             // a target that no client can send
		a.Media = err.Error()
		return a, nil
	}
	if r.Verb == http.MethodPost || r.Verb == "QUERY" {
		out.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i+1 < len(r.Headers); i += 2 {
		out.Header.Set(r.Headers[i], r.Headers[i+1])
	}
	reply, err := http.DefaultClient.Do(out)
	if errors.Is(err, syscall.ECONNRESET) { // the answer before it ended the connection; a new one is made
		out.Body = io.NopCloser(bytes.NewReader(r.Body))
		reply, err = http.DefaultClient.Do(out)
	}
	if err != nil {
		return a, err
	}
	defer reply.Body.Close() //nolint:errcheck // read to its end
	text, err := io.ReadAll(reply.Body)
	if err != nil {
		return a, err
	}
	a.Status, a.Media, a.Answer = reply.StatusCode, reply.Header.Get("Content-Type"), masked(text)
	return a, nil
}

var (
	requestID   = regexp.MustCompile(`"instance":"[^"]*"`)
	dataVersion = regexp.MustCompile(`("(?:data_version|tables)": ?)"[^"]*"`)
)

// masked leaves out what differs from one run to the next.
func masked(text []byte) []byte {
	return dataVersion.ReplaceAll(requestID.ReplaceAll(text, []byte(`"instance":""`)), []byte(`$1""`))
}

// mostTold is how many differences are told in full.
const mostTold = 40

// compare tells what differs, of targets that do not begin as one that may differ.
func compare(before, after string, may []string, to io.Writer) error {
	was, err := read(before)
	if err != nil {
		return err
	}
	is, err := read(after)
	if err != nil {
		return err
	}
	now := map[string]answered{}
	for _, a := range is {
		now[key(a.request)] = a
	}
	different, missing := 0, 0
	for _, b := range was {
		a, there := now[key(b.request)]
		switch {
		case slices.ContainsFunc(may, func(target string) bool { return strings.HasPrefix(b.Target, target) }):
		case !there:
			missing++
		case a.Status != b.Status || a.Media != b.Media || !bytes.Equal(a.Answer, b.Answer):
			if different++; different <= mostTold {
				tell(to, b, a)
			}
		}
	}
	_, _ = fmt.Fprintf(to, "%d answers, %d differ, %d were not asked again\n", len(was), different, missing)
	if different+missing > 0 {
		return errors.New("the answers are not the same")
	}
	return nil
}

func key(r request) string {
	return r.Verb + " " + r.Target + " " + strings.Join(r.Headers, " ") + "\n" + string(r.Body)
}

func read(file string) ([]answered, error) {
	f, err := os.Open(file) //nolint:gosec // the file is named on the command line
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // only read
	var all []answered
	in := json.NewDecoder(bufio.NewReader(f))
	for {
		var a answered
		if err := in.Decode(&a); errors.Is(err, io.EOF) {
			return all, nil
		} else if err != nil {
			return nil, err
		}
		all = append(all, a)
	}
}

// tell shows a difference where it begins.
func tell(to io.Writer, before, after answered) {
	at := 0
	for at < min(len(before.Answer), len(after.Answer)) && before.Answer[at] == after.Answer[at] {
		at++
	}
	from := max(0, at-80)
	clip := func(text []byte) string { return string(text[min(from, len(text)):min(at+160, len(text))]) }
	_, _ = fmt.Fprintf(to, "%s %s %v\n  asked  %.300s\n  before %d %s ...%s\n  after  %d %s ...%s\n",
		before.Verb, before.Target, before.Headers, before.Body, before.Status, before.Media, clip(before.Answer), after.Status, after.Media, clip(after.Answer))
}
