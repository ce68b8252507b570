export type { MipResult, MipSolver, MixedIntegerProgram } from "./mip-solver.ts";
export type { PlacingFailure, PlacingRequest, Proposal, WaitReason } from "./proposal.ts";
export { proposeSetting } from "./propose.ts";
