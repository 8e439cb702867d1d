"""What one finds on arriving and what is then to be done: who meets one, which door, what lies on the way, what to call out."""

from __future__ import annotations

_KIN_EN = (
    r"(?:wife|husband|hubby|daughter|son|mom|mother|dad|father|tenants?|renters?|resident|neighbor|sister|brother|nanny|maid|"
    r"sitter|roommate|grandma|grandpa|partner|manager|foreman|super|housekeeper|aunt|uncle|nephew|niece|cousin|boyfriend|"
    r"girlfriend|in law|kids?|caretaker|caregiver|aide|nurse|agent|realtor|assistant|staff|parents|folks|volunteers|office)"
)
_DOOR = (
    r"(?:(?:side|back|rear|front|alley|garage|basement|kitchen|patio|lobby|porch|laundry room|loading|bay|gym|church|hall|"
    r"screen|sliding|cellar|office|shop|mudroom|service) (?:bay )?doors?|gates?(?! valve))"
)
_OPEN = (
    r"(?:open|unlocked|locked|chained|left open|never locked|padlocked|bolted|propped|stuck|sticky|sticks|washed out)"
)
_BE = r"(?:'?s|'?re| is| are| will be| stays?| should be| gets| get|)"
_UNLIKE_MACHINES = (
    r"(?![^.,;\n]{0,24}\b(?:washer|dryer|dishwasher|fridge|freezer|oven|stove|microwave|machine|refrigerator|loader)\b)"
)
_SAY = r"(?:(?:^|[.,;:!?\n)]\s*)|\b(?:please|pls|plz|just|and|then|so|to|you|u|can|gotta|or|but|can you|they)\s+)"
_WHEN = r"(?:when|once|wen|b4|before|as soon as)"
_SPOT = (
    r"(?:(?:the |your )?(?:\w+ ){0,2}(?:gate|door|doors|window|windows|bell|glass|porch|entrance|office|desk|counter|lobby|"
    r"curb|street|driveway|dock|booth|center|house|barn|shop))"
)

AT_HOME = (
    rf"\b{_KIN_EN}(?: [a-z]+)?(?:'?s| is| are| both| all|'?ll be| will be)(?: always| usually| both| all)? (?:home|here|"
    rf"there)\b"
    rf"(?=\s*(?:$|[,.;!]|all|til|until|till|from|most|every|24|\d|to (?:open|let|meet|show)|on site|mornings|days|that day))",
    rf"\b{_KIN_EN} (?:is |are )?(?:home|here|there|in) (?:all (?:day|the time)|til|until|till|from \d|\d{{1,2}} (?:to|til|-))"
    rf"[^.,;\n]{{0,8}}",
    r"\b(?:she|he|they)(?:'?s|'?re|'?ll be| is| are| will be) in (?:all (?:day|week|morning|afternoon)|til|until|till|"
    r"every day|from \d|"
    r"after \d|mornings|\d{1,2} (?:to|til|-))",
    r"\b(?:i'?m|i am|we'?re|we are|she'?s|he'?s|they'?re|she is|he is|they are|hes|shes|theyre|my mom is|my dad is|there'?s)"
    r" (?:almost |nearly |pretty much )?always (?:someone |somebody |a person )?(?:home|here|there|around|in)\b",
    r"\balways (?:someone|somebody|anybody|a person|staff|one of us|people) (?:is )?(?:home|here|there|around|in|on site|"
    r"on duty)\b",
    r"\b(?:someone|somebody|one of us|staff|people|anyone)(?:'?s| is| are|) (?:here|there|home|on site|around)"
    r" (?:24|all (?:day|night|the time)|at all|around the clock|day and night|every|most)[^.,;\n]{0,12}",
    r"\b(?:someone|somebody|one of us|a nurse|an aide|staff) (?:here|there|home|on site) (?:24|all day|around|"
    r"at all)[^.,;\n]{0,12}",
    rf"\b(?:i'?m|i am|we'?re|we are|she'?s|he'?s|they'?re|she is|he is|they are|{_KIN_EN}(?: is|'?s)) (?:here|home)"
    r" (?:alone )?with (?:the|my|our|her|his|a|two|three) (?:new )?(?:baby|babies|kids?|newborn|twins|toddlers?|boys|girls|"
    r"children|grandkids|mom|mother|dad|husband|wife|puppy)\b(?: (?:all|every|most) \w+)?",
    r"\b(?:i'?m|i am|we'?re|she'?s|he'?s|they'?re|they are|she is|he is) home (?:all week|all weekend|todo|toda|siempre|"
    r"the whole|"
    r"around the clock)\b(?! (?:except|but|menos))(?: el)?(?: (?:dia|day|time|week))?",
    r"\b(?:mi|la) (?:espos[oa]|hij[oa]|mama|papa|suegra|abuela|tia|hermana|vecina) is (?:always )?home\b",
    r"\b(?:here|there|home|around|available) to (?:open (?:up|the (?:door|gate|house)|for)|let|unlock|answer the door|"
    r"meet|show)\b",
)
MEETING = (
    r"\b(?:will|can|could|'?ll|have to|has to|gotta|needs? to|going to|gonna|should) meet (?:with )?(?:you|u|ya|him|them|"
    r"the tech|"
    r"the guy|your (?:guy|man|tech))\b[^.;\n]{0,24}",
    r"\b(?:get|take|walk|bring|escort|let|buzz) (?:you|u|him|them|your (?:guy|tech)) (?:in |up )?(?:thru|through|past|"
    r"in at|to|from)"
    r" the (?:\w+ )?(?:gate|guard|security|front desk|lobby|elevator)\b",
    rf"{_SAY}ask (?:for )?(?:whoever|anyone|anybody|whos|who)(?:'?s| is)? (?:ever )?(?:here|there|working|on|at|on duty|"
    rf"up front|in)\b"
    rf"[^.,;\n]*",
    r"\bask for (?:the )?\w+(?: \w+)? (?:at|in|by|inside) the (?:\w+ )?(?:window|office|desk|gate|counter|front|back|bar|"
    r"kitchen|"
    r"lobby|booth|shop|register|dock)\b",
    r"(?:^|[a-z][.,;!]\s*(?:but |and |or |just |please |pls )?)ask for (?!a |an |it\b|your|you|my|more|help|that|"
    r"the (?:part|price|"
    r"bill|money))(?:the )?[a-z]+\b(?![^.;\n]{0,16}\d{3})",
    rf"{_SAY}(?:come|stop|swing|check in|go|report) (?:on )?(?:by|at|to|in at|into|in to|through|thru) the (?:main |"
    rf"front |rental |leasing |"
    rf"park )?(?:office|front desk|guard shack|guardhouse|guard booth|security desk|visitor center|welcome center)\b",
    rf"\b(?:manager|super|supervisor|owner|{_KIN_EN})(?: [a-z]+)?(?: is|'?s) in (?:\d{{1,2}} (?:to|til|-)|til|until|"
    rf"all day|from \d|every day|mornings|after \d|"
    rf"most)"
    rf"[^.,;\n]{{0,14}}",
    rf"(?:\bjust show up\b|{_SAY}(?:come on (?:in|back|over|up|around|thru|through)|walk right in|let yourself in)\b"
    rf"(?! (?:with|when|at|the (?:oven|burner))))",
    rf"\b{_KIN_EN}(?: [a-z]+)? (?:can|will|could|'?ll) (?:open|unlock|get)(?: up)?(?: the)?(?: front| back|"
    rf" side)? ?(?:gate|door|house|up"
    rf"|for (?:you|u))\b",
)
DOORS = (
    rf"\b{_DOOR}{_UNLIKE_MACHINES}(?: [a-z]+){{0,5}}?{_BE} (?:always |usually )?(?:{_OPEN})\b(?! (?:valve|burner))",
    r"\bgates? (?:is |are |'?s )?(?:wide )?open\b",
    r"(?:^|[,.;!?\n]\s*)(?:use |its |it'?s |come to |thats |)(?:the )?(?:side|back|alley|rear|east|west|north|south|"
    r"second|main|front|"
    r"yard|side bay|loading|service) (?:gate|entrance|bay door|bay doors|dock)\b(?=\s*(?:[,.;!]|$|please|pls|by |next |on ))",
    r"\bgate (?:latch|lock|code|chain|handle|hinge) (?:sticks|is|needs|does|you|stuck)\b[^.;\n]{0,16}",
    rf"{_SAY}(?:come|go|get in|drive|enter|pull in|pull up) (?:on |right |in |up )?(?:thru|through|by|to|via|past|"
    rf"around to|from|"
    rf"around|in) (?:the |by the |at the )?(?:\w+ )?(?:gate|entrance|alley|side door|back door|garage|lobby|carport|"
    rf"loading dock|"
    rf"driveway|back way|kitchen door|side)\b|{_SAY}(?:come|go|drive|pull) (?:on )?around (?:back|to the (?:back|side|rear))\b",
    r"\bkeys? (?:to|for) (?:the |my |our |her |his |that )?(?:\w+ )?(?:gate|house|unit|building|apartment|apt|lobby|"
    r"laundry room|"
    r"everything|place|rental|condo|shed|casita|mailbox|lockbox)\b",
    r"\b(?:close|shut|latch|lock|chain) (?:the |that |all the )?(?:\w+ )?gates?\b(?! valve)",
    r"\bkey (?:is |s |'s )?(?:in|under|on|with|at|behind|inside) the (?:meter box|mailbox|shed|lock ?box|planter|"
    r"flower pot|rock|"
    r"office|grill|barn)\b",
    rf"{_SAY}(?:buzz|dial) (?:# ?\d|(?:me|us|him|her|them|unit|apt|manager|office|front|security)\b|(?!and|then|when|"
    rf"noise|sound)[a-z]+,? "
    rf"(?:evenings|mornings|at the (?:gate|door)|to get in|from the (?:gate|lobby|street)))",
    r"\b(?:bell|buzzer|doorbell|callbox|call box) (?:at|on|by) the (?:side|front|back|gate|door|left|right|porch|"
    r"lobby)\b[^.,;\n]{0,20}",
)
WAYS = (
    r"\b(?:street|back lot|lot|driveway|alley|curb|visitor|guest|garage) parking\b[^.,;\n]{0,16}",
    r"\bparking (?:is |'s |s )?(?:free|fine|tight|easy|ok|okay|limited|metered|in back|out back|around|available|only|bad)\b",
    r"\bramp(?:'s| is|s|) (?:in|at|on|out|around) (?:the |)(?:back|side|front|rear|left|right|garage)\b[^.;\n]{0,24}",
    r"\b(?:stairs|steps|staircase|stairway) (?:are|is|r|going down are|down are)(?: pretty| really| very| kinda|"
    r" a bit)? (?:steep|narrow|"
    r"tight|icy|bad|loose|rickety|broken|rotten|slick)\b[^.,;\n]{0,20}",
    r"\b(?:steep|narrow|rickety|spiral) (?:stairs|steps|staircase|stairway|hallway)\b",
    r"\b(?:you'?ll|youll|u'?ll|ull|you|u|they'?ll|he'?ll) (?:need|want|gotta have|better have) (?:a |an )?(?:4|four|"
    r"high clearance|"
    r"badge|visitor (?:pass|badge)|gate pass|photo id|all wheel|mask|hard hat)\b[^.,;\n]{0,28}",
    r"\b(?:4x4|4 x 4|4wd|four wheel drive|4 wheel drive|high clearance)\b[^.,;\n]{0,20}",
    r"\b(?:past|after|over|across|cross) the (?:second |first |third )?cattle ?guard\b",
    r"\b(?:dirt|gravel|washboard) road (?:gets|is|in|after|past|the last)\b[^.,;\n]{0,20}",
    r"\b(?:yard|road|driveway|drive)\b[^.,;\n]{0,18}, (?:drive|go|park) around (?:it|back)\b",
)
HAIL = (
    rf"{_SAY}(?:ring|knock|buzz|tap|wave|honk|bang|rap|pound|call|text|holler) (?:\w+ )?(?:at|on|in|thru|through|"
    rf"from) {_SPOT}(?<!machine)"
    rf"(?! (?:of the |when it |and it (?:still|just)))",
    rf"\b(?:call|text|txt|ring|honk|buzz|message|phone|ping)(?: me| us| her| him| them)?(?: first|"
    rf" please)? {_WHEN} (?:ur |you'?re |youre )?"
    r"(?:outside|out front|in front|here|there|close|near|arriv\w+|(?:\d+|ten|fifteen|twenty|thirty|a few|half an?|an)"
    r" (?:min|hour|hr)\w*(?: (?:out|away|before|ahead))?)\b",
    r"\b(?<!do i )(?<!should i )(?<!i )(?<!a )(?:call|text|txt|phone|ring)(?: me| us| her| him| them| ahead| my \w+| the \w+)?"
    r" (?:first|ahead|beforehand|ahead of time)\b(?! (?:thing|time|of the line|then|or)|[^.;\n]{0,6}\d{3})",
    r"\b(?:have|tell|ask) (?:him|them|the tech|the guy|your (?:guy|tech)) (?:to )?(?:call|text|ring) (?:me |us |first|"
    r"ahead|before)\w*",
    r"\bcan (?:he|they|you|the tech|u) (?:call|text) (?:me |us )?before (?:they|he|you|u|the) (?:come|comes|get|head|show)\w*",
    r"\b(?:knock|ring)(?:ing)?\b,? (?:loud|hard|and|n|&|then|so|no|dont|do not|twice|please|pls|instead)\b[^.,;\n]{0,24}"
    r"(?:wait|give|bell|ring|knock|hear|door|loud|deaf|twice|instead|$)",
    r"(?:home|here|asleep|sleeping|night shift|nights)\b[,.]? (?:so )?(?:please |pls |just )?(?:knock|dont (?:knock|ring)|"
    r"no bell)\b",
    r"\bno door ?bell\b|\b(?:door ?bell)\b[^.,;\n]{0,20}",
    r"\b(?:i'?m|im|i am|i'?ll be|we'?re|we are|hes|he'?s) (?:usually |probably |out |down |over |up )*(?:in|at|"
    r"by) the (?:\w+ )?(?:field|"
    r"barn|corral|pasture|greenhouse|guard shack|pump house|back lot|first gate|stables|chicken coop|workshop|shop)\b,?"
    r" (?:just |and |so |by |come |near |next |holler|honk|call|text|yell)\w*",
    r"(?:^|[.,;]\s*)(?:just |and )?(?:holler|honk)\b(?! (?:back|if))",
    r"\b(?:tie|put|lock|crate|kennel|chain|shut|keep)(?:s|ed|ing|ting)? (?:up |away )?(?:the|my|our|her|his|both|"
    r"all) (?:\w+ )?(?:dogs?|cats?|"
    r"pups?|puppy|pit ?bull|animals|goats?)\b(?: (?:up|away|in|out|inside|in the \w+))?",
)

_GENTE = (
    r"(?:ellos|ellas|ella|el|nosotros|mis? \w+|mi (?:espos[oa]|mama|papa|abuel[oa]|suegr[oa]|hij[oa])|la (?:senora|muchacha)|"
    r"el (?:senor|muchacho))"
)
_HALLAN = (
    rf"\b{_GENTE} (?:casi )?(?:estan?|estamos) siempre\b(?=\s*(?:$|[.,;!]|en (?:la )?casa|aqui|ahi))",
    r"\bsiempre (?:estoy|estamos|estan|esta (?:ella|el|mi \w+)|hay (?:alguien|gente))\b(?=\s*(?:$|[.,;!]|en (?:la |"
    r"su )?casa|aqui|ahi|alli))",
    r"\bsiempre (?:esta|hay alguien) (?:en (?:la |su )?casa|aqui adentro|que (?:abra|les abra))\b",
    r"(?<!\d y )(?<!\d )\bpregunt(?:e|en|ele|enle)\b(?: (?:ahi|alla|nomas))? (?:por|x) (?!que\b|si\b|un |una |el precio|"
    r"cuanto|la cita)(?:la |el |mi |don |dona )?\w+",
    r"(?:^|[.,;!]\s*|\by )(?:nomas )?pas(?:e|en|ele|enle)(?: (?:nomas|nomás|directo|hasta|sin tocar|a la cocina|pa dentro|"
    r"para adentro|"
    r"adelante|por)\b|(?=\s*(?:$|[.,;!])))",
    r"\bpuerta (?:de la casa |de enfrente |)(?:esta|estara|va a estar) (?:abierta|sin llave|"
    r"sin seguro)\b[^.;\n]{0,4}(?:pase|entre)n?\w*",
    r"\bla entrada es por (?:el|la|atras|un lado|enfrente)\b[^.,;\n]{0,20}",
    r"\bpuerta de la casa (?:esta|estara|va a estar|siempre esta) (?:abierta|sin (?:llave|seguro))\b",
    r"\bpuerta de (?:enfrente|adelante|la calle) no (?:se usa|la usamos|es la)\b",
    r"\b(?:tocar|toquen?|toquele|entren?|entrar|lleguen?|llegar) (?:por|x|en) (?:el|la) (?:callejon|puerta (?:de |tras|"
    r"prin)\w*|lado|ventana|reja|"
    r"porton|cochera|patio|yarda|cocina|traila|entrada)\b[^.,;\n]*",
    r"\bcierr(?:e|en|ele|enle|enme)(?: bien)? (?:el|la|los) (?:falsete|porton|portones|reja|puerta de (?:golpe|trancas|"
    r"la yarda|alambre)|"
    r"tranca|cerca|zaguan)\b[^.,;\n]*",
    r"\bllave (?:\w+ )?(?:la )?tiene (?:la|el|mi|mis|un|una)?\s?\w+",
    r"\bpid(?:a|an)(?:sela|selas|la)\b",
    r"\b(?:llam|habl|marqu|avis)(?:e|en|enme|eme)?(?:me|nos|le|les)? antes(?: de (?:venir|llegar|que (?:vengan?|lleguen?)|"
    r"salir))?(?=\s*(?:$|[.,;!]|"
    r"por|please|pls|de (?:venir|llegar|que|salir)))",
    r"\b(?:me|nos) (?:llamen?|marquen?|hablen?|avisen?|manden? (?:un )?mensaje)(?: \w+)? (?:antes|cuando (?:vengan?|"
    r"lleguen?|esten?))\b"
    r"(?! de las?\b)",
    r"\bmensaje cuando (?:vengan?|lleguen?|esten?)\b[^.,;\n]{0,16}",
    r"\b(?:marcar|marquen?|piquen?le|pongan?|apretar|aprieten?) (?:el )?[#*]? ?\d{3,6}[#*]? (?:en|para) (?:el|la|"
    r"abrir)\b[^.,;\n]{0,16}",
    r"\b(?:ocupan?|necesitan?|se ocupa|traigan?) (?:una? )?(?:troca alta|doble traccion|4x4|cuatro por cuatro|"
    r"troca de doble)\b",
    r"\b(?:perr[oa]s?|perrit[oa]s?|gat[oa]s?)\b[^.;\n]{0,26}\b(?:no )?(?:muerden?|hacen? nada|ladra nomas|es bravo|"
    r"es mans[oa])\b",
)

GROUPS = (
    ((" home", " here", " there", "s in ", "always "), AT_HOME),
    (("meet ", "ask ", "guard", "security", "desk", "office", "center", "show up", "come on", "walk right", "let yourself",
      "s in ", " gate", "n open ", "l open ", "unlock"), MEETING),
    (("gate", " door", "entrance", "alley", "lobby", "carport", "dock", "driveway", " key", "buzz", "dial ", "bell",
      "around back"), DOORS),
    (("parking", "ramp", "stairs", "steps", "stairc", "stairw", "l need ", "u need ", "4x4", "4wd", "wheel drive", "clearance",
      "cattle", " road", "drive around", "steep", "narrow"), WAYS),
    ((" ring", "knock", "buzz", " tap ", "wave ", "honk", "call ", "text ", "txt ", "holler", "bell", " field", " barn",
      "corral", "pasture", "shack", "pump house", "workshop", " dog", " cat", " pup"), HAIL),
    (("siempre", "pregunt", "entrada", "pase", "puerta", "toca", "toqu", "entre", "cierr", "llave ", "pida", "antes", "mensaje",
      "marcar", "marque", "ocupa", "perr", "gato", "gata", "me llame", "avise"), _HALLAN),
)  # fmt: skip
"""Patterns and, of each group, letters of which some stand in every text that they are for."""
