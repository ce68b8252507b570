import { demoStudio } from "#work";
import { spawn, spawnSync, type ChildProcess } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { bundleForNode } from "../../tools/bundle.mjs";

const bundle = path.resolve("node_modules/.cache/spyhole-tests/cli");
const command = path.join(bundle, "spyhole.js");
const example = path.resolve("examples/small-studio.json");
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), "spyhole-process-"));
  await bundleForNode(bundle);
});
afterAll(() => rmSync(folder, { recursive: true }));

function start(words: readonly string[]): {
  child: ChildProcess;
  said: () => { out: string; err: string };
  ended: Promise<number | null>;
} {
  const child = spawn(process.execPath, [command, ...words], {
    cwd: folder,
    env: { ...process.env, SPYHOLE_DATA: path.join(folder, "s.sqlite") },
  });
  let out = "";
  let err = "";
  child.stdout.on("data", (chunk: Buffer) => (out += chunk.toString()));
  child.stderr.on("data", (chunk: Buffer) => (err += chunk.toString()));
  const ended = new Promise<number | null>((resolve) => child.on("close", (code) => resolve(code)));
  return { child, said: () => ({ out, err }), ended };
}

describe("the command as a process", () => {
  test("Ctrl-C stops long work soon: progress on stderr, no output, no file, status 130", async () => {
    const pdf = path.join(folder, "sheet.pdf");
    const demo = path.join(folder, "demo.json");
    writeFileSync(demo, JSON.stringify(demoStudio("2026-03-02", 1)));
    const words = [
      "propose",
      demo,
      "--kiln",
      "alder",
      "--class",
      "glaze-06",
      "--day",
      "2026-03-02",
      "--seconds",
      "120",
    ];
    for (const each of [words, ["sheet", example, "--out", pdf]]) {
      const { child, said, ended } = start(each);
      await new Promise((resolve) => setTimeout(resolve, each === words ? 2500 : 900));
      const asked = performance.now();
      child.kill("SIGINT");
      expect(await ended, each[0]).toBe(130);
      expect(performance.now() - asked).toBeLessThan(4000);
      expect(said().out).toBe("");
      if (each === words) expect(said().err).toMatch(/^ +\d+ % /);
    }
    expect(existsSync(pdf)).toBe(false);
  });

  test("serve prints its address, answers there, seeds the demo once, and stops on Ctrl-C with status 0", async () => {
    const { child, said, ended } = start(["serve", "--demo", "--port", "0"]);
    await expect.poll(() => said().out, { timeout: 15_000 }).toMatch(/http:\/\/127\.0\.0\.1:\d+\//);
    const address = /http:\S+/.exec(said().out)![0];
    const studio = (await (await fetch(`${address}api/studio`)).json()) as { document: { studio: { name: string } } };
    expect(studio.document.studio.name).toBe("Alder Row Clay Room");
    child.kill("SIGINT");
    expect(await ended).toBe(0);
  });

  test("a reader that goes away is no mistake", () => {
    const ran = spawnSync("sh", ["-c", `${process.execPath} ${command} demo | head -c 10`], {
      encoding: "utf8",
      cwd: folder,
    });
    expect(ran.stdout).toHaveLength(10);
    expect(ran.stderr).toBe("");
  });
});

describe("the case door as a process", () => {
  const knock = (...words: string[]) =>
    spawnSync(process.execPath, ["tools/run-source.mjs", "src/cli/case.ts", ...words], { encoding: "utf8" });
  const given = (name: string, text: string): string => {
    const file = path.join(folder, name);
    writeFileSync(file, text);
    return file;
  };

  test("prints one JSON object with its CPU time", () => {
    const ran = knock(given("circles.json", '{"N": 7}'), "--seconds", "1", "--seed", "3");
    expect(ran.status).toBe(0);
    expect(ran.stderr).toBe("");
    expect(ran.stdout.trim().split("\n")).toHaveLength(1);
    const answer = JSON.parse(ran.stdout) as { radius: number; circles: object[]; cpu_s: number };
    // Seven equal circles: one in the middle, six round it; the container's radius is exactly 3.
    expect(answer.radius).toBeCloseTo(3, 6);
    expect(answer.circles).toHaveLength(7);
    expect(answer.cpu_s).toBeGreaterThan(0);
  });

  test.each([
    ["circles.json", '{"radii": [1, -2]}', [], /circles\.json: radii\[1\] is -2; give a number above 0/],
    ["half.json", '{"radii": [1,', [], /half\.json: the file is not whole JSON .*; mend it/],
    ["other.json", '{"cats": 3}', [], /other\.json: the file is of no kind known here; give one of circles/],
    ["plan.json", '{"lots": [], "kil": []}', [], /plan\.json: .*cannot plan yet/],
    ["log.csv", "t_s,temp\n0,20\n", [], /log\.csv: line 1: .*Make the first line t_s,temp_c/],
    ["circles.json", '{"N": 3}', ["--seconds", "no"], /--seconds is no; give a number above 0/],
    ["circles.json", '{"N": 3}', ["--speed", "9"], /Unknown option '--speed'/],
  ])("%s with %j %j: one line, exit status 2", (name, text, more, says) => {
    const ran = knock(given(name, text), ...more);
    expect(ran.status).toBe(2);
    expect(ran.stdout).toBe("");
    expect(ran.stderr.trim().split("\n")).toHaveLength(1);
    expect(ran.stderr).toMatch(says);
  });

  test("a file that is not there is named", () => {
    const ran = knock("/no/such.json");
    expect(ran.status).toBe(2);
    expect(ran.stderr).toBe("/no/such.json: there is no such file; check its name\n");
  });
});
