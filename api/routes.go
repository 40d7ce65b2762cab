package api

import (
	"slices"
	"strings"

	"latewood/api/internal/cut"
	"latewood/api/internal/dry"
	"latewood/api/internal/mill"
	"latewood/api/internal/moist"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
	"latewood/api/internal/shape"
	"latewood/api/internal/wire"
	"latewood/api/internal/year"
)

// What is asked with a billet, or of one on the rack.
var (
	readinessWork = serve.InTurn(dry.ComputeReadiness, simulates)
	timingWork    = serve.InTurn(dry.ComputeTiming, simulates)
	planWork      = serve.InTurn(cut.ComputeResaw, searches)
	movementWork  = serve.Calculate(moist.ComputeMovement)
)

// routes is the whole service on one screen; words.go says what each is for. What is kept
// has the same routes for each kind of entry: rack_rows.go.
var routes = slices.Concat(calculatorRoutes, rackRoutes())

var calculatorRoutes = []serve.Route{
	question("/v1/readiness", "assessReadiness", readinessWork, wire.DrawnForm, wire.TableForm),
	question("/v1/seasoning", "forecastSeasoning", serve.InTurn(dry.ComputeSeasoning, simulates), wire.DrawnForm, wire.TableForm),
	question("/v1/resaw-plan", "planResaw", planWork, wire.DrawnForm, wire.TableForm,
		wire.PrintedForm, wire.PlotForm, wire.TemplateForm, wire.PrintedTemplateForm, wire.LabelsForm),
	question("/v1/log-plan", "planLog", serve.Calculate(mill.ComputeLog), wire.DrawnForm),
	question("/v1/leaf-yield", "calculateLeafYield", serve.Calculate(cut.ComputeYield)),
	question("/v1/resaw-timing", "compareResawTiming", timingWork, wire.DrawnForm),
	question("/v1/bookmatch", "matchLeaves", serve.Calculate(cut.ComputeBookmatch), wire.DrawnForm),
	question("/v1/movement", "calculateMovement", movementWork),
	question("/v1/section-shape", "calculateSectionShape", serve.Calculate(shape.ComputeSection), wire.DrawnForm, wire.TableForm),
	question("/v1/laminate", "calculateLaminate", serve.Calculate(shape.ComputeLaminate), wire.DrawnForm),
	question("/v1/assembly-movement", "calculateAssemblyMovement",
		serve.Tagged(serve.InTurn(year.ComputeFigures, simulates)), wire.DrawnForm, wire.TableForm, wire.PairsForm),
	question("/v1/year-in-service", "simulateYearInService", serve.InTurn(year.ComputeInService, lives), wire.DrawnForm, wire.TableForm),
	question("/v1/moisture", "estimateMoisture", serve.Calculate(moist.ComputeMoisture)),
	question("/v1/emc", "calculateEmc", serve.Calculate(moist.ComputeEMC)),
	question("/v1/air", "calculateAir", serve.Calculate(moist.ComputeAir)),
	questions("/v1/batch", "runBatch", serve.BatchRequest{}, serve.Answer[serve.BatchResult]{}, serve.Batch, serve.LinesForm),

	list("/v1/species", "listSpecies", serve.Page[serve.SpeciesSummary]{}, serve.ListSpecies, speciesQuery...),
	entry("/v1/species/:id", "getSpecies", serve.SpeciesDetail{}, serve.GetSpecies),
	list("/v1/stations", "listStations", serve.Page[serve.StationSummary]{}, serve.ListStations, stationsQuery...),
	entry("/v1/stations/:id", "getStation", serve.StationDetail{}, serve.GetStation, systemQuery...),
	list("/v1/part-sizes", "listPartSizes", serve.Page[serve.PlateSummary]{}, serve.ListPlates, platesQuery...),
	entry("/v1/part-sizes/:id", "getPartSize", serve.PlateDetail{}, serve.GetPlate, systemQuery...),
	list("/v1/sawing-losses", "listSawingLosses", serve.Page[serve.ShopLoss]{}, serve.ListSaws, sawsQuery...),
	list("/v1/methods", "listMethods", serve.Page[serve.MethodDetail]{}, serve.ListMethods, methodsQuery...),

	about("/v1/limits", "getLimits", serve.Limits{}, serve.ToCallers, serve.TellLimits),
	asset("/metrics", serve.ToCallers, serve.Metrics),
	about("/livez", "getLiveness", serve.Health{}, serve.ToProbes, serve.Livez),
	about("/readyz", "getServiceReadiness", serve.Health{}, serve.ToProbes, serve.Readyz),
	about("/version", "getVersion", serve.Version{}, serve.ToCallers, serve.TellVersion),
	asset("/", serve.ToAll, serve.PageFile("index.html")),
	asset("/b/:id", serve.ToAll, serve.PageFile("index.html")),
	asset("/B/:id", serve.ToAll, serve.PageFile("index.html")),
	asset("/p/:id", serve.ToAll, serve.PageFile("index.html")),
	asset("/P/:id", serve.ToAll, serve.PageFile("index.html")),
	asset("/page/*", serve.ToAll, serve.PageFiles),
	asset("/worker.js", serve.ToAll, serve.PageFile("worker.js")),
	asset("/licences", serve.ToAll, serve.Licences),
	asset("/openapi.json", serve.ToAll, serve.ContractJSON),
	asset("/openapi.yaml", serve.ToAll, serve.ContractYAML),
	about("/guides", "listGuides", serve.GuideList{}, serve.ToAll, serve.ListGuides(guides)),
	asset("/guides/:name", serve.ToAll, serve.Guides(guides)),
	asset("/docs", serve.ToAll, serve.Docs),
	asset("/docs/*", serve.ToAll, serve.Docs),
	about("/problems/:kind", "getProblemType", refuse.ProblemKind{}, serve.ToAll, serve.ProblemHelp),
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
