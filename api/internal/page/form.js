// A form, grown from the contract: steps of a question, fields by the kind of each member.
// What is typed goes into the draft at once; nothing is checked here.
import { shows } from "./contract.js";
import { h, idOf } from "./dom.js";
import { chosen, countOf, describeAt, filled, join, unitOf } from "./draft.js";
import { helps, mark, ringEnds } from "./pictures.js";
import { picker, tableOf } from "./pick.js";
import { plankOf } from "./plank.js";
import { claimed, firsts, met, Shown, stepsOf } from "./questions.js";
import { readDate, readNumber, readQuantity, readWeights, sayDay, sayQuantity } from "./reading.js";
import { inUnits } from "./figures.js";
import { capital, fill, words } from "./words.js";

const text = words.form;
const whenIdle = globalThis.requestIdleCallback ?? ((work) => setTimeout(work, 30));
const fewChoices = 5; // up to so many stand open, more in a list to choose from

export class Form {
  /** state: {contract, question, schema, draft, system, day, send, changed, ask, next, errors, open} */
  constructor(state) {
    Object.assign(this, state);
    this.steps = stepsOf(this.contract, this.question, this.schema);
    this.claimed = claimed(this.question);
    this.opened = new Set(); // details that stand open
    this.node = h("ol", { class: "steps" });
  }

  /** render draws the steps anew and keeps the keyboard where it was. */
  render() {
    const focus = document.activeElement?.id;
    this.unmade = []; // what is folded, for when there is time
    this.shown = new Shown(this.question, this.draft);
    const nodes = this.steps.map((step, i) => this.step(step, i));
    for (const [i, step] of this.steps.entries()) nodes[i].hidden = !this.asks(step);
    this.node.replaceChildren(...nodes);
    if (focus) document.getElementById(focus)?.focus();
    whenIdle(() => this.makeMore(this.unmade));
    return this.node;
  }

  // One folded part at a time, so that nothing waits for it. Those of an earlier rendering are left.
  makeMore(unmade) {
    if (unmade !== this.unmade || unmade.length === 0) return;
    unmade.shift()();
    whenIdle(() => this.makeMore(unmade));
  }

  set(path, value) {
    this.draft[path] = value;
    this.changed();
  }

  setAndRender(path, value) {
    this.set(path, value);
    this.render();
  }

  step(step, i) {
    const open = this.open === "all" || this.open === i,
      title = words.steps[step.id] || step.id;
    const done = this.open === "all" ? false : i < this.open || this.open === "none";
    const node = h("li", { class: `step ${open ? "now" : done ? "done" : ""}`, "data-step": step.id });
    const heading = h("h2", {}, title);
    if (!open) {
      const change = h(
        "button",
        {
          type: "button",
          class: "chg",
          onclick: () => {
            this.open = i;
            this.render();
            this.focusStep(i);
          },
        },
        text.change,
        h("span", { class: "hid" }, ": " + title),
      );
      node.append(change, heading, h("p", { class: "got" }, this.got(step) || words.stepDone));
      return node;
    }
    node.append(heading);
    if (words.stepHelp[step.id]) node.append(h("p", { class: "help" }, words.stepHelp[step.id]));
    const items = step.items.filter((item) => met(item.when, this.draft));
    for (const item of items) node.append(this.item(item, items.length > 1));
    const following = this.steps.slice(i + 1).find((s) => this.asks(s));
    if (this.open !== "all" && following) {
      const after = words.steps[following.id] || following.id;
      node.append(
        h(
          "div",
          { class: "btns" },
          h(
            "button",
            { type: "button", class: "btn", onclick: () => this.next(i) },
            fill(text.next, { step: after.charAt(0).toLowerCase() + after.slice(1) }),
          ),
        ),
      );
    }
    return node;
  }

  focusStep(i) {
    this.node.children[i]?.querySelector("input, select, textarea, summary")?.focus();
  }

  // Whether a step asks anything now: what goes only with another way of telling does not show.
  asks(step) {
    const root = this.contract.describe(this.schema),
      way = chosen(this.draft, "", root, true);
    return step.items.some((item) =>
      item.path === "" ? item.only.some((name) => shows(root, name, way)) : met(item.when, this.draft),
    );
  }

  // One line of what was told in a step.
  got(step) {
    const said = [];
    for (const item of step.items) {
      if (!met(item.when, this.draft)) continue;
      for (const top of item.path === "" ? item.only : [item.path]) said.push(...this.told(top));
    }
    return said.slice(0, 7).join(", ") + (said.length > 7 ? " …" : "");
  }

  told(top) {
    const said = [];
    const depth = (key) => key.split(".").length; // what belongs to the whole before what belongs to a part of it
    for (const key of Object.keys(this.draft).sort((a, b) => depth(a) - depth(b))) {
      const elsewhere = [...this.claimed].some(
        (c) => c.startsWith(top + ".") && (key === c || key.startsWith(c + ".")),
      );
      if (/[~#]$/.test(key) || elsewhere) continue;
      if ((key !== top && !key.startsWith(top + ".")) || this.draft[key].trim() === "" || !this.shown.has(key))
        continue;
      const d = describeAt(this.contract, this.schema, key, this.draft);
      if (!d || d.kind === "fixed") continue;
      if (d.schema.list === "weights") said.push(this.sayWeights(this.draft[key]));
      else if (d.kind === "choice") said.push(words.choice(key, this.draft[key]).short);
      else if (d.kind === "quantity")
        said.push(this.withUnit(this.draft[key].trim(), d.dimension, unitOf(key, d.dimension, this.system)));
      else if (d.kind === "number" && unitOfNumber(key))
        said.push(`${this.draft[key].trim()} ${unitOfNumber(key)}`.replace(" °", "°"));
      else said.push(this.draft[key].trim());
    }
    return said.filter((t) => t !== "");
  }

  withUnit(typed, dimension, unit) {
    return readQuantity(typed, dimension, unit).bare ? `${typed} ${words.units[unit] ?? unit}` : typed;
  }

  item(item, headed) {
    if (item.path === "")
      return this.members(this.contract.describe(this.schema), "", { only: item.only, flat: !item.wish });
    const d = describeAt(this.contract, this.schema, item.path, this.draft);
    const needed = item.needed || this.isNeeded(item.path);
    return this.field(d.asked, item.path, { needed, first: item.first, top: true, headed });
  }

  // A member that its object needs, on the way down from the whole.
  isNeeded(path) {
    const names = path.split("."),
      name = names.pop(),
      above = describeAt(this.contract, this.schema, names.join("."), this.draft);
    return this.shown.needed.has(path) || Boolean(above?.required?.has(name));
  }

  /** field draws one member by its kind. */
  field(schema, path, options = {}) {
    const d = this.contract.describe(schema);
    switch (d.kind) {
      case "fixed":
        return h("span", { "data-path": path, hidden: true });
      case "object":
        return this.object(d, path, options);
      case "list":
        return this.list(d, path, options);
      case "variants":
        return this.variants(d, path, options);
      case "choice":
        return this.choice(d, path, options);
      case "yes":
        return this.choice({ ...d, choices: ["yes", "no"] }, path, options);
      default:
        return this.input(d, path, options);
    }
  }

  // The frame of a field: label, help, what is wrong with it, the box, how it was read.
  frame(d, path, options, box, after = []) {
    const id = idOf(path),
      own = inUnits(words.helpOf(path, d.description), this.system),
      help = [own, d.kind === "few" ? text.few : ""].filter(Boolean).join(own.endsWith(".") ? " " : ". "),
      wrong = this.errors.filter((e) => e.path === path);
    const label = options.label || words.label(path);
    const node = h(
      "div",
      { class: `f${wrong.length > 0 ? " bad" : ""}`, "data-path": path },
      h("label", { for: id }, label, options.needed ? "" : h("span", { class: "opt" }, ` (${text.optional})`)),
    );
    const described = [];
    const beside = helps[path.split(".").at(-1)];
    if (beside) node.append(h("div", { class: "pic" }, beside()));
    if (help) {
      node.append(h("span", { class: "help", id: id + "-h" }, help));
      described.push(id + "-h");
    }
    if (wrong.length > 0) {
      node.append(...wrong.map((e, i) => this.errorLine(e, `${id}-e${i}`)));
      wrong.forEach((_, i) => described.push(`${id}-e${i}`));
    }
    node.append(box, ...after);
    const control = box.matches("input, select, textarea") ? box : box.querySelector("input, select, textarea");
    if (after.some((a) => a.classList?.contains("read"))) described.push(id + "-r");
    if (described.length > 0) control.setAttribute("aria-describedby", described.join(" "));
    if (wrong.length > 0) control.setAttribute("aria-invalid", "true");
    return node;
  }

  errorLine(error, id) {
    const take = (choice) =>
      h(
        "button",
        { type: "button", class: "plain", onclick: () => this.setAndRender(error.path, choice) },
        fill(text.took, { text: choice }),
      );
    return h(
      "div",
      { class: "err", id },
      mark.look(),
      h(
        "span",
        {},
        h("span", { class: "hid" }, words.errors.prefix),
        words.calledHere(error.text),
        (error.choices || []).map((c) => [" ", take(c)]).flat(),
      ),
    );
  }

  input(d, path, options) {
    const id = idOf(path),
      long = d.kind === "long";
    const input = h(long ? "textarea" : "input", {
      id,
      rows: long ? 6 : undefined,
      autocomplete: "off",
      inputmode: d.kind === "number" ? "decimal" : undefined,
    });
    input.value = this.draft[path] ?? "";
    input.dataset.label = words.label(path);
    const read = h("p", { class: "read", id: id + "-r" });
    const say = () => read.replaceChildren(...this.readAs(d, path, input.value));
    // Said while one types, and not when the field is left: nothing may move under a click.
    input.addEventListener("input", () => {
      this.set(path, input.value);
      say();
    });
    say();
    const unit =
      d.kind === "quantity" ? unitOf(path, d.dimension, this.system) : d.kind === "number" ? unitOfNumber(path) : "";
    const box = h("div", { class: "box" }, input, unit ? h("span", { class: "unit" }, words.units[unit] ?? unit) : "");
    const table = !long && tableOf(path);
    const after = [...(table ? picker(input, table, this.send) : []), read];
    if (path.endsWith("rings.angle_deg")) after.unshift(this.ringPictures(path, input));
    const node = this.frame(d, path, options, box, after);
    node.classList.toggle("w16", !long && d.kind !== "text" && d.kind !== "few");
    return node;
  }

  // The ring angle is picked from ends of boards, or typed.
  ringPictures(path, input) {
    return h(
      "div",
      { class: "pics", role: "group", "aria-label": text.pictures },
      ringEnds.map(({ name, angle, draw }) =>
        h(
          "button",
          {
            type: "button",
            "aria-pressed": String(Number(input.value) === angle && input.value !== ""),
            onclick: () => this.setAndRender(path, String(angle)),
            id: `${idOf(path)}-${name}`,
          },
          draw(),
          words.rings[name],
          h("small", {}, ` ${angle}°`),
        ),
      ),
    );
  }

  // How an entry was read, and what looks odd about it.
  readAs(d, path, typed) {
    if (typed.trim() === "") return [];
    const as = (said) => [text.readAs + " ", h("b", {}, said)];
    if (d.schema.list === "weights") return [this.sayWeights(typed)];
    if (d.kind === "date") {
      const r = readDate(typed, { today: this.day });
      return r.iso ? as(sayDay(r.iso)) : [];
    }
    if (d.kind === "number") {
      const r = readNumber(typed.replace(/\s*[%°]$/, ""));
      const plain = r.wrong || /^-?\d+(\.\d+)?$/.test(typed.trim());
      return [...(plain ? [] : as(String(r.value))), ...this.share(path, r)];
    }
    if (d.kind !== "quantity") return [];
    const read = readQuantity(typed, d.dimension, unitOf(path, d.dimension, this.system));
    if (read.wrong) return [];
    return [...as(sayQuantity(read, d.dimension)), ...this.odd(d, path, read)];
  }

  // 68 C is asked about where it was written without its unit: it is an everyday figure in F.
  odd(d, path, read) {
    if (d.dimension !== "temperature" || !read.bare || read.unit !== "C" || read.value < 45 || read.value > 100)
      return [];
    const values = { c: read.value, f: Math.round(((read.value - 32) * 5) / 9) };
    return this.asked(path, fill(text.hotter, values), `${values.c} F`, `${values.c} °F`);
  }

  // 0.45 of humidity or moisture is asked about: it is 45 % written as a share.
  share(path, { wrong, value }) {
    if (wrong || !/(^|[._])(rh|mc|emc)_pct$/.test(path) || !(value > 0 && value < 1)) return [];
    const meant = String(Number((100 * value).toPrecision(6)));
    return this.asked(path, fill(text.share, { value, meant }), meant, `${meant} %`);
  }

  // Something odd, and a button that takes what was likely meant.
  asked(path, said, instead, named) {
    return [
      h(
        "span",
        { class: "odd", role: "status" },
        said,
        " ",
        h(
          "button",
          { type: "button", class: "btn line", onclick: () => this.setAndRender(path, instead) },
          fill(text.took, { text: named }),
        ),
      ),
    ];
  }

  sayWeights(typed) {
    const { weights, wrongs, order } = readWeights(typed, unitOf("mass", "mass", this.system), this.day);
    if (weights.length === 0) return "";
    const said = fill(text.weightsRead, {
      count: weights.length,
      first: sayDay(weights[0].iso),
      last: sayDay(weights.at(-1).iso),
    });
    const more = [order === "dm" ? text.orderDm : order === "md" ? text.orderMd : "", `${weights[0].read.unit}`]
      .filter(Boolean)
      .join(", ");
    return `${said} (${more})` + (wrongs.length > 0 ? " …" : "");
  }

  choice(d, path, options) {
    const id = idOf(path),
      now = this.draft[path] ?? "",
      ofPage = path.startsWith("page.");
    if (d.choices.length > fewChoices || !ofPage) {
      const select = h(
        "select",
        { id },
        h("option", { value: "" }, text.leaveOut),
        d.choices.map((c) => h("option", { value: c }, words.choice(path, c).text)),
      );
      select.value = now;
      select.addEventListener("change", () => this.set(path, select.value));
      const node = this.frame(d, path, options, h("div", { class: "box" }, select));
      node.classList.add("w16");
      return node;
    }
    const wrong = this.errors.filter((e) => e.path === path);
    return h(
      "fieldset",
      { class: `f${wrong.length > 0 ? " bad" : ""}`, "data-path": path, id },
      h("legend", {}, options.label || words.label(path)),
      wrong.map((e) => this.errorLine(e)),
      d.choices.map((c) =>
        this.pick(path, path, c, now === c, words.choice(path, c), () => this.setAndRender(path, c)),
      ),
    );
  }

  pick(name, path, value, checked, { text: said, below }, take) {
    const id = `${idOf(path)}-${value}`;
    const input = h("input", { type: "radio", name: idOf(name) + "-way", id, value, checked });
    input.addEventListener("change", take);
    return h("label", { class: "pick", for: id }, input, h("span", {}, said, below ? h("small", {}, below) : ""));
  }

  // One of several ways of telling the same, open where they are few.
  ways(path, keys, now, needed) {
    const id = idOf(path) + "-by",
      all = needed ? keys : ["", ...keys];
    if (all.length === 1) return undefined;
    const said = (key) => (key === "" ? text.leaveOut : words.way(path, key));
    const select = h(
      "select",
      { id, "data-way": path },
      all.map((key) => h("option", { value: key }, said(key))),
    );
    select.value = now;
    select.addEventListener("change", () => this.setAndRender(path + "~", select.value));
    return h(
      "div",
      { class: "f w16" },
      h("label", { for: id }, h("span", { class: "hid" }, words.label(path) + ": "), words.wayLabel(path)),
      h("div", { class: "box" }, select),
    );
  }

  variants(d, path, options) {
    const needed = options.needed,
      now = chosen(this.draft, path, d, needed);
    const variant = d.variants.find((v) => v.key === now);
    if (d.usual === "named") return this.named(d, path, options, variant);
    return this.group(path, d, options, () => [
      this.ways(
        path,
        d.variants.map((v) => v.key),
        now,
        needed,
      ),
      ...(variant ? this.body(variant.schema, path, { needed: true }) : []),
    ]);
  }

  // What is usually told by a name can be told by figures too.
  named(d, path, options, variant) {
    const others = d.variants.filter((v) => v.key !== "named");
    const other = (key, said) =>
      h(
        "button",
        {
          type: "button",
          class: "plain",
          id: `${idOf(path)}-to-${key}`,
          onclick: () => {
            delete this.draft[path];
            this.setAndRender(path + "~", key);
          },
        },
        said,
      );
    if (!variant || variant.key === "named") {
      const schema = d.variants.find((v) => v.key === "named").schema;
      const node = this.field({ ...schema, description: d.description }, path, options);
      node.append(
        ...others.map((o) =>
          other(o.key, o.key === "figures" || others.length === 1 ? text.own : words.way(path, o.key)),
        ),
      );
      return node;
    }
    return this.group(path, d, options, () => [
      ...this.body(variant.schema, path, { needed: true }),
      other("named", text.byName),
    ]);
  }

  body(schema, path, options) {
    const d = this.contract.describe(schema);
    if (d.kind !== "object") return [this.field(schema, path, options)];
    return [this.members(d, path, options)];
  }

  object(d, path, options) {
    const way = chosen(this.draft, path, d, options.needed);
    return this.group(path, d, options, () => [
      d.ways.length > 0
        ? this.ways(
            path,
            d.ways.map((w) => w.key),
            way,
            true,
          )
        : "",
      this.members(d, path, options),
    ]);
  }

  // A group stands open where it is needed, and folded where it is wished.
  group(path, d, options, inner) {
    const label = options.label || words.label(path),
      help = inUnits(words.helpOf(path, options.needed ? "" : d.description), this.system),
      id = idOf(path);
    const wrong = this.errors.filter((e) => e.path === path).map((e) => this.errorLine(e));
    const content = () => [...wrong, help ? h("p", { class: "help" }, help) : "", ...inner()];
    if ((options.needed && options.top) || options.bare) {
      return h(
        "div",
        { class: "group", "data-path": path, id, tabindex: "-1", role: "group", "aria-label": label },
        options.headed ? h("h3", {}, label) : "",
        content(),
      );
    }
    if (options.needed || options.item) {
      return h(
        "fieldset",
        { class: `group inner${wrong.length > 0 ? " bad" : ""}`, "data-path": path, id, tabindex: "-1" },
        h("legend", {}, label),
        content(),
      );
    }
    return this.folded(
      path,
      label,
      content,
      filled(this.draft, path) || wrong.length > 0 || this.errors.some((e) => e.path.startsWith(path + ".")),
    );
  }

  // What is folded is made when it is opened, or when there is nothing else to do.
  folded(path, label, content, open, key = path) {
    const shown = open || this.opened.has(key);
    const details = h(
      "details",
      { "data-path": path, id: key === path ? idOf(path) : undefined, open: shown },
      h("summary", { id: idOf(key) + "-fold" }, label),
    );
    let made = false;
    const make = () => {
      if (made) return;
      made = true;
      details.append(...content().filter((c) => c !== "" && c !== undefined));
    };
    if (shown) make();
    else this.unmade.push(make);
    details.addEventListener("toggle", () => {
      make();
      if (details.open) this.opened.add(key);
      else this.opened.delete(key);
    });
    return details;
  }

  // The members of an object: those needed and those asked first, the rest folded.
  members(d, path, { first, only, flat } = {}) {
    const way = d.ways.length > 0 ? chosen(this.draft, path, d, true) : "",
      wayOf = d.ways.find((w) => w.key === way);
    const early = new Set([...(first || []), ...(firsts[d.schema.name] || [])]);
    const now = [],
      later = [];
    for (const name of d.names) {
      const below = join(path, name);
      if (name === "page" || !shows(d, name, way) || (only && !only.includes(name))) continue;
      if (this.claimed.has(below) && !this.underWhole(below)) continue;
      const needed = d.required.has(name) || wayOf?.needs.includes(name) || this.shown.needed.has(below);
      const soon = needed || early.has(name) || flat;
      (soon ? now : later).push({ name, below, needed });
    }
    const order = [...(first || []), ...(firsts[d.schema.name] || []), ...d.names];
    now.sort((a, b) => order.indexOf(a.name) - order.indexOf(b.name));
    // The air of a condition needs no heading of its own.
    const bare = d.schema.name === "AirCondition";
    const draw = ({ name, below, needed }) =>
      this.field(d.members[name], below, { needed, bare: bare && name === "air" });
    const out = h("div", { class: "members" });
    if (only && d.ways.some((w) => only.includes(w.key)))
      out.append(
        this.ways(
          path,
          d.ways.map((w) => w.key),
          way,
          true,
        ),
      );
    out.append(...now.map(draw));
    if (later.length > 0) {
      const more =
        path === ""
          ? later.map(draw)
          : [
              this.folded(
                path,
                [text.more, h("small", {}, ` (${words.label(path).toLowerCase()})`)],
                () => later.map(draw),
                later.some(
                  (l) =>
                    filled(this.draft, l.below) ||
                    this.errors.some((e) => e.path === l.below || e.path.startsWith(l.below + ".")),
                ),
                path + ".more",
              ),
            ];
      out.append(...more);
    }
    return out;
  }

  underWhole(path) {
    return this.shown.shown.some((i) => i.whole && path.startsWith(i.path + "."));
  }

  list(d, path, options) {
    const count = countOf(this.draft, path, d, options.needed),
      noun = words.itemOf(path);
    const items = Array.from({ length: count }, (_, i) => {
      const below = join(path, i),
        what = fill(text.item, { what: noun, number: i + 1 });
      const node = this.field(d.item, below, {
        needed: true,
        item: true,
        first: options.first,
        label: capital(what),
      });
      node.append(
        h(
          "button",
          {
            type: "button",
            class: "plain",
            id: idOf(below) + "-off",
            onclick: () => this.removeItem(path, i, count),
          },
          fill(text.remove, { what }),
        ),
      );
      return node;
    });
    const add = h(
      "button",
      {
        type: "button",
        class: "btn line",
        id: idOf(path) + "-add",
        onclick: () => {
          this.setAndRender(path + "#", String(count + 1));
          document
            .getElementById(idOf(join(path, count)))
            ?.querySelector("input, select")
            ?.focus();
        },
      },
      fill(text.add, { what: noun }),
    );
    const plank = path.endsWith(".zones") ? plankOf(this, path, d) : "";
    const inner = [plank, ...items, d.most && count >= d.most ? "" : h("div", { class: "btns" }, add)];
    if (options.needed || options.top)
      return h(
        "div",
        {
          class: "group",
          "data-path": path,
          id: idOf(path),
          tabindex: "-1",
          role: "group",
          "aria-label": words.label(path),
        },
        h("h3", {}, words.label(path)),
        this.errors.filter((e) => e.path === path).map((e) => this.errorLine(e)),
        inner,
      );
    return this.group(path, d, options, () => inner);
  }

  // The items behind one that is taken out move up.
  removeItem(path, gone, count) {
    const moved = {};
    for (const key of Object.keys(this.draft)) {
      const [, number, rest] = (key.startsWith(path + ".") && /^(\d+)(.*)$/.exec(key.slice(path.length + 1))) || [];
      if (number === undefined || Number(number) < gone) continue;
      if (Number(number) > gone) moved[`${path}.${Number(number) - 1}${rest}`] = this.draft[key];
      delete this.draft[key];
    }
    Object.assign(this.draft, moved);
    this.setAndRender(path + "#", String(count - 1));
  }
}

/** unitOfNumber is the unit of a bare number, by the end of its name. */
function unitOfNumber(path) {
  const name = path.split(".").at(-1);
  const end = Object.keys(words.units_of).find((e) => name === e || name.endsWith(e));
  return end ? words.units_of[end] : "";
}
