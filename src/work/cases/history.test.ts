import { describe, expect, it } from "vitest";
import { historyCase } from "./history.ts";

const fault = (text: string): string => {
  const result = historyCase(text);
  if (result.ok) throw new Error("expected a fault");
  return result.failure;
};

describe("history case", () => {
  // [orton-chart]: cone 6, self-supporting, 60 C/h, 1222 C.
  it("answers for a plain ramp to a published end point", () => {
    const result = historyCase(`\uFEFFt_s,temp_c\r\n0,22\r\n${1200 * 60},1222\r\n\r\n`);
    expect(result.ok).toBe(true);
    if (!result.ok) return;
    expect(result.value.cone_equivalent).toBe("6");
    expect(result.value.position).toBeCloseTo(5, 1);
    expect(Object.keys(result.value.alpha)).toHaveLength(38);
    expect(result.value.alpha["06"]).toBeGreaterThan(1);
    expect(result.value.alpha["10"]).toBeLessThan(1);
    expect(result.value.band.low).toBeLessThan(result.value.position);
  });

  it("finds the columns by name and passes over others", () => {
    expect(historyCase("power,temp_c,t_s\n1,20,0\n1,1000,36000").ok).toBe(true);
  });

  it.each([
    ["", /^line 1: The file is empty/],
    ["time,temp\n0,20", /^line 1: The first line has no column t_s.*Make the first line t_s,temp_c/],
    ["t_s;temp_c\n0;20", /semicolons/],
    ["t_s,temp_c\n0,20\n60,998,5", /^line 3: There are 3 values where the first line names 2.*998.5, not 998,5/],
    ["t_s,temp_c\n0,20\n60,err", /^line 3: temp_c is "err", not a number/],
    ["t_s,temp_c\n0,20\n60,", /^line 3: temp_c is "", not a number/],
    ["t_s,temp_c\n0,20\n1:00,50", /^line 3: t_s is "1:00", not a number/],
    ["t_s,temp_c\n0,20\n60,21\n60,22", /^line 4: t_s is 60, not later than 60/],
    ["t_s,temp_c\n0,20\n60,2500", /^line 3: temp_c is 2500, outside -50 to 1800 C/],
    ["t_s,temp_c\n0,20", /^line 2: There is 1 reading; a history needs 2/],
  ])("names line and remedy for %j", (text, expected) => {
    expect(fault(text)).toMatch(expected);
    expect(fault(text)).not.toContain("\n");
  });
});
