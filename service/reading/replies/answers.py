"""What a text answers to what was asked: yes, no, don't know, a number, an ordinal, the words of a choice, a value."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence

from service.reading.dangers.danger_answers import answered_of_a_danger
from service.reading.faults.negating import PUT_LAST
from service.reading.model import Answer, Asked, Found, Reading
from service.reading.replies.by_symptom import by_its_symptom
from service.reading.replies.choices import of_the_offer, plain
from service.reading.replies.others_sense import another_senses
from service.reading.replies.outright import by_its_verb, only_has_it, repeats_it, stated_outright, within
from service.reading.replies.results import result
from service.reading.replies.said_first import taken_of
from service.reading.replies.summing_up import concludes, has_quit
from service.reading.replies.valuing import VALUES, of_a_value, value_told
from service.reading.words.asking import SAID_BY_THE_WAY, TURNED, Questions, questions
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_YES_NO = frozenset({"yes_no", "check_result", "confirm", "observation", "photo"})
_IMPATIENT = frozenset(("just", "nomas", "mejor", "solo"))

_REPLIES = ("yes", "no", "dont_know", "declined", "none", "either", "maybe", "at_it", "no_age", "unmarked")


def read_answer(
    asked: Asked | None, words: Sequence[Word], hits: Sequence[Hit], text: Reading, media: int, dangers: Container[str]
) -> Answer | None:
    """
    The answer in a text whose other findings are in *text*; None when it does not answer what was asked.

    dangers: the codes of hazards; a yes to one counts however it is said.
    """
    if asked is None or (not words and not media):
        return None
    replies = _heard(asked, words, hits, text, danger=asked.code in dangers)
    if asked.choices or asked.kind == "offer":
        taken = by_its_symptom(asked, taken_of(asked, words, replies, text), text)
        if taken is not None:
            return taken
    visit = "yes" in replies and "book" in text.intents and asked.code not in dangers
    if visit and _leads_to_a_visit(asked, replies["yes"], words):
        replies = {code: hit for code, hit in replies.items() if code != "yes"}
    if asked.code in dangers and (told := answered_of_a_danger(asked, words, text)) is not None:
        return told
    come_to = _come_to(asked, words, replies, danger=asked.code in dangers)
    if come_to is not None:
        return come_to
    if asked.kind in VALUES:
        return value_told(asked, of_a_value(replies), text, words)
    if asked.kind == "photo" and media:
        return Answer("yes")
    if asked.kind in _YES_NO:
        return _yes_no(asked, replies, text, words, danger=asked.code in dangers)
    if asked.kind in ("symptom", "appliance"):
        return _named(asked, replies, text)
    return plain(replies)


def _heard(asked: Asked, words: Sequence[Word], hits: Sequence[Hit], text: Reading, *, danger: bool) -> dict[str, Hit]:
    """The plain replies of the text, without what is asked, taken back, over, or said of the machine."""
    replies = _now(_mended(_replies(hits, words), words), words, danger=danger)
    asking = questions(words)
    if "ask_help" in text.intents:
        replies = {code: hit for code, hit in replies.items() if not _not_done_yet(code, hit, words)}
    if asking.marked:
        sure = ("maybe",) if danger else ()
        replies = {c: hit for c, hit in replies.items() if c in sure or not _only_asked(c, hit, words, asking)}
    return of_the_offer(asked, words, replies, text)


def _come_to(asked: Asked, words: Sequence[Word], replies: Mapping[str, Hit], *, danger: bool) -> Answer | None:
    """What a yes or no is in the end: “a little maybe, can't tell”, “my wife says she does”, “the clock is on so no”."""
    if asked.kind == "yes_no" or (danger and asked.kind in _YES_NO):
        if _begins_with_maybe(replies):
            return Answer("yes", hedged=True)
        if not danger and (summed_up := concludes(words)) is not None:
            return Answer(summed_up)
    if danger and another_senses(words):
        return Answer("yes", hedged=True)
    summed_up = concludes(words) if danger and asked.kind == "yes_no" else None
    return Answer(summed_up) if summed_up is not None else None


def _begins_with_maybe(replies: Mapping[str, Hit]) -> bool:
    """“a little maybe, cant really tell”: it may be there, whatever cannot be told after it."""
    maybe, no = replies.get("maybe"), replies.get("no") or replies.get("dont_know")
    return maybe is not None and no is not None and maybe.start < no.start


def _not_done_yet(code: str, hit: Hit, words: Sequence[Word]) -> bool:
    """“i didnt check it, how do i”: not done yet, and neither refused nor not known."""
    return code in ("declined", "dont_know", "no") and any(
        word.form in ("didnt", "havent", "hadnt") for word in words[hit.start : hit.end]
    )


def _leads_to_a_visit(asked: Asked, hit: Hit, words: Sequence[Word]) -> bool:
    """
    “ok send someone”, “yeah just send someone”: a yes that says nothing of what was asked; so is any yes in one breath with
    it, asked what a machine does, and every one when a check was to help: whom it helped wants nobody sent.

    Asked whether they want the visit it is the answer.
    """
    if asked.kind in ("confirm", "check_result"):
        return asked.kind == "check_result"
    if hit.start > 0 or hit.end == len(words) or words[hit.end].brk > 0:
        return False
    impatient = words[hit.end].form in _IMPATIENT or words[hit.start].form in SAID_BY_THE_WAY
    sends = asked.kind == "yes_no" and words[hit.end].form in _SENDS
    return impatient or sends or asked.kind == "observation"


_SENDS = frozenset(("send", "come", "book", "schedule", "mande", "manden", "venga", "vengan", "mandeme", "mandenme"))


def _only_asked(code: str, hit: Hit, words: Sequence[Word], asking: Questions) -> bool:
    """Whether a yes or "any" is but part of a question ("why does that matter"): stated apart from it it counts."""
    if code not in ("yes", "either", "maybe"):
        return False
    if asking.plain and code == "yes" and hit.start == 0 and words[0].form in SAID_BY_THE_WAY:
        return True
    if hit.start in asking.plain:
        return hit.start - 1 in asking.plain or words[hit.start].form in TURNED
    begins = hit.start == 0 or words[hit.start].brk > 0
    apart = begins and (hit.end == len(words) or words[hit.end].brk > 0)
    return hit.start in asking.marked and not apart


_WAIT = frozenset(("wait", "actually", "sorry", "correction", "scratch", "espera", "espere", "perdon", "digo", "mean"))
_UNABLE = frozenset(("i", "we", "cant", "couldnt", "sorry"))
"""A "no" of these words alone is that something cannot be told or done."""
_BACK_WITHIN = 3
_LAST_WORDS = frozenset(("yes", "yeah", "yep", "yea", "si"))


def _mended(replies: dict[str, Hit], words: Sequence[Word]) -> dict[str, Hit]:
    """*replies* without what is taken back (“no wait yes”), or what cannot be done or told (“I can't look under there”)."""
    yes, no = replies.get("yes"), replies.get("no")
    if no is not None and _is_of_course(no, words):
        replies = {"yes": no, **{code: hit for code, hit in replies.items() if code not in ("yes", "no")}}
        yes, no = no, None
    if (
        no is not None
        and {"dont_know", "declined"} & replies.keys()
        and _UNABLE.issuperset(w.form for w in words[no.start : no.end])
    ):
        return {code: hit for code, hit in replies.items() if code != "no"}
    if yes is None or no is None:
        return replies
    first, last = sorted((yes, no), key=lambda hit: hit.start)
    back = any(word.form in _WAIT for word in words[first.end : min(last.start, first.end + _BACK_WITHIN)])
    return {code: hit for code, hit in replies.items() if not (back and hit is first)}


def _is_of_course(no: Hit, words: Sequence[Word]) -> bool:
    """“Cómo no, cada que lavo”: a “no” that is none."""
    at = no.start
    stands = at > 0 and words[at].form == "no" and words[at - 1].form == "como" and not words[at].brk
    return stands and (at + 1 == len(words) or words[at + 1].brk > 0)


_ONCE = frozenset(("did", "was", "were", "used", "antes", "ayer"))


def _now(replies: dict[str, Hit], words: Sequence[Word], *, danger: bool) -> dict[str, Hit]:
    """*replies* without the yes of “it did yesterday. not today”. What was dangerous yesterday is left to a person."""
    yes, no = replies.get("yes"), replies.get("no")
    if danger or yes is None or no is None or no.start < yes.start:
        return replies
    once = any(word.form in _ONCE for word in words[: yes.end])
    return {code: hit for code, hit in replies.items() if code != "yes"} if once else replies


def _crosses(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether an innocent wording reaches over a break, or takes a "sí" for an "if": “sí, el de arriba está duro”."""
    return any(word.brk for word in words[hit.start + 1 : hit.end]) or words[hit.start].accented


def _replies(hits: Sequence[Hit], words: Sequence[Word]) -> dict[str, Hit]:
    """Which plain replies the text holds: ``yes`` and ``no`` count at its beginning or end, the others anywhere."""
    found: dict[str, Hit] = {}
    talk = [h for h in hits if h.payload.kind == "talk" and h.payload.code in (*_REPLIES, "hedged")]
    innocent = [
        h for h in talk if h.payload.role == "innocent" and not (h.payload.code == "yes" and _crosses(h, words))
    ]
    for hit in sorted(talk, key=lambda h: (h.start, -h.end)):
        code = hit.payload.code
        if hit.payload.role == "innocent" or any(
            i.payload.code == code and i.start <= hit.start and hit.end <= i.end for i in innocent
        ):
            continue
        if hit.payload.role == "alone" and (hit.start > 0 or hit.end < len(words)):
            continue
        if any(
            h.start <= hit.start and hit.end <= h.end and h.length > hit.length
            for h in talk
            if h.payload.role != "innocent" and h.payload.code != "at_it"
        ):
            continue
        found.setdefault(code, hit)
    for code in ("yes", "no"):
        if (
            code in found
            and found[code].start > 3
            and words[found[code].start].brk == 0
            and found[code].payload.role != "alone"
            and not _closes(found[code], words)
        ):
            del found[code]
    return found


def _closes(hit: Hit, words: Sequence[Word]) -> bool:
    """“i think i saw one yeah, at the bottom”: a yes or no with which a statement ends."""
    apart = hit.end == len(words) or words[hit.end].brk > 0
    return apart and hit.end - hit.start == 1 and words[hit.start].form in (_LAST_WORDS | PUT_LAST)


def _only_last(no: Hit | None, words: Sequence[Word]) -> bool:
    """“el tambor gira no”: a no that belongs to what stands before it."""
    if no is None or no.start == 0 or words[no.start].brk:
        return False
    return no.end == len(words) or words[no.end].brk > 0


_GOING_TO_LOOK = 6
"""Up to so many words of which some say that they look (“ok voy a ver”) answer nothing yet."""


def _yes_no(
    asked: Asked, replies: Mapping[str, Hit], text: Reading, words: Sequence[Word], *, danger: bool
) -> Answer | None:
    if asked.kind == "check_result":
        went = result(asked, replies, text, words)
        if went is not None or "at_it" in replies:
            return went
    stated = stated_outright(asked, text)
    no = replies.get("no")
    if stated is not None and stated.kind == "yes" and (within(no, words, text, asked.code) or _only_last(no, words)):
        return stated
    said = plain(replies)
    if said is not None and said.kind == "yes" and only_has_it(asked, words):
        return None
    if said is not None and stated is not None and _says_more(asked, said, stated, replies, text, words):
        return stated
    if stated is None and (reworded := by_its_verb(asked, replies, words)) is not None:
        return reworded
    if said is not None and said.kind == "yes" and "at_it" in replies and len(words) <= _GOING_TO_LOOK:
        return stated
    if said is not None or stated is not None:
        return said or stated
    if asked.kind == "yes_no" and not danger and has_quit(words):
        return Answer("no")
    if asked.kind == "yes_no" and "pattern" in text.facts and len(words) <= _HOW_OFTEN and not questions(words).marked:
        return Answer("yes")
    return Answer("either") if "either" in replies and "wrong_number" not in text.intents else None


_HOW_OFTEN = 7
"""A text of so few words that says how often says that it is so: “every other load or so”."""


def _says_more(
    asked: Asked, said: Answer, stated: Answer, replies: Mapping[str, Hit], text: Reading, words: Sequence[Word]
) -> bool:
    """Whether what is *stated* outright counts for more than the plain reply beside it: “calienta, pero tarda, eso sí”."""
    if said.kind in ("dont_know", "declined") or repeats_it(asked, text, replies, words):
        return True
    yes = replies.get("yes")
    if stated.kind != "no" or said.kind != "yes" or yes is None:
        return False
    at = words[yes.start].start
    own = any(f.code == asked.code and f.start < at < f.end for f in text.denied)
    return own or yes.start > _FIRST_WORDS


_FIRST_WORDS = 3


def _named(asked: Asked, replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    if asked.kind == "appliance" and text.appliances:
        return Answer("value", text.appliances[0])
    if "none" in replies and replies["none"].start == 0:
        return Answer("none")
    found: Sequence[Found] = text.symptoms
    if asked.kind == "symptom" and found:
        return Answer("value", found[0].code)
    if asked.kind == "symptom" and text.hazards:
        return Answer("value", text.hazards[0].code)
    if "none" in replies:
        return Answer("none")
    return plain(replies)
