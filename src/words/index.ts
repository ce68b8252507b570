export type { Caution, CautionStep } from "./caution.ts";
export {
  chanceWords,
  coneDigits,
  coneFire,
  coneName,
  coneSpoken,
  coneWords,
  giveOrTakeWords,
  offsetWords,
  spreadWords,
} from "./cone.ts";
export { english } from "./english/index.ts";
export type { SentenceKey } from "./english/sentences.ts";
export type { Language } from "./language.ts";
export { formatAgainst, formatBareLength, formatLength, formatPost, type LengthUse } from "./length.ts";
export { say, type Saying } from "./message.ts";
export { formatInchParts, formatNumber, formatQuarters, formatShare, thinSpace } from "./number.ts";
export {
  formatBareTemperature,
  formatEnergy,
  formatMass,
  formatMassAgainst,
  formatMoney,
  formatMoneyBand,
  formatPower,
  formatRate,
  formatTemperature,
  formatTemperatureDifference,
} from "./quantity.ts";
export { formatDay, formatDuration, formatDurationBand, formatMoment, formatTime } from "./time.ts";
export {
  adviceWords,
  coneQuestionWords,
  fallsBehindWords,
  moveWords,
  scheduleFaultWords,
  type MoveNames,
} from "./schedule.ts";
export { inchUnits, metricUnits, type UnitPreference } from "./units.ts";

import { english } from "./english/index.ts";

/** Cautions by the step of the job where each must stand: fixed English text, shown whole. */
export const cautions = english.cautions;
