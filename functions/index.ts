/**
 * The script that Excel loads: ties every id of functions.json to its function, at once while the script runs, since
 * Excel gives up on functions that turn up later.
 */
import { FUNCTIONS } from './functions.ts';

for (const [id, run] of Object.entries(FUNCTIONS)) CustomFunctions.associate(id, run);
