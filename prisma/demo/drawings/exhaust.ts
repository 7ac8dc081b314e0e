/**
 * The story's pictures: a grey streak on a cabin-heat shroud, the crack behind it seen in a mirror,
 * and why it takes the hours: 95 mm between collector and firewall.
 */
import { dimension, label, picture, screw } from './materials.ts';

const firewall = `<rect width="1600" height="1200" fill="url(#wall)"/>
<g stroke="#434a4a" stroke-width="3" opacity="0.7"><line x1="0" y1="190" x2="1600" y2="190"/><line x1="0" y1="1010" x2="1600" y2="1010"/></g>
${Array.from({ length: 14 }, (_, i) => `<circle cx="${60 + i * 115}" cy="165" r="8" fill="#9aa2a0" stroke="#434a4a" stroke-width="2"/><circle cx="${60 + i * 115}" cy="1035" r="8" fill="#9aa2a0" stroke="#434a4a" stroke-width="2"/>`).join('')}`;

/** As found: a round heat shroud on the exhaust, and a streak fanning aft from its lower seam. */
export function greyStreakOnShroud(): string {
  return picture(
    '#6c7472',
    `${firewall}
<g filter="url(#drop)">
<rect x="-20" y="500" width="300" height="200" fill="url(#pipe)"/>
<rect x="1330" y="510" width="300" height="180" fill="url(#pipe)"/>
<path d="M470 350 C470 230 540 120 580 -20 L800 -20 C770 120 700 230 690 350 Z" fill="url(#hoseAcross)"/>
${[40, 90, 140, 190, 240].map((y) => `<path d="M${590 - (y / 240) * 92} ${y - 14} q${100} 26 ${206 - y * 0.06} 0" fill="none" stroke="#0f1213" stroke-width="7" opacity="0.75"/>`).join('')}
</g>
<g filter="url(#drop)"><path d="M250 390 Q250 340 300 340 L1300 340 Q1350 340 1350 390 L1350 810 Q1350 860 1300 860 L300 860 Q250 860 250 810 Z" fill="url(#sheetMetal)" stroke="#394041" stroke-width="4"/></g>
<g fill="none" stroke="#5f6768" stroke-width="4"><path d="M320 342 L320 858"/><path d="M1280 342 L1280 858"/></g>
<g fill="none" stroke="#e4e9e8" stroke-width="3" opacity="0.7"><path d="M326 342 L326 858"/><path d="M1286 342 L1286 858"/></g>
<g><rect x="252" y="712" width="1096" height="16" fill="#586062"/><rect x="252" y="728" width="1096" height="5" fill="#dfe5e4" opacity="0.8"/></g>
<path d="M640 338 q-170 -6 -176 -26 l0 -30 l236 0 l0 30 q-4 22 -60 26" fill="url(#castMetal)" stroke="#394041" stroke-width="4"/>
<g fill="none" stroke="#cfd4d2" stroke-width="14"><path d="M478 290 L692 290"/></g><g fill="none" stroke="#394041" stroke-width="3"><path d="M478 283 L692 283 M478 297 L692 297"/></g>
${[370, 560, 790, 1010, 1230].map((x, i) => screw(x, 782, 20, 20 + i * 37)).join('')}
<g filter="url(#ragged)">
<path d="M552 712 C680 668 860 590 1060 540 C1170 514 1270 500 1352 496 L1352 766 C1230 772 1060 764 900 748 C760 736 640 730 552 724 Z" fill="url(#ashRun)"/>
<path d="M548 710 C680 680 850 632 1030 592 C1150 568 1250 556 1346 552 L1346 716 C1200 728 1000 734 800 730 C690 728 610 726 548 724 Z" fill="url(#sootRun)"/>
<path d="M540 712 C640 698 760 672 900 644 C820 690 700 722 540 724 Z" fill="#191716" opacity="0.55"/></g>
<ellipse cx="552" cy="719" rx="40" ry="11" fill="#0e0d0c" filter="url(#soft3)"/>
${label(560, 1080, 1090, 660, 'grey streak from the seam, fanning aft')}
${label(860, 240, 800, 420, 'cabin-heat shroud')}`,
  );
}

/** Shroud off: the collector behind the engine mount, and in the mirror the crack beside the weld. */
export function crackInMirror(): string {
  // A jagged wedge, widest in the middle, fine at both ends.
  const crack =
    'M742 396 L756 430 L766 470 L755 506 L771 552 L760 592 L771 636 L757 672 L752 706 L748 668 L757 634 L744 592 L752 552 L736 508 L747 470 L744 432 Z';
  return picture(
    '#4f5655',
    `<g opacity="0.75">${firewall}</g>
<g filter="url(#drop)">
<rect x="-20" y="250" width="1660" height="230" fill="url(#pipe)"/>
<path d="M1080 250 C1090 150 1130 60 1140 -20 L1370 -20 C1360 90 1330 170 1330 250 Z" fill="url(#pipeAcross)"/>
<path d="M150 250 C160 150 200 60 210 -20 L440 -20 C430 90 400 170 400 250 Z" fill="url(#pipeAcross)"/></g>
<g fill="none" stroke="#2d2622" stroke-width="7" opacity="0.65"><path d="M1082 252 q124 30 246 0"/><path d="M152 252 q124 30 246 0"/></g>
<g filter="url(#drop)"><rect x="-40" y="-30" width="96" height="1300" fill="url(#tube)" transform="rotate(-9 0 600)"/></g>
<g filter="url(#drop)">
<path d="M1040 905 L1560 1230 L1640 1170 L1092 850 Z" fill="url(#castMetal)" stroke="#2c3233" stroke-width="4"/>
<circle cx="1040" cy="872" r="40" fill="url(#castMetal)" stroke="#2c3233" stroke-width="4"/>
<ellipse cx="760" cy="640" rx="384" ry="364" fill="#2c3233"/><ellipse cx="760" cy="640" rx="366" ry="346" fill="#8a9190"/></g>
<clipPath id="glass"><ellipse cx="760" cy="640" rx="352" ry="332"/></clipPath>
<g clip-path="url(#glass)"><rect x="380" y="280" width="780" height="740" fill="#7f8a88"/>
<rect x="380" y="280" width="780" height="160" fill="#55605e"/><rect x="380" y="880" width="780" height="160" fill="#4b5553"/>
<g transform="rotate(-4 760 640)">
<rect x="340" y="392" width="860" height="480" fill="url(#pipe)"/>
<path d="M930 392 C900 470 900 790 930 872 L1200 872 L1200 392 Z" fill="#53483f" opacity="0.4"/>
<ellipse cx="560" cy="560" rx="230" ry="170" fill="url(#ashSpot)" filter="url(#ragged)"/>
<ellipse cx="716" cy="556" rx="112" ry="230" fill="url(#sootSpot)" filter="url(#ragged)"/>
<g fill="none" stroke-linecap="round"><path d="M836 394 C810 470 810 790 836 870" stroke="#4c423b" stroke-width="40"/><path d="M836 394 C810 470 810 790 836 870" stroke="#b8ab9d" stroke-width="28" stroke-dasharray="3 15"/><path d="M830 396 C804 470 804 790 830 868" stroke="#e6dccf" stroke-width="5" opacity="0.5"/></g>
<path d="${crack}" fill="#040303"/><path d="M757 420 L770 462 L758 502 L774 548 L764 590 L776 630" fill="none" stroke="#f0e6d6" stroke-width="4" opacity="0.9"/>
<path d="M744 508 L700 540 L684 536 M754 604 L716 636" fill="none" stroke="#040303" stroke-width="6" stroke-linecap="round"/></g>
<path d="M500 330 L620 300 L470 960 L400 760 Z" fill="#fff" opacity="0.12"/></g>
<ellipse cx="760" cy="640" rx="359" ry="339" fill="none" stroke="#e8eceb" stroke-width="3" opacity="0.6"/>
${label(60, 1085, 742, 600, 'crack beside the weld, seen in a mirror')}
${label(700, 120, 900, 330, 'collector, shroud off')}`,
  );
}

/** A section from above: firewall, shroud, collector, and the room there is for a hand. */
export function shroudClearance(): string {
  const ink = 'stroke="#1A2829" stroke-width="5"';
  const wrench = (turn: number, opacity: number): string =>
    `<g transform="translate(912 710) rotate(${turn})" opacity="${opacity}"><path d="M-40 -14 Q-56 30 -20 56 L-20 330 Q0 352 20 330 L20 56 Q56 30 40 -14 L24 -34 L24 12 L-24 12 L-24 -34 Z" fill="#F4F0E6" ${ink}/></g>`;
  return picture(
    '#F4F0E6',
    `<g stroke="#d9d2bf" stroke-width="2">${Array.from({ length: 15 }, (_, i) => `<line x1="${100 + i * 100}" y1="0" x2="${100 + i * 100}" y2="1200"/>`).join('')}${Array.from({ length: 11 }, (_, i) => `<line x1="0" y1="${100 + i * 100}" x2="1600" y2="${100 + i * 100}"/>`).join('')}</g>
<rect x="1240" y="90" width="90" height="960" fill="#F4F0E6"/><rect x="1240" y="90" width="90" height="960" fill="url(#hatch45)" ${ink}/>
<rect x="90" y="280" width="420" height="560" fill="#e8e2d2" ${ink}/>
${Array.from({ length: 9 }, (_, i) => `<rect x="${130 + i * 42}" y="230" width="16" height="660" fill="#F4F0E6" stroke="#1A2829" stroke-width="3"/>`).join('')}
<path d="M510 470 L640 470 M510 650 L640 650" fill="none" ${ink}/>
<circle cx="760" cy="560" r="210" fill="none" ${ink} stroke-dasharray="26 12"/>
<circle cx="760" cy="560" r="140" fill="#e8e2d2" ${ink}/><circle cx="760" cy="560" r="118" fill="#F4F0E6" stroke="#1A2829" stroke-width="3"/>
<path d="M812 664 l26 34 M832 656 l24 30 M796 676 l22 30" stroke="#9C2F1F" stroke-width="8"/>
<path d="M640 470 L634 502 M640 650 L634 618" fill="none" ${ink}/>
${wrench(0, 0.35)}${wrench(-40, 1)}
<path d="M912 1010 A300 300 0 0 0 1104.8 939.8" fill="none" ${ink}/>
<rect x="962" y="1030" width="118" height="62" fill="#F4F0E6"/><text x="1020" y="1076" font-family="DejaVu Sans Mono, monospace" font-size="42" text-anchor="middle" fill="#1A2829">40°</text>
<rect x="876" y="676" width="72" height="68" fill="#F4F0E6" ${ink}/><circle cx="912" cy="710" r="20" fill="#e8e2d2" stroke="#1A2829" stroke-width="4"/>
<line x1="900" y1="560" x2="900" y2="300" stroke="#1A2829" stroke-width="2"/><line x1="1240" y1="560" x2="1240" y2="300" stroke="#1A2829" stroke-width="2"/>
${dimension(900, 330, 1240, 330, '95 mm')}
${label(930, 1130, 1090, 900, 'wrench on the clamp nut')}
${label(140, 160, 620, 405, 'cabin-heat shroud (taken off)')}
${label(470, 930, 826, 682, 'crack')}
${label(1390, 880, 1300, 800, 'firewall')}
${label(250, 1060, 690, 668, 'collector')}
<text x="300" y="580" font-family="DejaVu Sans, sans-serif" font-size="40" text-anchor="middle" fill="#1A2829" stroke="#F4F0E6" stroke-width="12" paint-order="stroke">cylinder</text>`,
  );
}
