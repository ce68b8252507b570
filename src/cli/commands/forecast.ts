import type { Forecast, Grade } from "#engine/firing";
import { shelvesFromBottom } from "#engine/kiln";
import type { SettingRecord, StudioDocument } from "#records";
import { dayNumberOf, found, heatOfPieces, pieceNumbers, type PieceHeat } from "#work";
import {
  cautions,
  chanceWords,
  coneWords,
  formatDuration,
  formatDurationBand,
  formatEnergy,
  formatMoment,
  formatTemperature,
  giveOrTakeWords,
  offsetWords,
  spreadWords,
} from "#words";
import { exitStatus, UsageError, type Command } from "../command.ts";
import { openStudio, settingAsked } from "../studio-source.ts";
import { lineWidth, paragraph, table } from "../table.ts";
import { doWork } from "../work.ts";

export const forecastCommand: Command = {
  name: "forecast",
  summary: "compute the firing of a setting: heat of every piece, time, energy",
  usage: "spyhole forecast [STUDIO.json] [--setting ID] [--grade preview|full] [options]",
  help: [
    "Computes who sees whom in the kiln and fires it by the setting's schedule. An estimate with its",
    "give or take: the witness cones decide.",
    "",
    "  --setting ID   the setting (its id or name); not needed if there is one only",
    "  --grade G      full, the one to act on (default), or preview: quick, with a wider give or take",
    "  --pieces       also a line for every piece",
    "  --store FILE   the store, where no STUDIO.json is named",
  ],
  examples: [
    "spyhole forecast examples/small-studio.json --grade preview --pieces",
    "spyhole forecast --setting A --json > forecast.json",
  ],
  options: {
    setting: { type: "string" },
    grade: { type: "string" },
    pieces: { type: "boolean" },
    store: { type: "string" },
  },
  takes: 1,
  run: async (given, host) => {
    const grade = given.text("grade") ?? "full";
    if (grade !== "full" && grade !== "preview") {
      throw new UsageError(`--grade is "${grade}"; expected full or preview.`);
    }
    const source = await openStudio(given, host);
    try {
      const { document } = source;
      const setting = settingAsked(document, given.text("setting"));
      const end = await doWork(
        { request: { work: "forecast", setting, grade: grade satisfies Grade }, document },
        host,
      );
      if (end.state === "cancelled") return exitStatus.interrupted;
      if (end.state === "failed") {
        host.err(`spyhole forecast: ${end.error} ${end.remedy}\n`);
        return exitStatus.stopped;
      }
      if (end.result.work !== "forecast") throw new Error("a forecast was asked for");
      const { forecast, key } = end.result;
      if (given.flag("json")) host.out(`${JSON.stringify({ settingId: setting.id, key, forecast })}\n`);
      else host.out([...inWords(document, setting, forecast, given.flag("pieces")), ""].join("\n"));
      return exitStatus.done;
    } finally {
      await source.close();
    }
  },
};

function inWords(
  document: StudioDocument,
  record: SettingRecord,
  forecast: Forecast,
  allPieces: boolean,
): readonly string[] {
  const { units } = document.studio;
  const kiln = found(document.kilns, record.kilnId, "kiln");
  const firingClass = found(document.classes, record.classId, "class");
  const schedule = found(document.schedules, record.scheduleId, "schedule");
  const heats = heatOfPieces(forecast, firingClass);
  const start = dayNumberOf(record.day) * 86_400 + record.startsAt;
  const { uncertainty } = forecast;
  const lines = [
    `Setting ${record.name} in ${kiln.name}, ${coneWords(firingClass.cone)}`,
    `Schedule: ${schedule.name}. ${forecast.grade === "full" ? "Full grade." : "Quick estimate."}`,
    ...cautions.forecast,
    "",
    `Starts    ${formatMoment(start, units, undefined, true)}`,
    `Heating   ${formatDuration(forecast.heatingEnds)} ${formatDurationBand(uncertainty.heating)}, until ${formatMoment(start + forecast.heatingEnds, units)}`,
    `Energy    ${formatEnergy(forecast.ledger.electric)}, give or take ${formatEnergy(uncertainty.energy)}`,
    forecast.readyAt === null
      ? "Opening   later than this was followed"
      : `Opening   from ${formatMoment(start + forecast.readyAt, units, undefined, true)} ${formatDurationBand(uncertainty.ready)} (below ${formatTemperature(forecast.openingTemperature, units)})`,
    `Spread    ${spreadWords(forecast.spread)} between the coldest and the hottest piece`,
  ];
  if (forecast.fallsBehindAt !== null) {
    lines.push(
      ...paragraph(
        "Slow      ",
        `The kiln falls behind its schedule after ${formatDuration(forecast.fallsBehindAt)}, at full power.`,
      ),
    );
  }
  lines.push("", ...shelfTable(document, record, heats, forecast));
  if (allPieces) lines.push("", ...pieceTable(document, record, heats, forecast));
  const [first] = heats.values();
  if (first) lines.push("", `Each piece: ${giveOrTakeWords(first.giveOrTake)} of a cone, 8 firings in 10. Because:`);
  for (const reason of uncertainty.reasons) lines.push(...paragraph("  ", reason));
  lines.push("", ...[...cautions.light, ...cautions.watch, ...cautions.open].flatMap((each) => paragraph("! ", each)));
  return lines;
}

/** A dash where a shelf has no ware. */
function ends(heats: readonly PieceHeat[]): {
  readonly coldest: string;
  readonly mean: string;
  readonly hottest: string;
} {
  if (heats.length === 0) return { coldest: "-", mean: "-", hottest: "-" };
  const offsets = heats.map((each) => each.offset);
  const mean = offsets.reduce((sum, each) => sum + each, 0) / offsets.length;
  return {
    coldest: offsetWords(Math.min(...offsets)),
    mean: offsetWords(mean),
    hottest: offsetWords(Math.max(...offsets)),
  };
}

function shelfTable(
  document: StudioDocument,
  { setting }: SettingRecord,
  heats: ReadonlyMap<string, PieceHeat>,
  forecast: Forecast,
): readonly string[] {
  const rows = shelvesFromBottom(setting)
    .map((shelf, index) => {
      const on = setting.pieces.filter((each) => each.shelfId === shelf.id);
      const theirs = on.map((each) => heats.get(each.pieceId)).filter((each) => each !== undefined);
      const good = theirs.filter((each) => each.outside === null).length;
      const peak = forecast.shelves.find((each) => each.shelfId === shelf.id)?.peak;
      const { coldest, mean, hottest } = ends(theirs);
      return [
        String(index + 1),
        coldest,
        mean,
        hottest,
        `${good} of ${theirs.length}`,
        peak === undefined ? "-" : formatTemperature(peak, document.studio.units),
      ];
    })
    .reverse();
  return table(
    [
      { title: "Shelf", align: "right" },
      { title: "Coldest piece" },
      { title: "Mean" },
      { title: "Hottest piece" },
      { title: "As wanted", align: "right" },
      { title: "Shelf peak", align: "right" },
    ],
    rows,
  );
}

function pieceTable(
  document: StudioDocument,
  { setting }: SettingRecord,
  heats: ReadonlyMap<string, PieceHeat>,
  forecast: Forecast,
): readonly string[] {
  const numbers = pieceNumbers(document, setting);
  const rows = forecast.pieces
    .map((each) => {
      const number = numbers.get(each.pieceId) ?? { shelf: 0, number: 0 };
      const piece = found(document.pieces, each.pieceId, "piece");
      const heat = heats.get(each.pieceId)!;
      return {
        order: number.shelf * 1000 + number.number,
        cells: [
          `${number.shelf}/${number.number}`,
          found(document.shapes, piece.shapeId, "shape").name,
          found(document.parties, piece.partyId, "party").name,
          offsetWords(heat.offset),
          formatTemperature(each.peak, document.studio.units),
          chanceWords(each.chanceWanted),
        ],
      };
    })
    .sort((a, b) => a.order - b.order);
  return table(
    [
      { title: "No.", align: "right" },
      { title: "Piece" },
      { title: "For" },
      { title: "Heat" },
      { title: "Peak", align: "right" },
      { title: "Good" },
    ],
    rows.map((row) => row.cells),
  ).map((line) => line.slice(0, lineWidth));
}
