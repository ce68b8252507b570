import type { ReactNode } from "react";
import { Button as AriaButton, type PressEvent } from "react-aria-components/Button";
import { classes } from "./classes.ts";
import { Icon, type IconName } from "./icons.tsx";

export interface ButtonProps {
  /** Left out only with `icon` and `label`. */
  readonly children?: ReactNode;
  /** One primary button per group: the step most people take next. */
  readonly variant?: "plain" | "primary" | "quiet";
  /** Small ones are 36 px drawn, 46 px to hit. */
  readonly size?: "normal" | "small";
  readonly icon?: IconName;
  /** Spoken name; required when the button shows only an icon. */
  readonly label?: string;
  /** Why it cannot be pressed or what it will do, for screen readers: id of the text that says so. */
  readonly describedBy?: string;
  readonly isDisabled?: boolean;
  /** Stays in place and cannot be pressed again while work is under way. */
  readonly isPending?: boolean;
  readonly type?: "button" | "submit";
  readonly autoFocus?: boolean;
  readonly className?: string;
  readonly onPress?: (event: PressEvent) => void;
}

export function Button({
  children,
  variant = "plain",
  size = "normal",
  icon,
  label,
  describedBy,
  className,
  ...rest
}: ButtonProps): ReactNode {
  return (
    <AriaButton
      {...rest}
      className={classes("ui-button", variant, size, children === undefined && "icon-only", className)}
      {...(label === undefined ? {} : { "aria-label": label })}
      {...(describedBy === undefined ? {} : { "aria-describedby": describedBy })}
    >
      {icon ? <Icon name={icon} /> : null}
      {children}
    </AriaButton>
  );
}

export interface IconButtonProps extends Omit<ButtonProps, "children" | "icon" | "label"> {
  readonly icon: IconName;
  readonly label: string;
}

export function IconButton(props: IconButtonProps): ReactNode {
  return <Button {...props} />;
}
