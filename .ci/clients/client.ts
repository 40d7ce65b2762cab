// Asks the service every request of the demo through the client in TypeScript, and prints a
// line for each. main.go does the same in Go; the lines must agree.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { Client, ProblemError, of } from "./latewood/client.js";
import type { Asking, Calculation, Item, Request, Schemas } from "./latewood/client.js";

const [service, demo] = process.argv.slice(2);
if (service === undefined || demo === undefined) throw new Error("usage: client SERVICE DEMO");
const client = new Client(service);

const requestIn = <P extends Calculation>(_: P, file: string): Request<P> => JSON.parse(readFileSync(join(demo, file), "utf8"));
const tell = (file: string, ...words: (string | number | boolean)[]): void => console.log([file, ...words].join(" | "));
const asked = <P extends Calculation>(path: P, file: string) => client.ask(path, requestIn(path, file));
const band = (q: Schemas["Band"]): string => `${q.value.toFixed(6)} ${q.unit} (${q.low.toFixed(6)} to ${q.high.toFixed(6)})`;

for (const name of readdirSync(join(demo, "rack")).sort()) {
  const { result } = await asked("/v1/readiness", "rack/" + name);
  tell("rack/" + name, result.summary, result.moisture.mc.value.toFixed(6), ...result.verdicts.map((s) => `${s.step}: ${s.verdict}`));
}
for (const name of readdirSync(join(demo, "seasoning")).sort()) {
  const { result } = await asked("/v1/seasoning", "seasoning/" + name);
  tell("seasoning/" + name, result.summary, result.mean_dry.value ?? "never");
}
for (const name of readdirSync(join(demo, "instrument")).sort()) {
  const { result } = await asked("/v1/assembly-movement", "instrument/" + name);
  tell("instrument/" + name, result.summary, result.parts.length, result.pairs.length);
}
tell("drop-top.json", band((await asked("/v1/movement", "drop-top.json")).result.change));
const { leaves, sets, unpaired_leaves } = (await asked("/v1/leaf-yield", "set-of-leaves.json")).result;
tell("set-of-leaves.json", leaves, sets, unpaired_leaves);
tell("winter-air.json", (await asked("/v1/air", "winter-air.json")).result.heated?.rh_pct.toFixed(6) ?? "not heated");

// Written out, so that the compiler holds the request against the contract: a
// quantity in each of its two forms, and the answer in inches.
const written: Request<"/v1/movement"> = {
  wood: "maple-sugar",
  size: of(13, "in"),
  direction: "tangential",
  from_condition: { air: { temperature: "68 F", rh_pct: 45 } },
  to_condition: { mc_pct: 6 },
  report_in: "inch",
};
tell("written out", band((await client.ask("/v1/movement", written)).result.change));

// A member that the contract does not know does not compile.
// @ts-expect-error
const wrong: Request<"/v1/movement"> = { ...written, kerf: "2 mm" };
void wrong;

// caught is the problem that a call ends with.
async function caught(call: Promise<unknown>): Promise<ProblemError> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ProblemError) return error;
    throw error;
  }
  throw new Error("no problem was told");
}
const problem = await caught(client.ask("/v1/movement", { ...written, size: "13" }));
if (problem.at("/size") === undefined) throw problem;
tell("wrong size", problem.status, ...(problem.problem.errors ?? []).map((e) => `${e.pointer}: ${e.code}`));

const page = await client.look("/v1/species", { query: { q: "walnut", limit: 2 } });
tell("species", page.total, ...page.items.map((s) => s.id));
const absent = await caught(client.look("/v1/species/{id}", { fill: { id: "no-such-wood" } }));
tell("no such wood", absent.status, absent.problem.type);

const first = await client.ask("/v1/movement", written, { tag: "" });
tell("held", (await client.ask("/v1/movement", written, { tag: first?.tag ?? "" })) === undefined);

const items = [9, 10, 11].map((inches): Item => ({ id: String(inches), route: "/v1/movement", request: { ...written, size: of(inches, "in") } }));
for await (const item of client.stream(items, { method: "QUERY" })) {
  if (item.route !== "/v1/movement" || item.answer === undefined) throw new Error(JSON.stringify(item));
  tell("streamed", item.line ?? 0, item.id ?? "", band(item.answer.result.change));
}

// A drawing has a tag too; in place of an answer it does not compile.
const section = JSON.parse(readFileSync(join("api", "examples", "section-shape.flatsawn-board-after-drying.json"), "utf8"));
const drawn = await client.rendered("/v1/section-shape", "svg", section, { tag: "" });
if (drawn === undefined) throw new Error("no drawing");
tell("drawn", drawn.type, (await drawn.text()).startsWith("<svg"), (await client.rendered("/v1/section-shape", "svg", section, { tag: drawn.tag ?? "" })) === undefined);
// @ts-expect-error
const asDrawing: Asking<"/v1/section-shape"> = { query: { as: "svg" } };
void asDrawing;
