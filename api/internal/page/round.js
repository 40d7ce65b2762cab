// A weighing day without a page: in which order the wood is weighed, what a weight is expected
// to be, what is odd about one, and a list that is pasted. Nothing here asks the service.
import { fromSI, readDate, readQuantity, toSI, trimmed } from "./reading.js";
import { words, fill } from "./words.js";

const said = words.weigh;

/** natural compares ids as people order them: b-2 before b-10. */
const natural = (a, b) => a.localeCompare(b, "en", { numeric: true, sensitivity: "base" });

/** keyOf names a piece of wood: billets and pieces may have the same id. */
export const keyOf = (w) => `${w.kind}s/${w.id}`;

/** massUnit is the unit that a scale of the system shows. */
export const massUnit = (system) => (system === "inch" ? "lb" : "kg");

/** sayMass says kilograms in the unit of the system. */
export function sayMass(kg, system) {
  const unit = massUnit(system);
  return `${trimmed(fromSI("mass", kg, unit), unit === "kg" ? 3 : 2)} ${unit}`;
}

/**
 * roundOf puts wood in the order in which it lies: place by place, and within a place as the
 * last round of this phone went, else by its spot and its id. before are the keys of that round.
 */
export function roundOf(wood, before = []) {
  const was = new Map(before.map((key, i) => [key, i]));
  return [...wood].sort((a, b) => {
    if ((a.place || "") !== (b.place || "")) return (a.place || "\uffff") < (b.place || "\uffff") ? -1 : 1;
    const [i, j] = [was.get(keyOf(a)), was.get(keyOf(b))];
    if (i !== undefined && j !== undefined) return i - j;
    if (i !== undefined || j !== undefined) return i !== undefined ? -1 : 1;
    return natural(a.spot || "\uffff", b.spot || "\uffff") || natural(a.id, b.id);
  });
}

// Without a figure of the service a weight is asked about when it is a tenth off the last
// one: a month in a shed takes less from stacked wood (own estimate, no source).
const muchChange = 0.1;

/** expectedOf is the range in kg in which a weight raises no question: {low, high}, or undefined. */
function expectedOf(wood) {
  if (wood.plausible) return wood.plausible;
  if (wood.expect) {
    const width = Math.max(wood.expect.high - wood.expect.low, wood.expect.value * 0.005);
    // The band holds nine in ten; twice as wide it holds nearly all that is no slip.
    return { low: wood.expect.low - width / 2, high: wood.expect.high + width / 2 };
  }
  if (!wood.last) return undefined;
  return { low: wood.last.kg * (1 - muchChange), high: wood.last.kg * (1 + muchChange) };
}

/** slipsOf are what may have been meant: two digits that changed places, a point elsewhere. */
export function slipsOf(text, fits) {
  const found = new Set();
  const digits = [...text].map((c, i) => [c, i]).filter(([c]) => /\d/.test(c));
  for (let i = 0; i + 1 < digits.length; i++) {
    const all = [...text];
    [all[digits[i][1]], all[digits[i + 1][1]]] = [digits[i + 1][0], digits[i][0]];
    found.add(all.join(""));
  }
  const bare = text.replace(/[.,]/, "");
  if (/^\d+$/.test(bare)) for (let at = 1; at < bare.length; at++) found.add(`${bare.slice(0, at)}.${bare.slice(at)}`);
  found.delete(text);
  return [...found].filter((t) => fits(t));
}

// The step of the scale in kg, as the last digit behind the point tells it: nothing finer can be odd.
function stepOf({ value, unit }) {
  const behind = String(value).split(".")[1];
  return behind ? toSI("mass", 10 ** -behind.length, unit) : 0;
}

/**
 * weighed reads what stands in the field: {kg, text} with odd: {low, high, off, slips} where it
 * does not fit, or {wrong: why}. What is odd is asked about and kept all the same.
 */
export function weighed(wood, typed, system) {
  const unit = massUnit(system),
    read = readQuantity(typed, "mass", unit);
  if (read.wrong) return { wrong: read.wrong };
  if (read.si <= 0) return { wrong: said.zero };
  const text = `${read.value} ${read.unit}`,
    range = expectedOf(wood);
  if (!range) return { kg: read.si, text };
  const off = Math.max(range.low - read.si, read.si - range.high);
  if (off <= stepOf(read) / 2) return { kg: read.si, text };
  const fits = (t) => {
    const other = readQuantity(t, "mass", unit);
    return !other.wrong && other.si >= range.low && other.si <= range.high;
  };
  return { kg: read.si, text, odd: { ...range, below: read.si < range.low, off, slips: slipsOf(typed.trim(), fits) } };
}

/**
 * readRound reads a pasted list: an id and a weight on each line, a day where it is another
 * one. It returns {rows: [{line, wood, text, kg, date}], wrongs: [{line, text, why}]}.
 */
export function readRound(text, wood, system, day) {
  const rows = [],
    wrongs = [];
  const lines = text.split(/\r?\n/).map((t, i) => ({ line: i + 1, text: t.trim() }));
  for (const { line, text: row } of lines.filter((l) => l.text !== "")) {
    const cells = row
      .split(/[\t;]/)
      .map((c) => c.trim())
      .filter((c) => c !== "");
    const [id, mass, when] = cells.length > 1 ? cells : (/^(\S+?)[\s,:]+(.*)$/.exec(row)?.slice(1) ?? [row]);
    const found = wood.filter((w) => w.id.toLowerCase() === id.toLowerCase());
    if (line === 1 && found.length === 0 && !/\d/.test(mass || "")) continue; // headings
    const date = when ? readDate(when, { today: day }) : { iso: day };
    const read = mass ? weighed(found[0] || {}, mass, system) : { wrong: said.noMass };
    const why = found.length !== 1 ? fill(found.length ? said.twice : said.noWood, { id }) : read.wrong || date.wrong;
    if (why) wrongs.push({ line, text: row, why });
    else rows.push({ line, wood: found[0], ...read, date: date.iso });
  }
  return { rows, wrongs };
}

/** idIn finds the id in what a label of a billet or a piece says: its address, or the id alone. */
export function idIn(text) {
  const at = /\/[bp]\/([^/?#\s]+)/i.exec(text) || /\/v1\/rack\/(?:billets|pieces)\/([^/?#\s]+)/.exec(text);
  return decodeURIComponent(at ? at[1] : text.trim());
}

/** named finds wood by an id in any case: all that it may be. */
export function named(wood, id) {
  const same = wood.filter((w) => w.id === id);
  return same.length > 0 ? same : wood.filter((w) => w.id.toLowerCase() === id.toLowerCase());
}
