import { defineConfig } from "vite";

export default defineConfig({
  root: import.meta.dirname,
  build: {
    ssr: "src/main.ts",
    outDir: "dist",
    target: "node20",
    minify: false,
    rolldownOptions: { output: { entryFileNames: "loomproof.mjs", codeSplitting: false } },
  },
  ssr: { noExternal: true },
});
