// Code generated from the contract by api/client/generate. DO NOT EDIT.

package client

import (
	"context"
	"net/url"
)

// ContractVersion is that of the contract this client was made from.
const ContractVersion = "1.0.0"

// GetLiveness: Is the process alive (/livez).
func (c *Client) GetLiveness(ctx context.Context, options ...Option) (Health, error) {
	return look[Health](ctx, c, "/livez", options)
}

// GetProblemType: What a kind of problem means (/problems/{kind}).
func (c *Client) GetProblemType(ctx context.Context, kind string, options ...Option) (ProblemKind, error) {
	return look[ProblemKind](ctx, c, "/problems/"+url.PathEscape(kind), options)
}

// GetServiceReadiness: Does it take requests (/readyz).
func (c *Client) GetServiceReadiness(ctx context.Context, options ...Option) (Health, error) {
	return look[Health](ctx, c, "/readyz", options)
}

// CalculateAir: Everything that follows from one measure of the air (/v1/air).
func (c *Client) CalculateAir(ctx context.Context, request AirRequest, options ...Option) (Answer[AirResult], error) {
	return Ask[AirResult](ctx, c, "/v1/air", request, options...)
}

// CalculateAssemblyMovement: Movement of every part of an assembly, and the clearances it needs (/v1/assembly-movement).
func (c *Client) CalculateAssemblyMovement(ctx context.Context, request AssemblyMovementRequest, options ...Option) (Answer[AssemblyMovementResult], error) {
	return Ask[AssemblyMovementResult](ctx, c, "/v1/assembly-movement", request, options...)
}

// MatchLeaves: How the two halves will match (/v1/bookmatch).
func (c *Client) MatchLeaves(ctx context.Context, request BookmatchRequest, options ...Option) (Answer[BookmatchResult], error) {
	return Ask[BookmatchResult](ctx, c, "/v1/bookmatch", request, options...)
}

// CalculateEmc: Where wood settles in an air, or the air that keeps it (/v1/emc).
func (c *Client) CalculateEmc(ctx context.Context, request EMCRequest, options ...Option) (Answer[EMCResult], error) {
	return Ask[EMCResult](ctx, c, "/v1/emc", request, options...)
}

// CalculateLaminate: How glued layers bend, and what they hold (/v1/laminate).
func (c *Client) CalculateLaminate(ctx context.Context, request LaminateRequest, options ...Option) (Answer[LaminateResult], error) {
	return Ask[LaminateResult](ctx, c, "/v1/laminate", request, options...)
}

// CalculateLeafYield: What a billet yields of one part with this saw (/v1/leaf-yield).
func (c *Client) CalculateLeafYield(ctx context.Context, request LeafYieldRequest, options ...Option) (Answer[LeafYieldResult], error) {
	return Ask[LeafYieldResult](ctx, c, "/v1/leaf-yield", request, options...)
}

// GetLimits: How much may be asked, and how often (/v1/limits).
func (c *Client) GetLimits(ctx context.Context, options ...Option) (ServiceLimits, error) {
	return look[ServiceLimits](ctx, c, "/v1/limits", options)
}

// PlanLog: What billets a log gives (/v1/log-plan).
func (c *Client) PlanLog(ctx context.Context, request LogPlanRequest, options ...Option) (Answer[LogPlanResult], error) {
	return Ask[LogPlanResult](ctx, c, "/v1/log-plan", request, options...)
}

// ListMethods: Every method with its range, accuracy and source (/v1/methods).
// With("chapter", ...): such as movement.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListMethods(ctx context.Context, options ...Option) (MethodDetailPage, error) {
	return look[MethodDetailPage](ctx, c, "/v1/methods", options)
}

// EstimateMoisture: Moisture content from weights and meters (/v1/moisture).
func (c *Client) EstimateMoisture(ctx context.Context, request MoistureRequest, options ...Option) (Answer[MoistureResult], error) {
	return Ask[MoistureResult](ctx, c, "/v1/moisture", request, options...)
}

// CalculateMovement: How far a dimension moves between two conditions (/v1/movement).
func (c *Client) CalculateMovement(ctx context.Context, request MovementRequest, options ...Option) (Answer[MovementResult], error) {
	return Ask[MovementResult](ctx, c, "/v1/movement", request, options...)
}

// ListPartSizes: Parts of instruments with their usual sizes (/v1/part-sizes).
// With("q", ...): id, instrument or part, such as dreadnought top; near spellings are found.
// With("instrument", ...): instrument as listed.
// With("match", ...): bookmatch, none or either.
// With("report_in", ...): metric or inch.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListPartSizes(ctx context.Context, options ...Option) (PartSizePage, error) {
	return look[PartSizePage](ctx, c, "/v1/part-sizes", options)
}

// GetPartSize: All that the tables hold of a part (/v1/part-sizes/{id}).
// With("report_in", ...): metric or inch.
func (c *Client) GetPartSize(ctx context.Context, id string, options ...Option) (PartSizeDetail, error) {
	return look[PartSizeDetail](ctx, c, "/v1/part-sizes/"+url.PathEscape(id), options)
}

// ListBillets: The billets on the rack (/v1/rack/billets).
// With("q", ...): part of an id or a name.
// With("species", ...): id of a wood of the tables.
// With("place", ...): id of the place.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListBillets(ctx context.Context, options ...Option) (KeptBilletPage, error) {
	return look[KeptBilletPage](ctx, c, "/v1/rack/billets", options)
}

// GetBillet: One billet on the rack (/v1/rack/billets/{id}).
func (c *Client) GetBillet(ctx context.Context, id string, options ...Option) (KeptBillet, error) {
	return look[KeptBillet](ctx, c, "/v1/rack/billets/"+url.PathEscape(id), options)
}

// GetBilletCard: What is known of one billet (/v1/rack/billets/{id}/card).
// With("wait_seconds", ...): how long answers that are being worked out are waited for.
// With("as", ...): form of the answer, in place of the Accept header: json, html.
func (c *Client) GetBilletCard(ctx context.Context, id string, options ...Option) (Card, error) {
	return look[Card](ctx, c, "/v1/rack/billets/"+url.PathEscape(id)+"/card", options)
}

// ListBilletVersions: Every version of a billet on the rack (/v1/rack/billets/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListBilletVersions(ctx context.Context, id string, options ...Option) (KeptBilletPage, error) {
	return look[KeptBilletPage](ctx, c, "/v1/rack/billets/"+url.PathEscape(id)+"/history", options)
}

// GetRackCalendar: What is to be read and what will be ready, by day (/v1/rack/calendar).
// With("wait_seconds", ...): how long answers that are being worked out are waited for.
// With("as", ...): form of the answer, in place of the Accept header: json, ics.
func (c *Client) GetRackCalendar(ctx context.Context, options ...Option) (Calendar, error) {
	return look[Calendar](ctx, c, "/v1/rack/calendar", options)
}

// ListEvents: The events on the rack (/v1/rack/events).
// With("billet", ...): id of the billet.
// With("piece", ...): id of the piece.
// With("kind", ...): kind of the event.
// With("place", ...): id of the place.
// With("from", ...): first day, such as 2026-03-01.
// With("until", ...): last day, such as 2026-03-01.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListEvents(ctx context.Context, options ...Option) (KeptEventPage, error) {
	return look[KeptEventPage](ctx, c, "/v1/rack/events", options)
}

// GetEvent: One event on the rack (/v1/rack/events/{id}).
func (c *Client) GetEvent(ctx context.Context, id string, options ...Option) (KeptEvent, error) {
	return look[KeptEvent](ctx, c, "/v1/rack/events/"+url.PathEscape(id), options)
}

// ListEventVersions: Every version of an event on the rack (/v1/rack/events/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListEventVersions(ctx context.Context, id string, options ...Option) (KeptEventPage, error) {
	return look[KeptEventPage](ctx, c, "/v1/rack/events/"+url.PathEscape(id)+"/history", options)
}

// ListLabels: Labels for the wood on the rack (/v1/rack/labels).
// With("billet", ...): id of a billet: of it and what was cut from it.
// With("place", ...): id of the place.
// With("species", ...): id of a wood of the tables.
// With("base", ...): address of this service that the labels lead to, such as https://shop.example. Left out: that of this request.
// With("as", ...): form of the answer, in place of the Accept header: json, html.
func (c *Client) ListLabels(ctx context.Context, options ...Option) (Labels, error) {
	return look[Labels](ctx, c, "/v1/rack/labels", options)
}

// ListNotes: The notes on the rack (/v1/rack/notes).
// With("billet", ...): id of the billet.
// With("piece", ...): id of the piece.
// With("from", ...): first day, such as 2026-03-01.
// With("until", ...): last day, such as 2026-03-01.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListNotes(ctx context.Context, options ...Option) (KeptNotePage, error) {
	return look[KeptNotePage](ctx, c, "/v1/rack/notes", options)
}

// GetNote: One note on the rack (/v1/rack/notes/{id}).
func (c *Client) GetNote(ctx context.Context, id string, options ...Option) (KeptNote, error) {
	return look[KeptNote](ctx, c, "/v1/rack/notes/"+url.PathEscape(id), options)
}

// ListNoteVersions: Every version of a note on the rack (/v1/rack/notes/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListNoteVersions(ctx context.Context, id string, options ...Option) (KeptNotePage, error) {
	return look[KeptNotePage](ctx, c, "/v1/rack/notes/"+url.PathEscape(id)+"/history", options)
}

// GetRackOverview: What is ready, what is next, what to weigh (/v1/rack/overview).
// With("wait_seconds", ...): how long answers that are being worked out are waited for.
// With("limit", ...): entries of each list.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv, svg, html.
// With("width", ...): room for the drawing on a screen, in px: it is laid out for that and comes as wide, no text is less than 11 px high, its colours follow those of the page it stands in, and its title tells lengths as they were sent. Each path that has the form svg takes it. Left out: as it is printed.
func (c *Client) GetRackOverview(ctx context.Context, options ...Option) (Overview, error) {
	return look[Overview](ctx, c, "/v1/rack/overview", options)
}

// ListPieces: The pieces on the rack (/v1/rack/pieces).
// With("q", ...): part of an id or a name.
// With("billet", ...): id of the billet.
// With("piece", ...): id of the piece.
// With("species", ...): id of a wood of the tables.
// With("place", ...): id of the place.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListPieces(ctx context.Context, options ...Option) (KeptPiecePage, error) {
	return look[KeptPiecePage](ctx, c, "/v1/rack/pieces", options)
}

// GetPiece: One piece on the rack (/v1/rack/pieces/{id}).
func (c *Client) GetPiece(ctx context.Context, id string, options ...Option) (KeptPiece, error) {
	return look[KeptPiece](ctx, c, "/v1/rack/pieces/"+url.PathEscape(id), options)
}

// GetPieceCard: What is known of one piece (/v1/rack/pieces/{id}/card).
// With("wait_seconds", ...): how long answers that are being worked out are waited for.
// With("as", ...): form of the answer, in place of the Accept header: json, html.
func (c *Client) GetPieceCard(ctx context.Context, id string, options ...Option) (Card, error) {
	return look[Card](ctx, c, "/v1/rack/pieces/"+url.PathEscape(id)+"/card", options)
}

// ListPieceVersions: Every version of a piece on the rack (/v1/rack/pieces/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListPieceVersions(ctx context.Context, id string, options ...Option) (KeptPiecePage, error) {
	return look[KeptPiecePage](ctx, c, "/v1/rack/pieces/"+url.PathEscape(id)+"/history", options)
}

// ListPlaces: The places on the rack (/v1/rack/places).
// With("q", ...): part of an id or a name.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListPlaces(ctx context.Context, options ...Option) (KeptPlacePage, error) {
	return look[KeptPlacePage](ctx, c, "/v1/rack/places", options)
}

// GetPlace: One place on the rack (/v1/rack/places/{id}).
func (c *Client) GetPlace(ctx context.Context, id string, options ...Option) (KeptPlace, error) {
	return look[KeptPlace](ctx, c, "/v1/rack/places/"+url.PathEscape(id), options)
}

// ListPlaceVersions: Every version of a place on the rack (/v1/rack/places/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListPlaceVersions(ctx context.Context, id string, options ...Option) (KeptPlacePage, error) {
	return look[KeptPlacePage](ctx, c, "/v1/rack/places/"+url.PathEscape(id)+"/history", options)
}

// ListPlans: The plans on the rack (/v1/rack/plans).
// With("q", ...): part of an id or a name.
// With("billet", ...): id of the billet.
// With("piece", ...): id of the piece.
// With("from", ...): first day, such as 2026-03-01.
// With("until", ...): last day, such as 2026-03-01.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListPlans(ctx context.Context, options ...Option) (KeptPlanPage, error) {
	return look[KeptPlanPage](ctx, c, "/v1/rack/plans", options)
}

// GetPlan: One plan on the rack (/v1/rack/plans/{id}).
func (c *Client) GetPlan(ctx context.Context, id string, options ...Option) (KeptPlan, error) {
	return look[KeptPlan](ctx, c, "/v1/rack/plans/"+url.PathEscape(id), options)
}

// ListPlanVersions: Every version of a plan on the rack (/v1/rack/plans/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListPlanVersions(ctx context.Context, id string, options ...Option) (KeptPlanPage, error) {
	return look[KeptPlanPage](ctx, c, "/v1/rack/plans/"+url.PathEscape(id)+"/history", options)
}

// GetRackProgress: How far the answers of the overview are (/v1/rack/progress).
// With("as", ...): form of the answer, in place of the Accept header: json, events.
func (c *Client) GetRackProgress(ctx context.Context, options ...Option) (Progress, error) {
	return look[Progress](ctx, c, "/v1/rack/progress", options)
}

// ListReadings: The readings on the rack (/v1/rack/readings).
// With("billet", ...): id of the billet.
// With("piece", ...): id of the piece.
// With("kind", ...): kind of the reading.
// With("from", ...): first day, such as 2026-03-01.
// With("until", ...): last day, such as 2026-03-01.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListReadings(ctx context.Context, options ...Option) (KeptReadingPage, error) {
	return look[KeptReadingPage](ctx, c, "/v1/rack/readings", options)
}

// GetReading: One reading on the rack (/v1/rack/readings/{id}).
func (c *Client) GetReading(ctx context.Context, id string, options ...Option) (KeptReading, error) {
	return look[KeptReading](ctx, c, "/v1/rack/readings/"+url.PathEscape(id), options)
}

// ListReadingVersions: Every version of a reading on the rack (/v1/rack/readings/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListReadingVersions(ctx context.Context, id string, options ...Option) (KeptReadingPage, error) {
	return look[KeptReadingPage](ctx, c, "/v1/rack/readings/"+url.PathEscape(id)+"/history", options)
}

// ListStays: The stays on the rack (/v1/rack/stays).
// With("billet", ...): id of the billet.
// With("piece", ...): id of the piece.
// With("place", ...): id of the place.
// With("from", ...): first day, such as 2026-03-01.
// With("until", ...): last day, such as 2026-03-01.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListStays(ctx context.Context, options ...Option) (KeptStayPage, error) {
	return look[KeptStayPage](ctx, c, "/v1/rack/stays", options)
}

// GetStay: One stay on the rack (/v1/rack/stays/{id}).
func (c *Client) GetStay(ctx context.Context, id string, options ...Option) (KeptStay, error) {
	return look[KeptStay](ctx, c, "/v1/rack/stays/"+url.PathEscape(id), options)
}

// ListStayVersions: Every version of a stay on the rack (/v1/rack/stays/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListStayVersions(ctx context.Context, id string, options ...Option) (KeptStayPage, error) {
	return look[KeptStayPage](ctx, c, "/v1/rack/stays/"+url.PathEscape(id)+"/history", options)
}

// ListTargets: The targets on the rack (/v1/rack/targets).
// With("q", ...): part of an id or a name.
// With("removed", ...): those that were taken off the rack, in place of those that are on it.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv.
func (c *Client) ListTargets(ctx context.Context, options ...Option) (KeptTargetPage, error) {
	return look[KeptTargetPage](ctx, c, "/v1/rack/targets", options)
}

// GetTarget: One target on the rack (/v1/rack/targets/{id}).
func (c *Client) GetTarget(ctx context.Context, id string, options ...Option) (KeptTarget, error) {
	return look[KeptTarget](ctx, c, "/v1/rack/targets/"+url.PathEscape(id), options)
}

// ListTargetVersions: Every version of a target on the rack (/v1/rack/targets/{id}/history).
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListTargetVersions(ctx context.Context, id string, options ...Option) (KeptTargetPage, error) {
	return look[KeptTargetPage](ctx, c, "/v1/rack/targets/"+url.PathEscape(id)+"/history", options)
}

// GetWeighingList: What to weigh, and what the scale will show (/v1/rack/weighing-list).
// With("place", ...): id of the place.
// With("date", ...): day of the weighing, up to 90 days ahead, such as 2026-03-01. Left out: today.
// With("due", ...): only what is due for a weighing by that day.
// With("wait_seconds", ...): how long answers that are being worked out are waited for.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
// With("as", ...): form of the answer, in place of the Accept header: json, csv, html.
func (c *Client) GetWeighingList(ctx context.Context, options ...Option) (WeighingList, error) {
	return look[WeighingList](ctx, c, "/v1/rack/weighing-list", options)
}

// AssessReadiness: Is this billet ready, and for which step of the work (/v1/readiness).
func (c *Client) AssessReadiness(ctx context.Context, request ReadinessRequest, options ...Option) (Answer[ReadinessResult], error) {
	return Ask[ReadinessResult](ctx, c, "/v1/readiness", request, options...)
}

// PlanResaw: The best plan to cut billets into sets (/v1/resaw-plan).
func (c *Client) PlanResaw(ctx context.Context, request ResawPlanRequest, options ...Option) (Answer[ResawPlanResult], error) {
	return Ask[ResawPlanResult](ctx, c, "/v1/resaw-plan", request, options...)
}

// CompareResawTiming: Resaw the billet now, or dry it whole (/v1/resaw-timing).
func (c *Client) CompareResawTiming(ctx context.Context, request ResawTimingRequest, options ...Option) (Answer[ResawTimingResult], error) {
	return Ask[ResawTimingResult](ctx, c, "/v1/resaw-timing", request, options...)
}

// ListSawingLosses: Kerfs of saws, usual allowances and end trims (/v1/sawing-losses).
// With("q", ...): words of the name.
// With("kind", ...): kerf, allowance or end_trim.
// With("report_in", ...): metric or inch.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListSawingLosses(ctx context.Context, options ...Option) (SawingLossPage, error) {
	return look[SawingLossPage](ctx, c, "/v1/sawing-losses", options)
}

// ForecastSeasoning: How a piece dries where it lies, and when it is dry (/v1/seasoning).
func (c *Client) ForecastSeasoning(ctx context.Context, request SeasoningRequest, options ...Option) (Answer[SeasoningResult], error) {
	return Ask[SeasoningResult](ctx, c, "/v1/seasoning", request, options...)
}

// CalculateSectionShape: How a board changes shape as it dries (/v1/section-shape).
func (c *Client) CalculateSectionShape(ctx context.Context, request SectionShapeRequest, options ...Option) (Answer[SectionShapeResult], error) {
	return Ask[SectionShapeResult](ctx, c, "/v1/section-shape", request, options...)
}

// ListSpecies: Woods, by name or group (/v1/species).
// With("q", ...): id or name; case, accents and word order do not matter, near spellings are found.
// With("listing", ...): hardwood, softwood or imported.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListSpecies(ctx context.Context, options ...Option) (SpeciesSummaryPage, error) {
	return look[SpeciesSummaryPage](ctx, c, "/v1/species", options)
}

// GetSpecies: All that the tables hold of a wood (/v1/species/{id}).
func (c *Client) GetSpecies(ctx context.Context, id string, options ...Option) (SpeciesDetail, error) {
	return look[SpeciesDetail](ctx, c, "/v1/species/"+url.PathEscape(id), options)
}

// ListStations: Places with monthly outdoor air, by name or nearest (/v1/stations).
// With("q", ...): name of the place.
// With("near", ...): degrees north and east: 43.1,-89.4.
// With("country", ...): country as listed, or its code of ISO 3166-1, two letters.
// With("limit", ...): entries on a page.
// With("offset", ...): entries to skip.
func (c *Client) ListStations(ctx context.Context, options ...Option) (StationSummaryPage, error) {
	return look[StationSummaryPage](ctx, c, "/v1/stations", options)
}

// GetStation: Twelve months of outdoor air at a place (/v1/stations/{id}).
// With("report_in", ...): metric or inch.
func (c *Client) GetStation(ctx context.Context, id string, options ...Option) (StationDetail, error) {
	return look[StationDetail](ctx, c, "/v1/stations/"+url.PathEscape(id), options)
}

// SimulateYearInService: How finished parts live through the year of a room (/v1/year-in-service).
func (c *Client) SimulateYearInService(ctx context.Context, request YearInServiceRequest, options ...Option) (Answer[YearInServiceResult], error) {
	return Ask[YearInServiceResult](ctx, c, "/v1/year-in-service", request, options...)
}

// GetVersion: Versions of the build, the contract and the tables (/version).
func (c *Client) GetVersion(ctx context.Context, options ...Option) (Version, error) {
	return look[Version](ctx, c, "/version", options)
}
