/** From corners that triangles share to triangles that are drawn, round where the surface is round. */

const SHARP = 0.8; // cosine of the angle from which on an edge is drawn sharp

/**
 * @param {Float32Array} positions three numbers a corner
 * @param {Uint32Array} corners three a triangle
 * @returns {{positions: Float32Array, normals: Float32Array}} nine numbers a triangle
 */
export function soupOf(positions, corners) {
  const plain = faceVectors(positions, corners);
  const around = facesAround(positions.length / 3, corners);
  const out = new Float32Array(corners.length * 3);
  const normals = new Float32Array(corners.length * 3);
  const sum = [0, 0, 0];
  for (let corner = 0; corner < corners.length; corner += 1) {
    const face = Math.floor(corner / 3);
    out.set(positions.subarray(3 * corners[corner], 3 * corners[corner] + 3), 3 * corner);
    smooth(sum, plain, around, corners[corner], face);
    normals.set(sum, 3 * corner);
  }
  return { positions: out, normals };
}

/** Length is twice the area, in the fourth place of each. */
function faceVectors(positions, corners) {
  const vectors = new Float32Array((corners.length / 3) * 4);
  for (let face = 0; face < corners.length / 3; face += 1) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * corners[3 * face + k]);
    const ux = positions[b] - positions[a], uy = positions[b + 1] - positions[a + 1], uz = positions[b + 2] - positions[a + 2];
    const vx = positions[c] - positions[a], vy = positions[c + 1] - positions[a + 1], vz = positions[c + 2] - positions[a + 2];
    const x = uy * vz - uz * vy, y = uz * vx - ux * vz, z = ux * vy - uy * vx;
    const size = Math.hypot(x, y, z) || 1e-30;
    vectors.set([x / size, y / size, z / size, size], 4 * face);
  }
  return vectors;
}

function facesAround(count, corners) {
  const starts = new Uint32Array(count + 1);
  for (const corner of corners) starts[corner + 1] += 1;
  for (let i = 0; i < count; i += 1) starts[i + 1] += starts[i];
  const faces = new Uint32Array(corners.length);
  const next = starts.slice();
  for (let i = 0; i < corners.length; i += 1) faces[next[corners[i]]++] = Math.floor(i / 3);
  return { starts, faces };
}

function smooth(sum, plain, around, corner, face) {
  sum[0] = sum[1] = sum[2] = 0;
  const f = 4 * face;
  for (let i = around.starts[corner]; i < around.starts[corner + 1]; i += 1) {
    const g = 4 * around.faces[i];
    const along = plain[f] * plain[g] + plain[f + 1] * plain[g + 1] + plain[f + 2] * plain[g + 2];
    if (along < SHARP) continue;
    for (let k = 0; k < 3; k += 1) sum[k] += plain[g + k] * plain[g + 3];
  }
  const size = Math.hypot(sum[0], sum[1], sum[2]) || 1;
  for (let k = 0; k < 3; k += 1) sum[k] /= size;
}
