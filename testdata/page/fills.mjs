// What a person puts into each form, from an empty one: `both` in either system, `metric` and
// `inch` in one. `wrong` is a field, what is wrongly typed there and what is said of it.
// All of it is invented.
const billet = { "billet.wood": "black walnut" };
const sizes = { metric: { "billet.length": "1250", "billet.width": "260", "billet.thickness": "54" }, inch: { "billet.length": "4' 1 1/4\"", "billet.width": "10 1/4", "billet.thickness": "2⅛" } };
const part = { metric: { "part.length": "560", "part.width": "210", "part.final_thickness": "3" }, inch: { "part.length": "22", "part.width": "8 1/4", "part.final_thickness": "1/8" } };
const outside = { "billet.stacked_on": "23 March 2025", "stays.0.station": "Columbus, OH", "stays.0.until": "1 May 2027" };

export const fills = {
  ready: {
    both: { ...billet, ...outside }, metric: { ...sizes.metric, "page.weights": "15.3.2026\t11,10\n6.7.2026\t10,83\n2.11.2026\t10,75", as_of: "28.11.2026" },
    inch: { ...sizes.inch, "page.weights": "3/15/2026 24 lb 7 oz\n7/6/2026 23 lb 14 oz\n11/2/2026 23 lb 11 oz", as_of: "Nov 28, 2026" },
    wrong: ["billet.stacked_on", "3/4/2025", /3 Apr 2025 or 4 Mar 2025/], said: /ready|Cannot say/i, drawn: true,
  },
  dry: {
    both: { "billet.wood": "white oak", "billet.stacked_on": "19 April 2026", "stays.0.station": "Minneapolis-St. Paul, MN", "stays.0.until": "3 Oct 2027" }, metric: { "billet.thickness": "27" }, inch: { "billet.thickness": "5/4" },
    wrong: ["stays.0.station", "", /Enter: place/], said: /about|forecast/, drawn: true, unit: false,
  },
  timing: {
    both: { ...billet, "moisture_profile.mean_mc_pct": "18,5" }, metric: { ...sizes.metric, ...part.metric, "saw.kerf": "1,5" }, inch: { ...sizes.inch, ...part.inch, "saw.kerf": "1/16" },
    wrong: ["moisture_profile.mean_mc_pct", "wet", /“wet” is not a number/], said: /saw|dry|trade|whole|now/i, drawn: true,
  },
  plan: {
    both: { "billets.0.wood": "black walnut", "billets.0.zones#": "", "billets.0.zones.0.kind": "knot", "parts.0.name": "back", "parts.0.pieces_per_set": "2" },
    metric: { "billets.0.length": "1250", "billets.0.width": "260", "billets.0.thickness": "54", "billets.0.zones.0.x_from": "600", "billets.0.zones.0.x_to": "640", "billets.0.zones.0.y_from": "100", "billets.0.zones.0.y_to": "140", "parts.0.length": "560", "parts.0.width": "210", "parts.0.final_thickness": "3", "saws.0.kerf": "1.5" },
    inch: { "billets.0.length": "49 1/4", "billets.0.width": "10 1/4", "billets.0.thickness": "8/4", "billets.0.zones.0.x_from": "23", "billets.0.zones.0.x_to": "25", "billets.0.zones.0.y_from": "4", "billets.0.zones.0.y_to": "5½", "parts.0.length": "22", "parts.0.width": "8 1/4", "parts.0.final_thickness": "1/8", "saws.0.kerf": "1/16" },
    wrong: ["billets.0.length", "1,250", /1250 or 1\.250/], said: /sets? of back/, drawn: true,
  },
  yield: {
    both: { ...billet }, metric: { ...sizes.metric, ...part.metric, "saw.kerf": "1,5" }, inch: { ...sizes.inch, ...part.inch, "saw.kerf": "1/16" },
    wrong: ["saw.kerf", "thin", /holds no number/], said: /\d+ leaves, \d+ sets/,
  },
  log: {
    both: { "log.wood": "black walnut", pattern: "through_and_through" },
    metric: { "log.length": "2500", "log.start_diameter": "480", "log.end_diameter": "430", "wanted.thickness": "52", "wanted.min_width": "150", "saw.kerf": "3" },
    inch: { "log.length": "8' 2\"", "log.start_diameter": "19", "log.end_diameter": "17", "wanted.thickness": "8/4", "wanted.min_width": "6", "saw.kerf": "1/8" },
    wrong: ["log.start_diameter", "1/2", /at least|from/], said: /boards?/, drawn: true,
  },
  match: {
    both: { "billet.wood": "sugar maple", "billet.rings.angle_deg": "80" }, metric: { "billet.width": "210", "stack.leaves": "4", "stack.sawn_thickness": "5", "saw.kerf": "1.5" }, inch: { "billet.width": "8 1/4", "stack.leaves": "4", "stack.sawn_thickness": "3/16", "saw.kerf": "1/16" },
    wrong: ["billet.rings.angle_deg", "95", /at most 90|0 to 90|90/], said: /pairs?/, drawn: true,
  },
  section: {
    both: { wood: "sugar maple" }, metric: { width: "230", thickness: "52", "rings.pith.z": "90" }, inch: { width: "9", thickness: "8/4", "rings.pith.z": "3 1/2" },
    wrong: ["width", "wide", /holds no number/], said: /\w/, drawn: true,
  },
  move: {
    both: { wood: "sugar maple", size_ring_angle_deg: "12", "to_condition~": "air", "to_condition.air.rh_pct": "25" }, metric: { size: "330", "to_condition.air.temperature": "22" }, inch: { size: "13", "to_condition.air.temperature": "72" },
    wrong: ["size", "", /Enter: size/], said: /Shrinks by/,
  },
  drawer: {
    both: { "page.wood": "white oak", "page.room.station": "Columbus, OH" }, metric: { "page.height": "150", "page.rings.angle_deg": "80" }, inch: { "page.height": "6", "page.rings.angle_deg": "80" },
    wrong: ["page.room.station", "Atlantis", /Atlantis|no station|did you mean/], said: /Leave .* at the top today/, drawn: true,
  },
  layers: {
    both: { "layers.0.wood": "sugar maple", "layers.0.rings.angle_deg": "10", "layers.1.wood": "black walnut", "layers.1.rings.angle_deg": "80", "later_condition~": "air", "later_condition.air.rh_pct": "30" },
    metric: { length: "450", width: "330", "layers.0.thickness": "6", "layers.1.thickness": "38", "later_condition.air.temperature": "21" }, inch: { length: "17 3/4", width: "13", "layers.0.thickness": "1/4", "layers.1.thickness": "1 1/2", "later_condition.air.temperature": "70" },
    wrong: ["layers.0.rings.angle_deg", "", /Enter: ring angle/], said: /panel/, drawn: true,
  },
  work: {
    both: { "parts.0.wood": "sugar maple", "room.station": "Columbus, OH" }, metric: { "parts.0.width": "400", "parts.0.thickness": "20" }, inch: { "parts.0.width": "16", "parts.0.thickness": "3/4" },
    wrong: ["parts.0.thickness", "900", /at most|300|thick/], said: /moves most|width|thickness/, drawn: true,
  },
  year: {
    both: { "parts.0.wood": "sugar maple", "room.station": "Columbus, OH" }, metric: { "parts.0.width": "400", "parts.0.thickness": "20" }, inch: { "parts.0.width": "16", "parts.0.thickness": "3/4" },
    wrong: ["room.station", "", /Enter: place/], said: /driest|wettest/, drawn: true,
  },
  moisture: {
    both: { "readings.0.reading_mc_pct": "13,5" }, metric: { "readings.0.wood_temperature": "19" }, inch: { "readings.0.wood_temperature": "66" },
    wrong: ["readings.0.reading_mc_pct", "", /Enter: reading/], said: /It holds/, unit: false,
  },
  emc: { both: { "air.rh_pct": "45" }, metric: { "air.temperature": "21" }, inch: { "air.temperature": "70" }, wrong: ["air.rh_pct", "145", /100/], said: /settles at/, unit: false },
  air: { both: { "air.rh_pct": "80" }, metric: { "air.temperature": "2" }, inch: { "air.temperature": "36" }, wrong: ["air.temperature", "2 kg", /not a unit/], said: /Heated to/ },
};

// What makers came with, and how: one try each is allowed.
export const tasks = [
  {
    name: "a billet that still lies in the shed, on a telephone", question: "ready", phone: true, said: /./,
    attempts: [{
      "billet.wood": "Cherry, black", "billet.length": "900", "billet.width": "200", "billet.thickness": "52", next: "", "billet.stacked_on": "12.4.2025", "stays.0.station": "Zürich", "stays.0.until": "1.5.2027",
      "2 next": "", "page.weights": "1.6.2026\t7,2\n28.11.2026\t6,9",
    }],
  },
  {
    name: "a bought board with a meter reading", question: "ready", said: /./,
    attempts: [{
      "billet.wood": "Cherry, black", "billet.length": "900", "billet.width": "200", "billet.thickness": "52", next: "", "page.past": "bought", "page.since": "1 Nov 2026", "page.start_mc_pct": "11,5",
    }],
  },
  {
    name: "bigleaf maple", question: "ready", said: /./,
    attempts: [{
      "billet.wood": "Maple, bigleaf", "billet.length": "24 1/2 in", "billet.width": "6 1/4 in", "billet.thickness": "8/4", next: "", "billet.stacked_on": "23 March 2025", "page.wet": "fresh", "stays.0.station": "Astoria, OR", "stays.0.until": "1 May 2027",
    }],
  },
  {
    name: "a plan with knots", question: "plan", said: /sets? of back/,
    attempts: [{
      "billets.0.wood": "black walnut", "billets.0.length": "1250", "billets.0.width": "260", "billets.0.thickness": "54", "billets.0.zones#": "", "billets.0.zones.0.kind": "knot", "billets.0.zones.0.x_from": "600", "billets.0.zones.0.x_to": "640", "billets.0.zones.0.y_from": "100", "billets.0.zones.0.y_to": "140",
      next: "", "parts.0.name": "back", "parts.0.length": "560", "parts.0.width": "210", "parts.0.final_thickness": "3", "2 next": "", "saws.0.kerf": "1,5",
    }],
  },
  {
    name: "clearances of a drawer", question: "drawer", said: /Leave .* at the top today/,
    attempts: [{ "page.wood": "Oak, white", "page.height": "150", "page.rings.angle_deg": "80", next: "", "page.room.station": "Columbus, OH", "2 next": "", "page.today.rh_pct": "40" }],
  },
];
