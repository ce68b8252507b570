import { spawnSync } from "node:child_process";
import { accessSync, constants } from "node:fs";
import path from "node:path";

/** Usual names on the search path, and places where installers put it. */
const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge"];
const places = [
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
];

/** No contact with anything but the page under test, and no rights it does not need. */
export const chromiumArguments = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

function canRun(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function installed() {
  const given = process.env.SPYHOLE_CHROMIUM;
  if (given) {
    if (canRun(given)) return given;
    throw new Error(`SPYHOLE_CHROMIUM is "${given}", which cannot be run. Name a Chromium or Chrome.`);
  }
  const folders = (process.env.PATH ?? "").split(path.delimiter).filter(Boolean);
  const onPath = names.flatMap((name) => folders.map((folder) => path.join(folder, name)));
  return [...onPath, ...places].find(canRun) ?? null;
}

/**
 * The Chromium or Chrome of this machine. As root on Debian, Debian's is installed if there is none.
 *
 * Throws with what to do where none can be had: a browser test is never skipped.
 */
export function findChromium() {
  const found = installed();
  if (found) return found;
  if (process.getuid?.() === 0 && canRun("/usr/bin/apt-get")) {
    process.stderr.write("No Chromium here: installing Debian's.\n");
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    for (const args of [["update"], ["install", "--yes", "--no-install-recommends", "chromium"]]) {
      const done = spawnSync("/usr/bin/apt-get", args, { stdio: ["ignore", "inherit", "inherit"], env });
      if (done.status !== 0)
        throw new Error(`apt-get ${args.join(" ")} failed. Install Chromium by hand, then run again.`);
    }
    const fresh = installed();
    if (fresh) return fresh;
  }
  throw new Error(
    "The browser tests need Chromium or Chrome and found none. Install one (on Debian: apt-get install chromium), " +
      "or name it: SPYHOLE_CHROMIUM=/path/to/chrome npm test",
  );
}
