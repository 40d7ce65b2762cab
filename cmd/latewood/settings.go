package main

import (
	"errors"
	"flag"
	"fmt"
	"net/netip"
	"os"
	"strings"
	"time"

	"latewood/api"
)

// settings are the flags of serve, and what stands in for them in the
// environment.
type settings struct {
	listen, format   string
	tokens           string // file
	open             bool
	origins, hosts   collected
	proxies          networks
	proxyHeader      string
	cert, key, debug string
	rate             float64
	burst            int
	rateGiven        bool
	work             int    // seconds
	photo            int    // MB
	keep             string // the rack
}

// collected is a flag that may be given more than once, as parse reads it.
type collected struct {
	all   []string
	parse func(string) ([]string, error)
}

func (w *collected) String() string { return strings.Join(w.all, ",") }

func (w *collected) Set(list string) error {
	more, err := w.parse(list)
	w.all = append(w.all, more...)
	return err
}

// networks collects --proxy.
type networks []netip.Prefix

func (n *networks) String() string { return fmt.Sprint(*n) }

func (n *networks) Set(list string) error {
	more, err := api.ParseProxies(list)
	*n = append(*n, more...)
	return err
}

func (p *program) settings(words []string) (*settings, error) {
	s := &settings{origins: collected{parse: api.ParseOrigins}, hosts: collected{parse: api.ParseHosts}}
	set := flags("serve")
	set.StringVar(&s.listen, "listen", p.or("LATEWOOD_LISTEN", "127.0.0.1:8080"), "")
	set.StringVar(&s.format, "log-format", p.or("LATEWOOD_LOG_FORMAT", p.or("LATEWOOD_LOG", "text")), "")
	set.StringVar(&s.format, "log", s.format, "") // the older name
	set.StringVar(&s.tokens, "tokens", "", "")
	set.BoolVar(&s.open, "open", false, "")
	set.Var(&s.origins, "cors", "")
	set.Var(&s.hosts, "host", "")
	set.Var(&s.proxies, "proxy", "")
	set.StringVar(&s.proxyHeader, "proxy-header", api.ForwardedFor, "")
	set.StringVar(&s.cert, "tls-cert", "", "")
	set.StringVar(&s.key, "tls-key", "", "")
	set.StringVar(&s.debug, "debug-listen", "", "")
	set.Float64Var(&s.rate, "rate", api.DefaultRate.PerSecond, "")
	set.IntVar(&s.burst, "burst", api.DefaultRate.Burst, "")
	set.StringVar(&s.keep, "rack", p.getenv("LATEWOOD_RACK"), "")
	set.IntVar(&s.photo, "photo-limit", api.UsualUpload>>20, "")
	set.IntVar(&s.work, "work-seconds", int(api.DefaultWork/time.Second), "")
	if err := set.Parse(words); err != nil {
		return nil, err
	}
	set.Visit(func(f *flag.Flag) { s.rateGiven = s.rateGiven || f.Name == "rate" || f.Name == "burst" })
	return s, s.check(set, p.getenv("LATEWOOD_TOKENS") != "")
}

// check finds flags that do not go together or are out of range.
func (s *settings) check(set *flag.FlagSet, tokens bool) error {
	switch {
	case set.NArg() > 0:
		return fmt.Errorf("serve takes no %q", set.Arg(0))
	case (s.cert == "") != (s.key == ""):
		return errors.New("--tls-cert and --tls-key go together")
	case !(s.rate >= 0 && s.rate <= 1e9):
		return fmt.Errorf("--rate is units a second, 0 for no limit, not %g", s.rate)
	case s.burst < api.MinBurst || s.burst > 1e9:
		return fmt.Errorf("--burst is at least %d units, the price of the largest batch", api.MinBurst)
	case s.work < int(api.DefaultWork/time.Second) || s.work > int(api.MostWork/time.Second):
		return fmt.Errorf("--work-seconds is %d to %d, not %d", int(api.DefaultWork/time.Second), int(api.MostWork/time.Second), s.work)
	case s.photo < 1 || s.photo > api.MostUpload>>20:
		return fmt.Errorf("--photo-limit is 1 to %d MB, not %d", api.MostUpload>>20, s.photo)
	case s.open && (s.tokens != "" || tokens):
		return errors.New("--open and tokens exclude each other")
	}
	if s.keep != "" && s.open && s.proxies != nil {
		return errOpenRack
	}
	switch {
	case strings.EqualFold(s.proxyHeader, api.ForwardedFor):
		s.proxyHeader = api.ForwardedFor
	case strings.EqualFold(s.proxyHeader, api.Forwarded):
		s.proxyHeader = api.Forwarded
	default:
		return fmt.Errorf("--proxy-header is %s or %s, not %q", api.ForwardedFor, api.Forwarded, s.proxyHeader)
	}
	if s.proxies != nil && !s.open && s.tokens == "" && !tokens {
		return errors.New("--proxy lets others ask: give --tokens FILE (latewood token NAME makes one), or --open to let everyone ask")
	}
	return nil
}

// errOpenRack refuses a rack that everyone could write to.
var errOpenRack = errors.New("a rack is written to, and others can reach this address: give --tokens FILE in place of --open (latewood token NAME weigh makes one)")

// keys reads the tokens of the file and of the environment; nil if there are
// none.
func (p *program) keys(s *settings) (*api.Keys, error) {
	text := p.getenv("LATEWOOD_TOKENS")
	if s.tokens != "" {
		file, err := os.ReadFile(s.tokens) //nolint:gosec // the file the operator named is the point of the flag
		if err != nil {
			return nil, err
		}
		if text != "" {
			text += "\n"
		}
		text += string(file)
	}
	if s.tokens == "" && strings.TrimSpace(text) == "" {
		return nil, nil //nolint:nilnil // no tokens are asked for
	}
	return api.ParseKeys(text)
}
