import { useState, type ReactNode } from "react";
import { apiPaths } from "#protocol";
import type { StudioRecord } from "#records";
import { putting, usePageState, useStudio } from "#web/state";
import { BarState, Menu, type MenuEntry } from "#web/ui";
import { ImportDialog } from "./import-dialog.tsx";
import { storedTheme, storeTheme } from "./stored-theme.ts";

type Entry =
  | "metric"
  | "inch"
  | "clock-24"
  | "clock-12"
  | "theme-light"
  | "theme-dark"
  | "theme-system"
  | "export"
  | "import";

const metric = { length: "metric", temperature: "celsius", mass: "kilogram" } as const;
const inch = { length: "inch", temperature: "fahrenheit", mass: "pound" } as const;

/** Units, clock, light or dark, and the studio as a file. */
export function StudioMenu(): ReactNode {
  const { studio: record } = useStudio();
  const { studio } = usePageState();
  const [theme, setTheme] = useState(storedTheme);
  const [isImporting, setImporting] = useState(false);
  const isMetric = record.units.length === "metric";
  const on = (is: boolean): string => (is ? "on now" : "");
  const entry = (id: Entry, label: string, detail = ""): MenuEntry<Entry> =>
    detail === "" ? { id, label } : { id, label, detail };
  const change = (label: string, units: Partial<StudioRecord["units"]>): void =>
    studio.change(label, [putting("studio", { ...record, units: { ...record.units, ...units } })]);
  const wear = (next: typeof theme): void => {
    storeTheme(next);
    setTheme(next);
  };
  const act = (id: Entry): void => {
    switch (id) {
      case "metric":
        return change("change of units", metric);
      case "inch":
        return change("change of units", inch);
      case "clock-24":
        return change("change of clock", { clock: "24" });
      case "clock-12":
        return change("change of clock", { clock: "12" });
      case "theme-light":
        return wear("light");
      case "theme-dark":
        return wear("dark");
      case "theme-system":
        return wear("system");
      case "export":
        return download(apiPaths.export);
      case "import":
        return setImporting(true);
    }
  };
  return (
    <>
      <span className="app-wide">
        <BarState>{isMetric ? "cm, °C, kg" : "in, °F, lb"}</BarState>
      </span>
      <Menu<Entry>
        button={{ variant: "quiet", icon: "menu", label: "Units, light or dark, files" }}
        entries={[
          entry("metric", "Units: mm, °C, kg", on(isMetric)),
          entry("inch", "Units: inch, °F, lb", on(!isMetric)),
          entry("clock-24", "Clock: 24 hours", on(record.units.clock === "24")),
          entry("clock-12", "Clock: 12 hours", on(record.units.clock === "12")),
          entry("theme-light", "Light", on(theme === "light")),
          entry("theme-dark", "Dark", on(theme === "dark")),
          entry("theme-system", "Light or dark as this device", on(theme === "system")),
          entry("export", "Save the studio as a file", "All pieces, kilns and settings"),
          entry("import", "Open a studio file", "Replaces this studio"),
        ]}
        onAction={act}
      />
      <ImportDialog isOpen={isImporting} onClose={() => setImporting(false)} />
    </>
  );
}

function download(address: string): void {
  const link = document.createElement("a");
  link.href = address;
  link.download = "";
  link.click();
}
