package api

import (
	"regexp"
)

// ContractVersion is the version of the OpenAPI document. It follows semantic
// versioning and changes with every change of the document.
const ContractVersion = "0.1.0-draft"

var pathParameter = regexp.MustCompile(`:([a-z_]+)`)

// contractPath turns "/v1/species/:id" into "/v1/species/{id}".
func contractPath(path string) string { return pathParameter.ReplaceAllString(path, "{$1}") }
