"""What somebody must have smelled, seen or felt to tell of a danger, where only the words as a whole speak of one."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_SIGNS_OF = {
    "gas_smell": """
        smell smelt stink stank stunk reek stench odor whiff sniff nose egg rott sulf skunk hiss leak fume dizzy
        headache puff huel hule olor olia olio oli apest peste fuga huevo podrid silb chifl sisea tufo marea escape
        fart eyes ojos taste
    """,
    "carbon_monoxide": """
        alarm detector detecter monox carbon dizz heada pound throb split hurt sick naus puk vomit throw sleep drows
        faint tired wooz swimm lighthead confus pass beep hangover marea cabeza asco suen desmay pit mal flu
    """,
    "fire": """
        fire flam burn lit blaz smok glow torch scorch char orange flare tongue lumbr fueg quem llam incend prend ard
        chisp hot spark smother black anaranjad flicker
    """,
    "smoke": """
        smok puff cloud haz gray grey steam vapor fog alarm detector hum gris nube wisp fume burn cough black ahum
        negr bluish bbq thread roll rise ris white blanc
    """,
    "burning_smell": """
        smell smelt stink stank stunk reek odor whiff burn hot scorch melt rubber plastic electric toast singe smok
        fume solder huel olor olia quem chamus tatem tost ard achich caliente chicharr warm fri
    """,
    "hot_wiring": """
        hot warm heat melt burn brown black scorch char singe soft goo bubbl warp wav toast tan yellow discolor smell
        caliente calientit derret quem tost negr cafe chamus tatem ard amarill achich prieto aplast huele blandit
    """,
}
"""How the words begin that tell what is sensed of each danger."""

_BEGINNINGS = {code: tuple(listed.split()) for code, listed in _SIGNS_OF.items()}
_NONE = frozenset(["no", "not", "without", "never", "sin", "ni", "zero", "cero", "nor"])


def senses(code: str, words: Sequence[Word]) -> bool:
    """Whether *words* hold one that tells of the danger *code* as sensed: “no smell” does not."""
    beginnings = _BEGINNINGS.get(code)
    if beginnings is None:
        return True
    if code == "carbon_monoxide" and any(
        word.form == "co" and not (at and words[at - 1].form == "gas") for at, word in enumerate(words)
    ):
        return True
    return any(
        word.form.startswith(beginnings) and not (at and words[at - 1].form in _NONE) for at, word in enumerate(words)
    )
