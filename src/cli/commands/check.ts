import type { CheckResult, Finding } from "#engine/checks";
import type { SettingRecord, StudioDocument } from "#records";
import { check, exposures, found, pieceNumbers } from "#work";
import { cautions, say } from "#words";
import { exitStatus, type Command } from "../command.ts";
import { openStudio, settingAsked } from "../studio-source.ts";
import { paragraph } from "../table.ts";

export const checkCommand: Command = {
  name: "check",
  summary: "hold a setting against every loading rule that geometry decides",
  usage: "spyhole check [STUDIO.json] [--setting ID] [options]",
  help: [
    "Lists what breaks a rule: what, where, measured against which limit, and what to do. Exit status 1",
    "if there is a stop.",
    "",
    "  --setting ID   the setting (its id or name); not needed if there is one only",
    "  --all          also the rules that are kept, and what to look at yourself",
    "  --store FILE   the store, where no STUDIO.json is named",
  ],
  examples: ["spyhole check examples/small-studio.json --all", "spyhole check --setting A --json"],
  options: { setting: { type: "string" }, all: { type: "boolean" }, store: { type: "string" } },
  takes: 1,
  run: async (given, host) => {
    const source = await openStudio(given, host);
    try {
      const { document } = source;
      const setting = settingAsked(document, given.text("setting"));
      const result = check(document, setting, exposures(document, setting));
      if (given.flag("json")) host.out(`${JSON.stringify(spoken(document, setting, result))}\n`);
      else host.out([...inWords(document, setting, result, given.flag("all")), ""].join("\n"));
      return result.findings.some((each) => each.level === "stop") ? exitStatus.stopped : exitStatus.done;
    } finally {
      await source.close();
    }
  },
};

/** Findings with their sentences beside the numbers. */
function spoken(document: StudioDocument, setting: SettingRecord, result: CheckResult): unknown {
  const { sentence, advice } = voice(document, setting);
  const findings = result.findings.map((each) => Object.assign({}, each, { says: sentence(each), do: advice(each) }));
  return { ...result, findings };
}

function voice(document: StudioDocument, setting: SettingRecord) {
  const { units } = document.studio;
  const numbers = pieceNumbers(document, setting.setting);
  const how = { numberOf: (pieceId: string) => numbers.get(pieceId) ?? null };
  return {
    sentence: (each: Finding): string => say(each.message, units, how),
    advice: (each: Finding): string => say(each.advice, units, how),
    plain: (message: Finding["message"]): string => say(message, units, how),
  };
}

function inWords(
  document: StudioDocument,
  setting: SettingRecord,
  result: CheckResult,
  all: boolean,
): readonly string[] {
  const { sentence, advice, plain } = voice(document, setting);
  const kiln = found(document.kilns, setting.kilnId, "kiln");
  const count = (level: Finding["level"]): number => result.findings.filter((each) => each.level === level).length;
  const lines = [
    `Setting ${setting.name} in ${kiln.name}: ${count("stop")} to stop for, ${count("check")} to check, ${count("tip")} tips; ${result.kept.length} rules kept`,
    "",
  ];
  for (const finding of result.findings) {
    lines.push(...paragraph(finding.level.padEnd(7), sentence(finding)));
    lines.push(...paragraph("       → ", advice(finding)));
  }
  if (result.findings.length === 0) lines.push("Nothing breaks a rule.");
  if (all) {
    lines.push("", "Rules kept:");
    for (const kept of result.kept) lines.push(...paragraph("  ", plain(kept.message)));
    lines.push("", "Look yourself, no drawing can show it:");
    for (const look of result.lookYourself) lines.push(...paragraph("  [ ] ", plain(look.message)));
  } else {
    lines.push("", `${result.lookYourself.length} things no drawing can show: see them with --all.`);
  }
  lines.push("", ...cautions.load.flatMap((each) => paragraph("! ", each)));
  return lines;
}
