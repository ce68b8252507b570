import type { Forecast } from "#engine/firing";
import { hashOf } from "#jobs";
import type { ForecastResult } from "#protocol";
import type { SettingRecord, StudioDocument } from "#records";
import type { StudioStore } from "#store";
import { forecastKey } from "#work";

/** The best forecast that is known for a setting exactly as it stands; null if none was made since it changed. */
export async function knownForecast(
  store: StudioStore,
  document: StudioDocument,
  setting: SettingRecord,
): Promise<Forecast | null> {
  for (const grade of ["full", "preview"] as const) {
    const kept = await store.cached(forecastKey(document, setting, grade, hashOf));
    if (kept !== null) return (JSON.parse(kept) as ForecastResult).forecast;
  }
  return null;
}
