/**
 * The local preview: a spreadsheet that stands in for Excel, with the add-in's own built page beside it in an iframe.
 * This entry never ships.
 */
import { useCallback, useEffect, useRef, useState, type ChangeEvent, type ReactElement } from 'react';
import { createRoot } from 'react-dom/client';
import type { MountedGrid } from '../src/preview/grid/index.ts';
import { claimedSets } from './preview/claimedSets.ts';
import { installOfficeShell } from '../src/preview/host/index.ts';
import { parseArea } from '../src/preview/model/index.ts';
import { bytesOf, download, emptyFile, openFile, showGrid, type OpenedFile } from './preview/book.ts';
import { functionsOf } from './preview/functions.ts';
import type { PreviewWindow } from './preview/window.ts';
import './preview/preview.css';

const PANE = 'addin/taskpane.html';
const METADATA = 'addin/functions.json';
const SAMPLE = { address: 'sample.xlsx', name: 'Tarn Hollow School.xlsx' };

function Preview(): ReactElement {
  const [file, setFile] = useState<OpenedFile>();
  const [message, setMessage] = useState('');

  const open = useCallback((bytes: Uint8Array, name: string) => {
    const opened = openFile(bytes, name);
    if (typeof opened === 'string') setMessage(`${name} was not opened. ${opened}`);
    else {
      setMessage('');
      setFile(opened);
    }
  }, []);

  const openSample = useCallback(() => {
    const load = async (): Promise<void> => {
      const response = await fetch(SAMPLE.address);
      open(new Uint8Array(await response.arrayBuffer()), SAMPLE.name);
    };
    load().catch(() => {
      setMessage('The sample workbook could not be loaded; an empty one is open instead.');
      setFile(emptyFile());
    });
  }, [open]);

  useEffect(openSample, [openSample]);

  return (
    <div className="preview">
      <Bar
        file={file}
        message={message}
        onOpen={open}
        onSample={openSample}
        onEmpty={() => setFile(emptyFile())}
      />
      {file ? <Workbook key={keyOf(file)} file={file} onMessage={setMessage} /> : null}
    </div>
  );
}

/** A new file gets a new grid and a new pane, as opening a workbook in Excel does. */
const keys = new WeakMap<OpenedFile, number>();
let opened = 0;
function keyOf(file: OpenedFile): number {
  const key = keys.get(file) ?? ++opened;
  keys.set(file, key);
  return key;
}

interface BarProps {
  readonly file: OpenedFile | undefined;
  readonly message: string;
  readonly onOpen: (bytes: Uint8Array, name: string) => void;
  readonly onSample: () => void;
  readonly onEmpty: () => void;
}

function Bar({ file, message, onOpen, onSample, onEmpty }: BarProps): ReactElement {
  const input = useRef<HTMLInputElement>(null);
  const chosen = (event: ChangeEvent<HTMLInputElement>): void => {
    const [picked] = event.target.files ?? [];
    event.target.value = '';
    if (!picked) return;
    void picked.arrayBuffer().then((buffer) => onOpen(new Uint8Array(buffer), picked.name));
  };
  return (
    <header className="preview-bar">
      <strong>{file?.name ?? 'Opening…'}</strong>
      <button type="button" onClick={() => input.current?.click()}>
        Open…
      </button>
      <input
        ref={input}
        type="file"
        accept=".xlsx,.xlsm"
        hidden
        aria-label="Workbook file"
        onChange={chosen}
      />
      <button type="button" onClick={() => file && download(bytesOf(file), file.name)}>
        Save a copy
      </button>
      <button type="button" onClick={onSample}>
        Sample
      </button>
      <button type="button" onClick={onEmpty}>
        Empty workbook
      </button>
      <details className="preview-notice">
        <summary>
          This is the local preview, not Excel. Nothing leaves this machine. Using it in Excel…
        </summary>
        <p>
          The pane and the functions are the files that Excel would load; the spreadsheet only stands in for
          it. For Excel, run <code>KEYROW_BASE_URL=https://your.host/keyrow npm run build</code>, put the
          folder <code>dist</code> on that https host, and give Excel its <code>manifest.xml</code>: on the
          web by Add-ins › More add-ins › Upload my add-in, on Windows by a trusted shared folder, on a Mac by
          the wef folder, for a whole organisation by the admin centre. The README has the steps.
        </p>
        <p>
          A picture that the pane puts into a sheet is in the copy that you save; this spreadsheet does not
          draw it.
        </p>
      </details>
      {message ? (
        <p className="preview-message" role="alert">
          {message}
        </p>
      ) : null}
    </header>
  );
}

function Workbook({
  file,
  onMessage,
}: {
  readonly file: OpenedFile;
  readonly onMessage: (sentence: string) => void;
}): ReactElement {
  const container = useRef<HTMLDivElement>(null);
  const pane = useRef<HTMLIFrameElement>(null);
  const grid = useRef<MountedGrid>(null);

  useEffect(() => {
    const { host, book } = file;
    const shown = showGrid(container.current!, file, onMessage);
    grid.current = shown;
    (window as PreviewWindow).keyrowPreview = {
      installShell: (page) =>
        installOfficeShell(page, host.bridge, { documentUrl: file.name, sets: claimedSets(location.search) }),
      settle: () => shown.settle(),
      value: (sheet, row, column) => book.model.value(book.model.sheet(sheet), row, column),
      sheets: () => book.model.sheets.map((sheet) => sheet.name),
      type: (sheet, address, input) => host.userEdit(sheet, address, input),
      select: (sheet, address) => {
        const area = parseArea(address);
        if (area) book.model.select(book.model.sheet(sheet), [area], 'user');
      },
    };
    // Only now: the page asks for the shell as soon as it loads.
    pane.current!.src = PANE;
    return () => {
      shown.dispose();
      host.dispose();
    };
    // One file, one grid: the component is made anew for another file.
  }, [file, onMessage]);

  return (
    <>
      <div className="preview-grid" ref={container} />
      <aside className="preview-pane" aria-label="Keyrow pane">
        <iframe ref={pane} title="Keyrow" onLoad={() => connect(pane.current)} />
      </aside>
    </>
  );

  function connect(frame: HTMLIFrameElement | null): void {
    if (!frame?.contentWindow) return;
    functionsOf(frame.contentWindow, METADATA).then(
      (table) => grid.current?.setFunctions(table),
      (error: unknown) => onMessage(String(error)),
    );
  }
}

createRoot(document.getElementById('preview')!).render(<Preview />);
