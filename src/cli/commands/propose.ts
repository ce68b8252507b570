import { heightOf, shelvesFromBottom } from "#engine/kiln";
import type { SettingRecord, StudioDocument } from "#records";
import { found, readyPieces } from "#work";
import { formatLength, formatMass, formatPost, formatShare, say, type SentenceKey } from "#words";
import { exitStatus, UsageError, type Command } from "../command.ts";
import { asked, openStudio } from "../studio-source.ts";
import { paragraph } from "../table.ts";
import { waresInWords } from "../ware-words.ts";
import { doWork } from "../work.ts";

export const proposeCommand: Command = {
  name: "propose",
  summary: "arrange the pieces of one firing class in a kiln",
  usage: "spyhole propose [STUDIO.json] --kiln ID --class ID [options]",
  help: [
    "Chooses and places pieces by promised day and value, never breaking a loading rule. What must",
    "wait is listed with the reason. Nothing is saved unless you say so.",
    "",
    "  --kiln ID      kiln to load (its id or name)",
    "  --class ID     firing class, for example glaze-06",
    "  --day DATE     day the firing starts (today): pieces dry by then can go in",
    "  --seconds N    time to spend (10)",
    "  --seed N       same seed, same proposal (1)",
    "  --setting ID   start from this setting: its fixed pieces stay, and it is replaced",
    "  --save         put the setting into the studio",
    "  --store FILE   the store, where no STUDIO.json is named",
  ],
  examples: [
    "spyhole propose examples/small-studio.json --class glaze-06 --setting A --seconds 2",
    "spyhole propose --kiln Alder --class glaze-06 --day 2026-12-01 --save",
  ],
  options: {
    kiln: { type: "string" },
    class: { type: "string" },
    day: { type: "string" },
    seconds: { type: "string" },
    seed: { type: "string" },
    setting: { type: "string" },
    save: { type: "boolean" },
    store: { type: "string" },
  },
  takes: 1,
  run: async (given, host) => {
    const day = given.text("day") ?? host.today;
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day))
      throw new UsageError(`--day is "${day}"; expected a date such as ${host.today}.`);
    const seconds = given.number("seconds", { least: 0.2, most: 600 }) ?? 10;
    const seed = given.number("seed", { least: 0, most: 2 ** 31 - 1 }) ?? 1;
    const source = await openStudio(given, host);
    try {
      const { document } = source;
      const kiln = asked(document.kilns, given.text("kiln"), "kiln", "kiln");
      const firingClass = asked(document.classes, given.text("class"), "class", "firing class");
      const from = given.text("setting");
      const settingId = from === undefined ? null : asked(document.settings, from, "setting", "setting").id;
      const request = {
        work: "propose",
        kilnId: kiln.id,
        classId: firingClass.id,
        day,
        settingId,
        seconds,
        seed,
      } as const;
      const end = await doWork({ request, document }, host);
      if (end.state === "cancelled") return exitStatus.interrupted;
      if (end.state === "failed") {
        host.err(`spyhole propose: ${end.error} ${end.remedy}\n`);
        return exitStatus.stopped;
      }
      if (end.result.work !== "propose") throw new Error("a proposal was asked for");
      const { setting } = end.result;
      if (given.flag("save")) await source.saveSetting(setting);
      if (given.flag("json")) host.out(`${JSON.stringify(setting)}\n`);
      else {
        const chosenFrom = readyPieces(document, firingClass.id, day, settingId).length;
        const saved = given.flag("save")
          ? `Saved as ${setting.id} in ${source.name}.`
          : "Nothing was saved: add --save to keep it.";
        host.out([...inWords(document, setting, chosenFrom), "", saved, ""].join("\n"));
      }
      return exitStatus.done;
    } finally {
      await source.close();
    }
  },
};

function inWords(document: StudioDocument, record: SettingRecord, chosenFrom: number): readonly string[] {
  const { setting, proposal } = record;
  const units = document.studio.units;
  const kiln = found(document.kilns, record.kilnId, "kiln");
  const furniture = found(document.furniture, kiln.furnitureId, "furniture");
  const firingClass = found(document.classes, record.classId, "class");
  const pieces = new Map(document.pieces.map((piece) => [piece.id, piece]));
  const shapes = new Map(document.shapes.map((shape) => [shape.id, shape]));
  const shapeOf = (pieceId: string) => shapes.get(pieces.get(pieceId)!.shapeId)!;
  const shelves = shelvesFromBottom(setting);
  const blocks = shelves.flatMap((shelf, index) => {
    const on = setting.pieces.filter((each) => each.shelfId === shelf.id).map((each) => each.pieceId);
    const mass = on.reduce((sum, id) => sum + shapeOf(id).mass, 0);
    const tallest = on.reduce((most, id) => Math.max(most, heightOf(shapeOf(id))), 0);
    const posts = (shelf.posts[0]?.lengths ?? []).map((length) => formatPost(length, units)).join(" + ");
    const high = tallest === 0 ? "" : `, up to ${formatLength(tallest, units, "size")} high`;
    return [
      `Shelf ${index + 1}  ${found(furniture.shelves, shelf.typeId, "shelf").name} on posts of ${posts}`,
      ...paragraph("         ", waresInWords(document, on) || "nothing"),
      `         ${formatMass(mass, units)} of ware${high}`,
    ];
  });
  const lines = [
    `Setting ${record.name} for ${kiln.name}: ${setting.pieces.length} of ${chosenFrom} pieces of ${firingClass.name} on ${shelves.length} shelves`,
  ];
  if (proposal) {
    const share = proposal.bound > 0 ? formatShare(proposal.value / proposal.bound) : "all";
    lines.push(`Worth ${share} of what is proven possible at most, found in ${proposal.seconds.toFixed(1)} s`);
  }
  lines.push("", "From the bottom up:", ...blocks);
  const waiting = proposal?.waiting ?? [];
  if (waiting.length > 0) lines.push("", waiting.length === 1 ? "1 piece waits" : `${waiting.length} pieces wait`);
  const reasons = [...new Set(waiting.map((each) => each.reason))];
  for (const reason of reasons) {
    const ids = waiting.filter((each) => each.reason === reason).map((each) => each.pieceId);
    const why = say({ key: `wait.${reason}` satisfies SentenceKey, values: {} }, units);
    lines.push(...paragraph("  ", `${waresInWords(document, ids)}: ${why}`));
  }
  return lines;
}
