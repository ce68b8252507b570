import { writeFileSync } from "node:fs";
import path from "node:path";
import { register } from "../verification/register.ts";
import { reportPage, runRegister } from "../verification/report.ts";
import { root } from "./rooms.ts";

const results = await runRegister(register);
writeFileSync(path.join(root, "docs/reference/verification.md"), reportPage(results));
const failed = results.filter((each) => !each.passed);
for (const { check, verified } of failed) {
  process.stdout.write(
    `${check.id}: ${verified.computed} against ${verified.reference} ± ${verified.tolerance} ${verified.unit}\n`,
  );
}
process.stdout.write(
  `${results.length - failed.length} of ${results.length} cases pass; docs/reference/verification.md is written\n`,
);
process.exitCode = failed.length === 0 ? 0 : 1;
