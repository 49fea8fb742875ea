/** Look of the printed gazette: two hues and ink, hairlines, serif headlines. Inline, because forwarding drops style blocks. */
export const COLOUR = {
  ink: '#1B1F23',
  slate: '#4A5560',
  blue: '#005A8C',
  vermillion: '#A84300',
  fill: '#FFF1D6',
  hairline: '#C9CFD4',
  white: '#FFFFFF',
} as const;

const SERIF = "font-family:Georgia,'Times New Roman',serif";
const FIGURES = 'font-variant-numeric:tabular-nums';
const CELL = `border-bottom:1px solid ${COLOUR.hairline};vertical-align:top`;

export const INLINE = {
  h2: `margin:0 0 8px;${SERIF};font-size:23px;line-height:1.2;font-weight:700;color:${COLOUR.ink}`,
  h3: `margin:12px 0 2px;font-size:17px;line-height:1.3;font-weight:700;color:${COLOUR.ink}`,
  mark: `margin:0 0 10px;padding:6px 10px;border:2px solid ${COLOUR.vermillion};font-weight:700;color:${COLOUR.vermillion}`,
  p: 'margin:0 0 6px',
  small: `margin:0 0 4px;font-size:14px;line-height:1.4;color:${COLOUR.slate}`,
  list: 'margin:4px 0 8px;padding-left:20px',
  quote: `margin:8px 0;padding:8px 12px;border-left:3px solid ${COLOUR.vermillion}`,
  // The mail around it breaks words anywhere; a number must stay with its unit, a label in one piece.
  rowLabel: `width:84px;padding:6px 10px 6px 0;${CELL};text-align:left;font-weight:400;word-break:normal`,
  rowCell: `padding:6px 0;${CELL};word-break:normal`,
  rowDetail: `font-size:14px;line-height:1.4;color:${COLOUR.slate}`,
  picture: `display:block;width:100%;max-width:552px;height:auto;margin:8px 0;border:1px solid ${COLOUR.hairline}`,
  table: `width:100%;border-collapse:collapse;${FIGURES}`,
  link: `color:${COLOUR.blue};text-decoration:underline`,
} as const;

const WORD = 'display:block;margin:0;line-height:1.2;font-weight:700';
const RULE = 'width:100%;border-collapse:collapse;margin:6px 0 8px';

/** The first screen. The levels differ by word, number, bars, rule and colour; the first is quiet. */
export const FRONT = {
  mark: `margin:0 0 4px;font-size:13px;line-height:1.3;font-weight:700;color:${COLOUR.vermillion}`,
  h1: `margin:0;${SERIF};font-size:22px;line-height:1.15;font-weight:700;color:${COLOUR.ink}`,
  date: `padding:0 0 0 8px;text-align:right;vertical-align:bottom;font-size:13px;line-height:1.25;white-space:nowrap;color:${COLOUR.slate}`,
  dangerBox: {
    1: `${RULE};border-top:1px solid ${COLOUR.hairline};border-bottom:1px solid ${COLOUR.hairline}`,
    2: `${RULE};border-top:1px solid ${COLOUR.ink};border-bottom:1px solid ${COLOUR.ink}`,
    3: `${RULE};border-top:5px double ${COLOUR.vermillion};border-bottom:5px double ${COLOUR.vermillion}`,
    4: `${RULE};border-top:5px solid ${COLOUR.vermillion};border-bottom:5px solid ${COLOUR.vermillion}`,
  },
  danger: {
    1: `${WORD};font-size:15px;color:${COLOUR.slate}`,
    2: `${WORD};font-size:18px;color:${COLOUR.ink}`,
    3: `${WORD};font-size:28px;${SERIF};color:${COLOUR.vermillion}`,
    4: `${WORD};font-size:30px;${SERIF};padding:4px 8px;background-color:${COLOUR.vermillion};color:${COLOUR.white}`,
  },
  hazard: 'display:block;font-size:14px;line-height:1.35',
  h2: `margin:0 0 4px;font-size:13px;line-height:1;letter-spacing:1px;text-transform:uppercase;font-weight:700;color:${COLOUR.slate}`,
  time: `width:98px;padding:0 8px 7px 0;text-align:left;vertical-align:top;font-size:14px;line-height:1.35;font-weight:700;${FIGURES}`,
  timeSmall: `width:94px;padding:0 8px 4px 0;text-align:left;vertical-align:top;font-size:13px;line-height:1.3;font-weight:400;${FIGURES}`,
  block: 'padding:0 0 7px;vertical-align:top;font-size:15px;line-height:1.35;word-break:normal',
  blockSmall: 'padding:0 0 4px;vertical-align:top;font-size:13px;line-height:1.3;word-break:normal',
  place: `${SERIF};font-size:17px`,
  placeSmall: 'font-size:14px',
  beIn: `margin:0 0 6px;padding:5px 0 0;border-top:1px dotted ${COLOUR.ink};font-size:15px;line-height:1.35;font-weight:700`,
  waterBox: `width:100%;border-collapse:collapse;border-top:1px solid ${COLOUR.hairline};${FIGURES}`,
  water: 'width:50%;padding:4px 8px 0 0;vertical-align:top;font-size:14px;line-height:1.35;word-break:normal',
  last: `margin:6px 0 0;padding:5px 0 0;border-top:1px solid ${COLOUR.hairline};font-size:14px;line-height:1.35;color:${COLOUR.slate}`,
} as const;
