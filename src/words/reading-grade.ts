/**
 * School grade a text asks for [US grade]: 6 is easy for most grown-ups.
 *
 * 0.39 x words per sentence + 11.8 x syllables per word - 15.59. Syllables are counted by groups of vowels, a silent
 * final e left out; a number counts as one syllable a digit at most three, a unit as one.
 *
 * @param text  plain sentences that end in . ? or !
 *
 * Accuracy: the syllable count is a rule of thumb; over a paragraph the grade is within about one of a count by hand.
 * Source: [kincaid-1975]
 */
export function readingGrade(text: string): number {
  const sentences = Math.max(text.split(/[.?!](?:\s|$)/).filter((part) => /\p{L}/u.test(part)).length, 1);
  const words = text.split(/[^\p{L}\p{N}’'-]+/u).filter((word) => word !== "");
  const syllables = words.reduce((sum, word) => sum + syllablesOf(word), 0);
  return (0.39 * words.length) / sentences + (11.8 * syllables) / Math.max(words.length, 1) - 15.59;
}

export function syllablesOf(word: string): number {
  if (/^\p{N}+/u.test(word)) return Math.min(word.length, 3);
  const letters = word.toLowerCase().replace(/[^a-z]/g, "");
  const groups = letters
    .replace(/(?:(?<!s|x|z|c|g|ch|sh|[laeiouy])es|(?<![dt])ed|(?<![laeiouy])e)$/, "")
    .match(/[aeiouy]+/g);
  return Math.max(groups?.length ?? 1, 1);
}
