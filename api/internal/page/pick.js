// A field whose names come from the tables of the service as one types: woods, places, parts.
import { h } from "./dom.js";
import { words, fill } from "./words.js";

// Where names are looked up, and how one of them is told and taken.
const tables = {
  species: {
    from: "/v1/species",
    take: (i) => i.common_name,
    tell: (i) => [i.common_name, i.botanical_name + (i.kind === "species" ? "" : `, ${i.kind.replaceAll("_", " ")}`)],
  },
  stations: { from: "/v1/stations", take: (i) => i.name, tell: (i) => [i.name, i.country_name] },
  parts: { from: "/v1/part-sizes", take: (i) => i.id, tell: (i) => [`${i.instrument}: ${i.part}`, i.id] },
};

const byName = { wood: "species", species: "species", station: "stations", part_size: "parts" };

/** tableOf returns the table of a field by its path, if it has one. */
export const tableOf = (path) => byName[path.split(".").at(-1)];

/** picker turns an input into one that offers names below it. */
export function picker(input, tableName, send) {
  const table = tables[tableName],
    listId = input.id + "-list";
  const list = h("ul", {
    id: listId,
    role: "listbox",
    class: "offers",
    hidden: true,
    "aria-label": input.dataset.label || "",
  });
  const told = h("span", { class: "hid", role: "status" });
  for (const [name, value] of Object.entries({
    role: "combobox",
    "aria-expanded": "false",
    "aria-controls": listId,
    "aria-autocomplete": "list",
    autocapitalize: "none",
    spellcheck: "false",
  }))
    input.setAttribute(name, value);
  let at = -1,
    timer,
    asked = 0;

  const close = () => {
    list.hidden = true;
    at = -1;
    input.setAttribute("aria-expanded", "false");
    input.removeAttribute("aria-activedescendant");
  };
  const options = () => [...list.querySelectorAll("[role=option]")];
  const move = (to) => {
    const all = options();
    if (all.length === 0) return;
    at = (to + all.length) % all.length;
    all.forEach((o, i) => o.setAttribute("aria-selected", String(i === at)));
    input.setAttribute("aria-activedescendant", all[at].id);
    all[at].scrollIntoView({ block: "nearest" });
  };
  const take = (value) => {
    input.value = value;
    close();
    input.dispatchEvent(new Event("input", { bubbles: true }));
    input.dispatchEvent(new Event("change", { bubbles: true }));
  };
  const offer = async () => {
    const query = input.value.trim(),
      mine = ++asked;
    if (query.length < 2) return close();
    let found;
    try {
      const reply = await send(`${table.from}?limit=12&q=${encodeURIComponent(query)}`, {}, false);
      if (!reply.ok || mine !== asked) return undefined;
      found = (await reply.json()).items;
    } catch {
      return close();
    } // without a connection one types the whole name
    if (mine !== asked || document.activeElement !== input) return undefined;
    list.replaceChildren(
      ...found.map((item, i) => {
        const [name, beside] = table.tell(item);
        const option = h(
          "li",
          { id: `${listId}-${i}`, role: "option", "aria-selected": "false" },
          h("b", {}, name),
          " ",
          h("small", {}, beside || ""),
        );
        option.addEventListener("pointerdown", (e) => {
          e.preventDefault();
          take(table.take(item));
        });
        option.take = () => take(table.take(item));
        return option;
      }),
    );
    told.textContent = found.length === 0 ? words.form.none : fill(words.form.list, { count: found.length });
    list.hidden = found.length === 0;
    input.setAttribute("aria-expanded", String(found.length > 0));
    at = -1;
    return undefined;
  };
  input.addEventListener("input", (e) => {
    if (!e.isTrusted) return;
    clearTimeout(timer);
    timer = setTimeout(offer, 200);
  });
  input.addEventListener("keydown", (e) => {
    if (e.key === "ArrowDown" || e.key === "ArrowUp") {
      e.preventDefault();
      if (list.hidden) offer();
      else move(at + (e.key === "ArrowDown" ? 1 : -1));
    } else if (e.key === "Enter" && !list.hidden && at >= 0) {
      e.preventDefault();
      options()[at].take();
    } else if (e.key === "Escape" && !list.hidden) {
      e.preventDefault();
      close();
    }
  });
  input.addEventListener("blur", () => {
    clearTimeout(timer);
    close();
  });
  return [list, told];
}
