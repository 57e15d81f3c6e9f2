import { describe, expect, it } from 'vitest';
import { entersKeyway, foldKeyway, shareKeyway } from '../../src/keying/keyways.ts';

// blanks that enter more than one keyway of a family: common practice
const ENTERS = { K1: ['K2'], ' k3 ': ['k2', 'K4'], k1: ['K5'] };

describe('which blank enters which keyway', () => {
  it('folds case and spaces, and lets a blank name stand for the only keyway', () => {
    expect(foldKeyway(' k1 ')).toBe('K1');
    expect(foldKeyway(undefined)).toBe('');
    expect(entersKeyway(undefined, ' k1', 'K1 ')).toBe(true);
    expect(entersKeyway(undefined, 'K1', 'K2')).toBe(false);
    for (const blank of [undefined, ' ']) {
      expect(entersKeyway(undefined, blank, 'K2')).toBe(true);
      expect(entersKeyway(undefined, 'K2', blank)).toBe(true);
    }
  });

  it('goes by the table one way only, rows of one blank taken together', () => {
    expect(entersKeyway(ENTERS, 'k1', 'k2')).toBe(true);
    expect(entersKeyway(ENTERS, 'K1', 'K5')).toBe(true);
    expect(entersKeyway(ENTERS, 'K3', 'K4')).toBe(true);
    expect(entersKeyway(ENTERS, 'K2', 'K1')).toBe(false);
    expect(entersKeyway(ENTERS, 'K1', 'K4')).toBe(false);
    expect(entersKeyway(ENTERS, 'K9', 'K1')).toBe(false);
  });
});

describe('whether two keys can meet in a cylinder', () => {
  it('is so where one enters the other’s, or both a third', () => {
    expect(shareKeyway(ENTERS, 'K1', 'K2')).toBe(true);
    expect(shareKeyway(ENTERS, 'K2', 'K1')).toBe(true);
    expect(shareKeyway(ENTERS, 'K1', 'K3')).toBe(true);
    expect(shareKeyway(ENTERS, 'K1', 'K4')).toBe(false);
    expect(shareKeyway(ENTERS, 'K5', 'K4')).toBe(false);
    expect(shareKeyway(undefined, 'K1', 'K2')).toBe(false);
    expect(shareKeyway(undefined, 'k1', 'K1')).toBe(true);
  });
});
