// Figures of an answer in words: units, bands, days, what a change does.
import { inches, sayDay } from "./reading.js";
import { words, fill } from "./words.js";

const text = words.answer;
/** isBand, isQuantity and isDates tell the figures of an answer apart. */
export const isBand = (v) => v && typeof v === "object" && "value" in v && "low" in v && "high" in v && "unit" in v;
export const isQuantity = (v) => v && typeof v === "object" && typeof v.value === "number" && "unit" in v;
export const isDates = (v) => v && typeof v === "object" && ("value_days" in v || "not_reached_probability" in v);

/** show says a number in its unit: inches as fractions where they are good enough. */
export function show(value, unit) {
  const told = unit === "in" ? inches(value) : String(value);
  const after = words.units[unit] ?? unit;
  return after === "" ? told : `${told} ${after}`;
}

/** range says the ends of a band. */
export const range = (b) =>
  fill(text.range, { low: b.unit === "in" ? inches(b.low) : b.low, high: show(b.high, b.unit) });

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
export const undated = (on) => ((on.not_reached_probability ?? 1) >= 0.5 ? text.notReached : text.noDate);

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
