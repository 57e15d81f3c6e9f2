/** Where a list comes from: the selected cells, a file of text, or the clipboard. */
import { Button, Field, Textarea } from '@fluentui/react-components';
import { useRef, useState } from 'react';
import { splitPasted } from '../../src/keying/importText.ts';
import { boxAddress, readCodeRows } from '../../src/workbook/index.ts';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import type { SourceList } from './useList.ts';

interface Props {
  readonly onList: (list: SourceList) => void;
}

export function CodesSource({ onList }: Props) {
  const [text, setText] = useDraft<string>('codes.text', '');
  const [trouble, setTrouble] = useState('');
  const file = useRef<HTMLInputElement>(null);

  const take = (pasted: string, name: string): void => {
    const { rows } = splitPasted(pasted);
    if (rows.length === 0) setTrouble('There is nothing in this text. Paste lines with codes.');
    else onList({ rows, name });
  };
  const takeSelection = async (): Promise<void> => {
    const read = await readCodeRows('selection');
    if (!read.ok) return setTrouble(read.error.sentence);
    const { rows, target } = read.value;
    const name = target.table ? `table ${target.table}` : `${target.box.sheet}!${boxAddress(target.box)}`;
    onList({ rows, target, name });
  };
  const takeFile = async (chosen: File | undefined): Promise<void> => {
    if (!chosen) return;
    if (/\.xls[xmb]?$/i.test(chosen.name))
      return setTrouble('Open this workbook in Excel and select the codes there; a pane can’t read it.');
    take(await chosen.text(), chosen.name);
  };
  return (
    <Screen
      title="Cut from a list"
      lead="Codes from a customer or a supplier: read as they came, checked, and put on a cutting sheet."
      foot={
        <>
          <Button
            className="primary"
            appearance="primary"
            onClick={() => (text.trim() === '' ? void takeSelection() : take(text, 'the pasted list'))}
          >
            {text.trim() === '' ? 'Take the selected cells' : 'Take the pasted list'}
          </Button>
          <Button onClick={() => file.current?.click()}>Open a .csv file</Button>
        </>
      }
    >
      <div className="stack">
        {trouble && <Notice kind="error">{trouble}</Notice>}
        <p>
          Select the cells that hold the list, or one cell of its table. Or paste a list here: a line a key,
          with a mark, a code and a number of keys in any order.
        </p>
        <Field label="Pasted list">
          <Textarea
            value={text}
            rows={8}
            resize="vertical"
            textarea={{ className: 'code', spellCheck: false }}
            onChange={(_, { value }) => setText(value)}
          />
        </Field>
        <input
          ref={file}
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          aria-label="File with codes"
          hidden
          onChange={({ target }) => void takeFile(target.files?.[0])}
        />
      </div>
    </Screen>
  );
}
