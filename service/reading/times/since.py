"""When the trouble began, in the customer's words: "since" and what follows, how long it lasts, the day it began on."""

from __future__ import annotations

import re

from service.reading.times import since_signs as signs
from service.reading.times.lasting import ENDED, LASTS, STAYS_WELL
from service.reading.times.when_words import (
    ABOUT_EN,
    ABOUT_ES,
    BEGINNING_EN,
    DAY_EN,
    DAY_ES,
    HOUR_EN,
    HOUR_ES,
    REASONS,
    TIME_EN,
    TIME_ES,
    N,
)
from service.reading.words.letters import has_any

_HAD = (
    r"(?:had|have|has|owned|own|bought|purchased|got|lived|here|married|customers?|clients?|waiting|waited|call(?:ed|ing)|"
    r"text(?:ed|ing)|used|using|comprad[oa]|tengo|tenemos|vivo|vivimos|esperando|llamando|marcando|mandando|warranty|garantia|"
    r"on the road|closed|"
    r"(?<!its )(?<!it's )(?<!is )(?<!was )(?<!shut )(?<!turned )(?<!goes )(?<!went )(?<!taking )(?<!take )(?<!takes )off|"
    r"home|open|"
    r"unit|kids?|disponible|libre|available)"
)
"""Before "since" and "for": how long it was owned or waited for, not how long it has failed."""

_NO_FAULT = re.compile(
    rf"\b(?:(?:fine|good|great|(?:bone|is|its|been|all|[.,;]) dry|sec[oa]|perfect|perfectly|ok|well|bien|strong|quiet|"
    rf"problems?|issues?|not|never|"
    rf"busy|sitting|smell nothing|no nose|none|[cs]errad[oa])|{_HAD})(?: (?:(?:this|that|my|our) \w+|it|this|that|them|one|"
    rf"the \w+|on|you|yall|ustedes|la|lo|here|with \w+|about|de|a))*(?: (?:only|ever|just))*[^\w.!?\n]*$"
)
_WAITED = re.compile(r"\b(?:pieza|part|cita|quedaron|volvia|appointment|esperando|waiting|unplugged)\b[^.!?\n]{0,50}$")
_POWER = re.compile(
    r"\b(?:power|electricity|internet|luz|city|street|block|(?:from|heard) (?:\w+ )?(?:your? \w+|you|yall|u))\b[^.!?\n]{0,40}$"
)
"""What is told to be out is no machine."""
_WORKED = re.compile(
    r"(?<!n't )(?<!nt )(?<!not )(?<!never )\b(?:works?|worked|lasts?|lasted)(?: (?:again|ok|fine|great))*\W*$"
)
"""“it'll work for a day”: how long it did."""
_INFANT = re.compile(
    r"\b(?:baby|babies|bab[iy]e?s?|twins?|infant|newborn|pupp(?:y|ies)|kittens?|cachorr\w+|gemel[oa]s|boys|girls)[^.!?\n]{0,20}[.,!]?\s*$"
)
"""Behind these so many weeks are an age: “Twin boys, 5 weeks.”"""
_SHORT = re.compile(r"^for .*(?:h|hrs?|hours?|while now)$")
_RUN_FOR = re.compile(
    r"\b(?:unplugged|plugged|turned?|off|out|ran|run|runs|running|on|wait(?:ed|ing)?|preheat(?:ed|s)?|open|sat|sit|sits|"
    r"soak(?:ed)?|left|leave|cook(?:ed)?|bake[ds]?|microwaved?|heat(?:ed)?|reset|it|works?|fine|goes|stays?|"
    r"desconectad[ao]|apagad[ao])\W*$"
)

_OLD_NEWS = re.compile(
    r"\b(?:bought|purchased|compr\w+|called|texted|came|update from|defrosted|cleaned|replaced|swapped|changed|"
    r"cambi\w+|mud\w+|moved in|destap\w+|put in|pusieron|pusimos|"
    r"fixed|repaired|visit\w*|installed|instal\w+|years? ago|vino|vinieron|was out|were out|were here|was here|"
    r"delivered|ordered|appointment|"
    r"talked|spoke|habl\w+|cita|pedi\w+|dijeron|dijo|told me|scheduled|booked|remodel\w*|descongel\w+|limpi\w+|"
    r"llam\w+|llevo esperando|burnt a|"
    r"burned (?:a|the|some|my)|smoked a|brisket|tested|paid|pag\w+|mand\w+|serviced|spilled|wrote|emailed|"
    r"wants it|vecin[oa]|neighbors?|we moved it|i ran|ran it|(?:he|they|nobody|man) (?:say he )?come|"
    r"where were you|bacon|not till|closed the|shut the|cut my|mowed|popcorn|toast|se (?:me )?quem\w+ (?:el pan|l[ao]s)|"
    r"set (?:it|the \w+)|turned (?:it|the \w+) (?:up|down|colder|warmer|to|all)|"
    r"turned (?:the |my )?breaker|was 1?\d\d|woke|trash day|"
    r"garbage day|gracias por|thanks for|thank you for|thx for|"
    r"neighbor'?s|arroz|pizza|cena|frijoles|pozole|arreglaron|full again|all good|seque|checo|checaron|checked|revis\w+|"
    r"inspect\w+|"
    r"bill|put (?:a|the|my) new|(?:my|mi) (?:back|knee|hip|shoulder|wrist|car|truck|phone|cell|internet|wifi|espalda|"
    r"rodilla|troca|carro))\b[^.!?\n]{0,40}$"
)
"""What happened on the day that follows was no fault's beginning."""

_OVER = re.compile(
    r"^[^.!?\n]{0,40}\b(?:fixed|taken care|all good|stopped|that is done|good now|resolved|(?:ages|years|long) ago)\b"
)
_THEN_NEWS = re.compile(
    r"^[ ,]{0,2}(?:que )?(?:se )?(?:nos |me |le |les )?(?:cambi|pusi|instal|remodel|compr|vin|llov|nev|graniz|rain|"
    r"it rained|snow|arregl|pidi|mand|habl|llam|chec|revis|we (?:bought|put|got|remodel|replac))"
)
_NOT_THEN = re.compile(
    r"\b(?:by|before|either|or|any|next|every|para|proxim[oa]|come|coming|available|free|home|off|open|works?|"
    r"appointment|venir|vengan?|puede[n]?|can|could|will|would|is|are|(?<!same )days?|mornings|ok|good|between|anytime|"
    r"maybe|pick|like)\W*(?:on |el |el dia |the )?$"
)
"""Before a bare day: it is one to come."""

_BEGINS_THEN = re.compile(
    r"(?:started|began|empezo|comenzo)(?: (?:up|doing (?:it|this|that)|this|back|again|a hacerlo))? "
)
"""A beginning with its time beside it is one whatever was done before: “i defrosted it twice, started in august”."""

_VERBS_EN = (
    r"(?:start(?:ed|in|ing)?(?: up)?|began|begun|notic(?:ed|e)|happen(?:ed|s)|stopped|quit|died|went (?:out|"
    r"down|dead|off|bad|crazy|haywire|in|kaput|up|warm|silent|quiet)|broke|boiled over|over(?:filled|loaded|stuffed)|"
    r"failed|(?:got|gotten|gone|became|turned) (?:(?:real|really|so|super|very|all|way|much|kinda|pretty) )?"
    r"(?:loud|noisy|noisier|slow|slower|warm|warmer|hot|weak|weaker|bad|weird|stinky|smelly|leaky|cloudy|foggy)|"
    r"acting (?:up|funny|weird)|acted up|gave (?:out|up)|conked(?: out)?|crapped out|flooded|leaked|"
    r"cracked|shattered|froze up|got (?:louder|worse)|"
    r"snapped|fell(?: off| apart| in)?|showed up|locked(?: up)?|jammed(?: up)?|got stuck|shut (?:off|down)|"
    r"cut out|this way|like this|like that)"
)
_VERBS_ES = (
    r"(?:empez\w+|comenz\w+|dej\w+ de|dejo|paro|se paro|se (?:me |nos )?(?:descomp\w+|dano|apago|murio|quebro|"
    r"rompio|trabo|atoro|tiro|quedo|estrello|quemo|"
    r"inundo|tapo|cayo)|fallo|paso|note|notamos|amaneci\w*|trono|inici\w+|anda asi|esta asi|asi)"
)
_EVENT_EN = (
    r"(?:(?:the|that|our) (?:move|storm|freeze|outage|power (?:outage|cut|surge)|remodel|repair|flood)\b|"
    r"(?:we|they|he|she|i|my \w+|the \w+) (?:\w+ed|put|got|came|had|took|did|bought|left|went|broke|fell|hit|ran|began)\b"
    r"(?: (?:it|them|that|this|the \w+|a \w+))?(?: (?:in|up|out|here|back))?)"
)
_EVENT_ES = (
    r"(?:(?:que|q) (?:(?:la|lo|los|las|nos|me|se|le|ya) )*\w+(?:amos|imos|aron|ieron)\b|el apagon(?: del? \w+)?)"
)
"""Something that happened, told after "since"."""
_SINCE_EN = re.compile(
    rf"\b(?:since|sence|scince)\b(?! {REASONS}\b)(?: (?:that|the|about|around|like|probably|maybe|early|late|at least|a))*"
    rf"(?: (?:{TIME_EN}\b|{BEGINNING_EN}\b|today|then\b|\d{{1,2}}\b|[a-z]+'?s? (?:birthday|party|visit|wedding|"
    rf"funeral)\b|(?!(?:covid|so|all|no|not|both|when|cuz|because|cause|bc|and|but|i was (?:a |ten|nine|eight|twelve|"
    rf"little|young|born|\d|\w+(?:ty|teen)\b)|resolved|fixed|repaired|uve|youre|you're|"
    rf"replaced)\b)(?:{_EVENT_EN}|(?:\w+ ){{0,2}}\w+)))"
)
_EVER_SINCE = re.compile(r"\bever since\b(?! i have)")
_SINCE_ES = re.compile(
    rf"\b(?:des?de|dsde|dende)\b(?! (?:el|las?|los|un|una)? ?(?:tele|celular|cel|telefono|app|panel|abajo|arriba|"
    rf"adentro|afuera|aqui|boton|calle|casa|covid|"
    rf"cocina|techo|fondo|motor|puerta|parte|carretera|caja|pasillo|piso)\b)(?: (?:como|mas o menos|apenas|ya))*"
    rf"(?: (?:{TIME_ES}\b|{TIME_EN}\b|{_EVENT_ES}|(?:que|q|k|ke)\b(?: \w+){{1,3}}|entonces|ahi|ese dia|aquel|"
    rf"(?:el|la|los?) \w+|las (?!on|do|nu|oc|si|se|ci|cu|tr|di|\d)\w+|"
    rf"hace (?:tiempo|rato|mucho)|siempre|es[oa]\b|nuev[oa]|chiquit\w+|\d+ (?:dias|semanas)))"
)
_BEGAN = (
    re.compile(
        r"\b(?:quit|died|stopped|broke|went out|gave out|conked out)(?: \w+ing| on (?:me|"
        r"us))? (?P<when>(?:right )?(?:after|when(?! i (?:un|turn|shut|open|stop|hit|push|press)))(?! i (?:un|turn|"
        r"shut|stop)) "
        r"(?:we|i|they|he|she|my \w+|the (?:movers?|plumber|tech|guy|(?:power|storm|lights?) (?:came|went|was|got|hit|"
        r"blew|passed)))\b(?: \w+){0,5})"
    ),
    re.compile(
        rf"\b{_VERBS_EN}\b[^.!?\n]{{0,45}}?\b(?P<when>{TIME_EN}|(?<!times )this (?:week|month)|over the summer|"
        rf"in the (?:summer|winter|fall|spring))\b"
    ),
    re.compile(
        r"\b(?:it )?(?:all )?(?:start(?:ed|in)|began|happened)(?: doing (?:it|this|"
        r"that))? (?P<when>(?:right )?(?:when|after) (?:\w+ ){1,5}\w+)"
    ),
    re.compile(rf"\b{_VERBS_ES}\b(?:(?!instal|compr)[^.!?\n]){{0,45}}?\b(?P<when>{TIME_ES})\b"),
    re.compile(
        rf"\b(?:after|when|following) (?!{HOUR_EN} {DAY_EN}\b)(?:(?:the|my|our|we|they|he|she|that|a|an|power|i|it|"
        rf"last) )?[^.!?,\n]{{2,40}}?\b(?P<when>{TIME_EN})(?:'s)?\b"
    ),
    re.compile(
        rf"\b(?:cuando|despues de|con) (?!{HOUR_ES} {DAY_ES}\b)(?:que |q |k |ke |la |el |se |nos |vino |fue |cayo |"
        rf"llovio )[^.!?,\n]{{2,40}}?\b(?P<when>{TIME_ES})\b"
    ),
    re.compile(
        rf"\b(?:power|lights?(?! (?:on|in|inside) )|electricity|outage|storm|lightning|luz|rayo|"
        rf"tormenta)\b[^.!?\n]{{0,40}}?\b(?P<when>{TIME_EN}|{TIME_ES})\b"
    ),
)
_SURELY = (
    re.compile(
        rf"\b(?P<when>(?:el )?{DAY_ES}|ayer|anoche|antier) (?:ya )?(?:se )?(?:me |nos |le )?(?:empez\w+ a|comenz\w+ a|"
        rf"dej\w+ de|(?:se )?apago|descompuso|murio|trono|tiro)\b"
    ),
    re.compile(
        rf"\b(?P<when>{DAY_EN}|yesterday|last night|this morning) (?:is|was|s) (?:when|the day) (?:it|the|my|our|she|"
        rf"he|this)\b"
    ),
    re.compile(rf"\b(?P<when>{DAY_ES}|ayer|anoche) (?:es|fue) cuando\b"),
    re.compile(
        rf"\bdead (?:(?!body|end|line)\w+ )?(?P<when>(?:on )?{DAY_EN}|yesterday|last night|this morning)"
        rf"(?=\s*(?:$|[.,;!?]| (?:and|so|but|it)\b))"
    ),
    re.compile(
        rf"\b(?P<when>{TIME_EN})[,.;]? (?:and |so )?(?:that(?:'s| is|s)? (?:what |when )?(?:did|done) it|"
        rf"been (?:like )?(?:this|that)(?: way)? (?:after|since|from then))\b"
    ),
    re.compile(
        rf"\b(?:never|always|(?:not|n'?t)(?! (?:be |gonna be |going to be |at )?(?:home|here|back|available|around|in town|"
        rf"off|free|able|till?|until)\b)|(?:fine|ok|good)(?! to)|worked|working|great|bien|"
        rf"no lo hacia)\b[^.!?\n]{{0,35}}\b(?:until|till|til|hasta)\b[^.!?\n]{{0,50}}?\b(?P<when>{TIME_EN}|today|{TIME_ES})\b"
    ),
    re.compile(r"(?<!in )(?<!come )(?<!here )(?<!body )(?<!out )\b(?P<when>prior to the \d{1,2}(?:st|nd|rd|th))\b"),
    re.compile(
        r"\b(?P<when>(?:and |y )?(?:from|after|desde) (?:that day|then|day one|ese dia)(?: on)?|and after this|"
        r"(?:right )?from the (?:first )?(?:day|minute|moment|time|get ?go|start|beginning) (?:it|we|i|they|you|he|"
        r"she)\b(?: \w+){1,2})"
        r"(?!\w)"
    ),
    re.compile(
        rf"(?:^|[.,;!?\n]\s*|\b(?:and|so|then|y) )(?P<when>{DAY_EN}|yesterday|yest|last (?:night|nite)|this morning|"
        rf"new years? (?:day|eve))(?: (?:the|"
        rf"my|our|it|she|he|mine|this)\b)(?: (?!(?:come|visit)\b)\w+)?"
        rf"(?: \w+)? (?:quit|died|stopped|broke|started|began|leaked|flooded|froze|gave out|gave up|tripped|went out|"
        rf"went dead|conked|"
        rf"wouldn'?t|would not|shut (?:off|down)|locked up|jammed|bangs?|banged)\b"
    ),
    re.compile(
        rf"\b(?P<when>{TIME_EN})[^.!?\n]{{0,30}}\b(?:and|n|&|so) (?:it'?s|its|it has|it is|thats|"
        rf"that'?s) been (?:like this|like that|this way|that way|so)\b"
    ),
    re.compile(
        rf"\b(?P<when>{TIME_ES}) [^.!?,\n]{{0,30}}\by (?:desde (?:entonces|ahi)|asi (?:sigue|esta|anda|ha estado))\b"
    ),
)
_BARE = re.compile(
    rf"\b(?:yesterday|last (?:night|nite)|this mornin(?:g)?|this am(?=\s*(?:$|[.,;!?]))|"
    rf"{ABOUT_EN}(?:a )?{N}(?: of)? (?:days?|weeks?|wks?|"
    rf"months?) (?:ago|back)|"
    rf"ayer|anoche|antier|la semana pasada|hace {ABOUT_ES}{N} (?:horas?|dias?|semanas?|meses|mes))\b"
)
_COMING = re.compile(
    r"\b(?:can|could|please|pls|come|need|send|book|schedule|available|puede|pueden|podr\w+|vengan|venga|venir|"
    r"manden|showed|wants? (?:you|someone|somebody|u))\b[^.!?\n]{0,40}$"
)


def since_when(text: str, folded: str, *, danger: bool = False) -> str | None:
    """
    When the trouble began, in the customer's words; None when not stated. Beside a *danger* a bare day only dates it.
    """
    if not signs.may_tell_since(folded):
        return None
    span = _since(folded) or _lasting(folded) or _begun(folded, danger=danger)
    return text[span[0] : span[1]].strip(" ,.") if span else None


def _since(folded: str) -> tuple[int, int] | None:
    if not signs.may_say_since(folded):
        return None
    for pattern in (_SINCE_EN, _SINCE_ES, _EVER_SINCE):
        for match in pattern.finditer(folded):
            before = folded[: match.start()]
            if not (_NO_FAULT.search(before) or ENDED.search(before)):
                return match.span()
    return None


def _lasting(folded: str) -> tuple[int, int] | None:
    if not signs.may_last(folded):
        return None
    for needed, pattern in zip(signs.IN_LASTS, LASTS, strict=True):
        if not has_any(folded, needed):
            continue
        for match in pattern.finditer(folded):
            before, told = folded[: match.start()], match.group()
            if STAYS_WELL.match(folded[match.end() :]) or ENDED.search(before):
                continue
            if _NO_FAULT.search(before) or _WAITED.search(before) or _POWER.search(before) or _INFANT.search(before):
                continue
            old = told.startswith(("hace", "a")) and _OLD_NEWS.search(before)
            old = old or (told.startswith("for ") and _WORKED.search(before))
            if not old and not (_SHORT.search(told) and _RUN_FOR.search(before)):
                return match.span()
    return None


def _begun(folded: str, *, danger: bool) -> tuple[int, int] | None:
    for needed, pattern in zip(signs.IN_SURELY, _SURELY, strict=True):
        match = pattern.search(folded) if has_any(folded, needed) else None
        if match:
            return match.span("when")
    for needed, pattern in zip(signs.IN_BEGAN, _BEGAN, strict=True):
        if not has_any(folded, needed):
            continue
        for match in pattern.finditer(folded):
            before, upto = folded[: match.start()], folded[: match.start("when")]
            if _OVER.search(folded[match.end() :]):
                continue
            news = not _BEGINS_THEN.fullmatch(upto, match.start()) and _OLD_NEWS.search(before)
            if not (news or _COMING.search(upto) or _NOT_THEN.search(upto)):
                return match.span("when")
    for match in () if danger or not has_any(folded, signs.IN_BARE) else _BARE.finditer(folded):
        if (
            not _OVER.search(folded[match.end() :])
            and not _OLD_NEWS.search(folded[: match.start()])
            and not _THEN_NEWS.search(folded[match.end() :])
        ):
            return match.span()
    return None
