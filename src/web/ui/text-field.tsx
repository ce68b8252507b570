import type { KeyboardEvent, ReactNode, Ref } from "react";
import { FieldError } from "react-aria-components/FieldError";
import { Input } from "react-aria-components/Input";
import { Label } from "react-aria-components/Label";
import { Text } from "react-aria-components/Text";
import { TextArea } from "react-aria-components/TextArea";
import { TextField as AriaTextField } from "react-aria-components/TextField";
import { classes } from "./classes.ts";
import { Icon, type IconName } from "./icons.tsx";

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** A line of help under the field. */
  readonly hint?: ReactNode;
  /** What is wrong and what to do; its presence marks the field as wrong. */
  readonly error?: string | null;
  readonly size?: "normal" | "large";
  readonly icon?: IconName;
  /** Keep the label for screen readers only (a search field with its sign). */
  readonly hideLabel?: boolean;
  /** More than one line. */
  readonly rows?: number;
  /** An example or, where the label is hidden, the label again. */
  readonly placeholder?: string;
  readonly type?: "text" | "search" | "date" | "time" | "email" | "password";
  readonly inputMode?: "text" | "decimal" | "numeric" | "search";
  readonly autoComplete?: string;
  readonly autoFocus?: boolean;
  readonly isRequired?: boolean;
  readonly isDisabled?: boolean;
  readonly isReadOnly?: boolean;
  readonly name?: string;
  readonly inputRef?: Ref<HTMLInputElement>;
  readonly onKeyDown?: (event: KeyboardEvent) => void;
  readonly onBlur?: () => void;
  readonly className?: string;
}

export function TextField(props: TextFieldProps): ReactNode {
  const {
    label,
    hint,
    error,
    size = "normal",
    icon,
    hideLabel,
    rows,
    placeholder,
    inputRef,
    className,
    onBlur,
    ...field
  } = props;
  return (
    <AriaTextField
      {...field}
      {...(onBlur ? { onBlur: () => onBlur() } : {})}
      isInvalid={Boolean(error)}
      className={classes("ui-field", size, icon && "with-icon", className)}
    >
      <Label className={hideLabel ? "unseen" : "ui-label"}>{label}</Label>
      <span className="ui-control">
        {icon ? <Icon name={icon} /> : null}
        {rows === undefined ? (
          <Input
            className="ui-input"
            {...(inputRef ? { ref: inputRef } : {})}
            {...(placeholder === undefined ? {} : { placeholder })}
          />
        ) : (
          <TextArea className="ui-input" rows={rows} />
        )}
      </span>
      {hint ? (
        <Text slot="description" className="ui-hint">
          {hint}
        </Text>
      ) : null}
      <FieldError className="ui-error">{error}</FieldError>
    </AriaTextField>
  );
}
