import type { ReactNode } from "react";
import { Button } from "react-aria-components/Button";
import { FieldError } from "react-aria-components/FieldError";
import { Group } from "react-aria-components/Group";
import { Input } from "react-aria-components/Input";
import { Label } from "react-aria-components/Label";
import { NumberField } from "react-aria-components/NumberField";
import { Text } from "react-aria-components/Text";
import { classes } from "./classes.ts";
import { Icon } from "./icons.tsx";

export interface NumberStepperProps {
  readonly label: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
  readonly minValue?: number;
  readonly maxValue?: number;
  readonly step?: number;
  readonly hint?: ReactNode;
  readonly error?: string | null;
  readonly isDisabled?: boolean;
  /** How the number is written; a plain whole number if left out. */
  readonly format?: Intl.NumberFormatOptions;
  readonly className?: string;
}

/** A number with a button for one less and one more; typing and arrow keys work too. */
export function NumberStepper(props: NumberStepperProps): ReactNode {
  const { label, hint, error, format, className, ...field } = props;
  return (
    <NumberField
      {...field}
      {...(format ? { formatOptions: format } : {})}
      isInvalid={Boolean(error)}
      className={classes("ui-field", "ui-stepper", className)}
    >
      <Label className="ui-label">{label}</Label>
      <Group className="ui-control">
        <Button slot="decrement" className="ui-step">
          <Icon name="minus" />
        </Button>
        <Input className="ui-input" />
        <Button slot="increment" className="ui-step">
          <Icon name="plus" />
        </Button>
      </Group>
      {hint ? (
        <Text slot="description" className="ui-hint">
          {hint}
        </Text>
      ) : null}
      <FieldError className="ui-error">{error}</FieldError>
    </NumberField>
  );
}
