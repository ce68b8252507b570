import { areaOf, type Outline } from "#engine/geometry";
import { powerOf, type Kiln, type Lining } from "#engine/kiln";
import { celsiusFromKelvin, type Kelvin, type KelvinPerSecond, type Kilograms } from "#engine/units";

/** Ware and shelves in an ordinary full load, per volume of chamber [kg/m3]. Estimated by us from weighed loads. */
const usualLoadDensity = 300;
/** Mean heat capacity of fired clay and shelves to 1000 C [J/(kg K)]. */
const wareHeatCapacity = 1050;
/** Share of a lining's mass that has followed the hot face; a straight profile would be 0.5. */
const liningShare = 0.55;

/**
 * Rate at which a kiln can still climb at a temperature [K/s]; 0 or less where it cannot go on.
 *
 * Power at the present supply and wear, less steady loss through the lining, over the heat capacity of load and
 * lining. For choosing a starting schedule only: ±30 %, estimated by us. The forecast computes it.
 *
 * @param load  ware and furniture [kg]; left out: an ordinary full load
 */
export function attainableRate(kiln: Kiln, temperature: Kelvin, room: Kelvin, load?: Kilograms): KelvinPerSecond {
  const floorArea = areaOf(kiln.chamber.plan);
  const sides: readonly [Lining, number][] = [
    [kiln.wall, perimeterOf(kiln.chamber.plan) * kiln.chamber.height],
    [kiln.lid, floorArea],
    [kiln.floor, floorArea],
  ];
  let loss = 0;
  let capacity = (load ?? usualLoadDensity * floorArea * kiln.chamber.height) * wareHeatCapacity;
  for (const [lining, inner] of sides) {
    // Half way through the lining the area has grown; small kilns lose more than their hot face suggests.
    const area = inner * (1 + lining.thickness / Math.sqrt(floorArea));
    const { base, slope } = lining.conductivity;
    const conductivity = base + (slope * (celsiusFromKelvin(temperature) + celsiusFromKelvin(room))) / 2;
    loss += (conductivity * area * (temperature - room)) / lining.thickness;
    capacity += area * lining.thickness * lining.density * lining.heatCapacity * liningShare;
  }
  return (powerOf(kiln) - loss) / capacity;
}

function perimeterOf(plan: Outline): number {
  switch (plan.kind) {
    case "disc":
      return 2 * Math.PI * plan.radius;
    case "half-disc":
      return (Math.PI + 2) * plan.radius;
    case "rectangle":
      return 2 * (plan.width + plan.depth);
    case "polygon":
      return 2 * plan.sides * plan.inradius * Math.tan(Math.PI / plan.sides);
  }
}
