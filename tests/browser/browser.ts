import axe from "axe-core";
import { chromium, type Browser, type BrowserContext, type Page } from "playwright-core";
import { chromiumArguments, findChromium } from "../../tools/chromium.mjs";

/** The sizes every screen is looked at. */
export const sizes = {
  desk: { width: 1440, height: 900 },
  tablet: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
} as const;
export type SizeName = keyof typeof sizes;

export async function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: findChromium(), args: [...chromiumArguments] });
}

/** A page that remembers everything that went wrong in it: console errors, refused policies, thrown mistakes. */
export interface WatchedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly faults: string[];
}

export async function openPage(
  browser: Browser,
  address: string,
  size: SizeName = "desk",
  theme: "light" | "dark" = "light",
): Promise<WatchedPage> {
  const context = await browser.newContext({
    viewport: sizes[size],
    colorScheme: theme,
    reducedMotion: "reduce",
    hasTouch: size !== "desk",
    locale: "en-GB",
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(`${message.type()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => faults.push(`thrown: ${error.message}`));
  await page.goto(address);
  await page.getByRole("heading", { level: 1 }).first().waitFor({ state: "attached" });
  return { page, context, faults };
}

/** What axe-core has against the page as it stands: rule, why, and where. */
export async function axeViolations(page: Page): Promise<readonly string[]> {
  // By the debugger, since the page's own policy lets no foreign script in.
  await page.evaluate(axe.source);
  const options = { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] };
  const result = (await page.evaluate(`axe.run(document, ${JSON.stringify(options)})`)) as axe.AxeResults;
  return result.violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help}: ${String(node.target)} ${node.failureSummary ?? ""}`),
  );
}
