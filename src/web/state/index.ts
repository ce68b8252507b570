export { keyOf, putting, recordAt, removing, sameJson, type Edit, type Place, type SavedRecord } from "./edits.ts";
export type { ForecastBook, ForecastView } from "./forecast-book.ts";
export { useExposures, usePieceView } from "./look-around.ts";
export { startJob, type Job, type JobEnd, type JobProgress } from "./jobs.ts";
export {
  browserPageState,
  PageStateContext,
  useForecast,
  usePageState,
  useStudio,
  useStudioView,
  type PageState,
} from "./page-state.ts";
export { pieceAt, pieceFixed, piecesOut, piecesSwapped, remedyApplied } from "./setting-edits.ts";
export { freeSpot, isAllowed, shelfSpots, type InTheWay, type ShelfSpots, type SpotRoom } from "./spots.ts";
export type { ConflictQuestion, Saving, StudioStore, StudioView, UndoQuestion } from "./studio-view.ts";
