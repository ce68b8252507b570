import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser, openPage } from "./browser.ts";
import { TestServer } from "./server.ts";

/* Two windows, a server that dies, a page that is closed too early: nothing is lost and nothing is overwritten. */
const server = new TestServer();
let browser: Browser;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server.stop();
});

const count = async (): Promise<number> => (await server.studio()).pieces.length;

test("another window's change arrives by itself", async () => {
  const first = await openPage(browser, server.address);
  const second = await first.context.newPage();
  await second.goto(server.address);
  await second.getByRole("heading", { level: 1 }).waitFor();
  const before = await count();
  await first.page.bringToFront();
  await first.page.getByLabel("Say it in one line").fill("3 mugs Zora Fri");
  await first.page.getByRole("button", { name: "Add 3 mugs" }).click();
  await first.page.getByText("Saved on this computer").waitFor();
  await second.getByRole("heading", { level: 1, name: `${before + 3} pieces wait` }).waitFor();
  await first.context.close();
});

test("the same piece changed in two windows: both versions are shown, the choice is the user's", async () => {
  const first = await openPage(browser, server.address);
  const second = await openPage(browser, server.address);
  for (const { page } of [first, second]) await page.getByRole("button", { name: "mug: open 3 mugs, Zora" }).click();
  // The second window does not hear of the first one's change before it saves its own.
  await second.page.route("**/api/studio", (route) => route.abort());
  await first.page.getByRole("textbox", { name: "Note" }).fill("blue");
  await first.page.getByRole("button", { name: "Done" }).click();
  await first.page.getByText("Saved on this computer").waitFor();
  await second.page.getByRole("textbox", { name: "Note" }).fill("green");
  await second.page.getByRole("button", { name: "Done" }).click();
  const question = second.page.getByRole("alertdialog", { name: "Changed in two places" });
  await question.waitFor();
  const notes = async (): Promise<readonly string[]> =>
    ((await server.studio()).pieces as unknown as { partyId: string; note: string }[])
      .filter(({ partyId }) => partyId === "zora")
      .map(({ note }) => note);
  expect(await notes()).toEqual(["blue", "blue", "blue"]);
  expect(await question.textContent()).toMatch(/Note: green.*Note: blue/s);
  await second.page.unroute("**/api/studio");
  await question.getByText("The same for the 2 others").waitFor();
  await question.getByRole("button", { name: "Keep mine" }).click();
  await second.page.getByText("Saved on this computer").waitFor();
  expect(await notes()).toEqual(["green", "green", "green"]);
  await first.context.close();
  await second.context.close();
});

test("the server dies while work goes on: it is said, kept, and saved when the server is back", async () => {
  const { page, context } = await openPage(browser, server.address);
  const before = await count();
  await server.kill();
  await page.getByLabel("Say it in one line").fill("5 vases Mei Fri");
  await page.getByRole("button", { name: "Add 5 vases" }).click();
  await page.getByRole("button", { name: /Not saved/ }).waitFor();
  await page.getByRole("heading", { level: 1, name: `${before + 5} pieces wait` }).waitFor();
  await page.getByRole("button", { name: /Not saved/ }).click();
  await page
    .getByRole("dialog")
    .getByText(/kept on this computer/)
    .waitFor();
  await page.keyboard.press("Escape");
  await server.start();
  await page.getByText("Saved on this computer").waitFor({ timeout: 40_000 });
  expect(await count()).toBe(before + 5);
  await context.close();
});

test("a window closed before it could save: the next one finds the work and saves it", async () => {
  const { page, context } = await openPage(browser, server.address);
  const before = await count();
  await page.route("**/api/changes", (route) => route.abort());
  await page.getByLabel("Say it in one line").fill("2 banks Mei Fri");
  await page.getByRole("button", { name: "Add 2 banks" }).click();
  await page.getByRole("button", { name: /Not saved/ }).waitFor();
  await page.close();
  expect(await count()).toBe(before);
  const again = await context.newPage();
  await again.goto(server.address);
  await again.getByRole("heading", { level: 1, name: `${before + 2} pieces wait` }).waitFor();
  await again.getByText("Saved on this computer").waitFor();
  expect(await count()).toBe(before + 2);
  await context.close();
});

test("without a server the page says so and opens by itself later", async () => {
  const { page, context } = await openPage(browser, server.address);
  await page.route("**/api/studio", (route) => route.abort());
  await page.reload();
  await page.getByRole("heading", { name: "The studio does not open" }).waitFor();
  await page.unroute("**/api/studio");
  await page.getByRole("heading", { level: 1, name: /pieces wait/ }).waitFor({ timeout: 30_000 });
  await context.close();
});
