import { seededRandom } from "#base";
import type { DayNumber } from "#engine/units";
import type { PartyRecord, PieceRecord, ShapeRecord, StudioDocument } from "#records";
import { dayNumberOf, isoDateOf } from "../day.ts";
import { emptyStudio } from "../starting/studio.ts";
import { demoFurniture, demoKilns } from "./kilns.ts";

/** Pieces that came in together. */
interface Batch {
  readonly party: string;
  readonly shape: string;
  readonly count: number;
  readonly firing: "glaze-06" | "bisque-04" | "mid-6";
  /** Days from today the batch is promised for. */
  readonly promisedIn: number;
  readonly value?: number;
  readonly stilt?: string;
  /** Days from today until it is dry; left out: it is ready. */
  readonly dryIn?: number;
  readonly note?: string;
}

const parties = ["Ana", "Ivy", "Kofi", "Lena", "Mei", "Noor", "Tarn", "Tomas"] as const;

/** One piece that is too big for either kiln: 540 mm across where the widest shelf is 530. */
const gardenPlanter: ShapeRecord = {
  version: 1,
  id: "garden-planter",
  name: "garden planter",
  alsoCalled: ["planter"],
  body: {
    kind: "revolution",
    profile: [
      [0.17, 0],
      [0.175, 0.008],
      [0.21, 0.09],
      [0.245, 0.2],
      [0.262, 0.29],
      [0.27, 0.32],
    ],
    wall: 0.011,
    foot: 0.168,
    closed: false,
  },
  handle: null,
  spout: null,
  lidHeight: 0,
  mass: 9.4,
  guessed: false,
};

/** A café's tableware, a school's tiles and animals, private orders. All invented. */
const batches: readonly Batch[] = [
  { party: "Tomas", shape: "tumbler", count: 14, firing: "glaze-06", promisedIn: 5, stilt: "small-stilt" },
  { party: "Tomas", shape: "side-plate", count: 6, firing: "glaze-06", promisedIn: 6, stilt: "large-stilt" },
  { party: "Kofi", shape: "dinner-plate", count: 4, firing: "glaze-06", promisedIn: 8, value: 2 },
  { party: "Kofi", shape: "cereal-bowl", count: 4, firing: "glaze-06", promisedIn: 8, stilt: "small-stilt" },
  { party: "Ana", shape: "cereal-bowl", count: 6, firing: "glaze-06", promisedIn: 4, stilt: "small-stilt" },
  { party: "Noor", shape: "small-figure", count: 6, firing: "glaze-06", promisedIn: 9, note: "Year 4" },
  { party: "Mei", shape: "vase", count: 3, firing: "glaze-06", promisedIn: 7, value: 2 },
  { party: "Mei", shape: "bank", count: 1, firing: "glaze-06", promisedIn: 7, value: 2 },
  { party: "Ivy", shape: "teapot", count: 1, firing: "glaze-06", promisedIn: 6, value: 3, stilt: "medium-stilt" },
  { party: "Ivy", shape: "mug", count: 4, firing: "glaze-06", promisedIn: 6, stilt: "small-stilt" },
  { party: "Ivy", shape: "pitcher", count: 1, firing: "glaze-06", promisedIn: 6, value: 2, stilt: "medium-stilt" },
  { party: "Tarn", shape: "round-platter", count: 1, firing: "glaze-06", promisedIn: 10, value: 2 },
  { party: "Ana", shape: "mug", count: 3, firing: "glaze-06", promisedIn: 9, stilt: "small-stilt", dryIn: 1 },
  { party: "Lena", shape: "large-figure", count: 1, firing: "glaze-06", promisedIn: 12, value: 2 },
  {
    party: "Tarn",
    shape: "garden-planter",
    count: 1,
    firing: "bisque-04",
    promisedIn: 14,
    value: 3,
    note: "Tell Tarn: it fits no kiln here.",
  },
  { party: "Noor", shape: "small-tile", count: 12, firing: "bisque-04", promisedIn: 6, value: 0.5, note: "Year 4" },
  { party: "Noor", shape: "small-figure", count: 8, firing: "bisque-04", promisedIn: 6, note: "Year 3" },
  {
    party: "Noor",
    shape: "ornament",
    count: 6,
    firing: "bisque-04",
    promisedIn: 11,
    value: 0.5,
    dryIn: 2,
    note: "Year 3",
  },
  { party: "Lena", shape: "large-mug", count: 6, firing: "mid-6", promisedIn: 11 },
  { party: "Lena", shape: "coupe-bowl", count: 2, firing: "mid-6", promisedIn: 11 },
  { party: "Ana", shape: "mixing-bowl", count: 1, firing: "mid-6", promisedIn: 13, value: 2 },
];

/**
 * The Alder Row Clay Room, an invented studio: two kilns and 91 pieces, promised within two weeks of `today`.
 *
 * @param today  ISO date
 * @param seed   the same seed and day give the same studio; it shuffles the order of intake and moves some promises
 */
export function demoStudio(today: string, seed: number): StudioDocument {
  const studio = emptyStudio("Alder Row Clay Room");
  const random = seededRandom(seed);
  const start = dayNumberOf(today);
  const queue = batches.map((batch) => ({ batch, order: random.uniform(), later: random.below(2) }));
  queue.sort((a, b) => a.order - b.order);
  const counts = new Map<string, number>();
  return {
    ...studio,
    kilns: demoKilns,
    furniture: demoFurniture,
    shapes: [...studio.shapes, gardenPlanter],
    parties: parties.map((name): PartyRecord => ({ version: 1, id: name.toLowerCase(), name })),
    pieces: queue.flatMap(({ batch, later }) =>
      Array.from({ length: batch.count }, () => {
        const number = (counts.get(batch.shape) ?? 0) + 1;
        counts.set(batch.shape, number);
        return pieceOf(batch, `${batch.shape}-${number}`, start, batch.promisedIn + later);
      }),
    ),
  };
}

function pieceOf(batch: Batch, id: string, today: DayNumber, promisedIn: number): PieceRecord {
  const glazed = batch.firing !== "bisque-04";
  return {
    version: 1,
    id,
    shapeId: batch.shape,
    partyId: batch.party.toLowerCase(),
    classId: batch.firing,
    promised: isoDateOf(today + promisedIn),
    value: batch.value ?? 1,
    stiltId: batch.stilt ?? null,
    state: glazed ? "glazed" : "raw",
    dryFrom: batch.dryIn === undefined ? null : `${isoDateOf(today + batch.dryIn)}T08:00:00Z`,
    held: false,
    note: batch.note ?? "",
  };
}
