// A draft is what was typed: a plain object from a path such as "billet.length" to its
// text. "billet.rings~" is the way or the variant chosen, "readings#" the length of a list.
// collect makes the request of it and says what cannot be read; draftOf goes the other way.
import { shows } from "./contract.js";
import { readDate, readNumber, readQuantity, readWeights } from "./reading.js";
import { words, fill } from "./words.js";

/** join puts a name behind a path. */
export const join = (path, name) => (path === "" ? String(name) : `${path}.${name}`);

/** Units of a bare number, by the system and where a member is usually told in another. */
const usualUnits = {
  metric: { length: "mm", temperature: "C", mass: "kg", pressure: "hPa", stiffness: "MPa" },
  inch: { length: "in", temperature: "F", mass: "lb", pressure: "inHg", stiffness: "psi" },
};
const ownUnits = {
  elevation: ["m", "ft"],
  scale_division: ["g", "oz"],
  wet_mass: ["g", "oz"],
  ovendry_mass: ["g", "oz"],
};

export function unitOf(path, dimension, system) {
  const own = ownUnits[path.split(".").at(-1)];
  return own ? own[system === "inch" ? 1 : 0] : usualUnits[system][dimension];
}

/**
 * chosen returns the way or variant of a path, "" for left out. Ways of an object and names
 * stand ready, since nothing is told before something is typed; other variants are left out.
 */
export function chosen(draft, path, d, needed) {
  const told = draft[path + "~"];
  if (told !== undefined && (told === "" || (d.ways || d.variants).some((w) => w.key === told))) return told;
  return needed || d.kind === "object" || d.usual === "named" ? d.usual : "";
}

/** countOf returns how many items a list of the draft has. */
export function countOf(draft, path, d, needed) {
  const told = Number(draft[path + "#"]);
  if (draft[path + "#"] !== undefined && Number.isInteger(told) && told >= 0) return told;
  const begun = Object.keys(draft)
    .filter((k) => k.startsWith(path + ".") && draft[k] !== "")
    .map((k) => Number(k.slice(path.length + 1).split(/[.~#]/)[0]) + 1);
  if (begun.length > 0) return Math.max(...begun, needed ? d.least : 0);
  return needed ? Math.max(1, d.least) : 0;
}

/** filled says whether anything was typed at or below a path. */
export const filled = (draft, path) =>
  Object.keys(draft).some((k) => (k === path || k.startsWith(path + ".")) && !/[~#]$/.test(k) && draft[k] !== "");

const missing = Symbol("missing");

/** Collector reads a draft against the contract. */
export class Collector {
  constructor(contract, draft, { system, today, shown }) {
    Object.assign(this, {
      contract,
      system,
      today,
      errors: [],
      draft: {},
      shown,
      needed: shown?.needed || new Set(),
    });
    for (const [key, text] of Object.entries(draft)) {
      if (!shown || shown.has(key.replace(/[~#]$/, ""))) this.draft[key] = text;
    }
  }

  // lacks tells of what is needed and was not reached, since nothing of what it belongs to was told.
  lacks() {
    for (const path of this.needed) {
      if (filled(this.draft, path) || this.errors.some((e) => e.path === path || e.path.startsWith(path + ".")))
        continue;
      if (this.draft[path + "#"] || this.draft[path + "~"]) continue;
      this.errors.push({
        path,
        missing: true,
        text: fill(words.errors.missing, { label: words.label(path).toLowerCase() }),
      });
    }
  }

  /** collect returns the value at a path, undefined for nothing; faults go to errors. */
  collect(schema, path, needed) {
    const d = this.contract.describe(schema);
    const value = this[d.kind](d, path, needed);
    if (value !== missing) return value;
    if (needed)
      this.errors.push({
        path,
        missing: true,
        text: fill(words.errors.missing, { label: words.label(path).toLowerCase() }),
      });
    return undefined;
  }

  typed(path) {
    return (this.draft[path] ?? "").trim();
  }

  refuse(path, why) {
    this.errors.push({ path, text: why });
    return undefined;
  }

  fixed(d) {
    return d.value;
  }

  choice(d, path) {
    return this.typed(path) || missing;
  }

  yes(d, path) {
    const text = this.typed(path);
    return text === "" ? missing : text === "yes";
  }

  text(d, path) {
    return this.typed(path) || missing;
  }

  long(d, path) {
    const text = this.draft[path] || "";
    if (text.trim() === "") return missing;
    return d.schema.list === "weights" ? this.weights(path, text) : text;
  }

  // A pasted list: each wrong line is told with what stands in it.
  weights(path, text) {
    const { weights, wrongs } = readWeights(text, usualUnits[this.system].mass, this.today);
    for (const w of wrongs)
      this.errors.push({
        path,
        line: w.line,
        text: fill(words.errors.line, { line: w.line, text: w.text, why: w.wrong }),
      });
    return weights;
  }

  number(d, path) {
    const text = this.typed(path).replace(/\s*[%°]$/, "");
    if (text === "") return missing;
    const read = readNumber(text);
    if (read.wrong) return this.refuse(path, read.wrong);
    if (d.whole && !Number.isInteger(read.value)) return this.refuse(path, words.errors.whole);
    return read.value;
  }

  date(d, path) {
    const text = this.typed(path);
    if (text === "") return missing;
    const read = readDate(text, { today: this.today });
    return read.wrong ? this.refuse(path, read.wrong) : read.iso;
  }

  quantity(d, path) {
    const text = this.typed(path);
    if (text === "") return missing;
    const bare = unitOf(path, d.dimension, this.system);
    const read = readQuantity(text, d.dimension, bare);
    if (read.wrong) return this.refuse(path, read.wrong);
    return sent(text, read, d.dimension);
  }

  few(d, path) {
    const text = this.typed(path);
    if (text === "") return missing;
    const item = this.contract.describe(d.item);
    const parts = text
      .split(item.kind === "text" ? /[,;\n]+/ : /[,;\s]+/)
      .map((p) => p.trim())
      .filter((p) => p !== "");
    if (item.kind !== "number") return parts;
    const numbers = parts.map((p) => readNumber(p));
    const bad = numbers.findIndex((n) => n.wrong);
    return bad >= 0 ? this.refuse(path, numbers[bad].wrong) : numbers.map((n) => n.value);
  }

  list(d, path, needed) {
    const count = countOf(this.draft, path, d, needed);
    if (count === 0) return missing;
    return Array.from({ length: count }, (_, i) => this.collect(d.item, join(path, i), true)).map((v) => v ?? {});
  }

  variants(d, path, needed) {
    const key = chosen(this.draft, path, d, needed);
    const variant = d.variants.find((v) => v.key === key);
    return variant
      ? (this.collect(variant.schema, path, needed || this.draft[path + "~"] !== undefined) ?? missing)
      : missing;
  }

  object(d, path, needed) {
    const way = d.ways.length > 0 ? chosen(this.draft, path, d, needed) : "";
    const told = this.draft[path + "~"];
    const present = needed || Boolean(told) || filled(this.draft, path);
    if (!present) return missing;
    const value = {},
      before = this.errors.length;
    for (const name of d.names) {
      if (!shows(d, name, way)) continue;
      const inWay = d.ways.find((w) => w.key === way)?.needs.includes(name);
      const below = join(path, name);
      if (this.shown?.leavesOut(below)) continue;
      const member = this.collect(
        d.members[name],
        below,
        d.required.has(name) || inWay === true || this.needed.has(below),
      );
      if (member !== undefined) value[name] = member;
    }
    if (Object.keys(value).length === 0 && !needed && this.errors.length === before && told === undefined)
      return missing;
    return value;
  }
}

// A quantity goes out as it was typed where the service reads it so; a bare number gets its unit.
function sent(text, read, dimension) {
  if (!read.bare) return text;
  return /[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞/,]/.test(text) ? `${text} ${read.unit}` : `${read.value} ${read.unit}`;
}

/** draftOf writes a request as a draft, every choice told. */
export function draftOf(contract, schema, request) {
  const draft = {};
  write(contract, schema, "", request, draft);
  return draft;
}

// An object that is one of several variants has its choice told by the variant.
function write(contract, schema, path, value, draft, isVariant) {
  const d = contract.describe(schema);
  switch (d.kind) {
    case "fixed":
      return;
    case "yes":
      draft[path] = value ? "yes" : "no";
      return;
    case "quantity":
      draft[path] = typeof value === "string" ? value : `${value.value} ${value.unit}`;
      return;
    case "few":
      draft[path] = value.join(", ");
      return;
    case "list":
      draft[path + "#"] = String(value.length);
      value.forEach((v, i) => write(contract, d.item, join(path, i), v, draft));
      return;
    case "variants": {
      const variant = variantOf(contract, d, value);
      if (variant.key !== d.usual || d.usual !== "named") draft[path + "~"] = variant.key;
      write(contract, variant.schema, path, value, draft, true);
      return;
    }
    case "object": {
      const way = d.ways.find((w) => w.needs.every((n) => n in value));
      if (!isVariant) draft[path + "~"] = way ? way.key : "+";
      for (const [name, member] of Object.entries(value))
        if (d.members[name]) write(contract, d.members[name], join(path, name), member, draft);
      return;
    }
    default:
      draft[path] = String(value);
  }
}

function variantOf(contract, d, value) {
  if (typeof value !== "object") return d.variants.find((v) => v.key === "named") || d.variants[0];
  const objects = d.variants.filter((v) => contract.describe(v.schema).kind === "object");
  const byKind = value.kind && objects.find((v) => v.key === value.kind);
  return (
    byKind ||
    objects.find(
      (v) =>
        [...contract.describe(v.schema).required].every((n) => n in value) &&
        Object.keys(value).every((n) => n in contract.describe(v.schema).members),
    ) ||
    objects[0]
  );
}

/** tidy leaves out of a draft what says nothing: empty entries, and choices that are the usual ones. */
export function tidy(contract, schema, draft, system) {
  const asks = (d) =>
    JSON.stringify(new Collector(contract, d, { system, today: "2000-01-01" }).collect(schema, "", true));
  const kept = Object.fromEntries(Object.entries(draft).filter(([, text]) => text !== ""));
  const whole = asks(kept);
  for (const key of Object.keys(kept).filter((k) => /[~#]$/.test(k))) {
    const text = kept[key];
    delete kept[key];
    if (asks(kept) !== whole) kept[key] = text;
  }
  return kept;
}

/** fieldOf returns the path of the draft that a pointer of a problem speaks of. */
export const fieldOf = (pointer) =>
  pointer
    .split("/")
    .slice(1)
    .map((p) => p.replaceAll("~1", "/").replaceAll("~0", "~"))
    .join(".");

/** withUnits writes the unit behind every bare number, so that it means the same in another system. */
export function withUnits(contract, schema, draft, system) {
  const out = { ...draft };
  for (const key of Object.keys(draft)) {
    if (/[~#]$/.test(key) || draft[key].trim() === "") continue;
    const d = describeAt(contract, schema, key, draft);
    if (d?.kind !== "quantity") continue;
    const unit = unitOf(key, d.dimension, system),
      read = readQuantity(draft[key], d.dimension, unit);
    if (read.bare) out[key] = `${draft[key].trim()} ${unit}`;
  }
  return out;
}

/** describeAt goes down a schema by a path, through the variants that the draft chose. */
export function describeAt(contract, schema, path, draft) {
  let at = schema,
    d = contract.describe(at),
    been = "";
  for (const name of path === "" ? [] : path.split(".")) {
    if (d.kind === "variants") {
      const key = chosen(draft, been, d, true);
      const variant =
        d.variants.find((v) => v.key === key && contract.describe(v.schema).members?.[name]) ||
        d.variants.find((v) => contract.describe(v.schema).members?.[name]);
      if (!variant) return undefined;
      d = contract.describe(variant.schema);
    }
    if (d.kind === "list") at = d.item;
    else if (d.kind === "object" && d.members[name]) at = d.members[name];
    else return undefined;
    d = contract.describe(at);
    been = join(been, name);
  }
  return { ...d, asked: at };
}
