import type { Refusal } from "#protocol";
import type { StudioDocument } from "#records";
import type { Edit, Place, SavedRecord } from "./edits.ts";

/** How far saving is. */
export type Saving =
  | { readonly kind: "saved" }
  | { readonly kind: "saving" }
  /** Kept in this window and tried again. */
  | { readonly kind: "waiting"; readonly reason: string }
  /** The server will not take it as it is. */
  | { readonly kind: "refused"; readonly refusal: Refusal }
  /** Waits for answers to `StudioView.conflicts`. */
  | { readonly kind: "conflict" };

/** Changed here and somewhere else: both versions, to choose from. Null is a removed record. */
export interface ConflictQuestion {
  readonly key: string;
  readonly place: Place;
  readonly id: string;
  readonly mine: SavedRecord | null;
  readonly theirs: SavedRecord | null;
}

/** Taking this step back would also take back what someone else did to the same record since. */
export interface UndoQuestion {
  readonly label: string;
  readonly direction: "undo" | "redo";
}

/** The studio as one screen shows it. */
export interface StudioView {
  readonly phase: "opening" | "open" | "failed";
  /** Why it could not be opened. */
  readonly failure: string | null;
  /** As it stands on this screen, saved or not; null until it is open. */
  readonly document: StudioDocument | null;
  readonly saving: Saving;
  /** Records with work that is not saved yet. */
  readonly unsaved: number;
  readonly conflicts: readonly ConflictQuestion[];
  readonly undoQuestion: UndoQuestion | null;
  /** What undo and redo would take back or do again; null if there is nothing. */
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
}

/** The one state of the page: the studio, saved as it changes, with a way back from every change. */
export interface StudioStore {
  readonly view: () => StudioView;
  readonly subscribe: (listener: () => void) => () => void;
  /** Loads the studio and starts to listen for changes by others. Tries again by itself after a failure. */
  readonly open: () => Promise<void>;
  readonly close: () => void;
  /** Makes the edits at once, remembers how to take them back, and saves. `label` names them after "Undo". */
  readonly change: (label: string, edits: readonly Edit[], mergeKey?: string | null) => void;
  readonly undo: (evenOverOthers?: boolean) => void;
  readonly redo: (evenOverOthers?: boolean) => void;
  /** Leaves the step as it is: the answer "no" to `undoQuestion`. */
  readonly keepStep: () => void;
  readonly answer: (key: string, keep: "mine" | "theirs") => void;
  /** Tries to save now. */
  readonly saveNow: () => void;
  /** Gives up what is not saved. */
  readonly discard: () => void;
  /** Stops listening while nobody looks, and catches up afterwards. */
  readonly look: (isLooking: boolean) => void;
}
