import { useState, type ReactNode } from "react";
import { usePageState, useStudioView } from "#web/state";
import { BarState, Button, Dialog } from "#web/ui";

/** "Saved on this computer", or what keeps the work from being saved and what to do. */
export function SavingState(): ReactNode {
  const { saving, unsaved } = useStudioView();
  const { studio } = usePageState();
  const [isOpen, setOpen] = useState(false);
  const records = unsaved === 1 ? "1 change waits" : `${unsaved} changes wait`;
  switch (saving.kind) {
    case "saved":
      return (
        <span role="status">
          <BarState icon="check">
            <span>
              Saved<span className="app-wide"> on this computer</span>
            </span>
          </BarState>
        </span>
      );
    case "saving":
      return (
        <span role="status">
          <BarState icon="save">Saving</BarState>
        </span>
      );
    case "conflict":
      return (
        <span role="status">
          <BarState icon="save" strong>
            Not saved: changed in two places
          </BarState>
        </span>
      );
    case "waiting":
    case "refused":
      return (
        <>
          <span role="status">
            <Button size="small" icon="save" onPress={() => setOpen(true)}>
              <span>
                Not saved<span className="app-wide">{saving.kind === "waiting" ? ": no answer" : ": see why"}</span>
              </span>
            </Button>
          </span>
          <Dialog
            isOpen={isOpen}
            onClose={() => setOpen(false)}
            title="Not saved yet"
            actions={
              <>
                {saving.kind === "refused" ? (
                  <Button
                    onPress={() => {
                      studio.discard();
                      setOpen(false);
                    }}
                  >
                    Give up what is not saved
                  </Button>
                ) : null}
                <Button
                  variant="primary"
                  onPress={() => {
                    studio.saveNow();
                    setOpen(false);
                  }}
                >
                  Try again now
                </Button>
              </>
            }
          >
            {saving.kind === "waiting" ? (
              <>
                <p>{saving.reason}</p>
                <p className="muted">
                  {records} in this window, kept on this computer. It is tried again by itself; you can go on.
                </p>
              </>
            ) : (
              <>
                <p>{saving.refusal.error}</p>
                <ul className="app-problems">
                  {saving.refusal.problems?.map((problem) => (
                    <li key={problem.path}>
                      <b>{problem.path}</b> is {problem.value}; expected {problem.expected}.
                    </li>
                  ))}
                </ul>
                <p className="muted">
                  Your work is kept in this window. Undo the last change, or mend it and try again.
                </p>
              </>
            )}
          </Dialog>
        </>
      );
  }
}
