import type { ReactNode } from "react";
import { Radio, RadioGroup } from "react-aria-components/RadioGroup";
import { classes } from "./classes.ts";

export interface SegmentedChoiceProps<Id extends string> {
  /** Spoken name of the group. */
  readonly label: string;
  readonly options: readonly { readonly id: Id; readonly label: ReactNode; readonly isDisabled?: boolean }[];
  readonly value: Id;
  readonly onChange: (id: Id) => void;
  readonly className?: string;
}

/** A few choices side by side, one of them on. Arrow keys change it. */
export function SegmentedChoice<Id extends string>(props: SegmentedChoiceProps<Id>): ReactNode {
  return (
    <RadioGroup
      aria-label={props.label}
      value={props.value}
      onChange={(id) => props.onChange(id as Id)}
      orientation="horizontal"
      className={classes("ui-segments", props.className)}
    >
      {props.options.map(({ id, label, isDisabled }) => (
        <Radio key={id} value={id} isDisabled={isDisabled ?? false} className="ui-segment">
          {label}
        </Radio>
      ))}
    </RadioGroup>
  );
}
