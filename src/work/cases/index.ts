export { CaseFault, CaseReader } from "./case-json.ts";
export { solveCirclesCase, type CirclesCase, type CircleOptions } from "./circles.ts";
export { solveEnclosure, usualEnclosureAccuracy, type EnclosureCase, type EnclosureResult } from "./enclosure.ts";
export { solveLumped, type LumpedCase, type LumpedResult } from "./lumped.ts";
export { historyCase, type HistoryCase } from "./history.ts";
export { addRingSolid, discGrid, type RingGrid } from "./enclosure-mesh.ts";
export { cellEdges } from "./graded-line.ts";
export { solveLoadCase, type LoadCase, type LoadOptions } from "./load.ts";
