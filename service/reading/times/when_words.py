"""How people say when: days, months, spans and times gone by, as pieces of patterns for folded text."""

from __future__ import annotations

N = (
    r"(?:an?|one|two|three|four|five|six|seven|eight|nine|ten|couple|few|several|many|\d{1,2}|un|una|unos|unas|"
    r"algunos|algunas|dos|"
    r"tres|cuatro|cinco|seis|siete|ocho|diez|quince|quinse|kince|veinte|muchos|muchas|varios|varias|par de|media)"
)
DAY_EN = (
    r"(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day|mon|tues?|weds?|thurs?|thur|fri|"
    r"(?<!\bit )(?<!just )(?<!has )(?<!they )sat(?! (?:overnight|on|there|too|for|unused|idle|empty|unplugged)\b)|"
    r"sun)(?:['’]?s)?"
    r"(?: (?:morning|afternoon|evening|night|nite))?"
)
DAY_ES = r"(?:lunes|martes|miercoles|jueves|viernes|sabado|domingo)(?: (?:pasado|en la (?:manana|tarde|noche)))?"
HOUR_EN = rf"(?:{N}|noon|lunch)(?::\d\d)? ?(?:[ap]\.?m\.?)?(?: (?:and|or|on|this|next))*"
HOUR_ES = rf"(?:las? {N}(?::\d\d)?|mediodia)(?: (?:y|o|el|los|de la tarde|de la manana))*"
"""An hour, with the words that may stand between it and a day to come: “after 3 on thursday”."""
MONTH_EN = (
    r"(?:january|february|march|april|june|july|august|september|october|november|december|"
    r"jan|feb|apr|aug|sept?|oct|nov|dec)"
)
MONTH_ES = r"(?:enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre)"
SPAN_EN = r"(?:hours?|hrs?|days?|nights?|weeks?|wks?|weekends?|months?|mos|years?|yrs?)"
SPAN_ES = r"(?:horas?|dias?|noches?|semanas?|weeks?|days?|mes(?:es)?|anos?|rato|ratito)"
ABOUT_EN = r"(?:(?:about|like|around|maybe|probably|almost|over|at least|nearly|roughly|or so|just|only|bout|right) )*"
ABOUT_ES = r"(?:(?:como|casi|mas de|mas o menos|unos|unas|ya|apenas|por lo menos) )*"
TIME_EN = (
    rf"(?:yest(?:erday)?(?: (?:morning|afternoon|evening|night))?|(?:late )?last (?:night|nite|nght|week|wk|weekend|"
    rf"month|year|summer|winter|"
    rf"spring|fall|{DAY_EN})|this (?:morning|mornin|am|afternoon|weekend|evening)|"
    rf"(?:the |this |last |over the )?(?:weekend|holidays|christmas|xmas|thanksgiving|easter|halloween|new years?(?: day|"
    rf" eve)?|"
    r"(?:memorial|labor|mothers|fathers|valentines) day(?: weekend)?)|"
    rf"{ABOUT_EN}(?:a )?{N}(?: of| or (?:two|three|four|so))?(?: \d)? {SPAN_EN} (?:ago|back)|the other (?:day|night|week)|"
    rf"(?:on )?{DAY_EN}|(?:early |late )?(?:in )?{MONTH_EN}(?: \d{{1,2}}(?:st|nd|rd|th)?)?|"
    rf"(?:on )?the \d{{1,2}}(?:st|nd|rd|th)|"
    r"easter)"
)
BEGINNING_EN = (
    r"(?:(?:the |over the )?(?:summer|winter|spring|fall|first|start|beginning)"
    r"|day one|\d{1,2} ?[ap]m|noon|midnight|breakfast|dinner|lunch)"
)
TIME_ES = (
    rf"(?:ayer(?: (?:en|por) la (?:manana|tarde|noche))?|anoche|antier|anteayer|antenoche|hoy|(?:esta|la|"
    rf"en la) (?:manana|tarde|madrugada)|"
    rf"(?:la semana|el mes|el ano|el fin de semana|el {DAY_ES}) pasad[oa]|la otra (?:vez|semana|noche)|el otro dia|"
    rf"(?:el )?{DAY_ES}|(?:el )?(?:fin de semana|finde)|(?:la )?navidad|ano nuevo|semana santa|cuaresma|el principio|"
    rf"hace {ABOUT_ES}(?:{N} (?:o {N} )?{SPAN_ES}|rato|poco|mucho|tiempo|dias|semanas|meses)|"
    rf"(?:el (?:dia )?)?(?:primero|\d{{1,2}}) de {MONTH_ES}|{MONTH_ES}|el (?:dia )?\d{{1,2}})"
)
REASONS = (
    r"(?:you|u|ya|yall|its|it'?s|it is|i'?m|im|i (?:am|have|cant|can'?t|dont|don'?t|need|work|want|was|keep|had|see|saw|know)|"
    r"we are|we're|we have|we dont|we need|that is|thats|that's|there'?s|there is|this is|theyre|they are|nobody|no one|"
    r"everyone|your|ur|my (?:insurance|warranty)|he is|hes|she is|shes|the (?:warranty|tech|guy) (?:is|says)|now|"
    r"today is|20[0-3][0-9]|19[0-9][0-9])"
)
"""What follows a "since" that gives a reason."""
