import { useRef, useState, type ReactNode } from "react";
import type { SettingRecord } from "#records";
import { putting, startJob, usePageState, useStudio, useStudioView, type Job, type JobProgress } from "#web/state";
import { Button, Dialog, ProgressBar, SegmentedChoice, Select, TextField, useAnnounce } from "#web/ui";
import { dayNumberOf, isoDateOf, readyPieces } from "#work";
import { coneWords, english } from "#words";
import { goTo } from "../route.ts";
import { countWords, dayWords, todayIso } from "../words.ts";

export interface ProposeDialogProps {
  readonly isOpen: boolean;
  readonly onClose: () => void;
  /** The setting to propose again: its kiln, class and name stay. Null: a new one. */
  readonly setting: SettingRecord | null;
  /** Ticked pieces; null: every ready piece of the class. */
  readonly pieceIds: readonly string[] | null;
  /** The kiln to begin with; the first one if left out. */
  readonly kilnId?: string | null;
}

/** Firings start at seven unless someone says otherwise: after that, the next one is tomorrow's. */
function nextMorning(today: string): string {
  return new Date().getHours() < 7 ? today : isoDateOf(dayNumberOf(today) + 1);
}

/** Time the search may take [s]. */
const searches = { short: 3, usual: 10, long: 40 } as const;

/** Kiln, class, day and time to spend; then the search with its progress, to be stopped at any time. */
export function ProposeDialog(props: ProposeDialogProps): ReactNode {
  return props.isOpen ? <Asked {...props} /> : null;
}

function Asked({ onClose, setting, pieceIds, kilnId: wantedKiln = null }: ProposeDialogProps): ReactNode {
  const document = useStudio();
  const { saving } = useStudioView();
  const { door, studio } = usePageState();
  const announce = useAnnounce();
  const today = todayIso();
  const ticked = pieceIds === null ? null : document.pieces.filter(({ id }) => pieceIds.includes(id));
  const [day, setDay] = useState(() => setting?.day ?? nextMorning(today));
  const readyOf = (classId: string): number =>
    ticked
      ? ticked.filter((piece) => piece.classId === classId).length
      : readyPieces(document, classId, day, setting?.id ?? null).length;
  const classes = [...document.classes].sort((a, b) => readyOf(b.id) - readyOf(a.id));
  const [classId, setClassId] = useState(setting?.classId ?? classes[0]?.id ?? null);
  const [kilnId, setKilnId] = useState(setting?.kilnId ?? wantedKiln ?? document.kilns[0]?.id ?? null);
  const [search, setSearch] = useState<keyof typeof searches>("usual");
  const [progress, setProgress] = useState<JobProgress | null>(null);
  const [failure, setFailure] = useState<{ readonly error: string; readonly remedy: string } | null>(null);
  const job = useRef<Job | null>(null);
  const kiln = document.kilns.find(({ id }) => id === kilnId);
  const ready = classId === null ? 0 : readyOf(classId);
  const others = ticked && classId !== null ? ticked.filter((piece) => piece.classId !== classId).length : 0;

  const start = async (): Promise<void> => {
    if (kilnId === null || classId === null) return;
    setFailure(null);
    setProgress({ fraction: null, words: "Waiting to start" });
    const started = startJob(
      door,
      {
        work: "propose",
        kilnId,
        classId,
        day,
        ...(ticked ? { pieceIds: ticked.filter((piece) => piece.classId === classId).map(({ id }) => id) } : {}),
        settingId: setting?.id ?? null,
        seconds: searches[search],
        // Asked again, another way of searching: the same one would find the same setting.
        seed: (setting?.proposal?.seed ?? 0) + 1,
      },
      setProgress,
    );
    job.current = started;
    const end = await started.ended;
    job.current = null;
    setProgress(null);
    if (end.state === "failed") setFailure(end);
    if (end.state !== "done" || end.result.work !== "propose") return;
    const proposed = end.result.setting;
    const count = countWords(proposed.setting.pieces.length, "piece");
    studio.change(`proposal of setting ${proposed.name}`, [putting("settings", proposed)]);
    announce(`Setting ${proposed.name}: ${count} placed.`);
    onClose();
    goTo({ room: "setting", settingId: proposed.id });
  };

  if (progress) {
    return (
      <Dialog
        isOpen
        mustAnswer
        onClose={() => {}}
        title={`Trying settings for ${kiln?.name ?? ""}`}
        actions={<Button onPress={() => job.current?.cancel()}>Stop, change nothing</Button>}
      >
        <ProgressBar
          label={english.list([countWords(ready, "piece"), `${searches[search]} seconds at most`])}
          value={progress.fraction}
          valueText={progress.words}
        />
        <p className="small muted" role="status">
          {progress.words}
        </p>
      </Dialog>
    );
  }
  return (
    <Dialog
      isOpen
      onClose={onClose}
      title={setting ? `Propose setting ${setting.name} again` : "Propose a setting"}
      actions={
        <>
          <Button onPress={onClose}>Not now</Button>
          <Button variant="primary" isDisabled={ready === 0 || saving.kind !== "saved"} onPress={() => void start()}>
            {ready === 0 ? "No piece is ready" : `Propose with ${countWords(ready, "piece")}`}
          </Button>
        </>
      }
    >
      <div className="bench-propose">
        <Select
          label="Kiln"
          options={document.kilns.map(({ id, name }) => ({ id, label: name }))}
          value={kilnId}
          onChange={setKilnId}
          isDisabled={setting !== null}
        />
        <Select
          label="Class"
          options={classes.map(({ id, name, cone }) => ({
            id,
            label: `${name}, ${readyOf(id)} ready`,
            detail: coneWords(cone),
          }))}
          value={classId}
          onChange={setClassId}
          isDisabled={setting !== null}
        />
        <TextField
          label="Day of the firing"
          type="date"
          value={day}
          onChange={(next) => {
            if (/^\d{4}-\d\d-\d\d$/.test(next)) setDay(next);
          }}
          hint={dayWords(day, today)}
        />
        <div className="ui-field">
          <span className="ui-label">How long to search</span>
          <SegmentedChoice
            label="How long to search"
            value={search}
            onChange={setSearch}
            options={[
              { id: "short", label: `${searches.short} s` },
              { id: "usual", label: `${searches.usual} s` },
              { id: "long", label: `${searches.long} s` },
            ]}
          />
        </div>
        {others > 0 ? (
          <p className="small muted">
            {countWords(others, "ticked piece")} {others === 1 ? "is" : "are"} of another class. Classes never share a
            firing.
          </p>
        ) : null}
        {setting ? (
          <p className="small muted">Pieces kept in place stay where they are. Undo brings the present setting back.</p>
        ) : null}
        {saving.kind === "saved" ? null : <p className="small muted">Waiting until the last change is saved.</p>}
        {failure ? (
          <div role="alert">
            <p>
              <b>{failure.error}</b>
            </p>
            <p>{failure.remedy}</p>
          </div>
        ) : null}
      </div>
    </Dialog>
  );
}
