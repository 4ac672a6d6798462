# English, as crews of queen breeders type and dictate it.
#
# One line a concept, or a concept in a form; phrases parted by "|". A concept may have
# several lines. The longest phrase at a place wins, and all concepts of that phrase
# count: a phrase of several words therefore stands under every concept its words would
# have had. Forms: done (told as done), bare (to be done, or nobody knows), going, state.
language en

# --- spellings: short forms, lost apostrophes, what thumbs and dictation make of words
same tomorrow: tmrw | tmr | tmw | 2moro | 2mrw | 2morrow | tommorow | tommorrow | tomorow | tomorro | tmrrw
same yesterday: yday | ystrdy | yesterdy | yest | yestrday | yesterady | yesturday | ydy
same today: 2day | tday | tdy
same tonight: 2nite | 2night | tonite | 2nt
same morning: morn | mornin | mornin' | mrng
same afternoon: arvo | aft | aftn
same from: frm | fron
same into: in2 | ito | inot | itno | nto
same with: w | w/ | wth | wit
same without: w/o
same through: thru | thro
same and: nd | adn | nad | annd | anf
same the: teh | th | hte
same out of: outa | outof
same of: o' | ov
same gonna: gunna | goin2
same want to: wanna
same have to: hafta
same about: abt | bout | 'bout | abuot
same around: arnd | aroun | 'round
same before: b4 | bfore
same for: 4r | fer
same people: ppl
same because: bc | cuz | coz | cos | 'cause | bcuz | becuz
same you: u | ya'll
same your: ur
same are: r
same please: pls | plz | plse | pleez
same thanks: thx | thnx | tnx | thanx
same them: em | 'em | thm
same these: thes | thse
same doing: doin
same going: goin
same until: til | 'til | untill
same though: tho
same okay: okey | oki
same number: numbr | nmbr | nbr
same minutes: minuts | minits
same minute: minit
same week: wk | wek | weke
same checked: chkd | chekd | cheked | checkd | chkt
same check: chk | chek
same queen: qn | queeen | quen
same queens: qns | quens | queesn
same batch: btch | bacth | batc
same builder: bldr | bilder | biulder
same breeder: brdr | breder | bredder | breether
same larvae: larve | larvee | lavae | larvay | larvy
same cells: celss | cels | cell's | clls | cellls
same confined: confind | conffined | cofined | confned
same released: releasd | realeased | relased | releesed | relesed
same grafted: graftd | grfated | graftted | graffted | grafed | graftet
same moved: movd | moevd | mvd | moved'
same accepted: exepted | exsepted | axepted | accepetd | accptd | acptd | acceptd | excpted | acepted | excepted | xcepted
same taken: tkaen | takne | taekn | tooken
same capped: caped | capd | cappd | caaped | cpped | cappped | capt | cap'd
same emerged: emregd | emegred | emrgd | emergd | emmerged | immerged
same caught: catched | cought | caugth | cauhgt | caugt | cot
same hatched: hatchd | hached | hatced
same laying: layin | layin' | lyaing | laiyng
same nucs: nukes | nuke's | nuks | nux | knucks | nooks
same nuc: nuke | nuk | knuck
same eggs: egs | eegs | eggz | eggies
same rogues: rogs | rouges | rouge's | rogues'
same rogue: rouge | roug | roque | rogue's
same put: putted
same finisher: finsher | finnisher | finsiher
same don't: dont | do'nt | don;t
same didn't: didnt | did'nt | dident | didn;t
same doesn't: doesnt
same can't: cant
same cannot: can not
same couldn't: couldnt
same won't: wont
same wouldn't: wouldnt
same shouldn't: shouldnt
same isn't: isnt
same aren't: arent
same wasn't: wasnt
same weren't: werent
same haven't: havent | havnt
same hasn't: hasnt
same hadn't: hadnt
same ain't: aint
same i'm: im | i,m
same i've: ive
same i'll: ill
same we'll: we;ll
same we've: weve
same they'll: theyll
same she's: shes
same he's: hes
same it's: its
same they're: theyre
same they've: theyve
same that's: thats
same there's: theres
same here's: heres
same who's: whos
same what's: whats
same where's: wheres
same when's: whens
same how's: hows
same let's: lets
same y'all: yall
same o'clock: oclock | o'clk | oclk
same remember: rember
same recelled: reecelled
same probably: prob | prolly | probly | prbly
same maybe: mebbe | mabye | mayb
same something: smth | sth
same someone: sum1 | sm1
same anyone: any1
same everyone: every1 | evry1

# --- numbers
ZERO=0: zero | nil | naught | nought | zilch | zip
DIGIT=1: one
DIGIT=2: two
DIGIT=3: three
DIGIT=4: four
DIGIT=5: five
DIGIT=6: six
DIGIT=7: seven
DIGIT=8: eight
DIGIT=9: nine
TEEN=10: ten
TEEN=11: eleven
TEEN=12: twelve | twelf
TEEN=13: thirteen
TEEN=14: fourteen
TEEN=15: fifteen | fiften
TEEN=16: sixteen
TEEN=17: seventeen
TEEN=18: eighteen | eightteen
TEEN=19: nineteen | ninteen
TENS=20: twenty | twenny
TENS=30: thirty
TENS=40: forty | fourty
TENS=50: fifty
TENS=60: sixty
TENS=70: seventy
TENS=80: eighty
TENS=90: ninety | ninty
HUNDRED=100: hundred | a hundred
ONE: a | an | one | a single | single
COUPLE=2: a couple | couple | a couple of | couple of | a pair | a pair of | pair of
DOZEN=12: dozen | a dozen | dozen of
ORDINAL=1: first | 1st | the first
ORDINAL=2: second | 2nd | the second
ORDINAL=3: third | 3rd | the third
ORDINAL=4: fourth | 4th | the fourth
ORDINAL=5: fifth | 5th
NUMBERSIGN: # | number | nr | num | no.
PERCENT: % | percent | per cent | pct
TIMES: x | by | times
DEGREE: degrees | degree | deg | °
DEGREE=c: °c | celsius | centigrade | degrees c | deg c
DEGREE=f: °f | fahrenheit | degrees f | deg f

# --- clock and calendar
AT: at | @ | since | by | as of | at about | right at | exactly at | starting at | from about
APPROX: about | around | like | roughly | ~ | approx | approximately | circa | or so | at around | about like | somewhere around | round about | close to | going on | right around | just about | just after | just before | shortly after | a little after | a little before | a bit after | a bit before | a hair past
PART=am: am | a.m | a.m. | a m | in the morning
PART=pm: pm | p.m | p.m. | p m | in the afternoon | in the evening | at night
PARTDAY=0am: this morning | earlier this morning | today in the morning | this am | early this morning | first thing this morning | first thing | at dawn | at first light | at sunrise | at sunup | at daybreak | before breakfast
PARTDAY=0pm: this afternoon | tonight | this evening | earlier this afternoon | this pm | late this afternoon | early this afternoon | at dusk | at sunset | at sundown | before dark | just before dark | after lunch | late afternoon
PARTDAY=-1am: yesterday morning | yesterday am | yesterday in the morning
PARTDAY=-1pm: last night | yesterday afternoon | yesterday evening | yesterday pm | yesterday night | last evening | late yesterday | late last night | overnight | over night | all night
PARTDAY=1am: tomorrow morning | tomorrow am | first thing tomorrow
PARTDAY=1pm: tomorrow afternoon | tomorrow evening | tomorrow night | tomorrow pm
PART=am: morning
PART=pm: afternoon | evening | night
DAY=0: today | later today | just today
DAY=-1: yesterday | the day before
DAY=-2: day before yesterday | the day before yesterday | two days ago
DAY=1: tomorrow | the next day
DAY=2: day after tomorrow | the day after tomorrow | overmorrow
WEEKDAY=1: monday | mon | mondays
WEEKDAY=2: tuesday | tues | tuesdays
WEEKDAY=3: wednesday | wed | weds | wednesdays
WEEKDAY=4: thursday | thu | thur | thurs | thursdays
WEEKDAY=5: friday | fri | fridays
WEEKDAY=6: saturday | sat | saturdays
WEEKDAY=7: sunday | sun | sundays
MONTH=1: january | jan
MONTH=2: february | feb
MONTH=3: march | mar
MONTH=4: april | apr
MONTH=5: may
MONTH=6: june | jun
MONTH=7: july | jul
MONTH=8: august | aug
MONTH=9: september | sep | sept
MONTH=10: october | oct
MONTH=11: november | nov
MONTH=12: december | dec
LAST: last | this past | this last | past | previous
NEXT: next | coming | this coming | upcoming
NOON: noon | midday | noontime | twelve noon | high noon
MIDNIGHT: midnight
HALFPAST: half past | half after | half
ANDHALF: thirty | and a half
WITHHALF: and a half
QUARTER: quarter | a quarter | quarters
PAST: past | after
TILL: to | till | before | through
OCLOCK: o'clock | sharp | on the dot | exactly | hundred hours
ISH: ish | -ish | or so | or thereabouts | thereabouts | give or take
UNIT=min: min | minute | minutes | m
UNIT=hour: h | hour | hours | hr | hrs
UNIT=day: d | day | days
UNIT=week: weeks | week
AGO: ago | back | earlier | before now
HALFUNIT: half a | half an | a half
JUSTNOW: just now | right now | a minute ago | a moment ago | just a minute ago | just this minute | this minute | moments ago | a second ago | a sec ago | a few minutes ago | couple minutes ago | a couple minutes ago | a couple of minutes ago | few minutes ago | as we speak | just a bit ago | as i type
JUSTDONE: finished | just finished | finished up | done | got done | just got done | just done | wrapped up | completed | got through | through with | done with | finished with
EARLIER: earlier | earlier today | a while ago | a while back | a little while ago | a bit ago | a bit earlier | some time ago | few hours ago | a few hours ago
OLD: old | of age | hours old | days old
UNDER: under | less than | fewer than | below | not more than | no more than | up to | at most | at the most | maximum | max
OVERN: over | more than | above | upwards of | at least | better than | minimum | north of | no less than | no fewer than | exceeding

# --- measures
LITREUNIT=1: l | lt | ltr | liter | liters | litre | litres
LITREUNIT=3.785: gal | gals | gallon | gallons
LITREUNIT=0.946: qt | qts | quart | quarts
LITREUNIT=0.473: pt | pints | pint
LITREUNIT=0.237: cup
LITREUNIT=0.001: ml | mls | milliliters | millilitres | cc
JARUNIT: jar | jars | bottle | bottles | baggie | baggies | bucket | buckets | pail | pails | bag | bags | scoop | scoops | shot
KILOUNIT=1: kg | kgs | kilo | kilos | kilogram | kilograms
KILOUNIT=0.4536: lb | lbs | pound | pounds
EACH: each | apiece | a piece | to each | every one of them | per | every | each one

# --- names and kinds of names
COLOUR=red: red | reddish
COLOUR=blue: blue
COLOUR=green: green
COLOUR=yellow: yellow
COLOUR=white: white
COLOUR=orange: orange
COLOUR=purple: purple | violet | lilac
COLOUR=pink: pink
COLOUR=black: black
COLOUR=grey: grey | gray | silver
COLOUR=brown: brown
COLOUR=gold: gold
COLOUR=turquoise: turquoise | teal
PINWORD: pin | pins | pinned | dot | tack | thumbtack | thumb tack | push pin | pushpin | push-pin | map pin | mark | marker | marked | tag | tagged | peg | flag | sticker | drawing pin
BATCHWORD: batch | batches | graft batch | lot | round
BREEDERWORD: breeder | breeders | queen | mother | mama | mamma | momma | breeder queen | breeder number | queen number | mother queen | queen mother | queen no | breeder no | breeder nr | queen nr | grafting mother | graft mother | old lady | old girl
BUILDERWORD: builder | builders | cell builder | cell builders | starter | starters | starter hive | starter colony | cell starter | cell starters | builder hive | builder colony | starter box | swarm box | cell building colony | cell raiser | cell raisers | builder number | nurse colony | nurse hive
YARDWORD: yard | yards | apiary | apiaries | bee yard | beeyard | mating yard | mating site | site | location | outyard | out yard
BAR: bar | bars | cell bar | cell bars | cell frame | cell frames | grafting frame | grafting frames | graft frame | graft frames | graft bar | graft bars | bar of cells | bars of cells | frame of cells | frames of cells | stick | sticks | bar of grafts | bars of grafts | cell stick | the sticks
FROM: from | off | out of | off of | off the | out from | off from | from off
OF: of | out of | out of the | of the | from | outta
THE: the | that | this | our | my
INTO: into | in | to | onto | in to | over to | over in | over into | up to | up at | up in | down to | down at | down in | up into | down into | inside | on | they're in | it's in | they're all in | all in | all in there
AND: and | n | & | + | plus | as well as | along with | and also
WITH: with | along with | together with
THEN: then | and then | after that | afterwards | afterward | next up | followed by
ALSO: also | too | as well | plus | besides | likewise | in addition | on top of that
BUTCONJ: but | though | although | however | except that | only that
BOTH: both | the two | both of them | both of those | both of the | the both | both those | both them
ALL: all | everything | all of them | all of it | all of those | all of these | all of the | every one | every one of them | every single one | every last one | every single one of them | each and every one | the lot | the whole lot | the entire lot | the whole batch | the entire batch | whole batch | entire batch | whole lot | the whole bar | whole bar | the whole thing | the whole bunch | the full lot | the full bar | all them | all 'em | all the | them all | all the cells | all our | all our cells | everyone | every cell | every queen | every nuc | full count | all hundred percent | without exception | they're all in | all in | all in there | cells are all in nucs | cells all in the nucs | cells all in nucs
BUT: but | except | minus | except for | but for | less | save | save for | excepting | aside from | apart from | other than | besides | barring | short of | all but | all except | everything but | all save | everything except | everybody but | all minus
NONE: none | not one | not a one | not a single one | not a single | none of them | none at all | nothing | not any | zip | nada | zero | zilch | nary a one | not one of them | not even one | none of | none of the | none of those | none of these | none of our | none of the cells | none of the queens
HALF: half | half of them | half of | half the | half of the | the other half | one half | a half | half the bar | half the batch
REST: the rest | the rest of them | rest | rest of them | the others | others | the other ones | the remaining | remaining | the remainder | remainder | the balance | all the others | the rest of it | rest of the
ONLY: only | just | merely | nothing but | no more than | not more than

# --- losses: before the number, and after it
LOSTWORD: lost | lose | losing | dropped | dropping | broke | broke off | squished | squashed | crushed | minus | tossed | tossed out | threw out | threw away | missing | short | short by | fell | killed | culled | binned | chucked | dented | chilled | damaged | destroyed by accident | spilled | smashed | wasted | wrecked | ruined | cracked | tore | ripped | bumped | knocked off | except | mashed | lost about | discarded | rejected | junked | trashed | scrapped | pitched | flung | burned | overheated | rolled | balled | mangled | binning | spilt | spoiled
DEADWORD: dead | dud | duds | no good | lost | died | failed | bad | rejected | empty | empties | missing | broken | broke | gone | crushed | squished | squashed | damaged | dry | dried out | dried up | duff | torn | torn down | chewed | chewed out | chewed down | chewed up | chewed open | chewed through | didn't make it | did not make it | didn't take | did not take | didn't hatch | did not hatch | didn't emerge | did not emerge | never hatched | never emerged | never made it | didn't cap | didn't | did not | fell | fell off | fell out | fell down | no show | no shows | no-show | no-shows | still closed | still sealed | not yet | chilled | stillborn | dented | culled | tossed | binned | unhatched | blank | blanks | rejects | shy | short | puny | flew off | flew away | flown | escaped | absconded | superseded | balled | drone layer | drone layers | dead in the cell | dead in cell | dead in the cells | dead in cells | undersized | too small | shriveled | mushy | rotten | black | stunted | deformed | crippled | with bad wings | bad wings | flat | abandoned | ignored | polished out | cleaned out | cut down | never took | washed out | flopped | not laying | no eggs | not drawn | not started | not accepted | not capped | not sealed | not hatched | not emerged | not there | not in there | weren't there | won't make it | spoiled | dying | too young | still too young | not ready | not old enough | flew | flew the coop | dropped | spilled | cracked | got dropped | got squished | got crushed | got dented | got damaged | got chilled | were dropped | lost on the way | lost in transit | crushed on the way | hit the ground | on the ground | tossed out | thrown out | wrecked | fell off the bar | fell on the ground | torn out | got torn down | got chewed | slipped

# --- holds a report back
NEG: not | no | n't | don't | didn't | doesn't | haven't | hasn't | hadn't | isn't | aren't | ain't | wasn't | weren't | can't | cannot | couldn't | won't | wouldn't | shouldn't | never | without | neither | nor | nope | nah | nay | nobody | no one | no-one | not any | not a | not even | hardly | barely | scarcely | unable | unable to | forgot | forgot to | forget | failed to | refuse | refused | refuses | neglected to | not done | undone | ❌ | ✖ | ✖️ | 👎 | 🚫 | no way | no luck | in no way | skipped | too late to | too late for | too wet to | too cold to | too windy to | too hot to | instead | instead of | rather than | far from | anything but | nowhere near | without any | not quite | no sign of | no signs of | not really | not happening | shouldn't have | never got to | didn't get to | haven't gotten to | haven't got to | couldn't get to | ran out of time | no time to | no time for | unfinished | incomplete | won't be | fail | fails | cancel | cancelled | canceled
YET: still | yet | not yet | as yet | so far no | still not | still no | still have | still has | still need | still to | yet to | have yet to | has yet to | still waiting | haven't yet | not just yet | so far nothing | no longer | pending | remains to be | half done | partway | halfway | halfway through | partly | part way | almost done | nearly done | half finished | mid | middle of | in the middle of | in the process of | left | left over | leftover | leftovers | to go | still to go | remaining to | too young | still too young | not ready | not old enough | not ripe
PLAN: starting to | about to start | beginning to | getting ready to | getting set to | will | i'll | we'll | he'll | she'll | they'll | you'll | it'll | going to | gonna | gotta | got to | need | needs | need to | needs to | needed | have to | has to | had to | want | wants | want to | wants to | wanted to | would | would like | i'd | we'd | he'd | she'd | they'd | should | should we | shall | must | might | could | can | may | plan | plans | planning | planned | plan to | planning to | planning on | plan on | hope | hopes | hoping | hopefully | hope to | hoping to | wish | wishing | try | trying | try to | trying to | tried to | tried | attempt | attempting | intend | intend to | expect | expecting | supposed | supposed to | suppose to | ought | ought to | oughta | fixing to | fixin to | fixin' to | about to | ready to | getting ready | getting ready to | looking to | aim to | aiming to | aiming for | set to | bound to | due to | scheduled | schedule | scheduled for | on deck | soon | later | later on | next time | next week | next month | next year | next round | tonight | when | whenever | if | unless | until | till | before | in case | as soon as | once we | once they | once the | once it | once i | once she | once he | once all | once those | once these | once capped | once i'm | once we're | after we | after i | after the | after that we | by the time | so that | in order to | let's | let us | let me | please | please do | don't forget | do not forget | remember | remember to | make sure | be sure to | be sure | somebody | someone | anybody | anyone | whoever | someone should | somebody should | need someone | someone needs to | asap | to do | to be | thinking | thinking of | thinking about | think about | considering | wonder | wondering | waiting | wait for | waiting for | waiting on | waiting to | wait until | we can | you can | i can | so we can | had better | you better | we better | i better | time to | it's time to | would be | will be | would have | could have | should have | might have | might be | could be | may be | may have | on my way to | on our way to | heading to | heading over to | heading out to | headed to | gearing up | en route | here to | ready for | need someone to | can you | could you | would you | will you | can someone | can somebody | could someone | feel free to | remind | tell them to | ask them to | ask him to | get ready | prepare to | prep for | preparing to | preparing for | what if | assuming | provided | or else | in the future | down the road | eventually | sometime | some time | someday | one of these days | this weekend | next weekend | over the weekend | as planned for | up next | start of next | beginning of next | while
HEARSAY: says | said | heard | told | told me | tells me | told us | claims | claimed | claim | reckons | supposedly | apparently | according to | they say | says he | says she | he says | she says | he said | she said | they said | they claim | i heard | i hear | we heard | heard that | rumor | rumour | rumor has it | word is | last year | last season | last spring | last summer | last fall | last winter | last month | last week | last may | last june | last april | last july | last time | last round | the other year | the other day | years ago | a year ago | months ago | back then | back when | back in the day | in the old days | used to | every year | each year | every season | usually | normally | typically | always | generally | in general | as a rule | often | sometimes | most years | every time | ever since | at his place | at her place | at their place | his place | their place | her place | the neighbor | the neighbour | neighbor | neighbour | his bees | their bees | their yard | his yard | at the club | bee club | in the book | the book says | the guide says | the chart says | online | on the internet | on youtube | in a video | article | podcast | read that | i read | reading about | read about | saw online | dreamt | dreamed | i dreamed | in my dream | joke | joking | just joking | kidding | just kidding | jk | lol jk | prank | pretend | pretending | imagine | imagining | once upon a time | story | fictional | hypothetically | for example | for instance | e.g. | example | say we | let's say | quote | quoted | the guy | that guy | my grandpa | grandpa | grandad | someone said | somebody said | legend has it | reported by | remember when | remember that time | year | years | month | months | season | seasons | bluff | bluffing | testing | just testing | a test | this is a test | test | demo | fake | false | fiction | film | fooled | fooling | april fools | april fool | lying | lies | lie | dreaming | laughing | practice | practise | exercise | just practice | made up story | prank call | pulling your leg | pulling my leg | make believe
HEDGE: maybe | perhaps | probably | possibly | i think | think | thinks | i guess | guess | guessing | guesses | guesstimate | i reckon | reckon | i believe | believe | i suppose | suppose | assume | i assume | presumably | unsure | not sure | not certain | not positive | unclear | uncertain | doubt | doubtful | might | seems | seem | seemed | seems like | seem to | seems to | looks like | looks like about | looks to be | appears | appear | appears to | kind of | kinda | sort of | sorta | more or less | give or take | ballpark | in the ballpark | rough guess | rough count | estimate | estimated | est | roughly | approximately | approx | almost | nearly | near enough | close to | practically | virtually | ish | or so | or something | or something like that | something like | somewhere around | somewhere between | between | or thereabouts | thereabouts | around about | dunno | don't know | i don't know | idk | don't remember | can't remember | don't recall | forget how many | don't quote me | lost count | lost track | hard to say | hard to tell | can't tell | could be | may be | may have | might be | might have | must be | must have | should be | should have been | ought to be | at least | at most | more than | less than | fewer than | plus or minus | ± | +/- | +- | ~ | ≈ | ?? | 🤔 | percent | % | or | either | whether | as far as i know | afaik | if i remember right | if memory serves | from memory | off the top of my head | supposedly | apparently | likely | unlikely | most likely | i'd say | call it | let's call it | let's say | say about | figure | i figure | as good as | good as | i hope | hopefully | fingers crossed | knock on wood | touch wood | in theory | theoretically | technically | suspect | i suspect | questionable | iffy | tentative | tentatively | provisional | give or take a few | a guess | wild guess | best guess | best estimate | not counted | didn't count | didn't count them | haven't counted | without counting | eyeballed | eyeballing | eyeball | by eye | a few | few | several | some | a bunch | a bunch of | bunch of | a handful | handful | a handful of | plenty | plenty of | lots | lots of | a lot | a lot of | loads | loads of | many | a ton | a ton of | tons of | tons | heaps of | most | most of | most of them | the most | the majority | majority | a third | two thirds | a third of them | three quarters | a good number | a number of | dozens | dozens of | hundreds | a couple dozen | various | a good few | quite a few | a fair few | good half | the better part | seemingly | assumed
QWORD: who | what | when | where | why | which | whose | whom | how | how many | how much | how long | how old | how far | how come | how's | what's | who's | where's | when's | why's | what time | what day | which one | which ones | whether | any idea | anybody know | anyone know | does anyone | did anyone | did anybody | has anyone | has anybody | do we | do you know | tell me | show me | give me the | let me know | lmk | ? | what about | how about | any word | any news | remind me what | remind me when | who all
AUX: did | do | does | is | are | has | have | had | was | were | can | could | should | would | will | shall | may | might | am | isn't | aren't | didn't | don't | doesn't | hasn't | haven't | wasn't | weren't
CORRECT: actually | wait | oops | ops | whoops | woops | oopsie | i mean | i meant | meant | mean to say | meant to say | recounted | recount | i recounted | counted again | i counted again | checked again | correction | correct that | correct it | correcting | corrected | make that | make it | change that | change it | change that to | change to | should be | should read | should say | should've been | should have been | that should be | it should be | sorry | sry | my bad | my mistake | my fault | mistake | by mistake | mistaken | typo | typoed | mistyped | misread | miscounted | miscount | i miscounted | misspoke | wrong | that's wrong | that was wrong | was wrong | wrong number | wrong one | wrong batch | wrong yard | wrong count | counted wrong | fat fingers | fat fingered | fat finger | fat thumbs | autocorrect | auto correct | stupid autocorrect | scratch that | strike that | fix | fix that | fixing | amend | edit | edited | update that to | instead | rather | hang on | hold on | no wait | wait no | let me correct | it was | that was | i missed one | missed one | one more | double counted | forgot one | forgot about one | left one out | recheck | rechecked | brain fart | spelled | mixed up | mixup | mix up | verify | gloved thumb | big thumbs | twice

# --- intents
YES: yes | yep | yup | yeah | yea | yah | yas | aye | affirmative | yessir | yes sir | yes ma'am | yes please | sure | sure thing | absolutely | correct | that's right | that's correct | exactly | you bet | of course | indeed | definitely | certainly | positive | right | true | uh huh | uh-huh | mhm | mm-hmm | yupp | yess | confirmed | confirm | log it | log that | go ahead | please do | do it | sounds right | i did | we did | sure did | did it | did that | that's it | that's the one
NO: no | n | nope | no thanks | nah | nay | no sir | negative | not that | leave it | don't log it | don't log that | don't
OKWORD: ok | okay | k | kk | got it | roger | roger that | 10-4 | ten four | copy | copy that | understood | noted | will do | sounds good | sounds great | alright | all right | right on | cool | fine | great | perfect | thanks | thank you | ty | cheers | seen | saw it | heard | loud and clear | aye aye | on my radar | good to know | thanks for the reminder | thumbs up | 👍 | 👌 | 🙏 | 🫡 | 💪 | nice | awesome | yes boss | okie dokie | okey dokey | okay then | wilco | np | no worries | no problem | can do
DONEWORD: done | all done | finished | all finished | complete | completed | all set | done deal | done and dusted | did it | did that | did them | we did | i did | did those | that's done | it's done | they're done | this is done | job done | job's done | all sorted | sorted | all taken care of | taken care of | took care of it | took care of that | took care of them | handled | handled it | dealt with | wrapped up | wrapped it up | all wrapped up | in the books | in the bag | nailed it | knocked out | knocked it out | knocked that out | buttoned up | mission accomplished | finito | 100% | checked off | check it off | check that off | tick it off | mark it done | mark as done | mark done | ✅ | ✔ | ✔️ | ☑ | ☑️ | got it done | got that done | got them done | got 'em done | got er done | got em all | got them all | all in | all in there | they're in | they're all in | it's in | just did | just did it | just finished | just finished up | finished up | finished it | finished that | finished with that | finished them | finished it up | already did | already done | already did it | already finished | been done | been there done that | that one's done | crossed off | all good to go | good to go | all squared away | squared away | put to bed | that's a wrap | signed sealed delivered | completed it | completed that | fixed up | taken care of already
ALREADY: already
NOW: now | right now | as we speak | at the moment | currently | this minute | just this minute | this very minute | as i type | right this minute | presently | here now
SPEAKER: i | we
CLAIM: mine | that's mine | that one's mine | that one is mine | this one is mine | this one's mine | mine please | i'll take it | i will take it | i take it | i'll take that | i'll take this | i'll take this one | i'll take that one | i'll take them | i'll take | i've got it | i've got this | i got it | i got this | i got this one | i got that | i have it | i have this | got this | got this one | got it mine | on it | i'm on it | i'm on that | i'm on this | we're on it | i'll do it | i'll do that | i'll do this | i'll do them | i'll do the | i'll do | i will do it | i will do that | i'll handle it | i'll handle that | i'll handle this | i'll handle | i can do it | i can do that | i can do | i can take it | i can take | i can take that | i can handle it | i'll go | i'll go do it | dibs | i call it | i call dibs | put me down | put me down for | count me in | sign me up | that's me | that's my job | my job | i'm in | leave it to me | leave it with me | leave that to me | we got it | we got this | we've got it | i'll get it | i'll get that | i'll get them | i'll get to it | i'll get on it | i'll get | i'll grab it | i'll grab that | i'll grab them | i'll grab | i'll move them | i'll move those | i'll move it | i'll move | i'll be there | i volunteer | we'll take it | we'll take | we'll do it | we'll do | we'll handle it | we'll get it | on me | it's on me | i'm doing it | i'm doing that | i'm doing this | i'm doing | give it to me | give that to me | me and | my turn | it's my turn | i'll cover it | i'll cover that | i'll cover | i'll run it | i'll run | i'll run over | i'll run out | i'll head over | i'll head out | i'll head there | i'm heading over | i'm heading there | i'm headed there | i'm on my way | on my way | omw | i'm going | i'm going there | i'm already here | i'm there | already on it | already on my way | taking it | taking that | taking this one | doing it now | grabbing it | i'm grabbing it | i'm taking it | i'm taking that | i'm taking that one | consider it mine | consider it done | i'll see to it | i'll see to that | i'll take care of it | i'll take care of that | i'll take care of them | i'll take care of | i'll tackle it | i'll tackle that | i'll knock it out | i'll knock that out | i'll graft | i'll check it | i'll check them | i'll check that | i'll check | i'll feed them | i'll feed | i'll catch them | i'll catch | i'll count them | i'll count | i'll pull it | i'll pull that | i'll pull her | i'll pull | i'll search it | i'll search | i'll confine her | i'll confine | i'll release her | i'll look | i'll look at it | i'll look at that | i'll swing by | i'll stop by | i'll manage it | let me do it | let me do that | let me take it | let me take that one | let me get it | let me handle it | i do it | i volunteer for | me me | me please | i'm it | assign it to me | assign me | i'm your guy | i'm free | i'm available | i'm close by | i'll be right there | be right there | i've got that one | i'm on the way | ✋ | 🙋 | 🙋‍♂️ | 🙋‍♀️ | i want it | i want that one | i'd do it | i'd take it | i am on it | i am doing it | i shall do it | i will do | i will take | i call | going there now | going now
SNOOZE: later | snooze | remind me | remind me again | remind me later | remind us | remind me in | remind us again | in a bit | in a little bit | in a little while | in a while | in a minute | in a few | in a few minutes | in a sec | a bit later | a little later | later on | later today | not now | not right now | not just now | bug me | bug me later | bug me again | bug us | ping me | ping me again | ping me later | ping me in | ping us | ask me | ask me later | ask me again | ask again | ask again later | try me | try me again | try again | try again later | hold off | hold on | hold that thought | poke me | poke me later | give me | give us | give me a bit | give me a minute | give me a few | give me a sec | give me an hour | nudge me | nudge me later | check back | check back later | check with me later | buzz me | bother me later | alert me | tell me again | tell me later | after lunch | after dinner | after breakfast | another hour | another half hour | another minute | busy | busy right now | busy now | busy at the moment | tied up | tied up right now | in the middle of something | my hands are full | hands full | can't right now | can't now | can't at the moment | cannot right now | driving | driving right now | i'm driving | on the road | at lunch | eating lunch | postpone | postpone it | delay | delay it | push it back | push it | push that | put it off | wait a bit | when i get back | when i'm back | when i'm done here | when i'm free | get back to me | get back to you | circle back | ping later | ping again | wake me | shortly | not yet give me | need more time | need another hour | more time
SKIP: skip | skip it | skip this | skip that | skip this one | skip that one | skip today | skipped it | skipping | skipping it | skipping this one | we skip it | we'll skip it | let's skip it | scrap it | scrap this | scrap that | scrap that one | scrap this one | scrap the batch | scrap the round | scrap | cancel it | cancel this | cancel that one | cancel this one | cancel the batch | cancelled | canceled | it's cancelled | call it off | called it off | called off | calling it off | let's call it off | no need | no need to | no need for it | no need anymore | not needed | not needed anymore | isn't needed | not necessary | unnecessary | not required | not doing | not doing it | not doing this | not doing that one | we're not doing it | we're not doing that | i'm not doing it | not going to do it | not going to happen | not gonna happen | won't happen | won't be doing it | we won't do it | isn't happening | not happening | ain't happening | drop it | drop this one | drop that one | forget it | forget about it | forget that one | never mind | nevermind | nvm | never mind that | off the table | off the list | take it off the list | take it off | passing on it | passing on that | passing on this one | pass on it | pass on this one | pass | give up on it | giving up on it | gave up on it | abandon it | abandon | abandoned it | abandoned the batch | abandon the batch | dumped the batch | dumping the batch | binned the batch | lost the batch | lost the whole batch | batch is dead | batch is lost | batch is gone | batch died | the batch died | batch failed | whole batch died | whole batch dead | the whole batch is dead | bar fell | the bar fell | dropped the bar | dropped the whole bar | cells got chilled | chilled the cells | incubator died | incubator failed | incubator quit | n/a | not applicable | doesn't apply | moot | moot point | wash | it's a wash | a wash | call it a wash | pull the plug | write it off | wrote it off | written off | starting over | start over | we're starting over | not this time | not this round | rain check | rained out | rained off | too wet | too cold | too windy | too hot | too late now | nothing to do there | nothing left to do | didn't do it and won't | cancel | passing on
VOID: undo | undo that | undo it | undo this | undo last | undo the last | undo the last one | undo please | undo my last | undo my last one | please undo | take that back | take it back | take back that | take back that one | take back the last | take back the last one | i take that back | delete that | delete it | delete that one | delete last | delete the last | delete the last one | delete the last line | delete my last | scratch that | scratch that one | scratch the last | scratch the last one | scratch it | scratch my last | strike that | strike the last | strike the last one | strike it | remove that | remove it | remove that one | remove the last | remove last | remove the last one | remove the last line | cancel that | cancel the last | cancel last | cancel the last one | cancel my last | ignore that | ignore that one | ignore that last | ignore the last | ignore the last one | ignore my last | ignore last | ignore it | disregard | disregard that | disregard that last | disregard the last | disregard the last one | disregard my last | wrong button | wrong ping | hit the wrong button | pressed the wrong button | pushed the wrong button | erase that | erase it | erase the last | erase the last one | forget that | forget the last | forget the last one | forget that last one | nix that | nix it | nix the last | kill that | kill that one | never happened | that never happened | didn't happen | that didn't happen | it didn't happen | take back | un-log | unlog | unlog that | un log that | un-log that | un-log it | oops undo | revert | revert that | revert it | revert the last | roll that back | roll it back | back that out | scrap that last | not done undo | void that | void it | void | void the last | withdraw that | reverse that | that was a mistake | that was an accident | that was by accident | hit done by accident | hit it by accident | by accident | pocket dial | butt dial | pressed it by mistake | pressed by mistake | clicked by mistake | tapped by mistake | fat fingered it | wasn't done | it's not done | it wasn't done | wasn't me | it wasn't me | logged by mistake | logged it by mistake | logged wrong | shouldn't be logged | shouldn't have logged that | take that off | take that out | take it out of the log | didn't mean to log that | didn't mean that | didn't mean to send that | ignore my message | i lied | too early undo | wrong message | tapped it by accident | touched the screen | clicked it by accident | wrong line | kill last | kill the last | kill last entry | kill the last entry | kill that entry | belay that | delete last entry | delete the last entry | delete my last entry | remove last entry | undo last entry | undo my last entry | scratch last entry | undo the last entry | undo last line
FORGET: forget me | delete my data | delete my name | remove my name | forget my name | erase my name | erase my data
HELPWORD: help | help me | help please | commands | show commands | what can you do | how does this work | how do i log | how do i | instructions | manual
GREET: thanks for the help | thanks for your help | thanks for helping | nice graft | good job | nice work | nice job | well done | great job | good work | hi | hey | hello | hiya | howdy | yo | hi all | hey all | hello all | hi team | hey team | hi guys | hey guys | hi folks | hey folks | hi everyone | hey everyone | hello everyone | hi everybody | morning | good morning | morning all | morning everyone | morning team | morning guys | morning folks | morning crew | good morning all | good morning everyone | good morning team | good morning crew | evening all | good evening | good evening all | good afternoon | afternoon all | howdy all | howdy folks | yo all | hey crew | hi crew | hey there | hi there | hey bot | hi bot | hello bot | g'day | good night | night all | good night all | bye | bye all | later all | later guys | later folks | see ya | see you | see you all | see you soon | cya | talk soon | over and out | thanks | thank you | thanks all | thanks guys | thanks team | thanks bot | thank you all | ty | tysm | cheers | cheers all | much appreciated | appreciate it | happy monday | happy friday | tgif

# --- queries and commands
DUEWORD: due | what's due | what is due | what's next | next up | what's up next | what next | what now | what's left | what's open | what's on | what's pending | what's outstanding | what's remaining | to do | to-do | to do list | todo list | task list | tasks | what's to do | what needs doing | what needs to be done | what needs done | what do we have | what do i have | what have we got | what have i got | what do i do | what do we do | what should i do | what should we do | anything due | anything left | anything else | anything on | anything to do | anything pending | on the list | on the agenda | on the schedule | on the calendar | the plan | plan for today | the agenda | the schedule | coming up | overdue | late jobs | what's late | what did we miss | what's coming up | outstanding | pending
WHOWORD: who | who's | who is | who has | whose | who all | who did | who's got | who's doing | who's on | who's taking | who's moving | who moved | who grafted | whose turn | whose job | anybody on | anyone on
WHENWORD: when | when's | when is | when do | when does | when can | when can we | when can i | when may i | when are | when will | when did | when should | what time | what day | which day | how soon | how late | how early | how long until | how long till | how long have | how long do we have | how much time
HOWMANY: how many | how much | what's the count | what's the total | what was the count | how many of
WHEREWORD: where | where's | where is | where are | where did | where do | which yard | which builder
WHYWORD: why | why so | why that | why this | why now | why is that | how come | what for | what's the reason | reason
FREEWORD: free | empty | open | available | unused | vacant | spare | unoccupied | free nucs | empty nucs | open nucs | capacity | room | space | room left | space left
LOGWORD: log | the log | show log | show the log | logbook | the logbook | recent | recent entries | last entries | last lines | entries | lines | records | the records | history | what was logged | what's logged | what did we log | what have we logged
STATUSWORD: status | status of | state of | how is | how's | how are | how's it going | how are things | how did | how does | how do | info | info on | details | details on | update on | news on | any news | any word | progress | progress of | where are we | where are we at | where do we stand | what about | how about | what's up with | what's happening with | what's going on with | what's the story | what's the latest | tell me about | overview | summary | rundown | recap
PICTUREWORD: picture | week | the week | show week | season | the season | week picture | chart | board | map
REPORTWORD: report | reports | spreadsheet | csv | export | records | sheet
CALENDARWORD: calendar | calendar link | calendar file | ical | ics
PHOTOWORD: photo | photos | picture of | pictures of | pics of | pics | images
ORDERWORD: order | orders | ordered | customer order | new order | booking | booked | reserve | reserved
YIELDWORD: yield | yields | success rate | success rates | take rate | averages | our numbers
SETWORD: set | setting | settings | show settings | change setting | configure | preferences | options
SETTING=zone: zone | timezone | time zone | tz
SETTING=language: language | lang
SETTING=evening: evening | eve | evening ping | evening list | evening reminder
SETTING=morning: morning | morning list | morning ping | morning reminder
SETTING=quiet: quiet | quiet hours | silent hours | do not disturb
SETTING=work: work | work hours | working hours | hours of work
SETTING=wake: wake | wake up
SETTING=pin: pin | pinning
SETTING=check: check | daily check | self check | self-check | selfcheck
SETTING=move: move | move hour
SETTING=incubator: incubator | incubator temperature | incubator temp
SETTING=spread: spread
SETTING=daysoff: days off | day off | daysoff | off days
SETTING=units: units
SWITCH=on: on | enable | enabled | turn on | switch on
SWITCH=off: off | disable | disabled | turn off | switch off
SWITCH=default: default | normal | standard | reset
SWITCH=both: both
SWITCH=none: none | nothing
LANGUAGE=en: english
LANGUAGE=es: spanish | espanol
ADDWORD: add | new | adding | create | register | set up a new | we have a new | got a new
SHOWWORD: show | show me | list | display | give me | send me | let me see | can i see | pull up | bring up
WHATIF: what if | what happens if | suppose we | if we | if i
JOINWORD: join | claim

# --- trade: the verbs
paradigm reg done: ed
paradigm reg going: ing
paradigm reg bare: - s
paradigm sh done: ed
paradigm sh going: ing
paradigm sh bare: - es
paradigm e done: ed
paradigm e going: ing
paradigm e bare: e es
paradigm dbl done: *ed
paradigm dbl going: *ing
paradigm dbl bare: - s

CONFINE verb e: confin | isolat | cag | encag | incarcerat
CONFINE verb dbl: pen/penn
CONFINE verb reg: trap | jail | sequester | restrict | coop
CONFINE.done: shut up | shut in | shut her in | shut her up | locked up | locked in | locked her up | locked her in | locked down | locked away | put up | put away | put her up | put her away | put her in jail | put in jail | put on comb | put her on comb | put her on a comb | put in the cage | penned up | penned in | penned her | pinned | pinned down | pinned up | pinned in | cooped up | boxed in | boxed her in | caged up | caged her | closed in | closed her in | stuck in | stuck her in | tucked away | tucked her in | trapped | trapped her | walled off | fenced in | contained | restrained | held on | set up on comb | set up on a comb | in solitary | behind bars | behind the excluder | into confinement | in confinement | went into confinement | under confinement | started confinement | confinement started | cage is on | cage on | got her caged | got her confined | got her penned | got her locked up | have her confined | have her caged | has been confined | is confined | is caged | is locked up | is isolated | on lockdown | in lockup | in isolation | went in the cage | went in her cage | got caged | got confined | put on lockdown | in lockdown
CONFINE.bare: lock up | shut in | coop up | pen up | cage up | put up | lock in | lock her up
CONFINE.going: shutting in | locking up | penning up | caging up | putting her up
CAGE: cage | cages | isolator | isolators | isolation cage | isolation | confiner | confiners | confinement cage | confinement | confinement box | pen | excluder cage | excluder box | excluder | exclusion cage | push-in cage | push in cage | jail | queen jail | clip cage | comb cage | laying cage | egg cage | frame cage | single frame cage | behind the excluder | in the cage | in a cage | in cages | in her cage | into the cage | into her cage | in the isolator | in an isolator | the isolator | cage comb | egg laying cage | queen cage | queen cages | laying box | grid cage | put in the cage | put in cages | into cages | went in cages
CAGED.done: caged | caged up | encaged | caged and marked
CAGED.bare: cage
CAGED.going: caging
PUT.done: put | placed | popped | stuck | set | dropped | got | shut | closed | installed | inserted | hung | dumped | laid | planted | slid | tucked | distributed | spread | put in | put out | set in | set out | moved in | moved into | loaded | slipped | stuffed | sat | parked | threw | tossed | landed | settled | nestled | transplanted | plugged | plugged in | stuck in | popped in | dropped in | handed out | dealt out | seeded | mounted | stacked | housed | pushed | pushed in | shoved | stashed | assigned | positioned | deposited | fitted | fit | lowered | pressed | pressed in | spotted in | seated | stocked | divvied up | divided up | split up | divvied out | gave out | doled out | parceled out | placed out | went in with | hooked | attached | clipped in | wedged | eased in | eased | stood | put up | put down | put on | put together | put on comb | put her on comb | put her on a comb | put in the cage | we got | i got | we've got | got in | put cells back in
PUT.bare: put | place | pop | drop | insert | set | install | hang | stick | plant | distribute | puts | places | slide | spread
PUT.going: putting | placing | popping | dropping | inserting | setting | installing | hanging | sticking | planting | distributing | loading | dealing out | putting in
MOVE verb e: mov | relocat | plac
MOVE verb reg: cart | haul | deliver | transport | transplant | shift
MOVE verb dbl: transfer/transferr | ship/shipp
MOVE.done: took over | took across | took up | took down | took out | taken out | taken over | taken up | brought | brought over | brought out | brought up | drove | drove out | drove over | drove up | ran | ran out | ran over | ran up | carried | carried over | carried out | swapped | switched | hauled out | hauled over | trucked | dispatched | shuttled | distributed | dropped off | unloaded | offloaded | went out | sent | sent out | sent over | moved over | moved out | moved up | moved on | moved across | moved them | shipped out | carted off | delivered to | relocated to | rehomed | ferried | lugged | toted | packed over | conveyed | dropped at | headed out with | rolled out | placed out | put out | set out | made the move | move done | move is done | moving done | did the move | walked over | handed over to | bused | hiked | moved to finish | cells are in the nucs | cells are in nucs | cells in the nucs | cells are in their nucs | cells are all in nucs | cells all in the nucs | cells all in nucs | cells are in
MOVE.bare: bring | carry | take over | take across | drive | run | swap | switch | send | bring over
MOVE.going: bringing | carrying | taking over | driving out | running out | sending | dropping off | shuttling | distributing
GO.done: went | gone | headed | went over | went in | went into | went out | went up | went on | gone in | gone over | gone out | gone up | made it in | made it to | made it into | ended up | wound up | landed | arrived | got in | rolled in | came over
GO.bare: go | goes | go in | go into | heads
GO.going: going in | going into | going over | going out | heading
TAKE.done: took | taken | removed | lifted | pulled out | popped out | taken off | took off | took out | taken out | lifted out | removed from | withdrew | withdrawn | fished out | scooped out | plucked out | got out | slid out | slipped out | brought out | eased out | carried off | taken away | took away | stripped | extracted | took over | took across | took up | took down | taken over | taken up | took it out | took them out | took her out
TAKE.bare: take | remove | lift | takes | removes | take out | pull out | lift out
TAKE.going: taking | removing | lifting | taking out
TAKE.state: took | take | takes
PULL.done: pulled | yanked | slipped out | pulled out | pulled off | popped | popped out | hauled out | drew out | slid out | tugged out | fished out | jerked out | pulled up | pulled back | yanked out | plucked out | dragged out | pried out | popped loose | lifted out | fished | snatched out | drew | hauled | tugged | teased out | pulled it | pulled them | pulled her | have pulled | been pulled
PULL.bare: pull | pull out | yank | pulls
PULL.going: pulling | yanking | pulling out
RELEASE verb e: releas | uncag | unleash | liberat
RELEASE.done: freed | freed up | let go | let loose | let out | let her go | let her out | let her loose | let her run | let her off | let run | let off | set free | set her free | set loose | set her loose | turned loose | turned her loose | turned her out | turned out | turned her back in | cut loose | cut her loose | sprung | sprung her | bailed out | out of jail | out of her cage | walked out | walked her out | opened the cage | opened her cage | opened up the cage | popped the cage | took her out of the cage | took the cage off | cage is off | cage off | lifted the cage | removed the cage | took off the cage | pulled the cage | put her back | put back with her hive | put her back with her hive | put her back in her hive | back with her colony | back with her hive | back with her bees | back with her girls | back in her hive | back home | returned to her hive | returned her to her hive | returned her | reunited | she's out | she is out | came out of the cage | got out of the cage | out and about | unlocked her | unpenned | unjailed | discharged | unconfined | no longer confined | confinement over | confinement is over | ended confinement | ended the confinement
RELEASE.bare: free | let out | let go | set free | turn loose
RELEASE.going: freeing | letting out | letting her out | letting her go | turning loose | setting free
LET: let | letting
FREE: free | loose | back with her hive | back with her bees | back in her hive | walking free | out of the cage | out of her cage | off the comb | off her comb | running free | running loose | roaming free | roaming | out of jail | back with her girls | back in the hive | back in the brood nest | off comb | at large | home again | free again | at liberty | wandering | back in the nest | back on the brood
COMBOUT.done: combed out | comb's out | combs out | comb is out | comb out | comb pulled | comb's pulled | comb is pulled | pulled comb | pulled her comb | pulled the comb | pulled combs | combed | comb's off | comb removed | comb's removed | comb taken out | comb came out | comb taken | comb lifted | comb lifted out | took comb | took her comb | took the comb out | took her comb out | got the comb out | got her comb out | got comb out | frame's out | frame is out | frame out | egg frame out | egg comb out | grafting comb out | graft comb out | larva comb out | larvae comb out | comb's ready out | comb comes out | comb came off | frame came out | frame pulled | frame's pulled | pulled the frame | pulled her frame | pulled the egg frame | removed comb | removed the comb | removed her comb | lifted the comb | lifted her comb | lifted comb out | comb outta | comb out of | frame out of | frame outta | egg comb outta | egg comb out of | egg frame out of | grafting comb out of
COMBOUT.bare: comb-out | combout | pull the comb | pull her comb | take the comb out | take comb out | take out the comb | pull comb | remove the comb
COMBOUT.going: combing out | pulling the comb | pulling her comb | taking the comb out
GRAFT verb reg: graft | regraft
GRAFT.done: punched | picked larvae | picked larva | transferred larvae | moved larvae | scooped larvae | grafted up | grafted out | done grafting | finished grafting | got grafted | did the graft | did the grafts | did a graft | did grafts | did grafting | made the graft | made grafts | made a graft | did our graft | graft done | graft's done | graft is done | grafts done | grafts are done | graft finished | graft complete | graft's in | graft is in | grafts in | grafts are in | grafting done | grafting's done | grafting is done | grafting finished | ran a graft | knocked out a graft | loaded the cups | loaded cups | filled the cups | filled cups | larvae are in | larvae in | put in a graft | put a graft in | put grafts in | set a graft | set grafts | cups filled | cups are loaded | did a round of grafts | did a round of grafting | did a grafting round | double grafted | larvae transferred | larvae moved | needled | grafted cups | grafted cells | grafted larvae | grafted bars | grafted bar | larvae grafted
GRAFT.bare: do a graft | do the graft | do grafts | make grafts
GRAFT.going: doing grafts | doing a graft | doing the graft | making grafts | transferring larvae | punching | picking larvae
GRAFTN: graft | grafts | grafting | grafted cups | graft round | grafting round | larvae grafted | grafted cells | grafted larvae | grafted bars | the graft | the grafts | new grafts | fresh grafts | round of grafts | grafted bar
LARVA: larvae | larva | larvas | grubs | worms | cups | queen cups | cell cups | wet cups | plugs | cup | plastic cups | primed cups | wax cups | cell bases | young larvae | day old larvae | one day larvae | day olds | babies
PUNCH: punch | cell punch
LOADED.done: loaded | stocked | filled | charged | loaded up | stocked up | filled up | topped up | populated | primed
DO.done: did | made | finished | done | got done | knocked out | ran | pulled off | did up | carried out | completed | we did | i did | did those | did them | did it | did that
DO.bare: do | make | does
DO.going: doing | making
START.done: started | starts | start | got started | kicked off | began | begun | has started | have started | kicked in | has kicked in | set in | has set in | came on | has come on | is under way | underway | got going | got rolling | is here | has arrived
START.bare: start | begin
START.going: starting
STATE: are | is | 're | 's | sitting | in place | now in | in there | they're | we're | she's | it's | stand | standing | stands | sits | resting | living | am | that's | there's | there are | there is | are now | is now | looks | look | they're in | it's in | they're all in | all in | all in there
ACCEPT verb reg: accept
ACCEPT.done: caught on | taken | took | took hold | stuck | hung on | held | made it | picked up | being drawn | being built | being drawn out | started on | got started | started drawing | started building | started cells | started | drawing | drawing out | drawing down | drew | drew out | drew down | drawn | drawn out | drawn down | pulled wax | pulling wax | pulled out | building on | building out | built | built out | built up | got accepted | were accepted | was accepted | been accepted | are accepted | got taken | got drawn | working on | worked on | being worked | waxed | waxed up | with royal jelly | with jelly | full of jelly | on jelly | floating in jelly | swimming in jelly | have jelly | has jelly | jelly in | good starts | starts | nice starts | solid starts | took on | adopted | raised | raising | they're raising | they're drawing | started to draw | looking like cells | turned into cells | being fed jelly | fed jelly | getting jelly | being fed royal jelly | getting fed jelly | swimming in royal jelly
ACCEPT.bare: take | hold | didn't take | did not take | not accepted | never took | not drawn | not started
ACCEPT.going: taking
ACCEPT.state: acceptance | acceptances | take | takes | take rate | acceptance rate | acceptance count | takers | accepted count
DRAWN: drawn | drawn out | built out | stuck | built | pulled | royal jelly | pulled out | drawn down | started | started out | waxed
FINISHER: finisher | finishers | the finisher | the finishers | finishing colony | finishing colonies | finishing hive | finishing hives | finisher colony | finisher hive | finisher colonies | continuing colony | finishing | finishing builder | finishing box | queenright finisher | queen right finisher | cell finisher | cell finishers | the finishing colony | the finishing hive | finish colony | to finish | above the excluder | above an excluder | over the excluder | above excluder | up top over the excluder | moved to finish | in the finisher | into the finisher | to the finisher | over to the finisher | to finisher | in finisher | in finishers | to finishers | into finishers | on the finisher | into the finishing colony | to the finishing colony | in the finishing colony | with the finisher
FINISH.done: moved to finish | into the finisher | in the finisher | to the finisher | over to the finisher | to finisher | to finishers | into finishers | into the finishing colony | to the finishing colony | over the excluder | above the excluder | with the finisher
ACROSS: across | over | over there | over to | over in | over into
CAP verb dbl: cap/capp
CAP verb reg: seal
CAP.done: capped over | capped off | capped out | capped up | capped in | sealed over | sealed up | sealed off | sealed in | closed up | closed over | closed off | closed | are sealed | are capped | got capped | got sealed | been capped | is capped | were capped | were sealed | wax capped | caps on | have caps | tops on | closed in | zipped up | buttoned up | finished cells | finished off | covered over
CAP.bare: close | didn't cap | not capped | not sealed | still sealed
CAP.going: sealing up | capping over | closing
CLOSE.done: closed | closed up | closed over | shut | closed off
CLOSE.bare: close
OVER: over | ended | stopped | has ended | has stopped | quit | is over | behind us | all over | fizzled | petered out | dried up | shut down | shut off | tapered off | dropped off | winding down | cut off | died off | died down
CLEAR: clear | clean | cleared | all clear | clear of rogues | all clean | clean as a whistle | spotless | free of rogues | rogue free | rogue-free | free of wild cells | nothing found | found nothing | no surprises | clean bill | clean bill of health | came up clean | came up clear | came back clean | looks clear | looks clean | looking clean | squeaky clean | free and clear | in the clear | nothing wild | nothing there | nothing in there | nothing in it | clean sweep | totally clear | clear throughout | good and clean | clear and clean | clear as day | it's clean | it's clear | is clean | is clear
ROGUE: rogue | rogues | rogue cell | rogue cells | rogue queen cell | rogue queen cells | wild cell | wild cells | wild one | wild ones | wild queen cell | wild queen cells | wildcat cells | wildcats | stray cell | stray cells | stray | strays | emergency cell | emergency cells | natural cell | natural cells | natural queen cells | their own cells | own cells | their own | swarm cell | swarm cells | supersedure cell | supersedure cells | extra queen cell | extra queen cells | extra cells | extra cell | queen cell | queen cells | volunteer cell | volunteer cells | volunteers | bootleg cells | bootleg cell | unwanted cells | unwanted cell | sneaky cell | sneaky cells | sneaky one | hidden cell | hidden cells | renegade cell | renegade cells | renegades | bandit cells | homemade cells | homemade cell | cells of their own | cells on the comb | cells on the combs | cells on the frames | pirate cell | pirate cells | outlaw cells | self made cells
NOROGUE: no rogue | no rogues | no rogue cells | no rogue cell | no rogue queen cells | no wild cells | no wild cell | no wild ones | no wild queen cells | no queen cells | no queen cell | no strays | no stray | no stray cells | no stray cell | nothing wild | no cells | no cells found | no cells there | no other cells | no extra cells | no extra queen cells | no extras | zero rogues | zero rogue cells | zero wild cells | zero queen cells | zero strays | without rogues | without rogue cells | without any rogues | without a single rogue | not one rogue | not a rogue | not a rogue in sight | not a single rogue | not a single wild cell | not a single queen cell | not any rogues | no natural cells | no swarm cells | no emergency cells | no supersedure cells | no own cells | none wild | didn't find any rogues | didn't find rogues | didn't find any | didn't find any cells | didn't find any wild cells | didn't find a rogue | didn't find a thing | didn't find anything | found no rogues | found no rogue cells | found no cells | found no wild cells | found no queen cells | found none | found nothing | found zero | saw no rogues | saw no cells | saw no wild cells | saw none | couldn't find any | couldn't find any rogues | couldn't find a single one | never found one | never saw one | rogue free | no sign of rogues | no signs of rogues | no sign of rogue cells | no sign of wild cells | no sign of any | nothing rogue | no funny business | nothing extra | no surprises | none found | none seen | nothing but ours | only our cells | only our own cells | only ours | no volunteers | no bandits | no renegades | there weren't any | there were none | there was nothing | didn't see any rogues | didn't see rogues | didn't see any | didn't see any cells | didn't see any wild cells | don't see any rogues | can't find any rogues | can't find any | no rogue in sight | no rogues anywhere | no rogues at all | no rogues there | no rogues in there | no rogues found | no rogue cells found | no rogue cells anywhere | zero rogues found | nada on the rogues | not a single rogue cell | not one rogue cell | not a single cell | none to be found | none anywhere | none in there | no extra qcs | no qcs | no qc | no extra qc | no queencells | no rogue queencells | no wild qcs
KILL.done: cut | cut out | cut down | cut off | knocked | knocked down | knocked off | knocked out | squished | squashed | crushed | destroyed | scraped | scraped off | scraped out | pinched | pinched off | culled | killed | tore | tore down | tore out | torn out | torn down | removed | smashed | ripped out | ripped | ripped off | ripped down | nixed | took out | taken out | wiped out | pulled down | pulled off | cleared out | cleaned out | mashed | mashed up | got rid of | took down | dispatched | squeezed | popped | poked | stabbed | flicked off | broke down | broke off | broken down | busted | busted up | trashed | whacked | offed | nipped | nipped off | snipped | sliced | sliced off | dug out | picked off | peeled off | stomped | eliminated | exterminated | did away with | disposed of | axed | demolished | annihilated | terminated | rubbed out | pruned | plucked | knocked it down | knocked them down | got rid of it | got rid of them | dealt with it | dealt with them | took it out | took them out | cut it out | cut them out | cut 'em out
KILL.bare: cut | cut out | knock down | squish | squash | crush | destroy | scrape | pinch | cull | kill | tear down | remove | smash | get rid of | take down
KILL.going: cutting | cutting out | knocking down | squishing | crushing | destroying | scraping | pinching | killing | tearing down | removing | culling
FOUND.done: found | saw | spotted | had | discovered | located | came across | ran across | ran into | came upon | turned up | uncovered | there was | there were | noticed | detected | picked out | counted | seen | showed up | caught sight of | stumbled on | stumbled across | got | we got | i got | we've got | we found | i found | counted up | came up with | dug up
FOUND.bare: find | see | finds
FOUND.going: finding | seeing
CHECK verb reg: check | inspect | recheck | re-check | doublecheck | double-check | review
CHECK verb sh: search
CHECK verb dbl: scan/scann
CHECK.done: looked | looked at | looked in | looked through | looked into | looked over | looked inside | looked her over | looked them over | had a look | had a look at | had a look in | had a look through | had a peek | had a peek in | took a look | took a look at | took a look in | took a peek | took a peek at | took a peek in | taking a look | gave it a look | gave a look | went through | went over | went into | went in | gone through | gone over | been through | been over | been into | opened | opened up | popped open | popped the lid | cracked open | cracked | cracked the lid | peeked | peeked in | peeked at | peeked into | peeped | peeped in | glanced | glanced at | poked around in | poked through | dug through | rifled through | flipped through | shook out and checked | shook through | shook and checked | turned over | went frame by frame | frame by frame | every frame | checked over | checked out | checked on | checked in on | checked through | checked up on | checked in | double checked | rogue checked | roguing done | rogued | combed through | visited | swung by | stopped by | pulled every frame | worked through | sorted through | ran through | examined | surveyed | verified | egg check | nuc check | did the check | did a check | check done | inspection done | did inspection | did an inspection | top to bottom | from top to bottom | end to end | front to back | side to side | corner to corner | every corner | every inch | both boxes | poked my head in | stuck my head in | did a look | did rounds | made the rounds | rogue check | rogue search | rogue inspection | wild cell check | cell check | checked for rogues | checked for rogue cells | checked for wild cells | looked for rogues | looked for wild cells | searched for rogues | inspected for rogues | inspected for wild cells
CHECK.bare: look | look at | look in | look through | look into | search for | open | open up | peek | peek in | go through | take a look | have a look | check on | check for
CHECK.going: looking | looking at | looking in | looking through | going through | opening | opening up | peeking | rogueing | roguing | searching through | checking on
SEE.done: saw | seen | see | spotted | noticed | i see | we see | could see | can see | i'm seeing | we're seeing | got eyes on | laid eyes on | viewed | observed | visible | showing | shows | in sight
SEE.bare: see | look
SEE.going: seeing
COUNT.done: counted | count | counted up | totalled | totaled | tallied | tallied up | came to | comes to | came out to | adds up to | added up to | totals | total | ended up with | ended with | wound up with | the count is | count is | count was | count came to | final count | head count | headcount | tally | tally is | makes | that makes | gives us | that gives us | leaves | leaves us | leaving | which leaves | left us with | we have | we've got | we got | there are | i have | i get | i got | we're at | we are at | sitting at | so far | running total | in total | all told | all in all | grand total
COUNT.bare: count | count up | tally
COUNT.going: counting | tallying
NOTHING: nothing | none | nothing found | found nothing | nothing there | nothing in there | nothing here | nothing to report | not a thing | not a single one | nothing at all | nothing to see | nada | zip | zilch | bupkis | squat | nothing seen | nothing visible | came up empty | nothing inside | saw nothing | found none | saw none | no finds | nothing to find | zero | no more
NUC: nuc | nucs | nuc box | nuc boxes | mating nuc | mating nucs | mating boxes | mating box | mini nucs | mini nuc | mini-nucs | mini-nuc | mating hives | mating hive | minis | mini | castles | castle | mating castles | mating castle | mating colonies | mating colony | baby nucs | baby nuc | babies | splits | queen castle | queen castles | nucleus | nuclei | mating units | mating unit | mating cups | half frames | quads | quad | two ways | four ways | mating yard nucs | nuc colonies | nuclei boxes | every nuc | cells are in the nucs | cells are in nucs | cells in the nucs | cells are in their nucs | cells are all in nucs | cells all in the nucs | cells all in nucs | caught out nucs | caught-out nucs | caught out nuc
MAKE.done: made | made up | built | built up | prepped | prepared | stocked | assembled | set up | put together | readied | got ready | filled | stuffed | loaded up | put up | populated | split into | charged | boxed up | created | produced | formed | fixed up | shook up | stood up | threw together | pulled together | banged out | got together | cranked out | established | provisioned | outfitted | shook | shaken | dumped bees in | got made | were made | got made up | got set up
MAKE.bare: make | make up | prep | prepare | build | stock | set up | put together | fill | makes
MAKE.going: making | making up | prepping | preparing | building | stocking | setting up | putting together | filling
SET.done: set out | set up | set | put out | laid out | placed out | spread out | lined up | stationed
READY: ready | set up | good to go | ready to go | waiting | queenless | all set | standing by | loaded | stocked | charged | filled | prepped | made | made up | ready for cells | ready to receive cells | set to go | in place | on stand | on stands | out and ready | stocked and ready | primed | on standby | geared up | up and running | ready and waiting | settled | with bees | are ready | ready for the cells | ready for capped cells | ready for queen cells | ready for their cells | with candy | with feed | with bees and candy | with bees and feed | with food | with fondant | with bees and food | bees and candy | bees and feed
EMERGE verb e: emerg | eclos
EMERGE verb sh: hatch
EMERGE.done: hatched out | emerged out | came out | come out | crawled out | popped out | popped | crawled | born | been born | were born | out of their cells | out of the cells | out of her cell | out of cells | chewed out | chewed their way out | chewed through the cap | walked out | have hatched | have emerged | has hatched | has emerged | hatch | cut out of | climbed out | broke out | busted out | made it out | got out | out and running | out and about | running around | walking around | vacated | opened cells | cells opened | hinged open | trap doors open | cap hanging | caps hanging | caps open | doors open | flipped open | are hatched | are emerged | came off | have come out | hatching done | emergence done | emergence complete | trap door open | with the trap door open | with trap doors open
EMERGE.bare: come out | didn't hatch | did not hatch | didn't emerge | did not emerge | never hatched | never emerged | not hatched | not emerged | unhatched
EMERGE.going: coming out | crawling out | popping out | chewing out | chewing their way out
EMERGE.state: emergence | emergences | hatch rate | emergence rate | hatch count | hatchings | hatch-out
QUEENV: virgins | virgin | virgin queens | virgin queen | young queens | young queen | new queens | new queen | baby queens | v queens | vq | vqs | fresh queens | live virgins
LAYING.state: laying | in lay | with eggs | with brood | started laying | begun laying | began laying | have begun laying | have started laying | started to lay | beginning to lay | have eggs | has eggs | got eggs | having eggs | have brood | has brood | got brood | having brood | are laying | is laying | laying well | laying good | laying now | laying great | laying nice | laying nicely | laying strong | laying solid | laying up a storm | laying like crazy | laying away | laying eggs | in full lay | in full swing | egg laying | laying queens | laying queen | eggs and brood | brood and eggs | egg layers | mated and laying | up and laying | going strong | already laying | showing eggs | show eggs | shows eggs | open brood | capped brood | sealed brood | young brood | queenright | queen right | queen-right | qr | have good patterns | good pattern | nice pattern | good patterns | nice patterns | solid pattern | working | pumping out eggs | cranking out eggs | popping eggs | producing | productive | brood patterns | with nice brood patterns | nice brood patterns | good brood patterns | with good brood patterns | solid brood patterns | nice brood | with nice brood | good brood | with good brood | with good patterns | with nice patterns | with solid patterns | with solid brood | have nice brood | have good brood | full brood | wall to wall brood | with eggs and larvae | eggs and larvae | with eggs and brood
LAYING.bare: lay | lays | not laying
LAYING.done: laid | have laid | had laid
LAID.done: laid | has laid | have laid | had laid | laid eggs | laid up | has eggs | laid the comb | laid up the comb | laid in | laid it up | laid out | laid her eggs | laid well | laid good | laid nice | has been laying | been laying | has started | has started laying | started laying | has begun laying | began laying | is laying | filled the comb | filled her comb | filled it up | filled the frame | filled it with eggs | got busy | went to work | went to town | dropped eggs | dropped some eggs | put down eggs | put eggs in | put in eggs | gave us eggs | laid wall to wall | laid both sides | laid the whole comb | laid up both sides | laid up solid | laid a full frame | laid a nice frame | laid right away | comb is laid | comb is laid up | comb is full of eggs | stuffed it with eggs | packed it with eggs
LAID.bare: lay | lays
MATED: mated | bred | open mated | mated and laying | mated up | back from mating | got mated | well mated | fertile | fertilized | mated out | successfully mated | mated queens | mated queen | came back | back from flights | flew and mated | inseminated
LAYER: layers | layer | egg layer | good layer | good layers
CATCH verb reg: harvest | collect | gather | nab | bank | snag
CATCH.done: caught | caught out | caught up | caught and caged | caught and marked | caught off | caught and banked | picked | picked up | picked out | picked off | boxed | boxed up | bagged | bagged up | caged | caged up | caged out | netted | snagged | scooped | scooped up | nabbed | grabbed | pulled and caged | bottled | rounded up | plucked | packed | packed up | packaged | trapped | in cages | put in cages | into cages | went in cages | went into cages | in the bank | into the bank | to the bank | on the bank | clipped | clipped and caged | marked and caged | found and caged | snatched | snared | cornered | captured | pulled from nucs | pulled out of nucs | pulled queens | pulled the queens | harvested out | cleaned out | collected up | corralled | lassoed | hand picked | tubed | put up | put up in cages | ready to ship in cages | catch is done | catching done | did the catch | catch done | done catching | finished catching | took off | pulled for orders | pulled to ship | hit the bank
CATCH.bare: catch | cage | grab | pick | box up | catches
CATCH.going: catching | caging | picking queens | boxing up | catching queens
BANK: bank | queen bank | banked | banking | the bank | bank frame | bank colony | banking frame | in the bank | banker | holding bank
RECELL verb reg: recell | re-cell | restock
RECELL.done: re celled | restocked with cells | put cells back in | put cells back | put a cell back | gave new cells | gave them new cells | gave them a new cell | gave another cell | gave fresh cells | gave a new cell | put fresh cells in | put new cells in | put a new cell in | put in new cells | put in fresh cells | celled again | celled | re-stocked | put another cell | put another cell in | second cells | second round of cells | second cell | new cells in | new cell in | fresh cells in | cells back in | replacement cells in | reloaded | reloaded with cells | re-loaded | replaced the cells | replaced cells | swapped in new cells | refilled with cells | back in with cells | round two of cells | 2nd round cells | 2nd cells | retried with cells | new round of cells | backfilled | back filled | put second round cells in | second round cells | second round in
RECELL.bare: re cell | put cells back | give new cells
RECELL.going: re celling | putting cells back | putting new cells in | giving new cells
CELLAGAIN: again | back in | once more | one more time | a second time | second time | round two | anew | second try | another round | another go | back into | over again
NEWCELL: new cells | new cell | fresh cells | fresh cell | replacement cells | replacement cell | replacements | another cell | second cells | new queen cells
FEED.done: fed | fed up | fed out | fed them | fed her | topped up | topped off | topped | juiced | juiced up | sugared | sugared up | syruped | syruped up | gave a drink | gave them a drink | gave syrup | gave them syrup | gave feed | gave sugar | gave food | got fed | been fed | were fed | got feed | got syrup | got food | got a jar | got a drink | put feed on | put on feed | put syrup on | put on syrup | put the feed on | feed on | feed is on | feed's on | syrup on | syrup's on | syrup is on | poured syrup | poured feed | dumped syrup | slopped | filled feeders | filled the feeders | topped the feeders | topped off the feeders | refilled feeders | refilled the feeders | feeders filled | feeders full | feeders are full | feeders topped | supplemented | patty on | patties on | put patties on | put a patty on | gave a patty | gave patties | boosted | watered | hooked up with syrup | fed round | fed off | feeding done | feeding's done | did the feeding | did feeding | nourished | on syrup | on feed | threw a patty on | threw patties on
FEED.bare: feed | feeds | top up | top off | give syrup | give feed
FEED.going: feeding | feeding out | topping off | topping up | giving syrup | filling feeders
SYRUP: syrup | some syrup | some honey | some sugar water | some feed | sugar syrup | sugar water | 1:1 | 2:1 | 3:2 | one to one | two to one | sugar | fondant | candy | candy board | pollen patty | pollen sub | pollen | sub | pollen substitute | feed | patty | patties | protein patty | pro patty | winter patty | food | a jar | jar of syrup | light syrup | thick syrup | thin syrup | heavy syrup | warm syrup | honey | hfcs | corn syrup | dry sugar | sugar block | sugar brick | sugar board | feed bag | protein | supplement | invert | inverted syrup | nectar sub | stimulative feed | sweet water | juice | some syrup | some sugar | some feed | some sugar water | some fondant | some food | some candy | some pollen | some pollen sub | a little syrup | a bit of syrup | plenty of syrup | lots of syrup | more syrup | more feed | a little feed | fresh syrup | a drink
GIVE.done: gave | given | poured | added | got | had | dumped | handed | slapped | threw | put on | dropped | topped | received | offered | served | supplied | fed | slapped on | threw on | provided | tossed on | dished out | doled out | we got | gave syrup | gave them syrup | gave feed | gave them | gave her | gave it | got given | tipped in | dribbled | laid on | plopped | plopped on | stuck on | chucked on | given out
GIVE.bare: give | add | pour | offer | gives
GIVE.going: giving | adding | pouring
FEEDER: feeder | feeders | jar | jars | bag | baggie | baggies | top feeder | top feeders | frame feeder | frame feeders | feed jar | feed jars | pail | pails | feed pail | feed bucket | bucket feeder | inverted jar | division board feeder | division board feeders | boardman | entrance feeder | tray feeder | feed can | feed cans | hive top feeder | hive top feeders | feeder jar | drip feeder | bottle feeder | mason jar
FILL.done: filled | refilled | topped off | topped up | topped | charged | filled up | refueled | replenished | loaded | recharged | brimmed | filled to the brim | topped them off | topped it off | topped them up | filled back up | refilled them | filled them | filled them up
FILL.bare: fill | refill | top off | top up | top
FILL.going: filling | refilling | topping off | topping up
FULL: full | topped up | full up | brim full | full to the brim | filled | topped off | chock full | wall to wall | packed | loaded
DRONE: drone | drones | drone brood | drone mothers | drone mother | drone yard | drone source | drone hives | drone colony | drone colonies
DRONECOMB: drone comb | drone combs | drone frame | drone frames | drone foundation | drone brood frame | green frame | green frames | green drone frame | green drone frames | drone cell frame | drone cell comb | drone combs in | drone comb in | drone comb's in | drone comb went in | drone frames in | drone frame in | put in drone comb | added drone comb | gave drone comb | drone comb is in | comb for drones | drone drawn comb | drone brood comb | drone sheet | drone plastic | drone brood
DEARTH: dearth | nectar dearth | dearth on | dearth's on | dearth is on | dearth started | dearth's started | dearth has started | dearth's here | dearth is here | dearth set in | dearth has set in | dearth hit | dearth kicked in | dearth began | dearth begun | in a dearth | we're in a dearth | in dearth | no nectar | no nectar coming in | no nectar coming | no nectar at all | nothing coming in | nothing is coming in | nothing's coming in | nothing coming in anymore | not a drop coming in | not a thing coming in | nothing in bloom | nothing blooming | nothing left blooming | nothing for them out there | no forage | no flow | no flow on | no flow anymore | no flow right now | flow's done | flow's over | flow is over | flow is done | flow's off | flow is off | flow stopped | flow's stopped | flow quit | flow ended | flow has ended | flow has stopped | flow dried up | flow shut off | flow shut down | flow's shut down | flow's finished | flow is finished | flow died | flow's dead | flow fizzled | flow's gone | flow cut off | flow crashed | flow is gone | end of the flow | end of flow | the end of the flow | nectar's shut off | nectar shut off | nectar dried up | nectar shut down | nectar's dried up | nectar stopped | nectar quit | nectar's done | nectar's over | nectar is over | honey flow's over | honey flow is over | honey flow over | dry spell | bees are starving for nectar | starving for nectar | dearthy | summer dearth | everything's dried up | everything dried up | bloom's over | bloom is over | bloom's done | bloom is done | bloom is finished | they're not bringing anything in | not bringing anything in | bringing in nothing | bringing nothing in | robbing weather
FLOW: flow | nectar flow | honey flow | flow on | flow's on | flow is on | flow started | flow's started | flow has started | flow's starting | flow is starting | flow began | flow has begun | flow's begun | flow here | flow is here | flow's here | flow kicked in | flow's kicked in | flow has kicked in | flow kicked off | flow's back | flow is back | flow hit | flow's hit | flow's under way | flow underway | flow is underway | in a flow | we're in a flow | strong flow | good flow | heavy flow | main flow | main flow's on | the flow | nectar's coming in | nectar is coming in | nectar coming in | nectar's flowing | nectar flowing | nectar is flowing | nectar's in | nectar started | fresh nectar coming in | fresh nectar | bringing in nectar | bringing nectar in | pulling in nectar | honey's coming in | honey is coming in | honey coming in | clover's on | clover is on | clover's blooming | bloom's on | bloom is on | bloom started | bloom's started | locust is on | locust's on | basswood's on | blackberry's on | tallow's on | tupelo's on | palmetto's on | sourwood's on | orange blossom's on | almond bloom | dearth over | dearth's over | dearth is over | dearth ended | dearth has ended | dearth is done | dearth's done | dearth broke | dearth has broken | dearth is finished | dearth's finished | end of the dearth | end of dearth | out of the dearth | no more dearth | dearth finally broke | nectar's pouring in | nectar pouring in | nectar is pouring in | nectar's rolling in | nectar rolling in | nectar dripping | shaking nectar | supers filling | clover flow | locust flow | basswood flow | blackberry flow | main nectar flow | fall flow | spring flow | goldenrod flow | good nectar coming in
NECTAR: nectar | fresh nectar | forage
EGGS: eggs | egg | eggs in | wall to wall eggs | full of eggs | laid up | eggs all over | eggs everywhere | eggs both sides | eggs on both sides | eggs seen | seen eggs | saw eggs | see eggs | got eggs | have eggs | has eggs | eggs present | eggs visible | eggs galore | eggs from wall to wall | eggs in every cell | eggs in there | fresh eggs | first eggs | plenty of eggs | lots of eggs | loads of eggs | eggs standing up | standing eggs | eggs in the comb | eggs in comb | eggs on the comb | tons of eggs | solid eggs | covered in eggs | covered with eggs | packed with eggs | beautiful eggs | we have eggs | we got eggs | there's eggs | there are eggs | egg laying started | with eggs | laying eggs | egg check | some eggs | a few eggs | several eggs | a bunch of eggs | many eggs | heaps of eggs | a lot of eggs | a ton of eggs | eggs for days | more eggs | loaded with eggs | stuffed with eggs | plastered with eggs | filled with eggs | loaded up with eggs | peppered with eggs
NOEGGS: no eggs | no egg | no eggs yet | no eggs in | no eggs in there | no eggs there | no eggs so far | no eggs at all | no eggs from | no eggs seen | zero eggs | zero egg | not a single egg | not one egg | not an egg | not any eggs | not an egg in sight | without eggs | without any eggs | still no eggs | no sign of eggs | no signs of eggs | not laid | not laid yet | hasn't laid | hasn't laid yet | has not laid | has not laid yet | haven't laid | didn't lay | hasn't started | hasn't started laying | hasn't started yet | not started | not started laying | not laying | not laying yet | isn't laying | isn't laying yet | is not laying | ain't laying | aint laying | nothing laid | nothing laid yet | no laying yet | nothing yet | still nothing | still not laying | didn't see eggs | didn't see any eggs | don't see eggs | don't see any eggs | couldn't find eggs | couldn't find any eggs | didn't find eggs | didn't find any eggs | saw no eggs | found no eggs | comb is empty | comb's empty | comb still empty | comb is still empty | refuses to lay | won't lay | yet to lay | has yet to lay | shut down laying | can't see any eggs | can't see eggs | cannot see eggs | can't find eggs | can't find any eggs | can't spot any eggs | couldn't see any eggs | couldn't spot any eggs | didn't spot any eggs | no eggs that i can see | nothing in there yet | nothing in the comb yet | nothing in the comb | nothing in her comb | nothing laid so far | zip for eggs | eggless
CELL: cells | cell | ripe cells | ripe cell | sealed cells | capped cells | capped cell | queencells | queencell | qcs | qc | q cells | queen cell | queen cells | cells of ours | finished cells | started cells | ten day cells | 10 day cells | cells in cages | good cells | the cells | all the cells | all our cells | every cell | cells are in the nucs | cells are in nucs | cells in the nucs | cells are in their nucs | cells are all in nucs | cells all in the nucs | cells all in nucs | cells are in
QUEEN: queens | queen | qs | girl | ladies | lady | mated queens | gals | her majesty | royalty | queenie | queen bees | queen bee | laying queens | every queen
COMB: comb | combs | frame | frames | brood comb | brood frame | drawn comb | dark comb | drawn frame | old comb | empty comb | egg frame | egg comb | laying comb | grafting comb | sheet | plastic frame | deep frame | comb frame | medium frame | put on comb | put her on comb | put her on a comb | empty drawn frame | empty drawn comb | empty brood comb | empty brood frame | fresh comb | fresh drawn comb | fresh frame | new comb | new frame | clean comb | clean frame | nice dark comb | nice comb | dark brood comb | dark frame | light comb | old dark comb | good comb | blank comb | single comb | single frame | empty frame | black comb
BEES: bees | girls | workers | nurse bees | nurses | young bees | attendants | the bees | the girls | the ladies | house bees | shook bees | some bees | some nurse bees | more bees | a few bees | extra bees
BEESIN: bees in | shook bees in | bees shaken in | with bees | shaken bees | bees shook in | shook in bees | plenty of bees | shook bees in with her | loads of bees in with her | bees shook | bees shaken | nurse bees in | shook nurse bees in | bees went in | bees are in | bees all in | with nurse bees | with attendants | lots of bees in | dumped bees in | cup of bees | scoop of bees | shook some bees in | shook in some bees | gave her bees | gave her plenty of bees | covered with bees | covered in bees | with loads of bees | with plenty of bees | bees on her | bees with her | shook her some bees | shook in nurses | plenty of nurse bees | lots of nurse bees | loads of nurse bees | plenty of young bees | a bunch of bees | bunch of nurse bees | plenty of workers | plenty of attendants | some nurse bees | two cups of bees | a cup of bees | couple scoops of bees | couple cups of bees
NOBEES: no bees | without bees | no bees in | no bees in there | no bees in yet | no attendants | bees not in | didn't shake bees | haven't shaken bees | bees still out | without attendants | bees aren't in
OUT: out | outside | away | out now | out already | out of there | off
OUTSIDE: outside | outdoors | out of doors
BACK: back | back home | back again | returned | back with
IN: in | inside | on | inside of | within | in there | in it | in her | into | they're in | it's in | they're all in | all in | all in there
UP: up
INCUBATOR: incubator | incubators | incubation | incubate | incubated | incubating | warmer | cell warmer | hot box | hotbox | warm box | in the incubator | into the incubator | cell incubator | brooder | portable incubator | travel incubator | thermos box | heated box | candler
NEW: new | fresh | replacement | replacements | newly | brand new
AGAIN: again | once more | one more time | anew
MORE: more | another | extra | additional | one more | some more | a few more | another batch of | added | as many again
SIDES: both sides | one side | side one | two sides | front and back | each side | either side | side | sides | faces

# --- trade: work that is not built yet
LOSE.done: died | dead | lost the batch | lost batch | batch is gone | batch is dead | lost her | lost a queen | she died | she's dead | is dead | found dead | dead in the hive | chilled | got chilled | cooked | got cooked | overheated | got too hot | got too cold | froze | perished | passed | croaked | kicked the bucket | bit the dust | keeled over | gave up the ghost | didn't make it | wiped out | total loss | a total loss | complete loss | losses | loss | lost | gone | dead in the cells | dead in cells | dead in the cell | dead in cell | expired | drowned | smothered | suffocated | starved | got robbed | poisoned | sprayed | pesticide | crushed by | lost to | deadouts | deadout | dead out | dead outs
VIRGINOUT: virgin out | virgin is out | virgin's out | virgin hatched | a virgin out | one virgin is out | virgin hatched early | hatched early | emerged early | out early | early hatch | early virgin | loose virgin | virgin loose | virgin running | virgin running around | one hatched early | one is out early | hatched in the finisher | hatched in the incubator | emerged in the builder | piping | hear piping | queen piping | heard piping | tooting | quacking | virgin hatched in the finisher | virgin hatched in the builder | virgin hatched in the starter | virgin hatched in the incubator | virgin out in the finisher | virgin out in the builder | virgin loose in the finisher | virgin loose in the builder | virgin is loose in the finisher | virgin in the finisher | virgin in the builder | virgin running in the finisher | virgin running in the builder | virgin emerged in the finisher | virgin emerged in the builder | virgin emerged | virgin emerged early | queen hatched in the finisher | queen hatched in the builder | queen hatched in the incubator | cell hatched in the finisher | cell hatched in the builder | cell hatched early | one hatched in the finisher | one hatched in the builder | one hatched in the incubator | hatched in the builder
LOSE.done: lost the batch | lost the whole batch | batch is dead | batch is lost | batch is gone | batch died | the batch died | batch failed | whole batch died | whole batch dead | the whole batch is dead | lost the round | lost all the cells
HARMLESS: can hear | i can hear | we can hear
ONEOUT: first one's out | first one out | one hatched already | one is out already | one already out | one already hatched
GONEWORD=died: died | has died | is dead | was dead | is found dead | was found dead | dead in the hive | passed away | has passed away | found dead | croaked | keeled over | is dead in her hive | dead this morning
GONEWORD: lost | is lost | is gone | has gone missing | went missing | is gone for good | got lost
RETIREWORD: retired | retire | is retired | replaced | is replaced | has been replaced | is out of service | out of service | out of production | taken out of production | decommissioned | we retired | got superseded | was superseded | has been superseded | superseded
ONEOUT: one is out | one's out | one out | one hatched | one emerged | one came out | one just hatched | one just emerged | one just came out | first one is out | there's one out | one has hatched | one has emerged
HARMLESS: oh my god | omg | oh no | oh no no | uh oh | oh dear no | ah no | no way | aw no
LOSE.done: has died | was dead | is found dead | was found dead | passed away | has passed away | is dead in her hive | is lost | has gone missing | went missing | got lost | is gone for good | is gone
HARMLESS: from the incubator | out of the incubator | from incubator | out of incubator | from the warmer | off the incubator
VIRGINOUT: a virgin is out | virgins running | virgins running around | virgins loose | loose virgins | a queen hatched early | the first virgin is out | first virgin is out | first virgin out | queens hatching early
QUEENLESS: queenless | queen less | no queen | no queens | without a queen | without queen | queen gone | queen is gone | queen's gone | lost their queen | lost its queen | lost the queen | made queenless | pulled the queen | took the queen out | removed the queen | dequeened | de-queened | queen removed | queen out | orphaned | hopelessly queenless | no sign of a queen | can't find the queen | couldn't find the queen | couldn't find a queen
BROOD: brood | brood frame | brood frames | open brood | capped brood | sealed brood | frames of brood | frame of brood | added brood | gave brood | brood comb | brood box | brood nest | spotty brood | shotgun brood | brood pattern | emerging brood
ABSCOND.done: absconded | absconding | left the nuc | bees left | flew the coop | took off on us | nobody home
ROBBED.done: robbed | robbed out | getting robbed | being robbed | robbing | robbers | robber bees | got robbed | got robbed out | under robbing | robbed dry
LAYINGWORKER: laying worker | laying workers | worker layers | multiple eggs | multiple eggs per cell | multiple eggs in cells | lw | lws | laying-worker
DRONELAYER: drone layer | drone layers | drone laying | drone laying queen | drone laying queens | laying drones | dl | dlq | all drones | nothing but drone brood | only drones | only drone brood | unmated | never mated | not mated | didn't mate | poorly mated | shooting blanks
COMBINE.done: combined | united | merged | newspapered | newspaper combine | joined together | doubled up | consolidated
RETIRE.done: retired | retire | retiring | replaced | superseded | requeened | re-queened | took her out of service | out of service | sold off | pinched her | culled her | done with her | taken out of production | out of production | decommissioned | shut down for good | closed the yard | given up | gave up the yard
RENAME: rename | renamed | renaming | call it | new name | name it | is now called | now called | goes by | new number | renumber | renumbered
MARKQ.done: marked | marking | mark | marked and clipped | clipped | clipped and marked | painted | tagged | numbered | dotted | put a dot on | dabbed | put numbers on | wing clipped
SELL.done: sold | sell | selling | sells | sale | shipped | ship | shipping | mailed | mail | overnighted | invoiced | paid for | bought | buyer | customer | customers | picked up by the customer | went to a customer
HAND.done: handed over | handed off | handed out | picked up | picked up by | delivered to | collected by | pickup | pick up | pick-up | hand over | hand off | dropped off with | hand delivered
INTRODUCE.done: introduced | introducing | introduce | requeened with | put a queen in | put queens in | installed queens | installed the queens | installed a queen | gave them a queen | gave a queen | direct released | direct release | candy released | hung the cage | hung cages | requeened
ASSIGN: assign | assigned | assigned to | give it to | give this to | hand it to | put him on | put her on it | take over for | takes over | is doing it | does it | will do it | is on it | goes to | belongs to
AWAY: away | off today | off tomorrow | day off | days off | on vacation | vacation | holiday | on holiday | out of town | out sick | sick | sick day | not in | not working | off work | called in sick | won't be in | gone till | gone until | back monday | on leave | unavailable
REMIND: remind us | remind me to | remind everyone | reminder | set a reminder | don't let me forget | remind the crew | remind them
FLIGHTS: flights | mating flights | mating flight | flying | orientation flights | nuptial flight
HANDSOFF: hands off | hands-off | handsoff | leave them alone | leave alone | leave the cells alone | don't touch | do not touch | don't open | do not open | keep off | stay out
REASON: because | since | due to | on account of | reason is | that's why | cause of | thanks to
TEMP: temperature | temp | temps | degrees | running hot | running cold | too hot | too cold | overheating | cooling down | warming up | thermostat | thermometer | reads | set at | holding at | spiked | spiked to | dropped to | climbed to | humidity | rh | wet bulb | heater
POWER: power | power out | power's out | power is out | power was out | power outage | outage | lost power | power went out | power cut | no power | blackout | brownout | generator | breaker tripped | tripped breaker | tripped | electricity | unplugged | came unplugged | power back | power is back | power's back on
DISEASE: foulbrood | foul brood | afb | efb | chalkbrood | chalk brood | sacbrood | nosema | mites | varroa | mite count | mite load | mite wash | sick brood | ropy | ropes | rope test | sunken caps | smells bad | foul smell | scale | beetles | hive beetles | shb | small hive beetle | wax moth | wax moths | dwv | deformed wings | treated | treating | treatment | oxalic | formic | oa | inspector
SWARM.done: swarm | swarms | swarmed | swarming | hived a swarm | caught a swarm | caught swarm | caught one swarm | picked up a swarm | collected a swarm | boxed a swarm | got a swarm | swarm catch | shook a swarm
RESTING: resting | laid off | fallow | out of rotation

# --- says nothing that matters in a report
HARMLESS: the | a | an | and | i | we | she | he | they | it | them | me | us | him | her | his | hers | my | our | ours | their | theirs | it's | that's | this | that | these | those | i'm | we're | they're | she's | he's | there's | here's | i've | we've | they've | you | your | y'all | ourselves | myself | himself | herself | themselves | itself | is | was | are | were | am | be | been | being | has | have | had | having | do | does | did | got | get | gets | getting | gotten | just | now | so | so far | also | then | there | here | in there | up there | down there | out there | out here | over there | over here | on | at | up | down | off | as | with | by | by now | for | to | of | in | into | onto | out | ones | one's | right | well | very | really | pretty | quite | super | so very | too | way | real | at last | already | finally | as of now | as such | which | where they | of the year | of the season | this season | this year | so far this year | so far this season | best of the season | best of the year | first of the season | first of the year | year so far | season so far | this round | out of the way | she is | nicest | delicious | cracking | whoop | grr | gutted | what a bust | oh dear | dear me | eek | ache | aches | aching | arms | blessed | amen | hallelujah | buzzing | humming | purring | roaring | chuffed | clouds | cranky | feisty | grumpy | ornery | angry | mad | enjoyed | famished | grinning | smiling | half-asleep | hectic | chaos | hurt | hurts | knackered | knees | knee | legs | neck | wrists | elbow | shoulders | back is killing me | eyes | hands | fingers | feet | lighter load | loved it | loved | messy | mud | muddy boots | crazy | pain | peach | peaches | pearls | shattered | singing | sleepy | stiff | sunburned | sunburnt | tears | sweat | tricky | fiddly | like sausages | bumps | bump | ride | the ride | smooth ride | drive | good drive | walk | nap | my nose | on the nose | my face | shed | welcome | champions | damnit | righto | let's gooo | not shabby | yardbell | glorious | whoa | yippee | proud of | well pleased | tired but happy | full stop | for sure | for certain | running | patterns | corner | bottom | top | edge | middle | walking around | running around | walking | before the rain | before the heat | before it got hot | before the storm | before it rained | after the rain | after the storm | after the heat | while i was at it | while we were at it | while at it | while there | while i was there | while we were there | otherwise good | otherwise fine | otherwise all good | one in each nuc | one cell per nuc | one for each nuc | one in each | one cell each | a cell per nuc | a cell in each nuc | a cell each | one to each nuc | one apiece | better than last time | looking better | looks better | better now | if i say so myself | if i do say so myself | as well as could be | could be worse | as can be | happy as can be | can't wait | cannot complain | won't complain | needless to say | go figure | what can i say | don't worry | not to worry | no need to worry | end | bench | door | trap door | nest | live | maam | for shipment | for shipping | for orders | for the order | for customers | for sale | for the shipment | for pickup | to ship | grafting bench | on top | on her | jelly | off to lunch | going for lunch | heading for lunch | breaking for lunch | stopping for lunch | lunch break | coffee break | time for a coffee | grabbing lunch | wife helped | my wife helped | the wife helped | kids helped | the kids helped | my son helped | my dad helped | dropped my phone | lost my hat | lost my phone | my phone died | in the dirt | full moon | blue sky
HARMLESS: good | nice | nicely | great | beautiful | beautifully | lovely | perfect | perfectly | awesome | amazing | excellent | fantastic | gorgeous | brilliant | wonderful | fine | sweet | cool | happy | healthy | tidy | textbook | decent | pleased | proud | smooth | smoothly | easy | calm | gentle | quiet | quick | quickly | fat | fatter | big | huge | massive | plump | juicy | chunky | solid | strong | stout | ripe | mature | pretty ones | good ones | nice ones | big ones | fat ones | good lookers | lookers | looker | whoppers | monsters | stunners | beauties | beauty | jewels | gems | peanuts | peanut shaped | well built | well formed | well shaped | well fed | textured | clean looking | good looking | nice looking | great looking | best | better than ever | best ever | superb | stellar | outstanding work | stoked | delighted | thrilled | glad | relieved | excited | champion | champ | legend | legends | rockstars | rock stars | sharp looking | dandy | peachy | swell | splendid | impressive | good stuff | love it | love to see it | loving it | love these | love this
HARMLESS: looking | looks | look | looked | feeling | feel | feels | felt | going good | going well | went well | went great | went good | went fine | went smooth | went smoothly | went off without a hitch | without a hitch | no hitch | no problem | no problems | no issues | no trouble | no drama | no worries | no complaints | no stings | no rush | no hurry | no big deal | no sweat | not bad | not bad at all | not too bad | not too shabby | not half bad | can't complain | couldn't be better | couldn't be happier | couldn't ask for better | couldn't ask for more | all good | all is well | all's well | all well | all in order | all quiet | all in one piece | so far so good | safe and sound | nice and warm | nice and early | nice and easy | nice and fat | nice and clean | nice and calm | nice and plump | nice and gentle | nice and quiet | all nice and fat | easy peasy | like clockwork | like a charm | piece of cake | like butter | as planned | right on time | on time | on schedule | right on schedule | right on cue | as usual | as always | as discussed | as agreed | as you said | like you said | like we said | like we talked about | as expected | as promised | by the book | per plan | per the plan | according to plan | looking good | looking great | looking fine | looking nice | looks good | looks great | looks nice | looks awesome | look good | look great | look nice | look awesome | they look good | they look great | they're good | they're great | they're beautiful | it looks good | smells great | smells good | what a day | what a morning | what a beauty | what a relief | what a sight | good day | good times | good job | good job all | good job everyone | good work | good work everyone | great job | great job everyone | great work | nice job | nice work | well done | well done all | go team | best batch yet | best yet | best one yet | best so far | new record | a record | personal best | not a bad start | happy days | thank god | thank goodness | thank the lord | god bless | bless her heart | lucky us | about time | long time coming | job well done | happy to say | i'm happy to say | happy to report | glad to report | pleased to report | proud to report | good news | great news | one per cell | one per nuc | one to a nuc | one each
HARMLESS: hot | cold | windy | sunny | warm | chilly | muddy | humid | foggy | cloudy | overcast | breezy | rainy | rain | raining | rained | stormy | storm | thunder | lightning | drizzle | drizzling | misty | muggy | sticky | sweltering | scorching | boiling | roasting | baking | freezing | melting | wet | damp | dry day | sun's out | the sun's out | sun is out | in the sun | hot sun | the sun | sunshine | sunrise | weather | breeze | heat | frost | hot day | cold day | long day | hot one | hot out | hot out here | hot today | hot out there | cold out | cold out here | cold today | wet out here | hot as hell | hot as blazes | it's hot | hot and sticky | so hot | too hot for me | in the heat | in this heat | in the rain | in the wind | wind | winds
HARMLESS: whew | phew | wow | woohoo | woo hoo | woo | wahoo | yay | hooray | hurray | yeehaw | yesss | woot | haha | hahaha | ha | hah | lol | lmao | hehe | booyah | bingo | boom | bam | oh | ah | oh boy | oh man | eh | um | uh | uhm | erm | hmm | man | boy | dude | damn | dammit | damn it | dang | dang it | darn | darn it | ugh | argh | sheesh | gosh | gee | geez | jeez | golly | holy moly | holy cow | holy smokes | my goodness | oh well | ouch | ow | sigh | heck | heck yeah | hell yeah | thanks | thank you | ty | tysm | cheers | thanks all | thanks guys | thanks team | thanks bot | thanks for the help | please and thanks | thanks in advance | hi | hey | hello | howdy | yo | hiya | hi all | hey all | hey guys | hey team | hi team | hey everyone | hi everyone | hi folks | hey folks | hey crew | hi crew | hey there | hey y'all | morning all | good morning | good morning all | morning everyone | morning team | morning folks | morning crew | good afternoon | good evening | evening all | all right | alright | okay | ok | ok so | ok team | ok guys | ok folks | ok all | right so | alright so | well then | anyway | anyhow | btw | by the way | fyi | just fyi | fwiw | for what it's worth | for the record | for the log | for the logbook | for the book | for your records | for my records | note to the log | just so you know | so you know | so y'all know | heads up | quick update | update | quick note | quick one | small update | little update | quick report | report | reporting | reporting in | results | result | news | info | note | log this | log it please | please log | please log it | please log that | pls log | please note | please record | please write down | write down | jot down | just wanted to say | just wanted to report | just letting you know | just to let you know | letting you know | to let you know | let you know | let everyone know | happy bees | calm bees | bees were calm | bees are calm | bees are happy | bees were happy | bees were grumpy | bees are grumpy | grumpy bees | bees were angry | got stung | got stung twice | got stung again | stung twice | no robbing | end of report | that's it | that's all | that is all | that's it for today | that's all for today | that's all from me | that's it from me | that's all i got | over and out | boss | guys | folks | everybody | team | crew | gang | people | mate | bud | buddy | bro | bot | chief | fellas | ladies | gentlemen | ladies and gents | sir | ma'am | friends | my friends | my friend
HARMLESS: together | carefully | slowly | slow | gently | easily | evenly | safely | safe | properly | correctly | personally | solo | by myself | by ourselves | on my own | all by myself | with help | with a helper | with some help | with the crew | with the team | with the guys | with my wife | with my husband | with my son | with my daughter | with my dad | with my mom | with the smoker | with smoke | with a little smoke | without smoke | no smoke | no veil | no gloves | in gloves | with gloves | smoker | smoke | veil | suit | gloves | hive tool | chinese tool | chinese grafting tool | grafting tool | grafting needle | with the needle | with the grafting tool | with the chinese tool | german tool | with the punch tool | headlamp | magnifier | glasses | with my glasses | under the lamp | lamp | light | dark | damp towel | wet towel | towel | cooler | styrofoam | foam | protector | protectors | cell protector | cell protectors | with protectors | in protectors | with cell protectors | hair rollers | roller cages | spare | jig | stand | stands | lid | lids | in the shade | at the bench | on the tailgate | took a while | took ages | took forever | took all morning | took all day | took some time | that took a while | slow going | slow work | hard work | that was hard work | tough one | that was quick | that was fast | that was easy | busy | busy day | busy morning | tired | beat | exhausted | sweaty | sweating | soaked | drenched | dirty | dusty | filthy | sore | sore back | my back hurts | back hurts | hungry | thirsty | starving | hangry | bushed | pooped | wiped | running late | stuck in traffic | heading home | heading back | heading home now | heading back now | headed home | on my way home | on my way back | home now | going home | going home now | coming home | packing up | packing up now | off home | back to the truck | lunch now | lunch time | lunchtime | coffee time | coffee now | beer time | time for coffee | time for lunch | time for a beer | break time | leaving now | heading out | heading out now | on the road | on to the next | onto the next | moving on | finally done | finished up here | done here | all done here | done for the day | done for today | fun morning | bees | bee | brood pattern | pattern | royal jelly | full bars | full of jelly | sting | stings | stung | work | working hard | job | stuff | things | thing | day off to a good start
HARMLESS: total | in total | altogether | all told | in all | all in all | count | counting | tally | final | final count | official | for a total of | total of | makes | that makes | that makes it | gives us | which makes | leaves | leaving | today's | this time | this time around | this go round | this go | forgot to write | forgot to say | forgot to log | forgot to log it | forgot to tell | forgot to tell you | forgot to write it | forgot to write it down | forgot to type | forgot to mention | i forgot to write | i forgot to say | i forgot to log it | i forgot to mention | never seen that | never seen that before | never seen this before | never seen anything like it | never had that before | not one dropped | not one lost | not one dented | not a one dropped | not a single one lost | not a single one dropped | none dropped | none dented | none lost | no losses | zero losses | no casualties | zero issues | fair enough | as they say | come to think of it | long story short | in short | basically | overall | generally speaking | no surprise there | of course | naturally | obviously | honestly | frankly | literally | again thanks
HARMLESS: black locust | locust | clover | white clover | linden | basswood | acacia | goldenrod | sumac | tulip poplar | blackberry | fireweed | sourwood | buckwheat | dandelion | dandelions | willow | maple | canola | orange blossom | alfalfa | sunflower | cotton | tallow | palmetto | mesquite | star thistle | sage | manzanita | blooming | in bloom | blossom | everywhere

# --- other life: a soft hint that a number is not the crew's
FOREIGN: boxes | box | supers | super | deeps | mediums | pallets | pallet | trailers | truckload | truckloads | semi | semis | loads | dollars | bucks | cents | usd | money | cash | price | prices | bill | bills | invoice | paycheck | tax | taxes | deposit | supplier | store | shop | movie | movies | song | songs | episode | episodes | game | games | score | points | fish | trout | bass | salmon | crab | crabs | chickens | chicken | hens | hen | eggs for breakfast | dozen eggs | rooster | goats | goat | cows | cow | pigs | pig | sheep | horse | horses | dog | dogs | cat | cats | kid | kids | boys | grandkids | people | customers | visitors | guests | miles | mile | mi | km | kilometers | mph | feet | ft | inches | inch | yards of | acre | acres | gas | diesel | oil | tires | tire | car | cars | truck | trucks | pickup | tractor | mower | forklift | skid steer | beer | beers | tacos | burritos | burrito | sandwich | sandwiches | pizza | pizzas | burgers | burger | steaks | ribs | donuts | doughnuts | cookies | cake | eggs and bacon | coffees | phone | phones | calls | texts | emails | email | photos | pics | pictures | pic | videos | video | instagram | facebook | chairs | chair | tables | table | tickets | ticket | jeans | shirts | veils | buckets | bucket | bags | fence | posts | gate | tile | tiles | boards | lumber | nails | screws | bricks | bales | stones | trees | tree | flowers | plants | tomatoes | ants | ant | wasps | wasp | hornets | yellowjackets | mice | mouse | skunk | skunks | bear | bears | bear cub | snake | snakes | deer | ticks | mosquitoes | rain gauge | radio | floor | bed | beds | fever | bday | birthday | wedding | church | school | crates | crate | lids | ladders | tarps | tools | swarm | swarms | guys | men | women | workers comp | feet of | costco | walmart | ebay | amazon | north dakota | california | almonds | lunch | breakfast | dinner | coffee | tea | bbq | barbecue | steak | whiskey | sausages | drumsticks | trailer | house | barn | grass | field | lake | hat | boots | pants | mom | mum | dad | wife | husband | grandma | spider | spiders | flies | pics of | picture of | pictures of | photos of | photo of | wind is | winds are | wind at | winds at | gusts | mph winds | frames of honey | frame of honey | boxes of honey | supers of honey | pounds of honey | frames of bees | frame of bees | frames of foundation | sheets of foundation | foundation | cups arrived | new cups | grafting tools | bottoms | bumblebee | bumblebees | turkey | turkeys | coyotes | raccoon | possum

# --- commands: words and senses that commands.txt alone goes by
command BOTNAME: bot
command POLITE: please | thanks | thank you | can you | could you | can you please | could you please | can you tell me | could you tell me | tell me | now | hey | ok
command ASKLEAD: our | my | the | what are our | what are the | can i see | i want to see | send me | send
command SETTINGHEAD: set
command SETTINGSWORD: set | settings | the settings
command CHANGEWORD: change
command SETTO: to | at | is | ping | pings | reminder | hour | hours | list
command ISWORD: is | are | was | were | reads | be | now | set | temp | temperature
command MYLANGUAGE: my language | my lang
command STEPWORD: step
command TILLWORD: to | till | until | through
command NIGHT: at night
command ADDHEAD: add
command ADDNEW: new | another
command CALLED: called | named | number
command HIVEWORD: hive
command FORWORD: for | by | until | till | before | on | so | to
command ORDERHEAD: order
command ORDERS: orders
command OPENWORD: open
command PLANHEAD: plan
command ORDERKIND: mated | laying | ripe | capped | more | queen
command WANTWORD: wants | want | needs | need | ordered | asked for | would like
command CANCELWORD: cancel | call off | drop
command YIELDHEAD: yields
command BYWORD: by | per | for each
command PERSONWORD: grafter | grafters | person | people
command WEEKWORD: week | weeks
command CAPACITY: capacity | free nucs | which nucs are free
command WHATIFWORD: what if | what happens if
command WHOPLAN: we | i | the | will | perhaps | you | they | he | she
command LATERWORD: later | after
command SOONERWORD: earlier | sooner | before
command FITWORD: fit | when to confine | when should i confine | when should we confine | when do i confine | when do we confine | when confine
command DUELEAD: what's | what is | what are | show me what's | is anything | anything | what | which jobs are | which tasks are | which jobs | what jobs are
command DUEASK: due | todo | to do | what's open | what is open | what do we have | what do we have to do | what's left | what's left to do | what's on | what needs doing
command DUEHEAD: due
command SHOWTAIL: doing | going | status | now | up to
command SHOWLEAD: where are we with | what's next for | how are things with | where is | tell me about | status
command WHYASK: why
command HOWLONG: how long have we got | how long do we have | how long do i have | how much time do we have | how much time have we got
command WHENASK: when's | how late can we | how late can i
command WHENSMALL: do | does | can | should | will | must | we | i | they | to | have | be | next | window | open | close | closes | need | due | it | them | again
command TASK=finish: finish
command WHYSMALL: though | tho | now | then | so | early | late | soon | today | that | this | the | rush | hurry | exactly | again | is | it | are | they | there | much | long | time | hour | come
command HELPASK: help | commands | show commands | start
command HELPHEAD: help | how do i log | how do i report
command HELPWITH: with | on | a | an | the | about
command HELPTOPIC: me | due | undo | set | setting | settings | add | done | skip | later | mine | why | week | batch | breeder | builder | yard | fix | not | comb | log
command LOGASK: log | the log | recent | show log | show the log
command SEASONWORD: season | the season | year | this year
command WEEKPICTURE: picture
command MYWORD: my | our | the | me
command SHEETWORD: csv | spreadsheet | sheet
command CALENDARHEAD: calendar
command CALENDARPART=link: link
command CALENDARPART=file: file
command CALENDARPART=new: new
command PHOTOSWORD: photos
command MAKEHIM: make
command LEADNOUN: lead | the lead | leader
command LEADVERB: lead
command REMOVEHIM: remove | take off
command FORGETHIM: forget
command WEEKDAY=1: mondays
command WEEKDAY=7: sundays

# --- grammar of entities.txt: words that its patterns go by
BUILDERS: builders | cell builders | starters | starter hives | cell builder colonies | starter colonies
FROMOF: of
HEDGENUM: some time
LETTER=b: bee | be | b
OFTHEM: of them | of em | of those | of these | of it
ONDAY: on
OR: or
ORD=1: first | 1st
ORD=2: second | 2nd
ORD=3: third | 3rd
ORD=4: fourth | 4th
OUTOF: out of | outta | outof | out of the
ROUNDWORD: round | rounds
THEF: number
TO: to | through
WHOLE: whole | entire
HAVE: have | has | got | had
HIVE: hive | hives | colony | colonies
HONEY: honey | comb honey | some honey
HABIT: every time | normally | typically | used to | usually | always
LET.done: let | turned | set
THEN: so
NONETOOK: none took | zero takes | nothing took | zero took | not one took | no takes
INSTEAD: instead of | rather than
PARTWORD: morning | afternoon | evening | night | mornings
PLACE=north: north
PLACE=south: south
PLACE=east: east
PLACE=west: west
PLACE=creek: creek
PLACE=hill: hill
PLACE=river: river
PLACE=home: home
ending ing: in
KILL.done: smashed | smashed em | tore | tore down | tore them down | tore em down
DEADWORD: flew off | flew away | flew | got away | escaped
ALL: every one of them | every single one of them | every one of em
PLEASE: please | pls | plz
HEARSAY: gotcha | psych | jk | kidding | just kidding
same night: nite
TILL: until | til
MOVE.done: split | split em | split them up
HARMLESS: before dinner | before lunch | before breakfast | before dark | before the rain | to be sure | counted twice | can you believe it | hive | hives | colony | colonies | row | rows | edge | jelly | good luck | walked | bless their hearts | the whole time | twice
CLAIM: i'm taking | i am taking | i'll take care of | taking them myself

# --- words of an answer that people do not say to each other: they count without a reply
ALONE: done | all done | finished | all finished | done and done | later | snooze | remind me | remind me again | remind me later | remind us | remind me in | remind us again | bug me again | ping me again | skip | skip it | skip this | skip that | skip this one | skip that one
# Said to somebody of the crew.
YOU: you | you guys | you two | you all | you both
# What follows was said amiss.
NOTIS: wasn't | weren't | isn't | it wasn't | it isn't | that wasn't | was not | were not | is not
FINISH.done: in finisher | in fin | already in finisher | now in finisher
FLOW: flow has started | the flow has started | flow has begun | flow is starting | flow's begun
KILL.done: cut both out | cut them both out | both cut out | cut both down | both squashed | both gone | squished em | squashed em | squished it | squashed it | squished them | squashed them

# --- an order in plain words: what customers do, and what is asked of the bot
WANTS: put down | put me down | put in an order | put in for | write down | pencil in | set aside | book in | order for | an order | new order | take down | note down | jot down | i want to order | we want to order
