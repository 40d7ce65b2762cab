package main

import (
	"crypto/tls"
	"fmt"
	"os"
	"os/signal"
	"sync/atomic"
	"syscall"
)

// certificate is that of the server with its files, which may change while it serves.
type certificate struct {
	cert, key string
	pair      atomic.Pointer[tls.Certificate]
}

// load reads the files; where they cannot be read the certificate stays as it was.
func (c *certificate) load() error {
	pair, err := tls.LoadX509KeyPair(c.cert, c.key)
	if err != nil {
		return fmt.Errorf("--tls-cert, --tls-key: %w", err)
	}
	c.pair.Store(&pair)
	return nil
}

func (c *certificate) config() *tls.Config {
	return &tls.Config{MinVersion: tls.VersionTLS12,
		GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return c.pair.Load(), nil }}
}

// reloads tells each time when the program is told to read its files anew.
func (r *server) reloads() (told <-chan os.Signal, stop func()) {
	if r.hangUp != nil {
		return r.hangUp, func() {}
	}
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, syscall.SIGHUP)
	return signals, func() { signal.Stop(signals) }
}

// reload reads tokens and certificate anew. What cannot be read stays as it was.
func (r *server) reload() {
	if r.keys != nil {
		keys, err := r.program.keys(r.settings)
		if err == nil && keys != nil {
			r.service.SetKeys(keys)
			r.log.Info("the tokens were read anew")
		} else {
			r.log.Error("the tokens could not be read anew and stay as they were", "error", fmt.Sprint(err))
		}
	}
	if r.certificate != nil {
		if err := r.certificate.load(); err != nil {
			r.log.Error("the certificate could not be read anew and stays as it was", "error", err.Error())
			return
		}
		r.log.Info("the certificate was read anew")
	}
}
