/** A construction key that still works: which cylinders are handed over now. */
import { Button } from '@fluentui/react-components';
import { useState } from 'react';
import { foldSymbol, type CylinderRecord } from '../../src/keying/system.ts';
import type { OpenConstruction } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { Choice } from '../shared/Choice.tsx';

interface Props {
  readonly open: OpenConstruction;
  readonly cylinders: readonly CylinderRecord[];
  readonly onShow: (open: OpenConstruction, cylinders: readonly string[]) => void;
}

export function HandOver({ open, cylinders, onShow }: Props) {
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const ids = [...new Set(open.chambers.map(({ cylinder }) => cylinder))];
  return (
    <section aria-label={`Hand-over of ${open.symbol}`} className="stack">
      <h2>Hand over {open.symbol}</h2>
      <p>
        <strong>{open.symbol}</strong> opens {counted(ids.length, 'cylinder')} of {open.system} until
        hand-over.
      </p>
      <Choice
        label="Cylinders handed over"
        many
        hint={`None chosen: all ${counted(ids.length, 'cylinder')}.`}
        options={ids.map((id) => ({
          value: id,
          text: cylinders.find((c) => foldSymbol(c.id) === foldSymbol(id))?.door ?? id,
        }))}
        chosen={chosen}
        onChoose={setChosen}
      />
      <div className="ways">
        <Button onClick={() => onShow(open, chosen.length === 0 ? ids : chosen)}>Show the hand-over</Button>
      </div>
    </section>
  );
}
