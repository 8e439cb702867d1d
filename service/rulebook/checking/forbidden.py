"""
The acts no text may tell an owner to do, as they are worded in English and Spanish.

A screen, not a proof: it reads clause by clause, lets a clause pass that says not to do it, and errs to refusing. Source:
the shop's own rule that an owner uses no tool on a live machine, removes nothing fixed, and leaves gas, sealed refrigerant
and wiring alone; H and P rows of the sources where they name the act.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

_MACHINE_EN = r"(machine|dishwasher|washer|dryer|range|stove|oven|fridge|refrigerator|freezer|appliance|unit)"
_MACHINE_ES = (
    r"(m[aá]quina|lavaplatos|lavavajillas|lavadora|secadora|estufa|horno|refri\w*|nevera|congelador\w*|aparato|equipo)"
)
_TOOL_EN = (
    r"(screw ?drivers?|wrench(es)?|pliers|multi ?meter|volt ?meter|drill|hammer|knife|coat hanger|nut drivers?|pry bar)"
)
_TOOL_ES = (
    r"(des(t)?ornillador(es)?|desarmador(es)?|llave inglesa|pinzas|alicates?|mult[ií]metro|taladro|martillo|cuchillo)"
)


@dataclass(frozen=True, slots=True)
class Act:
    """An act, as it ends the sentence "tells the owner to ...", and the words that tell it in each language."""

    name: str
    en: str
    es: str
    running_only: bool = False


ACTS: tuple[Act, ...] = (
    Act(
        "remove a panel",
        r"\b(remove|take|pull|pop|pry|lift|open|unscrew|undo|detach|slide)\b.*"
        r"\b(panel|toe ?-?kick|kick ?-?plate|toe ?-?plate|back cover|access (cover|plate)|housing|outer case|casing)\b",
        r"\b(quit|saqu|retir|desmont|des(t)?ornill|abr|levant|desprend)\w*\b.*"
        r"\b(panel\w*|tapa (trasera|inferior|de atr[aá]s|de abajo)|z[oó]calo|carcasa|gabinete de la m[aá]quina)\b",
    ),
    Act(
        "undo a screw",
        r"\b(remove|take out|undo|loosen|unscrew|turn)\b.*\b(screws?|bolts?|nuts?)\b",
        r"\b(quit|saqu|afloj|des(t)?ornill|gir)\w*\b.*\b(tornillos?|tuercas?|pernos?)\b",
    ),
    Act(
        "use a tool",
        rf"\b(with|use|using|take|grab|get|insert)\b.*\b{_TOOL_EN}\b",
        rf"\b(con|us|utilic|tom|agarr|met)\w*\b.*\b{_TOOL_ES}\b",
    ),
    Act(
        "touch gas",
        r"\b(turn|open|close|shut|light|re-?light|adjust|check|clean|loosen|test)\b.*"
        r"\b(gas (valve|line|pipe|cock|supply|fitting)|pilot( light)?|orifices?|gas regulator)\b",
        r"\b(abr|cierr|gir|encend|enciend|prend|ajust|revis|limpi|afloj)\w*\b.*"
        r"\b((llave|v[aá]lvula|tuber[ií]a|l[ií]nea|paso|regulador) (de|del) gas|piloto|espreas?|orificios? de gas)\b",
    ),
    Act(
        "put a hand in a disposal",
        r"\b(put|reach|stick|insert|slide|push)\b.*\b(hands?|fingers?|arm|into|inside|in)\b.*\b(disposal|disposer|grinder)\b",
        r"\b(met|introduzc|pon|pong|insert)\w*\b.*\b(manos?|dedos?|brazo|dentro)\b.*\b(triturador\w*|disposal|moledor)\b",
    ),
    Act(
        "use chemicals",
        r"\b(drain (cleaners?|openers?|chemicals?)|bleach|chlorine|ammonia|lye|muriatic|acid|caustic|oven cleaner)\b",
        r"\b(destapaca[nñ]os|destapador qu[ií]mico|limpiador de (drenajes?|ca[nñ]er[ií]as?)|qu[ií]micos?|cloro|lej[ií]a|"
        r"blanqueador|amon[ií]ac[oa]|sosa|[aá]cidos?)\b",
    ),
    Act(
        "move the machine",
        r"\b(pull|slide|drag|roll|tip|tilt|move|push|walk|lift)\b( (it|out|away|forward|back))*"
        rf"( (the|your|a|whole|entire))* {_MACHINE_EN}\b"
        rf"(?! (door|rack|drawer|filter|basket|handle|dial|knob|button|latch|tub))",
        r"\b(jal|saqu|arrastr|desliz|muev|inclin|empuj|levant|corr[ae])\w*( (hacia afuera|fuera))?"
        rf"( (la|el|su|toda|todo))* {_MACHINE_ES}\b",
    ),
    Act(
        "take a hose off",
        r"\b(take|remove|disconnect|loosen|unscrew|undo|detach|pull)\b.*"
        r"\b(hoses?|clamps?|fittings?|drain line|water line|supply line)\b",
        r"\b(quit|desconect|afloj|des(t)?ornill|saqu|retir|zaf)\w*\b.*"
        r"\b(mangueras?|abrazaderas?|tuber[ií]as?|l[ií]nea de agua)\b",
    ),
    Act(
        "touch wiring",
        r"\b(touch|cut|splice|disconnect|re-?connect|strip|test|measure|check|tighten|pull)\b.*"
        r"\b(wires?|wiring|terminals?|capacitors?|fuses?|control board|circuit board|heating element|voltage)\b",
        r"\b(toqu|cort|empalm|desconect|pel|prob|prueb|mid|revis|apriet|jal)\w*\b.*"
        r"\b(alambres?|cableado|cables? (el[eé]ctricos?|internos?|de adentro)|terminal(es)?|capacitor(es)?|fusibles?|tarjeta|"
        r"voltaje|resistencia)\b",
    ),
    Act(
        "defeat a door or lid switch",
        r"\b(tape|bypass|trick|defeat|jumper|override|jam|wedge|hold|press|push)\b.*"
        r"\b((door|lid) (switch|sensor|interlock)|safety switch|latch switch|interlock)\b",
        r"\b(puente|trab|enga[nñ]|presion|oprim|peg|atasc|anul|salt)\w*\b.*"
        r"\b((interruptor|switch|sensor|seguro) (de|del) (la )?(puerta|tapa)|interruptor de seguridad)\b",
    ),
    Act(
        "force something stiff",
        r"\b(force|crank|wrench)\b.*\b(valve|knob|handle|door|latch|lid|drawer|it)\b",
        r"\b(fuerce|force|forc[eé])\b.*\b(llave|v[aá]lvula|perilla|manija|puerta|tapa|caj[oó]n|la|lo)\b",
    ),
    Act(
        "chip or heat ice",
        r"\b(chip|chisel|scrape|stab|pick|hack|break)\b.*\b(ice|frost)\b|\b(hair ?dryer|heat gun|blow ?torch|boiling water)\b",
        r"\b(pic|pique|rasp|rompa|quiebr|golpe)\w*\b.*\b(hielo|escarcha)\b"
        r"|\b(secador\w* de (pelo|cabello)|pistola de calor|soplete|agua hirviendo)\b",
    ),
    Act(
        "run a self-clean cycle",
        r"\b(run|start|use|try|do|set)\b.*\bself-? ?clean(ing)?\b",
        r"\b(corr|inici|us|ponga|pon|prueb|hag|activ)\w*\b.*\b(auto-? ?limpieza|limpieza autom[aá]tica)\b",
    ),
    Act(
        "run a dryer unvented",
        r"\b(run|start|use|try)\b.*\b(without (the|a|its) (vent|duct|hose)|unvented|with the (vent|duct) (off|disconnected))\b",
        r"\b(us|prend|corr|prueb|encien)\w*\b.*\bsin (el|la|su) (ducto|tubo|manguera|ventilaci[oó]n)\b",
    ),
    Act(
        "reset a breaker again",
        r"\b(reset|flip|switch|turn|push|press)\b.*\b(again|twice|a second time|until it|keep)\b.*\b(breaker|reset|holds)\b"
        r"|\b(reset|flip|push|press)\b.*\b(breaker|reset)\b.*\b(again|twice|a second time|until)\b"
        r"|\bkeep (resetting|flipping)\b",
        r"\b(reinici|restablezc|suba|vuelva a (subir|oprimir|reiniciar)|apriet|oprim)\w*\b.*"
        r"\b(breaker|interruptor|pastilla|bot[oó]n)\b.*\b(otra vez|de nuevo|dos veces|hasta que)\b",
    ),
    Act(
        "open sealed refrigerant",
        r"\b(tap|pierce|open|recharge|refill|add|top up|vent|release)\b.*\b(refrigerant|freon|sealed system|coolant)\b",
        r"\b(perfor|abr|recarg|rellen|agreg|ech|suelt)\w*\b.*\b(refrigerante|fre[oó]n|sistema sellado)\b",
    ),
    Act(
        "use an extension cord",
        r"\b(use|plug|try|run)\b.*\b(extension cords?|power strips?)\b",
        r"\b(us|conect|enchuf|prueb)\w*\b.*\b(extensi[oó]n|regleta|multicontacto)\b",
    ),
    Act(
        "turn up the water heater",
        r"\b(raise|turn up|increase|set|adjust)\b.*\b(water heater|heater setting|hot water (setting|temperature))\b",
        r"\b(sub[ae]|aument|ajust|pong)\w*\b.*\b(calentador( de agua)?|boiler|temperatura del agua)\b",
    ),
    Act(
        "look underneath a running machine",
        rf"\b(under(neath)?|beneath)\b( (the|your|it))*( {_MACHINE_EN})?(?! (the )?(sink|counter))",
        rf"\b(debajo|abajo) (de|del)( (la|el|su))? {_MACHINE_ES}\b",
        running_only=True,
    ),
)

_SENTENCE = re.compile(r"[.;:!?\n]+|,?\s+\b(?:but|then|pero|luego|después)\b", re.I)
_JOINT = re.compile(r",\s*(?:and\s+|y\s+)?|\s+(?:and|y|e)\s+", re.I)
_CONDITION = re.compile(r"\b(?:if|when|unless|si|cuando)\b[^,]*", re.I)
_DENIAL = {
    "en": re.compile(r"\b(do not|don['’]?t|never|not|nobody|no one|without|no|leave|avoid|can['’]?t|cannot)\b", re.I),
    "es": re.compile(r"\b(no|nunca|jamás|nadie|ni|sin|evite|deje)\b", re.I),
}
_DENIAL_WITHIN = {
    "en": re.compile(r"\b(do not|don['’]?t|never|nobody|no one)\b", re.I),
    "es": re.compile(r"\b(no|nunca|jamás|nadie)\b", re.I),
}
_TOLD = {language: [(act, re.compile(getattr(act, language), re.I)) for act in ACTS] for language in ("en", "es")}
_ANY = {
    language: re.compile(r"\b(?:" + "|".join(getattr(act, language) for act in ACTS) + ")") for language in ("en", "es")
}
"""All acts at once, in small letters: each begins with a word, so that most places of a text are passed at a glance."""


@lru_cache(maxsize=8192)
def forbidden_act(text: str, language: str, *, running: bool = False) -> str | None:
    """The first forbidden act that *text* tells its reader to do, or None; *running*: the machine runs meanwhile."""
    if not _ANY[language].search(text.lower()):  # as in nearly every text
        return None
    named = [(act, words) for act, words in _TOLD[language] if words.search(text)]
    for clause in _clauses(text, [words for _, words in named]):
        for act, words in named:
            if (running or not act.running_only) and _is_told(words, clause, language):
                return act.name
    return None


def _is_told(words: re.Pattern[str], clause: str, language: str) -> bool:
    match = words.search(clause)
    if not match:
        return False
    before = _CONDITION.sub("", clause[: match.start()])
    return not (_DENIAL[language].search(before) or _DENIAL_WITHIN[language].search(match.group()))


def _clauses(text: str, named: Sequence[re.Pattern[str]]) -> list[str]:
    """
    *text* in clauses that a denial holds for: a comma or "and" begins one where one of the acts *named* in it follows at
    once; "or" does not.
    """
    clauses: list[str] = []
    for sentence in _SENTENCE.split(text):
        start = 0
        for joint in _JOINT.finditer(sentence):
            rest = sentence[joint.end() :]
            if any(words.match(rest) for words in named):
                clauses.append(sentence[start : joint.start()])
                start = joint.end()
        clauses.append(sentence[start:])
    return clauses
