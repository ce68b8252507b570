import { describe, expect, it } from "vitest";
import { unattended } from "#base";
import { proposeSetting, type PlacingRequest, type Proposal } from "#engine/placing";
import type { Kiln } from "#engine/kiln";
import { createHighsSolver } from "#solvers";
import { alder, inventedRequest, rowan } from "./invented-studio.ts";
import { brokenRules } from "./setting-verifier.ts";

const bisque = {
  id: "glaze",
  name: "Bisque 04",
  kind: "bisque",
  cone: "04",
  tolerance: { colder: -1, hotter: 1 },
  mayTouch: true,
} as const;
const round: Kiln = { ...alder, id: "round", chamber: { plan: { kind: "disc", radius: 0.29 }, height: 0.57 } };
const fourPosts: Kiln = { ...alder, id: "four", rules: { ...alder.rules, postsPerShelf: 4 } };
const twoSensors: Kiln = {
  ...alder,
  id: "two",
  sensors: [0.15, 0.5].flatMap((z) => alder.sensors.map((sensor) => ({ ...sensor, z }))),
};

describe("proposed settings", async () => {
  const solver = await createHighsSolver();
  const propose = (request: PlacingRequest): Proposal => {
    const outcome = proposeSetting(request, solver, unattended);
    if (!outcome.ok) throw new Error(outcome.failure.problem);
    return outcome.value;
  };

  const cases = [alder, rowan, round, fourPosts, twoSensors].flatMap((kiln) =>
    [8, 30, 70].map((count) => [kiln.id, count, kiln] as const),
  );
  it.each(cases)("%s with %i pieces breaks no rule", (_id, count, kiln) => {
    for (let seed = 1; seed <= 3; seed++) {
      const request = { ...inventedRequest(kiln, count, 100 * count + seed), steps: 4000 };
      expect(brokenRules(request, propose(request)), `seed ${seed}`).toEqual([]);
    }
  });

  it("keeps the rules with half shelves only, and where pieces may touch", () => {
    const request = { ...inventedRequest(alder, 40, 5), steps: 4000 };
    const shelves = request.furniture.shelves.filter((shelf) => shelf.id === "half-530");
    const halves = { ...request, furniture: { ...request.furniture, shelves } };
    const proposal = propose(halves);
    expect(proposal.setting.shelves.length).toBeGreaterThan(3);
    expect(brokenRules(halves, proposal)).toEqual([]);
    const touching = { ...request, firingClass: bisque };
    expect(brokenRules(touching, propose(touching))).toEqual([]);
  });

  it("leaves fixed pieces and their shelves as they are", () => {
    const request = { ...inventedRequest(alder, 40, 6), steps: 4000 };
    const first = propose(request).setting;
    const keep = {
      ...first,
      pieces: first.pieces.map((placed, k) => Object.assign({}, placed, { fixed: k % 3 === 0 })),
    };
    const again = { ...request, keep, seed: 9 };
    const proposal = propose(again);
    expect(brokenRules(again, proposal)).toEqual([]);
    expect(proposal.setting.shelves).toEqual(first.shelves);
  });

  it("gives the same proposal for the same seed and steps", () => {
    const request = { ...inventedRequest(alder, 50, 7), steps: 6000 };
    expect(propose(request)).toEqual(propose(request));
  });

  it("says why pieces wait", () => {
    const request = { ...inventedRequest(alder, 10, 8), steps: 2000 };
    const [piece] = request.pieces;
    const shape = request.shapes.get(piece.shapeId)!;
    const odd = (id: string, body: typeof shape.body, mass: number) => ({ ...shape, id, body, mass });
    const turned = (radius: number, height: number) =>
      ({
        kind: "revolution",
        profile: [
          [radius, 0],
          [radius, height],
        ],
        wall: 0.01,
        foot: radius,
        closed: false,
      }) as const;
    const shapes = new Map(request.shapes)
      .set("wide", odd("wide", turned(0.27, 0.1), 3))
      .set("tall", odd("tall", turned(0.05, 0.66), 3))
      .set("heavy", odd("heavy", turned(0.1, 0.2), 13));
    const extra = ["wide", "tall", "heavy"].map((shapeId) => Object.assign({}, piece, { id: shapeId, shapeId }));
    const other = { ...piece, id: "other", classId: "mid-6" };
    const proposal = propose({ ...request, shapes, pieces: [...request.pieces, ...extra, other] });
    const reasons = Object.fromEntries(proposal.waiting.map((each) => [each.pieceId, each.reason]));
    expect(reasons).toMatchObject({ wide: "too-wide", tall: "too-tall", heavy: "too-heavy", other: "other-class" });
  });

  it("is caught by its verifier when it breaks a rule", () => {
    const request = { ...inventedRequest(alder, 20, 3), steps: 2000 };
    const proposal = propose(request);
    const { setting } = proposal;
    const [first, ...rest] = setting.pieces;
    const withPieces = (pieces: typeof setting.pieces): Proposal => ({ ...proposal, setting: { ...setting, pieces } });
    expect(brokenRules(request, withPieces([{ ...first, x: first.x + 0.05 }, ...rest]))).not.toEqual([]);
    expect(brokenRules(request, withPieces(rest))).toContain("pieces are lost or doubled");
    const raised = setting.shelves.map((shelf) => Object.assign({}, shelf, { z: shelf.z + 0.01 }));
    expect(brokenRules(request, { ...proposal, setting: { ...setting, shelves: raised } })).not.toEqual([]);
  });

  it("names place and remedy when no shelf or post suits", () => {
    const request = inventedRequest(rowan, 5, 1);
    const bare = proposeSetting({ ...request, furniture: { ...request.furniture, shelves: [] } }, solver, unattended);
    expect(bare).toMatchObject({ ok: false, failure: { reason: "no-shelf-fits", place: "furniture.shelves" } });
    const noPosts = proposeSetting({ ...request, furniture: { ...request.furniture, posts: [] } }, solver, unattended);
    expect(noPosts).toMatchObject({ ok: false, failure: { reason: "no-posts", place: "furniture.posts" } });
  });

  it("returns the best so far when cancelled", () => {
    const request = { ...inventedRequest(alder, 120, 4), seconds: 1000 };
    let polls = 0;
    const control = { ...unattended, cancelled: () => ++polls > 50 };
    const outcome = proposeSetting(request, solver, control);
    if (!outcome.ok) throw new Error(outcome.failure.problem);
    expect(outcome.value.setting.pieces.length).toBeGreaterThan(20);
    expect(brokenRules(request, outcome.value)).toEqual([]);
  });
});
