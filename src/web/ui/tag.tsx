import type { ReactNode } from "react";
import type { FiringClass } from "#engine/kiln";
import { classes } from "./classes.ts";

/** Outline = glaze, filled = bisque, double outline = mid-range, dotted = lustre. */
export function Tag({
  kind,
  children,
}: {
  readonly kind: FiringClass["kind"];
  readonly children: ReactNode;
}): ReactNode {
  return <span className={classes("ui-tag", kind)}>{children}</span>;
}

export function Kbd({ children }: { readonly children: ReactNode }): ReactNode {
  return <kbd>{children}</kbd>;
}
