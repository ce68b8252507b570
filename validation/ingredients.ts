import { unattended } from "#base";
import { allIngredients, prepareFiring, runFiring, type Forecast, type Ingredients } from "#engine/firing";
import type { Load } from "#engine/kiln";
import { evenMugs, grid, studyLoad, studySchedule } from "./study-load.ts";

/*
 * What each part of the physics is worth: how far a layer's mean moves, in cones, when it is left out.
 * `npx tsx validation/ingredients.ts`
 */

const tiles = grid(0.118, 0.06);
const mugs = grid(0.11, 0.043);
const loads: Readonly<Record<string, Load>> = {
  "even mugs": evenMugs(),
  "tiles below, mugs above": studyLoad([
    ...[0.041, 0.091, 0.141, 0.191].map((z) => ({ z, shape: "tile", at: tiles })),
    { z: 0.241, shape: "mug", at: mugs },
    { z: 0.42, shape: "mug", at: mugs },
  ]),
};

function layers(load: Load, { pieces }: Forecast): readonly number[] {
  return load.setting.shelves.map(({ id }) => {
    const own = pieces.filter(({ pieceId }) => pieceId.startsWith(`${id}-`)).map(({ heatwork }) => heatwork.mean);
    return own.reduce((sum, each) => sum + each, 0) / own.length;
  });
}

for (const [name, load] of Object.entries(loads)) {
  const prepared = prepareFiring(load, "full", 1, unattended);
  const found = (vent: boolean, ingredients: Partial<Ingredients>): readonly number[] => {
    const run = runFiring(prepared, studySchedule(), { vent, ingredients }, unattended);
    if (!run.ok) throw new Error(run.failure.message);
    return layers(load, run.value);
  };
  const all = found(true, {});
  const told = (values: readonly number[]): string => values.map((each) => each.toFixed(2).padStart(6)).join(" ");
  console.log(`${name}, layers from the bottom\n${"all".padEnd(22)} ${told(all)}`);
  const without = (words: string, values: readonly number[]): void =>
    console.log(`${words.padEnd(22)} ${told(values.map((each, i) => each - all[i]))}`);
  without("without vent", found(false, {}));
  for (const part of Object.keys(allIngredients) as (keyof Ingredients)[]) {
    if (part !== "unfired") without(`without ${part}`, found(true, { [part]: false }));
  }
}
