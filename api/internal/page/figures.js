// Figures of an answer in words: units, bands, days, what a change does.
import { fromSI, inches, sayDay, toSI, trimmed } from "./reading.js";
import { words, fill } from "./words.js";

const text = words.answer;
/** isBand, isQuantity and isDates tell the figures of an answer apart. */
export const isBand = (v) => v && typeof v === "object" && "value" in v && "low" in v && "high" in v && "unit" in v;
export const isQuantity = (v) => v && typeof v === "object" && typeof v.value === "number" && "unit" in v;
export const isDates = (v) => v && typeof v === "object" && ("value_days" in v || "not_reached_probability" in v);

// How inches are told just now: as fractions where they are good enough, or all as decimals.
let telling = { decimal: false };

function sayInches(value) {
  if (telling.decimal) return trimmed(value, 3);
  const told = inches(value);
  if (told.includes("/")) telling.fractions = true;
  if (told.includes(".")) telling.decimals = true;
  return told;
}

/** inOneWay is what render returns, with its inches told all as fractions or all as decimals. */
export function inOneWay(render) {
  const outer = telling;
  try {
    telling = { decimal: outer.decimal };
    const first = render();
    if (!telling.fractions || !telling.decimals) return first;
    telling = { decimal: true };
    return render();
  } finally {
    telling = outer;
  }
}

// Units of texts, what each measures, and the other one. Small and large lengths differ.
const inchUnits = {
  mm: ["length", "in"],
  m: ["length", "ft"],
  kg: ["mass", "lb"],
  g: ["mass", "oz"],
  C: ["temperature", "F"],
  hPa: ["pressure", "inHg"],
  MPa: ["stiffness", "psi"],
};
// A figure or a range in one of them, and whether it is a limit; not 500 kg/m3.
const limited = "(at least |more than |at most |less than )?";
const figures = new RegExp(
  `${limited}(-?\\d+(?:\\.\\d+)?)(?: to (-?\\d+(?:\\.\\d+)?))? (${Object.keys(inchUnits).join("|")})(?![\\w/²³%])`,
  "g",
);

/** inUnits says the metric figures of a text in the units asked for: limits never beyond what they are. */
export function inUnits(said, system) {
  if (system !== "inch") return said;
  return said.replace(figures, (_, limit = "", one, other, unit) => {
    const [dimension, there] = inchUnits[unit];
    const told = [one, other].filter(Boolean).map((v) => converted(Number(v), dimension, unit, there, limit));
    return `${limit}${told.join(" to ")} ${words.units[there] ?? there}`;
  });
}

function converted(value, dimension, unit, other, limit) {
  const there = fromSI(dimension, toSI(dimension, value, unit), other);
  if (Math.abs(there) < 1e-9) return "0";
  const step = 10 ** Math.min(2, Math.floor(Math.log10(Math.abs(there))) - 2);
  const round = /least|more/.test(limit) ? Math.ceil : /most|less/.test(limit) ? Math.floor : Math.round;
  return String(Number((round(Number((there / step).toFixed(6))) * step).toPrecision(6)));
}

/** show says a number in its unit: inches as fractions where they are good enough. */
export function show(value, unit) {
  const told = unit === "in" ? sayInches(value) : String(value);
  const after = words.units[unit] ?? unit;
  return after === "" ? told : `${told} ${after}`;
}

/** range says the ends of a band. */
export const range = (b) =>
  fill(text.range, { low: b.unit === "in" ? sayInches(b.low) : b.low, high: show(b.high, b.unit) });

/** sayChange says what a change does to a size, never with a minus. */
export function sayChange(b) {
  const away = {
    low: Math.abs(b.value < 0 ? b.high : b.low),
    high: Math.abs(b.value < 0 ? b.low : b.high),
    unit: b.unit,
  };
  if (b.low < 0 && b.high > 0)
    return {
      by: fill(b.value < 0 ? text.shrinks : text.swells, { by: show(Math.abs(b.value), b.unit) }),
      range: range(b),
    };
  return {
    by: fill(b.value < 0 ? text.shrinks : text.swells, { by: show(Math.abs(b.value), b.unit) }),
    range: range(away),
  };
}

/** undated says why there is no date: it is not to be expected, or it would not be kept. */
export const undated = (on) => (["never", "later"].includes(on.undated) ? text.notReached : text.noDate);

/** row is one of the table of numbers: label, best guess, nine times in ten; or nothing. */
export function row(path, v, name) {
  const label = words.label(path);
  if (isDates(v))
    return [
      label,
      v.value ? sayDay(v.value) : undated(v),
      v.value
        ? fill(text.range, { low: v.low ? sayDay(v.low) : "…", high: v.high ? sayDay(v.high) : text.later })
        : "",
    ];
  if (isBand(v)) {
    if (name === "change") {
      const c = sayChange(v);
      return [label, c.by, c.range];
    }
    return [label, show(v.value, v.unit), v.low === v.high ? "" : range(v)];
  }
  if (isQuantity(v)) return [label, show(v.value, v.unit), ""];
  if (typeof v === "number" && /strain_pct$/.test(name) && v !== 0)
    return [label, fill(v < 0 ? text.shrinks : text.swells, { by: show(Math.abs(v), "%") }), ""];
  if (typeof v === "number") return [label, show(v, unitByName(name)), ""];
  return undefined;
}

function unitByName(name) {
  const end = Object.keys(words.units_of).find((e) => name === e || name.endsWith(e));
  return end ? words.units_of[end] : "";
}
