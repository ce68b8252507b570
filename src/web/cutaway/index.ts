export { Cutaway, type CutawayProps } from "./cutaway.tsx";
export { PieceSilhouette, type PieceSilhouetteProps } from "./piece-side.tsx";
export { cutStep, fromTheFront } from "./side-view.ts";
