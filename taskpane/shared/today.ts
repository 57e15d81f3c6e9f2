/** The date as it stands in sheets, in the user's own calendar day: `2025-11-24`. The rooms below know no clock. */
export function today(now: Date = new Date()): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
