import type { Host } from "./command.ts";

export interface Progress {
  readonly tell: (fraction: number, words: string) => void;
  /** Takes the line away again. */
  readonly clear: () => void;
}

/** Work shorter than this shows no progress [ms]. */
const silence = 1000;
/** In a log, one line this often [ms]. */
const logEvery = 5000;

/** Progress on stderr: one line rewritten on a screen, a line now and then in a log. */
export function progressOn({ err, isScreen }: Pick<Host, "err" | "isScreen">): Progress {
  const began = performance.now();
  let told = Number.NEGATIVE_INFINITY;
  let shown = 0;
  return {
    tell: (fraction, words) => {
      const now = performance.now();
      if (now - began < silence || (!isScreen && now - told < logEvery)) return;
      told = now;
      const line = `${String(Math.round(fraction * 100)).padStart(3)} %  ${words}`;
      err(isScreen ? `\r${line.padEnd(shown)}` : `${line}\n`);
      shown = line.length;
    },
    clear: () => {
      if (isScreen && shown > 0) err(`\r${" ".repeat(shown)}\r`);
      shown = 0;
    },
  };
}
