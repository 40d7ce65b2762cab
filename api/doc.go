// Package api serves the project over HTTP: routes, request and response
// types, units in and out, problems. It is the only importer of echo.
//
// A calculation is one entry in the route table (routes.go), one request type,
// one result type and one function from the one to the other; decoding,
// validation, problems, envelopes, negotiation and the contract come from the
// table. Handlers know no physics and the physics knows no HTTP.
package api
