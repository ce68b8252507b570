import { readStudio, type Problem, type SettingRecord, type StudioDocument } from "#records";
import { openSqliteStore } from "#store";
import { readFileSync, statSync } from "node:fs";
import path from "node:path";
import { UsageError, type Given, type Host } from "./command.ts";
import { writeWhole } from "./write-whole.ts";

/** A studio given to a command: a document in a file, or the store. */
export interface StudioSource {
  readonly document: StudioDocument;
  /** For messages: the file, or the store's file. */
  readonly name: string;
  /** Puts a new or changed setting into it, whole or not at all. */
  readonly saveSetting: (setting: SettingRecord) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** The store's file: --store, else SPYHOLE_DATA, else data/studio.sqlite. In a folder it is studio.sqlite. */
export function storeFile(given: Given, host: Host): string {
  const named = given.text("store") ?? (host.env.SPYHOLE_DATA || "data/studio.sqlite");
  const isFolder = statSync(named, { throwIfNoEntry: false })?.isDirectory() ?? named.endsWith("/");
  return isFolder ? path.join(named, "studio.sqlite") : named;
}

/** The studio named by the first positional argument, or the store's. @throws UsageError if there is none */
export async function openStudio(given: Given, host: Host): Promise<StudioSource> {
  const [file] = given.positionals;
  if (file !== undefined) return studioInFile(file);
  const name = storeFile(given, host);
  const store = await openSqliteStore(name);
  const stored = await store.read();
  if (!stored) {
    await store.close();
    throw new UsageError(`The store ${name} has no studio yet. Put one in: spyhole import STUDIO.json`);
  }
  return {
    document: stored.document,
    name,
    saveSetting: async (setting) => {
      const basedOn = stored.revisions.settings?.[setting.id] ?? null;
      const saved = await store.apply([{ change: "put", collection: "settings", record: setting, basedOn }]);
      if (saved.ok) return;
      if (saved.failure.reason === "conflict") {
        throw new UsageError(`Setting ${setting.name} was changed meanwhile. Nothing was saved. Ask again.`);
      }
      throw new UsageError(`Nothing was saved. ${inWords(saved.failure.problems)}`);
    },
    close: () => store.close(),
  };
}

function studioInFile(file: string): StudioSource {
  const document = readStudioFile(file);
  return {
    document,
    name: file,
    saveSetting: async (setting) => {
      const others = document.settings.filter((each) => each.id !== setting.id);
      writeWhole(file, documentText({ ...document, settings: [...others, setting] }));
    },
    close: () => Promise.resolve(),
  };
}

/** A studio document in a file. @throws UsageError naming the place and what was expected there */
export function readStudioFile(file: string): StudioDocument {
  let text: string;
  try {
    text = readFileSync(file === "-" ? 0 : file, "utf8");
  } catch (error) {
    const reason = (error as NodeJS.ErrnoException).code === "ENOENT" ? "There is no such file" : "It cannot be read";
    throw new UsageError(`${file}: ${reason}. Name a studio document (spyhole demo makes one).`);
  }
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    throw new UsageError(`${file} is no JSON: ${error instanceof Error ? error.message : String(error)}.`);
  }
  const read = readStudio(parsed);
  if (!read.ok) throw new UsageError(`${file} is not a studio document.\n${inWords(read.failure)}`);
  return read.value;
}

export function documentText(document: StudioDocument): string {
  return `${JSON.stringify(document, null, 2)}\n`;
}

const problemsShown = 8;

function inWords(problems: readonly Problem[]): string {
  const lines = problems
    .slice(0, problemsShown)
    .map(({ path, value, expected }) => `  ${path} is ${value}; expected ${expected}`);
  const more = problems.length - lines.length;
  return [...lines, ...(more > 0 ? [`  and ${more} more`] : [])].join("\n");
}

/** The setting asked for by id or name, or the only one there is. @throws UsageError naming those there are */
export function settingAsked(document: StudioDocument, asked: string | undefined): SettingRecord {
  const { settings } = document;
  const there = settings.map((each) => `${each.id} (${each.name})`).join(", ");
  if (settings.length === 0) {
    throw new UsageError("This studio has no setting yet. Make one: spyhole propose … --save");
  }
  if (asked === undefined) {
    if (settings.length === 1) return settings[0];
    throw new UsageError(`Say which setting: --setting with one of ${there}.`);
  }
  const found = settings.find((each) => each.id === asked) ?? settings.find((each) => each.name === asked);
  if (!found) throw new UsageError(`There is no setting "${asked}". There are: ${there}.`);
  return found;
}

/** A kiln or class by id or name, or the only one there is. @throws UsageError naming those there are */
export function asked<Each extends { readonly id: string; readonly name: string }>(
  records: readonly Each[],
  wanted: string | undefined,
  option: string,
  what: string,
): Each {
  const there = records.map((each) => each.id).join(", ");
  if (records.length === 0) throw new UsageError(`This studio has no ${what} yet.`);
  if (wanted === undefined) {
    if (records.length === 1) return records[0];
    throw new UsageError(`Say which ${what}: --${option} with one of ${there}.`);
  }
  const lower = wanted.toLowerCase();
  const found = records.find((each) => each.id === wanted) ?? records.find((each) => each.name.toLowerCase() === lower);
  if (!found) throw new UsageError(`--${option} is "${wanted}"; expected one of ${there}.`);
  return found;
}
