import type { Plugin } from "vite";

/** Write the list of the build's files, and a name made from it, in front of the service worker. */
export function keptFiles(): Plugin {
  return {
    name: "kept-files",
    apply: "build",
    generateBundle: {
      order: "post",
      async handler(_, bundle) {
        const { "sw.js": worker, "index.html": index, ...others } = bundle;
        if (worker?.type !== "chunk" || index?.type !== "asset") return this.error("the build lacks sw.js or index.html");
        const files = ["/", ...Object.keys(others).map((name) => `/${name}`).sort()];
        const name = `page ${await shortHash([...files, String(index.source), worker.code].join("\n"))}`;
        worker.code = `const KEPT_FILES=${JSON.stringify(files)},KEPT_AS=${JSON.stringify(name)};\n${worker.code}`;
      },
    },
  };
}

/** All files but the page carry a hash of their bytes in their names, so names and page stand for the whole build. */
async function shortHash(text: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return Array.from(new Uint8Array(digest).slice(0, 8), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
