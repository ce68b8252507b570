import type tokens from "./tokens.json";

type Tokens = typeof tokens;
type Theme = Tokens["colour"]["light"];

/** Heat classes from coldest to hottest, as tokens.json names them. */
const heatNames = ["cold3", "cold2", "cold1", "wanted", "hot1", "hot2", "hot3"] as const;

const declare = (entries: readonly (readonly [string, string])[], indent: string): string =>
  entries.map(([name, value]) => `${indent}--${name}: ${value};\n`).join("");

function themeEntries(theme: Theme): (readonly [string, string])[] {
  return [
    ...Object.entries(theme.ui),
    ...Object.entries(theme.material).map(([name, value]) => [name === "ol" ? "outline" : name, value] as const),
    ...heatNames.flatMap((name) => {
      const heat = theme.heat[name];
      return [
        [`heat-${name}`, heat.fill],
        [`heat-${name}-label`, heat.label],
        [`heat-${name}-pattern`, heat.patternInk],
      ] as const;
    }),
  ];
}

/** The reader's own colours: fills go, hatches, outlines and text stay (the pattern is what tells hot from cold). */
function forcedEntries(theme: Theme): (readonly [string, string])[] {
  const ground = new Set([
    "ground",
    "surface",
    "raise",
    "band",
    "band0",
    "brick",
    "chamber",
    "jacket",
    "shelf",
    "halo",
  ]);
  const ownText: Record<string, string> = {
    accent: "Highlight",
    "accent-ink": "HighlightText",
    "accent-wash": "Canvas",
    brickline: "GrayText",
    post: "Canvas",
  };
  return themeEntries(theme).map(([name]) => {
    if (ownText[name] !== undefined) return [name, ownText[name]] as const;
    if (ground.has(name)) return [name, "Canvas"] as const;
    if (name.startsWith("heat-") && !name.endsWith("-label") && !name.endsWith("-pattern")) return [name, "Canvas"];
    return [name, name === "heat-wanted-pattern" ? "transparent" : "CanvasText"] as const;
  });
}

/** Pixel sizes as rem, so that the reader's own text size counts (16 px = 1 rem). */
const rem = (pixels: number): string => `${pixels / 16}rem`;

function sizes(tokens: Tokens): (readonly [string, string])[] {
  const { desk } = tokens.size;
  return [
    ["font-display", `"${tokens.font.display.family}", "Rockwell", serif`],
    ["font-text", `"${tokens.font.text.family}", "Verdana", sans-serif`],
    ["text-small", rem(desk.small)],
    ["text-body", rem(desk.body)],
    ["text-lead", rem(desk.lead)],
    ["text-h3", rem(desk.h3)],
    ["text-h2", rem(desk.h2)],
    ["text-h1", rem(desk.h1)],
    ["text-result", rem(desk.result)],
    ["leading", String(tokens.size.lineHeight.text)],
    ["leading-finding", String(tokens.size.lineHeight.finding)],
    ["leading-display", String(tokens.size.lineHeight.display)],
    ...tokens.space.scale.map((step, index) => [`space-${index + 1}`, `${step}px`] as const),
    ["radius-control", `${tokens.radius.control}px`],
    ["radius-card", `${tokens.radius.card}px`],
    ["target", `${tokens.target.desk}px`],
    ["focus-width", `${tokens.stroke.focus}px`],
    ["motion-fast", tokens.motion.fast],
    ["motion-move", tokens.motion.move],
  ];
}

function phoneSizes(tokens: Tokens): (readonly [string, string])[] {
  const { phone } = tokens.size;
  return [
    ["text-small", rem(phone.min)],
    ["text-body", rem(phone.body)],
    ["text-lead", rem(phone.body)],
    ["text-result", rem(phone.result)],
  ];
}

function kilnRoomSizes(tokens: Tokens): (readonly [string, string])[] {
  const { kilnRoom } = tokens.size;
  return [
    ["text-small", rem(kilnRoom.min)],
    ["text-body", rem(kilnRoom.body)],
    ["text-lead", rem(kilnRoom.body)],
    ["text-h3", rem(kilnRoom.body)],
    ["text-h2", rem(kilnRoom.h2)],
    ["text-h1", rem(kilnRoom.h1)],
    ["target", `${tokens.target.kilnRoom}px`],
  ];
}

const block = (selector: string, body: string, indent = ""): string => `${indent}${selector} {\n${body}${indent}}\n`;

/**
 * The style sheet of custom properties for tokens.json: light, dark (by the system's wish, or by `data-theme` on
 * the root), the reader's forced colours, larger text on phones and in the kiln room, no motion on request.
 *
 * tokens.css is its checked-in result; tokens-css.test.ts compares the two (`vitest -u` writes it anew).
 */
export function tokensCss(tokens: Tokens): string {
  const light =
    declare([["color-scheme", "light"]], "  ").replace("--", "") + declare(themeEntries(tokens.colour.light), "  ");
  const dark = (indent: string): string =>
    declare([["color-scheme", "dark"]], indent).replace("--", "") + declare(themeEntries(tokens.colour.dark), indent);
  const still = declare(
    [
      ["motion-fast", "0s"],
      ["motion-move", "0s"],
    ],
    "    ",
  );
  return [
    "/* Made from tokens.json by tokens-css.ts: change it there. */\n",
    block(":root", light + declare(sizes(tokens), "  ")),
    block(':root[data-theme="dark"]', dark("  ")),
    "@media (prefers-color-scheme: dark) {\n",
    block(':root:not([data-theme="light"])', dark("    "), "  "),
    "}\n",
    "@media (max-width: 599px) {\n",
    block(":root", declare(phoneSizes(tokens), "    "), "  "),
    "}\n",
    block('[data-mode="kiln-room"]', declare(kilnRoomSizes(tokens), "  ")),
    "@media (prefers-reduced-motion: reduce) {\n",
    block(":root", still, "  "),
    "}\n",
    "@media (forced-colors: active) {\n",
    // As specific as the themes above, so that it wins over both.
    block(":root:root:root", declare(forcedEntries(tokens.colour.light), "    "), "  "),
    "}\n",
  ].join("");
}
