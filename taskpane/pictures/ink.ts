/**
 * The pens of all drawings: line weights as on a technical drawing (outline 1.5, thin 1, hair 0.75) and type of 11 px
 * and up, in Fluent's theme tokens. Windows contrast themes replace the colours of text but leave SVG shapes alone,
 * so each pen names a system colour for that case.
 */
import { makeStyles, tokens } from '@fluentui/react-components';

const forced = (rules: Record<string, string>) => ({ '@media (forced-colors: active)': rules });
const inkForced = { stroke: 'CanvasText' };
const textForced = { fill: 'CanvasText', forcedColorAdjust: 'none' };

export const useInk = makeStyles({
  /** Visible edges. */
  outline: {
    stroke: tokens.colorNeutralForeground1,
    strokeWidth: '1.5px',
    strokeLinejoin: 'round',
    fill: 'none',
    ...forced(inkForced),
  },
  /** The body of a part. */
  metal: {
    fill: tokens.colorNeutralBackground6,
    stroke: 'none',
    ...forced({ fill: 'Canvas' }),
  },
  /** A second body beside the first, lighter. */
  paper: {
    fill: tokens.colorNeutralBackground1,
    stroke: 'none',
    ...forced({ fill: 'Canvas' }),
  },
  /** A body that is filled right out. */
  solid: {
    fill: tokens.colorNeutralForeground1,
    stroke: 'none',
    ...forced({ fill: 'CanvasText' }),
  },
  /** Dimension lines and arrows. */
  thin: {
    stroke: tokens.colorNeutralForeground2,
    strokeWidth: '1px',
    fill: 'none',
    ...forced(inkForced),
  },
  arrow: {
    fill: tokens.colorNeutralForeground2,
    stroke: 'none',
    ...forced({ fill: 'CanvasText' }),
  },
  /** Centre lines: long dash, short dash. */
  centre: {
    stroke: tokens.colorNeutralForeground3,
    strokeWidth: '0.75px',
    strokeDasharray: '7 2 1.5 2',
    fill: 'none',
    ...forced(inkForced),
  },
  /** Rules and guides that stay in the background. */
  hair: {
    stroke: tokens.colorNeutralStroke1,
    strokeWidth: '0.75px',
    fill: 'none',
    ...forced({ stroke: 'GrayText' }),
  },
  /** Shear lines and other lines that the eye should follow. */
  shear: {
    stroke: tokens.colorBrandForeground1,
    strokeWidth: '1.5px',
    fill: 'none',
    ...forced({ stroke: 'Highlight' }),
  },
  dashed: { strokeDasharray: '5 3' },
  /** Faults: always together with hatching and a mark, never by this colour alone. */
  fault: {
    stroke: tokens.colorStatusDangerForeground1,
    strokeWidth: '1.5px',
    fill: 'none',
    ...forced(inkForced),
  },
  faultSolid: {
    fill: tokens.colorStatusDangerForeground1,
    stroke: 'none',
    ...forced({ fill: 'CanvasText' }),
  },
  hatchLine: {
    stroke: tokens.colorStatusDangerForeground1,
    strokeWidth: '1.25px',
    ...forced(inkForced),
  },
  quietHatchLine: {
    stroke: tokens.colorNeutralStroke1,
    strokeWidth: '1px',
    ...forced({ stroke: 'GrayText' }),
  },
  text: {
    fill: tokens.colorNeutralForeground1,
    fontFamily: tokens.fontFamilyBase,
    fontSize: '12px',
    fontVariantNumeric: 'tabular-nums',
    ...forced(textForced),
  },
  small: {
    fill: tokens.colorNeutralForeground2,
    fontFamily: tokens.fontFamilyBase,
    fontSize: '11px',
    fontVariantNumeric: 'tabular-nums',
    ...forced(textForced),
  },
  strong: {
    fill: tokens.colorNeutralForeground1,
    fontFamily: tokens.fontFamilyBase,
    fontSize: '15px',
    fontWeight: tokens.fontWeightSemibold,
    fontVariantNumeric: 'tabular-nums',
    ...forced(textForced),
  },
  faultText: {
    fill: tokens.colorStatusDangerForeground1,
    fontFamily: tokens.fontFamilyBase,
    fontSize: '11px',
    fontWeight: tokens.fontWeightBold,
    ...forced(textForced),
  },
  /** Over `faultText`, for letters on a filled box. */
  onFault: { fill: tokens.colorNeutralBackground1, ...forced({ fill: 'Canvas' }) },
  /** Lets a number stand on a line: the ground shows around it. */
  onMetal: {
    paintOrder: 'stroke',
    stroke: tokens.colorNeutralBackground6,
    strokeWidth: '4px',
    strokeLinejoin: 'round',
    ...forced({ stroke: 'Canvas' }),
  },
  onPaper: {
    paintOrder: 'stroke',
    stroke: tokens.colorNeutralBackground1,
    strokeWidth: '4px',
    strokeLinejoin: 'round',
    ...forced({ stroke: 'Canvas' }),
  },
});
