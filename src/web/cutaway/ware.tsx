import type { ReactNode } from "react";
import { heightOf, known, liftOf, shapeOf, type Load, type PlacedPiece } from "#engine/kiln";
import { silhouetteOf, type PieceHeat } from "#work";
import type { CutawayProps } from "./cutaway.tsx";
import { ConesSide, PostSide } from "./furniture-side.tsx";
import { isBehindCut } from "./kiln-side.tsx";
import { PlacedSide } from "./piece-side.tsx";
import { xOf, yOf, type SideFrame } from "./side-frame.ts";
import { acrossOf, depthOf, wallsOf, type SideView } from "./side-view.ts";

/** What every part of the drawing needs to find its place. */
export interface InDrawing {
  readonly load: Load;
  readonly view: SideView;
  readonly frame: SideFrame;
  readonly prefix: string;
}

interface WareProps extends CutawayProps {
  readonly inDrawing: InDrawing;
  readonly heats: ReadonlyMap<string, PieceHeat> | null;
}

/** Posts, cones and ware behind the cut, far ones first. */
export function Inside({ inDrawing, heats, pickedPieceId, movedPieceIds }: WareProps): ReactNode {
  const { load, view } = inDrawing;
  const drawn: { readonly depth: number; readonly key: string; readonly node: ReactNode }[] = [];
  for (const shelf of load.setting.shelves) {
    for (const post of shelf.posts) {
      if (!isBehindCut(view, post.x, post.y)) continue;
      const width = load.furniture.posts.find(({ length }) =>
        post.lengths.some((own) => Math.abs(own - length) < 1e-6),
      )?.width;
      drawn.push({
        depth: depthOf(view, post.x, post.y),
        key: `post ${shelf.id} ${post.x} ${post.y}`,
        node: (
          <PostSide {...inDrawing} shelf={shelf} post={post} width={width ?? load.furniture.posts[0]?.width ?? 0.038} />
        ),
      });
    }
  }
  for (const pack of load.setting.cones) {
    if (!isBehindCut(view, pack.x, pack.y)) continue;
    drawn.push({
      depth: depthOf(view, pack.x, pack.y),
      key: `cones ${pack.shelfId} ${pack.x} ${pack.y}`,
      node: <ConesSide {...inDrawing} pack={pack} />,
    });
  }
  for (const placed of load.setting.pieces) {
    if (placed.pieceId === pickedPieceId || !isBehindCut(view, placed.x, placed.y)) continue;
    drawn.push({
      depth: depthOf(view, placed.x, placed.y),
      key: placed.pieceId,
      node: (
        <g data-piece={placed.pieceId} className="cutaway-piece">
          {movedPieceIds?.has(placed.pieceId) ? (
            <PieceRing inDrawing={inDrawing} placed={placed} strong={false} />
          ) : null}
          <Ware inDrawing={inDrawing} heats={heats} placed={placed} />
        </g>
      ),
    });
  }
  drawn.sort((a, b) => a.depth - b.depth);
  return drawn.map(({ key, node }) => <g key={key}>{node}</g>);
}

/** Where a placed piece stands on the drawing, and how high its stilt is [CSS px]. */
export function footOf(
  { load, view, frame }: InDrawing,
  placed: PlacedPiece,
): { readonly x: number; readonly y: number; readonly lift: number } {
  const shelf = load.setting.shelves.find(({ id }) => id === placed.shelfId);
  const lift = liftOf(load, known(load.pieces, placed.pieceId, "piece"));
  return {
    x: xOf(frame, acrossOf(view, placed.x, placed.y)),
    y: yOf(frame, (shelf?.z ?? 0) + lift),
    lift: lift * frame.scale,
  };
}

function Ware({
  inDrawing,
  heats,
  placed,
}: Pick<WareProps, "inDrawing" | "heats"> & { readonly placed: PlacedPiece }): ReactNode {
  const { load, view, frame, prefix } = inDrawing;
  const inner = wallsOf(view, load.kiln).inner;
  const depth = depthOf(view, placed.x, placed.y);
  return (
    <PlacedSide
      shape={shapeOf(load, placed.pieceId)}
      piece={known(load.pieces, placed.pieceId, "piece")}
      heat={heats?.get(placed.pieceId)}
      prefix={prefix}
      scale={frame.scale}
      turn={placed.angle - view.right}
      // In the far third of the chamber.
      isFar={depth < (inner.from - inner.to) / 4}
      {...footOf(inDrawing, placed)}
    />
  );
}

/** The picked piece stands in front, also where it would be cut away, with its number. */
export function PickedPiece({ inDrawing, heats, pickedPieceId, numbers }: WareProps): ReactNode {
  const placed = inDrawing.load.setting.pieces.find(({ pieceId }) => pieceId === pickedPieceId);
  if (!placed) return null;
  const { load, frame } = inDrawing;
  const { x, y } = footOf(inDrawing, placed);
  const top = y - heightOf(shapeOf(load, placed.pieceId)) * frame.scale;
  const number = numbers.get(placed.pieceId);
  const wide = number !== undefined && number > 9 ? 23 : 17;
  return (
    <g data-piece={placed.pieceId}>
      <Ware inDrawing={inDrawing} heats={heats} placed={placed} />
      <PieceRing inDrawing={inDrawing} placed={placed} strong />
      {number === undefined ? null : (
        <>
          <rect
            x={x - wide / 2}
            y={top - 20}
            width={wide}
            height="17"
            rx="3"
            fill="var(--accent)"
            stroke="var(--surface)"
            strokeWidth="1.5"
          />
          <text className="strong cutaway-on-accent" x={x} y={top - 6.8} fontSize="13" textAnchor="middle">
            {number}
          </text>
        </>
      )}
    </g>
  );
}

function PieceRing({
  inDrawing,
  placed,
  strong,
}: {
  readonly inDrawing: InDrawing;
  readonly placed: PlacedPiece;
  readonly strong: boolean;
}): ReactNode {
  const { load, view, frame } = inDrawing;
  const { x, y, lift } = footOf(inDrawing, placed);
  const side = silhouetteOf(shapeOf(load, placed.pieceId), placed.angle - view.right);
  const box = {
    x: x + side.left * frame.scale - 5,
    y: y - side.height * frame.scale - 5,
    width: (side.right - side.left) * frame.scale + 10,
    height: side.height * frame.scale + lift + 6,
    rx: 5,
    fill: "none",
  };
  return (
    <>
      <rect {...box} stroke="var(--surface)" strokeWidth={strong ? 7 : 5} />
      <rect {...box} stroke="var(--accent)" strokeWidth={strong ? 3.4 : 2} />
    </>
  );
}
