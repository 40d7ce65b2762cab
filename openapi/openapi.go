// Package openapi holds the contract of the service, generated from the request
// and reply types of package api. Do not edit openapi.yaml; `make contract`
// writes it anew, and with it versions.txt, the ledger of released documents that a
// test holds it against: a line each, version, a space, and the SHA-256 in hex.
package openapi

import (
	_ "embed"
	"encoding/json"
	"sync"

	"go.yaml.in/yaml/v3"
)

//go:embed openapi.yaml
var document []byte

// YAML returns the OpenAPI 3.1 document as committed.
func YAML() []byte { return document }

// JSON returns the document as JSON. The error speaks of a broken build.
var JSON = sync.OnceValues(func() ([]byte, error) {
	var tree any
	if err := yaml.Unmarshal(document, &tree); err != nil {
		return nil, err
	}
	return json.Marshal(tree)
})
