// What the lists of the rack say, for the page: last and expected weights, dates, sizes.
import { fromSI, inches, readQuantity, toSI } from "./reading.js";
import { massText } from "./queue.js";

// A band of the service in kg.
function inKg(band) {
  if (!band) return undefined;
  const of = (name) => name in band && [name, toSI("mass", band[name], band.unit)];
  return Object.fromEntries(["value", "low", "high"].map(of).filter(Boolean));
}

/** weightsOf are the weights of a piece of wood in kg: {last, expect, plausible}, as far as they are known. */
export function weightsOf(overview, wood) {
  const told = wood.last_weight;
  const next = overview.next_readings.find((n) => n.kind === wood.kind && n.id === wood.id);
  return {
    last: told && { kg: toSI("mass", told.mass.value, told.mass.unit), text: massText(told.mass), date: told.date },
    expect: inKg(wood.expected_mass || next?.expected_mass),
    plausible: inKg(wood.plausible_mass),
  };
}

/** sayQuantityText is a quantity as it was written. */
export const sayQuantityText = (q) => (q && typeof q === "object" ? `${q.value} ${q.unit}` : (q ?? ""));

// A size in the units asked for, to a sixteenth or a millimetre; as it was written where it is in them.
function sizeIn(told, system) {
  const read = readQuantity(told, "length", "mm");
  if (read.wrong || (system === "inch") === /^(in|ft|")/.test(read.unit)) return told;
  if (system === "inch") return `${inches(Math.round(fromSI("length", read.si, "in") * 16) / 16)} in`;
  return `${Math.round(fromSI("length", read.si, "mm"))} mm`;
}

/** sizesText are the sizes of wood: 620 × 230 × 52 mm where they share their unit. */
export function sizesText(sizes = [], system) {
  const written = sizes.filter(Boolean).map(sayQuantityText);
  const told = system ? written.map((t) => sizeIn(t, system)) : written;
  const units = new Set(told.map((t) => t.split(" ").at(-1)));
  if (units.size !== 1) return told.join(" × ");
  const [unit] = units;
  return told.map((t) => t.slice(0, -unit.length).trim()).join(" × ") + " " + unit;
}

/** standingOf sorts wood as one looks at it: {looks, ready, unsure, waiting, unknown}. */
export function standingOf(rack) {
  const { overview, wood } = rack;
  const same = (a) => (b) => a.kind === b.kind && a.id === b.id;
  const looks = wood
    .map((w) => ({ ...w, doubts: overview.contradictions.filter(same(w)) }))
    .filter((w) => w.doubts.length > 0);
  const ready = overview.ready_now.map((r) => ({ ...wood.find(same(r)), step: r.step, detail: r.detail }));
  const isReady = (w) => ready.some(same(w));
  const awaited = (r) => ({ ...wood.find(same(r)), step: r.step, on: r.ready_on, share: r.probability, detail: r.detail });
  const next = overview.ready_next.filter((r) => !isReady(r) && r.ready_on?.value).map(awaited);
  // A verdict that cannot be said is not "not ready": the next reading may settle it today.
  const open = (w) => w.verdicts.some((v) => v.step === w.step && v.verdict === "cannot_say");
  const maybe = overview.may_be_ready
    .filter((r, at, all) => !isReady(r) && all.findIndex(same(r)) === at)
    .map(awaited);
  const unsure = [...maybe, ...next.filter((w) => open(w) && !maybe.some(same(w)))].map((w) => ({
    ...w,
    reading: overview.next_readings.find(same(w)),
  }));
  const waiting = next.filter((w) => !open(w));
  const placed = (w) => isReady(w) || next.some(same(w)) || maybe.some(same(w));
  const unknown = wood
    .filter((w) => !placed(w))
    .map((w) => ({ ...w, why: overview.unanswered.find(same(w))?.detail || w.verdicts.at(0)?.detail }));
  return { looks, ready, unsure, waiting, unknown };
}
