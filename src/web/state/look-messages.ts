import type { Load } from "#engine/kiln";
import type { Exposure, PieceView } from "#engine/radiation";

/** Asked of the worker that looks around in a load. */
export type LookRequest =
  | { readonly ask: "exposure"; readonly id: number; readonly load: Load }
  | { readonly ask: "view"; readonly id: number; readonly load: Load; readonly pieceId: string };

export type LookAnswer =
  | { readonly ask: "exposure"; readonly id: number; readonly exposures: readonly Exposure[] }
  | { readonly ask: "view"; readonly id: number; readonly view: PieceView };
