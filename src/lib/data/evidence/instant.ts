function two(value: number): string {
  return value < 10 ? `0${value}` : String(value);
}

/** An instant as ISO 8601 in UTC; milliseconds only where there are any. Empty where missing. */
export function isoInstant(timeMs: number): string {
  if (!Number.isFinite(timeMs)) return '';
  const date = new Date(timeMs);
  const day = `${String(date.getUTCFullYear()).padStart(4, '0')}-${two(date.getUTCMonth() + 1)}-${two(date.getUTCDate())}`;
  const clock = `${two(date.getUTCHours())}:${two(date.getUTCMinutes())}:${two(date.getUTCSeconds())}`;
  const millis = date.getUTCMilliseconds();
  return `${day}T${clock}${millis === 0 ? '' : `.${String(millis).padStart(3, '0')}`}Z`;
}
