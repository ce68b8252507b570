import { useMemo, useRef, useState, type ReactNode } from "react";
import type { PieceRecord, SettingRecord } from "#records";
import { Cutaway } from "#web/cutaway";
import { useStudio } from "#web/state";
import { Button, Card, Dialog, Tag, TextField } from "#web/ui";
import { dayNumberOf, timeAndMoney } from "#work";
import { cautions, coneWords, english, formatDurationBand, formatMoment, giveOrTakeWords, offsetWords } from "#words";
import { addressOf } from "../route.ts";
import { useQuickForecast } from "../setting/quick-forecast.ts";
import { useSettingModel } from "../setting/setting-model.ts";
import { countWords, dayWords, distanceWords, sentence, todayIso, unitsOf } from "../words.ts";
import { benchRows, rowsFound, tooBig, type BenchRow } from "./bench-rows.ts";
import { planWords, stateWords, unfitWords } from "./bench-words.ts";
import { TakeIn } from "./take-in.tsx";
import "./bench.css";

/** Rows shown before anything is searched for: the next promises. */
const shownFirst = 8;

/** On a phone: find a piece, where it is, when it is ready. No arranging. */
export function PhoneBench(): ReactNode {
  const document = useStudio();
  const today = todayIso();
  const [search, setSearch] = useState("");
  const [isTaking, setTaking] = useState(false);
  const lineRef = useRef<HTMLInputElement>(null);
  const rows = useMemo(() => benchRows(document, today), [document, today]);
  const found = rowsFound(rows, search);
  const shown = search.trim() === "" ? found.slice(0, shownFirst) : found;
  return (
    <div className="phone-bench">
      <h1 className="unseen">Find a piece</h1>
      <TextField
        label="Find a piece by party, piece or class"
        hideLabel
        icon="search"
        type="search"
        size="large"
        placeholder="Find a piece"
        value={search}
        onChange={setSearch}
      />
      {search.trim() === "" && shown.length > 0 ? <h2>Promised next</h2> : null}
      {shown.length === 0 ? (
        <p role="status" className="phone-none">
          {rows.length === 0 ? "Nothing waits on the bench." : `No piece is called “${search}”. Try the party’s name.`}
        </p>
      ) : null}
      {shown.map((row) => (
        <PieceCard key={row.key} row={row} today={today} />
      ))}
      <Button onPress={() => setTaking(true)}>Take in pieces</Button>
      <Dialog isOpen={isTaking} onClose={() => setTaking(false)} place="side" title="Take in">
        <TakeIn today={today} lineRef={lineRef} bare />
      </Dialog>
    </div>
  );
}

function PieceCard({ row, today }: { readonly row: BenchRow; readonly today: string }): ReactNode {
  const document = useStudio();
  const name = `${row.party.name}, ${countWords(row.pieces.length, row.shape.name)}`;
  return (
    <Card label={name} className="phone-piece">
      <header className="phone-piece-head">
        <h2>{name}</h2>
        <Tag kind={row.firingClass.kind}>{row.firingClass.name}</Tag>
      </header>
      {row.setting ? (
        <Placed row={row} setting={row.setting} today={today} />
      ) : (
        <>
          <p>
            {stateWords(row, today, unitsOf(document))}. {sentence(planWords(row))}.
          </p>
          <p>
            Promised <b>{dayWords(row.promised, today)}</b>, {distanceWords(row.promised, today)}.
          </p>
          {tooBig(row) ? <p className="muted">{row.fits.map((fit) => unfitWords(fit, document)).join(" ")}</p> : null}
        </>
      )}
    </Card>
  );
}

/** Where the pieces stand, when they can be handed out, and how they come out. */
function Placed(props: { readonly row: BenchRow; readonly setting: SettingRecord; readonly today: string }): ReactNode {
  const { row, setting, today } = props;
  const setup = useSettingModel(setting, false);
  const { model, progress } = setup;
  useQuickForecast(setup);
  const { document, kiln, numbers, units, heats } = model;
  const { forecast } = model;
  const ids = new Set(row.pieces.map(({ id }) => id));
  const shelves = [...new Set(row.pieces.flatMap(({ id }: PieceRecord) => numbers.get(id)?.shelf ?? []))].sort(
    (a, b) => a - b,
  );
  const first = row.pieces.find(({ id }) => numbers.has(id));
  const when = forecast ? timeAndMoney(document, setting, forecast) : null;
  const lateBy = when?.ready
    ? Math.ceil((when.ready + (forecast?.uncertainty.ready ?? 0)) / 86_400 - dayNumberOf(row.promised) - 1)
    : 0;
  const offsets = heats ? [...ids].flatMap((id) => heats.get(id) ?? []).sort((a, b) => a.offset - b.offset) : [];
  const [coldest, hottest] = [offsets[0], offsets.at(-1)];
  return (
    <>
      <p>
        In {kiln.name}, {english.list(shelves.map((shelf) => `shelf ${shelf}`))}.
      </p>
      <div className="phone-where">
        <Cutaway
          load={model.load}
          numbers={model.plainNumbers}
          heats={heats}
          range={model.range}
          units={units}
          pickedPieceId={first?.id ?? null}
          pickedShelfId={model.record.setting.pieces.find(({ pieceId }) => pieceId === first?.id)?.shelfId ?? null}
          movedPieceIds={ids}
          lines={false}
          maxHeight={240}
          initialWidth={150}
        />
        <div>
          <p className="muted">Ready to hand out</p>
          {when?.ready && forecast ? (
            <>
              <p className="result">{formatMoment(when.ready, units, english, true)}</p>
              <p className="muted">{formatDurationBand(forecast.uncertainty.ready)}</p>
            </>
          ) : (
            <p className="muted" role="status">
              {progress.failure ? progress.failure.error : "Working it out"}
            </p>
          )}
        </div>
      </div>
      <p>
        Promised <b>{dayWords(row.promised, today)}</b>.{" "}
        {when?.ready ? (
          <>
            <b>{lateBy > 0 ? "It may be late" : "On time"}</b>, if the kiln starts {formatMoment(when.start, units)}.{" "}
            <span className="muted">It cools with its {kiln.opening} shut.</span>
          </>
        ) : null}
      </p>
      {coldest && hottest ? (
        <p className={model.isCurrent ? "" : "muted"}>
          <b>{sentence(offsetWords(coldest.offset))}</b>
          {offsetWords(coldest.offset) === offsetWords(hottest.offset)
            ? ""
            : ` to ${offsetWords(hottest.offset)}`},{" "}
          {giveOrTakeWords(coldest.giveOrTake)}.{" "}
          <span className="muted">
            {sentence(coneWords(model.firingClass.cone))}. {cautions.forecast.join(" ")}
          </span>
        </p>
      ) : null}
      <a className="phone-link" href={addressOf({ room: "setting", settingId: setting.id })}>
        Show setting {setting.name}
      </a>
    </>
  );
}
