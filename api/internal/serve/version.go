package serve

import (
	"regexp"
)

// ContractVersion is the version of the OpenAPI document. It follows semantic
// versioning and changes with every change of the document.
const ContractVersion = "1.0.0"

// PathParameter matches a parameter in the path of a route.
var PathParameter = regexp.MustCompile(`:([a-z_]+)`)

// ContractPath turns "/v1/species/:id" into "/v1/species/{id}".
func ContractPath(path string) string { return PathParameter.ReplaceAllString(path, "{$1}") }
