import type { EventKind, EventSubject } from '#lib/data/record/index.ts';
import { plan } from './plan.ts';
import { suppliers } from './suppliers.ts';

/** Something that happened on a day of the demo, planted stories and harmless work alike. */
export interface DemoEvent {
  readonly day: number;
  readonly kind: EventKind;
  readonly subject: EventSubject;
  readonly code: string;
  readonly note: string;
}

const exchange = (day: number, code: string): DemoEvent => ({
  day,
  kind: 'meterExchange',
  subject: 'vehicle',
  code,
  note: 'Bulk meter exchanged'
});

const gaugeWork = (day: number, code: string, note: string): DemoEvent => ({
  day,
  kind: 'gaugeWork',
  subject: 'tail',
  code,
  note
});

/** The station whose supplier changes, and the day; nothing else changes with it. */
export const supplierChange = { station: 'JDUM', day: 205, to: suppliers.pellam } as const;

/** Nine meter exchanges, six gauge jobs, two supplier changes, one opening. */
export const events: readonly DemoEvent[] = [
  exchange(58, 'JARV-H203'),
  gaugeWork(96, 'Q7-KEC', 'Gauge indicator changed'),
  exchange(133, 'JBEL-R304'),
  exchange(175, 'JGAL-R504'),
  gaugeWork(189, 'Q7-TUB', 'Right probe harness cleaned'),
  {
    day: supplierChange.day,
    kind: 'supplierChange',
    subject: 'station',
    code: supplierChange.station,
    note: `${suppliers.marrowdale} hands over to ${supplierChange.to}`
  },
  exchange(221, 'JCOD-R112'),
  exchange(246, 'JESK-R423'),
  gaugeWork(262, 'Q7-LOA', 'Densitometer replaced'),
  exchange(plan.exchange.fromDay, plan.exchange.vehicle),
  gaugeWork(plan.scatter.untilDay, plan.scatter.tail, 'Signal conditioner replaced'),
  exchange(350, 'JLOM-R802'),
  exchange(390, 'JARV-H215'),
  {
    day: plan.opening.fromDay,
    kind: 'stationOpening',
    subject: 'station',
    code: plan.opening.station,
    note: 'First uplift'
  },
  {
    day: plan.refinery.fromDay,
    kind: 'supplierChange',
    subject: 'station',
    code: plan.refinery.station,
    note: `${suppliers.ostrel} draws from another refinery`
  },
  gaugeWork(411, 'Q7-KEJ', 'Centre probe replaced'),
  exchange(462, 'JKES-R703'),
  gaugeWork(470, 'Q7-TUE', 'Gauge indicator changed')
];
