export { simdRayTracer } from "./ray-tracer.ts";
