package page

import (
	"encoding/json"
	"fmt"
	"strings"

	"latewood/openapi"
)

// form is one calculation as the page needs it.
type form struct {
	Request  string         `json:"request"` // its schema
	Summary  string         `json:"summary"`
	Drawn    bool           `json:"drawn"`             // it answers with a drawing where one is asked for
	Printed  bool           `json:"printed,omitempty"` // and with one on paper
	Examples map[string]any `json:"examples,omitempty"`
}

// part of a document that was read from JSON.
type part = map[string]any

const (
	schemaPrefix = "#/components/schemas/"
	asJSON       = "application/json"
	asSVG        = "image/svg+xml"
	asPDF        = "application/pdf"
)

// forms returns the requests of the contract with the schemas they need, as JSON: some
// twentieth of the whole. Every calculation is in it but the batch, which asks the others.
func forms() ([]byte, error) {
	text, err := openapi.JSON()
	if err != nil {
		return nil, err
	}
	var contract part
	if err := json.Unmarshal(text, &contract); err != nil {
		return nil, err
	}
	all := within(contract, "components", "schemas")
	questions, needed := map[string]form{}, part{}
	for address := range within(contract, "paths") {
		operation := within(contract, "paths", address, "post")
		body := within(operation, "requestBody", "content", asJSON)
		name, is := within(body, "schema")["$ref"].(string)
		if !is || address == "/v1/batch" || !asks(within(contract, "paths"), address) {
			continue
		}
		asked := form{Request: strings.TrimPrefix(name, schemaPrefix), Examples: examplesOf(body)}
		asked.Summary, _ = operation["summary"].(string)
		_, asked.Drawn = within(operation, "responses", "200", "content")[asSVG]
		_, asked.Printed = within(operation, "responses", "200", "content")[asPDF]
		questions[address] = asked
		if err := gather(all, asked.Request, needed); err != nil {
			return nil, err
		}
	}
	_, photos := within(contract, "paths")[ofBillet+"photo"]
	return json.Marshal(part{"questions": questions, "schemas": needed, "photos": photos})
}

// ofBillet begins the calculations about a billet that is kept.
const ofBillet = "/v1/rack/billets/{id}/"

// asks says whether a route is a question: what changes the rack is none.
func asks(paths part, address string) bool {
	if same, is := strings.CutPrefix(address, ofBillet); is {
		address = "/v1/" + same
	}
	return within(paths, address, "x-query") != nil
}

// within goes down a document by names, to nothing where one is missing.
func within(at part, names ...string) part {
	for _, name := range names {
		at, _ = at[name].(part)
	}
	return at
}

func examplesOf(body part) map[string]any {
	examples := map[string]any{}
	for name := range within(body, "examples") {
		examples[name] = within(body, "examples", name)["value"]
	}
	return examples
}

// gather copies a schema and all that it refers to.
func gather(all part, name string, into part) error {
	if _, done := into[name]; done {
		return nil
	}
	schema, is := all[name].(part)
	if !is {
		return fmt.Errorf("the contract has no schema %s", name)
	}
	into[name] = schema
	var refer func(any) error
	refer = func(at any) error {
		switch at := at.(type) {
		case part:
			delete(at, "examples")
			if to, is := at["$ref"].(string); is {
				if err := gather(all, strings.TrimPrefix(to, schemaPrefix), into); err != nil {
					return err
				}
			}
			for _, below := range at {
				if err := refer(below); err != nil {
					return err
				}
			}
		case []any:
			for _, below := range at {
				if err := refer(below); err != nil {
					return err
				}
			}
		}
		return nil
	}
	return refer(schema)
}
