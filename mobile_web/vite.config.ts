import { defineConfig } from "vite";

export default defineConfig({
  build: {
    outDir: "../server/lastbolt/web/static",
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: ["es2022", "safari16"],
  },
  worker: { format: "es" },
  server: { proxy: { "/api": "http://127.0.0.1:8000" } },
});
