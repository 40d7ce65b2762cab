package contract

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"net/http"
	"reflect"
	"slices"
	"strings"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/swaggest/openapi-go"
	"github.com/swaggest/openapi-go/openapi31"

	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Source is what a contract is made from.
type Source struct {
	Routes   []serve.Route
	Limits   []serve.RouteLimits // of the routes that are no mere files, in their order
	Service  *serve.Service      // answers the examples
	Examples fs.FS               // example requests, one file each: PATH.NAME.json
}

// Document returns the OpenAPI 3.1 document of the routes as JSON. It is
// generated from the request and reply types; the examples are real requests
// and the replies the service gives to them.
func (c *Source) Document() ([]byte, error) {
	reflector := openapi31.NewReflector()
	describeTypes(reflector)
	for i := range c.Routes {
		if c.Routes[i].Asset {
			continue
		}
		if err := addOperation(reflector, &c.Routes[i]); err != nil {
			return nil, fmt.Errorf("%s: %w", c.Routes[i].Path, err)
		}
	}
	text, err := json.Marshal(reflector.Spec)
	if err != nil {
		return nil, err
	}
	var document map[string]any
	if err := json.Unmarshal(text, &document); err != nil {
		return nil, err
	}
	document["info"] = map[string]any{
		"title":       "latewood",
		"version":     serve.ContractVersion,
		"summary":     "Is the billet ready, what does it yield, how far will it move",
		"description": contractIntroduction,
		"contact":     map[string]any{"name": "The latewood maintainers"},
	}
	document["x-resolutions"] = wire.Resolutions()
	document["servers"] = []any{map[string]any{"url": "/", "description": "the service that serves this document, local or in production", "x-internal": false}}
	document["tags"] = c.tags()
	document["security"] = []any{map[string]any{}, map[string]any{"token": []any{}}}
	if err := c.addProblems(document); err != nil {
		return nil, err
	}
	c.typeBatch(document)
	neverNull(document)
	closeRequests(document)
	for i := range c.Routes {
		if c.Routes[i].Asset {
			continue
		}
		if err := c.finishOperation(document, &c.Routes[i]); err != nil {
			return nil, fmt.Errorf("%s: %w", c.Routes[i].Path, err)
		}
	}
	if err := shareEnums(document); err != nil {
		return nil, err
	}
	markGrowing(document)
	boundEverything(document["paths"])
	boundEverything(document["components"])
	return json.Marshal(document)
}

const contractIntroduction = `Answers, with published physics and honest margins, what a maker who saws and seasons timber has to decide.

Lengths, temperatures, masses and pressures are quantities: {"value": 52, "unit": "mm"} or "52 mm". Answers come in the system named by report_in. Moisture contents are in percent of the ovendry mass. Bands hold 90 % of cases. Numbers are computed in full and rounded once: with a band, value, low and high to the greatest power of ten that is no more than a hundredth of its width; without one to the step that x-resolution names, or for x-resolution "unit" to that of the unit (extension x-resolutions of this document). A band narrower than that of its unit has it. Lengths that are cut are told to the nanometre; figures that a table prints keep their digits. Words are in snake_case, ids of the tables have hyphens. A list of words that is marked x-extensible may grow in answers, and so may codes: take a word that you do not know for what it is, another one. Every answer names the methods it rests on (basis) and what to know before trusting it (warnings). Errors are RFC 9457 problems that point at every wrong field at once.

Guides: [for callers](/guides/guide), [recipes with clients in Go and TypeScript](/guides/recipes), [what stays](/guides/versioning), [the rack](/guides/rack), [running it](/guides/running), [for makers](/guides/maker).`

// addOperation reflects the types of one route.
func addOperation(reflector *openapi31.Reflector, r *serve.Route) error {
	oc, err := reflector.NewOperationContext(r.Method, serve.ContractPath(r.Path))
	if err != nil {
		return err
	}
	oc.SetID(r.ID)
	oc.SetTags(r.Tag)
	oc.SetSummary(r.Summary)
	oc.SetDescription(r.Description)
	if r.Request != nil {
		oc.AddReqStructure(r.Request)
	}
	if names := serve.PathParameter.FindAllStringSubmatch(r.Path, -1); len(names) > 0 {
		oc.AddReqStructure(pathStruct(names))
	}
	if r.Gives == nil {
		oc.AddRespStructure(r.Result, openapi.WithHTTPStatus(http.StatusOK))
	}
	return reflector.AddOperation(oc)
}

// pathStruct makes a struct with a field for each path parameter, which is how
// the reflector learns of them.
func pathStruct(names [][]string) any {
	var fields []reflect.StructField
	for _, n := range names {
		fields = append(fields, reflect.StructField{Name: wire.UpperFirst(n[1]), Type: reflect.TypeFor[string](), Tag: reflect.StructTag(`path:"` + n[1] + `"`)})
	}
	return reflect.New(reflect.StructOf(fields)).Interface()
}

// finishOperation adds to an operation what the types do not say: parameters,
// examples and problems.
func (c *Source) finishOperation(document map[string]any, r *serve.Route) error {
	operation := Dig(document, "paths", serve.ContractPath(r.Path), strings.ToLower(r.Method))
	if parameters := contractParameters(r); len(parameters) > 0 {
		operation["parameters"] = parameters
	}
	responses := Dig(operation, "responses")
	for _, f := range r.Forms {
		longest := longestForm
		if r.Streams {
			longest = largestInt // as many lines as are sent
		}
		schema := map[string]any{"type": "string", "maxLength": longest}
		if f.Binary() {
			schema["format"] = "binary"
		}
		Dig(responses, "200", "content", f.Media)["schema"] = schema
	}
	inBytes := map[string]any{"type": "string", "format": "binary", "maxLength": serve.MostUpload}
	if r.Gives != nil {
		delete(responses, "204") // the reflector takes bytes for nothing
	}
	for _, media := range r.Gives {
		Dig(responses, "200")["description"] = "OK"
		Dig(responses, "200", "content", media)["schema"] = inBytes
	}
	for _, media := range r.Takes {
		Dig(operation, "requestBody")["required"] = true
		Dig(operation, "requestBody", "content", media)["schema"] = inBytes
		if media == serve.MergePatch {
			Dig(operation, "requestBody", "content", media)["schema"] = map[string]any{"type": "object", "maxProperties": mostPatched,
				"description": "members of the entry that are to change, null for one to take off"}
		}
	}
	addSuccessHeaders(responses, r)
	if d := r.Deprecated; d != nil {
		operation["deprecated"] = true
		operation["description"] = r.Description + " It goes on " + d.Gone.Format(time.DateOnly) + "; use " + d.Instead + "."
	}
	operation["x-limits"] = c.limitsAsJSON(r)
	if r.Open != serve.ToCallers {
		operation["security"] = []any{map[string]any{}}
	}
	responses["default"] = map[string]any{"$ref": "#/components/responses/Problem"}
	operation["x-problem-statuses"] = statusesOf(r)
	if r.Request != nil {
		Dig(operation, "requestBody")["required"] = true
	}
	if r.Streams {
		Dig(operation, "requestBody", "content", serve.LinesForm.Media)["schema"] = map[string]any{"type": "string", "maxLength": largestInt, "description": "an item on each line"}
	}
	if err := c.addExamples(operation, r); err != nil {
		return err
	}
	addQuery(document, r)
	return nil
}

// mostPatched is more members than any entry has.
const mostPatched = 100

// statusesOf lists the statuses of the problems a route may answer with, in their order.
func statusesOf(r *serve.Route) []int {
	statuses := []int{http.StatusBadRequest, http.StatusMethodNotAllowed, http.StatusNotAcceptable, http.StatusInternalServerError, http.StatusServiceUnavailable,
		http.StatusForbidden, http.StatusMisdirectedRequest}
	if r.Open == serve.ToCallers {
		statuses = append(statuses, http.StatusUnauthorized)
	}
	if r.Open != serve.ToProbes {
		statuses = append(statuses, http.StatusTooManyRequests)
	}
	if strings.Contains(r.Path, ":") {
		statuses = append(statuses, http.StatusNotFound)
	}
	if r.Keeps {
		statuses = append(statuses, http.StatusNotFound, http.StatusConflict, http.StatusPreconditionFailed, http.StatusPreconditionRequired,
			http.StatusUnprocessableEntity)
	}
	if r.Takes != nil {
		statuses = append(statuses, http.StatusRequestTimeout, http.StatusRequestEntityTooLarge, http.StatusUnsupportedMediaType)
	}
	if r.Request != nil {
		if _, isTagged := r.Handler.(serve.TaggedWork); isTagged {
			statuses = append(statuses, http.StatusPreconditionFailed)
		}
		statuses = append(statuses, http.StatusRequestTimeout, http.StatusRequestEntityTooLarge, http.StatusUnsupportedMediaType, http.StatusUnprocessableEntity)
	}
	slices.Sort(statuses)
	return slices.Compact(statuses)
}

// contractParameters are all that a route takes beside its body.
func contractParameters(r *serve.Route) []any { return append(parametersOf(r), ifNoneMatch(r)...) }

// parametersOf are those of the path and of the query.
func parametersOf(r *serve.Route) []any {
	var parameters []any
	for _, match := range serve.PathParameter.FindAllStringSubmatch(r.Path, -1) {
		parameters = append(parameters, map[string]any{
			"name": match[1], "in": "path", "required": true,
			"schema": map[string]any{"type": "string", "minLength": 1, "maxLength": 100},
		})
	}
	for _, p := range r.Parameters() {
		schema := map[string]any{"type": "string", "maxLength": 100}
		switch {
		case p.Choices != nil:
			schema = map[string]any{"type": "string", "enum": p.Choices}
		case p.Whole:
			schema = map[string]any{"type": "integer", "minimum": p.Low, "maximum": p.High}
			if p.Fallback >= p.Low { // else nothing stands in for one that is left out
				schema["default"] = p.Fallback
			}
		}
		entry := map[string]any{"name": p.Name, "in": "query", "description": p.Description, "schema": schema}
		if p.Example != "" {
			entry["example"] = p.Example
		}
		parameters = append(parameters, entry)
	}
	for _, h := range serve.KeptHeaders(r) {
		parameters = append(parameters, map[string]any{"name": h.Name, "in": "header", "required": h.Required, "description": h.Description,
			"schema": map[string]any{"type": "string", "maxLength": 100, "pattern": h.Pattern}})
	}
	return parameters
}

// addExamples runs the example requests of a route and puts request and reply
// into the operation.
func (c *Source) addExamples(operation map[string]any, r *serve.Route) error {
	if r.Uploads() || r.Gives != nil {
		return nil // bytes are no example
	}
	sent := echo.MIMEApplicationJSON
	if r.Patches() {
		sent = serve.MergePatch
	}
	requests := map[string]any{}
	replies := map[string]any{}
	for _, e := range ExamplesOf(c.Examples, r) {
		status, body := c.Service.Ask(r.Method, e.Path, echo.MIMEApplicationJSON, e.Body, e.Headers...)
		if status != http.StatusOK {
			return fmt.Errorf("example %s is answered with %d: %s", e.Name, status, body)
		}
		var reply any
		if err := json.Unmarshal(body, &reply); err != nil {
			return err
		}
		replies[e.Name] = map[string]any{"summary": e.summary, "value": shorten(reply)}
		if e.Body != nil {
			var request any
			if err := json.Unmarshal(e.Body, &request); err != nil {
				return err
			}
			requests[e.Name] = map[string]any{"summary": e.summary, "value": request}
		}
	}
	if len(replies) == 0 {
		return fmt.Errorf("route %s has no example", r.ID)
	}
	Dig(operation, "responses", "200", "content", "application/json")["examples"] = replies
	if len(requests) > 0 {
		Dig(operation, "requestBody", "content", sent)["examples"] = requests
	}
	return nil
}

// exampleVersion stands for the version of the tables in the examples, so that
// a new figure in a table does not make a new contract.
const (
	exampleVersion  = "5f3c9a1d2e4b"
	exampleInstance = "5f3c9a1d2e4b6078"
)

// examplePoints is how much of a series an example shows.
const examplePoints = 3

// shorten cuts the series of an example, and puts stand-ins for what is another with each
// version.
func shorten(node any) any {
	switch n := node.(type) {
	case []any:
		for i := range n {
			n[i] = shorten(n[i])
		}
	case map[string]any:
		for key := range n {
			if points, ok := n[key].([]any); ok && key == "series" {
				n[key] = points[:min(len(points), examplePoints)]
			}
			n[key] = shorten(n[key])
			if key == "data_version" || key == "data" {
				n[key] = exampleVersion
			}
			if key == "instance" {
				n[key] = exampleInstance
			}
		}
	}
	return node
}

// addProblems adds the one reply of every problem, with an example of each kind.
func (c *Source) addProblems(document map[string]any) error {
	examples := map[string]any{}
	for _, k := range refuse.ProblemKinds {
		p := refuse.New(k.Status, k.Help)
		p.Instance = exampleInstance
		if k.Status == http.StatusUnprocessableEntity {
			p.Detail = "kerf must be at most 20 mm"
			p.Errors = []refuse.FieldError{{Pointer: "/saw/kerf", Code: "out_of_range", Detail: p.Detail, Limit: method.AtMost(20, "mm")}}
		}
		text, err := json.Marshal(p)
		if err != nil {
			return err
		}
		var example any
		if err := json.Unmarshal(text, &example); err != nil {
			return err
		}
		examples[k.Kind] = map[string]any{"summary": k.Title, "value": example}
	}
	responses := map[string]any{"Problem": map[string]any{
		"description": "What went wrong. The status and the type tell its kind; x-problem-statuses lists those of the operation.",
		"headers":     headersOfProblems(),
		"content": map[string]any{refuse.JSON: map[string]any{
			"schema": map[string]any{"$ref": "#/components/schemas/Problem"}, "examples": examples,
		}},
	}}
	reflector := openapi31.NewReflector()
	describeTypes(reflector)
	oc, err := reflector.NewOperationContext(http.MethodGet, "/problem")
	if err != nil {
		return err
	}
	oc.AddRespStructure(refuse.Problem{})
	if err := reflector.AddOperation(oc); err != nil {
		return err
	}
	schemas := Dig(document, "components", "schemas")
	for name, schema := range reflector.Spec.Components.Schemas {
		schemas[name] = schema
	}
	Dig(document, "components")["headers"] = contractHeaders()
	Dig(document, "components")["responses"] = responses
	Dig(document, "components", "securitySchemes")["token"] = map[string]any{"type": "http", "scheme": "bearer", "description": "asked for where the service is open to others than this machine"}
	return nil
}

// limitsAsJSON are the limits of a route as GET /v1/limits tells them.
func (c *Source) limitsAsJSON(r *serve.Route) any {
	at := slices.IndexFunc(c.Limits, func(l serve.RouteLimits) bool { return l.Method == r.Method && l.Route == serve.ContractPath(r.Path) })
	text, err := json.Marshal(c.Limits[at])
	if err != nil {
		return nil
	}
	var tree map[string]any
	if err := json.Unmarshal(text, &tree); err != nil {
		return nil
	}
	delete(tree, "method")
	delete(tree, "route")
	return tree
}

func (c *Source) tags() []any {
	var names []string
	for i := range c.Routes {
		if r := &c.Routes[i]; !r.Asset && !slices.Contains(names, r.Tag) {
			names = append(names, r.Tag)
		}
	}
	var tags []any
	for _, name := range names {
		tags = append(tags, map[string]any{"name": name, "description": tagDescriptions[name]})
	}
	return tags
}

var tagDescriptions = map[string]string{
	"tables":       "Look-ups in the published tables, with the source of each value",
	"calculations": "Questions answered; safe to repeat",
	"rack":         "Billets, readings, events and places that are kept, where the service was started with a rack; without one these routes answer 404",
	"service":      "The service itself",
}

// Dig walks down the objects of a document; a missing one is made.
func Dig(from map[string]any, path ...string) map[string]any {
	for _, name := range path {
		next, ok := from[name].(map[string]any)
		if !ok {
			next = map[string]any{}
			from[name] = next
		}
		from = next
	}
	return from
}

// schemaNames are those of types whose name in the code is taken by another, or says less.
var schemaNames = map[string]string{
	"serve.BatchAnswer":  "BatchItemAnswer", // the other name is that of the answer of the batch
	"shelf.WoodAsked":    "Wood",
	"shelf.OwnFactor":    "DryingFactor",
	"shelf.FactorUsed":   "DryingFactorUsed",
	"serve.ShopLoss":     "SawingLoss",
	"serve.PlateSummary": "PartSize",
	"serve.PlateDetail":  "PartSizeDetail",
	"serve.MarkMeaning":  "ProvenanceMeaning",
	"method.Limit":       "MissedLimit",
	"serve.Limits":       "ServiceLimits",
	"serve.Other":        "OtherFigure",
	"shelf.Provenance":   "FigureUsed",
	"shelf.Mark":         "Provenance",
	"cut.BilletAnswer":   "PlannedBillet", // an Answer is a result with what it rests on
	"cut.SawAnswer":      "ComparedSaw",
	"cut.PlanYield":      "PlannedPart",
	"shape.PithPlace":    "SectionPith",
	"rack.StepVerdict":   "StandingVerdict",
	"rack.Line":          "CardLine",
	"rack.Noted":         "NoteSubject",
	"rack.OfWood":        "WoodReference",
	"rack.LeafOfAll":     "LeafOfPlan",
	"rack.MovementOf":    "RackMovementRequest",
	"rack.PlanOf":        "RackResawPlanRequest",
	"rack.ReadinessOf":   "RackReadinessRequest",
	"rack.TimingOf":      "RackResawTimingRequest",
}

// typeName names a schema after its Go type, without package and brackets.
func typeName(t reflect.Type) string {
	name := t.Name()
	if given, is := schemaNames[t.String()]; is {
		return given
	}
	open := strings.IndexByte(name, '[')
	if open < 0 {
		return wire.UpperFirst(name)
	}
	inner := name[open+1 : len(name)-1]
	inner = inner[strings.LastIndexByte(inner, '/')+1:]
	if given, is := schemaNames[inner]; is {
		inner = given
	}
	inner = inner[strings.LastIndexByte(inner, '.')+1:]
	inner = strings.TrimSuffix(wire.UpperFirst(inner), "Result")
	if strings.HasPrefix(inner, "Interface") {
		inner = "Any" // the answer of an item of a batch is that of any calculation
	}
	return inner + strings.TrimSuffix(name[:open], "Of")
}
