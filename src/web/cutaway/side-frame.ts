import type { Kiln } from "#engine/kiln";
import type { Metres } from "#engine/units";
import { jacket, wallsOf, type SideView } from "./side-view.ts";

/** Where the side view lies on its drawing [CSS px]. */
export interface SideFrame {
  readonly width: number;
  readonly height: number;
  /** CSS px per metre. */
  readonly scale: number;
  /** Of the kiln's axis. */
  readonly axis: number;
  /** Of the inner face of the floor. */
  readonly floor: number;
}

export interface SideMargins {
  readonly left: number;
  readonly right: number;
}

const above = 8;
/** Room for the feet. */
const below = 18;

export function sideFrame(
  kiln: Kiln,
  view: SideView,
  width: number,
  maxHeight: number,
  margins: SideMargins,
): SideFrame {
  const { outer } = wallsOf(view, kiln);
  const across = outer.to - outer.from + 2 * jacket;
  const tall = kiln.lid.thickness + kiln.chamber.height + kiln.floor.thickness + 2 * jacket;
  const scale = Math.min(
    Math.max(width - margins.left - margins.right, 1) / across,
    Math.max(maxHeight - above - below, 1) / tall,
  );
  const free = width - margins.left - margins.right - across * scale;
  return {
    width,
    height: above + tall * scale + below,
    scale,
    axis: margins.left + Math.max(free, 0) / 2 + (jacket - outer.from) * scale,
    floor: above + (jacket + kiln.lid.thickness + kiln.chamber.height) * scale,
  };
}

export const xOf = (frame: SideFrame, across: Metres): number => frame.axis + across * frame.scale;
export const yOf = (frame: SideFrame, z: Metres): number => frame.floor - z * frame.scale;
