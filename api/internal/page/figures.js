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

// What a fraction may err by: a figure of a band that is told to a hundredth of an inch or less is
// as good to a 64th; one that is told finer is not.
const within = (digits) => (digits <= 2 ? 1 / 64 : Math.min(0.004, 10 ** -digits));

function sayInches(value, digits) {
  if (telling.decimal) return digits === undefined ? trimmed(value, 3) : fixed(value, Math.min(3, digits));
  const told = inches(value, digits === undefined ? {} : { within: within(digits) });
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

// fixed says a number with so many digits after the point, and 0 without a minus.
const fixed = (value, digits) => value.toFixed(digits).replace(/^-(?=[0.]*$)/, "");

// Digits after the point of a figure that has no band, by its unit; others have four that count.
const digitsOf = { mm: 2, C: 1, F: 1, hPa: 1, inHg: 2, days: 0 };
for (const unit of ["%", "%MC", "%RH", "points", "°", "deg"]) digitsOf[unit] = 1;
const counting = 4;

function sayNumber(value, unit) {
  if (Number.isInteger(value)) return String(value);
  const digits = digitsOf[unit];
  return digits === undefined ? String(Number(value.toPrecision(counting))) : trimmed(value, digits);
}

// A band is told to the second digit of its width: more would say what nobody knows.
function digitsOfBand({ low, high }) {
  const width = Number(Math.abs(high - low).toPrecision(9));
  return width > 0 ? Math.max(0, 1 - Math.floor(Math.log10(width))) : undefined;
}

// One figure of a band, with the digits of the band.
function ofBand(b, value) {
  const digits = digitsOfBand(b);
  if (b.unit === "in") return sayInches(value, digits);
  return digits === undefined ? sayNumber(value, b.unit) : fixed(value, digits);
}

const withUnit = (told, unit) => {
  const after = words.units[unit] ?? unit;
  return after === "" ? told : `${told} ${after}`;
};

/** bandOf are the figures of a band without their unit, as they are told: {value, low, high}. */
export const bandOf = (b) => Object.fromEntries(["value", "low", "high"].map((name) => [name, ofBand(b, b[name])]));

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
  if (system !== "inch") return said.replace(/(\d) C(?![\w/])/g, "$1 °C");
  return said.replace(figures, (_, limit = "", one, other, unit) => {
    const [dimension, there] = inchUnits[unit];
    const told = [one, other].filter(Boolean).map((v) => converted(Number(v), dimension, unit, there, limit));
    return `${limit}${told.join(" to ")} ${words.units[there] ?? there}`;
  });
}

/** toldIn says a text of the service with the names of this page, and in the units asked for. */
export const toldIn = (said, system) => inUnits(words.calledHere(said), system);

function converted(value, dimension, unit, other, limit) {
  const there = fromSI(dimension, toSI(dimension, value, unit), other);
  if (Math.abs(there) < 1e-9) return "0";
  const step = 10 ** Math.min(2, Math.floor(Math.log10(Math.abs(there))) - 2);
  const round = /least|more/.test(limit) ? Math.ceil : /most|less/.test(limit) ? Math.floor : Math.round;
  return String(Number((round(Number((there / step).toFixed(6))) * step).toPrecision(6)));
}

/** show says a number in its unit, with the digits that count: inches as fractions where they are good enough. */
export const show = (value, unit) => withUnit(unit === "in" ? sayInches(value) : sayNumber(value, unit), unit);

/** middle says the best guess of a band. */
export const middle = (b) => withUnit(ofBand(b, b.value), b.unit);

/** range says the ends of a band. */
export const range = (b) => fill(text.range, { low: ofBand(b, b.low), high: withUnit(ofBand(b, b.high), b.unit) });

/** sayChange says what a change does to a size, never with a minus: {by, range}. */
export function sayChange(b) {
  const said = (value) => ofBand(b, Math.abs(value)),
    low = said(b.low),
    high = withUnit(said(b.high), b.unit);
  const by = { by: withUnit(said(b.value), b.unit) };
  const none = Number(ofBand(b, b.value)) === 0;
  return {
    by: none ? text.keeps : fill(b.value < 0 ? text.shrinks : text.swells, by),
    range:
      b.low < 0 && b.high > 0
        ? fill(text.eitherWay, { low, high })
        : b.value < 0
          ? range({ ...b, low: -b.high, high: -b.low })
          : range(b),
  };
}

const isChange = (name) => /^((length_|width_|thickness_)?change|\w+_strain)$/.test(name);

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
    if (isChange(name)) {
      const c = sayChange(v);
      return [label, c.by, c.range];
    }
    return [label, middle(v), v.low === v.high ? "" : range(v)];
  }
  if (isQuantity(v)) return [label, show(v.value, v.unit), ""];
  if (typeof v === "number" && /strain_pct$/.test(name) && v !== 0)
    return [label, fill(v < 0 ? text.shrinks : text.swells, { by: withUnit(trimmed(Math.abs(v), 2), "%") }), ""];
  if (typeof v === "number") return [label, show(v, unitByName(name)), ""];
  return undefined;
}

function unitByName(name) {
  const end = Object.keys(words.units_of).find((e) => name === e || name.endsWith(e));
  return end ? words.units_of[end] : "";
}
