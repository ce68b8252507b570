import type { ReactNode } from "react";
import { Button } from "react-aria-components/Button";
import { FieldError } from "react-aria-components/FieldError";
import { Label } from "react-aria-components/Label";
import { ListBox, ListBoxItem } from "react-aria-components/ListBox";
import { Popover } from "react-aria-components/Popover";
import { Select as AriaSelect, SelectValue } from "react-aria-components/Select";
import { Text } from "react-aria-components/Text";
import { classes } from "./classes.ts";
import { Icon } from "./icons.tsx";

export interface SelectOption<Id extends string> {
  readonly id: Id;
  readonly label: string;
  /** A second, quieter line. */
  readonly detail?: string;
  readonly isDisabled?: boolean;
}

export interface SelectProps<Id extends string> {
  readonly label: string;
  readonly options: readonly SelectOption<Id>[];
  readonly value: Id | null;
  readonly onChange: (id: Id) => void;
  /** Shown while nothing is chosen. */
  readonly placeholder?: string;
  readonly hideLabel?: boolean;
  readonly hint?: ReactNode;
  readonly error?: string | null;
  readonly isDisabled?: boolean;
  readonly className?: string;
}

export function Select<Id extends string>(props: SelectProps<Id>): ReactNode {
  return (
    <AriaSelect
      value={props.value}
      onChange={(key) => {
        if (key !== null) props.onChange(key as Id);
      }}
      placeholder={props.placeholder ?? "Choose"}
      isDisabled={props.isDisabled ?? false}
      isInvalid={Boolean(props.error)}
      className={classes("ui-field", "ui-select", props.className)}
    >
      <Label className={props.hideLabel ? "unseen" : "ui-label"}>{props.label}</Label>
      <Button className="ui-control ui-select-button">
        <SelectValue className="ui-select-value" />
        <Icon name="down" />
      </Button>
      {props.hint ? (
        <Text slot="description" className="ui-hint">
          {props.hint}
        </Text>
      ) : null}
      <FieldError className="ui-error">{props.error}</FieldError>
      <Popover className="ui-popover" offset={4}>
        <ListBox className="ui-list" items={props.options}>
          {(option) => (
            <ListBoxItem
              id={option.id}
              textValue={option.label}
              isDisabled={option.isDisabled ?? false}
              className="ui-item"
            >
              <Text slot="label">{option.label}</Text>
              {option.detail ? (
                <Text slot="description" className="ui-item-detail">
                  {option.detail}
                </Text>
              ) : null}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </AriaSelect>
  );
}
