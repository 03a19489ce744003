"""Can a gloved thumb hit it, and can everyone read it? Asked of each screen once.

Touch targets: at least 56 px each way, the house's own measure (WCAG 2.2, 2.5.8 asks for 24, 2.5.5 for 44).
Everything else that a machine can tell: axe-core's rules for WCAG 2 A and AA and its best practices.
"""
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

LEAST_PX = 56
# A tick or a choice is as large as the label around it; what lies under an open sheet is out of reach.
TOO_SMALL = """least => {
  const open = document.querySelector('dialog[open]') ?? document;
  return [...open.querySelectorAll('button, a[href], summary, select, textarea, input, label:has(input[type=file])')]
    .filter(one => one.checkVisibility({ visibilityProperty: true }) && !one.classList.contains('sr'))
    .map(one => [one, one.matches('input[type=checkbox], input[type=radio]') ? one.closest('label') : one])
    .map(([one, touched]) => [one, touched.getBoundingClientRect()])
    .filter(([, box]) => box.width < least - 0.5 || box.height < least - 0.5)
    .map(([one, box]) => `${one.tagName} ${one.dataset.testid ?? one.innerText}: ${box.width} x ${box.height}`);
}"""
# The step in the address, and what is asked; numbers in a question make no other screen.
NAME = r"""() => {
  const step = decodeURIComponent(location.pathname).split('/').slice(3).join('/').split('~')[0];
  const heading = document.querySelector('dialog[open] h2') ?? document.querySelector('h1');
  return `${step} ${(heading?.innerText ?? '').replace(/[0-9]+/g, 'n')}`.trim();
}"""


def faults_of(page: Page) -> list[str]:
    """What is too small to touch or fails a rule, in words; empty when all is well."""
    found = page.evaluate(TOO_SMALL, LEAST_PX)
    for fault in Axe().run(page).response["violations"]:
        found += [f"{fault['id']}: {node['html'][:160]}" for node in fault["nodes"]]
    return found


class Screens:
    """Looks at each screen once, and keeps what is wrong with it."""

    def __init__(self):
        self.faults: dict[str, list[str]] = {}

    def look(self, page: Page) -> None:
        """Look at the page as it stands, unless one like it was looked at."""
        name = page.evaluate(NAME)
        if name not in self.faults:
            self.faults[name] = faults_of(page)

    @property
    def wrong(self) -> dict[str, list[str]]:
        return {name: faults for name, faults in self.faults.items() if faults}
