/** Times as the standards of course systems write them. */

/** SCORM 1.2, CMITimespan: `HHHH:MM:SS.SS`. @param {number} seconds */
export function timespan(seconds) {
  const [hours, minutes, rest] = parts(seconds);
  return `${padded(Math.min(hours, 9999), 4)}:${padded(minutes, 2)}:${padded(rest, 2)}`;
}

/** ISO 8601, as SCORM 2004 (timeinterval) and xAPI have it: `PT1H2M3.5S`. @param {number} seconds */
export function duration(seconds) {
  const [hours, minutes, rest] = parts(seconds);
  return `PT${hours}H${minutes}M${rest}S`;
}

/** The time of day, as SCORM 1.2 has it (CMITime). @param {Date} now */
export function timeOfDay(now) {
  return [now.getHours(), now.getMinutes(), now.getSeconds()].map((part) => padded(part, 2)).join(":");
}

/** The moment, as SCORM 2004 has it (RTE 4.1.1.7): a zone stands only after hundredths. @param {Date} now */
export function moment(now) {
  return `${now.toISOString().slice(0, 22)}Z`;
}

/** Hours, minutes and seconds to a tenth. @param {number} seconds */
function parts(seconds) {
  const tenths = Math.max(0, Math.round(seconds * 10));
  const minutes = Math.floor(tenths / 600);
  return [Math.floor(minutes / 60), minutes % 60, (tenths % 600) / 10];
}

/** @param {number} value @param {number} digits before the decimals */
function padded(value, digits) {
  const [whole, decimals] = String(value).split(".");
  return whole.padStart(digits, "0") + (decimals === undefined ? "" : `.${decimals}`);
}
