import { mkdirSync } from "node:fs";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { axeViolations, openBrowser, openPage, sizes, type SizeName } from "./browser.ts";
import { TestServer } from "./server.ts";

/*
 * Every screen at three sizes in both themes: axe-core has nothing against it, nothing is wider than the window, the
 * console is silent, and a picture is kept in .cache/browser to be looked at.
 */
const folder = path.resolve(".cache/browser");
const server = new TestServer();
let browser: Browser;

beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  await server.start();
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server.stop();
});

const themes = ["light", "dark"] as const;

interface Screen {
  readonly name: string;
  readonly address: string;
  /** Brings the screen up; where left out it is there at once. */
  readonly reach?: (page: Page, size: SizeName) => Promise<void>;
}

async function proposeOver(page: Page): Promise<void> {
  await page.goto(`${server.address}#/setting`);
  await page.getByRole("button", { name: /^Propose for Alder$/ }).click();
  await page.getByRole("dialog").getByText("3 s", { exact: true }).click();
  await page.getByRole("button", { name: /^Propose with/ }).click();
  await page
    .getByRole("region", { name: "Forecast" })
    .getByText(/^Quick forecast: a full/)
    .waitFor({ timeout: 90_000 });
}

async function forecastThere(page: Page): Promise<void> {
  await page.getByText(/^Quick forecast: a full/).waitFor({ timeout: 60_000 });
}

/** Before anything is proposed. */
const early: readonly Screen[] = [
  { name: "0-empty-setting", address: "#/setting" },
  { name: "0-gone", address: "#/setting/never-was" },
];

const screens: readonly Screen[] = [
  {
    name: "1-setting",
    address: "#/setting",
    reach: async (page) => {
      await forecastThere(page);
      // A shelf with many pieces and a picked one show most.
      const shelf = page.getByRole("button", { name: /^Shelf 3\b/ });
      if ((await shelf.count()) > 0) await shelf.first().click();
      await page.getByRole("listbox", { name: /from above/ }).focus();
      await page.keyboard.press("Home");
      await page.getByRole("img", { name: /^What no\.\s1 sees/ }).waitFor();
    },
  },
  {
    name: "1-setting-stop",
    address: "#/setting",
    reach: async (page, size) => {
      await forecastThere(page);
      if (size === "phone") return;
      const shelf = page.getByRole("button", { name: /^Shelf 3\b/ });
      if ((await shelf.count()) > 0) await shelf.first().click();
      await page.getByRole("listbox", { name: /from above/ }).focus();
      await page.keyboard.press("Home");
      await page.getByText("Move freely").click();
      await page.getByRole("listbox", { name: /from above/ }).focus();
      for (let i = 0; i < 2; i += 1) await page.keyboard.press("Alt+ArrowLeft");
      await page.getByRole("img", { name: "Stop" }).first().waitFor();
      const show = page.getByRole("button", { name: /^Show: / }).first();
      await show.click();
      await forecastThere(page);
    },
  },
  {
    name: "1-setting-sure",
    address: "#/setting",
    reach: async (page) => {
      await forecastThere(page);
      await page.getByRole("button", { name: "How sure is this?" }).click();
      await page.getByRole("dialog").waitFor();
    },
  },
  {
    name: "1-setting-start",
    address: "#/setting",
    reach: async (page) => {
      await forecastThere(page);
      await page.getByRole("button", { name: "Change start or schedule" }).click();
      await page.getByRole("dialog").waitFor();
    },
  },
  {
    name: "2-bench",
    address: "#/bench",
    reach: async (page, size) => {
      if (size === "phone") {
        await page.getByLabel(/Find a piece/).fill("Ivy mugs");
        await page.getByText("Ready to hand out").first().waitFor();
        return;
      }
      await page.getByLabel("Say it in one line").fill("14 tumblers Tomas Tue");
      await page.getByRole("img", { name: "14 tumblers" }).waitFor();
    },
  },
  {
    name: "2-bench-propose",
    address: "#/bench",
    reach: async (page, size) => {
      const name = size === "phone" ? "Take in pieces" : "Propose a setting";
      await page.getByRole("button", { name }).click();
      await page.getByRole("dialog").waitFor();
    },
  },
];

async function look(screen: Screen, size: SizeName, theme: "light" | "dark"): Promise<void> {
  const { page, context, faults } = await openPage(browser, `${server.address}${screen.address}`, size, theme);
  try {
    await screen.reach?.(page, size);
    await page.waitForTimeout(150);
    await page.screenshot({ path: path.join(folder, `${screen.name}-${size}-${theme}.png`) });
    expect(await axeViolations(page), "axe-core").toEqual([]);
    const wide = (await page.evaluate("document.documentElement.scrollWidth")) as number;
    expect(wide, "nothing is wider than the window").toBeLessThanOrEqual(sizes[size].width);
    expect(faults, "the console").toEqual([]);
  } finally {
    await context.close();
    await undoAll();
  }
}

/** Steps of one picture must not show in the next: the store is put back to how it was after the proposal. */
async function undoAll(): Promise<void> {
  if (!kept) return;
  const response = await fetch(`${server.address}api/import`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: kept,
  });
  expect(response.ok).toBe(true);
}
let kept: string | null = null;

const everySize = Object.keys(sizes) as SizeName[];

describe.each(everySize)("before the first setting, %s", (size) => {
  test.each(themes)("%s", async (theme) => {
    for (const screen of early) await look(screen, size, theme);
  });
});

describe("with a setting", () => {
  beforeAll(async () => {
    const { page, context } = await openPage(browser, server.address);
    await proposeOver(page);
    kept = JSON.stringify((await (await fetch(`${server.address}api/export`)).json()) as unknown);
    await context.close();
  });

  describe.each(everySize)("%s", (size) => {
    describe.each(themes)("%s", (theme) => {
      test.each(screens)("$name", (screen) => look(screen, size, theme));
    });
  });

  describe("small windows and large text", () => {
    // 320 px wide is what WCAG 2.2, 1.4.10 asks for; 720 x 450 is a desk's window at 200 %.
    test.each([
      [320, 640],
      [720, 450],
      [1200, 720],
    ])("nothing is cut off at %d x %d", async (width, height) => {
      const { page, context, faults } = await openPage(browser, server.address);
      await page.setViewportSize({ width, height });
      for (const address of ["#/bench", "#/setting"]) {
        await page.goto(`${server.address}${address}`);
        await page.getByRole("heading", { level: 1 }).first().waitFor({ state: "attached" });
        if (address === "#/setting") await forecastThere(page);
        await page.waitForTimeout(150);
        await page.screenshot({ path: path.join(folder, `3-reflow-${address.slice(2)}-${width}.png`), fullPage: true });
        expect((await page.evaluate("document.documentElement.scrollWidth")) as number, address).toBeLessThanOrEqual(
          width,
        );
        const wide = (await page.evaluate(`document.querySelector("main").scrollWidth`)) as number;
        expect(wide, address).toBeLessThanOrEqual(width);
      }
      expect(faults).toEqual([]);
      await context.close();
    });

    test("in the reader's own colours axe-core has nothing against it either", async () => {
      const { page, context } = await openPage(browser, server.address);
      await page.emulateMedia({ forcedColors: "active" });
      for (const address of ["#/bench", "#/setting"]) {
        await page.goto(`${server.address}${address}`);
        if (address === "#/setting") await forecastThere(page);
        await page.screenshot({ path: path.join(folder, `3-forced-${address.slice(2)}.png`) });
        expect(await axeViolations(page)).toEqual([]);
      }
      await context.close();
    });
  });
});
