package api

import (
	"latewood/api/internal/cut"
	"latewood/api/internal/dry"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/shape"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/api/internal/year"
	"net/http"
	"strings"
)

// routes is the whole service on one screen.
var routes = []serve.Route{
	{Method: http.MethodPost, Path: "/v1/readiness", ID: "readiness", Tag: "calculations", Summary: "Is this billet ready, and for which step of the work", Request: dry.ReadinessRequest{}, Result: serve.Answer[*dry.ReadinessResult]{}, Forms: []wire.Form{wire.DrawnForm, wire.TableForm}, Heavy: true, Handler: serve.InTurn(dry.ComputeReadiness)},
	{Method: http.MethodPost, Path: "/v1/seasoning", ID: "seasoning", Tag: "calculations", Summary: "How a piece dries where it lies, and when it is dry", Request: dry.SeasoningRequest{}, Result: serve.Answer[*dry.SeasoningResult]{}, Forms: []wire.Form{wire.DrawnForm, wire.TableForm}, Heavy: true, Handler: serve.InTurn(dry.ComputeSeasoning)},
	{Method: http.MethodPost, Path: "/v1/resaw", ID: "resaw", Tag: "calculations", Summary: "The best plan to cut billets into sets", Request: cut.ResawRequest{}, Result: serve.Answer[*cut.ResawResult]{}, Forms: []wire.Form{wire.DrawnForm, wire.TemplateForm}, Heavy: true, Handler: serve.InTurn(cut.ComputeResaw)},
	{Method: http.MethodPost, Path: "/v1/yield", ID: "yield", Tag: "calculations", Summary: "What a billet yields of one part with this saw", Request: cut.YieldRequest{}, Result: serve.Answer[shelf.YieldResult]{}, Handler: serve.Calculate(cut.ComputeYield)},
	{Method: http.MethodPost, Path: "/v1/resaw/timing", ID: "timing", Tag: "calculations", Summary: "Resaw the billet now, or dry it whole", Request: dry.TimingRequest{}, Result: serve.Answer[*dry.TimingResult]{}, Forms: []wire.Form{wire.DrawnForm}, Heavy: true, Handler: serve.InTurn(dry.ComputeTiming)},
	{Method: http.MethodPost, Path: "/v1/bookmatch", ID: "bookmatch", Tag: "calculations", Summary: "How the two halves will match", Request: cut.BookmatchRequest{}, Result: serve.Answer[*cut.BookmatchResult]{}, Forms: []wire.Form{wire.DrawnForm}, Handler: serve.Calculate(cut.ComputeBookmatch)},
	{Method: http.MethodPost, Path: "/v1/movement", ID: "movement", Tag: "calculations", Summary: "How far a dimension moves between two conditions", Request: moist.MovementRequest{}, Result: serve.Answer[moist.MovementResult]{}, Handler: serve.Calculate(moist.ComputeMovement)},
	{Method: http.MethodPost, Path: "/v1/section", ID: "section", Tag: "calculations", Summary: "How a board changes shape as it dries", Request: shape.SectionRequest{}, Result: serve.Answer[*shape.SectionResult]{}, Forms: []wire.Form{wire.DrawnForm, wire.TableForm}, Handler: serve.Calculate(shape.ComputeSection)},
	{Method: http.MethodPost, Path: "/v1/laminate", ID: "laminate", Tag: "calculations", Summary: "How glued layers bend, and what they hold", Request: shape.LaminateRequest{}, Result: serve.Answer[*shape.LaminateResult]{}, Forms: []wire.Form{wire.DrawnForm}, Handler: serve.Calculate(shape.ComputeLaminate)},
	{Method: http.MethodPost, Path: "/v1/movement-figures", ID: "movement-figures", Tag: "calculations", Summary: "Movement of every part of an assembly, and the clearances it needs", Request: year.FiguresRequest{}, Result: serve.Answer[*year.FiguresResult]{}, Forms: []wire.Form{wire.DrawnForm, wire.TableForm}, Heavy: true, Handler: serve.Tagged(serve.InTurn(year.ComputeFigures))},
	{Method: http.MethodPost, Path: "/v1/in-service", ID: "in-service", Tag: "calculations", Summary: "How finished parts live through the year of a room", Request: year.InServiceRequest{}, Result: serve.Answer[*year.InServiceResult]{}, Forms: []wire.Form{wire.DrawnForm, wire.TableForm}, Heavy: true, Handler: serve.InTurn(year.ComputeInService)},
	{Method: http.MethodPost, Path: "/v1/moisture", ID: "moisture", Tag: "calculations", Summary: "Moisture content from weights and meters", Request: moist.MoistureRequest{}, Result: serve.Answer[moist.MoistureResult]{}, Handler: serve.Calculate(moist.ComputeMoisture)},
	{Method: http.MethodPost, Path: "/v1/emc", ID: "emc", Tag: "calculations", Summary: "Where wood settles in an air, or the air that keeps it", Request: moist.EMCRequest{}, Result: serve.Answer[moist.EMCResult]{}, Handler: serve.Calculate(moist.ComputeEMC)},
	{Method: http.MethodPost, Path: "/v1/air", ID: "air", Tag: "calculations", Summary: "Everything that follows from one measure of the air", Request: moist.AirRequest{}, Result: serve.Answer[moist.AirResult]{}, Handler: serve.Calculate(moist.ComputeAir)},
	{Method: http.MethodPost, Path: "/v1/batch", ID: "batch", Tag: "calculations", Summary: "Many calculations in one request", Request: serve.BatchRequest{}, Result: serve.Answer[serve.BatchResult]{}, Forms: []wire.Form{serve.LinesForm}, Streams: true, Handler: serve.Plain(serve.Batch)},
	{Method: http.MethodGet, Path: "/v1/species", ID: "listSpecies", Tag: "tables", Summary: "Woods, by name or group", Query: append([]serve.Parameter{{Name: "q", Description: "id or name; case, accents and word order do not matter, near spellings are found", Example: "sugar maple"}, {Name: "group", Description: "hardwood, softwood or imported", Choices: []string{"hardwood", "softwood", "imported"}}}, serve.Paging...), Result: serve.Page[serve.SpeciesSummary]{}, Handler: serve.Plain(serve.ListSpecies)},
	{Method: http.MethodGet, Path: "/v1/species/:id", ID: "getSpecies", Tag: "tables", Summary: "All that the tables hold of a wood", Result: serve.SpeciesDetail{}, Handler: serve.Plain(serve.GetSpecies)},
	{Method: http.MethodGet, Path: "/v1/stations", ID: "listStations", Tag: "tables", Summary: "Places with monthly outdoor air, by name or nearest", Query: append([]serve.Parameter{{Name: "q", Description: "name of the place"}, {Name: "near", Description: "degrees north and east: 43.1,-89.4"}, {Name: "country", Description: "country as listed"}}, serve.Paging...), Result: serve.Page[serve.StationSummary]{}, Handler: serve.Plain(serve.ListStations)},
	{Method: http.MethodGet, Path: "/v1/stations/:id", ID: "getStation", Tag: "tables", Summary: "Twelve months of outdoor air at a place", Query: []serve.Parameter{serve.SystemParameter}, Result: serve.StationDetail{}, Handler: serve.Plain(serve.GetStation)},
	{Method: http.MethodGet, Path: "/v1/plates", ID: "listPlates", Tag: "tables", Summary: "Parts of instruments with their usual sizes", Query: append([]serve.Parameter{{Name: "q", Description: "id, instrument or part, such as dreadnought top; near spellings are found", Example: "classical top"}, {Name: "instrument", Description: "instrument as listed"}, {Name: "matching", Description: "bookmatch, none or either", Choices: []string{"bookmatch", "none", "either"}}, serve.SystemParameter}, serve.Paging...), Result: serve.Page[serve.PlateSummary]{}, Handler: serve.Plain(serve.ListPlates)},
	{Method: http.MethodGet, Path: "/v1/plates/:id", ID: "getPlate", Tag: "tables", Summary: "All that the tables hold of a part", Query: []serve.Parameter{serve.SystemParameter}, Result: serve.PlateDetail{}, Handler: serve.Plain(serve.GetPlate)},
	{Method: http.MethodGet, Path: "/v1/saws", ID: "listSaws", Tag: "tables", Summary: "Kerfs of saws, usual allowances and end trims", Query: append([]serve.Parameter{{Name: "q", Description: "words of the name", Example: "bandsaw"}, {Name: "kind", Description: "kerf, allowance or end_trim", Choices: []string{"kerf", "allowance", "end_trim"}}, serve.SystemParameter}, serve.Paging...), Result: serve.Page[serve.ShopLoss]{}, Handler: serve.Plain(serve.ListSaws)},
	{Method: http.MethodGet, Path: "/v1/methods", ID: "listMethods", Tag: "tables", Summary: "Every method with its range, accuracy and source", Query: append([]serve.Parameter{{Name: "chapter", Description: "such as movement"}}, serve.Paging...), Result: serve.Page[serve.MethodDetail]{}, Handler: serve.Plain(serve.ListMethods)},
	{Method: http.MethodGet, Path: "/v1/limits", ID: "limits", Tag: "service", Summary: "How much may be asked, and how often", Result: serve.Limits{}, Handler: serve.Plain(serve.TellLimits)},
	{Method: http.MethodGet, Path: "/metrics", Asset: true, Handler: serve.Plain(serve.Metrics)},
	{Method: http.MethodGet, Path: "/livez", ID: "livez", Tag: "service", Summary: "Is the process alive", Result: serve.Health{}, Open: serve.ToProbes, Handler: serve.Plain(serve.Livez)},
	{Method: http.MethodGet, Path: "/readyz", ID: "readyz", Tag: "service", Summary: "Does it take requests", Result: serve.Health{}, Open: serve.ToProbes, Handler: serve.Plain(serve.Readyz)},
	{Method: http.MethodGet, Path: "/version", ID: "version", Tag: "service", Summary: "Versions of the build, the contract and the tables", Result: serve.Version{}, Handler: serve.Plain(serve.TellVersion)},
	{Method: http.MethodGet, Path: "/", Asset: true, Open: serve.ToAll, Handler: serve.Plain(serve.PageFile("index.html"))},
	{Method: http.MethodGet, Path: "/page/page.css", Asset: true, Open: serve.ToAll, Handler: serve.Plain(serve.PageFile("page.css"))},
	{Method: http.MethodGet, Path: "/page/page.js", Asset: true, Open: serve.ToAll, Handler: serve.Plain(serve.PageFile("page.js"))},
	{Method: http.MethodGet, Path: "/openapi.json", Asset: true, Open: serve.ToAll, Handler: serve.Plain(serve.ContractJSON)},
	{Method: http.MethodGet, Path: "/openapi.yaml", Asset: true, Open: serve.ToAll, Handler: serve.Plain(serve.ContractYAML)},
	{Method: http.MethodGet, Path: "/docs", Asset: true, Open: serve.ToAll, Handler: serve.Plain(serve.Docs)},
	{Method: http.MethodGet, Path: "/docs/*", Asset: true, Open: serve.ToAll, Handler: serve.Plain(serve.Docs)},
	{Method: http.MethodGet, Path: "/problems/:kind", ID: "problem", Tag: "service", Summary: "What a kind of problem means", Result: serve.ProblemKind{}, Open: serve.ToAll, Handler: serve.Plain(serve.ProblemHelp)},
}

// TakesBody reports whether the path is that of a calculation, which is asked
// with a body.
func TakesBody(path string) bool {
	path, _, _ = strings.Cut(path, "?")
	for i := range routes {
		if routes[i].Path == path {
			return routes[i].Request != nil
		}
	}
	return false
}
