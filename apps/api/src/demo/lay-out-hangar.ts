import type { Tx } from '@fairlead/database';
import { readDemo } from '../../../../prisma/demo/data.ts';
import { Keys } from './keys.ts';

const mm = (metres: number) => Math.round(metres * 1000);

/**
 * The hangar and its stands. The file counts depth inwards from the door; the program's plan has the door
 * at its foot, so it counts from the back wall.
 */
export async function layOutHangar(tx: Tx, shopId: string): Promise<Keys> {
  const { name, widthM, depthM, door, stands } = readDemo('hangar.json');
  const hangar = await tx.hangar.create({
    data: {
      shopId,
      name,
      widthMm: mm(widthM),
      depthMm: mm(depthM),
      doorFromMm: mm(door.fromM),
      doorWidthMm: mm(door.toM - door.fromM),
    },
  });
  const keys = new Keys();
  await tx.stand.createMany({
    data: stands.map((stand) => ({
      id: keys.make(stand.key),
      hangarId: hangar.id,
      name: stand.name.replace('Stand ', ''),
      xMm: mm(stand.xM),
      yMm: mm(depthM - stand.yM - stand.depthM),
      widthMm: mm(stand.widthM),
      depthMm: mm(stand.depthM),
      headingDeg: stand.nose === 'towards door' ? 180 : 0,
    })),
  });
  return keys;
}
