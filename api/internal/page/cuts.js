// The cuts of a plan, as one makes them: each setting of a fence or a stop with its figure, to be
// ticked off; all on one sheet, or one at a time and large, for a bench at arm's length.
import { h } from "./dom.js";
import { tickedOf, tick } from "./kept.js";
import { words, fill } from "./words.js";

const text = words.cuts;
// What a fence or a stop is set to, or how deep a face is planed, as the service says it: in the
// fraction that was asked for.
const length = "\\d[\\d ./]*(?:mm|in)";
const setTo = new RegExp(`set to (${length})|(${length}) deep`);

/** settingsOf are the settings of a billet: {action, figure, said, leaves}, for people. */
export function settingsOf(billet) {
  return billet.settings.map(({ first_step: from, last_step: to, times, detail }) => {
    const steps = billet.steps.filter((s) => s.number >= from && s.number <= to),
      [first] = steps;
    const figure = setTo.exec(detail)?.slice(1).find(Boolean);
    const leaves = steps
      .flatMap((s) => [s.before_kerf, s.beyond_kerf])
      .map((p) => /^leaf (\S+)$/.exec(p?.name || "")?.[1])
      .filter(Boolean);
    return {
      action: text.actions[first.action] || first.action,
      figure: figure && figure + (times > 1 ? ` × ${times}` : ""),
      said: words.calledHere(detail),
      leaves,
    };
  });
}

/** cutsOf shows the cuts of each billet of a plan. */
export const cutsOf = (result) =>
  (result.billets || []).filter((b) => b.settings?.length).map((b) => new Cuts(b, result.billets.length > 1).node);

class Cuts {
  constructor(billet, several) {
    this.billet = billet;
    this.settings = settingsOf(billet);
    this.key = keyOf(this.settings);
    this.done = new Set(tickedOf(this.key));
    this.state = h("b", { role: "status" });
    this.list = h("ol", {});
    this.one = h("div", { class: "one", hidden: true });
    this.button = h("button", { type: "button", class: "btn line", onclick: () => this.turn() }, text.large);
    const title = several || !/^\d+$/.test(billet.id) ? fill(text.title, { billet: billet.id }) : text.titleOne;
    this.node = h(
      "section",
      { class: "cuts" },
      h("h3", {}, title),
      h("p", { class: "small" }, fill(text.help, { steps: billet.cuts, settings: this.settings.length })),
      h("p", {}, this.state),
      h("div", { class: "btns" }, this.button),
      this.one,
      this.list,
    );
    this.fillList();
    this.count();
  }

  count() {
    this.state.textContent = fill(text.state, { done: this.done.size, all: this.settings.length });
  }

  tick(i, on) {
    if (on) this.done.add(i);
    else this.done.delete(i);
    tick(this.key, [...this.done]);
    this.count();
  }

  fillList() {
    this.list.replaceChildren(
      ...this.settings.map((s, i) => {
        const box = h("input", { type: "checkbox", checked: this.done.has(i) });
        box.addEventListener("change", () => this.tick(i, box.checked));
        return h(
          "li",
          {},
          h(
            "label",
            {},
            box,
            h("span", { class: "do" }, s.action, s.figure ? h("b", { class: "figure" }, s.figure) : ""),
            h("span", { class: "small" }, s.said),
          ),
        );
      }),
    );
  }

  // One at a time begins with the first that is not done.
  turn() {
    const large = this.one.hidden;
    this.one.hidden = !large;
    this.list.hidden = large;
    this.button.textContent = large ? text.all : text.large;
    if (!large) return this.fillList();
    const open = this.settings.findIndex((_, i) => !this.done.has(i));
    return this.show(open < 0 ? 0 : open);
  }

  show(i) {
    const s = this.settings[i],
      last = i + 1 === this.settings.length;
    const heading = h("h4", { tabindex: "-1" }, s.action);
    const boxes = s.leaves.map((leaf) => h("label", { class: "leaf" }, h("input", { type: "checkbox" }), leaf));
    this.one.replaceChildren(
      h("p", {}, h("b", {}, fill(text.at, { at: i + 1, count: this.settings.length }))),
      heading,
      s.figure ? h("p", { class: "figure" }, s.figure) : "",
      h("p", {}, s.said),
      s.leaves.length > 1 ? h("div", { class: "leaves" }, boxes) : "",
      h(
        "div",
        { class: "btns" },
        i === 0 ? "" : h("button", { type: "button", class: "btn line", onclick: () => this.show(i - 1) }, text.back),
        h(
          "button",
          {
            type: "button",
            class: "btn",
            onclick: () => {
              this.tick(i, true);
              if (last) this.turn();
              else this.show(i + 1);
            },
          },
          last ? text.last : text.done,
        ),
      ),
    );
    heading.focus();
  }
}

// What was ticked belongs to these cuts and to no others: another answer has another key.
function keyOf(settings) {
  let sum = 0;
  for (const c of settings.map((s) => s.said).join("\n")) sum = (Math.imul(sum, 31) + c.codePointAt(0)) | 0;
  return `${settings.length}-${(sum >>> 0).toString(36)}`;
}
