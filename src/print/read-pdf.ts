import { inflateSync } from "node:zlib";

/** What a test can read back from a sheet's PDF. Reads what pdfkit writes, not every PDF. */
export interface ReadPdf {
  readonly pages: readonly {
    readonly width: number;
    readonly height: number;
    /** Letters in the order they are drawn; a new line where the pen goes up or down, a space where it jumps along. */
    readonly text: string;
    /** Type sizes used. */
    readonly sizes: readonly number[];
    /** Operators of the page's drawing, each once. */
    readonly operators: readonly string[];
  }[];
  /** Names of fonts that lie in the file. */
  readonly embedded: readonly string[];
  readonly images: number;
}

export function readPdf(bytes: Uint8Array): ReadPdf {
  const file = Buffer.from(bytes).toString("latin1");
  const objects = new Map<string, { readonly head: string; readonly stream: string }>();
  for (const [, number, body] of file.matchAll(/(\d+) 0 obj\n([\s\S]*?)\nendobj/g)) {
    objects.set(number, split(body));
  }
  const object = (reference: string | undefined): { head: string; stream: string } =>
    objects.get(reference ?? "") ?? { head: "", stream: "" };
  const all = [...objects.values()];
  return {
    pages: all
      .filter(({ head }) => /\/Type \/Page\b(?!s)/.test(head))
      .map(({ head }) => {
        const [, width, height] = /MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(head) ?? [];
        const resources = object(/Resources (\d+) 0 R/.exec(head)?.[1]).head;
        const fonts = new Map(
          [...(/\/Font\s*<<(.*?)>>/s.exec(resources)?.[1] ?? "").matchAll(/\/(\w+) (\d+) 0 R/g)].map(
            ([, name, reference]) => {
              const unicode = /ToUnicode (\d+) 0 R/.exec(object(reference).head)?.[1];
              return [name, lettersOf(object(unicode).stream)] as const;
            },
          ),
        );
        const content = object(/Contents (\d+) 0 R/.exec(head)?.[1]).stream;
        const { text, sizes, operators } = contentOf(content, fonts);
        return { width: Number(width), height: Number(height), text, sizes, operators };
      }),
    embedded: all
      .filter(({ head }) => /FontFile[23]? \d+ 0 R/.test(head))
      .map(({ head }) => /FontName \/\w+\+([\w-]+)/.exec(head)?.[1] ?? ""),
    images: all.filter(({ head }) => /Subtype \/Image/.test(head)).length,
  };
}

function split(body: string): { readonly head: string; readonly stream: string } {
  const at = body.indexOf("stream\n");
  if (at < 0) return { head: body, stream: "" };
  const head = body.slice(0, at);
  const raw = Buffer.from(body.slice(at + 7, body.lastIndexOf("\nendstream")), "latin1");
  return { head, stream: head.includes("FlateDecode") ? inflateSync(raw).toString("latin1") : raw.toString("latin1") };
}

/** Which letter each glyph of a font is: its ToUnicode table. */
function lettersOf(table: string): ReadonlyMap<number, string> {
  const letters = new Map<number, string>();
  for (const [, first, list] of table.matchAll(/<([\da-f]{4})> <[\da-f]{4}> \[(.*?)\]/gis)) {
    [...list.matchAll(/<([\da-f ]*)>/gi)].forEach(([, codes], i) => {
      const units = codes.replaceAll(" ", "").match(/.{4}/g) ?? [];
      letters.set(parseInt(first, 16) + i, String.fromCharCode(...units.map((unit) => parseInt(unit, 16))));
    });
  }
  return letters;
}

function contentOf(
  content: string,
  fonts: ReadonlyMap<string, ReadonlyMap<number, string>>,
): { readonly text: string; readonly sizes: readonly number[]; readonly operators: readonly string[] } {
  let text = "";
  let pen = { x: 0, y: "" };
  let letters: ReadonlyMap<number, string> = new Map();
  const sizes = new Set<number>();
  const operators = new Set<string>();
  for (const line of content.split("\n")) {
    const operator = /([A-Za-z*]+)$/.exec(line)?.[1];
    if (operator) operators.add(operator);
    const font = /^\/(\w+) ([\d.]+) Tf$/.exec(line);
    if (font) {
      letters = fonts.get(font[1]) ?? new Map();
      sizes.add(Number(font[2]));
    }
    const [, x, y] = /([-\d.]+) ([-\d.]+) Tm$/.exec(line) ?? [];
    if (x !== undefined && y !== undefined) {
      if (y !== pen.y) text += "\n";
      else if (Number(x) - pen.x > 30) text += " ";
      pen = { x: Number(x), y };
    }
    for (const [, glyphs] of operator === "Tj" || operator === "TJ" ? line.matchAll(/<([\da-f]+)>/gi) : []) {
      for (const [glyph] of glyphs.matchAll(/.{4}/g)) text += letters.get(parseInt(glyph, 16)) ?? "\ufffd";
    }
  }
  return { text, sizes: [...sizes].sort((a, b) => a - b), operators: [...operators] };
}
