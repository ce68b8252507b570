import { NetworkBuilder } from "#engine/conduction";
import { heatContentOf } from "#engine/materials";
import { addRingSolid, cellEdges, discGrid } from "#work/cases";
import { heldNode, runTo, tight } from "./slab-network.ts";
import type { VerificationCase, Verified } from "./verification-case.ts";

const disc = { radius: 0.21, thickness: 0.015, k: 1.5, density: 2100, specificHeat: 950, film: 150 };

/** Temperature of a disc that met a hot room 200 s ago, at its rim's corner or the middle of its face [K]. */
function discAt(place: "corner" | "face", refinement: number): number {
  const { radius, thickness, k, density, specificHeat, film } = disc;
  const builder = new NetworkBuilder();
  const room = heldNode(builder, 1000);
  const grid = {
    first: 0.06 / refinement,
    growth: 0.3 / refinement,
    widest: 0.06 / refinement,
    deepest: 0.1 / refinement,
  };
  const { r, z } = discGrid(radius, 0, thickness, grid);
  const matter = { k, rho: density, heat: heatContentOf([[20, specificHeat]]), emissivity: 0.9 };
  const { nodes } = addRingSolid(builder, [], r, z, matter, { solid: 0 });
  const [re, ze] = [cellEdges(r), cellEdges(z)];
  const across = r.length;
  const cool = (node: number, area: number): void => builder.link(node, room, area, { base: film, slope: 0 });
  for (let i = 0; i < across; i++) {
    const area = Math.PI * (re[i + 1] ** 2 - re[i] ** 2);
    cool(nodes[i], area);
    cool(nodes[(z.length - 1) * across + i], area);
  }
  for (let j = 0; j < z.length; j++) cool(nodes[j * across + across - 1], 2 * Math.PI * radius * (ze[j + 1] - ze[j]));
  const { state } = runTo(builder, 300, 200, { ...tight, perStep: 0.005 });
  return state[nodes[place === "corner" ? across - 1 : 0]];
}

/*
 * Product of the series for a slab and a cylinder, summed to 60 and 300 terms with SciPy 1.x (brentq for the roots,
 * j0 and j1 for the Bessel functions) from the formulas of the source.
 */
const exact = { corner: 959.1747672141385, face: 887.8178801626475 };

const source = "[carslaw-jaeger] sections 3.11 and 7.7, finite cylinder as a product of slab and cylinder";

const check = (place: "corner" | "face", tolerance: number) => (): Verified => ({
  computed: discAt(place, 2),
  reference: exact[place],
  tolerance,
  unit: "K",
});

export const cylinderCases: readonly VerificationCase[] = [
  {
    id: "conduction-disc-corner",
    quantity: "corner of a shelf's rim 200 s after it met a hot room",
    source,
    run: check("corner", 0.1),
  },
  {
    id: "conduction-disc-face",
    quantity: "middle of a shelf's face 200 s after it met a hot room",
    source,
    run: check("face", 0.2),
  },
];
