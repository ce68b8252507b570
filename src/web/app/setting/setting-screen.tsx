import { useState, type ReactNode } from "react";
import type { KilnRecord, SettingRecord } from "#records";
import { useStudio } from "#web/state";
import { Cutaway } from "#web/cutaway";
import { Button, Card, ScreenHead } from "#web/ui";
import { loadOf, readyPieces } from "#work";
import { ProposeDialog } from "../bench/propose-dialog.tsx";
import { goTo } from "../route.ts";
import { UndoButtons } from "../shell/undo-buttons.tsx";
import { countWords, todayIso } from "../words.ts";
import { SettingView } from "./setting-view.tsx";
import "./setting.css";

/** The setting the address names, the newest one, or an empty kiln and how to fill it. */
export function SettingScreen({ settingId }: { readonly settingId: string | null }): ReactNode {
  const document = useStudio();
  const record = settingId === null ? document.settings.at(-1) : document.settings.find(({ id }) => id === settingId);
  if (record) return <SettingView key={record.id} record={record} />;
  if (settingId !== null) return <Gone />;
  return <EmptyKilns />;
}

function Gone(): ReactNode {
  const { settings } = useStudio();
  return (
    <>
      <ScreenHead title="This setting is not here any more" detail="It was removed, here or on another screen.">
        <UndoButtons hideIdle />
        {settings.length > 0 ? (
          <Button variant="primary" onPress={() => goTo({ room: "setting", settingId: null })}>
            Show the newest setting
          </Button>
        ) : (
          <Button variant="primary" onPress={() => goTo({ room: "bench" })}>
            Back to the bench
          </Button>
        )}
      </ScreenHead>
    </>
  );
}

/** A setting of a kiln with nothing in it, to be drawn. */
function emptySetting(kiln: KilnRecord, classId: string, scheduleId: string): SettingRecord {
  const setting = { shelves: [], pieces: [], cones: [] };
  const when = { day: "2000-01-01", startsAt: 0 };
  return {
    version: 1,
    id: "empty",
    name: "-",
    kilnId: kiln.id,
    classId,
    scheduleId,
    ...when,
    setting,
    proposal: null,
    note: "",
  };
}

function EmptyKilns(): ReactNode {
  const document = useStudio();
  const [proposing, setProposing] = useState<string | null>(null);
  const today = todayIso();
  const firingClass = document.classes[0];
  const ready = document.classes.map((each) => ({ each, count: readyPieces(document, each.id, today, null).length }));
  const most = [...ready].sort((a, b) => b.count - a.count)[0];
  return (
    <>
      <ScreenHead title="No setting yet" detail="A setting says which piece stands where in a kiln.">
        <UndoButtons hideIdle />
      </ScreenHead>
      <div className="setting-empty">
        {document.kilns.map((kiln) => (
          <Card key={kiln.id} label={`${kiln.name} is empty`}>
            <div className="setting-empty-kiln">
              {firingClass ? (
                <Cutaway
                  load={loadOf(document, emptySetting(kiln, firingClass.id, firingClass.usualScheduleId))}
                  numbers={new Map()}
                  lines={false}
                  maxHeight={420}
                  initialWidth={330}
                />
              ) : null}
              <div>
                <h2>{kiln.name} is empty</h2>
                <p>
                  {document.pieces.length === 0
                    ? "Nothing waits on the bench. Take in the first pieces there."
                    : `${countWords(document.pieces.length, "piece")} ${document.pieces.length === 1 ? "waits" : "wait"} on the bench.${
                        most && most.count > 0 ? ` ${most.count} are ${most.each.name} and ready.` : ""
                      }`}
                </p>
                <p className="muted">
                  Spyhole can propose a setting: which pieces go in, on which shelf, with which posts. You can change
                  everything in it.
                </p>
                <div className="ui-actions">
                  {most && most.count > 0 ? (
                    <Button variant="primary" onPress={() => setProposing(kiln.id)}>
                      Propose for {kiln.name}
                    </Button>
                  ) : null}
                  <Button onPress={() => goTo({ room: "bench" })}>Go to the bench</Button>
                </div>
              </div>
            </div>
          </Card>
        ))}
      </div>
      <ProposeDialog
        isOpen={proposing !== null}
        onClose={() => setProposing(null)}
        setting={null}
        pieceIds={null}
        kilnId={proposing}
      />
    </>
  );
}
