// A weighing day, with one hand: round in the order the wood lies. Each weight is kept in this
// browser first and sent when there is a signal; what does not fit is asked about at once.
import { h, today } from "./dom.js";
import { toldIn } from "./figures.js";
import { mark } from "./pictures.js";
import { load, queue, seen } from "./rackask.js";
import { fromSI, sayDay, trimmed } from "./reading.js";
import { keyOf, massUnit, named, readRound, roundOf, sayMass, weighed } from "./round.js";
import { woodName } from "./rack.js";
import { words, fill } from "./words.js";

const text = words.weigh;
const orderPlace = "latewood-round";
const pause = 1200; // ms without a key after which a weight that does not fit is asked about
const oftenEnough = 20_000; // ms until it is tried again to send

// The order in which wood was weighed: that of the round before stands while a new one goes.
function orderOf(date) {
  let told;
  try {
    told = JSON.parse(localStorage.getItem(orderPlace));
  } catch {
    /* none, or not allowed */
  }
  const keys = told?.keys || [];
  return told?.date === date ? { before: told.before || [], keys } : { before: keys, keys: [] };
}

export class WeighView {
  constructor({ main, system, titled }) {
    Object.assign(this, {
      main,
      system,
      titled,
      date: today(),
      place: "",
      typed: "",
      skipped: new Set(),
      undone: new Set(),
    });
    this.wanted = new URLSearchParams(location.hash.split("?")[1] || "").get("of");
    this.queue = queue();
    this.order = orderOf(this.date);
  }

  leave() {
    this.gone = true;
    this.unlisten?.();
    clearInterval(this.timer);
    clearTimeout(this.asking);
    this.scanner?.stop();
    removeEventListener("online", this.online);
    document.body.classList.remove("weighing");
  }

  showsLink() {
    return false;
  }

  inSystem(system) {
    this.system = system;
    this.typed = "";
    this.render();
  }

  /** ask begins again: a token was given. */
  ask() {
    this.show();
  }

  async show() {
    this.titled(text.title);
    document.body.classList.add("weighing");
    this.main.replaceChildren(
      h("h1", { tabindex: "-1", class: "hid" }, text.title),
      h("p", { role: "status" }, words.form.working),
    );
    this.main.querySelector("h1").focus({ preventScroll: true });
    this.rack = await load().catch(() => seen());
    if (this.gone) return;
    if (!this.rack) {
      this.main.replaceChildren(h("h1", { tabindex: "-1" }, text.title), h("p", {}, words.rack.never));
      return;
    }
    this.unlisten ??= this.queue.listen(() => this.heard());
    this.online ??= () => this.flush();
    addEventListener("online", this.online);
    this.timer ??= setInterval(() => this.queue.waiting().length > 0 && this.flush(), oftenEnough);
    const first = this.wanted && this.rack.wood.find((w) => keyOf(w) === this.wanted);
    this.now = first ? keyOf(first) : this.following();
    this.render();
    this.flush();
  }

  round() {
    const wood = this.rack.wood.filter((w) => !this.place || w.place === this.place);
    return roundOf(wood, this.order.before);
  }

  isDone(w) {
    return Boolean(this.queue.of(keyOf(w), this.date)) || this.byOthers(w);
  }

  // Weighed today already, by another phone or before this page was opened.
  byOthers(w) {
    return w.last?.date === this.date && !this.undone.has(keyOf(w));
  }

  // The next that is neither weighed nor skipped, from where one is, and round to the start.
  following() {
    const round = this.round(),
      at = round.findIndex((w) => keyOf(w) === this.now);
    const open = (w) => !this.isDone(w) && !this.skipped.has(keyOf(w));
    const next = [...round.slice(at + 1), ...round.slice(0, at + 1)].find(open);
    return next && keyOf(next);
  }

  async flush() {
    this.trying = true;
    this.heard();
    try {
      this.away = !(await this.queue.flush());
    } catch {
      this.away = false; // what was refused is told at its line
    }
    this.trying = false;
    this.heard();
  }

  // What the line of weights tells changes the state and the list, never the field one types in.
  heard() {
    if (this.gone || !this.body) return;
    this.head.replaceChildren(...this.headNodes());
    this.list.replaceChildren(...this.listNodes());
    this.conflicts.replaceChildren(...this.conflictNodes());
  }

  render() {
    if (!this.rack) return;
    this.head = h("div", {});
    this.conflicts = h("div", {});
    this.scanBox = h("div", {});
    this.list = h("ul", { class: "route" });
    const wood = this.rack.wood.find((w) => keyOf(w) === this.now);
    this.body = this.pasting ? this.pasteForm() : wood ? this.card(wood) : this.through();
    this.main.replaceChildren(
      h(
        "div",
        { class: "wday" },
        h("h1", { tabindex: "-1", class: "hid" }, text.title),
        this.head,
        this.scanBox,
        this.conflicts,
        this.body,
        h(
          "details",
          { class: "sheet", open: true },
          h("summary", {}, text.round),
          this.placeChoice(),
          this.list,
          h(
            "button",
            {
              type: "button",
              class: "plain",
              id: "paste",
              onclick: () => {
                this.pasting = !this.pasting;
                this.render();
              },
            },
            this.pasting ? text.by : text.paste,
          ),
        ),
      ),
    );
    this.heard();
    this.body.querySelector("input, textarea")?.focus({ preventScroll: true });
  }

  headNodes() {
    const round = this.round(),
      done = round.filter((w) => this.isDone(w)).length,
      at = Math.min(round.length, done + (this.now ? 1 : 0));
    const bar = h("i", {});
    bar.style.width = `${round.length === 0 ? 0 : (100 * done) / round.length}%`;
    return [
      h(
        "div",
        { class: "whead" },
        h(
          "span",
          {},
          h("b", {}, fill(text.of, { at, count: round.length })),
          ` · ${sayDay(this.date)}`,
          h("span", { class: "state", role: "status" }, this.state()),
        ),
        h("button", { type: "button", class: "btn line", id: "scan", onclick: () => this.scan() }, text.scan),
      ),
      h(
        "div",
        {
          class: "meter",
          role: "progressbar",
          "aria-valuemin": 0,
          "aria-valuemax": round.length,
          "aria-valuenow": done,
          "aria-label": text.title,
        },
        bar,
      ),
    ];
  }

  state() {
    const waiting = this.queue.waiting().filter((l) => ["waiting", "removing"].includes(l.state)).length;
    if (this.queue.lines.some((l) => l.state === "conflict")) return text.decide;
    if (waiting === 0) return this.queue.lines.some((l) => l.date === this.date) ? text.sent : "";
    if (this.away || !navigator.onLine)
      return fill(this.queue.safe === false ? text.unsafe : text.noSignal, { count: waiting });
    return fill(text.sending, { count: waiting });
  }

  placeChoice() {
    const select = h(
      "select",
      { id: "round-place" },
      h("option", { value: "" }, text.all),
      this.rack.places.map((p) => h("option", { value: p.id }, p.name)),
    );
    select.value = this.place;
    select.addEventListener("change", () => {
      this.place = select.value;
      this.now = undefined;
      this.now = this.following();
      this.render();
    });
    return h(
      "div",
      { class: "f w16" },
      h("label", { for: "round-place" }, text.place),
      h("div", { class: "box" }, select),
    );
  }

  // The card of one billet: id huge, what is expected beside it, keys, and Keep under the thumb.
  card(wood) {
    const unit = massUnit(this.system);
    const input = h("input", {
      id: "kg",
      inputmode: matchMedia("(pointer: coarse)").matches ? "none" : "decimal",
      autocomplete: "off",
      "aria-describedby": "kgr",
    });
    input.value = this.typed;
    const said = h("div", { class: "read", id: "kgr", role: "status" });
    const form = h(
      "form",
      { class: "wcard", novalidate: true, "data-key": keyOf(wood) },
      h(
        "div",
        { class: "wtop" },
        h(
          "div",
          {},
          h("span", { class: `id${wood.id.length > 7 ? " long" : ""}` }, wood.id),
          h("div", {}, woodName(wood)),
        ),
        this.before(wood),
      ),
      h("label", { class: "lab", for: "kg" }, text.today),
      h("div", { class: "box kg" }, input, h("span", { class: "unit" }, unit)),
      said,
      this.pad(input),
      h(
        "div",
        { class: "wact" },
        h(
          "button",
          {
            type: "button",
            class: "btn line",
            id: "skip-one",
            onclick: () => {
              this.skipped.add(keyOf(wood));
              this.go(this.following());
            },
          },
          text.skip,
        ),
        h("button", { class: "btn go", id: "keep" }, text.keep),
      ),
    );
    const look = (asked) => {
      this.typed = input.value;
      said.replaceChildren(...this.told(wood, input, asked));
    };
    input.addEventListener("input", () => {
      clearTimeout(this.asking);
      this.asked = undefined;
      look(input.value.length >= this.usualLength(wood));
      this.asking = setTimeout(() => look(true), pause);
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.keep(wood, input, look, said);
    });
    return form;
  }

  before(wood) {
    return h(
      "div",
      { class: "small r" },
      wood.last
        ? h(
            "span",
            {},
            fill(text.last, { date: sayDay(wood.last.date) }) + " ",
            h("b", {}, sayMass(wood.last.kg, this.system)),
          )
        : "",
      h("br"),
      wood.expect
        ? h("span", {}, text.expect + " ", h("b", {}, this.rangeText(wood.expect)))
        : wood.last
          ? ""
          : text.noExpect,
    );
  }

  rangeText({ low, high }) {
    const unit = massUnit(this.system),
      digits = unit === "kg" ? 2 : 1;
    return fill(text.expectRange, {
      low: trimmed(fromSI("mass", low, unit), digits),
      high: `${trimmed(fromSI("mass", high, unit), digits)} ${unit}`,
    });
  }

  usualLength(wood) {
    const kg = wood.last?.kg ?? wood.expect?.value;
    return kg === undefined ? 3 : sayMass(kg, this.system).split(" ")[0].length;
  }

  pad(input) {
    const press = (key) => {
      input.value = key === "erase" ? input.value.slice(0, -1) : input.value + key;
      input.dispatchEvent(new Event("input", { bubbles: true }));
    };
    const keys = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0"];
    return h(
      "div",
      { class: "pad", role: "group", "aria-label": text.keys },
      keys.map((k) => h("button", { type: "button", onclick: () => press(k) }, k)),
      h("button", { type: "button", "aria-label": text.erase, onclick: () => press("erase") }, "⌫"),
    );
  }

  // What a weight tells as it stands: as expected, or what is odd and what may have been meant.
  told(wood, input, asked) {
    if (input.value.trim() === "") return [];
    const read = weighed(wood, input.value, this.system);
    if (read.wrong) return asked ? [h("span", { class: "err" }, read.wrong)] : [];
    if (read.odd) {
      if (!asked) return [];
      this.asked = input.value;
      return [this.oddBox(read.odd, input)];
    }
    const by = wood.last ? read.kg - wood.last.kg : undefined;
    const compared =
      by === undefined
        ? ""
        : Math.abs(by) < 1e-9
          ? text.same
          : fill(by < 0 ? text.less : text.more, { by: sayMass(Math.abs(by), this.system) });
    return wood.expect || wood.plausible
      ? [h("span", { class: "mk ok" }, mark.ready(), text.fits), " ", compared]
      : [compared];
  }

  oddBox(odd, input) {
    const way = odd.below ? text.below : text.above;
    return h(
      "div",
      { class: "odd" },
      mark.look(),
      " ",
      fill(text.odd, {
        off: sayMass(Number(odd.off.toPrecision(2)), this.system),
        way,
        range: this.rangeText(odd),
      }),
      odd.slips.length > 0
        ? h(
            "span",
            { class: "slips" },
            ` ${text.meant} `,
            odd.slips.slice(0, 2).map((slip) =>
              h(
                "button",
                {
                  type: "button",
                  class: "btn line",
                  onclick: () => {
                    input.value = slip;
                    input.dispatchEvent(new Event("input", { bubbles: true }));
                    input.focus();
                  },
                },
                `${slip}?`,
              ),
            ),
          )
        : "",
      ` ${text.asIs}`,
    );
  }

  // A weight that does not fit is asked about once; pressed again it is kept all the same.
  keep(wood, input, look, said) {
    clearTimeout(this.asking);
    const read = weighed(wood, input.value, this.system);
    if (read.wrong) {
      said.replaceChildren(h("span", { class: "err" }, input.value.trim() === "" ? text.enter : read.wrong));
      input.focus();
      return;
    }
    if (read.odd && this.asked !== input.value) {
      look(true);
      return;
    }
    this.add(wood, read);
    this.go(this.following());
    this.flush();
  }

  add(wood, read, date = this.date) {
    const key = keyOf(wood),
      old = this.queue.of(key, date);
    if (old) this.queue.undo(old); // weighed once more: the later one counts
    const odd = read.odd && { below: read.odd.below, off: read.odd.off };
    this.queue.add({ key, date, mass: read.text, kg: read.kg, odd });
    this.order.keys = [...this.order.keys.filter((k) => k !== key), key];
    try {
      localStorage.setItem(orderPlace, JSON.stringify({ date: this.date, ...this.order }));
    } catch {
      /* the order is a help, no more */
    }
  }

  go(key) {
    this.typed = "";
    this.asked = undefined;
    this.now = key;
    this.pasting = false;
    this.render();
  }

  listNodes() {
    return this.round().map((w) => {
      const key = keyOf(w),
        line = this.queue.of(key, this.date),
        now = key === this.now && !this.pasting;
      return h(
        "li",
        { "aria-current": now ? "step" : undefined },
        line ? h("span", { class: "id" }, w.id) : this.jumpTo(w, key),
        line
          ? this.lineSaid(line)
          : h("span", {}, now ? h("b", {}, text.now) : h("span", { class: "small" }, this.stateOf(w))),
        line && line.state !== "conflict" ? this.undo(w, line) : h("span", {}),
      );
    });
  }

  jumpTo(w, key) {
    return h("button", { type: "button", class: "plain id", onclick: () => this.go(key) }, w.id);
  }

  stateOf(w) {
    return this.byOthers(w) ? fill(text.already, { mass: sayMass(w.last.kg, this.system) }) : this.where(w);
  }

  where(w) {
    return [this.rack.places.find((p) => p.id === w.place)?.name || w.place, w.spot].filter(Boolean).join(", ");
  }

  lineSaid(line) {
    const says = { waiting: text.waiting, refused: fill(text.refused, { why: toldIn(line.why || "", this.system) }) };
    const off =
      line.odd && fill(line.odd.below ? text.tooLittle : text.tooMuch, { by: sayMass(line.odd.off, this.system) });
    return h(
      "span",
      {},
      sayMass(line.kg, this.system),
      " ",
      line.odd
        ? h("span", { class: "mk look" }, mark.look(), off)
        : h("span", { class: "mk ok" }, mark.ready(), text.ok),
      says[line.state] ? h("small", { class: "block" }, says[line.state]) : "",
    );
  }

  undo(w, line) {
    return h(
      "button",
      {
        type: "button",
        class: "plain",
        onclick: () => {
          this.queue.undo(line);
          this.undone.add(keyOf(w));
          this.skipped.delete(keyOf(w));
          this.go(keyOf(w));
          this.flush();
        },
      },
      line.state === "refused" ? text.drop : text.undo,
      h("span", { class: "hid" }, ` ${w.id}`),
    );
  }

  // Two phones, two weights: both are shown, and one says which counts.
  conflictNodes() {
    return this.queue.lines
      .filter((l) => l.state === "conflict")
      .map((line) => {
        const settle = (how, said) =>
          h(
            "button",
            {
              type: "button",
              class: "btn line",
              onclick: () => {
                this.queue.settle(line, how);
                this.flush();
              },
            },
            said,
          );
        return h(
          "div",
          { class: "odd" },
          h(
            "p",
            {},
            mark.look(),
            " ",
            h("b", {}, fill(text.conflict, { id: line.key.split("/")[1], date: sayDay(line.date) })),
          ),
          h(
            "p",
            {},
            `${text.mine}: `,
            h("b", {}, sayMass(line.kg, this.system)),
            h("br"),
            `${text.theirs}: `,
            h("b", {}, sayMass(line.theirs.kg, this.system)),
          ),
          h("div", { class: "btns" }, settle("instead", text.useMine), settle("theirs", text.useTheirs)),
        );
      });
  }

  through() {
    const nothing = this.round().length === 0;
    return h(
      "section",
      { class: "sheet" },
      h(
        "h2",
        {},
        nothing ? text.nothing : this.skipped.size > 0 ? fill(text.doneSome, { count: this.skipped.size }) : text.done,
      ),
      h(
        "div",
        { class: "btns" },
        h("a", { class: "btn", href: "#/rack" }, text.seeReady),
        this.skipped.size > 0
          ? h(
              "button",
              {
                type: "button",
                class: "btn line",
                onclick: () => {
                  this.skipped.clear();
                  this.go(this.following());
                },
              },
              text.again,
            )
          : "",
      ),
    );
  }

  // The whole list at once, at a desk.
  pasteForm() {
    const area = h("textarea", {
      id: "list",
      rows: 10,
      autocomplete: "off",
      spellcheck: "false",
      "aria-describedby": "list-r",
    });
    const said = h("div", { class: "read", id: "list-r", role: "status" });
    const read = () => readRound(area.value, this.rack.wood, this.system, this.date);
    area.addEventListener("input", () => {
      const { rows } = read();
      said.textContent = rows.length > 0 ? fill(text.pasteRead, { count: rows.length }) : "";
    });
    const form = h(
      "form",
      { class: "wcard", novalidate: true },
      h(
        "div",
        { class: "f" },
        h("label", { for: "list" }, text.pasteLabel),
        h("span", { class: "help" }, text.pasteHelp),
        h("div", { class: "box" }, area),
        said,
      ),
      h("button", { class: "btn" }, text.keepAll),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const { rows, wrongs } = read();
      if (wrongs.length > 0 || rows.length === 0) {
        const lines = wrongs.map((w) => h("p", { class: "err" }, fill(words.errors.line, w)));
        said.replaceChildren(...(lines.length > 0 ? lines : [h("p", { class: "err" }, words.sheet.empty)]));
        area.focus();
        return;
      }
      for (const row of rows) this.add(row.wood, row, row.date);
      this.go(this.following());
      this.flush();
    });
    return form;
  }

  async scan() {
    const { Scanner } = await import("./scan.js");
    this.scanner?.stop();
    this.scanner = new Scanner(this.scanBox, (id) => {
      const [found] = named(this.rack.wood, id);
      if (!found) return fill(text.noWood, { id });
      this.go(keyOf(found));
      return undefined;
    });
    this.scanner.start();
  }
}
