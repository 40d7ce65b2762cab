// One question: its form, asking, what is wrong, its answer, and what can be done with that.
import { answerNode, sentenceOf } from "./answer.js";
import { placed, requestOf } from "./ask.js";
import { h, idOf, today } from "./dom.js";
import { describeAt, draftOf, tidy, withUnits } from "./draft.js";
import { drawingOf, drawnFor } from "./drawing.js";
import { fetchFile, save } from "./files.js";
import { Form } from "./form.js";
import { keep, shop } from "./kept.js";
import { linkOf } from "./link.js";
import { schemaOf } from "./questions.js";
import { sayDay } from "./reading.js";
import { post, programLine, send } from "./send.js";
import { words, fill } from "./words.js";

const text = words.form;
const besides = "(min-width: 62.01rem)"; // as in the sheet of style
const patience = 500; // ms before it is said that something is being worked out

export class QuestionView {
  constructor({ contract, question, main, system, told, titled, kept }) {
    Object.assign(this, { contract, question, main, system, titled, kept });
    question.schema ??= schemaOf(contract, question);
    this.schema = question.schema;
    this.kind = question.like || question.id; // what its answer is shown as
    this.at = question.at || question.route;
    this.title = words.questions[this.kind]?.title || contract.questions[question.route].summary;
    const began = Object.keys(told).length > 0,
      usual = question.start?.(shop(system), system) || {};
    this.draft = began ? { ...choicesOf(usual), ...told } : { ...usual };
    this.unknown = Object.keys(told).filter(
      (k) => !describeAt(contract, this.schema, k.replace(/[~#]$/, ""), this.draft),
    );
    for (const k of this.unknown) delete this.draft[k];
    this.open = began ? "all" : 0;
  }

  show() {
    this.titled(this.title);
    this.summary = h("div", {
      class: "sum",
      tabindex: "-1",
      hidden: true,
      role: "group",
      "aria-labelledby": "sum-title",
    });
    this.form = new Form({
      contract: this.contract,
      question: this.question,
      schema: this.schema,
      draft: this.draft,
      system: this.system,
      day: today(),
      send,
      errors: [],
      open: this.open,
      changed: () => this.changed(),
      next: (i) => this.next(i),
    });
    this.button = h("button", { class: "btn", id: "ask" }, text.ask);
    this.out = h("div", { class: "out" });
    this.working = h("div", { class: "working", role: "status" });
    const form = h(
      "form",
      { novalidate: true, "data-route": this.question.route },
      this.form.render(),
      h(
        "div",
        { class: "btns" },
        this.button,
        this.allButton(),
        this.exampleButton(),
        h("a", { class: "quiet", href: `#/${this.question.id}`, onclick: (e) => this.clear(e) }, text.clear),
      ),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.ask();
    });
    const lost =
      this.unknown.length > 0 ? h("p", { class: "odd" }, fill(text.unknown, { names: this.unknown.join(", ") })) : "";
    this.asked = h("details", { class: "asked", open: true }, h("summary", {}, words.answer.told), form);
    this.columns = h("div", { class: "two alone" }, this.asked, h("div", {}, this.working, this.out));
    this.main.replaceChildren(this.crumb(), this.summary, h("h1", { tabindex: "-1" }, this.title), lost, this.columns);
    if (this.kept) this.showAnswer(this.kept.answer, this.kept.drawing, this.kept.request, [], this.kept.when);
  }

  crumb() {
    const { billet, group } = this.question;
    if (!billet) return h("p", { class: "crumb" }, h("a", { href: "#/" }, text.back), ` › ${words.groups[group]}`);
    return h(
      "p",
      { class: "crumb" },
      h("a", { href: "#/rack" }, words.billet.back),
      " › ",
      h("a", { href: `#/rack/billets/${billet}` }, billet),
    );
  }

  allButton() {
    const button = h(
      "button",
      { type: "button", class: "btn line", id: "all" },
      this.form.open === "all" ? text.one : text.all,
    );
    button.addEventListener("click", () => {
      this.form.open = this.form.open === "all" ? 0 : "all";
      button.textContent = this.form.open === "all" ? text.one : text.all;
      this.form.render();
    });
    this.all = button;
    return button;
  }

  exampleButton() {
    const examples = Object.values(this.contract.questions[this.question.route].examples || {});
    if (examples.length === 0 || this.question.own || this.question.billet) return "";
    return h(
      "button",
      { type: "button", class: "btn line", id: "example", onclick: () => this.fillExample(largest(examples)) },
      text.example,
    );
  }

  fillExample({ report_in, ...request }) {
    const known = this.question.example?.(request) || {};
    const draft = {
      ...choicesOf(this.question.start?.(shop(this.system), this.system) || {}),
      ...draftOf(this.contract, this.schema, request),
      ...known,
    };
    for (const k of Object.keys(this.draft)) delete this.draft[k];
    Object.assign(this.draft, withUnits(this.contract, this.schema, draft, this.system));
    this.openAll();
    this.changed();
  }

  clear(event) {
    event.preventDefault();
    history.replaceState(null, "", `#/${this.question.id}`);
    for (const k of Object.keys(this.draft)) delete this.draft[k];
    Object.assign(this.draft, this.question.start?.(shop(this.system), this.system) || {});
    this.open = 0;
    this.kept = undefined;
    this.show();
  }

  link() {
    return linkOf(this.question.id, this.system, tidy(this.contract, this.schema, this.draft, this.system));
  }

  showsLink(hash) {
    return this.written !== undefined && hash === this.written;
  }

  changed() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.writeLink(), 300);
    const before = this.out.querySelector(".before");
    if (before) before.hidden = false;
  }

  writeLink() {
    clearTimeout(this.timer);
    this.written = this.link();
    history.replaceState(null, "", this.written);
  }

  leave() {
    clearTimeout(this.timer);
    this.stopper?.abort();
  }

  inSystem(system) {
    const usual = (of) => this.question.start?.(shop(of), of) || {},
      before = usual(this.system),
      now = usual(system),
      untouched = Object.keys(before).filter((k) => this.draft[k] === before[k]);
    Object.assign(this.draft, withUnits(this.contract, this.schema, this.draft, this.system));
    for (const k of untouched) this.draft[k] = now[k];
    this.system = system;
    this.form.system = system;
    this.form.render();
    this.changed();
    if (this.out.querySelector(".answer")) this.ask();
  }

  read() {
    return requestOf(this.contract, this.question, this.schema, this.draft, this.system, today());
  }

  // Next looks only at its own step, and only now.
  next(i) {
    const step = this.form.steps[i],
      tops = step.items.flatMap((item) => (item.path === "" ? item.only : [item.path]));
    const mine = this.read().errors.filter((e) => tops.some((t) => e.path === t || e.path.startsWith(t + ".")));
    const later = this.form.steps
      .slice(i + 1)
      .flatMap((s) => s.items)
      .map((item) => item.path)
      .filter((p) => p !== "");
    const wrong = mine.filter((e) => !later.some((l) => e.path === l || e.path.startsWith(l + ".")));
    if (wrong.length > 0) {
      this.tell(wrong);
      return;
    }
    this.tell([]);
    this.form.open = i + 1;
    this.form.render();
    this.form.focusStep(i + 1);
  }

  openAll() {
    this.form.open = "all";
    this.all.textContent = text.one;
    this.form.render();
  }

  // What is wrong: the summary takes the keyboard and leads to each field.
  tell(errors, heading) {
    this.form.errors = errors;
    this.titled((errors.length > 0 ? words.errors.prefix : "") + this.title);
    this.summary.hidden = errors.length === 0;
    if (errors.length === 0) {
      this.form.render();
      return;
    }
    this.asked.open = true;
    if (this.form.open !== "all" && !errors.every((e) => this.inStep(this.form.open, e.path))) this.openAll();
    else this.form.render();
    const said = errors.map((e) => {
      const field = this.fieldNear(e.path);
      const label = e.missing
        ? e.text
        : this.named(e.path === "" ? words.errors.general : words.label(e.path), words.calledHere(e.text));
      return h(
        "li",
        {},
        field
          ? h(
              "a",
              {
                href: "#" + field.id,
                onclick: (event) => {
                  event.preventDefault();
                  this.goTo(field, e);
                },
              },
              label,
            )
          : label,
      );
    });
    this.summary.replaceChildren(
      h(
        "h2",
        { id: "sum-title" },
        heading || (errors.length === 1 ? words.errors.one : fill(words.errors.many, { count: errors.length })),
      ),
      h("ul", {}, said),
    );
    this.summary.focus();
    this.summary.scrollIntoView({ block: "start" });
  }

  // What is wrong of a field, with its name once.
  named(label, said) {
    return said.toLowerCase().startsWith(label.toLowerCase() + " ") ? said : `${label}: ${said}`;
  }

  inStep(open, path) {
    const node = this.form.node.children[open];
    return Boolean(node?.querySelector(`[data-path="${CSS.escape(path)}"]`));
  }

  // The field of a path, else that of the nearest object around it.
  fieldNear(path) {
    for (let at = path; at !== ""; at = at.split(".").slice(0, -1).join(".")) {
      const node = this.form.node.querySelector(`[data-path="${CSS.escape(at)}"]`);
      if (!node) continue;
      const control = document.getElementById(idOf(at));
      if (control?.matches("input, select, textarea")) return control;
      return node.querySelector("input, select, textarea") || node;
    }
    return this.form.node.querySelector("input, select, textarea");
  }

  goTo(field, error) {
    for (let d = field.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
    field.focus();
    field.scrollIntoView({ block: "center" });
    if (error.line && field.matches("textarea")) {
      // to its line
      const lines = field.value.split("\n"),
        before = lines.slice(0, error.line - 1).join("\n").length + (error.line > 1 ? 1 : 0);
      field.setSelectionRange(before, before + lines[error.line - 1].length);
    }
  }

  async ask() {
    const { request, errors, moves } = this.read();
    if (errors.length > 0) {
      this.tell(errors);
      return;
    }
    this.tell([]);
    this.stopper?.abort();
    const stopper = (this.stopper = new AbortController());
    const waiting = setTimeout(() => this.wait(stopper), patience);
    this.button.disabled = true;
    try {
      await this.askFor(request, moves, stopper.signal);
    } catch (failure) {
      if (failure.name === "AbortError") {
        if (this.stopper === stopper) this.working.replaceChildren(h("p", {}, text.stopped));
        return;
      }
      this.tell([{ path: "", text: words.errors.unreachable, missing: true }]);
    } finally {
      clearTimeout(waiting);
      if (this.stopper === stopper) {
        this.button.disabled = false;
        if (!stopper.signal.aborted) this.working.replaceChildren();
      }
    }
  }

  wait(stopper) {
    this.working.replaceChildren(
      h("p", {}, text.working),
      h("div", { class: "progress" }, h("i")),
      h("button", { type: "button", class: "btn line", onclick: () => stopper.abort() }, text.stop),
    );
  }

  async askFor(request, moves, signal) {
    const reply = await post(this.at, request, "application/json", signal);
    const answer = await reply.json();
    if (reply.status === 401) return; // the field for the token has the keyboard now
    if (!reply.ok) {
      this.tell(
        placed(answer, moves, this.linesOf()),
        reply.status === 422 || reply.status === 400 ? undefined : answer.title,
      );
      return;
    }
    this.tell([]);
    this.writeLink();
    const { said } = sentenceOf(this.kind, answer.result, request);
    const entry = {
      question: this.question.id,
      link: this.written,
      sentence: said,
      what: this.what(),
      when: today(),
      answer: lighter(answer),
      request,
    };
    keep(entry);
    this.showAnswer(answer, undefined, request, moves);
    if (!this.contract.questions[this.question.route].drawn) return;
    const drawing = await drawnFor(this.at, request, this.room(), signal);
    if (drawing === undefined) return;
    keep({ ...entry, drawing });
    this.addDrawing(drawing, said);
  }

  // The width that a drawing has, between the borders of its frame.
  room() {
    return (this.out.querySelector(".drawn")?.clientWidth ?? this.out.clientWidth) - 2;
  }

  addDrawing(drawing, said) {
    this.out.querySelector(".drawn")?.replaceChildren(drawingOf(drawing, said));
    this.out.querySelector(".tools")?.prepend(...this.drawingTools(drawing));
  }

  // How a fault of a weighing is said, with its line.
  linesOf() {
    const lines = (this.draft["page.weights"] || "").split(/\r?\n/),
      said = {};
    lines.forEach((line, i) => {
      said[i + 1] = (why) => fill(words.errors.line, { line: i + 1, text: line.trim(), why });
    });
    return said;
  }

  // What the question was asked of, in a few words.
  what() {
    const wood = ["billet.wood", "wood", "page.wood", "log.wood", "billets.0.wood", "parts.0.wood", "layers.0.wood"]
      .map((p) => this.draft[p])
      .find(Boolean);
    if (this.question.billet) return this.question.billet;
    const thick = this.draft["billet.thickness"] || this.draft["billets.0.thickness"];
    return [wood, thick && /\d$/.test(thick) ? `${thick} ${this.system === "inch" ? "in" : "mm"}` : thick]
      .filter(Boolean)
      .join(", ");
  }

  showAnswer(answer, drawing, request, moves, when) {
    this.columns.classList.remove("alone");
    this.asked.open = matchMedia(besides).matches; // where the answer stands below, what was told gives way
    const context =
      [this.what(), when && fill(words.kept.was, { date: sayDay(when) })].filter(Boolean).join(" · ");
    const { node, said } = answerNode(answer, {
      kind: this.kind,
      request,
      context,
      drawing,
      day: request.as_of || today(),
      take: this.taker(moves),
      more: this.more(answer),
      tools: h("div", { class: "tools" }),
    });
    node.querySelector(".tools").append(...(drawing ? this.drawingTools(drawing) : []), ...this.tools(request));
    node.querySelector(".sources").addEventListener("toggle", (e) => this.explain(e.target), { once: true });
    this.out.replaceChildren(node);
    this.button.textContent = text.again;
    this.form.open = "none"; // what was told stands in one line for each step
    this.all.textContent = text.all;
    this.form.render();
    node.querySelector(".say").focus({ preventScroll: true });
    node.scrollIntoView({ block: "start" });
  }

  // A reading that did not fit can be mended in the list it was pasted in, or taken out of it.
  taker(moves) {
    return (rejected) => {
      const move = moves.find(([from, to, line]) => from === rejected.pointer && to === "page.weights" && line);
      if (!move) return "";
      const at = move[2] - 1,
        line = this.draft["page.weights"].split(/\r?\n/)[at],
        meant = meantIn(line, rejected.likely_slip);
      return h(
        "div",
        { class: "btns" },
        meant ? this.lineButton(fill(words.answer.take, { mass: meant.mass }), at, [meant.line]) : "",
        this.lineButton(words.answer.drop, at, []),
      );
    };
  }

  // A button that puts other lines in the place of one that was pasted, and asks again.
  lineButton(said, at, instead) {
    return h(
      "button",
      {
        type: "button",
        class: "btn line",
        onclick: () => {
          const lines = this.draft["page.weights"].split(/\r?\n/);
          lines.splice(at, 1, ...instead);
          this.draft["page.weights"] = lines.join("\n");
          this.form.render();
          this.ask();
        },
      },
      said,
    );
  }

  // Wood that stays outside may never be dry: the next question is offered at once.
  more() {
    if (this.draft["page.still"] !== "stays" || !["ready", "dry", "timing"].includes(this.kind)) return undefined;
    return h(
      "button",
      {
        type: "button",
        class: "btn line",
        onclick: () => {
          this.draft["page.still"] = "later";
          this.asked.open = true;
          this.openAll();
          document.getElementById(idOf("stays.0.until"))?.focus();
        },
      },
      words.answer.askIndoors,
    );
  }

  // Methods are explained when one wants to know.
  async explain(details) {
    const ids = [...details.querySelectorAll("li")];
    try {
      const reply = await send("/v1/methods?limit=500", {}, false);
      if (!reply.ok) return;
      const all = new Map((await reply.json()).items.map((m) => [m.id, m]));
      for (const li of ids) {
        const m = all.get(li.textContent);
        if (m) li.replaceChildren(h("b", {}, m.summary), h("span", { class: "block small" }, m.source));
      }
    } catch {
      /* without a connection the short names stay */
    }
  }

  drawingTools(drawing) {
    const t = words.answer,
      name = this.kind;
    return [
      plainButton(t.svg, () => save(new Blob([drawing], { type: "image/svg+xml" }), `${name}.svg`)),
      plainButton(t.png, async () => save(await pictureOf(drawing), `${name}.png`)),
    ];
  }

  // The paper of the service: steps to tick, as it is printed in the shop.
  async savePaper(request, status) {
    const done = await fetchFile(this.at, `${this.kind}.pdf`, {
      method: "POST",
      headers: { "Content-Type": "application/json", Accept: "application/pdf" },
      body: JSON.stringify(request),
    }).catch(() => false);
    status.textContent = done ? "" : words.answer.pdfFailed;
  }

  tools(request) {
    const t = words.answer;
    const status = h("span", { class: "small", role: "status" });
    const program = h(
      "details",
      { class: "program" },
      h("summary", {}, t.program),
      h("pre", { tabindex: "0" }, programLine(this.at, request)),
    );
    const paper = this.contract.questions[this.question.route].printed;
    return [
      plainButton(t.print, () => print()),
      paper && plainButton(t.pdf, () => this.savePaper(request, status)),
      plainButton(t.link, async () => {
        try {
          await navigator.clipboard.writeText(new URL(this.link(), location.href).href);
          status.textContent = t.copied;
        } catch {
          status.textContent = location.href;
        }
      }),
      h("a", { href: "#/kept" }, t.kept),
      status,
      program,
      h("p", { class: "onpaper small" }, fill(t.printed, { date: sayDay(today()), address: location.origin })),
    ].filter(Boolean);
  }
}

// A line with the figure that was likely meant in the place of the one that stands there: {line, mass}.
export function meantIn(line, slip = "") {
  const [, meant, stands] = /(\d[\d.]*) for (\d[\d.]*)/.exec(slip) || [];
  if (!meant) return undefined;
  const written = new RegExp(`(?<![\\d.,])${stands.replace(".", "[.,]")}(?![.,]?\\d)`);
  if (!written.test(line)) return undefined;
  return { line: line.replace(written, meant), mass: meant };
}

const plainButton = (label, act) => h("button", { type: "button", class: "plain", onclick: act }, label);

// The choices of a new form: what a link or an example leaves out is as in a form that was just opened.
const choicesOf = (usual) =>
  Object.fromEntries(
    Object.entries(usual).filter(([k]) => k.startsWith("page.") && !/temperature|rh_pct|least|widest|heated/.test(k)),
  );

// The example that shows most.
const largest = (examples) => examples.reduce((a, b) => (JSON.stringify(b).length > JSON.stringify(a).length ? b : a));

// What is kept leaves out the long series, which only the drawing needs.
function lighter(answer) {
  const { series, ...result } = answer.result;
  return { ...answer, result };
}

// The drawing as a picture of points, twice as fine as on the screen.
function pictureOf(drawing) {
  return new Promise((done, fail) => {
    const image = new Image();
    image.onload = () => {
      const canvas = h("canvas", { width: image.naturalWidth * 2, height: image.naturalHeight * 2 });
      canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
      canvas.toBlob(done, "image/png");
    };
    image.onerror = fail;
    image.src = URL.createObjectURL(new Blob([drawing], { type: "image/svg+xml" }));
  });
}
