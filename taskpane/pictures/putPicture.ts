/** How any picture of the pane asks to be put into the sheet. Without a provider it doesn't offer that. */
import { createContext, useContext, type ReactNode } from 'react';

export interface PictureForSheet {
  readonly name: string;
  /** The same facts in a sentence. */
  readonly shows: string;
  readonly drawing: (width: number) => ReactNode;
}

export const PutPicture = createContext<((picture: PictureForSheet) => void) | undefined>(undefined);

export const usePutPicture = () => useContext(PutPicture);
