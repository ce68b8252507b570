import type { ReactNode } from "react";
import { bodyRadius, shapeOf, type PlacedPiece } from "#engine/kiln";
import { FindingMark } from "#web/ui";
import { toScreen, type PlanFrame } from "./frame.ts";
import { PlanSpot } from "./plan-kiln.tsx";
import type { ShelfPlanProps } from "./shelf-plan.tsx";
import type { Drag } from "./use-plan-gestures.ts";

/** A finding about many pieces is about the shelf, and is not put on each of them. */
const marksAtMost = 3;

/** Signs of stops and checks at their pieces; the finding that is shown is ringed. */
export function PlanMarks(
  props: ShelfPlanProps & { readonly frame: PlanFrame; readonly pieces: readonly PlacedPiece[] },
): ReactNode {
  const { load, frame, pieces, shelfId, findings = [], shownFinding = null } = props;
  const spots = findings
    .filter(({ level, place }) => level !== "tip" && place.pieceIds.length <= marksAtMost)
    .flatMap((finding) =>
      pieces.filter(({ pieceId }) => finding.place.pieceIds.includes(pieceId)).map((piece) => ({ finding, piece })),
    );
  const shownPieces = pieces.filter(({ pieceId }) => shownFinding?.place.pieceIds.includes(pieceId));
  const point = shownFinding?.place.shelfIds.includes(shelfId) ? shownFinding.place.point : null;
  return (
    <>
      {shownPieces.map((piece) => {
        const at = toScreen(frame, piece.x, piece.y);
        const radius = bodyRadius(shapeOf(load, piece.pieceId));
        return (
          <circle
            key={piece.pieceId}
            cx={at.x}
            cy={at.y}
            r={radius * frame.scale + 9}
            fill="none"
            stroke="var(--ink)"
            strokeWidth="2.5"
            strokeDasharray="7 4"
          />
        );
      })}
      {point ? <PlanSpot frame={frame} x={point[0]} y={point[1]} /> : null}
      {spots.map(({ finding, piece }) => {
        const at = toScreen(frame, piece.x + 0.032, piece.y + 0.032);
        return (
          <g key={`${finding.rule} ${piece.pieceId}`} transform={`translate(${at.x} ${at.y}) scale(0.62)`}>
            <FindingMark level={finding.level} />
          </g>
        );
      })}
    </>
  );
}

/** Under the pointer: why it cannot stand there. */
export function PlanReason({
  drag,
  frame,
  name,
}: {
  readonly drag: Drag;
  readonly frame: PlanFrame;
  readonly name: string;
}): ReactNode {
  const right = drag.pointer.x > frame.width / 2;
  return (
    <div
      className="plan-reason"
      style={{
        top: Math.min(drag.pointer.y + 18, frame.height - 30),
        ...(right ? { right: Math.max(frame.width - drag.pointer.x, 0) } : { left: Math.max(drag.pointer.x, 0) }),
      }}
    >
      {drag.verdict.reason ?? `${name} cannot stand there.`}
    </div>
  );
}
