import type { MouseEvent, ReactNode } from "react";
import type { Finding } from "#engine/checks";
import { shelvesFromBottom, type Load } from "#engine/kiln";
import type { Radians } from "#engine/units";
import { Patterns, usePatternPrefix, useSize } from "#web/ui";
import { coneSpoken, metricUnits, offsetWords, type UnitPreference } from "#words";
import { coneRange, heatOfShelves, type ConeRange, type PieceHeat } from "#work";
import { FindingMarks } from "./finding-marks.tsx";
import { ShelfSide } from "./furniture-side.tsx";
import { KilnBody, Rows, Ruler, Sensors, Spyholes } from "./kiln-side.tsx";
import { shelfFacts, ShelfLine, spokenFacts, type ShelfFacts } from "./shelf-lines.tsx";
import { sideFrame, xOf, yOf, type SideFrame } from "./side-frame.ts";
import { fromTheFront, jacket, sideView, wallsOf, type SideView } from "./side-view.ts";
import { spreadLabels } from "./spread-labels.ts";
import { Inside, PickedPiece } from "./ware.tsx";
import "./cutaway.css";

export interface CutawayProps {
  readonly load: Load;
  /** The number of each piece on plan and sheet. */
  readonly numbers: ReadonlyMap<string, number>;
  /** From `heatOfPieces`; null while there is no forecast. */
  readonly heats?: ReadonlyMap<string, PieceHeat> | null;
  /** Axis of the shelves' bars: the strip's and, in a comparison, the other setting's. Made from `heats` if left out. */
  readonly range?: ConeRange;
  readonly units?: UnitPreference;
  /** Azimuth the viewer looks from; `fromTheFront` + n x `cutStep`. */
  readonly viewFrom?: Radians;
  readonly pickedPieceId?: string | null;
  readonly pickedShelfId?: string | null;
  readonly movedPieceIds?: ReadonlySet<string>;
  readonly findings?: readonly Finding[];
  readonly shownFinding?: Finding | null;
  /** A line per shelf at the right; left out, shown from 360 px width up. */
  readonly lines?: boolean;
  /** Short lines and no ruler, for two drawings side by side; left out, below 520 px width. */
  readonly compact?: boolean;
  readonly maxHeight?: number;
  readonly initialWidth?: number;
  readonly onSelectShelf?: (shelfId: string) => void;
  readonly onSelect?: (pieceId: string | null) => void;
}

/** Widths of the lines at the right, of their bars and of the ruler at the left [CSS px]. */
const full = { lines: 156, bar: 122, ruler: 54 };
const short = { lines: 116, bar: 88, ruler: 10 };
/** Height of a shelf's line: number, bar and weights, or without the weights [CSS px]. */
const lineHeight = { full: 62, short: 46 };

/** The kiln cut open from the side, to scale: the half behind the cut with its ware, and one line per shelf. */
export function Cutaway(props: CutawayProps): ReactNode {
  const { load, heats = null, units = metricUnits, viewFrom = fromTheFront, maxHeight = 700 } = props;
  const prefix = usePatternPrefix();
  const [stage, { width }] = useSize<HTMLDivElement>({ width: props.initialWidth ?? 600, height: 0 });
  const view = sideView(viewFrom);
  const lines = (props.lines ?? width >= 360) && load.setting.shelves.length > 0;
  const compact = props.compact ?? width < 520;
  const sizes = compact ? short : full;
  const margins = { left: sizes.ruler, right: lines ? sizes.lines + 22 : 26 };
  const kilnFrame = sideFrame(load.kiln, view, width, maxHeight, margins);
  const shelves = load.setting.shelves.length;
  const isShort = compact || shelves * lineHeight.full > kilnFrame.height;
  const tall = lineHeight[isShort ? "short" : "full"];
  const frame = { ...kilnFrame, height: Math.max(kilnFrame.height, lines ? shelves * tall : 0) };
  const range = props.range ?? coneRange(heats?.values() ?? [], load.firingClass.tolerance);
  const shelfHeats = heats ? heatOfShelves(load.setting, heats) : null;
  const facts = shelvesFromBottom(load.setting).map((shelf, i) =>
    shelfFacts(load, shelf, i + 1, shelfHeats?.get(shelf.id)),
  );
  const kiln = { kiln: load.kiln, view, frame, prefix };
  const inDrawing = { load, view, frame, prefix };
  const middles = spreadLabels(
    facts.map(({ shelf }) => yOf(frame, shelf.z)),
    tall,
    0,
    frame.height,
  );
  const pick = (event: MouseEvent): void => {
    const hit = (event.target as Element).closest<SVGElement>("[data-piece], [data-shelf]")?.dataset;
    if (hit?.["piece"] !== undefined) props.onSelect?.(hit["piece"]);
    if (hit?.["shelf"] !== undefined) props.onSelectShelf?.(hit["shelf"]);
  };
  return (
    <div className="cutaway" ref={stage}>
      {/* Pieces and shelves can be pressed here too; by keyboard they are reached through the plan's list and the lines. */}
      {/* oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-static-element-interactions */}
      <div className="cutaway-stage" onClick={pick}>
        <svg
          width={frame.width}
          height={frame.height}
          viewBox={`0 0 ${frame.width} ${frame.height}`}
          role="img"
          aria-label={summary(load, facts)}
        >
          <Patterns prefix={prefix} brickScale={frame.scale / 1000} />
          <KilnBody {...kiln} />
          <Rows {...kiln} />
          <Spyholes {...kiln} />
          {compact ? null : <Ruler {...kiln} units={units} />}
          <Inside {...props} inDrawing={inDrawing} heats={heats} />
          {facts.map(({ shelf }) => (
            <g key={shelf.id} data-shelf={shelf.id} className="cutaway-shelf">
              <ShelfSide {...inDrawing} shelf={shelf} isPicked={shelf.id === props.pickedShelfId} />
            </g>
          ))}
          <Sensors {...kiln} />
          <PickedPiece {...props} inDrawing={inDrawing} heats={heats} />
          <FindingMarks {...props} inDrawing={inDrawing} />
          {lines
            ? facts.map((fact, i) => (
                <ShelfLine
                  key={fact.shelf.id}
                  facts={fact}
                  range={range}
                  tolerance={load.firingClass.tolerance}
                  units={units}
                  prefix={prefix}
                  x={lineX(load, view, frame)}
                  y={middles[i]}
                  width={sizes.bar}
                  shelfY={yOf(frame, fact.shelf.z) + 4}
                  leaderX={xOf(frame, wallsOf(view, load.kiln).outer.to + jacket) + 4}
                  short={isShort}
                  isPicked={fact.shelf.id === props.pickedShelfId}
                />
              ))
            : null}
        </svg>
        {lines
          ? facts.map((fact, i) => (
              <button
                key={fact.shelf.id}
                type="button"
                className="cutaway-pick"
                aria-pressed={fact.shelf.id === props.pickedShelfId}
                aria-label={spokenFacts(fact, units)}
                style={{
                  left: lineX(load, view, frame) - 10,
                  top: middles[i] - tall / 2,
                  width: sizes.lines,
                  height: tall,
                }}
                onClick={() => props.onSelectShelf?.(fact.shelf.id)}
              />
            ))
          : null}
      </div>
    </div>
  );
}

function lineX(load: Load, view: SideView, frame: SideFrame): number {
  return xOf(frame, wallsOf(view, load.kiln).outer.to + jacket) + 30;
}

/** The drawing in one sentence. */
function summary(load: Load, facts: readonly ShelfFacts[]): string {
  const { kiln, firingClass, setting } = load;
  if (facts.length === 0) return `${kiln.name} cut open from the side: empty.`;
  const coldest = facts
    .flatMap(({ coldest: heat, number }) => (heat ? [{ heat, number }] : []))
    .sort((a, b) => a.heat.offset - b.heat.offset)[0];
  const hottest = facts
    .flatMap(({ hottest: heat, number }) => (heat ? [{ heat, number }] : []))
    .sort((a, b) => b.heat.offset - a.heat.offset)[0];
  const heat =
    coldest && hottest
      ? `, from ${offsetWords(coldest.heat.offset)} on shelf ${coldest.number} to ${offsetWords(hottest.heat.offset)} on shelf ${hottest.number}, against ${coneSpoken(firingClass.cone)}`
      : "";
  const count = setting.pieces.length;
  return `${kiln.name} cut open from the side: ${facts.length} ${facts.length === 1 ? "shelf" : "shelves"}, ${count} ${count === 1 ? "piece" : "pieces"}${heat}.`;
}
