import type { ReactNode } from "react";
import { Dialog as AriaDialog } from "react-aria-components/Dialog";
import { Heading } from "react-aria-components/Heading";
import { Modal, ModalOverlay } from "react-aria-components/Modal";
import { Button } from "./button.tsx";
import { classes } from "./classes.ts";

export interface DialogProps {
  readonly isOpen: boolean;
  /** Esc, the close button, or a press outside (unless `mustAnswer`). */
  readonly onClose: () => void;
  readonly title: string;
  readonly children: ReactNode;
  /** Buttons at the foot, the primary one last. */
  readonly actions?: ReactNode;
  /** A question that has to be answered: no close button, pressing outside does nothing. */
  readonly mustAnswer?: boolean;
  readonly size?: "normal" | "wide";
  /** `side`: a drawer on the right, full width on a phone. */
  readonly place?: "middle" | "side";
}

export function Dialog(props: DialogProps): ReactNode {
  const { isOpen, onClose, title, children, actions, mustAnswer = false, size = "normal", place = "middle" } = props;
  return (
    <ModalOverlay
      isOpen={isOpen}
      onOpenChange={(open) => {
        if (!open) onClose();
      }}
      isDismissable={!mustAnswer}
      isKeyboardDismissDisabled={mustAnswer}
      className={classes("ui-overlay", place)}
    >
      <Modal className={classes("ui-modal", size, place)}>
        <AriaDialog className="ui-dialog" role={mustAnswer ? "alertdialog" : "dialog"}>
          <header className="ui-dialog-head">
            <Heading slot="title" level={2}>
              {title}
            </Heading>
            {mustAnswer ? null : <Button variant="quiet" icon="close" label="Close" onPress={onClose} />}
          </header>
          {/* Text longer than the window must be scrollable by keyboard, also where nothing in it takes the focus. */}
          {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
          <div className="ui-dialog-body" tabIndex={0}>
            {children}
          </div>
          {actions ? <footer className="ui-dialog-foot">{actions}</footer> : null}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}
