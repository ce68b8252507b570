import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { architectureTable } from "../tools/architecture.ts";
import { allowedRooms, breachesIn, filesBelow, importsOf, readRooms, root, type Breach } from "../tools/rooms.ts";

const rooms = readRooms();
const sources = filesBelow("src", [".ts", ".tsx"]).filter((file) => !/\.test\.tsx?$|\.d\.ts$/.test(file));

describe("rooms", () => {
  it("imports only what tools/rooms.json allows", () => {
    const breaches = sources.flatMap((file) => breachesIn(file, readFileSync(path.join(root, file), "utf8"), rooms));
    expect(breaches.map(({ file, target, reason }) => `${file}: ${target} (${reason})`)).toEqual([]);
  });

  it("has a door, index.ts, in every room", () => {
    for (const name of rooms.keys()) expect(existsSync(path.join(root, "src", name, "index.ts")), name).toBe(true);
  });

  it("lets no room import upward: the table has no circle", () => {
    const done = new Set<string>();
    const visit = (name: string, way: readonly string[]): void => {
      expect(way, `circle: ${[...way, name].join(" → ")}`).not.toContain(name);
      if (done.has(name)) return;
      for (const next of allowedRooms(name, rooms)) visit(next, [...way, name]);
      done.add(name);
    };
    for (const name of rooms.keys()) visit(name, []);
  });

  it("has no room called for what nobody can name", () => {
    const vague = filesBelow("src", [".ts", ".tsx"]).filter((file) =>
      /(^|\/)(utils?|helpers?|common|misc)(\/|\.tsx?$)/.test(file),
    );
    expect(vague).toEqual([]);
  });

  it("shows the table in ARCHITECTURE.md as it is (npm run docs writes it)", () => {
    const page = readFileSync(path.join(root, "ARCHITECTURE.md"), "utf8");
    expect(page).toContain(architectureTable());
  });
});

describe("the check of rooms itself", () => {
  const complain = (file: string, source: string): readonly Breach[] => breachesIn(file, source, rooms);

  it("finds an upward import", () => {
    expect(complain("src/engine/heatwork/x.ts", 'import { Load } from "#engine/firing";')).toHaveLength(1);
  });
  it("finds a deep import, a way round the door, a package and Node in a pure room", () => {
    expect(complain("src/engine/firing/x.ts", 'import { a } from "#engine/heatwork/cones";')).toHaveLength(1);
    expect(complain("src/engine/firing/x.ts", 'import { a } from "../heatwork/cones.ts";')).toHaveLength(1);
    expect(complain("src/engine/firing/x.ts", 'import { z } from "zod";')).toHaveLength(1);
    expect(complain("src/engine/firing/x.ts", 'import fs from "node:fs";')).toHaveLength(1);
    expect(complain("src/engine/firing/x.ts", 'export * from "./y.ts";')).toHaveLength(2 - 1);
  });
  it("reads every form of import and no comment", () => {
    const source =
      'import a from "a";\nimport "b";\nexport { c } from "c";\nawait import("d");\n// import e from "e";\n/* from "f" */';
    expect(importsOf(source)).toEqual(["a", "b", "c", "d"]);
  });
});
