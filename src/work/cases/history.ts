import { failure, success, type Outcome } from "#base";
import { coneEquivalentOf, readHistoryCsv, type LogSensor } from "#engine/heatwork";

/** What the case door prints for a temperature history. */
export interface HistoryCase {
  /** Nearest whole or half cone, as text. */
  readonly cone_equivalent: string;
  /** Place on the scale 06 = -6 … 01 = -1, 1 = 0, 2 = 1 [cones]. */
  readonly position: number;
  /** Ends of the band that holds 8 in 10 for a standard type K sensor, unless another is given [cones]. */
  readonly band: { readonly low: number; readonly high: number };
  readonly alpha: Readonly<Record<string, number>>;
}

/**
 * Cone equivalent of a log in CSV with columns `t_s,temp_c`.
 *
 * @returns the case's answer, or one line of text that names the line and the remedy
 */
export function historyCase(text: string, sensor?: LogSensor): Outcome<HistoryCase, string> {
  const log = readHistoryCsv(text);
  if (!log.ok) return failure(`line ${log.failure.line}: ${log.failure.problem} ${log.failure.remedy}`);
  const equivalent = coneEquivalentOf(log.value.times, log.value.temperatures, sensor);
  return success({
    cone_equivalent: equivalent.cone,
    position: equivalent.position,
    band: { low: equivalent.low, high: equivalent.high },
    alpha: Object.fromEntries(equivalent.alphas),
  });
}
