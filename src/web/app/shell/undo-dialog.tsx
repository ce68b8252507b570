import type { ReactNode } from "react";
import { usePageState, useStudioView } from "#web/state";
import { Button, Dialog } from "#web/ui";

/** Asked when a step would also take back what another screen did to the same record since. */
export function UndoDialog(): ReactNode {
  const { studio } = usePageState();
  const { undoQuestion } = useStudioView();
  const verb = undoQuestion?.direction === "redo" ? "Redo" : "Undo";
  return (
    <Dialog
      isOpen={undoQuestion !== null}
      onClose={() => studio.keepStep()}
      title={`${verb} ${undoQuestion?.label ?? ""}?`}
      actions={
        <>
          <Button
            onPress={() => {
              if (undoQuestion?.direction === "redo") studio.redo(true);
              else studio.undo(true);
            }}
          >
            {verb} it all the same
          </Button>
          <Button variant="primary" onPress={() => studio.keepStep()}>
            Leave it as it is
          </Button>
        </>
      }
    >
      <p>It was changed on another screen since. To {verb.toLowerCase()} your step would take that change back too.</p>
    </Dialog>
  );
}
