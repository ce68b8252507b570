import type { LoadingRules } from "./kiln.ts";

/** The trade's usual numbers. Common practice, no source, except where docs/reference/rules.md names one. */
export const usualRules: LoadingRules = {
  shelfMargin: 0.05,
  bottomGap: 0.025,
  wareToWall: 0.025,
  sensorClear: 0.05,
  headroom: 0.013,
  lidHeadroom: 0.025,
  glazeGap: 0.006,
  postGap: 0.003,
  postsPerShelf: 3,
  airyGap: 0.15,
  stiltSpan: 0.1,
  metalStiltLimit: 1373.15,
  shelfLoad: 12,
  soloLift: 11,
};
