import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { viteSingleFile } from "vite-plugin-singlefile";

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react(), viteSingleFile()],
  worker: { format: "iife" },
  server: { fs: { allow: ["../.."] } },
  build: { target: "es2022", outDir: "dist", emptyOutDir: true },
});
