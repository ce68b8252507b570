import type { Outcome, RunControl } from "#base";
import { historyCase, solveEnclosure, solveLumped } from "#work/cases";
import type { Fields } from "./case-fields.ts";

/** Temperatures in a lumped enclosure of grey surfaces, in the format of `lumped-*.json`. */
export function lumped(file: Fields): Outcome<object, string> {
  const power = pairs(file, "wall_power_W");
  const last = power.at(-1)?.[0] ?? 0;
  return solveLumped({
    surfaces: file.texts("surfaces"),
    emissivity: file.numbers("emissivity"),
    heat_capacity_J_K: file.numbers("heat_capacity_J_K"),
    loss_W_m2K: file.numbers("loss_W_m2K"),
    wall_power_W: power,
    T0: file.number("T0"),
    T_ambient: file.number("T_ambient"),
    F: file.rows("F"),
    A: file.numbers("A"),
    // A file that names no times is answered every ten minutes.
    t_s: file.has("t_s") ? file.numbers("t_s") : Array.from({ length: Math.floor(last / 600) + 1 }, (_, i) => 600 * i),
  });
}

/** Temperatures at the probes of a heated cylinder, in the format of `enclosure-*.json`. */
export function enclosure(file: Fields, control: RunControl): Outcome<object, string> {
  const { fields } = file;
  const room = fields("enclosure");
  const band = fields("band");
  return solveEnclosure(
    {
      enclosure: { R: room.number("R"), H: room.number("H"), t: room.number("t") },
      band: { z0: band.number("z0"), z1: band.number("z1"), emissivity: band.number("emissivity") },
      wall: matter(fields("wall")),
      shelf: disc(fields("shelf")),
      piece: disc(fields("piece")),
      T0: file.number("T0"),
      band_T: pairs(file, "band_T"),
      t_end: file.number("t_end"),
    },
    control,
  );
}

/** Cones of a temperature history, CSV with columns `t_s,temp_c`. */
export function history(text: string): Outcome<object, string> {
  return historyCase(text);
}

function pairs(file: Fields, name: string): readonly (readonly [number, number])[] {
  return file.rows(name, 2) as readonly (readonly [number, number])[];
}

function matter(part: Fields) {
  return {
    k: part.number("k"),
    rho: part.number("rho"),
    cp: part.number("cp"),
    emissivity: part.number("emissivity"),
  };
}

function disc(part: Fields) {
  return { ...matter(part), r: part.number("r"), z0: part.number("z0"), z1: part.number("z1") };
}
