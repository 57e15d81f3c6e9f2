/** Where the array's faults stand in the form, and the way there from its foot: they are far down. */

/** Id of the element that holds them. */
export const ARRAY_FAULTS = 'array-faults';

/** Opens the fold that holds the faults, scrolls to them and gives them the focus. */
export function showArrayFaults(): void {
  const faults = document.getElementById(ARRAY_FAULTS);
  faults?.closest('details')?.setAttribute('open', '');
  faults?.focus();
}
