/** The doors' zones by the shop's schedule, read once for each reading of the workbook. */
import { useEffect, useState } from 'react';
import { readZones, type BookReading, type DoorZones } from '../../src/workbook/index.ts';

export function useZones(book: BookReading | undefined): DoorZones | undefined {
  const [zones, setZones] = useState<DoorZones>();
  useEffect(() => {
    let gone = false;
    if (book)
      void readZones(book).then((found) => {
        if (!gone) setZones(found);
      });
    return () => {
      gone = true;
    };
  }, [book]);
  return zones;
}
