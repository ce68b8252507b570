/** Flags for a browser that talks to nothing but the page under test. */
export const chromiumArguments: readonly string[];
/** Path of an installed Chromium or Chrome. @throws Error saying what to do if there is none */
export function findChromium(): string;
