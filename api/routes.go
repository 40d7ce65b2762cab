package api

import (
	"strings"

	"latewood/api/internal/cut"
	"latewood/api/internal/dry"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/shape"
	"latewood/api/internal/wire"
	"latewood/api/internal/year"
)

// routes is the whole service on one screen; words.go says what each is for.
var routes = []serve.Route{
	question("/v1/readiness", "readiness", serve.InTurn(dry.ComputeReadiness, simulates), wire.DrawnForm, wire.TableForm),
	question("/v1/seasoning", "seasoning", serve.InTurn(dry.ComputeSeasoning, simulates), wire.DrawnForm, wire.TableForm),
	question("/v1/resaw", "resaw", serve.InTurn(cut.ComputeResaw, searches), wire.DrawnForm, wire.TemplateForm),
	question("/v1/yield", "yield", serve.Calculate(cut.ComputeYield)),
	question("/v1/resaw/timing", "timing", serve.InTurn(dry.ComputeTiming, simulates), wire.DrawnForm),
	question("/v1/bookmatch", "bookmatch", serve.Calculate(cut.ComputeBookmatch), wire.DrawnForm),
	question("/v1/movement", "movement", serve.Calculate(moist.ComputeMovement)),
	question("/v1/section", "section", serve.Calculate(shape.ComputeSection), wire.DrawnForm, wire.TableForm),
	question("/v1/laminate", "laminate", serve.Calculate(shape.ComputeLaminate), wire.DrawnForm),
	question("/v1/movement-figures", "movement-figures",
		serve.Tagged(serve.InTurn(year.ComputeFigures, simulates)), wire.DrawnForm, wire.TableForm),
	question("/v1/in-service", "in-service", serve.InTurn(year.ComputeInService, simulates), wire.DrawnForm, wire.TableForm),
	question("/v1/moisture", "moisture", serve.Calculate(moist.ComputeMoisture)),
	question("/v1/emc", "emc", serve.Calculate(moist.ComputeEMC)),
	question("/v1/air", "air", serve.Calculate(moist.ComputeAir)),
	questions("/v1/batch", "batch", serve.BatchRequest{}, serve.Answer[serve.BatchResult]{}, serve.Batch, serve.LinesForm),

	list("/v1/species", "listSpecies", serve.Page[serve.SpeciesSummary]{}, serve.ListSpecies, speciesQuery...),
	entry("/v1/species/:id", "getSpecies", serve.SpeciesDetail{}, serve.GetSpecies),
	list("/v1/stations", "listStations", serve.Page[serve.StationSummary]{}, serve.ListStations, stationsQuery...),
	entry("/v1/stations/:id", "getStation", serve.StationDetail{}, serve.GetStation, systemQuery...),
	list("/v1/plates", "listPlates", serve.Page[serve.PlateSummary]{}, serve.ListPlates, platesQuery...),
	entry("/v1/plates/:id", "getPlate", serve.PlateDetail{}, serve.GetPlate, systemQuery...),
	list("/v1/saws", "listSaws", serve.Page[serve.ShopLoss]{}, serve.ListSaws, sawsQuery...),
	list("/v1/methods", "listMethods", serve.Page[serve.MethodDetail]{}, serve.ListMethods, methodsQuery...),

	about("/v1/limits", "limits", serve.Limits{}, serve.ToCallers, serve.TellLimits),
	asset("/metrics", serve.ToCallers, serve.Metrics),
	about("/livez", "livez", serve.Health{}, serve.ToProbes, serve.Livez),
	about("/readyz", "readyz", serve.Health{}, serve.ToProbes, serve.Readyz),
	about("/version", "version", serve.Version{}, serve.ToCallers, serve.TellVersion),
	asset("/", serve.ToAll, serve.PageFile("index.html")),
	asset("/page/page.css", serve.ToAll, serve.PageFile("page.css")),
	asset("/page/page.js", serve.ToAll, serve.PageFile("page.js")),
	asset("/licences", serve.ToAll, serve.Licences),
	asset("/openapi.json", serve.ToAll, serve.ContractJSON),
	asset("/openapi.yaml", serve.ToAll, serve.ContractYAML),
	asset("/docs", serve.ToAll, serve.Docs),
	asset("/docs/*", serve.ToAll, serve.Docs),
	about("/problems/:kind", "problem", serve.ProblemKind{}, serve.ToAll, serve.ProblemHelp),
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
