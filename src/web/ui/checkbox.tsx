import type { ReactNode } from "react";
import { Checkbox as AriaCheckbox } from "react-aria-components/Checkbox";
import { classes } from "./classes.ts";
import { Icon } from "./icons.tsx";

export interface CheckboxProps {
  readonly isSelected: boolean;
  readonly onChange: (isSelected: boolean) => void;
  /** Text beside the box. */
  readonly children?: ReactNode;
  /** Spoken name where there is no text beside it (a tick in a row). */
  readonly label?: string;
  /** Some of several are ticked. */
  readonly isIndeterminate?: boolean;
  readonly isDisabled?: boolean;
  readonly className?: string;
}

/** A tick box, 26 px drawn, 44 px to hit. */
export function Checkbox({ children, label, className, ...rest }: CheckboxProps): ReactNode {
  return (
    <AriaCheckbox
      {...rest}
      className={classes("ui-checkbox", className)}
      {...(label === undefined ? {} : { "aria-label": label })}
    >
      {({ isSelected, isIndeterminate }) => (
        <>
          <span className="ui-tick">
            {isIndeterminate ? <Icon name="minus" size={18} /> : isSelected ? <Icon name="check" size={20} /> : null}
          </span>
          {children}
        </>
      )}
    </AriaCheckbox>
  );
}
