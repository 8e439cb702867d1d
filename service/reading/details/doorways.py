"""More ways in than gates, keys and animals: who is there, doors that stick, steps, when people work."""

from __future__ import annotations

WHO_ELSE = (
    r"(?:wife|husband|hubby|daughter|son|mom|mother|dad|father|tenant|renter|resident|neighbor|sister|brother|nanny|maid|"
    r"sitter|roommate|grandma|grandpa|grandson|partner|manager|foreman|super|housekeeper|aunt|uncle|nephew|niece|cousin|"
    r"boyfriend|"
    r"girlfriend|in law|kid|teen|caretaker|aide|nurse)"
)
_COLOUR = (
    r"(?:blue|red|green|white|yellow|brown|black|gray|grey|pink|purple|orange|turquoise|teal|tan|adobe|brick|metal|wooden|"
    r"iron)"
)
_COLOR = r"(?:azul|roj[oa]|verde|blanc[oa]|amarill[oa]|cafe|negr[oa]|gris|rosa|morad[oa]|turquesa)"
_HOUSE_DOOR = (
    r"(?:de (?:atras|enfrente|adelante|afuera|la cochera|la cocina|la calle|la lavanderia|la sala|servicio|la yarda|un lado)|"
    r"del? (?:patio|frente|garage|lado|callejon|costado|porche)|principal|trasera)"
)
EN = (
    rf"\b{WHO_ELSE}s?(?: in law)?(?: [a-z]+)?,?(?: is| will be|'?s|'?ll be| thats| that's| whos| "
    r"who's)(?: gonna be| going to be| "
    r"will be)?\s+(?:the one )?(?:always |usually )?(?:home|there|here)\b(?=\s*(?:$|[.,;!]|all|not|to|but|til|until|"
    r"after|instead|she|he|by|most|every))",
    r"\b(?:she|he|they)(?:'?s|'?ll be|'?re| is| will be| are)\s+the ones? (?:home|there|here|"
    r"who(?:'?ll| will)? (?:open|let))\b",
    rf"\b(?:{WHO_ELSE}|she|he|they)(?:'?s| is| are)? home (?:mornings|afternoons|evenings|weekdays|days|nights)\b",
    r"\bhome (?:most|every|any|all) (?:mornings?|afternoons?|evenings?|days?|nights?|weekdays?)\b",
    rf"\b{WHO_ELSE} works (?:days|nights|til|until|mornings|weekends|late)\b[^.,;\n]*",
    rf"\b(?:{WHO_ELSE}|i|she|he) works? from home\b,? (?:so |and )?(?:any|come|whenever|just|knock|he |she |i |we |they |"
    rf"is here|always)"
    rf"[^.,;\n]*",
    rf"\b(?:use|thru|through|by|in front of|behind|knock|ring|at) (?:on )?(?:the )?{_COLOUR} (?:gate|front door|side door|"
    rf"screen door|door)\b",
    r"\b(?:big |steep |few |two |three |four |2 |3 |4 )+(?:steps?|stairs)(?: up| down| to| at)?\b[^.;\n]{0,20}",
    r"\b(?:holler|yell|shout|whistle) (?:over|at|for|from|up|out|when|if|into)\b[^.,;\n]*",
    r"\buse the (?:second|first|other|far|west|east|north|south|left|right|lower|upper|dirt|gravel) (?:drive(?:way)?|gate|"
    r"entrance|entry|lot|stairs|road)\b[^.,;\n]*",
    r"\b(?:front|other|main|screen) (?:door|one|gate|entrance) (?:is |does(?:nt| not) |wont |dont )?(?:stuck|blocked|jammed|"
    r"nailed|painted|open from|work)\b(?! (?:on|of) the)",
)
ES = (
    rf"\bpuerta {_HOUSE_DOOR} (?:esta|estara|queda|va a estar|la dejo|se queda) (?:abierta|sin (?:llave|seguro|candado)|"
    r"emparejada)\b",
    r"\b(?:peguen?le|golpeen?)\s+(?:en |a )?(?:la )?puerta\b",
    r"\b(?<!un )(?<!unos )(?<!los )(?:toqu(?:e|en|ele|enle)|"
    r"tocar)\s+(?:en |a )?la (?:puerta|ventana|reja)\b(?! (?:del|de la|de mi) (?:refri|lava|seca|estufa|horno|"
    r"micro|congel))",
    r"\b(?<!un )(?<!unos )(?<!los )(?:toqu(?:e|en|ele|enle)|"
    r"tocar|silben?|chiflen?|gritenm?e?|pitenl?e?|pitele|griteme)\s+(?:bien |muy )?(?:recio|fuerte|duro|macizo|nomas|desde)\b",
    r"(?:^|[,.;]\s*)(?:chifle|silbe|grite|pite)n?\b",
    rf"\b(?:por|en|toquen?|toque en|tras) (?:el|la) (?:porton|reja|zaguan|puerta) (?:es |color )?{_COLOR}\b",
    r"\b(?:mi|la|el|nuestra) (?:abuel[oa]|mama|papa|suegr[oa]|espos[oa]|hij[oa]|herman[oa]|ti[oa]|vecin[oa]|cunad[oa]|"
    r"muchacha|senora|nana|niner[oa]|inquilin[oa])(?: [a-z]+)?\s+(?:siempre |casi siempre )?(?:esta|estara|va a estar|se queda|"
    r"is always|will be)\s+(?:siempre |todo el dia |aqui|ahi|alli|en (?:la |su )?casa|home|con los ninos)\b[^.,;\n]*",
    r"\b(?:cualquier\w*|a (?:la|cualquier) hora|cuando \w+|siempre|todo el dia)\b[^.!?\n]{0,30}\btrabajo (?:desde|"
    r"en) (?:la |mi )?"
    r"casa\b|\btrabajo (?:desde|en) (?:la |mi )?casa\b[^.!?\n]{0,20}\b(?:cualquier\w*|a la hora|cuando|aqui|siempre|toquen?)\b",
    r"\besta (?:mi|la) (?:abuela|mama|suegra|esposa|hija|hermana|tia|vecina|senora|nana)\b[^.,;\n]*",
)
LETTERS_EN = (
    "be home", "is home", "s home", "one home", "be there", "is there", "be here", "s there", "l be", "home most", "home every",
    "home all", "always home", "steps", "stairs", "works ", "use the", "holler", "yell", "shout", "whistle", " gate",
    "front door",
    "side door", "screen door", "other door", "main door", "home any", "home morn", "home after", "home even", "home week",
    "home days", "home night",
)  # fmt: skip
LETTERS_ES = (
    "puerta", "toqu", "tocar", "porton", "reja", "zaguan", "chifl", "silb", "grite", "pite", "abuel", "mama ", "papa ", "sueg",
    "espos", "hij", "herman", "vecin", "tia ", "senora", "nana ", "muchacha", "cunad", "inquilin",
    "trabajo desde", "trabajo en",
)  # fmt: skip
"""Letters of which some stand in every text that these patterns are for."""
