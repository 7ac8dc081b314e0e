/** Everyday pictures: an oil seep, a chafed hose, a fuel stain at a drain, the engine bay as a plan. */
import { balloon, label, picture, screw } from './materials.ts';

const fins = (x: number, y: number, count: number, length: number, pitch: number): string =>
  Array.from(
    { length: count },
    (_, i) =>
      `<rect x="${x}" y="${y + i * pitch}" width="${length}" height="${pitch * 0.55}" rx="6" fill="url(#castMetal)" stroke="#3a403c" stroke-width="2"/>`,
  ).join('');

/** Oil along the lower edge of a rocker cover, with dirt stuck to it. */
export function oilSeepRockerCover(): string {
  return picture(
    '#4b514f',
    `<rect width="1600" height="1200" fill="url(#wall)"/>
<rect x="0" y="905" width="1600" height="300" fill="url(#sheetMetal)"/><path d="M0 905 L1600 905" stroke="#454c4b" stroke-width="5"/>
<g filter="url(#drop)">${fins(900, 120, 13, 720, 58)}</g>
<g filter="url(#drop)"><path d="M330 300 Q330 210 420 210 L900 210 Q960 210 960 270 L960 880 Q960 940 900 940 L420 940 Q330 940 330 850 Z" fill="url(#castMetal)" stroke="#3a403c" stroke-width="5"/></g>
<path d="M420 370 Q420 320 470 320 L820 320 Q860 320 860 370 L860 780 Q860 830 820 830 L470 830 Q420 830 420 780 Z" fill="#a7aca4" stroke="#6a6f68" stroke-width="5"/>
<path d="M440 380 Q440 342 480 342 L700 342" fill="none" stroke="#dfe2dc" stroke-width="9" opacity="0.8"/>
<path d="M352 906 L372 920 Q400 946 440 946 L890 946 Q946 946 962 900" fill="none" stroke="#a04a26" stroke-width="12"/>
${[
  [380, 262],
  [640, 258],
  [908, 262],
  [380, 886],
  [640, 890],
  [908, 886],
]
  .map(([x, y], i) => screw(x ?? 0, y ?? 0, 26, 15 + i * 51))
  .join('')}
<g filter="url(#ragged)"><path d="M420 930 C520 900 780 900 890 930 L884 960 C860 980 840 1050 820 1090 C806 1060 800 1000 770 975 C740 990 720 1100 700 1180 C676 1120 670 1010 640 980 C610 985 590 1060 566 1120 C548 1060 540 1000 500 972 C470 965 440 962 420 950 Z" fill="url(#oilRun)"/></g>
<g filter="url(#soft3)"><path d="M452 946 C600 930 760 934 868 946 C800 962 560 966 452 946 Z" fill="#d79a45" opacity="0.8"/>
<path d="M470 938 C600 926 740 928 850 938" stroke="#ffe9bd" stroke-width="5" fill="none" opacity="0.85"/>
<path d="M568 985 C566 1020 568 1050 568 1080 M702 985 C700 1040 702 1090 701 1130 M822 975 C822 1010 822 1030 821 1050" stroke="#d79a45" stroke-width="7" fill="none" opacity="0.6"/></g>
${label(900, 1090, 806, 948, 'oil along the lower edge, no drip')}
${label(90, 120, 600, 420, 'rocker cover, cylinder 3')}`,
  );
}

/** A hose lying on a frame tube, its cover worn through to the cord. */
export function chafedHose(): string {
  const hose = 'M-40 760 C260 760 380 600 700 560 C1050 516 1260 440 1640 280';
  const weave = Array.from({ length: 19 }, (_, i) => {
    const x = 680 + i * 15;
    return `<path d="M${x} 500 l22 140 M${x + 22} 500 l-22 140" stroke="#8f7a4e" stroke-width="4"/>`;
  }).join('');
  return picture(
    '#5b6261',
    `<rect width="1600" height="1200" fill="url(#wall)"/>
<g filter="url(#drop)"><rect x="740" y="-40" width="150" height="1300" fill="url(#tube)" transform="rotate(11 815 600)"/></g>
<path d="${hose}" transform="translate(14 40)" stroke="#1c2121" stroke-width="140" fill="none" opacity="0.4" filter="url(#soft18)"/>
<path d="${hose}" stroke="#131617" stroke-width="150" fill="none"/>
<path d="${hose}" stroke="#2d3234" stroke-width="132" fill="none"/>
<path d="${hose}" transform="translate(0 -16)" stroke="#4b5254" stroke-width="64" fill="none"/>
<path d="${hose}" transform="translate(0 -30)" stroke="#747c7e" stroke-width="16" fill="none" opacity="0.8" filter="url(#soft3)"/>
<path d="${hose}" stroke="#c9b458" stroke-width="5" stroke-dasharray="60 36" transform="translate(0 6)" fill="none" opacity="0.75"/>
<clipPath id="worn"><path d="M690 548 C740 512 880 494 950 520 C968 560 930 606 850 616 C770 622 690 606 690 548 Z"/></clipPath>
<g transform="rotate(-9 820 560) translate(0 4)"><path d="M676 548 C730 498 890 480 966 514 C984 566 940 622 850 632 C764 638 674 616 676 548 Z" fill="#0e1011"/>
<g clip-path="url(#worn)"><rect x="660" y="480" width="330" height="170" fill="#d9c48d"/>${weave}<rect x="660" y="585" width="330" height="70" fill="#3d3014" opacity="0.45"/></g>
<g fill="none" stroke="#0e1011" stroke-width="6"><path d="M690 548 l-34 -14 M950 520 l36 -22 M850 616 l14 36"/></g></g>
${label(80, 300, 770, 545, 'cover worn through to the cord')}
${label(930, 1010, 790, 820, 'frame tube, no clamp')}`,
  );
}

/** Fuel dyed blue, dried below the drain of an engine-driven pump. */
export function fuelStainAtDrain(): string {
  return picture(
    '#676f6d',
    `<rect width="1600" height="1200" fill="url(#sheetMetal)"/>
<g stroke="#7b8384" stroke-width="3">${Array.from({ length: 5 }, (_, i) => `<line x1="0" y1="${620 + i * 140}" x2="1600" y2="${600 + i * 140}"/>`).join('')}</g>
<rect width="1600" height="420" fill="#3f4645"/><g filter="url(#drop)">${fins(60, 40, 5, 380, 62)}
<rect x="560" y="60" width="520" height="250" rx="26" fill="url(#castMetal)" stroke="#3a403c" stroke-width="5"/>
<circle cx="820" cy="190" r="150" fill="url(#castMetal)" stroke="#3a403c" stroke-width="5"/>
<circle cx="820" cy="190" r="92" fill="#9ca29a" stroke="#62675f" stroke-width="5"/>
<rect x="1060" y="130" width="300" height="82" fill="url(#rubber)"/><rect x="1044" y="118" width="60" height="106" fill="url(#castMetal)" stroke="#3a403c" stroke-width="4"/>
<path d="M770 330 L770 470 Q770 520 790 560" stroke="#2c3233" stroke-width="44" fill="none"/><path d="M770 330 L770 470 Q770 520 790 560" stroke="#b9c3c0" stroke-width="30" fill="none"/></g>
${[
  [700, 108],
  [940, 108],
  [700, 276],
  [940, 276],
]
  .map(([x, y], i) => screw(x ?? 0, y ?? 0, 18, i * 44))
  .join('')}
<g filter="url(#ragged)"><path d="M770 580 C740 700 700 860 690 1000 C686 1100 720 1180 770 1220 L900 1220 C950 1120 930 960 890 820 C870 730 830 640 812 580 Z" fill="#2f7fc0" opacity="0.42"/>
<path d="M778 580 C766 700 752 860 756 1000 C760 1100 776 1160 800 1220 L850 1220 C866 1120 856 960 834 820 C826 730 812 640 806 580 Z" fill="#1f62a6" opacity="0.62"/></g>
<path d="M792 566 q-16 30 0 44 q18 -14 0 -44" fill="#3f9be0" stroke="#144e86" stroke-width="3"/>
<path d="M800 850 q-15 30 0 44 q18 -14 0 -44" fill="#3f9be0" stroke="#144e86" stroke-width="3"/>
${label(1000, 940, 850, 900, 'blue stain: fuel')}
${label(130, 540, 760, 500, "the pump's overboard drain")}
${label(1060, 370, 880, 230, 'fuel pump')}`,
  );
}

/** The engine bay in plan, with balloons: where each finding sits. */
export function engineBay(): string {
  const ink = 'stroke="#1A2829" stroke-width="4"';
  const cylinder = (x: number, y: number, side: 1 | -1): string =>
    `<rect x="${x}" y="${side > 0 ? y : y - 190}" width="150" height="190" fill="#F4F0E6" ${ink}/>${Array.from({ length: 7 }, (_, i) => `<line x1="${x - 8}" y1="${y + side * (24 + i * 22)}" x2="${x + 158}" y2="${y + side * (24 + i * 22)}" stroke="#1A2829" stroke-width="2"/>`).join('')}<rect x="${x + 12}" y="${side > 0 ? y + 190 : y - 246}" width="126" height="56" rx="12" fill="#e8e2d2" ${ink}/>`;
  return picture(
    '#F4F0E6',
    `<g stroke="#d9d2bf" stroke-width="2">${Array.from({ length: 15 }, (_, i) => `<line x1="${100 + i * 100}" y1="0" x2="${100 + i * 100}" y2="1200"/>`).join('')}${Array.from({ length: 11 }, (_, i) => `<line x1="0" y1="${100 + i * 100}" x2="1600" y2="${100 + i * 100}"/>`).join('')}</g>
<rect x="120" y="120" width="46" height="960" fill="url(#hatch45)" ${ink}/>
<g fill="none" ${ink}><path d="M166 240 L1300 150 M166 960 L1300 1050"/><path d="M166 262 L1300 172 M166 938 L1300 1028"/></g>
<rect x="480" y="500" width="620" height="200" rx="14" fill="#e8e2d2" ${ink}/>
<rect x="350" y="520" width="130" height="160" fill="#F4F0E6" ${ink}/>
${cylinder(560, 500, -1)}${cylinder(830, 500, -1)}${cylinder(560, 700, 1)}${cylinder(830, 700, 1)}
<circle cx="1270" cy="600" r="190" fill="none" ${ink}/><circle cx="1270" cy="600" r="60" fill="#e8e2d2" ${ink}/>
${Array.from({ length: 12 }, (_, i) => `<path d="M1270 540 Q1300 480 1280 412" fill="none" stroke="#1A2829" stroke-width="3" transform="rotate(${i * 30} 1270 600)"/>`).join('')}
<path d="M1100 570 L1210 570 M1100 630 L1210 630" fill="none" ${ink}/>
<path d="M905 946 L905 1000 Q905 1020 880 1020 L330 1020 Q250 1020 250 940 L250 880" fill="none" stroke="#1A2829" stroke-width="52"/><path d="M905 946 L905 1000 Q905 1020 880 1020 L330 1020 Q250 1020 250 940 L250 880" fill="none" stroke="#e8e2d2" stroke-width="44"/>
<path d="M635 946 L635 1000" stroke="#1A2829" stroke-width="52"/><path d="M635 946 L635 1002" stroke="#e8e2d2" stroke-width="44"/>
<rect x="310" y="972" width="270" height="96" fill="#F4F0E6" fill-opacity="0.7" ${ink} stroke-dasharray="20 10"/>
<path d="M372 1000 l16 40 M390 998 l-6 44" stroke="#9C2F1F" stroke-width="8"/>
<path d="M480 540 C420 420 380 330 470 232 C560 160 700 210 720 205" fill="none" stroke="#1A2829" stroke-width="22"/><path d="M480 540 C420 420 380 330 470 232 C560 160 700 210 720 205" fill="none" stroke="#8f968f" stroke-width="14"/>
${balloon(400, 850, 382, 984, '1')}${balloon(640, 1120, 540, 1030, '2')}${balloon(330, 130, 470, 232, '3')}${balloon(1180, 330, 1230, 430, '4')}
<g font-family="DejaVu Sans, sans-serif" font-size="30" fill="#1A2829"><rect x="1110" y="840" width="460" height="210" fill="#F4F0E6" ${ink}/>
<text x="1136" y="888">1  crack, under the shroud</text><text x="1136" y="934">2  cabin-heat shroud</text><text x="1136" y="980">3  breather hose, chafed</text><text x="1136" y="1026">4  cooling fan</text></g>
<text x="200" y="600" font-family="DejaVu Sans, sans-serif" font-size="28" fill="#1A2829">firewall</text>`,
  );
}
