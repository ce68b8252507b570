/**
 * Points from 0 to `length`, close together at the ends asked for and growing apart towards the middle.
 *
 * @param atStart, atEnd  spacing at the two ends [m]
 * @param growth          spacing gained per length away from an end [-]
 * @param largest         never wider than this [m]
 * @returns positions, the first 0 and the last exactly `length`
 */
export function gradedLine(
  length: number,
  atStart: number,
  atEnd: number,
  growth: number,
  largest: number,
): Float64Array {
  const samples = 2000;
  const spacing = (s: number): number => Math.min(atStart + growth * s, atEnd + growth * (length - s), largest);
  // Points lie at equal steps of the integral of 1 / spacing.
  const integral = new Float64Array(samples + 1);
  for (let i = 1; i <= samples; i++) {
    integral[i] = integral[i - 1] + length / samples / spacing(((i - 0.5) / samples) * length);
  }
  const count = Math.max(2, Math.ceil(integral[samples]));
  const points = new Float64Array(count + 1);
  let i = 0;
  for (let k = 1; k < count; k++) {
    const goal = (integral[samples] * k) / count;
    while (integral[i + 1] < goal) i++;
    points[k] = ((i + (goal - integral[i]) / (integral[i + 1] - integral[i])) / samples) * length;
  }
  points[count] = length;
  return points;
}

/** Edges of the cells about points: the middles between them, and the two ends. */
export function cellEdges(points: Float64Array): Float64Array {
  const edges = new Float64Array(points.length + 1);
  edges[0] = points[0]!;
  for (let i = 1; i < points.length; i++) edges[i] = (points[i - 1] + points[i]) / 2;
  edges[points.length] = points.at(-1)!;
  return edges;
}
