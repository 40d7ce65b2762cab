// Billets from a list: a file of a spreadsheet, or what is pasted.
import { h } from "./dom.js";
import { toldIn } from "./figures.js";
import { ask } from "./rackask.js";
import { words, fill } from "./words.js";

const text = words.sheet;
const columns =
  "id, place, target, billet.name, billet.wood, billet.length, billet.width, billet.thickness, billet.rings.angle_deg, billet.stacked_on";

export class SheetForm {
  constructor(system) {
    this.system = system;
    this.area = h("textarea", { id: "sheet", rows: 8, autocomplete: "off", spellcheck: "false" });
    this.file = h("input", { id: "sheet-file", type: "file", accept: ".csv,.tsv,.txt,text/csv,text/plain" });
    this.file.addEventListener("change", async () => {
      if (this.file.files[0]) this.area.value = await this.file.files[0].text();
    });
    this.said = h("div", { role: "status" });
    this.key = undefined;
    const field = (id, label, input) =>
      h("div", { class: "f" }, h("label", { for: id }, label), h("div", { class: "box" }, input));
    const form = h(
      "form",
      { class: "sheet", novalidate: true },
      h("p", { class: "help" }, text.help),
      field("sheet-file", text.file, this.file),
      field("sheet", text.text, this.area),
      h("details", {}, h("summary", {}, words.form.more), h("p", {}, text.usual), h("pre", { tabindex: "0" }, columns)),
      h("div", { class: "btns" }, h("button", { class: "btn", id: "sheet-save" }, text.save)),
      this.said,
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.send(false);
    });
    this.node = h(
      "div",
      { class: "narrow" },
      h("p", { class: "crumb" }, h("a", { href: "#/rack" }, words.billet.back)),
      h("h1", { tabindex: "-1" }, text.title),
      form,
    );
  }

  async send(rest) {
    const csv = this.area.value;
    if (csv.trim() === "") {
      this.say(h("p", { class: "err" }, text.empty));
      return;
    }
    try {
      const { taken, refused } = await ask("/v1/rack/sheets", {
        body: { kind: "billet", csv, take_the_rest: rest || undefined },
      });
      const took = taken === 1 ? text.tookOne : fill(text.took, { count: taken });
      const rows = refused.map((r) =>
        h(
          "li",
          {},
          fill(text.row, {
            row: r.row,
            id: r.id ? ` (${r.id})` : "",
            column: r.column ? `${words.label(r.column)}: ` : "",
            why: toldIn(r.detail, this.system),
          }),
        ),
      );
      const wrong = refused.length === 1 ? text.wrongOne : fill(text.wrong, { count: refused.length });
      this.say(
        taken > 0 ? h("p", { class: "mk ok" }, took, " ", h("a", { href: "#/rack" }, words.rack.open)) : "",
        refused.length > 0 && taken === 0 ? h("p", { class: "err" }, wrong) : "",
        refused.length > 0 ? h("ul", {}, rows) : "",
        refused.length > 0 && taken === 0 && !rest
          ? h("button", { type: "button", class: "btn line", onclick: () => this.send(true) }, text.rest)
          : "",
      );
    } catch (failure) {
      if (failure.status === 401) return; // the field for the token has the keyboard
      const why = failure.status ? toldIn(failure.message, this.system) : words.errors.unreachable;
      this.say(h("p", { class: "err" }, why));
    }
  }

  say(...nodes) {
    this.said.replaceChildren(...nodes.filter(Boolean));
    this.said.scrollIntoView({ block: "nearest" });
  }
}
