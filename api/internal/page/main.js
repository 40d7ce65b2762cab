// The page: which place is shown, the header, settings, and what starts it all.
import { allQuestions, groups, questions as own, rackQuestion } from "./questions.js";
import { Contract } from "./contract.js";
import { h } from "./dom.js";
import { entries, forget, setShop, shop } from "./kept.js";
import { readLink } from "./link.js";
import { groupPicture, mark } from "./pictures.js";
import { QuestionView } from "./view.js";
import { sayDay } from "./reading.js";
import { setToken } from "./send.js";
import { words, fill } from "./words.js";

const main = document.getElementById("main");
const keepsRack = "rack" in document.body.dataset;
let contract,
  questions = own, // until the contract tells of more
  view;

/** system of units: that of the link, else of the shop, else of the language of the browser. */
const systemNow = () => shop().units || (/^en-(US|LR)$/.test(navigator.language) ? "inch" : "metric");

function place(name) {
  for (const a of document.querySelectorAll("[data-place]")) {
    if (a.dataset.place === name) a.setAttribute("aria-current", "page");
    else a.removeAttribute("aria-current");
  }
}

function titled(title) {
  document.title = `${title} – ${words.name}`;
}

function showHome() {
  place("ask");
  titled(words.home);
  const recent = entries().slice(0, 4);
  main.replaceChildren(
    ...[
      h("h1", { tabindex: "-1" }, words.home),
      h("p", { class: "help" }, words.homeHelp),
      keepsRack ? rackToday() : "",
      recent.length > 0
        ? h(
            "section",
            { class: "sheet" },
            h("h2", {}, words.kept.recent),
            keptTable(recent),
            h("p", { class: "help" }, words.kept.help),
          )
        : "",
      h(
        "div",
        { class: "sheet" },
        groups.map((group) => {
          const inGroup = questions.filter((q) => q.group === group);
          if (inGroup.length === 0) return "";
          return h(
            "section",
            { class: "grp" },
            groupPicture[group](),
            h(
              "div",
              {},
              h("h2", {}, words.groups[group]),
              h(
                "ul",
                { class: "qs" },
                inGroup.map((q) => {
                  const told = words.questions[q.id] || { title: contract.questions[q.route].summary, hand: "" };
                  return h(
                    "li",
                    {},
                    h(
                      "a",
                      { href: `#/${q.id}` },
                      h("span", {}, told.title),
                      told.hand ? h("small", {}, fill(words.hand, { hand: told.hand })) : "",
                    ),
                  );
                }),
              ),
            ),
          );
        }),
      ),
    ].filter(Boolean),
  );
}

// What is to do at the rack today, as soon as it is known.
function rackToday() {
  const node = h("section", { class: "sheet", hidden: true });
  import("./rack.js").then(({ today }) => today(node));
  return node;
}

function keptTable(list, removable) {
  return h(
    "table",
    { class: "cards" },
    h(
      "tbody",
      {},
      list.map((e) =>
        h(
          "tr",
          {},
          h(
            "th",
            { scope: "row" },
            h(
              "a",
              { href: e.answer ? `#/kept/${e.id}` : e.link },
              words.questions[e.question.split("/").at(-1)]?.short || e.question,
              e.what ? `, ${e.what}` : "",
            ),
          ),
          h("td", {}, e.sentence),
          h("td", { class: "small" }, sayDay(e.when)),
          removable
            ? h(
                "td",
                {},
                h(
                  "button",
                  {
                    type: "button",
                    class: "plain",
                    onclick: () => {
                      forget(e.id);
                      showKept();
                    },
                  },
                  words.kept.remove,
                  h("span", { class: "hid" }, ` ${e.sentence}`),
                ),
              )
            : "",
        ),
      ),
    ),
  );
}

function showKept() {
  place("kept");
  titled(words.kept.title);
  const all = entries();
  main.replaceChildren(
    h("h1", { tabindex: "-1" }, words.kept.title),
    h("p", { class: "help" }, words.kept.help),
    all.length === 0
      ? h("p", {}, words.kept.none)
      : h(
          "div",
          { class: "sheet" },
          keptTable(all, true),
          h(
            "div",
            { class: "btns" },
            h(
              "button",
              {
                type: "button",
                class: "btn line",
                onclick: () => {
                  forget();
                  showKept();
                },
              },
              words.kept.clear,
            ),
          ),
        ),
  );
}

function showShop() {
  place("shop");
  titled(words.shop.title);
  const now = shop(systemNow()),
    t = words.shop;
  const field = (id, label, value) =>
    h(
      "div",
      { class: "f w16" },
      h("label", { for: id }, label),
      h("div", { class: "box" }, h("input", { id, value, autocomplete: "off" })),
    );
  const choice = (id, label, all, value) => {
    const select = h(
      "select",
      { id },
      all.map(([v, said]) => h("option", { value: v }, said)),
    );
    select.value = value;
    return h("div", { class: "f w16" }, h("label", { for: id }, label), h("div", { class: "box" }, select));
  };
  const said = h("p", { role: "status", class: "help" });
  const form = h(
    "form",
    { class: "sheet", novalidate: true },
    choice(
      "units",
      t.units,
      [
        ["metric", words.system.metric],
        ["inch", words.system.inch],
      ],
      systemNow(),
    ),
    h("h2", {}, t.room),
    field("temperature", t.temperature, now.temperature),
    field("rh", t.rh, now.rh),
    choice(
      "look",
      t.look,
      [
        ["auto", t.auto],
        ["light", t.light],
        ["dark", t.dark],
      ],
      now.look,
    ),
    h("div", { class: "btns" }, h("button", { class: "btn" }, t.save)),
    said,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const [units, temperature, rh, look] = ["units", "temperature", "rh", "look"].map(
      (id) => form.querySelector("#" + id).value,
    );
    setShop({ units, temperature, rh, look });
    said.textContent = t.saved;
    frame();
  });
  main.replaceChildren(h("h1", { tabindex: "-1" }, t.title), h("p", { class: "help" }, t.help), form);
}

// What the frame of the page says, and how it looks.
function frame() {
  document.documentElement.lang = words.language;
  const look = shop().look;
  if (look === "auto") delete document.documentElement.dataset.look;
  else document.documentElement.dataset.look = look;
  const system = view?.system || systemNow();
  document
    .getElementById("units")
    .replaceChildren(h("span", { class: "hid" }, words.system.label + ": "), words.system[system]);
}

function switchUnits() {
  const to = (view?.system || systemNow()) === "metric" ? "inch" : "metric";
  setShop({ units: to });
  view?.inSystem(to);
  frame();
}

const questionAt = (at) => questions.find((q) => q.id === at) || rackQuestion(contract, at);

// The places of the rack are loaded when one goes there.
async function showRack(name, at) {
  place(name);
  const shown = (view = { leave() {}, ask() {}, inSystem() {}, showsLink: () => false });
  const { RackView } = await import("./rack.js");
  const { WeighView } = await import("./weigh.js");
  if (view !== shown) return; // one went on meanwhile
  const make = name === "rack" ? RackView : WeighView;
  view = new make({ main, at, contract, system: systemNow(), titled });
  view.show();
}

function route(focus) {
  const { place: at, system, draft } = readLink(location.hash);
  if (view && view.showsLink(location.hash)) return;
  view?.leave();
  view = undefined;
  document.body.classList.remove("weighing");
  const [name, id] = at.split("/"),
    question = questionAt(at);
  const kept = name === "kept" && id && entries().find((e) => e.id === id);
  if (kept?.answer || question) {
    place("ask");
    const shown = kept ? readLink(kept.link) : { system, draft };
    const asked = kept ? questionAt(kept.question) : question;
    view = new QuestionView({
      contract,
      question: asked,
      main,
      system: shown.system || systemNow(),
      told: shown.draft,
      titled,
      kept,
    });
    view.show();
  } else if (at === "") showHome();
  else if (name === "kept") showKept();
  else if (name === "shop") showShop();
  else if ((name === "rack" || name === "weigh") && keepsRack) showRack(name, at);
  else {
    titled(words.notFound);
    main.replaceChildren(h("h1", { tabindex: "-1" }, words.notFound), h("p", {}, h("a", { href: "#/" }, words.home)));
  }
  frame();
  if (focus) {
    scrollTo(0, 0);
    main.querySelector("h1")?.focus({ preventScroll: true });
  }
}

// The field for a token, when the service asks for one.
function access() {
  const node = document.getElementById("access"),
    t = words.errors;
  const input = h("input", {
    id: "token",
    autocomplete: "off",
    autocapitalize: "none",
    spellcheck: "false",
    "aria-describedby": "access-why access-kept",
  });
  const why = h("p", { id: "access-why", role: "status" });
  node.append(
    h("h2", { id: "q-access" }, t.token),
    h(
      "form",
      { novalidate: true },
      why,
      h("div", { class: "f" }, h("label", { for: "token" }, t.tokenLabel), h("div", { class: "box" }, input)),
      h("p", { id: "access-kept", class: "help" }, t.tokenHelp),
      h("button", { class: "btn" }, t.tokenUse),
    ),
  );
  const say = (said, wrong) => {
    why.textContent = said;
    if (wrong) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
    node.hidden = false;
  };
  document.addEventListener("token-wanted", ({ detail }) => {
    say(detail.wrong ? fill(t.tokenWrong, { why: detail.why }) : t.tokenWhy, detail.wrong);
    document.getElementById("methods").href = "/docs/#/tables/listMethods"; // a link can carry no token; the documents can
    input.focus();
  });
  node.querySelector("form").addEventListener("submit", (event) => {
    event.preventDefault();
    const given = input.value.trim();
    if (!/^[!-~]+$/.test(given)) {
      say(t.tokenWord, true);
      input.focus();
      return;
    }
    setToken(given);
    input.value = "";
    node.hidden = true;
    if (view) view.ask();
    else if (location.hash === "" || location.hash === "#/") route(false);
    else main.querySelector("h1")?.focus();
  });
}

function dress() {
  const bar = document.getElementById("bar");
  for (const [name, href, said] of [
    ["ask", "#/", words.nav.ask],
    ...(keepsRack
      ? [
          ["rack", "#/rack", words.nav.rack],
          ["weigh", "#/weigh", words.nav.weigh],
        ]
      : []),
    ["kept", "#/kept", words.nav.kept],
  ]) {
    bar.append(h("a", { href, "data-place": name }, mark[name](), said));
  }
  document.querySelector(".set").append(h("a", { href: "#/shop", "data-place": "shop" }, words.nav.shop));
  bar.setAttribute("aria-label", words.nav.label);
  for (const [id, said] of [
    ["skip", words.nav.skip],
    ["care", words.care],
    ["programs", words.programs],
    ["guides", words.guides],
    ["methods", words.sources],
  ]) {
    document.getElementById(id).textContent = said;
  }
  document.getElementById("skip").addEventListener("click", (event) => {
    event.preventDefault(); // the address holds the question
    main.focus();
  });
  document.getElementById("name").prepend(mark.logo());
  document.getElementById("units").addEventListener("click", switchUnits);
  const away = document.getElementById("away");
  const online = () => {
    away.hidden = navigator.onLine;
    away.textContent = navigator.onLine ? "" : words.offline;
  };
  addEventListener("online", online);
  addEventListener("offline", online);
  online();
}

// The address of a label that was read: /b/ID of a billet, /p/ID of a piece.
const labelRead = () => keepsRack && /^\/([bp])\/([^/]+)$/i.exec(location.pathname);

async function start() {
  dress();
  access();
  const forms = fetch("/page/forms.json").then((reply) => reply.json());
  const isHome = () => readLink(location.hash).place === "";
  if (isHome() && !labelRead()) {
    showHome(); // it needs no form
    frame();
  }
  contract = new Contract(await forms);
  questions = allQuestions(contract);
  const label = labelRead();
  if (label) history.replaceState(null, "", `/#/rack/${label[1].toLowerCase()}/${label[2]}`);
  addEventListener("hashchange", () => route(true));
  if (!isHome() || questions.length > own.length || !main.querySelector(".qs")) route(false);
  document.body.dataset.started = "yes";
  if ("serviceWorker" in navigator && isSecureContext) navigator.serviceWorker.register("/worker.js").catch(() => {});
}

start();
