/**
 * What a shop asks for when it wants keys for a hierarchy: a tree of groups with the number of change keys in each.
 * Systems of two levels have one grand with one master (the top itself), of three one grand (the top), of four as
 * many grands as wanted under the great grand master.
 */
import type { KeyBittingArray } from './array.ts';
import type { Bitting } from './bitting.ts';
import type { Deal } from './deal.ts';
import type { Entering } from './keyways.ts';
import type { ChangeOrder, Progression } from './progression.ts';
import type { Rules } from './rules.ts';
import type { Specification } from './specification.ts';
import type { CylinderRecord } from './system.ts';

export interface MasterRequest {
  /** Its symbol; the next one of the key coding when left out. */
  readonly symbol?: string;
  /** The bitting of a master that exists already. */
  readonly bitting?: Bitting;
  readonly changeKeys: number;
  /** Change keys kept in reserve, without a cylinder. */
  readonly spares?: number;
  /** Number of the first change key; 1 when left out. */
  readonly firstNumber?: number;
  /** Cylinders for each change key; 1 when left out. */
  readonly doorsPerKey?: number;
  /** Door names for each change key, instead of `doorsPerKey`; the cylinders are called after them. */
  readonly doors?: readonly (readonly string[])[];
}

export interface GrandRequest {
  readonly symbol?: string;
  /** The bitting of a grand master that exists already. */
  readonly bitting?: Bitting;
  readonly masters: readonly MasterRequest[];
  /** Masters kept in reserve, each with room for as many keys as the smallest group of this grand. */
  readonly spares?: number;
}

export interface SystemRequest {
  readonly name: string;
  readonly spec: Specification;
  readonly levels: 2 | 3 | 4;
  readonly grands: readonly GrandRequest[];
  /** Grand masters kept in reserve, each with room for what the smallest grand holds; in systems of four levels only. */
  readonly spareGrands?: number;
  /** Proposed (seeded, usable, with room) when left out. */
  readonly topMaster?: Bitting;
  readonly topSymbol?: string;
  /** Only together with a top master; the widest one when left out. */
  readonly array?: KeyBittingArray;
  /** Which positions belong to which level; chosen so that every group fits when left out. */
  readonly deal?: Deal;
  /** Total position progression when left out. */
  readonly progression?: Progression;
  /** Chambers (from 0) in the sequence of progression, the last moving fastest; code order when left out. */
  readonly sequence?: readonly number[];
  /** Progression order when left out. */
  readonly order?: ChangeOrder;
  readonly seed?: number;
  readonly rules?: Rules;
  /** Chambers in which two keys of one level differ at least; 1 when left out. */
  readonly minimumDifference?: number;
  /** Bittings that were ever used in the system, whatever their status: never issued, and none may operate a new cylinder. */
  readonly avoid?: readonly Bitting[];
  /** Cylinders that exist already: no new key may operate one. */
  readonly cylinders?: readonly CylinderRecord[];
  /** Keyway section of the new keys and cylinders. */
  readonly keyway?: string;
  /** Keyways that blanks enter besides their own: a new key may enter existing cylinders of those too. */
  readonly enters?: Entering;
  /** Control bitting of interchangeable cores; proposed for specs of cores when left out. */
  readonly control?: Bitting;
  /** Letters that key symbols avoid; I and O when left out. */
  readonly avoidLetters?: string;
}

/**
 * The tree of a system whose groups are all alike.
 * @example evenTree(3, { masters: 4, changeKeys: 30 }) → one grand with four masters of 30 change keys
 */
export function evenTree(
  levels: 2 | 3 | 4,
  { grands = 1, masters = 1, changeKeys, spares = 0, doorsPerKey = 1 }: EvenTree,
): GrandRequest[] {
  const master: MasterRequest = { changeKeys, spares, doorsPerKey };
  const count = levels === 2 ? 1 : masters;
  return Array.from({ length: levels === 4 ? grands : 1 }, () => ({
    masters: Array.from({ length: count }, () => master),
  }));
}

export interface EvenTree {
  readonly grands?: number;
  /** Masters under each grand. */
  readonly masters?: number;
  /** Change keys under each master. */
  readonly changeKeys: number;
  readonly spares?: number;
  readonly doorsPerKey?: number;
}

/** Change keys of a group with its spares. */
export const wantedKeys = ({ changeKeys, spares = 0 }: MasterRequest): number => changeKeys + spares;

/**
 * The grands of a request with those kept in reserve behind them: unnamed, and as roomy as the smallest one.
 * @example grandsWanted({ …, grands: [a, b], spareGrands: 1 }).length → 3
 */
export function grandsWanted({ levels, grands, spareGrands = 0 }: SystemRequest): readonly GrandRequest[] {
  const smallest = levels === 4 ? [...grands].sort((a, b) => roomOf(a) - roomOf(b))[0] : undefined;
  if (!smallest || spareGrands === 0) return grands;
  const spare: GrandRequest = {
    masters: smallest.masters.map((master) => ({ changeKeys: wantedKeys(master) })),
    ...(smallest.spares !== undefined && { spares: smallest.spares }),
  };
  return [...grands, ...Array.from({ length: spareGrands }, () => spare)];
}

const roomOf = (grand: GrandRequest): number => roomNeeded(grand).reduce((sum, need) => sum + need, 0);

/** Room that each master of a grand needs, spare masters included, largest first. */
export function roomNeeded({ masters, spares = 0 }: GrandRequest): number[] {
  const needs = masters.map(wantedKeys);
  return [...needs, ...new Array<number>(spares).fill(spareRoom({ masters }))].sort((a, b) => b - a);
}

/** Room that a spare master needs: as much as the smallest group, and for one key at least. */
export const spareRoom = ({ masters }: Pick<GrandRequest, 'masters'>): number =>
  Math.max(1, Math.min(...masters.map(wantedKeys)));
