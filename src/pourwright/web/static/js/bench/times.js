import { found } from "./progress.js";

/** Tells times on the shop's clock, whatever the phone's clock says. */
export class Clock {
  #ahead = 0;

  /** @param {string} zone IANA name @param {number} hours 12 or 24 */
  constructor(zone, hours) {
    const said = { timeZone: zone, hour: "numeric", minute: "2-digit", hour12: hours === 12 };
    this.hour = new Intl.DateTimeFormat("en-GB", hours === 12 ? said : { ...said, hour: "2-digit" });
    this.day = new Intl.DateTimeFormat("en-GB", { timeZone: zone, weekday: "short", day: "numeric", month: "short" });
  }

  /** Learn how far the server's clock is ahead of this one. @param {string} told @param {number} asked @param {number} answered */
  set(told, asked, answered) {
    this.#ahead = Date.parse(told) - (asked + answered) / 2;
  }

  /** How far this clock is off [min], rounded. */
  get off() {
    return Math.round(this.#ahead / 60_000);
  }

  /** The present moment by the server's clock [ms]. */
  now() {
    return Date.now() + this.#ahead;
  }

  /** A moment for a person: with its day where that is not today. @param {number} moment [ms] */
  say(moment) {
    const day = this.day.format(moment);
    const hour = this.hour.format(moment);
    return day === this.day.format(this.now()) ? hour : `${day}, ${hour}`;
  }
}

const MINUTE = 60_000;

/** A span of time in the two units that matter. @param {number} span [ms], not negative */
export function spanOf(span) {
  if (span < MINUTE) return `${Math.floor(span / 1000)} s`;
  const minutes = Math.floor(span / MINUTE);
  if (minutes < 10) return `${minutes} min ${Math.floor((span % MINUTE) / 1000)} s`;
  if (minutes < 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return `${hours} h ${minutes % 60} min`;
  return `${Math.floor(hours / 24)} days ${hours % 24} h`;
}

/** When a timer ends [ms]; null where what it counts from has not happened. @param {any} timer @param {any[]} entries */
export function endOf(timer, entries) {
  const from = found(timer.mark, entries);
  return from ? Date.parse(from.at) + timer.after_s * 1000 : null;
}

/** What to say of a timer now. @param {any} timer @param {number} end @param {Clock} clock */
export function timerWords(timer, end, clock) {
  const away = end - clock.now();
  const span = spanOf(Math.abs(away));
  const until = { until: away >= 0 ? `${span} left` : `over since ${span}`, from: away >= 0 ? `in ${span}` : "now", about: away >= 0 ? `in ${span}` : `${span} ago` };
  return { when: `${timer.when} ${clock.say(end)}`, left: until[timer.when], late: timer.when === "until" && away < 0 };
}
