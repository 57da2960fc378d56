/** UUID, version 4 (RFC 9562); `crypto.randomUUID` is not there over plain http. */
export function uuid() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

/**
 * The same id on every phone for the same press at a step, so that two phones without a network enter it once (UUID, version 8, RFC 9562).
 * @param {{job: string, variant: string, casting: number, step: string}} press @param {Set<string>} taken ids that are there already
 */
export function pressId({ job, variant, casting, step }, taken) {
  for (let time = 0; ; time++) {
    const hex = sha256(new TextEncoder().encode(JSON.stringify([job, variant, casting, step, time])).buffer);
    const place = ((parseInt(hex[16], 16) & 0x3) | 0x8).toString(16);
    const id = `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-${place}${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
    if (!taken.has(id)) return id;
  }
}

/** Primes' roots in 32 bits after the point, as FIPS 180-4 builds its constants. */
function fraction(number, root) {
  const whole = number ** (1 / root);
  return ((whole - Math.floor(whole)) * 2 ** 32) >>> 0;
}

function primes(count) {
  const found = [];
  for (let one = 2; found.length < count; one++) if (found.every((prime) => one % prime)) found.push(one);
  return found;
}

const PRIMES = primes(64);
const ROUND = PRIMES.map((prime) => fraction(prime, 3));
const START = PRIMES.slice(0, 8).map((prime) => fraction(prime, 2));
const turned = (word, by) => (word >>> by) | (word << (32 - by));

function padded(bytes) {
  const whole = new Uint8Array(((bytes.length + 72) >> 6) << 6);
  whole.set(bytes);
  whole[bytes.length] = 0x80;
  const view = new DataView(whole.buffer);
  view.setUint32(whole.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(whole.length - 4, (bytes.length << 3) >>> 0);
  return view;
}

function schedule(words, view, at) {
  for (let i = 0; i < 16; i++) words[i] = view.getUint32(at + 4 * i);
  for (let i = 16; i < 64; i++) {
    const [far, near] = [words[i - 15], words[i - 2]];
    const small = turned(far, 7) ^ turned(far, 18) ^ (far >>> 3);
    const large = turned(near, 17) ^ turned(near, 19) ^ (near >>> 10);
    words[i] = words[i - 16] + small + words[i - 7] + large;
  }
}

function compress(state, words) {
  let [a, b, c, d, e, f, g, h] = state;
  for (let i = 0; i < 64; i++) {
    const one = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + ROUND[i] + words[i]) | 0;
    const two = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => (state[i] += word));
}

/** SHA-256 (FIPS 180-4); `crypto.subtle` is not there over plain http. @param {ArrayBuffer} content @returns {string} in hex */
export function sha256(content) {
  const view = padded(new Uint8Array(content));
  const state = Uint32Array.from(START);
  const words = new Uint32Array(64);
  for (let at = 0; at < view.byteLength; at += 64) {
    schedule(words, view, at);
    compress(state, words);
  }
  return [...state].map((word) => word.toString(16).padStart(8, "0")).join("");
}
