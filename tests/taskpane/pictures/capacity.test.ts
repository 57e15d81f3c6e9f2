import { describe, expect, it } from 'vitest';
import { CapacityBar, capacitySentence } from '../../../taskpane/pictures/CapacityBar.tsx';
import { counted, grouped, listed } from '../../../taskpane/pictures/numbers.ts';
import { render } from './markup.ts';

const widthOf = (markup: string, part: string): number =>
  Number(new RegExp(`<rect[^>]* width="([\\d.]+)"[^>]*data-part="${part}"`).exec(markup)?.[1]);

describe('capacity', () => {
  it('says the numbers and what is left', () => {
    expect(
      capacitySentence({
        theoretical: 4096,
        usable: 2637,
        needed: 148,
        groups: { smallest: 41, largest: 64 },
      }),
    ).toBe(
      '4,096 theoretical changes; 2,637 usable under these rules; smallest group 41, largest 64; 148 needed, 2,489 to spare.',
    );
    expect(capacitySentence({ theoretical: 1024, usable: 600, needed: 1500 })).toBe(
      '1,024 theoretical changes; 600 usable under these rules; 1,500 needed, 900 too many.',
    );
  });

  it('draws them to scale', () => {
    const markup = render(CapacityBar, { theoretical: 4096, usable: 2637, needed: 148 });
    expect(widthOf(markup, 'usable') / widthOf(markup, 'theoretical')).toBeCloseTo(2637 / 4096, 6);
    expect(widthOf(markup, 'missing')).toBeNaN();
  });

  it('hatches what is missing, even beyond the theoretical', () => {
    const markup = render(CapacityBar, { theoretical: 1024, usable: 600, needed: 1500 });
    const scale = widthOf(markup, 'theoretical') / 1024;
    expect(widthOf(markup, 'missing') / scale).toBeCloseTo(900, 6);
    expect(markup).toMatch(/fill="url\(#hatch-fault-/);
  });

  it('draws nothing usable of nothing without a division by zero', () => {
    expect(render(CapacityBar, { theoretical: 0, usable: 0, needed: 0 })).not.toMatch(/NaN|Infinity|="-/);
  });
});

describe('numbers in words', () => {
  it('groups, counts and lists', () => {
    expect(grouped(1_234_567)).toBe('1,234,567');
    expect(counted(1, 'key')).toBe('1 key');
    expect(counted(0, 'key')).toBe('0 keys');
    expect(counted(2, 'entry', 'entries')).toBe('2 entries');
    expect(listed([])).toBe('none');
    expect(listed(['A', 'B', 'C'])).toBe('A, B and C');
  });
});
