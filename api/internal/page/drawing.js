// Drawings of the service in the page, in the width that they get: asked for as wide as there is
// room, in the colours of the page. A tap tells the nearest value; the same values stand in a list.
import { h } from "./dom.js";
import { post } from "./send.js";
import { words, fill } from "./words.js";

const text = words.answer;
const near = 28; // px from a thumb to a value
const narrowest = 240,
  widest = 1600; // px: what the service draws for

/** drawnFor asks for a drawing as wide as there is room; nothing where there is none. */
export async function drawnFor(path, request, room, signal) {
  const width = Math.round(Math.max(narrowest, Math.min(widest, room)));
  const reply = await post(`${path}?width=${width}`, request, "image/svg+xml", signal);
  return reply.ok ? reply.text() : undefined;
}

/** drawingOf shows a drawing. One that cannot be made so narrow moves sideways. */
export function drawingOf(source, said) {
  const read = new DOMParser().parseFromString(source, "image/svg+xml").documentElement;
  if (read.localName !== "svg") return "";
  const svg = document.importNode(read, true);
  for (const [name, id] of [
    ["title", "drawing-title"],
    ["desc", "drawing-about"],
  ])
    svg.querySelector(name)?.setAttribute("id", id);
  svg.setAttribute("aria-labelledby", "drawing-title drawing-about");
  const values = [...svg.querySelectorAll("[data-told]")];
  const told = h("p", { class: "told small", role: "status" }, values.length > 0 ? text.tap : "");
  svg.addEventListener("click", (event) => {
    const found = nearest(values, event);
    if (found) told.replaceChildren(h("b", {}, found.textContent));
  });
  const list = h(
    "ul",
    { class: "small" },
    values.map((v) => h("li", {}, v.textContent)),
  );
  return h(
    "figure",
    { class: "drawing" },
    h("div", { class: "move", role: "region", tabindex: "0", "aria-label": fill(text.drawing, { what: said }) }, svg),
    values.length > 0 ? told : "",
    values.length > 0 ? h("details", {}, h("summary", {}, text.values), list) : "",
  );
}

// The value nearest to where the thumb came down.
function nearest(values, { clientX, clientY }) {
  let best,
    least = near;
  for (const value of values) {
    const box = value.getBoundingClientRect();
    const away = Math.hypot(box.x + box.width / 2 - clientX, box.y + box.height / 2 - clientY);
    if (away < least) [best, least] = [value, away];
  }
  return best;
}
