export { Gmres } from "./gmres.ts";
export { bracketedRoot } from "./root.ts";
export { mix32, sobolPoints } from "./sequences.ts";
export { plainProduct, type SparseProduct, type SparseRows } from "./sparse.ts";
export { factorTridiagonal, solveTridiagonal, tridiagonalFactors, type TridiagonalFactors } from "./tridiagonal.ts";
