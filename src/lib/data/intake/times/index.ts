export { dateOf, dayMs, dayNumber } from './calendar.ts';
export { dayOf, serialMs, type SerialSystem } from './day-of.ts';
export { dateOrders, newTimeParts, type DateOrder, type TimeForm, type TimeParts } from './parts.ts';
export { scanTime } from './scan.ts';
export { isTimePattern, statedOrder } from './stated-order.ts';
export { isZone, ZoneClock } from './zones.ts';
