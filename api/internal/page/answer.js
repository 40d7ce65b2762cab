// An answer, always in this order: one sentence, verdicts, what looks wrong, the drawing, what to
// do next, numbers, what to know before trusting it, sources, and what can be done with it.
import { h } from "./dom.js";
import { mark } from "./pictures.js";
import { detailsOf } from "./details.js";
import { drawingOf } from "./drawing.js";
import { bandOf, inOneWay, middle, range, row, sayChange, show, undated } from "./figures.js";
import { sayDay, trimmed } from "./reading.js";
import { trust } from "./trust.js";
import { capital, fill, words } from "./words.js";

const text = words.answer;
const at = (result, path) => path.split(".").reduce((v, n) => v?.[n], result);
const mcOf = (b) => {
  const { value, low, high } = bandOf(b);
  return { mc: value, low, high };
};

// A summary of the service in two: what is said first, and what stands small below it.
function divided(summary, mark) {
  const i = summary.indexOf(mark);
  return i < 0 ? [summary, ""] : [summary.slice(0, i), capital(summary.slice(i + mark.length).trim())];
}

// The sentence of each question: what is said first, and what stands small below it.
const sentences = {
  ready(r) {
    const steps = (verdict) =>
      listed(r.verdicts.filter((v) => v.verdict === verdict).map((v) => v.step.replaceAll("_", " ")));
    const ready = steps("ready"),
      not = steps("not_ready"),
      unsure = steps("cannot_say");
    const parts = [
      ready && (not || unsure) ? fill(text.readyFor, { steps: ready }) : ready ? text.allReady : "",
      not && fill(ready ? text.notFor : unsure ? text.notReadyFor : text.notReady, { steps: not }),
      unsure ? fill(text.unsureOf, { steps: unsure }) : "",
    ];
    // The steps come one after the other: where an earlier one has no date, none is told.
    const open = (v) => v.verdict === "cannot_say" && !v.ready_on?.value;
    const first = r.verdicts.find((v) => v.verdict === "not_ready" || open(v));
    const soon = first?.ready_on?.value ? first : undefined;
    const when = soon
      ? fill(text.soon, { step: soon.step.replaceAll("_", " "), date: sayDay(soon.ready_on.value) })
      : "";
    const now = r.moisture?.mc,
      small = now ? fill(text.nowAnd, { ...mcOf(now), target: bandOf(r.target.mc).value }) : "";
    return [[...parts, when].filter(Boolean).join(" "), small];
  },
  move: (r) => {
    const c = sayChange(r.change);
    return [`${c.by} (${c.range})`, r.wood?.common_name || ""];
  },
  dry(r) {
    if (!r.mean_dry?.value) return [r.summary, ""];
    const { value, low, high } = r.mean_dry;
    const between = { low: low ? sayDay(low) : "…", high: high ? sayDay(high) : text.later };
    return [
      fill(text.dryAbout, { date: sayDay(value), between: fill(text.between, between) }),
      fill(text.dryAt, { dry: trimmed(r.dry_mc_pct, 1), target: bandOf(r.target_mc).value }),
    ];
  },
  timing: (r) => divided(r.summary, "; "),
  plan: (r) => divided(r.summary, "; worth ").map((said, i) => (i === 1 && said ? fill(text.worth, { said }) : said)),
  section(r) {
    const face = r.shape.faces.find((f) => f.face === "face_1");
    if (!face || face.cup.low <= 0 || face.cup.value <= 0) return [r.summary, ""];
    const cup = { cup: middle(face.cup), range: range(face.cup) };
    return [
      fill(text.cups, { face: face.detail.split(":")[0], ...cup }),
      fill(text.planed, { left: middle(r.shape.planed_flat), range: range(r.shape.planed_flat) }),
    ];
  },
  yield: (r) => [
    fill(text.sets, r),
    r.one_more_leaf?.max_kerf ? fill(text.oneMore, { kerf: atMost(r.one_more_leaf.max_kerf) }) : "",
  ],
  emc: (r, asked) =>
    asked.wanted_emc_pct === undefined
      ? [fill(text.settles, mcOf(r.emc)), ""]
      : [fill(text.keepsAt, { rh: trimmed(r.rh_pct, 1), mc: asked.wanted_emc_pct }), ""],
  moisture: (r) => (r.combined ? [fill(text.holds, mcOf(r.combined.mc)), ""] : [text.tellsNothing, ""]),
  air: (r) =>
    r.heated
      ? [
          fill(text.airHeated, {
            temperature: show(r.heated.temperature.value, r.heated.temperature.unit),
            rh: trimmed(r.heated.rh_pct, 1),
            mc: r.heated.emc ? bandOf(r.heated.emc).value : "",
          }),
          "",
        ]
      : [fill(text.airNow, { mc: r.air.emc ? bandOf(r.air.emc).value : "" }), ""],
  drawer(r) {
    const [pair] = r.pairs || [];
    if (!pair) return [r.summary, ""];
    const { min, max, usual } = pair.build_clearance;
    const today = pair.feasible
      ? fill(text.gap, { low: cut(min, Math.ceil), high: cut(max, Math.floor), usual: cut(usual, Math.round) })
      : fill(text.noGap, { least: cut(min, Math.ceil), wide: gapIn(r, pair, min.value, "driest"), ...seasons(r) });
    const made = asMade(r, pair);
    return made ? [made, today] : [today, pair.detail];
  },
};

// A kerf that must not be wider: told as kerfs are, in decimals, never rounded up.
function atMost({ value, unit }) {
  const per = unit === "in" ? 1000 : 100;
  return `${trimmed(Math.floor(value * per + 1e-6) / per, 3)} ${unit}`;
}

// A gap as it can be cut: to a tenth of a millimetre or a 64th of an inch, into the limits.
function cut({ value, unit }, round) {
  const per = unit === "in" ? 64 : 10;
  return show(round(value * per) / per, unit);
}

// The month of a day of an answer: about it is all that a year like every other can tell.
function monthOf(day) {
  const of = Number((day?.date?.slice(4) || day?.day_of_year?.slice(1) || "").slice(1, 3));
  if (!of) return "";
  return new Date(Date.UTC(2001, of - 1, 1)).toLocaleString(words.language, { month: "long", timeZone: "UTC" });
}

const seasons = (r) => ({ wettest: monthOf(r.parts[0].wettest), driest: monthOf(r.parts[0].driest) });

// The gap on the driest or the wettest day of one that is so wide at the build.
const gapIn = (r, pair, built, state) =>
  cut({ value: built + pair[`to_${state}`].value, unit: pair.build_clearance.min.unit }, Math.round);

// What a drawer does as it was made, where the side and the opening were both told.
function asMade(r, pair) {
  const made = pair.as_made;
  if (!made) return "";
  const opening = r.parts[1].sizes.find((s) => s.dimension === "length").build,
    { min, usual } = pair.build_clearance,
    { value: gap, unit } = made.clearance;
  const plane = (to) => cut({ value: opening.value - to, unit }, Math.floor);
  const told = { gap: cut({ value: Math.abs(gap), unit }, Math.round), ...seasons(r) };
  const better = " " + fill(text.plane, { size: plane(pair.feasible ? usual.value : min.value) });
  switch (made.verdict) {
    case "too_large":
      return fill(text.tooHigh, told) + better;
    case "binds":
      return fill(text.binds, told) + better;
    case "may_bind":
      return fill(text.mayBind, told) + better;
    case "gapes":
      return fill(text.gapes, { ...told, wide: gapIn(r, pair, gap, "driest") });
    default:
      return fill(text.fits, told);
  }
}

const listed = (all) =>
  all.length < 2 ? all.join("") : all.slice(0, -1).join(", ") + " " + words.and + " " + all.at(-1);

// A figure and its unit are not torn apart at the end of a line.
const together = (said) => said.replace(/(\d) (?=(%|mm|in|kg|lb|m|ft)(?!\w))/g, "$1\u00a0");

/** sentenceOf says an answer in one sentence. */
export function sentenceOf(question, result, request) {
  const [first, small] = inOneWay(() => sentences[question]?.(result, request) || [result.summary || "", ""]);
  return { said: capital(first || result.summary || ""), small: capital(small || "") };
}

/** verdictsNode shows each step with its date, early and late, on a line from today to the latest of all. */
export function verdictsNode(result, day) {
  if (!result.verdicts?.length) return undefined;
  const days = result.verdicts
    .flatMap((v) => [v.ready_on?.high, v.ready_on?.value])
    .filter(Boolean)
    .sort();
  const last = days.at(-1) || day;
  return h(
    "ul",
    { class: "verd" },
    result.verdicts.map((v) =>
      h(
        "li",
        {},
        h("span", { class: "what" }, capital(v.step.replaceAll("_", " "))),
        h("span", { class: `mk ${v.verdict === "ready" ? "ok" : ""}` }, mark[v.verdict](), text[v.verdict]),
        h(
          "span",
          { class: "why" },
          v.verdict === "ready" ? "" : rail(v.ready_on, day, last),
          whenReady(v),
          h("span", { class: "small" }, v.detail),
        ),
      ),
    ),
  );
}

// How many that come to be ready still are four weeks later, where it is not nearly all.
const nearlyAll = 0.95;
function keptFor({ kept_probability: kept }) {
  if (kept === undefined || kept >= nearlyAll) return "";
  return h("span", { class: "small block" }, fill(text.keptFor, { pct: Math.round(100 * kept) }));
}

function whenReady({ verdict, ready_on: on }) {
  if (!on) return "";
  if (verdict === "ready") return keptFor(on);
  if (!on.value)
    return h("span", { class: "block" }, h("b", {}, undated(on)), " ", h("span", { class: "small" }, on.detail || ""));
  return h(
    "span",
    { class: "block" },
    h("b", {}, fill(text.about, { date: sayDay(on.value) })),
    " ",
    h(
      "span",
      { class: "small" },
      fill(text.between, { low: on.low ? sayDay(on.low) : "…", high: on.high ? sayDay(on.high) : text.later }),
    ),
    keptFor(on),
  );
}

/** rail draws a date with its early and late one on a line between two days. */
export function rail(on, from, to) {
  if (!on?.value || to <= from) return "";
  const part = (iso) =>
    Math.max(0, Math.min(100, (100 * (Date.parse(iso) - Date.parse(from))) / (Date.parse(to) - Date.parse(from))));
  const low = part(on.low || from),
    high = part(on.high || to),
    mid = part(on.value),
    ns = "http://www.w3.org/2000/svg";
  const node = document.createElementNS(ns, "svg");
  node.setAttribute("class", "rail");
  node.setAttribute("aria-hidden", "true");
  const put = (tag, given) => {
    const e = document.createElementNS(ns, tag);
    for (const [k, v] of Object.entries(given)) e.setAttribute(k, v);
    node.append(e);
  };
  put("line", { x1: "0%", x2: "100%", y1: 12, y2: 12 });
  put("rect", { class: "band", x: `${low}%`, width: `${Math.max(0.5, high - low)}%`, y: 5, height: 14 });
  put("line", { class: "now", x1: `${mid}%`, x2: `${mid}%`, y1: 3, y2: 21 });
  return node;
}

// Readings that did not fit, with what can be done about each.
function odd(result, take) {
  const all = result.rejected_readings || [];
  if (all.length === 0) return undefined;
  return h(
    "div",
    { class: "odd" },
    h(
      "p",
      {},
      mark.look(),
      " ",
      h("b", {}, all.length === 1 ? text.leftOut : fill(text.leftOutMany, { count: all.length })),
    ),
    all.flatMap((r) => [h("p", {}, h("b", {}, sayDay(r.date) + ": "), r.detail), take ? take(r) : ""]),
  );
}

function next(result, day, extra) {
  const items = [],
    reading = result.next_reading;
  // What is to be read today says so itself.
  if (reading)
    items.push(
      reading.date > day ? fill(text.weighNext, { date: sayDay(reading.date), detail: reading.detail }) : reading.detail,
    );
  for (const a of result.advice || []) items.push(typeof a === "string" ? a : a.detail);
  if (items.length === 0 && !extra) return undefined;
  return h(
    "div",
    { class: "next" },
    h("h3", {}, text.next),
    h(
      "ul",
      {},
      items.map((i) => h("li", {}, words.calledHere(i))),
    ),
    extra || "",
  );
}

const unshown = new Set([
  "summary",
  "wood",
  "basis",
  "series",
  "advice",
  "verdicts",
  "rejected_readings",
  "next_reading",
  "defaults_used",
  "outline",
  "profile",
]);

// What of an answer stands in the table, where not all of it does; the rest is under all numbers.
const mainOf = {
  ready: ["moisture.mc", "moisture.shell_mc", "moisture.core_mc", "target.mc", "mass_at_target.mass"],
  plan: ["mass", "max_kerf"],
  timing: ["target_mc", "moisture.mean_mc", "moisture.shell_mc", "moisture.core_mc"],
  yield: [
    "sawn_leaf.thickness",
    "unpaired_leaves",
    "one_more_leaf.max_kerf",
    "one_more_leaf.max_leaf_thickness",
    "one_more_leaf.billet_thickness",
    "shares.leaf_share_pct",
    "shares.kerf_share_pct",
  ],
  log: ["green_thickness", "volume.billet_share_pct", "mass"],
  section: [
    "from_mc",
    "to_mc",
    "shape.planed_flat",
    "shape.ripped_planed_flat",
    "shape.middle_width",
    "shape.middle_thickness",
    "radial_strain",
    "tangential_strain",
  ],
  layers: ["cup", "bow", "corner_lift", "width_change", "length_change"],
  moisture: ["combined.mc"],
  air: ["heated.rh_pct", "heated.emc", "heated.dew_point", "air.rh_pct", "air.emc", "air.wet_bulb", "air.dew_point"],
  work: [],
  year: [],
  drawer: [],
  dry: ["mean_dry", "core_dry", "target_mc", "lowest.mc", "drying_factor", "pace"],
};

// The numbers of an answer to the second level, in the order of the answer.
function rowsOf(result, question) {
  if (mainOf[question]) {
    const rows = mainOf[question]
      .map((path) => [path, row(path, at(result, path), path.split(".").at(-1))])
      .filter(([, told]) => told)
      .map(([path, [label, ...told]]) => [text.own[question]?.[path] ?? label, ...told]);
    return [...rows, ...(result.movement || []).map(moved)];
  }
  const rows = [];
  for (const [name, v] of Object.entries(result)) {
    if (unshown.has(name) || Array.isArray(v)) continue;
    const own = row(name, v, name);
    if (own) {
      rows.push(own);
      continue;
    }
    if (v && typeof v === "object")
      for (const [below, w] of Object.entries(v)) {
        const inner = row(`${name}.${below}`, w, below);
        if (inner)
          rows.push([
            inner[0] === words.label(below) && !isLabelled(name, below)
              ? `${words.label(name)}: ${inner[0].toLowerCase()}`
              : inner[0],
            ...inner.slice(1),
          ]);
      }
  }
  return rows;
}

// How a size moves on the way to the room; without the rings of the piece both cases are told.
function moved({ dimension, rings, change }) {
  const size = capital(dimension),
    known = text.ringsOf[rings];
  return [
    known ? fill(text.onTheWayOf, { size, rings: known }) : fill(text.onTheWay, { size }),
    ...row("change", change, "change").slice(1),
  ];
}

const isLabelled = (name, below) => `${name}.${below}` in words.labels;

function numbersTable(rows) {
  const bands = rows.some(([, , range]) => range !== "");
  return h(
    "table",
    { class: "nums" },
    h(
      "thead",
      {},
      h(
        "tr",
        {},
        [text.what, ...(bands ? [text.best, text.band] : [text.figure])].map((t) => h("th", { scope: "col" }, t)),
      ),
    ),
    h(
      "tbody",
      {},
      rows.map(([label, best, range]) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, label),
          h("td", { class: "num" }, best),
          bands ? h("td", {}, range) : "",
        ),
      ),
    ),
  );
}

const mostRows = 60;

// Everything, as nested lists: nothing of an answer is out of reach.
function everything(path, v, name) {
  const one = row(path, v, name);
  if (one) return h("li", {}, `${one[0]}: ${one[1]}${one[2] ? ` (${one[2]})` : ""}`);
  if (typeof v === "string" || typeof v === "boolean")
    return h(
      "li",
      {},
      `${words.label(path)}: ${typeof v === "boolean" ? (v ? words.form.yes : words.form.no) : v.replaceAll("_", " ")}`,
    );
  if (Array.isArray(v)) {
    if (v.length === 0) return "";
    if (v.every((x) => typeof x !== "object")) return h("li", {}, `${words.label(path)}: ${v.join(", ")}`);
    const items = v.slice(0, mostRows).map((x, i) => everything(`${path}.${i}`, x, String(i + 1)) || "");
    return h(
      "li",
      {},
      words.label(path),
      h("ol", {}, items, v.length > mostRows ? h("li", {}, fill(text.tooBig, { count: v.length - mostRows })) : ""),
    );
  }
  if (v && typeof v === "object") {
    const inner = Object.entries(v).map(([n, w]) => everything(`${path}.${n}`, w, n));
    return h("li", {}, /^\d+$/.test(name) ? "" : words.label(path), h("ul", {}, inner));
  }
  return "";
}

/** answerNode shows an answer. extra: {kind of question, context, drawing, request, program, take, more, tools} */
export function answerNode(answer, { kind, request, context, drawing, day, take, more, tools }) {
  const { result } = answer,
    { said, small } = sentenceOf(kind, result, request);
  const rows = inOneWay(() => rowsOf(result, kind));
  const node = h("article", { class: "sheet answer", "aria-labelledby": "said" });
  node.append(
    ...[
      context ? h("p", { class: "crumb" }, context) : undefined,
      h(
        "h2",
        { class: "say", id: "said", tabindex: "-1" },
        together(said),
        small ? h("small", {}, together(small)) : "",
      ),
      h("p", { class: "before", hidden: true, role: "status" }, text.before),
      verdictsNode(result, day),
      odd(result, take),
      h("div", { class: "drawn" }, drawing ? drawingOf(drawing, said) : ""),
      next(result, day, more),
      ...detailsOf(kind, result),
      rows.length > 0 ? h("section", {}, h("h3", {}, text.numbers), numbersTable(rows)) : undefined,
      h(
        "details",
        { class: "whole" },
        h("summary", {}, text.allNumbers),
        h(
          "ul",
          {},
          Object.entries(result)
            .filter(([n]) => n !== "series")
            .map(([n, v]) => everything(n, v, n)),
        ),
      ),
      trust(answer.warnings || [], request),
      h(
        "details",
        { class: "sources" },
        h("summary", {}, text.from),
        h("p", { class: "small" }, text.sourceHelp),
        h(
          "ul",
          {},
          (answer.basis || []).map((b) => h("li", {}, h("a", { href: `/v1/methods?q=${encodeURIComponent(b)}` }, b))),
        ),
      ),
      tools,
    ].filter(Boolean),
  );
  return { node, said };
}
