// A planner for instruments: is the billet ready, what does it give, how far will the parts
// move.
import { Client, type Schemas } from "./latewood/client.js";

const client = new Client(process.argv[2] ?? "http://127.0.0.1:8080");
const wood = "black walnut", rings = { angle_deg: 80 };
const shop = { air: { temperature: "20 C", rh_pct: 45 } };
const billet = { id: "B7", wood, length: "620 mm", width: "235 mm", thickness: "58 mm", rings } satisfies Schemas["Billet"];

const ready = await client.ask("/v1/readiness", {
  billet,
  target_condition: shop,
  readings: [{ kind: "pin_meter", reading_mc_pct: 9.5, wood_temperature: "18 C", depth: "20 mm" }],
});
for (const step of ready.result.verdicts) console.log(step.step, step.verdict);

const plan = await client.ask("/v1/resaw-plan", {
  billets: [billet],
  saws: [{ id: "band", usual_kerf: "bandsaw_carbide" }],
  parts: [{ id: "back", length: "560 mm", width: "210 mm", final_thickness: "2.6 mm", set_value: 100 }],
});
console.log(plan.result.summary);

const year = await client.ask("/v1/assembly-movement", {
  build_condition: shop,
  room: { station: "madison-wi", heated_to: "20 C" },
  parts: [{ id: "back", wood, rings, thickness: "2.6 mm", width: "400 mm" }],
});
for (const size of year.result.parts[0]?.sizes ?? [])
  console.log(`${size.dimension}: ${size.driest.value} to ${size.wettest.value} ${size.swing.unit}`);
for (const warning of year.warnings) console.log(warning.code, warning.pointer ?? "", warning.detail);
