import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";

/** What a room is for, which rooms and which npm packages it may import. */
export interface Room {
  readonly meaning: string;
  readonly may: readonly string[];
  readonly packages: readonly string[];
}

export interface Breach {
  readonly file: string;
  readonly target: string;
  readonly reason: string;
}

export const root = path.resolve(import.meta.dirname, "..");

export function readRooms(): ReadonlyMap<string, Room> {
  const table = JSON.parse(readFileSync(path.join(root, "tools/rooms.json"), "utf8")) as {
    rooms: Record<string, Room>;
  };
  return new Map(Object.entries(table.rooms));
}

/** The rooms a room may import, wildcards such as "engine/*" resolved. */
export function allowedRooms(name: string, rooms: ReadonlyMap<string, Room>): ReadonlySet<string> {
  const allowed = new Set<string>();
  for (const entry of rooms.get(name)?.may ?? []) {
    if (entry.endsWith("/*")) {
      for (const other of rooms.keys()) if (other.startsWith(entry.slice(0, -1)) && other !== name) allowed.add(other);
    } else allowed.add(entry);
  }
  return allowed;
}

/** Files below `folder` whose name ends in one of `endings`, relative to the repository. */
export function filesBelow(folder: string, endings: readonly string[]): readonly string[] {
  return readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => endings.some((ending) => name.endsWith(ending)))
    .map((name) => path.posix.join(folder, name.split(path.sep).join("/")))
    .sort();
}

export function roomOf(file: string, rooms: ReadonlyMap<string, Room>): string | null {
  const below = file.replace(/^src\//, "");
  let best: string | null = null;
  for (const name of rooms.keys()) {
    if (below.startsWith(`${name}/`) && (best === null || name.length > best.length)) best = name;
  }
  return best;
}

/** Every module named by an import, export-from or dynamic import in a source text. */
export function importsOf(source: string): readonly string[] {
  const code = source.replaceAll(/\/\*[\s\S]*?\*\//g, "").replaceAll(/^\s*\/\/.*$/gm, "");
  const pattern = /(?:\bfrom\s+|\bimport\s*\(\s*|\bimport\s+)["']([^"']+)["']/g;
  return [...code.matchAll(pattern)].map((match) => match[1]);
}

function packageOf(specifier: string): string {
  const parts = specifier.split("/");
  return specifier.startsWith("@") ? parts.slice(0, 2).join("/") : parts[0];
}

/** All imports of one file that the table of rooms does not allow. */
export function breachesIn(file: string, source: string, rooms: ReadonlyMap<string, Room>): readonly Breach[] {
  const own = roomOf(file, rooms);
  if (own === null) return [{ file, target: file, reason: "this file is in no room of tools/rooms.json" }];
  const room = rooms.get(own) as Room;
  const allowed = allowedRooms(own, rooms);
  const breaches: Breach[] = [];
  const breach = (target: string, reason: string): void => void breaches.push({ file, target, reason });
  if (/^export \*/m.test(source)) breach("export *", "a door names what it lets out");
  for (const specifier of importsOf(source)) {
    if (specifier.startsWith(".")) {
      const target = path.posix.normalize(path.posix.join(path.posix.dirname(file), specifier));
      if (roomOf(target, rooms) !== own)
        breach(specifier, `a relative import leaves the room ${own}: go through the other room's door, #room`);
    } else if (specifier.startsWith("#")) {
      const target = specifier.slice(1);
      if (!rooms.has(target)) breach(specifier, "there is no such room: import its door, not a file behind it");
      else if (target === own) breach(specifier, "a room does not import its own door");
      else if (!allowed.has(target)) breach(specifier, `${own} may import: ${[...allowed].join(", ") || "nothing"}`);
    } else if (specifier.startsWith("node:")) {
      if (isPure(own)) breach(specifier, `${own} is pure: no Node`);
    } else if (!room.packages.includes(packageOf(specifier))) {
      breach(specifier, `${own} may use the packages: ${room.packages.join(", ") || "none"}`);
    }
  }
  return breaches;
}

/** Rooms that run anywhere: no Node, no DOM. */
export function isPure(name: string): boolean {
  return /^(base|engine\/.+|records|work|work\/.+|words|protocol|web\/.+)$/.test(name);
}
