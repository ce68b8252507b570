import { useMemo, type ReactNode } from "react";
import { shapeOf } from "#engine/kiln";
import { Button, Dialog } from "#web/ui";
import { longName, placedName, shortName } from "./piece-words.ts";
import { roomOnShelves, type SettingCommands } from "./setting-commands.ts";
import type { SettingModel } from "./setting-model.ts";

export interface MoveDialogProps {
  readonly model: SettingModel;
  readonly commands: SettingCommands;
  readonly pieceId: string;
  readonly kind: "move" | "swap";
  readonly onClose: () => void;
  readonly onDone: (pieceId: string) => void;
}

/** The shelves with room for a piece, or the pieces it could change places with. */
export function MoveDialog(props: MoveDialogProps): ReactNode {
  return (
    <Dialog
      isOpen
      onClose={props.onClose}
      title={
        props.kind === "move"
          ? `Move ${shortName(props.model, props.pieceId)} to`
          : `Swap ${shortName(props.model, props.pieceId)} with`
      }
    >
      <p className="muted">{longName(props.model, props.pieceId)}</p>
      {props.kind === "move" ? <Shelves {...props} /> : <Others {...props} />}
    </Dialog>
  );
}

function Shelves({ model, commands, pieceId, onClose, onDone }: MoveDialogProps): ReactNode {
  const rooms = useMemo(() => roomOnShelves(model, pieceId), [model, pieceId]);
  const now = model.record.setting.pieces.find((each) => each.pieceId === pieceId)?.shelfId;
  return (
    <ul className="setting-choices">
      {[...rooms].reverse().map(({ shelfId, number, isHalf, spot }) => (
        <li key={shelfId}>
          <Button
            isDisabled={spot === null || shelfId === now}
            onPress={() => {
              if (!spot) return;
              commands.toShelf(pieceId, shelfId, spot);
              onDone(pieceId);
              onClose();
            }}
          >
            Shelf {number}
            {isHalf ? ", half" : ""}
          </Button>
          <span className="small muted">
            {shelfId === now ? "it stands here" : spot ? "has room" : "no room, or not high enough"}
          </span>
        </li>
      ))}
    </ul>
  );
}

function Others({ model, commands, pieceId, onClose, onDone }: MoveDialogProps): ReactNode {
  const others = model.record.setting.pieces
    .filter((each) => each.pieceId !== pieceId)
    .map((each) => ({
      id: each.pieceId,
      at: model.numbers.get(each.pieceId),
      shape: shapeOf(model.load, each.pieceId),
    }))
    .sort((a, b) => (a.at?.shelf ?? 0) - (b.at?.shelf ?? 0) || (a.at?.number ?? 0) - (b.at?.number ?? 0));
  return (
    <ul className="setting-choices">
      {others.map(({ id }) => (
        <li key={id}>
          <Button
            size="small"
            onPress={() => {
              commands.swap(pieceId, id);
              onDone(pieceId);
              onClose();
            }}
          >
            {placedName(model, id)}
          </Button>
          <span className="small muted">{model.partyName(id)}</span>
        </li>
      ))}
    </ul>
  );
}
