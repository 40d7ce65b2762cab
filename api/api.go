package api

import (
	"net/netip"

	"latewood/api/internal/rack"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
)

// Service answers the routes of the table. It keeps no state between requests
// and is safe for concurrent use.
type Service = serve.Service

// Config says how to build a Service.
type Config = serve.Config

// Keys are the tokens that may ask.
type Keys = serve.Keys

// Rate is how often one caller may ask.
type Rate = serve.Rate

// DefaultRate is the rate where none is set.
var DefaultRate = serve.DefaultRate

// Limits of the server, which is set up elsewhere.
const (
	MinBurst          = serve.MinBurst
	ReadHeaderTimeout = serve.ReadHeaderTimeout
	ReadTimeout       = serve.ReadTimeout
	WriteTimeout      = serve.WriteTimeout
	IdleTimeout       = serve.IdleTimeout
	MaxHeaderBytes    = serve.MaxHeaderBytes
	MaxConnections    = serve.MaxConnections
	StopTime          = serve.StopTime
	DefaultWork       = serve.DefaultWork
	UsualUpload       = serve.UsualUpload
	MostUpload        = serve.MostUpload
	MostWork          = serve.MostWork
)

// Headers in which a proxy tells whom it asks for.
const (
	ForwardedFor = serve.ForwardedFor
	Forwarded    = serve.Forwarded
)

// Proxies are those whose word on who asks is taken.
type Proxies = serve.Proxies

// LoopbackHosts are the names by which a machine calls itself.
var LoopbackHosts = serve.LoopbackHosts

// New builds the service on the embedded tables. The error, which speaks of a
// broken build, says which table could not be read.
func New(config Config) (*Service, error) {
	loaded, err := shelf.LoadTables()
	if err != nil {
		return nil, err
	}
	s := serve.New(config, loaded, routes, limitsOfAll(config.Upload))
	if kept, is := config.Rack.(*Rack); is && kept != nil {
		kept.AskWith(rack.Asking{Version: config.Version + " " + loaded.Version, Ask: s.Aside, Log: config.Log})
	}
	return s, nil
}

// ParseKeys reads the lines of a tokens file.
func ParseKeys(text string) (*Keys, error) { return serve.ParseKeys(text) }

// NewToken makes a token and the line of the tokens file that lets it in.
func NewToken(name string) (token, line string, err error) { return serve.NewToken(name) }

// ParseHosts reads a list of names or addresses without a port, divided by commas.
func ParseHosts(list string) ([]string, error) { return serve.ParseHosts(list) }

// ParseProxies reads a list of addresses or networks, divided by commas.
func ParseProxies(list string) ([]netip.Prefix, error) { return serve.ParseProxies(list) }

// ParseOrigins reads a list of origins, divided by commas.
func ParseOrigins(list string) ([]string, error) { return serve.ParseOrigins(list) }
