"""A browser that holds everything against the page that no maker should see."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Playwright, Request, Response

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]
PATIENCE = 30_000
"""How long a page may take for anything before it counts as never [ms]."""
_TELLS_VIOLATIONS = """document.addEventListener('securitypolicyviolation',
    (told) => console.error('policy', told.violatedDirective, told.blockedURI))"""


def browser_of(playwright: Playwright) -> Browser:
    """Start the system's browser; one is never downloaded."""
    assert CHROMIUM.exists(), "the browser tests need Debian's package chromium: apt-get install chromium"
    return playwright.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)


class Watched:
    """Pages of one maker, and every trouble they have had.

    ``may`` holds the statuses of refusals that a test provokes, ``may_fail`` takes what it cuts off.
    """

    def __init__(self, context: BrowserContext, address: str) -> None:
        self.context = context
        self.address = address
        self.troubles: list[str] = []
        self.may: set[int] = set()
        self._cut: tuple[str, ...] = ()
        context.add_init_script(_TELLS_VIOLATIONS)
        context.on("request", self._asked)
        context.on("response", self._answered)
        context.on("requestfailed", self._failed)
        context.on("console", self._told)
        context.on("weberror", lambda error: self.troubles.append(f"error: {error.error}"))

    def page(self, path: str = "/") -> Page:
        """Open a page of the address and wait for what it mounts."""
        page = self.context.new_page()
        page.set_default_timeout(PATIENCE)
        page.goto(self.address + path)
        ready(page)
        return page

    def may_fail(self, *names: str) -> None:
        """Let requests fail whose address holds one of these."""
        self._cut = names

    def _asked(self, request: Request) -> None:
        if not request.url.startswith((f"{self.address}/", "data:", "blob:")):
            self.troubles.append(f"asked another host: {request.url}")

    def _answered(self, response: Response) -> None:
        if response.status >= 400 and response.status not in self.may:
            self.troubles.append(f"{response.status} of {response.request.method} {response.url}")

    def _failed(self, request: Request) -> None:
        # a page that asks anew or is left gives up what it had asked
        cut = any(name in request.url for name in self._cut)
        if request.failure != "net::ERR_ABORTED" and not cut:
            self.troubles.append(f"{request.failure} of {request.url}")

    def _told(self, message: ConsoleMessage) -> None:
        refused = "Failed to load resource" in message.text  # counted by its status
        if message.type in {"error", "warning"} and not refused and not _of_software_graphics(message.text):
            self.troubles.append(f"{message.type}: {message.text}")


def _of_software_graphics(text: str) -> bool:
    return "GPU stall due to ReadPixels" in text or "WebGL: CONTEXT_LOST" in text


def ready(page: Page) -> None:
    """Wait until a job's page has mounted its parts; other pages are ready as they come."""
    if page.locator("#desk").count():
        page.locator("#desk[data-ready=yes]").wait_for()


@contextmanager
def watched(browser: Browser, address: str, width: int = 1280, scheme: str = "light") -> Iterator[Watched]:
    """A maker's browser, in which nothing may have gone wrong when the block ends well."""
    context = browser.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, reduced_motion="reduce"
    )
    try:
        watch = Watched(context, address)
        yield watch
        assert not watch.troubles, "\n".join(watch.troubles)
    finally:
        context.close()
