// One billet or piece of the rack: what can be said of it, its course, its weights, its life, and
// what was done or noted.
import { sentenceOf, verdictsNode } from "./answer.js";
import { toldIn } from "./figures.js";
import { drawingOf, drawnFor } from "./drawing.js";
import { h, today } from "./dom.js";
import { mark } from "./pictures.js";
import { ask } from "./rackask.js";
import { sayQuantityText, sizesText } from "./rackread.js";
import { readDate, readQuantity, sayDay, toSI } from "./reading.js";
import { keyOf, sayMass } from "./round.js";
import { woodName } from "./rack.js";
import { words, fill } from "./words.js";

const text = words.billet;
const fresh = (id, what) => `${what}-${id}`.slice(0, 40) + `-${Date.now().toString(36)}`;

export class BilletPage {
  constructor(rackView, wood) {
    Object.assign(this, { rackView, wood, main: rackView.main, system: rackView.system });
    this.path = `/v1/rack/${wood.kind}s/${encodeURIComponent(wood.id)}`;
    this.of = { [wood.kind]: wood.id };
    this.gone = false;
  }

  leave() {
    this.gone = true;
  }

  async show() {
    const { id } = this.wood;
    this.rackView.titled(fill(words.rack.one, { id }));
    this.said = h("p", { role: "status", class: "help" });
    this.body = h("div", { class: "two flip" });
    this.main.replaceChildren(
      h("p", { class: "crumb" }, h("a", { href: "#/rack" }, text.back), this.placeName()),
      h("h1", { tabindex: "-1" }, h("span", { class: "id big" }, id), " ", woodName(this.wood)),
      h("p", { class: "help" }, this.sizes()),
      this.actions(),
      this.said,
      this.body,
    );
    this.main.querySelector("h1").focus({ preventScroll: true });
    await this.fill();
  }

  placeName() {
    const place = this.rackView.rack.places.find((p) => p.id === this.wood.place)?.name || this.wood.place;
    return place ? ` › ${place}` : "";
  }

  sizes() {
    const { sizes, entry } = this.wood;
    const told = sizesText(sizes, this.system);
    const stacked = entry?.billet?.stacked_on;
    return [told, stacked && fill(text.stacked, { date: sayDay(stacked) })].filter(Boolean).join(" · ");
  }

  actions() {
    const { kind, id } = this.wood,
      link = (to, said, line) => h("a", { class: `btn ${line ? "line" : ""}`, href: to }, said);
    const more =
      kind === "billet"
        ? ["plan", "timing", "ready", "move"].map((name) => link(`#/rack/billets/${id}/${name}`, text[name], true))
        : [];
    return h("div", { class: "btns acts" }, link(`#/weigh?of=${keyOf(this.wood)}`, text.weigh), more);
  }

  // What is kept of it. Without a signal the overview's part stands alone.
  async fill() {
    const standing = h("section", { class: "sheet" }, this.standing(this.wood, undefined, []));
    const beside = h("div", {});
    this.body.replaceChildren(h("div", {}, standing), beside);
    try {
      const [card, entry, notes] = await Promise.all([
        ask(`${this.path}/card`),
        ask(this.path),
        ask(`/v1/rack/notes?${this.wood.kind}=${encodeURIComponent(this.wood.id)}`),
      ]);
      if (this.gone) return;
      this.wood.entry = entry;
      this.main.querySelector("h1 + .help").textContent = this.sizes();
      standing.replaceChildren(this.standing(card.standing, card, card.contradictions));
      beside.replaceChildren(
        this.readings(card.readings),
        this.life(card.events),
        this.notes(notes.items),
        this.leaves(),
      );
      this.photo(card.standing, beside);
      await this.course(standing);
    } catch (failure) {
      if (failure.status && failure.status !== 401) this.say(fill(words.rack.failed, { why: this.told(failure.message) }));
    }
  }

  say(said) {
    this.said.textContent = said;
  }

  // What the service says, in the units and with the names of this page.
  told(said) {
    return toldIn(said, this.system);
  }

  standing(s, card, doubts) {
    const told = { verdicts: s.verdicts, moisture: { mc: s.mc }, target: { mc: s.target_mc } };
    const { said, small } =
      s.verdicts.length > 0
        ? sentenceOf("ready", told)
        : { said: text.cannot, small: card?.unanswered && this.told(card.unanswered) };
    return h(
      "div",
      {},
      h("h2", { class: "say" }, said, small ? h("small", {}, small) : ""),
      s.verdicts.length > 0 ? verdictsNode(s, s.as_of || today()) : "",
      doubts.map((d) => this.doubt(d)),
      h("div", { class: "drawn" }),
      card?.next_reading ? this.next(card.next_reading) : "",
    );
  }

  next(n) {
    const said = { weight: n.expected_mass ? text.nextWeightExpect : text.nextWeight, ovendry_sample: text.nextSample };
    const m =
      n.expected_mass &&
      ["low", "high"].map((e) => sayMass(toSI("mass", n.expected_mass[e], n.expected_mass.unit), this.system));
    return h(
      "div",
      { class: "next" },
      h("h3", {}, text.next),
      h("p", {}, fill(said[n.reading_kind] || text.nextMeter, { date: sayDay(n.date), low: m?.[0], high: m?.[1] })),
      h(
        "p",
        { class: "small" },
        this.told(n.detail),
      ),
    );
  }

  // A weight that cannot be: the slip that would explain it is taken with one press.
  doubt(d) {
    const node = h(
      "div",
      { class: "odd" },
      h(
        "p",
        {},
        mark.look(),
        " ",
        h("b", {}, fill(text.doubt, { date: sayDay(d.date) })),
        " ",
        this.told(d.detail),
        d.likely_slip ? `. ${this.told(d.likely_slip)}` : "",
      ),
    );
    const meant = /(\d[\d.]*) ?(kg|g|lb|oz)/.exec(d.likely_slip || "");
    if (meant && d.reading)
      node.append(
        h(
          "div",
          { class: "btns" },
          h(
            "button",
            { type: "button", class: "btn line", onclick: () => this.correct(d, meant[0]) },
            fill(text.take, { mass: meant[0] }),
          ),
        ),
      );
    return node;
  }

  async correct(d, mass) {
    await this.doing(async () => {
      const { etag, id, reading, billet, piece } = await ask(`/v1/rack/readings/${d.reading}`);
      const body = { id, ...(billet ? { billet } : { piece }), reading: { ...reading, mass } };
      await ask(`/v1/rack/readings/${d.reading}`, { method: "PUT", body, etag });
      return fill(text.taken, { date: sayDay(d.date), mass });
    });
  }

  // What changes the rack: told when it is done, and the page shows what is so now.
  async doing(work) {
    try {
      const said = await work();
      await this.fill();
      this.say(said);
    } catch (failure) {
      if (failure.status === 401) return;
      this.say(
        failure.status ? fill(words.rack.failed, { why: this.told(failure.message) }) : words.rack.noSignal,
      );
    }
    this.said.scrollIntoView({ block: "nearest" });
  }

  async course(standing) {
    if (this.wood.verdicts.length === 0) return;
    const box = standing.querySelector(".drawn");
    const drawing = await drawnFor(`${this.path}/readiness`, { report_in: this.system }, box.clientWidth - 2);
    if (this.gone || drawing === undefined) return;
    box.replaceChildren(h("h3", {}, text.course), drawingOf(drawing, fill(text.courseOf, { id: this.wood.id })));
  }

  // A weight comes in the units asked for; what a meter showed has none.
  figure({ kind, figure = "" }) {
    const read = kind === "weight" ? readQuantity(figure, "mass", "kg") : { wrong: "no weight" };
    return read.wrong ? figure : sayMass(read.si, this.system);
  }

  readings(all) {
    const table = (lines) =>
      h(
        "table",
        {},
        h("thead", {}, h("tr", {}, h("th", { scope: "col" }, text.day), h("th", { scope: "col" }, text.read))),
        h(
          "tbody",
          {},
          lines.map((l) =>
            h(
              "tr",
              {},
              h("th", { scope: "row" }, l.date ? sayDay(l.date) : "–"),
              h(
                "td",
                { class: "num" },
                this.figure(l),
                l.kind === "weight" ? "" : h("small", { class: "block" }, l.kind.replaceAll("_", " ")),
              ),
            ),
          ),
        ),
      );
    const few = 5;
    return h(
      "section",
      { class: "sheet" },
      h("h2", {}, text.readings),
      all.length === 0 ? h("p", {}, text.none) : table(all.slice(0, few)),
      all.length > few
        ? h("details", {}, h("summary", {}, fill(text.all, { count: all.length - few })), table(all.slice(few)))
        : "",
    );
  }

  life(events) {
    const kind = h(
      "select",
      { id: "ev-kind" },
      Object.entries(text.events).map(([v, said]) => h("option", { value: v }, said)),
    );
    const date = h("input", { id: "ev-date", value: sayDay(today()), autocomplete: "off" });
    const places = this.rackView.rack.places;
    const place = h(
      "select",
      { id: "ev-place" },
      h("option", { value: "" }, text.same),
      places.map((p) => h("option", { value: p.id }, p.name)),
    );
    const form = h(
      "form",
      { novalidate: true },
      boxed("ev-kind", text.what, kind),
      boxed("ev-date", text.when, date),
      boxed("ev-place", text.where, place),
      h("button", { class: "btn line" }, text.keep),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.doing(async () => {
        const body = {
          id: fresh(this.wood.id, kind.value),
          ...this.of,
          event: { kind: kind.value, date: dayOf(date) },
        };
        if (place.value) body.event.place = place.value;
        await ask("/v1/rack/events", { body, key: body.id });
        if (place.value && place.value !== this.wood.place) await this.movedTo(place.value);
        return text.kept;
      });
    });
    return h(
      "section",
      { class: "sheet" },
      h("h2", {}, text.life),
      events.length === 0
        ? h("p", {}, text.none)
        : h(
            "ul",
            { class: "life" },
            events.map((e) =>
              h("li", {}, h("b", {}, e.date ? sayDay(e.date) : ""), ` ${text.events[e.kind] || e.kind}`),
            ),
          ),
      h("details", {}, h("summary", {}, text.event), form),
    );
  }

  // The entry says where it lies now.
  async movedTo(place) {
    const { version, restores_version, removed, changed_at, changed_by, etag, ...entry } = await ask(this.path);
    await ask(this.path, { method: "PUT", body: { ...entry, place }, etag });
    this.wood.place = place;
  }

  notes(all) {
    const area = h("textarea", { id: "note", rows: 3 });
    const form = h(
      "form",
      { novalidate: true },
      boxed("note", text.noteText, area),
      h("button", { class: "btn line" }, text.keep),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      if (area.value.trim() === "") return;
      this.doing(async () => {
        const { kind, id } = this.wood;
        const body = { id: fresh(id, "note"), of: { kind, id }, date: today(), text: area.value.trim() };
        await ask("/v1/rack/notes", { body, key: body.id });
        return text.kept;
      });
    });
    return h(
      "section",
      { class: "sheet" },
      h("h2", {}, text.notes),
      all.length === 0
        ? h("p", {}, text.none)
        : h(
            "ul",
            { class: "life" },
            all.map((n) => h("li", {}, n.date ? h("b", {}, sayDay(n.date) + " ") : "", n.text)),
          ),
      h("details", {}, h("summary", {}, text.note), form),
    );
  }

  // It was sawn: the day and the leaves are kept together.
  leaves() {
    if (this.wood.kind !== "billet") return "";
    const t = text.cut,
      input = (id, value, mode) => h("input", { id, value, autocomplete: "off", inputmode: mode });
    const [length, width] = this.wood.sizes || [];
    const count = input("cut-count", "", "numeric"),
      date = input("cut-date", sayDay(today())),
      name = input("cut-name", `${this.wood.id}-`),
      sizes = {
        length: input("cut-length", sayQuantityText(length)),
        width: input("cut-width", sayQuantityText(width)),
        thickness: input("cut-thickness", ""),
      };
    const place = h(
      "select",
      { id: "cut-place" },
      this.rackView.rack.places.map((p) => h("option", { value: p.id }, p.name)),
    );
    place.value = this.wood.place || "";
    const wrong = h("p", { class: "err", role: "status", hidden: true });
    const form = h(
      "form",
      { novalidate: true },
      h("p", { class: "help" }, t.help),
      boxed("cut-date", text.when, date),
      boxed("cut-count", t.count, count),
      boxed("cut-name", t.name, name, t.nameHelp),
      ...Object.entries(sizes).map(([n, i]) => boxed(i.id, words.label(n), i)),
      boxed("cut-place", t.place, place),
      wrong,
      h("button", { class: "btn line" }, t.save),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const asked = this.cutting({ count, date, name, sizes, place });
      wrong.hidden = !asked.wrong;
      wrong.textContent = asked.wrong || "";
      if (asked.wrong) return;
      this.doing(async () => {
        await ask("/v1/rack/cuttings", { body: asked, key: asked.event.id });
        const ids = asked.pieces.map((p) => p.id);
        return fill(t.done, { count: ids.length, first: ids[0], last: ids.at(-1) });
      });
    });
    return h("section", { class: "sheet" }, h("details", {}, h("summary", {}, text.leaves), form));
  }

  cutting({ count, date, name, sizes, place }) {
    const many = Number(count.value),
      day = readDate(date.value, { today: today() });
    const missing = (label) => ({ wrong: fill(words.errors.missing, { label: label.toLowerCase() }) });
    if (!Number.isInteger(many) || many < 1 || many > 200) return missing(text.cut.count);
    if (day.wrong) return { wrong: day.wrong };
    const { wood, rings } = this.wood.entry?.billet || {},
      billet = { ...(wood && { wood }), ...(rings && { rings }), stacked_on: day.iso };
    for (const [n, input] of Object.entries(sizes)) {
      const read = readQuantity(input.value, "length", this.system === "inch" ? "in" : "mm");
      if (read.wrong) return missing(words.label(n));
      billet[n] = `${read.value} ${read.unit}`;
    }
    const { target } = this.wood.entry || {};
    const pieces = Array.from({ length: many }, (_, i) => ({
      id: `${name.value}${i + 1}`,
      parent: { billet: this.wood.id },
      ...(place.value && { place: place.value }),
      ...(target && { target }),
      billet,
    }));
    return {
      event: { id: fresh(this.wood.id, "resawn"), ...this.of, event: { kind: "resawn", date: day.iso } },
      pieces,
    };
  }

  // A photograph from the camera of the phone, where the service keeps one.
  photo(standing, beside) {
    if (!this.rackView.contract.photos || this.wood.kind !== "billet") return;
    import("./photo.js").then(({ photoBox }) => {
      if (!this.gone) beside.append(photoBox(this, standing.photo));
    });
  }
}

const boxed = (id, label, input, help) =>
  h(
    "div",
    { class: "f w16" },
    h("label", { for: id }, label),
    help ? h("span", { class: "help" }, help) : "",
    h("div", { class: "box" }, input),
  );

function dayOf(input) {
  const read = readDate(input.value, { today: today() });
  if (read.wrong) throw Object.assign(new Error(read.wrong), { status: 422 });
  return read.iso;
}
