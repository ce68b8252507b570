import { useState, type ReactNode } from "react";
import type { PieceRecord } from "#records";
import { putting, usePageState, useStudio } from "#web/state";
import { Button, Checkbox, Dialog, Select, TextField } from "#web/ui";
import { sizeOf } from "#work";
import { coneWords, formatMass } from "#words";
import { addressOf } from "../route.ts";
import { countWords, unitsOf } from "../words.ts";
import type { BenchRow } from "./bench-rows.ts";
import { planWords, rowName, unfitWords } from "./bench-words.ts";
import { ShapePicture } from "./shape-picture.tsx";
import { sizeText } from "./size-text.ts";

export interface PieceDrawerProps {
  /** Null: closed. */
  readonly row: BenchRow | null;
  readonly today: string;
  readonly onClose: () => void;
  readonly onRemove: (pieceIds: readonly string[], words: string) => void;
}

const noStilt = "wiped-foot";

/** All that is known of a line of pieces, to be changed at once; every change can be undone. */
export function PieceDrawer({ row, onClose, onRemove }: PieceDrawerProps): ReactNode {
  const document = useStudio();
  const { studio } = usePageState();
  if (!row) return null;
  const { pieces, shape } = row;
  const first = pieces[0];
  const units = unitsOf(document);
  const name = rowName(row);
  const change = (what: string, fields: Partial<PieceRecord>): void =>
    studio.change(
      `${what} of ${name}`,
      pieces.map((piece) => putting("pieces", { ...piece, ...fields })),
    );
  const stilts = new Map(document.furniture.flatMap((each) => each.stilts.map((stilt) => [stilt.id, stilt.name])));
  return (
    <Dialog
      isOpen
      onClose={onClose}
      place="side"
      title={name}
      actions={
        <>
          <Button
            icon="trash"
            onPress={() => {
              onClose();
              onRemove(
                pieces.map(({ id }) => id),
                countWords(pieces.length, shape.name),
              );
            }}
          >
            Remove {countWords(pieces.length, shape.name)}
          </Button>
          <Button variant="primary" onPress={onClose}>
            Done
          </Button>
        </>
      }
    >
      <div className="bench-drawer">
        <div className="bench-drawer-shape">
          <ShapePicture
            shape={shape}
            scale={Math.min(420, 90 / sizeOf(shape).high)}
            isBisque={row.firingClass.kind === "bisque"}
          />
          <p className="small muted">
            {sizeText(sizeOf(shape), units.length)} {units.length === "metric" ? "cm" : "in"},{" "}
            {formatMass(shape.mass, units)} each
            {shape.guessed ? ", guessed" : ""}
          </p>
        </div>
        <TextField
          label="Promised"
          type="date"
          value={first.promised}
          onChange={(promised) => {
            if (/^\d{4}-\d\d-\d\d$/.test(promised)) change("new day", { promised });
          }}
        />
        <Select
          label="Party"
          options={document.parties.map((party) => ({ id: party.id, label: party.name }))}
          value={first.partyId}
          onChange={(partyId) => change("new party", { partyId })}
        />
        <Select
          label="Class"
          options={document.classes.map((each) => ({ id: each.id, label: each.name, detail: coneWords(each.cone) }))}
          value={first.classId}
          onChange={(classId) => change("new class", { classId })}
        />
        <Select
          label="Foot"
          options={[{ id: noStilt, label: "Wiped foot" }, ...[...stilts].map(([id, label]) => ({ id, label }))]}
          value={first.stiltId ?? noStilt}
          onChange={(id) => change("new foot", { stiltId: id === noStilt ? null : id })}
        />
        <Checkbox isSelected={first.held} onChange={(held) => change(held ? "holding back" : "release", { held })}>
          Hold back: not in any load yet
        </Checkbox>
        <NoteField key={first.id} note={first.note} onChange={(note) => change("note", { note })} />
        <section>
          <h3>Where it can go</h3>
          <ul className="app-lines">
            {row.fits.map((fit) => (
              <li key={fit.kilnName}>{unfitWords(fit, document)}</li>
            ))}
          </ul>
          <p className="small muted">
            {row.setting ? (
              <a href={addressOf({ room: "setting", settingId: row.setting.id })}>{planWords(row)}</a>
            ) : (
              planWords(row)
            )}
          </p>
        </section>
      </div>
    </Dialog>
  );
}

function NoteField({
  note,
  onChange,
}: {
  readonly note: string;
  readonly onChange: (note: string) => void;
}): ReactNode {
  const [text, setText] = useState(note);
  return (
    <TextField
      label="Note"
      rows={3}
      value={text}
      onChange={(next) => setText(next.slice(0, 400))}
      onBlur={() => {
        if (text !== note) onChange(text);
      }}
    />
  );
}
