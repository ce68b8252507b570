/*
 * English. A calm colleague at the next bench: you and we, short sentences, active, no blame. What is wrong, then why
 * it matters; the advice says what to do. School grade 6 (words.test.ts). Gaps are explained at `say` in message.ts.
 */
export const sentences = {
  "wait.too-wide": "It is too wide for any shelf here.",
  "wait.too-tall": "It is too tall for this kiln.",
  "wait.no-room": "There is no room left in this load.",
  "wait.later-promise": "Pieces with an earlier promise go first.",
  "wait.other-class": "It needs a different firing.",
  "wait.too-heavy": "It is too heavy for a shelf here.",
} as const;

export type SentenceKey = keyof typeof sentences;
