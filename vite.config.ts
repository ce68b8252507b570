import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

/** The page. Served by src/server under a policy that allows own scripts and styles from files only, none inline. */
export default defineConfig({
  root: "src/web",
  plugins: [react()],
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    target: "es2022",
    // Inlined data: addresses would need a wider policy, and fonts load earlier as files of their own.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // What counts is what the first screen needs: tests/browser/weight.test.ts weighs it.
    chunkSizeWarningLimit: 1000,
    rollupOptions: { input: "src/web/index.html" },
  },
  server: {
    port: 5173,
    strictPort: false,
    // `npx vite` beside a running `npm start`: set SPYHOLE_SERVER to the address it printed.
    proxy: { "/api": process.env["SPYHOLE_SERVER"] ?? "http://127.0.0.1:4170" },
  },
});
