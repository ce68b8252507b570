import { useMemo, useRef, useState, type ReactNode } from "react";
import { removing, usePageState, useStudio, putting } from "#web/state";
import { Button, Card, ScreenHead, SegmentedChoice, TextField, useAnnounce } from "#web/ui";
import { UndoButtons } from "../shell/undo-buttons.tsx";
import { countWords, todayIso } from "../words.ts";
import { benchCount, benchRows, groupsOf, rowsFound, type BenchRow, type Grouping } from "./bench-rows.ts";
import { BenchTable } from "./bench-table.tsx";
import { benchDetail } from "./bench-words.ts";
import { PieceDrawer } from "./piece-drawer.tsx";
import { SettingsCard } from "./settings-card.tsx";
import { ProposeDialog } from "./propose-dialog.tsx";
import { TakeIn } from "./take-in.tsx";
import "./bench.css";

/** What waits to be fired, taking in, and the way to a proposed setting. */
export function BenchScreen(): ReactNode {
  const document = useStudio();
  const { studio } = usePageState();
  const announce = useAnnounce();
  const today = todayIso();
  const [by, setBy] = useState<Grouping>("day");
  const [search, setSearch] = useState("");
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [opened, setOpened] = useState<string | null>(null);
  const [isProposing, setProposing] = useState(false);
  const searchField = useRef<HTMLInputElement>(null);
  const lineField = useRef<HTMLInputElement>(null);

  const rows = useMemo(() => benchRows(document, today), [document, today]);
  const shown = useMemo(() => rowsFound(rows, search), [rows, search]);
  const count = useMemo(() => benchCount(rows), [rows]);
  const tickedPieces = rows.flatMap((row) => row.pieces).filter((piece) => ticked.has(piece.id));
  const openRow = opened === null ? null : (rows.find((row) => row.pieces.some(({ id }) => id === opened)) ?? null);

  const tick = (row: BenchRow, isTicked: boolean): void => {
    const next = new Set(ticked);
    for (const { id } of row.pieces) {
      if (isTicked) next.add(id);
      else next.delete(id);
    }
    setTicked(next);
  };
  const remove = (pieceIds: readonly string[], words: string): void => {
    const out = new Set(pieceIds);
    const settings = document.settings.filter(({ setting }) => setting.pieces.some(({ pieceId }) => out.has(pieceId)));
    studio.change(`removal of ${words}`, [
      ...settings.map((record) =>
        putting("settings", {
          ...record,
          setting: { ...record.setting, pieces: record.setting.pieces.filter(({ pieceId }) => !out.has(pieceId)) },
        }),
      ),
      ...pieceIds.map((id) => removing("pieces", id)),
    ]);
    setTicked(new Set([...ticked].filter((id) => !out.has(id))));
    announce(`${words} removed. Undo puts them back.`);
  };
  const onKeyDown = (event: React.KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.target instanceof HTMLInputElement) return;
    const field = event.key === "/" ? searchField : event.key.toLowerCase() === "n" ? lineField : null;
    if (!field?.current) return;
    event.preventDefault();
    field.current.focus();
  };

  return (
    // Keys are a short cut to fields that can be reached by Tab as well.
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
    <div className="bench" onKeyDown={onKeyDown}>
      <ScreenHead
        title={
          count.all === 0
            ? "The bench is empty"
            : `${countWords(count.all, "piece")} ${count.all === 1 ? "waits" : "wait"}`
        }
        detail={benchDetail(count, document)}
      >
        <UndoButtons />
        <span className="bench-group-choice">
          <SegmentedChoice<Grouping>
            label="Group the pieces"
            value={by}
            onChange={setBy}
            options={[
              { id: "day", label: "By promised day" },
              { id: "class", label: "By class" },
              { id: "fit", label: "By fit" },
            ]}
          />
        </span>
        <TextField
          className="bench-search"
          label="Find a piece"
          hideLabel
          icon="search"
          type="search"
          value={search}
          onChange={setSearch}
          inputRef={searchField}
          placeholder="Find a piece"
        />
        <Button variant="primary" onPress={() => setProposing(true)} isDisabled={count.all === 0}>
          Propose a setting
        </Button>
      </ScreenHead>
      <div className="bench-columns">
        <Card label="Pieces on the bench" flush className="bench-list">
          {tickedPieces.length === 0 ? null : (
            <div className="bench-ticked" role="group" aria-label="Ticked pieces">
              <b>{countWords(tickedPieces.length, "piece")} ticked</b>
              <Button size="small" onPress={() => setProposing(true)}>
                Propose with these
              </Button>
              <Button
                size="small"
                icon="trash"
                onPress={() =>
                  remove(
                    tickedPieces.map(({ id }) => id),
                    countWords(tickedPieces.length, "piece"),
                  )
                }
              >
                Remove
              </Button>
              <Button size="small" variant="quiet" onPress={() => setTicked(new Set())}>
                Untick all
              </Button>
            </div>
          )}
          {count.all === 0 ? (
            <p className="bench-empty">
              Nothing waits here. Take in the first pieces: write one line such as “14 tumblers Tomas Tue”.
            </p>
          ) : shown.length === 0 ? (
            <p className="bench-empty" role="status">
              No piece is called “{search}”. Search by party, piece, class or setting.
            </p>
          ) : (
            <BenchTable
              groups={groupsOf(shown, by)}
              by={by}
              document={document}
              today={today}
              ticked={ticked}
              onTick={tick}
              onOpen={(row) => setOpened(row.pieces[0]?.id ?? null)}
            />
          )}
        </Card>
        <div className="bench-aside">
          <TakeIn today={today} lineRef={lineField} />
          <SettingsCard today={today} />
        </div>
      </div>
      <PieceDrawer row={openRow} today={today} onClose={() => setOpened(null)} onRemove={remove} />
      <ProposeDialog
        isOpen={isProposing}
        onClose={() => setProposing(false)}
        setting={null}
        pieceIds={tickedPieces.length === 0 ? null : tickedPieces.map(({ id }) => id)}
      />
    </div>
  );
}
