"""How to get in, as people tell it: keys, gates and codes, who opens, animals, where to park, what to do on arrival."""

from __future__ import annotations

import re
from collections.abc import Iterator

from service.reading.details import arriving, doorways
from service.reading.words.letters import has_any

_CUES_EN = re.compile(
    r"dog|cat\b|cats\b|pit|puppy|retriever|shepherd|key|lock|code|gate|callbox|buzzer|door|the back|alley|"
    r"carport|let[s]? |go on in|\bhome|here|there|present|shop|office|at the house|knock|ring|honk|park|vacant|"
    r"concierge|desk|elevator|stairs|casita|trailer|nobody|outside|arrive|you get|u get|you come|bell|kitty|"
    r"parrot|goat|buzz|dial|press|punch|gated|truck|\bvan\b"
)
_CUES_ES = re.compile(
    r"abiert|abr[aeio]|acceso|afuera|avis|cachorr|callejon|caseta|clave|claxon|codigo|conserje|copia|elevador|"
    r"entr|entra|escalera|estacion|estar|gat[oa]|grito|habl|llam|llave|lleg|marc|marqu|mascota|mensaje|metanse|"
    r"nadie|parque|pase|perr|pida|pite|pitele|portero|porton|pregunt|reja|suba|subir|timbr|timbre|tocar|toqu|"
    r"venganse|vigilante"
)
_LETTERS_EN = (
    "dog", "cat", "pit", "puppy", "retriever", "shepherd", "key", "lock", "code", "gate", "callbox", "door", "the back",
    "alley", "carport", "let", "go on in", "home", "here", "present", "shop", "office", "at the house", "knock", "ring",
    "honk", "park", "vacant", "concierge", "desk", "elevator", "stairs", "casita", "trailer", "nobody", "outside", "arrive",
    "u get", "you come", "bell", "kitty", "parrot", "goat", "buzz", "dial", "press", "punch", "truck", "van",
)  # fmt: skip
_LETTERS_ES = (
    "abiert", "abr", "acceso", "afuera", "avis", "cachorr", "callejon", "caseta", "clave", "claxon", "codigo", "conserje",
    "copia", "elevador", "entr", "escalera", "estacion", "estar", "gat", "grito", "habl", "llam", "llave", "lleg", "marc",
    "marqu", "mascota", "mensaje", "metanse", "nadie", "parque", "pase", "perr", "pida", "pite", "portero", "porton",
    "pregunt", "reja", "suba", "subir", "timbr", "tocar", "toqu", "venganse", "vigilante",
)  # fmt: skip
"""Letters of which some stand in every cue: they are looked for first, for that takes a tenth of the time."""

_ANIMAL = (
    r"(?:dogs?|cats?|pit ?bulls?|pupp(?:y|ies)|(?:golden )?retriever|(?:german )?shepherd|rottweiler|chihuahuas?|"
    r"heelers?|hound|pup|dogg(?:o|y|ie)|kitty|parrot|goat)"
)
_WHO = (
    r"(?:i|we|she|he|they|someone|somebody|(?:my |the |our )?(?:wife|husband|hubby|daughter|son|mom|mother|dad|father|"
    r"tenant|renter|"
    r"resident|neighbor|sister|brother|nanny|maid|sitter|roommate|grandma|partner|manager|foreman|super|maintenance|"
    r"housekeeper)s?)"
)
_WILL = (
    r"(?:'?ll|l| will|'?s gonna|'?s going to| is gonna| are gonna| going to| gonna|mma| am going to|'?m going to|"
    r" should| can)"
)
_ARRIVE = (
    r"(?:(?:when|once|before|as soon as|wen|b4)\s+(?:(?:he|she|they|u|you|ya|the (?:guy|tech)|ur|you'?re|youre)\b\s*)"
    r"(?:'re |is |are |r |get (?!a\b)|gets |arrive|arrives|here|there|outside|come|comes|coming|out front|close|near|at|on)\w*)"
)
_EN = (
    rf"\b(?:{_ANIMAL}(?:'?s| is| are| will(?: be)?| wo?n'?t|)\s+(?:(?:all|just|really|very|not|a|an?|in|on|out|the|put|be|"
    rf"locked|"
    rf"but|loud|get|in his|in her|their|up|bark|but)\s+)*?(?:crated?|crates|run|yard|bites?|bark|barks|loud|nice|friendly|"
    rf"bother|loose|leash|"
    r"chained|tied|kennel(?:ed)?|back|inside|outside|mean|good (?:dog|boy|girl)|sweet|safe|harmless|garage|bedroom|"
    r"escapes?|out(?! of)|away|growls?|jumps?|shy|try to)\b)",
    rf"\b(?:don'?t|do not|dnt|please don'?t)\s+let\s+(?:the |my |our )?(?:{_ANIMAL}|her|him|it|them)\s+(?:get )?out\b",
    r"\b(?:buzz|dial)\s+(?:unit |apt |apartment |#|suite )?#?\d{1,4}[a-z]?\b(?! (?:times|minutes|min|sec))",
    r"\b(?:ask for|check in|sign in|stop)\s+[^.,;\n]{0,16}\bat the (?:desk|office|gate|counter|front)\b",
    r"\b(?:leave|put) (?:the|your|ur) (?:truck|van|car)\b[^.,;\n]*",
    r"\b(?:gated|secured|locked) (?:community|building|complex|entrance|lot)\b",
    rf"\b(?:mind|watch(?: out)?(?: for)?|beware(?: of)?|careful(?: of| with)?|w|with|w/|got|theres|there's|there is|"
    rf"(?<!not )(?<!dont )(?<!don't )have|same|big|two|three|2|3)(?<!one w)(?<!one with)\s+"
    rf"(?:(?:a|an|the|my|our|mean|big|small|little|two|old|loud|friendly|of)\s+)*{_ANIMAL}\b(?! (?:hair|food|bed|bowl|fur|"
    rf"bones?|toys?))",
    r"\b(?<!hex )(?<!allen )keys?\b(?! ?(?:switch|pad|lock))(?:'s| is| are| will be| s|)\s+(?:hid(?:den)? |left |kept |"
    r"hanging )?(?:in|on|under|w/?|with|behind|by|at|"
    r"inside|above|from)\s+(?!start|run|on\b|the (?:control|panel|key|remote|front of|micro))(?:[\w.]+\s?){1,4}",
    r"\b(?:has|have|leave|left|leaving|get|grab|pick up|got)\s+(?:a|the|our|my|your|spare|her|his)\s+(?:spare |"
    r"house )?keys?\b(?! ?(?:switch|pad|lock|symbol|icon|light|thing|code))",
    r"\block ?box\b(?! (?:guy|person|man))[^.,;\n]*",
    r"\bcode\s+(?:(?:is|to|for|on|of|at|the|my|our|#)\s+)*(?:gate|door|building|entrance|entry|callbox|call box|lobby|"
    r"garage|house|complex)\b[^.,;\n]*",
    r"\bcode\s*(?:is|:)?\s*[#*]?\d{3,8}[#*]?\s+(?:on|at|for|to|in|then)\b[^.,;\n]*",
    r"\b(?:gate|building|front door|entry|callbox|garage)\b[^.,;\n]{0,24}\b(?:code|\d{4}|#\d+)\b[^.,;\n]*",
    r"\b(?:side |back |front |yard |main )?gates?(?:'s| is| will be|)\s+(?:busted|jammed|stuck|broke|open|locked|unlocked|"
    r"sticks|closed|chained|left|"
    r"latched|broken|code)\b",
    r"\b(?:use|enter|(?:come|go|drive|get in)\s+(?:(?:in|to|by|at|thru|through|round|around|up|"
    r"from)\s+)+)\s*(?:the\s+)?(?:back|side|alley|front|garage|rear|"
    r"carport|(?:basement|kitchen|patio) (?=door|entrance))(?: ?door| entrance| gate| porch|"
    r" way)?\b(?! of (?:the )?(?:washer|dryer|machine|fridge)| burner| left| right)",
    r"(?:^|[,.;]\s*)(?:side|back|alley|rear)\s+door\b(?=\s*(?:[,.;]|$))",
    r"\b(?:side|back|storm|alley|screen|rear)\s+door(?:'s| is| will be|)\s+(?:open|unlocked|locked|sticks|busted|broke)\b",
    r"\blets?\s+(?:u|you|him|them|ya|yall|the (?:tech|guy|man)|someone|somebody|your (?:guy|tech))\s+in\b",
    r"\bgo (?:on|right) in\b|\b(?:its|it's|house|we) (?:is |are )?(?:never locked|unlocked)\b",
    rf"(?<!is )(?<!are )(?<!will )\b{_WHO}{_WILL}\s+(?:probably |try to |also )?(?:be?|stay)\s+"
    rf"(?:at |in the |at the |in |over )?(?:home|here|there|"
    rf"present|shop|office|house|yard|barn|"
    r"garage|store|work all day)\b(?:\s+all day)?",
    rf"\b(?!here\b){_WHO}(?:'?s|'?re|'?m| is| are| am)\s+(?:always |usually |only )?(?:in the |at the |at |)(?:home|there|"
    rf"office|"
    rf"shop|house)\s+"
    r"(?:all (?:day|morning|afternoon)|every day|until|til|till|after|from|most|waiting|\d)",
    r"\b(?:i|we|she|he|they)\s+(?:can|will|could)\s+meet\s+(?:u|you|him|them|the tech|your guy|ya)\b(?: there)?",
    r"\b(?:nobody|no one|noone|no body)(?:'s| is|s| will be|)\s+(?:be )?(?:home|there|here)\s+(?:until|til|till|to|that|"
    r"then|before|after|on|in the)\b|\btheres? nobody to open\b|\bnobody to open\b",
    rf"\b(?:call|text|ring|buzz|honk|txt|msg|message|holler)\b[^.;\n]{{0,24}}{_ARRIVE}",
    rf"\b{_ARRIVE}[^.;\n]{{0,16}}\b(?:call|text|ring|knock|honk|buzz|txt)\b[^.,;\n]*",
    r"\b(?:don'?t|do not|dnt|pls|please|just)\s+(?:\w+ )?(?:knock|ring|honk)\b[^.,;\n]*",
    r"\b(?:ring|knock)\s+(?:the\s+)?(?:door ?bell|bell|buzzer|twice|loud|hard|on the (?:door|window|side|back)|two|2|"
    r"three)\b[^.,;\n]*|(?:^|[.,;]\s*)honk\b",
    r"\b(?:the )?(?:doorbell|call ?box|intercom|buzzer(?! (?:at|on) the (?:end|dryer|washer|oven|timer|stove|machine)|"
    r" (?:when|goes|went|"
    r"keeps|wont|never|quit|still|stays|is (?:loud|broken|busted)|doesnt)))\b[^.,;\n]*",
    r"\bpark(?:s|ing)?\s+(?:is\s+|only\s+)?(?:on|in|at|behind|by|around|along|next|off|down|out|across|wherever)\b[^.,;\n]*",
    r"\b(?:concierge|(?<!runs the )(?<!works the )(?<!at the )front desk|doorman|security guard|leasing office|"
    r"cattle guard)\b[^.,;\n]*",
    r"\b(?:no elevator|elevator is|elevator's|walk ?up|third floor stairs|up the stairs)\b[^.,;\n]*",
    r"\b(?:casita|trailer|house|unit|apartment|apt|guest house)\s+(?:is )?(?:in|at|around|on) (?:the )?(?:back|end|rear|"
    r"alley)\b(?! (?:of|burner))",
)
_PERRO = r"(?:perr[oa]s?|perrit[oa]s?|gat[oa]s?|cachorr[oa]s?|mascotas?)"
_ARRIVING = (
    r"(?:(?:cuando|antes|al|nomas|ya que|en cuanto)\s+(?:de\s+|que\s+)?(?:llegu\w+|lleg(?:ar|ando)|veng\w+|venir|"
    r"vayan?|este[ns]?|entrar|salir|afuera)\b)"
)
_ES = (
    rf"\b{_PERRO}\s+(?:(?:pero|que|es|son|esta|estan|no|se|muy|en|el|la|bien|pues|lo|tengo|los)\s+)*(?:mans[oa]s?|"
    rf"brav[oa]s?|amarrad[oa]s?|muerden?|hacen?|"
    r"ladran?|encerrad[oa]s?|patio|suelt[oa]s?|sale|salga|jaula|yarda|cochera|nobles?)\b",
    rf"\b(?:no )?(?:tengo|tenemos|hay|con|cuidado con|amarrar?|amarro|encierro|encerrar)\s+(?:(?:un|una|el|la|los|las|dos|"
    rf"tres|al|mis?)\s+)*{_PERRO}\b",
    r"\b(?:pregunten?|preguntar) por\s+\w+\s+(?:en|al|a la)\b[^.,;\n]*|\b(?:dejo|queda|esta) abiert[oa] (?:el porton|"
    r"la reja|atras|la entrada)\b",
    r"\b(?:piten|pitele|claxon|echenme un grito)\b[^.,;\n]*",
    r"\bllaves?\s+(?:(?:esta|estan|la|las|se|queda|va a estar|de la casa|del depa)\s+)*(?:debajo|abajo|con|tiene|tienen|"
    r"dejo|dejare|deje|atras de|arriba de|en (?:la|el) "
    r"(?:maceta|buzon|oficina|caja|tapete|lockbox|cajita|recepcion|administracion|vecin\w+|tienda))\b[^.,;\n]*",
    r"\b(?<!nadie )(?:tiene|dejare|pida|pidan|pidele|pidanle|trae)\s+(?:(?:le|una|la|las|"
    r"otra)\s+)*(?:copia de (?:la )?)?llaves?\b(?! (?:del|de) (?:agua|gas|paso))",
    r"\b(?:el|la|un|una|del|al)\s+(?:porton|reja|zaguan|caseta|interfon|conserje|portero|vigilante|guardia|"
    r"candado de)\b[^.,;\n]*",
    r"\b(?:entren?|entrar|pasen?|pasar|metanse|venganse|entra|acceso)\s+(?:es\s+)?por\s+(?:atras|enfrente|un lado|aca|"
    r"el (?:callejon|porton|lado|patio|fondo|garage|estacionamiento|zaguan)|la (?:puerta|cochera|reja|entrada|parte|"
    r"caseta))\b[^.,;\n]*",
    rf"\b(?:llam[ea]\w*|marqu[ea]\w*|marc[ae]\w*|habl[ea]\w*|(?!avisan? cuando (?:ya )?(?:vengan?|"
    rf"vayan?) en camino)avis[ea]\w*|mensaje|"
    rf"timbr[ae]\w*)\b[^.;\n]{{0,20}}\b{_ARRIVING}[^.,;\n]*",
    rf"\b{_ARRIVING}[^.;\n]{{0,14}}\b(?:llam[ea]\w*|marqu[ea]\w*|marc[ae]\w*|habl[ea]\w*|avis[ea]\w*|toqu[ea]\w*|"
    rf"timbr[ae]\w*)\b",
    r"\b(?:(?:toquen?|(?<!al )(?<!sin )tocar|toquele)\s+(?:el timbre|la puerta(?! (?:del?|mojad|metal))|el claxon|la ventana)|"
    r"(?:toquen|toquele)\s+(?:fuerte|duro|dos veces|bien (?:fuerte|duro)))\b",
    r"\b(?:les (?:va a |puede )?abr(?:o|e|en|ir|ira|a)|(?:ella|hija|hijo|esposa|esposo|vecina|vecino|senora|mama|papa|"
    r"inquilin[oa]|alguien|quien|hermana|suegra)\s+"
    r"(?:(?:les?|va a|puede|quien|que)\s+)*abr(?:e|ir|a|ira|irles?))\b",
    r"\bpa(?:ra)? (?:abrir(?:les?)?)(?= (?:el porton|la reja|al tecnico|la puerta de la casa)|\s*(?:[.,;]|$))",
    r"\b(?:va a estar|va estar|van a estar|va a ver|va a haber|voy a estar|vamos a estar|estaremos|"
    r"no voy a estar)\s+(?:(?:ella|el|ahi|aqui|sola|solo|alli|alla)\s+)*"
    r"(?:mi|en (?:la )?casa|en el (?:taller|negocio|trabajo)|aqui|ahi|sol[oa]|ella|el senor|la senora|alguien|todo el dia|"
    r"esperando)\b",
    r"(?<!no )\b(?:estare|estoy|esta(?:mos)?)\s+(?:(?:yo|siempre|aqui|ahi)\s+)*(?:en (?:la )?casa|aqui|ahi)\s+(?:todo|"
    r"toda|hasta|"
    r"despues|por|de|desde|a partir|siempre)\b",
    r"\b(?:no (?:hay|habra|va a haber|esta) nadie|no hay quien (?:abra|reciba))\b",
    r"\b(?:se |puede[n]? |pueden |hay |donde )(?:estacion(?!o\b)\w+|parque\w+)\b[^.,;\n]*|\bestacion[ae]\w*\s+(?:en|atras|"
    r"enfrente|afuera|sobre)\b[^.,;\n]*",
    r"\b(?:subir|suban?|escaleras?|elevador)\b[^.;\n]{0,24}\b(?:piso|escaleras?|elevador)\b[^.,;\n]*|\bno hay elevador\b",
    r"\b(?:codigo|clave)\s+(?:(?:es|de|del|para|la|el)\s+)*(?:porton|reja|puerta|entrada|edificio|caseta|acceso)\b[^.,;\n]*",
)
_PATTERNS = (
    (_LETTERS_EN, _CUES_EN, tuple(map(re.compile, _EN))),
    (_LETTERS_ES, _CUES_ES, tuple(map(re.compile, _ES))),
    (doorways.LETTERS_EN, None, tuple(map(re.compile, doorways.EN))),
    (doorways.LETTERS_ES, None, tuple(map(re.compile, doorways.ES))),
    *((letters, None, tuple(map(re.compile, patterns))) for letters, patterns in arriving.GROUPS),
)
"""The patterns of each language, behind what must stand in a text for one of them to be found."""


def ways_in(folded: str) -> Iterator[tuple[int, int]]:
    """Where *folded* (lower case, without accents) tells how to get in or whom and what one meets there."""
    for letters, cues, patterns in _PATTERNS:
        if has_any(folded, letters) and (cues is None or cues.search(folded)):
            for pattern in patterns:
                yield from (found.span() for found in pattern.finditer(folded) if found.group())


_DAY = r"(?:mon|tue|wed|thu|fri|sat|sun|weekends?\b|weekdays\b|tomorrow|tonight|\d)"
_DIA = r"(?:lunes|martes|miercoles|jueves|viernes|sabado|domingo|manana|diario|\d)"
_NO_WAY = re.compile(
    r"\b(?:imma|i|we)(?:'?ll|'?m|'?re|l| am| are| will| can| should| could)?(?: gonna| going to)?(?: be)? (?:home|here|there)"
    r"(?: (?:every day|all week) (?:this|but|except)\b|(?: (?:on|the|only|this|next|by|after|until|til|till|from))* "
    rf"{_DAY})"
    rf"|\b(?:estoy|estare|estamos|estaremos|voy a estar|vamos a estar) en (?:la )?casa(?: (?:el|los|este|hasta las?|"
    rf"despues de las?|de))?"
    rf" {_DIA}"
    r"|\bno (?:estoy|estamos) en (?:la )?casa\b"
    r"|\b(?:\w+ )?works? from home\b(?!,? (?:so |and )?(?:any|come|whenever|just|knock|he |she |i |we |they |is here|always))"
    r"|\b(?:como que|como si|dice que|piensa que|cree que|marca que) (?:tiene |tuviera )?la puerta (?:esta|esta medio|"
    r"estuviera) abierta\b"
    r"|\bwet dog (?:inside|in)\b"
)
"""
What only sounds like a way in: on which days or hours the customer is home is the time that is told, somebody works from home,
and a machine beeps as if its door was open.
"""
_NO_WAY_LETTERS = (" home", " here", " there", "casa", "la puerta", "wet dog")


def no_ways_in(folded: str) -> list[tuple[int, int]]:
    """Where *folded* speaks of being home or of a door without telling a way in."""
    return [found.span() for found in _NO_WAY.finditer(folded)] if has_any(folded, _NO_WAY_LETTERS) else []
