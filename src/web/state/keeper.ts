import { emptyOutbox, rejoined, type Outbox, type WaitingEdit } from "./outbox.ts";

/**
 * Keeps what is not saved yet on this computer, so that neither a closed window nor a server that is off loses it.
 */
export interface Keeper {
  readonly keep: (outbox: Outbox) => void;
  /** What this window, or a window that is gone, could not save. Called once, when the page opens. */
  readonly left: () => Promise<Outbox>;
}

/** A keeper for tests and for browsers that keep nothing. */
export function forgetfulKeeper(): Keeper {
  return { keep: () => {}, left: () => Promise.resolve(emptyOutbox) };
}

const prefix = "spyhole-unsaved-";

interface KeptStorage {
  readonly length: number;
  key(index: number): string | null;
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

/**
 * Keeps unsaved work in the browser's local storage, an entry for each window.
 *
 * A window holds a lock named like its entry for as long as it lives: an entry whose lock is free belongs to a window
 * that is gone, and its work is taken over.
 */
export function storageKeeper(storage: KeptStorage, locks: LockManager | undefined, windowId: string): Keeper {
  const own = prefix + windowId;
  if (locks) void locks.request(own, () => new Promise<never>(() => {}));
  return {
    keep: (outbox) => {
      try {
        if (outbox.size === 0) storage.removeItem(own);
        else storage.setItem(own, JSON.stringify([...outbox.values()]));
      } catch {
        // Full or forbidden: the work is still in this window, and the top bar says that it is not saved.
      }
    },
    left: async () => {
      let found = emptyOutbox;
      for (const key of keysOf(storage)) {
        if (key !== own && !(await isFree(locks, key))) continue;
        found = rejoined(found, read(storage, key));
        storage.removeItem(key);
      }
      return found;
    },
  };
}

function keysOf(storage: KeptStorage): readonly string[] {
  const keys: string[] = [];
  for (let index = 0; index < storage.length; index += 1) {
    const key = storage.key(index);
    if (key?.startsWith(prefix)) keys.push(key);
  }
  return keys.sort();
}

/** Longest wait for the lock of a window that is just going [ms]: a reload starts before the old page is gone. */
const goingWithin = 400;

async function isFree(locks: LockManager | undefined, name: string): Promise<boolean> {
  if (!locks) return false;
  try {
    return await locks.request(name, { signal: AbortSignal.timeout(goingWithin) }, () => true);
  } catch {
    return false;
  }
}

function read(storage: KeptStorage, key: string): Outbox {
  try {
    const edits = JSON.parse(storage.getItem(key) ?? "[]") as WaitingEdit[];
    return new Map(edits.map((edit) => [`${edit.place}/${edit.id}`, edit]));
  } catch {
    return emptyOutbox;
  }
}
