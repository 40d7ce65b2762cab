// The modules of the page without a browser: what is read, the contract in forms, links.
// node --test api/internal/page/
//
// FORMS names the file forms.json as the service gives it.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { Contract, shows } from "./contract.js";
import { Collector, describeAt, draftOf, tidy, withUnits } from "./draft.js";
import { requestOf, placed } from "./ask.js";
import { linkOf, readLink } from "./link.js";
import { allQuestions, schemaOf, stepsOf, claimed, firsts, groups, questions, rackQuestion } from "./questions.js";
import { inches, readDate, readNumber, readQuantity, readWeights } from "./reading.js";
import { sentenceOf } from "./answer.js";
import { inOneWay, inUnits, middle, range, row, sayChange, show, toldIn, undated } from "./figures.js";
import { settingsOf } from "./cuts.js";
import { folded, placesOf } from "./trust.js";
import { meantIn } from "./view.js";
import { words } from "./words.js";

const forms = JSON.parse(readFileSync(process.env.FORMS, "utf8"));
const contract = new Contract(forms);
const all = allQuestions(contract);
const ofRack = ["ready", "timing", "plan", "move"].map((name) => rackQuestion(contract, `rack/billets/b-1/${name}`));
const questionOf = (route) => [...all, ...ofRack].find((q) => q.route === route && !q.own);

const table = (name) =>
  readFileSync(new URL(`../../../testdata/written/${name}`, import.meta.url), "utf8")
    .split("\n")
    .filter((l) => l !== "" && !l.startsWith("#"))
    .slice(1)
    .map((l) => l.split(";"));

test("quantities are read as the service reads them", () => {
  const rows = table("quantities.csv");
  assert.ok(rows.length > 50);
  for (const [text, dimension, want] of rows) {
    const read = readQuantity(text, dimension, undefined);
    if (want.startsWith("!"))
      assert.ok(
        read.wrong?.includes(want.slice(1)) || (read.wrong && /no number|not a unit|not a number/.test(want)),
        `${text}: ${JSON.stringify(read)}, not ${want}`,
      );
    else
      assert.ok(
        Math.abs(read.si - Number(want)) <= 1e-12 * Math.max(1, Math.abs(Number(want))),
        `${text}: ${JSON.stringify(read)}, not ${want}`,
      );
  }
});

test("a bare number is in the unit that stands beside the field", () => {
  assert.deepEqual(readQuantity("42 1/2", "length", "in"), {
    value: 42.5,
    unit: "in",
    si: 42.5 * 0.0254,
    bare: true,
  });
  assert.equal(readQuantity("8/4", "length", "mm").si, 0.0508);
  assert.ok(Math.abs(readQuantity("52", "length", "mm").si - 0.052) < 1e-15);
});

test("days are read, and refused with both readings where there are two", () => {
  for (const [text, order, want] of table("days.csv")) {
    const read = readDate(text, { order: order || undefined });
    if (want.startsWith("!")) assert.ok(read.wrong?.includes(want.slice(1)), `${text}: ${JSON.stringify(read)}`);
    else assert.equal(read.iso, want, text);
  }
  assert.equal(readDate("today", { today: "2026-03-14" }).iso, "2026-03-14");
});

test("weights pasted from a spreadsheet are read in any order, and a wrong line is named", () => {
  const want = [
    ["2025-03-15", 11.1],
    ["2025-07-06", 10.83],
    ["2025-12-14", 10.61],
  ];
  for (const text of [
    "15.3.2025\t11,10\n14.12.2025\t10,61\n6.7.2025\t10,83",
    "Day;Weight\n2025-07-06;10.83\n2025-12-14;10.61\n2025-03-15;11.10",
    "11,10 kg\t15.3.2025\n10,61\t14.12.2025\n10,83\t6.7.2025",
    "2025-03-15, 11.10 kg\n2025-07-06, 10.83 kg\n2025-12-14, 10.61 kg\n",
    "15/3/2025 11.10\n6/7/2025 10.83\n14/12/2025 10.61",
    "15 Mar 2025 11.10\r\n6 Jul 2025 10.83\r\n14 Dec 2025 10.61",
  ]) {
    const { weights, wrongs } = readWeights(text, "kg");
    assert.deepEqual(wrongs, [], text);
    assert.deepEqual(
      weights.map((w) => [w.iso, w.read.value]),
      want,
      text,
    );
  }
  const { weights, wrongs } = readWeights("15.3.2025 11,10\n31.2.2026 10,52\nheavy", "kg");
  assert.equal(weights.length, 1);
  assert.deepEqual(
    wrongs.map((w) => w.line),
    [2, 3],
  );
  assert.match(wrongs[0].wrong, /no day 31/);
  assert.match(readWeights("3/4/2026 10", "kg").wrongs[0].wrong, /may be/);
  assert.equal(readWeights("3/4/2026 10\n3/14/2026 9.9", "kg").weights[1].iso, "2026-03-14");
  assert.deepEqual(
    readWeights("1/2/2026 24 lb 7 oz\n1/20/2026 24 lb", "lb").weights.map((w) => w.read.value),
    [24.4375, 24],
  );
});

test("inches are said as fractions where they are good enough", () => {
  assert.deepEqual([2.0625, 0.5, 3, 0.137, 0.001, -0.25].map(inches), ["2 1/16", "1/2", "3", "9/64", "0.001", "-1/4"]);
  assert.equal(inches(0.0937), "3/32");
  assert.equal(inches(0.089), "0.089");
});

// Every leaf of a schema as a path with the variants on the way; lists as item 0.
function leaves(schema, path = "", seen = []) {
  const d = contract.describe(schema);
  if (d.kind === "object")
    return d.names.flatMap((n) => (n === "page" ? [] : leaves(d.members[n], path === "" ? n : `${path}.${n}`, seen)));
  if (d.kind === "list") return leaves(d.item, `${path}.0`, seen);
  if (d.kind === "variants") return d.variants.flatMap((v) => leaves(v.schema, path, seen).map((p) => p));
  return [path];
}

test("every calculation of the contract is a question, and every member has a place in its form", () => {
  let members = 0;
  for (const route of Object.keys(contract.questions)) {
    const question = questionOf(route),
      schema = schemaOf(contract, question),
      d = contract.describe(schema);
    const steps = stepsOf(contract, question, schema),
      items = steps.flatMap((s) => s.items);
    const places = items.flatMap((i) => (i.path === "" ? i.only : [i.path]));
    for (const leaf of new Set(leaves(schema))) {
      members++;
      assert.ok(
        places.some((p) => leaf === p || leaf.startsWith(p + ".")),
        `${route}: ${leaf} is in no form`,
      );
    }
    // What the object on the way hides is shown in some way of telling it.
    const walk = (s, path) => {
      const at = contract.describe(s);
      if (at.kind === "object")
        for (const name of at.names) {
          const ways = at.ways.length === 0 ? [""] : at.ways.map((w) => w.key);
          assert.ok(
            ways.some((w) => shows(at, name, w)),
            `${route}: ${path}.${name} shows in no way`,
          );
          walk(at.members[name], `${path}.${name}`);
        }
      else if (at.kind === "list") walk(at.item, path);
      else if (at.kind === "variants") at.variants.forEach((v) => walk(v.schema, path));
    };
    walk(schema, route);
    for (const place of places.filter((p) => !p.startsWith("page")))
      assert.ok(place.split(".")[0] in d.members, `${route}: the form asks ${place}, which the contract does not know`);
  }
  assert.ok(members > 600, String(members));
});

// tellAll calls back for every member that a form may have, with its path and its schema.
function tellAll(schema, path, tell) {
  const d = contract.describe(schema);
  if (d.kind === "list") return tellAll(d.item, path, tell);
  if (d.kind === "variants") return d.variants.forEach((v) => tellAll(v.schema, path, tell));
  if (d.kind !== "object") return;
  for (const name of d.names) {
    const at = path === "" ? name : `${path}.${name}`;
    tell(at, contract.describe(d.members[name]));
    if (name !== "page") tellAll(d.members[name], at, tell);
  }
}

test("no label or help of a form speaks to programs, or lost a word", () => {
  let count = 0;
  for (const q of [...all, ...ofRack])
    tellAll(schemaOf(contract, q), "", (path, d) => {
      count++;
      const label = words.label(path),
        help = words.helpOf(path, d.description || "");
      assert.ok(label.length > 1 || /one_in$/.test(path), `${path}: ${label}`);
      assert.doesNotMatch(label, /\b(sd|pct|mc|per [ms]|id)\b|_/i, `${q.id} ${path}`);
      assert.doesNotMatch(help, /\?as=|GET|POST|\/v1|_|  | [;,.]|\bof whose|the day the|\bno the\b|report in/, `${q.id} ${path}: ${help}`);
    });
  assert.ok(count > 500, `${count} members were looked at`);
});

test("a member that the contract gains is in a form without a change here", () => {
  const grown = structuredClone(forms);
  grown.schemas.EMCRequest.properties.moonlight = { type: "number", description: "new" };
  grown.schemas.Billet.properties.moonlight = { type: "number", description: "new" };
  grown.questions["/v1/new-question"] = { request: "EMCRequest", summary: "New" };
  const later = new Contract(grown),
    emc = allQuestions(later).find((q) => q.route === "/v1/emc");
  assert.ok(stepsOf(later, emc, schemaOf(later, emc)).at(-1).items[0].only.includes("moonlight"));
  assert.ok(allQuestions(later).some((q) => q.route === "/v1/new-question"));
  assert.ok(later.describe({ $ref: "#/components/schemas/Billet" }).names.includes("moonlight"));
});

test("a member that a step asks first is one of the contract", () => {
  for (const [name, members] of Object.entries(firsts)) {
    const d = contract.describe({ $ref: `#/components/schemas/${name}` });
    for (const m of members) assert.ok(m in d.members, `${name}.${m}`);
  }
});

test("every question, step and group has its words", () => {
  for (const q of questions) {
    assert.ok(words.questions[q.id]?.title && words.questions[q.id].hand, q.id);
    assert.ok(groups.includes(q.group) && words.groups[q.group]);
    for (const s of q.steps) assert.ok(words.steps[s.id], `${q.id}: ${s.id}`);
    for (const [name, schema] of Object.entries(q.page || {})) {
      assert.ok(words.labels[`page.${name}`], `${q.id}: page.${name}`);
      for (const c of schema.enum || []) assert.ok(words.choices[`page.${name}`][c], `${q.id}: page.${name} ${c}`);
    }
  }
});

// A generator of numbers that is the same on every machine.
function numbers(seed) {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

// A random request that a form can hold: its shape is drawn from the schema, its values from what members take.
function draw(next, schema, needed, depth = 0) {
  const d = contract.describe(schema),
    pick = (list) => list[Math.floor(next() * list.length)];
  switch (d.kind) {
    case "fixed":
      return d.value;
    case "choice":
      return pick(d.choices);
    case "yes":
      return next() < 0.5;
    case "text":
      return pick(["walnut", "a 1", "W-07", "Zürich & co", "x=1;y"]);
    case "long":
      return "time,temperature_c,rh_pct\n2026-01-01,20,45";
    case "date":
      return `20${10 + Math.floor(next() * 20)}-0${1 + Math.floor(next() * 9)}-1${Math.floor(next() * 9)}`;
    case "number":
      return d.whole ? 1 + Math.floor(next() * 9) : Math.round(next() * 1e4) / 100;
    case "quantity":
      return `${Math.round(next() * 1e4) / 100} ${pick({ length: ["mm", "in"], temperature: ["C", "F"], mass: ["kg", "lb"], pressure: ["hPa"], stiffness: ["MPa"] }[d.dimension])}`;
    case "few": {
      const item = contract.describe(d.item);
      return Array.from({ length: 1 + Math.floor(next() * 3) }, () =>
        item.kind === "text" ? "W-07" : draw(next, d.item, true),
      );
    }
    case "list":
      return Array.from({ length: Math.max(d.least, 1 + Math.floor(next() * 2)) }, () =>
        draw(next, d.item, true, depth + 1),
      );
    case "variants":
      return draw(next, pick(d.variants).schema, true, depth + 1);
    default: {
      const way = d.ways.length > 0 ? pick(d.ways) : undefined,
        value = {};
      for (const name of d.names) {
        if (name === "page" || !shows(d, name, way?.key)) continue;
        const must = d.required.has(name) || way?.needs.includes(name);
        if (must || next() < (depth < 1 ? 0.5 : 0.25)) value[name] = draw(next, d.members[name], must, depth + 1);
      }
      return value;
    }
  }
}

test("a link in the names of the draft opens in today's, with its values", () => {
  const old =
    "#/ready?v=0&species=walnut-black&billet.thickness=54&history.stacked_on=2024-03-23&history.stays.0.station=columbus_oh" +
    "&history.as_of=2026-03-14&build_room.dry_bulb=20+C&build_room.rh_pct=45&part.plate=violin_back&saw.usual_kerf=bandsaw-thin&part.worth=40";
  const { draft, place } = readLink(old);
  assert.equal(place, "ready");
  assert.deepEqual(draft, {
    "billet.wood": "walnut-black",
    "billet.thickness": "54",
    "billet.stacked_on": "2024-03-23",
    "stays.0.station": "columbus-oh",
    as_of: "2026-03-14",
    "target_condition.air.temperature": "20 C",
    "target_condition.air.rh_pct": "45",
    "part.part_size": "violin-back",
    "saw.usual_kerf": "bandsaw_thin",
    "part.set_value": "40",
  });
  const move = readLink(
    "#/move?v=0&species=maple-sugar&dimension=330&from~=mc_pct&from.mc_pct=9&to~=mc_pct&to.mc_pct=6",
  );
  const question = all.find((q) => q.id === "move"),
    schema = schemaOf(contract, question);
  for (const [id, link] of [
    ["ready", { draft }],
    ["move", move],
  ]) {
    const asked = all.find((q) => q.id === id),
      of = schemaOf(contract, asked);
    for (const path of Object.keys(link.draft))
      assert.ok(
        describeAt(contract, of, path.replace(/[~#]$/, ""), link.draft),
        `${id}: ${path} has a place in the form`,
      );
  }
  const { request, errors } = requestOf(
    contract,
    question,
    schema,
    { ...move.draft, direction: "tangential", "~": "direction" },
    "metric",
    "2026-03-14",
  );
  assert.deepEqual(errors, []);
  assert.deepEqual(request.from_condition, { mc_pct: 9 });
  assert.equal(readLink("#/ready?v=1&wood=5").draft.wood, "5", "what was written later is left alone");
});

test("1000 random requests go into a form, into a link, and back", () => {
  const next = numbers(7);
  const routes = all.filter((q) => !q.own);
  for (let i = 0; i < 1000; i++) {
    const question = routes[i % routes.length],
      schema = (question.schema ??= schemaOf(contract, question));
    const request = draw(next, schema, true),
      system = next() < 0.5 ? "metric" : "inch";
    const draft = tidy(contract, schema, draftOf(contract, schema, request), system);
    const back = readLink(linkOf(question.id, system, draft));
    assert.equal(back.place, question.id);
    const collector = new Collector(contract, back.draft, { system: back.system, today: "2026-03-14" });
    assert.deepEqual(collector.collect(schema, "", true), request, question.id);
    assert.deepEqual(collector.errors, []);
  }
});

test("every example of the contract is asked from its form as it is", () => {
  let count = 0;
  for (const [route, { examples }] of Object.entries(forms.questions)) {
    const question = questionOf(route),
      schema = (question.schema ??= schemaOf(contract, question));
    for (const { report_in = "metric", ...request } of Object.values(examples)) {
      const collector = new Collector(contract, draftOf(contract, schema, request), {
        system: report_in,
        today: "2026-03-14",
      });
      const plain = JSON.parse(
        JSON.stringify(request, (_, v) => (v && typeof v.value === "number" && v.unit ? `${v.value} ${v.unit}` : v)),
      );
      assert.deepEqual(collector.collect(schema, "", true), plain, route);
      const draft = { ...draftOf(contract, schema, request), ...question.example?.(request) };
      const asked = requestOf(contract, question, schema, draft, report_in, "2026-03-14");
      assert.deepEqual(asked.errors, [], route);
      // A plan in inches that names no fraction is asked for in that of the tape.
      const tape = route === "/v1/resaw-plan" && report_in === "inch" ? { inch_fraction: "1/32" } : {};
      assert.deepEqual(asked.request, { ...tape, ...plain, report_in }, route);
      count++;
    }
  }
  assert.ok(count >= 30);
});

test("when the units change, what was typed means the same", () => {
  const question = all.find((q) => q.id === "move"),
    schema = (question.schema ??= schemaOf(contract, question));
  const draft = { wood: "walnut", size: "330", "~": "size_ring_angle_deg", size_ring_angle_deg: "12" };
  assert.equal(withUnits(contract, schema, draft, "metric").size, "330 mm");
  assert.equal(withUnits(contract, schema, { ...draft, size: "13 in" }, "metric").size, "13 in");
});

test("a question in the shed is asked with its places, and a fault of them is told at their fields", () => {
  const question = all.find((q) => q.id === "ready"),
    schema = (question.schema ??= schemaOf(contract, question));
  const draft = {
    ...question.start({ temperature: "20 °C", rh: "45" }),
    "billet.wood": "Maple, bigleaf",
    "billet.length": "620",
    "billet.width": "160",
    "billet.thickness": "44",
    "billet.stacked_on": "23 March 2025",
    "stays.0.station": "Astoria, OR",
    "stays.0.until": "1 May 2027",
    "page.weights": "15.3.2026\t3,10\n1.2.2026\t3,20",
  };
  const { request, errors, moves } = requestOf(contract, question, schema, draft, "metric", "2026-11-28");
  assert.deepEqual(errors, []);
  assert.deepEqual(request.stays, [
    { station: "Astoria, OR", exposure: "shed", until: "2027-05-01" },
    { air: { temperature: "20 °C", rh_pct: 45 } },
  ]);
  assert.deepEqual(
    request.readings.map((r) => [r.date, r.mass]),
    [
      ["2026-02-01", "3.2 kg"],
      ["2026-03-15", "3.1 kg"],
    ],
  );
  const [weight, air] = placed(
    {
      errors: [
        { pointer: "/readings/0/mass", detail: "too light" },
        { pointer: "/stays/1/air/temperature", detail: "too hot" },
      ],
    },
    moves,
    { 2: (why) => `line 2: ${why}` },
  );
  assert.deepEqual([weight.path, weight.text, weight.line], ["page.weights", "line 2: too light", 2]);
  assert.equal(air.path, "target_condition.air.temperature");
  assert.deepEqual(
    requestOf(contract, question, schema, { ...draft, "stays.0.station": "" }, "metric", "2026-11-28").errors.map(
      (e) => e.path,
    ),
    ["stays.0.station"],
  );
  assert.deepEqual(
    requestOf(contract, question, schema, { ...draft, "page.past": "none" }, "metric", "2026-11-28").request.stays,
    undefined,
  );
});

test("the paths that single items name exist, in every state of their conditions", () => {
  for (const question of questions)
    for (const path of claimed(question))
      assert.ok(
        path.startsWith("page.") ||
          leaves(schemaOf(contract, question)).some((l) => l === path || l.startsWith(path + ".")),
        `${question.id}: ${path}`,
      );
});

test("numbers with commas, fractions and signs", () => {
  assert.equal(readNumber("13,5").value, 13.5);
  assert.match(readNumber("1,234").wrong, /1234 or 1.234/);
});

test("within a sentence a member has a name, never the words of its label that are none", () => {
  assert.equal(
    words.calledHere("this lies after as_of; a reading cannot be of the future"),
    "This lies after the day it is judged for; a reading cannot be of the future",
  );
  const noName = /^(from|to|at|in|when|heated|judge|later|it|the size|the scale|what|stacked|no|dry)\b|:/i;
  const bare = Object.entries(words.labels).filter(([n, l]) => /^[a-z]+(_[a-z0-9]+)+$/.test(n) && noName.test(l));
  assert.ok(bare.length > 15);
  for (const [name, label] of bare)
    if (name !== "strain_pct") assert.ok(words.inText[name], `${name}: "${label}" stands within a sentence`);
});

const dates = (verdict, value, never = 0) => ({
  step: verdict[0],
  verdict: verdict[1],
  ready_on: { ...(value && { value }), not_reached_probability: never },
});
test("no date of a later step is told where an earlier one has none", () => {
  const said = (...verdicts) => sentenceOf("ready", { verdicts }).said;
  const glue = dates(["glue", "not_ready"], "2027-04-24");
  assert.match(said(dates(["resaw", "ready"], "2026-11-28"), glue), /24 Apr 2027/);
  assert.doesNotMatch(said(dates(["thickness", "cannot_say"]), glue), /24 Apr 2027/);
  assert.doesNotMatch(said(dates(["thickness", "not_ready"], "", 0.9), glue), /24 Apr 2027/);
});

test("why a date is missing is told as it is", () => {
  assert.equal(undated({ undated: "in_passing" }), words.answer.noDate);
  assert.equal(undated({ undated: "never" }), words.answer.notReached);
});

// A drawer of a room that shuts the gap by so much in September and opens it in January.
function drawer(side, opening, { feasible, min, usual, max }, verdict) {
  const inch = (value) => ({ value, unit: "in" });
  const part = (dimension, size) => ({
    driest: { day_of_year: "--01-25" },
    wettest: { day_of_year: "--09-05" },
    sizes: [{ dimension, build: inch(size) }],
  });
  return {
    parts: [part("width", side), part("length", opening)],
    pairs: [
      {
        feasible,
        build_clearance: { min: inch(min), usual: inch(usual), max: inch(max) },
        to_driest: inch(0.054),
        to_wettest: inch(-0.1),
        ...(verdict && { as_made: { verdict, clearance: inch(opening - side) } }),
        detail: "why",
      },
    ],
    summary: "in all",
  };
}
test("a drawer is first told of as it was made", () => {
  const none = { feasible: false, min: 0.166, usual: 0.101, max: 0.036 },
    some = { feasible: true, min: 0.125, usual: 0.14, max: 0.25 };
  const said = (side, opening, gaps, verdict) => sentenceOf("drawer", drawer(side, opening, gaps, verdict));
  const binds = said(7.75, 7.8125, none, "binds");
  assert.equal(
    binds.said,
    "As made it binds: the gap of 1/16 in closes about September. Plane the side to 7 41/64 in.",
  );
  assert.match(binds.small, /^No gap keeps both limits\. One of 11\/64 in today never binds; .* in January/);
  assert.match(said(7.75, 7.86, some, "may_bind").said, /^As made it may bind about September: .* Plane the side to/);
  assert.match(said(7.75, 7.9375, some, "fits").said, /^As made it fits/);
  assert.match(said(7.75, 8.25, some, "gapes").said, /^As made it does not bind, but .* in January/);
  assert.match(said(8, 7.75, some, "too_large").said, /^As made it does not go in: the side is 1\/4 in too high/);
  assert.match(said(7.75, 7.75, some).said, /^Leave 1\/8 in to 1\/4 in/);
});

test("texts and sizes come in the units asked for", () => {
  const text = "along the grain; at least 10 mm, at most 20 m";
  assert.equal(inUnits(text, "metric"), text);
  assert.equal(inUnits(text, "inch"), "along the grain; at least 0.394 in, at most 65.6 ft");
  assert.equal(inUnits("at least -40 C, at most 100 C", "inch"), "at least -40 °F, at most 212 °F");
  assert.equal(inUnits("10 to 25 mm if sealed at 12 %MC; 500 kg/m3", "inch"), "0.394 to 0.984 in if sealed at 12 %MC; 500 kg/m3");
  const left = [];
  for (const s of Object.values(forms.schemas))
    for (const d of Object.values(s.properties || {}))
      if (/\d (mm|kg|C|m)\b(?![/³²])/.test(inUnits(d.description || "", "inch"))) left.push(d.description);
  assert.deepEqual(left, []);
});

test("inches of one table are told in one way", () => {
  const two = (...values) => inOneWay(() => values.map((v) => show(v, "in")));
  assert.deepEqual(two(0.5, 7.75), ["1/2 in", "7 3/4 in"]);
  assert.deepEqual(two(0.5, 7, 0.0221), ["0.5 in", "7 in", "0.022 in"]);
  assert.equal(show(0.5, "in"), "1/2 in");
});

test("a plan in inches is asked for in fractions of a tape", () => {
  const plan = questionOf("/v1/resaw-plan"),
    schema = schemaOf(contract, plan);
  const draft = draftOf(contract, schema, Object.values(contract.questions["/v1/resaw-plan"].examples)[0]);
  const asked = (system, more) => requestOf(contract, plan, schema, { ...draft, ...more }, system, "2026-03-14").request;
  assert.equal(asked("inch").inch_fraction, "1/32");
  assert.equal(asked("inch", { inch_fraction: "1/64" }).inch_fraction, "1/64");
  assert.ok(!("inch_fraction" in asked("metric", { inch_fraction: "1/64" })));
});

test("what is open beside what is not ready is told step by step", () => {
  const { said } = sentenceOf("ready", { verdicts: [dates(["resaw", "cannot_say"]), dates(["glue", "not_ready"])] });
  assert.match(said, /^Not ready for glue\. Cannot say for resaw/);
});

const band = (value, low, high, unit) => ({ value, low, high, unit });

test("a band is told with the two digits of its width, and no zero is lost", () => {
  const mc = band(9.7, 8.61, 11.59, "%MC");
  assert.deepEqual([middle(mc), range(mc)], ["9.7 %", "8.6 to 11.6 %"]);
  assert.deepEqual(row("mc", band(10.095, 9.932, 10.218, "kg"), "mc").slice(1), ["10.10 kg", "9.93 to 10.22 kg"]);
  assert.equal(range(band(332, 257, 407, "kg")), "257 to 407 kg");
  assert.equal(range(band(0.141, 0.089, 0.198, "in")), "3/32 to 13/64 in", "to a 64th, as no more is known");
  assert.equal(range(band(0.0513, 0.0481, 0.0545, "in")), "0.048 to 0.054 in");
  assert.deepEqual([show(197.423402, "mm"), show(24.53, "%"), show(0.6802, "1"), show(40, "")], ["197.42 mm", "24.5 %", "0.6802", "40"]);
});

test("a change never has a minus, whatever its band holds", () => {
  const change = (...b) => Object.values(sayChange(band(...b, "mm"))).join("; ");
  assert.equal(change(-3.6, -5, -2.2), "Shrinks by 3.6 mm; 2.2 to 5.0 mm");
  assert.equal(change(3.6, 2.2, 5), "Swells by 3.6 mm; 2.2 to 5.0 mm");
  assert.equal(change(-0.27, -1.17, 0.61), "Shrinks by 0.3 mm; from shrinking by 1.2 to swelling by 0.6 mm");
  assert.equal(change(0.01, -1.17, 1.2), "Stays as it is; from shrinking by 1.2 to swelling by 1.2 mm");
  for (const name of ["radial_strain", "width_change"]) assert.match(row(name, band(-3.2, -5.7, -1.1, "%"), name)[1], /^Shrinks by 3\.2/);
});

test("warnings that say the same stand once, with each place that they are about", () => {
  const finish = "no finish is given: both faces are taken as bare";
  const outside = (mm, at) => ({ code: "outside_fitted_range", method: "a", detail: `thickness ${mm} mm lies outside`, pointer: at });
  const [one, two, three] = folded([
    { code: "default_used", detail: finish + "; and 2 more like it", pointer: "/parts/0/finish", subject: "lid", also_pointers: ["/parts/1/finish", "/parts/2/finish"] },
    outside(7.4, "/part"),
    { code: "caution", detail: "dust", subject: "Walnut, black" },
    outside(5.8, "/billet"),
    outside(7.4, "/billet"),
    { code: "caution", detail: "dust", subject: "Maple, sugar" },
  ]);
  const request = { parts: [{ name: "lid" }, { id: "side" }, {}] };
  assert.deepEqual(placesOf(one.pointers, request), ["side", "part 3"]);
  assert.deepEqual(two.others, ["thickness 5.8 mm lies outside"]);
  assert.deepEqual(three.subjects, ["Walnut, black", "Maple, sugar"]);
  assert.deepEqual(placesOf(["/parts/2/width", "/parts/2/thickness"], request), ["part 3, width", "part 3, thickness"], "one part alone tells no place");
  assert.deepEqual(placesOf(["/readings/1"], { readings: [{}, { date: "2026-01-04" }] }), ["4 Jan 2026"]);
});

test("texts of the service name questions and members as the page does, in the units of the maker", () => {
  assert.equal(
    words.calledHere("three weights tell more; POST /v1/readiness learns from them"),
    "Three weights tell more; “Is it ready, and if not, when?” learns from them",
  );
  assert.equal(words.calledHere("10.7 to 16.7 %MC is to be expected"), "10.7 to 16.7 % is to be expected");
  assert.equal(toldIn("length must be at most 1234 mm", "inch"), "Length must be at most 48.5 in");
  assert.equal(toldIn("length must be at most 1234 mm", "metric"), "Length must be at most 1234 mm");
  assert.equal(toldIn("15.06 kg does not fit", "inch"), "33.2 lb does not fit");
  for (const route of Object.values(contract.questions).length > 0 ? Object.keys(contract.questions) : [])
    if (!route.includes("rack")) assert.ok(words.questions[words.asked[route.slice("/v1/".length)]], route);
});

test("each setting of a plan has the figure that its words have, and the leaves it gives", () => {
  const steps = [
    { number: 1, action: "crosscut" },
    { number: 2, action: "flatten", before_kerf: { name: "blank A" } },
    { number: 3, action: "resaw", before_kerf: { name: "leaf A1" } },
    { number: 4, action: "resaw", before_kerf: { name: "leaf A2" }, beyond_kerf: { name: "leaf A3" } },
  ];
  const set = (first_step, last_step, times, detail) => ({ first_step, last_step, times, detail });
  const told = settingsOf({
    steps,
    settings: [
      set(1, 1, 1, "crosscut the billet, its start against the stop, set to 22 1/2 in (piece 1, offcut)"),
      set(2, 2, 1, "flatten piece 3 to 1 15/16 in, face 1 first, 1/32 in deep (blank A)"),
      set(3, 4, 2, "resaw blank A, the face nearest face 1 against the fence, set to 5.6 mm, 2 times: leaf A1, leaf A2"),
    ],
  });
  assert.deepEqual(
    told.map(({ action, figure, leaves }) => [action, figure, leaves.join(" ")]),
    [
      ["Crosscut", "22 1/2 in", ""],
      ["Flatten", "1/32 in", ""],
      ["Resaw", "5.6 mm × 2", "A1 A2 A3"],
    ],
  );
});

test("a weight that was likely meant goes into its line, and the day stays", () => {
  const slip = "It looks as if two digits were swapped: 10.56 for 15.06";
  assert.deepEqual(meantIn("15.06.2025\t15,06", slip), { line: "15.06.2025\t10.56", mass: "10.56" });
  assert.equal(meantIn("4.1.2026 33.2 lb", slip), undefined);
  assert.equal(meantIn("4.1.2026 15,06", "It was left out"), undefined);
});
