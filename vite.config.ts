import { defineConfig } from 'vite';
import react from '@vitejs/plugin-react';
import { addinAssets, WorkerModules } from './src/build/addinAssets.ts';
import { ownFilesFirst } from './src/build/ownFilesFirst.ts';

const worker = new WorkerModules();

/** The add-in itself: static files for any https host. `npm run build`. */
export default defineConfig({
  root: 'taskpane',
  base: './',
  publicDir: false,
  plugins: [react(), addinAssets(worker), ownFilesFirst()],
  build: {
    outDir: '../dist',
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { taskpane: 'taskpane/taskpane.html', functions: 'functions/index.ts' },
      output: {
        // The manifest names functions.js, so that one keeps its plain name.
        entryFileNames: (chunk) => (chunk.name === 'functions' ? 'functions.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
  worker: { format: 'es', plugins: () => [worker.plugin()] },
});
