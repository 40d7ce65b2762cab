// All English text of the page. Another language is one more file with the same names; what a
// member means and where its limits lie comes from the contract, in the language of that.

/** fill puts values into a text: fill("{count} weights", {count: 6}). */
export const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => String(values[name] ?? ""));

const question = (title, short, hand) => ({ title, short, hand });

export const words = {
  language: "en",
  name: "latewood",
  home: "What do you want to know?",
  homeHelp: "Pick the nearest. Each asks only for what it needs; the rest can wait.",
  hand: "At hand: {hand}",
  nav: { label: "Main", ask: "Ask", kept: "Kept", shop: "My shop", skip: "Skip to the page" },
  system: { metric: "mm, kg, °C", inch: "in, lb, °F", label: "Units" },
  care: "Reminders about dust, tall cuts and protected woods come with the answers; machine manuals, local codes, current lists and licensed practice decide. What you type goes to this service and nowhere else.",
  programs: "All questions, for programs", sources: "Methods and sources",
  offline: "No connection: forms and kept answers work, new answers wait.",
  groups: { stack: "In the stack", saw: "At the saw", joint: "At the joint", glued: "After glue-up", air: "Air and meters", other: "More" },
  questions: {
    ready: question("Is it ready, and if not, when?", "Ready?", "sizes, the room, a weight or a meter"),
    dry: question("How will it dry here?", "Drying", "thickness, the place, the stacking day"),
    timing: question("Resaw now, or dry it whole?", "Resaw now?", "moisture, sizes, what it becomes, the saw"),
    plan: question("How do I cut this plank?", "Cutting plan", "sizes, faults, parts, up to eight saws"),
    yield: question("How many sets with this blade?", "Sets", "sizes, leaf, kerf"),
    log: question("Which billets does this log give?", "Log", "diameters, length, pith and bark"),
    match: question("How well will the halves match?", "Match", "ring angle, thickness, kerf, runout"),
    section: question("How will this board cup?", "Cup", "where the pith lay, sizes, two moistures"),
    move: question("How far will it move?", "Movement", "wood, width, two airs"),
    drawer: question("What gap does this drawer need?", "Drawer", "height, wood, the house, the room today"),
    layers: question("Will these layers bend?", "Layers", "layers, glue, two airs"),
    work: question("A whole piece of work through the year", "Whole work", "parts, woods, pairs, the house"),
    year: question("Finished parts and panels through a year", "A year", "parts, finish, the room"),
    moisture: question("What moisture does it hold?", "Moisture", "meter, oven slice or sizes and weight"),
    emc: question("Where does wood settle in this air?", "EMC", "temperature and humidity"),
    air: question("What does winter air do in my shop?", "Air", "outdoor air, the room"),
  },
  steps: {
    billet: "The billet", past: "Where has it lain?", where: "Where does it lie?", measured: "What have you measured?", room: "Where will you work it?",
    become: "What shall it become?", rest: "The rest, if you wish", wet: "How wet is it?", planks: "The wood", parts: "The parts", saws: "The saws",
    saw: "The saw", log: "The log", pattern: "How is it sawn?", wanted: "What billets do you want?", leaves: "The leaves", piece: "The piece",
    twoAirs: "From what to what?", drawer: "The drawer", house: "Where will it live?", today: "The room today", gaps: "The gaps that serve",
    panel: "The panel", layers: "The layers, from the top", build: "Where is it built?", joints: "What meets, what is glued?", air: "The air",
  },
  stepHelp: {
    past: "The past tells the pace. Say only what you know.", measured: "Give what you have; nothing yet is an answer too. A weight tells most.",
    become: "With a part and a saw the sets are counted too. Leave it out if you do not need them.", saws: "Up to eight are compared; a plan uses one.",
    gaps: "The usual figures stand here (common practice); change them if you like.",
    joints: "Leave out what you do not need.", wanted: "As large as they shall be once they are dry.",
  },
  stepDone: "Nothing said",
  form: {
    next: "Next: {step}", ask: "Ask", again: "Ask again", all: "Show all steps at once", one: "Show one step at a time", change: "Change", example: "Fill in an example",
    clear: "Start afresh", more: "More, if you know it", leaveOut: "Left out", optional: "if you wish", add: "Add: {what}", remove: "Remove {what}", item: "{what} {number}",
    way: "How do you know it?", readAs: "Read as", weightsRead: "{count} weights, {first} to {last}", orderDm: "day before month", orderMd: "month before day",
    own: "Give figures of your own", byName: "Give its name instead", yes: "yes", no: "no", stop: "Stop", working: "Working it out …",
    stopped: "Stopped. What you typed is still here.", unknown: "This link holds what the form has no place for: {names}. The rest is filled in.", few: "Separate several with commas.",
    took: "Take {text}", odd: "Is that right?", hotter: "{c} °C is hotter than a room or a shed. Did you mean {c} °F ({f} °C)?", list: "{count} found", none: "Nothing found by that name", pictures: "Pick the nearest",
    back: "Ask", picked: "Picked",
  },
  errors: {
    prefix: "Error: ", one: "One thing to put right", many: "{count} things to put right", missing: "Enter: {label}", missingChoice: "Choose {label}",
    whole: "Enter a whole number", line: "Line {line}, “{text}”: {why}", unreachable: "The service did not answer. What you typed is still here; ask again when there is a connection.",
    busy: "The service is busy. Ask again in a moment.", token: "This service asks for a token", tokenHelp: "This page sends it with your questions and forgets it when you close or reload it.",
    tokenLabel: "Token you were given", tokenUse: "Use it", tokenWrong: "That was not right: {why}.", tokenWord: "A token is one word of letters, digits, dashes and underscores.",
    tokenWhy: "Put it in, and what you asked is asked again.", general: "The question as a whole",
  },
  and: "and",
  answer: {
    allReady: "Ready.", readyFor: "Ready for {steps}.", notFor: "Not yet for {steps}.", notReady: "Not ready.", unsureOf: "Cannot say for {steps}.", soon: "It can go to {step} about {date}.",
    nowAnd: "{mc} % now (9 times in 10: {low} to {high} %); your room will bring it to {target} %.",
    title: "Answer", before: "For what you told before. Ask again for the change.", next: "What to do next", numbers: "In numbers", allNumbers: "All numbers", what: "What", best: "Best guess", band: "9 times in 10",
    trust: "Before you trust it", smaller: "{count} smaller notes", notes: "{count} notes", oneSmaller: "One smaller note", oneNote: "One note", from: "Where the numbers come from", print: "Print", svg: "Save drawing", png: "Save as picture", link: "Copy link", copied: "Link copied",
    keep: "Keep", kept: "Kept", program: "For a program", drawing: "Drawing: {what}", told: "What you told", between: "between {low} and {high}", about: "about {date}", notReached: "not within the forecast",
    later: "later than the forecast reaches", ready: "ready", not_ready: "not ready", cannot_say: "cannot say", leftOut: "One reading was left out.", leftOutMany: "{count} readings were left out.", take: "Take {mass}", drop: "Leave it out for good", weighNext: "By {date}: {detail}",
    shrinks: "Shrinks by {by}", swells: "Swells by {by}", keeps: "Stays as it is, within {by}", range: "{low} to {high}", sets: "{leaves} leaves, {sets} sets", settles: "Wood settles at {mc} % (9 times in 10: {low} to {high} %)",
    keepsAt: "Keep the air at {rh} % relative humidity, and wood settles at {mc} %", holds: "It holds {mc} % (9 times in 10: {low} to {high} %)", airNow: "Wood settles at {mc} % in this air", airHeated: "Heated to {temperature}, this air is at {rh} %: wood settles at {mc} %", gap: "Leave {low} to {high} at the top today; middle {usual}", noGap: "No gap keeps both limits: they lie {by} too close", onTheWay: "{size}, on the way there", tellsNothing: "These readings give no moisture content",
    askIndoors: "It may never get dry enough there. And if it came indoors?", sourceHelp: "Each is explained under Methods and sources.", scroll: "Drawing, wider than the page: move it sideways", printed: "Asked {date} at {address}", tooBig: "Not shown here: {count} more",
  },
  details: {
    parts: "Parts", part: "Part", sets: "Sets", missing: "Sets missing", length: "Length", width: "Width", sawn: "Sawn at", cuts: "The cuts of {billet}", cutsHelp: "{steps} cuts in {settings} settings, in this order. Tick each at the saw.",
    saws: "Saws side by side", saw: "Saw", kerf: "Kerf", worth: "Worth", leaves: "Leaves", steps: "Cuts", apart: "What pulls apart", ways: "Both ways", now: "Sawn now", whole: "Dried whole", sizes: "Sizes through the year", size: "Size", build: "At the build",
    driest: "Driest", wettest: "Wettest", swing: "Swing", pairs: "Loose pairs", pair: "Pair", keeps: "Keeps its limits", least: "Least gap", usual: "Middle", most: "Widest gap", said: "What to know", billets: "Billets", billet: "Billet", thickGreen: "Thick, green",
    wideGreen: "Wide, green", wideDry: "Wide, dry", angle: "Ring angle in the middle, °", forms: "By each published form", form: "Form", change: "Change",
  },
  kept: {
    title: "Kept", help: "In this browser only. Nothing of it is on the service.", none: "Nothing yet. What you ask is kept here.", open: "Open", remove: "Remove", clear: "Remove all", recent: "Go on where you were", all: "All that is kept", was: "Answered {date}", again: "Ask again",
  },
  shop: {
    title: "My shop", help: "Said once, offered in every form. Kept in this browser only.", units: "Units", room: "Build room", temperature: "Temperature", rh: "Humidity, %", look: "Look", auto: "As this device", light: "Light", dark: "Dark", save: "Save", saved: "Saved",
  },
  notFound: "There is no such page here.",
  reading: {
    today: "today", empty: "nothing is written", noNumber: "“{text}” holds no number", notNumber: "“{text}” is not a number", tooLarge: "the number is too large", zeroBelow: "a fraction cannot have 0 below the line",
    fraction: "a fraction is two whole numbers, as in 2 1/16", noUnit: "the unit is missing", notUnit: "“{text}” is not a unit here; write {units}", tooManySmall: "{second} behind {unit} are fewer than {many}",
    ambiguousNumber: "{text} may be {one} or {other}: write it one of these ways", ambiguousDay: "{text} may be {one} or {other}: write the month as a word", noMonth: "there is no month {month}", noDay: "{month} {year} has no day {date}",
    shortYear: "write the year of {text} with four digits", notDay: "“{text}” is not a day; write it like 14 Mar 2026", notWeighing: "there is no day and weight in this line", quarters: "{count} quarters of an inch: {both}",
    months: ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"],
  },
  units: { C: "°C", F: "°F", "%MC": "%", "%RH": "% RH", points: "points", deg: "°", 1: "", um: "µm", mm3: "mm³" },
  pictures: { face: "face 1", height: "height", slope: "1 in this much", cup: "cup", bow: "bow, along the length", twist: "one corner up", near: "near", far: "far", size: "this size" },
  rings: { flat: "flatsawn", between: "in between", quarter: "quartersawn", slanted: "nearly quartered" },
  // Labels of members, by the end of their path; what is not here is told by its own name.
  labels: {
    "page.past": "Its past", "page.wet": "How wet was it then?", "page.still": "Is it still there?", "page.since": "Since when?", "page.start_mc_pct": "Moisture when you got it, by a meter", "page.lies": "Where does it lie since?",
    "page.weights": "Weights of the whole billet", "page.where": "Where it lies", "page.wood": "Wood of the drawer", "page.height": "Height of the drawer side", "page.opening": "Height of the opening", "page.rings": "Rings of the side",
    "page.finish": "Finish of the side", "page.room": "The house", "page.today": "Air today", "page.least": "Least gap at any time", "page.widest": "Widest gap that still serves",
    wood: "Wood", length: "Length", width: "Width", thickness: "Thickness", rings: "Rings on the end", "rings.angle_deg": "Ring angle", size_ring_angle_deg: "Ring angle to this size", direction: "How the size lies in the wood",
    size: "Size that moves", size_at: "The size is", "billet.stacked_on": "Stacked on", "billet.start_condition": "Moisture on the stacking day", "stays.station": "Place", station: "Place", exposure: "How it is stored", until: "Indoors from",
    "leaf_stays.until": "Until", air: "Air", "air.temperature": "Temperature", temperature: "Temperature", rh_pct: "Humidity", mc_pct: "Moisture content", mc_sd_points: "Spread of it", wet_bulb: "Wet bulb", dew_point: "Dew point", target_condition: "The room it is worked in",
    as_of: "Judge it for", readings: "Meters and samples", scale_division: "The scale shows steps of", reading_mc_pct: "Reading", depth: "Pin depth", wood_temperature: "Temperature of the wood", kind: "Kind", date: "Day", mass: "Weight",
    part: "Part", "outer.part": "Part", "inner.part": "Part", saw: "Saw", part_size: "A usual part", final_thickness: "Final thickness", sawn_thickness: "Thickness as sawn", pieces_per_set: "Pieces in a set", set_value: "What one set is worth", kerf: "Kerf", usual_kerf: "Kind of saw", name: "Name", id: "Short name",
    rejected_leaves: "Leaves that turned out faulty", billets: "Planks", parts: "Parts", saws: "Saws", zones: "Knots, checks and other faults", x_from: "From the start: begins", x_to: "From the start: ends", y_from: "From the near edge: begins", y_to: "From the near edge: ends", z_from: "From face 1: begins", z_to: "From face 1: ends",
    grain: "Grain", runout_one_in: "Runout, 1 in", dip_one_in: "Dip, 1 in", cup: "Cup", bow: "Bow", twist: "Twist", pith: "Pith", trim: "Lost at ends and edges", from_condition: "From", to_condition: "To", glue_up_condition: "When glued", later_condition: "Later", build_condition: "At the build",
    heated_to: "Heated to", room: "The room through the year", driest_condition: "At its driest", wettest_condition: "At its wettest", pairs: "Loose pairs", glued_joints: "Glued joints", restrained: "Glued fast across its grain", finish: "Finish", moisture_profile: "Moisture of the billet", mean_mc_pct: "Mean moisture", core_mc_pct: "In the core", shell_mc_pct: "In the shell",
    log: "The log", start_diameter: "Diameter at the butt", end_diameter: "Diameter at the top", bark_thickness: "Thickness of the bark", sapwood_thickness: "Thickness of the sapwood", pattern: "Pattern", pith_out: "No billet holds the pith", sapwood_out: "Heartwood only", wanted: "Billets", stack: "A regular stack", leaves: "Each leaf by its faces",
    seam_edge: "Jointed off the seam edge", layers: "Layers", glue: "Glue", grain_angle_deg: "Grain angle to the length", wanted_emc_pct: "Moisture to keep", months: "Twelve months of my own", log_csv: "A logger's record (CSV)", seasons: "Winter and summer", ice_bulb: "The bulb carries ice", step_limits: "Limits of a step", horizon_days: "How far to look ahead, days",
    min_clearance: "Least gap", max_clearance: "Widest gap", species: "Wood of the tables", green: "Green", laminates: "Glued panels", mean_mc: "Mean moisture", mc: "Moisture content", rh: "Humidity", emc: "Wood settles at", change: "Change", to_size: "Size at the end", from_size: "Size at the start", from_mc: "Moisture at the start", to_mc: "Moisture at the end",
    "target.mc": "Where your room brings it", "moisture.mc": "Moisture content now", "moisture.shell_mc": "In the shell", "moisture.core_mc": "In the core", "moisture.gradient.core_minus_shell": "Core wetter than shell by", "mass_at_target.mass": "It will weigh, when settled", "mass_at_target.ovendry_mass": "It would weigh ovendry",
    "lowest.mc": "Lowest it gets there", mean_dry: "Dry throughout, on average", core_dry: "Dry to the core", target_mc: "Where your room brings it", drying_factor: "Drying factor of the wood", pace: "Pace of this stack", fibre_saturation_mc: "Fibre saturation", fibre_saturation_mc_pct: "Fibre saturation", strain_pct: "In percent of the size", build_clearance: "Gap at the build",
    leaves_count: "Leaves", sets: "Sets", rows: "Lengths", columns: "Widths", unpaired_leaves: "Leaves left over", vapour_pressure: "Vapour pressure", humidity_ratio: "Water per kg of dry air, kg", frost_point: "Frost point", pressure: "Air pressure",
  },
  // Nouns for one of a list.
  items: {
    readings: "reading", stays: "place", leaf_stays: "place", billets: "plank", parts: "part", saws: "saw", zones: "fault", layers: "layer", pairs: "pair", glued_joints: "joint", months: "month", log: "line", rejected_leaves: "leaf",
    step_limits: "step", leaves: "leaf", laminates: "panel", profile: "level", "rings.readings": "place on the end",
  },
  // Choices, by the end of the path of their member and the value.
  choices: {
    "page.past": {
      shed: "Stacked wet; I know where|gives dates with the narrowest margin|Stacked wet", bought: "Bought; its past is unknown|asks when you got it and how wet it was|Bought", indoors: "Indoors all along|asks since when",
      places: "It lay in several places|asks for each|Several places", none: "Leave it out|judged by the readings alone, without dates|Its past left out",
    },
    "page.wet": { table: "I do not know: take what the tables say of green wood||", fresh: "Freshly felled: 50 to 95 %||freshly felled", weeks: "Felled some weeks before: 35 to 60 %||felled some weeks before", near: "Nearly air-dry already: 25 to 35 %||nearly air-dry", own: "A figure of my own||" },
    "page.still": { later: "Yes, and it comes indoors later, or it is indoors by now|asks on which day; a plan will do|indoors from", stays: "Yes, and it stays there||stays there" },
    "page.lies": { room: "In the room where I will work it||in the room", outside: "Outside, in a shed or under a roof||outside" },
    "page.where": { shed: "Outside, in a shed or under a roof||Outside", places: "In several places, one after the other||Several places", room: "In the room where I will work it||In the room" },
    exposure: {
      open_stack: "open stack under a roof", small_stack: "small stack or a piece on its own", moving_air: "with a fan", shed: "in a shed", closed_room: "in a closed room", wrapped: "wrapped", kiln: "kiln", dehumidifier: "dehumidifier", solar_kiln: "solar kiln",
    },
    direction: { tangential: "along the rings", radial: "across the rings", longitudinal: "along the grain" },
    size_at: { from: "as it is at the start", to: "as it is wanted at the end" },
    pattern: { through_and_through: "through and through", quartered: "quartered", wedges: "in wedges" },
    match: { bookmatch: "bookmatch", slip_match: "slip match", none: "none" },
    lean: { near: "towards the near edge", far: "towards the far edge" },
    sorption: { unknown: "not known", drying: "by drying", wetting: "by taking up moisture" },
  },
  // The ways of one member, by the last name of its path or the way itself.
  ways: {
    angle_deg: "One ring angle", "rings.pith": "Where the pith lies", "rings.readings": "Ring angle at one or two places", chord: "A chord and its height over a ring",
    station: "Outdoor air of a place of the tables", months: "Twelve months of my own", air: "The air", log: "A record, line by line", log_csv: "A logger's record (CSV)", seasons: "Winter and summer",
    rh_pct: "By its humidity", wet_bulb: "By a wet bulb", dew_point: "By its dew point", mc_pct: "By its moisture content", green: "Green, as felled", named: "By its name", figures: "By figures", outside: "Each face by itself", resistance_s_per_m: "By its resistance to vapour",
    weight: "Weight of the piece", ovendry_sample: "Oven slice", pin_meter: "Pin meter", pinless_meter: "Pinless meter", running_weight: "Sample board", size_and_weight: "Size and weight", stated: "A figure I was given", prong_test: "Prong test",
    size_ring_angle_deg: "I know the ring angle", direction: "I know how it lies", stack: "A regular stack", leaves: "Each leaf by its faces", wanted_emc_pct: "What air keeps this moisture?", room: "A room through the year", driest_condition: "Its driest and wettest state",
  },
  wayLabels: {
    air: "How is its vapour told?", today: "How is its vapour told?", readings: "How was it measured?", finish: "What finish?", room: "How do you know its air?", stays: "How do you know its air?", leaf_stays: "How do you know its air?",
    condition: "How do you know it?", to_condition: "What is it told by?", from_condition: "What is it told by?", rings: "How do you know the rings?",
  },
  // Help in place of the contract's, by the end of the path; "" for none.
  help: {
    size: "The width of a panel, say, before it moves; or as it is wanted at the end, if you say so below.", direction: "Flatsawn width moves along the rings, quartersawn width across them.", size_at: "", size_ring_angle_deg: "On the end grain: 0 along the rings, 90 across them.",
    wood: "Type a few letters and pick one.", station: "Type a few letters and pick the nearest place.", "billet.length": "", "billet.width": "", "billet.thickness": "Also in quarters: 8/4.",
    "page.weights": "One line each: a day and a weight, in any order. Paste from a spreadsheet as it is.", "page.start_mc_pct": "", until: "A plan, not a promise. A shed alone may never get it dry enough; the answer will say.",
    as_of: "", "target_condition": "", scale_division: "Left out: read from the figures.", "page.opening": "Left out: as high as the drawer side.", "page.height": "Across the grain.", rh_pct: "", temperature: "", "air.temperature": "", "page.since": "", "billet.stacked_on": "",
    "page.rings": "", "page.finish": "", "page.room": "", name: "", billets: "", saws: "", parts: "", readings: "", part_size: "Its sizes stand in for those you leave out.", exposure: "Left out: open outdoors, a closed room indoors.", "rings.angle_deg": "Between the ring lines and the wide face: 0 flatsawn, 90 quartersawn.",
    "page.wood": "Type a few letters and pick one.", moisture_profile: "", "rings": "",
  },
  units_of: { _mc_pct: "%", mc_pct: "%", _emc_pct: "%", _rh_pct: "%", rh_pct: "%", _pct: "%", _points: "points", _deg: "°", _days: "days" },

  /** label says what a member is called, by its path. */
  label(path) {
    const found = lookUp(this.labels, path);
    if (found !== undefined) return found;
    const name = bareNames(path).at(-1) || "";
    const told = name.replace(/_(mc|emc|rh|share|strain|shrinkage)_pct$/, " $1").replace(/_(pct|points|deg|days|sd|mc_points)$/, "").replaceAll("_", " ").replace(/^min /, "least ").replace(/^max /, "greatest ").replace(/\bmc\b/, "moisture").replace(/\brh\b/, "humidity").replace(/\bemc\b/, "EMC");
    return told.charAt(0).toUpperCase() + told.slice(1);
  },

  /** choice says a value of a member: its words, what stands below them, and both in short. */
  choice(path, value) {
    const [text, below = "", short = text] = (lookUp(this.choices, path)?.[value] || String(value).replaceAll("_", " ").replaceAll("-", " ")).split("|");
    return { text, below, short };
  },

  /** way says one of several ways of telling a member. */
  way(path, key) { return lookUp(this.ways, path === "" ? key : `${path}.${key}`) ?? this.label(key); },

  /** helpOf is what stands below a label: the contract's words, its members called as they are here. */
  helpOf(path, description) {
    const own = lookUp(this.help, path);
    if (own !== undefined) return own;
    return this.calledHere(description);
  },

  /** calledHere says a text of the service with the names that members have on this page. */
  calledHere(text) {
    const said = text.replace(/\(?GET \/v1[^\s)]*\)?/g, "").replace(/\b[a-z]+(?:_[a-z0-9]+)+\b/g, (name) => this.label(name).toLowerCase());
    return said.charAt(0).toUpperCase() + said.slice(1);
  },

  /** wayLabel stands before the ways of telling a member. */
  wayLabel(path) { return lookUp(this.wayLabels, path) ?? this.form.way; },

  itemOf(path) { return lookUp(this.items, path) ?? this.label(path).toLowerCase(); },
};

const bareNames = (path) => path.split(".").filter((n) => n !== "" && !/^\d+$/.test(n));

// What is told for the longest end of a path.
function lookUp(table, path) {
  const names = bareNames(path);
  for (let i = 0; i < names.length; i++) {
    const found = table[names.slice(i).join(".")];
    if (found !== undefined) return found;
  }
  return undefined;
}
