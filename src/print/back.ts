import type { Seconds } from "#engine/units";
import { conePositionOf, isConeName } from "#engine/heatwork";
import { heatClasses, heatOfPieces, type HeatClass } from "#work";
import {
  cautions,
  formatDuration,
  formatDurationBand,
  formatLength,
  formatMoment,
  formatTemperature,
  giveOrTakeWords,
  type SentenceKey,
} from "#words";
import { line, rectangle, tickBox, type PagePoint } from "./drawing.ts";
import { titleOf } from "./front.ts";
import { heatMark } from "./heat-marks.ts";
import { bare, frameOf, header, svgPage, textBlock, words, writeLine, type Drawn, type Frame } from "./page-frame.ts";
import { type } from "./paper.ts";
import type { SheetInput } from "./sheet-input.ts";
import { numberRoom } from "./side-scale.ts";
import { sideView } from "./side-view.ts";
import { plain, strong, textLine, widthOf } from "./text.ts";

/** Least height the side view is drawn in; with less left, the cautions move to a page of their own [pt]. */
const leastView = 190;

/** What a back page holds beside the heights and the second look. */
interface BackPlan {
  /** For the side view and the forecast [pt]. */
  readonly room: number;
  /** Of the page's width, for the side view with its ruler. */
  readonly share: number;
  readonly faultLines: 1 | 2;
  readonly withCautions: boolean;
}

/** Tried in turn until all stands on one page: a line less for faults, then a narrower view beside a wider column. */
const tries = [
  { faultLines: 2, share: 0.66 },
  { faultLines: 1, share: 0.66 },
  { faultLines: 1, share: 0.56 },
] as const;

/** The back of the sheet: heights, forecast, second look, lines for the record, cautions. One page, or two if need be. */
export function backs(input: SheetInput): readonly { readonly draw: (page: number, pages: number) => string }[] {
  const probe = frameOf(input.paper);
  const under = [plain(words(input, "sheet.back", { setting: input.settingName }))];
  const top = header(probe, titleOf(input), "", under).height;
  const look = secondLook(input, probe, 0).height;
  const box = cautionBox(probe, 0).height;
  for (const { faultLines, share } of tries) {
    const room = probe.bottom - top - look - records(probe, 0, faultLines).height - box;
    const view = sideView(input, viewArea(probe, top, room, share), new Map());
    const left = Math.min(view.right + numberRoom, columnLeft(probe));
    const column = forecastColumn(input, left, 0, probe.right);
    // The column may reach down beside the heading of the second look, which is short.
    if (room >= Math.max(leastView, column.height - 16)) {
      return [{ draw: (page, pages) => drawBack(input, { room, share, faultLines, withCautions: true }, page, pages) }];
    }
  }
  const room = Math.min(probe.bottom - top - look - records(probe, 0, 2).height, 420);
  return [
    { draw: (page, pages) => drawBack(input, { room, share: 0.66, faultLines: 2, withCautions: false }, page, pages) },
    { draw: (page, pages) => drawCautions(input, page, pages) },
  ];
}

function drawBack(input: SheetInput, plan: BackPlan, page: number, pages: number): string {
  const { room, share, faultLines, withCautions } = plan;
  const frame = frameOf(input.paper);
  const head = backHeader(input, frame, page, pages);
  const view = sideView(input, viewArea(frame, head.height, room, share), heatsOf(input));
  const side = forecastColumn(
    input,
    Math.min(view.right + numberRoom, columnLeft(frame)),
    head.height + 8,
    frame.right,
  );
  const look = secondLook(input, frame, head.height + room);
  const record = records(frame, head.height + room + look.height, faultLines);
  const box = withCautions
    ? cautionBox(frame, head.height + room + look.height + record.height)
    : { svg: "", height: 0 };
  return svgPage(frame, head.svg + view.svg + side.svg + look.svg + record.svg + box.svg);
}

function drawCautions(input: SheetInput, page: number, pages: number): string {
  const frame = frameOf(input.paper);
  const head = backHeader(input, frame, page, pages);
  return svgPage(frame, head.svg + cautionBox(frame, head.height + 6).svg);
}

function viewArea(frame: Frame, top: number, room: number, share: number): Parameters<typeof sideView>[1] {
  return { left: frame.left, top: top + 6, width: (frame.right - frame.left) * share, height: room - 14 };
}

function backHeader(input: SheetInput, frame: Frame, page: number, pages: number): Drawn {
  const under = [plain(words(input, "sheet.back", { setting: input.settingName }))];
  return header(frame, titleOf(input), words(input, "sheet.page", { page, pages }), under);
}

function heatsOf(input: SheetInput): ReadonlyMap<string, HeatClass> {
  if (!input.forecast) return new Map();
  return new Map([...heatOfPieces(input.forecast, input.load.firingClass)].map(([id, { heat }]) => [id, heat]));
}

/** Where the forecast's column begins at the latest; narrower it would break its lines more often. */
const columnLeft = (frame: Frame): number => frame.right - 180;

/** Key of the hatches that occur, and what the forecast says of time. */
function forecastColumn(input: SheetInput, left: number, top: number, right: number): Drawn {
  const { forecast } = input;
  const drawn = [textLine([strong(bare("sheet.forecast"))], { x: left, y: top + 12, size: type.text })];
  let y = top + 24;
  const say = (text: string, face: "text" | "strong" = "text"): void => {
    const block = textBlock([{ text, face }], left, y, right - left);
    drawn.push(block.svg);
    y += block.height + 3;
  };
  if (!forecast) {
    say(words(input, "sheet.no-forecast"));
    return { svg: drawn.join(""), height: y - top };
  }
  const present = new Set<HeatClass>([...heatsOf(input).values(), "wanted"]);
  for (const heat of heatClasses.filter((each) => present.has(each))) {
    const swatch: readonly PagePoint[] = [
      [left, y],
      [left + 32, y],
      [left + 32, y + 20],
      [left, y + 20],
    ];
    drawn.push(heatMark(heat, swatch, 370));
    drawn.push(rectangle([left, y], 32, 20, { width: 0.9 }));
    drawn.push(textLine([plain(bare(`sheet.heat.${heat}`))], { x: left + 40, y: y + 15, size: type.text }));
    y += 24;
  }
  y += 2;
  say(
    words(input, "sheet.give-or-take", {
      words: giveOrTakeWords(median(forecast.pieces.map((piece) => piece.giveOrTake))),
    }),
  );
  for (const text of timesOf(input, forecast)) say(text);
  if (forecast.grade === "preview") say(words(input, "sheet.quick"));
  say(cautions.forecast.join(" "), "strong");
  return { svg: drawn.join(""), height: y - top };
}

function timesOf(input: SheetInput, forecast: NonNullable<SheetInput["forecast"]>): readonly string[] {
  const { heating, ready } = forecast.uncertainty;
  const start = input.day !== null && input.startsAt !== null ? input.day * 86_400 + input.startsAt : null;
  const toFive = (moment: Seconds): Seconds => Math.round(moment / 300) * 300;
  const found: string[] = [];
  const band = formatDurationBand(heating);
  if (start === null) {
    found.push(words(input, "sheet.heating", { time: formatDuration(forecast.heatingEnds), band }));
  } else {
    found.push(
      words(input, "sheet.ends", { time: formatMoment(toFive(start + forecast.heatingEnds), input.units), band }),
    );
  }
  if (forecast.readyAt === null) return found;
  const readyBand = formatDurationBand(ready);
  if (start === null) {
    found.push(words(input, "sheet.opens-after", { time: formatDuration(forecast.readyAt), band: readyBand }));
  } else {
    found.push(
      words(input, "sheet.opens", {
        time: formatMoment(toFive(start + forecast.readyAt), input.units),
        band: readyBand,
      }),
    );
  }
  return found;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

/** The cone of the same digits on the other side of zero: 6 for 06. Null where the scale has none. */
function twinOf(cone: string): string | null {
  const twin = cone.startsWith("0") ? cone.slice(1) : `0${cone}`;
  return isConeName(twin) && conePositionOf(twin) !== conePositionOf(cone) ? twin : null;
}

function secondLook(input: SheetInput, frame: Frame, top: number): Drawn {
  const { kiln, firingClass } = input.load;
  const { rules } = kiln;
  const length = (value: number): { readonly limit: string } => ({ limit: formatLength(value, input.units) });
  const twin = twinOf(firingClass.cone);
  const peak = Math.max(...input.schedule.segments.map((segment) => segment.target));
  const items: readonly string[] = [
    twin === null
      ? words(input, "sheet.look-cone-alone", { cone: firingClass.cone })
      : words(input, "sheet.look-cone", { cone: firingClass.cone, twin }),
    words(input, "sheet.look-schedule", { name: input.schedule.name, peak: formatTemperature(peak, input.units) }),
    words(input, "sheet.look-wall", length(rules.wareToWall)),
    words(input, "sheet.look-sensor", length(rules.sensorClear)),
    words(input, "sheet.look-headroom", length(rules.headroom)),
    ...(["look-cones", ...(kiln.vent ? (["look-vent"] as const) : []), "look-log", "look-end"] as const).map((key) =>
      bare(`sheet.${key}` satisfies SentenceKey),
    ),
  ];
  const drawn = [
    textLine([{ text: bare("sheet.second-look"), face: "name" }], { x: frame.left, y: top + 14, size: type.heading }),
  ];
  const half = (frame.right - frame.left) / 2;
  let y = top + 26;
  for (let i = 0; i < items.length; i += 2) {
    const row = items.slice(i, i + 2).map((text, column) => {
      const x = frame.left + column * half;
      return { x, block: textBlock([plain(text)], x + 22, y, half - 30) };
    });
    for (const { x, block } of row) drawn.push(tickBox([x, y]), block.svg);
    y += Math.max(...row.map(({ block }) => block.height)) + 3;
  }
  return { svg: drawn.join(""), height: y - top + 8 };
}

/** Lines to write on: who, when, faults. */
function records(frame: Frame, top: number, faultLines: 1 | 2): Drawn {
  const middle = (frame.left + frame.right) / 2;
  const rows: readonly (readonly [SentenceKey, SentenceKey])[] = [
    ["sheet.loaded-by", "sheet.fired-by"],
    ["sheet.start", "sheet.end"],
  ];
  const pitch = 27;
  const drawn = rows.flatMap(([first, second], i) => {
    const y = top + 17 + i * pitch;
    return [writeLine(bare(first), frame.left, middle - 8, y), writeLine(bare(second), middle + 2, frame.right, y)];
  });
  const y = top + 17 + rows.length * pitch;
  const label = [plain(bare("sheet.no-faults"))];
  const boxLeft = frame.left + widthOf(label, type.text) + 8;
  drawn.push(textLine(label, { x: frame.left, y, size: type.text }), tickBox([boxLeft, y - 12]));
  drawn.push(writeLine(bare("sheet.faults"), boxLeft + 30, frame.right, y));
  if (faultLines === 2) drawn.push(line([frame.left, y + pitch + 3], [frame.right, y + pitch + 3], { width: 0.9 }));
  return { svg: drawn.join(""), height: 17 + (rows.length + faultLines - 1) * pitch + 16 };
}

/** The cautions of lighting, watching and opening, and what the tool is: whole, in a box. */
function cautionBox(frame: Frame, top: number): Drawn {
  const width = frame.right - frame.left;
  const all = [...cautions.light, ...cautions.watch, ...cautions.open, ...cautions.general];
  const text = textBlock([plain([...new Set(all)].join(" "))], frame.left + 9, top + 6, width - 18);
  return {
    svg: rectangle([frame.left, top], width, text.height + 12, { width: 1.4 }) + text.svg,
    height: text.height + 14,
  };
}
