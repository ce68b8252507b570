/** Every sentence this room can say; the catalogue of each language must hold them all. */
export const noteKeys = [
  "schedule.dry",
  "schedule.last-water",
  "schedule.clay-water-quartz",
  "schedule.burn-out",
  "schedule.glaze-damp",
  "schedule.climb",
  "schedule.quartz-fired",
  "schedule.climb-on",
  "schedule.oils",
  "schedule.end",
  "schedule.end-hold",
  "schedule.note.label-first",
  "schedule.note.quartz-cooling",
  "schedule.note.bone-dry",
  "schedule.note.steam",
  "schedule.note.once-fired",
  "schedule.note.thick",
  "schedule.note.lustre-fumes",
] as const;

export type NoteKey = (typeof noteKeys)[number];

/**
 * A sentence to be put into words elsewhere: `key` names it, `values` fill it. The shape is that of the messages in
 * the checks, so that `say` in src/words takes both.
 */
export interface Note {
  readonly key: NoteKey;
  readonly values: Readonly<Record<string, { readonly value: number; readonly quantity: "temperature" }>>;
}

const temperature = (value: number): Note["values"][string] => ({ value, quantity: "temperature" });

/** A note with the temperatures its sentence may name. Source: [deer-howie-zussman] (changes in quartz) */
export function note(key: NoteKey, target?: number): Note {
  return {
    key,
    values: {
      // Quartz from its low to its high form, 573 C, and cristobalite, about 226 C.
      quartz: temperature(846.15),
      cristobalite: temperature(499.15),
      ...(target === undefined ? {} : { target: temperature(target) }),
    },
  };
}
