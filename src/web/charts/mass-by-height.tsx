import type { ReactNode } from "react";
import { shapeOf, shelfTypeOf, shelvesFromBottom, type Load } from "#engine/kiln";
import { Patterns, usePatternPrefix, useSize } from "#web/ui";
import { formatLength, formatMass, metricUnits, type UnitPreference } from "#words";
import { ChartTable } from "./chart-table.tsx";
import "./charts.css";

export interface MassByHeightProps {
  readonly load: Load;
  readonly units?: UnitPreference;
  /** Height of the drawing [CSS px]: the chamber's height fills it. */
  readonly height?: number;
  readonly initialWidth?: number;
}

export interface ShelfMass {
  readonly number: number;
  readonly z: number;
  readonly plate: number;
  readonly ware: number;
}

/** Weight on every shelf from the bottom up [kg], and the height about which the whole load balances [m]. */
export function massByHeight(load: Load): { readonly shelves: readonly ShelfMass[]; readonly balance: number | null } {
  const shelves = shelvesFromBottom(load.setting).map((shelf, i) => {
    const pieces = load.setting.pieces.filter(({ shelfId }) => shelfId === shelf.id);
    return {
      number: i + 1,
      z: shelf.z,
      plate: shelfTypeOf(load, shelf).mass,
      ware: pieces.reduce((sum, { pieceId }) => sum + shapeOf(load, pieceId).mass, 0),
    };
  });
  const total = shelves.reduce((sum, { plate, ware }) => sum + plate + ware, 0);
  const moment = shelves.reduce((sum, { z, plate, ware }) => sum + z * (plate + ware), 0);
  return { shelves, balance: total > 0 ? moment / total : null };
}

/** Weight by height: a bar per shelf where it stands, shelf slanted, ware solid, and the height the load balances about. */
export function MassByHeight({
  load,
  units = metricUnits,
  height = 220,
  initialWidth = 320,
}: MassByHeightProps): ReactNode {
  const prefix = usePatternPrefix();
  const [stage, { width }] = useSize<HTMLDivElement>({ width: initialWidth, height: 0 });
  const { shelves, balance } = massByHeight(load);
  const left = 26;
  const most = Math.max(...shelves.map(({ plate, ware }) => plate + ware), 1e-9);
  const scale = Math.max(width - left - 116, 40) / most;
  const yOf = (z: number): number => height - 10 - (z / load.kiln.chamber.height) * (height - 20);
  const thick = Math.min(16, Math.max(8, (height - 20) / Math.max(shelves.length, 1) - 8));
  return (
    <div className="chart" ref={stage}>
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={summary(shelves, balance, units)}
      >
        <Patterns prefix={prefix} />
        <path d={`M${left} ${yOf(load.kiln.chamber.height)}V${yOf(0)}`} stroke="var(--edge)" strokeWidth="1" />
        {shelves.map(({ number, z, plate, ware }) => {
          const y = yOf(z) - thick / 2;
          return (
            <g key={number}>
              <text className="strong" x={left - 8} y={y + thick / 2 + 4.5} fontSize="13" textAnchor="end">
                {number}
              </text>
              <rect x={left} y={y} width={plate * scale} height={thick} fill="var(--shelf)" />
              <rect
                x={left}
                y={y}
                width={plate * scale}
                height={thick}
                fill={`url(#${prefix}-shelf)`}
                stroke="var(--ink)"
                strokeWidth="1.2"
              />
              <rect
                x={left + plate * scale}
                y={y}
                width={ware * scale}
                height={thick}
                fill="var(--ink)"
                stroke="var(--ink)"
                strokeWidth="1.2"
              />
              <text className="muted" x={left + (plate + ware) * scale + 8} y={y + thick / 2 + 4.5} fontSize="13">
                {formatMass(plate + ware, units)}
              </text>
            </g>
          );
        })}
        {balance === null ? null : (
          <path
            d={`M${left} ${yOf(balance)}H${width - 4}`}
            stroke="var(--ink)"
            strokeWidth="1.3"
            strokeDasharray="2 4"
          />
        )}
      </svg>
      {balance === null ? null : (
        <p className="chart-caption">
          Slanted: shelf. Solid: ware. Dotted: the load balances at {formatLength(balance, units, "size")}.
        </p>
      )}
      <ChartTable
        unseen
        data={{
          caption: "Weight by shelf, from the bottom",
          columns: ["Shelf", "Height", "Shelf weight", "Ware"],
          rows: shelves.map(({ number, z, plate, ware }) => [
            `shelf ${number}`,
            formatLength(z, units, "size"),
            formatMass(plate, units),
            formatMass(ware, units),
          ]),
        }}
      />
    </div>
  );
}

function summary(shelves: readonly ShelfMass[], balance: number | null, units: UnitPreference): string {
  if (balance === null) return "No shelf in the kiln.";
  const heaviest = shelves.reduce((a, b) => (b.plate + b.ware > a.plate + a.ware ? b : a));
  return `Weight by height. Heaviest: shelf ${heaviest.number} with ${formatMass(heaviest.plate + heaviest.ware, units)}. The load balances at ${formatLength(balance, units, "size")}.`;
}
