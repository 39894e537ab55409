import { defineConfig } from "vitest/config";

// One script, one style sheet, the faces beside them: nothing inline, so that the page's policy
// can forbid it.
export default defineConfig({
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  server: { fs: { allow: [".."] } },
  build: {
    target: "es2022",
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    modulePreload: false,
    reportCompressedSize: true,
    rollupOptions: {
      output: {
        entryFileNames: "assets/spadework-[hash].js",
        chunkFileNames: "assets/[name]-[hash].js",
        assetFileNames: "assets/[name]-[hash][extname]",
      },
    },
  },
  test: { include: ["src/**/*.test.ts"] },
});
