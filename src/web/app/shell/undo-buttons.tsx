import type { ReactNode } from "react";
import { usePageState, useStudioView } from "#web/state";
import { Button, useAnnounce } from "#web/ui";

/** Undo and redo, each naming what it will do. */
export function UndoButtons({ hideIdle = false }: { readonly hideIdle?: boolean }): ReactNode {
  const { studio } = usePageState();
  const { undoLabel, redoLabel } = useStudioView();
  const announce = useAnnounce();
  // On a screen with nothing else to do they would only puzzle.
  if (hideIdle && undoLabel === null && redoLabel === null) return null;
  const undo = undoLabel === null ? "Undo: nothing to take back" : `Undo ${undoLabel}`;
  const redo = redoLabel === null ? "Redo: nothing to do again" : `Redo ${redoLabel}`;
  return (
    <>
      <span className="app-undo" title={undo}>
        <Button
          variant="quiet"
          icon="undo"
          label={undo}
          isDisabled={undoLabel === null}
          onPress={() => {
            studio.undo();
            announce(`Taken back: ${undoLabel}`);
          }}
        />
        {undoLabel === null ? null : (
          <span className="app-undo-label small muted" aria-hidden="true">
            {undo}
          </span>
        )}
      </span>
      <span title={redo}>
        <Button
          variant="quiet"
          icon="redo"
          label={redo}
          isDisabled={redoLabel === null}
          onPress={() => {
            studio.redo();
            announce(`Done again: ${redoLabel}`);
          }}
        />
      </span>
    </>
  );
}
