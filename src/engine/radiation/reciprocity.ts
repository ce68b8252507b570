import type { Exchange } from "./mesh.ts";
import type { RayCounts } from "./trace.ts";

/**
 * Makes exchange areas out of ray counts: reciprocal, each row summing to its patch's area.
 *
 * Both patches of a pair estimate their exchange area S = A F; the two are averaged with weights n / A, the inverse
 * of their variances. A symmetric Sinkhorn scaling then closes every row. What cannot be closed that way (a patch that
 * sees almost nothing) is put on the patch itself, where it exchanges no heat.
 *
 * @param area [m2], one per patch
 *
 * Accuracy: rows sum to A_i and S_ij = S_ji to rounding. `rayError` is measured from how far the two estimates of
 * each pair lie apart, over pairs with a view factor above 0.01.
 * Source: scaling [sinkhorn-1967]
 */
export function exchangeFromCounts(counts: RayCounts, area: Float64Array): Exchange {
  const n = area.length;
  const { rowStart, column, count, arrived } = counts;
  const weight = Float64Array.from(area, (a, i) => (a > 0 ? arrived[i] / a : 0));

  // The transposed counts, columns rising as well.
  const backStart = new Int32Array(n + 1);
  for (const j of column) backStart[j + 1] = backStart[j + 1] + 1;
  for (let i = 0; i < n; i++) backStart[i + 1] = backStart[i + 1] + backStart[i];
  const next = backStart.slice(0, n);
  const backColumn = new Int32Array(column.length);
  const backCount = new Int32Array(column.length);
  for (let i = 0; i < n; i++) {
    for (let k = rowStart[i]; k < rowStart[i + 1]; k++) {
      const at = next[column[k]];
      next[column[k]] = at + 1;
      backColumn[at] = i;
      backCount[at] = count[k]!;
    }
  }

  const start = new Int32Array(n + 1);
  const most = 2 * column.length + n;
  const outColumn = new Int32Array(most);
  const outValue = new Float64Array(most);
  const spread: number[] = [];
  let used = 0;
  for (let i = 0; i < n; i++) {
    let own = rowStart[i];
    let back = backStart[i];
    const ownEnd = rowStart[i + 1];
    const backEnd = backStart[i + 1];
    let diagonal = false;
    while (own < ownEnd || back < backEnd) {
      const a = own < ownEnd ? column[own] : n;
      const b = back < backEnd ? backColumn[back] : n;
      const j = Math.min(a, b);
      const seen = a === j ? count[own++] : 0;
      const seenBack = b === j ? backCount[back++] : 0;
      if (j > i && !diagonal) {
        outColumn[used] = i;
        outValue[used++] = 0;
        diagonal = true;
      }
      // n/A times the estimate A count / n is the count itself: the weighted mean is total counts over total weight.
      const weights = weight[i] + weight[j];
      outColumn[used] = j;
      outValue[used] = (seen + (i === j ? seen : seenBack)) / weights;
      diagonal ||= j === i;
      if (j > i && arrived[i] > 0 && arrived[j] > 0) {
        const factor = outValue[used] / Math.max(area[i], area[j]);
        if (factor > 0.01) {
          const apart = seen / weight[i] - seenBack / weight[j];
          // Variances k / weight: k from the two estimates' distance, then of their weighted mean.
          const k = (apart * apart) / (1 / weight[i] + 1 / weight[j]);
          spread.push(Math.sqrt(k / weights) / Math.max(area[i], area[j]));
        }
      }
      used++;
    }
    if (!diagonal) {
      outColumn[used] = i;
      outValue[used++] = 0;
    }
    start[i + 1] = used;
  }
  const exchange: Exchange = {
    rowStart: start,
    column: outColumn.slice(0, used),
    exchangeArea: outValue.slice(0, used),
    rayError: medianOfMagnitudes(spread),
    rays: counts.traced,
  };
  closeRows(exchange, area);
  return exchange;
}

/** Standard deviation from the median of magnitudes of normal deviates. */
function medianOfMagnitudes(values: number[]): number {
  if (values.length === 0) return 0;
  values.sort((a, b) => a - b);
  return values[values.length >> 1] / 0.6745;
}

/** Scales rows and columns alike, in place, until each row sums to its area. */
function closeRows(exchange: Exchange, area: Float64Array): void {
  const { rowStart, column, exchangeArea } = exchange;
  const n = area.length;
  const scale = new Float64Array(n).fill(1);
  for (let round = 0; round < 60; round++) {
    let worst = 0;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let k = rowStart[i]; k < rowStart[i + 1]; k++) {
        sum += exchangeArea[k] * scale[column[k]];
      }
      sum *= scale[i];
      if (!(sum > 0)) continue;
      const ratio = area[i] / sum;
      worst = Math.max(worst, Math.abs(ratio - 1));
      // Half the correction, since the partner rows take the other half.
      scale[i] = scale[i] * Math.sqrt(Math.min(4, Math.max(0.25, ratio)));
    }
    if (worst < 1e-7) break;
  }
  // Last, exactly: never above the area, the remainder on the diagonal.
  const over = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let k = rowStart[i]; k < rowStart[i + 1]; k++) {
      const value = exchangeArea[k] * scale[i] * scale[column[k]];
      exchangeArea[k] = value;
      sum += value;
    }
    over[i] = sum > 0 ? Math.min(1, area[i] / sum) : 1;
  }
  for (let i = 0; i < n; i++) {
    let rest = area[i];
    let diagonal = -1;
    for (let k = rowStart[i]; k < rowStart[i + 1]; k++) {
      const j = column[k];
      exchangeArea[k] = exchangeArea[k] * Math.min(over[i], over[j]);
      if (j === i) diagonal = k;
      else rest -= exchangeArea[k];
    }
    exchangeArea[diagonal] = Math.max(rest, 0);
  }
}
