import type { ReactNode } from "react";
import type { Finding } from "#engine/checks";
import { heightOf, shapeOf } from "#engine/kiln";
import { FindingMark } from "#web/ui";
import type { CutawayProps } from "./cutaway.tsx";
import { shelfBox } from "./furniture-side.tsx";
import { xOf, yOf } from "./side-frame.ts";
import { acrossOf } from "./side-view.ts";
import { footOf, type InDrawing } from "./ware.tsx";

const none: readonly Finding[] = [];

/** A finding about many pieces is about the shelf, and is not put on each of them. */
const marksAtMost = 3;

/** Stops and checks at their places with a short leader; the one that is shown gets a ring. */
export function FindingMarks({
  inDrawing,
  findings = none,
  shownFinding = null,
}: CutawayProps & { readonly inDrawing: InDrawing }): ReactNode {
  const all = shownFinding && !findings.includes(shownFinding) ? [...findings, shownFinding] : findings;
  return all
    .filter((finding) => finding.level !== "tip" || finding === shownFinding)
    .map((finding) => {
      const spot = spotOf(inDrawing, finding);
      if (!spot) return null;
      const isShown = finding === shownFinding;
      const mark = { x: spot.x - 26, y: spot.y - 22 };
      return (
        <g key={`${finding.rule} ${spot.x} ${spot.y}`}>
          {isShown ? (
            <>
              <circle cx={spot.x} cy={spot.y} r="17" fill="none" stroke="var(--surface)" strokeWidth="5.5" />
              <circle cx={spot.x} cy={spot.y} r="17" fill="none" stroke="var(--ink)" strokeWidth="2.5" />
            </>
          ) : null}
          <path d={`M${mark.x} ${mark.y}L${spot.x} ${spot.y}`} stroke="var(--surface)" strokeWidth="4" />
          <path d={`M${mark.x} ${mark.y}L${spot.x} ${spot.y}`} stroke="var(--ink)" strokeWidth="1.5" />
          <g transform={`translate(${mark.x} ${mark.y}) scale(0.78)`}>
            <FindingMark level={finding.level} />
          </g>
        </g>
      );
    });
}

function spotOf(inDrawing: InDrawing, { place }: Finding): { readonly x: number; readonly y: number } | null {
  const { load, view, frame } = inDrawing;
  if (place.point) {
    const [x, y, z] = place.point;
    return { x: xOf(frame, acrossOf(view, x, y)), y: yOf(frame, z) };
  }
  const pieces = load.setting.pieces.filter(({ pieceId }) => place.pieceIds.includes(pieceId));
  if (pieces.length > 0 && pieces.length <= marksAtMost) {
    const { x, y } = footOf(inDrawing, pieces[0]);
    return { x, y: y - heightOf(shapeOf(load, pieces[0].pieceId)) * frame.scale };
  }
  const shelf = load.setting.shelves.find(({ id }) => place.shelfIds.includes(id));
  const box = shelf ? shelfBox(inDrawing, shelf) : null;
  return box ? { x: box.x + 14, y: box.y } : null;
}
