import { dayAfter, daysBetween, sayCivilDay } from '@fairlead/hangar';
import type { DrawingSheet } from './sheet.ts';

export const PROMISE = 'promise { beginsOn p50 p80 atBestP50 atBestP80 sentence }';

export interface PaperPromise {
  beginsOn: string;
  p50: string | null;
  p80: string | null;
  atBestP50: string | null;
  atBestP80: string | null;
  sentence: string;
}

/** The days as one dimension on an axis of days, as the page draws it: open at its end where something is not known. */
export function drawPromise(sheet: DrawingSheet, promise: PaperPromise): void {
  const { type } = sheet;
  const { beginsOn, sentence } = promise;
  const open = promise.p80 === null;
  const [p50, p80] = [promise.p50 ?? promise.atBestP50, promise.p80 ?? promise.atBestP80];
  sheet.need(type.body * 9);
  sheet.heading('Ready, if accepted');
  sheet.text(
    `Begun on ${sayCivilDay(beginsOn, beginsOn)}: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`,
  );
  if (p50 === null || p80 === null) return;
  const upTo = (day: string) => daysBetween(beginsOn, day) + 1;
  const room = Math.max(7, Math.ceil(upTo(p80) * 1.15));
  const { left: x, width } = sheet;
  const at = (days: number) => x + (days / room) * width;
  const mark = type.body * 0.55;
  sheet.y += type.body * 1.1;
  const line = sheet.y;
  const axis = line + mark * 2.2;
  sheet.decorate((doc) => {
    doc
      .lineWidth(0.3)
      .moveTo(x, axis)
      .lineTo(x + width, axis)
      .stroke('black');
    for (let day = 0; day < room; day += 1) {
      const monday = new Date(`${dayAfter(beginsOn, day)}T12:00:00Z`).getUTCDay() === 1;
      if (monday || room <= 42)
        doc
          .moveTo(at(day), axis - mark * (monday ? 0.7 : 0.3))
          .lineTo(at(day), axis)
          .stroke('black');
    }
    doc
      .lineWidth(1)
      .moveTo(x, line)
      .lineTo(at(upTo(p80)), line);
    for (const end of [x, ...(open ? [] : [at(upTo(p80))])])
      doc.moveTo(end - mark * 0.6, line + mark * 0.6).lineTo(end + mark * 0.6, line - mark * 0.6);
    doc.stroke('black');
    const top = line - mark * 0.4;
    doc.lineWidth(0.6);
    doc.polygon(
      [at(upTo(p80)), top],
      [at(upTo(p80)) - mark * 0.75, top - mark * 1.3],
      [at(upTo(p80)) + mark * 0.75, top - mark * 1.3],
    );
    doc.fillAndStroke('white', 'black');
    doc
      .lineWidth(1.4)
      .moveTo(at(upTo(p50)), line - mark)
      .lineTo(at(upTo(p50)), axis)
      .stroke('black');
  });
  sheet.y = axis + type.body * 0.9;
}
