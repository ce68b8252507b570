export { usualEmissivity, type EmissivityOf } from "./emissivity.ts";
export { locator, type Locator } from "./locate.ts";
export type { BodyRef, Cell, Contact, Exchange, Link, Mesh, Resolution } from "./mesh.ts";
export type { LoadMesh } from "./mesh-builder.ts";
export { meshLoad, type MeshOptions } from "./mesh-load.ts";
export { densityOf, resolutionFor, type MeshGrade } from "./resolution.ts";
export { sceneBuilder, type Scene, type SceneBuilder } from "./scene.ts";
export { plainRayTracer, type RayTracer, type TraceOptions } from "./trace.ts";
export { traceExchange, type TracedExchange } from "./trace-exchange.ts";
