export { failure, success, type Outcome } from "./outcome.ts";
export { requireNotNegative, requirePositive, requireThat } from "./precondition.ts";
export { seededRandom, type Random } from "./random.ts";
export { Cancelled, stopIfCancelled, unattended, type RunControl } from "./run-control.ts";
