// An answer, always in this order: one sentence, verdicts, what looks wrong, the drawing, what to
// do next, numbers, what to know before trusting it, sources, and what can be done with it.
import { h } from "./dom.js";
import { mark } from "./pictures.js";
import { detailsOf } from "./details.js";
import { drawingOf } from "./drawing.js";
import { range, row, sayChange, show, undated, inOneWay } from "./figures.js";
import { sayDay } from "./reading.js";
import { words, fill } from "./words.js";

const text = words.answer;
const at = (result, path) => path.split(".").reduce((v, n) => v?.[n], result);
const mcOf = (b) => ({ mc: b.value, low: b.low, high: b.high });

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
      small = now ? fill(text.nowAnd, { ...mcOf(now), target: r.target.mc.value }) : "";
    return [[...parts, when].filter(Boolean).join(" "), small];
  },
  move: (r) => {
    const c = sayChange(r.change);
    return [`${c.by} (${c.range})`, r.wood?.common_name || ""];
  },
  yield: (r) => [fill(text.sets, r), ""],
  emc: (r, asked) =>
    asked.wanted_emc_pct === undefined
      ? [fill(text.settles, mcOf(r.emc)), ""]
      : [fill(text.keepsAt, { rh: r.rh_pct, mc: asked.wanted_emc_pct }), ""],
  moisture: (r) => (r.combined ? [fill(text.holds, mcOf(r.combined.mc)), ""] : [text.tellsNothing, ""]),
  air: (r) =>
    r.heated
      ? [
          fill(text.airHeated, {
            temperature: show(r.heated.temperature.value, r.heated.temperature.unit),
            rh: r.heated.rh_pct,
            mc: r.heated.emc?.value ?? "",
          }),
          "",
        ]
      : [fill(text.airNow, { mc: r.air.emc?.value ?? "" }), ""],
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

// What a drawer does as it was made: the side and the opening were both told.
function asMade(r, pair) {
  const built = (part, dimension) => part.sizes.find((s) => s.dimension === dimension)?.build;
  const side = built(r.parts[0], "width"),
    opening = built(r.parts[1], "length"),
    gap = opening.value - side.value,
    { min, max, usual } = pair.build_clearance,
    { unit } = side;
  if (Math.abs(gap) < 1e-9) return "";
  const plane = (to) => cut({ value: opening.value - to, unit }, Math.floor);
  const told = { gap: cut({ value: Math.abs(gap), unit }, Math.round), ...seasons(r) };
  const better = fill(text.plane, { size: plane(pair.feasible ? usual.value : min.value) });
  if (gap < 0) return fill(text.tooHigh, told) + " " + better;
  if (gap + Math.min(pair.to_wettest.value, pair.to_driest.value) <= 0) return fill(text.binds, told) + " " + better;
  if (gap < min.value) return fill(text.mayBind, told) + " " + better;
  if (gap > max.value) return fill(text.gapes, { ...told, wide: gapIn(r, pair, gap, "driest") });
  return fill(text.fits, told);
}

const listed = (all) =>
  all.length < 2 ? all.join("") : all.slice(0, -1).join(", ") + " " + words.and + " " + all.at(-1);

/** sentenceOf says an answer in one sentence. */
export function sentenceOf(question, result, request) {
  const [first, small] = sentences[question]?.(result, request) || [result.summary || "", ""];
  const said = first || result.summary || "";
  return { said: said.charAt(0).toUpperCase() + said.slice(1), small };
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
        h(
          "span",
          { class: "what" },
          v.step.replaceAll("_", " ").replace(/^./, (c) => c.toUpperCase()),
        ),
        h("span", { class: `mk ${v.verdict === "ready" ? "ok" : ""}` }, mark[v.verdict](), text[v.verdict]),
        h(
          "span",
          { class: "why" },
          v.verdict === "ready" ? "" : rail(v.ready_on, day, last),
          whenReady(v, day),
          h("span", { class: "small" }, v.detail),
        ),
      ),
    ),
  );
}

function whenReady({ verdict, probability, ready_on: on }, day) {
  if (!on || verdict === "ready") return "";
  if (!on.value)
    return h("span", { class: "block" }, h("b", {}, undated(on)), " ", h("span", { class: "small" }, on.detail || ""));
  // Some of the cases are ready today, which is no date: how many is told.
  const cases = { pct: Math.round(100 * probability) };
  if (verdict === "cannot_say" && on.value <= day)
    return h("b", { class: "block" }, fill(probability > 0.5 ? text.shareProbably : text.share, cases));
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
    all.map((r) => h("p", {}, h("b", {}, sayDay(r.date) + ": "), r.detail, " ", take ? take(r) : "")),
  );
}

function next(result, extra) {
  const items = [];
  if (result.next_reading)
    items.push(fill(text.weighNext, { date: sayDay(result.next_reading.date), detail: result.next_reading.detail }));
  for (const a of result.advice || []) items.push(typeof a === "string" ? a : a.detail);
  if (items.length === 0 && !extra) return undefined;
  return h(
    "div",
    { class: "next" },
    h("h3", {}, text.next),
    h(
      "ul",
      {},
      items.map((i) => h("li", {}, i.charAt(0).toUpperCase() + i.slice(1))),
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
  work: [],
  year: [],
  drawer: [],
  dry: ["mean_dry", "core_dry", "target_mc", "lowest.mc", "drying_factor", "pace"],
};

// The numbers of an answer to the second level, in the order of the answer.
function rowsOf(result, question) {
  if (mainOf[question]) {
    const rows = mainOf[question].map((path) => row(path, at(result, path), path.split(".").at(-1))).filter(Boolean);
    const moves = (result.movement || []).map((m) => [
      fill(text.onTheWay, { size: m.dimension.replace(/^./, (c) => c.toUpperCase()) }),
      ...row("change", m.change, "change").slice(1),
    ]);
    return [...rows, ...moves];
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

const isLabelled = (name, below) => `${name}.${below}` in words.labels;

function numbersTable(rows) {
  return h(
    "table",
    {},
    h(
      "thead",
      {},
      h(
        "tr",
        {},
        [text.what, text.best, text.band].map((t) => h("th", { scope: "col" }, t)),
      ),
    ),
    h(
      "tbody",
      {},
      rows.map(([label, best, range]) =>
        h("tr", {}, h("th", { scope: "row" }, label), h("td", { class: "num" }, best), h("td", {}, range)),
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

const counted = (count, more) =>
  count === 1 ? (more ? text.oneSmaller : text.oneNote) : fill(more ? text.smaller : text.notes, { count });

// Warnings that matter stand open; what is usual is counted and folded.
const usualCodes = new Set(["recalled_value", "default_used", "estimated_value", "assumption", "not_used"]);

function trust(warnings) {
  const say = (w) => h("li", {}, w.subject ? h("b", {}, w.subject + ": ") : "", words.calledHere(w.detail));
  const matter = warnings.filter((w) => !usualCodes.has(w.code)),
    rest = warnings.filter((w) => usualCodes.has(w.code));
  if (warnings.length === 0) return undefined;
  return h(
    "section",
    { class: "trust" },
    h("h3", {}, text.trust),
    matter.length > 0 ? h("ul", {}, matter.map(say)) : "",
    rest.length > 0
      ? h("details", {}, h("summary", {}, counted(rest.length, matter.length > 0)), h("ul", {}, rest.map(say)))
      : "",
  );
}

/** answerNode shows an answer. extra: {kind of question, context, drawing, request, program, take, more, tools} */
export function answerNode(answer, { kind, request, context, drawing, day, take, more, tools }) {
  const { result } = answer,
    { said, small } = sentenceOf(kind, result, request);
  const rows = inOneWay(() => rowsOf(result, kind));
  const node = h("article", { class: "sheet answer", "aria-labelledby": "said" });
  node.append(
    ...[
      h("p", { class: "crumb" }, context),
      h("h2", { class: "say", id: "said", tabindex: "-1" }, said, small ? h("small", {}, small) : ""),
      h("p", { class: "before", hidden: true, role: "status" }, text.before),
      verdictsNode(result, day),
      odd(result, take),
      h("div", { class: "drawn" }, drawing ? drawingOf(drawing, said) : ""),
      next(result, more),
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
      trust(answer.warnings || []),
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
