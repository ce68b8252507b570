import type { StudioDocument } from "#records";
import { apiPaths, studioChangedSchema } from "#protocol";
import { recordAt, sameJson, withEdits, type Edit } from "./edits.ts";
import { emptyHistory, standsAsLeft, withStep, type History } from "./history.ts";
import type { Keeper } from "./keeper.ts";
import { changesOf, emptyOutbox, rebased, rejoined, withWaiting, type Outbox } from "./outbox.ts";
import { keepingIdentity, withSaved, withTheirs, type ServerCopy } from "./server-copy.ts";
import { jsonIn, type EventLine, type ServerDoor } from "./server-door.ts";
import type { ConflictQuestion, Saving, StudioStore, StudioView, UndoQuestion } from "./studio-view.ts";

export interface StoreOptions {
  readonly door: ServerDoor;
  readonly keeper: Keeper;
  /** Milliseconds on any clock that runs. */
  readonly now: () => number;
  /** Calls back later; returns how to call it off. */
  readonly later: (milliseconds: number, action: () => void) => () => void;
}

/** Pauses before asking the server again [ms]; the last one repeats. */
const pauses = [1000, 2000, 4000, 8000, 15_000, 30_000];

/**
 * The state machine of saving.
 *
 * `server` is the studio as the server last told; `sent` lies over it while a save is under way; `waiting` lies over
 * both. At most one save runs at a time. A record that waits is never overwritten by what others did: it is saved on
 * the revision it was made on, or asked about.
 */
export function studioStore({ door, keeper, now, later }: StoreOptions): StudioStore {
  const listeners = new Set<() => void>();
  let server: ServerCopy | null = null;
  let sent: Outbox = emptyOutbox;
  let waiting: Outbox = emptyOutbox;
  let history: History = emptyHistory;
  let phase: StudioView["phase"] = "opening";
  let failure: string | null = null;
  let saving: Saving = { kind: "saved" };
  let conflicts: readonly ConflictQuestion[] = [];
  let undoQuestion: UndoQuestion | null = null;
  let failures = 0;
  let stopWaiting: () => void = () => {};
  let line: EventLine | null = null;
  /** Highest revision heard of, and whether something happened that nobody told us of. */
  let heard = 0;
  let behind = false;
  let loading = false;
  /** Saves begun. */
  let saves = 0;
  let document: StudioDocument | null = null;
  let view: StudioView = compose();

  function compose(): StudioView {
    if (server) {
      const laid = withEdits(withEdits(server.document, sent.values()), waiting.values());
      document = document ? keepingIdentity(document, laid) : laid;
    }
    return {
      phase,
      failure,
      document,
      saving,
      unsaved: rejoined(sent, waiting).size,
      conflicts,
      undoQuestion,
      undoLabel: history.done.at(-1)?.label ?? null,
      redoLabel: history.undone.at(-1)?.label ?? null,
    };
  }

  function tell(): void {
    keeper.keep(rejoined(sent, waiting));
    view = compose();
    for (const listener of listeners) listener();
  }

  function retryLater(action: () => void): void {
    stopWaiting();
    stopWaiting = later(pauses[Math.min(failures, pauses.length - 1)], action);
    failures += 1;
  }

  const revisionOf = (edit: Pick<Edit, "place" | "id">): number | null =>
    server?.revisions[edit.place]?.[edit.id] ?? null;

  const settled = (): Saving => (waiting.size === 0 && sent.size === 0 ? { kind: "saved" } : { kind: "saving" });

  /** Asks about waiting records that someone else has changed meanwhile; if both say the same, there is no question. */
  function findConflicts(): void {
    if (!server) return;
    const found: ConflictQuestion[] = [];
    const next = new Map(waiting);
    for (const [key, edit] of waiting) {
      const revision = revisionOf(edit);
      if (edit.basedOn === revision) continue;
      const theirs = revision === null ? null : recordAt(server.document, edit.place, edit.id);
      if (sameJson(theirs, edit.record)) next.delete(key);
      else found.push({ key, place: edit.place, id: edit.id, mine: edit.record, theirs });
    }
    waiting = next;
    conflicts = found;
    if (found.length > 0) saving = { kind: "conflict" };
    else if (saving.kind === "conflict" || waiting.size === 0) saving = settled();
  }

  async function save(): Promise<void> {
    if (!server || sent.size > 0 || waiting.size === 0 || conflicts.length > 0) return;
    stopWaiting();
    saves += 1;
    sent = waiting;
    waiting = emptyOutbox;
    if (saving.kind !== "waiting") saving = { kind: "saving" };
    tell();
    const answer = await door.save(changesOf(sent));
    const tried = sent;
    sent = emptyOutbox;
    if (answer.kind === "done") {
      failures = 0;
      // Revisions grow by one a save: a gap is someone else's work.
      if (answer.done.revision !== server.revision + 1) behind = true;
      server = withSaved(server, tried, answer.done.revision, answer.done.revisions);
      waiting = rebased(waiting, tried, revisionOf);
      saving = settled();
    } else {
      waiting = rejoined(tried, waiting);
      if (answer.kind === "conflict") {
        server = withTheirs(server, answer.conflicts);
        behind = true;
        findConflicts();
      } else if (answer.kind === "refused") saving = { kind: "refused", refusal: answer.refusal };
      else {
        saving = { kind: "waiting", reason: answer.reason };
        retryLater(() => void save());
      }
    }
    tell();
    if (answer.kind === "done" || answer.kind === "conflict") {
      await catchUp();
      if (saving.kind === "saving") await save();
    }
  }

  /** Fetches the studio anew if others changed it. What waits here stays, and is asked about if it clashes. */
  async function catchUp(): Promise<void> {
    while (server && !loading && sent.size === 0 && (behind || heard > server.revision)) {
      const before = { saves, heard };
      loading = true;
      const answer = await door.load();
      loading = false;
      if (answer.kind !== "loaded") return;
      // A save that ran meanwhile makes this answer old: it is asked for again.
      if (saves !== before.saves) continue;
      behind = false;
      server = { ...answer.state, document: keepingIdentity(server.document, answer.state.document) };
      // A store that was put back to an older copy counts from there.
      if (heard === before.heard) heard = server.revision;
      findConflicts();
      tell();
    }
    if (waiting.size > 0 && (saving.kind === "saving" || saving.kind === "waiting")) await save();
  }

  function listen(): void {
    line?.close();
    // The first event comes at once on every connection: what was missed meanwhile shows in its revision.
    line = door.listen(apiPaths.changeEvents, ["changed"], {
      onEvent: (_name, data) => {
        heard = Math.max(heard, revisionIn(data) ?? 0);
        void catchUp();
      },
    });
  }

  async function open(): Promise<void> {
    stopWaiting();
    const answer = await door.load();
    if (answer.kind !== "loaded") {
      phase = "failed";
      failure = answer.reason;
      retryLater(() => void open());
      tell();
      return;
    }
    failures = 0;
    failure = null;
    server = answer.state;
    heard = server.revision;
    waiting = rejoined(await keeper.left(), waiting);
    phase = "open";
    findConflicts();
    listen();
    tell();
    await save();
  }

  function take(edits: readonly Edit[]): void {
    waiting = withWaiting(waiting, edits, revisionOf);
    if (conflicts.length > 0) findConflicts();
    else if (saving.kind !== "waiting" || waiting.size === 0) saving = settled();
    tell();
    void save();
  }

  function step(direction: "undo" | "redo", evenOverOthers: boolean): void {
    const last = (direction === "undo" ? history.done : history.undone).at(-1);
    if (!last || !view.document) return;
    if (!evenOverOthers && !standsAsLeft(view.document, direction === "undo" ? last.edits : last.back)) {
      undoQuestion = { label: last.label, direction };
      tell();
      return;
    }
    undoQuestion = null;
    const moved = { ...last, mergeKey: null };
    history =
      direction === "undo"
        ? { done: history.done.slice(0, -1), undone: [...history.undone, moved] }
        : { done: [...history.done, moved], undone: history.undone.slice(0, -1) };
    take(direction === "undo" ? last.back : last.edits);
  }

  return {
    view: () => view,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    open,
    close: () => {
      line?.close();
      line = null;
      stopWaiting();
    },
    change: (label, edits, mergeKey = null) => {
      if (!view.document || edits.length === 0) return;
      history = withStep(history, view.document, { label, edits, mergeKey, at: now() });
      take(edits);
    },
    undo: (evenOverOthers = false) => step("undo", evenOverOthers),
    redo: (evenOverOthers = false) => step("redo", evenOverOthers),
    keepStep: () => {
      undoQuestion = null;
      tell();
    },
    answer: (key, keep) => {
      const edit = waiting.get(key);
      if (!edit || !conflicts.some((each) => each.key === key)) return;
      const next = new Map(waiting);
      const basedOn = revisionOf(edit);
      if (keep === "theirs" || (edit.record === null && basedOn === null)) next.delete(key);
      else next.set(key, { ...edit, basedOn });
      waiting = next;
      findConflicts();
      tell();
      void save();
    },
    saveNow: () => void save(),
    discard: () => {
      waiting = emptyOutbox;
      conflicts = [];
      saving = settled();
      behind = true;
      tell();
      void catchUp();
    },
    look: (isLooking) => {
      if (!isLooking) {
        line?.close();
        line = null;
      } else if (server && !line) listen();
    },
  };
}

function revisionIn(data: string): number | null {
  const event = studioChangedSchema.safeParse(jsonIn(data));
  return event.success ? event.data.revision : null;
}
