/** Where a list comes from: the selected cells, a file of text, or the clipboard. */
import { Button, Field, Textarea } from '@fluentui/react-components';
import { useRef, useState } from 'react';
import { splitPasted } from '../../src/keying/importText.ts';
import { boxAddress, readCodeRows } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import { readListFile, type FileList } from './codesFile.ts';
import type { SourceList } from './useList.ts';

interface Props {
  readonly onList: (list: SourceList) => void;
}

export function CodesSource({ onList }: Props) {
  const [text, setText] = useDraft<string>('codes.text', '');
  const [trouble, setTrouble] = useState('');
  const [lists, setLists] = useState<readonly FileList[]>([]);
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
    const name = target.table ? `Table ${target.table}` : `${target.box.sheet}!${boxAddress(target.box)}`;
    onList({ rows, target, name });
  };
  const takeFile = async (input: HTMLInputElement): Promise<void> => {
    const chosen = input.files?.[0];
    // so that the same file can be chosen again after it was mended
    input.value = '';
    if (!chosen) return;
    setTrouble('');
    setLists([]);
    const read = await readListFile(chosen.name, new Uint8Array(await chosen.arrayBuffer()));
    if (!read.ok) setTrouble(read.error);
    else if (read.value.length === 1) onList(read.value[0]!);
    else setLists(read.value);
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
            onClick={() => (text.trim() === '' ? void takeSelection() : take(text, 'The pasted list'))}
          >
            {text.trim() === '' ? 'Take the selected cells' : 'Take the pasted list'}
          </Button>
          <Button onClick={() => file.current?.click()}>Open a file (.csv, .xlsx)</Button>
        </>
      }
    >
      <div className="stack">
        {trouble && <Notice kind="error">{trouble}</Notice>}
        {lists.length > 0 && (
          <section aria-label="Sheets of the file">
            <p>Which sheet of this file holds the codes?</p>
            <div className="ways">
              {lists.map((list, n) => (
                <Button key={n} onClick={() => onList(list)}>
                  {list.sheet}: {counted(list.rows.length, 'row')}
                </Button>
              ))}
            </div>
          </section>
        )}
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
          accept=".csv,.txt,.tsv,.xlsx,.xlsm,text/csv,text/plain"
          aria-label="File with codes"
          hidden
          onChange={({ target }) => void takeFile(target)}
        />
      </div>
    </Screen>
  );
}
