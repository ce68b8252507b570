import { useState, type ReactNode } from "react";
import { apiPaths } from "#protocol";
import { usePageState, useStudioView } from "#web/state";
import { Button, Menu, ScreenHead } from "#web/ui";
import { startOf } from "#work";
import { coneWords, english, formatMoment } from "#words";
import { goTo } from "../route.ts";
import { UndoButtons } from "../shell/undo-buttons.tsx";
import { countWords } from "../words.ts";
import type { SettingCommands } from "./setting-commands.ts";
import type { SettingAndProgress, SettingModel } from "./setting-model.ts";
import { StartDialog } from "./start-dialog.tsx";

export interface SettingHeadProps {
  readonly model: SettingModel;
  readonly progress: SettingAndProgress["progress"];
  readonly commands: SettingCommands;
  readonly onPropose: () => void;
  readonly findingsButton: ReactNode;
  readonly canArrange: boolean;
}

/** What is fired, where and when; and what can be done with the whole setting. */
export function SettingHead({
  model,
  progress,
  commands,
  onPropose,
  findingsButton,
  canArrange,
}: SettingHeadProps): ReactNode {
  const { record, document, kiln, firingClass, units } = model;
  const { forecasts } = usePageState();
  const { saving } = useStudioView();
  const [isStarting, setStarting] = useState(false);
  const parties = new Set(record.setting.pieces.map(({ pieceId }) => model.load.pieces.get(pieceId)?.partyId));
  const { forecast, isCurrent } = model;
  const { work } = progress;
  const isFull = isCurrent && forecast?.grade === "full";
  const title = `${kiln.name}, ${firingClass.kind === "bisque" ? "bisque" : firingClass.kind === "lustre" ? "lustre" : "glaze"} ${coneShort(firingClass.cone)}`;
  return (
    <ScreenHead
      title={title}
      detail={
        <>
          Setting {record.name}, {countWords(record.setting.pieces.length, "piece")}, {partiesWords(parties.size)}.
          Starts {formatMoment(startOf(record), units, english, true)}.{" "}
          <button type="button" className="setting-link" onClick={() => setStarting(true)}>
            Change start or schedule
          </button>
        </>
      }
    >
      {canArrange ? <UndoButtons /> : null}
      {findingsButton}
      <Menu
        button={{ children: "Settings", icon: "down" }}
        entries={[
          ...document.settings.map((each) => ({
            id: each.id,
            label: `Setting ${each.name}, ${document.kilns.find(({ id }) => id === each.kilnId)?.name ?? ""}`,
            detail: `${countWords(each.setting.pieces.length, "piece")}${each.id === record.id ? ", shown now" : ""}`,
          })),
          ...(canArrange
            ? [
                { id: "+copy", label: `Copy ${record.name} to try something` },
                { id: "+remove", label: `Remove setting ${record.name}`, detail: "Its pieces go back to the bench" },
              ]
            : []),
        ]}
        onAction={(id) => {
          if (id === "+copy") goTo({ room: "setting", settingId: commands.copy() });
          else if (id === "+remove") {
            commands.remove();
            goTo({ room: "setting", settingId: null });
          } else goTo({ room: "setting", settingId: id });
        }}
      />
      {canArrange ? <Button onPress={onPropose}>Propose again</Button> : null}
      <Menu
        button={{ children: "Loader’s sheet", icon: "print", isDisabled: saving.kind !== "saved" }}
        entries={(["a4", "letter"] as const).map((paper) => ({
          id: paper,
          label: paper === "a4" ? "A4" : "Letter",
          detail: document.studio.paper === paper ? "usual here" : "",
        }))}
        onAction={(paper) => window.open(apiPaths.sheet(record.id, paper), "_blank", "noopener")}
      />
      <Button
        variant="primary"
        isDisabled={isFull || record.setting.pieces.length === 0 || saving.kind !== "saved"}
        isPending={work?.grade === "full"}
        onPress={() => forecasts.ask(record, model.inputs, "full")}
      >
        {isFull ? "Forecast is full" : "Full forecast"}
      </Button>
      <StartDialog isOpen={isStarting} onClose={() => setStarting(false)} model={model} commands={commands} />
    </ScreenHead>
  );
}

/** "cone 06, low fire": the digits and the words that keep 06 from 6. */
function coneShort(cone: string): string {
  const words = coneWords(cone);
  return `cone ${cone}, ${words.slice(words.lastIndexOf(", ") + 2)}`;
}

const partiesWords = (count: number): string => (count === 1 ? "1 party" : `${count} parties`);
