import { type DemoOrder, readDemo } from '../../../../prisma/demo/data.ts';
import { departAircraft } from '../hangar/depart-aircraft.ts';
import { moveAircraft } from '../hangar/move-aircraft.ts';
import { handBack } from '../records/hand-back.ts';
import type { Act } from './play.ts';
import type { Props } from './story.ts';

/** Aircraft that came without an order are put on their stands; those that left took along what came with them. */
export function floorActs(orders: readonly DemoOrder[], props: Props): Act[] {
  return readDemo('hangar.json').occupancy.flatMap(
    ({ aircraft, stand, from, to, order }): Act[] => {
      const aircraftId = props.aircraft.of(aircraft);
      const came: Act[] =
        order === null
          ? [
              {
                at: props.clock.at(from),
                by: 'odile',
                does: (context) =>
                  moveAircraft(context, { aircraftId, standId: props.stands.of(stand) }),
              },
            ]
          : [];
      if (!to) return came;
      const known = orders.find(({ key }) => key === order);
      return [
        ...came,
        {
          at: props.clock.at(to),
          by: 'odile',
          does: async (context) => {
            await departAircraft(context, { aircraftId });
            if (!known) return;
            const orderId = props.orders.of(known.key);
            const things = await context.read.receivedThing.findMany({
              where: { orderId },
              select: { id: true },
            });
            await handBack(context, { orderId, returned: things.map(({ id }) => id) });
          },
        },
      ];
    },
  );
}
