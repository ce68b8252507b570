// Compiles the AssemblyScript kernels and writes each as a module of base64 text, so that Node, worker and page load
// it alike without fetching a file. `--check` writes nothing and fails if what is checked in is not what comes out.
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { main as compile } from "assemblyscript/asc";

const root = fileURLToPath(new URL("..", import.meta.url));
const kernels = ["rays"];

/** The text of the module with kernel `name` in it. */
export async function buildKernel(name: string): Promise<string> {
  let bytes: Uint8Array = new Uint8Array(0);
  const complaints: string[] = [];
  const { error } = await compile(
    [
      `src/kernels/assembly/${name}.ts`,
      "--outFile",
      `${name}.wasm`,
      "-O3",
      "--converge",
      "--noAssert",
      "--enable",
      "simd",
      "--runtime",
      "stub",
      // The host lays out the memory itself, and grows it.
      "--initialMemory",
      "1",
    ],
    {
      readFile: (file: string, base: string) => {
        try {
          return readFileSync(new URL(file, `file://${root}${base === "." ? "" : `${base}/`}`), "utf8");
        } catch {
          return null;
        }
      },
      writeFile: (_, contents: string | Uint8Array) => {
        bytes = Buffer.from(contents);
      },
      listFiles: () => null,
      stderr: { write: (text: string | Uint8Array) => void complaints.push(text.toString()) },
    },
  );
  if (error) throw new Error(`${name}: ${error.message}\n${complaints.join("")}`);
  const text = Buffer.from(bytes)
    .toString("base64")
    .replace(/.{1,110}/g, '\n  "$&" +')
    .replace(/ \+$/, ";");
  return `// Made by tools/build-kernels.ts from assembly/${name}.ts: do not edit.\nexport const ${name}Wasm =${text}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const name of kernels) {
    const file = `${root}src/kernels/${name}-wasm.ts`;
    const text = await buildKernel(name);
    if (process.argv.includes("--check")) {
      if (readFileSync(file, "utf8") !== text) throw new Error(`${file} is stale: run npm run build:kernels`);
    } else writeFileSync(file, text);
  }
}
