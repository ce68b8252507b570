import { useId, useRef, useState, type KeyboardEvent, type ReactNode } from "react";
import type { Finding } from "#engine/checks";
import type { Load, PlacedPiece } from "#engine/kiln";
import type { Radians } from "#engine/units";
import { classes, LiveRegion, Patterns, usePatternPrefix, useSize } from "#web/ui";
import { metricUnits, type UnitPreference } from "#words";
import { grownOutline, type PieceHeat } from "#work";
import { nameOf, spokenPiece, type PieceWords } from "./describe.ts";
import { planFrame, type Margins, type PlanFrame } from "./frame.ts";
import { PlanMarks, PlanReason } from "./plan-marks.tsx";
import type { LoadingState } from "./plan-piece.tsx";
import { PlanGround, ShelfPiece } from "./plan-scene.tsx";
import type { PieceMove, Settled, VerdictAt } from "./settle.ts";
import { usePlanGestures, type MoveBy } from "./use-plan-gestures.ts";
import { onPlanKey } from "./use-plan-keys.ts";
import "./plan.css";

export interface ShelfPlanProps {
  readonly load: Load;
  readonly shelfId: string;
  /** As on every screen and sheet: counted from the bottom. */
  readonly shelfNumber: number;
  /** The number of each piece on plan and sheet. */
  readonly numbers: ReadonlyMap<string, number>;
  /** From `heatOfPieces`; null while there is no forecast. */
  readonly heats?: ReadonlyMap<string, PieceHeat> | null;
  readonly units?: UnitPreference;
  readonly partyName?: (pieceId: string) => string;
  readonly pickedPieceId?: string | null;
  /** Pieces that differ between two settings: ringed. */
  readonly movedPieceIds?: ReadonlySet<string>;
  readonly findings?: readonly Finding[];
  /** The finding that was asked to be shown: its place is ringed. */
  readonly shownFinding?: Finding | null;
  /** `kiln-room`: black and white, large numbers. `thumbnail`: the shelf alone, nothing to pick. */
  readonly mode?: "desk" | "kiln-room" | "thumbnail";
  /** Kiln room: what is placed, next, to come. Takes the place of heat. */
  readonly loading?: ReadonlyMap<string, LoadingState>;
  /** A piece from the bench or another shelf that waits for its spot: the next press puts it. */
  readonly placing?: string | null;
  /** Azimuth the side view looks from: its cut is drawn as a line. Left out: no line. */
  readonly viewFrom?: Radians;
  /** Tallest the drawing may be [CSS px]. */
  readonly maxHeight?: number;
  /** Width before it is measured [CSS px]. */
  readonly initialWidth?: number;
  readonly onSelect?: (pieceId: string | null) => void;
  /** Left out, nothing can be moved. The spot is legal unless the piece stood on an illegal one before. */
  readonly onMove?: (move: PieceMove, by: MoveBy) => void;
  readonly onTurn?: (move: PieceMove) => void;
  /** Needed with `onMove`: may this piece stand there, and if not why. */
  readonly verdictAt?: VerdictAt;
  /** M: the list of shelves with room. */
  readonly onMoveTo?: (pieceId: string) => void;
  /** S */
  readonly onSwap?: (pieceId: string) => void;
  /** Delete: back to the bench. */
  readonly onTakeOut?: (pieceId: string) => void;
  /** [ and ]: the shelf below (-1) or above (1). */
  readonly onShelf?: (step: 1 | -1) => void;
  /** ?: the list of keys. */
  readonly onHelp?: () => void;
  readonly onCancelPlacing?: () => void;
}

const allowAll: VerdictAt = () => ({ legal: true, reason: null });

/**
 * One shelf from above, to scale, with all that stands on it: a picture to point at, and a list (role listbox) to walk
 * through by keyboard. The kiln's left is left; its back is up; a front-loader's door is at the bottom.
 */
export function ShelfPlan(props: ShelfPlanProps): ReactNode {
  const { load, shelfId, numbers, heats = null, units = metricUnits, mode = "desk", placing = null } = props;
  const { pickedPieceId = null, verdictAt = allowAll } = props;
  const prefix = usePatternPrefix();
  const listId = useId();
  const svg = useRef<SVGSVGElement>(null);
  const [stage, { width }] = useSize<HTMLDivElement>({ width: props.initialWidth ?? 364, height: 0 });
  const [said, setSaid] = useState("");
  const frame = frameOf(load, mode, width, props.maxHeight ?? 640);
  const shelf = load.setting.shelves.find(({ id }) => id === shelfId);
  const pieces = load.setting.pieces
    .filter((piece) => piece.shelfId === shelfId)
    .sort((a, b) => (numbers.get(a.pieceId) ?? 0) - (numbers.get(b.pieceId) ?? 0));
  const picked = pieces.find(({ pieceId }) => pieceId === pickedPieceId) ?? null;
  const canMove = props.onMove !== undefined && mode !== "thumbnail";
  const canPick = props.onSelect !== undefined && mode !== "thumbnail";
  const words: PieceWords = { load, units, numbers, heats, partyName: props.partyName };

  const select = (pieceId: string | null): void => props.onSelect?.(pieceId);
  const say = (settled: Settled): void => {
    const place = spokenPiece(words, settled.at.pieceId, shelfId, settled.at);
    setSaid(settled.verdict.reason ? `${place}. ${settled.verdict.reason}` : place);
  };
  const gestures = usePlanGestures({
    svg,
    frame,
    load,
    shelfId,
    pieces,
    picked,
    placing,
    pickWithin: mode === "kiln-room" ? 30 : 22,
    canMove,
    verdictAt,
    onSelect: select,
    onMove: (at, by) => {
      props.onMove?.(at, by);
      say({ at, verdict: { legal: true, reason: null } });
    },
    onRefused: ({ verdict }) => setSaid(verdict.reason ?? "It cannot stand there."),
  });
  const onKeyDown = (event: KeyboardEvent): void => {
    const used = onPlanKey(event, {
      shelfId,
      pieces,
      picked,
      canMove,
      verdictAt,
      onSelect: select,
      onStep: (settled) => {
        const stays = picked && settled.at.x === picked.x && settled.at.y === picked.y;
        if (!stays) props.onMove?.(settled.at, "keys");
        gestures.refuse(settled);
        say(settled);
      },
      onTurn: (settled) => {
        if (picked && settled.at.angle !== picked.angle)
          (props.onTurn ?? ((at) => props.onMove?.(at, "keys")))(settled.at);
        gestures.refuse(settled);
        say(settled);
      },
      onMoveTo: props.onMoveTo,
      onSwap: props.onSwap,
      onTakeOut: props.onTakeOut,
      onShelf: props.onShelf,
      onHelp: props.onHelp,
      onEscape: () => {
        if (gestures.drag || gestures.refused) gestures.cancel();
        else if (placing !== null) props.onCancelPlacing?.();
        else select(null);
      },
    });
    if (used) event.preventDefault();
  };
  const drag = gestures.drag ?? gestures.refused;
  const title = `Shelf ${props.shelfNumber} from above, ${pieces.length} ${pieces.length === 1 ? "piece" : "pieces"}`;
  const drawing = shelf ? (
    <svg
      ref={svg}
      width={frame.width}
      height={frame.height}
      viewBox={`0 0 ${frame.width} ${frame.height}`}
      {...(canPick ? { "aria-hidden": true } : { role: "img", "aria-label": title })}
    >
      <Patterns prefix={prefix} brickScale={frame.scale / 1000} />
      <PlanGround {...props} frame={frame} prefix={prefix} mode={mode} />
      {/* Made anew when the drawing changes its scale or shelf: then nothing slides, only moved pieces do. */}
      <g key={`${frame.scale} ${frame.centreX} ${shelfId}`}>
        {inDrawingOrder(pieces, pickedPieceId).map((piece) => (
          <ShelfPiece
            key={piece.pieceId}
            {...props}
            frame={frame}
            prefix={prefix}
            mode={mode}
            piece={piece}
            drag={drag?.isHeld ? drag : null}
          />
        ))}
        {drag && !pieces.some(({ pieceId }) => pieceId === drag.at.pieceId) && load.pieces.has(drag.at.pieceId) ? (
          <ShelfPiece
            {...props}
            frame={frame}
            prefix={prefix}
            mode={mode}
            piece={{ ...drag.at, fixed: false }}
            drag={drag}
          />
        ) : null}
      </g>
      <PlanMarks {...props} frame={frame} pieces={pieces} />
    </svg>
  ) : null;
  return (
    <div className={classes("plan", mode)}>
      {canPick ? (
        <div
          ref={stage}
          className={classes(
            "plan-stage",
            "pickable",
            gestures.drag?.isHeld && "dragging",
            placing !== null && "placing",
          )}
          role="listbox"
          tabIndex={0}
          aria-label={`${title}, in number order`}
          aria-describedby={canMove ? `${listId}-help` : undefined}
          aria-activedescendant={picked ? `${listId}-${picked.pieceId}` : undefined}
          onKeyDown={onKeyDown}
          {...gestures.handlers}
        >
          {drawing}
          {pieces.map((piece) => (
            <div
              key={piece.pieceId}
              id={`${listId}-${piece.pieceId}`}
              role="option"
              aria-selected={piece === picked}
              className="unseen"
            >
              {spokenPiece(words, piece.pieceId, shelfId, piece)}
            </div>
          ))}
          {canMove ? (
            <span id={`${listId}-help`} className="unseen">
              N and P choose a piece, arrows move it, R turns it, question mark lists all keys.
            </span>
          ) : null}
          {drag && !drag.verdict.legal ? (
            <PlanReason drag={drag} frame={frame} name={nameOf(words, drag.at.pieceId)} />
          ) : null}
        </div>
      ) : (
        <div ref={stage} className="plan-stage">
          {drawing}
        </div>
      )}
      <LiveRegion text={said} />
    </div>
  );
}

function frameOf(load: Load, mode: "desk" | "kiln-room" | "thumbnail", width: number, maxHeight: number): PlanFrame {
  const { chamber, wall, opening } = load.kiln;
  const boxed = chamber.plan.kind === "rectangle" || chamber.plan.kind === "disc";
  // A polygon leaves its corners free for the names of spyhole and sensor; a rectangle does not.
  const margins: Margins =
    mode === "thumbnail"
      ? { side: 4, top: 4, bottom: 4 }
      : {
          side: mode === "kiln-room" ? 24 : 14,
          top: boxed ? 40 : mode === "kiln-room" ? 28 : 8,
          bottom: opening === "door" && mode === "desk" ? 26 : 8,
        };
  const outline = mode === "desk" ? grownOutline(chamber.plan, wall.thickness + 0.008) : chamber.plan;
  return planFrame(outline, width, maxHeight, margins);
}

/** The picked piece is drawn last, so that its ring is whole. */
function inDrawingOrder(pieces: readonly PlacedPiece[], pickedPieceId: string | null): readonly PlacedPiece[] {
  return [...pieces].sort((a, b) => Number(a.pieceId === pickedPieceId) - Number(b.pieceId === pickedPieceId));
}
