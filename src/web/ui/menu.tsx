import type { ReactNode } from "react";
import { Keyboard } from "react-aria-components/Keyboard";
import { Menu as AriaMenu, MenuItem, MenuTrigger } from "react-aria-components/Menu";
import { Popover } from "react-aria-components/Popover";
import { Text } from "react-aria-components/Text";
import { Button, type ButtonProps } from "./button.tsx";

export interface MenuEntry<Id extends string> {
  readonly id: Id;
  readonly label: string;
  /** Why it is off, or more about it. */
  readonly detail?: string;
  /** Key that does the same, as printed on the keyboard. */
  readonly keys?: string;
  readonly isDisabled?: boolean;
}

export interface MenuProps<Id extends string> {
  /** The button that opens it. */
  readonly button: Omit<ButtonProps, "onPress">;
  readonly entries: readonly MenuEntry<Id>[];
  readonly onAction: (id: Id) => void;
  /** Control it from outside (a key that opens it). */
  readonly isOpen?: boolean;
  readonly onOpenChange?: (isOpen: boolean) => void;
}

export function Menu<Id extends string>({ button, entries, onAction, isOpen, onOpenChange }: MenuProps<Id>): ReactNode {
  return (
    <MenuTrigger {...(isOpen === undefined ? {} : { isOpen })} {...(onOpenChange ? { onOpenChange } : {})}>
      <Button {...button} />
      <Popover className="ui-popover" offset={4}>
        <AriaMenu className="ui-list" items={entries} onAction={(key) => onAction(key as Id)}>
          {(entry) => (
            <MenuItem id={entry.id} textValue={entry.label} isDisabled={entry.isDisabled ?? false} className="ui-item">
              <Text slot="label">{entry.label}</Text>
              {entry.detail ? (
                <Text slot="description" className="ui-item-detail">
                  {entry.detail}
                </Text>
              ) : null}
              {entry.keys ? <Keyboard className="ui-item-keys">{entry.keys}</Keyboard> : null}
            </MenuItem>
          )}
        </AriaMenu>
      </Popover>
    </MenuTrigger>
  );
}
