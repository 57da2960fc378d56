"""The view in space, and the heat on a section through it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from pourwright.app.viewing.heat import heat_at, heat_key, heat_of, planes_of
from pourwright.app.viewing.pointing import point_at
from pourwright.app.viewing.view import body_of, drawing_of, tint_of, view_key, view_of, words_of
from pourwright.web.wanted import AJob, Variant

BINARY = "application/octet-stream"
_BYTES: dict[int | str, dict[str, Any]] = {
    200: {
        "description": "a short header in JSON, and arrays",
        "content": {BINARY: {"schema": {"type": "string", "format": "binary"}}},
    },
    304: {"description": "what the browser holds is still right"},
}
_SVG: dict[int | str, dict[str, Any]] = {200: {"content": {"image/svg+xml": {}}, "description": "a drawing"}}
FAR = 100.0
"""Nothing a workshop casts lies farther from its middle [m]."""
Metres = Annotated[float, Query(description="in the frame of the pour [m]", ge=-FAR, le=FAR)]
Coarse = Annotated[bool, Query(description="with few triangles, to be drawn quickly")]
Axis = Literal["x", "y", "z"]
Tint = Literal["draft", "undercut", "thickness"]


def router() -> APIRouter:
    """Give the routes of the view."""
    routes = APIRouter(tags=["view"], prefix="/jobs/{job}")
    _bodies(routes)
    _words(routes)
    _heat(routes)
    return routes


def _bodies(routes: APIRouter) -> None:
    @routes.get("/view.json")
    def view(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """Every part of piece and mold: kind, words, extents, volume, mass, and how far it moves apart."""
        return view_of(place.file, variant)

    @routes.get("/view/{part}.bin", response_class=Response, responses=_BYTES)
    def body(
        request: Request, place: AJob, part: str, coarse: Coarse = False, variant: Variant = None
    ) -> Response:
        """The body of a part: positions [m] and corners; "surface" is the piece's, cut as its tints are."""
        key = f"{view_key(place.file, variant)[:32]}-{part}{'-coarse' * coarse}"
        return _kept(request, key, lambda: body_of(place.file, part, variant, coarse=coarse))

    @routes.get("/view/tint/{tint}.bin", response_class=Response, responses=_BYTES)
    def tint(request: Request, place: AJob, tint: Tint, variant: Variant = None) -> Response:
        """A value for each triangle of "surface": lean [deg], reach of an undercut [m], thickness [m]."""
        key = view_key(place.file, variant)
        return _kept(request, f"{key[:32]}-{tint}", lambda: tint_of(place.file, tint, variant))


def _words(routes: APIRouter) -> None:
    @routes.get("/view/words.json")
    def words(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """What the view shows, said: extents, lean, undercuts, thin places, hottest places."""
        return words_of(place.file, variant)

    @routes.get("/view/at.json")
    def at(
        place: AJob,
        x: Metres,
        y: Metres,
        z: Metres,
        part: str = "piece",
        tint: Tint | None = None,
        triangle: Annotated[int | None, Query(ge=0)] = None,
        variant: Variant = None,
    ) -> dict[str, Any]:
        """What is at a place that is pointed at."""
        return point_at(place.file, (x, y, z), part=part, tint=tint, triangle=triangle, variant=variant)

    @routes.get("/view/drawings/{drawing}.svg", response_class=Response, responses=_SVG)
    def drawing(place: AJob, drawing: str, variant: Variant = None) -> Response:
        """A drawing in the place of the view: mold-poured, mold-cast or parts."""
        return Response(drawing_of(place.file, drawing, variant), media_type="image/svg+xml")


def _heat(routes: APIRouter) -> None:
    @routes.get("/heat.json")
    def heat(place: AJob, variant: Variant = None) -> dict[str, Any]:
        """Moments, scales, limits and the hottest place of the plan's heat."""
        return heat_of(place.file, variant)

    @routes.get("/heat/plane.bin", response_class=Response, responses=_BYTES)
    def plane(request: Request, place: AJob, axis: Axis, at: Metres, variant: Variant = None) -> Response:
        """Temperature [degC] and cure on one plane at every moment of heat.json."""
        key = heat_key(place.file, variant)
        return _kept(request, f"{key[:32]}-{axis}{at:.6g}", lambda: planes_of(place.file, axis, at, variant))

    @routes.get("/heat/at.json")
    def value(
        place: AJob,
        x: Metres,
        y: Metres,
        z: Metres,
        hours: Annotated[float, Query(description="after the first pour's start [h]", ge=0, le=1e5)],
        variant: Variant = None,
    ) -> dict[str, Any]:
        """How warm and how hard it is at a place."""
        return heat_at(place.file, (x, y, z), hours, variant)


def _kept(request: Request, mark: str, make: Callable[[], bytes]) -> Response:
    """Answer with bytes, or say that what the browser holds is still right."""
    headers = {"ETag": f'"{mark}"', "Cache-Control": "no-cache"}
    if f'"{mark}"' in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers=headers)
    return Response(make(), media_type=BINARY, headers=headers)
