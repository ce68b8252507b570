import type { VerificationCase, Verified } from "./verification-case.ts";

export interface Result {
  readonly group: string;
  readonly check: VerificationCase;
  readonly verified: Verified;
  readonly passed: boolean;
}

/** Runs every case of every group in order. */
export async function runRegister(
  register: Readonly<Record<string, readonly VerificationCase[]>>,
): Promise<readonly Result[]> {
  const results: Result[] = [];
  for (const [group, cases] of Object.entries(register)) {
    for (const check of cases) {
      const verified = await check.run();
      results.push({ group, check, verified, passed: passes(verified) });
    }
  }
  return results;
}

/** NaN never passes. */
export function passes({ computed, reference, tolerance }: Verified): boolean {
  return Math.abs(computed - reference) <= tolerance;
}

const figure = (value: number): string =>
  value === 0
    ? "0"
    : Math.abs(value) >= 1e-3 && Math.abs(value) < 1e6
      ? String(Number(value.toPrecision(6)))
      : value.toExponential(2);

/** The report page, Markdown. */
export function reportPage(results: readonly Result[]): string {
  const lines = [
    "# Verification: are the equations solved right?",
    "",
    "Written by `npm run verify` from `verification/register.ts`; the tests run the same cases. Each row compares what the engine computes with an answer from outside the project. Keys in brackets are listed in `docs/references.json`.",
    "",
    `${results.filter((each) => each.passed).length} of ${results.length} cases pass.`,
  ];
  for (const group of new Set(results.map((each) => each.group))) {
    lines.push(
      "",
      `## ${group}`,
      "",
      "| Case | Quantity | Computed | Reference | Difference | Allowed | Unit | Source |",
      "|---|---|---:|---:|---:|---:|---|---|",
    );
    for (const { check, verified, passed } of results.filter((each) => each.group === group)) {
      const { computed, reference, tolerance, unit } = verified;
      const difference = figure(computed - reference);
      lines.push(
        `| \`${check.id}\`${passed ? "" : " **fails**"} | ${check.quantity} | ${figure(computed)} | ${figure(reference)} | ${difference} | ${figure(tolerance)} | ${unit} | ${check.source} |`,
      );
    }
  }
  return `${lines.join("\n")}\n`;
}
