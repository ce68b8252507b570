import { useId, type ReactNode } from "react";
import { heatClasses, type HeatClass } from "#work";

/** Colours of a step of heat, as CSS values. */
export const heatFill = (heat: HeatClass): string => `var(--heat-${heat})`;
export const heatLabel = (heat: HeatClass): string => `var(--heat-${heat}-label)`;
const heatInk = (heat: HeatClass): string => `var(--heat-${heat}-pattern)`;

/** The hatch of a step of heat as a fill, or null where it is plain. `prefix` is that of the `Patterns` in the drawing. */
export const heatHatch = (heat: HeatClass, prefix: string): string | null =>
  heat === "wanted" ? null : `url(#${prefix}-${heat})`;

/**
 * Hatches in CSS pixels, whatever the scale of the drawing: at the size of a desk's side view they are the
 * design's 15 / 8.5 / 5.5 and 13 / 8.5 / 6 mm, and on a thumbnail they do not close up.
 */
const lines = { cold1: [9, 0.9], cold2: [5.2, 1.15], cold3: [3.4, 1.35] } as const;
const dots = { hot1: [7.8, 1], hot2: [5.2, 1.15], hot3: [3.7, 1.15] } as const;

/** A prefix for the ids of one drawing's patterns that is safe inside url(#...). */
export function usePatternPrefix(): string {
  return `p${useId().replaceAll(/[^\w-]/g, "")}`;
}

export interface PatternsProps {
  readonly prefix: string;
  /** Pixels per millimetre, for the patterns that are materials: bricks keep their size in the kiln. */
  readonly brickScale?: number;
}

/** Hatches of heat (`-cold1` …), and of materials: `-brick`, `-shelf`, `-clear`, `-cut`. */
export function Patterns({ prefix, brickScale = 0.6 }: PatternsProps): ReactNode {
  const brick = Math.max(brickScale, 0.25);
  const [long, high] = [46 * brick, 23 * brick];
  return (
    <defs>
      {(Object.entries(lines) as [HeatClass, readonly [number, number]][]).map(([heat, [gap, width]]) => (
        <pattern
          key={heat}
          id={`${prefix}-${heat}`}
          width={gap}
          height={gap}
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(-45)"
        >
          <path d={`M0 ${gap / 2}H${gap}`} stroke={heatInk(heat)} strokeWidth={width} />
        </pattern>
      ))}
      {(Object.entries(dots) as [HeatClass, readonly [number, number]][]).map(([heat, [gap, radius]]) => (
        <pattern
          key={heat}
          id={`${prefix}-${heat}`}
          width={gap}
          height={gap}
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <circle cx={gap / 2} cy={gap / 2} r={radius} fill={heatInk(heat)} />
        </pattern>
      ))}
      <pattern id={`${prefix}-brick`} width={long} height={high} patternUnits="userSpaceOnUse">
        <path
          d={`M0 0H${long}M0 ${high / 2}H${long}M${long / 2} 0V${high / 2}M0 ${high / 2}V${high}`}
          stroke="var(--brickline)"
          strokeWidth="0.6"
          fill="none"
        />
      </pattern>
      <pattern
        id={`${prefix}-shelf`}
        width="3.6"
        height="3.6"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <path d="M0 0V3.6" stroke="var(--shelfline)" strokeWidth="1" />
      </pattern>
      <pattern id={`${prefix}-clear`} width="5.6" height="5.6" patternUnits="userSpaceOnUse">
        <path d="M2.8 1.2v3.2M1.2 2.8h3.2" stroke="var(--ink)" strokeWidth="0.7" />
      </pattern>
      <pattern id={`${prefix}-cut`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
        <path d="M0 3H6" stroke="var(--ink)" strokeWidth="2" />
      </pattern>
    </defs>
  );
}

/** Triangle up: hotter than the wanted range; down: colder. Centre at (x, y), drawn in the current colour. */
export function HeatTriangle(props: {
  readonly side: "cold" | "hot";
  readonly x: number;
  readonly y: number;
  /** Width of its base. */
  readonly size?: number;
}): ReactNode {
  const { side, x, y, size = 12 } = props;
  const half = size / 2;
  const tall = size * 0.38;
  const d =
    side === "cold"
      ? `M${x - half} ${y - tall}H${x + half}L${x} ${y + tall}Z`
      : `M${x - half} ${y + tall}H${x + half}L${x} ${y - tall}Z`;
  return <path d={d} fill="currentColor" />;
}

/** Key of the heat scale: colder, as wanted, hotter. */
export function HeatKey({ step = 33 }: { readonly step?: number }): ReactNode {
  const prefix = usePatternPrefix();
  const width = step * heatClasses.length;
  return (
    <svg
      className="ui-heat-key"
      width={width + 2}
      height={42}
      viewBox={`-1 -1 ${width + 2} 42`}
      role="img"
      aria-label="Key. Colder than wanted: blue with slanting lines, closer the colder. Hotter: orange with dots. A triangle: outside the wanted range."
    >
      <Patterns prefix={prefix} />
      {heatClasses.map((heat, index) => {
        const hatch = heatHatch(heat, prefix);
        return (
          <g key={heat} transform={`translate(${index * step} 0)`} style={{ color: heatLabel(heat) }}>
            <rect width={step} height="20" fill={heatFill(heat)} />
            <rect width={step} height="20" fill={hatch ?? "none"} stroke="var(--outline)" strokeWidth="1.2" />
            {/[23]$/.test(heat) ? (
              <HeatTriangle side={heat.startsWith("cold") ? "cold" : "hot"} x={step / 2} y={10} size={11} />
            ) : null}
          </g>
        );
      })}
      <text x="0" y="36" fontSize="13" className="muted">
        colder
      </text>
      <text x={width / 2} y="36" fontSize="13" textAnchor="middle" className="muted">
        as wanted
      </text>
      <text x={width} y="36" fontSize="13" textAnchor="end" className="muted">
        hotter
      </text>
    </svg>
  );
}
