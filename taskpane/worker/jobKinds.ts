/** What is special about some jobs. Apart from the jobs themselves, which the pane loads only when it has to run one. */
import type { JobName } from './jobs.ts';

/** Jobs whose part is worth having: stopped, they give what they have and say that it is a part. */
export const GIVE_PART: ReadonlySet<JobName> = new Set<JobName>(['audit']);

/**
 * Jobs whose rows cost more to hand over to a worker and back than to read: for 100,000 codes half a second of work
 * stood against four of copying. They run beside the pane's own work, in short slices.
 */
export const IN_SLICES: ReadonlySet<JobName> = new Set<JobName>(['codes']);

/** What a worker is told once its order runs. */
export const STOP = 'stop';
