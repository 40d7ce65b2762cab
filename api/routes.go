package api

import (
	"net/http"
	"strings"
)

// routes is the whole service on one screen.
var routes = []route{
	{method: http.MethodPost, path: "/v1/readiness", id: "readiness", tag: "calculations", summary: "Is this billet ready, and for which step of the work", request: ReadinessRequest{}, result: Answer[*ReadinessResult]{}, forms: []form{drawnForm, tableForm}, heavy: true, handler: inTurn(computeReadiness)},
	{method: http.MethodPost, path: "/v1/seasoning", id: "seasoning", tag: "calculations", summary: "How a piece dries where it lies, and when it is dry", request: SeasoningRequest{}, result: Answer[*SeasoningResult]{}, forms: []form{drawnForm, tableForm}, heavy: true, handler: inTurn(computeSeasoning)},
	{method: http.MethodPost, path: "/v1/resaw", id: "resaw", tag: "calculations", summary: "The best plan to cut billets into sets", request: ResawRequest{}, result: Answer[*ResawResult]{}, forms: []form{drawnForm, templateForm}, heavy: true, handler: inTurn(computeResaw)},
	{method: http.MethodPost, path: "/v1/yield", id: "yield", tag: "calculations", summary: "What a billet yields of one part with this saw", request: YieldRequest{}, result: Answer[YieldResult]{}, handler: calculate(computeYield)},
	{method: http.MethodPost, path: "/v1/resaw/timing", id: "timing", tag: "calculations", summary: "Resaw the billet now, or dry it whole", request: TimingRequest{}, result: Answer[*TimingResult]{}, forms: []form{drawnForm}, heavy: true, handler: inTurn(computeTiming)},
	{method: http.MethodPost, path: "/v1/bookmatch", id: "bookmatch", tag: "calculations", summary: "How the two halves will match", request: BookmatchRequest{}, result: Answer[*BookmatchResult]{}, forms: []form{drawnForm}, handler: calculate(computeBookmatch)},
	{method: http.MethodPost, path: "/v1/movement", id: "movement", tag: "calculations", summary: "How far a dimension moves between two conditions", request: MovementRequest{}, result: Answer[MovementResult]{}, handler: calculate(computeMovement)},
	{method: http.MethodPost, path: "/v1/section", id: "section", tag: "calculations", summary: "How a board changes shape as it dries", request: SectionRequest{}, result: Answer[*SectionResult]{}, forms: []form{drawnForm, tableForm}, handler: calculate(computeSection)},
	{method: http.MethodPost, path: "/v1/laminate", id: "laminate", tag: "calculations", summary: "How glued layers bend, and what they hold", request: LaminateRequest{}, result: Answer[*LaminateResult]{}, forms: []form{drawnForm}, handler: calculate(computeLaminate)},
	{method: http.MethodPost, path: "/v1/movement-figures", id: "movement-figures", tag: "calculations", summary: "Movement of every part of an assembly, and the clearances it needs", request: FiguresRequest{}, result: Answer[*FiguresResult]{}, forms: []form{drawnForm, tableForm}, heavy: true, handler: tagged(inTurn(computeFigures))},
	{method: http.MethodPost, path: "/v1/in-service", id: "in-service", tag: "calculations", summary: "How finished parts live through the year of a room", request: InServiceRequest{}, result: Answer[*InServiceResult]{}, forms: []form{drawnForm, tableForm}, heavy: true, handler: inTurn(computeInService)},
	{method: http.MethodPost, path: "/v1/moisture", id: "moisture", tag: "calculations", summary: "Moisture content from weights and meters", request: MoistureRequest{}, result: Answer[MoistureResult]{}, handler: calculate(computeMoisture)},
	{method: http.MethodPost, path: "/v1/emc", id: "emc", tag: "calculations", summary: "Where wood settles in an air, or the air that keeps it", request: EMCRequest{}, result: Answer[EMCResult]{}, handler: calculate(computeEMC)},
	{method: http.MethodPost, path: "/v1/air", id: "air", tag: "calculations", summary: "Everything that follows from one measure of the air", request: AirRequest{}, result: Answer[AirResult]{}, handler: calculate(computeAir)},
	{method: http.MethodPost, path: "/v1/batch", id: "batch", tag: "calculations", summary: "Many calculations in one request", request: BatchRequest{}, result: Answer[BatchResult]{}, forms: []form{linesForm}, streams: true, handler: plain(batch)},
	{method: http.MethodGet, path: "/v1/species", id: "listSpecies", tag: "tables", summary: "Woods, by name or group", query: append([]parameter{{name: "q", description: "id or name; case, accents and word order do not matter, near spellings are found", example: "sugar maple"}, {name: "group", description: "hardwood, softwood or imported", choices: []string{"hardwood", "softwood", "imported"}}}, paging...), result: Page[SpeciesSummary]{}, handler: plain(listSpecies)},
	{method: http.MethodGet, path: "/v1/species/:id", id: "getSpecies", tag: "tables", summary: "All that the tables hold of a wood", result: SpeciesDetail{}, handler: plain(getSpecies)},
	{method: http.MethodGet, path: "/v1/stations", id: "listStations", tag: "tables", summary: "Places with monthly outdoor air, by name or nearest", query: append([]parameter{{name: "q", description: "name of the place"}, {name: "near", description: "degrees north and east: 43.1,-89.4"}, {name: "country", description: "country as listed"}}, paging...), result: Page[StationSummary]{}, handler: plain(listStations)},
	{method: http.MethodGet, path: "/v1/stations/:id", id: "getStation", tag: "tables", summary: "Twelve months of outdoor air at a place", query: []parameter{systemParameter}, result: StationDetail{}, handler: plain(getStation)},
	{method: http.MethodGet, path: "/v1/plates", id: "listPlates", tag: "tables", summary: "Parts of instruments with their usual sizes", query: append([]parameter{{name: "q", description: "id, instrument or part, such as dreadnought top; near spellings are found", example: "classical top"}, {name: "instrument", description: "instrument as listed"}, {name: "matching", description: "bookmatch, none or either", choices: []string{"bookmatch", "none", "either"}}, systemParameter}, paging...), result: Page[PlateSummary]{}, handler: plain(listPlates)},
	{method: http.MethodGet, path: "/v1/plates/:id", id: "getPlate", tag: "tables", summary: "All that the tables hold of a part", query: []parameter{systemParameter}, result: PlateDetail{}, handler: plain(getPlate)},
	{method: http.MethodGet, path: "/v1/saws", id: "listSaws", tag: "tables", summary: "Kerfs of saws, usual allowances and end trims", query: append([]parameter{{name: "q", description: "words of the name", example: "bandsaw"}, {name: "kind", description: "kerf, allowance or end_trim", choices: []string{"kerf", "allowance", "end_trim"}}, systemParameter}, paging...), result: Page[ShopLoss]{}, handler: plain(listSaws)},
	{method: http.MethodGet, path: "/v1/methods", id: "listMethods", tag: "tables", summary: "Every method with its range, accuracy and source", query: append([]parameter{{name: "chapter", description: "such as movement"}}, paging...), result: Page[MethodDetail]{}, handler: plain(listMethods)},
	{method: http.MethodGet, path: "/v1/limits", id: "limits", tag: "service", summary: "How much may be asked, and how often", result: Limits{}, handler: plain(limits)},
	{method: http.MethodGet, path: "/metrics", asset: true, handler: plain(metrics)},
	{method: http.MethodGet, path: "/livez", id: "livez", tag: "service", summary: "Is the process alive", result: Health{}, open: toProbes, handler: plain(livez)},
	{method: http.MethodGet, path: "/readyz", id: "readyz", tag: "service", summary: "Does it take requests", result: Health{}, open: toProbes, handler: plain(readyz)},
	{method: http.MethodGet, path: "/version", id: "version", tag: "service", summary: "Versions of the build, the contract and the tables", result: Version{}, handler: plain(version)},
	{method: http.MethodGet, path: "/", asset: true, open: toAll, handler: plain(pageFile("index.html"))},
	{method: http.MethodGet, path: "/page/page.css", asset: true, open: toAll, handler: plain(pageFile("page.css"))},
	{method: http.MethodGet, path: "/page/page.js", asset: true, open: toAll, handler: plain(pageFile("page.js"))},
	{method: http.MethodGet, path: "/openapi.json", asset: true, open: toAll, handler: plain(contractJSON)},
	{method: http.MethodGet, path: "/openapi.yaml", asset: true, open: toAll, handler: plain(contractYAML)},
	{method: http.MethodGet, path: "/docs", asset: true, open: toAll, handler: plain(docs)},
	{method: http.MethodGet, path: "/docs/*", asset: true, open: toAll, handler: plain(docs)},
	{method: http.MethodGet, path: "/problems/:kind", id: "problem", tag: "service", summary: "What a kind of problem means", result: problemKind{}, open: toAll, handler: plain(problemHelp)},
}

// TakesBody reports whether the path is that of a calculation, which is asked
// with a body.
func TakesBody(path string) bool {
	path, _, _ = strings.Cut(path, "?")
	for i := range routes {
		if routes[i].path == path {
			return routes[i].request != nil
		}
	}
	return false
}
