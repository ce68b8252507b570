import { memo, type ReactNode } from "react";
import type { SeenKind, SeenShares } from "#engine/radiation";
import { WhatItSees } from "#web/charts";
import { usePieceView } from "#web/state";
import { Button, Checkbox } from "#web/ui";
import { chanceWords, formatShare, giveOrTakeWords, offsetWords } from "#words";
import { sentence } from "../words.ts";
import { longName, shortName } from "./piece-words.ts";
import type { SettingCommands } from "./setting-commands.ts";
import type { SettingModel } from "./setting-model.ts";

export interface PiecePanelProps {
  readonly model: SettingModel;
  readonly commands: SettingCommands;
  readonly pieceId: string | null;
  readonly canArrange: boolean;
  readonly onMoveTo: (pieceId: string) => void;
  /** The rules do not stop a move: what is wrong shows among the findings. */
  readonly isFree: boolean;
  readonly onFree: (isFree: boolean) => void;
}

/** Its outlines take some milliseconds to draw: only when the view is a new one. */
const Seen = memo(WhatItSees);

/** The picked piece: what it sees, how it comes out, why, and what can be done with it. */
export function PiecePanel(props: PiecePanelProps): ReactNode {
  const { model, commands, pieceId, canArrange } = props;
  const view = usePieceView(model.load, pieceId);
  const placed = model.record.setting.pieces.find((each) => each.pieceId === pieceId);
  if (pieceId === null || !placed) {
    return (
      <div className="setting-piece none">
        <p className="muted">
          {canArrange
            ? "Press a piece to pick it. Then drag it, press its new spot, or use the arrow keys."
            : "Press a piece to see how it comes out."}
        </p>
      </div>
    );
  }
  const heat = model.heats?.get(pieceId);
  const name = shortName(model, pieceId);
  return (
    <div className="setting-piece">
      <div className="setting-piece-view">
        {view ? (
          <Seen view={view} name={name} width={112} />
        ) : (
          <div className="setting-piece-wait" role="status">
            <span className="unseen">Looking around</span>
          </div>
        )}
      </div>
      <div className="setting-piece-text">
        <h3>{longName(model, pieceId)}</h3>
        {heat ? (
          <p className={model.isCurrent ? "" : "muted"}>
            <b>{sentence(offsetWords(heat.offset))}</b>, {giveOrTakeWords(heat.giveOrTake)}.{" "}
            {sentence(chanceWords(heat.chanceWanted))} to come out as wanted.
          </p>
        ) : (
          <p className="muted">No forecast yet for this piece.</p>
        )}
        {view ? <p className="muted small">{reason(view.shares, heat?.outside ?? null)}</p> : null}
      </div>
      {canArrange ? (
        <div className="setting-piece-actions">
          <Button size="small" icon="move" onPress={() => props.onMoveTo(pieceId)}>
            Move to
          </Button>
          <Button
            size="small"
            icon="turn"
            onPress={() => commands.turn({ ...placed, angle: placed.angle + Math.PI / 12 })}
            label={`Turn ${name} by 15 degrees`}
          />
          <Button
            size="small"
            icon="pin"
            variant={placed.fixed ? "primary" : "plain"}
            onPress={() => commands.setFixed(pieceId, !placed.fixed)}
            label={
              placed.fixed
                ? `Let ${name} move when a setting is proposed again`
                : `Keep ${name} here when a setting is proposed again`
            }
          />
          <Button
            size="small"
            icon="trash"
            onPress={() => commands.takeOut([pieceId])}
            label={`Take ${name} out, back to the bench`}
          />
          <Checkbox className="setting-freely" isSelected={props.isFree} onChange={props.onFree}>
            Move freely
          </Checkbox>
        </div>
      ) : null}
    </div>
  );
}

const hiding: readonly SeenKind[] = ["ware", "shelf", "lid", "floor", "furniture"];

/** Why it comes out so, from what it sees: how much of its view are elements and wall, and what takes most of the rest. */
export function reason(shares: SeenShares, outside: "cold" | "hot" | null): string {
  const open = shares.row + shares.wall;
  const most = [...hiding].sort((a, b) => shares[b] - shares[a])[0];
  const what: Partial<Record<SeenKind, string>> = {
    ware: "other ware",
    shelf: "the shelves",
    lid: "the lid",
    floor: "the floor",
    furniture: "posts and cones",
  };
  const facts = `${formatShare(open)} of what it sees are elements and wall; ${what[most] ?? ""} ${most === "shelf" || most === "furniture" ? "take" : "takes"} ${formatShare(shares[most])}.`;
  if (outside === "cold" && open < 0.35) return `${facts} So little open view keeps heat from it.`;
  if (outside === "hot" && open > 0.5) return `${facts} It stands open to the elements.`;
  return facts;
}
