/**
 * How long work talks to whoever started it: whether to stop, how far it is, how much time it has used.
 *
 * Pure rooms have no clock and no events of their own; the host passes this in.
 */
export interface RunControl {
  /** True once the user has asked to stop. Polled often; must be cheap. */
  readonly cancelled: () => boolean;
  /** Tells how far the work is: `fraction` in 0..1 and a few plain words for the user. */
  readonly progress: (fraction: number, words: string) => void;
  /** Time used since the work started [s]. CPU time where the host can tell, else wall time. */
  readonly elapsed: () => number;
}

/** Thrown out of deep loops when `RunControl.cancelled` turns true; caught by whoever started the work. */
export class Cancelled extends Error {
  constructor() {
    super("Stopped on request.");
    this.name = "Cancelled";
  }
}

/** A control for work that nobody watches: never cancelled, no progress, no time used. */
export const unattended: RunControl = {
  cancelled: () => false,
  progress: () => {},
  elapsed: () => 0,
};

export function stopIfCancelled(control: RunControl): void {
  if (control.cancelled()) throw new Cancelled();
}
