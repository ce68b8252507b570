import { inlineRunner, jobBoard, threadRunner, type JobBoard } from "#jobs";
import type { JobState, StudioState } from "#protocol";
import { openSqliteStore, type StudioStore } from "#store";
import { demoStudio, emptyStudio } from "#work";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request as httpRequest } from "node:http";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { bundleForNode } from "../../tools/bundle.mjs";
import { startServer, type RunningServer } from "./start.ts";

const demo = demoStudio("2026-03-02", 1);
const [piece] = demo.pieces;
const worker = path.resolve("node_modules/.cache/spyhole-tests/server");
beforeAll(() => bundleForNode(worker));

let folder: string;
let store: StudioStore;
let jobs: JobBoard;
let server: RunningServer;
const at = (place: string): string => server.address.replace(/\/$/, "") + place;

beforeEach(async () => {
  folder = mkdtempSync(path.join(tmpdir(), "spyhole-server-"));
  const web = path.join(folder, "web");
  mkdirSync(path.join(web, "assets"), { recursive: true });
  writeFileSync(path.join(web, "index.html"), "<!doctype html><html><head><title>x</title></head><body></body></html>");
  writeFileSync(path.join(web, "assets", "index-Dk3jf9_a.js"), "export {};");
  writeFileSync(path.join(web, "assets", "page-a1b2c3d4.css"), "p{}");
  writeFileSync(path.join(web, "icon.svg"), "<svg/>");
  writeFileSync(path.join(folder, "secret.txt"), "secret");
  store = await openSqliteStore(path.join(folder, "studio.sqlite"));
  await store.replace(demo);
  jobs = jobBoard(inlineRunner());
  server = await startServer({ store, jobs, webFolder: web, port: 0 });
});
afterEach(async () => {
  await server.close();
  await store.close();
  rmSync(folder, { recursive: true });
});

// oxlint-disable-next-line typescript/no-explicit-any -- answers are looked into field by field
async function post(place: string, body: unknown): Promise<{ status: number; body: any }> {
  const text = typeof body === "string" ? body : JSON.stringify(body);
  const response = await fetch(at(place), {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: text,
  });
  return { status: response.status, body: await response.json() };
}

async function studio(): Promise<StudioState> {
  return (await (await fetch(at("/api/studio"))).json()) as StudioState;
}

/** Names and data of the next events of a stream, until `enough` says so. */
async function events(place: string, enough: (data: readonly unknown[]) => boolean): Promise<readonly unknown[]> {
  const response = await fetch(at(place));
  expect(response.headers.get("content-type")).toContain("text/event-stream");
  const seen: unknown[] = [];
  let text = "";
  const decoder = new TextDecoder();
  for await (const chunk of response.body!) {
    text += decoder.decode(chunk, { stream: true });
    const blocks = text.split("\n\n");
    text = blocks.pop()!;
    for (const block of blocks) {
      const data = /^data: (.*)$/m.exec(block);
      if (data) seen.push({ name: /^event: (.*)$/m.exec(block)?.[1], ...(JSON.parse(data[1]) as object) });
    }
    // Leaving the loop closes the stream.
    if (enough(seen)) break;
  }
  return seen;
}

/** A request with headers that fetch would not let through. */
function rawStatus(
  place: string,
  headers: Record<string, string>,
  method = "GET",
): Promise<{ status: number; body: string }> {
  return new Promise((resolve, reject) => {
    const sent = httpRequest({ host: "127.0.0.1", port: server.port, path: place, headers, method }, (response) => {
      let body = "";
      response.on("data", (chunk: Buffer) => (body += chunk.toString()));
      response.on("end", () => resolve({ status: response.statusCode!, body }));
    });
    sent.on("error", reject);
    sent.end();
  });
}

const noted = (note: string, basedOn: number | null) => ({
  change: "put",
  collection: "pieces",
  record: { ...piece, note },
  basedOn,
});

describe("the studio", () => {
  test("is given whole with its revisions", async () => {
    const state = await studio();
    expect(state.document).toEqual(demo);
    expect(state.revision).toBe(1);
    expect(state.revisions.pieces[piece.id]).toBe(1);
  });

  test("takes changes over, and refuses those made on an older version with both", async () => {
    expect(await post("/api/changes", { changes: [noted("mine", 1)] })).toEqual({
      status: 200,
      body: { revision: 2, revisions: { pieces: { [piece.id]: 2 } } },
    });
    const late = await post("/api/changes", { changes: [noted("late", 1)] });
    expect(late).toMatchObject({
      status: 409,
      body: { conflicts: [{ collection: "pieces", id: piece.id, revision: 2, current: { note: "mine" } }] },
    });
    expect((await studio()).document.pieces[0].note).toBe("mine");
  });

  test.each([
    ["no JSON", '{"changes":', 400, /no JSON/],
    ["nothing", "", 400, /no JSON/],
    ["lists in lists in lists", `{"changes":${"[".repeat(9000)}${"]".repeat(9000)}}`, 422, /request is not valid/],
    ["no changes", { changes: [] }, 422, /request is not valid/],
    ["an unknown list", { changes: [{ ...noted("x", 1), collection: "cats" }] }, 422, /request is not valid/],
    [
      "a record that is not valid",
      { changes: [{ ...noted("x", 1), record: { ...piece, value: -1 } }] },
      422,
      /cannot be saved/,
    ],
    [
      "a broken reference",
      { changes: [{ change: "remove", collection: "shapes", id: "mug", basedOn: 1 }] },
      422,
      /cannot be saved/,
    ],
  ])("refuses %s, names the place and changes nothing", async (_, body, status, says) => {
    const before = await studio();
    const refused = await post("/api/changes", body);
    expect(refused.status).toBe(status);
    expect(refused.body.error).toMatch(says);
    if (status === 422) {
      for (const each of refused.body.problems as { path: string; value: string; expected: string }[]) {
        expect(each.path).not.toBe("");
        expect(each.value).not.toBe("");
        expect(each.expected).not.toBe("");
      }
    }
    expect(await studio()).toEqual(before);
  });

  test("goes out as a document and comes in as one; a wrong one changes nothing", async () => {
    const response = await fetch(at("/api/export"));
    expect(response.headers.get("content-disposition")).toContain("attachment");
    const exported: unknown = await response.json();
    expect(exported).toEqual(demo);
    const wrong = await post("/api/import", { ...demo, kilns: [{ ...demo.kilns[0], name: 7 }, demo.kilns[1]] });
    expect(wrong).toMatchObject({ status: 422, body: { problems: [{ path: "kilns[0].name", value: "7" }] } });
    expect((await studio()).revision).toBe(1);
    const taken = await post("/api/import", emptyStudio("New Room"));
    expect(taken).toMatchObject({ status: 200, body: { revision: 2, document: { studio: { name: "New Room" } } } });
    expect((await post("/api/import", exported)).status).toBe(200);
    expect((await studio()).document).toEqual(demo);
  });

  test("tells other tabs of changes made here and by other programs", async () => {
    const heard = events("/api/changes/events", (seen) => seen.length >= 3);
    await new Promise((resolve) => setTimeout(resolve, 100));
    await post("/api/changes", { changes: [noted("a", 1)] });
    const other = await openSqliteStore(path.join(folder, "studio.sqlite"));
    await other.replace(demo);
    await other.close();
    expect(await heard).toEqual([
      { name: "changed", revision: 1 },
      { name: "changed", revision: 2 },
      { name: "changed", revision: 3 },
    ]);
  });

  test("a store that refuses is told in plain words, without a trace", async () => {
    await store.close();
    const { status, body } = await post("/api/changes", { changes: [noted("a", 1)] });
    expect(status).toBeGreaterThanOrEqual(500);
    expect(JSON.stringify(body)).not.toMatch(/\.ts\b|\.js\b|node_modules|Error/);
    store = await openSqliteStore(path.join(folder, "studio.sqlite"));
  });
});

const proposing = {
  work: "propose",
  kilnId: "rowan",
  classId: "mid-6",
  day: "2026-03-02",
  settingId: null,
  seconds: 0.4,
  seed: 1,
};
describe("the sheet", () => {
  test("of a saved setting is a PDF on the paper asked for; one that is not saved is refused", async () => {
    const started = await post("/api/jobs", proposing);
    // oxlint-disable-next-line typescript/no-explicit-any -- looked into field by field
    const [done] = (await events(`/api/jobs/${started.body.id}/events`, isLast)).slice(-1) as [any];
    const record = done.result.setting;
    const place = `/api/settings/${record.id}/sheet.pdf`;
    expect((await fetch(at(place))).status).toBe(404);
    await post("/api/changes", { changes: [{ change: "put", collection: "settings", record, basedOn: null }] });
    const sizes: string[] = [];
    for (const paper of ["a4", "letter"]) {
      const sheet = await fetch(at(`${place}?paper=${paper}`));
      expect(sheet.status).toBe(200);
      expect(sheet.headers.get("content-type")).toBe("application/pdf");
      const text = Buffer.from(await sheet.arrayBuffer()).toString("latin1");
      expect(text.startsWith("%PDF-")).toBe(true);
      sizes.push(/\/MediaBox \[([^\]]+)\]/.exec(text)![1]);
    }
    // ISO 216 A4 is 210 x 297 mm, US Letter 8.5 x 11 in; a point is 1/72 in.
    expect(sizes[0]).toMatch(/595\.2\d* 841\.8\d*/);
    expect(sizes[1]).toMatch(/612 792/);
    expect((await fetch(at(`${place}?paper=a5`))).status).toBe(422);
  });
});

describe("files to take away", () => {
  test("are downloads of a saved setting; the calendar needs a forecast; what is not there is refused in words", async () => {
    const started = await post("/api/jobs", proposing);
    // oxlint-disable-next-line typescript/no-explicit-any -- looked into field by field
    const [done] = (await events(`/api/jobs/${started.body.id}/events`, isLast)).slice(-1) as [any];
    const record = done.result.setting;
    const of = `/api/settings/${record.id}`;
    expect((await fetch(at(`${of}/plan.csv`))).status).toBe(404);
    await post("/api/changes", { changes: [{ change: "put", collection: "settings", record, basedOn: null }] });
    const taken = async (name: string): Promise<Response> => {
      const response = await fetch(at(`${of}/${name}`));
      expect(response.status, name).toBe(200);
      expect(response.headers.get("content-disposition")).toMatch(/^attachment; filename="[\w.-]+"$/);
      return response;
    };
    // By bytes: reading as text would drop the mark at the start.
    const table = Buffer.from(await (await taken("plan.csv")).arrayBuffer()).toString("utf8");
    expect(table.startsWith("\ufeffshelf,number,piece")).toBe(true);
    expect(table.trimEnd().split("\r\n")).toHaveLength(1 + record.setting.pieces.length);
    expect(await (await taken("shelf.svg?shelf=1")).text()).toContain("<svg xmlns=");
    const model = Buffer.from(await (await taken("setting.glb")).arrayBuffer());
    expect(model.subarray(0, 4).toString("latin1")).toBe("glTF");
    expect((await fetch(at(`${of}/shelf.svg?shelf=99`))).status).toBe(404);
    expect((await fetch(at(`${of}/shelf.svg?shelf=top`))).status).toBe(422);

    const early = await fetch(at(`${of}/firing.ics`));
    expect(early.status).toBe(404);
    expect(((await early.json()) as { error: string }).error).toMatch(/Ask for a forecast/);
    const asked = await post("/api/jobs", { work: "forecast", setting: record, grade: "preview" });
    await events(`/api/jobs/${asked.body.id}/events`, isLast);
    await expect.poll(async () => (await fetch(at(`${of}/firing.ics`))).status).toBe(200);
    const calendar = await taken("firing.ics");
    expect(calendar.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    expect(await calendar.text()).toMatch(/^BEGIN:VCALENDAR\r\n/);
  });
});

const isLast = (seen: readonly unknown[]): boolean =>
  ["done", "failed", "cancelled"].includes((seen.at(-1) as JobState | undefined)?.state ?? "");

describe("jobs", () => {
  test("are started, followed by events to their end, and looked at", async () => {
    const started = await post("/api/jobs", proposing);
    expect(started.status).toBe(202);
    const seen = await events(`/api/jobs/${started.body.id}/events`, isLast);
    expect(seen.at(-1)).toMatchObject({ name: "state", state: "done", result: { work: "propose" } });
    const state = (await (await fetch(at(`/api/jobs/${started.body.id}`))).json()) as JobState;
    expect(state.state).toBe("done");
    const again = await events(`/api/jobs/${started.body.id}/events`, isLast);
    expect(again).toHaveLength(1);
  });

  test("a firing computed before is answered from the store", async () => {
    const proposed = await post("/api/jobs", proposing);
    // oxlint-disable-next-line typescript/no-explicit-any -- looked into field by field
    const [done] = (await events(`/api/jobs/${proposed.body.id}/events`, isLast)).slice(-1) as [any];
    const request = { work: "forecast", setting: done.result.setting, grade: "preview" };
    const first = await post("/api/jobs", request);
    const [one] = (await events(`/api/jobs/${first.body.id}/events`, isLast)).slice(-1);
    expect(one).toMatchObject({ state: "done", result: { forecast: { grade: "preview" } } });
    await expect.poll(() => store.cached((one as { result: { key: string } }).result.key)).not.toBeNull();
    const second = await post("/api/jobs", request);
    const state = await (await fetch(at(`/api/jobs/${second.body.id}`))).json();
    expect(state).toEqual({ state: "done", result: (one as { result: unknown }).result });
  });

  test("are refused when they make no sense, and unknown ones are said to be", async () => {
    expect(await post("/api/jobs", { work: "dream" })).toMatchObject({ status: 422 });
    expect(await post("/api/jobs", { ...proposing, seconds: 1e9 })).toMatchObject({
      status: 422,
      body: { problems: [{ path: "seconds", value: "1000000000" }] },
    });
    for (const [place, method] of [
      ["/api/jobs/none", "GET"],
      ["/api/jobs/none/events", "GET"],
      ["/api/jobs/none", "DELETE"],
    ]) {
      expect((await fetch(at(place), { method })).status).toBe(404);
    }
  });

  test("stop on request while they run in a thread", async () => {
    await server.close();
    jobs = jobBoard(threadRunner({ entry: pathToFileURL(path.join(worker, "worker.js")), size: 1 }));
    server = await startServer({ store, jobs, webFolder: path.join(folder, "web"), port: 0 });
    const { body } = await post("/api/jobs", { ...proposing, kilnId: "alder", classId: "glaze-06", seconds: 60 });
    const seen = events(`/api/jobs/${body.id}/events`, isLast);
    await expect
      .poll(async () => ((await (await fetch(at(`/api/jobs/${body.id}`))).json()) as JobState).state)
      .toBe("running");
    expect((await fetch(at(`/api/jobs/${body.id}`), { method: "DELETE" })).status).toBe(204);
    expect((await seen).at(-1)).toEqual({ name: "state", state: "cancelled" });
  });
});

describe("who is let in", () => {
  test.each([
    ["its own address", { host: "127.0.0.1:1" }, 200],
    ["localhost", { host: "LOCALHOST:1" }, 200],
    ["IPv6's own address", { host: "[::1]:1" }, 200],
    ["a name made to point here", { host: "kiln.example" }, 403],
    ["a name that begins alike", { host: "127.0.0.1.kiln.example" }, 403],
    ["its own page", { host: "127.0.0.1:9", origin: "http://127.0.0.1:9" }, 200],
    ["a page of another port", { host: "127.0.0.1:9", origin: "http://127.0.0.1:10" }, 403],
    ["a page of another place", { host: "127.0.0.1:9", origin: "https://kiln.example" }, 403],
    ["a page that hides where it is from", { host: "127.0.0.1:9", origin: "null" }, 403],
  ])("%s", async (_, headers, status) => {
    expect((await rawStatus("/api/health", headers)).status).toBe(status);
  });

  test("a change that another site's page sends is refused by where the browser says it is from", async () => {
    const headers = { host: "127.0.0.1:9", "sec-fetch-site": "cross-site" };
    expect((await rawStatus("/api/import", headers, "POST")).status).toBe(403);
  });

  test("only this computer: any other address is refused with the reason", async () => {
    for (const host of ["0.0.0.0", "::", "192.168.1.20", "kiln.example"]) {
      const start = startServer({ store, jobs, webFolder: folder, port: 0, host });
      await expect(start).rejects.toThrow(/does not open itself to other computers/);
    }
  });

  test("another free port is taken where the wanted one is not free", async () => {
    const second = await startServer({ store, jobs: jobBoard(inlineRunner()), webFolder: folder, port: server.port });
    expect(second.port).not.toBe(server.port);
    expect((await fetch(`${second.address}api/health`)).status).toBe(200);
    await second.close();
  });

  test("more than 32 MB is refused", async () => {
    const huge = `{"x":"${"a".repeat(33 * 1024 * 1024)}"}`;
    const response = await fetch(at("/api/import"), {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: huge,
    });
    expect(response.status).toBe(413);
    expect(await response.json()).toEqual({ error: expect.stringContaining("32 MB") as string });
  });
});

describe("the page", () => {
  test("comes with a strict policy, and its style nonce, new each time", async () => {
    const pages = await Promise.all(["/", "/setting/alder-a"].map((place) => fetch(at(place))));
    const nonces = new Set<string>();
    for (const page of pages) {
      expect(page.status).toBe(200);
      expect(page.headers.get("content-type")).toMatch(/^text\/html; charset=utf-8/i);
      expect(page.headers.get("cache-control")).toBe("no-cache");
      const policy = page.headers.get("content-security-policy")!;
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self';");
      expect(policy).not.toMatch(/unsafe|\*|https?:/);
      const nonce = /'nonce-([^']+)'/.exec(policy)![1];
      expect(await page.text()).toContain(`<meta property="csp-nonce" content="${nonce}">`);
      nonces.add(nonce);
    }
    expect(nonces.size).toBe(2);
  });

  test.each([
    ["/assets/index-Dk3jf9_a.js", /javascript/, "public, max-age=31536000, immutable"],
    ["/assets/page-a1b2c3d4.css", /text\/css/, "public, max-age=31536000, immutable"],
    ["/icon.svg", /image\/svg/, "no-cache"],
  ])("%s has its type and its time to keep", async (place, type, keep) => {
    const file = await fetch(at(place));
    expect(file.status).toBe(200);
    expect(file.headers.get("content-type")).toMatch(type);
    expect(file.headers.get("cache-control")).toBe(keep);
    expect(file.headers.get("x-content-type-options")).toBe("nosniff");
  });

  test.each([
    "/no-such.js",
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/assets/..%5c..%5csecret.txt",
  ])("%s is not here", async (place) => {
    const { status, body } = await rawStatus(place, { host: "127.0.0.1" });
    expect(status).toBeGreaterThanOrEqual(400);
    expect(body).not.toContain("secret");
  });

  test("an API address nobody knows is refused as JSON", async () => {
    const response = await fetch(at("/api/nothing"));
    expect(response.status).toBe(404);
    expect(((await response.json()) as { error: string }).error).toMatch(/no such place/);
  });
});

describe("the description of the API", () => {
  test("is OpenAPI 3.1, and the answers keep to it", async () => {
    const api = (await (await fetch(at("/api/openapi.json"))).json()) as {
      openapi: string;
      paths: Record<
        string,
        Record<string, { responses: Record<string, { content?: Record<string, { schema: object }> }> }>
      >;
    };
    expect(api.openapi).toBe("3.1.0");
    expect(Object.keys(api.paths).sort()).toEqual(
      [
        "/api/changes",
        "/api/changes/events",
        "/api/export",
        "/api/health",
        "/api/import",
        "/api/jobs",
        "/api/jobs/{id}",
        "/api/jobs/{id}/events",
        "/api/settings/{id}/firing.ics",
        "/api/settings/{id}/plan.csv",
        "/api/settings/{id}/setting.glb",
        "/api/settings/{id}/shelf.svg",
        "/api/settings/{id}/sheet.pdf",
        "/api/studio",
      ].sort(),
    );
    // An independent validator (ajv, JSON Schema 2020-12) reads the published schemas.
    const ajv = new Ajv2020({ strict: false });
    addFormats(ajv);
    const answers = [
      ["/api/studio", "get", "200", await studio()],
      ["/api/export", "get", "200", demo],
      ["/api/changes", "post", "200", (await post("/api/changes", { changes: [noted("a", 1)] })).body],
      ["/api/changes", "post", "409", (await post("/api/changes", { changes: [noted("a", 1)] })).body],
      ["/api/changes", "post", "422", (await post("/api/changes", { changes: [] })).body],
      ["/api/jobs", "post", "202", (await post("/api/jobs", proposing)).body],
    ] as const;
    for (const [place, method, status, answer] of answers) {
      const { schema } = api.paths[place][method].responses[status].content!["application/json"];
      const holds = ajv.compile(schema);
      expect(holds(answer), `${method} ${place} ${status}: ${ajv.errorsText(holds.errors)}`).toBe(true);
    }
  });
});
