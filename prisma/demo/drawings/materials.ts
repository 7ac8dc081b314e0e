/**
 * What the demo's pictures are drawn with: sheet, metal, rubber and soot as SVG gradients and
 * filters, and the small mark that says a picture is a drawing.
 */

export const width = 1600;
export const height = 1200;

const gradient = (id: string, stops: [number, string][], vertical = false): string =>
  `<linearGradient id="${id}" x1="0" y1="0" x2="${vertical ? 0 : 1}" y2="${vertical ? 1 : 0}">${stops
    .map(([at, colour]) => `<stop offset="${at}" stop-color="${colour}"/>`)
    .join('')}</linearGradient>`;

const definitions = `<defs>
${gradient(
  'sheetMetal',
  [
    [0, '#8d9596'],
    [0.25, '#c3c9c8'],
    [0.55, '#aab1b1'],
    [1, '#747c7e'],
  ],
  true,
)}
${gradient(
  'pipe',
  [
    [0, '#4a4340'],
    [0.22, '#a3958a'],
    [0.36, '#cbbeb0'],
    [0.62, '#857769'],
    [1, '#3a322d'],
  ],
  true,
)}
${gradient('pipeAcross', [
  [0, '#3f3835'],
  [0.25, '#a3958a'],
  [0.4, '#cbbeb0'],
  [0.65, '#857769'],
  [1, '#342d29'],
])}
${gradient(
  'rubber',
  [
    [0, '#16191a'],
    [0.3, '#4a5052'],
    [0.45, '#5d6466'],
    [0.75, '#2b2f31'],
    [1, '#111314'],
  ],
  true,
)}
${gradient('hoseAcross', [
  [0, '#16191a'],
  [0.3, '#4a5052'],
  [0.45, '#5d6466'],
  [0.75, '#2b2f31'],
  [1, '#111314'],
])}
${gradient('tube', [
  [0, '#5d6c64'],
  [0.3, '#c2cfc4'],
  [0.45, '#dbe4da'],
  [0.75, '#8b9a90'],
  [1, '#4b5952'],
])}
${gradient(
  'wall',
  [
    [0, '#7d8583'],
    [1, '#59605f'],
  ],
  true,
)}
${gradient(
  'castMetal',
  [
    [0, '#b9bdb8'],
    [0.5, '#93988f'],
    [1, '#666b64'],
  ],
  true,
)}
${gradient(
  'mirrorGlass',
  [
    [0, '#dfe7e8'],
    [1, '#aab6b8'],
  ],
  true,
)}
<linearGradient id="sootRun" x1="0" y1="0" x2="1" y2="0"><stop offset="0" stop-color="#141211" stop-opacity="0.95"/><stop offset="0.16" stop-color="#2b2826" stop-opacity="0.85"/><stop offset="0.5" stop-color="#6a6662" stop-opacity="0.6"/><stop offset="1" stop-color="#8b8884" stop-opacity="0.12"/></linearGradient>
<linearGradient id="ashRun" x1="0" y1="0" x2="1" y2="0"><stop offset="0" stop-color="#f4f3ef" stop-opacity="0.2"/><stop offset="0.35" stop-color="#f4f3ef" stop-opacity="0.8"/><stop offset="1" stop-color="#f4f3ef" stop-opacity="0.25"/></linearGradient>
<linearGradient id="oilRun" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#241505" stop-opacity="0.95"/><stop offset="0.45" stop-color="#4a2e0e" stop-opacity="0.75"/><stop offset="1" stop-color="#5a3a14" stop-opacity="0.1"/></linearGradient>
<radialGradient id="sootSpot"><stop offset="0" stop-color="#0d0b0a" stop-opacity="0.95"/><stop offset="0.45" stop-color="#1d1916" stop-opacity="0.7"/><stop offset="1" stop-color="#2a241f" stop-opacity="0"/></radialGradient>
<radialGradient id="ashSpot"><stop offset="0" stop-color="#e6e3db" stop-opacity="0.85"/><stop offset="1" stop-color="#e6e3db" stop-opacity="0"/></radialGradient>
<filter id="soft8" x="-30%" y="-30%" width="160%" height="160%"><feGaussianBlur stdDeviation="8"/></filter>
<filter id="soft18" x="-40%" y="-40%" width="180%" height="180%"><feGaussianBlur stdDeviation="18"/></filter>
<filter id="soft3" x="-30%" y="-30%" width="160%" height="160%"><feGaussianBlur stdDeviation="3"/></filter>
<filter id="drop" x="-20%" y="-20%" width="150%" height="150%"><feGaussianBlur in="SourceAlpha" stdDeviation="12"/><feOffset dx="10" dy="16"/><feComponentTransfer><feFuncA type="linear" slope="0.45"/></feComponentTransfer><feMerge><feMergeNode/><feMergeNode in="SourceGraphic"/></feMerge></filter>
<filter id="ragged" x="-20%" y="-20%" width="140%" height="140%"><feTurbulence type="fractalNoise" baseFrequency="0.018 0.05" numOctaves="3" seed="7"/><feDisplacementMap in="SourceGraphic" scale="46" xChannelSelector="R" yChannelSelector="G"/><feGaussianBlur stdDeviation="5"/></filter>
<pattern id="hatch45" width="14" height="14" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="14" stroke="#1A2829" stroke-width="2"/></pattern>
</defs>`;

/** A picture of the demo: its body on the shop's drawing size, with the mark in the corner. */
export function picture(background: string, body: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">
${definitions}<rect width="${width}" height="${height}" fill="${background}"/>${body}
<g font-family="DejaVu Sans, sans-serif" font-size="22"><rect x="28" y="1146" width="356" height="34" fill="#F4F0E6" opacity="0.85"/>
<text x="40" y="1170" fill="#1A2829">Drawn for the demonstration</text></g></svg>`;
}

/** A fastener head seen from above, with its slot turned by `turn` degrees. */
export function screw(x: number, y: number, radius: number, turn: number): string {
  return `<g transform="translate(${x} ${y})"><circle r="${radius + 5}" fill="#5b6263" opacity="0.55"/>
<circle r="${radius}" fill="url(#castMetal)" stroke="#2c3233" stroke-width="2"/>
<rect x="${-radius * 0.72}" y="${-radius * 0.13}" width="${radius * 1.44}" height="${radius * 0.26}" fill="#2c3233" transform="rotate(${turn})"/></g>`;
}

/** A dimension line with end ticks and its figure, in ink on a sheet-coloured plate. */
export function dimension(x1: number, y1: number, x2: number, y2: number, text: string): string {
  const [mx, my] = [(x1 + x2) / 2, (y1 + y2) / 2];
  const plate = 30 + text.length * 24;
  const across = x1 === x2;
  const tick = (x: number, y: number): string =>
    `<line x1="${x - 14}" y1="${y + 14}" x2="${x + 14}" y2="${y - 14}" stroke="#1A2829" stroke-width="5"/>`;
  const [px, py] = across ? [mx + 26 + plate / 2, my] : [mx, my - 48];
  return `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" stroke="#1A2829" stroke-width="4"/>${tick(x1, y1)}${tick(x2, y2)}
<rect x="${px - plate / 2}" y="${py - 32}" width="${plate}" height="62" fill="#F4F0E6"/>
<text x="${px}" y="${py + 15}" font-family="DejaVu Sans Mono, monospace" font-size="42" text-anchor="middle" fill="#1A2829">${text}</text>`;
}

/** A balloon: a number in a circle with a leader line to what it names. */
export function balloon(x: number, y: number, toX: number, toY: number, text: string): string {
  return `<line x1="${x}" y1="${y}" x2="${toX}" y2="${toY}" stroke="#1A2829" stroke-width="4"/><circle cx="${toX}" cy="${toY}" r="8" fill="#1A2829"/>
<circle cx="${x}" cy="${y}" r="36" fill="#F4F0E6" stroke="#1A2829" stroke-width="4"/>
<text x="${x}" y="${y + 14}" font-family="DejaVu Sans Mono, monospace" font-size="38" text-anchor="middle" fill="#1A2829">${text}</text>`;
}

/** A label on a sheet-coloured plate, with a leader line to what it names. */
export function label(x: number, y: number, toX: number, toY: number, text: string): string {
  const plate = 40 + text.length * 18.2;
  return `<line x1="${x + plate / 2}" y1="${y}" x2="${toX}" y2="${toY}" stroke="#1A2829" stroke-width="4"/><circle cx="${toX}" cy="${toY}" r="8" fill="#1A2829"/>
<rect x="${x}" y="${y - 34}" width="${plate}" height="62" fill="#F4F0E6" stroke="#1A2829" stroke-width="3"/>
<text x="${x + 18}" y="${y + 9}" font-family="DejaVu Sans, sans-serif" font-size="34" fill="#1A2829">${text}</text>`;
}
