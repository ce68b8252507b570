import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import {
  adviceKeys,
  checkLoad,
  findingKeys,
  lookYourselfRules,
  ruleIds,
  type Finding,
  type Message,
  type MessageValue,
} from "#engine/checks";
import { alderLoad, tumblerShape } from "../engine/checks/alder-fixture.ts";
import { cautions, english, inchUnits, metricUnits, say, type SentenceKey } from "./index.ts";
import { readingGrade, syllablesOf } from "./reading-grade.ts";

const plain = (text: string): string => text.replaceAll("\u202f", " ");
const keys = Object.keys(english.sentences) as SentenceKey[];
const spoken = keys.filter((key) => !key.startsWith("sheet."));

/** A value that fits each gap of a sentence, so that every sentence can be said without the rule that says it. */
function valuesFor(sentence: string, count: number): Record<string, MessageValue> {
  const values: Record<string, MessageValue> = {};
  for (const [, name = "", form = ""] of sentence.matchAll(/\{(\w+)([:#]?\w*)/g)) {
    if (form.startsWith("#")) values[name] = count;
    else if (/:(against|gap|post|bare)/.test(form)) values[name] = { value: 0.047, quantity: "length" };
    else if (/:(cone|full|fire|spell)/.test(form)) values[name] = "06";
    else if (/^(over|off|by)$/.test(name)) values[name] ??= { value: 0.008, quantity: "length" };
    else if (name === "limit" || name === "measured") values[name] ??= { value: 0.05, quantity: "length" };
    else if (/^(piece|a|b|blocker)$/.test(name)) values[name] = { pieceId: "p1", name: "side plate" };
    else if (/^(peak|target|quartz|cristobalite)$/.test(name))
      values[name] = { value: 1373.15, quantity: "temperature" };
    else values[name] ??= /^(shelf|other|below|count)$/.test(name) ? (name === "count" ? count : 3) : "glaze 06";
  }
  return values;
}
const example = (key: SentenceKey, count = 2, units = metricUnits): string =>
  plain(say({ key, values: valuesFor(english.sentences[key], count) }, units));

describe("the catalogue", () => {
  test("holds every sentence the checks can say, and no other of theirs", () => {
    const wanted = [
      ...findingKeys,
      ...adviceKeys,
      ...ruleIds.map((rule) => `rule.${rule}`),
      ...lookYourselfRules.map((rule) => `look.${rule}`),
    ];
    expect(keys.filter((key) => /^(found|do|rule|look)\./.test(key)).toSorted()).toEqual(wanted.toSorted());
  });

  test("every key is said somewhere in the checks", () => {
    const folder = path.resolve(import.meta.dirname, "../engine/checks");
    const code = [
      "shelf-rules",
      "post-rules",
      "post-choices",
      "piece-rules",
      "piece-moves",
      "sensor-rules",
      "class-rules",
      "cone-rules",
      "mass-by-height",
      "view-rules",
    ]
      .map((name) => readFileSync(path.join(folder, `${name}.ts`), "utf8"))
      .join("\n");
    expect([...findingKeys, ...adviceKeys].filter((key) => !code.includes(`"${key}"`))).toEqual([]);
  });

  // Labels of the sheet are not sentences: print's own tests read them on the page.
  test.each(spoken)("%s can be said for one and for many, in both units", (key) => {
    for (const count of [1, 2]) {
      for (const units of [metricUnits, inchUnits]) {
        const text = example(key, count, units);
        expect(text).not.toMatch(/[{}]|undefined|NaN|\[object/);
        expect(text).toMatch(/^[\p{Lu}\p{N}].*[.?]$/su);
        expect(text).not.toMatch(/!|please/i);
      }
    }
  });
});

describe("the tone", () => {
  // Source: [kincaid-1975]
  test("syllables and grade follow the formula on a sentence counted by hand", () => {
    expect(
      ["shelf", "sensor", "kiln", "elements", "table", "plates", "touches", "over", "needed", "fired"].map(syllablesOf),
    ).toEqual([1, 2, 1, 3, 2, 1, 2, 2, 2, 1]);
    // 2 sentences, 10 words, 7 + 5 syllables: 0.39 * 5 + 11.8 * 1.2 - 15.59.
    expect(readingGrade("The shelf is near the sensor. Use a longer post.")).toBeCloseTo(
      0.39 * 5 + 11.8 * 1.2 - 15.59,
      6,
    );
  });

  test("reads at grade 6 or below over all findings with their advice, and no sentence above 9", () => {
    const all = spoken.map((key) => example(key));
    expect(readingGrade(all.join(" "))).toBeLessThanOrEqual(4);
    const hard = spoken.map((key) => ({ key, grade: readingGrade(example(key)) })).filter(({ grade }) => grade > 9);
    expect(hard).toEqual([]);
  });

  test("cautions read at grade 8 or below over all", () => {
    expect(readingGrade(Object.values(cautions).flat().join(" "))).toBeLessThanOrEqual(8);
  });

  test("no engineering words", () => {
    const all = keys.map((key) => english.sentences[key]).join(" ");
    expect(all).not.toMatch(/view factor|emissiv|radiat|conduct|azimuth|footprint|cluster|parameter|invalid|error/i);
  });
});

describe("the brief's own sample messages", () => {
  const found = (rule: string, load: Parameters<typeof alderLoad>[0], extras = {}): Finding => {
    const finding = checkLoad(alderLoad(load), extras).findings.find((each) => each.rule === rule);
    if (!finding) throw new Error(`no ${rule}`);
    return finding;
  };
  const both = ({ message, advice }: Finding): string =>
    plain(`${say(message, metricUnits)} | ${say(advice, metricUnits)}`);

  test("digits", () => {
    expect(both(found("cone-set", {}, { coneSet: "6" }))).toBe(
      "Cone six (6) is set, but the ware is for cone oh-six (06). Six is high fire and would ruin this load. | Set the kiln to 06. Then check the digits once more.",
    );
  });

  test("sensor", () => {
    const message: Message = {
      key: "found.sensor-shelf",
      values: { shelf: 3, measured: { value: 0.047, quantity: "length" }, limit: { value: 0.05, quantity: "length" } },
    };
    expect(plain(say(message, metricUnits))).toBe(
      "Shelf 3 is too near the sensor. It is 47 mm from the tip and needs 50. The sensor would read low and the kiln would over-fire.",
    );
    expect(plain(say(message, inchUnits))).toBe(
      "Shelf 3 is too near the sensor. It is 1 7⁄8 in from the tip and needs 1 15⁄16. The sensor would read low and the kiln would over-fire.",
    );
    const advice: Message = { key: "do.posts", values: { shelf: 3, length: { value: 0.063, quantity: "length" } } };
    expect(plain(say(advice, metricUnits))).toBe("Put 63 mm (2½ in) posts under shelf 3.");
  });

  test("a foot over the edge, and which piece of many", () => {
    const finding = found("foot-overhang", {
      stands: [{ id: "t", shape: tumblerShape, shelfId: "s1", x: 0.233, y: 0 }],
      rules: { wareToWall: 0.01 },
    });
    expect(both(finding)).toMatch(
      /^The foot of the tumbler hangs over the shelf edge by 8 mm\. It could tip\. \| Move the tumbler 9 mm toward the middle\.$/,
    );
    expect(say(finding.message, metricUnits, { numberOf: () => ({ shelf: 1, number: 7 }) })).toMatch(
      /^The foot of the tumbler \(shelf 1, no\. 7\) hangs/,
    );
  });
});

describe("wrong calls", () => {
  test("are named", () => {
    expect(() => say({ key: "found.nothing", values: {} }, metricUnits)).toThrow(/message key is "found\.nothing"/);
    expect(() => say({ key: "do.posts", values: { shelf: 3 } }, metricUnits)).toThrow(
      /value "length" of message "do\.posts"/,
    );
    expect(() => say({ key: "do.set-schedule", values: { wanted: "6.3" } }, metricUnits)).toThrow(/a cone such as 06/);
    expect(() => say({ key: "do.add-post", values: { count: "two" } }, metricUnits)).toThrow(/a count/);
  });
});

describe("cautions", () => {
  // The product's safety text, word for word: a change here must be meant.
  test("are whole", () => {
    expect(cautions.forecast).toEqual(["An estimate. The witness cones decide."]);
    expect(cautions.watch).toContain("Wear proper shaded infrared glasses at the spyhole. Sunglasses do not protect.");
    const all = Object.values(cautions).flat().join(" ");
    for (const must of [
      "manual, local code and a licensed electrician come first",
      "breaker before you reach in",
      "Vent the fumes outdoors",
      "Never open a hot kiln",
      "Never leave the end of a firing unattended",
      "Never trust the automatic shut-off alone",
      "Never sweep dry",
      "goggles and a mask",
      "06 is not 6",
      "makers and codes differ",
      "about 50 °C",
    ]) {
      expect(all).toContain(must);
    }
    expect(all).not.toMatch(/is food-?safe/i);
  });
});
