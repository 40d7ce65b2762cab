// The plank from above, drawn in proportion: two taps mark a fault, and its figures follow.
import { h, idOf, svg } from "./dom.js";
import { countOf, join, unitOf } from "./draft.js";
import { fromSI, readQuantity, trimmed } from "./reading.js";
import { words, fill } from "./words.js";

const text = words.plank;
const names = ["x_from", "x_to", "y_from", "y_to"];
const leastFault = 0.012; // of the length: two taps nearer to each other mark a fault of this size

/** plankOf draws the plank of a list of faults; nothing while its length and width are not read. */
export function plankOf(form, path, d) {
  const above = path.split(".").slice(0, -1).join(".");
  const unit = unitOf(join(path, "0.x_from"), "length", form.system);
  const metres = (at) => {
    const read = readQuantity(form.draft[at] ?? "", "length", unit);
    return read.wrong ? undefined : read.si;
  };
  const long = metres(join(above, "length")),
    wide = metres(join(above, "width"));
  if (!(long > 0) || !(wide > 0)) return "";
  const count = countOf(form.draft, path, d, false);
  const mm = 1000;
  const marks = [["rect", { class: "wd", x: 0, y: 0, width: long * mm, height: wide * mm }]];
  for (let i = 0; i < count; i++) {
    const [x1, x2, y1, y2] = names.map((n) => metres(join(path, `${i}.${n}`)));
    if ([x1, x2].some((v) => v === undefined)) continue;
    const low = (y1 ?? 0) * mm,
      high = (y2 ?? wide) * mm;
    const at = { class: "fault", x: x1 * mm, y: wide * mm - high, width: (x2 - x1) * mm, height: high - low };
    if (at.width > 0 && at.height > 0) marks.push(["rect", at, ["title", {}, fill(text.fault, { number: i + 1 })]]);
  }
  const picture = svg(`0 0 ${long * mm} ${wide * mm}`, marks, {
    class: "plank",
    role: "img",
    "aria-label": text.title,
  });
  const said = h("p", { class: "read", role: "status" }, "");
  let first;
  picture.addEventListener("click", (event) => {
    const tapped = new DOMPoint(event.clientX, event.clientY).matrixTransform(picture.getScreenCTM().inverse());
    const within = (v, most) => Math.min(most, Math.max(0, v));
    const at = { x: within(tapped.x / mm, long), y: wide - within(tapped.y / mm, wide) };
    if (!first) {
      first = at;
      const cross = svg("0 0 1 1", [["circle", { class: "dot", cx: at.x * mm, cy: (wide - at.y) * mm, r: long * 9 }]]);
      picture.append(cross.firstChild);
      said.textContent = text.first;
      return;
    }
    put(form, path, count, unit, first, at, { long, wide });
  });
  return h("div", { class: "f" }, h("b", {}, text.title), h("p", { class: "help" }, text.help), picture, said);
}

// A new fault between two places, in whole millimetres or in sixteenths of an inch.
function put(form, path, count, unit, a, b, { long, wide }) {
  const least = leastFault * long;
  const spread = (p, q, most) => {
    const [low, high] = p < q ? [p, q] : [q, p];
    const more = Math.max(0, least - (high - low)) / 2;
    return [Math.max(0, low - more), Math.min(most, high + more)];
  };
  const say = (metre) => {
    const value = fromSI("length", metre, unit);
    return unit === "in" ? trimmed(Math.round(value * 16) / 16, 4) : trimmed(value, 0);
  };
  const values = [...spread(a.x, b.x, long), ...spread(a.y, b.y, wide)];
  names.forEach((n, i) => {
    form.draft[join(path, `${count}.${n}`)] = say(values[i]);
  });
  form.setAndRender(path + "#", String(count + 1));
  document.getElementById(idOf(join(path, `${count}.kind`)))?.focus();
}
