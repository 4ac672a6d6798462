# German, as queen breeders in Germany, Austria and Switzerland type and dictate it. It is
# test data: it shows that a language is a file. The rules are those of data/en.lex.
#
# Done: the participle and the preterite. Infinitives and the present are bare: "larve
# morgen um" is ahead. Verbs that part ("larvte 45 in B1 um") stand by their first half.
language de

# --- spellings: what phones make of umlauts, short forms, what is heard as two words
same königin: koenigin | köngin | königinn | koe
same königinnen: koeniginnen | köninginnen | köngiginnen
same für: fuer
same über: ueber
same früh: frueh
same später: spaeter
same zurück: zurueck
same müssen: muessen
same können: koennen
same größe: groesse
same geschlüpft: geschluepft | geschlüft | geschlupft | geschlübft
same schlüpfen: schluepfen
same schlüpft: schluepft
same gefüttert: gefuettert | gefütert | gefüddert
same füttern: fuettern
same füttert: fuettert
same gekäfigt: gekaefigt
same käfig: kaefig
same käfige: kaefige
same zuchtmütter: zuchtmuetter
same begattungskästchen: begattungskaestchen | begattungskästen | begattungskästchn | bk
same kästchen: kaestchen | kästle | kastl | kistl | kästli
same anbrüter: anbrueter
same nördlich: noerdlich
same grün: gruen
same weiß: weiss
same heiß: heiss
same schließen: schliessen
same geschlossen: gschlossen
same stückchen: stueckchen
same näpfchen: naepfchen
same eingehängt: eingehaengt
same umgehängt: umgehaengt
same zugehängt: zugehaengt
same gehängt: gehaengt
same bestückt: bestueckt
same gefüllt: gefuellt
same befüllt: befuellt
same völker: voelker
same völkchen: voelkchen
same überall: ueberall
same übernehme: uebernehme
same übernehm: uebernehm
same rückgängig: rueckgaengig
same löschen: loeschen
same lösch: loesch
same gelöscht: geloescht
same zählt: zaehlt
same nachgezählt: nachgezaehlt
same verzählt: verzaehlt
same hälfte: haelfte
same ungefähr: ungefaehr
same spätestens: spaetestens
same trachtlücke: trachtluecke
same fünf: fuenf
same zwölf: zwoelf
same umgelarvt: um gelarvt | umglarvt | umgelavt | umgelarft | umgelarvd | umgelarv
same umlarven: umlarfen | um larven
same verdeckelt: verdekelt | verdecklt | vedeckelt | verdeckeld
same angenommen: angenomen | angnommen | an genommen
same eingesperrt: eingespert | ein gesperrt | eingsperrt
same freigelassen: frei gelassen | freiglassen | freigelasen
same heute: heut | heite
same gestern: gestan | gestrn
same vorgestern: vorgestan
same nicht: nich | ned
same nichts: nichs
same ist: isch
same habe: hab
same eine: 'ne
same einen: 'nen
same zuchtmutter: zm
same stunden: stdn
same stunde: stnde
same königinnen: kös
same bitte: bidde
same danke: dankeschön | dankschön | dangge
same okay: okee | okey

# --- the clock as it is said and typed: half of the hour to come
same 0h00: 0.00 uhr | 00.00 uhr
same 0h05: 0.05 uhr | 00.05 uhr | 0 uhr 05
same 0h10: 0.10 uhr | 00.10 uhr | 0 uhr 10
same 0h15: 0.15 uhr | 00.15 uhr | 0 uhr 15 | 0 uhr fünfzehn
same 0h20: 0.20 uhr | 00.20 uhr | 0 uhr 20
same 0h25: 0.25 uhr | 00.25 uhr | 0 uhr 25
same 0h30: 0.30 uhr | 00.30 uhr | 0 uhr 30 | 0 uhr dreißig
same 0h35: 0.35 uhr | 00.35 uhr | 0 uhr 35
same 0h40: 0.40 uhr | 00.40 uhr | 0 uhr 40
same 0h45: 0.45 uhr | 00.45 uhr | 0 uhr 45
same 0h50: 0.50 uhr | 00.50 uhr | 0 uhr 50
same 0h55: 0.55 uhr | 00.55 uhr | 0 uhr 55
same 1h00: 1.00 uhr | 01.00 uhr
same 1h05: 1.05 uhr | 01.05 uhr | 1 uhr 05
same 1h10: 1.10 uhr | 01.10 uhr | 1 uhr 10
same 1h15: 1.15 uhr | 01.15 uhr | 1 uhr 15 | 1 uhr fünfzehn
same 1h20: 1.20 uhr | 01.20 uhr | 1 uhr 20
same 1h25: 1.25 uhr | 01.25 uhr | 1 uhr 25
same 1h30: 1.30 uhr | 01.30 uhr | 1 uhr 30 | halb 2 | halb zwei | halber 2 | halber zwei | 1 uhr dreißig
same 1h35: 1.35 uhr | 01.35 uhr | 1 uhr 35
same 1h40: 1.40 uhr | 01.40 uhr | 1 uhr 40
same 1h45: 1.45 uhr | 01.45 uhr | 1 uhr 45 | dreiviertel 2 | dreiviertel zwei | drei viertel 2
same 1h50: 1.50 uhr | 01.50 uhr | 1 uhr 50
same 1h55: 1.55 uhr | 01.55 uhr | 1 uhr 55
same 2h00: 2.00 uhr | 02.00 uhr
same 2h05: 2.05 uhr | 02.05 uhr | 2 uhr 05
same 2h10: 2.10 uhr | 02.10 uhr | 2 uhr 10
same 2h15: 2.15 uhr | 02.15 uhr | 2 uhr 15 | 2 uhr fünfzehn
same 2h20: 2.20 uhr | 02.20 uhr | 2 uhr 20
same 2h25: 2.25 uhr | 02.25 uhr | 2 uhr 25
same 2h30: 2.30 uhr | 02.30 uhr | 2 uhr 30 | halb 3 | halb drei | halber 3 | halber drei | 2 uhr dreißig
same 2h35: 2.35 uhr | 02.35 uhr | 2 uhr 35
same 2h40: 2.40 uhr | 02.40 uhr | 2 uhr 40
same 2h45: 2.45 uhr | 02.45 uhr | 2 uhr 45 | dreiviertel 3 | dreiviertel drei | drei viertel 3
same 2h50: 2.50 uhr | 02.50 uhr | 2 uhr 50
same 2h55: 2.55 uhr | 02.55 uhr | 2 uhr 55
same 3h00: 3.00 uhr | 03.00 uhr
same 3h05: 3.05 uhr | 03.05 uhr | 3 uhr 05
same 3h10: 3.10 uhr | 03.10 uhr | 3 uhr 10
same 3h15: 3.15 uhr | 03.15 uhr | 3 uhr 15 | 3 uhr fünfzehn
same 3h20: 3.20 uhr | 03.20 uhr | 3 uhr 20
same 3h25: 3.25 uhr | 03.25 uhr | 3 uhr 25
same 3h30: 3.30 uhr | 03.30 uhr | 3 uhr 30 | halb 4 | halb vier | halber 4 | halber vier | 3 uhr dreißig
same 3h35: 3.35 uhr | 03.35 uhr | 3 uhr 35
same 3h40: 3.40 uhr | 03.40 uhr | 3 uhr 40
same 3h45: 3.45 uhr | 03.45 uhr | 3 uhr 45 | dreiviertel 4 | dreiviertel vier | drei viertel 4
same 3h50: 3.50 uhr | 03.50 uhr | 3 uhr 50
same 3h55: 3.55 uhr | 03.55 uhr | 3 uhr 55
same 4h00: 4.00 uhr | 04.00 uhr
same 4h05: 4.05 uhr | 04.05 uhr | 4 uhr 05
same 4h10: 4.10 uhr | 04.10 uhr | 4 uhr 10
same 4h15: 4.15 uhr | 04.15 uhr | 4 uhr 15 | 4 uhr fünfzehn
same 4h20: 4.20 uhr | 04.20 uhr | 4 uhr 20
same 4h25: 4.25 uhr | 04.25 uhr | 4 uhr 25
same 4h30: 4.30 uhr | 04.30 uhr | 4 uhr 30 | halb 5 | halb fünf | halber 5 | halber fünf | 4 uhr dreißig
same 4h35: 4.35 uhr | 04.35 uhr | 4 uhr 35
same 4h40: 4.40 uhr | 04.40 uhr | 4 uhr 40
same 4h45: 4.45 uhr | 04.45 uhr | 4 uhr 45 | dreiviertel 5 | dreiviertel fünf | drei viertel 5
same 4h50: 4.50 uhr | 04.50 uhr | 4 uhr 50
same 4h55: 4.55 uhr | 04.55 uhr | 4 uhr 55
same 5h00: 5.00 uhr | 05.00 uhr
same 5h05: 5.05 uhr | 05.05 uhr | 5 uhr 05
same 5h10: 5.10 uhr | 05.10 uhr | 5 uhr 10
same 5h15: 5.15 uhr | 05.15 uhr | 5 uhr 15 | 5 uhr fünfzehn
same 5h20: 5.20 uhr | 05.20 uhr | 5 uhr 20
same 5h25: 5.25 uhr | 05.25 uhr | 5 uhr 25
same 5h30: 5.30 uhr | 05.30 uhr | 5 uhr 30 | halb 6 | halb sechs | halber 6 | halber sechs | 5 uhr dreißig
same 5h35: 5.35 uhr | 05.35 uhr | 5 uhr 35
same 5h40: 5.40 uhr | 05.40 uhr | 5 uhr 40
same 5h45: 5.45 uhr | 05.45 uhr | 5 uhr 45 | dreiviertel 6 | dreiviertel sechs | drei viertel 6
same 5h50: 5.50 uhr | 05.50 uhr | 5 uhr 50
same 5h55: 5.55 uhr | 05.55 uhr | 5 uhr 55
same 6h00: 6.00 uhr | 06.00 uhr
same 6h05: 6.05 uhr | 06.05 uhr | 6 uhr 05
same 6h10: 6.10 uhr | 06.10 uhr | 6 uhr 10
same 6h15: 6.15 uhr | 06.15 uhr | 6 uhr 15 | 6 uhr fünfzehn
same 6h20: 6.20 uhr | 06.20 uhr | 6 uhr 20
same 6h25: 6.25 uhr | 06.25 uhr | 6 uhr 25
same 6h30: 6.30 uhr | 06.30 uhr | 6 uhr 30 | halb 7 | halb sieben | halber 7 | halber sieben | 6 uhr dreißig
same 6h35: 6.35 uhr | 06.35 uhr | 6 uhr 35
same 6h40: 6.40 uhr | 06.40 uhr | 6 uhr 40
same 6h45: 6.45 uhr | 06.45 uhr | 6 uhr 45 | dreiviertel 7 | dreiviertel sieben | drei viertel 7
same 6h50: 6.50 uhr | 06.50 uhr | 6 uhr 50
same 6h55: 6.55 uhr | 06.55 uhr | 6 uhr 55
same 7h00: 7.00 uhr | 07.00 uhr
same 7h05: 7.05 uhr | 07.05 uhr | 7 uhr 05
same 7h10: 7.10 uhr | 07.10 uhr | 7 uhr 10
same 7h15: 7.15 uhr | 07.15 uhr | 7 uhr 15 | 7 uhr fünfzehn
same 7h20: 7.20 uhr | 07.20 uhr | 7 uhr 20
same 7h25: 7.25 uhr | 07.25 uhr | 7 uhr 25
same 7h30: 7.30 uhr | 07.30 uhr | 7 uhr 30 | halb 8 | halb acht | halber 8 | halber acht | 7 uhr dreißig
same 7h35: 7.35 uhr | 07.35 uhr | 7 uhr 35
same 7h40: 7.40 uhr | 07.40 uhr | 7 uhr 40
same 7h45: 7.45 uhr | 07.45 uhr | 7 uhr 45 | dreiviertel 8 | dreiviertel acht | drei viertel 8
same 7h50: 7.50 uhr | 07.50 uhr | 7 uhr 50
same 7h55: 7.55 uhr | 07.55 uhr | 7 uhr 55
same 8h00: 8.00 uhr | 08.00 uhr
same 8h05: 8.05 uhr | 08.05 uhr | 8 uhr 05
same 8h10: 8.10 uhr | 08.10 uhr | 8 uhr 10
same 8h15: 8.15 uhr | 08.15 uhr | 8 uhr 15 | 8 uhr fünfzehn
same 8h20: 8.20 uhr | 08.20 uhr | 8 uhr 20
same 8h25: 8.25 uhr | 08.25 uhr | 8 uhr 25
same 8h30: 8.30 uhr | 08.30 uhr | 8 uhr 30 | halb 9 | halb neun | halber 9 | halber neun | 8 uhr dreißig
same 8h35: 8.35 uhr | 08.35 uhr | 8 uhr 35
same 8h40: 8.40 uhr | 08.40 uhr | 8 uhr 40
same 8h45: 8.45 uhr | 08.45 uhr | 8 uhr 45 | dreiviertel 9 | dreiviertel neun | drei viertel 9
same 8h50: 8.50 uhr | 08.50 uhr | 8 uhr 50
same 8h55: 8.55 uhr | 08.55 uhr | 8 uhr 55
same 9h00: 9.00 uhr | 09.00 uhr
same 9h05: 9.05 uhr | 09.05 uhr | 9 uhr 05
same 9h10: 9.10 uhr | 09.10 uhr | 9 uhr 10
same 9h15: 9.15 uhr | 09.15 uhr | 9 uhr 15 | 9 uhr fünfzehn
same 9h20: 9.20 uhr | 09.20 uhr | 9 uhr 20
same 9h25: 9.25 uhr | 09.25 uhr | 9 uhr 25
same 9h30: 9.30 uhr | 09.30 uhr | 9 uhr 30 | halb 10 | halb zehn | halber 10 | halber zehn | 9 uhr dreißig
same 9h35: 9.35 uhr | 09.35 uhr | 9 uhr 35
same 9h40: 9.40 uhr | 09.40 uhr | 9 uhr 40
same 9h45: 9.45 uhr | 09.45 uhr | 9 uhr 45 | dreiviertel 10 | dreiviertel zehn | drei viertel 10
same 9h50: 9.50 uhr | 09.50 uhr | 9 uhr 50
same 9h55: 9.55 uhr | 09.55 uhr | 9 uhr 55
same 10h00: 10.00 uhr
same 10h05: 10.05 uhr | 10 uhr 05
same 10h10: 10.10 uhr | 10 uhr 10
same 10h15: 10.15 uhr | 10 uhr 15 | 10 uhr fünfzehn
same 10h20: 10.20 uhr | 10 uhr 20
same 10h25: 10.25 uhr | 10 uhr 25
same 10h30: 10.30 uhr | 10 uhr 30 | halb 11 | halb elf | halber 11 | halber elf | 10 uhr dreißig
same 10h35: 10.35 uhr | 10 uhr 35
same 10h40: 10.40 uhr | 10 uhr 40
same 10h45: 10.45 uhr | 10 uhr 45 | dreiviertel 11 | dreiviertel elf | drei viertel 11
same 10h50: 10.50 uhr | 10 uhr 50
same 10h55: 10.55 uhr | 10 uhr 55
same 11h00: 11.00 uhr
same 11h05: 11.05 uhr | 11 uhr 05
same 11h10: 11.10 uhr | 11 uhr 10
same 11h15: 11.15 uhr | 11 uhr 15 | 11 uhr fünfzehn
same 11h20: 11.20 uhr | 11 uhr 20
same 11h25: 11.25 uhr | 11 uhr 25
same 11h30: 11.30 uhr | 11 uhr 30 | halb 12 | halb zwölf | halber 12 | halber zwölf | 11 uhr dreißig
same 11h35: 11.35 uhr | 11 uhr 35
same 11h40: 11.40 uhr | 11 uhr 40
same 11h45: 11.45 uhr | 11 uhr 45 | dreiviertel 12 | dreiviertel zwölf | drei viertel 12
same 11h50: 11.50 uhr | 11 uhr 50
same 11h55: 11.55 uhr | 11 uhr 55
same 12h00: 12.00 uhr
same 12h05: 12.05 uhr | 12 uhr 05
same 12h10: 12.10 uhr | 12 uhr 10
same 12h15: 12.15 uhr | 12 uhr 15 | 12 uhr fünfzehn
same 12h20: 12.20 uhr | 12 uhr 20
same 12h25: 12.25 uhr | 12 uhr 25
same 12h30: 12.30 uhr | 12 uhr 30 | halb 1 | halb eins | halber 1 | halber eins | 12 uhr dreißig
same 12h35: 12.35 uhr | 12 uhr 35
same 12h40: 12.40 uhr | 12 uhr 40
same 12h45: 12.45 uhr | 12 uhr 45 | dreiviertel 1 | dreiviertel eins | drei viertel 1
same 12h50: 12.50 uhr | 12 uhr 50
same 12h55: 12.55 uhr | 12 uhr 55
same 13h00: 13.00 uhr
same 13h05: 13.05 uhr | 13 uhr 05
same 13h10: 13.10 uhr | 13 uhr 10
same 13h15: 13.15 uhr | 13 uhr 15 | 13 uhr fünfzehn
same 13h20: 13.20 uhr | 13 uhr 20
same 13h25: 13.25 uhr | 13 uhr 25
same 13h30: 13.30 uhr | 13 uhr 30 | 13 uhr dreißig
same 13h35: 13.35 uhr | 13 uhr 35
same 13h40: 13.40 uhr | 13 uhr 40
same 13h45: 13.45 uhr | 13 uhr 45
same 13h50: 13.50 uhr | 13 uhr 50
same 13h55: 13.55 uhr | 13 uhr 55
same 14h00: 14.00 uhr
same 14h05: 14.05 uhr | 14 uhr 05
same 14h10: 14.10 uhr | 14 uhr 10
same 14h15: 14.15 uhr | 14 uhr 15 | 14 uhr fünfzehn
same 14h20: 14.20 uhr | 14 uhr 20
same 14h25: 14.25 uhr | 14 uhr 25
same 14h30: 14.30 uhr | 14 uhr 30 | 14 uhr dreißig
same 14h35: 14.35 uhr | 14 uhr 35
same 14h40: 14.40 uhr | 14 uhr 40
same 14h45: 14.45 uhr | 14 uhr 45
same 14h50: 14.50 uhr | 14 uhr 50
same 14h55: 14.55 uhr | 14 uhr 55
same 15h00: 15.00 uhr
same 15h05: 15.05 uhr | 15 uhr 05
same 15h10: 15.10 uhr | 15 uhr 10
same 15h15: 15.15 uhr | 15 uhr 15 | 15 uhr fünfzehn
same 15h20: 15.20 uhr | 15 uhr 20
same 15h25: 15.25 uhr | 15 uhr 25
same 15h30: 15.30 uhr | 15 uhr 30 | 15 uhr dreißig
same 15h35: 15.35 uhr | 15 uhr 35
same 15h40: 15.40 uhr | 15 uhr 40
same 15h45: 15.45 uhr | 15 uhr 45
same 15h50: 15.50 uhr | 15 uhr 50
same 15h55: 15.55 uhr | 15 uhr 55
same 16h00: 16.00 uhr
same 16h05: 16.05 uhr | 16 uhr 05
same 16h10: 16.10 uhr | 16 uhr 10
same 16h15: 16.15 uhr | 16 uhr 15 | 16 uhr fünfzehn
same 16h20: 16.20 uhr | 16 uhr 20
same 16h25: 16.25 uhr | 16 uhr 25
same 16h30: 16.30 uhr | 16 uhr 30 | 16 uhr dreißig
same 16h35: 16.35 uhr | 16 uhr 35
same 16h40: 16.40 uhr | 16 uhr 40
same 16h45: 16.45 uhr | 16 uhr 45
same 16h50: 16.50 uhr | 16 uhr 50
same 16h55: 16.55 uhr | 16 uhr 55
same 17h00: 17.00 uhr
same 17h05: 17.05 uhr | 17 uhr 05
same 17h10: 17.10 uhr | 17 uhr 10
same 17h15: 17.15 uhr | 17 uhr 15 | 17 uhr fünfzehn
same 17h20: 17.20 uhr | 17 uhr 20
same 17h25: 17.25 uhr | 17 uhr 25
same 17h30: 17.30 uhr | 17 uhr 30 | 17 uhr dreißig
same 17h35: 17.35 uhr | 17 uhr 35
same 17h40: 17.40 uhr | 17 uhr 40
same 17h45: 17.45 uhr | 17 uhr 45
same 17h50: 17.50 uhr | 17 uhr 50
same 17h55: 17.55 uhr | 17 uhr 55
same 18h00: 18.00 uhr
same 18h05: 18.05 uhr | 18 uhr 05
same 18h10: 18.10 uhr | 18 uhr 10
same 18h15: 18.15 uhr | 18 uhr 15 | 18 uhr fünfzehn
same 18h20: 18.20 uhr | 18 uhr 20
same 18h25: 18.25 uhr | 18 uhr 25
same 18h30: 18.30 uhr | 18 uhr 30 | 18 uhr dreißig
same 18h35: 18.35 uhr | 18 uhr 35
same 18h40: 18.40 uhr | 18 uhr 40
same 18h45: 18.45 uhr | 18 uhr 45
same 18h50: 18.50 uhr | 18 uhr 50
same 18h55: 18.55 uhr | 18 uhr 55
same 19h00: 19.00 uhr
same 19h05: 19.05 uhr | 19 uhr 05
same 19h10: 19.10 uhr | 19 uhr 10
same 19h15: 19.15 uhr | 19 uhr 15 | 19 uhr fünfzehn
same 19h20: 19.20 uhr | 19 uhr 20
same 19h25: 19.25 uhr | 19 uhr 25
same 19h30: 19.30 uhr | 19 uhr 30 | 19 uhr dreißig
same 19h35: 19.35 uhr | 19 uhr 35
same 19h40: 19.40 uhr | 19 uhr 40
same 19h45: 19.45 uhr | 19 uhr 45
same 19h50: 19.50 uhr | 19 uhr 50
same 19h55: 19.55 uhr | 19 uhr 55
same 20h00: 20.00 uhr
same 20h05: 20.05 uhr | 20 uhr 05
same 20h10: 20.10 uhr | 20 uhr 10
same 20h15: 20.15 uhr | 20 uhr 15 | 20 uhr fünfzehn
same 20h20: 20.20 uhr | 20 uhr 20
same 20h25: 20.25 uhr | 20 uhr 25
same 20h30: 20.30 uhr | 20 uhr 30 | 20 uhr dreißig
same 20h35: 20.35 uhr | 20 uhr 35
same 20h40: 20.40 uhr | 20 uhr 40
same 20h45: 20.45 uhr | 20 uhr 45
same 20h50: 20.50 uhr | 20 uhr 50
same 20h55: 20.55 uhr | 20 uhr 55
same 21h00: 21.00 uhr
same 21h05: 21.05 uhr | 21 uhr 05
same 21h10: 21.10 uhr | 21 uhr 10
same 21h15: 21.15 uhr | 21 uhr 15 | 21 uhr fünfzehn
same 21h20: 21.20 uhr | 21 uhr 20
same 21h25: 21.25 uhr | 21 uhr 25
same 21h30: 21.30 uhr | 21 uhr 30 | 21 uhr dreißig
same 21h35: 21.35 uhr | 21 uhr 35
same 21h40: 21.40 uhr | 21 uhr 40
same 21h45: 21.45 uhr | 21 uhr 45
same 21h50: 21.50 uhr | 21 uhr 50
same 21h55: 21.55 uhr | 21 uhr 55
same 22h00: 22.00 uhr
same 22h05: 22.05 uhr | 22 uhr 05
same 22h10: 22.10 uhr | 22 uhr 10
same 22h15: 22.15 uhr | 22 uhr 15 | 22 uhr fünfzehn
same 22h20: 22.20 uhr | 22 uhr 20
same 22h25: 22.25 uhr | 22 uhr 25
same 22h30: 22.30 uhr | 22 uhr 30 | 22 uhr dreißig
same 22h35: 22.35 uhr | 22 uhr 35
same 22h40: 22.40 uhr | 22 uhr 40
same 22h45: 22.45 uhr | 22 uhr 45
same 22h50: 22.50 uhr | 22 uhr 50
same 22h55: 22.55 uhr | 22 uhr 55
same 23h00: 23.00 uhr
same 23h05: 23.05 uhr | 23 uhr 05
same 23h10: 23.10 uhr | 23 uhr 10
same 23h15: 23.15 uhr | 23 uhr 15 | 23 uhr fünfzehn
same 23h20: 23.20 uhr | 23 uhr 20
same 23h25: 23.25 uhr | 23 uhr 25
same 23h30: 23.30 uhr | 23 uhr 30 | 23 uhr dreißig
same 23h35: 23.35 uhr | 23 uhr 35
same 23h40: 23.40 uhr | 23 uhr 40
same 23h45: 23.45 uhr | 23 uhr 45
same 23h50: 23.50 uhr | 23 uhr 50
same 23h55: 23.55 uhr | 23 uhr 55

# --- an ordinal with a point, which would end a sentence
same "serie 1": 1. serie | 1.serie | 1. zuchtserie | 1. charge | 1. partie
same "serie 2": 2. serie | 2.serie | 2. zuchtserie | 2. charge | 2. partie
same "serie 3": 3. serie | 3.serie | 3. zuchtserie | 3. charge | 3. partie
same "serie 4": 4. serie | 4.serie | 4. zuchtserie | 4. charge | 4. partie
same "serie 5": 5. serie | 5.serie | 5. zuchtserie | 5. charge | 5. partie
same "serie 6": 6. serie | 6.serie | 6. zuchtserie | 6. charge | 6. partie
same "serie 7": 7. serie | 7.serie | 7. zuchtserie | 7. charge | 7. partie
same "serie 8": 8. serie | 8.serie | 8. zuchtserie | 8. charge | 8. partie
same "serie 9": 9. serie | 9.serie | 9. zuchtserie | 9. charge | 9. partie

# --- numbers: German says the unit first and writes one word
ZERO=0: null
DIGIT=1: eins
DIGIT=2: zwei | zwo
DIGIT=3: drei
DIGIT=4: vier
DIGIT=5: fünf | fümf
DIGIT=6: sechs
DIGIT=7: sieben | siebn
DIGIT=8: acht
DIGIT=9: neun
TEEN=10: zehn
TEEN=11: elf
TEEN=12: zwölf
TEEN=13: dreizehn
TEEN=14: vierzehn
TEEN=15: fünfzehn | fuenfzehn
TEEN=16: sechzehn
TEEN=17: siebzehn
TEEN=18: achtzehn
TEEN=19: neunzehn
TEEN=21: einundzwanzig
TEEN=22: zweiundzwanzig | zwoundzwanzig
TEEN=23: dreiundzwanzig
TEEN=24: vierundzwanzig
TEEN=25: fünfundzwanzig | fuenfundzwanzig
TEEN=26: sechsundzwanzig
TEEN=27: siebenundzwanzig
TEEN=28: achtundzwanzig
TEEN=29: neunundzwanzig
TEEN=31: einunddreißig | einunddreissig
TEEN=32: zweiunddreißig | zweiunddreissig | zwounddreißig
TEEN=33: dreiunddreißig | dreiunddreissig
TEEN=34: vierunddreißig | vierunddreissig
TEEN=35: fünfunddreißig | fünfunddreissig | fuenfunddreißig | fuenfunddreissig
TEEN=36: sechsunddreißig | sechsunddreissig
TEEN=37: siebenunddreißig | siebenunddreissig
TEEN=38: achtunddreißig | achtunddreissig
TEEN=39: neununddreißig | neununddreissig
TEEN=41: einundvierzig
TEEN=42: zweiundvierzig | zwoundvierzig
TEEN=43: dreiundvierzig
TEEN=44: vierundvierzig
TEEN=45: fünfundvierzig | fuenfundvierzig
TEEN=46: sechsundvierzig
TEEN=47: siebenundvierzig
TEEN=48: achtundvierzig
TEEN=49: neunundvierzig
TEEN=51: einundfünfzig | einundfuenfzig
TEEN=52: zweiundfünfzig | zweiundfuenfzig | zwoundfünfzig
TEEN=53: dreiundfünfzig | dreiundfuenfzig
TEEN=54: vierundfünfzig | vierundfuenfzig
TEEN=55: fünfundfünfzig | fuenfundfünfzig | fünfundfuenfzig | fuenfundfuenfzig
TEEN=56: sechsundfünfzig | sechsundfuenfzig
TEEN=57: siebenundfünfzig | siebenundfuenfzig
TEEN=58: achtundfünfzig | achtundfuenfzig
TEEN=59: neunundfünfzig | neunundfuenfzig
TEEN=61: einundsechzig
TEEN=62: zweiundsechzig | zwoundsechzig
TEEN=63: dreiundsechzig
TEEN=64: vierundsechzig
TEEN=65: fünfundsechzig | fuenfundsechzig
TEEN=66: sechsundsechzig
TEEN=67: siebenundsechzig
TEEN=68: achtundsechzig
TEEN=69: neunundsechzig
TEEN=71: einundsiebzig
TEEN=72: zweiundsiebzig | zwoundsiebzig
TEEN=73: dreiundsiebzig
TEEN=74: vierundsiebzig
TEEN=75: fünfundsiebzig | fuenfundsiebzig
TEEN=76: sechsundsiebzig
TEEN=77: siebenundsiebzig
TEEN=78: achtundsiebzig
TEEN=79: neunundsiebzig
TEEN=81: einundachtzig
TEEN=82: zweiundachtzig | zwoundachtzig
TEEN=83: dreiundachtzig
TEEN=84: vierundachtzig
TEEN=85: fünfundachtzig | fuenfundachtzig
TEEN=86: sechsundachtzig
TEEN=87: siebenundachtzig
TEEN=88: achtundachtzig
TEEN=89: neunundachtzig
TEEN=91: einundneunzig
TEEN=92: zweiundneunzig | zwoundneunzig
TEEN=93: dreiundneunzig
TEEN=94: vierundneunzig
TEEN=95: fünfundneunzig | fuenfundneunzig
TEEN=96: sechsundneunzig
TEEN=97: siebenundneunzig
TEEN=98: achtundneunzig
TEEN=99: neunundneunzig
TENS=20: zwanzig
TENS=30: dreißig | dreissig
TENS=40: vierzig
TENS=50: fünfzig | fuenfzig
TENS=60: sechzig
TENS=70: siebzig
TENS=80: achtzig
TENS=90: neunzig
HUNDRED=100: hundert | einhundert
TEEN=110: hundertzehn
TEEN=120: hundertzwanzig
TEEN=130: hundertdreißig | hundertdreissig
TEEN=140: hundertvierzig
TEEN=150: hundertfünfzig
ONE: ein | eine | einen | einem | einer | eines | ne | nen | 'n | eine einzige | ein einziger | einzige
COUPLE=2: ein pärchen | zwei stück
COUPLE=1.5: anderthalb | eineinhalb | einundeinhalb
COUPLE=2.5: zweieinhalb
COUPLE=3.5: dreieinhalb
DOZEN=12: dutzend | ein dutzend
ORDINAL=1: erste | ersten | erster
NUMBERSIGN: nr | nr. | nummer | no. | num
PERCENT: prozent | %
TIMES: x | mal | à | zu je | mit je | je
DEGREE: grad | °
DEGREE=c: °c | grad celsius

# --- clock and calendar
AT: um | gegen | seit | ab | punkt | so um | kurz nach | kurz vor | genau um | so gegen | schon um | um kurz nach | um kurz vor
APPROX: etwa | ungefähr | ca | ca. | circa | zirka | rund | so um die | so etwa | gegen | so gegen | in etwa | um die | schätzungsweise | kurz nach | kurz vor | so circa | so ca
PART=am: früh | morgens | vormittags | in der früh | am morgen | am vormittag | vormittag | frühmorgens
PART=pm: nachmittags | abends | am nachmittag | am abend | nachmittag | abend | nachts
PARTDAY=0am: heute morgen | heute früh | heute vormittag | heute in der früh | heute am morgen | heute am vormittag | in aller früh | vor dem frühstück | in der früh | heute morgens | heute vormittags | noch vor dem frühstück | früh am morgen
PARTDAY=0pm: heute nachmittag | heute abend | heute am nachmittag | heute am abend | am späten nachmittag | am frühen nachmittag | nach dem mittagessen | nach dem mittag | nach der mittagspause | vor dem dunkelwerden
PARTDAY=-1am: gestern morgen | gestern früh | gestern vormittag | gestern in der früh
PARTDAY=-1pm: gestern abend | gestern nachmittag | gestern am abend | gestern am nachmittag | letzte nacht | über nacht | gestern spät | gestern nacht | heute nacht
PARTDAY=1am: morgen früh | morgen vormittag | morgen in der früh | gleich morgen früh
PARTDAY=1pm: morgen nachmittag | morgen abend
DAY=0: heute | vorhin | heute noch | heute schon
DAY=-1: gestern | am tag davor
DAY=-2: vorgestern
DAY=1: morgen | am nächsten tag
DAY=2: übermorgen
WEEKDAY=1: montag | montags
WEEKDAY=2: dienstag | dienstags
WEEKDAY=3: mittwoch | mittwochs
WEEKDAY=4: donnerstag | donnerstags
WEEKDAY=5: freitag | freitags
WEEKDAY=6: samstag | sonnabend | samstags
WEEKDAY=7: sonntag | sonntags
MONTH=1: januar | jänner
MONTH=2: februar | feber
MONTH=3: märz
MONTH=4: april
MONTH=5: mai
MONTH=6: juni
MONTH=7: juli
MONTH=8: august
MONTH=9: september
MONTH=10: oktober
MONTH=11: november
MONTH=12: dezember
LAST: letzten | letzter | letzte | vergangenen | vorigen
NEXT: nächsten | nächste | nächster | kommenden | kommende
NOON: mittag | mittags | zu mittag | am mittag | um die mittagszeit
MIDNIGHT: mitternacht
QUARTER: viertel
PAST: nach
TILL: vor
OCLOCK: uhr
ISH: rum | herum | so rum | oder so
UNIT=min: min | minute | minuten
UNIT=hour: h | std | stunde | stunden | stündchen
UNIT=day: tag | tage | tagen
UNIT=week: woche | wochen
AGO: her
SINCE: vor | vor etwa | vor ca | vor ungefähr | vor gut | vor rund | vor knapp
HALFUNIT: eine halbe | einer halben | ein halbes | einem halben | halbe | halben | halber | halbes | halben
ANDHALF: einhalb
JUSTNOW: gerade eben | eben gerade | soeben | grade eben | eben erst | gerade erst | vor ein paar minuten | vor einem moment | gerade vorhin | just eben | jetzt gerade | eben jetzt | jetzt eben | grad eben | grad erst
JUSTDONE: fertig mit | fertig mit dem | gerade fertig mit | durch mit | durch mit dem | fertig
EARLIER: vor einer weile | vor kurzem | schon vor einer weile
OLD: alt | alte | alten | alter
UNDER: unter | weniger als | höchstens | maximal | jünger als | nicht mehr als | max
OVERN: über | mehr als | mindestens | wenigstens | gut über

# --- measures
LITREUNIT=1: l | liter | ltr | litern
LITREUNIT=0.001: ml | milliliter
JARUNIT: glas | gläser | eimer | flasche | flaschen | becher | beutel | kanister | schaufel
KILOUNIT=1: kg | kilo | kilos | kilogramm
KILOUNIT=0.5: pfund
EACH: je | jeweils | pro | jedem | jedes | jede | pro kästchen | pro volk | jedem kästchen | in jedes | je kästchen | je volk

# --- names and kinds of names
COLOUR=red: rot | rote | roter | roten | rotem | rotes
COLOUR=blue: blau | blaue | blauer | blauen | blauem | blaues
COLOUR=green: grün | grüne | grüner | grünen | grünem | grünes
COLOUR=yellow: gelb | gelbe | gelber | gelben | gelbem | gelbes
COLOUR=white: weiß | weiße | weißer | weißen | weißem | weißes | weisse | weisser
COLOUR=orange: orange | orangene | orangener | orangen
COLOUR=purple: lila | violett | violette | violetter
COLOUR=pink: rosa | pinke | pinker
COLOUR=black: schwarz | schwarze | schwarzer | schwarzen
COLOUR=grey: grau | graue | grauer | grauen
COLOUR=brown: braun | braune | brauner | braunen
COLOUR=turquoise: türkis
PINWORD: pin | pins | nadel | stecknadel | pinnadel | reißzwecke | reißnagel | reissnagel | reisszwecke | markierung | markierungsnadel | fähnchen | punkt | klammer | stecker | marker | pinn
BATCHWORD: serie | serien | zuchtserie | zuchtserien | charge | chargen | partie | satz | umlarvserie | zuchtreihe | reihe | zucht
BREEDERWORD: zuchtmutter | mutter | königin | zuchtkönigin | weisel | muttervolk | zuchtvolk | kö | stammmutter | reinzuchtmutter | königin nummer | zuchtmutter nummer | königin nr | zuchtmutter nr | mutter nr | mutterkönigin | zuchtweisel | stockmutter | nachzuchtmutter | linie | altkönigin
BUILDERWORD: anbrüter | starter | pflegevolk | starterkasten | starterkiste | startervolk | anbrütervolk | anbrütekasten | anbrütkasten | brutableger | sammelbrutableger | pfleger | pflegekasten | pflegevölker | anbruter | zellenbauer | volk | kasten | pflegevolk nummer | pflegevolk nr | starter nr | anpfleger
YARDWORD: stand | bienenstand | belegstelle | bienenhaus | aussenstand | außenstand | standort | platz | begattungsplatz | begattungsstand | landbelegstelle | inselbelegstelle | stand im | wanderplatz | belegstation
BAR: leiste | leisten | zuchtleiste | zuchtleisten | zuchtrahmen | zuchtlatte | zuchtlatten | latte | latten | zuchträhmchen | zellenleiste | zellenleisten | rahmen mit zellen | zuchtwabe | stäbchen
FROM: von | vom | aus | aus dem | von der | von dem | aus der | von mutter | aus volk | ab
OF: von | von den | der | des | vom | von insgesamt
THE: die | das | diese | dieses | unsere | unser | meine | mein
INTO: in | ins | im | in den | in die | in das | in der | nach | auf | auf die | auf den | auf das | zum | zur | zu | an | an den | an die | am | aufs | rein in | rüber in | rüber nach | raus nach | hin zu | rüber zu | rauf nach | rüber auf
AND: und | sowie | u | plus | und auch | und noch | sowie auch
WITH: mit | samt | mitsamt | dabei | zusammen mit | inklusive | inkl | mit einem | mit einer
THEN: dann | danach | anschließend | anschliessend | und dann | hinterher | daraufhin | darauf | im anschluss
ALSO: auch | ebenfalls | außerdem | ausserdem | dazu | zusätzlich | genauso | ebenso | und außerdem
BUTCONJ: aber | jedoch | allerdings | obwohl | nur dass | dafür
BOTH: beide | beiden | alle beide | alle zwei | beides | die beiden
ALL: alle | alles | alle zellen | sämtliche | allesamt | alle miteinander | jede einzelne | die ganze serie | die ganze leiste | alle stück | alle davon | die komplette serie | alle zusammen | ausnahmslos alle | restlos alle | durchweg alle | die ganze partie
BUT: bis auf | außer | ausser | ausgenommen | abgesehen von | minus | abzüglich | mit ausnahme von | nur nicht
NONE: keine einzige | gar keine | keine davon | keine von denen | überhaupt keine | nicht eine | nicht eine einzige | kein einziger | keine von ihnen | keine der zellen | keiner davon
HALF: die hälfte | hälfte | die hälfte davon | hälfte davon | zur hälfte | die halbe serie
REST: der rest | den rest | rest | die restlichen | restlichen | die übrigen | übrigen | die anderen | die andern | was übrig war | die übrige | der übrige | die verbliebenen
ONLY: nur | bloß | bloss | lediglich | gerade mal | grad mal | nur mal | nicht mehr als

# --- losses: before the number, and after it
LOSTWORD: bis auf | außer | ausser | minus | abzüglich | verloren | verlust | es fehlen | fehlen | ausfall | verlor | verlust von | ausgefallen | kaputt | ohne die
LOSTWORD: nicht angenommen | nicht verdeckelt | nicht geschlüpft
DEADWORD: tot | tote | toten | verloren | verloren gegangen | kaputt | kaputte | eingegangen | abgestorben | abgestorbene | leer | leere | taub | taube | nicht geschlüpft | nicht angenommen | nicht verdeckelt | nicht begattet | nicht gepflegt | abgebissen | ausgebissen | ausgeräumt | ausgefressen | weg | defekt | defekte | hin | hinüber | beschädigt | fehlen | fehlt | fehlten | runtergefallen | heruntergefallen | abgefallen | zerdrückt | verkühlt | unterkühlt | ausgefallen | nicht überlebt | abgebrochen | verkrüppelt | verschwunden | aussortiert | schlecht | unbrauchbar | gestorben | nicht aufgegangen | abgeräumt | nicht in eilage | nicht am legen | drohnenbrütig | vertrocknet | ausgetrocknet | nicht durchgekommen | gingen verloren | für die tonne | tot in der zelle | tot in zelle | liegen geblieben | sitzen geblieben | nicht zurückgekommen | nichts geworden

# --- holds a report back
NEG: nicht | kein | keine | keinen | keinem | keiner | keines | keins | nie | niemals | niemand | ohne | weder | kaum | nee | nein | nö | ne | net | nit | nix | vergessen | vergaß | konnte nicht | konnten nicht | nicht geschafft | leider nicht | gar nicht | überhaupt nicht | nicht mehr | nirgends | nirgendwo | unmöglich | statt | anstatt | verpasst | versäumt | verweigert | fehlgeschlagen
YET: noch nicht | noch kein | noch keine | noch immer | immer noch | noch | hängen noch | ist noch | sind noch | bislang | bisher | bisher nicht | noch nichts | noch offen | steht noch aus | stehen noch aus | halb fertig | fast fertig | teilweise | zur zeit noch | weiterhin | mitten im | mittendrin | mitten drin | dabei zu | nach wie vor | beinahe fertig | erst halb | bin noch beim
PLAN: werde | wird noch | will | wollen | willst | wollte | wollten | muss | müssen | musst | müsste | müssten | soll | sollen | sollte | sollten | kann | können | könnte | könnten | kannst | möchte | möchten | würde | würden | darf | dürfen | plane | planen | geplant | vorhaben | habe vor | haben vor | gleich | nachher | später | demnächst | bald | als nächstes | brauche | brauchen | braucht | falls | wenn | sobald | sowie ich | bevor | ehe | muß | zum umlarven bereit | an der reihe | ist dran | sind dran | steht an | stehen an | ist fällig | werden wir | werde ich | wir werden | ich werde | vorbereiten zum | gehe ich | gehen wir | fahre ich | fahren wir | fahr ich | lass uns | lasst uns | lassen wir | hoffe | hoffentlich | hoffen | versuche | versuchen | probiere | würde gern | wenns | sollen wir | sollten wir | nächste woche | nächsten | warte bis | warten bis | noch zu | ist noch zu | sind noch zu | vermutlich morgen | ansonsten | kümmert sich | wolltest | demnach | zwecks
HEARSAY: sagt | sagte | sagten | sagen | hat gesagt | gesagt | erzählt | erzählte | hat erzählt | hat gemeint | meint | meinen | angeblich | laut | gehört | habe gehört | gelesen | heißt es | heisst es | soll angeblich | behauptet | berichtet | schreibt | letztes jahr | letzte saison | voriges jahr | vorletztes jahr | damals | früher mal | beim nachbarn | nachbar | nachbarin | kollege hat | der nachbar | laut lehrbuch | im buch | im kurs | frühling letztes jahr | im letzten jahr | vor jahren | anno
HEDGE: vielleicht | wohl | wahrscheinlich | vermutlich | glaube | glaub | ich glaube | ich glaub | denke | denk | ich denke | schätze | ich schätze | scheint | scheinen | scheinbar | anscheinend | sieht aus | sieht so aus | sieht nach | sieht aus wie | sehen aus wie | eventuell | evtl | womöglich | möglicherweise | fast | beinahe | nahezu | nicht sicher | unsicher | weiß nicht | keine ahnung | irgendwie | oder so | ein paar | paar | einige | etliche | mehrere | manche | viele | die meisten | meisten | teils | teilweise | wenige | ungewiss | schwer zu sagen | mal sehen | mutmaßlich | könnte sein | kann sein | gefühlt | grob | über den daumen | so ungefähr | knapp | wirkt | wirken
QWORD: wer | was | wann | wo | wohin | woher | warum | wieso | weshalb | welche | welcher | welches | welchen | wie | wie viele | wieviele | wieviel | wie viel | wie lange | wie alt | wie weit | was ist | wessen | wem | wen | ob | weiß jemand | weiss jemand | hat jemand | hat wer | ist jemand | kann jemand | kann wer | sag mir | zeig mir | zeig | gibt es | gibts | gibt's | wie steht's | wie stehts | wie läuft | wie sieht
AUX: hat | ist | kann | habt | hast | können | soll | sollen | dürfen | darf | wird | muss | müssen | werdet
CORRECT: korrektur | moment | moment mal | warte | wartet | stopp | ich meine | ich meinte | meinte | ich mein | mein ich | verzählt | habe mich verzählt | nachgezählt | neu gezählt | nochmal gezählt | noch mal gezählt | nochmals gezählt | quatsch | ach quatsch | ach nein | ach ne | ach nee | vertippt | habe mich vertippt | verschrieben | sollte heißen | sollte heissen | muss heißen | muss heissen | richtig ist | richtig sind | richtig wäre | es waren | waren es | es sind doch | sind doch | waren doch | war doch | doch nur | doch erst | doch schon | eigentlich | tatsächlich | tschuldigung | entschuldigung | falscher stand | falsche zahl | falsche mutter | falsche königin | falscher kasten | falscher starter | falsch | falsche | falscher | stimmt nicht | stimmt nich | sorry | pardon | ups | uups | hoppla | huch | ändere | ändern | bitte ändern | berichtige | berichtigung | korrigiere | korrigiert | sondern | statt dessen | das war doch | das waren doch | das war schon | das war gestern | das war um | besser gesagt | bzw | nicht ganz | irrtum | mein fehler | mache daraus | mach daraus

# --- intents
YES: ja | jo | jap | jep | jawohl | jawoll | klar | genau | stimmt | richtig | korrekt | passt | passt so | sicher | natürlich | na klar | aber ja | jup | joa | so ist es | freilich | logo | definitiv | bestätigt | bestätige | mach das | trag ein | trag es ein | eintragen | bitte eintragen
NO: nein | ne | nee | nö | nicht eintragen | lass es | lass das | lieber nicht | nein danke
OKWORD: ok | okay | okey | alles klar | verstanden | gut | notiert | gesehen | danke | super | prima | geht klar | gebongt | roger | ist notiert | passt | in ordnung | gelesen | weiß bescheid | weiss bescheid | zur kenntnis genommen | aha | gemerkt | hab's gesehen | habe es gesehen | danke für die erinnerung
DONEWORD: fertig | erledigt | gemacht | getan | geschafft | habe ich gemacht | ist gemacht | alles fertig | alles erledigt | ist erledigt | sind fertig | ist fertig | schon erledigt | schon gemacht | haben wir gemacht | abgeschlossen | vollbracht | beendet | abgehakt | durch | vollzogen | bin fertig | wir sind fertig | bin durch | sind durch | ist passiert | ist getan | alles gemacht | schon passiert | soweit fertig | hab ich gemacht
ALREADY: schon | bereits | längst
CLAIM: mach ich | mache ich | ich mach das | ich mache das | ich mache es | ich mach es | das mach ich | das mache ich | übernehme ich | übernehm ich | ich übernehme | ich übernehm | ich übernehme das | ich übernehme die | ich übernehm das | bin dran | ich bin dran | kümmere mich | ich kümmere mich | kümmere mich drum | ich kümmere mich drum | ich kümmere mich darum | ich kümmer mich | kümmer mich drum | meins | meine sache | das ist meins | geht auf mich | ich nehm das | ich nehme das | ich nehme es | nehme ich | nehm ich | das nehm ich | lass mich das machen | lasst mich das machen | ich fahr hin | ich fahre hin | ich gehe hin | ich geh hin | ich mach die | ich mache die | bin schon dran | bin unterwegs dafür | ich habs | ich hab das | den mach ich | die mach ich | die übernehme ich | das übernehme ich | wir übernehmen | wir machen das | machen wir | ich kann das machen | wird gemacht | ich bin schon dabei | bin dabei | ich bin dabei
SNOOZE: nachher | später | erinner mich | erinnere mich | erinnert mich | erinnere uns | erinner mich nochmal | erinnere mich später | später nochmal | nachher nochmal | jetzt nicht | gerade nicht | gerade schlecht | noch nicht jetzt | etwas später | bisschen später | ein bisschen später | schieb | schiebe | verschieb | verschieben | verschiebe | melde dich | melde dich später | meld dich später | frag später | frag später nochmal | frag nochmal | frag mich | snooze | nerv später | in ein paar minuten | gib mir | gleich | später erinnern | weck mich | heute abend nochmal
SKIP: fällt aus | fallen aus | fällt flach | ausfallen | ausfallen lassen | auslassen | ausgelassen | lassen wir aus | lassen wir weg | lassen wir ausfallen | lassen wir | überspringen | übersprungen | überspring | skip | abgesagt | absagen | abgebrochen | abbrechen | brechen wir ab | gestrichen | streichen | streichen wir | entfällt | nicht nötig | unnötig | brauchen wir nicht | brauchts nicht | braucht es nicht | ist hinfällig | hinfällig | wird nichts | wird nichts mehr | das lassen wir | findet nicht statt | machen wir nicht | geben wir auf | aufgegeben | verworfen | verwerfen
VOID: rückgängig | rückgängig machen | mach das rückgängig | mach rückgängig | bitte rückgängig | nimm das zurück | nehme ich zurück | zurücknehmen | zurück nehmen | lösch das | lösche das | lösch | lösche | löschen | bitte löschen | lösch die letzte | lösch den letzten | letzten eintrag löschen | letzte zeile löschen | lösch den eintrag | lösch das wieder | streich das | streich den | streich die letzte | streich den letzten eintrag | vergiss das | vergiss es | storno | stornieren | storniere | stornier das | war ein versehen | war versehentlich | aus versehen | eintrag löschen | nimm das raus | nimm den eintrag raus | weg damit | stimmt gar nicht | das stimmt gar nicht
FORGET: vergiss mich
HELPWORD: hilfe | befehle | was kannst du | wie geht das | anleitung
GREET: hallo | hi | moin | moin moin | servus | grüß gott | grüss gott | grüezi | guten morgen | guten tag | guten abend | guten morgen zusammen | hallo zusammen | hallo leute | moin zusammen | morgen zusammen | morgen leute | hey | mahlzeit | tag zusammen | grüß euch | grüß dich | hoi | hallo bot | na | abend zusammen | guten morgen leute | hallo ihr | hallo ihr lieben | liebe leute | gruß | grüße | viele grüße | lg | vg | schönen gruß | mfg | tschüss | ciao | bis dann | bis morgen | bis später | schönen abend | schönen tag | guten rutsch

# --- queries and commands
DUEWORD: fällig | was ist fällig | was steht an | was liegt an | was ist dran | was kommt | was kommt als nächstes | was ist zu tun | was muss gemacht werden | was gibt's zu tun | was gibt es zu tun | was ist noch offen | was steht heute an | was ist heute dran | was ist heute zu tun | was müssen wir | was haben wir | was fehlt noch | aufgaben | todo | to do | zu tun | was als nächstes | was steht morgen an | was ist morgen dran
WHOWORD: wer | wer hat | wer macht | wer ist | wer fährt | wer übernimmt | wer kümmert sich | wer bringt | wer holt | wessen | wer war | wer geht | wem
WHENWORD: wann | wann ist | wann sind | wann kann | wann können | wann muss | wann müssen | wann wird | wann werden | wann schlüpfen | wann schlüpft | um wie viel uhr | um wieviel uhr | ab wann | bis wann | seit wann | an welchem tag | welcher tag | wie lange noch | wann soll | wann sollen
HOWMANY: wie viele | wieviele | wieviel | wie viel | wie viele zellen | was war die zahl | wie hoch | wie viel sind | wie viele sind
WHEREWORD: wo | wo ist | wo sind | wohin | wo steht | wo stehen | welcher stand | auf welchem stand | an welchem stand | in welchem | in welchem starter
WHYWORD: warum | wieso | weshalb | weswegen
FREEWORD: frei | freie | freien | verfügbar | unbesetzt | unbenutzt | freie plätze | freie kästchen | platz | kapazität
LOGWORD: protokoll | logbuch | letzte einträge | einträge | verlauf | was wurde eingetragen | was ist eingetragen | zuchtbuch
STATUSWORD: stand der dinge | status | wie steht es um | wie weit ist | wie weit sind | wie geht es | wie gehts | wie geht's | wie läuft | wie sieht es aus | was macht | was ist mit | wie steht's mit | wie stehts mit
REPORTWORD: bericht | auswertung | tabelle
CALENDARWORD: kalender
ORDERWORD: bestellung | bestellungen | bestellt | auftrag | aufträge | vorbestellung
SHOWWORD: zeige | zeig | zeig mal | liste
ADDWORD: neue aufnehmen | anlegen
COMMAND: hilfe

# --- trade: the verbs
paradigm weak done: te ten *t
paradigm weak bare: en e
paradigm weakt done: ete eten *et
paradigm weakt bare: en e et

# --- confine
CONFINE verb weak: käfig/gekäfigt
CONFINE verb weak: einsperr/eingesperr | wegsperr/weggesperr | absperr/abgesperr | isolier/isolier | festsetz/festgesetz | arretier/arretier
CONFINE.done: eingesperrt | gesperrt | weggesperrt | abgesperrt | gekäfigt | käfigte | eingekäfigt | isoliert | auf wabe gesperrt | auf die wabe gesperrt | auf einer wabe gesperrt | auf eine wabe gesperrt | auf wabe eingesperrt | eingeschlossen | sperrte | sperrten | schloss | schlossen | im käfig | sitzt im käfig | ist im käfig | in den käfig | in den käfig gesetzt | in den käfig gesteckt | in käfig gesetzt | in die wabentasche | in die wabentasche gesetzt | in der wabentasche | in der arrestwabe | auf der arrestwabe | in die arrestwabe | auf die arrestwabe | auf arrestwabe | im wabenkäfig | in den wabenkäfig | hinter gitter | hinter gittern | hinter schloss und riegel | hinterm absperrgitter | hinter dem absperrgitter | in haft | im knast | in den knast | in einzelhaft | eingefangen und gesperrt | im wabenarrest | in arrest | unter arrest | im arrest | festgesetzt | arretiert | auf leerwabe gesetzt | auf die leerwabe gesetzt | auf leerwabe gesperrt | auf wabe gesetzt | auf die wabe gesetzt | eingekastelt | in den isolator | im isolator | in isolator gesetzt | in den isolator gesetzt | eingepfercht | abgekäfigt | auf wabe im käfig | in die jenter box | im jenter kasten | im jenter | in den jenter | in die nicot box | im nicot käfig | in den nicot käfig | im nicot | weggeschlossen | auf die zuchtwabe gesperrt | interniert
CONFINE.bare: einsperren | sperren | käfigen | isolieren | in den käfig setzen | wegsperren | sperr | sperre | auf wabe sperren | absperren | festsetzen | einschließen
CONFINE.going: am einsperren | beim einsperren
CAGE: käfig | käfige | wabentasche | wabentaschen | arrestwabe | wabenkäfig | isolator | einwabenkäfig | absperrgitterkäfig | absperrgitter | jenter | nicot | zuchtkäfig | ablegekäfig | königinnenkäfig | zusetzkäfig | zusetzer | wabenbox | legekäfig | steckkäfig | arrest | käfigen | wabenarrest | brutfalle
CAGED.done: gekäfigt | in käfigen | in käfige | eingekäfigt | im käfig | verschult | geschlossen gekäfigt | ausgefangen
PUT.done: gesetzt | gesteckt | gehängt | eingehängt | reingehängt | hineingehängt | gelegt | eingelegt | reingelegt | gestellt | reingestellt | getan | reingetan | gepackt | reingesetzt | eingesetzt | hineingesetzt | platziert | aufgesetzt | zugegeben | gegeben | eingebracht | setzte | setzten | hängte | hängten | hing | steckte | steckten | stellte | stellten | untergebracht | hineingegeben | reingegeben | zugesetzt | dazugehängt | draufgesetzt | reingesteckt | eingesteckt | drin | sind drin | ist drin | reingekommen | eingebaut | dazugegeben | reingepackt | aufgelegt | bestückt
PUT.bare: setzen | setze | stecken | stecke | hängen | hänge | einhängen | legen rein | stellen | reinhängen | reinsetzen | einsetzen | geben rein | reintun | setz | häng

# --- the comb out
RELEASE verb weak: befrei/befrei
RELEASE.done: freigelassen | frei gelassen | befreit | rausgelassen | herausgelassen | laufen gelassen | laufengelassen | wieder frei | freigegeben | entlassen | aus dem käfig gelassen | aus der haft entlassen | raus aus dem käfig | aus dem käfig raus | aus dem knast | aus dem knast entlassen | aus der wabentasche gelassen | aus dem arrest | aus dem arrest gelassen | aus dem arrest entlassen | ließ | liess | ließen | käfig geöffnet | käfig aufgemacht | käfig offen | käfig auf | losgelassen | zurück im volk | wieder im volk | zurück ins volk | wieder ins volk gelassen | zurück ins volk gelassen | zurückgesetzt | wieder zurückgesetzt | zurück zu ihren bienen | zurück in ihr volk | auf freiem fuß | auf freiem fuss | ausgelassen aus dem käfig | läuft wieder frei | läuft wieder | läuft wieder rum | raus aus der wabentasche | raus aus dem arrest | aus dem isolator | aus dem isolator gelassen | in die freiheit entlassen
RELEASE.bare: freilassen | befreien | rauslassen | laufen lassen | entlassen müssen | freigeben
FREE: frei | wieder frei | zurück im volk | wieder im volk | draußen aus dem käfig | läuft frei | läuft wieder frei | auf freiem fuß
COMBOUT.done: wabe gezogen | wabe entnommen | wabe raus | wabe rausgenommen | wabe herausgenommen | wabe rausgeholt | wabe rausgezogen | wabe draußen | wabe ist raus | wabe ist draußen | zuchtwabe entnommen | zuchtwabe gezogen | zuchtwabe raus | zuchtwabe geholt | zuchtstoff geholt | zuchtstoff entnommen | zuchtstoffwabe entnommen | zuchtstoffwabe gezogen | wabe geholt | wabe weggenommen | wabe abgenommen | wabe aus dem käfig | wabe aus dem käfig genommen | wabe aus dem käfig geholt | larvenwabe geholt | larvenwabe entnommen | stiftwabe entnommen | arrestwabe entnommen | arrestwabe gezogen | arrestwabe raus | wabentasche entnommen | wabentasche raus | wabentasche geleert | arrest aufgehoben
COMBOUT.bare: wabe ziehen | wabe entnehmen | wabe rausnehmen | wabe raus nehmen | wabe holen | zuchtwabe ziehen | zuchtstoff holen | zuchtwabe holen
LET.done: ließ | liess | gelassen
TAKE.done: genommen | rausgenommen | herausgenommen | entnommen | nahm | nahmen | weggenommen | abgenommen | rausgeholt | herausgeholt | geholt | holte | holten | entfernt | ausgebaut | abgeholt | rausgesucht | ausgesucht | rausgehoben | runtergenommen | rausgemacht
TAKE.bare: nehmen | nehme | rausnehmen | entnehmen | holen | hole | entfernen | rausholen | herausnehmen
PULL.done: gezogen | rausgezogen | herausgezogen | zog | zogen | hochgezogen | gezupft
PULL.bare: ziehen | ziehe | rausziehen

# --- eggs
EGGS: eier | ei | eiern | stifte | stiften | eier drin | stifte drin | eier da | eier gesehen | stifte gesehen | frische eier | frische stifte | stifte gefunden | eier gefunden | eier zu sehen | stifte zu sehen | eier drauf | stifte drauf | voller eier | voll mit eiern | voller stifte | voll mit stiften | wabe voll eier | wabe voller eier | wabe voller stifte | jede menge eier | viele eier | lauter eier | lauter stifte | schöne eier | schöne stifte | erste eier | erste stifte | stehende eier | stehende stifte | eier stehen | eier auf beiden seiten | eier beidseitig | stifte auf beiden seiten | eier in jeder zelle | eier vorhanden | stifte vorhanden | eilage | bestiftet | ist bestiftet | voll bestiftet | schön bestiftet | wabe bestiftet | wabe ist bestiftet | gut bestiftet | beidseitig bestiftet | angestiftet | eingestiftet | ein tag alte eier | hat eier | sind eier drin | sind eier da | eichen | eilein | hat stifte
NOEGGS: keine eier | kein ei | keine stifte | kein stift | noch keine eier | noch keine stifte | noch kein ei | keine eier drin | keine stifte drin | noch nichts bestiftet | nicht bestiftet | noch nicht bestiftet | ohne eier | ohne stifte | keine eier gesehen | keine stifte gesehen | keine eier gefunden | keine eier zu sehen | keine eier da | hat nicht gelegt | hat noch nicht gelegt | noch nicht gelegt | nicht gelegt | noch keine eier drin | noch keine eier da | noch keine eier zu sehen | hat noch nicht gestiftet | legt noch nicht | legt nicht | null eier | wabe ist leer | wabe leer | wabe noch leer | kein einziges ei | keinerlei eier
LAID.done: gestiftet | gelegt | hat gelegt | hat gestiftet | hat eier gelegt | hat die wabe bestiftet | hat schön gelegt | hat schön gestiftet | hat losgelegt | hat angefangen zu legen | hat angefangen zu stiften | hat zu legen begonnen | hat zu stiften begonnen | bestiftete | stiftete | legte | hat die wabe vollgelegt | hat vollgelegt | vollgestiftet | eier gelegt | hat angelegt | hat brav gelegt | hat brav gestiftet | hat fleißig gelegt | hat fleißig gestiftet | ist am legen | ist am stiften | hat die ganze wabe bestiftet
LAID.bare: legt eier | stiftet | legt

# --- graft
GRAFT verb weak: umlarv/umgelarv | larv/gelarv | belarv/belarv | überlarv/übergelarv
GRAFT.done: umgelarvt | belarvt | gelarvt | larvte | larvten | umgebettet | larven umgebettet | larven übertragen | larven umgesetzt | larven umgehoben | umlarven fertig | umlarven erledigt | umlarvung fertig | umlarvung erledigt | umlarvung gemacht | serie angesetzt | serie gestartet | zuchtserie angesetzt | zuchtserie gestartet | zucht angesetzt | zucht gestartet | neue serie angesetzt | neue serie gestartet | näpfchen belarvt | näpfchen bestückt | mit larven bestückt | mit larven belegt | doppelt umgelarvt | umgelarvte | larven umgelarvt | zellen angesetzt | larven genommen | larven eingesetzt | larven in näpfchen | fertig umgelarvt | frisch umgelarvt | angesetzt
GRAFT.bare: umlarven | larven umbetten | belarven | umlarve | serie ansetzen | larve um | larven um | umzularven | umlarvst
GRAFT.going: am umlarven | beim umlarven | bin umlarven | sind umlarven | umlarvend
GRAFTN: umlarvung | umlarvungen | umlarvserie | umgelarvte | umgelarvte zellen | umgelarvte näpfchen | umgelarvte larven | das umlarven | umlarvaktion | umlarvrunde
LARVA: larven | larve | maden | made | näpfchen | weiselnäpfchen | becherchen | zuchtnäpfchen | zellnäpfchen | zuchtstoff | jüngste larven | junge larven | larven aus | stopfen | nicotnäpfchen | näpfe | weiselbecher | zellbecher | larvchen | rundmaden
PUNCH: stanze | gestanzt | ausgestanzt
LOADED.done: bestückt | beladen | gefüllt | geladen | belegt | vollgehängt
DO.done: gemacht | erledigt | durchgeführt | getan | geschafft | machte | machten
DO.bare: machen | mache | macht
START.done: gestartet | begonnen | angefangen | begann | fing an | hat begonnen | hat angefangen | hat gestartet | hat eingesetzt | losgegangen | ging los | geht los | läuft an | ist angelaufen | angelaufen | ist da | beginnt | startet
START.bare: starten | beginnen | anfangen
STATE: ist | sind | sitzt | sitzen | steht | stehen | hängt | hängen | liegt | liegen | befindet sich | befinden sich | gibt es | es sind | es ist | bleibt | bleiben | ist jetzt | sind jetzt | bin

# --- accept
ACCEPT verb weak: anpfleg/angepfleg | anblas/angeblas | anbrüt/angebrüt
ACCEPT.done: angenommen | wurden angenommen | sind angenommen | angepflegt | werden gepflegt | gepflegt | angeblasen | angezogen | angesetzt und gepflegt | angebrütet | angeblasene | angepflegte | ausgezogen | sind ausgezogen | werden angezogen | angegangen | sind angegangen | nahmen an | nahm an | gut angenommen | angenommene | mit gelee royale | mit gelee | mit futtersaft | schwimmen in gelee | schwimmen im gelee | schwimmen in futtersaft | schwimmen im futtersaft | ausgebaut | angebaut | angebautes | im futtersaft | haben sie angenommen | hat angenommen | haben angenommen | geworden | sind was geworden | aufgenommen | akzeptiert | laufen an | sind angelaufen | angenommen worden | angebissen haben
ACCEPT.bare: annehmen | nehmen an | pflegen | pflegen an
ACCEPT.state: annahme | annahmequote | annahmerate | annahmen | annahmeergebnis | annahmekontrolle | anpflegekontrolle | anbrütergebnis | anbrüterfolg
DRAWN: angezogen | ausgezogen | ausgebaut | angeblasen | mit gelee | mit futtersaft | angeblasene
NONETOOK: keine angenommen | keine wurde angenommen | keine einzige angenommen | keine einzige wurde angenommen | keine einzige zelle angenommen | keine zelle angenommen | nichts angenommen | nix angenommen | null angenommen | alle abgelehnt | alles abgelehnt | alles abgeräumt | alle abgeräumt | alles ausgeräumt | alle ausgeräumt | keine angepflegt | keine gepflegt | keine einzige gepflegt | null annahme | keine annahme | nichts gepflegt | keine einzige angepflegt

# --- finish
FINISHER: finisher | endpfleger | endpflegevolk | endpflegevölker | ins pflegevolk | ins endpflegevolk | honigraum | in den honigraum | im honigraum | weiselrichtiges pflegevolk | weiselrichtigen pflegevolk | endversorger | ausbrüter | überm absperrgitter | über dem absperrgitter | über absperrgitter | über das absperrgitter | übers absperrgitter | endaufzucht | in den finisher | in die endpflege | endpflege | finishervolk | finischer | ins finishervolk | in den endpfleger | zum finisher | zum endpfleger | fertigpfleger | im finisher | im endpfleger | in der endpflege | ins pflegevolk gehängt | ins pflegevolk umgehängt | zum pflegevolk
FINISH.done: ins pflegevolk umgehängt | in den finisher umgehängt | in den endpfleger umgehängt | umgehängt | in den honigraum umgehängt | in den finisher gehängt | ins endpflegevolk gehängt | in den honigraum gehängt | umgehängt in den finisher
FINISH.bare: umhängen | in den finisher hängen | ins pflegevolk hängen
ACROSS: rüber | hinüber | rübergehängt | herüber
CAP verb weak: verdeckel/verdeckel | deckel/gedeckel
CAP.done: verdeckelt | gedeckelt | zugedeckelt | sind verdeckelt | sind zu | verschlossen | zellen zu | sind gedeckelt | verdeckelte | haben deckel | geschlossen und verdeckelt | zugemacht von den bienen | zellen sind zu | alle zu | versiegelt | voll verdeckelt | fertig verdeckelt | haben verdeckelt
CAP.bare: verdeckeln | deckeln | nicht verdeckelt | noch nicht verdeckelt
CLOSE.done: geschlossen | zu | verschlossen | zugemacht | dicht
OVER: vorbei | zu ende | beendet | aus | gelaufen | vorüber | ist vorbei | ist zu ende | am ende | versiegt | eingebrochen | abgebrochen | ist durch | ist gelaufen

# --- wild cells
CLEAR: sauber | ist sauber | alles sauber | frei von wilden zellen | frei von wildzellen | frei von nachschaffungszellen | frei von weiselzellen | zellfrei | zellenfrei | nichts gefunden | nix gefunden | nichts gesehen | nichts drin | unauffällig | ohne befund | keine auffälligkeiten | nichts wildes | alles frei | ist clean | sauber durchgesehen | nichts wildes gefunden | blitzsauber | in ordnung | alles in ordnung
ROGUE: wilde zelle | wilde zellen | wilden zellen | wildzelle | wildzellen | wilde | nachschaffungszelle | nachschaffungszellen | nachschaffung | nachschaffer | schwarmzelle | schwarmzellen | schwarmzelln | fremde zelle | fremde zellen | fremdzelle | fremdzellen | eigene zelle | eigene zellen | wilde weiselzelle | wilde weiselzellen | eigene weiselzellen | stille umweiselung | umweiselungszelle | umweiselungszellen | zusätzliche zelle | zusätzliche zellen | notzelle | notzellen | ungewollte zellen | ungewollte zelle | angesetzte weiselzellen
NOROGUE: keine wilden zellen | keine wilde zelle | keine wildzellen | keine wildzelle | keine nachschaffungszellen | keine nachschaffungszelle | keine nachschaffung | keine schwarmzellen | keine schwarmzelle | keine fremden zellen | keine fremdzellen | keine eigenen zellen | keine wilden | keine weiselzellen | keine weiselzelle | ohne wilde zellen | ohne wildzellen | ohne nachschaffungszellen | keine wilden zellen gefunden | keine wildzellen gefunden | keine nachschaffungszellen gefunden | keine weiselzellen gefunden | keine zellen gefunden | keine zusätzlichen zellen | nichts wildes | keine notzellen | keine wilden weiselzellen | nirgends wilde zellen | keine einzige wilde zelle | keine einzige wildzelle | keine einzige nachschaffungszelle | null wilde zellen | null wildzellen | null nachschaffungszellen | keine ungewollten zellen
KILL.done: gebrochen | ausgebrochen | rausgebrochen | herausgebrochen | weggebrochen | zerstört | entfernt | rausgeschnitten | ausgeschnitten | herausgeschnitten | weggeschnitten | abgedrückt | zerdrückt | plattgemacht | platt gemacht | weggemacht | rausgemacht | vernichtet | beseitigt | brach | brachen | abgekratzt | weggedrückt | gekillt | runtergemacht | ausgekratzt | weggekratzt | zerquetscht | eliminiert
KILL.bare: brechen | ausbrechen | zerstören | entfernen | rausschneiden | zerdrücken | rausbrechen
FOUND.done: gefunden | fand | fanden | entdeckt | gesehen | sah | sahen | waren da | war da | waren drin | war drin | aufgetaucht | festgestellt | gezählt | gab es | vorgefunden | vorhanden | gesichtet
FOUND.bare: finden | finde
CHECK verb weak: kontrollier/kontrollier | check/gecheck | überprüf/überprüf | prüf/geprüf | inspizier/inspizier
CHECK.done: kontrolliert | durchgesehen | durchgeschaut | durchgeguckt | nachgesehen | nachgeschaut | nachgeguckt | geprüft | überprüft | angeschaut | angesehen | reingeschaut | reingeguckt | gecheckt | durchsucht | abgesucht | gesucht | gecheckt | geöffnet | aufgemacht | kontrolle | durchsicht | kontrolle gemacht | durchsicht gemacht | durchgegangen | durchgekämmt | abgefegt und kontrolliert | untersucht | durchgemustert | sah nach | schaute nach | sah durch | schaute rein | bei der kontrolle | bei der durchsicht | bei durchsicht | bei kontrolle
CHECK.bare: kontrollieren | durchsehen | durchschauen | nachsehen | nachschauen | prüfen | checken | reinschauen | schauen
SEE.done: gesehen | sah | sehe | sehen | zu sehen | sieht man | sichtbar | gesichtet
COUNT.done: gezählt | zählte | zählten | durchgezählt | ausgezählt | abgezählt
COUNT.bare: zählen | zähle

# --- nucs, cells out, emergence
NUC: begattungskästchen | begattungskasten | kästchen | begattungsvölkchen | begattungsvolk | begattungsvölker | begattungseinheit | begattungseinheiten | ewk | ewks | einwabenkästchen | mini plus | miniplus | minis | mini | apidea | apideas | kieler | kieler kästchen | ableger | ablegern | völkchen | kästchen am stand | mbk | swibine | mehrwabenkästchen | begattungsableger | kunstschwärme | kunstschwarm | zwischenableger | kistchen | kästen | in jedem kästchen | nukleus | nukleii | miniplusbeuten | begattungsbeuten | beutchen | alle kästchen
MAKE.done: gemacht | gebildet | erstellt | gefüllt | befüllt | besiedelt | hergerichtet | vorbereitet | bestückt | fertig gemacht | fertiggemacht | gebaut | angelegt | bereitgestellt | zusammengestellt | machte | machten | geschöpft | mit bienen gefüllt | mit bienen befüllt | eingefegt | abgefüllt | eingeschlagen | ausgestattet | gerichtet | startklar gemacht | produziert
MAKE.bare: machen | füllen | befüllen | bilden | erstellen | vorbereiten | besiedeln | herrichten
SET.done: aufgestellt | hingestellt | rausgestellt | ausgestellt | aufgebaut | verteilt | stehen bereit
READY: bereit | stehen bereit | startklar | einsatzbereit | fertig | vorbereitet | gefüllt | befüllt | bezugsfertig | hergerichtet | parat | stehen parat | mit bienen | mit futterteig | mit futter | warten auf zellen | weisellos | gerichtet | fertig gefüllt | fix und fertig | steht bereit | besiedelt
MOVE verb weak: verteil/verteil | verleg/verleg | transportier/transportier | umquartier/umquartier | überführ/überführ | liefer/geliefer | platzier/platzier
MOVE.done: umgesetzt | versetzt | verteilt | zugesetzt | ausgebracht | gebracht | gefahren | rausgefahren | transportiert | zugehängt | übersiedelt | umgezogen | rausgebracht | hingebracht | eingesetzt | in die kästchen gesetzt | in die kästchen gegeben | in die kästchen gesteckt | in die kästchen verteilt | in die kästchen gehängt | auf die kästchen verteilt | auf die kästchen aufgeteilt | in kästchen gesetzt | in kästchen verteilt | in die begattungskästchen | in die begattungskästchen gesetzt | in die begattungskästchen verteilt | in begattungskästchen gesetzt | in begattungskästchen verteilt | in die ableger gesetzt | in die ableger verteilt | in die völkchen gesetzt | in die ewk gesetzt | mit zellen bestückt | zellen zugesetzt | zellen verteilt | zellen eingesetzt | zellen ausgebracht | zellen verschult | verschult | aufgeteilt | umgehängt | umgesiedelt | überführt | brachte | brachten | fuhr | fuhren | setzte um | setzten um | verteilte | verteilten | sind umgezogen | rübergebracht | rausgeschafft | weggebracht | mitgenommen | umgestellt | verlegt | geliefert | zellen gesteckt | raus auf den stand | auf den stand gebracht | aufgestellt am | aufs kästchen gesetzt | beschickt | beschickt mit zellen | zellen gesetzt | gewandert
MOVE.bare: umsetzen | verteilen | versetzen | bringen | fahren | ausbringen | zusetzen | verschulen | bringe | verteile | einsetzen | transportieren | fahre
GO.done: gegangen | gingen | ging | sind nach | ist nach | kamen | kam | gekommen | gewandert | gelandet | rein | raus | rüber | reingekommen | angekommen | gehen | geht
GO.bare: kommen | kommt | gehen rein
EMERGE verb weak: schlüpf/geschlüpf
EMERGE.done: geschlüpft | ausgeschlüpft | sind geschlüpft | ist geschlüpft | geschlüpfte | sind raus | ausgelaufen | sind ausgelaufen | ausgelaufene | schon draußen | rausgekommen | aus den zellen | aus der zelle | auf die welt gekommen | schon geschlüpft | schlüpften | schlüpfte | geboren | herausgekommen | komplett geschlüpft | geschlüpft sind | sauber geschlüpft | gut geschlüpft | deckel offen | zellen offen
EMERGE.bare: schlüpfen | schlüpft | auslaufen | nicht geschlüpft | noch nicht geschlüpft
EMERGE.going: am schlüpfen | beim schlüpfen | schlüpfen gerade
EMERGE.state: schlupf | schlupfergebnis | schlupfrate | schlupfquote | schlupfkontrolle
QUEENV: unbegattete | unbegattete königin | unbegattete königinnen | unbegatteten | jungkönigin | jungköniginnen | junge königinnen | junge königin | prinzessin | prinzessinnen | jungfern | jungfer | jungfrau | jungfrauen | jungweisel | jungweiseln | tüterin | frisch geschlüpfte königinnen | frische königinnen | neue königinnen

# --- laying, catching, cells again
LAYING.state: in eilage | eilegend | eierlegend | am legen | am stiften | legen | legen schon | legen eier | legen jetzt | sind am legen | sind am stiften | sind in eilage | ist in eilage | stiften schon | in eiablage | bei der eilage | haben eier | haben stifte | mit eiern | mit stiften | mit brut | haben brut | in legetätigkeit | haben angefangen zu legen | haben zu legen begonnen | haben losgelegt | legen gut | legen schön | legen bereits | haben gelegt | haben gestiftet | haben schon eier | haben schon stifte | haben bereits eier | sind begattet und legen | begattet und in eilage | begattet und eilegend | in vollem gang mit legen | legende | legend | mit brut und eiern | legende königinnen | in brut | fangen an zu legen | stiften | bestiften
LAYING.bare: legen noch nicht | legt noch nicht
LAYING.done: gelegt | gestiftet
MATED: begattet | begattete | begatteten | begattete königinnen | sind begattet | erfolgreich begattet | befruchtet | befruchtete | gut begattet | zurück vom hochzeitsflug | zurück vom begattungsflug | fertig begattet | wurden begattet | besamt
LAYER: legerin | legerinnen | eilegerin | eilegerinnen
CATCH verb weak: ernt/geernt | sammel/gesammel | kescher/gekescher
CATCH.done: gefangen | abgefangen | eingefangen | herausgefangen | rausgefangen | ausgefangen | fing | fingen | geerntet | eingesammelt | abgefischt | gekäfigt und gezeichnet | gefangen und gekäfigt | gefangen und gezeichnet | entnommen und gekäfigt | abgesammelt | eingekäfigt | aus den kästchen gefangen | aus den kästchen geholt | aus den kästchen genommen | in versandkäfige | in versandkäfigen | in zusetzkäfige | in zusetzkäfigen | in käfigen | verpackt | eingetütet | abgeerntet | rausgefischt | gepflückt | eingeheimst | in die bank | in der königinnenbank | geschnappt
CATCH.bare: fangen | abfangen | einfangen | ernten | rausfangen | fange
CATCH.going: am fangen | beim fangen
BANK: königinnenbank | bank | weiselbank | königinnendepot | in der bank | depot
RECELL verb weak: nachbestück/nachbestück | nachsetz/nachgesetz
RECELL.done: nachbestückt | neu bestückt | wieder bestückt | nachgesetzt | neue zelle gegeben | neue zellen gegeben | neue zelle rein | neue zellen rein | neue zellen eingesetzt | neue zellen zugesetzt | neue zellen gesetzt | neue zelle eingesetzt | neue zelle gesetzt | neue zelle zugesetzt | nochmal zellen gegeben | nochmal zellen gesetzt | nochmal zellen zugesetzt | wieder zellen gegeben | wieder zellen gesetzt | wieder zellen zugesetzt | frische zellen gegeben | frische zellen gesetzt | frische zellen zugesetzt | ersatzzellen gegeben | ersatzzellen gesetzt | nachgelegt mit zellen | zweite zelle gegeben | zweite zellen gegeben | nachbesetzt | erneut bestückt | erneut mit zellen bestückt | nochmal bestückt | neu beweiselt mit zellen | neue zellen bekommen | neue zelle bekommen
RECELL.bare: nachbestücken | neu bestücken | nachsetzen | neue zellen geben | neue zellen setzen
CELLAGAIN: nochmal | noch mal | nochmals | erneut | wieder | zum zweiten mal | ein zweites mal | von neuem
NEWCELL: neue zelle | neue zellen | neuen zellen | frische zelle | frische zellen | ersatzzelle | ersatzzellen | zweite zelle | weitere zellen | andere zelle

# --- feed and the season
FEED verb weak: fütter/gefütter | verfütter/verfütter | nachfütter/nachgefütter | auffütter/aufgefütter | zufütter/zugefütter
FEED.done: gefüttert | futter gegeben | futter bekommen | futter gekriegt | futter nachgefüllt | futter aufgefüllt | nachgefüttert | zugefüttert | aufgefüttert | zuckerwasser gegeben | zuckerwasser bekommen | sirup gegeben | sirup bekommen | futterteig gegeben | futterteig bekommen | teig gegeben | teig bekommen | reizgefüttert | reizfütterung gegeben | eingefüttert | fütterung erledigt | fütterung gemacht | fütterung fertig | teig aufgelegt | futterteig aufgelegt | haben futter | hat futter | versorgt mit futter | mit futter versorgt | mit zuckerwasser versorgt | flüssig gefüttert | flüssigfutter gegeben
FEED.bare: füttern | futter geben | nachfüttern | sirup geben | zuckerwasser geben | füttere | reizen
FEED.going: am füttern | beim füttern
SYRUP: sirup | zuckerwasser | zuckersirup | futter | futterteig | teig | futtersirup | flüssigfutter | zuckerlösung | apifonda | apiinvert | invertsirup | honigwasser | futtersaftersatz | pollenteig | pollenersatz | zucker | honig-zucker-teig | invertzucker | futterpäckchen | fondant | fütterung | reizfutter | reizfütterung
GIVE.done: gegeben | gab | gaben | bekommen | gekriegt | bekam | bekamen | erhalten | erhielt | erhielten | reingegeben | draufgegeben | aufgelegt | nachgegeben | eingefüllt | eingegossen | reingeschüttet | spendiert | verabreicht | reingekippt | hingestellt | verpasst bekommen | nachgekippt
GIVE.bare: geben | gebe | kriegen | bekommen noch | gib
FEEDER: futtertrog | futtertröge | futterkammer | futtertasche | futtertaschen | fütterer | futtergeschirr | futterglas | futtereimer | futterzarge | tröge | trog | futterkammern | adamfütterer | aufsatzfütterer
FILL.done: gefüllt | nachgefüllt | aufgefüllt | vollgemacht | voll gemacht | befüllt | randvoll gemacht
FILL.bare: füllen | nachfüllen | auffüllen
FULL: voll | voller | randvoll | gefüllt | proppenvoll | gut gefüllt | bis oben hin voll
DRONE: drohn | drohne | drohnen | drohnenbrut | drohnenvolk | drohnenvölker | vatervolk | vatervölker | drohnenvölkern | drohnig
DRONECOMB: drohnenwabe | drohnenwaben | drohnenrahmen | drohnenrähmchen | baurahmen | drohnenbau | drohnenmittelwand | drohnenmittelwände | drohnenwabe gegeben | drohnenwaben gegeben | drohnenwaben eingehängt | drohnenwabe eingehängt | drohnenrahmen eingehängt | drohnenrahmen gegeben | drohnenrahmen reingehängt | drohnenwaben reingehängt | drohnenwaben drin | drohnenrahmen drin | drohnenbauwabe | leerrahmen für drohnen
DEARTH: trachtlücke | trachtpause | keine tracht | keine tracht mehr | tracht vorbei | tracht ist vorbei | tracht zu ende | tracht ist zu ende | tracht ist aus | tracht aus | tracht beendet | trachtende | trachtlos | trachtlose zeit | kein nektar | kein nektar mehr | kein eintrag | kein eintrag mehr | nichts kommt rein | es kommt nichts rein | es kommt nichts mehr rein | kommt nichts mehr rein | tracht eingebrochen | tracht ist eingebrochen | tracht versiegt | honigt nicht mehr | honigt nichts mehr | es honigt nicht | es honigt nicht mehr | trachtloch | läppertracht zu ende | tracht durch | tracht ist durch | tracht abgebrochen | trachtlücke hat begonnen | in der trachtlücke
FLOW: tracht | vollracht | volltracht | massentracht | tracht läuft | tracht hat begonnen | tracht hat angefangen | tracht begonnen | tracht angelaufen | tracht ist da | tracht geht los | tracht setzt ein | tracht hat eingesetzt | trachtbeginn | es honigt | honigt | nektar kommt rein | nektareintrag | guter eintrag | nektar kommt | rapstracht | lindentracht | robinientracht | obsttracht | waldtracht | frühtracht | sommertracht | linde honigt | raps honigt | robinie honigt | akazie honigt | nektarfluss | tracht ist angelaufen | läppertracht
NECTAR: nektar | frischer nektar
HONEY: honig

# --- things
CELL: zelle | zellen | zelln | weiselzelle | weiselzellen | königinnenzelle | königinnenzellen | edelzelle | edelzellen | zuchtzelle | zuchtzellen | reife zellen | reifen zellen | reife zelle | verdeckelte zellen | verdeckelte zelle | schlupfreife zellen | schlupfreife zelle | verdeckelte weiselzellen | wz | stück | schöne zellen | gute zellen | alle zellen | unsere zellen | die zellen | kö-zellen | prachtzellen | königszellen
QUEEN: königin | königinnen | kö | kös | weisel | weiseln | die damen | majestäten | begattete königinnen | gezeichnete königinnen | die mädels | damen | mutter | mütter | dame
COMB: wabe | waben | leerwabe | leerwaben | brutwabe | zuchtwabe | rähmchen | zuchtstoffwabe | ausgebaute wabe | ausgebaute leerwabe | bebrütete wabe | braune wabe | dunkle wabe | alte wabe | helle wabe | mittelwand | mittelwände | auf wabe | auf der wabe | auf die wabe | auf einer wabe | auf eine wabe | legewabe | rahmen | stiftwabe | eiwabe | larvenwabe | auf leerwabe | auf eine leerwabe
BEES: bienen | ammenbienen | ammen | jungbienen | junge bienen | begleitbienen | die bienen | arbeiterinnen | volk | stockbienen | pflegebienen | begleiterinnen
BEESIN: mit bienen | ein paar bienen dazu | ein paar bienen rein | bienen dazu | bienen dazugefegt | bienen eingefegt | bienen zugefegt | bienen dazugegeben | bienen reingefegt | bienen drin | mit ammenbienen | ammenbienen dazu | mit jungbienen | jungbienen dazu | mit begleitbienen | bienen reingeschüttelt | bienen dazugeschüttelt | bienen zugeschüttelt | bienen sind drin | bienen mit rein | bienen mit drin | ammen dazugegeben | ammen dazu | ammenbienen zugefegt | mit ansitzenden bienen | samt bienen | samt ansitzenden bienen | mit reichlich bienen | mit vielen bienen | genug bienen drauf | viele bienen drauf | viele bienen drin
NOBEES: ohne bienen | keine bienen | keine bienen drin | ohne begleitbienen | ohne ammen | noch keine bienen | noch ohne bienen | keine begleitbienen
OUT: raus | draußen | draussen | heraus | hinaus | ausgelaufen | raus aus | sind raus
OUTSIDE: draußen | im freien
BACK: zurück | wieder zurück | retour
IN: in | im | drin | drinnen | innen | hinein | rein | darin | sind drin | ist drin | in der | in dem
UP: oben | hoch | rauf
INCUBATOR: brutschrank | brüter | inkubator | in den brutschrank | im brutschrank | brutkasten | wärmeschrank | motorbrüter | flächenbrüter | in den brüter | im brüter | brutapparat | in den inkubator | im inkubator | brutbox | transportbrüter
NEW: neu | neue | neuen | neuer | neues | frisch | frische | frischen | frischer | ersatz
AGAIN: wieder | nochmal | noch mal | nochmals | erneut | aufs neue
MORE: mehr | noch eine | noch ein | noch einen | weitere | weiteren | zusätzliche | noch zwei | noch welche | nachträglich
SIDES: beide seiten | beiden seiten | beidseitig | auf beiden seiten | eine seite | seite | seiten | vorne und hinten | einseitig

# --- trade: work that is not built yet
LOSE.done: gestorben | verendet | tot gefunden | tot aufgefunden | ist tot | sind tot | serie verloren | serie ist verloren | serie ist hin | serie kaputt | verbrannt | erfroren | überhitzt | verkocht | ist gestorben | totalausfall | königin verloren | königin ist tot | eingegangen | haben wir verloren | alle tot | totalverlust
VIRGINOUT: jungkönigin draußen | eine ist schon geschlüpft | eine schon geschlüpft | eine vorzeitig geschlüpft | vorzeitig geschlüpft | zu früh geschlüpft | tütet | tüten | quakt | eine jungkönigin läuft | jungkönigin läuft rum | jungkönigin frei | im starter geschlüpft | im brutschrank geschlüpft | im pflegevolk geschlüpft | frühschlupf | eine läuft schon rum | freie jungkönigin
QUEENLESS: weisellos | weisellose | entweiselt | entweiselte | ohne königin | keine königin | königin entnommen | königin rausgenommen | königin weg | königin ist weg | weisellos gemacht | hat keine königin | königin fehlt | drohnenbrütig | hoffnungslos weisellos
BROOD: brut | offene brut | verdeckelte brut | brutwabe zugehängt | brutwaben zugehängt | brutwaben | brutwabe gegeben | brutwaben gegeben | brut gegeben | brutverstärkt | brutnest | brutbild
ABSCOND.done: ausgezogen sind die bienen | bienen sind weg | bienen sind abgehauen | volk ist ausgezogen | abgehauen | ausgeflogen | völkchen ist ausgezogen | kästchen leer | alle bienen weg
ROBBED.done: räuberei | ausgeräubert | beräubert | räubern | geräubert | überfallen | räuber
LAYINGWORKER: afterweisel | afterköniginnen | drohnenmütterchen | drohnenmütterchen drin | buckelbrut | mehrere eier pro zelle | eilegende arbeiterinnen
DRONELAYER: drohnenbrütig | drohnenbrütige | drohnenbrüterin | nur drohnenbrut | unbegattet geblieben | nicht begattet
COMBINE.done: vereinigt | zusammengelegt | aufgelöst | aufgesetzt auf volk
RETIRE.done: ausgemustert | umgeweiselt | abgedrückt die alte | ersetzt | ausgetauscht | abgegeben | aus dem programm genommen | ausrangiert
RENAME: umbenennen | umbenannt | heißt jetzt | heisst jetzt
MARKQ.done: gezeichnet | markiert | gezeichnete | beschnitten | gestutzt | nummeriert | opalithplättchen | zeichnen | geschnitten
SELL.done: verkauft | verkaufen | verschickt | versandt | verkauf | versand | kunde | kunden | käufer | rechnung | bezahlt
HAND.done: übergeben | abgeholt | ausgeliefert | ausgehändigt | abholung | übergabe
INTRODUCE.done: eingeweiselt | königin zugesetzt | königinnen zugesetzt | beweiselt | einweiseln | zugesetzte königin | umgeweiselt
ASSIGN: zuweisen | soll machen | übernimmt | macht das
AWAY: urlaub | im urlaub | krank | krankgemeldet | frei heute | nicht da | auf fortbildung | abwesend | feierabend bis | freier tag
REMIND: erinnere alle | erinnert uns | erinnerung setzen | erinnerung
FLIGHTS: hochzeitsflug | begattungsflug | begattungsflüge | hochzeitsflüge | flugwetter
HANDSOFF: nicht stören | in ruhe lassen | finger weg | nicht anfassen | nicht öffnen | ruhe
REASON: weil | wegen | da | denn | aufgrund | deshalb | grund
TEMP: temperatur | grad | zu heiß | zu warm | zu kalt | thermometer | luftfeuchte | luftfeuchtigkeit | thermostat
POWER: strom | stromausfall | strom weg | strom ausgefallen | kein strom | sicherung
DISEASE: faulbrut | amerikanische faulbrut | kalkbrut | sackbrut | nosema | varroa | milben | varroabehandlung | ameisensäure | oxalsäure | behandelt | behandlung | wachsmotte | wachsmotten | milbenzahl | milbenfall
SWARM.done: schwarm | geschwärmt | schwärme | schwarm gefangen | schwarm eingefangen | schwarm eingeschlagen | schwärmt | abgeschwärmt | vorschwarm | nachschwarm
RESTING: ruht | pausiert

# --- says nothing that matters in a report
HARMLESS: heute noch | nur noch | noch schnell | noch kurz | auch noch | noch rasch | gestern noch | noch gestern | noch heute | ich | wir | du | er | sie | es | ihr | mir | mich | uns | euch | ihm | ihn | ihnen | man | mein | meine | meinem | meinen | meiner | dein | deine | sein | seine | ihre | ihren | ihrem | ihrer | unser | unsere | unseren | unserem | euer | eure | der | die | das | den | dem | des | dies | diese | dieser | dieses | diesen | diesem | jene | ein | eine | einen | einem | einer | selbst | selber | da | dort | hier | dahin | dorthin | hierhin | drüben | oben | unten | vorne | hinten | links | rechts | daneben | drauf | drin | drinnen | dran | daran | dabei | davon | dazu | damit jetzt | sich | einander | welche | denen | deren | dessen | jetzt | nun | eben | grad | grade | gerade | so | ja | mal | halt | doch | eh | ohnehin | sowieso | also | schon | bereits | endlich | zuletzt | zunächst | zuerst | erst | erstmal | nochmal alles | immerhin | übrigens | einfach | wirklich | echt | richtig | sehr | ganz | total | voll | ziemlich | recht | besonders | ordentlich | gut | gute | guten | guter | gutes | schön | schöne | schönen | schöner | schönes | prima | super | toll | tolle | tollen | klasse | spitze | wunderbar | perfekt | hervorragend | ausgezeichnet | bestens | einwandfrei | sauber gearbeitet | tadellos | top | genial | geil | mega | hammer | krass | cool | nett | fein | feine | lecker | prächtig | prächtige | herrlich | großartig | fantastisch | optimal | erfreulich | freu mich | freut mich | freue mich | bin zufrieden | zufrieden | stolz | happy | glücklich | froh | erleichtert | leider | schade | blöd | mist | verdammt | verflixt | puh | uff | hui | oha | wow | juhu | hurra | jippie | na endlich | na ja | naja | tja | ach | oh | ah | äh | ähm | hm | hmm | haha | hihi | lol | danke | vielen dank | dankeschön | bitte | bitteschön | gern | gerne | liebe grüße | viele grüße
HARMLESS: habe | hab | habt | hat | haben | hatte | hatten | hast | bin | ist | is | sind | seid | war | waren | wurde | wurden | worden | geworden sind | sein | gewesen | werden | wird | werd | bekam | kriegt | kriegten | lassen | tun | tat | tut | gibt | gab | macht | machen | macht's | geht | ging | gehen | kam | kamen | kommt | kommen | bleibt | bleiben | sieht | sehen | aussehen | sitzt | sitzen | steht | stehen | hängt | hängen | liegt | liegen | in | im | ins | an | am | ans | auf | aufs | aus | bei | beim | bis | durch | für | gegen | mit | nach | ohne probleme | seit | über | um | unter | von | vom | vor | zu | zum | zur | zwischen | neben | hinter | per | je | als | wie | wie immer | wie gewohnt | wie üblich | wie besprochen | wie geplant | wie abgesprochen | wie vereinbart | wie gesagt | wie gehabt | wie verabredet | dass | daß | weil | da | denn | so dass | sodass | ob nun | und | oder | aber | zwar | eigentlich schon | meldung | meldet | melde | vermelde | kann vermelden | berichte | zur info | info | fürs protokoll | fürs zuchtbuch | fürs logbuch | fürs buch | kurz | kurze info | kurz zur info | kurzes update | update | nur zur info | nur kurz | nur damit ihr bescheid wisst | bescheid | nachtrag | kurzer nachtrag | trage nach | nachträglich gemeldet | zwischenstand | ergebnis | resultat | endergebnis | endstand | insgesamt | zusammen | in summe | summe | macht insgesamt | gesamt | total | im ganzen | unterm strich | stück | leute | jungs | mädels | kollegen | chef | chefin | team | mannschaft | freunde | bot | alle zusammen | ihr lieben
HARMLESS: problemlos | ohne probleme | keine probleme | kein problem | ohne komplikationen | ohne zwischenfälle | alles gut | alles bestens | alles gut gelaufen | lief gut | lief super | lief prima | lief wie geschmiert | lief alles glatt | alles glatt | hat gut geklappt | hat geklappt | hat super geklappt | geklappt | gut geklappt | wie am schnürchen | ging gut | ging schnell | ging flott | schnell | flott | langsam | zügig | fix | mühsam | anstrengend | in ruhe | gemütlich | vorsichtig | behutsam | sorgfältig | ordentlich | ruhig | sanft | sanftmütig | friedlich | brav | bienen brav | bienen ruhig | stechlustig | gestochen | gestochen worden | stich | stiche | ein stich | keine stiche | schwitzen | geschwitzt | müde | kaputt aber zufrieden | kaputt aber glücklich | fix und alle | hungrig | durstig | feierabend | jetzt feierabend | mittagspause | pause | kaffee | kaffeepause | jetzt kaffee | bier | bierchen | auf dem heimweg | heimweg | unterwegs | nach hause | zuhause | daheim | zu hause | fahre heim | fahr heim | packe zusammen | zusammengepackt | aufgeräumt | werkzeug | smoker | rauch | schleier | handschuhe | umlarvlöffel | umlarvnadel | löffel | nadel zum umlarven | mit dem schweizer löffel | mit löffel | mit der lupe | lupe | lupenbrille | stirnlampe | lampe | kaltlicht | feuchtes tuch | mit feuchtem tuch | tuch | handtuch | styroporbox | kühlbox | transportbox | box | im auto | auto | rücken | mein rücken | augen | meine augen | finger | hände | geduld | gedauert | hat gedauert | hat etwas gedauert | hat ewig gedauert | gebraucht | länger gebraucht | mit hilfe | zu zweit | zu dritt | allein | alleine | gemeinsam | mit der frau | mit meiner frau | mit meinem mann | mit den kindern | mit opa | mit papa
HARMLESS: wetter | heiß | heiss | warm | kalt | kühl | frisch heute | sonne | sonnig | sonnenschein | bei sonnenschein | regen | regnet | geregnet | nass | wind | windig | sturm | stürmisch | gewitter | bewölkt | nebel | neblig | schwül | hitze | in der hitze | bei der hitze | bei dem wetter | bei bestem wetter | bei schönem wetter | trotz regen | trotz wind | trotz hitze | trotz kälte | vor dem regen | nach dem regen | vorm gewitter | im regen | in der sonne | im schatten | schatten | es ist heiß | es war heiß | sehr heiß | brütend heiß | traumwetter | sauwetter | mistwetter | groß | große | großen | grosse | grossen | riesig | riesige | dick | dicke | dicken | fett | fette | kräftig | kräftige | stark | starke | lang | lange | langen | klein | kleine | kleinen | hübsch | hübsche | prall | pralle | gesund | gesunde | munter | vital | fit | lebhaft | sauber | sauber und ordentlich | gleichmäßig | gleichmässig | hell | dunkel | braun gebrannt | wunderschön | wunderschöne | traumhaft | traumhafte | beste | besten | bester | rekord | neuer rekord | bisher beste | beste serie | beste serie bisher | besser als gedacht | besser als letztes mal | besser als erwartet | wie erwartet | nicht schlecht | gar nicht schlecht | nicht übel | nicht so toll | kann sich sehen lassen | da kann man nicht meckern | kann man nicht meckern | mehr geht nicht | läuft | läuft bei uns | weiter so | so kanns weitergehen | gott sei dank | zum glück | glück gehabt | hat sich gelohnt | raps | linde | robinie | akazie | löwenzahn | obstblüte | rapsblüte | kastanie | weißdorn | phacelia | sonnenblume | klee | blüht | blühen | blüte | alles blüht | im morgengrauen | vor der arbeit | nach der arbeit | nach feierabend | in der mittagspause | tag war lang | langer tag | endlich fertig | war viel arbeit | viel arbeit | arbeit | gute arbeit | teamarbeit | respekt | daumen hoch | 💪 | 🐝 | 👑 | 🎉 | 😀 | 😊 | 🙂 | 🙏 | 👏 | 🤩 | 🍯 | ☀️ | 😅 | 😎

# --- other life: a soft hint that a number is not the crew's
FOREIGN: beute | beuten | zargen | zarge | völker | wirtschaftsvölker | honigernte | schleuder | schleudern | geschleudert | euro | cent | geld | preis | rechnung | rechnungen | kilometer | km | meter | zentimeter | hektar | benzin | diesel | reifen | autos | lkw | anhänger | traktor | rasen | rasenmäher | brötchen | semmeln | brezeln | kuchen | wurst | würstchen | bratwürste | pizza | döner | schnitzel | biere | kiste bier | kasten bier | tassen | katze | katzen | hund | hunde | hühner | huhn | schafe | kuh | kühe | pferd | pferde | fische | fisch | tore | tor | spiel | spiele | punkte | fußball | kinder | enkel | gäste | besucher | freundinnen | geburtstag | hochzeit | ticket | tickets | handy | telefon | bilder | fotos | video | videos | nachrichten | mail | mails | anrufe | schrauben | bretter | nägel | paletten | palette | gläser honig | honiggläser | etiketten | bäume | baum | blumen | tomaten | gurken | mäuse | maus | wespen | ameisen | hornissen | spinnen | mücken | zecken | bär | specht | igel | hornisse | schleier neu | steuer | finanzamt | verein | vereinsabend | kurs | seminar | schule | prüfung | arzt | zahnarzt | frühstück | mittagessen | abendessen | grillen | steaks | stau | bahn | zug | hotel | zimmer | stühle | tische | bänke

# --- grammar of entities.txt: words that its patterns go by
BUILDERS: starter | anbrüter | pflegevölker | startervölker | anbrütervölker | starterkästen | pflegevölkern | startern | anbrütern
FROMOF: von | aus | vom
HEDGENUM: so | etwa
LETTER=b: b | be
OFTHEM: davon | von denen | von ihnen | der zellen
ONDAY: am | vom
OR: oder
ORD=1: erste | ersten | erster
ORD=2: zweite | zweiten | zweiter
ORD=3: dritte | dritten | dritter
ORD=4: vierte | vierten | vierter
OUTOF: von insgesamt | von den | von gesamt
ROUNDWORD: runde | durchgang
THEF: die | der | aus der | von der | nummer
TO: bis
WHOLE: ganze | ganzen | komplette | kompletten | gesamte | gesamten
HAVE: habe | haben | hat | hatte | hatten | besitzt | hab
HABIT: immer | normalerweise | meistens | üblicherweise | jedes mal | jedesmal | grundsätzlich | gewöhnlich
NOTHING: nichts | nix | rein gar nichts | gar nichts
INSTEAD: statt | anstatt | anstelle
