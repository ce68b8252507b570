import { openSqliteStore } from "#store";
import { demoStudio } from "#work";
import { exitStatus, UsageError, type Command, type Given, type Host } from "../command.ts";
import { documentText, openStudio, readStudioFile, storeFile } from "../studio-source.ts";
import { writeWhole } from "../write-whole.ts";

/** To a file where --out names one, else to the terminal. */
function give(text: string, given: Given, host: Host, what: string): void {
  const file = given.text("out");
  if (file === undefined) host.out(text);
  else {
    writeWhole(file, text);
    host.out(given.flag("json") ? `${JSON.stringify({ file })}\n` : `${what} is in ${file}.\n`);
  }
}

export const demoCommand: Command = {
  name: "demo",
  summary: "write the invented demo studio as a document",
  usage: "spyhole demo [--out FILE] [--day DATE] [--seed N]",
  help: [
    "The Alder Row Clay Room: two kilns, 91 pieces in three firing classes, promised days relative to",
    "the day given. All invented.",
    "",
    "  --out FILE    file to write (the terminal)",
    "  --day DATE    day it stands at (today)",
    "  --seed N      another seed, another order of intake (1)",
  ],
  examples: ["spyhole demo --out demo.json", "spyhole demo --day 2026-12-01 | spyhole import -"],
  options: { out: { type: "string" }, day: { type: "string" }, seed: { type: "string" } },
  takes: 0,
  run: async (given, host) => {
    const day = given.text("day") ?? host.today;
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day))
      throw new UsageError(`--day is "${day}"; expected a date such as ${host.today}.`);
    const seed = given.number("seed", { least: 0, most: 2 ** 31 - 1 }) ?? 1;
    give(documentText(demoStudio(day, seed)), given, host, "The demo studio");
    return exitStatus.done;
  },
};

export const importCommand: Command = {
  name: "import",
  summary: "put a studio document into the store",
  usage: "spyhole import STUDIO.json [--replace] [--store FILE]",
  help: [
    "Takes a document whole or not at all; a wrong one is refused with the place, the value and what",
    "was expected, and nothing changes. STUDIO.json may be - for standard input.",
    "",
    "  --replace     take the place of the studio that is in the store",
    "  --store FILE  the store (SPYHOLE_DATA, else data/studio.sqlite); made if missing",
  ],
  examples: ["spyhole import examples/small-studio.json --store small.sqlite"],
  options: { replace: { type: "boolean" }, store: { type: "string" } },
  takes: 1,
  run: async (given, host) => {
    const [file] = given.positionals;
    if (file === undefined) throw new UsageError("Name a studio document: spyhole import STUDIO.json");
    const document = readStudioFile(file);
    const name = storeFile(given, host);
    const store = await openSqliteStore(name);
    try {
      const there = await store.read();
      if (there && !given.flag("replace")) {
        throw new UsageError(
          `${name} holds the studio "${there.document.studio.name}". Export it first, then add --replace.`,
        );
      }
      const { revision } = await store.replace(document);
      const { pieces, kilns, settings } = document;
      host.out(
        given.flag("json")
          ? `${JSON.stringify({ store: name, revision })}\n`
          : `${document.studio.name} is in ${name}: ${kilns.length} kilns, ${pieces.length} pieces, ${settings.length} settings.\n`,
      );
      return exitStatus.done;
    } finally {
      await store.close();
    }
  },
};

export const exportCommand: Command = {
  name: "export",
  summary: "write the studio as one document, for backup or another computer",
  usage: "spyhole export [--out FILE] [--store FILE]",
  help: [
    "  --out FILE    file to write (the terminal)",
    "  --store FILE  the store (SPYHOLE_DATA, else data/studio.sqlite)",
  ],
  examples: ["spyhole export --out backup.json"],
  options: { out: { type: "string" }, store: { type: "string" } },
  takes: 1,
  run: async (given, host) => {
    const source = await openStudio(given, host);
    try {
      give(documentText(source.document), given, host, source.document.studio.name);
      return exitStatus.done;
    } finally {
      await source.close();
    }
  },
};
