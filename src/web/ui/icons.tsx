import type { ReactNode } from "react";

/** Stroke paths in a 20 x 20 box. The fonts have no arrows, so all signs are drawn. */
const paths = {
  undo: "M4 8h8a4 4 0 0 1 0 8H8M4 8l4-4M4 8l4 4",
  redo: "M16 8H8a4 4 0 0 0 0 8h4M16 8l-4-4M16 8l-4 4",
  turn: "M15.5 7A6 6 0 1 0 16 11M16 3v4h-4",
  up: "M4 12l6-6 6 6",
  down: "M4 8l6 6 6-6",
  left: "M12 4l-6 6 6 6",
  right: "M8 4l6 6-6 6",
  check: "M4 11l4 4 8-9",
  close: "M5 5l10 10M15 5L5 15",
  plus: "M10 4v12M4 10h12",
  minus: "M4 10h12",
  more: "M4 10h.01M10 10h.01M16 10h.01",
  menu: "M3 5h14M3 10h14M3 15h14",
  search: "M8.5 14a5.5 5.5 0 1 1 0-11 5.5 5.5 0 0 1 0 11M12.5 12.5L17 17",
  person: "M10 8.5a3 3 0 1 1 0-6 3 3 0 0 1 0 6M4 17c0-4 2.5-6.5 6-6.5s6 2.5 6 6.5",
  print: "M6 7V3h8v4M5 14H3V8h14v6h-2M6 12h8v5H6z",
  photo: "M3 6h3l1.5-2h5L14 6h3v10H3zM10 14a3 3 0 1 1 0-6 3 3 0 0 1 0 6",
  table: "M3 4h14v12H3zM3 8h14M3 12h14M9 4v12",
  pin: "M7 3h6M8 3v6l-2.5 3h9L12 9V3M10 12v5",
  move: "M10 3v14M3 10h14M10 3L7.5 5.5M10 3l2.5 2.5M10 17l-2.5-2.5M10 17l2.5-2.5M3 10l2.5-2.5M3 10l2.5 2.5M17 10l-2.5-2.5M17 10l-2.5 2.5",
  trash: "M4 6h12M8 6V4h4v2M6 6l.7 11h6.6L14 6M9 9v5M11 9v5",
  keyboard: "M2.5 5h15v10h-15zM5.5 8h.01M8.5 8h.01M11.5 8h.01M14.5 8h.01M6 12h8",
  sun: "M10 13a3 3 0 1 1 0-6 3 3 0 0 1 0 6M10 2v2M10 16v2M2 10h2M16 10h2M4.3 4.3l1.5 1.5M14.2 14.2l1.5 1.5M4.3 15.7l1.5-1.5M14.2 5.8l1.5-1.5",
  moon: "M16 12.5A7 7 0 0 1 7.5 4 6.5 6.5 0 1 0 16 12.5",
  open: "M8 4H4v12h12v-4M11 4h5v5M16 4l-7 7",
  save: "M10 3v9M6.5 8.5L10 12l3.5-3.5M4 16h12",
} as const;

export type IconName = keyof typeof paths;

/** A drawn sign in the colour of the text beside it; hidden from screen readers, so name its button in words. */
export function Icon({ name, size = 20 }: { readonly name: IconName; readonly size?: number }): ReactNode {
  const dots = name === "more" || name === "keyboard";
  return (
    <svg
      className="ui-icon"
      width={size}
      height={size}
      viewBox="0 0 20 20"
      fill="none"
      stroke="currentColor"
      strokeWidth={name === "check" ? 2.4 : dots ? 2.2 : 2}
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      <path d={paths[name]} />
    </svg>
  );
}

/** Our mark: the kiln's spyhole with three glowing rows behind it. */
export function Mark({ size = 30 }: { readonly size?: number }): ReactNode {
  return (
    <svg width={size} height={size} viewBox="0 0 30 30" aria-hidden="true">
      <circle cx="15" cy="15" r="13.5" fill="var(--brick)" stroke="var(--ink)" strokeWidth="2.4" />
      <circle cx="15" cy="15" r="7.4" fill="#15202b" />
      <path d="M10.4 18.6h9.2M11.4 14.8h7.2M12.6 11h4.8" stroke="#f2a03d" strokeWidth="1.9" strokeLinecap="round" />
    </svg>
  );
}
