// Weights on their way to the rack. Each has an id made here, so that it is kept once however
// often it is sent; until it is there it lies in this browser. Nothing here knows a page.
import { readQuantity } from "./reading.js";

const place = "latewood-weighed";
const most = 2000; // lines that were sent are forgotten from here on, the oldest first

/** random makes the end of an id. */
const random = () =>
  Array.from(crypto.getRandomValues(new Uint8Array(4)), (b) => b.toString(16).padStart(2, "0")).join("");

export class Queue {
  /** store is localStorage or like it; ask(path, options) asks the service and throws what it refuses. */
  constructor(store, ask) {
    Object.assign(this, { store, ask, listeners: [], busy: undefined });
    try {
      this.lines = JSON.parse(store.getItem(place)) || [];
    } catch {
      this.lines = [];
    }
  }

  listen(hear) {
    this.listeners.push(hear);
    return () => {
      this.listeners = this.listeners.filter((l) => l !== hear);
    };
  }

  changed() {
    const sent = this.lines.filter((l) => l.state === "sent");
    if (this.lines.length > most) this.lines = this.lines.filter((l) => l !== sent[0]);
    try {
      this.store.setItem(place, JSON.stringify(this.lines));
      this.safe = true;
    } catch {
      this.safe = false; // full, or not allowed: what is not sent is lost with the page
    }
    for (const hear of this.listeners) hear();
  }

  /** waiting are the lines that are not on the rack yet. */
  waiting() {
    return this.lines.filter((l) => l.state !== "sent");
  }

  /** of returns the line of a piece of wood on a day, the last one. */
  of(key, date) {
    return this.lines.findLast((l) => l.key === key && l.date === date && l.state !== "removing");
  }

  /** add puts a weight in line: {key: "billets/b-1", date, mass: "10.48 kg", kg}. */
  add({ key, date, mass, kg, odd }) {
    const line = { id: idFor(key, date), key, date, mass, kg, odd, state: "waiting" };
    this.lines.push(line);
    this.changed();
    return line;
  }

  /** undo takes a line back: one that was not sent is gone, one that was is removed from the rack. */
  undo(line) {
    if (line.state === "sent" || line.tried)
      line.state = "removing"; // it may have come through
    else this.lines = this.lines.filter((l) => l !== line);
    this.changed();
  }

  /**
   * settle ends a conflict: "instead" puts this weight in the place of the other, "theirs" drops
   * it. Both cannot stay: a forecast takes one weight a day.
   */
  settle(line, how) {
    if (how === "theirs") this.lines = this.lines.filter((l) => l !== line);
    else Object.assign(line, { state: "waiting", settled: how });
    this.changed();
  }

  /** flush sends what waits. It returns false when there was no connection. */
  async flush() {
    this.more = true; // what was put in line while another went is sent after it
    this.busy ??= this.sendOn();
    return this.busy;
  }

  async sendOn() {
    try {
      let there = true;
      while (this.more && there) {
        this.more = false;
        there = await this.sendAll();
      }
      return there;
    } finally {
      this.busy = undefined;
    }
  }

  async sendAll() {
    try {
      await this.removeAll(); // before others are compared: what was weighed again is no conflict
      await this.compare();
      await this.addAll();
      await this.removeAll(); // what was undone while it was on its way
      return true;
    } catch (failure) {
      if (failure.status !== undefined && failure.status < 500 && failure.status !== 401 && failure.status !== 429)
        throw failure;
      return false;
    } finally {
      this.changed();
    }
  }

  async removeAll() {
    for (const line of this.lines.filter((l) => l.state === "removing")) await this.remove(line);
  }

  // What another phone weighed on the same day, where it says something else, is shown first.
  async compare() {
    for (const line of this.lines.filter((l) => l.state === "compare")) line.state = "waiting";
    const open = this.lines.filter((l) => l.state === "waiting" && !l.settled);
    for (const date of new Set(open.map((l) => l.date))) {
      const items = await this.weighedOn(date);
      for (const line of open.filter((l) => l.date === date)) beside(line, items);
    }
  }

  /** weighedOn are the weights of a day that the rack has. */
  async weighedOn(date) {
    return (await this.ask(`/v1/rack/readings?kind=weight&from=${date}&until=${date}&limit=500`)).items;
  }

  // All at once, as a signal may be short; one by one where one of them is refused.
  async addAll() {
    const open = this.lines.filter((l) => l.state === "waiting");
    for (const line of open.filter((l) => l.settled)) await this.makeRoom(line);
    const fresh = open.filter((l) => l.state === "waiting");
    for (const line of fresh) line.tried = true;
    if (fresh.length > 1) {
      try {
        const { items } = await this.ask("/v1/rack/weighing-days", {
          body: { readings: fresh.map(entryOf) },
          key: `${fresh.length}-${fresh
            .map((l) => l.id.slice(-8))
            .join("")
            .slice(0, 56)}`,
        });
        fresh.forEach((line, i) => arrived(line, items[i]));
        this.changed();
      } catch (failure) {
        if (failure.status !== 409 && failure.status !== 422) throw failure;
      }
    }
    for (const line of open) {
      if (line.state === "waiting") await this.addOne(line);
    }
  }

  async addOne(line) {
    try {
      arrived(line, await this.ask("/v1/rack/readings", { body: entryOf(line), key: line.id }));
    } catch (failure) {
      if (failure.status === 409) await this.meet(line, failure);
      else if (failure.status === 422 || failure.status === 404 || failure.status === 400)
        Object.assign(line, { state: "refused", why: failure.message });
      else throw failure;
    }
    this.changed();
  }

  // The other weight is taken back, as it was shown; one that was changed since is shown again.
  async makeRoom(line) {
    const { id, etag } = line.theirs;
    try {
      await this.ask(`/v1/rack/readings/${id}/undo`, { body: {}, etag });
    } catch (failure) {
      if (failure.status === 412) {
        Object.assign(line, { settled: undefined });
        this.more = true;
        line.state = "compare";
        return;
      }
      if (failure.status !== 404 && failure.status !== 409 && failure.status !== 410) throw failure;
    }
    if (id === line.id) line.id = idFor(line.key, line.date);
    line.settled = undefined;
    line.theirs = undefined;
    this.changed();
  }

  // The wood was weighed on that day meanwhile, or the id is there already: this line came
  // through before, or another one has its id.
  async meet(line, failure) {
    beside(line, await this.weighedOn(line.date));
    if (line.state !== "waiting") return;
    let there;
    try {
      there = await this.ask(`/v1/rack/readings/${line.id}`);
    } catch (unknown) {
      throw unknown.status === 404 ? failure : unknown;
    }
    if (there.reading.date === line.date && same(kgOf(there), line.kg)) arrived(line, there);
    else conflicts(line, there);
  }

  async remove(line) {
    try {
      await this.ask(`/v1/rack/readings/${line.id}/undo`, { body: {}, etag: line.etag || "*", key: `u-${line.id}` });
    } catch (failure) {
      if (failure.status === 412) {
        // it was changed since: the change stays
        Object.assign(line, { state: "sent", etag: undefined, why: failure.message });
        return;
      }
      if (failure.status !== 404 && failure.status !== 409 && failure.status !== 410) throw failure;
    }
    this.lines = this.lines.filter((l) => l !== line);
    this.changed();
  }
}

// What was undone while it was on its way stays undone.
function arrived(line, { id, etag }) {
  Object.assign(line, { id, etag });
  if (line.state !== "removing") line.state = "sent";
}

const kgOf = (reading) => readQuantity(massText(reading.reading.mass), "mass", "kg").si;

const same = (a, b) => Math.abs(a - b) < 1e-9;

function conflicts(line, { id, etag, reading }) {
  const mass = massText(reading.mass);
  Object.assign(line, { state: "conflict", theirs: { id, etag, kg: kgOf({ reading }), mass } });
}

// A line beside what others weighed on its day: the same weight is there, another one is shown.
function beside(line, items) {
  const [kind, id] = line.key.split("/");
  const theirs = items.find(
    (i) => (kind === "billets" ? i.billet : i.piece) === id && i.id !== line.id && i.reading.of !== "sample_board",
  );
  if (!theirs) return;
  if (same(kgOf(theirs), line.kg)) arrived(line, theirs);
  else conflicts(line, theirs);
}

const idFor = (key, date) => `${key.split("/")[1].slice(0, 40)}-${date}-${random()}`;

/** entryOf is a line as it is sent. */
function entryOf({ id, key, date, mass }) {
  const [kind, of] = key.split("/");
  return { id, [kind === "billets" ? "billet" : "piece"]: of, reading: { kind: "weight", date, mass } };
}

/** massText is a mass as text, however it was sent. */
export const massText = (mass) => (typeof mass === "object" ? `${mass.value} ${mass.unit}` : String(mass));
