// Makes psychrometrics.csv, the table against which package woodphys/air is
// tested, with an independent general-purpose library of psychrometrics (MIT
// licence). Not needed to build or to test; to remake the table, in a
// directory outside the repository:
//
//   npm install psychrolib@1.1.1
//   NODE_PATH=$PWD/node_modules node REPOSITORY/testdata/published/psychrometrics_oracle.mjs > psychrometrics.csv
//
// Definitions of the library that differ from ours: at and below 0.01 degC its
// saturation pressure is over ice, so that its relative humidity refers to ice
// there, its dew point is a frost point, and its wet bulb at or below 0 degC is
// iced. The test compares on these definitions.
import { createRequire } from "node:module";
import { join } from "node:path";

const require = createRequire(join(process.env.NODE_PATH ?? process.cwd(), "x.js"));
const library = require("psychrolib");
library.SetUnitSystem(library.SI);

const source = "psychrolib 1.1.1 (npm), SI units";
console.log("temperature_c,rh_pct,pressure_pa,vapour_pressure_pa,humidity_ratio,dew_or_frost_point_c,wet_bulb_c,source,checked");
for (const pressure of [101325, 89875, 70000]) {
  for (let t = -20; t <= 60; t += 5) {
    for (const rh of [5, 15, 30, 50, 65, 80, 95, 100]) {
      const ratio = library.GetHumRatioFromRelHum(t, rh / 100, pressure);
      const row = [
        t, rh, pressure,
        library.GetVapPresFromRelHum(t, rh / 100).toPrecision(9),
        ratio.toPrecision(9),
        library.GetTDewPointFromRelHum(t, rh / 100).toFixed(4),
        library.GetTWetBulbFromHumRatio(t, ratio, pressure).toFixed(4),
        source, "computed",
      ];
      console.log(row.map((v) => (String(v).includes(",") ? `"${v}"` : v)).join(","));
    }
  }
}
