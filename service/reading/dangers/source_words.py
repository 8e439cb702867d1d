"""The small words by which a danger is tied to what it comes from, and the things that are no machine of a house."""

from __future__ import annotations


def listed(words: str) -> frozenset[str]:
    """The *words* of a list written as one string."""
    return frozenset(words.split())


MACHINES = listed("""
    dryer dryers washer washers washing fridge fridges refrigerator freezer oven ovens stove stoves range ranges cooktop
    cooktops microwave dishwasher disposal compactor hood motor engine machine icemaker cooler loader appliance unit outlet plug
    plugs cord cable wire wires wiring socket panel breaker burner burners element board control controls vent duct lint
    drum belt pump compressor toaster strip knob knobs button buttons thermostat valve secadora lavadora refri
    refrigerador nevera congelador horno estufa parrilla microondas lavaplatos lavavajillas lavatrastes triturador
    compactadora campana maquina aparato hielera cava enchufe contacto clavija extension tomacorriente cables alambre
    alambres tablero quemador quemadores hornilla hornillas resistencia banda bomba compresor perilla perillas refris
    hornos secadoras lavadoras estufas dishwashers microwaves boton botones ducto pelusa lavarropas heladera
    microwaves hoods disposals freezers refrigerators compactors icemakers
""")
"""Machines of the house and their parts: where one is named, what is told is the machine's."""

SOURCES = listed("""
    candle candles incense sage smudge smudging vape vapes vaping vaper cigarette cigarettes cigar cigars weed joint
    joints hookah blunt bong cart tobacco chiminea fireplace campfire bonfire bonfires firepit pit barbecue bbq barbeque
    charcoal brazier smoker fireworks firecrackers wildfire wildfires forest brush prescribed woodstove pellet chimney
    sauna tiki luminarias luminaria farmer ranch crews neighbor neighbors nextdoor grill grilling cookout roaster
    roasting vela velas veladora veladoras incienso copal salvia sahumerio cigarro cigarros cigarrillo vapeador puros
    chimenea fogata fogatas hoguera asador asadores parrillada carbon lena anafre brasero weeds leaves curling
    straightener ironing matanza barbacoa hierba hierbas ramas hojas pasto zacate field stubble cuetes cohetes vecino
    vecinos vecina vecinas quemazon basurero
""")
"""What smokes or smells and is no machine."""

COOKED = listed("""
    poblanos scallops shrimp peppers jalapenos poblano habaneros bacon toast bread popcorn pizza steak steaks
    fajitas burgers burger fish chicken wok skillet pan brisket ribs brownies cookies cookie cake pie casserole
    tortillas tortilla chile chiles chili sopaipillas beans rice garlic onions cheese turkey lasagna quesadilla
    quesadillas pancakes eggs dinner supper lunch breakfast bagel bagels waffles fries wings sausage chorizo tamales
    roast food cooking marshmallows candy caramel sugar comal tocino palomitas carne carnes pollo pescado frijoles
    arroz ajo cebolla queso comida cena almuerzo desayuno lonche galletas pastel tostadas tostada sarten cazuela
    olla bunuelos churros elotes papas chuletas salsa caldo huevos masa
""")
"""What is cooked, and in what."""

COOKING = listed("""
    charred charring frying fried fry sears searing seared torched torching grilled grilling grills bbqing
    barbecuing roasting roast roasts roasted cooks cooking cooked cook broiling broiled blackened toasting saging
    smudging vaping smudge friendo frie freia asando asaba aso tatemando tatemo tatema cocinando cocino cocina
    cocinaba tostando tosto guisando guiso dorando haciendo vapeando sahumando
""") - frozenset(["cocina"])
"""What people do that smokes."""

GAS_SOURCES = listed("""
    trash garbage litter dog dogs cat cats skunk skunks diaper diapers eggs onions sewer drain drains lawnmower mower
    truck car generator gasoline paint varnish beans sulfur asparagus kimchi broccoli cabbage teenager husband hubby kid
    kids baby boyfriend brother uncle grandpa grandma egg compost basura zorrillo zorrillos perro perros gato gatos
    arenero arena panal panales drenaje coladera huevo huevos gasolina carro troca pintura abuelo abuela marido esposo
    hijo tio suegro brocoli coliflor repollo caño cano burrito burritos tacos chili cheese roadkill septic manure
    fertilizer swamp marsh feedlot refinery boat moto motorcycle atv snowblower chainsaw weedeater weedwhacker thinner
    sharpie glue socks feet shoes boots farts lighter toilet cows lancha podadora queso fosa estiercol abono refineria
    pies calcetines zapatos pegamento tinner caca popo vacas pedo pedos
""")
"""What a smell that was taken for gas may turn out to be."""

GAS_THINGS = GAS_SOURCES - listed("""
    dog dogs cat cats teenager husband hubby kid kids baby boyfriend brother uncle grandpa grandma perro perros gato gatos
    abuelo abuela marido esposo hijo tio suegro
""")
"""Those of them that turn on no burner."""

LINKS = listed("""
    from of off by is was were are its thats being to be de d del por x es era eran son fue fueron resulto
""")
"""Words that tie a source to what stands before: “smoke from”, “the smell is”."""

TELLING_WHAT = listed("""
    is was its thats be being from es era eran son fue resulto that it just
""")
"""Words that tell what a thing is."""

PLACED = listed("in on over across outside around from at en por afuera sobre")

MEANT_FIRES = listed("""
    fireplace campfire bonfire bonfires firepit pit barbecue bbq chiminea grill cookout smoker woodstove tiki wildfire
    wildfires mountain mountains forest bosque crews prescribed chimenea fogata fogatas asador asadores parrillada
    brasero luminarias cerro cerros monte sierra street streets calle calles road carretera highway freeway cuadra
""")
"""Fires that are meant to burn, or burn in the hills and streets."""

OUTDOORS = listed("""
    street streets town city valley mountains mountain freeway highway interstate park patio porch yard backyard
    campground outside downtown westside bosque calle calles cerro cerros monte sierra ciudad valle carretera parque
    jardin afuera
""")
"""Where smoke is nobody's machine's."""

FOR_CAUSE = listed("because cause cuz coz cus bc since due porque xq pq porq pork por x")

VEHICLES = listed("""
    trucks cars suv van motorcycle mower brakes brake tires tire truck car radiator exhaust muffler tractor bus
    semi pickup trailer reefer clutch transmission tailpipe frenos llantas troca carro camion camioneta mofle
    radiador
""")
"""What smokes on the road."""

FED = listed("""
    beans bean chili burrito burritos tacos broccoli cabbage frijoles frijol repollo
""")
"""What people eat that makes gas, ..."""

BELLY = listed("""
    fart farts farted farting fartin burp burps burping stomach tummy belly gassy toot toots pedo pedos pedorro panza
    estomago
""")
"""... and where."""

ROOMS = listed("""
    kitchen house place apartment apt room home cocina casa cuarto depa departamento apartamento
""")

DOUBTED = listed("""
    think thinks thought figured assumed maybe might could probably guess swears creo cree pense pensaba quiza quizas
""")
"""Words before a danger that make a guess of what is told about it."""

SO = listed("""
    so set sets setting tripped trips triggered triggers made makes causes caused eso activo activa disparo filled fills
    fill llena lleno llenaron full smoked stunk stank asi pouring sending puffing throwing echando sacando aventando
""")
"""Words that tell a consequence."""

TIMES = listed("""
    when while whenever after before until cuando mientras despues antes then now luego ahora
""")

UNTYING = listed("""
    not no nope isnt wasnt arent doesnt dont didnt never but pero sino except maybe might could perhaps probably think
    thought figured figure assumed guess like looks seems if unsure wonder hope either tampoco ni creo pense pensaba
    quiza quizas parece parecia como si says said dice dicen dijo and y besides plus also tambien ademas sin without
""")
"""Words behind which nothing is tied for sure: a doubt, a denial, something added."""

BETWEEN = listed("and y")
"""Words that may stand between what was burnt and what came of it."""

BEFORE_BURNT = listed("""
    burned burnt burn burning scorched overcooked forgot left torching quemo queme quemaron quemado quemada quemados
    olvido queman quemando quemamos
""")

RUBBISH = listed("""
        ditch ditches fields weeds pasture acequia acequias trash tires llantas basura garbage rubber brush leaves
    cardboard carton hojas plastico
""")
"""What people burn outside."""

EATING = listed("""
    eat eats ate eating had night come comio comimos comer cena ceno comen
""")


ADDING = listed("and y plus also tambien or o but pero")

ALARM = listed("""
    alarm alarms detector detectors alarma alarmas detectores thing thingy beeper
""")

OF_A_MACHINE = listed("bottom front back top side rear lower upper vent its kick indoor")
"""Before “grill”: the grille of a machine."""

PARTS = listed("""
    motor cord cable plug outlet panel belt wire wires compressor enchufe contacto clavija cables tablero compresor
    banda
""")
"""Parts that never smoke for a dinner."""
