import type { ReactNode } from "react";
import { Label } from "react-aria-components/Label";
import { ProgressBar as AriaProgressBar } from "react-aria-components/ProgressBar";
import { classes } from "./classes.ts";

export interface ProgressBarProps {
  readonly label: string;
  /** Share done [0..1], or null while it is unknown. */
  readonly value: number | null;
  /** What is said instead of a percentage: "38 of 60 seconds". */
  readonly valueText?: string;
  /** Thin: a line over the strip while a forecast works, its label only spoken. */
  readonly thin?: boolean;
}

export function ProgressBar({ label, value, valueText, thin = false }: ProgressBarProps): ReactNode {
  const share = Math.min(Math.max(value ?? 0, 0), 1);
  return (
    <AriaProgressBar
      className={classes("ui-progress", thin && "thin", value === null && "unknown")}
      value={share}
      minValue={0}
      maxValue={1}
      isIndeterminate={value === null}
      {...(valueText === undefined ? {} : { valueLabel: valueText })}
    >
      <Label className={thin ? "unseen" : "ui-label"}>{label}</Label>
      <span className="ui-progress-track">
        <span className="ui-progress-bar" style={{ inlineSize: value === null ? "100%" : `${share * 100}%` }} />
      </span>
    </AriaProgressBar>
  );
}
