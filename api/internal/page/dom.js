// Small helpers for elements. Text is always set as text, never as markup.

/** h makes an element: h("p", {class: "help"}, "words", another). */
export function h(tag, attributes = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    if (name.startsWith("on")) e.addEventListener(name.slice(2), value);
    else e.setAttribute(name, value === true ? "" : String(value));
  }
  e.append(...children.flat().filter((c) => c !== undefined && c !== null && c !== false));
  return e;
}

/** svg makes a drawing of marks: svg("0 0 24 24", [["path", {class: "ln", d: "…"}]]). */
export function svg(viewBox, marks, attributes = { "aria-hidden": "true" }) {
  const ns = "http://www.w3.org/2000/svg";
  const make = ([tag, given, ...inner]) => {
    const e = document.createElementNS(ns, tag);
    for (const [name, value] of Object.entries(given)) e.setAttribute(name, value);
    for (const i of inner) e.append(typeof i === "string" ? i : make(i));
    return e;
  };
  return make(["svg", { viewBox, ...attributes }, ...marks]);
}

/** idOf is the id of a field by its path. */
export const idOf = (path) => "f-" + (path === "" ? "whole" : path.replaceAll(/[^A-Za-z0-9]/g, "-"));

/** today as an ISO date of this device. */
export function today() {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
}
