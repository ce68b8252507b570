import type { ReactNode } from "react";
import { known, shapeOf, type PlacedPiece } from "#engine/kiln";
import type { PlanFrame } from "./frame.ts";
import { PlanCones, PlanCut, PlanInstruments, PlanKiln, PlanPost } from "./plan-kiln.tsx";
import { PlanPiece } from "./plan-piece.tsx";
import { layerOf, matesOf, PlanShelf, postsOn, postWidth } from "./plan-shelf.tsx";
import type { ShelfPlanProps } from "./shelf-plan.tsx";
import type { Drag } from "./use-plan-gestures.ts";

export interface DrawnProps extends ShelfPlanProps {
  readonly frame: PlanFrame;
  readonly prefix: string;
  readonly mode: "desk" | "kiln-room" | "thumbnail";
}

/** All that does not move: kiln, shelves, posts, cones, instruments, and the ware of the other half. */
export function PlanGround({ load, shelfId, frame, prefix, mode, viewFrom }: DrawnProps): ReactNode {
  const shelf = load.setting.shelves.find(({ id }) => id === shelfId);
  if (!shelf) return null;
  const mates = matesOf(load.setting, shelf);
  const standing = postsOn(load, shelf);
  const below = shelf.posts.filter((post) => !standing.some(({ x, y }) => Math.hypot(x - post.x, y - post.y) < 0.01));
  const plain = mode === "kiln-room";
  return (
    <>
      {mode === "thumbnail" ? null : <PlanKiln frame={frame} prefix={prefix} kiln={load.kiln} plain={plain} />}
      <PlanShelf frame={frame} load={load} shelf={shelf} mates={mates} plain={plain} />
      {below.map((post) => (
        <PlanPost key={`${post.x} ${post.y}`} frame={frame} post={post} width={postWidth(load, post)} below={!plain} />
      ))}
      {standing.map((post) => (
        <PlanPost key={`${post.x} ${post.y}`} frame={frame} post={post} width={postWidth(load, post)} />
      ))}
      {mode === "thumbnail" ? null : (
        <PlanInstruments frame={frame} prefix={prefix} kiln={load.kiln} layer={layerOf(load, shelf)} plain={plain} />
      )}
      {viewFrom === undefined || mode !== "desk" ? null : (
        <PlanCut frame={frame} kiln={load.kiln} viewFrom={viewFrom} />
      )}
      {load.setting.cones
        .filter((pack) => pack.shelfId === shelfId)
        .map((pack) => (
          <PlanCones key={`${pack.x} ${pack.y}`} frame={frame} pack={pack} />
        ))}
      <g opacity="0.45">
        {load.setting.pieces
          .filter((piece) => mates.some(({ id }) => id === piece.shelfId))
          .map((piece) => (
            <PlanPiece
              key={piece.pieceId}
              frame={frame}
              prefix={prefix}
              shape={shapeOf(load, piece.pieceId)}
              state={known(load.pieces, piece.pieceId, "piece").state}
              at={piece}
              number={undefined}
              heat={undefined}
              numberSize={{ least: 12, most: 12 }}
            />
          ))}
      </g>
    </>
  );
}

/** A piece, or where it is on its way, with a pale ghost at its old spot. */
export function ShelfPiece(props: DrawnProps & { readonly piece: PlacedPiece; readonly drag: Drag | null }): ReactNode {
  const { load, frame, prefix, mode, piece, drag, numbers, heats, loading } = props;
  const moving = drag?.at.pieceId === piece.pieceId ? drag : null;
  const common = {
    frame,
    prefix,
    shape: shapeOf(load, piece.pieceId),
    state: known(load.pieces, piece.pieceId, "piece").state,
    numberSize: mode === "kiln-room" ? { least: 18, most: 34 } : { least: 12, most: 16 },
  };
  return (
    <>
      {moving?.isHeld ? (
        <g className="plan-ghost" opacity="0.5">
          <PlanPiece {...common} at={piece} number={undefined} heat={undefined} />
        </g>
      ) : null}
      <PlanPiece
        {...common}
        at={moving?.at ?? piece}
        number={numbers.get(piece.pieceId)}
        heat={heats?.get(piece.pieceId)}
        // The kiln room shows no heat: what is not said to be placed or next is still to come.
        loading={loading?.get(piece.pieceId) ?? (mode === "kiln-room" ? "waiting" : undefined)}
        isPicked={piece.pieceId === props.pickedPieceId}
        isRinged={props.movedPieceIds?.has(piece.pieceId) ?? false}
        isDragged={moving !== null}
        isIllegal={moving !== null && !moving.verdict.legal}
      />
    </>
  );
}
