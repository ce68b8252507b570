import type { StudioStore } from "#store";

/** Tells listeners the studio's revision whenever it has grown, whoever changed it. */
export interface ChangeFeed {
  /** Hears the present revision at once. Returns how to stop listening. */
  readonly listen: (listener: (revision: number) => void) => () => void;
  /** A change was made here: no need to wait for the next look. */
  readonly changed: (revision: number) => void;
  readonly close: () => void;
}

/** How often the store is looked at for changes by other programs, while anyone listens [ms]. */
const lookEvery = 1000;

export function changeFeed(store: StudioStore): ChangeFeed {
  const listeners = new Set<(revision: number) => void>();
  let known = -1;
  let timer: NodeJS.Timeout | null = null;

  function changed(revision: number): void {
    if (revision <= known) return;
    known = revision;
    for (const listener of listeners) listener(revision);
  }

  async function look(): Promise<void> {
    try {
      changed(await store.revision());
    } catch {
      // The store says why at the next request; here there is nobody to tell.
    }
  }

  return {
    listen: (listener) => {
      listeners.add(listener);
      timer ??= setInterval(() => void look(), lookEvery).unref();
      if (known >= 0) listener(known);
      void look();
      return () => {
        listeners.delete(listener);
        if (listeners.size > 0 || timer === null) return;
        clearInterval(timer);
        timer = null;
      };
    },
    changed,
    close: () => {
      listeners.clear();
      if (timer) clearInterval(timer);
    },
  };
}
