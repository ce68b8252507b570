import type { MouseEvent, ReactNode } from "react";
import { classes } from "./classes.ts";
import { Icon, Mark, type IconName } from "./icons.tsx";

export interface Room<Id extends string> {
  readonly id: Id;
  readonly name: string;
  readonly href: string;
}

export interface TopBarProps<Id extends string> {
  readonly rooms: readonly Room<Id>[];
  readonly current: Id;
  /** Given, a plain press calls it instead of loading the page; the link still opens in a new tab. */
  readonly onRoom?: (id: Id) => void;
  /** Right end: BarState, menus. */
  readonly children?: ReactNode;
}

function RoomLinks<Id extends string>({ rooms, current, onRoom }: TopBarProps<Id>): ReactNode {
  const follow = (event: MouseEvent, id: Id): void => {
    if (!onRoom || event.metaKey || event.ctrlKey || event.shiftKey || event.button !== 0) return;
    event.preventDefault();
    onRoom(id);
  };
  return rooms.map(({ id, name, href }) => (
    <a
      key={id}
      href={href}
      className={classes("ui-room", id === current && "on")}
      {...(id === current ? { "aria-current": "page" as const } : {})}
      onClick={(event) => follow(event, id)}
    >
      {name}
    </a>
  ));
}

/** Our mark, the rooms, and at the right end the state of things. Below 600 px the rooms are in `RoomBar`. */
export function TopBar<Id extends string>(props: TopBarProps<Id>): ReactNode {
  return (
    <header className="ui-top">
      <a className="ui-skip" href="#main">
        Skip to the content
      </a>
      <span className="ui-brand">
        <Mark />
        Spyhole
      </span>
      <nav className="ui-rooms" aria-label="Rooms">
        <RoomLinks {...props} />
      </nav>
      <span className="ui-top-end">{props.children}</span>
    </header>
  );
}

/** The rooms at the foot of a phone's screen; hidden from 600 px up. */
export function RoomBar<Id extends string>(props: Omit<TopBarProps<Id>, "children">): ReactNode {
  return (
    <nav className="ui-foot" aria-label="Rooms">
      <RoomLinks {...props} />
    </nav>
  );
}

/** A quiet fact in the top bar: "Saved on this computer", "cm, °C, kg", the person. */
export function BarState(props: {
  readonly icon?: IconName;
  readonly strong?: boolean;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <span className={classes("ui-state", props.strong && "strong")}>
      {props.icon ? <Icon name={props.icon} size={18} /> : null}
      {props.children}
    </span>
  );
}

/** Title of a screen with a quiet line under it, and its actions at the right. */
export function ScreenHead(props: {
  readonly title: ReactNode;
  readonly detail?: ReactNode;
  readonly children?: ReactNode;
}): ReactNode {
  return (
    <div className="ui-screen-head">
      <div>
        <h1>{props.title}</h1>
        {props.detail ? <p className="small muted">{props.detail}</p> : null}
      </div>
      {props.children ? <div className="ui-actions">{props.children}</div> : null}
    </div>
  );
}
