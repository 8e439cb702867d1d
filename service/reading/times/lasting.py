"""How long a fault lasts, as people say it: “for two weeks”, “11 days now”, “been like that since”, “tiene como un mes”."""

from __future__ import annotations

import re

from service.reading.times.when_words import ABOUT_EN, ABOUT_ES, SPAN_ES, N

LASTS = (
    re.compile(
        rf"(?:\bfor |^(?=[a-z ]*\S+ (?:days?|weeks?|wks?)$))"
        rf"(?:the (?:last|past) |(?:a )?(?:good|whole|solid) )*{ABOUT_EN}(?:the (?:last|past) )?(?:a )?(?:good |solid )?"
        rf"(?:{N}(?: of| or (?:two|three|four|so))?(?: \d)? (?:days?|nights?|weeks?|wks?|months?|years?|yrs?)|"
        rf"years|months|weeks|days|ages|a while now|awhile now|some time now|\d+ ?h(?:rs?|ours?)?)\b(?!(?: or (?:two|"
        rf"three|so))? (?:and |n )?then\b)"
    ),
    re.compile(
        rf"\b(?:been|goin(?:g)? on|for|now|its been|it's been) {ABOUT_EN}(?:a )?(?:good |solid )?{N}(?: of|"
        rf" or (?:two|three|four|so))?(?: \d)? (?:days?|nights?|weeks?|wks?|months?)\b(?! (?:old|ago to|then|and then|n then))"
    ),
    re.compile(
        rf"\b(?!an? day\b)(?:{N}|last|past|couple)(?: of| or (?:two|three|so))? (?:straight )?(?:days?|nights?|"
        rf"weeks?|wks?|months?)(?: straight)? "
        rf"(?:now|running|straight|in a row|already|and counting|of this|of that|like this)\b"
    ),
    re.compile(
        rf"\b(?:the |these |this )(?:last|past) (?:{N} (?:of )?)?(?:days?|nights?|weeks?|wks?|months?)\b|"
        rf"(?:^|[.,;!?] )(?:last|past) {N} (?:days|nights|weeks|wks|months)\b"
    ),
    re.compile(
        r"\b(?:day|week|month) (?:\d+|two|three|four|five|six) (?:of|now|without|with no|and)\b|"
        r"\b(?:second|third|fourth|2nd|3rd|4th|segund[oa]|tercera?|cuart[oa]) (?:day|week|month|dia|semana|mes) "
        r"(?:without|with no|now|like this|sin|con (?!ust)|que no|asi)"
    ),
    re.compile(r"\bbeen\b(?! at work| home| here| out| busy)[^.!?\n]{0,30}\ball (?:week|weekend|month|summer|winter)\b"),
    re.compile(
        r"(?:^|[.,;!?\n]\s*)all (?:day|week|weekend|month|summer|winter) (?:long )?(?:the|my|our|its|it's|it|"
        r"this) (?:\w+ ){0,3}"
        r"(?:been|wont|won't|keeps|has)\b"
    ),
    re.compile(rf"\b{N} (?:days?|weeks?|wks?|months?) later\b"),
    re.compile(
        rf"\b(?:dead|down|out|broken|broke|off|(?:without|w/o|w/out|wo)(?: (?:an?|my|our|the|any|it|one) \w+)?|"
        rf"warm|like this|(?:this|that) way) {ABOUT_EN}(?:{N}) (?:days?|weeks?|wks?|"
        rf"months?|years?)\b"
    ),
    re.compile(
        rf"\b(?:hasn'?t|haven'?t|hasnt|wont|won'?t|not|no|nothing)\b(?! (?:call|answer|repl|"
        rf"respon))[^.!?\n]{{0,45}} in (?:like |about |over )?{N} (?:days?|weeks?|wks?|months?|years?)\b"
    ),
    re.compile(rf"\bbeen \w+in'?g?(?: (?:it|this|that|so))? {ABOUT_EN}(?:a )?{N}(?: of)? (?:day|week|wk|month|year)s?\b"),
    re.compile(
        r"\b(?:died|quit|dead|went out|gave out|thawed|melted|defrosted|flooded|leaked|stopped|started|began|happened|"
        r"warmed up|"
        r"came on|all of this|this) overnight\b"
    ),
    re.compile(rf"\bfrom {ABOUT_EN}{N} (?:days?|weeks?|months?|years?)\b(?! (?:old|ago|of|warranty|now))(?=\s*(?:$|[.,;!?]))"),
    re.compile(
        r"\b(?:hasn'?t|haven'?t|hasnt|havent|not|no|nothing)\b(?! (?:call|answer|repl|respon|been home|here|seen|heard))"
        r"[^.!?\n]{0,45} in (?:days|weeks|months|ages|forever)\b"
    ),
    re.compile(r"(?<!i )(?<!we )\b(?:hasn'?t|haven'?t|ha(?:s|ve) not|has never|nothing (?!since)|no (?:water|heat|ice))\b"
        r"[^.!?\n]{0,40} since\b(?=\s*(?:$|[.,;!?]|and\b|but\b))"),
    re.compile(
        r"\bbeen (?:like |that |this |it |\w+ing |way |so |dead |down |out |off ){1,4}(?:ever )?since\b"
        r"(?=\s*(?:$|[.,;!?]|(?:and|but|so|i do ?n'?t know|idk|i guess|not sure|dunno|i have)\b))"
    ),
    re.compile(
        rf"\b(?:ya )?(?:tiene|lleva[ns]?|llevo|llevamos|tengo|va pa(?:ra)?|vamos pa(?:ra)?|va[n]?|son|ya hace|"
        rf"asi) {ABOUT_ES}(?:{N}) (?:o {N} )?"
        rf"(?:dias?|noches?|semanas?|weeks?|days?|mes|meses|rato)\b(?! (?:de (?:uso|comprad|garantia|nacid)|"
        rf"que (?:la|lo) compr|esperando|llamando|marcando)|,? (?:la|el|mi|esta|este) \w+)"
    ),
    re.compile(
        rf"\b(?:hace|ase) {ABOUT_ES}{N} (?:o {N} )?{SPAN_ES}\b(?= (?:que|asi|sin|con|\w+ndo|no|"
        rf"ya no)\b)(?! que (?:la|lo|se|me|le)? ?(?:compr|instal|pus|vin|cambi))"
    ),
    re.compile(rf"(?:, |\b(?:tenants?|she|he|renters?) says? ){ABOUT_EN}{N} (?:days?|weeks?|months?)(?=\s*(?:$|[.!?,]))"),
    re.compile(rf"\bya {ABOUT_ES}{N} (?:dias?|noches?|semanas?|mes|meses)\b"),
    re.compile(r"\b(?:tiene|lleva|hace) (?:ya )?(?:tiempo|rato|mucho|buen rato|un buen)\b(?= (?:que|asi|sin|con|\w+ndo))"),
    re.compile(
        rf"\bde (?:un|unos|unas|hace) {ABOUT_ES}(?:{N} )?(?:dias?|semanas?|mes(?:es)?|rato|"
        rf"tiempo)(?: para (?:aca|ca)|pa(?:ra)? ca)\b|\bde (?:ahi|alli|entonces) pa(?:ra)? a?ca\b"
    ),
    re.compile(
        rf"(?<=[.!?\n])\s+(?:{ABOUT_EN}(?:a )?(?:good |solid |whole )?{N}(?: of)? (?:days?|weeks?|wks?|months?)"
        rf"(?: or so| now| maybe| i think| tops)*|"
        rf"(?:a )?(?:day|week|month|year) or (?:so|two)|(?:hace |ya )?{ABOUT_ES}{N} (?:dias?|semanas?|mes(?:es)?)(?: ya| asi)?|"
        rf"hace (?:dias|semanas|meses|tiempo|rato))(?=\s*(?:$|[.!?\n]))"
    ),
    re.compile(rf"\b(?:the |these |this )?(?:last|past) {ABOUT_EN}(?:{N} )?(?:of )?(?:loads|cycles)\b"),
    re.compile(rf"\bstill \w+(?: \w+)? {ABOUT_EN}{N} (?:days|weeks|wks|months)\b"),
    re.compile(rf"\b{N} (?:dias?|semanas?|mes(?:es)?) asi\b"),
    re.compile(rf"\b(?:estos (?:ultimos )?(?:{N} )?|los ultimos (?:{N} )?)(?:dias|meses|semanas)\b"),
)  # fmt: skip

ENDED = re.compile(
    r"\b(?:no longer \w+ing|(?:isn'?t|isnt|not|doesn'?t|hasn'?t|havent|haven'?t|didn'?t|never) "
    r"(?:leak|drip|trip|overfill|overflow|flood|squeak|squeal|rattle|bang|shak|smell|stink|stunk|beep|click|buzz|hum|spark|"
    r"thump|wobbl|chirp)\w*(?: (?:water|anymore|any ?more|again|no more|at all|a drop|over|the breaker))*|"
    r"ya no (?:ha vuelto a )?(?:(?:gote|brinc|tron|truen|rechin|hue?l|oli|apest|pit|bot|zumb|sona|sono|suen|vibr|chorre|se sal|"
    r"escurr|fug)\w*(?: (?:agua|feo|a quemado|la pastilla|el breaker))?|h(?:ac|ag|iz|ic)\w* ruido)|"
    r"no (?:ha|han) vuelto a \w+(?: \w+)?)[^\w.!?\n]*$"
)
"""“not leaking anymore since …”, “ya no truena desde que …”: since then it does not."""

STAYS_WELL = re.compile(
    r"^(?: ya)?(?: que)?(?: (?:esta|sigue|anda))? (?:sec[oa]|quiet[oa]|bien|limpi[oa]|"
    r"sin (?:gotear|tirar|fuga|fugas|ruido|olor|brincar|tronar|rechinar|botar)|dry|quiet|clean)\b"
)
"""“ya van 5 dias seca”: so long it has done right."""
