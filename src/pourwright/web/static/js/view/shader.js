/** How a body is drawn: its tone and pattern, the cut through it, tints of its surface, heat on the cut. */

export const PATTERNS = ["", "rising lines", "falling lines", "dots", "dashes", "ticks", "crosses", "chips"];

export const VERTEX = `
in vec3 position;
in vec3 normal;
in float value;
uniform mat4 modelViewMatrix, projectionMatrix;
out vec3 vPlace;
out float vLight;
flat out float vValue;
void main() {
  vPlace = position;
  vLight = 0.66 + 0.34 * max(dot(normalize(mat3(modelViewMatrix) * normal), normalize(vec3(-0.4, 0.55, 0.75))), 0.0);
  vValue = value;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;

const MARKS = `
float near(float at, float step, float wide) {
  float off = abs(mod(at, step) - 0.5 * step);
  return 1.0 - smoothstep(wide - 0.6, wide + 0.6, off);
}
vec2 turned(vec2 q, float by) {
  float c = cos(by), s = sin(by);
  return vec2(c * q.x - s * q.y, s * q.x + c * q.y);
}
float chips(vec2 q) {
  vec2 cell = floor(q / 10.0);
  float turn = fract(sin(dot(cell, vec2(12.9898, 78.233))) * 43758.5453) * 6.2832;
  vec2 at = turned(mod(q, 10.0) - 5.0, turn);
  float inside = min(min(at.x + 2.4, at.y + 2.0), 2.2 - at.x - at.y);
  return smoothstep(-0.5, 0.5, inside);
}
float mark(int pattern, vec2 q) {
  if (pattern == 1) return near(q.x - q.y, 9.0, 0.7);
  if (pattern == 2) return near(q.x + q.y, 9.0, 0.7);
  if (pattern == 3) return near(q.x, 7.0, 1.1) * near(q.y, 7.0, 1.1);
  if (pattern == 4) return near(q.y, 8.0, 0.7) * step(mod(q.x + 7.0 * floor(q.y / 8.0), 14.0), 8.0);
  if (pattern == 5) return near(q.x, 8.0, 0.7) * step(mod(q.y + 7.0 * floor(q.x / 8.0), 14.0), 8.0);
  if (pattern == 6) return max(near(q.x - q.y, 9.0, 0.7), near(q.x + q.y, 9.0, 0.7));
  if (pattern == 7) return 0.75 * chips(q);
  return 0.0;
}`;

const HEAT = `
float cellOf(int row, float share) {
  float at = clamp(share, 0.0, 1.0) * 255.0;
  int left = int(min(floor(at), 254.0));
  return mix(texelFetch(uCells, ivec2(left, row), 0).r, texelFetch(uCells, ivec2(left + 1, row), 0).r, at - float(left));
}
vec3 heat(vec3 place, vec2 q) {
  vec2 at = uAcross == 0 ? place.yz : uAcross == 1 ? place.xz : place.xy;
  vec2 share = (at - uFilmLow) / (uFilmHigh - uFilmLow);
  vec2 cell = vec2(cellOf(0, share.x), cellOf(1, share.y));
  float scaled = texture(uFilm, (cell + 0.5) / uFilmSize).r;
  vec3 colour = texelFetch(uRamp, ivec2(int(min(scaled * 32.0, 31.0)), 0), 0).rgb;
  float minded = (scaled - uLimit) * uMinded;
  if (minded > 0.0) colour = mix(colour, uInk, 0.55 * mark(1, q));
  float line = abs(scaled - uLimit) / max(fwidth(scaled), 1e-5);
  return mix(uInk, colour, smoothstep(0.6, 1.6, line));
}`;

export const FRAGMENT = `
precision highp float;
precision highp sampler2D;
in vec3 vPlace;
in float vLight;
flat in float vValue;
out vec4 outColour;
uniform vec3 uTone, uInk, uEmpty, uAway;
uniform vec4 uPlane;
uniform bool uCut;
uniform int uClasses, uAcross;
uniform float uPixels, uLevel, uLimit, uMinded;
uniform float uEnds[8];
uniform vec3 uTones[8];
uniform int uMarks[8];
uniform sampler2D uFilm, uCells, uRamp;
uniform vec2 uFilmLow, uFilmHigh, uFilmSize;
${MARKS}
${HEAT}
vec3 tinted(vec2 q) {
  int at = 0;
  for (int i = 0; i < 7; i += 1) if (i < uClasses - 1 && vValue >= uEnds[i]) at = i + 1;
  vec3 tone = uTones[at];
  float dark = dot(tone, vec3(0.3, 0.6, 0.1)) < 0.45 ? 1.0 : 0.0;
  return mix(tone, vec3(dark), 0.5 * mark(uMarks[at], q));
}
#if BACK == 1
vec3 shown(vec2 q) {
  // the eye looks through the cut: the place on its plane in front of this one
  vec3 place = vPlace + uAway * (uPlane.w - dot(uPlane.xyz, vPlace)) / dot(uPlane.xyz, uAway);
#if HOT == 1
  return place.z > uLevel ? mix(uEmpty, uInk, 0.2 * mark(4, q)) : heat(place, q);
#endif
  return mix(uTone * 0.97, uInk, 0.42 * mark(MARK, q));
}
#else
vec3 shown(vec2 q) {
  vec3 colour = mix(uTone, uInk, 0.3 * mark(MARK, q));
#if TINTED == 1
  if (vValue < 1e20) colour = tinted(q);
#endif
  return colour * vLight;
}
#endif
void main() {
  if (uCut && dot(uPlane.xyz, vPlace) > uPlane.w) discard;
  outColour = vec4(shown(gl_FragCoord.xy / uPixels), 1.0);
}`;

/** A colour as the shader takes it. @param {string} hex as #a9c7a2 */
export function toneOf(hex) {
  return [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255);
}
