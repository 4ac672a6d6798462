# Spanish, as crews of queen breeders in Mexico, Central and South America and Spain type
# and dictate it. The rules are those of en.lex. Accents may be written: they are folded.
#
# Done: the preterite and the participle. The present is bare: "muevo las celdas ahorita"
# is ahead. Without accents "injerto" is both "injertó" and "injerto": it stands under
# both forms.
language es

# --- spellings: short forms, lost h, b for v, s for c and z, what dictation makes of words
same pues: ps | pz | pss
same que: q | ke | qe | qu | qeu
same "por que": xq | pq | porq | xke | porke | xque
same por: x/
same para: p/ | pra
same "para el": pal | pa'l
same "para la": pa'la
same con: c/
same de: dd
same "de la": dela | d'la
same "a la": ala
same "a las": alas
same "en la": enla
same "en el": enel
same "del": d'el
same esta: ta | 'ta
same están: stan | estn
same estoy: toy | stoy
same también: tmb | tb | tbn | tambn | tmbn | tanbien
same mañana: mnn | mnana | manan | mañna | manhana
same hoy: oy | hoi
same ayer: aller | ayr | hayer
same ahorita: orita | aorita | horita | haorita | ahorit
same ahora: aora | haora | ahor
same anoche: anoxe
same después: dsp | dps | dspues | desps
same más: mass
same gracias: grax | grx | grcs | grax | graciass
same noche: noxe
same hora: ora
same horas: oras
same hace: ase | hase
same hice: ise | hize | hise
same hicimos: isimos | hisimos | icimos | hizimos
same hay: hai | aii
same había: abia | avia | havia
same hasta: asta
same quiero: kiero | qiero
same quién: kien | qien
same cuándo: kuando | cuand | qando
same cuántas: kuantas | quantas | cuants
same aquí: aki
same "a ver": aver
same ninguna: nignuna | ningna
same nada: nda | nad
same todo: tdo | to'o
same todas: tdas | toas
same vamos: bamos | vmos
same voy: boi | voi
same va: ba
same vi: bi
same reina: rreina | reyna | reuna
same reinas: reynas | rreinas | reians
same celdas: seldas | celds | cldas | zeldas | celads | cedlas
same celda: selda | celd | zelda
same núcleos: nucles | nuclios | nukleos | nuclos | nucelos
same núcleo: nuclio | nukleo | nuclo
same huevos: huebos | uevos | uebos | guevos | hueos | huevs
same huevo: huebo | uevo | guevo
same criadora: kriadora | criadra | criador
same lote: lotte
same jarabe: jarave | harabe
same panal: panl | pnal
same injerté: inyerte
same injertamos: inyertamos
same encerré: encere
same encerramos: ensarramos | enceramos
same selladas: celladas | seyadas | seladas
same operculadas: operculads | operkuladas
same aceptadas: aseptadas | acetadas | azeptadas | aceptads
same aceptaron: aseptaron | acetaron | acptaron
same saqué: sake | saqe | saquee | zaque
same moví: mobi
same movimos: mobimos
same nacieron: nazieron
same vírgenes: virjenes | birgenes | virgnes
same revisé: revice | revize
same listo: lsto | lizto
same fecundadas: fecundads
same postura: posturra | postua
same puse: puze | pusse
same pusimos: pucimos | puzimos
same traslarvé: traslarbe | trazlarve
same traslarvamos: traslarbamos
same zánganos: sanganos | zangnos
same zángano: sangano
same escasez: escases | escacez | escaces
same flujo: fluxo
same néctar: nectr
same acabadora: acavadora | akabadora
same "por favor": xfa | porfa | porfis | porfi | porfavor | xfavor | plis | plisss | porfas
same "qué": qeh
same azul: asul
same amarillo: amariyo
same amarilla: amariya
same blanco: vlanco
same verde: berde

# --- numbers
ZERO=0: cero
DIGIT=1: uno | una
DIGIT=2: dos
DIGIT=3: tres
DIGIT=4: cuatro | quatro
DIGIT=5: cinco | sinco
DIGIT=6: seis | ceis
DIGIT=7: siete | ciete
DIGIT=8: ocho
DIGIT=9: nueve
TEEN=10: diez | dies
TEEN=11: once | onse
TEEN=12: doce | dose
TEEN=13: trece | trese
TEEN=14: catorce | catorse
TEEN=15: quince | kince | quinse
TEEN=16: dieciséis | diez y seis | diesiseis
TEEN=17: diecisiete | diez y siete | diesisiete
TEEN=18: dieciocho | diez y ocho | diesiocho
TEEN=19: diecinueve | diez y nueve | diesinueve
TENS=20: veinte | veinti | beinte
TEEN=21: veintiuno | veintiuna | veintiún
TEEN=22: veintidós
TEEN=23: veintitrés
TEEN=24: veinticuatro
TEEN=25: veinticinco
TEEN=26: veintiséis
TEEN=27: veintisiete
TEEN=28: veintiocho
TEEN=29: veintinueve
TEEN=31: treintaiuno | treintiuno | treintayuno | treintaiuna | treintiuna
TEEN=32: treintaidos | treintidos | treintaydos
TEEN=33: treintaitres | treintitres | treintaytres
TEEN=34: treintaicuatro | treinticuatro | treintaycuatro
TEEN=35: treintaicinco | treinticinco | treintaycinco
TEEN=36: treintaiseis | treintiseis | treintayseis
TEEN=37: treintaisiete | treintisiete | treintaysiete
TEEN=38: treintaiocho | treintiocho | treintayocho
TEEN=39: treintainueve | treintinueve | treintaynueve
TEEN=41: cuarentaiuno | cuarentiuno | cuarentayuno | cuarentaiuna | cuarentiuna
TEEN=42: cuarentaidos | cuarentidos | cuarentaydos
TEEN=43: cuarentaitres | cuarentitres | cuarentaytres
TEEN=44: cuarentaicuatro | cuarenticuatro | cuarentaycuatro
TEEN=45: cuarentaicinco | cuarenticinco | cuarentaycinco
TEEN=46: cuarentaiseis | cuarentiseis | cuarentayseis
TEEN=47: cuarentaisiete | cuarentisiete | cuarentaysiete
TEEN=48: cuarentaiocho | cuarentiocho | cuarentayocho
TEEN=49: cuarentainueve | cuarentinueve | cuarentaynueve
TEEN=51: cincuentaiuno | cincuentiuno | cincuentayuno | cincuentaiuna | cincuentiuna
TEEN=52: cincuentaidos | cincuentidos | cincuentaydos
TEEN=53: cincuentaitres | cincuentitres | cincuentaytres
TEEN=54: cincuentaicuatro | cincuenticuatro | cincuentaycuatro
TEEN=55: cincuentaicinco | cincuenticinco | cincuentaycinco
TEEN=56: cincuentaiseis | cincuentiseis | cincuentayseis
TEEN=57: cincuentaisiete | cincuentisiete | cincuentaysiete
TEEN=58: cincuentaiocho | cincuentiocho | cincuentayocho
TEEN=59: cincuentainueve | cincuentinueve | cincuentaynueve
TEEN=61: sesentaiuno | sesentiuno | sesentayuno | sesentaiuna | sesentiuna
TEEN=62: sesentaidos | sesentidos | sesentaydos
TEEN=63: sesentaitres | sesentitres | sesentaytres
TEEN=64: sesentaicuatro | sesenticuatro | sesentaycuatro
TEEN=65: sesentaicinco | sesenticinco | sesentaycinco
TEEN=66: sesentaiseis | sesentiseis | sesentayseis
TEEN=67: sesentaisiete | sesentisiete | sesentaysiete
TEEN=68: sesentaiocho | sesentiocho | sesentayocho
TEEN=69: sesentainueve | sesentinueve | sesentaynueve
TEEN=71: setentaiuno | setentiuno | setentayuno | setentaiuna | setentiuna
TEEN=72: setentaidos | setentidos | setentaydos
TEEN=73: setentaitres | setentitres | setentaytres
TEEN=74: setentaicuatro | setenticuatro | setentaycuatro
TEEN=75: setentaicinco | setenticinco | setentaycinco
TEEN=76: setentaiseis | setentiseis | setentayseis
TEEN=77: setentaisiete | setentisiete | setentaysiete
TEEN=78: setentaiocho | setentiocho | setentayocho
TEEN=79: setentainueve | setentinueve | setentaynueve
TEEN=81: ochentaiuno | ochentiuno | ochentayuno | ochentaiuna | ochentiuna
TEEN=82: ochentaidos | ochentidos | ochentaydos
TEEN=83: ochentaitres | ochentitres | ochentaytres
TEEN=84: ochentaicuatro | ochenticuatro | ochentaycuatro
TEEN=85: ochentaicinco | ochenticinco | ochentaycinco
TEEN=86: ochentaiseis | ochentiseis | ochentayseis
TEEN=87: ochentaisiete | ochentisiete | ochentaysiete
TEEN=88: ochentaiocho | ochentiocho | ochentayocho
TEEN=89: ochentainueve | ochentinueve | ochentaynueve
TEEN=91: noventaiuno | noventiuno | noventayuno | noventaiuna | noventiuna
TEEN=92: noventaidos | noventidos | noventaydos
TEEN=93: noventaitres | noventitres | noventaytres
TEEN=94: noventaicuatro | noventicuatro | noventaycuatro
TEEN=95: noventaicinco | noventicinco | noventaycinco
TEEN=96: noventaiseis | noventiseis | noventayseis
TEEN=97: noventaisiete | noventisiete | noventaysiete
TEEN=98: noventaiocho | noventiocho | noventayocho
TEEN=99: noventainueve | noventinueve | noventaynueve
TENS=30: treinta | trenta
TENS=40: cuarenta | quarenta
TENS=50: cincuenta | sincuenta | cinquenta
TENS=60: sesenta
TENS=70: setenta
TENS=80: ochenta
TENS=90: noventa
HUNDRED=100: cien | ciento
HUNDRED=200: doscientos | doscientas
ONE: un | una | uno | una sola | un solo
COUPLE=2: un par | par | un par de | par de | una pareja
DOZEN=12: docena | una docena | una docena de
ORDINAL=1: primera | primer | primero | la primera | el primero | 1ra | 1er | 1a
ORDINAL=2: segunda | segundo | la segunda | el segundo | 2da | 2do | 2a
ORDINAL=3: tercera | tercer | tercero | la tercera | el tercero | 3ra | 3er
ORDINAL=4: cuarta | la cuarta | el cuarto | 4ta | 4to
ORDINAL=5: quinta | quinto | 5ta
NUMBERSIGN: número | num | no. | n° | nº | nro | nro.
PERCENT: por ciento | porciento
TIMES: por | x
DEGREE: grados | grado
DEGREE=c: grados centígrados | centígrados | grados c
DEGREE=f: grados f | grados farenheit

# --- clock and calendar
AT: a las | desde las | sobre las | como a las | a eso de las | por ahí de las | por ahí a las | tipo | tipo las | desde | a partir de las | cerca de las | eran las | siendo las
APPROX: como | como a | como a las | como a la | a eso de | a eso de las | a eso de la | tipo | tipo las | unos | unas | casi | alrededor de | por ahí de | por ahí de las | más o menos a las | sobre las | cerca de las | pasaditas las | como unos | como unas | aproximadamente | aprox | hace como | como desde
PART=am: am | a.m | a.m. | de la mañana | de la madrugada | por la mañana | en la mañana | a la mañana | de mañana | am de la mañana | madrugada
PART=pm: pm | p.m | p.m. | de la tarde | de la noche | por la tarde | por la noche | en la tarde | en la noche | del mediodía | del medio día | del día | tarde | noche | de tarde | de noche
PARTDAY=0am: esta mañana | hoy temprano | hoy en la mañana | hoy por la mañana | hoy a la mañana | hoy de mañana | en la mañana | por la mañana | a la mañana | temprano | tempranito | de mañanita | al amanecer | a primera hora | muy temprano | bien temprano | de madrugada | en la madrugada | hoy en la madrugada | antes del desayuno | hoy tempranito | esta madrugada | con la fresca
PARTDAY=0pm: esta tarde | hoy en la tarde | hoy por la tarde | hoy a la tarde | hoy de tarde | en la tarde | por la tarde | a la tarde | esta noche | hoy en la noche | hoy por la noche | al atardecer | tardecito | después de comer | después del almuerzo | al oscurecer | en la tardecita | ya tarde
PARTDAY=-1am: ayer en la mañana | ayer por la mañana | ayer a la mañana | ayer de mañana | ayer temprano | ayer tempranito
PARTDAY=-1pm: anoche | ayer en la tarde | ayer por la tarde | ayer a la tarde | ayer de tarde | ayer en la noche | ayer por la noche | ayer tarde | ayer noche | toda la noche | durante la noche | por la noche de ayer
PARTDAY=1am: mañana en la mañana | mañana por la mañana | mañana temprano | mañana a primera hora | mañana a la mañana | mañana tempranito
PARTDAY=1pm: mañana en la tarde | mañana por la tarde | mañana en la noche | mañana por la noche | mañana a la tarde
DAY=0: hoy | hoy mismo | hoy día | el día de hoy | al rato de hoy
DAY=-1: ayer | el día de ayer | el día anterior
DAY=-2: antier | anteayer | antes de ayer | antiayer | antes de anoche | anteanoche
DAY=1: mañana | el día de mañana | al día siguiente | mañana mismo
DAY=2: pasado mañana
WEEKDAY=1: lunes | el lunes | este lunes | lun
WEEKDAY=2: martes | el martes | este martes
WEEKDAY=3: miércoles | el miércoles | este miércoles | mié
WEEKDAY=4: jueves | el jueves | este jueves | jue
WEEKDAY=5: viernes | el viernes | este viernes | vie
WEEKDAY=6: sábado | el sábado | este sábado | sáb
WEEKDAY=7: domingo | el domingo | este domingo | dom
MONTH=1: enero | ene
MONTH=2: febrero
MONTH=3: marzo | mzo
MONTH=4: abril | abr
MONTH=5: mayo
MONTH=6: junio
MONTH=7: julio
MONTH=8: agosto
MONTH=9: septiembre | setiembre
MONTH=10: octubre
MONTH=11: noviembre
MONTH=12: diciembre | dic
LAST: pasado | pasada | el pasado | la pasada | último | última
NEXT: próximo | próxima | que viene | el próximo | la próxima | siguiente | entrante
NOON: mediodía | a mediodía | al mediodía | medio día | al medio día | las doce del día | a medio día
MIDNIGHT: medianoche | a medianoche | media noche | a media noche
ANDHALF: y media
WITHHALF: y medio | y media
ANDQUARTER: y cuarto
QUARTER: cuarto | un cuarto | cuartos
PAST: pasadas | pasaditas | pasadas las
TILL: para las | para la | faltando
LESS: menos
OCLOCK: en punto | exactas
ISH: y pico | y algo | y fracción | y tantos
UNIT=min: minuto | minutos | minutitos
UNIT=hour: hora | horas | hrs | hs
UNIT=day: día | días
UNITEND=day: d
UNIT=week: semana | semanas
AGO: atrás
SINCE: hace | hará | desde hace | hace como | hace unos | hace unas | hace ya | hará unos | hará como | hace más o menos
HALFUNIT: media | medio
JUSTNOW: ahorita mismo | ahora mismo | recién | hace un momento | hace un momentito | hace un minuto | hace nada | hace poquito | hace poco | ahorita ahorita | ahoritita | acabo de | acabamos de | acaban de | acaba de | en este momento | en este instante | ahora | ahorita | recientito | recién ahorita
JUSTDONE: acabo de | acabamos de | acaban de | acaba de | acabé de | acabaron de | termino de | terminé de | terminamos de | terminaron de | recién terminé de | recién terminamos de | ya terminé de | ya terminamos de | ya acabé de | ya acabamos de
EARLIER: hace rato | hace un rato | hace ratito | hace un ratito | hace ratos | denantes | enantes | hace unas horas | hace un buen rato
OLD: de edad | de nacidas | de nacida | de vida
UNDER: menos de | bajo | bajo un | bajo una | bajo el | bajo los | bajo las | debajo de | no más de | a lo más | máximo | cuando mucho | a lo mucho | hasta | inferior a
OVERN: más de | arriba de | encima de | por encima de | mínimo | al menos | por lo menos | no menos de | pasan de | pasadas de | como mínimo

# --- measures
LITREUNIT=1: l | lt | lts | ltr | litro | litros | litrito | litritos
LITREUNIT=3.785: galón | galones
LITREUNIT=0.001: ml | mililitros | mililitro | cc
JARUNIT: frasco | frascos | bote | botes | botella | botellas | tarro | tarros | bolsa | bolsas | cubeta | cubetas | balde | baldes | jarra | jarras | taza | tazas | vaso | vasos | bolsita | bolsitas | envase | envases | garrafa | garrafas | bidón | bidones | pomo | pomos
KILOUNIT=1: kg | kgs | kilo | kilos | kilito | kilitos | kilogramo | kilogramos
KILOUNIT=0.4536: libra | libras | lb | lbs
EACH: cada una | cada uno | c/u | a cada una | a cada uno | cada cual | de a | per cápita | cada | a cada | por cada | cada una de | a cada una de

# --- names and kinds of names
COLOUR=red: rojo | roja | rojos | rojas | colorado | colorada | rojito
COLOUR=blue: azul | azules | azulito | celeste
COLOUR=green: verde | verdes | verdecito
COLOUR=yellow: amarillo | amarilla | amarillos | amarillas | amarillito
COLOUR=white: blanco | blanca | blancos | blancas | blanquito
COLOUR=orange: naranja | anaranjado | anaranjada | naranjado
COLOUR=purple: morado | morada | morados | moradas | púrpura | lila | violeta
COLOUR=pink: rosa | rosado | rosada | rosita
COLOUR=black: negro | negra | negros | negras | negrito
COLOUR=grey: gris | grises | plateado | plateada
COLOUR=brown: café | marrón
COLOUR=gold: dorado | dorada
COLOUR=turquoise: turquesa
PINWORD: pin | chinche | chinches | chincheta | chinchetas | alfiler | alfileres | marca | marcada | marcado | punto | tachuela | tachuelas | banderita | bandera | etiqueta | puntito | marquita | pinchito
BATCHWORD: lote | lotes | tanda | tandas | camada | camadas | ronda | rondas | partida | serie | hornada
BREEDERWORD: madre | madres | reina | reina madre | madre reina | reina mamá | mamá | mamá reina | la madre | la reina | pie de cría | criadora madre | reproductora | reproductoras | progenitora | madre número | reina número | donadora | donante | abeja madre | madrecita | reina donadora
BUILDERWORD: criadora | criadoras | iniciadora | iniciadoras | la criadora | colmena criadora | colmenas criadoras | colmena iniciadora | arrancadora | arrancadoras | colmena arrancadora | nodriza | colmena nodriza | nodrizas | constructora | criadora número | starter | huérfana criadora | caja criadora | incubadora de celdas viva
YARDWORD: apiario | apiarios | yarda | yardas | colmenar | colmenares | abejar | asentamiento | asentamientos | el apiario | apiario de fecundación | estación | estación de fecundación | apostadero | campo de fecundación
BAR: barra | barras | listón | listones | regleta | regletas | marco porta celdas | marco portaceldas | portaceldas | porta celdas | marco de celdas | cuadro de celdas | cuadro portaceldas | bastidor de celdas | bastidor portaceldas | barrita | barritas | travesaño | travesaños | barra de celdas | barras de celdas | marco técnico | cuadro técnico | bastidor técnico | palito | palitos | tira de celdas | porta cúpulas | portacúpulas
FROM: de | del | desde | de las | de los | de la | d | sacadas de | provenientes de | procedentes de
OF: de | de las | de los | del | d | de un total de | de entre | de esas | de esos | sobre | de la
THE: la | las | el | los | esa | ese | esta | este | esas | esos | lo | nuestra | mi
INTO: en | a | al | hacia | para | pa | en la | en el | en las | en los | a la | a las | para la | para el | dentro de | adentro de | en cada | hasta | rumbo a | camino a | allá en | acá en | ahí en | para las | para los | a los | hasta el | hasta la
AND: y | e | & | + | así como | junto con | y también | además de
WITH: con | junto con
THEN: luego | después | y luego | y después | más tarde luego | enseguida | en seguida | acto seguido | ya luego | de ahí | posteriormente | a continuación
ALSO: también | además | igual | igualmente | asimismo | aparte | de paso | y aparte
BUTCONJ: pero | aunque | sino | sin embargo | nada más que | nomás que | solo que
BOTH: ambos | ambas | los dos | las dos | los 2 | las 2 | a los dos | a las dos | a ambas | a ambos | las dos juntas | ambas dos
ALL: todas | todos | todo | toda | todita | toditas | todito | toditos | completas | completos | completa | todas ellas | todos ellos | todas las celdas | todo el lote | toda la tanda | toda la barra | todas las barras | todas las reinas | el lote completo | la barra completa | el lote entero | la tanda completa | todas sin excepción | cada una de ellas | absolutamente todas | el total | la totalidad | todas las | todos los | todo lo que había | cien por ciento | al cien | toditititas | todas todas | todas parejo
BUT: menos | excepto | salvo | quitando | a excepción de | con excepción de | fuera de | descontando | exceptuando | salvando | sin contar | todas menos | todos menos | con todo menos | todas excepto | todas salvo | todo menos | todo excepto
NONE: ninguna | ninguno | ni una | ni uno | ni una sola | ni uno solo | nada | cero | nadita | nada de nada | ni media | ninguna de ellas | ninguna de las | ninguno de los | ningunita | naranjas | cero celdas | ningún | nada nada | nada de | ninguna de | ninguno de | ni una de | ni una de las
HALF: la mitad | mitad | la otra mitad | la mitad de | la mitad de las | mitad de | la mitad de los | media barra | medio lote
REST: el resto | resto | las demás | los demás | las otras | los otros | lo demás | las restantes | los restantes | lo restante | las que faltan | las que quedan | las que faltaban | las que quedaban | las sobrantes | lo que queda | lo que quedaba | lo que faltaba | las demas de | el resto de las | el resto de
ONLY: solo | nomás | solamente | nada más | únicamente | apenas | no más | namás | nomas eso | puras | puros

# --- losses: before the number, and after it
LOSTWORD: perdí | perdimos | perdieron | perdió | se perdieron | se perdió | se me perdieron | se nos perdieron | se me perdió | se nos perdió | tiré | tiramos | tiraron | se cayeron | se cayó | se me cayeron | se nos cayeron | se me cayó | se nos cayó | se murieron | se murió | murieron | murió | se me murieron | se nos murieron | se quebraron | se quebró | se me quebraron | se nos quebraron | quebré | quebramos | se rompieron | se rompió | rompí | rompimos | se me rompieron | se nos rompieron | se secaron | se secó | faltaron | faltó | me faltaron | nos faltaron | fallaron | falló | me fallaron | nos fallaron | se dañaron | se dañó | se me dañaron | dañé | dañamos | perdiendo | menos | boté | botamos | descarté | descartamos | desechamos | deseché | eliminamos por malas | se aplastaron | se aplastó | aplasté | aplastamos | se golpearon | se golpeó | se enfriaron | se enfrió | se me enfriaron | se volaron | se voló | se me voló | se nos voló | se fueron | se escaparon | se escapó | se me escapó | se nos escaparon | se echaron a perder | se echó a perder | se malograron | se malogró | malogré | se estropearon | se abortaron | abortaron | abandonaron | rechazaron | tumbaron | destruyeron | mordieron | royeron | se comieron | se me fueron | se me fue | salieron malas | salió mala | no sirvieron | no sirvió | maté | matamos | desperdicié | se desprendieron | se despegaron | se chuparon | se voltearon | se volteó | voltearon | se me voltearon | se ladearon | se me golpearon | se nos golpearon | boto | botaron | me rechazaron | me tiraron | me botaron | me tumbaron
DEADWORD: muertas | muerta | muertos | muerto | secas | seca | secos | seco | vacías | vacía | vacíos | vacío | perdidas | perdida | perdidos | perdido | malas | mala | malos | malo | rotas | rota | rotos | roto | quebradas | quebrada | dañadas | dañada | dañados | aplastadas | aplastada | golpeadas | golpeada | fallaron | falló | fallidas | fallada | falladas | murieron | murió | se murieron | se murió | se perdieron | se perdió | se cayeron | se cayó | se rompieron | se secaron | se quebraron | no nacieron | no nació | sin nacer | no salieron | no salió | no emergieron | no eclosionaron | no prendieron | no prendió | no pegaron | no pegó | no agarraron | no agarró | no aceptaron | no las aceptaron | no aceptadas | no jalaron | no operculadas | sin opercular | sin sellar | no selladas | no sirven | no sirvieron | no sirvió | no quedaron | no se lograron | no se logró | no llegaron | abortadas | abortada | chupada | chupadas | podrida | podridas | mordida | mordidas | roída | roídas | rechazadas | rechazada | abandonadas | abandonada | tumbadas por las abejas | destruidas | enfriadas | fría | frías | descartadas | descartada | muy chicas | muy chiquitas | raquíticas | deformes | deforme | defectuosas | defectuosa | aún cerradas | todavía cerradas | siguen cerradas | todavía no | aún no | faltantes | de menos | zanganero | zanganeros | zanganeras | zanganera | sin postura | sin huevos | se echaron a perder | echadas a perder | malogradas | malograda | secaron | cayeron | rompieron | perdieron | aplastaron | abortaron | negras | aguadas | desprendidas | sin reina | fugadas | voladas | se fueron | muertas en celda | muertas en la celda | muertas en sus celdas | muy tiernas | tiernas todavía | aún tiernas | volteadas | ladeadas | se me cayeron | se nos cayeron | se me golpearon | se golpearon | se voltearon | se perdieron en el camino | se aplastaron | se enfriaron | tiradas | las rompieron | las mordieron | las tumbaron | las tiraron | se me fueron | se escaparon | se volaron | se me fue | se quebró | se me cayó | la rompieron | la mordieron | tronadas | reventadas por dentro | no jaló | no pegaron bien | mal selladas | mal pegadas

# --- holds a report back
NEG: no | nunca | ni | sin | tampoco | jamás | nadie | aún no | todavía no | no se pudo | no pude | no pudimos | no alcancé | no alcanzamos | no alcanzó | no dio tiempo | no me dio tiempo | no nos dio tiempo | no hubo tiempo | no quise | no quiso | no quisimos | olvidé | olvidamos | se me olvidó | se nos olvidó | se me pasó | se nos pasó | faltó | falta | faltan | imposible | nel | nop | nopo | nones | para nada | ni modo que | en vez de | en lugar de | a falta de | negativo | nadien | sin haber | sin hacer | sin terminar | no se hizo | no está hecho | no está listo | no se ha hecho | no hemos | no he | no han | no ha | nos faltó | me faltó | incompleto | incompleta | no fue posible | no se logró | nanais | ni madres | no'mbre | nombre no | casi no
YET: todavía | aún | sigue | siguen | sigo | seguimos | todavía no | aún no | todavía falta | todavía faltan | ya mero | ya merito | ya casi | casi listo | casi lista | casi listos | casi listas | a medias | a la mitad | por terminar | en proceso | va a la mitad | vamos a la mitad | ya no | no más todavía | pendiente | pendientes | apenas voy | apenas vamos | falta poco | ya falta poco | por hacer | sigue igual | tovía | todabia | todavia sigue | sobran | sobraron | sobrantes | sobra | sobró | muy tiernas | tiernas todavía | aún tiernas | todavía tiernas | verdes todavía
PLAN: empezando a | empiezo a | empezamos a | comenzamos a | comienzo a | comenzando a | me pongo a | nos ponemos a | voy a | vas a | va a | vamos a | van a | iba a | íbamos a | iban a | ir a | iré a | iremos a | hay que | habrá que | habría que | había que | tengo que | tenemos que | tiene que | tienen que | tendría que | tendremos que | tenía que | teníamos que | debo | debemos | deben | debe | debería | deberíamos | deberían | hacer mañana | quiero | queremos | quieren | quisiera | quisiéramos | quería | queríamos | necesito | necesitamos | necesita | necesitan | ocupo | ocupamos | se ocupa | se necesita | se necesitan | falta | faltan | faltaría | pienso | pensamos | piensan | pensaba | pensábamos | planeo | planeamos | planeamos para | espero | esperamos | esperemos | esperando | ojalá | ojala y | a ver si | a ver | intento | intentamos | intentaré | intentar | trato de | tratamos de | trataré | tratar de | podemos | puedo | puede | pueden | puedes | podría | podríamos | podrían | podés | si es que | si acaso | cuando | en cuanto | apenas pueda | apenas podamos | para que | antes de | antes de que | antes | después de que | hasta que | mientras | por favor | favor de | favor | no olviden | no se olviden | no olvidar | no olvides | no se te olvide | recuerden | recuerda | recordar | recuérdenme | acuérdate | acuérdense | avisen | avisa | avísame | avísenme | avisan | alguien | alguno | alguien que | quien pueda | quien quiera | al rato | más al rato | en la próxima | la próxima | la próxima semana | próxima semana | semana que viene | la semana que viene | la otra semana | la otra | el mes que viene | la próxima vez | para la próxima | pronto | ya pronto | próximamente | tocan | toca | nos toca | le toca | les toca | tocaría | está por | están por | estoy por | estamos por | a punto de | listas para | listos para | lista para | listo para | por mover | para mover | por pasar | para pasar | por injertar | para injertar | por capturar | para capturar | por hacer | será | serán | sería | serían | estará | estarán | habrá | haremos | haré | hará falta | pondré | pondremos | pondrán | iremos | iré | irán | moveremos | injertaremos | daremos | daré | dará | sacaremos | pongan | pon | saquen | metan | muevan | lleven | pónganle | pónganles | échenle | hagan | haz | hagamos | dejen | deja que | dejemos | vayan | ve a | vaya | den | denle | dales | quédense | revisen | chequen | conviene | convendría | sugiero | propongo | mejor mañana | ir preparando | prepárense | preparen | planear | programado | programada | programar | agendado | agendada | para mañana | para el lunes | para el martes | para el miércoles | para el jueves | para el viernes | para el sábado | para el domingo | si se puede | si podemos | si puedo | de ser posible | en caso de | por si acaso hay | ya que pueda | me gustaría | nos gustaría | le vamos a | les vamos a | las vamos a | los vamos a | la vamos a | las voy a | los voy a | la voy a | lo voy a | se va a | se van a | se tiene que | se tienen que | de una vez hay que | rumbo a | camino a | ya voy a | ahorita voy a | ya vamos a | ahorita vamos a | pretendo | pretendemos | quedé de | quedamos de | qué tal si | qué les parece si | y si | hacia allá | después de | si se | si no | si hay | si pueden | si puede | si alguien | si llueve | si deja de llover | si es | si hace | si quieren | si quieres | si gustan | si necesitan | si tienen | si tiene | si te | si les | si le | si nos | si me | si fuera | si alcanza | si alcanzan | si ya no | si mañana | si vamos | si van | si va a | si voy | si sale | si salen | si nacen | si no hay | si sigue | si siguen | si injertamos | si injerto | si encerramos | si pasamos | si movemos | si todo sale bien | si dios quiere | primero dios | dios mediante | si la va | si las va | si lo va
IF: si
HEARSAY: dice | dice que | dijo | dijo que | dicen | dicen que | dijeron | dijeron que | me dijo | me dijeron | nos dijo | nos dijeron | según | cuenta que | cuentan que | contó | contaron | me contó | me contaron | oí que | oí | escuché que | escuché | supe que | leí que | leí | vi en un video | vi en internet | vi en facebook | en el libro | el libro dice | el manual dice | en internet | en youtube | supuestamente | al parecer | aparentemente | el año pasado | año pasado | la temporada pasada | temporada pasada | el mes pasado | mes pasado | la semana pasada | semana pasada | en la primavera pasada | el otro año | el otro día | hace años | hace un año | hace meses | hace mucho | hace tiempo | en mayo pasado | normalmente | generalmente | siempre | por lo general | cada año | todos los años | casi siempre | a veces | de costumbre | acostumbro | acostumbramos | solíamos | solía | antes se | antes lo | antes las | en otros tiempos | de chico | de niño | aquella vez | esa vez | aquel año | te acuerdas | se acuerdan | acuérdense de | acuérdate de | en su rancho | en el rancho de | de su rancho | su rancho | mi compadre | el compadre | compadre dice | el vecino | vecino | la vecina | en lo del vecino | del vecino | su apiario | sus abejas | sus colmenas | soñé | soñé que | broma | es broma | en broma | de broma | bromeando | jaja no | mentira | mentiras | es mentira | no es cierto | ficción | imagínate | imaginen | imagina | supongamos | por ejemplo | ejemplo | digamos que | un señor | un amigo | un conocido | mi abuelo | mi papá decía | decía | decían | aseguran | asegura | rumores | rumor | se dice | se rumora | hipotéticamente | la vez pasada | la ronda pasada | el lote pasado | vi en | en el rancho | compadre | año | años | mes | meses | temporadas | antes
HEDGE: creo | creo que | me parece | me parece que | parece | parece que | pareciera | parecen | quizás | quizá | tal vez | talvez | a lo mejor | alomejor | acaso | puede ser | puede que | posiblemente | probablemente | seguramente | seguro que | supongo | supongo que | imagino | me imagino | calculo | calculo que | estimo | estimado | pienso que | diría | diría que | yo digo que | yo diría | según yo | capaz | capaz que | ha de ser | han de ser | debe de ser | deben de ser | ha de haber | han de haber | deben ser | debe ser | serán como | más o menos | masomenos | +o- | aproximadamente | aprox | alrededor de | cerca de | como unas | como unos | algo así | algo así como | o algo así | y tantas | y pico | unas | unos | casi | casi casi | por poco | al menos | por lo menos | mínimo | máximo | más de | menos de | al ojo | a ojo | a ojo de buen cubero | a simple vista | al tanteo | al cálculo | por ciento | no sé | no sé bien | no sabemos | sepa | quién sabe | no estoy seguro | no estoy segura | no estamos seguros | no es seguro | sin seguridad | no me acuerdo | no me acuerdo bien | no recuerdo | no recuerdo bien | no me acuerdo cuántas | si mal no recuerdo | si no me equivoco | si no recuerdo mal | no conté bien | no las conté | no los conté | no conté | sin contar | perdí la cuenta | digamos | pongamos | pongamos que | dudo | dudo que | duda | dudoso | dudosa | tengo duda | u | o sea | inseguro | ni idea | ponle | ponle que | échale | por ahí | por ai | se me hace | se me hace que | a como veo | se ve como que | como que | relativamente | prácticamente | fácil unas | hasta donde sé | que yo sepa | tentativo | provisional | ojalá | algunas | algunos | varias | varios | unas cuantas | unos cuantos | unas pocas | unos pocos | pocas | pocos | muchas | muchos | bastantes | un montón | un montón de | un chingo | un chingo de | un buen | un bonche | hartas | hartos | la mayoría | la mayoría de | la mayor parte | casi todas | casi todos | un tercio | dos tercios | tres cuartas partes | alguna que otra | una que otra | docenas | cantidad de | demasiadas | suficientes | uno que otro | un puñado | unas 2 o 3 | dos o tres | tres o cuatro | una parte | parte de | o | o tal vez
QWORD: quién | quiénes | qué tal | cuándo | cuánto | cuánta | cuántos | cuántas | dónde | adónde | de dónde | a dónde | cuál | cuáles | cómo va | cómo van | cómo está | cómo están | por qué | y por qué | para qué | a qué hora | a qué horas | qué hora | qué día | qué toca | qué sigue | qué falta | desde cuándo | hasta cuándo | hasta qué hora | alguien sabe | alguien | saben si | sabes si | sabe si | será que | acaso | dime | díganme | dígame | digan | ¿ | ? | qué pasó con | qué onda con | qué hubo con | cuánto falta | cuánto queda | cuántas quedan | cuántos quedan | qué tanto | verdad | cierto | no cierto | me pueden decir | me dicen | pregunta | una pregunta | duda rápida
AUX: ha | han | hay | hubo | está | están | es | son | puedo | puede | pueden | podemos | debo | debemos
CORRECT: digo | perdón | perdona | perdonen | disculpa | disculpen | disculpe | me equivoqué | nos equivocamos | me confundí | me hice bolas | corrijo | corrijan | corrige | corregir | corrección | corrigiendo | corregimos | quise decir | quería decir | quise poner | mejor dicho | o sea no | no no | error | error mío | error de dedo | fue error | errata | dedazo | fue dedazo | mala mía | mi error | mi culpa | ups | uy | ay no | era | eran | fue | fueron | no era | no eran | no fue | no fueron | no es | no son | era la | eran las | deben ser | debe ser | debería ser | deberían ser | debería decir | que sean | mal | está mal | estaba mal | estuvo mal | mal contado | mal contadas | conté mal | conté doble | conté dos veces | conté una de más | conté uno de más | conté una doble | las conté mal | los conté mal | volví a contar | las volví a contar | los volví a contar | volvimos a contar | reconté | recontamos | recontando | recuento | me comí una | me comí uno | me comí dos | me faltó contar | me faltó una | se me fue el dedo | se me pasó una | se me escapó una en la cuenta | puse mal | lo puse mal | escribí mal | lo escribí mal | anoté mal | lo anoté mal | tecleé mal | el autocorrector | autocorrector | maldito corrector | cambia | cambien | cambiar por | cámbialo | cámbiale | cámbienle | en realidad | en realidad son | realmente eran | más bien | espera | esperen | aguanta | aguanten | rectifico | rectificación | ojo que | sino | revisando bien | bien contadas son | fe de erratas | conté una dos veces | corrector | el corrector | me comí una en la cuenta | me falla la vista | teclé mal

# --- intents
YES: sí | sip | sipi | simón | ajá | claro | claro que sí | así es | así mero | exacto | exactamente | correcto | afirmativo | por supuesto | desde luego | seguro | confirmo | confirmado | eso mero | eso | efectivamente | cabal | ya sabes | obvio | si po | sí señor | sí claro | anótalo | anótenlo | está bien así | yes | sí por favor | a huevo | andale sí | sip así
VERBNO: no
NO: no | no gracias | nel | nop | nones | no no | así no | eso no | negativo | para nada | no así
OKWORD: va | vale | sale | ok | oka | okay | okey | oki | dale | órale | ándale | entendido | enterado | enterada | enterados | copiado | recibido | de acuerdo | está bien | ta bueno | ta bien | bueno | perfecto | gracias | muchas gracias | mil gracias | a la orden | va que va | va va | va pues | sale pues | sale y vale | órale pues | dale pues | dale va | ok va | ok dale | ok sale | sí va | sí dale | visto | lo vi | ya vi | ya lo vi | anotado | apuntado | listo jefe | arre | arre pues | ya estás | listo gracias | 10-4 | bien | muy bien | excelente | 👍 | 👌 | 🙏 | 🫡 | 💪 | claro dale | tranquilo | tranquilos | con gusto | a sus órdenes | fierro | jalo | arreglado
DONEWORD: listo | lista | listos | listas | hecho | hecha | hechos | hechas | ya quedó | ya quedaron | ya está | ya están | ya estuvo | ya estuvieron | quedó listo | quedó hecho | quedaron listas | quedaron listos | quedó | todo listo | todo hecho | todas hechas | todos hechos | todas listas | todos listos | terminado | terminada | terminados | terminadas | terminé | terminamos | terminaron | ya terminé | ya terminamos | acabé | acabamos | ya acabé | ya acabamos | cumplido | cumplida | completado | completada | completo | finalizado | finalizada | resuelto | arreglado | ya lo hice | ya la hice | ya los hice | ya las hice | lo hice | la hice | las hice | los hice | ya lo hicimos | ya las hicimos | lo hicimos | ya las moví | ya las movimos | ya las pasé | ya las pasamos | ya se hizo | se hizo | ya se hicieron | ya hecho | ya hecha | ya listo | ya lista | ya está hecho | ya está hecha | ya está listo | ya está todo | ya todo | ya todo listo | eso ya | eso ya está | eso ya quedó | eso ya se hizo | ya cayó | ya salió | tarea cumplida | misión cumplida | trabajo hecho | chamba hecha | asunto arreglado | despachado | ya me encargué | ya nos encargamos | ya lo vi y quedó | todo en orden ya | ✅ | ✔ | ✔️ | ☑ | ☑️ | 100% | done | simón ya quedó | sí ya quedó | listo ya quedó | listo el pollo | fierro ya quedó | ya fue | ya fueron | se logró | ya logrado
ALREADY: ya
NOW: ya | ahora | ahorita | ahora mismo | ahorita mismo | ahorita ahorita | ahoritita | en este momento | en este instante | ya mismo | ya mero | ahorita ya | ya ahorita
SPEAKER: yo | nosotros | nosotras
CLAIM: mío | mía | míos | mías | es mío | es mía | ese es mío | esa es mía | ese es el mío | mío por favor | yo | yo mero | yo merito | yo mismo | yo misma | yo voy | voy yo | voy | ya voy | ya voy yo | ahí voy | ahí voy yo | allá voy | allá voy yo | yo ya voy | ya voy saliendo | voy saliendo yo | yo voy saliendo | yo voy ahorita | voy ahorita | ahorita voy | ahorita voy yo | yo voy ahora | yo voy en un rato | voy en camino | voy para allá | va voy yo | va yo | dale yo | dale voy yo | ok voy yo | yo entonces | yo me encargo | me encargo | me encargo yo | yo me encargo de eso | me encargo de eso | de eso me encargo yo | yo me encargo de | yo me encargo del | me hago cargo | yo me hago cargo | yo me ocupo | me ocupo | me ocupo yo | lo hago yo | yo lo hago | lo hago | la hago | la hago yo | yo la hago | las hago | las hago yo | yo las hago | los hago | los hago yo | yo los hago | yo hago | yo le hago | yo las muevo | las muevo yo | yo los muevo | yo la muevo | yo muevo | yo las llevo | las llevo yo | yo llevo | yo las paso | las paso yo | yo los paso | yo paso | yo paso por ahí | yo la reviso | la reviso yo | yo reviso | yo las reviso | yo lo saco | lo saco yo | yo saco | yo la suelto | la suelto yo | yo suelto | yo la encierro | la encierro yo | yo encierro | yo injerto | yo traslarvo | yo alimento | yo les doy | yo le doy | yo cosecho | yo las cosecho | las cosecho yo | yo enjaulo | yo capturo | yo las capturo | yo los armo | los armo yo | yo armo | yo cuento | yo las cuento | las cuento yo | yo lo veo | lo veo yo | yo la veo | yo busco | yo atiendo | yo termino | yo cubro | yo me aviento | me aviento | me lo aviento | yo me lo aviento | yo me la aviento | me la rifo | yo me la rifo | yo le entro | le entro | yo les entro | yo me apunto | me apunto | apúntame | apúntenme | apúnteme | anótame | anótenme | anóteme | cuenten conmigo | cuenta conmigo | me toca | me toca a mí | a mí me toca | es mi turno | mi turno | me corresponde | lo agarro | la agarro | lo agarro yo | yo lo agarro | la agarro yo | yo la agarro | lo tomo | la tomo | las tomo | los tomo | lo tomo yo | yo lo tomo | yo la tomo | yo puedo | yo sí puedo | yo puedo ir | déjamelo | déjamela | déjamelos | déjamelas | déjenmelo | déjenmela | déjenmelas | déjenmelos | déjamelo a mí | déjenmelo a mí | me las dejan | me lo dejan | estoy en eso | ando en eso | en eso estoy | en eso ando | ya ando en eso | ya estoy en eso | ya estoy ahí | ya estoy aquí | va por mi cuenta | corre por mi cuenta | nosotros vamos | vamos nosotros | nosotros nos encargamos | nos encargamos | lo hacemos nosotros | nosotros lo hacemos | me ofrezco | yo me ofrezco | asígnamelo | asígnenmelo | ✋ | 🙋 | 🙋‍♂️ | 🙋‍♀️ | pido | me lo pido | me pido eso | yo estoy cerca | yo ando cerca | yo mero voy | déjame a mí | déjenme a mí | yo doy la vuelta | doy la vuelta yo | me doy la vuelta | les caigo | ahí les caigo | ahí les caigo yo | les caigo yo | me paso yo | yo me paso | yo mero les caigo | yo caigo | ahí le caigo | yo le caigo | voy saliendo | voy saliendo para | voy saliendo para allá | ya voy saliendo para | ando saliendo para | voy saliendo ya | salgo para allá | ahorita salgo | ahorita salgo para allá | ya salgo | ya salgo para allá
SNOOZE: más tarde | más tardecito | al rato | al ratito | más al rato | más al ratito | luego | luego luego | lueguito | después | despuesito | en un rato | en un ratito | ratito | otro rato | otro ratito | recuérdame | recuérdamelo | recuérdenme | recuérdanos | recuérdeme | recordame | recuérdame luego | recuérdame al rato | recuérdame más tarde | recuérdame otra vez | recuérdame de nuevo | recuérdame en | avísame | avísame luego | avísame otra vez | avísame de nuevo | avísame más tarde | avísame en | avísanos | avíseme | ahora no | ahorita no | orita no | ahorita no puedo | ahora no puedo | no puedo ahorita | no puedo ahora | todavía no puedo | posponer | pospón | pospónlo | aplazar | aplázalo | dame | denme | deme | dame un rato | dame un ratito | dame chance | dame tantito | dame unos minutos | dame un minuto | dame una hora | dame media hora | pregúntame | pregúntame luego | pregúntame al rato | vuelve a preguntar | pregunta luego | pregunta al rato | dime luego | dime al rato | espérame | espérame tantito | espérenme | aguántame | aguántenme | aguanta tantito | mejor en | mejor luego | mejor al rato | mejor más tarde | estoy ocupado | estoy ocupada | ando ocupado | ando ocupada | ocupado | ando manejando | voy manejando | manejando | estoy manejando | estoy comiendo | ando comiendo | después de comer | cuando regrese | cuando llegue | cuando acabe | cuando termine | en cuanto pueda | ya al rato | tantito | un ratito más | un rato más | más tiempo | necesito más tiempo | déjalo para luego | déjalo para al rato | lo dejamos para luego | otra hora | media hora más | una hora más
SKIP: saltar | sáltalo | sáltala | sáltatelo | sáltenlo | salta | lo saltamos | saltemos | saltado | saltada | omitir | omite | omítelo | omítela | omitido | omitida | omitan | omítanlo | cancelado | cancelada | cancelados | canceladas | cancela | cancelar | cancelen | cancélalo | cancélenlo | se cancela | se canceló | queda cancelado | suspendido | suspendida | se suspende | suspender | no hace falta | ya no hace falta | ya no es necesario | no es necesario | no se necesita | ya no se necesita | ya no se ocupa | no se ocupa | innecesario | ya no | ya no va | no va | no aplica | no se hace | no se hará | no se va a hacer | no se va a poder | no se puede hacer | ya no se va a hacer | no lo hacemos | no lo vamos a hacer | ya no lo hacemos | no la vamos a hacer | no se hizo ni se hará | olvídalo | olvídenlo | olvídate | olvídense | olvídate de eso | déjalo así | déjalo | déjenlo así | déjenlo | lo dejamos | lo dejamos así | ya déjalo así | pasamos de eso | paso de eso | esta vez no | esta vez paso | descartado | descartada | descartar | descártalo | descártenlo | desistimos | abandonado | abandonamos | abandonar | se perdió el lote | perdimos el lote | se perdió la tanda | se perdió todo | se perdieron todas | se enfrió el lote | se murió el lote | el lote se perdió | el lote se murió | lote perdido | tanda perdida | se cayó la barra | se nos cayó la barra | se me cayó la barra | se echó a perder el lote | se apagó la incubadora | tiramos el lote | desechamos el lote | vamos a empezar de nuevo | empezamos de nuevo | de nada sirve | ya pa qué | ya para qué | n/a | no procede | anular tarea | mucho viento | mucha lluvia | muy mojado | muy frío | está lloviendo | no se pudo hacer | cancelé | cancelamos
VOID: quita lo último que puse | borra lo último que puse | quiten lo último que puse | deshacer | deshaz | deshazlo | deshaz eso | deshacer eso | deshaz lo último | deshacer lo último | deshagan | deshágalo | borra | bórralo | bórrala | bórrenlo | bórrenla | bórrele | borrar | borra eso | borra esa | borra lo último | borra la última | borra el último | borra la última línea | borrar eso | borrar lo último | borren eso | quita eso | quita lo último | quita la última | quítalo | quítala | quítenlo | quiten eso | cancela eso | cancela lo último | cancela la última | elimina eso | elimina lo último | elimina la última | elimínalo | elimínala | eliminar eso | eliminar lo último | olvida eso | olviden eso | ignora eso | ignora lo último | ignóralo | ignora ese mensaje | ignora mi mensaje | anula | anula eso | anula lo último | anula la última | anular | anular eso | anúlalo | anúlala | regresa eso | retira eso | retíralo | saca eso | eso no va | eso no fue | eso no era | no era eso | no fue así | no pasó | no pasó eso | eso no pasó | no las moví | no se movieron | no fui yo | yo no fui | no lo hice | no lo hicimos | fue sin querer | sin querer | le piqué sin querer | le piqué mal | le di sin querer | le di mal | me equivoqué de botón | me equivoqué de lote | me equivoqué de apiario | botón equivocado | se me fue el botón | aplasté mal el botón | apreté mal | toqué sin querer | no lo anotes | no anotes eso | no anoten eso | no lo anoten | échalo para atrás | échalo pa atrás | revierte | revertir | reviértelo | undo | undo eso | descarta eso | descarta lo último | tacha eso | táchalo | no cuenta | eso no cuenta | no vale | eso no vale | olvídalo | cancélala
FORGET: olvídame | borra mis datos | borra mi nombre | elimina mis datos | quita mi nombre
HELPWORD: ayuda | ayúdame | ayúdenme | ayuda por favor | comandos | instrucciones | cómo anoto | cómo le hago | cómo funciona | cómo se usa | qué puedes hacer | manual | auxilio
GREET: gracias por la ayuda | gracias por ayudar | buen trabajo | bien hecho | hola | holi | holis | ola | buenas | buenos días | buen día | buenas tardes | buenas noches | muy buenas | muy buenos días | qué tal | qué tal todos | qué hubo | quiubo | quihubo | qué onda | hola a todos | buenas a todos | buen día a todos | buenos días a todos | saludos | saludos a todos | un saludo | hola equipo | hola gente | hola raza | cómo están | cómo andan | adiós | bye | hasta luego | hasta mañana | nos vemos | nos vemos mañana | luego hablamos | luego vemos | gracias | muchas gracias | mil gracias | buen provecho | bendiciones | abrazo | abrazos | feliz día | que descansen | que tengan buen día | hey | ey | oye | oigan

# --- queries and commands
DUEWORD: pendiente | pendientes | toca | tocan | qué toca | qué nos toca | qué me toca | qué toca hoy | qué toca hacer | qué hay | qué hay hoy | qué hay pendiente | qué hay pendientes | qué hay que hacer | qué hay que hacer hoy | qué hay para | qué hay para hoy | qué hay por hacer | qué está pendiente | qué tenemos | qué tenemos hoy | qué tenemos para hoy | qué tenemos pendiente | qué tengo que hacer | qué tengo que hacer hoy | qué tareas hay | qué tareas hay hoy | qué falta | qué falta por hacer | qué nos falta | qué me falta | qué queda | qué queda por hacer | qué queda pendiente | qué sigue | qué viene | qué más hay | algo pendiente | algo para hoy | hay algo | hay algo pendiente | lo que falta | lo pendiente | tareas | las tareas | lista de tareas | la lista | agenda | la agenda | programa | plan de hoy | el plan | vencido | vencidas | atrasado | atrasados | atrasadas | por hacer | qué vence | qué vence hoy | vence | vencen
WHOWORD: quién | quiénes | quién tiene | quién va | quién hace | quién hizo | quién movió | quién mueve | quién lleva | quién trae | quién está | quién injertó | a quién le toca | a quién | de quién | de quién es | quién fue | quién las tiene | quién las mueve | alguien va
WHENWORD: cuándo | cuándo se | cuándo toca | cuándo hay que | cuándo tenemos que | cuándo tengo que | cuándo puedo | cuándo podemos | cuándo se puede | cuándo es | cuándo nacen | cuándo salen | para cuándo | desde cuándo | desde cuándo se puede | hasta cuándo | hasta cuándo se puede | hasta qué hora | hasta qué hora se puede | hasta qué hora puedo | a qué hora | a qué hora se | a qué hora toca | qué día | qué hora | qué fecha | cuánto tiempo | cuánto falta | cuánto falta para | en cuánto tiempo
HOWMANY: cuántas | cuántos | cuánto | cuánta | cuántas hay | cuántos hay | cuántas van | cuántas llevamos | cuántas quedan | cuántos quedan | cuántas faltan | cuántas fueron
WHEREWORD: dónde | dónde está | dónde están | en dónde | en qué apiario | en qué criadora | a dónde | adónde | por dónde
WHYWORD: por qué | y por qué | por qué eso | y eso por qué | eso por qué | a qué se debe | cuál es la razón | razón | motivo | cómo así
FREEWORD: libre | libres | vacío | vacíos | vacía | vacías | desocupado | desocupados | desocupada | desocupadas | disponible | disponibles | sin ocupar | capacidad | cupo | espacio | lugar | núcleos libres | sobran
LOGWORD: registro | registros | el registro | los registros | bitácora | la bitácora | historial | anotaciones | lo anotado | últimas líneas | qué se anotó | qué anotamos | qué hay anotado | libreta
STATUSWORD: estado | estado de | estado del | estado de la | cómo va | cómo van | cómo está | cómo están | cómo anda | cómo sigue | cómo siguen | cómo va el | cómo va la | cómo está el | cómo está la | cómo anda el | cómo anda la | cómo sigue el | cómo sigue la | cómo vamos | cómo vamos con | cómo vamos con el | cómo vamos con la | cómo están las cosas con | qué hay del | qué hay de | qué hay de la | qué onda con el | qué onda con la | qué onda con | qué pasó con el | qué pasó con la | qué pasó con | info | info de | info del | info de la | información | información de | información del | información de la | datos de | datos del | datos de la | resumen | resumen de | resumen del | resumen de la | novedades de | novedades del | dime de | dime del | dime de la | dime el | dime la | cuéntame de la | cuéntame del | avance | avances | en qué va | en qué van
PICTUREWORD: foto de la semana | semana | la semana | temporada | la temporada | ver semana | gráfica | gráfico | dibujo | tablero | imagen
REPORTWORD: informe | el informe | reporte | informe de | reporte de | planilla | la planilla | hoja de cálculo | csv | exportar | excel
CALENDARWORD: calendario | el calendario | enlace del calendario | calendario enlace | calendario link
PHOTOWORD: foto | fotos | las fotos | fotos de | fotos del | fotos de la | imágenes
ORDERWORD: pedido | pedidos | encargo | encargos | orden de | reserva | reservar | apartado | encargaron | pidieron | anular pedido | cancelar pedido
YIELDWORD: rendimiento | rendimientos | porcentajes | promedio | promedios | efectividad
SETWORD: ajustar | ajusta | ajustes | configurar | configura | configuración | poner aviso | fijar | fija | cambiar horario
SETTING=zone: zona horaria | zona | huso | huso horario
SETTING=language: idioma | lengua
SETTING=evening: tarde | noche | aviso de la tarde | lista de la tarde
SETTING=morning: mañana | aviso de la mañana | lista de la mañana
SETTING=quiet: silencio | horas de silencio | no molestar
SETTING=work: trabajo | horario | horario de trabajo | horas de trabajo
SETTING=wake: despertar
SETTING=pin: fijar
SETTING=check: revisión | revisión diaria
SETTING=move: traslado | mover | pasar
SETTING=incubator: incubadora
SETTING=spread: dispersión
SETTING=daysoff: días libres | día libre | días de descanso
SETTING=units: unidades
SWITCH=on: encendido | encendida | sí | prender | activar | activa
SWITCH=off: apagado | apagada | no | apagar | desactivar
SWITCH=default: normal | defecto | por defecto
SWITCH=both: ambos
SWITCH=none: ninguno | ninguna | nada
LANGUAGE=es: español
LANGUAGE=en: inglés
ADDWORD: agregar | agrega | agregue | agreguen | añadir | añade | añadan | dar de alta | alta | da de alta | nuevo | nueva | registrar | crear | sumar
SHOWWORD: muestra | muéstrame | muestra el | muestra la | mostrar | ver | ver el | ver la | mándame | mándanos | envíame | envíanos | enseña | enséñame | pásame | pásame el | dame el | dame la | quiero ver
WHATIF: qué pasa si | qué pasaría si | y si | si injerto | si injertamos | si encierro | si encerramos
PLAN: qué pasa si | qué pasaría si
JOINWORD: unirme | unir | me uno

# --- trade: the verbs
# ar, er, ir: regular, with a second stem where the stress falls on it (solt/suelt).
# arq: -car, -gar, -zar, where the stem is written anew before e (sac/saqu, carg/cargu).
# erz: -cer, -ger, where it is before o and a (nac/nazc, recog/recoj).
paradigm ar done: é ó amos aron aste ado ada ados adas
paradigm ar going: ando ándola ándolas ándolo ándolos ándole ándoles
paradigm ar infinitive: ar arla arlas arlo arlos arle arles arse
paradigm ar plan: aré ará aremos arán arás aría aríamos arían
paradigm ar present: *o *an *en emos amos
paradigm ar bare: *a *as *es *ala *alas *alo *alos *ale *ales *enla *enlas *enlo *enlos *enle *enles aba ábamos aban
paradigm arq done: *é ó amos aron aste ado ada ados adas
paradigm arq going: ando ándola ándolas ándolo ándolos ándole ándoles
paradigm arq infinitive: ar arla arlas arlo arlos arle arles arse
paradigm arq plan: aré ará aremos arán arás aría aríamos arían
paradigm arq present: o an *en *emos amos
paradigm arq bare: a as *es ala alas alo alos ale ales *enla *enlas *enlo *enlos *enle *enles aba ábamos aban
# arn, arqn: the same, where the form in -o is a noun or adverb (cambio, junto, saco): bare alone.
paradigm arn done: é amos aron aste ado ada ados adas
paradigm arn going: ando ándola ándolas ándolo ándolos ándole ándoles
paradigm arn infinitive: ar arla arlas arlo arlos arle arles arse
paradigm arn plan: aré ará aremos arán arás aría aríamos arían
paradigm arn accented: ó
paradigm arn present: *o *an *en emos amos
paradigm arn bare: *a *as *es *ala *alas *alo *alos *ale *ales *enla *enlas *enlo *enlos *enle *enles aba ábamos aban
paradigm arqn done: *é amos aron aste ado ada ados adas
paradigm arqn going: ando ándola ándolas ándolo ándolos ándole ándoles
paradigm arqn infinitive: ar arla arlas arlo arlos arle arles arse
paradigm arqn plan: aré ará aremos arán arás aría aríamos arían
paradigm arqn accented: ó
paradigm arqn present: o an *en *emos amos
paradigm arqn bare: a as *es ala alas alo alos ale ales *enla *enlas *enlo *enlos *enle *enles aba ábamos aban
paradigm er done: í ió imos ieron iste ido ida idos idas
paradigm er going: iendo iéndola iéndolas iéndolo iéndolos
paradigm er infinitive: er erla erlas erlo erlos erle erse
paradigm er plan: eré erá eremos erán erás ería eríamos erían
paradigm er present: *o *en *an emos amos
paradigm er bare: *e *es *a *as *ela *elas *elo *elos *anla *anlas *anlo *anlos ía íamos ían
paradigm erz done: í ió imos ieron iste ido ida idos idas
paradigm erz going: iendo iéndola iéndolas iéndolo iéndolos
paradigm erz infinitive: er erla erlas erlo erlos erse
paradigm erz plan: eré erá eremos erán ería eríamos erían
paradigm erz present: en emos *o *an *amos
paradigm erz bare: e es *a *as ela elas elo elos *anla *anlas *anlo *anlos ía íamos ían
paradigm ir done: í ió imos ieron iste ido ida idos idas
paradigm ir going: iendo iéndola iéndolas iéndolo iéndolos
paradigm ir infinitive: ir irla irlas irlo irlos irle irse
paradigm ir plan: iré irá iremos irán irás iría iríamos irían
paradigm ir present: *o *en *an imos amos
paradigm ir bare: *e *es *a *ela *elas *elo *elos *anla *anlas *anlo *anlos ía íamos ían

CONFINE verb ar: confin | aisl | encerr/encierr | enclaustr | enjaul | encarcel | guard | acuartel | enserr/ensierr | enzerr/enzierr
CONFINE.done: cerré | cerramos | dejé encerrada | dejamos encerrada | dejé confinada | dejamos confinada | dejé enjaulada | dejamos enjaulada | dejé aislada | dejamos aislada | dejé apartada | apartamos | apartada | quedó encerrada | quedó confinada | quedó aislada | quedó enjaulada | queda encerrada | ya quedó encerrada | ya quedó confinada | ya quedó enjaulada | está encerrada | está confinada | está enjaulada | está aislada | ya está encerrada | ya está confinada | ya está enjaulada | metí a la jaula | metí en la jaula | metí a jaula | metimos a la jaula | metimos en la jaula | metí al aislador | metimos al aislador | puse en la jaula | puse en jaula | pusimos en la jaula | puse en su jaula | pusimos en su jaula | puse a poner | pusimos a poner | en confinamiento | entró a confinamiento | entró en confinamiento | empezó el confinamiento | empezó confinamiento | inició confinamiento | confinamiento iniciado | hice el confinamiento | hicimos el confinamiento | tras las rejas | le puse la jaula | le pusimos la jaula | le puse jaula | ya en su jaula | ya en la jaula | ya está en la jaula | se encerró | se confinó | la encerré ya | la encerré | ya encerramos | quedó presa | está presa | presa | ya presa
CAGE: jaula | jaulas | jaulita | jaulitas | aislador | aisladores | caja aisladora | aisladora | jaula aisladora | jaula de confinamiento | jaula de puesta | jaula de postura | jaula excluidora | excluidor | excluidora | rejilla excluidora | cajita | confinador | confinadora | confinamiento | aislamiento | al aislador | en la jaula | en jaula | en su jaula | a la jaula | en jaulas | en jaulitas | jaula de panal | jaula de cuadro | porta panal aislador | celdario de puesta | reja excluidora
CAGED.done: enjaulada | enjauladas | enjaulé | enjaulamos | enjauló | enjaularon | enjaulado | enjaulados
CAGED.bare: enjaula
CAGED.present: enjaulo | enjaulan | enjaulen
CAGED.infinitive: enjaular | enjaularlas | enjaularla
CAGED.plan: enjaularemos | enjaularé
CAGED.going: enjaulando | enjaulándolas
PUT verb ar: instal | plant | reinstal | acomod | mont | asign | dej | deposit | insert
PUT verb arq: coloc/coloqu | ubic/ubiqu
PUT verb er: met
PUT verb ir: distribu/distribuy | repart
PUT verb ar: sembr/siembr
PUT.done: puse | pusimos | puso | pusieron | pusiste | puesta | puestas | puesto | puestos | introduje | introdujimos | introdujo | introdujeron | introducidas | introducida | subí | subimos | subió | subieron | bajé | bajamos | bajó | bajaron | colgué | colgamos | colgadas | distribuyeron | distribuyó | quedaron puestas | quedaron colocadas | quedaron instaladas | les puse | le puse | les pusimos | le pusimos | eché | echamos | metí adentro | clavé | clavamos | ensarté | encajé | encajamos | fijé | fijamos | traje puestas | acomodaditas | puestecitas | sembraditas | metí en la jaula | metimos en la jaula | puse en la jaula | pusimos en la jaula | puse en núcleos | pusimos en núcleos | puse en los núcleos | pusimos en los núcleos | metí en núcleos | metimos en núcleos
PUT.bare: pone | ponga | pon | póngala | póngalas | pónganla | pónganlas | ponlas | ponla
PUT.present: pongo | ponen | pongan | ponemos | cuelgo
PUT.infinitive: poner | ponerla | ponerlas | ponerlo | ponerlos | introducir | colgar
PUT.plan: pondré | pondremos | pondrá
PUT.going: poniendo | poniéndola | poniéndolas | introduciendo | colgando
MOVE verb ar: transport | acarre | mud | baj | transplant | trasplant | despach | traspas | lleb | yev
MOVE verb arn: pas | llev | traslad | cambi | mand
MOVE verb er: mov/muev
MOVE verb arq: entreg/entregu | reubic/reubiqu | desplaz/desplac
MOVE verb arqn: carg/cargu
MOVE verb ir: transfer/transfier | sub | distribu/distribuy | repart
MOVE.done: traje | trajimos | trajo | trajeron | traída | traídas | envié | enviamos | enviaron | enviadas | conduje | se fueron | se llevaron | se movieron | se pasaron | se trasladaron | se mudaron | llegaron | nos llevamos | me llevé | nos llevamos a | salieron para | salieron rumbo a | salieron hacia | pusimos en núcleos | puse en núcleos | puse en los núcleos | pusimos en los núcleos | metí en núcleos | metimos en núcleos | metí a núcleos | metimos a núcleos | colocadas en núcleos | puestas en núcleos | quedaron en núcleos | quedaron en los núcleos | ya en núcleos | ya en los núcleos | ya están en los núcleos | hice el traslado | hicimos el traslado | se hizo el traslado | traslado hecho | traslado listo | entregadas en | transfirió | transfirieron | distribuyeron | encaminé | pasé a la acabadora | pasamos a la acabadora | subí a la acabadora | subimos a la acabadora | bajamos a la acabadora | cambiamos a la acabadora | pasadas a la acabadora
MOVE.bare: trae | llegan
MOVE.present: traigo | traen | traigan | envío
MOVE.infinitive: traer | traerlas | enviar | hacer el traslado
MOVE.going: trayendo | enviando
GO.done: fueron | fue | se fueron | se fue | quedaron | quedó | entraron | entró | están | ya están | ya quedaron | cayeron | llegaron | llegó | pasaron | pararon en | terminaron en | acabaron en | salieron | andan | ya andan | fueron a dar | dieron | ya entraron
GO.bare: van | va | van en | entran | entra | quedan | queda | caben
GO.going: yendo | entrando | saliendo
TAKE verb ar: quit | tom | levant | agarr | separ
TAKE verb arn: jal
TAKE verb arqn: sac/saqu
TAKE verb ar: retir
TAKE verb er: extra/extraig
TAKE.done: extraje | extrajimos | afuera | saqué ya | recogí | recogimos | desmonté | desmontamos | la quité | las quité | la saqué | las saqué | las quitamos
PULL verb ar: retir | quit
PULL verb arn: jal
PULL verb arqn: sac/saqu
PULL.done: me traje | saqué ya | arranqué | arrancamos | halé | halamos | tiré de
RELEASE verb ar: solt/suelt | liber | desenjaul | desencerr/desencierr | zolt
RELEASE.done: suelta | ya anda suelta | anda suelta | quedó suelta | está suelta | ya está suelta | ya quedó suelta | quedó libre | ya quedó libre | está libre | ya está libre | ya anda libre | anda libre | dejé salir | dejamos salir | dejé libre | dejamos libre | dejé suelta | dejamos suelta | saqué de la jaula | sacamos de la jaula | saqué del aislador | sacamos del aislador | saqué a la reina | fuera de la jaula | afuera de la jaula | salió de la jaula | ya salió de la jaula | de vuelta con su colmena | de vuelta en su colmena | de regreso con su colmena | de regreso en su colmena | regresé a su colmena | regresó a su colmena | regresamos a su colmena | devolví a su colmena | devolvimos a su colmena | devolví | devolvimos | devuelta | abrí la jaula | abrimos la jaula | quité la jaula | quitamos la jaula | le quité la jaula | le quitamos la jaula | le abrí la jaula | ya sin jaula | fin del confinamiento | terminó el confinamiento | se acabó el confinamiento | terminé el confinamiento | la volví a su colmena | puse en libertad
RELEASE.infinitive: dejar salir | sacar de la jaula
FREE: suelta | libre | fuera de la jaula | anda suelta | anda libre | de vuelta con sus abejas | de vuelta en su nido | con sus abejas | con sus hijas | suelta otra vez | en libertad | liberada | afuera de la jaula | caminando libre
COMBOUT.done: saqué el panal | saqué el cuadro | saqué el marco | saqué el bastidor | saqué su panal | saqué su cuadro | saqué su marco | saqué su bastidor | sacamos el panal | sacamos el cuadro | sacamos el marco | sacamos el bastidor | sacamos su panal | sacamos su cuadro | sacaron el panal | sacaron el cuadro | saqué panal | saqué cuadro | saqué los panales | panal afuera | panal fuera | cuadro afuera | cuadro fuera | marco afuera | bastidor afuera | panal salió | ya salió el panal | salió el panal | ya salió el cuadro | salió el cuadro | el panal ya salió | el cuadro ya salió | ya está afuera el panal | ya está fuera el panal | el panal ya está afuera | el panal está afuera | quité el panal | quité el cuadro | quitamos el panal | quitamos el cuadro | retiré el panal | retiré el cuadro | retiramos el panal | retiramos el cuadro | jalé el panal | jalé el cuadro | jalamos el panal | saqué la jaula con el panal | panal sacado | cuadro sacado | panal retirado | levanté el panal | levantamos el panal | extraje el panal | le saqué el panal | le saqué el cuadro | le sacamos el panal | ya saqué el panal | ya sacamos el panal | tengo el panal afuera | ya tengo el panal
COMBOUT.bare: saca el panal
COMBOUT.present: saco el panal | saquen el panal | saco el cuadro | retiro el panal | jalo el panal
COMBOUT.infinitive: sacar el panal | sacar el cuadro | sacar panal | sacar su panal | sacarle el panal | retirar el panal | quitar el panal
COMBOUT.going: sacando el panal | sacando el cuadro
GRAFT verb ar: injert | enjert | ingert | traslarv | translarv | graft | injer | inxert | enxert
GRAFT.done: graftee | graftié | grafteamos | grafteado | grafteadas | grafteada | graftearon | grafteó | hice injerto | hice el injerto | hice los injertos | hice un injerto | hicimos injerto | hicimos el injerto | hicimos los injertos | hicimos un injerto | hizo el injerto | hicieron el injerto | hice traslarve | hice el traslarve | hice los traslarves | hice un traslarve | hicimos traslarve | hicimos el traslarve | hicimos los traslarves | hicieron el traslarve | hice injertos | hicimos injertos | hice traslarves | hicimos traslarves | pasé larvas | pasé las larvas | pasamos larvas | pasamos las larvas | transferí larvas | transferimos larvas | trasladé larvas | trasladamos larvas | puse larvas | pusimos larvas | puse las larvas | moví larvas | movimos larvas | levanté larvas | levantamos larvas | injerto hecho | injerto listo | injerto terminado | injertos hechos | injertos listos | ya quedó el injerto | quedó el injerto | ya está el injerto | traslarve hecho | traslarve listo | traslarve terminado | ya quedó el traslarve | quedó el traslarve | terminé el injerto | terminamos el injerto | terminé el traslarve | terminamos el traslarve | terminé de injertar | terminamos de injertar | terminé de traslarvar | terminamos de traslarvar | acabo de injertar | acabamos de injertar | acabé de injertar | cargué las cúpulas | cargamos las cúpulas | cargué cúpulas | cargamos cúpulas | llené las cúpulas | llenamos las cúpulas | llené cúpulas | transferidas | trasladadas a cúpulas | eché larvas | echamos larvas | celdas injertadas | cúpulas injertadas | larvas injertadas | larvas traslarvadas
GRAFT.infinitive: graftear | hacer el injerto | hacer injerto | hacer el traslarve | hacer traslarve | pasar larvas
GRAFT.going: grafteando | haciendo el injerto | haciendo traslarve | haciendo injertos | pasando larvas
GRAFTN: injerto | injertos | traslarve | traslarves | traslarva | traslarvas | el injerto | el traslarve | larvas injertadas | larvas traslarvadas | celdas injertadas | cúpulas injertadas | injertada | transferencia | traslado de larvas | graft | grafts | picking
LARVA: larva | larvas | larvita | larvitas | cúpula | cúpulas | cupulita | cupulitas | copa | copas | copita | copitas | copacelda | copaceldas | copas celdas | copa celda | cúpulas cargadas | cupularva | cupularvas | larvas jóvenes | larvas de un día | larvas chicas | gusanito | gusanitos | celdillas | cubiletes | cubilete
LOADED.done: cargado | cargada | cargados | cargadas | llenos | llenas | poblado | poblados | pobladas | surtido | surtidos
DO.done: hice | hicimos | hizo | hicieron | hiciste | realicé | realizamos | hecho | hecha | hechos | hechas | saqué adelante | terminé | terminamos | me aventé | nos aventamos | logré | logramos
DO.bare: hace | haga
DO.present: hago | hacemos | hacen | hagan
DO.infinitive: hacer | hacerlo | hacerla
DO.plan: haré | haremos
DO.going: haciendo
START verb ar: empez/empiez | arranc | inici | comenz/comienz
START.done: empecé | comencé | arranqué | se inició | dio inicio
STATE: está | están | es | son | anda | andan | sigue en | quedó | quedaron | ya está | ya están | hay | se encuentra | se encuentran | estoy | estamos | se ve | se ven | permanece | queda | quedan | tenemos | tengo
ACCEPT verb ar: acept | agarr | jal | estir | levant | amarr | cuaj | logr | tom | labr
ACCEPT verb arq: peg/pegu | arranc/arranqu
ACCEPT verb er: prend
ACCEPT verb ir: recib | constru/construy
ACCEPT.done: me aceptaron | me aceptó | nos aceptaron | nos aceptó | las aceptaron | las aceptó | se aceptaron | fueron aceptadas | quedaron aceptadas | salieron aceptadas | van aceptadas | llevan aceptadas | me prendieron | nos prendieron | se prendieron | quedaron prendidas | me pegaron | nos pegaron | se pegaron | quedaron pegadas | me agarraron | nos agarraron | se agarraron | quedaron agarradas | me tomaron | me jalaron | me recibieron | se lograron | se dieron | dieron | iniciadas | iniciaron | empezadas | comenzadas | construyeron | están construyendo | estirando | jalando | labrando | con jalea | con jalea real | llenas de jalea | ya tienen jalea | tienen jalea | prendiditas | pegaditas | aceptaditas | jaladitas | estiraditas | buenas aceptadas | agarraron bien | prendieron bien | pegaron bien | ya están estirando | las están estirando | las están jalando | las están alimentando | las están trabajando | trabajadas | sobadas
ACCEPT.state: aceptación | la aceptación | prendimiento | pegue | el pegue | prendidas | aceptadas | porcentaje de aceptación | agarre | índice de aceptación
ACCEPT.bare: no prendieron | no prendió | no pegaron | no agarraron | no aceptaron | no las aceptaron | no aceptadas | no jalaron
DRAWN: estiradas | estirada | jaladas | construidas | labradas | levantadas | iniciadas | con jalea | con jalea real | alargadas
FINISHER: acabadora | acabadoras | la acabadora | finalizadora | finalizadoras | la finalizadora | terminadora | terminadoras | la terminadora | continuadora | continuadoras | acabador | finalizador | terminador | finisher | colmena continuadora | colmena finalizadora | colmena acabadora | colmena terminadora | criadora terminadora | criadora finalizadora | criadora acabadora | criadora final | finisher colmena | a la acabadora | colmena finisher | en la acabadora | segunda criadora | colmena de terminado | colmena de acabado | pasé a la acabadora | pasamos a la acabadora | subí a la acabadora | subimos a la acabadora | bajamos a la acabadora | cambiamos a la acabadora | pasadas a la acabadora | para terminar | a terminar | para que las terminen | a que las terminen | a la terminadora | a la finalizadora | a la continuadora | en la terminadora | en la finalizadora | en la continuadora | arriba del excluidor | ya en la acabadora | ya están en la acabadora | a las acabadoras
FINISH.done: a la acabadora | en la acabadora | en la finalizadora | a la terminadora | a la finalizadora | a la continuadora | arriba del excluidor | ya en la acabadora | ya están en la acabadora | a las acabadoras | pasé a la acabadora | pasamos a la acabadora | subí a la acabadora | subimos a la acabadora | bajamos a la acabadora | cambiamos a la acabadora | pasadas a la acabadora
ACROSS: al otro lado | del otro lado | enfrente | para el otro lado
CAP verb ar: opercul | sell | tap | obercul | encapsul
CAP.done: cerradas | cerrada | cerraron | ya cerraron | cerraditas | tapaditas | selladitas | operculaditas | ya selladas | ya operculadas | ya tapadas | quedaron selladas | quedaron operculadas | quedaron tapadas | están selladas | están operculadas | están tapadas | están cerradas | ya están selladas | ya están operculadas | ya están tapadas | ya están cerradas | se sellaron | se operculizaron | se operculan ya | ya sellaron | ya taparon | ya las sellaron | ya las taparon | las sellaron | las taparon | las operculadas | con opérculo | capeadas | capeada | maduras ya | opérculo puesto
CAP.bare: cierran | no operculadas | sin opercular | sin sellar | no selladas
CLOSE verb ar: cerr/cierr
OVER: se acabó | se terminó | terminó | acabó | se cortó | paró | se paró | ya no hay | se fue | se secó | ya pasó | finalizó | se cerró | acabado | acabada
CLEAR: limpia | limpio | limpias | limpios | limpita | limpiecita | limpiecito | limpiecitas | sin novedad | sin novedades | toda limpia | todo limpio | todas limpias | bien limpia | bien limpio | muy limpia | está limpia | está limpio | quedó limpia | sin nada | sin nada raro | nada raro | nada extraño | libre de ajenas | sin celdas raras | sin sorpresas | despejada | en orden | todo en orden | impecable | ya limpia | al cien | sin problemas de celdas | sin intrusas | sin ajenas
ROGUE: ajena | ajenas | celda ajena | celdas ajenas | celda de emergencia | celdas de emergencia | realera de emergencia | realeras de emergencia | realera ajena | realeras ajenas | celda intrusa | celdas intrusas | celda pirata | celdas piratas | celda extraña | celdas extrañas | celda rara | celdas raras | de emergencia | emergencia | salvajes | salvaje | celda salvaje | celdas salvajes | realera salvaje | realeras salvajes | celda silvestre | celdas silvestres | realera silvestre | realeras silvestres | silvestre | silvestres | celda natural | celdas naturales | realera natural | realeras naturales | naturales | natural | celda propia | celdas propias | realera propia | realeras propias | celda extra | celdas extra | celdas extras | realera extra | realeras extra | celdas de más | de enjambrazón | celda de enjambrazón | celdas de enjambrazón | celda de enjambre | celdas de enjambre | realeras de enjambrazón | celda de reemplazo natural | celdas de supersedura | celda de supersedura | intrusa | intrusas | falsa | falsas | celda falsa | celdas falsas | pirata | piratas | coladas | colada | celda colada | celdas coladas | celda escondida | celdas escondidas | realera escondida | celdas de ellas | celdas en los panales | celdas en el panal | celdas en los cuadros | celdas no deseadas | realera suelta | realeras sueltas | celda suelta | celdas sueltas | celdas reales | celda real | realera | realeras | criollas | cimarronas | clandestinas | clandestina | rogue | rogues | reales | una real
NOROGUE: sin celdas | sin celda | sin celdas ajenas | sin celda ajena | sin ajenas | ninguna ajena | ninguna celda ajena | ni una ajena | ni una celda ajena | no había ajenas | no había celdas ajenas | no había celdas | no hay celdas ajenas | no hay ajenas | no hay celdas | cero ajenas | cero celdas ajenas | cero celdas | ninguna celda | ni una celda | ni una sola celda | ninguna realera | ni una realera | ni una sola realera | sin realeras | sin realeras ajenas | sin realeras de emergencia | ninguna realera ajena | no hay realeras | no había realeras | no encontré realeras | no encontramos realeras | sin salvajes | sin celdas salvajes | sin realeras salvajes | ni una salvaje | ninguna salvaje | ninguna celda salvaje | no hay celdas salvajes | no había celdas salvajes | cero salvajes | sin silvestres | sin celdas silvestres | ninguna silvestre | sin naturales | sin celdas naturales | sin realeras naturales | ninguna natural | no hay naturales | no hay celdas naturales | no había celdas naturales | sin celdas de emergencia | ninguna celda de emergencia | ni una celda de emergencia | ni una de emergencia | no hay celdas de emergencia | no había celdas de emergencia | no encontré celdas | no encontramos celdas | no encontré ninguna celda | no encontré ni una celda | no encontramos ni una celda | no encontré ajenas | no encontramos ajenas | no encontré celdas ajenas | no encontramos celdas ajenas | no encontré ninguna celda ajena | no encontré ni una celda ajena | no encontré celdas de emergencia | no encontramos celdas de emergencia | no encontré ninguna celda de emergencia | no encontré ni una celda de emergencia | no encontré salvajes | no encontré ninguna | no encontramos ninguna | no encontré ni una | no encontramos ni una | no vi ninguna | no vimos ninguna | no vi ni una | no vi celdas | no vimos celdas | no tenía ajenas | no tiene ajenas | no tenía celdas | no tiene celdas | no tenía celdas ajenas | no tenía ninguna | no tiene ninguna | no había ninguna | no hay ninguna | no había ni una | no hay ni una | no hubo ninguna | no hubo celdas | nada de celdas | nada de celdas ajenas | nada de realeras | nada de ajenas | sin celdas falsas | ni una celda falsa | ninguna falsa | sin intrusas | sin piratas | sin celdas extra | libre de celdas | libre de realeras | sin celdas de más | ni rastro de celdas | no encontré nada de realeras | no le encontré realeras | no le encontré celdas | no le encontré ninguna | no traía realeras | no traía celdas | no traía ninguna | no traía ajenas | no tiene realeras | no tenía realeras | no hay realera | no le vi celdas | no le vi realeras | no vi realeras | no vi ajenas | no vimos realeras | ninguna salvaje encontrada
KILL verb ar: elimin | tumb | aplast | mat | quit | apachurr | bot | rasp | despanzurr | quebr/quiebr | revent/revient | tir
KILL verb arn: cort
KILL verb arq: arranc/arranqu | despeg/despegu | machuc/machuqu | despedaz/despedac
KILL verb arqn: sac/saqu
KILL verb er: romp
KILL verb ir: destru/destruy
KILL.done: limpié | limpiamos | destruyó | destruyeron | deshice | deshicimos | las quité | la quité | las quitamos | la quitamos | las tumbé | la tumbé | las tumbamos | las saqué | la saqué | las eliminé | la eliminé | las destruí | la destruí | las corté | la corté | las rompí | la rompí | las aplasté | la aplasté | las maté | la maté | di de baja | les di cuello | le di cuello | encontré y quité | encontramos y quitamos | encontré y saqué | encontré y eliminé | encontré y destruí | encontré y tumbé | encontramos y eliminamos | pellizqué | pellizcamos | exprimí | espachurré | chafé | chafamos | volé
FOUND verb ar: encontr/encuentr | hall | localiz | detect
FOUND verb ir: descubr
FOUND.done: había | habían | hubo | tenía | tenían | vi | vimos | vio | salió | salieron | apareció | aparecieron | localicé | me encontré | nos encontramos | traía | traían | estaba | estaban | resultó con | se encontraron | se encontró | topé | me topé | nos topamos | pillé | caché | cachamos
FOUND.bare: hay | tiene | tienen | trae | traen
CHECK verb ar: revis | mir | inspeccion | repas | esculc | control | oje | destap | rebis | examin
CHECK verb arq: busc/busqu | chec/chequ
CHECK verb er: recorr
CHECK verb ir: abr
CHECK.done: registré | registramos | peinamos | chequeé | chequeamos | chequeado | chequeada | chequearon | vi | vimos | vio | vieron | eché un ojo | le eché un ojo | le eché ojo | echamos un ojo | le echamos un ojo | eché un vistazo | di un vistazo | di una vuelta | dimos una vuelta | di la vuelta | dimos la vuelta | me fijé | nos fijamos | me asomé | nos asomamos | abierta | abierto | abiertos | pasé revista | pasé a ver | pasamos a ver | hice la revisión | hicimos la revisión | hice revisión | hicimos revisión | revisión hecha | revisión lista | cuadro por cuadro | panal por panal | marco por marco | bastidor por bastidor | revisadita | ya revisada | ya revisado | ya revisé | ya revisamos | visité | visitamos | busqué bien | le di una revisada | le dimos una revisada | pegué una revisada | entré a ver | entramos a ver | saqué todos los cuadros | pasé por | pasamos por | pasó por | pasé a revisar | pasamos a revisar | pasé por ahí | pasamos por ahí | me di una vuelta por | nos dimos una vuelta por | di una vuelta por
CHECK.infinitive: chequear | ver | echar un ojo | hacer la revisión
CHECK.plan: ir a ver
CHECK.bare: chequeo | chequea | veo | vemos | ve | me asomo
CHECK.going: chequeando | viendo
SEE.done: vi | vimos | vio | vieron | visto | vistas | se vio | se vieron | alcancé a ver | alcanzamos a ver | noté | notamos | observé | observamos | se ven | se ve | ya se ven | ya se ve | a la vista | se alcanzan a ver
SEE.bare: veo | vemos | ves
SEE.infinitive: ver
SEE.plan: veré | veremos
SEE.going: viendo
COUNT verb ar: cont/cuent | contabiliz | sum
COUNT.done: conteo | el conteo | total | son | en total son | van | llevamos | llevo | van en total | dan | da un total de | da | nos da | me da | me dan | me salen | me salieron | nos salieron | salieron | hay | tenemos | tengo | quedan | quedaron | conteo final | cuenta | la cuenta | nos dio | me dio | nos quedan | quedaron en | resultaron | resultado
NOTHING: nada | ninguna | ninguno | no había nada | no hay nada | no encontré nada | no encontramos nada | no vi nada | no vimos nada | ni una | nadita | nada de nada | no tenía nada | no tiene nada | no hubo nada | no hallé nada | no hallamos nada | no le encontré nada | no le encontramos nada | ni rastro | ni señas | cero
NUC: núcleo | núcleos | nuc | nucs | nucleíto | nucleítos | nuclero | nucleros | nucleario | cajitas de fecundación | caja de fecundación | cajas de fecundación | cajoncitos | cajoncito | cajones de fecundación | núcleos de fecundación | núcleo de fecundación | núcleos de apareamiento | núcleo de apareamiento | mini núcleos | mini núcleo | mininúcleos | mininúcleo | baby nucs | babynucs | baby | babys | babies | cajas de apareamiento | caja de apareamiento | miniplus | mini plus | fecundadores | fecundador | colmenines | colmenín | núcleos fecundadores | núcleo fecundador | cámaras de fecundación | cuartos | cuarterones | medios núcleos | divisiones | división | nucleitos de fecundación | kieler | apidea | apideas | puse en núcleos | pusimos en núcleos | puse en los núcleos | pusimos en los núcleos | metí en núcleos | metimos en núcleos | metí a núcleos | metimos a núcleos | quedaron en núcleos | quedaron en los núcleos | ya en los núcleos | ya en núcleos
MAKE verb ar: arm | prepar | form | llen | alist | mont | organiz | levant | empaquet
MAKE verb arqn: carg/cargu
MAKE verb ir: divid
MAKE verb ar: pobl/puebl
MAKE.done: echos | hice | hicimos | hizo | hicieron | hechos | hecho | hechas | dejé listos | dejamos listos | dejé armados | dejamos armados | dejé preparados | dejamos preparados | quedaron listos | quedaron armados | ya quedaron listos | ya quedaron armados | quedaron hechos | quedaron preparados | puse abejas | pusimos abejas | eché abejas | echamos abejas | abastecí | surtí | surtimos | saqué núcleos | sacamos núcleos | partí | partimos
MAKE.infinitive: hacer | hacerlos
MAKE.present: hago | hacemos | hacen
MAKE.going: haciendo
SET.done: puse | pusimos | puestos | colocados | coloqué | colocamos | acomodados | instalados | repartidos
READY: listos | listo | lista | listas | preparados | preparadas | esperando | cargados | armados | hechos | montados | con abeja | con abejas | ya con abejas | en su lugar | ya listos | todo listo | alistados | a punto | huérfanos | puestos | con alimento | con candi | con torta | con abeja y alimento | con abejas y alimento | con abejas y candi | con abeja y candi | con abejas y torta | con su alimento | con comida
EMERGE verb ar: eclosion | brot | revent/revient | rebent
EMERGE verb erz: nac/nazc | nas/nasc
EMERGE verb er: emerg
EMERGE verb erz: emerg/emerj
EMERGE verb ir: emerg/emerj
EMERGE.done: salí | salió | salieron | salido | salida | salidos | salidas
EMERGE.going: saliendo
EMERGE.infinitive: salir
EMERGE.plan: saldrá | saldrán
EMERGE.bare: sale | salen | salga | salgan | no nacieron | no nació | sin nacer | no salieron | no emergieron | no eclosionaron | no salió
EMERGE.done: nacidita | naciditas | nacieron ya | ya nació | ya nacieron | ya salieron | ya salió | ya emergieron | ya eclosionaron | ya brotaron | ya reventaron | han nacido | han salido | han emergido | habían nacido | habían salido | se ven nacidas | ya nacidas | están nacidas | quedaron nacidas | celdas abiertas | celda abierta | abiertas con tapita | con la tapita abierta | salieron vírgenes | dieron reina | dieron vírgenes | nacieron bien | ya andan caminando | andan caminando | ya anda caminando | rompieron la celda | hubo nacimiento | hubo nacimientos
EMERGE.state: nacimiento | nacimientos | los nacimientos | emergencia de reinas | eclosión | eclosiones
QUEENV: virgen | vírgenes | reina virgen | reinas vírgenes | reinas nuevas | reina nueva | reinas jóvenes | reinitas vírgenes | princesa | princesas | reinitas nuevas | reinas recién nacidas | reinas infecundas | infecundas | reinas sin fecundar | virgencitas | reinitas
LAYING verb ar: ovoposit | oviposit | aov | ov
LAYING.state: poniendo | poniendo huevos | poniendo huevo | poniendo bien | poniendo bonito | poniendo parejo | ya poniendo | en postura | en plena postura | ya en postura | pone | ponen | ya pone | ya ponen | pone bien | ponen bien | ponedora | ponedoras | con postura | ya con postura | con huevos | con huevo | con buena postura | con cría | con cría abierta | con cría y huevo | con huevo y cría | con cría nueva | con huevitos | con larvas y huevos | estan poniendo | ya están poniendo | está poniendo | ya está poniendo | ya pusieron | ya puso | pusieron | empezaron a poner | empezó a poner | comenzaron a poner | ya empezaron a poner | arrancaron a poner | arrancaron postura | arrancaron la postura | iniciaron postura | iniciaron la postura | dando postura | tienen postura | tiene postura | tienen huevos | ya tienen huevos | tienen huevo | tienen cría | ya tienen cría | muestran postura | activas | ovipositando | ovando | aovando | posturando | posturadas | en producción | productivas | postureando | pegaron postura | agarraron postura | arrancaron con postura | traen postura | trae postura | con postura pareja | con bonita postura | con cría pareja | traen huevo | trae huevo | traen huevos | ya traen huevo | ya traen postura | traen cría | con buena cría | con cría bonita | ya con cría | ya tienen postura | ya agarraron postura | ya pegaron postura | echando huevo | ya echan huevo
LAID.done: puso | ya puso | ya puso huevos | puso huevos | puso huevo | ha puesto | ya ha puesto | ya pone | ya está poniendo | está poniendo | empezó a poner | ya empezó a poner | arrancó a poner | arrancó postura | arrancó la postura | comenzó a poner | aovó | ovó | ya aovó | llenó el cuadro | llenó el panal | llenó su cuadro | llenó su panal | llenó el marco | llenó el bastidor | llenó de huevos | dejó huevos | dejó postura | depositó huevos | puso bonito | puso bien | puso parejo | puso mucho | puso los dos lados | puso por los dos lados | puso por ambos lados | ovipositó | posturó | panal lleno de huevos | cuadro lleno de huevos | panal puesto | cuadro puesto | panal aovado | cuadro aovado | ya hay postura | hay postura
LAID.bare: pone
MATED: fecundada | fecundadas | fecunda | fecundas | fértil | fértiles | apareada | apareadas | cubierta | cubiertas | fertilizada | fertilizadas | fecundaron | se fecundaron | se aparearon | ya fecundadas | ya fecundas | ya se fecundaron | cruzadas | cargadas de semen | reinas fecundadas | reinas fecundas | reina fecundada | reina fecunda | inseminadas | volvieron fecundadas
LAYER: ponedora | ponedoras | reinas ponedoras | reina ponedora | buena ponedora | buenas ponedoras
CATCH verb ar: captur | atrap | recolect | cosech | enjaul | embal | embolet | levant | agarr | baj | acopi
CATCH verb arn: junt | jal
CATCH verb arq: pesc/pesqu | empac/empaqu
CATCH verb arqn: sac/saqu
CATCH verb erz: recog/recoj | cog/coj
CATCH.done: al banco | en el banco | al banco de reinas | en jaulas | en jaulitas | a jaulas | a jaulitas | quedaron enjauladas | ya enjauladas | ya en jaulas | ya en jaulitas | puse en jaulas | pusimos en jaulas | metí en jaulas | metimos en jaulas | metí a jaulas | metimos a jaulas | cosechaditas | hice la cosecha | hicimos la cosecha | cosecha hecha | cosecha lista | cosecha de reinas | captura hecha | hice la captura | hicimos la captura | listas para envío | encajonadas | encajoné | tomé las reinas | saqué reinas | sacamos reinas | saqué las reinas | sacamos las reinas | bajé reinas | bajamos reinas | retiré reinas | retiramos reinas | pepené | pepenamos
CATCH.infinitive: hacer la cosecha | sacar reinas
BANK: banco | al banco | banco de reinas | en el banco | el banco | colmena banco | bancos | bancada | banqueada | banqueadas | banqueé | banqueamos
RECELL verb ar: receld | reinjert | resembr/resiembr | reinsert | reenceld | enceld
RECELL.done: repuse | repusimos | repuso | repusieron | repuesta | repuestas | repuesto | repuestos | repuse celda | repuse celdas | repusimos celda | repusimos celdas | volví a poner celda | volví a poner celdas | volvimos a poner celda | volvimos a poner celdas | volvieron a poner celdas | volvió a poner celdas | volví a meter celda | volví a meter celdas | volvimos a meter celdas | volví a sembrar | volvimos a sembrar | volví a colocar celdas | puse celda nueva | puse celdas nuevas | pusimos celda nueva | pusimos celdas nuevas | puse otra celda | pusimos otra celda | puse otras celdas | puse celda de nuevo | puse celdas de nuevo | pusimos celda de nuevo | pusimos celdas de nuevo | puse celda otra vez | puse celdas otra vez | pusimos celda otra vez | pusimos celdas otra vez | metí celda nueva | metí celdas nuevas | metimos celda nueva | metimos celdas nuevas | metí celda de nuevo | metimos celda de nuevo | di celda nueva | dimos celda nueva | di celdas nuevas | dimos celdas nuevas | les puse celda nueva | les puse celdas nuevas | les di celda nueva | les dimos celda nueva | le puse celda nueva | otra celda | otra vez celdas | celdas otra vez | celda otra vez | celdas de nuevo | celda de nuevo | celda nueva | celdas nuevas | segunda celda | segundas celdas | segunda ronda de celdas | segunda vuelta de celdas | segunda vuelta | celdas de reemplazo | celda de reemplazo | celda de repuesto | celdas de repuesto | reemplacé celdas | reemplazamos celdas | reemplacé las celdas | reposición hecha | hice la reposición | hicimos la reposición | recargué con celdas | encelde de nuevo | volví a enceldar | volvimos a enceldar | volví a encelderar | volvimos a encelderar | volví a resembrar
RECELL.infinitive: reponer | reponer celda | reponer celdas | volver a poner celdas | volver a poner celda | poner celda nueva | poner celdas nuevas
RECELL.bare: repone | reposición | reposición de celdas
RECELL.present: repongo | reponemos | repongan
RECELL.going: reponiendo | reponiendo celdas
CELLAGAIN: otra vez | de nuevo | nuevamente | de vuelta | volví a | volvimos a | volvieron a | volvió a | una vez más | de nueva cuenta | segunda vez | por segunda vez | otra ronda | otra vuelta
NEWCELL: celda nueva | celdas nuevas | otra celda | otras celdas | nueva celda | nuevas celdas | celda fresca | celdas frescas | celdas de reemplazo | celda de reemplazo | celdas de repuesto | segunda celda
FEED verb ar: nutr | jarabe | ceb | suplement | endulz | estimul | suministr
FEED verb arn: aliment
FEED: jarabe a | jarabe para | jarabe en | con jarabe
FEED.done: di de comer | dimos de comer | dio de comer | dieron de comer | le di de comer | les di de comer | les dimos de comer | di alimento | dimos alimento | di jarabe | dimos jarabe | di su jarabe | le di jarabe | les di jarabe | le dimos jarabe | les dimos jarabe | le di alimento | les di alimento | le di comida | les di comida | les di su comida | di torta | dimos torta | les di torta | les dimos torta | puse jarabe | pusimos jarabe | le puse jarabe | les puse jarabe | les pusimos jarabe | puse alimento | pusimos alimento | le puse alimento | les puse alimento | puse torta | pusimos torta | puse tortas | pusimos tortas | les puse torta | eché jarabe | echamos jarabe | le eché jarabe | les eché jarabe | les echamos jarabe | eché alimento | serví jarabe | servimos jarabe | surtí jarabe | rellené el alimentador | rellené los alimentadores | rellenamos los alimentadores | llené el alimentador | llené los alimentadores | llenamos los alimentadores | llenamos el alimentador | alimentadores llenos | alimentador lleno | quedaron alimentadas | quedaron alimentados | quedó alimentada | ya comieron | ya les di | ya les dimos | ya tienen jarabe | nutrí | nutrimos | repartí jarabe | repartimos jarabe | alimentación hecha | alimentación lista | se alimentó | se alimentaron
FEED.infinitive: dar de comer | dar jarabe | dar alimento | darles jarabe | darles de comer | echar jarabe | poner jarabe
FEED.going: dando jarabe | dando de comer | echando jarabe
FEED.bare: alimentación
FEED.present: doy jarabe | les doy jarabe
SYRUP: jarabe | jarabes | jarabito | sirope | almíbar | melaza | alimento | alimentos | alimentito | comida | comidita | torta | tortas | tortita | tortitas | torta proteica | tortas proteicas | pasta | fondant | fondán | candy | candi | azúcar | agua azucarada | agua de azúcar | agua con azúcar | aguamiel | sustituto | sustituto de polen | polen | miel | proteína | suplemento | suplementos | piloncillo | panela | jarabe de azúcar | jarabe de maíz | fructosa | jarabe invertido | jarabe ligero | jarabe espeso | vitaminas | promotor | bollo | bollitos | agüita | un poco de jarabe | poquito jarabe | poco jarabe | más jarabe | bastante jarabe | mucho jarabe | su jarabe | más alimento | su alimento | un poco de alimento | algo de jarabe
GIVE verb ar: agreg | ech | entreg | dej | vert | ofrec | suministr
GIVE verb ir: serv/sirv | surt
GIVE.done: di | dimos | dio | dieron | diste | le di | les di | le dimos | les dimos | le puse | les puse | le pusimos | les pusimos | le eché | les eché | le echamos | les echamos | agregué | dado | dada | metí | metimos | puse | pusimos | puso | rellené | llené | recibió | recibieron | le dejé | les dejé | vacié | vaciamos | convidé | regalé
GIVE.bare: da | dale | dales
GIVE.present: doy | dan | damos | den
GIVE.infinitive: dar | darle | darles
GIVE.plan: daré | daremos
GIVE.going: dando | dándole | dándoles
FEEDER: alimentador | alimentadores | frasco | frascos | bote | botes | botella | botellas | bolsa | bolsas | tarro | tarros | cubeta | comedero | comederos | bebedero | bebederos | bandeja | bandejas | alimentador de marco | alimentador de techo | alimentador boardman | alimentador doolittle | charola | charolas | vasito | vasitos
FILL verb arqn: recarg/recargu
# A past in -amos is the present as well.
CONFINE.present: cerramos | dejamos encerrada | dejamos confinada | dejamos enjaulada | dejamos aislada | apartamos
CAGED.present: enjaulamos
PUT.present: bajamos | colgamos | echamos | clavamos | encajamos | fijamos
MOVE.present: enviamos | pasamos a la acabadora | bajamos a la acabadora | cambiamos a la acabadora
TAKE.present: desmontamos | las quitamos
PULL.present: arrancamos | halamos
RELEASE.present: dejamos salir | dejamos libre | dejamos suelta | sacamos de la jaula | sacamos del aislador | regresamos a su colmena | quitamos la jaula | le quitamos la jaula
COMBOUT.present: sacamos el panal | sacamos el cuadro | sacamos el marco | sacamos el bastidor | sacamos su panal | sacamos su cuadro | quitamos el panal | quitamos el cuadro | retiramos el panal | retiramos el cuadro | jalamos el panal | levantamos el panal | le sacamos el panal
GRAFT.present: grafteamos | pasamos larvas | pasamos las larvas | levantamos larvas | cargamos las cúpulas | cargamos cúpulas | llenamos las cúpulas | echamos larvas
DO.present: realizamos | logramos
KILL.present: limpiamos | las quitamos | la quitamos | las tumbamos | encontramos y quitamos | encontramos y eliminamos | pellizcamos | chafamos
MAKE.present: dejamos listos | dejamos armados | dejamos preparados | echamos abejas | sacamos núcleos
SET.present: colocamos
CATCH.present: sacamos reinas | sacamos las reinas | bajamos reinas | retiramos reinas | pepenamos
RECELL.present: reemplazamos celdas
FEED.present: echamos jarabe | les echamos jarabe | rellenamos los alimentadores | llenamos los alimentadores | llenamos el alimentador
GIVE.present: le echamos | les echamos | vaciamos
FILL.present: cargamos
FILL verb ar: llen | rellen
FILL.done: topé | hasta el tope | cargué | cargamos
FULL: lleno | lleno de | llena | llena de | llenos | llenas | repleto | repleta | hasta el tope | llenito | llenita | llenitos | retacado | retacada | a tope | al tope | copado | copada | hasta arriba
DRONE: zángano | zánganos | zanganitos | cría de zángano | colmena zanganera | zanganera | zanganeras | madre de zánganos | colmenas zanganeras | padres
DRONECOMB: panal de zángano | panal de zánganos | panales de zángano | panales de zánganos | cuadro de zángano | cuadro de zánganos | cuadros de zángano | cuadros de zánganos | marco de zángano | marco de zánganos | marcos de zángano | bastidor de zángano | bastidor de zánganos | bastidores de zángano | panal zanganero | panales zanganeros | cuadro zanganero | cuadros zanganeros | marco zanganero | marcos zanganeros | bastidor zanganero | bastidores zanganeros | panal zanganera | zanganero | zanganeros | cera zanganera | cera de zángano | lámina zanganera | lámina de zángano | hoja zanganera | panal para zánganos | cuadro para zánganos | marco para zánganos | bastidor para zánganos | cría de zángano
DEARTH: escasez | hay escasez | ya hay escasez | estamos en escasez | estamos de escasez | en escasez | empezó la escasez | comenzó la escasez | entró la escasez | ya entró la escasez | inició la escasez | escasez de néctar | sequía | sequía de néctar | no entra néctar | ya no entra néctar | no está entrando néctar | ya no está entrando néctar | no entra nada | ya no entra nada | no entra nada de néctar | no entra ni gota | no entra ni una gota | no está entrando nada | no están entrando nada | no traen nada | no están trayendo nada | no hay néctar | ya no hay néctar | no hay nada de néctar | nada de néctar | ni gota de néctar | sin néctar | falta de néctar | falta néctar | no hay flor | ya no hay flor | no hay flores | ya no hay flores | no hay floración | ya no hay floración | sin flor | sin floración | nada de flor | no hay nada de flor | se acabó la flor | se acabaron las flores | se acabó la floración | se cortó la floración | se terminó la floración | terminó la floración | pasó la floración | se acabó el flujo | se acabó la mielada | se acabó el néctar | se acabó la miel | se terminó la mielada | se terminó el flujo | se terminó el néctar | terminó el flujo | terminó la mielada | acabó el flujo | acabó la mielada | se cortó el flujo | se cortó la mielada | se cortó el néctar | cortó el flujo | bajó el flujo | se cayó el flujo | paró el flujo | paró la mielada | se paró el flujo | se paró la mielada | se secó el flujo | no hay flujo | ya no hay flujo | no hay mielada | ya no hay mielada | sin flujo | sin mielada | se secó el campo | se secó todo | todo seco | está todo seco | está seco el campo | el campo está seco | el monte está seco | época de hambre | época de escasez | temporada de escasez | temporada de hambre | hay hambre | pasan hambre | están pasando hambre | penuria | bache | bache de néctar | no hay alimento en el campo | no hay comida en el campo | no hay pecoreo | dearth | ni gota | ni una gota | no hay ni gota | está dura la escasez | dura la escasez | fuerte la escasez | mucha escasez | pura escasez
FLOW: flujo | flujo de néctar | mielada | mielazón | gran mielada | hay flujo | ya hay flujo | hay mielada | ya hay mielada | estamos en flujo | estamos en mielada | en mielada | en plena mielada | en pleno flujo | empezó el flujo | ya empezó el flujo | empezó la mielada | ya empezó la mielada | comenzó el flujo | comenzó la mielada | inició el flujo | inició la mielada | arrancó el flujo | ya arrancó el flujo | arrancó la mielada | ya arrancó la mielada | entró el flujo | ya entró el flujo | entró la mielada | ya entró la mielada | llegó el flujo | llegó la mielada | volvió el flujo | volvió la mielada | regresó el flujo | regresó la mielada | entra néctar | ya entra néctar | entrando néctar | está entrando néctar | ya está entrando néctar | están entrando néctar | están trayendo néctar | están metiendo néctar | empezó a entrar néctar | ya empezó a entrar néctar | está entrando miel | ya está entrando miel | hay néctar | ya hay néctar | mucho néctar | mielada fuerte | flujo fuerte | buen flujo | floración | hay flor | ya hay flor | hay flores | hay mucha flor | hay floración | ya hay floración | está floreando | están floreando | ya está floreando | arrancó la floración | empezó la floración | ya empezó la floración | comenzó la floración | inició la floración | en floración | en plena floración | floreció | floreció el campo | todo florecido | está todo florecido | todo en flor | está todo en flor | se acabó la escasez | ya se acabó la escasez | terminó la escasez | se terminó la escasez | ya terminó la escasez | acabó la escasez | pasó la escasez | ya pasó la escasez | fin de la escasez | salimos de la escasez | ya no hay escasez | se acabó la sequía | ya no hay hambre | hay un montón de flor | entra bastante | entra mucho | entra fuerte | está entrando fuerte | están trayendo mucho | puro girasol | huele a miel | se vino la floración | se vino la mielada | se vino el flujo | hay entrada de néctar | entrada de néctar | buena entrada de néctar | buena mielada | mielada buena | florecieron | floreció todo | ya floreó | floreó | mucha floración | buena floración
NECTAR: néctar
EGGS: huevo | huevos | huevito | huevitos | huevecillo | huevecillos | hay huevos | hay huevo | ya hay huevos | ya hay huevo | ya hay huevito | hay huevitos | ya hay huevitos | tiene huevos | ya tiene huevos | tiene huevo | se ven huevos | ya se ven huevos | se ve huevo | ya se ve huevo | se ven huevitos | vi huevos | vimos huevos | encontré huevos | encontramos huevos | con huevos | con huevo | lleno de huevos | llena de huevos | llenito de huevos | lleno de huevo | un montón de huevos | muchos huevos | bastantes huevos | mucho huevo | bastante huevo | huevos por los dos lados | huevos en los dos lados | huevos por ambos lados | huevos en ambos lados | huevos de los dos lados | huevos a la vista | huevos frescos | huevo fresco | huevos parados | huevo paradito | huevos del día | primeros huevos | ya está poniendo huevos | puesta | postura | la postura | buena postura | bonita postura | postura pareja | postura bonita | ya hay postura | hay postura | postura fresca | postura nueva | algunos huevos | unos huevos | unos cuantos huevos | hartos huevos | varios huevos | bastante postura | mucha postura
NOEGGS: sin huevos | sin huevo | sin huevos todavía | sin huevos aún | todavía sin huevos | aún sin huevos | sin huevitos | no hay huevos | no hay huevo | no hay huevos todavía | no hay huevos aún | todavía no hay huevos | todavía no hay huevo | aún no hay huevos | no tiene huevos | no tiene huevo | no tiene huevos todavía | todavía no tiene huevos | aún no tiene huevos | no se ven huevos | no se ve huevo | todavía no se ven huevos | aún no se ven huevos | no se ven huevos todavía | no se ven huevos aún | no veo huevos | no vi huevos | no vimos huevos | no encontré huevos | no encontramos huevos | no había huevos | no había huevo | ningún huevo | ni un huevo | ni un solo huevo | ni un huevito | nada de huevos | nada de huevo | nada de huevos todavía | todavía nada de huevos | aún nada de huevos | cero huevos | todavía nada | aún nada | nada todavía | nada aún | todavía no pone | aún no pone | no pone | no pone todavía | no pone aún | no está poniendo | todavía no está poniendo | no puso | no puso todavía | no puso nada | todavía no puso | no ha puesto | no ha puesto todavía | no ha puesto nada | todavía no ha puesto | aún no ha puesto | no a puesto | no ha empezado a poner | todavía no empieza | todavía no empieza a poner | no empieza a poner | no arranca | todavía no arranca | no ha arrancado | no ha aovado | sin postura | todavía sin postura | aún sin postura | sin postura todavía | no hay postura | todavía no hay postura | no tiene postura | nada de postura | cero postura | sigue sin poner | sin poner | sigue sin postura | sigue sin huevos | el panal sigue vacío | el panal está vacío | no le vi huevos | no le vi huevo | no le veo huevos | no le encontré huevos | no trae huevos | no trae huevo | no traía huevos | no alcanzo a ver huevos | no pone nada | todavía no trae | no se le ven huevos | no se le ve huevo
CELL: celda | celdas | realera | realeras | celda real | celdas reales | realerita | realeritas | celdita | celditas | capullo | capullos | celdas maduras | celda madura | celdas operculadas | celda operculada | celdas selladas | celda sellada | celdas de reina | celda de reina | maestriles | maestril | cacahuates | cacahuate | bellotas | celdas nuestras | celdas buenas | qcs | celdas listas | todas las celdas
QUEEN: reina | reinas | reinita | reinitas | reinas fecundadas | reinas fecundas | madres | hembras | maestras | maestra | reinas nuevas | soberana | monarca | reinas jóvenes | reinas marcadas | todas las reinas
COMB: panal | panales | cuadro | cuadros | marco | marcos | bastidor | bastidores | panal estirado | panal labrado | panal oscuro | panal negro | panal viejo | panal claro | cuadro labrado | cuadro estirado | marco labrado | bastidor labrado | panal de cría | cuadro de cría | panalito | cuadrito | panal construido | panal vacío | cuadro vacío | panal limpio | bastidor vacío | marco vacío | bastidor oscuro | cuadro oscuro | marco oscuro | bastidor viejo | cuadro viejo | panal nuevo | cuadro nuevo | bastidor nuevo | cuadro negro | bastidor negro | bastidor de cría oscuro | cuadro limpio | panal estirado vacío
BEES: abeja | abejas | abejitas | nodrizas | obreras | abejas nodrizas | abejas jóvenes | la abeja | acompañantes | las muchachas | población
BEESIN: con abejas | con abeja | con sus abejas | con las abejas | abejas adentro | abejas dentro | con abejas adentro | con abejas dentro | con las abejas adentro | las abejas adentro | abejas ya adentro | abejas ya dentro | ya con abejas | ya con abejas adentro | abejas sacudidas | con abejas sacudidas | abejas ya sacudidas | sacudí abejas | sacudimos abejas | le sacudí abejas | le sacudimos abejas | eché abejas | echamos abejas | le eché abejas | y abejas | y abejas adentro | y con abejas | con nodrizas | con abejas nodrizas | con acompañantes | con su corte | con bastante abeja | con buena abeja | con bastantes abejas | con mucha abeja | metí abejas | metimos abejas | puse abejas adentro
NOBEES: sin abejas | sin abeja | sin abejas adentro | sin acompañantes | sin nodrizas | todavía sin abejas | no tiene abejas | sin sacudir abejas
OUT: afuera | fuera | pa fuera | para afuera | afuerita | ya afuera | ya fuera | salió | ya salió | para fuera
OUTSIDE: afuera | al aire libre | a la intemperie
BACK: de vuelta | de regreso | otra vez en
IN: dentro | adentro | adentro de | dentro de | en | ya adentro | ya dentro | dentrito | en la | en el | en los | en las
UP: arriba | hacia arriba
INCUBATOR: incubadora | incubadoras | a la incubadora | en la incubadora | incubación | estufa | incubando | incubar | hielera | cámara de incubación | caja caliente | incubadora portátil
NEW: nueva | nuevas | nuevo | nuevos | fresca | frescas | fresco | frescos | nuevecita | nuevecitas | de reemplazo | de repuesto | recién hechas
AGAIN: otra vez | de nuevo | nuevamente | de vuelta | una vez más | de nueva cuenta
MORE: más | otra | otras | otro | otros | otras más | adicional | adicionales | extra | extras | de más | otro tanto | unas más | y más
SIDES: los dos lados | ambos lados | por los dos lados | por ambos lados | en los dos lados | en ambos lados | un lado | de un lado | cada lado | ambas caras | las dos caras | de lado a lado | por todos lados | lado a lado

# --- trade: work that is not built yet
LOSE.done: se murió | se murieron | murió | murieron | muerta | muertas | amaneció muerta | amanecieron muertas | encontré muerta | se perdió | se perdieron | se perdió el lote | perdimos el lote | perdí el lote | perdimos la reina | perdí la reina | se perdió la reina | se enfrió | se enfriaron | se pasmaron | se cocieron | se cocinaron | se calentaron de más | se sobrecalentó | se congelaron | se ahogaron | se asfixiaron | se echó a perder | se echaron a perder | se malogró | se malograron | pérdida | pérdidas | pérdida total | baja | bajas | falleció | fallecieron | se nos fue | se nos fue la reina | se petateó | colgó los tenis | estiró la pata | envenenadas | intoxicadas | fumigaron | se secó el lote | muertas en la celda | muertas en celda | dead
VIRGINOUT: salió una virgen | nació una virgen | virgen suelta | anda una virgen | hay una virgen suelta | nació antes | nació adelantada | se adelantó una | se adelantó | nacieron antes | una virgen afuera | una ya nació | ya nació una | nació una en la criadora | nació en la criadora | nació en la incubadora | se oyen cantar | canta la reina | están piando | nació una virgen en la criadora | nació una virgen en la acabadora | nació una virgen en la incubadora | salió una virgen en la criadora | salió una virgen en la acabadora | virgen suelta en la criadora | virgen suelta en la acabadora | nació una reina en la criadora | nació una reina en la acabadora | se me salió una virgen | se salió una virgen | hay una virgen en la criadora | hay una virgen en la acabadora | ya hay una virgen | nació una en la acabadora | anda una virgen suelta | una virgen anda suelta | virgen caminando
CLAIM: ya voy a | yo voy a | ahí voy a
LOSE.done: se perdió la tanda | se perdió todo | se perdieron todas | se enfrió el lote | se murió el lote | el lote se perdió | el lote se murió | lote perdido | tanda perdida | se echó a perder el lote | perdimos todo el lote | se perdió todo el lote | se murió todo el lote
VIRGINOUT: se oye piar | se oye cantar | se escucha piar | se escucha cantar | se escuchan cantar | se oyen piar | oigo cantar | oigo piar | oímos cantar | oímos piar | está piando | cantan las reinas | están cantando las reinas | se oye canto | se escucha canto
RETIREWORD: cambiamos la reina | cambié la reina | reemplazamos la reina | reemplacé la reina
BANK: banqueamos
HARMLESS: ay dios | ay dios mío | dios mío | ay no puede ser
GONEWORD=died: murió | se murió | se me murió | se nos murió | ha muerto | está muerta | estaba muerta | amaneció muerta | apareció muerta | encontré muerta | encontramos muerta | falleció | se petateó | amaneció muerta hoy | murió hoy
GONEWORD: perdí | perdimos | perdió | se perdió | se nos fue | se me fue | se fue | desapareció | ya no está | se nos perdió | se me perdió
RETIREWORD: retirada | está retirada | quedó retirada | retiré | retiramos | jubilada | jubilamos | jubilé | reemplazada | reemplacé | reemplazamos | dada de baja | di de baja | dimos de baja | di de baja a | dimos de baja a | fuera de servicio | ya no sirve | ya está fuera de servicio | ya no la usamos
ONEOUT: ya salió una | salió una | nació una | ya nació una | una ya salió | una ya nació | ya nació la primera | ya salió la primera | una salió | una nació | se salió una | acaba de nacer una | acaba de salir una
HARMLESS: ay no | uy no | oh no | ay no no | híjole no | no manches | no puede ser | ah no | ay noo
LOSE.done: se me murió | se nos murió | ha muerto | está muerta | estaba muerta | apareció muerta | encontramos muerta | amaneció muerta hoy | murió hoy | se me fue | desapareció | ya no está | se nos perdió | se me perdió
HARMLESS: de la incubadora | desde la incubadora | de incubadora
VIRGINOUT: vírgenes sueltas | andan vírgenes | vírgenes caminando | vírgenes corriendo | virgen caminando | virgen corriendo | hay vírgenes sueltas | andan vírgenes sueltas | anda suelta una virgen | se soltó una virgen
NEG: ninguna virgen | ni una virgen | sin vírgenes | sin virgen | ninguna virgen suelta | ni una virgen suelta
QUEENLESS: huérfana | huérfano | huérfanas | huérfanos | sin reina | orfanada | orfandad | orfané | orfanamos | quedó sin reina | se quedó sin reina | no tiene reina | perdió la reina | perdieron la reina | le quité la reina | le quitamos la reina | le saqué la reina | le sacamos la reina | saqué la reina de | no hay reina | no encontré la reina | no encontramos la reina | no encuentro la reina | huerfanita | acéfala
BROOD: cría | crías | cría abierta | cría sellada | cría operculada | panal de cría | panales de cría | cuadro de cría | cuadros de cría | bastidor de cría | bastidores de cría | marco de cría | marcos de cría | le di cría | le puse cría | agregué cría | cría salteada | cría en mosaico | cámara de cría
ABSCOND.done: se fueron las abejas | se fue la abeja | se fugaron | se fugó | fugada | fugadas | se largaron | abandonaron el núcleo | abandonó el núcleo | se fue el núcleo | se levantó el núcleo | evasión | desertaron | núcleo vacío | se enjambró
ROBBED.done: pillaje | hay pillaje | pillaron | pillado | pillados | robaron | robado | robados | se lo robaron | los robaron | robando | lo saquearon | saqueado | saqueados
LAYINGWORKER: obreras ponedoras | obrera ponedora | ponedoras falsas | obreras poniendo | abejas ponedoras | varios huevos por celda
DRONELAYER: zanganera | zanganeras | reina zanganera | zanganero | zanganeros | pone puro zángano | puro zángano | poniendo zángano | postura de zángano | puros zánganos | infértil | no fecundó | no se fecundó | sin fecundar | mal fecundada
COMBINE.done: junté núcleos | unimos | uní | unidos | fusioné | fusionamos | fusionados | unificamos | reuní
RETIRE.done: retirada | retirado | jubilada | jubilamos | reemplazada | reemplacé | reemplazamos | dada de baja | di de baja | dimos de baja | dar de baja | cambiamos la reina | cambié la reina | ya no sirve | fuera de servicio | cerramos el apiario | ya no usamos
RENAME: renombrar | renombra | cambiar nombre | cambia el nombre | ahora se llama | se llama | le pusimos | nuevo nombre | renumerar
MARKQ.done: marqué | marcamos | marcadas | marcada | marcaron | marcando | marcar | pinté | pintamos | pintadas | numeradas | numeré | corté el ala | con corte de ala | despuntadas | recortadas
SELL.done: vendí | vendimos | vendió | vendieron | vendida | vendidas | vender | venta | ventas | venden | envié al cliente | mandé al cliente | cliente | clientes | comprador | compradores | pagaron | pagadas | paquetería | envío | embarqué | despachadas al cliente
HAND.done: entregué | entregamos | entregó | entregaron | entregadas | entregada | entregar | entrega | entregas | recogieron | recogió | se llevó | se las llevó | se las llevaron | vinieron por | vino por | pasaron por
INTRODUCE.done: introduje | introdujimos | introducida | introducidas | introducir | introducción | introduciendo | presenté la reina | presentamos | di reina | dimos reina | puse reina | pusimos reina | metí reina | metimos reina
ASSIGN: asignar | asígnale | asígnenle | asignado | asignada | que vaya | que lo haga | que las mueva | que la revise | le toca a | lo hace | lo haga | se lo paso a | pásaselo a | encárguense
AWAY: no está | no estará | descansa | descanso | libra | de vacaciones | vacaciones | enfermo | enferma | incapacidad | fuera de la ciudad | no viene | no trabaja | ausente | día libre | franco
REMIND: recuérdanos | recuérdenos | recordatorio | pon un recordatorio | recuérdale | recuérdales | avísanos | avísales | que no se nos olvide
FLIGHTS: vuelos | vuelo | vuelo de fecundación | vuelos de fecundación | vuelo nupcial | vuelos nupciales | volando
HANDSOFF: no tocar | no tocar las celdas | no tocar celdas | no las toquen | no la toquen | no mover | sin tocar | reposo | no abrir | no abran | no abrir los núcleos | no abran los núcleos | déjenlas quietas | déjenlos quietos
REASON: porque | por que | debido a | a causa de | por culpa de | por lo de | ya que | puesto que | por eso | gracias al
TEMP: temperatura | temp | grados | termómetro | termostato | marca grados | muy caliente | muy fría | se calentó | subió a | bajó a | humedad | se disparó | resistencia
POWER: se fue la luz | no hay luz | sin luz | se cortó la luz | corte de luz | apagón | volvió la luz | regresó la luz | llegó la luz | electricidad | corriente | sin corriente | se fue la corriente | planta de luz | generador | se desconectó | desconectada | desenchufada
DISEASE: loque | loque americana | loque europea | cría yesificada | cría calcárea | cría de tiza | varroa | varroas | ácaros | nosema | nosemosis | polilla | escarabajo | escarabajos | enferma | enfermas | enfermedad | huele mal | mal olor | tratamiento | traté | tratamos con | oxálico | fórmico | timol | amitraz | inspector | senasa | senasica
SWARM.done: enjambró | enjambraron | enjambre | enjambres | enjambrazón | se enjambraron | capturé enjambre | capturé un enjambre | capturamos un enjambre | atrapé un enjambre | atrapamos un enjambre | bajé un enjambre | bajamos un enjambre | agarré un enjambre | agarramos un enjambre | recogí un enjambre | recogimos un enjambre | cayó un enjambre
RESTING: en descanso | descansando | reposo | en reposo | parada

# --- says nothing that matters in a report
HARMLESS: el | la | los | las | lo | le | les | se | me | nos | te | yo | tú | ella | ellos | ellas | nosotros | nosotras | usted | ustedes | su | sus | mi | mis | nuestro | nuestra | nuestros | nuestras | este | esta | estos | estas | ese | esa | esos | esas | esto | eso | aquel | aquella | un | una | de | del | a | al | en | con | por | para | pa | y | e | que | como siempre | ya | ahora | ahorita | ahí | allí | aquí | acá | allá | ahí en | allá en | acá en | aquí en | es | son | están | estamos | estoy | fui | fuimos | hay | he | ha | han | hemos | había | habían | haber | tengo | tenemos | tiene | tienen | entonces | pues | pos | po | pue | che | oe | bien | muy | tan | tanto | mucho | super | re | requete | bastante bien | así | así nomás | también | dentro | adentro | misma | mismo | mismas | mismos | mero | mera | merito | ya ya | ahí mismo | de las cuales | quedaron | quedó | ya las | ya la | ya los | ya lo | acabo de | acabamos de | terminamos de | terminé de | nos fuimos | anda | andan | k | d | x aquí | del año | de la temporada | este año | esta temporada | lo mejor del año | de lo que va del año | primero del año | con la | con el | sobre panal | sola | qué alivio | alegre | bajón | bakán | bróder | chuta | cracks | decepción | emoción | emocionados | fantásticos | jaj | jajaj | lástima | qué lástima | lindísima | lindísimo | lindísimos | maravillosos | muchísimas | muchísimas gracias | orgullo | pena | qué pena | preciosísimas | sudados | tío | triste | tristes | tristeza | wuey | arriba | exitazo | ya comí | ya comimos | gusto | qué gusto | noticia | qué noticia | andamos | soy | somos | huele rico | estuvo | estaban | estaba | con ganas | con todo | machín | trabajando | a toda madre | a todo dar | bien padre | bien chido | bien bonitas | bien bonito | bien bonita | bien chulas | bien gordas | una por núcleo | una en cada núcleo | una a cada núcleo | una celda por núcleo | una por cada núcleo | una por caja | una celda en cada núcleo | una por cajón | de a una por núcleo | ningún problema | ninguna novedad | antes de la lluvia | antes del calor | antes de que lloviera | antes de que calentara | después de la lluvia | después del aguacero | mientras estaba ahí | ya que estaba ahí | ya que andaba ahí | de paso | ya entrados | cada vez mejor | mejor que antes | se ve mejor | se ven mejor | mejor imposible | no hay queja | sin queja | no me quejo | ni quejarse | nada que decir | no se preocupen | no hay problema | no pasa nada | no hubo problema | no hubo problemas | floja | flojo | de floja | paradito | paradita | paraditos | parado | parados | otra cosa | para el pedido | para pedido | para pedidos | para clientes | para el cliente | para vender | para la venta | para entrega | para envío | para enviar | ando | lo de siempre | con permiso | anduve | anduvimos | a comer ya | hora de comer | hora del café | hora del lonche
HARMLESS: gracias | muchas gracias | mil gracias | saludos | saludo | un saludo | abrazo | abrazos | hola | holi | buenas | buenos días | buen día | buenas tardes | buenas noches | muy buenas | jaja | jajaja | jajajaja | jeje | jejeje | jiji | xd | lol | uf | uff | ufa | guau | wow | epa | hurra | yupi | yuju | yei | bravo | viva | felicidades | felicitaciones | ánimo | alegría | qué alegría | contento | contenta | contentos | contentas | feliz | felices | emocionado | emocionada | orgulloso | orgullosa | orgullosos | púchica | pucha | puchis | híjole | órale | ándale | caray | caramba | ah | oh | ey | eh | oye | oigan | oiga | maravilla | de maravilla | belleza | una belleza | hermosura | preciosidad | chulada | una chulada | lindo | linda | lindos | lindas | bonito | bonita | bonitos | bonitas | hermoso | hermosa | hermosos | hermosas | precioso | preciosa | preciosos | preciosas | bello | bella | bellos | bellas | chulo | chula | chulos | chulas | chido | chida | chidos | chidas | chévere | bacán | bacano | genial | geniales | excelente | excelentes | perfecto | perfecta | perfectas | espectacular | espectaculares | increíble | increíbles | impresionante | impecables | fantástico | fantástica | fantásticas | maravilloso | maravillosa | maravillosas | de lujo | lujo | buenísimo | buenísima | buenísimos | buenísimas | rico | rica | ricas | gorditas | gordita | gordas | gorda | grandotas | grandes | grande | grandecitas | parejitas | parejas | parejita | lindísimas | sanas | sana | fuertes | fuerte | tranquila | tranquilas | tranquilo | tranquilos | mansa | mansas | mansita | mansitas | a gusto | maduras | madurita | maduritas | largas | larguitas | bien formadas | bien hechas | bien hechecitas | carnudas | llenitas | rechonchas | buena | bueno | buenos | buen | gran | mejor que nunca | mejor que la otra | mejor de lo esperado | una joya | de diez | qué padre | está padre | qué bueno | qué bien | qué buena | qué bonito | qué bonitas | qué chulada | qué belleza | menos mal | por fin | al fin | ya por fin | por fin ya | ahora sí | ahora sí por fin | gracias a dios | bendito dios | bendito sea dios | a dios gracias | bendiciones | lo logramos | bien ahí | buen trabajo | lindo día | lindo el día | vamos bien | vamos equipo | a descansar | a desayunar | a almorzar | a comer | nos vemos | un gusto | con gusto | ni modo | así es la vida | así es | qué se le va a hacer | buenas noticias | noticias | buena noticia | novedades | nada mal | quedó bonito | quedó bonita | quedó bien | quedó perfecto | quedó lindo | quedaron bonitas | quedaron lindas | quedaron bien | quedaron parejas | quedaron perfectas | quedaron listas | quedaron hermosas | salieron bonitas | salieron bien | salieron parejas | se ven bien | se ven bonitas | se ven lindas | se ven sanas | se ve bien | se ve bonito | se ve bonita | todo bien | todo en orden | todo tranquilo | todo perfecto | todo ok | todo bonito | todo chido | todo salió bien | sin problema | sin problemas | sin contratiempos | sin novedad en el camino | sin golpear ninguna | sin golpes | sin perder ninguna | sin perder ni una | sin romper ninguna | sin bajas | sin accidentes | sin prisas | sin prisa | por suerte | ojalá así siempre | como reloj | como un reloj | como quedamos | como dijimos | como dijiste | como dijeron | como acordamos | según lo planeado | según el plan | como estaba planeado | a tiempo | a buena hora | justo a tiempo | esperaba más | esperaba menos | no lo puedo creer | no me lo creo | no lo podía creer | la neta | la verdad | a la verdad | de verdad | de veras | en serio | neta | de una | al toque | en total | total | resultado | resultados | reporte | informe | aviso | dato | un dato | nota | anotación | info | actualización | update | conteo | conteo final | un éxito | éxito | éxitos | puso bonito
HARMLESS: les aviso | les aviso que | aviso que | aviso nomás | nomás aviso | nomás aviso que | solo aviso que | solo para avisar | solo para avisar que | para avisar que | para avisarles que | nada más aviso que | quiero avisar que | tengo que avisar que | les cuento | les cuento que | te cuento que | les informo | les informo que | informo | informo que | les reporto | les reporto que | reporto | reporto que | reportando | quiero reportar que | me toca reportar que | les comento | les comento que | comento que | les digo que | les paso el dato | para que sepan | para que conste | para el registro | para registro | para la bitácora | va reporte | va el reporte | va mi reporte | ahí va | ahí les va | anota | anota que | anota ahí | anota por favor | anota por favor que | anoten | anoten que | anoten por favor | por favor anota | por favor anota que | favor anotar | favor de anotar | anota porfa | apunta | apunta que | apunta por favor | apunten | apunten que | registra | registra que | registra por favor | ponle ahí que | bot anota | con la novedad de que | con la novedad que | fíjate que | fíjense que | resulta que | ya saben | va pues | a ver listos | ojo | ojo ahí | eh ojo | se me pasó avisar | se me pasó anotar | se me pasó anotarlo | se me pasó anotarla | se me pasó reportar | se me pasó reportarlo | se me pasó decirles | se me olvidó avisar | se me olvidó anotar | se me olvidó anotarlo | se me olvidó anotarla | se me olvidó reportar | se me olvidó reportarlo | se me olvidó decirles | olvidé avisar | olvidé anotar | olvidé anotarlo | olvidé reportar | no había avisado | no lo había anotado | no la había anotado | no avisé | no lo anoté | no alcancé a avisar | no tenía señal | no había señal | no había internet | perdón la demora | perdón por la demora | perdón por avisar tarde | disculpen la demora | disculpen la tardanza | aviso tarde | apenas agarró señal | recién agarró señal | recién tengo señal | por las dudas | por si acaso
HARMLESS: equipo | jefe | jefa | jefes | jefecito | patrón | patrona | muchachos | muchachas | chicos | chicas | gente | amigo | amiga | amigos | amigas | compa | compas | comadre | compadres | compañeros | compañeras | compañero | compañera | colegas | raza | banda | familia | hermano | hermana | carnal | primo | prima | bro | bros | wey | güey | weon | parcero | parce | parceros | maestro | crack | campeón | campeona | campeones | mijo | mija | cuate | cuates | profe | señores | señoras | bot | compita | loco | vos | viejo | mano | manito | a todos | a todas | don | doña | inge | ingeniero
HARMLESS: calor | calorazo | calorcito | calorón | mucho calor | qué calor | frío | friazo | fresquito | sol | solazo | solecito | mucho sol | viento | ventarrón | airecito | bochorno | polvo | polvareda | lluvia | lloviendo | llovizna | lodo | nublado | despejado | neblina | clima | buen clima | cansado | cansada | cansados | cansadas | cansancio | sudado | sudada | sudando | molido | molida | molidos | rendido | a pleno sol | con este calor | con el calor | a la sombra | en la sombra | bajo la sombra | con hambre | con sed | piquetes | piquetazo | picadura | picaduras | me picaron | me picó una | nos picaron | bravas | bravitas | enojadas | de buenas | andan tranquilas | andan bravas | estaban tranquilas | estaban bravas
HARMLESS: con cuidado | con cuidadito | con calma | despacio | despacito | rápido | rapidito | rapidísimo | fácil | facilito | solo yo | solito | solita | yo solo | yo sola | yo solito | entre todos | entre los dos | entre nosotros | juntos | juntas | con ayuda | con el equipo | con los muchachos | con la ayuda de | con mi hijo | con mi hija | con mi esposa | con mi esposo | con mi hermano | con mi papá | con mi compadre | con el ahumador | con humo | con poquito humo | sin humo | sin velo | sin guantes | con guantes | ahumador | humo | velo | careta | traje | overol | guantes | cuña | espátula | palanca | aguja | aguja de injertar | con la aguja | con la cucharilla | cucharilla | con la pluma china | aguja china | con la china | lámpara | con lámpara | lentes | con lentes | trapo | trapo húmedo | trapo mojado | toalla | toalla húmeda | protector | protectores | con protector | con protectores | con rulos | rulos | caja de traslado | bases | base | banco de trabajo | voy de regreso | ya voy de regreso | vamos de regreso | ya vamos de regreso | voy de vuelta | ya voy de vuelta | vengo de regreso | ya vengo de regreso | ando de regreso | voy para la casa | ya voy para la casa | me voy a descansar | me voy a almorzar | me voy a comer | ya me voy | ya nos vamos | ya nos fuimos | listo por hoy | es todo | es todo por hoy | eso es todo | eso sería todo | eso fue todo | nada más por hoy | fin del reporte | hasta aquí | trabajo | chamba | la chamba | buena chamba | jale | faena | estuvo pesado | pesadito | estuvo duro | quedé molido | costó trabajo | costó un poco | tardamos | tardé un rato | nos tardamos | toda la mañana ahí | cosa | cosas | cuenta | señal | panales bonitos | abeja | abejas | abejitas | jalea | jalea real | con jalea | con mucha jalea | llenas de jalea | bien cebadas | bien alimentadas | bien pobladas | con buena población | acompañantes | lado | lados | camino | viaje | ida
HARMLESS: girasol | acahual | mezquite | azahar | naranjo | eucalipto | algarrobo | trébol | alfalfa | colza | romero | tomillo | dzidzilché | tajonal | huizache | palo dulce | pitarrilla | campanilla | maíz en flor | florecido | flores | flor

# --- other life: a soft hint that a number is not the crew's
FOREIGN: alza | alzas | caja | cajas | colmena | colmenas | piso | pisos | tapa | tapas | techo | techos | entretapas | tambor | tambores | tambos | camioneta | camión | camiones | troca | carro | carros | coche | coches | moto | motos | tráiler | remolque | cerveza | cervezas | chelas | caguamas | tacos | taco | tortas de jamón | tamales | pupusas | arepas | empanadas | pollo asado | pizza | pizzas | comida para | perro | perros | gato | gatos | niño | niños | niña | niñas | hijos | dinero | lana | plata | pesos | dólares | euros | quetzales | lempiras | colones | soles | bolívares | guaraníes | varos | gasolina | diésel | kilómetro | kilómetros | km | metros | metro | cuadras | celular | celulares | teléfono | teléfonos | partido | partidos | goles | gol | láminas | llanta | llantas | fotos | foto | videos | video | precio | precios | gallina | gallinas | pollo | pollos | pollitos | huevos de gallina | mojarra | mojarras | pescado | pescados | peces | truchas | tienda | mercado | río | tráfico | pila | pilas | batería | baterías | radio | canción | canciones | película | gente de | personas | persona | clientes de miel | cubetas | guantes | trajes | velos | hormiga | hormigas | avispa | avispas | lluvias | bulto | bultos | saco | sacos | costales | costal | planta | plantas | árbol | árboles | matas | vacas | vaca | borregos | borrego | chivas | chivo | cabras | cerdos | puercos | caballos | caballo | mesas | mesa | sillas | silla | boletos | puerta | puertas | ganaderos | político | políticos | escuela | iglesia | cumpleaños | boda | fiesta | doctor | hospital | herramientas | clavos | tablas | ladrillos | cemento | postes | trampas | trampa | milpa | hectáreas | tomates | trompo | abejorros | cafecito | almuerzo | desayuno | casa | casas | llave | llaves | hijo | hija | sobrina | sobrino | leche | agua | lonche | lonches | moscas | mosquitos | arañas | enjambre | enjambres | taller | bodega | fotos de | fotos del | fotos de la | foto de | cuadros de miel | cuadro de miel | marcos de miel | panales de miel | panal de miel | bastidores de miel | bastidor de miel | alzas de miel | litros de miel | kilos de miel | cubetas de miel | cuadros de abejas | bastidores de abejas | láminas de cera | cera estampada | hojas de cera | cúpulas nuevas | copas nuevas | ratones | ratón | víboras | víbora | venado | venados | tlacuache | tejón | zopilotes | fogata | fogatas | tablones

# --- commands: words and senses that commands.txt alone goes by
command BOTNAME: bot
command POLITE: por favor | gracias | muchas gracias | me puedes decir | puedes decirme | dime | oye | y | ok | ahora
command ASKLEAD: nuestro | nuestra | mi | mis | los | las | el | la | quiero ver | mándame | pásame | manda
command SETTINGHEAD: ajustar | ajusta | configurar | configura
command SETTINGSWORD: ajustar | ajustes | configuración | los ajustes | configurar
command CHANGEWORD: poner | pon | ponga | fijar | fija | cambiar | cambia
command SETTO: a | en | a las | a la | para | de | del | por | aviso | desde | los | las
command ISWORD: está | esta | anda | marca | ahora | es | son | sea
command ANDHALF: y medio
command MYLANGUAGE: mi idioma | mi lengua
command STEPWORD: paso
command TILLWORD: a | hasta | a las | hasta las
command NIGHT: de la noche
command ADDHEAD: agregar | agrega | agregue | agregá | añadir | añade | añada | añadí | dar de alta
command ADDNEW: nuevo | nueva | otro | otra
command CALLED: llamado | llamada
command HIVEWORD: colmena
command FORWORD: para | para el | para la | por | hasta | hasta el | antes del | antes de | el | del | de | en
command ORDERHEAD: pedido | encargo | el pedido
command ORDERS: pedidos | los pedidos | encargos
command OPENWORD: abiertos
command PLANHEAD: plan | planear
command ORDERKIND: maduras | operculadas | fecundadas | más | en postura
command WANTWORD: quiere | quieren | necesita | necesitan | pide | piden | pidió | encargó
command CANCELWORD: anular | anula | cancelar | cancela
command YIELDHEAD: rendimiento | rendimientos
command BYWORD: por | de cada
command PERSONWORD: persona | personas
command WEEKWORD: semana | la semana | semanas
command CAPACITY: capacidad | núcleos libres
command WHATIFWORD: qué pasa si | qué pasaría si
command LATERWORD: más tarde | después
command SOONERWORD: antes | más temprano
command FITWORD: cuándo confinar | cuándo encerrar
command DUEASK: pendiente | pendientes | qué toca | qué nos toca | qué me toca | qué toca hacer | qué hay | qué hay que hacer | qué hay pendiente | qué está pendiente | qué falta | qué tenemos pendiente | qué tenemos | qué tareas hay | qué sigue
command DUEHEAD: pendiente | pendientes
command SHOWTAIL: por favor
command SHOWLEAD: dime | estado de | estado del | estado
command WHYASK: por qué | y por qué | y eso por qué | y por qué eso | por qué eso | eso por qué | eso porque | porque
command HOWLONG: cuánto tiempo tenemos | cuánto tiempo tengo | cuánto tiempo hay
command WHENASK: cuándo se | cuándo toca | hasta qué hora se puede
command WHENSMALL: se | hay | que | toca | puede | podemos | puedo | tenemos | las | los | la | el | de | otra vez
command WHYSMALL: tan | toca | y no | temprano | tarde | hoy | eso | esa | ese | día | hora | ahora | y
command HELPASK: ayuda | comandos
command HELPHEAD: ayuda | cómo anoto
command HELPWITH: con | sobre | para | el | la | los | las | de | del | lo | un | una
command HELPTOPIC: deshacer | ajustar | ajustes | settings | agregar | pendiente | mío | luego | saltar | lote | madre | criadora | apiario
command TASK=eggs: buscar huevos
command TASK=combout: sacar panal | sacar el panal | panal
command TASK=accept: contar aceptadas
command TASK=finish: a la acabadora | acabadora
command TASK=capped: contar operculadas
command TASK=handsoff: no tocar las celdas | reposo
command TASK=rogue: buscar celdas de emergencia | celdas de emergencia | emergencia | limpia
command TASK=nucs: armar núcleos
command TASK=move: pasar celdas | traslado | mover celdas
command TASK=emerge: revisar nacimientos | nacimientos
command TASK=flights: no abrir los núcleos | vuelos
command TASK=laying: buscar postura
command TASK=catch: capturar reinas | captura
command TASK=recell: reponer celdas
command TASK=drones: panal de zángano
command TASK=feed: alimento
command LOGASK: registro | bitácora | el registro | la bitácora
command SEASONWORD: temporada | la temporada | año
command MYWORD: mi | el | la | los | las
command SHEETWORD: planilla | la planilla | hoja de cálculo | la hoja de cálculo | csv
command CALENDARHEAD: calendario | el calendario
command CALENDARPART=link: enlace
command CALENDARPART=file: archivo
command CALENDARPART=new: nuevo
command PHOTOSWORD: fotos | las fotos
command LEADVERB: líder | líder a
command REMOVEHIM: quitar a | sacar a
command FORGETHIM: olvidar a | olvida a | olviden a
command WEEKDAY=6: sábados
command WEEKDAY=7: domingos

# --- grammar of entities.txt: words that its patterns go by
BUILDERS: criadoras | iniciadoras | las criadoras | colmenas criadoras
FROMOF: de | de la
HEDGENUM: eso
LETTER=b: be | b
OFTHEM: de ellas | de esas | de estas
ONDAY: el | del
OR: o
ORD=1: primer | primero | primera
ORD=2: segundo | segunda
ORD=3: tercer | tercero | tercera
OUTOF: de un total de | de entre
ROUNDWORD: tanda | ronda | vuelta
THEF: la | a la | de la | con la
TO: a | hasta
WHOLE: entero | entera | completo | completa
HAVE: hay | tenemos | tengo | tiene | tienen
HIVE: colmena | colmenas
HONEY: miel
HABIT: siempre | normalmente | cada vez que | soliamos
LET.done: deje | dejamos
THEN: asi que | por eso
NONETOOK: no prendio ninguna | no pego ninguna | no prendio nada | ninguna prendio | ninguna pego | no agarro ninguna | no aceptaron ninguna
INSTEAD: en vez de | en lugar de
AT1: a la | como a la | a eso de la | a la de | tipo a la
ANDTEN: y
PARTWORD: mañana | tarde | noche | madrugada
PLACE=north: norte
PLACE=south: sur
PLACE=east: este
PLACE=west: oeste
PLACE=creek: arroyo
PLACE=hill: cerro | loma
PLACE=river: rio
PLACE=home: casa
ending ado: ao
DEADWORD: se me volaron | se volaron | se me escaparon | se escaparon | se me fueron volando | escaparon | volaron
PLEASE: porfa | por favor | porfavor
HARMLESS: antes de comer | antes de la lluvia | antes del almuerzo | que faltaban | que faltan | llueve | lloviendo | colmena | colmenas | solita | poquitos | apuren | apure
ROGUE: celda loca | celdas locas
NOROGUE: sin falsas | sin celdas falsas | ninguna celda loca | ninguna loca | no encontre ninguna celda loca
CLAIM: me la echo yo | me las echo yo | la hago yo | lo hago yo | las llevo yo | las muevo yo | yo la hago | yo lo hago

# --- words of an answer that people do not say to each other: they count without a reply
ALONE: listo | lista | listos | listas | hecho | hecha | hechos | hechas | ya está | ya quedó | todo listo | todo hecho | ya listo | terminado | terminada | más tarde | luego | al rato | recuérdame | recuérdenme | recuérdanos | recuérdame luego | recuérdame en | recuérdame más tarde | recuérdame otra vez | avísame en | posponer | pospón | omitir | omite | omítelo | omítela | saltar | sáltalo | sáltala
# Said to somebody of the crew.
YOU: tú | usted | ustedes | vos | te | llevaste | pasaste | trasladaste | acarreaste | ubicaste | colocaste | injertaste | contaste | revisaste | capturaste | agarraste | sacaste | aceptaste | confinaste | encerraste | alimentaste | cargaste | armaste | preparaste | probaste | checaaste | checaste | miraste | encontraste | anotaste | moviste | metiste | viste | pusiste | hiciste | recogiste | diste | fuiste | saliste | trajiste | abriste | atrapaste | enjaulaste
# What follows was said amiss.
NOTIS: no era | no eran | no fue | no fueron | no es | no son

# --- un pedido en palabras: lo que hacen los clientes y lo que se le pide al bot
WANTS: encargo de | apártame | aparta | apartar | apartarle | apártale | resérvame | reservar | anótame | anota | anótale | apunta | apúntame | apúntale | un pedido | nuevo pedido | pedido de | pedido para | una orden | una order | guárdame | guárdale
