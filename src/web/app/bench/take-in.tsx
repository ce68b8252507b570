import { useState, type ReactNode, type RefObject } from "react";
import type { StudioDocument } from "#records";
import { putting, usePageState, useStudio } from "#web/state";
import { Button, Card, NumberStepper, Select, TextField, useAnnounce } from "#web/ui";
import { intakeGaps, parseIntake, shapeOfSize, sizeOf, takeIn, type Intake } from "#work";
import { cautions, coneWords } from "#words";
import { countWords, dayWords, unitsOf } from "../words.ts";
import { ShapePicture } from "./shape-picture.tsx";
import { sizeText, sizeIn } from "./size-text.ts";

/** Fields set by hand: they win over what the line says until the pieces are in. */
type ByHand = Partial<Pick<Intake, "count" | "shape" | "size" | "party" | "promised" | "firingClass" | "stiltId">>;

/** Pieces drawn one by one up to this many; more are said in words. */
const drawnAtMost = 40;

export interface TakeInProps {
  readonly today: string;
  readonly lineRef: RefObject<HTMLInputElement | null>;
  /** Without a card round it, in a dialog that has the title. */
  readonly bare?: boolean;
}

/** One line of text becomes drawn pieces and filled fields, to be mended by touch and added. */
export function TakeIn({ today, lineRef, bare = false }: TakeInProps): ReactNode {
  const document = useStudio();
  const { studio } = usePageState();
  const announce = useAnnounce();
  const [line, setLine] = useState("");
  const [byHand, setByHand] = useState<ByHand>({});
  const [wasTried, setTried] = useState(false);
  const units = unitsOf(document);
  const parsed = parseIntake(line, document, { today, length: units.length });
  const intake: Intake = { ...parsed, ...byHand };
  const gaps = intakeGaps(intake);
  const set = (fields: ByHand): void => setByHand({ ...byHand, ...fields });
  const isStarted = line.trim() !== "" || Object.keys(byHand).length > 0;

  const add = (): void => {
    if (gaps.length > 0) {
      setTried(true);
      return;
    }
    const taken = takeIn(document, intake);
    const name = countWords(taken.pieces.length, (taken.shape ?? intake.shape)?.name ?? "piece");
    studio.change(`taking in of ${name}`, [
      ...(taken.party ? [putting("parties", taken.party)] : []),
      ...(taken.shape ? [putting("shapes", taken.shape)] : []),
      ...taken.pieces.map((piece) => putting("pieces", piece)),
    ]);
    announce(`${name} added for ${intake.party?.name ?? ""}.`);
    setLine("");
    setByHand({});
    setTried(false);
    lineRef.current?.focus();
  };

  const body = (
    <>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          add();
        }}
      >
        <TextField
          label="Say it in one line"
          size="large"
          value={line}
          onChange={setLine}
          inputRef={lineRef}
          placeholder="14 tumblers Tomas Tue"
          autoComplete="off"
          hint={isStarted ? undefined : "Count, piece, for whom, promised day. Size, class and stilts if you like."}
        />
        {isStarted ? (
          <>
            <Drawn intake={intake} document={document} />
            <Fields intake={intake} document={document} set={set} isTried={wasTried} today={today} />
            {intake.questions.map((question) => (
              <p key={question} className="bench-question" role="alert">
                {question}
              </p>
            ))}
            {intake.firingClass && parsed.guessed.has("class") && !byHand.firingClass ? (
              <p className="small muted">
                {intake.firingClass.name} is our guess: {coneWords(intake.firingClass.cone)}. Change it if yours differ.
              </p>
            ) : null}
            {intake.shape && !intake.size && parsed.guessed.has("size") ? (
              <p className="small muted">Size is our guess for a {intake.shape.name}. Change it if yours differ.</p>
            ) : null}
            <div className="ui-actions">
              <Button
                onPress={() => {
                  setLine("");
                  setByHand({});
                  setTried(false);
                }}
              >
                Clear
              </Button>
              <Button variant="primary" type="submit" className="bench-add">
                {intake.shape ? `Add ${countWords(intake.count, intake.shape.name)}` : "Add"}
              </Button>
            </div>
          </>
        ) : null}
      </form>
      <p className="small muted">{cautions.ware.join(" ")}</p>
    </>
  );
  return bare ? (
    <div className="bench-take-in">{body}</div>
  ) : (
    <Card title="Take in" className="bench-take-in">
      {body}
    </Card>
  );
}

function Drawn({ intake, document }: { readonly intake: Intake; readonly document: StudioDocument }): ReactNode {
  const { shape, count } = intake;
  if (!shape) return <p className="bench-drawn muted">Which piece is it? Name a shape, or choose one below.</p>;
  const sized = shapeOfSize(document, shape, intake.size);
  const pictures = Math.min(count, drawnAtMost);
  return (
    <div className="bench-drawn" role="img" aria-label={countWords(count, shape.name)}>
      {Array.from({ length: pictures }, (_, index) => (
        <ShapePicture key={index} shape={sized} scale={220} isBisque={intake.firingClass?.kind === "bisque"} />
      ))}
      {count > pictures ? <span className="small muted">and {count - pictures} more</span> : null}
    </div>
  );
}

interface FieldsProps {
  readonly intake: Intake;
  readonly document: StudioDocument;
  readonly set: (fields: ByHand) => void;
  readonly isTried: boolean;
  readonly today: string;
}

const noStilt = "wiped-foot";

function Fields({ intake, document, set, isTried, today }: FieldsProps): ReactNode {
  const units = unitsOf(document);
  const gaps = isTried ? intakeGaps(intake) : [];
  const stilts = new Map(document.furniture.flatMap(({ stilts }) => stilts.map((stilt) => [stilt.id, stilt.name])));
  const sized = intake.size ?? (intake.shape ? sizeOf(intake.shape) : null);
  return (
    <div className="bench-fields">
      <NumberStepper
        label="How many"
        value={intake.count}
        minValue={1}
        maxValue={500}
        onChange={(count) => set({ count })}
      />
      <TextField
        label="Party"
        value={intake.party?.name ?? ""}
        onChange={(name) =>
          set({
            party: document.parties.find((each) => each.name.toLowerCase() === name.trim().toLowerCase()) ?? { name },
          })
        }
        error={gaps.includes("party") ? "Say who it is for" : null}
        autoComplete="off"
      />
      <Select
        label="Piece"
        options={document.shapes.map(({ id, name }) => ({ id, label: name }))}
        value={intake.shape?.id ?? null}
        onChange={(id) => set({ shape: document.shapes.find((each) => each.id === id) ?? null })}
        error={gaps.includes("shape") ? "Choose a piece" : null}
      />
      <SizeField
        key={`${intake.shape?.id} ${units.length}`}
        size={sized}
        units={units.length}
        isGuess={intake.size === null}
        onChange={(size) => set({ size })}
      />
      <TextField
        label="Promised"
        type="date"
        value={intake.promised}
        onChange={(promised) => {
          if (/^\d{4}-\d\d-\d\d$/.test(promised)) set({ promised });
        }}
        hint={dayWords(intake.promised, today)}
      />
      <Select
        label="Class"
        options={document.classes.map(({ id, name, cone }) => ({ id, label: name, detail: coneWords(cone) }))}
        value={intake.firingClass?.id ?? null}
        onChange={(id) => set({ firingClass: document.classes.find((each) => each.id === id) ?? null })}
        error={gaps.includes("class") ? "Choose a class" : null}
      />
      <Select
        label="Foot"
        options={[{ id: noStilt, label: "Wiped foot" }, ...[...stilts].map(([id, label]) => ({ id, label }))]}
        value={intake.stiltId ?? noStilt}
        onChange={(id) => set({ stiltId: id === noStilt ? null : id })}
      />
    </div>
  );
}

function SizeField(props: {
  readonly size: { readonly across: number; readonly high: number | null } | null;
  readonly units: "metric" | "inch";
  readonly isGuess: boolean;
  readonly onChange: (size: NonNullable<Intake["size"]>) => void;
}): ReactNode {
  const shown = props.size ? sizeText(props.size, props.units) : "";
  const [text, setText] = useState<string | null>(null);
  const read = text === null ? null : sizeIn(text, props.units);
  return (
    <TextField
      label={`Size across × high, ${props.units === "metric" ? "cm" : "in"}`}
      value={text ?? shown}
      inputMode="decimal"
      onChange={(next) => {
        setText(next);
        const size = sizeIn(next, props.units);
        if (size) props.onChange(size);
      }}
      onBlur={() => {
        if (read) setText(null);
      }}
      error={text !== null && read === null ? "Two numbers, such as 8.4 × 10" : null}
    />
  );
}
