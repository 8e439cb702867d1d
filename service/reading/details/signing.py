"""Where a name stands that nothing introduces: at the end or the start of a text, behind a title, beside an address."""

from __future__ import annotations

import re

from service.reading.words.letters import has_any

_NAME = r"[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+(?: [A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+)?"
_TITLES = (
    r"(?:Prof|Dr|Dra|Lic|Ing|Mr|Mrs|Ms|Miss|Sr|Sra|Srta|Do[nñ]a|Don|Sgt|Cpl|Capt|Lt|Notari[oa]|Licenciad[oa]|Doctora?|"
    r"Maestr[oa]|Profesora?|Ingenier[oa]|Contadora?|Mtro|Mtra|Arq|Rev|Pastora?|Father|Padre|Sister|Hermana|Profe|Deacon|"
    r"Coach|Nurse|Se[nñ]ora?)"
)
SIGNED = re.compile(
    r"(?:[-–—~]\s*|[.!?,\n]\s*(?=(?:Mr|Mrs|Ms|Miss|Sr|Sra)\b)|(?:thanks|thank you|thx|gracias|saludos|"
    r"regards|(?<=[.!?,\n] )(?:Thanks|Thank you|Thx|Gracias|Saludos|Regards|Sincerely))(?: so much| kindly| very much|"
    r" a lot| again| in advance| mil)?"
    r"[,!.]*\s+)((?:(?:Mr|Mrs|Ms|Miss|Sr|Sra)\.? )?[A-Z][a-zà-ÿ'’]+(?: "
    r"[A-Z][a-zà-ÿ'’]+)?)\s*[.!]*\s*$"
)
IS_THE_NAME = re.compile(
    r"(?:^|[.,;!\n]\s*)([A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+(?: [A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+)?) (?:is|es) (?:the|my|mi|el) (?:name|nombre)\b"
)
"""“Harlan is the name”."""
WITH_TITLE = re.compile(
    rf"(?:^|[.!?,\n]\s*){_TITLES}\.? ([A-ZÁÉÍÓÚÑ][a-zà-ÿ]+(?: [A-ZÁÉÍÓÚÑ][a-zà-ÿ]+)?(?: [A-ZÁÉÍÓÚÑ]\.)?)"
    r"(?=['’]s,|\s*(?:[.,;:\n]|$| here| at (?!the)| (?:de|del|from|con|with|over) |(?<=\.)))"
)
"""“Buenas noches, Ing. Baltazar Ruelas.”, “Mrs Quintero at 77 …”."""
OPENED = re.compile(
    r"^\W*(?:(?:[Hh]i|[Hh]ey|[Hh]ello|[Hh]ola|[Gg]ood (?:morning|afternoon|evening)|[Bb]uen[oa]s(?: d[ií]as| tardes)?)[,!. ]+)?"
    rf"({_NAME}),? (?:here|again|otra vez|aqu[ií]|with [A-Z]|from [A-Z]|at [A-Z]|de [A-Z])"
)
"""“Jaylen again.”, “Hi, Corinne with Mesa Alta Apartments”."""
CLOSED = re.compile(
    r"[.!?\n]\s*(?:[Aa]tte\.?,?\s*)?(?:(?:Prof|Dr|Dra|Lic|Ing|Mr|Mrs|Ms|Miss|Sr|Sra)\.? )?"
    rf"({_NAME}(?P<initial> [A-Z](?=\.?\s*$))?)"
    r"(?P<more>,?\s+(?:\d{5}\b|\(?\d{3}\)?[-. ]*\d{3}[-. ]*\d{4}))?\s*[.!]*\s*$"
)
"""A name that closes the text, a ZIP or a number behind it: “… do not laugh. Walter Pruhs, 87111.”, “Odalys P.”."""
_RELATIVE = (
    r"(?:mom|mother|dad|father|wife|husband|son|daughter|sister|brother|grandma|grandmother|grandpa|grandfather|aunt|uncle|"
    r"cousin|tenant|renter|landlord|landlady|roommate|partner|boyfriend|girlfriend|fiancee?|boss|neighbor|client|"
    r"(?:mother|father|sister|brother|son|daughter) in law|mama|papa|esposa|esposo|marido|mujer|hij[oa]|herman[oa]|"
    r"abuel[oa]|ti[oa]|suegr[oa]|cunad[oa]|prim[oa]|inquilin[oa]|duen[oa]|caser[oa]|patron[a]?|vecin[oa]|novi[oa])"
)
FOR_WHOM = re.compile(
    rf"\b(?:my|our|his|her|mi|nuestr[oa]|la|el)\s+{_RELATIVE}(?:'?s)?\b"
    r"(?:\s+(?:name|house|nombre))?(?:\s+(?:is|es|se llama|named|called)\b)?[\s,:]+"
)
"""“its for my mom, …”, “put it in my husbands name, …”: a name that follows is the one to ask for."""
TAKEN_BY = re.compile(
    r"[.!?,;\n]\s*(?P<lead>(?:[Ii]'?m|[Ii]t'?s|[Tt]his is|[Ss]oy|[Ee]s|"
    r"(?:(?:[Ii]t'?s|[Pp]ut (?:it|me)|[Bb]ook (?:it|me)) )?[Uu]nder(?: the name(?: of)?)?)\s+)?"
    rf"(?P<name>{_NAME}(?P<initial> [A-Z](?=\.?\s*$))?)\s*[.!]*\s*$"
)
"""Who takes a window, told behind it: “ok 10 to noon. Priya N.”, “the first one, im Deshawn”."""
TITLED = re.compile(r"\b(?:Atte|Prof|Dr|Dra|Lic|Ing|Mr|Mrs|Ms|Miss|Sr|Sra)\b\.?,? ")
BESIDE_PLACE = re.compile(
    r"(?:^|(?<!St)[.!?;,\n]\s*|\b(?:[Hh]i|[Hh]ey|[Hh]ello|[Hh]ola|[Bb]uen[oa]s)[,!]? )"
    r"([A-ZÁÉÍÓÚÑ][a-zà-ÿ'’\-]+(?: [A-ZÁÉÍÓÚÑ]\.?)?(?: [A-ZÁÉÍÓÚÑ][a-zà-ÿ'’\-]+){0,2})"
    r"(?:,| at| de| en|[.:;]| -)\s+(?:(?:el|la|zip|zip ?code|c[oó]digo postal|cp)\s+)?(?=\d{5}\b|\d{1,5} [A-Z\d]|calle\b)"
)
"""Before a house number or a ZIP: “Hi, Ruth Amaya, 2210 Calle Sombra”, “Rosaura Chávez, codigo postal 87112”."""
ASK_FOR = re.compile(
    r"(?:^|[.!?;,\n]\s*)(?:[Aa]sk for|[Pp]regunt\w{1,3} por|[Bb]us(?:can|quen?) a) ([A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+)\s*(?:[.!]|$)"
)
"""“Ask for Bernadette.”"""
FAMILY = re.compile(
    r"\b(?:(?:[Tt]his is|[Ii]t'?s|[Ww]e(?:'re| are)|[Ff]rom) the (?=[A-Z]\w+s\b)|[Ss]omos (?:los|la familia) |[Ff]amilia |"
    r"(?:^|[.,!] ?|[Bb]uenas |[Hh]ola )[Aa]qu[ií] (?=\w+ ?[,.]))"
    r"([A-ZÁÉÍÓÚÑ][a-zà-ÿ]{3,})\b"
)
"""“its the Hendersons”, “somos la familia Luján”."""
IS_A = re.compile(r"\W*(?:(?:oh|ah|btw|actually|sorry|perdon|ay)\b[,. ]*)*(?:it'?s|it is|es) (?:an?|una?)\b")
"""“oh its a …”, “es una …”: what a machine is, and nobody's name."""
_WHOM = ("sk for", "por ", "usca", "usque")
_FAMILIES = ("amilia", "omos los", "qui ", "quí ")
_THE_NAME = re.compile(r"the [A-Z]")


def asked_for(text: str) -> re.Match[str] | None:
    """Whom *text* tells to ask for, or the family that writes."""
    told = ASK_FOR.search(text) if has_any(text, _WHOM) else None
    return told or (FAMILY.search(text) if has_any(text, _FAMILIES) or _THE_NAME.search(text) else None)
