import { useMemo, useState, type ReactNode } from "react";
import type { Finding } from "#engine/checks";
import { shelfTypeOf, type PlacedShelf } from "#engine/kiln";
import { ShelfPlan, type MoveBy, type PieceMove } from "#web/plan";
import { Button, Card, IconButton, useSize } from "#web/ui";
import { media, useMedia } from "../use-media.ts";
import { countWords } from "../words.ts";
import { PiecePanel } from "./piece-panel.tsx";
import { anywhere, verdictsOf, type SettingCommands } from "./setting-commands.ts";
import type { SettingModel } from "./setting-model.ts";

export interface PlanCardProps {
  readonly model: SettingModel;
  readonly commands: SettingCommands;
  readonly shelf: PlacedShelf | null;
  readonly pickedPieceId: string | null;
  /** A piece from the bench that waits for its spot. */
  readonly placing: string | null;
  readonly shown: Finding | null;
  readonly canArrange: boolean;
  readonly onSelect: (pieceId: string | null) => void;
  readonly onShelf: (step: 1 | -1) => void;
  readonly onPlaced: () => void;
  readonly onMoveTo: (pieceId: string) => void;
  readonly onSwap: (pieceId: string) => void;
  readonly onHelp: () => void;
}

/** One shelf from above, where pieces are moved, and the picked piece below it. */
export function PlanCard(props: PlanCardProps): ReactNode {
  const { model, commands, shelf, pickedPieceId, placing, canArrange } = props;
  // On a desk the drawing takes the height that the piece below it leaves.
  const fills = useMedia(media.filled);
  const [area, { height }] = useSize<HTMLDivElement>({ width: 364, height: 330 });
  const [isFree, setFree] = useState(false);
  const verdictAt = useMemo(() => (isFree ? anywhere : verdictsOf(model)), [model, isFree]);
  if (!shelf) {
    return (
      <Card title="From above" className="setting-plan">
        <p className="muted">This setting has no shelf. Propose it again to fill the kiln.</p>
      </Card>
    );
  }
  const number = model.shelves.indexOf(shelf) + 1;
  const count = model.record.setting.pieces.filter(({ shelfId }) => shelfId === shelf.id).length;
  const isHalf = shelfTypeOf(model.load, shelf).outline.kind === "half-disc";
  const place = (move: PieceMove, by: MoveBy): void => {
    if (placing !== null && move.pieceId === placing) {
      commands.putIn(placing, move.shelfId, move);
      props.onPlaced();
      props.onSelect(move.pieceId);
    } else commands.move(move, by === "keys");
  };
  return (
    <Card
      title={`Shelf ${number} from above`}
      tools={
        <>
          <IconButton
            icon="down"
            label="Shelf below"
            size="small"
            isDisabled={number === 1}
            onPress={() => props.onShelf(-1)}
          />
          <IconButton
            icon="up"
            label="Shelf above"
            size="small"
            isDisabled={number === model.shelves.length}
            onPress={() => props.onShelf(1)}
          />
        </>
      }
      aside={`${isHalf ? "half, " : ""}${countWords(count, "piece")}`}
      flush
      className="setting-plan"
    >
      <div className="setting-plan-drawing" ref={area}>
        <ShelfPlan
          load={model.load}
          shelfId={shelf.id}
          shelfNumber={number}
          numbers={model.plainNumbers}
          heats={model.heats}
          units={model.units}
          partyName={model.partyName}
          pickedPieceId={pickedPieceId}
          findings={model.check.findings}
          shownFinding={props.shown}
          placing={placing}
          maxHeight={fills ? Math.max(height, 240) : 430}
          onSelect={props.onSelect}
          onShelf={props.onShelf}
          {...(canArrange
            ? {
                onMove: place,
                onTurn: commands.turn,
                verdictAt,
                onMoveTo: props.onMoveTo,
                onSwap: props.onSwap,
                onTakeOut: (pieceId: string) => commands.takeOut([pieceId]),
                onHelp: props.onHelp,
                onCancelPlacing: props.onPlaced,
              }
            : {})}
        />
      </div>
      {canArrange ? (
        <span className="setting-plan-keys">
          <IconButton icon="keyboard" label="Keys in the plan" size="small" variant="quiet" onPress={props.onHelp} />
        </span>
      ) : null}
      {placing === null ? (
        <PiecePanel
          model={model}
          commands={commands}
          pieceId={pickedPieceId}
          canArrange={canArrange}
          isFree={isFree}
          onFree={setFree}
          onMoveTo={props.onMoveTo}
        />
      ) : (
        <div className="setting-piece placing">
          <p role="status">
            Press the spot on the shelf where the <b>{shapeName(model, placing)}</b> goes.
          </p>
          <p className="muted">The arrows in the title bring up another shelf.</p>
          <div className="setting-piece-actions">
            <Button size="small" onPress={props.onPlaced}>
              Not now
            </Button>
          </div>
        </div>
      )}
    </Card>
  );
}

function shapeName(model: SettingModel, pieceId: string): string {
  const shapeId = model.load.pieces.get(pieceId)?.shapeId;
  return model.document.shapes.find(({ id }) => id === shapeId)?.name ?? "piece";
}
