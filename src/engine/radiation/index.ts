export { raySource, type RaySource } from "./emission.ts";
export { usualEmissivity, type EmissivityOf } from "./emissivity.ts";
export { exposureOf, exposuresIn, type Exposure, type ExposureOptions } from "./exposure.ts";
export { locator, type Locator } from "./locate.ts";
export type { BodyRef, Cell, Contact, Exchange, Link, Mesh, Resolution } from "./mesh.ts";
export type { LoadMesh } from "./mesh-builder.ts";
export { meshLoad, type MeshOptions } from "./mesh-load.ts";
export { densityOf, resolutionFor, type MeshGrade } from "./resolution.ts";
export { exchangeFromCounts } from "./reciprocity.ts";
export { retraceMoved, type Retraced, type TracedLoad } from "./retrace.ts";
export { sceneBuilder, type Scene, type SceneBuilder } from "./scene.ts";
export { seenKindOf, seenKinds, type SeenKind, type SeenShares } from "./seen.ts";
export {
  plainRayTracer,
  sobolRayPoints,
  traceRays,
  type RayCounts,
  type RayPoints,
  type RayTracer,
  type TraceOptions,
} from "./trace.ts";
export { traceExchange, type TracedExchange } from "./trace-exchange.ts";
export { viewFromPiece, type PieceView, type ViewOptions } from "./view.ts";
