export type { LoadingState } from "./plan-piece.tsx";
export type { PieceMove, Settled, Verdict, VerdictAt } from "./settle.ts";
export { ShelfPlan, type ShelfPlanProps } from "./shelf-plan.tsx";
export type { MoveBy } from "./use-plan-gestures.ts";
