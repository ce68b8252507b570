export type { PlacingRequest, Proposal, WaitReason } from "./proposal.ts";
