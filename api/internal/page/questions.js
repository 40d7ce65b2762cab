// The questions as a maker thinks of them: their order, what is asked first, what hangs on
// what. All else is grown from the contract, so that a member of it cannot be forgotten: what
// no step names stands in the last one. Words stand in words.js.

const length = { $ref: "#/components/schemas/Length" };
const date = { type: "string", format: "date", maxLength: 10 };

/** firsts are the members that are shown at once beside those that are needed, by the schema. */
export const firsts = {
  Billet: ["wood", "length", "width", "thickness"],
  Part: ["part_size", "length", "width", "final_thickness", "pieces_per_set"],
  Saw: ["kerf", "usual_kerf"],
  ServicePart: ["id", "wood", "width", "thickness", "rings"],
  Layer: ["wood", "thickness", "grain_angle_deg", "rings"],
  Stay: ["exposure", "until", "heated_to"],
  Room: ["heated_to"],
  Rings: [],
  PinMeterReading: ["reading_mc_pct", "date", "depth", "wood_temperature"],
  PinlessMeterReading: ["reading_mc_pct", "date"],
  StatedReading: ["mc_pct", "date"],
  Log: ["wood", "length", "start_diameter", "end_diameter", "bark_thickness", "pith"],
  MovementRequest: ["wood"],
  SectionShapeRequest: ["wood", "from_condition", "to_condition"],
  MoistureRequest: ["wood"],
  EMCRequest: [],
  AirRequest: ["heated_to"],
  MoistureProfile: ["mean_mc_pct", "core_mc_pct", "shell_mc_pct"],
  JointPair: ["min_clearance"],
};

const all = (...sets) => sets; // one of several conditions

// Where the wood has lain: what readiness and seasoning ask alike.
const outside = (when) => [
  { path: "billet.stacked_on", when, needed: true },
  { path: "page.wet", when },
  { path: "billet.start_condition", when: when.map((w) => ({ ...w, "page.wet": ["own"] })) },
];
const lying = (when) => [
  { path: "stays.0.station", when, needed: true },
  { path: "stays.0.exposure", when },
  { path: "page.still", when },
  { path: "stays.0.until", when: when.map((w) => ({ ...w, "page.still": ["later"] })), needed: true },
];

// How wet wood is when it is stacked, where the maker only knows roughly: the ends are nine
// in ten (own estimates, no source).
const wetness = {
  fresh: { mc_pct: 72, mc_sd_points: 13.5 },
  weeks: { mc_pct: 47, mc_sd_points: 7.5 },
  near: { mc_pct: 30, mc_sd_points: 3 },
};
const boughtSpread = 3; // points: what one reading of a meter is good for (own estimate)

const roomOf = (request) => ({ air: request.target_condition?.air || { temperature: "20 C", rh_pct: 45 } });

// place turns what the page asked into stays, and tells where faults of them belong.
function place(request, page, moves) {
  const stay = request.stays?.[0] || {};
  if (page.still === "later") {
    request.stays = [{ exposure: "shed", ...stay }, roomOf(request)];
    moves.push(["/stays/1/air", "target_condition.air"]);
  } else {
    const { until, ...rest } = stay;
    request.stays = [{ exposure: "shed", ...rest }];
  }
}

function wetted(request, page, moves) {
  if (wetness[page.wet]) {
    request.billet.start_condition = wetness[page.wet];
    moves.push(["/billet/start_condition", "page.wet"]);
  }
}

function readWeighings(request, page, moves) {
  if (!page.weights) return;
  const before = request.readings?.length || 0;
  request.readings = [
    ...(request.readings || []),
    ...page.weights.map((w) => ({ kind: "weight", date: w.iso, mass: `${w.read.value} ${w.read.unit}` })),
  ];
  page.weights.forEach((w, i) => moves.push([`/readings/${before + i}`, "page.weights", w.line]));
}

function prepareReadiness(request, page) {
  const moves = [["/billet/start_condition", "page.wet"]];
  readWeighings(request, page, moves);
  switch (page.past) {
    case "shed":
      place(request, page, moves);
      wetted(request, page, moves);
      break;
    case "bought":
    case "indoors":
      request.billet.stacked_on = page.since;
      moves.push(["/billet/stacked_on", "page.since"], ["/stays/0/air", "target_condition.air"]);
      if (page.past === "bought") {
        request.billet.start_condition = { mc_pct: page.start_mc_pct, mc_sd_points: boughtSpread };
        moves.unshift(["/billet/start_condition", "page.start_mc_pct"]);
      }
      if (page.past === "bought" && page.lies === "outside") place(request, page, moves);
      else {
        request.stays = [roomOf(request)];
        if (page.past === "indoors") wetted(request, page, moves);
      }
      break;
    case "places":
      wetted(request, page, moves);
      break;
    default:
      delete request.stays;
      delete request.as_of;
      delete request.horizon_days;
  }
  return { request, moves };
}

// How an example of the contract is told in the page's own members.
const examplePlaces = (name) => (request) => ({
  [`page.${name}`]: request.stays ? "places" : "none",
  "page.wet": request.billet.start_condition ? "own" : "table",
});

const past = {
  shed: { "page.past": ["shed"] },
  bought: { "page.past": ["bought"] },
  indoors: { "page.past": ["indoors"] },
  places: { "page.past": ["places"] },
  boughtOutside: { "page.past": ["bought"], "page.lies": ["outside"] },
};

const room = (shop) => ({
  "target_condition~": "air",
  "target_condition.air.temperature": shop.temperature,
  "target_condition.air.rh_pct": shop.rh,
});

export const questions = [
  {
    id: "ready",
    group: "stack",
    route: "/v1/readiness",
    page: {
      past: { enum: ["shed", "bought", "indoors", "places", "none"] },
      wet: { enum: ["table", "fresh", "weeks", "near", "own"] },
      still: { enum: ["later", "stays"] },
      since: date,
      start_mc_pct: { type: "number", minimum: 1, maximum: 200 },
      lies: { enum: ["room", "outside"] },
      weights: { type: "string", maxLength: 400000, list: "weights" },
    },
    start: (shop) => ({
      "page.past": "shed",
      "page.still": "later",
      "page.lies": "room",
      "page.wet": "table",
      as_of: "today",
      ...room(shop),
    }),
    steps: [
      { id: "billet", items: [{ path: "billet", first: ["wood", "length", "width", "thickness", "rings"] }] },
      {
        id: "past",
        items: [
          { path: "page.past" },
          ...outside(all(past.shed, past.places)),
          { path: "page.since", when: all(past.bought, past.indoors), needed: true },
          { path: "page.start_mc_pct", when: all(past.bought), needed: true },
          { path: "page.lies", when: all(past.bought) },
          ...lying(all(past.shed, past.boughtOutside)),
          { path: "stays", when: all(past.places), needed: true, whole: true },
        ],
      },
      { id: "measured", items: [{ path: "page.weights" }, { path: "scale_division" }, { path: "readings" }] },
      {
        id: "room",
        items: [
          { path: "target_condition" },
          { path: "as_of", when: all({ "page.past": ["shed", "bought", "indoors", "places"] }) },
        ],
      },
      { id: "become", items: [{ path: "part" }, { path: "saw" }, { path: "rejected_leaves" }] },
    ],
    prepare: prepareReadiness,
    example: examplePlaces("past"),
  },
  {
    id: "dry",
    group: "stack",
    route: "/v1/seasoning",
    page: {
      where: { enum: ["shed", "places"] },
      wet: { enum: ["table", "fresh", "weeks", "near", "own"] },
      still: { enum: ["later", "stays"] },
    },
    start: (shop) => ({ "page.where": "shed", "page.still": "later", "page.wet": "table", ...room(shop) }),
    steps: [
      { id: "billet", items: [{ path: "billet", first: ["wood", "thickness", "width", "rings"] }] },
      {
        id: "where",
        items: [
          ...outside(all({})),
          { path: "page.where" },
          ...lying(all({ "page.where": ["shed"] })),
          { path: "stays", when: all({ "page.where": ["places"] }), needed: true, whole: true },
        ],
      },
      { id: "room", items: [{ path: "target_condition" }] },
    ],
    example: examplePlaces("where"),
    prepare(request, page) {
      const moves = [["/billet/start_condition", "page.wet"]];
      wetted(request, page, moves);
      if (page.where === "shed") place(request, page, moves);
      return { request, moves };
    },
  },
  {
    id: "timing",
    group: "saw",
    route: "/v1/resaw-timing",
    page: { where: { enum: ["shed", "room", "places"] }, still: { enum: ["later", "stays"] } },
    start: (shop) => ({ "page.where": "room", "page.still": "later", as_of: "today", ...room(shop) }),
    steps: [
      { id: "billet", items: [{ path: "billet", first: ["wood", "length", "width", "thickness", "rings"] }] },
      { id: "wet", items: [{ path: "moisture_profile" }] },
      {
        id: "where",
        items: [
          { path: "page.where" },
          ...lying(all({ "page.where": ["shed"] })),
          { path: "stays", when: all({ "page.where": ["places"] }), needed: true, whole: true },
          { path: "leaf_stays", when: all({ "page.where": ["places"] }) },
        ],
      },
      { id: "room", items: [{ path: "target_condition" }, { path: "as_of" }] },
      { id: "become", items: [{ path: "part" }, { path: "saw" }] },
    ],
    example: () => ({ "page.where": "places" }),
    prepare(request, page) {
      const moves = [];
      if (page.where === "shed") place(request, page, moves);
      if (page.where === "room") {
        request.stays = [roomOf(request)];
        moves.push(["/stays/0/air", "target_condition.air"]);
      }
      return { request, moves };
    },
  },
  {
    id: "plan",
    group: "saw",
    route: "/v1/resaw-plan",
    start: () => ({ as_of: "today" }),
    steps: [
      { id: "planks", items: [{ path: "billets", first: ["wood", "length", "width", "thickness", "zones"] }] },
      {
        id: "parts",
        items: [
          {
            path: "parts",
            first: ["name", "part_size", "length", "width", "final_thickness", "pieces_per_set", "set_value"],
          },
        ],
      },
      { id: "saws", items: [{ path: "saws", first: ["name", "kerf", "usual_kerf"] }] },
    ],
  },
  {
    id: "yield",
    group: "saw",
    route: "/v1/leaf-yield",
    steps: [
      { id: "billet", items: [{ path: "billet" }] },
      {
        id: "become",
        items: [
          {
            path: "part",
            first: ["part_size", "length", "width", "final_thickness", "sawn_thickness", "pieces_per_set"],
          },
        ],
      },
      { id: "saw", items: [{ path: "saw" }] },
    ],
  },
  {
    id: "log",
    group: "saw",
    route: "/v1/log-plan",
    steps: [
      { id: "log", items: [{ path: "log" }] },
      { id: "pattern", items: [{ path: "pattern" }, { path: "pith_out" }, { path: "sapwood_out" }] },
      { id: "wanted", items: [{ path: "wanted" }] },
      { id: "saw", items: [{ path: "saw" }] },
    ],
  },
  {
    id: "match",
    group: "joint",
    route: "/v1/bookmatch",
    start: () => ({ "billet.rings~": "angle_deg" }),
    steps: [
      { id: "billet", items: [{ path: "billet", first: ["wood", "width", "rings", "grain"] }] },
      {
        id: "leaves",
        items: [
          { path: "", only: ["stack", "leaves"] },
          { path: "saw", first: ["kerf", "usual_kerf"] },
          { path: "seam_edge" },
        ],
      },
    ],
  },
  {
    id: "section",
    group: "joint",
    route: "/v1/section-shape",
    start: (shop) => ({
      "from_condition~": "green",
      "from_condition.green": "yes",
      "to_condition~": "air",
      "to_condition.air.temperature": shop.temperature,
      "to_condition.air.rh_pct": shop.rh,
      "rings~": "pith",
    }),
    steps: [
      { id: "piece", items: [{ path: "wood" }, { path: "width" }, { path: "thickness" }, { path: "rings" }] },
      { id: "twoAirs", items: [{ path: "from_condition" }, { path: "to_condition" }] },
    ],
  },
  {
    id: "move",
    group: "glued",
    route: "/v1/movement",
    start: (shop) => ({
      "from_condition~": "air",
      "from_condition.air.temperature": shop.temperature,
      "from_condition.air.rh_pct": shop.rh,
      "to_condition~": "air",
    }),
    steps: [
      {
        id: "piece",
        items: [
          { path: "wood" },
          { path: "size" },
          { path: "", only: ["size_ring_angle_deg", "direction"] },
          { path: "size_at" },
        ],
      },
      { id: "twoAirs", items: [{ path: "from_condition" }, { path: "to_condition" }] },
    ],
  },
  {
    id: "drawer",
    group: "glued",
    route: "/v1/assembly-movement",
    own: true,
    page: {
      wood: { $ref: "#/components/schemas/Wood" },
      height: length,
      opening: length,
      rings: { $ref: "#/components/schemas/Rings" },
      finish: { $ref: "#/components/schemas/Finishes" },
      room: { $ref: "#/components/schemas/Room" },
      today: { $ref: "#/components/schemas/Air" },
      least: length,
      widest: length,
    },
    start: (shop, system) => ({
      "page.today.temperature": shop.temperature,
      "page.today.rh_pct": shop.rh,
      "page.room.heated_to": shop.temperature,
      "page.least": system === "inch" ? "1/32 in" : "0.5 mm",
      "page.widest": system === "inch" ? "5/32 in" : "4 mm",
    }),
    steps: [
      {
        id: "drawer",
        items: [
          { path: "page.wood", needed: true },
          { path: "page.height", needed: true },
          { path: "page.opening" },
          { path: "page.rings" },
          { path: "page.finish" },
        ],
      },
      { id: "house", items: [{ path: "page.room", needed: true }] },
      { id: "today", items: [{ path: "page.today", needed: true }] },
      {
        id: "gaps",
        items: [
          { path: "page.least", needed: true },
          { path: "page.widest", needed: true },
        ],
      },
    ],
    prepare(_, page) {
      const side = {
        id: "side",
        wood: page.wood,
        thickness: "12 mm",
        width: page.height,
        ...(page.rings && { rings: page.rings }),
        ...(page.finish && { finish: page.finish }),
      };
      // The opening stands along the grain of the carcase, which hardly moves.
      const opening = {
        id: "opening",
        wood: page.wood,
        thickness: "20 mm",
        length: page.opening || page.height,
        ...(page.rings && { rings: page.rings }),
      };
      const request = {
        parts: [side, opening],
        room: page.room,
        build_condition: { air: page.today },
        pairs: [
          {
            id: "drawer",
            outer: { part: "opening", dimension: "length" },
            inner: { part: "side", dimension: "width" },
            min_clearance: page.least,
            max_clearance: page.widest,
          },
        ],
      };
      const moves = [
        ["/parts/0/wood", "page.wood"],
        ["/parts/1/wood", "page.wood"],
        ["/parts/0/width", "page.height"],
        ["/parts/1/length", page.opening ? "page.opening" : "page.height"],
        ["/parts/0/rings", "page.rings"],
        ["/parts/0/finish", "page.finish"],
        ["/room", "page.room"],
        ["/build_condition/air", "page.today"],
        ["/pairs/0/min_clearance", "page.least"],
        ["/pairs/0/max_clearance", "page.widest"],
        ["/pairs/0", "page.widest"],
      ];
      return { request, moves };
    },
  },
  {
    id: "layers",
    group: "glued",
    route: "/v1/laminate",
    start: (shop) => ({
      "glue_up_condition~": "air",
      "glue_up_condition.air.temperature": shop.temperature,
      "glue_up_condition.air.rh_pct": shop.rh,
      "later_condition~": "air",
      "layers#": "2",
    }),
    steps: [
      { id: "panel", items: [{ path: "length" }, { path: "width" }] },
      { id: "layers", items: [{ path: "layers" }, { path: "glue" }] },
      { id: "twoAirs", items: [{ path: "glue_up_condition" }, { path: "later_condition" }] },
    ],
  },
  {
    id: "work",
    group: "glued",
    route: "/v1/assembly-movement",
    start: (shop) => ({
      "build_condition~": "air",
      "build_condition.air.temperature": shop.temperature,
      "build_condition.air.rh_pct": shop.rh,
      "room.heated_to": shop.temperature,
    }),
    steps: [
      { id: "parts", items: [{ path: "parts" }] },
      { id: "house", items: [{ path: "", only: ["room", "driest_condition", "wettest_condition"] }] },
      { id: "build", items: [{ path: "build_condition" }] },
      { id: "joints", items: [{ path: "pairs" }, { path: "glued_joints" }] },
    ],
  },
  {
    id: "year",
    group: "glued",
    route: "/v1/year-in-service",
    start: (shop) => ({
      "build_condition~": "air",
      "build_condition.air.temperature": shop.temperature,
      "build_condition.air.rh_pct": shop.rh,
      "room.heated_to": shop.temperature,
      "parts#": "1",
    }),
    steps: [
      { id: "parts", items: [{ path: "parts" }, { path: "laminates" }] },
      { id: "house", items: [{ path: "room" }] },
      { id: "build", items: [{ path: "build_condition" }] },
    ],
  },
  {
    id: "moisture",
    group: "air",
    route: "/v1/moisture",
    steps: [{ id: "measured", items: [{ path: "readings" }, { path: "wood" }] }],
  },
  {
    id: "emc",
    group: "air",
    route: "/v1/emc",
    start: (shop) => ({ "air.temperature": shop.temperature, "air.rh_pct": shop.rh }),
    steps: [{ id: "air", items: [{ path: "", only: ["air", "wanted_emc_pct", "temperature"] }, { path: "wood" }] }],
  },
  {
    id: "air",
    group: "air",
    route: "/v1/air",
    start: (shop) => ({ heated_to: shop.temperature }),
    steps: [{ id: "air", items: [{ path: "air" }, { path: "heated_to" }] }],
  },
];

// What is asked of a billet on the rack: by its id, with only what the rack cannot know.
const ofBillet = {
  ready: { route: "readiness", steps: [] },
  timing: {
    route: "resaw-timing",
    steps: [
      { id: "become", items: [{ path: "part" }, { path: "saw" }] },
      { id: "room", items: [{ path: "target_condition" }, { path: "leaf_stays" }] },
    ],
  },
  plan: {
    route: "resaw-plan",
    steps: [
      {
        id: "parts",
        items: [
          { path: "plan" },
          {
            path: "parts",
            first: ["name", "part_size", "length", "width", "final_thickness", "pieces_per_set", "set_value"],
          },
        ],
      },
      { id: "saws", items: [{ path: "saws", first: ["name", "kerf", "usual_kerf"] }] },
    ],
  },
  move: { route: "movement", steps: [{ id: "piece", items: [{ path: "dimension" }, { path: "direction" }] }] },
};
const ofBilletRoute = "/v1/rack/billets/{id}/";

/** rackQuestion is a question about a billet on the rack by its place, rack/billets/b-1/plan; or undefined. */
export function rackQuestion(contract, place) {
  const [, id, name] = /^rack\/billets\/([^/]+)\/(\w+)$/.exec(place) || [];
  const route = name in ofBillet ? ofBilletRoute + ofBillet[name].route : "";
  if (!contract.questions[route]) return undefined;
  const group = questions.find((q) => q.id === name).group;
  return {
    ...ofBillet[name],
    id: place,
    like: name,
    billet: id,
    group,
    route,
    at: route.replace("{id}", encodeURIComponent(id)),
  };
}

/** groups in the order of the wood's way. */
export const groups = ["stack", "saw", "joint", "glued", "air", "other"];

/** allQuestions are those above and one for each route of the contract that none of them asks. */
export function allQuestions(contract) {
  const asked = new Set(questions.map((q) => q.route));
  const others = Object.keys(contract.questions)
    .filter((r) => !asked.has(r) && !r.startsWith(ofBilletRoute))
    .map((route) => ({ id: route.split("/").at(-1), group: "other", route, steps: [] }));
  return [...questions, ...others];
}

/** schemaOf is what a question's form is grown from: the request, and the page's own members. */
export function schemaOf(contract, question) {
  const request = contract.resolve({ $ref: `#/components/schemas/${contract.questions[question.route].request}` });
  const page = question.page && { type: "object", properties: question.page, required: [] };
  const { report_in, ...members } = request.properties;
  const properties = question.own ? { page } : { ...members, ...(page && { page }) };
  return question.own ? { type: "object", properties, required: ["page"], allOf: [] } : { ...request, properties };
}

/** met says whether a condition of an item holds: one of its sets, all of each. */
export function met(when, draft) {
  return !when || when.some((set) => Object.entries(set).every(([path, values]) => values.includes(draft[path])));
}

/** itemsOf returns the steps of a question with the last one, of all that no step names. */
export function stepsOf(contract, question, schema) {
  const d = contract.describe(schema);
  const named = new Set(
    question.steps.flatMap((s) => s.items.flatMap((i) => (i.path === "" ? i.only : [i.path.split(".")[0]]))),
  );
  const rest = d.names.filter((n) => n !== "page" && !named.has(n));
  return rest.length === 0
    ? question.steps
    : [...question.steps, { id: "rest", items: [{ path: "", only: rest, wish: true }] }];
}

/** claimed are the paths that items name on their own: they are not repeated in their object. */
export const claimed = (question) =>
  new Set(question.steps.flatMap((s) => s.items.map((i) => i.path)).filter((p) => p.includes(".")));

/**
 * Shown knows which paths of a question's draft show now. What the page asks by the way of
 * single members hides the list they belong to, unless that is asked as a whole.
 */
export class Shown {
  constructor(question, draft) {
    const items = question.steps.flatMap((s) => s.items).filter((i) => i.path !== "");
    this.shown = items.filter((i) => met(i.when, draft));
    this.hidden = items.filter((i) => !met(i.when, draft));
    this.needed = new Set(this.shown.filter((i) => i.needed).map((i) => i.path));
  }

  /** leavesOut says whether a member is not asked at all now. */
  leavesOut(path) {
    if (this.shown.some((i) => i.whole && path.startsWith(i.path + "."))) return false;
    return (
      this.hidden.some((i) => i.path === path) &&
      !this.shown.some((i) => i.path === path || i.path.startsWith(path + "."))
    );
  }

  /** has says whether an entry of the draft counts. */
  has(path) {
    const above = (i) => path === i.path || path.startsWith(i.path + ".");
    const longest = (items) => Math.max(-1, ...items.filter(above).map((i) => i.path.length));
    return this.shown.some((i) => i.whole && above(i)) || longest(this.shown) >= longest(this.hidden);
  }
}
