import { describe, expect, test } from "vitest";
import { progressOn } from "./progress.ts";
import { paragraph, table, wrap } from "./table.ts";

describe("tables", () => {
  test("align, keep 80 columns and break the last one's words", () => {
    const words = "word ".repeat(40).trim();
    const lines = table([{ title: "No.", align: "right" }, { title: "Name" }, { title: "Says" }], [["1", "a", words]]);
    expect(lines[0]).toBe("No.  Name  Says");
    expect(lines[1].startsWith("  1  a     word word")).toBe(true);
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    expect(lines.slice(1).join(" ").match(/word/g)).toHaveLength(40);
  });

  test("a word that is too long stands alone, whole", () => {
    expect(wrap(`a ${"x".repeat(20)} b`, 10)).toEqual(["a", "x".repeat(20), "b"]);
    expect(paragraph("- ", "one two")).toEqual(["- one two"]);
  });
});

describe("progress", () => {
  test("keeps quiet for a second, then tells; a screen's line is taken away again", async () => {
    let said = "";
    const progress = progressOn({ err: (text) => (said += text), isScreen: true });
    progress.tell(0.1, "packing");
    expect(said).toBe("");
    await new Promise((resolve) => setTimeout(resolve, 1050));
    progress.tell(0.5, "packing shelves");
    expect(said).toBe("\r 50 %  packing shelves");
    progress.tell(0.6, "done");
    expect(said.endsWith("\r 60 %  done           ")).toBe(true);
    progress.clear();
    expect(said.endsWith(`\r${" ".repeat(11)}\r`)).toBe(true);
  });
});
