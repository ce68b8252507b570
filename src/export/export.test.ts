import { readFileSync } from "node:fs";
import { validateBytes } from "gltf-validator";
import ICAL from "ical.js";
import { beforeAll, describe, expect, it } from "vitest";
import { unattended } from "#base";
import type { Forecast } from "#engine/firing";
import { shelvesFromBottom } from "#engine/kiln";
import { readStudio, type SettingRecord, type StudioDocument } from "#records";
import { forecast as forecastOf } from "#work";
import { heatColours, materialColours } from "./colours.ts";
import { firingCalendar, planCsv, planOf, settingGlb, shelfSvg, type Plan } from "./index.ts";

let document: StudioDocument;
let setting: SettingRecord;
let forecast: Forecast;
let plan: Plan;

beforeAll(() => {
  const read = readStudio(JSON.parse(readFileSync("examples/small-studio.json", "utf8")));
  if (!read.ok) throw new Error("the example is no studio");
  // Names as people give them: separators, quotes, a formula, letters of several bytes.
  const names = ['Ötztal, "Töpferei"; 3 & <4>', "=1+1"];
  document = {
    ...read.value,
    parties: read.value.parties.map(({ version, id, name }, i) => ({ version, id, name: names[i] ?? name })),
  };
  setting = document.settings[0];
  const computed = forecastOf(document, setting, "preview", { hash: (text) => text }, unattended);
  if (!computed.ok) throw new Error(computed.failure.error);
  forecast = computed.value.forecast;
  plan = planOf(document, setting, forecast);
});

/** A reader of RFC 4180 tables of our own: one sign at a time. */
function cells(csv: string): string[][] {
  const rows: string[][] = [[]];
  let cell = "";
  let isQuoted = false;
  for (let i = 0; i < csv.length; i++) {
    if (isQuoted && csv[i] === '"' && csv[i + 1] === '"') cell += csv[i++];
    else if (csv[i] === '"') isQuoted = !isQuoted;
    else if (!isQuoted && csv[i] === ",") {
      rows.at(-1)!.push(cell);
      cell = "";
    } else if (!isQuoted && csv.startsWith("\r\n", i)) {
      rows.at(-1)!.push(cell);
      rows.push([]);
      cell = "";
      i += 1;
    } else cell += csv[i];
  }
  return rows.slice(0, -1);
}

describe("the plan as a table", () => {
  it("has a line for each piece, in the order of shelves and numbers, with names as they are", () => {
    const [head, ...rows] = cells(planCsv(plan));
    expect(rows).toHaveLength(setting.setting.pieces.length);
    for (const row of rows) expect(row).toHaveLength(head.length);
    const order = rows.map(([shelf, number]) => Number(shelf) * 1000 + Number(number));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    expect(new Set(order).size).toBe(rows.length);
    const parties = new Set(rows.map((row) => row[head.indexOf("party")]));
    expect(parties).toContain('Ötztal, "Töpferei"; 3 & <4>');
    expect(parties).toContain("'=1+1");
    for (const row of rows) expect(row[head.indexOf("wanted")]).toMatch(/^cone \d/);
  });

  it("puts each piece where it stands, and leaves the forecast out where there is none", () => {
    const [head, ...rows] = cells(planCsv(planOf(document, setting, null)));
    for (const placed of setting.setting.pieces) {
      const at = plan.numbers.get(placed.pieceId)!;
      const row = rows.find(([shelf, number]) => Number(shelf) === at.shelf && Number(number) === at.number)!;
      expect(Math.abs(Number(row[head.indexOf("x mm")]) - placed.x * 1000)).toBeLessThanOrEqual(0.5);
      expect(Math.abs(Number(row[head.indexOf("y mm")]) - placed.y * 1000)).toBeLessThanOrEqual(0.5);
      expect(row[head.indexOf("cones from wanted")]).toBe("");
    }
  });
});

describe("a shelf as a drawing", () => {
  it("is in real size and shows every piece of the shelf by its number", () => {
    const shelves = shelvesFromBottom(setting.setting);
    shelves.forEach((shelf, i) => {
      const svg = shelfSvg(plan, i + 1)!;
      const [, width, viewWidth] = /width="([\d.]+)mm".*viewBox="\S+ \S+ ([\d.]+) /.exec(svg)!;
      expect(Number(width)).toBe(Number(viewWidth));
      const numbers = [...svg.matchAll(/stroke="none">(\d+)<\/text>/g)].map((match) => Number(match[1]));
      const pieces = setting.setting.pieces.filter(({ shelfId }) => shelfId === shelf.id);
      expect(numbers.toSorted((a, b) => a - b)).toEqual(pieces.map((_, k) => k + 1));
      expect(svg).not.toMatch(/NaN|undefined|<4>/);
    });
    expect(shelfSvg(plan, shelves.length + 1)).toBeNull();
    expect(shelfSvg(plan, 0)).toBeNull();
  });
});

describe("the setting in space", () => {
  it("is a glTF 2.0 file without errors or warnings, says the Khronos validator", async () => {
    for (const each of [plan, planOf(document, setting, null)]) {
      const report = await validateBytes(settingGlb(each), { maxIssues: 20 });
      expect(report.issues.messages).toEqual([]);
      expect(report.mimeType).toBe("model/gltf-binary");
      expect(report.info.totalTriangleCount).toBeGreaterThan(5000);
    }
  });

  it("names every piece and puts it where it stands", () => {
    const bytes = settingGlb(plan);
    const length = new DataView(bytes.buffer).getUint32(12, true);
    const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length))) as {
      nodes: { name: string; translation?: number[]; extras?: { pieceId?: string } }[];
    };
    for (const placed of setting.setting.pieces) {
      const node = json.nodes.find(({ extras }) => extras?.pieceId === placed.pieceId)!;
      expect(node.translation![0]).toBeCloseTo(placed.x, 9);
      expect(node.translation![1]).toBeCloseTo(placed.y, 9);
      const shelf = setting.setting.shelves.find(({ id }) => id === placed.shelfId)!;
      expect(node.translation![2]).toBeGreaterThanOrEqual(shelf.z);
      expect(node.translation![2]).toBeLessThan(shelf.z + 0.03);
      expect(node.name).toMatch(/^shelf \d+, no\. \d+, /);
    }
  });

  it("has the colours of the page", () => {
    const { colour } = JSON.parse(readFileSync("src/web/ui/tokens.json", "utf8")) as {
      colour: { light: { heat: Record<string, { fill: string }>; material: Record<string, string> } };
    };
    for (const [step, fill] of Object.entries(heatColours)) expect(fill).toBe(colour.light.heat[step].fill);
    for (const [name, fill] of Object.entries(materialColours)) expect(fill).toBe(colour.light.material[name]);
  });
});

describe("the firing in a calendar", () => {
  // 2026-02-20 09:00 UTC.
  const stamp = 1_771_578_000;

  it("is read by a calendar library (ical.js) with the hours of the forecast, on the studio's own clock", () => {
    const calendar = new ICAL.Component(ICAL.parse(firingCalendar(plan, stamp)!) as unknown[]);
    expect(calendar.getFirstPropertyValue("version")).toBe("2.0");
    const events = calendar.getAllSubcomponents("vevent").map((each) => new ICAL.Event(each));
    expect(events).toHaveLength(3);
    const { when } = plan.forecast!;
    const seconds = (time: ICAL.Time): number =>
      Date.UTC(time.year, time.month - 1, time.day, time.hour, time.minute, time.second) / 1000;
    const [heating, end, open] = events;
    expect(Math.abs(seconds(heating.startDate) - when.start)).toBeLessThanOrEqual(30);
    expect(Math.abs(seconds(heating.endDate) - when.ends)).toBeLessThanOrEqual(30);
    expect(Math.abs(seconds(end.startDate) - when.endsEarly)).toBeLessThanOrEqual(30);
    expect(Math.abs(seconds(end.endDate) - when.endsLate)).toBeLessThanOrEqual(30);
    expect(Math.abs(seconds(open.startDate) - when.ready!)).toBeLessThanOrEqual(30);
    for (const event of events) {
      expect(event.startDate.zone.tzid).toBe("floating");
      expect(event.description).toContain("The witness cones decide.");
      const stamped = event.component.getFirstPropertyValue("dtstamp") as ICAL.Time;
      expect(stamped.toUnixTime()).toBe(stamp);
    }
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(3);
    expect(end.component.getFirstSubcomponent("valarm")?.getFirstPropertyValue("action")).toBe("DISPLAY");
  });

  it("keeps lines to 75 bytes and ends them with CR LF", () => {
    const text = firingCalendar(planOf(document, { ...setting, name: "Übung ½ \\ , ;".repeat(5) }, forecast), stamp)!;
    expect(text.endsWith("END:VCALENDAR\r\n")).toBe(true);
    for (const line of text.split("\r\n")) {
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(line).not.toMatch(/\n|\ufffd/);
    }
    const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
    const description = new ICAL.Event(calendar.getFirstSubcomponent("vevent")!).description;
    expect(description).toContain("Übung ½ \\ , ;".repeat(5));
  });

  it("is not made without a forecast", () => {
    expect(firingCalendar(planOf(document, setting, null), stamp)).toBeNull();
  });
});
