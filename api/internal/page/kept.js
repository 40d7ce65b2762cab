// What this browser keeps: the shop, and the questions that were asked with their answers.
const name = "latewood",
  most = 30,
  withAnswers = 10;

const usual = { units: undefined, rh: "45", look: "auto", fraction: "1/32" };

function read() {
  try {
    return JSON.parse(localStorage.getItem(name)) || {};
  } catch {
    return {};
  }
}

function write(all) {
  try {
    localStorage.setItem(name, JSON.stringify(all));
    return true;
  } catch {
    return false;
  } // full, or not allowed here: the page works without
}

/** shop is what the maker told of theirs; what they did not is usual in the system. */
export const shop = (system) => {
  const told = read().shop;
  return { ...usual, temperature: (system || told?.units) === "inch" ? "68 °F" : "20 °C", ...told };
};
export const setShop = (told) => write({ ...read(), shop: { ...read().shop, ...told } });
export const entries = () => read().kept || [];

/** keep puts an entry first: {id, question, link, sentence, when, answer, drawing}. */
export function keep(entry) {
  const all = read(),
    others = (all.kept || []).filter((e) => e.link !== entry.link);
  const kept = [{ id: String(Date.now()), ...entry }, ...others]
    .slice(0, most)
    .map((e, i) => (i < withAnswers ? e : { ...e, answer: undefined, drawing: undefined }));
  for (let held = withAnswers; held >= 0; held -= 2) {
    if (write({ ...all, kept: kept.map((e, i) => (i < held ? e : { ...e, answer: undefined, drawing: undefined })) }))
      return kept[0].id;
  }
  return undefined;
}

export const forget = (id) =>
  write({ ...read(), kept: id === undefined ? [] : entries().filter((e) => e.id !== id) });

const ticksOf = 20; // plans

/** tickedOf are the settings of a plan that were ticked off, by its key; tick keeps them. */
export const tickedOf = (key) => (read().ticks || []).find((t) => t.key === key)?.done || [];
export function tick(key, done) {
  const all = read(),
    others = (all.ticks || []).filter((t) => t.key !== key);
  write({ ...all, ticks: [{ key, done }, ...others].slice(0, ticksOf) });
}
