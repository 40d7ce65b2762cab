package api

import "latewood/api/internal/serve"

// wording is what the contract says of a route.
type wording struct{ summary, description string }

// words are those of each operation, by its id.
var words = map[string]wording{
	"assessReadiness": {
		"Is this billet ready, and for which step of the work",
		"Fuses the readings of one billet, weights, meters and samples, takes the equilibrium of the room it will be worked in as the target, and judges each " +
			"step of the work: resaw, thickness, glue. With a saw and a part it also says what the billet yields. Readings " +
			"that contradict each other are refused and named, not averaged. With stays the readings are fused with the " +
			"drying forecast: dates come with the verdicts, wrong readings are rejected by name, and the one reading worth " +
			"taking next is told; also as a drawing (image/svg+xml) and a table of the course (text/csv). A step is ready " +
			"from a probability of 0.80 and not ready up to 0.20. Usual limits: resaw within 4 points of the target and 3 " +
			"between core and shell; thickness within 1.5, 2 and at rest; glue within 1, 1.5 and at rest; at rest is 0.1 % of " +
			"the mass a day up to 10 mm of thickness, else 1 point (thickness) or 0.5 (glue) in two weeks. All common " +
			"practice; step_limits replaces them.",
	},
	"forecastSeasoning": {
		"How a piece dries where it lies, and when it is dry",
		"Runs the drying model through the air of the places the piece lies in, over the uncertainty of wood, start and " +
			"air, and says when mean and core come down to the target. Also as a drawing (image/svg+xml) and as a table of " +
			"the series (text/csv). Without readings it is a forecast; readiness learns from weights.",
	},
	"planResaw": {
		"The best plan to cut billets into sets",
		"Several billets, parts and saws: the plan of most worth that meets the numbers wanted, proven where it says so, " +
			"else with a bound that no plan beats. Cuts go from edge to edge: crosscut, rip, trim, flatten, resaw. The answer " +
			"holds every cut in order, every leaf with its set, what one more leaf would need, a table of the saws, the match " +
			"of every pair where the rings are known, and with chance how sure the sets are. Also as a drawing (image/svg+xml " +
			"or ?as=svg), a print (application/pdf or ?as=pdf), a cut list (text/csv or ?as=csv), labels for leaves and sets " +
			"(?as=labels), true-scale templates of the ends of its lengths (?as=template, on pages ?as=template_pdf), and a " +
			"plot of face 1 of one billet for machines that cut (image/vnd.dxf or ?as=dxf). The work is bounded: a plan " +
			"that could not be proven in time says so and how far it may be from the best.",
	},
	"planLog": {
		"What billets a log gives",
		"A log or half log into billets: boards through and through, boards of quarters, or wedges from the pith, sawn or " +
			"split. Each is as wide as the wood allows over the whole length, with taper, sweep, bark and, on wish, without " +
			"pith and sapwood, and is sawn as much larger as it shrinks until it is dry. The answer holds each billet in the " +
			"form that /v1/resaw-plan takes, with the place of the pith, and where it lies in the log; volumes, and board " +
			"feet by three rules of the trade. Geometry only: round logs without branches. Also as a drawing (image/svg+xml).",
	},
	"calculateLeafYield": {
		"What a billet yields of one part with this saw",
		"One part, one saw: counts rows, columns, leaves and matched sets exactly, in whole nanometres. A set needs " +
			"consecutive unspoiled leaves of one stack. A billet too thin gives 0 leaves, not an error.",
	},
	"compareResawTiming": {
		"Resaw the billet now, or dry it whole",
		"Forecasts both ways with the drying model and its uncertainty: leaves sawn today, thicker by the shrinkage to " +
			"come and by thick and thin, that dry on stickers where they lie; and the billet dried whole until it is ready to " +
			"resaw, whose leaves only settle. Compares the day on which leaves can be thicknessed, leaves and sets, the cup " +
			"of the leaf that bends most, and the risks, and says when it is a toss-up. Shrinkage along the grain is left " +
			"out. Also as a drawing (image/svg+xml).",
	},
	"matchLeaves": {
		"How the two halves will match",
		"Lays neighbouring leaves open as a book, slipped, and with the outer faces out, and says for each edge at the " +
			"seam by how much ring lines, rays, flame and cathedral tips miss, what brings them together, which edge is " +
			"better and which pairs to take; with arch_height on the outside of a pair carved to an arch. Exact for circular " +
			"rings about the pith; with one ring angle the rings are " +
			"planes. The score is an order of preference of our own; weights changes it. Also as a drawing (image/svg+xml).",
	},
	"calculateMovement": {
		"How far a dimension moves between two conditions",
		"Gives the change of one dimension by the coefficient form (6 to 14 % moisture content) or the total shrinkage " +
			"form, says which and why, and shows both. The band covers 15 % variation between pieces, both moisture contents " +
			"and the ring angle. With size_at to it answers what to cut so that a size is left.",
	},
	"calculateSectionShape": {
		"How a board changes shape as it dries",
		"Gives the shape of a section free of stress after a change of moisture content: rings are circles about the " +
			"pith, and the map is exact. Cup of every face with its sense, width and thickness at edges and middle, " +
			"diagonals, what is left when planed flat and when ripped first. A section that holds the pith has no such shape; " +
			"it is told what check opens. With a profile of moisture the bend by shell and core comes on top. Stickers and load hold a board " +
			"flatter. Also as a drawing (image/svg+xml) and as the points of the outline (text/csv).",
	},
	"calculateLaminate": {
		"How glued layers bend, and what they hold",
		"Classical lamination theory of orthotropic layers, each at its own moisture content when it was glued and later: " +
			"bow, cup and twist, what each layer holds and what the glue carries at the edges (an order of magnitude). All " +
			"elastic; creep says what weeks leave of it. For two layers with the grain along the length the plain strip is " +
			"shown beside it: free difference, radius and cup across the width without Poisson's ratios, by the coefficient " +
			"form where it holds. Also as a drawing (image/svg+xml).",
	},
	"calculateAssemblyMovement": {
		"Movement of every part of an assembly, and the clearances it needs",
		"One request for a whole instrument or piece of furniture: for each part the change per point of moisture content " +
			"and the sizes at the build, driest and wettest, in a room as for year-in-service or between two conditions; for each " +
			"pair that meets the free difference and the clearance to build in so that it never binds and never gaps too far; " +
			"for each glued joint, which has no clearance, what the parts hold each other from, and the risk of that. " +
			"Members of the JSON and columns of the table (text/csv) are stable: new ones are only added, columns at the end. " +
			"The ETag changes when any figure does; named in If-None-Match it is answered with 412 while none has. Also as a " +
			"sheet (image/svg+xml; twelve parts fit on A4) and as two tables: the parts (text/csv) and the pairs (?as=pairs_csv).",
	},
	"simulateYearInService": {
		"How finished parts live through the year of a room",
		"Runs each part through the year of a room behind its finish until the year comes round: a thin bare plate " +
			"follows the week, a thick body the season. Tells the driest and the wettest state with dates and bands, the " +
			"sizes then, what the part bears if it is held across the grain, and the humidity to build at so that both " +
			"seasons share the movement. Resistances of finishes are stated with their source and can be replaced. Laminates, a " +
			"cap on a body or a neck of staves, run layer by layer, each by its depth below the finished faces, and tell their " +
			"bow and cup on the driest and the wettest day and what the glue carries. Also as a " +
			"drawing (image/svg+xml) and as a table of the series (text/csv).",
	},
	"estimateMoisture": {
		"Moisture content from weights and meters",
		"Evaluates ovendry samples, running weights, pin and pinless meters, and size with weight, each with its own " +
			"uncertainty, and combines those that speak for the whole section. Readings that contradict each other are " +
			"refused and named.",
	},
	"calculateEmc": {
		"Where wood settles in an air, or the air that keeps it",
		"Either the moisture content at which wood settles in an air, or the relative humidity that keeps wood at a " +
			"wanted moisture content.",
	},
	"calculateAir": {
		"Everything that follows from one measure of the air",
		"From dry bulb and one of relative humidity, wet bulb or dew point: all the others, and what the air becomes when " +
			"it is heated or cooled with its vapour kept.",
	},
	"runBatch": {
		"Many calculations in one request",
		"Answers up to 1000 questions of any other calculation, each with what its route alone would answer, in the order " +
			"of the request. An item that is wrong has a problem of its own and does not touch the others. For more, or to " +
			"have answers as they come, send lines: Content-Type application/x-ndjson, one item on each line; one answer on " +
			"each line comes back (id, status, and answer or problem). A line with ended is the last: the service ended the " +
			"stream, and the lines after the last answer were not done.",
	},
	"listSpecies": {
		"Woods, by name or group",
		"Without q, all woods by id. With q, at most 50, the best match first.",
	},
	"getSpecies": {
		"All that the tables hold of a wood",
		"Every published value with its source and how it was checked, and the usual cautions. Silence on a hazard does " +
			"not mean that a wood is safe.",
	},
	"listStations": {
		"Places with monthly outdoor air, by name or nearest",
		"Without q or near, all places by id. With q, at most 50, the best match first; with near, the 50 nearest.",
	},
	"getStation": {
		"Twelve months of outdoor air at a place",
		"Monthly means of outdoor air. A typical year is not a 30-year normal; basis says which it is.",
	},
	"listPartSizes": {
		"Parts of instruments with their usual sizes",
		"Starting values of the trade, no standard; every size with its source. Without q, all parts by id. With q, at " +
			"most 50, the best match first.",
	},
	"getPartSize": {
		"All that the tables hold of a part",
		"Sizes are of one piece as it is sawn out. Makers vary; measure your own mould.",
	},
	"listSawingLosses": {
		"Kerfs of saws, usual allowances and end trims",
		"What planning takes as lost, with the source of every figure. Measure your own kerf: make one cut in scrap, kerf " +
			"= thickness before less the two pieces.",
	},
	"listMethods": {
		"Every method with its range, accuracy and source",
		"The registry the service itself uses to refuse input outside a limit and to warn outside a fitted range.",
	},
	"getLimits": {
		"How much may be asked, and how often",
		"Sizes of bodies and lists, budgets of work, and what a caller may ask over time. A request over a limit is " +
			"refused whole, never answered in part.",
	},
	"getLiveness": {
		"Is the process alive",
		"Answers as long as the process runs.",
	},
	"getServiceReadiness": {
		"Does it take requests",
		"Answers 503 from the moment the service is told to stop, while it finishes the requests under way.",
	},
	"getVersion": {
		"Versions of the build, the contract and the tables",
		"The build, the contract and the tables have versions of their own.",
	},
	"listGuides": {
		"The guides that the service serves",
		"For callers, for makers and for whoever runs the service; each is Markdown at its path.",
	},
	"getProblemType": {
		"What a kind of problem means",
		"The types of problem replies point here.",
	},
}

// What the look-ups may be asked with, besides the page.
var (
	speciesQuery = []serve.Parameter{
		{Name: "q", Description: "id or name; case, accents and word order do not matter, near spellings are found", Example: "sugar maple"},
		{Name: "listing", Description: "hardwood, softwood or imported", Choices: []string{"hardwood", "softwood", "imported"}},
	}
	stationsQuery = []serve.Parameter{
		{Name: "q", Description: "name of the place"},
		{Name: "near", Description: "degrees north and east: 43.1,-89.4"},
		{Name: "country", Description: "country as listed, or its code of ISO 3166-1, two letters"},
	}
	platesQuery = []serve.Parameter{
		{Name: "q", Description: "id, instrument or part, such as dreadnought top; near spellings are found", Example: "classical top"},
		{Name: "instrument", Description: "instrument as listed"},
		{Name: "match", Description: "bookmatch, none or either", Choices: []string{"bookmatch", "none", "either"}},
		serve.SystemParameter,
	}
	sawsQuery = []serve.Parameter{
		{Name: "q", Description: "words of the name", Example: "bandsaw"},
		{Name: "kind", Description: "kerf, allowance or end_trim", Choices: []string{"kerf", "allowance", "end_trim"}},
		serve.SystemParameter,
	}
	methodsQuery = []serve.Parameter{{Name: "chapter", Description: "such as movement"}}
	systemQuery  = []serve.Parameter{serve.SystemParameter}
)
