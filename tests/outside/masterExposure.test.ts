/** Blaze, Rights amplification in master-keyed mechanical locks, IEEE Security & Privacy 1(2):24–32, 2003, section 2.2.2. */
import { expect, it } from 'vitest';
import { masterExposure } from '../../src/keying/index.ts';
import { plainSpec } from '../support/systems.ts';
import { EXPOSURES } from './values.ts';

it.each(EXPOSURES)(
  'a master of %i positions and %i depths falls to %i trials',
  (positions, depths, trials) => {
    expect(masterExposure(plainSpec({ positions, depths, increment: 0.015, macs: 4 }))).toBe(trials);
  },
);
