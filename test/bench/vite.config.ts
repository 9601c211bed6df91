import { defineConfig } from "vite";

// Measured is what people run: the built code. Run from its sources, the same analysis takes half as long again.
export default defineConfig({
  root: import.meta.dirname,
  build: {
    ssr: true,
    outDir: "../../build/bench",
    emptyOutDir: true,
    target: "node20",
    minify: false,
    rolldownOptions: {
      input: ["bench.ts", "explore-one.ts"].map((file) => `${import.meta.dirname}/${file}`),
      output: { entryFileNames: "[name].mjs", chunkFileNames: "[name].mjs" },
    },
  },
  ssr: { noExternal: true },
});
