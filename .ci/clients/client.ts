// Asks the service every request of the demo through types generated from the
// contract, and prints a line for each. client.go.txt does the same in Go; the
// lines must agree.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import createClient from "openapi-fetch";
import type { components, paths } from "./schema.js";

type Schemas = components["schemas"];

const [service, demo] = process.argv.slice(2);
if (service === undefined || demo === undefined) throw new Error("usage: client SERVICE DEMO");
const client = createClient<paths>({ baseUrl: service });

const requestIn = (file: string): unknown => JSON.parse(readFileSync(join(demo, file), "utf8"));
const tell = (file: string, ...words: (string | number)[]): void => console.log([file, ...words].join(" | "));

// of takes the answer out of a reply, or stops at the problem. A text is a drawing
// or a table, for which nothing here asks.
function of<T>(file: string, reply: { data?: T; error?: Schemas["Problem"] }): Exclude<T, string> {
  const { data, error } = reply;
  if (data === undefined || typeof data === "string") throw new Error(`${file}: ${JSON.stringify(error ?? data)}`);
  return data as Exclude<T, string>;
}

const band = (q: Schemas["Band"]): string => `${q.value.toFixed(6)} ${q.unit} (${q.low.toFixed(6)} to ${q.high.toFixed(6)})`;

for (const name of readdirSync(join(demo, "rack")).sort()) {
  const file = "rack/" + name;
  const { result } = of(file, await client.POST("/v1/readiness", { body: requestIn(file) as Schemas["ReadinessRequest"] }));
  tell(file, result.summary, result.moisture.mc.value.toFixed(6), ...result.verdicts.map((s) => `${s.step}: ${s.verdict}`));
}
for (const name of readdirSync(join(demo, "seasoning")).sort()) {
  const file = "seasoning/" + name;
  const { result } = of(file, await client.POST("/v1/seasoning", { body: requestIn(file) as Schemas["SeasoningRequest"] }));
  tell(file, result.summary, result.mean_dry.value ?? "never");
}
for (const name of readdirSync(join(demo, "instrument")).sort()) {
  const file = "instrument/" + name;
  const { result } = of(file, await client.POST("/v1/assembly-movement", { body: requestIn(file) as Schemas["AssemblyMovementRequest"] }));
  tell(file, result.summary, result.parts.length, result.pairs.length);
}
{
  const file = "drop-top.json";
  const { result } = of(file, await client.POST("/v1/movement", { body: requestIn(file) as Schemas["MovementRequest"] }));
  tell(file, band(result.change));
}
{
  const file = "set-of-leaves.json";
  const { result } = of(file, await client.POST("/v1/leaf-yield", { body: requestIn(file) as Schemas["LeafYieldRequest"] }));
  tell(file, result.leaves, result.sets, result.unpaired_leaves);
}
{
  const file = "winter-air.json";
  const { result } = of(file, await client.POST("/v1/air", { body: requestIn(file) as Schemas["AirRequest"] }));
  tell(file, result.heated?.rh_pct.toFixed(6) ?? "not heated");
}

// Written out, so that the compiler holds the request against the contract: a
// quantity in each of its two forms, and the answer in inches.
const written: Schemas["MovementRequest"] = {
  wood: "maple-sugar",
  size: { value: 13, unit: "in" },
  direction: "tangential",
  from_condition: { air: { temperature: "68 F", rh_pct: 45 } },
  to_condition: { mc_pct: 6 },
  report_in: "inch",
};
tell("written out", band(of("written out", await client.POST("/v1/movement", { body: written })).result.change));

// A member that the contract does not know does not compile.
// @ts-expect-error
const wrong: Schemas["MovementRequest"] = { ...written, kerf: "2 mm" };
const { response, error } = await client.POST("/v1/movement", { body: wrong });
const problem = error as Schemas["Problem"] | undefined;
tell("wrong member", response.status, ...(problem?.errors ?? []).map((e) => `${e.pointer}: ${e.code}`));

const page = of("species", await client.GET("/v1/species", { params: { query: { q: "walnut", limit: 2 } } }));
tell("species", page.total, ...page.items.map((s) => s.id));
const absent = await client.GET("/v1/species/{id}", { params: { path: { id: "no-such-wood" } } });
tell("no such wood", absent.response.status, (absent.error as Schemas["Problem"] | undefined)?.type ?? "no problem");
