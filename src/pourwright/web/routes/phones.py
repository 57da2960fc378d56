"""Phones over HTTP: paired by a picture on the laptop's screen, listed and taken back there."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from pydantic import BaseModel, Field
from starlette.responses import HTMLResponse, Response

from pourwright.app.pairing.phones import PAIRED_FOR, Phone
from pourwright.app.pairing.picture import address_picture
from pourwright.foundation.errors import NotThereError
from pourwright.web.lan import COOKIE, PAIR, Lan
from pourwright.web.paper import render
from pourwright.web.plain import PLAIN, WARNED
from pourwright.web.refusals import refusal

# the form must say where it comes from, and the code goes to nobody else
_SECRET = {"Cache-Control": "no-store", "Referrer-Policy": "same-origin"}
_KNOWN = ("iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux")
Code = Annotated[str, Query(description="read off the laptop's screen", max_length=200)]


class PhoneTold(BaseModel):
    """A paired phone; its token is kept nowhere."""

    id: str
    name: str
    made: str = Field(description="UTC, ISO 8601")
    until: str


class PhonesTold(BaseModel):
    """Who is paired."""

    address: str | None = Field(description="where phones reach this computer; null without --lan")
    phones: list[PhoneTold]


class CodeTold(BaseModel):
    """A code that pairs one phone, as a picture and in no other form."""

    picture: str = Field(description="SVG as a data: address")
    until: str = Field(description="UTC, ISO 8601")


def the_lan(request: Request) -> Lan:
    """Give the side that faces the network, where there is one."""
    lan: Lan | None = request.app.state.lan
    if lan is None:
        raise NotThereError(
            "this server is not open to the network",
            where="--lan",
            todo="end it, and start it again with: pourwright serve --lan",
        )
    return lan


ALan = Annotated[Lan, Depends(the_lan)]


def router() -> APIRouter:
    """Give the routes of pairing."""
    routes = APIRouter(tags=["phones"])
    _on_the_laptop(routes)
    _on_the_phone(routes)
    return routes


def _on_the_laptop(routes: APIRouter) -> None:
    @routes.get("/phones.json")
    def phones(request: Request) -> PhonesTold:
        """List the phones that are paired."""
        lan: Lan | None = request.app.state.lan
        if lan is None:
            return PhonesTold(address=None, phones=[])
        return PhonesTold(address=lan.address, phones=[_told(one) for one in lan.phones.phones()])

    @routes.get("/phones", response_class=HTMLResponse, include_in_schema=False)
    def phones_page(request: Request) -> HTMLResponse:
        lan: Lan | None = request.app.state.lan
        words = WARNED if lan is not None and lan.fingerprint else PLAIN
        return render(request, "phones.html", title="Phones", lan=lan, plain=words)

    @routes.post("/phones/codes", status_code=201)
    def code(lan: ALan, response: Response) -> CodeTold:
        """Make a code that pairs one phone within three minutes; the one before is void."""
        made, until = lan.phones.new_code()
        response.headers.update(_SECRET)
        picture = address_picture(f"{lan.address}{PAIR}?code={made}")
        return CodeTold(picture=picture, until=until.isoformat())

    @routes.delete("/phones/{phone}", status_code=204, response_class=Response)
    def take_back(lan: ALan, phone: str) -> Response:
        """End a pairing: from now on that phone gets nothing."""
        lan.phones.take_back(phone)
        return Response(status_code=204)


def _on_the_phone(routes: APIRouter) -> None:
    @routes.get(PAIR, response_class=HTMLResponse, include_in_schema=False)
    def pair_page(request: Request, lan: ALan, code: Code) -> Response:
        if not lan.phones.is_live(code):
            return _void(request)
        page = render(
            request, "pair.html", title="Pair this phone", code=code, paired=False, plain=_plain(lan)
        )
        page.headers.update(_SECRET)
        return page

    @routes.post(PAIR, response_class=HTMLResponse, include_in_schema=False)
    def pair(request: Request, lan: ALan, code: Code) -> Response:
        token = lan.phones.pair(code, _name(request.headers.get("user-agent", "")))
        if token is None:
            return _void(request)
        page = render(request, "pair.html", title="Paired", code="", paired=True, plain=_plain(lan))
        page.headers.update(_SECRET)
        page.set_cookie(
            COOKIE,
            token,
            max_age=round(PAIRED_FOR.total_seconds()),
            httponly=True,
            samesite="strict",
            secure=request.url.scheme == "https",
        )
        return page


def _plain(lan: Lan) -> str:
    return "" if lan.fingerprint else PLAIN


def _void(request: Request) -> Response:
    todo = "on the laptop open /phones and make a new one; it holds for three minutes and for one phone"
    return refusal(request, 401, what="this code pairs no phone, or no longer", where=PAIR, todo=todo)


def _told(phone: Phone) -> PhoneTold:
    return PhoneTold(id=phone.id, name=phone.name, made=phone.made, until=phone.until)


def _name(agent: str) -> str:
    return next((each for each in _KNOWN if each in agent), "device")
