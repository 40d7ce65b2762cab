// Command latewood answers what a maker who saws and seasons timber has to
// decide: it serves the questions over HTTP, or answers one from a file.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/signal"
	"syscall"
	"time"

	"latewood/api"
)

// version is stamped by the build: -ldflags "-X main.version=1.2.3".
var version = "development"

// Exit statuses.
const (
	exitOK      = 0
	exitProblem = 1 // the question was answered with a problem, or the server failed
	exitUsage   = 2
)

func main() {
	// A reader of our output that went away ends what it reads, and not the program.
	signal.Ignore(syscall.SIGPIPE)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := (&program{stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, getenv: os.Getenv}).run(ctx, os.Args[1:])
	stop()
	os.Exit(status)
}

// program is the command with its surroundings, so that tests can run it whole.
type program struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	getenv         func(string) string
	started        func(base string)    // told the URL once the server listens
	debugging      func(address string) // the same of the profiles
	tune           func(*http.Server)   // for tests that cannot wait as long as the timeouts
	hangUp         <-chan os.Signal     // in place of SIGHUP
}

var usage = fmt.Sprintf(`latewood answers questions about seasoning, sawing and moving wood.

  latewood [serve] [flags]     answer over HTTP until stopped
  latewood ask ROUTE [FILE]    answer one request and leave
  latewood token NAME [ROLE]   make a token for a caller
  latewood rack WORD ...       look after a rack: backup, restore, check, export, import, demo
  latewood version             print the version

serve
  --listen HOST:PORT   where to listen (default 127.0.0.1:8080; also LATEWOOD_LISTEN)
  --log-format FORMAT  text or json (default text; also LATEWOOD_LOG_FORMAT, --log)
  --tokens FILE        who may ask: a line for each token, its name and SHA-256
                       (also LATEWOOD_TOKENS, which holds the lines themselves)
  --rack FILE          keep billets and their readings in this file, which is made if
                       it is not there, or in a database: postgres://... (also
                       LATEWOOD_RACK). Others than this machine need tokens then
  --open               let everyone ask where others than this machine can; else
                       such an address needs tokens
  --tls-cert FILE      certificate and key for https
  --tls-key FILE
  --cors ORIGIN        pages of this origin may ask from a browser; repeatable
  --host NAME          the service may be called by this name; repeatable. Where only
                       this machine can reach it, it answers to no other names but
                       those of this machine
  --proxy NETWORK      an address or network of proxies that tell whom they ask for;
                       repeatable. Callers are then told apart behind them
  --proxy-header NAME  where they tell it: %[4]s (default) or %[5]s
  --rate UNITS         a caller may ask for so much a second, on average (default
                       %[1]g, and no limit for an open service on this machine;
                       0: no limit)
  --burst UNITS        and so much at once (default %[2]d, at least %[3]d, the
                       largest batch). A request is one unit, a heavy one
                       more; GET /v1/limits tells
  --work-seconds N     processor time that a caller may ask for at most (default
                       %[6]d, what heavy work is given anyway; up to %[7]d)
  --photo-limit MB     how long a photo on the rack may be (default %[8]d, up to %[9]d)
  --debug-listen HOST:PORT  profiles of the running program, for this machine only

token
  The token is printed once, to standard error; the line for the tokens file goes
  to standard output: latewood token bench >> tokens
  ROLE says what it may do with a rack: read (the default), weigh (also add readings,
  events and photos, and take them back) or all.

rack
  backup RACK FILE     copy a rack into a new file, also while it is in use
  restore FILE RACK    make a rack in a new file from a backup
  check RACK           look for what cannot be right
  export RACK          write everything, every version of it, as one JSON document
  import RACK          read such a document into an empty rack
  --csv FOLDER         after either: what is on it now as sheets, billets.csv, readings.csv
                       and so on. Rows that are there already stay as they are; those
                       that are wrong are told, and nothing is taken then
  --take-the-rest      after import: take the rows that are right all the same
  demo FILE            make a rack of 40 billets to try things on, all of it invented

ask
  ROUTE is a path such as /v1/movement, or its last word: movement.
  FILE holds the request as JSON; - or nothing reads it from standard input.
  A path that needs no request, such as /v1/species/maple-sugar, takes no FILE.
  The answer goes to standard output. The exit status is 1 when the answer is a
  problem, and 2 when the words of the command are off.

SIGTERM ends the program when what was asked is answered; SIGHUP reads the tokens
file and the certificate anew.

The tables are inside the program: it needs no database, no account and no
network. Try:

  latewood ask /v1/species/maple-sugar
`, api.DefaultRate.PerSecond, api.DefaultRate.Burst, api.MinBurst, api.ForwardedFor, api.Forwarded, int(api.DefaultWork/time.Second), int(api.MostWork/time.Second),
	api.UsualUpload>>20, api.MostUpload>>20)

func (p *program) run(ctx context.Context, words []string) int {
	word := "serve"
	if len(words) > 0 && words[0] != "" && words[0][0] != '-' {
		word, words = words[0], words[1:]
	}
	switch word {
	case "serve":
		return p.serve(ctx, words)
	case "ask":
		return p.ask(words)
	case "token":
		return p.token(words)
	case "rack":
		return p.rack(ctx, words)
	case "version":
		p.print(version + "\n")
		return exitOK
	case "help":
		p.print(usage)
		return exitOK
	}
	return p.misused(fmt.Errorf("there is no command %q", word))
}

func (p *program) misused(err error) int {
	if errors.Is(err, flag.ErrHelp) {
		p.print(usage)
		return exitOK
	}
	p.complain(err)
	p.complain(errors.New("latewood --help shows how it is used"))
	return exitUsage
}

// flags makes a flag set that prints nothing by itself.
func flags(name string) *flag.FlagSet {
	set := flag.NewFlagSet(name, flag.ContinueOnError)
	set.SetOutput(io.Discard)
	return set
}

// or is the value of an environment variable, or the fallback.
func (p *program) or(variable, fallback string) string {
	if v := p.getenv(variable); v != "" {
		return v
	}
	return fallback
}

// print writes to standard output. A reader that went away is not our error.
func (p *program) print(text string) { _, _ = io.WriteString(p.stdout, text) }

// complain writes an error to standard error.
func (p *program) complain(err error) { _, _ = fmt.Fprintf(p.stderr, "latewood: %v\n", err) }
