/** What is met where one points, looking straight into the picture. */

/** Of two faces that lie on each other the back is met: one looks at it through the cut [m]. */
const NEARER = 1e-5;

/**
 * @param {Iterable<{id: string, soup: Float32Array, moved: number[]}>} bodies
 * @param {number[]} start a place on the ray, before everything
 * @param {number[]} way of length 1
 * @param {number[] | null} plane normal and offset; what lies beyond is cut away
 * @returns {{id: string, triangle: number, place: number[], cut: boolean} | null} place as the body lies when nothing is pulled apart
 */
export function metBy(bodies, start, way, plane) {
  let best = null;
  for (const body of bodies) {
    const from = start.map((value, k) => value - body.moved[k]);
    const hit = firstHit(body.soup, from, way, plane, best ? best.far - best.nearer : Infinity);
    if (hit) best = { ...hit, id: body.id, from };
  }
  if (!best) return null;
  return { id: best.id, triangle: best.triangle, ...landed(best, way, plane) };
}

/** The back of a face is only seen through the cut. */
function landed(hit, way, plane) {
  const along = (far) => hit.from.map((value, k) => value + far * way[k]);
  if (!plane || hit.front) return { place: along(hit.far), cut: false };
  const speed = dot(plane, way);
  return { place: along((plane[3] - dot(plane, hit.from)) / speed), cut: true };
}

function firstHit(soup, from, way, plane, least) {
  let found = null;
  for (let at = 0; at < soup.length; at += 9) {
    const hit = crossing(soup, at, from, way);
    if (hit === null) continue;
    const nearer = plane && !hit.front ? NEARER : 0;
    if (hit.far - nearer >= least) continue;
    if (plane && dot(plane, from) + hit.far * dot(plane, way) > plane[3]) continue;
    least = hit.far - nearer;
    found = { far: hit.far, nearer, front: hit.front, triangle: at / 9 };
  }
  return found;
}

/** Moeller and Trumbore's test of a ray with a triangle. */
function crossing(soup, at, from, way) {
  const ax = soup[at], ay = soup[at + 1], az = soup[at + 2];
  const ux = soup[at + 3] - ax, uy = soup[at + 4] - ay, uz = soup[at + 5] - az;
  const vx = soup[at + 6] - ax, vy = soup[at + 7] - ay, vz = soup[at + 8] - az;
  const px = way[1] * vz - way[2] * vy, py = way[2] * vx - way[0] * vz, pz = way[0] * vy - way[1] * vx;
  const volume = ux * px + uy * py + uz * pz;
  if (Math.abs(volume) < 1e-20) return null;
  const tx = from[0] - ax, ty = from[1] - ay, tz = from[2] - az;
  const u = (tx * px + ty * py + tz * pz) / volume;
  if (u < 0 || u > 1) return null;
  const qx = ty * uz - tz * uy, qy = tz * ux - tx * uz, qz = tx * uy - ty * ux;
  const v = (way[0] * qx + way[1] * qy + way[2] * qz) / volume;
  if (v < 0 || u + v > 1) return null;
  return { far: (vx * qx + vy * qy + vz * qz) / volume, front: volume > 0 };
}

const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
