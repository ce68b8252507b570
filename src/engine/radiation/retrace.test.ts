import { describe, expect, it } from "vitest";
import { unattended } from "#base";
import type { Load } from "#engine/kiln";
import { inventedLoad } from "./invented-load.ts";
import { meshLoad } from "./mesh-load.ts";
import { resolutionFor } from "./resolution.ts";
import { retraceMoved, type TracedLoad } from "./retrace.ts";
import { traceExchange, type TracedExchange } from "./trace-exchange.ts";

const rays = 256;
const load = inventedLoad(4, 0.16);
const resolution = resolutionFor(load, "preview");

function traced(of: Load): TracedLoad {
  const meshed = meshLoad(of, resolution);
  return { ...meshed, exchange: traceExchange(meshed.scene, meshed.mesh, rays, 3, unattended) };
}

function movePiece(pieceId: string, x: number, y: number): Load {
  const pieces = load.setting.pieces.map((piece) => (piece.pieceId === pieceId ? { ...piece, x, y } : piece));
  return { ...load, setting: { ...load.setting, pieces } };
}

/** Root mean square over patches of the part of a patch's view that differs. */
function apart(a: TracedExchange, b: TracedExchange, area: Float64Array): number {
  let squares = 0;
  for (let i = 0; i < area.length; i++) {
    const row = new Map<number, number>();
    for (let k = a.rowStart[i]; k < a.rowStart[i + 1]; k++) row.set(a.column[k], a.exchangeArea[k]);
    let sum = 0;
    for (let k = b.rowStart[i]; k < b.rowStart[i + 1]; k++) {
      sum += Math.abs(b.exchangeArea[k] - (row.get(b.column[k]) ?? 0));
      row.delete(b.column[k]);
    }
    for (const rest of row.values()) sum += rest;
    squares += (sum / area[i]) ** 2;
  }
  return Math.sqrt(squares / area.length);
}

describe("re-tracing after a piece moved", () => {
  const before = traced(load);
  const after = movePiece("1-0-0", 0.02, 0.015);
  const whole = traced(after);
  const { exchange, patches } = retraceMoved(before, meshLoad(after, resolution), ["1-0-0"], rays, 3, unattended);

  it("sends rays from less than half of the patches", () => {
    expect(patches).toBeLessThan(whole.mesh.patchCount / 2);
    expect(exchange.rays).toBe(patches * rays);
  });

  it("comes to the exchange of a whole trace; the move itself makes ten times the difference", () => {
    const off = apart(exchange, whole.exchange, whole.mesh.area);
    expect(off).toBeLessThan(apart(before.exchange, whole.exchange, whole.mesh.area) / 10);
  });

  it("can follow one move after another", () => {
    const back = retraceMoved({ ...whole, exchange }, meshLoad(load, resolution), ["1-0-0"], rays, 3, unattended);
    expect(apart(back.exchange, before.exchange, before.mesh.area)).toBeLessThan(0.01);
  });

  it("traces all anew when a piece was taken out", () => {
    const fewer = { ...load, setting: { ...load.setting, pieces: load.setting.pieces.slice(1) } };
    const meshed = meshLoad(fewer, resolution);
    const { patches: all, exchange: anew } = retraceMoved(before, meshed, [], rays, 3, unattended);
    expect(all).toBe(meshed.mesh.patchCount);
    expect(anew.exchangeArea).toEqual(traced(fewer).exchange.exchangeArea);
  });
});
