// What people write, read as the service reads it: numbers, quantities, dates, and weights
// pasted from a spreadsheet. Nothing here knows a form. The same table of texts is read by
// this file and by the service in their tests (testdata/written).
import { words, fill } from "./words.js";

const said = words.reading;
const fractions = {
  "½": "1/2",
  "⅓": "1/3",
  "⅔": "2/3",
  "¼": "1/4",
  "¾": "3/4",
  "⅕": "1/5",
  "⅖": "2/5",
  "⅗": "3/5",
  "⅘": "4/5",
  "⅙": "1/6",
  "⅚": "5/6",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

/** Units of each dimension: SI value = (number + before) * scale + after. */
export const units = {
  length: {
    mm: { scale: 0.001, also: ["millimetre", "millimetres", "millimeter", "millimeters"] },
    cm: { scale: 0.01, also: ["centimetre", "centimetres", "centimeter", "centimeters"] },
    m: { scale: 1, also: ["metre", "metres", "meter", "meters"] },
    um: { scale: 1e-6, also: ["µm", "μm", "micrometre", "micrometres", "micrometer", "micrometers"] },
    in: { scale: 0.0254, also: ["inch", "inches", '"'] },
    ft: { scale: 0.3048, also: ["foot", "feet", "'"] },
  },
  temperature: {
    C: { scale: 1, after: 273.15, also: ["°c", "degc", "celsius"] },
    F: { scale: 5 / 9, before: -32, after: 273.15, also: ["°f", "degf", "fahrenheit"] },
    K: { scale: 1, also: ["kelvin"] },
  },
  mass: {
    kg: { scale: 1, also: ["kilogram", "kilograms"] },
    g: { scale: 0.001, also: ["gram", "grams"] },
    lb: { scale: 0.45359237, also: ["lbs", "pound", "pounds"] },
    oz: { scale: 0.45359237 / 16, also: ["ounce", "ounces"] },
  },
  pressure: {
    hPa: { scale: 100, also: ["mbar"] },
    Pa: { scale: 1, also: ["pascal", "pascals"] },
    kPa: { scale: 1000, also: [] },
    inHg: { scale: 3386.389, also: [] },
  },
  stiffness: {
    MPa: { scale: 1e6, also: ["n/mm2", "n/mm²"] },
    GPa: { scale: 1e9, also: [] },
    psi: { scale: 6894.757293168361, also: [] },
  },
};

const unitNamed = (dimension, text) => {
  if (Object.hasOwn(units[dimension], text)) return text;
  return Object.keys(units[dimension]).find((u) => units[dimension][u].also.includes(text.toLowerCase()));
};

/** toSI and fromSI convert a number in a unit. */
export const toSI = (dimension, value, unit) => {
  const u = units[dimension][unit];
  return (value + (u.before || 0)) * u.scale + (u.after || 0);
};
export const fromSI = (dimension, si, unit) => {
  const u = units[dimension][unit];
  return (si - (u.after || 0)) / u.scale - (u.before || 0);
};

const plain = (text) =>
  text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, (c, at) => (/\d/.test(text[at - 1] || "") ? " " : "") + fractions[c])
    .replaceAll("⁄", "/")
    .replace(/[’′‘]/g, "'")
    .replace(/[”″“]|''/g, '"')
    .replace(/[−–]/g, "-")
    .replace(/[\u00a0\u2009\u202f]/g, " ")
    .trim();

const wrong = (why, values = {}) => ({ wrong: fill(why, values) });

/** readNumber reads 52, 11,10, 1,234.5, 7/8, 2 1/16: {value} or {wrong: why}. */
export function readNumber(written) {
  const text = plain(written);
  const fraction = /^([+-]?)\s*(?:(\d{1,9})[ -]\s*)?(\d{1,9})\s*\/\s*(\d{1,9})$/.exec(text);
  if (fraction) {
    const [, sign, whole, top, bottom] = fraction;
    if (Number(bottom) === 0) return wrong(said.zeroBelow);
    return { value: (sign === "-" ? -1 : 1) * (Number(whole || 0) + Number(top) / Number(bottom)) };
  }
  if (text.includes("/")) return wrong(said.fraction);
  let decimal = text;
  if (text.includes(",")) {
    const bare = text.replace(/^[+-]/, "");
    if (/^[1-9]\d{0,2},\d{3}$/.test(bare)) {
      return wrong(said.ambiguousNumber, { text, one: text.replace(",", ""), other: text.replace(",", ".") });
    } else if (/^\d{1,3}(,\d{3})+\.\d*$/.test(bare) || /^\d{1,3}(,\d{3}){2,}$/.test(bare))
      decimal = text.replaceAll(",", "");
    else if (/^\d{1,3}(\.\d{3})+,\d+$/.test(bare)) decimal = text.replaceAll(".", "").replace(",", ".");
    else if (/^\d*,\d+$/.test(bare)) decimal = text.replace(",", ".");
  }
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(decimal))
    return wrong(said.notNumber, { text: written.trim() });
  const value = Number(decimal);
  return Number.isFinite(value) ? { value } : wrong(said.tooLarge);
}

// Two units written together: what stands before each, and how many of the second make one of the first.
const pairs = {
  length: {
    form: /^([+-]?)\s*(.+?)\s*(?:feet|foot|ft|')[\s-]*(?:(.+?)\s*(?:inches|inch|in|"|)?)$/i,
    unit: "ft",
    second: "in",
    many: 12,
  },
  mass: {
    form: /^([+-]?)\s*(.+?)\s*(?:pounds|pound|lbs|lb)\s*(.+?)\s*(?:ounces|ounce|oz)$/i,
    unit: "lb",
    second: "oz",
    many: 16,
  },
};

function readPair(dimension, text) {
  const pair = pairs[dimension];
  const found = pair && pair.form.exec(text);
  if (!found) return undefined;
  const first = readNumber(found[2]),
    second = readNumber(found[3]);
  if (first.wrong || second.wrong) return first.wrong ? first : second;
  if (first.value < 0 || second.value < 0) return wrong(said.notNumber, { text });
  if (second.value >= pair.many)
    return wrong(said.tooManySmall, { second: pair.second, unit: pair.unit, many: pair.many });
  const value = (first.value + second.value / pair.many) * (found[1] === "-" ? -1 : 1);
  return { value, unit: pair.unit, si: toSI(dimension, value, pair.unit) };
}

/**
 * readQuantity reads a quantity; a bare number is in the unit given.
 * It returns {value, unit, si} or {wrong: why}.
 */
export function readQuantity(written, dimension, bare) {
  const text = plain(written);
  if (text === "") return wrong(said.empty);
  if (dimension === "length" && /^([4-9]|[12]\d)\/4$/.test(text)) {
    // thickness of the trade, in quarters of an inch
    const value = Number(text.split("/")[0]) / 4;
    return { value, unit: "in", si: value * 0.0254, quarters: true };
  }
  const pair = readPair(dimension, text);
  if (pair) return pair;
  const end = /^(.*?[\d.])\s*(n\/mm2|n\/mm²|[^\d.,/\s][^\d.,/]*|)$/i.exec(text);
  if (!end) return wrong(/\d/.test(text) ? said.notNumber : said.noNumber, { text });
  const unit = end[2].trim() === "" ? bare : unitNamed(dimension, end[2].trim());
  if (!unit)
    return end[2].trim() === ""
      ? wrong(said.noUnit)
      : wrong(said.notUnit, { text: end[2].trim(), units: Object.keys(units[dimension]).join(", ") });
  const number = readNumber(end[1]);
  if (number.wrong) return number;
  const si = toSI(dimension, number.value, unit);
  return Number.isFinite(si) ? { value: number.value, unit, si, bare: end[2].trim() === "" } : wrong(said.tooLarge);
}

const gcd = (a, b) => (b === 0 ? a : gcd(b, a % b));

/** inches says a length in inches: a fraction where it errs by less than `within` inches, else a decimal. */
export function inches(value, { within = 0.004 } = {}) {
  const sixty = Math.round(Math.abs(value) * 64);
  if (Math.abs(sixty / 64 - Math.abs(value)) >= within || (sixty === 0 && within < 1 / 64)) return trimmed(value, 3);
  if (sixty === 0) return "0";
  const sign = value < 0 ? "-" : "",
    whole = Math.floor(sixty / 64),
    rest = sixty % 64;
  if (rest === 0) return sign + whole;
  const by = gcd(rest, 64);
  return sign + (whole > 0 ? whole + " " : "") + rest / by + "/" + 64 / by;
}

/** trimmed says a number with at most so many digits after the point. */
export const trimmed = (value, digits) => String(Number(value.toFixed(digits)) || 0);

/** sayQuantity says how a quantity was read, in both systems where there are two. */
export function sayQuantity(read, dimension) {
  const shown = (unit) => {
    const value = fromSI(dimension, read.si, unit);
    if (unit === "in") return inches(value) + " in";
    return (
      trimmed(value, { mm: 1, kg: 3, lb: 2, C: 1, F: 1, hPa: 1, inHg: 2, MPa: 0, psi: 0 }[unit] ?? 3) +
      " " +
      (words.units[unit] || unit)
    );
  };
  const [metric, inch] = {
    length: ["mm", "in"],
    temperature: ["C", "F"],
    mass: ["kg", "lb"],
    pressure: ["hPa", "inHg"],
    stiffness: ["MPa", "psi"],
  }[dimension];
  const imperial = ["in", "ft", "F", "lb", "oz", "inHg", "psi"].includes(read.unit);
  const both = imperial ? `${shown(inch)} (${shown(metric)})` : `${shown(metric)} (${shown(inch)})`;
  return read.quarters ? fill(said.quarters, { count: Math.round(read.value * 4), both }) : both;
}

const monthOf = (name) => said.months.findIndex((m) => m.toLowerCase().startsWith(name.toLowerCase().slice(0, 3)));
const two = (n) => String(n).padStart(2, "0");

function day(year, month, date, text) {
  if (month < 1 || month > 12) return wrong(said.noMonth, { text, month });
  const days = new Date(Date.UTC(year, month, 0)).getUTCDate();
  if (date < 1 || date > days) return wrong(said.noDay, { month: said.months[month - 1], year, date });
  return { iso: `${year}-${two(month)}-${two(date)}` };
}

/** sayDay says an ISO date as people do: 14 Mar 2026. */
export function sayDay(iso) {
  const [y, m, d] = iso.split("-").map(Number);
  return `${d} ${said.months[m - 1]} ${y}`;
}

/**
 * readDate reads 2026-03-14, 14.3.2026, 14/3/2026, 14 March 2026, March 14, 2026 and today.
 * order, "dm" or "md", settles what neither the signs nor the numbers do; without it two
 * readings are refused and both named. It returns {iso} or {wrong: why}.
 */
export function readDate(written, { order, today } = {}) {
  const text = written.trim().replace(/\s+/g, " ");
  if (text === "") return wrong(said.empty);
  if (text.toLowerCase() === said.today && today) return { iso: today };
  let m = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ].*)?$/.exec(text);
  if (m) return day(Number(m[1]), Number(m[2]), Number(m[3]), text);
  m = /^(\d{1,2})(?:st|nd|rd|th)?[ .-]+([A-Za-z]{3,9})\.?,?[ -]+(\d{4})$/.exec(text);
  if (m && monthOf(m[2]) >= 0) return day(Number(m[3]), monthOf(m[2]) + 1, Number(m[1]), text);
  m = /^([A-Za-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})$/.exec(text);
  if (m && monthOf(m[1]) >= 0) return day(Number(m[3]), monthOf(m[1]) + 1, Number(m[2]), text);
  m = /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})$/.exec(text);
  if (m) return day(Number(m[3]), Number(m[2]), Number(m[1]), text);
  m = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4})$/.exec(text);
  if (m) {
    const [a, b, year] = [Number(m[1]), Number(m[2]), Number(m[3])];
    if (b > 12 || (order === "md" && a <= 12)) return day(year, a, b, text);
    if (a > 12 || a === b || order === "dm") return day(year, b, a, text);
    const one = day(year, b, a, text).iso,
      other = day(year, a, b, text).iso;
    return { wrong: fill(said.ambiguousDay, { text, one: sayDay(one), other: sayDay(other) }), ambiguous: true };
  }
  if (/\d{1,2}[./-]\d{1,2}[./-]\d{2}$/.test(text)) return wrong(said.shortYear, { text });
  return wrong(said.notDay, { text });
}

const numericDay = /^\d{1,2}[/-](\d{1,2})[/-]\d{4}$/;

// The order of day and month in a list, from its lines that leave no doubt.
function orderOf(days) {
  let order;
  for (const text of days) {
    const m = /^(\d{1,2})[/-](\d{1,2})[/-]\d{4}$/.exec(text);
    if (!m) continue;
    const says = Number(m[1]) > 12 ? "dm" : Number(m[2]) > 12 ? "md" : undefined;
    if (says && order && says !== order) return undefined;
    order = says || order;
  }
  return order;
}

const anyDay =
  /^(\d{4}-\d{1,2}-\d{1,2}(?:[T ]\d\d:\d\d(?::\d\d)?)?|\d{1,2}[./-] ?\d{1,2}[./-] ?\d{2,4}|\d{1,2}\.? [A-Za-z]{3,9}\.?,? \d{4}|[A-Za-z]{3,9}\.? \d{1,2},? \d{4})/;

// A line in its two parts, whichever comes first; undefined when it is no such line.
function partsOf(line) {
  const cells = line
    .split(/[\t;|]/)
    .map((c) => c.trim())
    .filter((c) => c !== "");
  if (cells.length >= 2) {
    const at = cells.findIndex((c) => anyDay.test(c) && anyDay.exec(c)[0].length === c.length);
    if (at >= 0) return { date: cells[at], mass: cells[at === 0 ? 1 : 0] };
    return { date: cells[0], mass: cells[1] };
  }
  const first = anyDay.exec(line);
  if (first) return { date: first[0], mass: line.slice(first[0].length).replace(/^[\s,:]+/, "") };
  const last = /^(.*?)[\s,]+(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[./-]\d{1,2}[./-]\d{4})$/.exec(line);
  return last ? { date: last[2], mass: last[1] } : undefined;
}

/**
 * readWeights reads a pasted list, a day and a weight on each line in any order of lines
 * and of columns, with tabs, semicolons, commas or spaces; a line of headings is passed over.
 * It returns {weights: [{line, iso, read, text}], wrongs: [{line, wrong}], order}.
 */
export function readWeights(text, bare, today) {
  const lines = text
    .split(/\r?\n/)
    .map((t, i) => ({ line: i + 1, text: t.trim() }))
    .filter((l) => l.text !== "");
  const rows = lines
    .filter((l, i) => !(i === 0 && !/\d/.test(l.text)))
    .map((l) => ({ ...l, parts: partsOf(l.text) }));
  const order = orderOf(rows.map((r) => r.parts?.date || ""));
  const weights = [],
    wrongs = [];
  for (const row of rows) {
    const at = { line: row.line, text: row.text };
    if (!row.parts || row.parts.mass === "") {
      wrongs.push({ ...at, wrong: said.notWeighing });
      continue;
    }
    const date = readDate(row.parts.date, { order, today });
    const mass = readQuantity(row.parts.mass, "mass", bare);
    if (date.wrong || mass.wrong) wrongs.push({ ...at, wrong: date.wrong || mass.wrong });
    else weights.push({ ...at, iso: date.iso, read: mass });
  }
  weights.sort((a, b) => (a.iso < b.iso ? -1 : a.iso > b.iso ? 1 : 0));
  const numeric = rows.some((r) => r.parts && numericDay.test(r.parts.date));
  return { weights, wrongs, order: numeric ? order : undefined };
}
