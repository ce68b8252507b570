import type { ReactNode } from "react";
import { Button } from "#web/ui";
import { found, readyPieces } from "#work";
import { say } from "#words";
import { countWords } from "../words.ts";
import type { SettingModel } from "./setting-model.ts";

interface Waiting {
  readonly key: string;
  readonly pieceIds: readonly string[];
  readonly name: string;
  readonly party: string;
  readonly reason: string | null;
}

/** Ready pieces of the class that are not in, those that are alike together, each with the reason the proposal gave. */
export function waitingPieces({ document, record, units }: SettingModel): readonly Waiting[] {
  const placed = new Set(record.setting.pieces.map(({ pieceId }) => pieceId));
  const reasons = new Map(record.proposal?.waiting.map(({ pieceId, reason }) => [pieceId, reason]));
  const groups = new Map<string, Waiting & { pieceIds: string[] }>();
  for (const piece of readyPieces(document, record.classId, record.day, record.id)) {
    if (placed.has(piece.id)) continue;
    const reason = reasons.get(piece.id) ?? null;
    const key = [piece.partyId, piece.shapeId, reason].join("|");
    const group = groups.get(key);
    if (group) group.pieceIds.push(piece.id);
    else {
      groups.set(key, {
        key,
        pieceIds: [piece.id],
        name: found(document.shapes, piece.shapeId, "shape").name,
        party: found(document.parties, piece.partyId, "party").name,
        reason: reason === null ? null : say({ key: `wait.${reason}`, values: {} }, units),
      });
    }
  }
  return [...groups.values()];
}

export interface WaitingProps {
  readonly model: SettingModel;
  readonly isFolded: boolean;
  /** Left out where nothing can be arranged. */
  readonly onPutIn?: (pieceId: string) => void;
}

export function WaitingPieces(props: WaitingProps): ReactNode {
  const waiting = waitingPieces(props.model);
  const count = waiting.reduce((sum, { pieceIds }) => sum + pieceIds.length, 0);
  const title =
    count === 0 ? "No ready piece waits" : `${countWords(count, "ready piece")} ${count === 1 ? "waits" : "wait"}`;
  const list = <WaitingList {...props} waiting={waiting} />;
  if (props.isFolded && count > 0) {
    return (
      <details className="setting-fold">
        <summary>{title}</summary>
        <div className="setting-waiting folded">{list}</div>
      </details>
    );
  }
  return (
    <section className="setting-waiting" aria-label="Pieces that wait">
      <h3>{title}</h3>
      {list}
    </section>
  );
}

function WaitingList({ model, waiting, onPutIn }: WaitingProps & { readonly waiting: readonly Waiting[] }): ReactNode {
  const { proposal } = model.record;
  return (
    <>
      {proposal ? <p className="small muted">{boundWords(proposal)}</p> : null}
      <ul className="setting-waiting-list">
        {waiting.map(({ key, pieceIds, name, party, reason }) => (
          <li key={key}>
            <span>
              <b>
                {countWords(pieceIds.length, name)}, {party}
              </b>
              {reason === null ? null : <span className="small muted"> {reason}</span>}
            </span>
            {onPutIn ? (
              <Button size="small" onPress={() => onPutIn(pieceIds[0])} label={`Put in one ${name}, ${party}`}>
                Put one in
              </Button>
            ) : null}
          </li>
        ))}
      </ul>
    </>
  );
}

/** How near the proposal is to the most any setting could hold, as far as it is proven. */
export function boundWords({ value, bound }: { readonly value: number; readonly bound: number }): string {
  if (bound <= 0) return "";
  const share = Math.floor((value / bound) * 100 + 1e-6);
  if (share >= 100) return "No setting can hold more, by worth and promised day. That is proven.";
  return `It holds at least ${share}\u202f% of what any setting could, by worth and promised day. That is proven.`;
}
