"""Who: a name that is introduced, signed, alone in the text, or the answer to the question for it."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection

from service.reading.details import signing
from service.reading.details.taking import name_in_small
from service.reading.words.letters import has_digit

_NAME_INTRO = re.compile(
    r"\b(?:(?:soy|i'?m|this is) (?:su|la|el|his|her|the) (?:hij[oa]|espos[oa]|niet[oa]|herman[oa]|sobrin[oa]|nuera|yerno|"
    r"inquilin[oa]|vecin[oa]|son|daughter|wife|husband|tenant|renter|sister|brother|landlord|manager|neighbor|"
    r"caregiver)(?: de \w+)?,?|"
    r"my name is|my name's|my name(?! is|'s| on)|name is(?<!on it is)(?: under)?|me yamo|se yama|"
    r"i (?:just |usually )?go by|^go by|calls? me|me dicen|digame|dar mi nombre:?|"
    r"name's|the name is|(?:this is|it'?s|soy) (?:still|just|again|otra vez|yo)|"
    r"aqui(?: es| esta| le (?:habla|escribe))?(?=\s+(?:la|el) (?:senora|senor|srta|sra|sr|dona|don)\b)|"
    r"mi nombre es|me llamo|se llama|this is|it's|its|it is|i am|"
    r"i'm|im|soy|les? (?:habla|escribe|saluda)|habla|a nombre de|in the name of|"
    r"(?:(?:put|book|schedule) (?:it|me|that|us)|its|it's|it is) under|^under)\s+"
    r"(?:(?:(?:la|el)\s+)?(?:senora|senor|srta|sra|sr|mrs|mr|ms|dona|don|dra?|lic|ing)\b\.?\s+)?"
)
_TITLE = re.compile(r"\b(?:senora|senor|srta|sra|sr|mrs|mr|ms|dona|don|dr)\b")
_NAME = re.compile(r"[^\W\d_][\w'’\-]*\.?(?: [^\W\d_][\w'’\-]*\.?){0,2}")
_FULL_NAME = re.compile(r"[A-Z][a-zà-ÿ'’]+ [A-Z][a-zà-ÿ'’]+(?:[,.;!]|$| from | y | and | with )")
_LONE_NAME = re.compile(  # no "Wrong Dave" and no "Albuquerque NM"
    r"(?!(?:Wrong|Same|Not?|Yes) |.*[a-z] [A-Z]{2}$)[A-ZÁÉÍÓÚÑ][^\W\d_]+(?: [A-ZÁÉÍÓÚÑ]\.?)?(?: [A-ZÁÉÍÓÚÑ][^\W\d_]+){1,2}"
)

_OF_A_BRAND = re.compile(r"\b(?:brand|make|maker|marca)\b[^.!?\n]*$")
_SURE_INTRO = ("name", "nombre", "under", "llamo", "yamo", "habla", "escribe", "go by")
_NO_PERSON = ("name on ", "no ", "not ")
_OF_A_THIRD = ("se llama", "se yama")
"""Said of the customer only where the name was asked for."""
_OF_ANOTHER = ("his ", "her ", "their ", "landlords ", "landlord's ", "tenants ", "tenant's ", "owners ", "owner's ")
"""Before "name is": whose name it is, when the customer's was not asked for."""
_OF_ITS = re.compile(
    r"\b(?!my\b)(?:\w+(?:'s|’s)|(?:son|daughter|wife|husband|mom|dad|dog|cat|kid|brother|sister|neighbor)s) $"
)
"""“my cat's” before "name is"."""
_ROLES = frozenset((
    "realtor", "broker", "mgmt", "mgr", "manager", "management", "maintenance", "maint", "landlord", "landlady", "owner",
    "tenant", "customer", "office", "pm", "super", "neighbor", "renter", "nurse", "casero", "casera", "dueno", "duena",
))  # fmt: skip
_GREETINGS = frozenset((
    "", "hi", "hello", "hey", "hola", "good morning", "good afternoon", "good evening", "buenas", "buenos dias",
    "buenas tardes", "hi there", "hello there", "buenas noches", "que tal", "hola buenas", "hola buenas tardes", "oiga",
))  # fmt: skip

_LEADS = re.compile(
    r"^(?:(?:uh|um|it'?s|its|it is|that'?s|sure|yes|yeah|yep|ok|okay|hi|hello|hola|si|claro|es|soy|a|por|para|for|under|"
    r"ask for|pregunte por|con|this is|me llamo|im|i'?m|my name is|name is|(?:just )?put|ponga|pongalo|(?:a|al)? ?nombre de|"
    r"(?:(?:la|el) )?(?:senora|senor|srta|sra|sr|mrs|mr|ms|dona))\b[,.:\s]*)+"
)
_TRAILS = re.compile(
    r"[\s,.!]*(?:\b(?:p(?:ar)?a servirles?|a (?:su|sus|la) ordenes|a la orden|su servidora?|please|pls|thanks|thank you|"
    r"thx|por favor|gracias|here|aqui)\b[\s,.!]*)*$"
)
_PIECES = re.compile(r"[^.,;!\n]+")
_CAPITALS = re.compile(r"[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+ [A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+(?= (?:like|as|with|con|como)\b)")
"""“Ramona Burns like the thing on a stove”: a whole name, then how it is spelled."""
MOST_BEFORE_NAME = 12
"""Signs that may stand before the piece of an answer that is the name: “Fuego. Marisela Fuego, con F”."""
_PARTICLES = frozenset(("de", "del", "la", "los", "las", "van", "von", "da", "y"))
_LONGEST = 6
"""Words of a name with its particles: “maria de la luz arredondo”."""
_CUT = re.compile(
    r"\s+(?:(?:[A-Za-z]\s+){2,}[A-Za-z]\b|(?:and|y|but|pero|or|o)\s+(?:my|mi|the|put|ponga|i|la|el|it|its|it's|su|this|vivo|no|im|i'm|not|"
    r"shes|he|she|estoy)\b|my\s|mi\s|ella\s|she\s|its\s|i live\b|\(?\d{3}).*",
    re.DOTALL,
)
"""What follows the name in an answer: letters that spell it, another matter."""
_STOP_NAME = frozenset((
    "and", "y", "de", "from", "with", "at", "in", "the", "la", "el", "my", "mi", "on", "for", "again", "here",
    "calling", "texting", "with", "con", "from", "del", "al", "su", "about", "calling", "comma", "i", "im", "we", "no", "not",
    "ingles", "espanol", "english", "spanish", "bs", "bull", "crap", "wtf", "ridiculous", "nuts", "insane",
))  # fmt: skip
_GOES_ON = re.compile(
    r"\s*(?:[,.;!:\n]|$|(?:and|y|here|from|with|w|w/|at|in|on|again|calling|texting|about|re|btw|aqui|otra|de|con|en|apt|"
    r"unit|space|depto|lot)\b)"
)
"""What may follow a name that is a word as well: “this is rose, my dryer …”, and not “its rose gold”."""
_ENDS = re.compile(r"\s*(?:btw|here|again)?\s*[.!]*\s*$")
"""What may follow a name with which a text closes: “… out too. its delia btw”."""
_TRADE = re.compile(r"(?:ist[ao]|er[oa]|or|ora|it[oa]|achi|ante|ent[ae]|an[oa]|log[oa]|tri[zx])$")
"""How words end that tell what somebody does or how they are: “soy guitarrista”."""


class Namer:
    """
    Finds names. ``is_word`` tells everyday and trade words and their slips, ``knows`` the words alone; *given* are
    first names, some of which are words too, *family* words that are family names behind a first one.
    """

    def __init__(
        self,
        is_word: Callable[[str], bool],
        knows: Callable[[str], bool],
        everyday: Collection[str],
        given: Collection[str],
        family: Collection[str],
    ) -> None:
        self._is_word, self._knows, self._everyday = is_word, knows, everyday
        self._given, self._family = given, family

    def taken_by(self, text: str, folded: str) -> str | None:
        """The name beside a window that is taken: a whole one, one with an initial, or a first name known as one."""
        told = signing.TAKEN_BY.search(text)
        name = told.group("name") if told else ""
        known = name.lower() in self._given and not self._knows(name.lower())
        sure = " " in name or known or (told is not None and told.group("lead"))
        if sure and self._may_sign(name):
            return name
        return name_in_small(text, folded, self._is_word, self._everyday, self._given, self._family)

    def name(self, text: str, folded: str, *, asked: bool, only_sure: bool = False) -> str | None:
        """
        The customer's name. Words are none unless plainly introduced, known as first names or written with a capital.

        *only_sure*: none but one introduced as a name ("under Lupe"), or two or three words with capitals that are all of
        the text.
        """
        introduced = self._introduced(text, folded, asked=asked, only_sure=only_sure)
        if introduced:
            return introduced
        lone = self.lone(text)
        if lone or only_sure:
            return lone or self._before_place(text)
        signed = self._signed(text)
        if signed or not asked:
            return signed
        return None if signing.IS_A.match(folded) else self._told(text, folded)

    def _signed(self, text: str) -> str | None:
        """A name with which the text closes or opens."""
        told = signing.IS_THE_NAME.search(text)
        if told and not self._knows(told.group(1).split()[0].lower()):
            return told.group(1)
        signed = signing.SIGNED.search(text)
        if signed and (signing.TITLED.match(signed.group(1)) or not self._no_name(signed.group(1).split()[0].lower())):
            return signed.group(1)
        titled = signing.WITH_TITLE.search(text)
        if titled and self._first(titled.group(1).split()[0]):
            return titled.group(1)
        opened = signing.OPENED.match(text)
        if opened and self._may_sign(opened.group(1)):
            return opened.group(1)
        closed = signing.CLOSED.search(text)
        sure = closed and (closed.group("more") or " " in closed.group(1) or signing.TITLED.search(closed.group()))
        if closed and sure and self._may_sign(closed.group(1)):
            return closed.group(1)
        return self._beside_place(text)

    def _beside_place(self, text: str) -> str | None:
        """A name before a house number or a ZIP code, or whom to ask for: one word only where it is known as a first name."""
        for found in signing.BESIDE_PLACE.finditer(text) if has_digit(text) else ():
            first, *rest = (part.lower().strip(".") for part in found.group(1).split())
            whole = bool(rest) and self._may_sign(found.group(1))
            if whole or (first in self._given and all(part in self._family for part in rest)):
                return found.group(1)
        asked = signing.asked_for(text)
        return asked.group(1) if asked and self._may_sign(asked.group(1)) else None

    def _before_place(self, text: str) -> str | None:
        """A first name that opens a text with an address or a ZIP behind it: “Jasmine, 410 Cholla Bend”."""
        opened = signing.BESIDE_PLACE.match(text) if has_digit(text) else None
        told = opened.group(1) if opened else ""
        first = told.split()[0].lower() if told else ""
        return told if first in self._given and not self._knows(first) and self._may_sign(told) else None

    def _told(self, text: str, folded: str) -> str | None:
        """The name in an answer to the question for it."""
        whole = self._answer(text, folded)
        if whole:
            return whole
        capitals = _CAPITALS.match(text)
        if capitals and self._first(capitals.group().split()[0]):
            return capitals.group().strip()
        cut = _CUT.search(text)
        if cut and cut.start():
            told = self._answer(text[: cut.start()], folded[: cut.start()])
            if told:
                return told
        for piece in _PIECES.finditer(text):  # "Darlene Ortega. one more thing", "Bev Hanratty, the house is my moms"
            told = self._answer(piece.group(), folded[piece.start() : piece.end()])
            if told or piece.start() > MOST_BEFORE_NAME:
                return told
        return None

    def lone(self, text: str) -> str | None:
        """*text* if it is nothing but a name: two or three words with capitals, the last of them no word that one knows."""
        lone = _LONE_NAME.fullmatch(text.strip(" .,;!"))
        # A first name may be a word, as Dana is without its tilde.
        return lone.group() if lone and not self._knows(lone.group().split()[-1].lower()) else None

    def _may_sign(self, name: str) -> bool:
        """Whether no part of *name* is a word, but for first names that are."""
        first, *rest = (part.lower() for part in name.split())
        return (
            first not in _ROLES
            and not self._no_name(first)
            and not any(len(part.strip(".")) > 1 and self._knows(part) for part in rest)
        )

    def _no_name(self, form: str) -> bool:
        """Whether *form* is a word, or a slip of one, and no first name."""
        return form not in self._given and self._is_word(form)

    def _introduced(self, text: str, folded: str, *, asked: bool, only_sure: bool) -> str | None:
        for intro in _NAME_INTRO.finditer(folded):
            sure = any(word in intro.group() for word in _SURE_INTRO)
            before = folded[: intro.start()]
            if (
                (not asked and intro.group().startswith(_OF_A_THIRD))
                or before.endswith(_NO_PERSON)
                or ((only_sure or _OF_A_BRAND.search(before)) and not sure)
                or (not asked and (before.endswith(_OF_ANOTHER) or _OF_ITS.search(before)))
            ):
                continue
            named = sure and "under" not in intro.group()
            rest = text[intro.end() :]
            capital = rest[:1].isupper() and not text.isupper()
            name = self._taken(rest, slips=not capital and not named, sure=named or bool(_FULL_NAME.match(rest)))
            if name and (sure or name[0].isupper() or self._said_in_greeting(intro, folded, name)):
                return name
        return None

    def _said_in_greeting(self, intro: re.Match[str], folded: str, name: str) -> bool:
        """“hi its ana, …”: a name in small letters, told first of all."""
        if folded[: intro.start()].strip(" ,.!") not in _GREETINGS:
            ends = (
                _ENDS.match(folded, intro.end() + len(name)) is not None
                and folded[: intro.start()].rstrip()[-1:] in ".,!\n"
            )
            return ends and name.lower() in self._given and not self._knows(name.lower())
        apart = _GOES_ON.match(folded, intro.end() + len(name)) is not None
        first = name.split()[0].lower()
        if first in self._given:
            return apart or " " in name or not self._is_word(first)
        titled = _TITLE.search(intro.group()) is not None
        if not titled and intro.group().startswith("soy") and _TRADE.search(first) and first not in self._family:
            return False
        if titled or intro.group().startswith(("this is", "soy")):
            return True
        return apart and intro.group().startswith(("its", "it's"))

    def _taken(self, rest: str, *, slips: bool, sure: bool) -> str | None:
        """The name that *rest* begins with. slips: what looks like a slip of a word is one."""
        match = _NAME.match(rest)
        if not match:
            return None
        kept: list[str] = []
        for position, word in enumerate(match.group().split()):
            bare = word.strip(".,!?").lower()
            known = self._is_word(bare) if slips else self._knows(bare)
            is_word = known and bare not in self._given
            if bare in _STOP_NAME or (
                is_word and not (sure and position == 0 and word[0].isupper()) and not (kept and word[0].isupper())
            ):
                break
            kept.append(word.rstrip(".,!?") if len(word) > 2 else word)
            if word[-1] in ".,!?;" and len(word) > 2:
                break
        return " ".join(kept) if kept and len(kept[0]) > 1 else None

    def _answer(self, text: str, folded: str) -> str | None:
        """The name in the answer to the question for it: all that is left when what leads up to it is taken away."""
        whom = signing.FOR_WHOM.search(folded)
        begins = whom.end() if whom else 0
        leads = _LEADS.match(folded[begins:])
        begins += leads.end() if leads else 0
        trails = _TRAILS.search(text)
        said = text[begins : trails.start() if trails else len(text)].strip(" ,.!")
        if leads and not self._first(said.split(" ")[0]):  # "a", "si" and "por" may also be part of a name
            said = said or text.strip(" ,.!")
        words = said.split()
        if not 1 <= len(words) <= _LONGEST or not all(_NAME.fullmatch(word) for word in words):
            return None
        if not self._first(words[0]):
            return None
        kept = [words[0]]
        for place, word in enumerate(words[1:], start=1):
            if (word.lower() in _PARTICLES and place + 1 < len(words)) or self._surname(word):
                kept.append(word)
            else:
                return None if len(words) > 2 else words[0] if words[0].lower() in self._given else None
        return " ".join(word.strip(",.!") for word in kept)

    def _first(self, word: str) -> bool:
        """Whether *word* may be a first name: known as one, no word at all, or with a capital and no everyday one."""
        bare = word.strip(",.!").lower()
        if len(bare) < 2 or bare in _STOP_NAME:
            return False
        return bare in self._given or not self._knows(bare) or (word[0].isupper() and bare not in self._everyday)

    def _surname(self, word: str) -> bool:
        bare = word.strip(",.!").lower()
        return bare in self._family or self._first(word) or (word[0].isupper() and bare not in _STOP_NAME)
