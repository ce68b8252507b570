import type { ReactNode } from "react";
import { useStudio } from "#web/state";
import { Card } from "#web/ui";
import { found } from "#work";
import { addressOf } from "../route.ts";
import { countWords, dayWords } from "../words.ts";

/** The settings there are, each with its kiln, its day and how many pieces are in it. */
export function SettingsCard({ today }: { readonly today: string }): ReactNode {
  const document = useStudio();
  if (document.settings.length === 0) return null;
  return (
    <Card title="Settings">
      <ul className="bench-settings">
        {document.settings.map((setting) => (
          <li key={setting.id}>
            <a href={addressOf({ room: "setting", settingId: setting.id })}>
              <b>
                Setting {setting.name}, {found(document.kilns, setting.kilnId, "kiln").name}
              </b>
            </a>
            <span className="small muted">
              {found(document.classes, setting.classId, "class").name},{" "}
              {countWords(setting.setting.pieces.length, "piece")}, {dayWords(setting.day, today)}
            </span>
          </li>
        ))}
      </ul>
    </Card>
  );
}
