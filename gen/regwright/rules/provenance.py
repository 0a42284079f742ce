"""Rules on where a description comes from, so that it can be looked up again."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.finding import WARNING
from regwright.rules.catalogue import Problem, Subject, rule


@rule("page-missing", WARNING)
def page_missing(subject: Subject) -> Iterator[Problem]:
    """A register has no page although others have one.

    ## What it catches
    A register without a page in a description most of whose registers name theirs.

    ## Why it matters
    It may not come from the document at all; and whoever checks it must search.

    ## Example
    Forty registers with `page="…"`, one without.

    ## Instead
    Look the register up and add its page.

    ## When to silence it
    When the register comes from elsewhere; say where in its notes.
    """
    own = [placed for placed in subject.described if not placed.half]
    without = [placed for placed in own if placed.register.page is None]
    if 2 * len(without) >= len(own):
        return
    for placed in without:
        message = f"{placed.name} has no page, but most registers have; look it up and add it"
        yield Problem(message, placed.register.origin)


@rule("document-without-revision", WARNING)
def document_without_revision(subject: Subject) -> Iterator[Problem]:
    """The description does not say which revision of which document it was taken from.

    ## What it catches
    A document without a revision or date, and pages without a document.

    ## Why it matters
    Registers move between revisions. Without one nobody knows which errata apply.

    ## Example
    `<document title="Sorrel 14 data sheet"/>`

    ## Instead
    `<document title="Sorrel 14 data sheet" revision="C" date="2026-02"/>`

    ## When to silence it
    When the document has neither.
    """
    document = subject.chip.document
    if document is None:
        paged = next((p.register for p in subject.described if p.register.page is not None), None)
        if paged is not None:
            message = "registers have pages, but no document is named; say which one they are of"
            yield Problem(message, (paged.origin, "page"))
    elif document.revision is None and document.date is None:
        message = f"{document.title!r} has no revision and no date here; the header should name one"
        yield Problem(message, document.origin)
