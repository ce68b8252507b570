import { failure, success, type Outcome, type RunControl } from "#base";
import type { Footprint, RoundedBox } from "#engine/geometry";
import {
  columnBound,
  coveredArea,
  partsOf,
  roundShares,
  solveColumn,
  type ColumnProblem,
  type MipSolver,
  type Region,
} from "#engine/placing";
import { CaseFault, CaseReader } from "./case-json.ts";

/** What the case door prints for a queue of pieces and a round kiln; millimetres. */
export interface LoadCase {
  readonly value: number;
  /** Proven: no setting of full shelves by the case's rules is worth more. */
  readonly bound: number;
  /** `z_mm`: top of the shelf; `height_mm`: free height above it, to the next shelf or the lid. */
  readonly layers: readonly { readonly z_mm: number; readonly height_mm: number }[];
  readonly placed: readonly {
    readonly id: string | number;
    readonly layer: number;
    readonly x_mm: number;
    readonly y_mm: number;
    readonly angle_rad: number;
  }[];
  readonly cpu_s: number;
}

export interface LoadOptions {
  /** Time for search and bound together [s], as told by `control.elapsed`. */
  readonly seconds: number;
  readonly seed: number;
  readonly solver: MipSolver;
  readonly control: RunControl;
}

/**
 * The most valuable setting found for a load case, and a proven bound.
 *
 * @returns the case's answer, or one line of text that names the place and the remedy
 */
export function solveLoadCase(json: unknown, options: LoadOptions): Outcome<LoadCase, string> {
  const { control, solver, seconds, seed } = options;
  try {
    const started = control.elapsed();
    const spent = (): number => control.elapsed() - started;
    const queue = readLoad(new CaseReader(json));
    const { problem, ids } = queue;
    const total = problem.worth.reduce((sum, worth) => sum + worth, 0);
    const { solution } = solveColumn(problem, { seconds: seconds - spent(), steps: Infinity }, seed, control);
    const bound =
      solution.worth >= total - 1e-9 ? total : columnBound(problem, queue.shares(), solver, control.cancelled);
    return success({
      value: solution.worth,
      bound,
      layers: solution.layers.map(({ level }) => ({ z_mm: level.z0 * 1000, height_mm: (level.z1 - level.z0) * 1000 })),
      placed: solution.layers.flatMap(({ bays }, layer) =>
        bays.flatMap(({ members, poses }) =>
          members.map((item, m) => ({
            id: ids[item],
            layer,
            x_mm: poses[3 * m] * 1000,
            y_mm: poses[3 * m + 1] * 1000,
            angle_rad: poses[3 * m + 2],
          })),
        ),
      ),
      cpu_s: spent(),
    });
  } catch (fault) {
    if (fault instanceof CaseFault) return failure(fault.message);
    throw fault;
  }
}

interface Queue {
  readonly problem: ColumnProblem;
  readonly ids: readonly (string | number)[];
  /** Limits of one layer, for the bound. */
  readonly shares: () => ReturnType<typeof roundShares>;
}

const halfInch = 0.0127;
/** Asked for beyond every clearance in the plan [m], so that rounding of the printed numbers breaks no rule. */
const slack = 1e-4;

function readLoad(reader: CaseReader): Queue {
  const kiln = reader.at("kiln");
  const length = (key: string, low = 0): number => kiln.at(key).number(low) / 1000;
  const shelfRadius = kiln.at("shelfR_mm").positive() / 1000;
  const gap = length("glazeGap_mm");
  const thickness = length("shelfThick_mm");
  const count = kiln.at("nPosts").whole(0, 24);
  const postRadius = length("postR_mm");
  const items = reader.at("items").list(1).map(readItem);
  const posts = kiln
    .at("postSets_halfInches")
    .list(0)
    .map((entry) => {
      const [posts, sets] = entry.list(2) as [CaseReader, CaseReader];
      return { length: posts.positive() * halfInch, sets: sets.whole(0, 1000) };
    });
  const problem: ColumnProblem = {
    parts: partsOf(items.map((item) => item.footprint)),
    height: Float64Array.from(items, (item) => item.height),
    area: Float64Array.from(items, (item) => coveredArea(item.footprint, gap / 2)),
    worth: Float64Array.from(items, (item) => item.value),
    mass: Float64Array.from(items, (item) => item.mass),
    gap,
    slack,
    base: length("floor_mm") + thickness,
    roof: kiln.at("depth_mm").positive() / 1000,
    thickness,
    headroom: length("headroom_mm"),
    lidHeadroom: length("lid_mm"),
    posts,
    maxStack: kiln.at("maxPostsPerStack").whole(1, 6),
    maxLayers: 40,
    closed: [],
    shelfLoad: Infinity,
    shelfMass: 0,
    advice: () => 0,
    bayArea: Math.PI * shelfRadius ** 2,
    bays: 1,
    region: regionsOf(kiln, shelfRadius, count, postRadius),
  };
  return {
    problem,
    ids: items.map((item) => item.id),
    shares: () =>
      roundShares(
        items.map((item) => item.footprint),
        { radius: shelfRadius, gap, posts: count, postRadius },
      ),
  };
}

function readItem(item: CaseReader): {
  id: string | number;
  footprint: Footprint;
  height: number;
  mass: number;
  value: number;
} {
  return {
    id: item.at("id").id(),
    footprint: item.at("prims").list(1).map(readBox),
    height: item.at("h_mm").positive() / 1000,
    mass: item.has("mass_kg") ? item.at("mass_kg").number(0) : 0,
    value: item.at("value").number(0),
  };
}

function readBox(prim: CaseReader): RoundedBox {
  return {
    x: prim.at("x").number(-Infinity) / 1000,
    y: prim.at("y").number(-Infinity) / 1000,
    angle: prim.at("angle").number(-Infinity),
    halfX: prim.at("halfX").number(0) / 1000,
    halfY: prim.at("halfY").number(0) / 1000,
    radius: prim.at("r").number(0) / 1000,
  };
}

/** The plan of a layer: shelf, posts below the top layer, and the ball about the sensor cut at the layer's heights. */
function regionsOf(kiln: CaseReader, radius: number, count: number, postRadius: number): ColumnProblem["region"] {
  const wall = kiln.at("innerDia_mm").positive() / 2000;
  const circle = kiln.at("postCircle_mm").number(0) / 1000;
  const first = ((kiln.has("postAngle_deg") ? kiln.at("postAngle_deg").number(-Infinity) : 0) * Math.PI) / 180;
  const disc = (far: number, turn: number, radius: number): RoundedBox => ({
    x: far * Math.cos(turn),
    y: far * Math.sin(turn),
    angle: 0,
    halfX: 0,
    halfY: 0,
    radius,
  });
  const posts = Array.from({ length: count }, (_, k) => disc(circle, first + (2 * Math.PI * k) / count, postRadius));
  const sensor = kiln.has("thermocouple") ? kiln.at("thermocouple") : null;
  const turn = sensor ? (sensor.at("angle_deg").number(-Infinity) * Math.PI) / 180 : 0;
  const tip = sensor ? sensor.at("z_mm").number(-Infinity) / 1000 : 0;
  const clear = sensor ? sensor.at("r_mm").number(0) / 1000 : 0;
  const known = new Map<string, Region>();
  return (_bay, z0, z1, top) => {
    const above = Math.max(z0 - tip, tip - z1, 0);
    // Rounded up to a millimetre, so that small moves of a layer keep its region.
    const cut = above < clear ? Math.ceil(Math.sqrt(clear * clear - above * above) * 1000) / 1000 : 0;
    const key = `${cut}/${top}`;
    const before = known.get(key);
    if (before) return before;
    const keepOuts = [...(top ? [] : posts), ...(cut > 0 ? [disc(wall, turn, cut)] : [])];
    const region: Region = { x: 0, y: 0, radius, flats: [], keepOuts };
    known.set(key, region);
    return region;
  };
}
