export { solveEnclosure, usualEnclosureAccuracy, type EnclosureCase, type EnclosureResult } from "./enclosure.ts";
export { solveLumped, type LumpedCase, type LumpedResult } from "./lumped.ts";
export { historyCase, type HistoryCase } from "./history.ts";
