package api

// descriptions tells of each operation, by its id, what a caller should know
// before using it.
var descriptions = map[string]string{
	"readiness": "Fuses readings and weights of one billet, takes the equilibrium of the build room as the target, and judges each step of the work: resaw, thickness, glue. With a saw and a part it also says what the billet yields. Readings that contradict each other are refused and named, not averaged. With history the readings are fused with the drying forecast: dates come with the verdicts, wrong readings are set aside by name, and the one reading worth taking next is told; also as a drawing (image/svg+xml) and a table of the course (text/csv). A step is ready from a probability of 0.80 and not ready up to 0.20. Usual limits: resaw within 4 points of the target and 3 between core and shell; thickness within 1.5, 2 and at rest; glue within 1, 1.5 and at rest; at rest is 0.1 % of the mass a day up to 10 mm of thickness, else 1 point (thickness) or 0.5 (glue) in two weeks. All common practice; limits replaces them.",
	"seasoning": "Runs the drying model through the air of the places the piece lies in, over the uncertainty of wood, start and air, and says when mean and core come down to the target. Also as a drawing (image/svg+xml) and as a table of the series (text/csv). Without readings it is a forecast; readiness learns from weights.",
	"yield":     "One part, one saw: counts rows, columns, leaves and matched sets exactly, in whole nanometres. A set needs consecutive unspoiled leaves of one stack. A billet too thin gives 0 leaves, not an error.",
	"movement":  "Gives the change of one dimension by the coefficient form (6 to 14 % moisture content) or the total shrinkage form, says which and why, and shows both. The band covers 15 % variation between pieces, both moisture contents and the ring angle. With measured_at to it answers what to cut so that a size is left.",
	"section":   "Gives the shape of a section free of stress after a change of moisture content: rings are circles about the pith, and the map is exact. Cup of every face with its sense, width and thickness at edges and middle, diagonals, what is left when planed flat and when ripped first. A section that holds the pith has no such shape; it is told what check opens. With levels the bend by shell and core comes on top. Stickers and load hold a board flatter. Also as a drawing (image/svg+xml) and as the points of the outline (text/csv).",
	"laminate":  "Classical lamination theory of orthotropic layers, each at its own moisture content when it was glued and later: bow, cup and twist, what each layer holds and what the glue carries at the edges (an order of magnitude). All elastic; creep says what weeks leave of it. For two layers with the grain along the length the plain strip is shown beside it: free difference, radius and cup across the width without Poisson's ratios, by the coefficient form where it holds. Also as a drawing (image/svg+xml).",
	"moisture":  "Evaluates ovendry samples, running weights, pin and pinless meters, and size with weight, each with its own uncertainty, and combines those that speak for the whole section. Readings that contradict each other are refused and named.",
	"emc":       "Either the moisture content at which wood settles in an air, or the relative humidity that keeps wood at a wanted moisture content.",
	"air":       "From dry bulb and one of relative humidity, wet bulb or dew point: all the others, and what the air becomes when it is heated or cooled with its vapour kept.",

	"batch": "Answers up to 1000 questions of any other calculation, each with what its route alone would answer, in the order of the request. An item that is wrong has a problem of its own and does not touch the others. For more, or to have answers as they come, send lines: Content-Type application/x-ndjson, one item on each line; one answer on each line comes back (id, status, and answer or problem). A line with end is the last: the service ended the stream, and the lines after the last answer were not done.",

	"listSpecies":  "Without q, all woods by id. With q, at most 50, the best match first.",
	"getSpecies":   "Every published value with its source and how it was checked, and the usual cautions. Silence on a hazard does not mean that a wood is safe.",
	"listStations": "Without q or near, all places by id. With q, at most 50, the best match first; with near, the 50 nearest.",
	"getStation":   "Monthly means of outdoor air. A typical year is not a 30-year normal; basis says which it is.",
	"listPlates":   "Starting values of the trade, no standard; every size with its source. Without q, all parts by id. With q, at most 50, the best match first.",
	"getPlate":     "Sizes are of one piece as it is sawn out. Makers vary; measure your own mould.",
	"listSaws":     "What planning takes as lost, with the source of every figure. Measure your own kerf: make one cut in scrap, kerf = thickness before less the two pieces.",
	"listMethods":  "The registry the service itself uses to refuse input outside a limit and to warn outside a fitted range.",

	"limits":  "Sizes of bodies and lists, budgets of work, and what a caller may ask over time. A request over a limit is refused whole, never answered in part.",
	"livez":   "Answers as long as the process runs.",
	"readyz":  "Answers 503 from the moment the service is told to stop, while it finishes the requests under way.",
	"version": "The build, the contract and the tables have versions of their own.",
	"problem": "The types of problem replies point here.",
}
