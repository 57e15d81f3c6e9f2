/**
 * Puts a picture of the pane into the sheet: draws it, shows the plan with the picture, writes it, offers the undo.
 * The screen that asked stays as it was behind it.
 */
import { useCallback, useState, type ReactNode } from 'react';
import { drawsPictures, NO_PICTURES, planPicture } from '../../src/workbook/index.ts';
import { Cautions } from '../shared/Caution.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { today } from '../shared/today.ts';
import { usePlan } from '../shared/usePlan.ts';
import { drawPng, type Png } from './drawPng.tsx';
import { PutPicture, type PictureForSheet } from './putPicture.ts';

interface Asked extends PictureForSheet {
  readonly png?: Png;
}

const NOT_DRAWN =
  'This picture could not be drawn for the sheet here. Use “Show as list” and copy the numbers instead.';

export function SheetPictures({ children }: { readonly children: ReactNode }) {
  const run = usePlan();
  const { prepare, leave } = run;
  const [asked, setAsked] = useState<Asked>();
  const put = useCallback(
    (picture: PictureForSheet) => {
      setAsked(picture);
      // drawn anew on every try, so that a second one may succeed
      void prepare(async (book) => {
        if (!drawsPictures()) return NO_PICTURES;
        const png = await drawPng(picture.drawing).catch(() => undefined);
        if (!png) return NOT_DRAWN;
        setAsked({ ...picture, png });
        return planPicture(book, {
          made: today(),
          name: picture.name,
          shows: picture.shows,
          base64: png.base64,
          widthPixels: png.width,
          heightPixels: png.height,
        });
      });
    },
    [prepare],
  );
  const close = (): void => {
    leave();
    setAsked(undefined);
  };
  const open = asked !== undefined && run.state.step !== 'none';
  return (
    <PutPicture value={put}>
      <div className={open ? 'behind' : 'front'}>{children}</div>
      {open && (
        <PlanScreen
          title="Put a picture into the sheet"
          run={run}
          action="Put the picture in"
          back={{ label: 'Back', onClick: close }}
          onDone={close}
        >
          {asked.png && (
            <img
              className="sheet-picture"
              src={`data:image/png;base64,${asked.png.base64}`}
              alt={asked.shows}
            />
          )}
          <Cautions about={['secret']} />
        </PlanScreen>
      )}
    </PutPicture>
  );
}
