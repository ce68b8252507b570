import { unattended } from "#base";
import { prepareFiring, runFiring, type Forecast } from "#engine/firing";
import { resolutionFor, type MeshGrade } from "#engine/radiation";
import { evenMugs, grid, studyLoad, studySchedule } from "./study-load.ts";

/*
 * How far preview and full grade are from a fine mesh, in cones: `npx tsx validation/mesh-error.ts`. The figures go
 * into src/engine/firing/numerical-error.ts.
 */

const tiles = grid(0.118, 0.06);
const mugs = grid(0.092, 0.043);
const loads = {
  "even mugs": evenMugs(),
  "low layers of tiles below mugs and bowls": studyLoad([
    { z: 0.041, shape: "tile", at: tiles },
    { z: 0.085, shape: "tile", at: tiles },
    { z: 0.129, shape: "tile", at: tiles },
    { z: 0.173, shape: "mug", at: mugs },
    { z: 0.302, shape: "mug", at: mugs },
    { z: 0.431, shape: "bowl", at: grid(0.165, 0.078) },
  ]),
};

for (const [name, load] of Object.entries(loads)) {
  const forecast = (cut: MeshGrade, seed: number): Forecast => {
    const grade = cut === "preview" ? "preview" : "full";
    const prepared = prepareFiring(load, grade, seed, unattended, { resolution: resolutionFor(load, cut) });
    const run = runFiring(prepared, studySchedule(), {}, unattended);
    if (!run.ok) throw new Error(run.failure.message);
    return run.value;
  };
  const fine = forecast("fine", 1);
  console.log(`${name}: ${fine.pieces.length} pieces, fine mesh ${fine.patches} patches`);
  for (const [cut, seed] of [
    ["preview", 1],
    ["standard", 1],
    ["standard", 2],
  ] as const) {
    const { pieces, patches } = forecast(cut, seed);
    const off = pieces.map((piece, i) => piece.heatwork.mean - fine.pieces[i].heatwork.mean);
    const mean = off.reduce((sum, each) => sum + each, 0) / off.length;
    const square = Math.sqrt(off.reduce((sum, each) => sum + each * each, 0) / off.length);
    const most = Math.max(...off.map(Math.abs));
    console.log(
      `  ${cut} (seed ${seed}), ${patches} patches: ` +
        `mean ${mean.toFixed(3)}, root mean square ${square.toFixed(3)}, most ${most.toFixed(3)} cone`,
    );
  }
}
