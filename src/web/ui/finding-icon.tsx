import type { ReactNode } from "react";
import type { Level } from "#engine/checks";

/** Levels of a finding, and a rule that is kept. Told apart by shape, never by colour. */
export type FindingLevel = Level | "kept";

const words: Record<FindingLevel, string> = { stop: "Stop", check: "Check", tip: "Tip", kept: "Kept" };

/** The bare sign about (0, 0), 26 units across, to be set into a drawing. */
export function FindingMark({ level }: { readonly level: FindingLevel }): ReactNode {
  switch (level) {
    case "stop":
      return (
        <>
          <path
            d="M11.5 4.8 4.8 11.5-4.8 11.5-11.5 4.8-11.5-4.8-4.8-11.5 4.8-11.5 11.5-4.8Z"
            fill="var(--ink)"
            stroke="var(--surface)"
            strokeWidth="2"
          />
          <path d="M-5.2 0H5.2" stroke="var(--surface)" strokeWidth="3.5" />
        </>
      );
    case "check":
      return (
        <>
          <path
            d="M0-10 11 9.5H-11Z"
            fill="var(--surface)"
            stroke="var(--ink)"
            strokeWidth="2.2"
            strokeLinejoin="round"
          />
          <path d="M0-3.5V2.5M0 5.6V6.2" stroke="var(--ink)" strokeWidth="2.6" strokeLinecap="round" />
        </>
      );
    case "tip":
      return (
        <>
          <circle r="10" fill="var(--surface)" stroke="var(--ink)" strokeWidth="1.8" strokeDasharray="3 3" />
          <path d="M0-1V5M0-5V-4.5" stroke="var(--ink)" strokeWidth="2.4" strokeLinecap="round" />
        </>
      );
    case "kept":
      return (
        <>
          <circle r="10" fill="none" stroke="var(--ink)" strokeWidth="1.8" />
          <path
            d="M-4.5.5-1.2 4 4.8-3.5"
            fill="none"
            stroke="var(--ink)"
            strokeWidth="2.2"
            strokeLinecap="round"
            strokeLinejoin="round"
          />
        </>
      );
  }
}

/** Octagon (stop), triangle (check), dotted ring (tip), ringed tick (kept), with its word for screen readers. */
export function FindingIcon({ level, size = 26 }: { readonly level: FindingLevel; readonly size?: number }): ReactNode {
  return (
    <svg
      className="ui-finding-icon"
      width={size}
      height={size}
      viewBox="-13 -13 26 26"
      role="img"
      aria-label={words[level]}
    >
      <FindingMark level={level} />
    </svg>
  );
}
