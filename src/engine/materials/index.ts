export {
  heatContentAt,
  heatContentOf,
  heatTables,
  specificHeatAt,
  type HeatContent,
  type HeatTables,
} from "./heat-content.ts";
export {
  air,
  bricks,
  cordierite,
  earthenware,
  elementWire,
  highAlumina,
  lineAt,
  siliconCarbide,
  stoneware,
  type BrickGroup,
  type Line,
  type Quality,
  type Solid,
} from "./properties.ts";
export { rawClay, type Dehydroxylation, type OnceOnly } from "./reactions.ts";
