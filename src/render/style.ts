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
  kicker: `margin:0;font-size:14px;letter-spacing:1px;text-transform:uppercase;color:${COLOUR.slate}`,
  h1: `margin:2px 0 0;${SERIF};font-size:32px;line-height:1.15;font-weight:700;color:${COLOUR.ink}`,
  date: `margin:4px 0 8px;${SERIF};font-size:18px;color:${COLOUR.ink}`,
  h2: `margin:0 0 6px;font-size:14px;letter-spacing:1px;text-transform:uppercase;font-weight:700;color:${COLOUR.slate}`,
  h3: `margin:14px 0 2px;${SERIF};font-size:19px;line-height:1.3;font-weight:700;color:${COLOUR.ink}`,
  lead: `margin:0;${SERIF};font-size:21px;line-height:1.35;color:${COLOUR.ink}`,
  level: `margin:0;${SERIF};font-size:21px;line-height:1.3;font-weight:700;color:${COLOUR.vermillion}`,
  levelQuiet: `margin:0;${SERIF};font-size:21px;line-height:1.3;font-weight:700;color:${COLOUR.ink}`,
  mark: `margin:0 0 10px;padding:6px 10px;border:2px solid ${COLOUR.vermillion};font-weight:700;color:${COLOUR.vermillion}`,
  p: 'margin:0 0 6px',
  small: `margin:0 0 4px;font-size:14px;line-height:1.4;color:${COLOUR.slate}`,
  list: 'margin:4px 0 8px;padding-left:20px',
  quote: `margin:8px 0;padding:8px 12px;border-left:3px solid ${COLOUR.vermillion}`,
  table: `width:100%;border-collapse:collapse;${FIGURES}`,
  caption: 'position:absolute;left:-9999px',
  thColumn: `padding:4px 0 4px 8px;border-bottom:1px solid ${COLOUR.slate};font-size:14px;font-weight:400;text-align:right;vertical-align:bottom;color:${COLOUR.slate}`,
  thColumnFirst: `padding:4px 0;border-bottom:1px solid ${COLOUR.slate};font-size:14px;font-weight:400;text-align:left;vertical-align:bottom;color:${COLOUR.slate}`,
  thRow: 'width:34%;padding:7px 0 0;font-weight:400;text-align:left;vertical-align:top',
  figure: 'padding:7px 0 0 8px;text-align:right;vertical-align:top;white-space:nowrap',
  figureStrong: 'padding:7px 0 0 8px;text-align:right;vertical-align:top;white-space:nowrap;font-weight:700',
  // The mail around it breaks words anywhere; a number must stay with its unit.
  cell: 'padding:7px 0 0 8px;text-align:right;vertical-align:top;word-break:normal',
  detail: `padding:0 0 7px;${CELL};font-size:14px;line-height:1.4;color:${COLOUR.slate}`,
  reason: `padding:2px 0 9px;${CELL}`,
  pair: `padding:3px 12px 3px 0;${CELL};text-align:left;font-weight:400;font-size:14px;color:${COLOUR.slate};white-space:nowrap`,
  pairValue: `padding:3px 0;${CELL}`,
  link: `color:${COLOUR.blue};text-decoration:underline`,
} as const;
