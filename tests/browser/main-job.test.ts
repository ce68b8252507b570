import { mkdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser, openPage, type WatchedPage } from "./browser.ts";
import { TestServer, type StudioSeen } from "./server.ts";

/*
 * The main job from the bench to paper, as a loader does it, in order. Each step starts where the last one ended.
 */
const server = new TestServer();
let browser: Browser;
let watched: WatchedPage;
let page: Page;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  watched = await openPage(browser, server.address);
  page = watched.page;
});

afterAll(async () => {
  await browser?.close();
  await server.stop();
});

async function saved(): Promise<void> {
  await page.getByText("Saved on this computer").waitFor();
}

async function setting(): Promise<StudioSeen["settings"][number]> {
  await saved();
  const { settings } = await server.studio();
  return settings[0];
}

test("the page paints within two seconds", async () => {
  const paint = (await page.evaluate(
    `performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? null`,
  )) as number;
  console.log(`first contentful paint: ${paint.toFixed(0)} ms`);
  expect(paint).toBeLessThan(2000);
});

test("14 tumblers are taken in by one line", async () => {
  const before = (await server.studio()).pieces.length;
  await page.getByLabel("Say it in one line").fill("14 tumblers Tomas Tue");
  expect(await page.getByRole("img", { name: "14 tumblers" }).locator("svg").count()).toBe(14);
  await page.getByRole("button", { name: "Add 14 tumblers" }).click();
  await saved();
  const { pieces } = await server.studio();
  expect(pieces.length).toBe(before + 14);
  const fresh = pieces.slice(before);
  expect(fresh.every((piece) => piece.shapeId === "tumbler" && piece.partyId === "tomas")).toBe(true);
  // A Tuesday, and one to come.
  expect(new Date(`${fresh[0].promised}T12:00:00Z`).getUTCDay()).toBe(2);
});

test("undo takes them back, naming what it takes back; redo brings them again", async () => {
  const all = (await server.studio()).pieces.length;
  await page.getByRole("button", { name: "Undo taking in of 14 tumblers" }).click();
  await saved();
  expect((await server.studio()).pieces.length).toBe(all - 14);
  await page.getByRole("button", { name: "Redo taking in of 14 tumblers" }).click();
  await saved();
  expect((await server.studio()).pieces.length).toBe(all);
});

test("a setting is proposed, with progress, and opens", async () => {
  await page.getByRole("button", { name: "Propose a setting" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByText("3 s", { exact: true }).click();
  await dialog.getByRole("button", { name: /^Propose with \d+ pieces$/ }).click();
  await page.getByRole("progressbar").waitFor();
  await page.getByRole("heading", { level: 1, name: /^Alder, glaze cone 06, low fire$/ }).waitFor({ timeout: 60_000 });
  const proposed = await setting();
  expect(proposed.kilnId).toBe("alder");
  expect(proposed.setting.pieces.length).toBeGreaterThan(25);
  await page.getByText(/It holds at least \d+\u202f% of what any setting could|No setting can hold more/).waitFor();
});

test("the forecast arrives by itself, and in full on request", async () => {
  const strip = page.getByRole("region", { name: "Forecast" });
  await strip.getByText("Quick forecast: a full one is surer.").waitFor({ timeout: 60_000 });
  for (const name of ["Coldest piece", "Hottest piece", "Spread", "Heating", "Power used"]) {
    await strip.getByText(name, { exact: true }).waitFor();
  }
  await strip.getByText("An estimate. The witness cones decide.").waitFor();
  await page.getByRole("button", { name: "Full forecast" }).click();
  await strip.getByRole("progressbar").waitFor();
  await strip.getByText("Full forecast.", { exact: true }).waitFor({ timeout: 110_000 });
});

/** The fullest shelf is brought up, and its pieces in number order with their places on the screen. */
async function onFullestShelf(): Promise<{ readonly ids: readonly string[]; readonly shelfId: string }> {
  const { setting: now } = await setting();
  const count = (id: string): number => now.pieces.filter((piece) => piece.shelfId === id).length;
  const shelves = [...now.shelves].sort((a, b) => a.z - b.z);
  const fullest = [...shelves].sort((a, b) => count(b.id) - count(a.id))[0];
  const number = shelves.indexOf(fullest) + 1;
  await page.getByRole("button", { name: new RegExp(`^Shelf ${number}\\b.*pieces`) }).click();
  await page.getByRole("heading", { name: `Shelf ${number} from above` }).waitFor();
  return {
    shelfId: fullest.id,
    ids: now.pieces.filter(({ shelfId }) => shelfId === fullest.id).map(({ pieceId }) => pieceId),
  };
}

const list = () => page.getByRole("listbox", { name: /from above/ });
const stops = () => page.getByRole("article").filter({ has: page.getByRole("img", { name: "Stop" }) });
/** Stops that a move made. */
const madeStops = () => stops().filter({ hasText: /stand in|apart|touch|from the|hangs|runs|too near/ });

/** Middle of a piece on the drawn plan by its number, in window coordinates. */
async function spotOf(number: number): Promise<{ readonly x: number; readonly y: number }> {
  const piece = page
    .locator(".plan-piece")
    .filter({ has: page.locator("text", { hasText: new RegExp(`^${number}$`) }) });
  const box = await piece.first().boundingBox();
  if (!box) throw new Error(`no. ${number} is not on the plan`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

const placeOf = (of: StudioSeen["settings"][number], id: string) =>
  of.setting.pieces.find(({ pieceId }) => pieceId === id)!;

/** Ids of the pieces that stand elsewhere than before. */
function movedBetween(
  before: StudioSeen["settings"][number],
  after: StudioSeen["settings"][number],
): readonly string[] {
  return after.setting.pieces
    .filter((piece) => JSON.stringify(piece) !== JSON.stringify(placeOf(before, piece.pieceId)))
    .map(({ pieceId }) => pieceId);
}

test("a piece moved by the keyboard stops at what is in the way, says so, and no rule is broken", async () => {
  await onFullestShelf();
  await list().focus();
  await page.keyboard.press("Home");
  expect(await list().getByRole("option", { selected: true }).textContent()).toMatch(/^No\.\s1,/);
  const before = await setting();
  for (let i = 0; i < 30; i += 1) await page.keyboard.press("Alt+ArrowLeft");
  await page
    .locator(".plan-stage")
    .getByText(/it needs|hang over|stand in|stands there/)
    .first()
    .waitFor();
  const after = await setting();
  expect(movedBetween(before, after).length).toBeLessThanOrEqual(1);
  expect(await madeStops().count()).toBe(0);
  while ((await page.getByRole("button", { name: /^Undo move of no/ }).count()) > 0)
    await page.keyboard.press("Control+z");
  expect(movedBetween(before, await setting())).toEqual([]);
});

test("moved freely by the keyboard into another piece, it is a stop that names both, at once; undo mends it", async () => {
  await onFullestShelf();
  await list().focus();
  await page.keyboard.press("Home");
  const before = await setting();
  const [own, other] = [await spotOf(1), await spotOf(2)];
  await page.getByText("Move freely").click();
  await list().focus();
  // One step tells how many pixels 25 mm are here; the window's y points down, the kiln's back is up.
  await page.keyboard.press("Alt+ArrowRight");
  const pixels = (await spotOf(1)).x - own.x;
  expect(pixels).toBeGreaterThan(5);
  const walk = async (distance: number, forward: string, back: string): Promise<void> => {
    const steps = Math.round(distance / pixels);
    for (let i = 0; i < Math.abs(steps); i += 1) await page.keyboard.press(steps > 0 ? forward : back);
  };
  await walk(other.x - own.x - pixels, "Alt+ArrowRight", "Alt+ArrowLeft");
  await walk(other.y - own.y, "Alt+ArrowDown", "Alt+ArrowUp");
  await madeStops().first().waitFor();
  const text = (await madeStops().allTextContents()).join(" ");
  expect(text).toMatch(/no\.\s1\)/);
  expect(text).toMatch(/stand in each other|apart|touch/);
  expect(movedBetween(before, await setting())).toHaveLength(1);
  await page.keyboard.press("Control+z");
  await expect.poll(() => madeStops().count()).toBe(0);
  expect(movedBetween(before, await setting())).toEqual([]);
});

test("dragged freely by the pointer into another piece, it is a stop too; its remedy mends it; undo takes both back", async () => {
  // Room on the shelf, so that there is a place to move to whatever was proposed.
  for (let crowd = await list().getByRole("option").count(); crowd > 3; crowd -= 1) {
    await list().focus();
    await page.keyboard.press("End");
    await page.keyboard.press("Delete");
    await expect.poll(() => list().getByRole("option").count()).toBe(crowd - 1);
  }
  const before = await setting();
  const [own, other] = [await spotOf(1), await spotOf(2)];
  await drag(own, other);
  await madeStops().first().waitFor();
  const moved = movedBetween(before, await setting());
  expect(moved).toHaveLength(1);
  const remedy = madeStops().getByRole("button", { name: /^(Move it|Take it out|Take them out)$/ });
  await remedy.first().click();
  await expect.poll(() => madeStops().count()).toBe(0);
  await page.keyboard.press("Control+z");
  await madeStops().first().waitFor();
  await page.getByRole("button", { name: /^Undo move of no\.\s\d+$/ }).click();
  await expect.poll(() => madeStops().count()).toBe(0);
  expect(movedBetween(before, await setting())).toEqual([]);
  await page.getByText("Move freely").click();
});

test("dragged with the rules on, it comes to lie beside what is in the way, never in it", async () => {
  const before = await setting();
  const [own, other] = [await spotOf(1), await spotOf(2)];
  await drag(own, other);
  await saved();
  expect(await madeStops().count()).toBe(0);
  const after = await setting();
  expect(movedBetween(before, after).length).toBeLessThanOrEqual(1);
  if (movedBetween(before, after).length > 0) await page.keyboard.press("Control+z");
  expect(movedBetween(before, await setting())).toEqual([]);
});

async function drag(from: { x: number; y: number }, to: { x: number; y: number }): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 4 });
  await page.mouse.move(to.x, to.y, { steps: 4 });
  await page.mouse.up();
}

test("the picked piece tells what it sees", async () => {
  await list().focus();
  await page.keyboard.press("Home");
  await page.getByRole("img", { name: /^What no\.\s1 sees:/ }).waitFor();
});

test("a piece taken out is back on the bench; the checks follow at once", async () => {
  const before = await setting();
  await list().focus();
  await page.keyboard.press("Home");
  await page.keyboard.press("Delete");
  expect((await setting()).setting.pieces.length).toBe(before.setting.pieces.length - 1);
  await page.getByText(/ready pieces? waits?/).waitFor();
  await page.getByRole("button", { name: /^Undo taking out of no\.\s1$/ }).click();
  expect((await setting()).setting.pieces).toEqual(before.setting.pieces);
});

test("the loader's sheet is a PDF, on A4 and Letter", async () => {
  const { id } = await setting();
  for (const [name, width, height] of [
    ["A4", 595, 842],
    ["Letter", 612, 792],
  ] as const) {
    await page.getByRole("button", { name: "Loader’s sheet" }).click();
    const opening = page.context().waitForEvent("page");
    await page.getByRole("menuitem", { name }).click();
    const sheet = await opening;
    expect(sheet.url()).toContain(`/api/settings/${id}/sheet.pdf?paper=${name.toLowerCase()}`);
    await sheet.close();
    const response = await fetch(`${server.address}api/settings/${id}/sheet.pdf?paper=${name.toLowerCase()}`);
    expect(response.headers.get("content-type")).toMatch(/application\/pdf/);
    const bytes = Buffer.from(await response.arrayBuffer());
    expect(bytes.subarray(0, 5).toString("latin1")).toBe("%PDF-");
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(bytes.toString("latin1"))!;
    expect(Math.round(Number(box[1]))).toBe(width);
    expect(Math.round(Number(box[2]))).toBe(height);
  }
});

test("nothing went wrong in the console on the way", () => {
  const folder = path.resolve(".cache/browser");
  mkdirSync(folder, { recursive: true });
  writeFileSync(path.join(folder, "console.txt"), watched.faults.join("\n"));
  expect(watched.faults).toEqual([]);
});
