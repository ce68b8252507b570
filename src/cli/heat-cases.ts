import type { Outcome, RunControl } from "#base";
import { solveEnclosure, solveLumped, type CaseReader } from "#work/cases";

/** Temperatures in a lumped enclosure of grey surfaces, in the format of `lumped-*.json`. */
export function lumped(file: CaseReader): Outcome<object, string> {
  const power = pairs(file.at("wall_power_W"));
  const last = power.at(-1)![0];
  return solveLumped({
    surfaces: file
      .at("surfaces")
      .list(1)
      .map((each) => String(each.id())),
    emissivity: numbers(file.at("emissivity")),
    heat_capacity_J_K: numbers(file.at("heat_capacity_J_K")),
    loss_W_m2K: numbers(file.at("loss_W_m2K")),
    wall_power_W: power,
    T0: file.at("T0").number(0),
    T_ambient: file.at("T_ambient").number(0),
    F: file.at("F").list(1).map(numbers),
    A: numbers(file.at("A")),
    // A file that names no times is answered every ten minutes.
    t_s: file.has("t_s")
      ? numbers(file.at("t_s"))
      : Array.from({ length: Math.floor(last / 600) + 1 }, (_, i) => 600 * i),
  });
}

/** Temperatures at the probes of a heated cylinder, in the format of `enclosure-*.json`. */
export function enclosure(file: CaseReader, control: RunControl): Outcome<object, string> {
  const room = file.at("enclosure");
  const band = file.at("band");
  return solveEnclosure(
    {
      enclosure: { R: room.at("R").positive(), H: room.at("H").positive(), t: room.at("t").positive() },
      band: {
        z0: band.at("z0").number(0),
        z1: band.at("z1").positive(),
        emissivity: band.at("emissivity").number(0, 1),
      },
      wall: matter(file.at("wall")),
      shelf: disc(file.at("shelf")),
      piece: disc(file.at("piece")),
      T0: file.at("T0").positive(),
      band_T: pairs(file.at("band_T")),
      t_end: file.at("t_end").positive(),
    },
    control,
  );
}

function numbers(list: CaseReader): readonly number[] {
  return list.list(1).map((each) => each.number(-Infinity));
}

/** Points of a polyline, time by value. */
function pairs(list: CaseReader): readonly (readonly [number, number])[] {
  return list.list(1).map((pair) => {
    const [time, value] = pair.list(2);
    return [time.number(0), value.number(-Infinity)] as const;
  });
}

function matter(part: CaseReader) {
  return {
    k: part.at("k").positive(),
    rho: part.at("rho").positive(),
    cp: part.at("cp").positive(),
    emissivity: part.at("emissivity").number(0, 1),
  };
}

function disc(part: CaseReader) {
  return {
    ...matter(part),
    r: part.at("r").positive(),
    z0: part.at("z0").number(0),
    z1: part.at("z1").positive(),
  };
}
