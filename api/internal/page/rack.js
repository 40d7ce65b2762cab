// The rack: how many are ready, what to look at, what waits and until when; and where one goes
// from a label. One billet stands in billet.js, a weighing day in weigh.js.
import { rail } from "./answer.js";
import { BilletPage } from "./billet.js";
import { h, today as day } from "./dom.js";
import { toldIn } from "./figures.js";
import { mark } from "./pictures.js";
import { load, seen } from "./rackask.js";
import { sizesText, standingOf } from "./rackread.js";
import { sayDay, trimmed } from "./reading.js";
import { keyOf, named } from "./round.js";
import { tokenWanted } from "./send.js";
import { SheetForm } from "./sheet.js";
import { capital, fill, words } from "./words.js";

const text = words.rack;
const shortly = 8; // rows of a list that stand open

const steps = ["resaw", "thickness", "glue"];
const lower = (iso) => (iso ? sayDay(iso) : "");

/** woodName is what a piece of wood is called for people. */
export const woodName = (w) =>
  [w.name, w.species && capital(w.species.replaceAll("-", " "))].filter(Boolean).join(", ") || w.kind;

/** linkTo leads to a billet or a piece. */
const linkTo = (w) => `#/rack/${keyOf(w)}`;

/** dueOf are those whose next reading is a weight by today. */
const dueOf = (rack) => rack.overview.next_readings.filter((n) => n.reading_kind === "weight" && n.date <= day());

/** today fills the box of the home page. */
export async function today(node) {
  let rack = seen();
  if (!rack || !tokenWanted()) rack = await load().catch(() => rack);
  if (!rack) return;
  const { looks, ready } = standingOf(rack);
  const item = (draw, kind, said) => h("li", {}, h("span", { class: `mk ${kind}` }, draw(), said));
  node.replaceChildren(
    h("h2", {}, text.today),
    h(
      "ul",
      { class: "bare" },
      item(mark.ready, "ok", fill(text.readyCount, { count: ready.length })),
      item(mark.weigh, "", fill(text.weighCount, { count: dueOf(rack).length })),
      item(mark.look, looks.length > 0 ? "look" : "", fill(text.lookCount, { count: looks.length })),
    ),
    h(
      "div",
      { class: "btns" },
      h("a", { class: "btn", href: "#/weigh" }, text.start),
      h("a", { class: "btn line", href: "#/rack" }, text.open),
    ),
  );
  node.hidden = false;
}

export class RackView {
  constructor({ main, at, contract, system, titled }) {
    Object.assign(this, { main, at, contract, system, titled });
    this.filter = { find: "", place: "", step: "" };
    this.gone = false;
  }

  leave() {
    this.gone = true;
    clearTimeout(this.timer);
    this.page?.leave();
  }

  showsLink() {
    return false;
  }

  inSystem(system) {
    this.system = system;
    this.show();
  }

  /** ask begins again: a token was given. */
  ask() {
    this.show();
  }

  async show() {
    const [, ...rest] = this.at.split("/");
    this.titled(text.title);
    this.main.replaceChildren(h("h1", { tabindex: "-1" }, text.title), h("p", { role: "status" }, words.form.working));
    this.main.querySelector("h1").focus({ preventScroll: true });
    if (rest[0] === "add") {
      this.main.replaceChildren(new SheetForm(this.system).node);
      this.titled(words.sheet.title);
      return;
    }
    const before = seen();
    try {
      this.rack = await load();
      this.stored = false;
    } catch (failure) {
      this.rack = before;
      this.stored = true;
      this.failure = failure.status && failure.status !== 401 ? toldIn(failure.message, this.system) : "";
    }
    if (this.gone) return;
    if (!this.rack) {
      const why = this.failure ? fill(text.failed, { why: this.failure }) : text.never;
      this.main.replaceChildren(h("h1", { tabindex: "-1" }, text.title), h("p", { role: "status" }, why));
      return;
    }
    if (rest.length > 1) this.showOne(rest[0], rest.slice(1).join("/"));
    else this.showList();
  }

  // One piece of wood: by its key, or as a label names it.
  showOne(kind, id) {
    const { wood } = this.rack;
    const labelled = { b: "billet", p: "piece" }[kind];
    const all = labelled ? wood.filter((w) => w.kind === labelled) : wood;
    const found = labelled ? named(all, id) : wood.filter((w) => keyOf(w) === `${kind}/${id}`);
    if (found.length > 1) {
      this.main.replaceChildren(
        h("h1", { tabindex: "-1" }, text.which),
        h(
          "ul",
          { class: "bl" },
          found.map((w) => this.row(w, "", "")),
        ),
      );
      return;
    }
    if (found.length === 0) {
      this.main.replaceChildren(
        h("h1", { tabindex: "-1" }, text.title),
        h("p", {}, fill(text.notThere, { id }), " ", h("a", { href: "#/rack" }, text.open)),
      );
      return;
    }
    if (labelled) history.replaceState(null, "", linkTo(found[0]));
    this.page = new BilletPage(this, found[0]);
    this.page.show();
  }

  showList() {
    this.page = undefined;
    const { overview, at, wood } = this.rack;
    const { progress } = overview;
    const status = [
      this.stored ? fill(text.stored, { when: new Date(at).toLocaleString(words.language) }) : "",
      stillOf(progress),
    ].filter(Boolean);
    this.lists = h("div", {});
    this.main.replaceChildren(
      h("h1", { tabindex: "-1" }, text.title),
      h("p", { class: "help" }, fill(text.about, { count: wood.length, date: sayDay(progress.as_of) })),
      ...status.map((s) => h("p", { class: "before", role: "status" }, s)),
      ...(wood.length === 0 ? [h("p", {}, text.empty)] : [this.tiles(), this.filters()]),
      this.lists,
      h(
        "div",
        { class: "btns" },
        h("a", { class: "btn line", href: "#/rack/add" }, text.add),
        paper(text.labels, "/v1/rack/labels?as=html", "labels.html"),
        paper(text.calendar, "/v1/rack/calendar.ics", "rack.ics"),
      ),
    );
    this.fillLists();
    if (progress.current < progress.total && !this.stored) this.later();
  }

  // Answers that are still worked out are looked for again, as long as one stays.
  later() {
    this.timer = setTimeout(async () => {
      const rack = await load(10).catch(() => undefined);
      if (!rack || this.gone || this.page) return;
      this.rack = rack;
      const focus = document.activeElement?.id;
      this.showList();
      if (focus) document.getElementById(focus)?.focus();
    }, 2000);
  }

  tiles() {
    const { looks, ready, waiting } = standingOf(this.rack);
    const due = dueOf(this.rack),
      weights = this.rack.overview.next_readings.filter((n) => n.reading_kind === "weight");
    const tile = (to, draw, kind, name, count, below) =>
      h(
        "li",
        {},
        h(
          "a",
          { href: to, onclick: to.startsWith("#l-") ? (e) => jump(e, to) : undefined },
          h("span", { class: `mk ${kind}` }, draw(), name),
          h("b", {}, count),
          h("small", {}, below),
        ),
      );
    const counts = steps
      .map((s) => [s, ready.filter((r) => r.step === s).length])
      .filter(([, n]) => n > 0)
      .reverse();
    return h(
      "ul",
      { class: "tiles" },
      tile("#l-ready", mark.ready, "ok", text.ready, ready.length, counts.map(([s, n]) => `${n} ${s}`).join(", ")),
      tile(
        "#/weigh",
        mark.weigh,
        "",
        text.weigh,
        due.length,
        due.length > 0 ? text.due : weights[0] ? fill(text.dueMore, { date: sayDay(weights[0].date) }) : text.dueNone,
      ),
      tile(
        "#l-look",
        mark.look,
        looks.length > 0 ? "look" : "",
        text.look,
        looks.length,
        looks.length > 0 ? text.lookSome : text.lookNone,
      ),
      tile(
        "#l-waiting",
        mark.not_ready,
        "",
        text.waiting,
        waiting.length,
        waiting[0] ? fill(text.nextOne, { id: waiting[0].id, date: sayDay(waiting[0].on.value) }) : text.nextNone,
      ),
    );
  }

  filters() {
    const choose = (id, label, all, name) => {
      const select = h(
        "select",
        { id },
        all.map(([value, said]) => h("option", { value }, said)),
      );
      select.value = this.filter[name];
      select.addEventListener("change", () => {
        this.filter[name] = select.value;
        this.fillLists();
      });
      return h("div", { class: "box" }, h("label", { class: "hid", for: id }, label), select);
    };
    const find = h("input", { id: "find", placeholder: text.find, autocomplete: "off", autocapitalize: "none" });
    find.value = this.filter.find;
    find.addEventListener("input", () => {
      this.filter.find = find.value;
      this.fillLists();
    });
    const places = this.rack.places.map((p) => [p.id, p.name]);
    return h(
      "div",
      { class: "filt" },
      h("div", { class: "box" }, h("label", { class: "hid", for: "find" }, text.find), find),
      choose("place", text.place, [["", text.allPlaces], ...places], "place"),
      choose("step", text.step, [["", text.anyStep], ...steps.map((s) => [s, s])], "step"),
    );
  }

  wanted(w) {
    const { find, place, step } = this.filter;
    const said = `${w.id} ${w.name || ""} ${w.species || ""} ${w.place || ""}`.toLowerCase().replaceAll("-", " ");
    const asked = find.trim().toLowerCase().replaceAll("-", " ");
    return said.includes(asked) && (!place || w.place === place) && (!step || !w.step || w.step === step);
  }

  fillLists() {
    const { looks, ready, unsure, waiting, unknown } = standingOf(this.rack);
    const from = this.rack.overview.progress.as_of;
    const kept = waiting.filter((w) => this.wanted(w));
    const last = kept
      .flatMap((w) => [w.on.high, w.on.value])
      .filter(Boolean)
      .sort()
      .at(-1);
    const sections = [
      this.list("look", text.listLook, looks, (w) =>
        this.row(
          w,
          mk("look", mark.look, text.look.toLowerCase()),
          toldIn(w.doubts[0].likely_slip || w.doubts[0].detail, this.system),
        ),
      ),
      this.list("ready", text.listReady, ready, (w) =>
        this.row(w, mk("ok", mark.ready, w.step, fill(text.readyFor, { step: "" })), this.moisture(w)),
      ),
      this.list("unsure", text.listUnsure, unsure, (w) =>
        this.row(w, mk("", mark.cannot_say, w.step, fill(text.unsureFor, { step: "" })), unsettled(w, from)),
      ),
      this.list("waiting", text.listWaiting, waiting, (w) =>
        this.row(
          w,
          mk("", mark.not_ready, w.step, fill(text.notFor, { step: "" })),
          fill(w.on.high ? text.aboutBy : text.aboutLater, { date: sayDay(w.on.value), high: lower(w.on.high) }),
          rail(w.on, from, last),
        ),
      ),
      kept.length > 0 ? h("p", { class: "help" }, fill(text.bars, { date: sayDay(last) })) : "",
      this.list("unknown", text.listUnknown, unknown, (w) =>
        this.row(
          w,
          mk("", mark.cannot_say, words.answer.cannot_say),
          w.current ? toldIn(w.why || text.noWhy, this.system) : words.form.working,
        ),
      ),
    ];
    const shown = sections.filter(Boolean);
    this.lists.replaceChildren(...(shown.length > 0 ? shown : [h("p", { role: "status" }, text.nothing)]));
  }

  moisture(w) {
    return w.mc && w.target_mc
      ? fill(text.mc, { mc: trimmed(w.mc.value, 1), target: trimmed(w.target_mc.value, 1) })
      : "";
  }

  list(name, title, all, row) {
    const kept = all.filter((w) => this.wanted(w));
    if (kept.length === 0) return "";
    const open = this.opened === name ? kept : kept.slice(0, shortly);
    const rows = open.map(row);
    if (open.length < kept.length)
      rows.push(
        h(
          "li",
          {},
          h(
            "button",
            {
              type: "button",
              class: "plain",
              onclick: () => {
                this.opened = name;
                this.fillLists();
                this.lists.querySelectorAll(`#l-${name} a`)[shortly]?.focus();
              },
            },
            fill(text.more, { count: kept.length - open.length }),
          ),
        ),
      );
    return h("section", { id: `l-${name}` }, h("h2", {}, title), h("ul", { class: "bl" }, rows));
  }

  row(w, state, said, bar) {
    const place = this.rack.places.find((p) => p.id === w.place)?.name || w.place || "";
    return h(
      "li",
      {},
      h(
        "a",
        { class: "r", href: linkTo(w) },
        h("span", { class: "id" }, w.id),
        h("span", {}, woodName(w), " ", h("span", { class: "small" }, together(sizesText(w.sizes, this.system)))),
        h("span", { class: "pl" }, state),
        h("span", { class: "rl" }, bar || "", h("span", { class: "small" }, said)),
        h("span", { class: "small wide" }, place),
      ),
    );
  }
}

// A size is not torn apart at the end of a line: 2 9/16 in.
const together = (sizes) => sizes.replace(/(\d) (?=\d|[a-z])/g, "$1\u00a0");

const stillOf = ({ total, current }) =>
  current >= total ? "" : total - current === 1 ? text.stillOne : fill(text.still, { count: total - current });

// What is known of a step that cannot be said, and what would settle it.
function unsettled({ share, reading, on }, asOf) {
  const pct = Math.round(100 * share);
  const said = fill(share > 0.5 ? words.answer.shareProbably : words.answer.share, { pct });
  const settles = text.settles[reading?.reading_kind];
  return [
    said,
    on?.value > asOf && fill(words.answer.about, { date: sayDay(on.value) }),
    settles && fill(settles, { date: sayDay(reading.date) }),
  ]
    .filter(Boolean)
    .join("; ");
}

const mk = (kind, draw, said, hidden) =>
  h("span", { class: `mk ${kind}` }, draw(), hidden ? h("span", { class: "hid" }, hidden) : "", said);

// The lists are on this page: an address of its own would lose the place.
function jump(event, to) {
  event.preventDefault();
  const section = document.querySelector(to);
  section?.scrollIntoView({ block: "start" });
  section?.querySelector("a")?.focus({ preventScroll: true });
}

// A paper of the service. A link can carry no token: then it is fetched, and saved.
function paper(label, path, name) {
  const link = h("a", { class: "btn line", href: path, target: "_blank" }, label);
  link.addEventListener("click", async (event) => {
    if (!tokenWanted()) return;
    event.preventDefault();
    const { fetchFile } = await import("./files.js");
    await fetchFile(path, name);
  });
  return link;
}
