"""How old an appliance is: years counted, a year of purchase, a bare number where age is spoken of."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.times.bare_ages import Told, age_instead, bare_of_a_machine
from service.reading.times.got_when import ABOUT, HACE, THING, Span, bought_in, got_ago
from service.reading.words.counting import ARTICLES, COUNT, number

_UNIT = r"(?:years?|yrs?|anos?|anitos?|months?|mos?|meses|mes|weeks?|wks?|semanas?|y/o|y\.o|yo(?<=\dyo))"
_SPAN = re.compile(
    rf"(?<![\w.,/$])(?P<count>{COUNT})(?P<vague>ish|\+)?(?:\s*(?:-|to|or|a|o)\s*(?P<most>{COUNT}))?"
    rf"(?P<half> and (?:a )?half| y medi[oa]| 1/2| ?½)?(?: or so| plus| odd| of| de)?[\s-]*(?P<unit>{_UNIT})\b"
    rf"(?P<and_half> and (?:a )?half| y medi[oa])?(?: (?:or|o) (?P<unto>{COUNT})(?=\s*(?:[.,;!?\n]|$)))?"
    rf"(?:,? (?:and|y|n) (?P<months>{COUNT}) (?:months?|mos?|mes(?:es)?)\b)?"
)
_HALF_A_YEAR = re.compile(
    r"\bhalf (?:a|of a) year\b|\bmedio ano\b(?! pasad)|(?<!\w )\b(?:a )?year (?:and|n|&) (?:a )?half\b|"
    r"(?<!un )\bano y medio\b"
)
_HAS_UNIT = re.compile(rf"{_UNIT}\b")

_OLD = re.compile(
    r"[\s-]*(?:old|of (?:age|use|service)|in (?:service|use)|de (?:uso|viej\w+|antiguedad|edad|comprad\w+|servicio|vida)|"
    r"con nosotros|conmigo|with (?:me|us))\b"
)
_AGO = re.compile(r"\s*(?:ago|back|before|prior|atras|earlier)\b")

_KIN = (
    r"(?:son|daughter|kids?|boys?|girls?|baby|bebe|child|children|toddler|grand\w+|dog|cat|mother|father|mom|mum|dad|"
    r"husband|wife|brother|sister|uncle|aunt|neighbor|tenant|lady|man|woman|hij[oa]|nin[oa]|niet[oa]|senora?|mama|papa|"
    r"abuel[oa]|suegr[oa]|espos[oa]|marido|mujer|ti[oa]|viud[oa]|perr[oa]|vecin[oa]|"
    r"niece|nephew|twins?|triplets|infant|newborn|"
    r"pupp(?:y|ies)|kittens?|cachorr\w+|gemel[oa]s|cuat(?:e|it[oa])s|sobrin[oa]s?|criatura|recien nacid[oa])"
)
_PERSON_AFTER = re.compile(
    rf"^[\s-]*(?:olds?\s+)?(?:{_KIN}|says|said|swears|thinks|told|touched|put|stuck|broke|leaned|opened|kicked|pulled|"
    rf"shoved|dropped|climbed|confessed|admitted|cried|screamed|laughed|loves|wants|found|got his|got her|flushed|fed|"
    r"poured|pushed|stuffed|jammed|threw|locked|ripped|house|home|casa)\b"
)
_PERSON_BEFORE = re.compile(
    rf"\b(?:{_KIN}s?(?: \w+)?(?:\s+(?:is|was|turned|es|tiene|que tiene|cumplio|con|de|who is|whos))?(?:\s+de)?|ella "
    r"(?:es|tiene)(?: de)?|(?:neighbor|friend|coworker|vecin[oa]|amig[oa])(?:'?s)? \w+ (?:is|es|tiene)|"
    r"(?:yo|i am)(?: ya)?(?: tengo)?|aged)\s+(?:an? )?" + ABOUT + "$"
)
_SPEAKER = re.compile(
    r"(?:^|[.,;!?\n]\s*|\b(?:y|and|yo|que|ya|pues|porque)\s+)(?:ya\s+)?tengo\s+" + ABOUT + r"$|"
    r"\b(?:i'm|im|we are)\s+(?:(?:about|almost|only|over|nearly) )?$"
)
_MY = re.compile(r"\b(?:my|our|his|her|their|a|an|have|got|with)\s+$")
_THIS = re.compile(r"\b(?:it'?s|it is|this is|this one is|mine is|mine'?s|it'?s like)\s+an?\s+$")
"""“it's an 8 yr old Solvane”."""
_OUR_UNIT = re.compile(r"[\s-]*old\s+(?:\w+\s+){0,2}(?:unit|machine|one|model|loader|top|front)\b")

_NO_AGE_BEFORE = re.compile(
    r"\b(?:for|in|last|past|every|each|within|next|another|during|after|lived|live|lives|here|been|since|por|en|cada|"
    r"durante|ultimos|proximos|otros|hasta|hace|hacia|llevo|llevamos|than|until|takes?|toma|tarda)\s+" + ABOUT + "$"
)
_FOR = re.compile(r"\b(?:for|used)\s+" + ABOUT + "$")
_SERVED = re.compile(
    r"\b(?:had|have|owned?|with (?:me|us)|(?:cooked|served|worked|run|washed|dried|used|lasted)\b[^.;!?\n]{0,25})"
    r"(?! (?:this|the|that|a) (?:problem|issue|leak|noise|trouble))[^.;,!?\n]{0,25}$"
)
_BOTHERED = re.compile(
    r"\b(?:problems?|issues?|trouble|leak\w*|nois\w+|like this|like that|\w+ing|this way)\s+(?:for\s+)?" + ABOUT + "$"
)
_NO_MACHINE = re.compile(
    r"\b(?:(?:(?<!an )(?<!real )old|last|previous|first|other) (?:one|washer|dryer|dishwasher|fridge|stove|range|freezer|"
    r"microwave)|"
    r"warranty|lived|"
    r"living|lives|married|retired|customer|client|worked|works|renting|rented|mecanic\w+|tecnic\w+|electrician|"
    r"plumber|nurse|"
    r"soy|vivo|vivimos|casad\w+|trabaj\w+|cliente|haven'?t|hasn'?t)\b[^.;!?\n]{0,30}$"
)
_TRADE = (
    r"(?:pipefitt\w+|plumb\w+|electrician|welder|chef|cook|nurse|mechanic|firem[ae]n|firefighter|teacher|carpenter|barber|"
    r"hairdresser|baker|painter|roofer|contractor|trucker|cop|landlord|plomer[oa]|electricista|soldador|cociner[oa]|"
    r"enfermer[oa]|"
    r"mecanic[oa]|bomber[oa]|maestr[oa]|carpinter[oa]|panader[oa]|pintor|albañil|albanil|caser[oa]|trailer[oa])"
)
_NO_AGE_AFTER = re.compile(
    r"[\s-]*(?:(?:limited |full |parts |extended )?(?:warranty|guarantee|garantia|plan|contract|loan|lease|experience|"
    r"mortgage)|"
    r"de (?:experiencia|garantia|casad\w+|matrimonio|trabaj\w+|que|cliente)|of (?:experience|marriage|warranty|this|"
    r"trouble)|"
    r"in a row|seguidos|younger|apart|later|despues|antes|left|straight|here|married|que no|sin |asi\b|since|in "
    r"(?:this|the|our|my) (?:house|home|apartment|business|trade)|"
    rf"(?:as |of |de |como )?(?:an? )?{_TRADE}\b|behind (?:an?|the) \w+(?: \w+)? (?:chair|counter|bar|desk|wheel|stove)|in the "
    r"(?:army|navy|service|field|kitchen|business))"
)
_LASTS = re.compile(r"\bllevan?\s+" + ABOUT + "$")
_LASTS_WELL = re.compile(r"\s*(?:[.,;!?\n]|$|con nosotros|conmigo|trabajando|funcionando|jalando|de uso)")
_YOUNG = re.compile(
    r"\b(?:had|have|own|owned|got|is|its|it's|it is|es|tiene|de|are|they're|theyre|'s|turned|age:?|how old)\s+"
    + ABOUT
    + "$"
)
_OURS = re.compile(r"\b(?:had|owned|(?:la|lo|las|los) (?:tengo|tenemos|compr\w+))\b[^.;!?\n]{0,30}$")
_FAULT_AFTER = re.compile(r"\s*(?:que|asi|sin|con|\w+[ae]ndo|now|like|of|ago|in)\b")
_GIVEN_UP = re.compile(
    r"\b(?:quit|died|gave (?:out|up)|conked out|broke|stopped|murio|trono)\b[^.;,!?\n]{0,12}\bafter\s+" + ABOUT + "$"
)
_APART = re.compile(r"(?:^|[.,;\n]\s*)" + ABOUT + "$")
_ENDS = re.compile(r"\s*(?:[.,;!?\n]|$)")

_NEW = re.compile(
    r"\b(?:just (?:bought|got|purchased) (?:it|this)(?! (?:out|off|to|on|back|all|up|down|in |\w+ed\b|\w+ing\b|fixed))|"
    r"bought (?:it|this) new (?:this|last) (?:week|month)|(?:esta|es) (?:casi |completamente )?nuevecit[oa]|"
    r"recien (?:lo|la) compr\w+|less than a year old|under a year old|not even a year old|menos de un ano)\b"
)
_BRAND_NEW = re.compile(r"\bbrand new\b")
_NEW_ENDS = re.compile(
    r"\s*(?:[.,;!?\n]|$|(?:and|but|so|y|it|pero|from|out of|still|when|as of|we|i|they|yet|esta|la|lo)\b)"
)
_OF_THING_NEW = re.compile(rf"\b{THING} (?:is|are|es|was|looks?|seems|se ve) $")
_KINDS_ONLY = re.compile(rf"\s+(?:(?!{THING}\b|is\b|was\b|and\b|in\b|on\b|for\b)\w+\s+){{0,2}}")
_NAMED_SOON = 45

TAKEN_BACK = re.compile(
    r"\b(?:no,? (?:wait|i mean|sorry|scratch|make|hold on)|i mean|scratch that|correction|i take (?:that|it) back|make "
    r"(?:that|it)|or rather|wait|hold on|digo|no,? esper[ea]|perdon|mejor dicho|corrijo|no,? no)\b"
)
_SAID_NEXT = re.compile(
    rf"(?<![\w/])(?P<count>{COUNT})(?:ish|\+)?(?P<unit>[\s-]*{_UNIT}\b)?(?=\s*(?:[.,;!?\n]|$|old\b))"
)
_BARE = re.compile(
    rf"(?<![\w/'’])(?P<count>{COUNT})(?!\s*(?:am|pm|:|times|veces|minutes|min|burners?|o'clock|of (?:them|the)))"
)
_OLDEST = 60
"""No machine is older: so many years are a person's or a house's."""
_SURELY_NO_FAULT = 6
"""So many months apart are hardly those of a fault that somebody lived with."""


def age_in_years(
    folded: str, *, asked: bool, this_year: int | None, machines: Sequence[Span] = (), plate: bool = False
) -> float | int | None:
    """
    The age stated in *folded* (lower case, no accents), in years; half years and months as fractions.

    A year of purchase ("bought it in 2019") is an age only when *this_year* is given. *asked*: a bare number is the age;
    *plate*: what the machine is was asked. *machines*: where machines are named.
    """
    if _NEW.search(folded) or _brand_new(folded, machines):
        return 0
    instead = age_instead(folded) if "no" in folded else None
    if instead:
        return instead
    found = _counted(folded, machines, asked=asked, plate=plate) or bare_of_a_machine(folded, machines)
    if found is None and this_year:
        bought = bought_in(folded, this_year, asked=asked)
        if bought is not None:
            return bought
    if found is None and asked:
        found = _answered(folded)
    return _taken_back(folded, *found) if found else None


def _brand_new(folded: str, machines: Sequence[Span]) -> bool:
    """Whether a machine is said to be brand new, and not a rug, a battery or an alarm."""
    for new in _BRAND_NEW.finditer(folded):
        if folded.endswith(("normal for a ", "ok for a ", "normal with a "), 0, new.start()):
            continue
        if any(new.end() < start and _KINDS_ONLY.fullmatch(folded, new.end(), start) for start, _ in machines):
            return True
        if _NEW_ENDS.match(folded, new.end()) and not _OF_THING_NEW.search(folded[: new.start()]):
            return True
    return False


def _counted(folded: str, machines: Sequence[Span], *, asked: bool, plate: bool) -> Told | None:
    """The first count of years, months or weeks that is an age."""
    if not _HAS_UNIT.search(folded):
        return None
    half = _HALF_A_YEAR.search(folded)
    if half:
        before, after = folded[: half.start()], folded[half.end() :]
        got = (HACE.search(before) or _AGO.match(after)) and got_ago(before, after, machines)
        if asked or got or _OLD.match(after) or (_YOUNG.search(before) and not _FAULT_AFTER.match(after)):
            return (0.5 if half.group().startswith(("half", "medio")) else 1.5), half.end()
    for match in _SPAN.finditer(folded):
        if _states_age(match, folded, machines, asked=asked, plate=plate):
            years = _years(match)
            if asked or years <= _OLDEST:
                return years, match.end()
    return None


def _states_age(match: re.Match[str], folded: str, machines: Sequence[Span], *, asked: bool, plate: bool) -> bool:
    before, after = folded[: match.start("count")], folded[match.end() :]
    if _of_somebody(before, after, match, machines):
        return False
    if _OLD.match(after) or match.group("unit") in ("y/o", "yo", "y.o"):
        return not _of_thing(before)
    if _AGO.match(after) or HACE.search(before):
        return got_ago(before, after, machines)
    if asked:
        return True
    if match.group("unit")[0] not in "ya":
        apart = bool(_ENDS.match(after) and _APART.search(before))
        told = plate or (number(match.group("count")) >= _SURELY_NO_FAULT and _named_first(before, machines))
        return (apart and told) or bool(
            _YOUNG.search(before) and not _FAULT_AFTER.match(after) and not _of_thing(before)
        )
    if _LASTS.search(before):
        return bool(_LASTS_WELL.match(after))
    ours = bool(_OURS.search(before)) and not _BOTHERED.search(before)
    if _FOR.search(before):
        return ours or bool(_SERVED.search(_FOR.sub("", before)) and not _BOTHERED.search(before))
    if _GIVEN_UP.search(before):
        return True
    if match.group("months") and _ENDS.match(after) and _APART.search(before):
        return True
    if match.group("count") in ARTICLES and not (_YOUNG.search(before) or ours):
        return False
    others = _NO_AGE_BEFORE.search(before) or _NO_AGE_AFTER.match(after) or _NO_MACHINE.search(before)
    return not (others or _BOTHERED.search(before) or _of_thing(before))


def _named_first(before: str, machines: Sequence[Span]) -> bool:
    """Whether the sentence so far names a machine."""
    start = max(before.rfind(sign) for sign in ".!?\n") + 1
    return any(start <= at < len(before) for at, _ in machines)


def _of_somebody(before: str, after: str, match: re.Match[str], machines: Sequence[Span]) -> bool:
    """Whether the years are a person's: “my 6 yr old says”, “una señora de 91 años”, “yo tengo 82 años”."""
    if _PERSON_AFTER.match(after) or _PERSON_BEFORE.search(before) or _SPEAKER.search(before):
        return True
    if not (_MY.search(before) and re.match(r"[\s-]*olds?\b", after)):
        return False
    if _THIS.search(before):
        return False
    near = match.end() + _NAMED_SOON
    return not any(match.end() <= start <= near for start, _ in machines) and not _OUR_UNIT.match(after)


def _of_thing(before: str) -> bool:
    """Whether what is so old is another thing than the machine: “the hose is …”."""
    told = re.sub(r"\s+(?:is|are|es|tiene|was|de)\s+" + ABOUT + "$", "", before)
    return told != before and bool(re.search(rf"\b{THING}$", told))


def _years(match: re.Match[str]) -> float | int:
    half = match.group("half") or match.group("and_half")
    count: float | int = number(match.group("count")) + (0.5 if half else 0)
    most = match.group("most") or match.group("unto")
    if most and number(most) > count:  # "10 or 12 yrs"
        count = (count + number(most)) / 2
    unit = match.group("unit")
    if match.group("months") and unit[0] in "ya":
        return _plain(round(count + number(match.group("months")) / 12, 2))
    if unit.startswith("m"):
        count = round(count / 12, 2)
    elif unit[0] in "ws":
        count = round(count / 52, 2)
    return _plain(count)


def _plain(count: float | int) -> float | int:
    return int(count) if count == int(count) else count


def _answered(folded: str) -> Told | None:
    """The bare number of an answer, an article only where it is all of it."""
    for match in _BARE.finditer(folded):
        if _of_thing(folded[: match.start()]) or _SPEAKER.search(folded[: match.start()]):
            continue
        if match.group("count") not in ARTICLES or match.group("count") == folded.strip(" .!"):
            return number(match.group("count")), match.end()
    return None


def _taken_back(folded: str, age: float | int, end: int) -> float | int:
    """*age*, told up to *end*, or the one that is told in its stead: “thirty one years no I mean twenty one years”."""
    for marker in TAKEN_BACK.finditer(folded, end):
        for told in _SAID_NEXT.finditer(folded, marker.end()):
            unit = (told.group("unit") or "y").strip(" -")
            if told.group("count") not in ARTICLES and unit[0] in "ya":
                return _plain(number(told.group("count")))
    return age
