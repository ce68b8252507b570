import { unattended, type RunControl } from "#base";
import type { Load } from "#engine/kiln";
import { createHighsSolver } from "#solvers";
import { demoStudio, loadOf, propose } from "#work";

/** The demo studio's glaze class as proposed for its round kiln: the load the figures are about. */
export async function demoLoad(): Promise<Load> {
  const studio = demoStudio("2026-03-02", 1);
  const began = process.cpuUsage();
  const used = (): number => {
    const { user, system } = process.cpuUsage(began);
    return (user + system) / 1e6;
  };
  const control: RunControl = { ...unattended, elapsed: used };
  const request = { kilnId: "alder", classId: "glaze-06", day: "2026-03-02", settingId: null, seconds: 30, seed: 1 };
  const made = propose(studio, { ...request, steps: 20_000 }, await createHighsSolver(), control);
  if (!made.ok) throw new Error(made.failure.error);
  return loadOf({ ...studio, settings: [made.value] }, made.value);
}
