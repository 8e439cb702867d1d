"""Alarms that want a battery, were tested, or are only named: no smoke and no carbon monoxide."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.alarm_cells import ALARMS, FELT, READS, RINGS, STILL, goes_on, wants_a_battery
from service.reading.dangers.other_sources import names_a_machine, of_the_kitchen
from service.reading.dangers.source_words import ALARM, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_SOUNDS = listed("""
    go goes going went gone off set sets setting tripped trips screaming scream screams blaring blares beeping beep
    beeps ring rings ringing rang sounding sounds sounded shrieking wailing crazy nuts loud stop quit triggered alert
    started sings sing singing howling screeching shut beeped chirped nonstop calla callo deja suena sono suenan sonando
    suene sonar pita pitando pito chilla chillando activo activa disparo dispara disparada grita gritando escandalo loca
    loco para parar prendio brinco salto fan fanned fanning wave waved waving flapped flapping abanico abanicar
    abanicando abanicamos
""")


_BATTERY = listed("""
    battery batteries chirp chirps chirping chirped test tested testing tests install installed expired replace replaced
    hush hushed sell mount hang hardwired yellowed ceiling ladder pila pilas bateria baterias probo probe probamos
    probando prueba pruebas instalar instalan venden caduco vencido cambiar
""")


_ALARM_REACH = 12


def alarm_without_smoke(hit: Hit, words: Sequence[Word]) -> bool:
    """“the smoke alarm wants a battery”, “we tested it”, “it only sings when I burn the bread”; also where it only is named."""
    if hit.payload.code == "carbon_monoxide" or not is_alarm(hit, words):
        return False
    first, last = sentence_of(hit, words, _ALARM_REACH)
    around = words[first:last]
    breath = next((at for at in range(hit.end, last) if words[at].brk), last)
    if _names_one(words, max(first, hit.start - 6), breath):
        return False
    forms = {word.form for word in around}
    if forms & _FANNED:
        forms -= _WHERE  # “fan the ceiling alarm with a pizza box”
        around = [word for word in around if word.form not in _WHERE]
    if forms & _BATTERY and not (forms & _LOUD and any(goes_on(at, words) for at in range(first, last))):
        return True
    told = words[max(first, hit.start - 4) : last]
    if not any(word.form in _SOUNDS and (word.form != "para" or _ceases(at, told)) for at, word in enumerate(told)):
        return True
    nobody_cooks = any((a.form, b.form) in _NOT_COOKING for a, b in pairwise(around))
    return of_the_kitchen(around) and not forms & _NOT_THE_KITCHEN and not nobody_cooks


_FANNED = listed("fan fanned fanning wave waved waving flapped flapping abanicar abanicando")
_WHERE = listed("ceiling pizza")


def _ceases(at: int, words: Sequence[Word]) -> bool:
    """“no para”, “para de sonar”; not “para pintar”."""
    before = words[at - 1].form if at else ""
    return before in ("no", "ni", "nunca") or any(word.form == "de" for word in words[at + 1 : at + 2])


_LOUD = listed("""
    screaming screamed blaring wailing shrieking howling nonstop hush hushed sonando sonar paraba pararon grita gritando
    escandalo
""")
_GOES = listed("go goes going went gone set sets setting")


_WONT = listed("wont doesnt wouldnt cant")
_CHIRPS = listed("chirp chirps chirping battery")


def sounds_in_earnest(words: Sequence[Word]) -> bool:
    """
    Whether an alarm is told to have gone off, or to show a number: “went off”, “reads 70”, “suena y suena”, “won't be quiet”.

    Then no battery, button or quiet of it since is the end of the matter: people take the battery out of one that is right.
    """
    for at, word in enumerate(words):
        after = words[at + 1 : at + 4]
        if word.form in _LOUD or _goes_off(at, words):
            return True
        if word.form in READS and any(w.form.isdigit() and w.form.strip("0") for w in after[:2]):
            return True
        if (
            word.form in _WONT
            and any(w.form in _HUSHED for w in after[:1])
            and not any(w.form in _CHIRPS for w in after)
        ):
            return True
        if word.form in _UNBROKEN and any(w.form.startswith(RINGS) for w in words[max(0, at - 4) : at + 4]):
            return not any(w.form in _NEVER for w in words[max(0, at - 3) : at])
        if word.form in ("suena", "no") and {w.form for w in after[:2]} & {"y", "para", "calla"}:
            return True
    return False


_UNBROKEN = listed("""
    seguido seguidito constante constantemente continuo corrido nonstop constant constantly continuous continuously steady
    steadily solid straight
""")
"""An alarm that sounds without a pause wants no battery."""


def _goes_off(at: int, words: Sequence[Word]) -> bool:
    """“went off”; not “never went off”, nor “goes off when I push the button”."""
    if words[at].form not in _GOES or not any(w.form == "off" for w in words[at + 1 : at + 2]):
        return False
    if any(w.form in _NEVER for w in words[max(0, at - 2) : at]):
        return False
    behind = words[at + 2 : at + 6]
    return not (any(w.form in ("when", "if") for w in behind[:1]) and any(w.form in _TRIES for w in behind))


def alarm_only_named(hit: Hit, words: Sequence[Word]) -> bool:
    """“the carbon monoxide detector came with the house and I never heard it”: told of nothing it did."""
    if hit.payload.code != "carbon_monoxide" or (sounds_in_earnest(words) and not _tried_and_right(words)):
        return False
    if wants_a_battery(words) or _tried(words):
        return True
    if len(words) < _WORDS_TO_NAME or not _near_alarm(hit, words):
        return False
    first, last = sentence_of(hit, words, len(words))
    if names_a_machine(words[first:last]):
        return False
    return not any(
        word.form in _SOUNDS
        or word.form in FELT
        or word.form in listed("not isnt wasnt")
        or word.form in READS
        or word.form.isdigit()
        for word in words
    )


_WORDS_TO_NAME = 8


_TRIES = listed(
    "tested test press pressed pushed push probe probamos apreto aprete picamos pique prueba pruebas oprimi"
)
_AS_IT_SHOULD = listed("should supposed works working sirve bueno buena debe good bien")
_BUTTONS = listed("button boton botoncito")


_UNENDING = listed("wont nonstop again sola solo itself shut")


def _tried(words: Sequence[Word]) -> bool:
    """“la alarma de monóxido la probé con el botón y sí suena”."""
    forms = {word.form for word in words}
    return bool(forms & _TRIES and forms & _BUTTONS) and not forms & (STILL | FELT | _UNENDING)


def _tried_and_right(words: Sequence[Word]) -> bool:
    """“pressed the test button on the co detector and it screamed like it should”; not “… and it won't stop”."""
    forms = {word.form for word in words}
    return _tried(words) and bool(forms & _AS_IT_SHOULD) and not forms & (_HUSHED | listed("off not"))


def _near_alarm(hit: Hit, words: Sequence[Word]) -> bool:
    return any(word.form in ALARMS for word in words[max(0, hit.start - 2) : hit.end + 1])


def _names_one(words: Sequence[Word], first: int, last: int) -> bool:
    """Whether a machine is named, and not to say that it was another thing: “not the oven lol”."""
    return any(
        names_a_machine(words[at : at + 1])
        and words[at].form not in _BUTTONS
        and not any(w.form in _NOT_IT for w in words[max(first, at - 2) : at])
        for at in range(first, last)
    )


_NOT_IT = listed("not isnt wasnt no")


_NOT_COOKING = (
    ("not", "cooking"), ("not", "even"), ("no", "estamos"), ("no", "estaba"), ("no", "estoy"), ("no", "hay"),
)  # fmt: skip


_NOT_THE_KITCHEN = listed("nobody wasnt arent isnt werent nadie sin maybe think creo")


_SILENT = listed("quiet silent silence callada callado calladita silencio")
_NEVER = listed("never not hasnt havent didnt doesnt isnt wasnt wont cant cannot couldnt nunca no")


def alarm_silent(hit: Hit, words: Sequence[Word]) -> bool:
    """“co detector has been quiet”, “the carbon monoxide alarm never went off”; nobody told to feel ill."""
    if hit.payload.code != "carbon_monoxide" or any(word.form in FELT for word in words) or sounds_in_earnest(words):
        return False
    first, last = sentence_of(hit, words, _ALARM_REACH)
    if not any(word.form in ALARMS for word in words[first:last]):
        return False
    told = words[hit.end : last]
    if any(word.form in _SILENT for word in told[:6]):
        return not any(word.form in _NEVER for word in told[:6])
    never = next((at for at, word in enumerate(told) if word.form in _NEVER), None)
    if never is None:
        return False
    before = {word.form for word in told[:never]}
    after = [word.form for word in told[never + 1 : never + 4]]
    return not (before & _SOUNDS or _HUSHED & set(after)) and any(form in _SOUNDS for form in after)


_HUSHED = listed("stop stops stopped quits quit shut calla callo deja para parar")


def is_alarm(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether the smoke of *hit* is the name of an alarm."""
    if hit.payload.code not in ("smoke", "fire"):
        return False
    return any(word.form in ALARM for word in words[max(0, hit.start - 2) : hit.end + 1])
