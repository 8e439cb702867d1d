"""A small rules folder without a mistake, as texts by file name: tests break one line of it at a time."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

from service.rulebook.loading import check_rules
from service.rulebook.problems import render

SOUND: dict[str, str] = {
    name: dedent(text).lstrip("\n")
    for name, text in {
        "vocabulary.yaml": """
            appliances:
              dishwasher: washes dishes
              range_hood: the fan over the stove
              other: not ours
            symptoms:
              leak: water where none belongs
              no_drain: the water stays
              slow_drain: the water goes slowly
              light_out: a lamp stays dark
              fan_dead: the fan does not run
            hazards:
              smoke: smoke
              sparks: sparks
              shock: a shock
              burning_smell: smells burned
              hot_wiring: a hot plug
              water_near_power: water at a plug
            urgency:
              active_leak: water still comes
            intents:
              book: wants somebody to come
            facts:
              brand: as written
              after: what happened before
              age_years: how old
              tried: what was done
            fact_values:
              after: [new_disposal, storm]
              tried: [cleaned_filter, reset_breaker]
            """,
        "dangers.yaml": "dangers:\n"
        + "".join(
            f"""  - code: {code}
    signal: WARNING
    rank: {rank}
    signs: {{en: ["{code.replace("_", " ")}"], es: ["peligro {rank}"]}}
    instruction:
      say: {{en: Stay away from it., es: No se acerque.}}
      source: H1 state page
    ask_after: {{en: Is everybody out?, es: ¿Ya salieron todos?}}
    desk: somebody is in danger
    why: people come first
    source: H1 state page
    examples:
      - {{says: "{code.replace("_", " ")} in here", means: [{code}]}}
"""
            for rank, code in enumerate(
                ("smoke", "sparks", "shock", "burning_smell", "hot_wiring", "water_near_power"), start=1
            )
        )
        + """urgency:
  - code: active_leak
    signs: {en: [still leaking], es: [sigue goteando]}
    why: water does damage by the hour
    examples:
      - {says: it is still leaking, means: [active_leak]}
on_site:
  - dangers: [smoke, shock]
    do: Breaker off and proved dead before all else.
    minutes: 8
    passes: dead at the terminals
    fails: it stays off
    cautions:
      - signal: DANGER
        text: {en: Prove it dead first., es: Compruebe antes que no hay corriente.}
        source: H5 national fire association page
    source: H5 national fire association page
""",
        "talk/answers.yaml": """
            rules:
              - code: yes
                alone: {en: ["yes", yep], es: [sí]}
                why: a plain yes
                examples:
                  - {says: yep, means: ["yes"], asked: yes_no}
              - code: tried=cleaned_filter
                signs: {en: [cleaned the filter], es: [limpié el filtro]}
                why: not to be asked again
                examples:
                  - {says: I cleaned the filter, means: [tried=cleaned_filter]}
            words:
              fillers: {en: [um], es: [este]}
            """,
        "talk/appliances.yaml": """
            appliances:
              - appliance: range_hood
                say: {en: range hood, es: campana}
                names: {en: [range hood, hood fan], es: [campana]}
                examples:
                  - {says: my range hood is loud, means: [appliance=range_hood]}
              - appliance: other
                say: {en: something else, es: otra cosa}
                names: {en: [furnace], es: [calefacción]}
                examples:
                  - {says: the furnace is out, means: [appliance=other]}
            """,
        "wording/en.yaml": """
            greeting: "Hello, this is {shop}."
            fee.stated: "{fee_sentence} Shall we come?"
            """,
        "wording/es.yaml": """
            greeting: "Hola, somos {shop}."
            fee.stated: "{fee_sentence} ¿Vamos?"
            """,
        "appliances/dishwasher/appliance.yaml": """
            appliance: dishwasher
            say: {en: dishwasher, es: lavaplatos}
            names: {en: [dishwasher, dish washer], es: [lavaplatos]}
            examples:
              - {says: the dish washer leaks, means: [appliance=dishwasher, leak]}
            choices:
              - {say: {en: Water stays in it, es: Se queda el agua}, means: [no_drain, slow_drain]}
              - {say: {en: It leaks, es: Gotea}, means: [leak]}
            visit: {median_min: 50, q90_min: 100}
            meanwhile:
              - symptoms: [leak]
                say: {en: Put a towel down., es: Ponga una toalla.}
                source: common practice, no source
            cautions:
              - signal: WARNING
                text: {en: Power off first., es: Primero corte la corriente.}
                source: common practice, no source
            proof:
              - {en: A full fill and a full drain., es: Un llenado y un vaciado completos.}
            before_closing:
              - {en: Look underneath for leaks., es: Busque fugas por debajo.}
            """,
        "appliances/dishwasher/symptoms.yaml": """
            symptoms:
              - code: no_drain
                say: {en: water stays in it, es: se queda el agua}
                trade: does not drain
                functions: {en: [drain], es: [desagua]}
                why: the commonest call
                examples:
                  - {says: it does not drain, means: [no_drain]}
              - code: slow_drain
                say: {en: drains but slowly, es: desagua lento}
                trade: drains slowly
                signs: {en: ["drain * [slow|slowly]", "=trickle"], es: ["desagua (muy) lento"]}
                over: [no_drain]
                why: another list of causes
                examples:
                  - {says: it drains real slow, means: [slow_drain], lacks: [no_drain]}
              - code: leak
                say: {en: it leaks, es: gotea}
                trade: leaks
                signs: {en: [leak], es: [gotea]}
                why: floors rot
                examples:
                  - {says: it leaks, means: [leak]}
            """,
        "appliances/dishwasher/observations.yaml": """
            observations:
              - id: sink_backs_up
                ask: {en: Does the sink back up?, es: ¿Se llena el fregadero?}
                trade: sink backs up
                when: [no_drain, slow_drain]
                signs: {en: [sink backs up], es: [se llena el fregadero]}
                why: tells line from machine
                examples:
                  - {says: the sink backs up, means: [sink_backs_up=yes]}
              - id: new_disposal
                ask: {en: Was a disposal put in lately?, es: ¿Pusieron un triturador nuevo?}
                trade: new disposal
                from_facts: [{fact: after, equals: new_disposal, means: yes}]
                why: the plug may still be in it
              - id: drain_type
                who: technician
                ask: {en: Which drain has it?, es: ¿Qué desagüe tiene?}
                trade: drain type
                answers:
                  - {value: valve, say: {en: a valve, es: una válvula}}
                  - {value: pump, say: {en: a pump, es: una bomba}}
                why: the seal belongs to a valve
            """,
        "appliances/dishwasher/causes.yaml": """
            something_else: 1
            causes:
              - id: seal_worn
                name: {en: drain seal worn, es: sello gastado}
                weight: 5
                evidence:
                  slow_drain: almost always
                  drain_type: {valve: always, pump: never}
                parts: [seal_kit]
                tools: [nut_driver]
                repair_min: 15
                repair: fit a new seal
                source: common practice, no source
              - id: filter_clogged
                name: {en: filter clogged, es: filtro tapado}
                weight: 8
                evidence: {no_drain: often, sink_backs_up: rarely}
                repair_min: 5
                repair: clean the filter
                owner: yes
                source: common practice, no source
            """,
        "appliances/dishwasher/checks.yaml": """
            checks:
              - id: clean_filter
                title: {en: Clean the filter, es: Limpie el filtro}
                touches: [filter]
                power: off
                water: either
                opens: user_filter
                tools: [glove]
                may_be: [sharp]
                not_for: {en: anyone who cannot bend, es: quien no pueda agacharse}
                ends_if: {en: you see broken glass, es: ve vidrio roto}
                cautions:
                  - signal: WARNING
                    text: {en: Breaker off first. Glass may be sharp., es: "Baje el breaker antes. El vidrio corta, es filoso."}
                    source: common practice, no source
                steps:
                  - {en: Turn the filter left and lift it out., es: Gire el filtro a la izquierda y sáquelo.}
                see: {en: "A clean mesh. If not, rinse again.", es: "Malla limpia. Si no, enjuague otra vez."}
                helped: {en: Does it drain now?, es: ¿Ya desagua?}
                minutes: 5
                effort: 2
                when: [no_drain]
                settles: {filter_clogged: very often}
                unsafe_for: [seal_worn]
                never_if: [leak, drain_type=pump]
                done_if_tried: [cleaned_filter]
                why: half of all calls
                source: common practice, no source
              - id: breaker_once
                title: {en: Reset the breaker once, es: Suba el breaker una vez}
                touches: [breaker]
                power: either
                water: either
                reset: yes
                looks: panel
                not_for: {en: anyone with wet hands, es: quien tenga las manos mojadas}
                ends_if: {en: it trips, es: se vuelve a botar}
                cautions:
                  - signal: WARNING
                    text: {en: Dry hands. One time only., es: Manos secas. Una sola vez.}
                    source: common practice, no source
                steps:
                  - {en: Push the breaker off and then on., es: Baje el breaker y luego súbalo.}
                see: {en: It stays on. If not leave it off., es: Se queda arriba. Si no déjelo abajo.}
                helped: {en: Does it have power?, es: ¿Ya tiene corriente?}
                minutes: 3
                effort: 1
                settles: {filter_clogged: rarely}
                never_if: [burning_smell, hot_wiring, shock, smoke, sparks, water_near_power]
                why: a trip to the panel beats a trip by van
                source: common practice, no source
            """,
        "appliances/dishwasher/tests.yaml": """
            openings:
              - {id: toe_panel, do: toe panel off, minutes: 3, tools: [nut_driver]}
            tests:
              - id: full_drain
                do: fill and watch it drain
                minutes: 6
                place: front
                finds: {filter_clogged: often}
                passes: empty in two minutes
                fails: water stays
                source: common practice, no source
              - id: measure_seal
                do: measure the seal
                minutes: 8
                tools: [nut_driver]
                place: underneath
                opening: toe_panel
                after: [full_drain]
                finds: {seal_worn: always}
                passes: about 24 mm
                fails: about 18 mm
                source: common practice, no source
            """,
        "appliances/dishwasher/parts.yaml": """
            parts:
              - id: seal_kit
                name: {en: drain seal kit, es: juego de sello}
                price_low_cents: 1200
                price_high_cents: 3500
                carry_cents: 80
                volume_l: 0.5
            tools:
              - {id: nut_driver, name: 1/4-inch nut driver, standard: yes}
            """,
        "shops/corner.yaml": """
            shop: corner
            name: Corner Repair
            number: "+15055550100"
            office_phone: "+15055550101"
            timezone: America/Denver
            serves: [dishwasher]
            refer:
              other: {en: Try a plumber., es: Llame a un plomero.}
            refer_otherwise: {en: We cannot help., es: No podemos ayudar.}
            area:
              "87102": {lat: 35.08, lon: -106.65}
              02134: {lat: 42.35, lon: -71.13}
            hours:
              mon: {start: 08:00, end: 12:30}
            technicians:
              - id: ray
                name: Ray
                skills: [dishwasher]
                days:
                  mon: {start: 08:00, end: 12:30}
                start_zip: "87102"
            windows: {starts: [08:00, 10:00]}
            fees:
              visit_cents: 8900
              say: {en: "A visit is {fee}.", es: "La visita cuesta {fee}."}
            brands:
              serves: {Mesadora: [mesadora]}
              refuses: {Zephrine: [zefrine]}
            on_call:
              - {name: Ray, number: "+15055550111"}
            weights: {dishwasher: {seal_worn: 6}}
            checks: {dishwasher: {breaker_once: {offered: no, why: old wiring}}}
            wording: {en: {greeting: "Corner Repair here, {shop}."}}
            """,
    }.items()
}


def write(folder: Path, files: dict[str, str] | None = None) -> Path:
    """*files* (or all sound ones) under ``folder/rules``; the rules folder."""
    rules = folder / "rules"
    for name, text in (SOUND if files is None else files).items():
        path = rules / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return rules


def broken(file: str, old: str, new: str) -> dict[str, str]:
    """The sound files with the one place in *file* that reads *old* changed to *new*."""
    name = file if file in SOUND else f"appliances/dishwasher/{file}"
    assert SOUND[name].count(old) == 1, f"{old!r} stands {SOUND[name].count(old)} times in {name}"
    return {**SOUND, name: SOUND[name].replace(old, new)}


def told(rules: Path) -> str:
    """What the check says of *rules*, as the author reads it."""
    return render(check_rules(rules))
