// A weighing day without a browser: the order of the round, what is odd, pasted lists, labels; and
// the line of weights to the rack, with lost replies, two telephones and undo.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Queue } from "./queue.js";
import { sizesText, standingOf, weightsOf } from "./rackread.js";
import { idIn, keyOf, named, readRound, roundOf, slipsOf, weighed } from "./round.js";

const wood = (id, place, more = {}) => ({ kind: "billet", id, place, ...more });

test("the round goes place by place, by spot and number, and as it went before", () => {
  const all = [
    wood("w-10", "b"),
    wood("w-2", "b"),
    wood("x", undefined),
    wood("w-1", "a", { spot: "A-2" }),
    wood("w-9", "a", { spot: "A-1" }),
  ];
  assert.deepEqual(
    roundOf(all).map((w) => w.id),
    ["w-9", "w-1", "w-2", "w-10", "x"],
  );
  assert.deepEqual(
    roundOf(all, ["billets/w-10", "billets/w-2"]).map((w) => w.id),
    ["w-9", "w-1", "w-10", "w-2", "x"],
  );
});

test("a weight that does not fit is asked about, with the slip that would explain it", () => {
  const w = wood("w-7", "a", {
    last: { kg: 10.52, date: "2026-02-08" },
    expect: { value: 10.48, low: 10.44, high: 10.52 },
  });
  assert.equal(weighed(w, "10.48", "metric").odd, undefined);
  const odd = weighed(w, "15.06", "metric").odd;
  assert.equal(odd.below, false);
  assert.ok(odd.off > 4.4 && odd.off < 4.6, String(odd.off));
  assert.deepEqual(weighed(w, "13.07", "metric").odd.slips, [], "no neighbours that fit");
  assert.deepEqual(weighed(w, "10.84", "metric").odd.slips, ["10.48"]);
  assert.deepEqual(weighed(w, "104.8", "metric").odd.slips, ["10.48"]);
  assert.ok(weighed(w, "1.048", "metric").odd.below);
  assert.match(weighed(w, "10,4,8", "metric").wrong, /not a number/);
  assert.match(weighed(w, "0", "metric").wrong, /more than 0/);
  assert.equal(weighed({ plausible: { low: 1, high: 2 } }, "4 lb", "metric").odd, undefined, "its unit is read");
  assert.equal(weighed(wood("new", "a"), "3", "inch").text, "3 lb", "nothing is odd of wood never weighed");
  assert.ok(weighed(wood("w", "a", { last: { kg: 5 } }), "6", "metric").odd, "a fifth more than last time");
  assert.deepEqual(
    slipsOf("12", () => true),
    ["21", "1.2"],
  );
});

test("a list is read with its wrong lines, ids in any case, days and units", () => {
  const all = [wood("W-7", "a"), wood("w-8", "a"), { kind: "piece", id: "w-8", place: "a" }];
  const { rows, wrongs } = readRound(
    "id\tkg\nw-7\t6,05\nw-9 3\nw-8 4\nw-7; 13 lb 4 oz; 1.3.2026\nW-7\n",
    all,
    "metric",
    "2026-03-14",
  );
  assert.deepEqual(
    rows.map((r) => [r.line, r.wood.id, r.date]),
    [
      [2, "W-7", "2026-03-14"],
      [5, "W-7", "2026-03-01"],
    ],
  );
  assert.ok(Math.abs(rows[1].kg - 13.25 * 0.45359237) < 1e-9);
  assert.deepEqual(
    wrongs.map((w) => w.line),
    [3, 4, 6],
  );
  assert.match(wrongs[0].why, /w-9 is not on the rack/);
  assert.match(wrongs[1].why, /billet or a piece/);
});

test("a label tells its id, whatever its address looks like", () => {
  for (const text of [
    "HTTP://SHOP.EXAMPLE/B/W-7",
    "http://shop.example/b/W-7",
    "https://shop.example/v1/rack/billets/W-7/card?as=html",
    "HTTP://SHOP.EXAMPLE/P/W-7", // of a piece
    " W-7 ",
  ])
    assert.equal(idIn(text), "W-7");
  const all = [wood("w-7", "a"), wood("W-7", "a"), wood("x-1", "a")];
  assert.deepEqual(named(all, "W-7").map(keyOf), ["billets/W-7"]);
  assert.equal(named(all, "X-1").length, 1);
  assert.equal(named([wood("a", "p"), wood("A", "p")].slice(0, 1), "A").length, 1);
});

test("what the rack tells is sorted as one looks at it", () => {
  const on = { value: "2027-01-10", low: "2026-12-01", high: "2027-06-01" };
  const open = [{ step: "resaw", verdict: "cannot_say" }];
  const pieces = ["a", "b", "c", "d", "e", "f"].map((id) => wood(id, "s", { verdicts: id > "d" ? open : [] }));
  const overview = {
    contradictions: [{ kind: "billet", id: "a", detail: "7 kg does not fit" }],
    ready_now: [{ kind: "billet", id: "b", step: "glue" }],
    may_be_ready: [{ kind: "billet", id: "f", step: "resaw", probability: 0.51 }],
    ready_next: [
      { kind: "billet", id: "b", step: "thickness", ready_on: on },
      { kind: "billet", id: "a", step: "resaw", ready_on: on },
      { kind: "billet", id: "e", step: "resaw", probability: 0.79, ready_on: on },
    ],
    unanswered: [{ kind: "billet", id: "d", detail: "no target" }],
    next_readings: [
      { kind: "billet", id: "a", reading_kind: "weight", expected_mass: { value: 2, low: 1, high: 3, unit: "kg" } },
    ],
  };
  const s = standingOf({ overview, wood: pieces });
  assert.deepEqual(
    [s.looks, s.ready, s.unsure, s.waiting, s.unknown].map((l) => l.map((w) => w.id).join()),
    ["a", "b", "f,e", "a", "c,d"],
  );
  assert.equal(s.unknown[1].why, "no target");
  const told = weightsOf(overview, {
    ...pieces[0],
    last_weight: { date: "2026-03-01", mass: { value: 5, unit: "lb" } },
  });
  assert.equal(told.last.text, "5 lb");
  assert.equal(told.expect.high, 3);
  const own = weightsOf(overview, {
    ...pieces[1],
    last_weight: { date: "2026-02-01", mass: { value: 2, unit: "lb" } },
    expected_mass: { value: 1.5, low: 1, high: 2, unit: "lb" },
    plausible_mass: { low: 1, high: 2, unit: "lb" },
  });
  assert.ok(Math.abs(own.expect.value - 1.5 * 0.45359237) < 1e-9);
  assert.ok(Math.abs(own.last.kg - 0.90718474) < 1e-9 && Math.abs(own.plausible.high - 0.90718474) < 1e-9);
  assert.equal(sizesText(["620 mm", "230 mm", { value: 52, unit: "mm" }]), "620 × 230 × 52 mm");
  assert.equal(sizesText(["24 in", "9 in", "52 mm"]), "24 in × 9 in × 52 mm");
  assert.equal(sizesText(["620 mm", "7 1/2 in"], "inch"), "24 7/16 × 7 1/2 in");
  assert.equal(sizesText(["620 mm", "10 in"], "metric"), "620 × 254 mm");
});

// A rack in memory, and a connection that breaks before or after what is sent.
class Rack {
  constructor() {
    this.readings = new Map();
    this.broken = "";
    this.asked = 0;
  }

  async ask(path, { method = "GET", body, etag, key } = {}) {
    this.asked++;
    if (this.broken === "before") throw new TypeError("no connection");
    const answer = this.answer(path.split("?")[0], body && method === "GET" ? "POST" : method, body, etag, key, path);
    if (this.broken === "after") throw new TypeError("no connection");
    if (answer.status) throw Object.assign(new Error(answer.status), answer);
    return answer;
  }

  put(entry) {
    const kept = { ...entry, etag: `"${Math.random()}"` };
    this.readings.set(entry.id, kept);
    return kept;
  }

  // One weight a day.
  weighed({ id, billet, reading }) {
    return [...this.readings.values()].some((r) => r.billet === billet && r.reading.date === reading.date && r.id !== id);
  }

  answer(path, method, body, etag, key, whole) {
    const [, , , kind, id, deed] = path.split("/");
    if (kind === "weighing-days") {
      if (body.readings.some((r) => this.readings.has(r.id) || this.weighed(r))) return { status: 409 };
      if (body.readings.some((r) => r.billet === "gone")) return { status: 422 };
      return { items: body.readings.map((r) => this.put(r)) };
    }
    if (method === "GET" && !id) {
      const date = /from=([^&]*)/.exec(whole)[1];
      return { items: [...this.readings.values()].filter((r) => r.reading.date === date) };
    }
    if (method === "GET") return this.readings.get(id) || { status: 404 };
    if (deed === "undo") {
      if (etag !== "*" && this.readings.has(id) && this.readings.get(id).etag !== etag) return { status: 412 };
      return this.readings.delete(id) ? {} : { status: 404 };
    }
    if (this.readings.has(body.id) || this.weighed(body)) return { status: 409 };
    return body.billet === "gone" ? { status: 422 } : this.put(body);
  }
}

function stored() {
  const held = new Map();
  return { getItem: (k) => held.get(k) ?? null, setItem: (k, v) => held.set(k, v) };
}

const line = (id, kg) => ({ key: `billets/${id}`, date: "2026-03-14", mass: `${kg} kg`, kg });
const masses = (rack) => [...rack.readings.values()].map((r) => `${r.billet} ${r.reading.mass}`).sort();

test("weights wait without a connection, survive a reload, and come once", async () => {
  const rack = new Rack(),
    store = stored();
  const ask = (...a) => rack.ask(...a);
  let queue = new Queue(store, ask);
  rack.broken = "before";
  queue.add(line("a", 1));
  queue.add(line("b", 2));
  assert.equal(await queue.flush(), false);
  queue = new Queue(store, ask);
  assert.equal(queue.waiting().length, 2);
  rack.broken = "after"; // it comes through, the reply is lost
  assert.equal(await queue.flush(), false);
  rack.broken = "";
  queue.add(line("c", 3));
  assert.equal(await queue.flush(), true);
  assert.deepEqual(masses(rack), ["a 1 kg", "b 2 kg", "c 3 kg"]);
  assert.equal(queue.waiting().length, 0);
  assert.ok(queue.lines.every((l) => l.etag));
});

test("what the rack refuses is told at its line, and the others go", async () => {
  const rack = new Rack(),
    queue = new Queue(stored(), (...a) => rack.ask(...a));
  for (const id of ["a", "gone", "b"]) queue.add(line(id, 1));
  assert.equal(await queue.flush(), true);
  assert.deepEqual(masses(rack), ["a 1 kg", "b 1 kg"]);
  assert.deepEqual(
    queue.lines.map((l) => l.state),
    ["sent", "refused", "sent"],
  );
});

test("an undo before, on the way and after", async () => {
  const rack = new Rack(),
    queue = new Queue(stored(), (...a) => rack.ask(...a));
  queue.undo(queue.add(line("a", 1)));
  assert.equal(queue.lines.length, 0, "never sent, it is simply gone");
  const b = queue.add(line("b", 2));
  const going = queue.flush();
  queue.undo(b);
  await going;
  await queue.flush();
  assert.deepEqual(masses(rack), []);
  const c = queue.add(line("c", 3));
  await queue.flush();
  queue.undo(c);
  queue.add(line("c", 4));
  await queue.flush();
  assert.deepEqual(masses(rack), ["c 4 kg"], "weighed again on the same day is no conflict");
});

test("two telephones, two weights: both are shown, and one says which counts", async () => {
  for (const [how, want] of [
    ["instead", ["a 1 kg"]],
    ["theirs", ["a 9 kg"]],
  ]) {
    const rack = new Rack(),
      queue = new Queue(stored(), (...a) => rack.ask(...a));
    rack.put({ id: "other", billet: "a", reading: { kind: "weight", date: "2026-03-14", mass: "9 kg" } });
    const mine = queue.add(line("a", 1));
    await queue.flush();
    assert.equal(mine.state, "conflict");
    assert.equal(mine.theirs.mass, "9 kg");
    queue.settle(mine, how);
    await queue.flush();
    assert.deepEqual(masses(rack), want, how);
    assert.equal(queue.waiting().length, 0);
  }
});

test("two telephones, one weight: it is there once; one that comes between is shown", async () => {
  const rack = new Rack();
  const other = (billet, mass) =>
    rack.put({ id: `other-${billet}`, billet, reading: { kind: "weight", date: "2026-03-14", mass } });
  let between;
  const queue = new Queue(stored(), (path, options) => {
    if (options?.body?.readings || options?.body?.reading) between?.();
    return rack.ask(path, options);
  });
  other("a", "1 kg");
  for (const id of ["a", "b", "c", "d"]) queue.add(line(id, 1));
  between = () => {
    between = undefined; // after this telephone looked, before what it sends is there
    other("b", "1 kg");
    other("c", "9 kg");
  };
  assert.equal(await queue.flush(), true);
  assert.deepEqual(
    queue.lines.map((l) => l.state),
    ["sent", "sent", "conflict", "sent"],
  );
  assert.deepEqual(masses(rack), ["a 1 kg", "b 1 kg", "c 9 kg", "d 1 kg"]);
  queue.settle(queue.lines[2], "instead");
  await queue.flush();
  assert.deepEqual(masses(rack), ["a 1 kg", "b 1 kg", "c 1 kg", "d 1 kg"]);
});

test("a weight that was changed after it was shown is shown again before it gives way", async () => {
  const rack = new Rack(),
    queue = new Queue(stored(), (...a) => rack.ask(...a));
  const other = (mass) => rack.put({ id: "other", billet: "a", reading: { kind: "weight", date: "2026-03-14", mass } });
  other("9 kg");
  const mine = queue.add(line("a", 1));
  await queue.flush();
  other("8 kg");
  queue.settle(mine, "instead");
  await queue.flush();
  assert.equal(mine.state, "conflict");
  assert.equal(mine.theirs.mass, "8 kg");
  queue.settle(mine, "instead");
  await queue.flush();
  assert.deepEqual(masses(rack), ["a 1 kg"]);
});
