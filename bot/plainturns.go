package bot

// More turns, for what is told in whole sentences. They are of the same kind as those
// of plainwords.go, and are tried together with them.

// openTurns are openings that say nothing, whatever follows.
var openTurns = sayings(`
	^ well|right|ok|okay|alright|so|hey|hi folks|all|guys|everyone|everybody|team|crew|gang , the|i|we|my|our|just => =5
	^ i'm|im|am|i sorry|glad|happy|pleased|proud|delighted|sad to say|report|tell|announce you|all|that|y'all? , =>
	^ sorry|glad|happy|pleased|proud|sad to say|report|announce that? , =>
	^ ok|okay|right|well? so? that|this|it|man took forever|ages|a|all|some|hours|long|the while|morning|day|time|afternoon? , but|and => =7
	^ ok|okay|right|alright so|then now|today? =>
	^ just letting|to you|let|everyone|y'all know|you? know? that|all? , =>
	^ just wanted to? say|report that|, =>
	^ to let you|everyone know , =>
	^ for the log|logbook|record|records|book , =>
	^ so i|we => =3
	^ um|uh|uhm|erm =>
	^ reporting in|from|live => 
	^ can|could|would you|u|someone|yardbell please|pls? log|note|put|record down|that? that? , =>
	^ please|pls log|note|record down|that? that? , =>
	^ log|note|record that|this|: , =>
	^ ok|okay|hey phone , please|pls? log|note|record|write? , =>
	^ good|great news everybody|everyone|all|guys|folks|team , =>
	^ ok|okay|alright? i|we|i'm|we're are|am? finished|done here , =>
	^ i|we|i've|we've? just? finished|done|did the|my|our round|rounds , =>
	^ can|could|would you|u please? tell|show me what|when|why => =7
	and but =>
	but and => and
`)

// moreTurns are tried with turns.
const moreTurns = `
	shut|closed|locked|put|placed|set|stuck|got|popped|penned breeder|queen|mother # up|in|away? in|on|onto|into|to? the|a|her|its|one nice|fresh|dark|empty|drawn|clean|new|brood|old|single? drawn|dark|empty|brood? comb|frame => confined breeder =3
	shut|locked|penned up|in? breeder|queen|mother # in|up|away? => confined breeder =4
	number # has|is|got => breeder =2 =3
	shook|shaken|dumped|tipped in a|some|two? cup|cups|couple|scoop|pound|frame|load of? cups|frames|scoops? of? bees => bees in
	the lot at|in Y => =3 =4
	shut|locked|penned # in|up , => confined breeder =2,
	got|have her|the? confined|shut|caged in|up? , number|no|breeder|queen # that? is|'s? => confined breeder =7
	confined|caged|released|uncaged|confine|release number|no|nr # => =1 breeder =3
	eggs|egg in|on|from number|no|nr # => =1 =2 breeder =4
	grafted from number|no|nr # => =1 =2 breeder =4
	from number|no|nr # in|into|to B => from breeder =3 =4 =5
	fed number|no|nr # => =1 breeder =3
	off|from the # => from =3
	of the # in|into|to B => from =3 in =5
	, they're|they|all are|is|went|now? all|now|both? in|into B now|already? => in =6
	and|all they're|they're|it's in|into B now|already? => in =4
	to|in|on|onto|into|with one|1|single|just comb|frame => on comb
	to|on one|a|1 single comb|frame => on comb
	gave|given|with her|them? loads|lots|plenty|heaps|bunch|tons of bees => bees in
	gave|given her a? some|few|good|extra shake|bunch|lot|load? of? bees => bees in
	plenty|loads|lots|heaps|tons of bees on|with|in|around her|there|it => bees in
	plenty|loads|lots|heaps|tons of bees in? => bees in
	lovely|nice|good|big|great|fine|small|solid|little|fat|beautiful|decent patch|patches|spread|ring|circle|pattern|frame|comb|slab of eggs on|in|over? both|each|either|all|the? sides|side|faces|face|comb|over? => eggs seen
	full|covered|packed|loaded of|in|with eggs => eggs seen
	loads|heaps|tons|masses of eggs => eggs
	eggs on|in both|either sides|side|faces|face => eggs
	eggs all over|across the|her|it? comb|place|frame? => eggs
	eggs everywhere|galore|aplenty|wall-to-wall => eggs
	eggs from? wall to wall => eggs
	eggs in every|most|all cell|cells => eggs
	has|have|had been? laid|laying yet? , there|she|i? are|is|has|have|saw|see? no eggs|egg => no eggs
	has|have|had|is not laid|laying yet , there|i? are|saw|see? no eggs => has no eggs yet
	hasn't|hasnt|isn't|isnt|not laid|laying yet , no eggs => no eggs yet
	that|as these|i|we old? eyes? can see|find|tell|spot =>
	put|putted|placed|set|popped|dropped|hung a|the|some|our|fresh|new? drone|drones comb|combs|frame|frames in? at|in|into|to Y => drone comb in at =7
	drone|drones comb|combs|frame|frames? went|is|are|has|have|goes|got|put been|gone|put|placed|popped|now? in now|at|on|to|for|in? Y => drone comb in at =7
	drone|drones comb|combs|frame|frames went|is|are|has|goes gone|now|been? in|put|placed in? $ => drone comb in
	the|our? dearth has|is|just? set|started|begun|kicked in|up? at|in Y => dearth at =7
	^ dearth , nothing|none coming in => dearth
	went|gone|been|worked|looked|searched|dug|combed through|over every|each|all|the whole|last|single|of? frame|frames|comb|combs of|in|at? B => checked =7
	checked|searched|inspected every|each|all|the whole|last|single|of? frame|frames|comb|combs of|in|at? B => checked =6
	checked|searched|inspected all|the|whole|every of|bit|inch? of? B => checked =5
	checked|searched|inspected B frame|comb|top|end|side|corner by|to frame|comb|bottom|end|side|corner => checked =2
	went|gone|been|looked over|through B top|end|side|front to bottom|end|side|back , and? found? nothing|none|clear|clean found|there|at|in? all|there|it? => =3 clear
	safe|all and sound =>
	found|saw|spotted|got rogue|wild|stray cell => found 1 rogue
	found|saw|spotted|got rogue|wild|stray cells => found rogue cells unsure
	found|saw|spotted|got rogues => found rogues unsure
	done|finished , and|& # too|to $ => done, =4 unsure
	laying beautifully|nicely => laying
	checked|searched B top|end|side|front to bottom|end|side|back , and? found? nothing|none|clear|clean found|there|at|in? all|there|it? => =2 clear
	every|each|all single|the? frame|frames|comb of|in B checked|searched|inspected => checked =5
	B frame|comb|top|end|side|corner by|to frame|comb|bottom|end|side|corner => =1
	checked|searched B for rogues|rogue|wild|strays cell|cells? at|@ # am|pm|o'clock? this|today? morning|afternoon|evening? , all|found|it's? clear|clean|none|nothing => =2 clear at =7 =8
	checked|searched B at|@ # am|pm|o'clock? this|today? morning|afternoon|evening? , all|found|it's? clear|clean|none|nothing => =2 clear at =4 =5
	for rogues|rogue|wild|strays cell|cells? at => at
	# capped|sealed|accepted in|and|&? B is|was|all|looks? clear|clean => =1 =2, =4 clear
	# capped|sealed|accepted|emerged|moved|laying fed X => =1 =2, =3 =4
	caught # recelled # => =1 =2, =3 =4
	had|took|having a|another? quick|good|proper|little? look|peek|check|peep|gander at|@ # , # accepted|capped|emerged|hatched|laying => checked at =6, =8 =9
	had|took|having a|another? quick|good|proper|little? look|peek|check|peep|gander at # , no eggs|egg yet|there? => no eggs in breeder =6
	had|took|having a|another? quick|good|proper|little? look|peek|check|peep|gander at|in|into|on # , eggs everywhere|seen|there? => eggs in breeder =6
	had|took|having a|another? quick|good|proper|little? look|peek|check|peep|gander , => checked
	, and|the|but? the? rest|others|remainder|other were|are|got|is|was|all|have|been? all|been? chewed|torn|cut|duds|empty|rejected|broken|flat|dry|down|cleaned|polished|ignored|abandoned down|out|off|up|open? $ =>
	, and|but? the? rest|others|remainder are|were|got|is|was|all? all? chewed|torn|duds|empty|rejected|broken|flat|dry|ignored|abandoned down|out|off|up|open? , =>
	none|zero|nothing took|accepted|emerged|capped , zero|zip|nada|nothing|none|nil $ => none =2
	every|each single|last? last|one|single of? them|em|'em|the? virgins|cells|queens? has|have|are|is|was|were|got? accepted|capped|sealed|emerged|hatched|laying|moved => all =8
	, every|each single|last? one|cell accepted|capped|emerged|hatched|laying => , all =5
	all out , every|each last|single? one emerged|hatched => all emerged
	all the|of|our? cells|virgins|queens|bars|larvae|them|lot? have|has|are|is|got|been|were? accepted|capped|sealed|emerged|hatched|laying => all =5
	all of em|'em|them|those $ => all
	the|that whole|entire lot|batch|bar accepted|capped|emerged|hatched|laying => all =4
	i|we? haven't|havent|didn't|didnt|not moved|put|got|taken them|the|any|cells cells? to|in|into|over the? finisher yet? $ =>
	i|we? haven't|havent|didn't|didnt|not fed|moved|caught|counted|recelled|checked anything|any|them|those|it yet $ =>
	i|we haven't|havent|didn't|didnt|not done|checked|looked|searched|started|got|do|check for|to|around|at? doing|the|it? B|the? rogue|rogues|B cell|cells|check|search? cells|check|search|yet|today? yet? $ =>
	, haven't|havent|didn't|didnt|not done|checked|looked|searched|started|got|do|check for|to|around|at? doing|the|it? the? rogue|rogues|B cell|cells|check|search? cells|check|search|yet|today? yet? $ =>
	i|we've|i've|we have|has|had already|just|now|today|also|finally? confine => =1 confined
	i|we have|has|had already|just|now|today|also|finally? graft => =1 grafted
	i|we have|has|had already|just|now|today|also|finally? catch => =1 caught
	i|we have|has|had already|just|now|today|also|finally? move => =1 moved
	i|we have|has|had already|just|now|today|also|finally? feed => =1 fed
	i|we have|has|had already|just|now|today|also|finally? release => =1 released
	i|we have|has|had already|just|now|today|also|finally? recell => =1 recelled
	i've|we've|ive already|just|now|today|also|finally? confine => confined
	i've|we've|ive already|just|now|today|also|finally? graft => grafted
	i've|we've|ive already|just|now|today|also|finally? catch => caught
	i've|we've|ive already|just|now|today|also|finally? move => moved
	i've|we've|ive already|just|now|today|also|finally? feed => fed
	confined|grafted|caught|moved|fed|released|recelled|capped now|already|today|also|just breeder|queen|the => =1 =3
	fed also|too X => =1 =3
	fed her|them|it too|also => =1 =2
	fed her|them|it as well => =1 =2
	i|we fed|moved|grafted|caught|recelled|confined also|too|already => =2
	i|we also fed|moved|grafted|caught|recelled|confined => =3
	topped|filled|refilled|charged|loaded up|off|out? all|both|every|each of? the|its|my|our? syrup|sugar? feeder|feeders|jar|jars on|at|in|for|of X => fed =9
	all|both the|of? feeders|jars topped|filled|full|refilled up|off|out? at|on|in X => fed =7
	feeders|feeder|jars|jar are|is|was|were? topped|filled|full|refilled up|off|out? at|on|in X => fed =6
	syrup|sugar|fondant|feed|jars|feeders|feeder went|is|are|now on|in|out at|to|for|on X => fed =5
	released breeder|queen # and took|pulled|got|lifted her|the|its? comb|frame out => comb out =3
	comb|frame of|from breeder|queen|number|the # is|was|came|comes? out|pulled|up => comb out =4
	the|her? bees took|accepted|drew # => accepted =4
	made|built|got|stocked|set up|out|together? all? # of? the|our|my? mating? nucs|nuc ready|up? => made =4 nucs
	moved|carried|took|drove|hauled all|the # cells|of? them? to|over|out to? Y => moved =3 to =8
	moved|placed|put all|the # cells to|in|into|at Y => moved =3 to =6
	# good|nice|strong|solid? starts on|in? the? bars|bar|frame? $ => =1 accepted
	^ none|zero of? them? took $ => none accepted
	put|moved|set|hung the? bars|bar|cells in|into|to B to finish => to finisher =5
	# of? #? cells? are|went|is|all? in at Y => moved =1 =2 =3 =4 to =8
	all the|our? cells|them are|went|is|all? in at Y => moved all cells to =7
	cells are|went? in , # at|in|to Y => moved =5 to =7
	# cells? too Y => =1 =2 to =4
	eggs in|from # of # nucs|nuc => =3 =4 =5 laying
	# are|is|were? with eggs => =1 laying
	eggs in # nucs => =3 laying
	# of # caught|laying|emerged|capped|accepted , couldn't|couldnt|didn't|didnt|can't|cant find|see|catch|get|spot the rest|others|other $ => =1 =2 =3 =4
	grated|crafted # from => grafted =2 from
	# are|were|have|got both now? been? confined|caged|released now|already? $ => =6 breeder =1
	^ nothing|none coming in at Y , dearth => dearth at =6
	have|has? given the|a|some|more? sugar? syrup|fondant|candy|feed|sugar water? to|on|in X => fed =8
	i|we count|find # => =3
	the bees|girls|ladies they accepted|took => accepted
	no|zero rogues|rogue|wild cells? anywhere|whatsoever $ => no rogues
	B is? clear|clean , no|zero rogues|rogue cells? anywhere|whatsoever|at? all? => =1 clear
	went|been all|right|carefully through|over B => checked =4
	accepted|capped|emerged|laying , looked|checked at # $ => =1 at =5
	^ i|we? was|were at Y yesterday|today? , => at =5 =6
	i|we fed also|too X => fed =4
	picked|plucked|gathered|netted|grabbed # queens|mated|laying queens? => caught =2
`
