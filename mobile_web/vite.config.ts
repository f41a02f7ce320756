import { defineConfig } from "vite";

import { keptFiles } from "./vite_sw.ts";

export default defineConfig({
  plugins: [keptFiles()],
  build: {
    outDir: "../server/lastbolt/web/static",
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: ["es2022", "safari16"],
    rolldownOptions: {
      input: { index: "index.html", sw: "src/sw/worker.ts" },
      output: { entryFileNames: ({ name }) => (name === "sw" ? "sw.js" : "assets/[name]-[hash].js") },
    },
  },
  worker: { format: "es" },
  server: { proxy: { "/api": "http://127.0.0.1:8000" } },
});
