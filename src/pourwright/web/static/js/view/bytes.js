/** Read what the server packs: a short JSON header, and arrays. */

const KINDS = { f4: Float32Array, u4: Uint32Array, u1: Uint8Array, f2: Uint16Array };

/**
 * Take the arrays out of an answer; half precision comes as its bits.
 * @param {ArrayBuffer} buffer
 * @returns {{about: any, arrays: Record<string, {data: any, shape: number[]}>}}
 */
export function unpacked(buffer) {
  const length = new DataView(buffer).getUint32(0, true);
  const { arrays: table, ...about } = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 4, length)));
  const arrays = {};
  for (const [name, told] of Object.entries(table)) {
    const count = told.shape.reduce((product, side) => product * side, 1);
    arrays[name] = { data: new KINDS[told.kind](buffer, 4 + length + told.begin, count), shape: told.shape };
  }
  return { about, arrays };
}

/**
 * Ask for packed arrays.
 * @param {import("../desk.js").Desk} desk
 * @param {string} path
 * @param {AbortSignal} [signal]
 */
export async function packedFrom(desk, path, signal) {
  const reply = await fetch(desk.url(path), { signal });
  if (!reply.ok) {
    const told = await reply.json().catch(() => ({}));
    throw new Error(told.error?.what ?? `the server answered ${reply.status}`);
  }
  return unpacked(await reply.arrayBuffer());
}

/** The number that 16 bits stand for in half precision. @param {number} bits */
export function fromHalf(bits) {
  const sign = bits & 0x8000 ? -1 : 1;
  const power = (bits >> 10) & 31;
  const rest = bits & 1023;
  if (power === 0) return sign * rest * 2 ** -24;
  if (power === 31) return rest ? NaN : sign * Infinity;
  return sign * (1 + rest / 1024) * 2 ** (power - 15);
}
