// A form as an address: #/question?u=inch&billet.wood=walnut. What says nothing is left out.
// Links that were made earlier are brought up to date by the moves below.

/** version of the names in links; it grows when a move is added. */
export const version = 1;

// For each version what was renamed after it. Links of version 0 have the names of the draft of
// the contract. `paths` are renamed from their beginning, the longest first, in the questions
// named or in all; `names` wherever they stand; `values` are told in other words.
const moves = [
  {
    paths: [
      { from: "history.stays", to: "stays" },
      { from: "history.as_of", to: "as_of" },
      { from: "history.horizon_days", to: "horizon_days" },
      { from: "history.stacked_on", to: "billet.stacked_on" },
      { from: "history.start_mc_pct", to: "billet.start_condition.mc_pct" },
      { from: "history.start_sd_pct", to: "billet.start_condition.mc_sd_points" },
      { from: "species", to: "billet.wood", in: ["ready", "dry", "timing", "yield", "match"] },
      { from: "wood", to: "billet.wood", in: ["ready", "dry", "timing", "match"] },
      { from: "species", to: "wood" },
      { from: "width", to: "billet.width", in: ["dry", "match"] },
      { from: "thickness", to: "billet.thickness", in: ["dry"] },
      { from: "length", to: "billet.length", in: ["dry"] },
      { from: "ring_angle_deg", to: "billet.rings.angle_deg", in: ["dry"] },
      { from: "stacked_on", to: "billet.stacked_on", in: ["dry"] },
      { from: "start_mc_pct", to: "billet.start_condition.mc_pct", in: ["dry"] },
      { from: "storage", to: "stays" },
      { from: "build_room", to: "target_condition.air" },
      { from: "rings", to: "billet.rings", in: ["match"] },
      { from: "grain", to: "billet.grain", in: ["match"] },
      { from: "from", to: "from_condition", in: ["move", "section"] },
      { from: "to", to: "to_condition", in: ["move", "section"] },
      { from: "at_glue_up", to: "glue_up_condition" },
      { from: "later", to: "later_condition" },
      { from: "made_at", to: "build_condition" },
      { from: "driest", to: "driest_condition" },
      { from: "wettest", to: "wettest_condition" },
      { from: "dimension", to: "size", in: ["move"] },
      { from: "date", to: "as_of", in: ["plan"] },
    ],
    names: {
      dry_bulb: "temperature",
      spoiled: "rejected_leaves",
      plate: "part_size",
      worth: "set_value",
      flatness: "flattening",
      reading_pct: "reading_mc_pct",
    },
    values: { part_size: dashed, station: dashed, usual_kerf: underscored, usual: underscored },
  },
];

// Ids of the tables that are looked up are written with dashes since.
function dashed(value) {
  return /^[a-z0-9]+(_[a-z0-9]+)+$/.test(value) ? value.replaceAll("_", "-") : value;
}

// Choices are written with underscores since.
function underscored(value) {
  return /^[a-z0-9]+(-[a-z0-9]+)+$/.test(value) ? value.replaceAll("-", "_") : value;
}

/** linkOf writes a question, its units and its draft as a fragment. */
export function linkOf(question, system, draft) {
  const query = new URLSearchParams();
  if (system === "inch") query.set("u", "inch");
  for (const key of Object.keys(draft).sort()) query.set(key, draft[key]);
  if ([...query].length > 0) query.set("v", String(version));
  const text = query.toString();
  return `#/${question}${text === "" ? "" : "?" + text}`;
}

/** readLink returns {place, system, draft} of a fragment. */
export function readLink(fragment) {
  const [place, text = ""] = fragment.replace(/^#?\/?/, "").split(/\?(.*)/s);
  const query = new URLSearchParams(text);
  const system = query.get("u") === "inch" ? "inch" : query.has("v") ? "metric" : undefined;
  const made = Number(query.get("v") || version);
  const draft = {};
  for (const [key, value] of query) {
    if (key === "u" || key === "v") continue;
    const [path, told] = moved(key, value, made, place);
    draft[path] = told;
  }
  return { place: decodeURIComponent(place), system, draft };
}

// An entry of an earlier link as it is told today. The marks of the draft (~ way, # count) stay.
function moved(key, value, made, question) {
  const [, told, mark] = /^(.*?)([~#]?)$/.exec(key);
  let path = told,
    said = value;
  for (const { paths, names, values } of moves.slice(made, version)) {
    const found = paths
      .filter((p) => (!p.in || p.in.includes(question)) && (path === p.from || path.startsWith(p.from + ".")))
      .sort((a, b) => b.from.length - a.from.length || (b.in ? 1 : 0) - (a.in ? 1 : 0))[0];
    if (found) path = found.to + path.slice(found.from.length);
    path = path
      .split(".")
      .map((name) => (Object.hasOwn(names, name) ? names[name] : name))
      .join(".");
    const last = path.split(".").at(-1);
    if (Object.hasOwn(values, last)) said = values[last](said);
  }
  return [path + mark, said];
}
