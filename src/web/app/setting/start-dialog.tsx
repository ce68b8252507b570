import type { ReactNode } from "react";
import { Button, Dialog, Select, TextField } from "#web/ui";
import { cautions, coneWords, formatDuration, formatRate, formatTemperature } from "#words";
import { dayWords, todayIso } from "../words.ts";
import type { SettingCommands } from "./setting-commands.ts";
import type { SettingModel } from "./setting-model.ts";

export interface StartDialogProps {
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly model: SettingModel;
  readonly commands: SettingCommands;
}

/** Day, time and schedule of the firing, with the cautions that belong to lighting it. */
export function StartDialog({ isOpen, onClose, model, commands }: StartDialogProps): ReactNode {
  const { record, document, units, firingClass } = model;
  const time = `${String(Math.floor(record.startsAt / 3600)).padStart(2, "0")}:${String(Math.floor((record.startsAt % 3600) / 60)).padStart(2, "0")}`;
  const schedule = document.schedules.find(({ id }) => id === record.scheduleId);
  return (
    <Dialog
      isOpen={isOpen}
      onClose={onClose}
      title={`Start and schedule of setting ${record.name}`}
      actions={
        <Button variant="primary" onPress={onClose}>
          Done
        </Button>
      }
    >
      <div className="setting-start">
        <TextField
          label="Day"
          type="date"
          value={record.day}
          onChange={(day) => {
            if (/^\d{4}-\d\d-\d\d$/.test(day)) commands.setStart(day, record.startsAt);
          }}
          hint={dayWords(record.day, todayIso())}
        />
        <TextField
          label="Start"
          type="time"
          value={time}
          onChange={(next) => {
            const [, hours, minutes] = /^(\d\d):(\d\d)/.exec(next) ?? [];
            if (hours !== undefined) commands.setStart(record.day, Number(hours) * 3600 + Number(minutes) * 60);
          }}
        />
        <Select
          label="Schedule"
          className="setting-start-wide"
          options={document.schedules.map(({ id, name }) => ({ id, label: name }))}
          value={record.scheduleId}
          onChange={commands.setSchedule}
          hint={`The ware wants ${coneWords(firingClass.cone)}.`}
        />
      </div>
      {schedule ? (
        <table className="setting-segments">
          <caption className="unseen">Steps of {schedule.name}</caption>
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col">Rate</th>
              <th scope="col" className="number">
                To
              </th>
              <th scope="col" className="number">
                Hold
              </th>
            </tr>
          </thead>
          <tbody>
            {numbered(schedule.segments).map(([number, segment]) => (
              <tr key={number}>
                <th scope="row">{number}</th>
                <td>{segment.rate === "full" ? "as fast as it can" : formatRate(segment.rate, units)}</td>
                <td className="number">{formatTemperature(segment.target, units)}</td>
                <td className="number">{segment.hold > 0 ? formatDuration(segment.hold) : "none"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      <ul className="app-lines">
        {cautions.light.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </Dialog>
  );
}

const numbered = <Each,>(list: readonly Each[]): readonly (readonly [number, Each])[] =>
  list.map((each, index) => [index + 1, each]);
