// What the view needs of three.js; everything else is left out of the bundle.
export {
  AlwaysStencilFunc, BackSide, BufferAttribute, BufferGeometry, DataTexture, EdgesGeometry, FloatType, FrontSide, GLSL3, LinearFilter,
  LineSegments, Mesh, NotEqualStencilFunc, OrthographicCamera, RawShaderMaterial, RedFormat, ReplaceStencilOp,
  RGBAFormat, Scene, UnsignedByteType, Vector2, Vector3, Vector4, WebGLRenderer,
} from "three";
