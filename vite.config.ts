import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { pagePolicy } from "./scripts/contentSecurityPolicy.mjs";
import { SHARE_ADDRESS, SHARE_FIELD } from "./src/ui/Packs/sharedPack.ts";

/** Sets the policy in the built page; the development server needs inline scripts and goes without. */
const contentSecurityPolicy: Plugin = {
  name: "content-security-policy",
  apply: "build",
  transformIndexHtml: () => [
    {
      tag: "meta",
      attrs: { "http-equiv": "Content-Security-Policy", content: pagePolicy },
      injectTo: "head-prepend",
    },
  ],
};

export default defineConfig({
  plugins: [
    react(),
    contentSecurityPolicy,
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src/ui/serviceWorker",
      filename: "sw.ts",
      injectRegister: null,
      includeManifestIcons: false,
      injectManifest: {
        globPatterns: ["**/*.{html,js,css,woff2,woff,ttf,svg,png,json}"],
        globIgnores: ["**/.vite/**"],
      },
      manifest: {
        id: "/",
        name: "Latchline",
        short_name: "Latchline",
        description:
          "Change out a gas-lift valve by wireline: plan it, run it, hand the well back.",
        start_url: "/",
        display: "standalone",
        background_color: "#f6f1e4",
        theme_color: "#f6f1e4",
        // A pack that is opened from the system's files, or shared by another app, lands on the board.
        file_handlers: [{ action: "/", accept: { "application/json": [".json"] } }],
        share_target: {
          action: SHARE_ADDRESS,
          method: "POST",
          enctype: "multipart/form-data",
          params: {
            files: [
              {
                name: SHARE_FIELD,
                accept: ["application/json", ".json", "text/plain", ".txt"],
              },
            ],
          },
        },
        icons: [
          { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icon-512.png", sizes: "512x512", type: "image/png" },
          {
            src: "/icon-maskable-512.png",
            sizes: "512x512",
            type: "image/png",
            purpose: "maskable",
          },
        ],
      },
    }),
  ],
  build: {
    manifest: true,
    target: "es2022",
    // Fonts and pictures stay files: the policy allows no data addresses.
    assetsInlineLimit: 0,
    rolldownOptions: {
      output: {
        // What the run sheet stands on is one file: split by who else uses each part, it would be larger packed.
        codeSplitting: { groups: [{ name: "start", tags: ["$initial"] }] },
      },
    },
  },
  server: { host: "localhost", port: 5173 },
});
