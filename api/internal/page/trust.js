// What to know before trusting an answer: warnings, those that matter open, the rest counted and
// folded; what several places have in common told once, with each of the places.
import { h } from "./dom.js";
import { sayDay } from "./reading.js";
import { words, fill } from "./words.js";

const text = words.answer;
const usualCodes = new Set(["recalled_value", "default_used", "estimated_value", "assumption", "not_used"]);

const unescaped = (name) => name.replaceAll("~1", "/").replaceAll("~0", "~");
const lower = (label) => label.charAt(0).toLowerCase() + label.slice(1);

// Where a pointer leads: {item, whole}, the part of a list it lies in and the member with it.
function placeOf(pointer, request) {
  let at = request,
    path = "";
  const items = [];
  const names = pointer.split("/").slice(1).map(unescaped);
  for (const name of names) {
    at = at?.[name];
    if (/^\d+$/.test(name))
      items.push(
        at?.name ||
          at?.id ||
          (at?.date && sayDay(at.date)) ||
          fill(words.form.item, { what: words.itemOf(path), number: Number(name) + 1 }),
      );
    path = path === "" ? name : `${path}.${name}`;
  }
  const item = items.join(", ");
  const member = /^\d+$/.test(names.at(-1)) ? "" : lower(words.label(path));
  return { item, whole: [item, member].filter(Boolean).join(", ") };
}

/** placesOf says where pointers lead: the names of parts where they tell the places apart, else with the member. */
export function placesOf(pointers, request) {
  const places = pointers.map((p) => placeOf(p, request)),
    items = new Set(places.map((p) => p.item));
  if (items.size === places.length && !items.has("")) return [...items];
  return [...new Set(places.map((p) => p.whole))];
}

const alike = (w) => [w.code, w.method, w.detail.replace(/\d[\d.]*/g, "#")].join("|");

/** folded puts warnings that say the same of several together: {first, subjects, others, pointers}. */
export function folded(warnings) {
  const groups = new Map();
  for (const w of warnings) {
    const group = groups.get(alike(w)) || { first: w, subjects: [], others: [], pointers: [] };
    groups.set(alike(w), group);
    if (w.subject && !group.subjects.includes(w.subject)) group.subjects.push(w.subject);
    if (w.detail !== group.first.detail && !group.others.includes(w.detail)) group.others.push(w.detail);
    group.pointers.push(...(w.also_pointers || []));
  }
  return [...groups.values()];
}

// The service tells how many more there are; here each is named.
const counted = /; and \d+ more like it$/;

function sayOne({ first, subjects, others, pointers }, request) {
  const places = placesOf(pointers, request);
  return h(
    "li",
    {},
    subjects.length > 0 ? h("b", {}, subjects.join("; ") + ": ") : "",
    words.calledHere(places.length > 0 ? first.detail.replace(counted, "") : first.detail),
    places.length > 0 ? h("span", { class: "block small" }, fill(text.alsoFor, { places: places.join("; ") })) : "",
    others.length > 0
      ? h(
          "details",
          {},
          h("summary", {}, others.length === 1 ? text.likeItOne : fill(text.likeIt, { count: others.length })),
          h(
            "ul",
            {},
            others.map((o) => h("li", {}, words.calledHere(o))),
          ),
        )
      : "",
  );
}

const foldedAs = (count, more) =>
  count === 1 ? (more ? text.oneSmaller : text.oneNote) : fill(more ? text.smaller : text.notes, { count });

/** trust shows the warnings of an answer to a request; nothing where there are none. */
export function trust(warnings, request) {
  if (warnings.length === 0) return undefined;
  const all = folded(warnings),
    matter = all.filter((g) => !usualCodes.has(g.first.code)),
    rest = all.filter((g) => usualCodes.has(g.first.code));
  const list = (groups) =>
    h(
      "ul",
      {},
      groups.map((g) => sayOne(g, request)),
    );
  return h(
    "section",
    { class: "trust" },
    h("h3", {}, text.trust),
    matter.length > 0 ? list(matter) : "",
    rest.length > 0
      ? h("details", {}, h("summary", {}, foldedAs(rest.length, matter.length > 0)), list(rest))
      : "",
  );
}
