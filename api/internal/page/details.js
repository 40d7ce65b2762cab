// What some questions show beside their numbers: cuts to tick off, parts, ways side by side.
// Each is a heading and a table or a list; what an answer does not hold is not shown.
import { cutsOf } from "./cuts.js";
import { h } from "./dom.js";
import { inOneWay, isBand, isQuantity, middle, range, row, sayChange, show } from "./figures.js";
import { capital, fill, words } from "./words.js";

const text = words.details;

/** wide is a table that moves sideways where there is no room for it. */
const wide = (label, ...inner) => framed(label, h("table", {}, ...inner));

// Rows of one kind stand below each other on a narrow telephone, each with its figures by name.
const rowsOf = (label, ...inner) => framed(label, h("table", { class: "rows" }, ...inner));

const framed = (label, table) =>
  h("div", { class: "move table", role: "region", tabindex: "0", "aria-label": label }, table);

const head = (names) =>
  h(
    "thead",
    {},
    h(
      "tr",
      {},
      names.map((n) => h("th", { scope: "col" }, n)),
    ),
  );

// One cell: a figure with its band below it. Where there is no room for columns it says of what it is.
function cell(v, column) {
  const td = (given, ...inner) => h("td", { "data-column": column, ...given }, h("span", {}, ...inner));
  if (v === undefined || v === null) return td({}, "–");
  if (isBand(v))
    return td(
      { class: "num" },
      middle(v),
      v.low === v.high ? "" : h("small", { class: "block" }, range(v)),
    );
  if (isQuantity(v)) return td({ class: "num" }, show(v.value, v.unit));
  return td(
    { class: String(v).length > 40 ? "said" : undefined },
    Array.isArray(v)
      ? v.join(", ")
      : typeof v === "boolean"
        ? v
          ? words.form.yes
          : words.form.no
        : String(v).replaceAll("_", " "),
  );
}

// A table of the members named, of those that any item has.
const tableOf = (...told) => inOneWay(() => oneTable(...told));

function oneTable(title, items, members) {
  if (!items?.length) return undefined;
  const there = members.filter(([, take]) => items.some((i) => take(i) !== undefined));
  return h(
    "section",
    {},
    h("h3", {}, title),
    rowsOf(
      title,
      head(there.map(([name]) => name)),
      h(
        "tbody",
        {},
        items.map((i) =>
          h(
            "tr",
            {},
            there.map(([name, take]) => cell(take(i), name)),
          ),
        ),
      ),
    ),
  );
}

function plan(result) {
  return [
    tableOf(text.parts, result.parts, [
      [text.part, nameOf],
      [text.sets, (p) => p.sets],
      [text.missing, (p) => p.missing_sets || undefined],
      [text.length, (p) => p.length],
      [text.width, (p) => p.width],
      [text.sawn, (p) => p.sawn_leaf?.thickness],
    ]),
    ...cutsOf(result),
    result.saws?.length > 1
      ? tableOf(text.saws, result.saws, [
          [text.saw, (s) => s.name || s.id],
          [text.kerf, (s) => s.kerf],
          [text.worth, (s) => s.total_value],
          [text.sets, (s) => s.sets],
          [text.leaves, (s) => s.leaves],
          [text.steps, (s) => s.cuts],
        ])
      : undefined,
  ];
}

// Two ways in the same rows.
function timing(result) {
  const ways = [result.saw_now, result.dry_whole],
    names = [...new Set(ways.flatMap((w) => Object.keys(w || {})))];
  const rows = inOneWay(() => names.map((n) => ways.map((w) => row(n, w?.[n], n)))).filter((r) => r.some(Boolean));
  const reasons = result.recommendation?.reasons || [];
  return [
    reasons.length > 0
      ? h(
          "section",
          {},
          h("h3", {}, text.apart),
          h(
            "ul",
            {},
            reasons.map((r) => h("li", {}, capital(r))),
          ),
        )
      : undefined,
    h(
      "section",
      {},
      h("h3", {}, text.ways),
      wide(
        text.ways,
        head([words.answer.what, text.now, text.whole]),
        h(
          "tbody",
          {},
          rows.map((r) =>
            h(
              "tr",
              {},
              h("th", { scope: "row" }, r.find(Boolean)[0]),
              r.map((c) => h("td", {}, c ? c[1] : "–", c?.[2] ? h("small", { class: "block" }, c[2]) : "")),
            ),
          ),
        ),
      ),
    ),
  ];
}

// Where no gap keeps both limits, each is that of one of them, and says of which.
const gapOf = (end, alone) => (p) => {
  const gap = p.build_clearance[end];
  if (p.feasible) return gap;
  return gap.value > 0 ? fill(alone, { gap: show(gap.value, gap.unit) }) : undefined;
};

// A part that was not named is called by its place in the list.
const nameOf = ({ name, id }) => name || (/^\d+$/.test(id) ? `${text.part.toLowerCase()} ${id}` : id);

// The sizes of parts on their driest and wettest day.
function sizes(result) {
  const all = (result.parts || []).flatMap((p) =>
    (p.sizes || []).map((s) => ({ ...s, name: `${nameOf(p)}, ${s.dimension}` })),
  );
  const pairs = (result.pairs || []).filter((p) => p.build_clearance);
  return [
    tableOf(text.sizes, all, [
      [text.size, (s) => s.name],
      [text.build, (s) => s.build],
      [text.driest, (s) => s.driest],
      [text.wettest, (s) => s.wettest],
      [text.swing, (s) => s.swing],
    ]),
    tableOf(text.pairs, pairs, [
      [text.pair, (p) => p.name || p.id],
      [text.keeps, (p) => p.feasible],
      [text.least, gapOf("min", text.toClear)],
      [text.usual, (p) => (p.feasible ? p.build_clearance.usual : undefined)],
      [text.most, gapOf("max", text.toClose)],
      [text.said, (p) => p.detail],
    ]),
  ];
}

// Of a drawer only what was told: how thick its parts are is of no account.
const told = (result) =>
  sizes({
    ...result,
    parts: result.parts?.map((p) => ({ ...p, sizes: p.sizes.filter((s) => s.dimension !== "thickness") })),
  });

const log = (result) => [
  tableOf(text.billets, result.billets, [
    [text.billet, (b) => b.billet.id],
    [text.thickGreen, (b) => b.billet.thickness],
    [text.wideGreen, (b) => b.billet.width],
    [text.wideDry, (b) => b.dry_width],
    [text.length, (b) => b.billet.length],
    [text.angle, (b) => b.middle_ring_angle_deg],
  ]),
];

// The cup of each face, and what every reading says of the moisture.
const section = (result) => [
  tableOf(text.faces, result.shape?.faces, [
    [text.face, (f) => f.face.replaceAll("_", " ")],
    [text.cup, (f) => f.cup],
    [text.said, (f) => f.detail.replace(/^(the )?(face \d|\w+ edge) /, "")],
  ]),
];
const moisture = (result) => [
  result.estimates?.length > 1
    ? tableOf(text.each, result.estimates, [
        [text.by, (e) => words.way("", e.method.replace(/^mc\./, "").replaceAll("-", "_"))],
        [text.of, (e) => e.region],
        [text.holds, (e) => e.mc],
      ])
    : undefined,
];

const move = (result) => [
  tableOf(text.forms, result.forms, [
    [text.form, (f) => f.form],
    [text.change, (f) => (f.change ? `${sayChange(f.change).by} (${sayChange(f.change).range})` : undefined)],
  ]),
];

const byQuestion = { plan, timing, log, section, moisture, move, work: sizes, year: sizes, drawer: told };

/** detailsOf returns what a question shows beside its numbers. */
export const detailsOf = (question, result) => (byQuestion[question]?.(result) || []).filter(Boolean);
