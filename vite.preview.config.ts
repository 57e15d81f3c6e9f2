import { defineConfig } from 'vite';
import react from '@vitejs/plugin-react';

/** The local preview: an embedded spreadsheet that stands in for Excel. Never shipped. */
export default defineConfig({
  root: 'taskpane',
  base: './',
  publicDir: false,
  plugins: [react()],
  build: {
    outDir: '../dist-preview',
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: 9000,
    rolldownOptions: {
      input: { preview: 'taskpane/preview.html', shell: 'taskpane/preview/shell.ts' },
      output: {
        entryFileNames: (chunk) => (chunk.name === 'shell' ? 'shell.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
});
