package bot

// The turns that crews use, and the plain words they stand for. A rule must say what
// the turn says in any message: a word that says more, or less, has no place here.

// spellings are short forms, slips that the reader's own measure is too strict for,
// and words that dictation hears for others, where what stands beside makes it plain.
var spellings = sayings(`
	frm|fron|fro => from
	tue nucs|nuc|cells|comb|bar|bars|builder|breeder|finisher|queens|flow|dearth => the =2
	ito|inot|int|itno => into
	out cells back in => put cells back in
	outta => out of
	# n fed|moved|caught|recelled|confined|grafted|capped|accepted|released => =1 and =3
	tmrw|tmr|tmw|tomo|2moro|2mrw|tommorow|tommorrow|tomorow|tomorro => tomorrow
	yday|ystrdy|yesterdy|yest|yestrday|yesterady => yesterday
	2day|tday => today
	due this|next wek|weke|wk => =1 =2 week
	morn|mornin => morning
	arvo|aft => afternoon
	egs|eegs|eggz => eggs
	nukes|nuke|nuks => nucs
	emregd|emegred|emrgd|emergd => emerged
	exepted|exsepted|axepted|accepetd|tooken|accptd|acptd|acceptd|excpted => accepted
	excepted # => accepted =2
	# of? #? cells? were? excepted => =1 =2 =3 =4 accepted
	caped # => capped =2
	capd|cappd|caaped|cpped|cappped => capped
	putted => put
	tkaen|takne|taekn => taken
	catched|cought|caugth|cauhgt => caught
	thru|thro => through
	rogs|rouges => rogues
	numbr|nmbr => number
	confind|conffined => confined
	releasd|realeased|relased => released
	graftd|grfated|graftted => grafted
	movd|moevd => moved
	layin => laying
	in|into|on|at|fed|checked b one|won => =1 builder 1
	b one|won is|was? clear|clean => builder 1 =4
	batch two|too|to $ => =1 2
	a quarter|half past|to => =2 =3
	# emerged|hatched|laying|moved|accepted|capped # are|were|got|was? dead|duds|dud|stillborn|missing|failed|crushed|squashed => =1 =2, =3 =4 =5
	batch # # are|were|got|was? dead|duds|dud|stillborn|missing|failed|crushed|squashed|empty => =1 =2, =3 =4 =5
	batch one # are|were|got|was? dead|duds|dud|stillborn|missing|failed|crushed|squashed|empty => =1 1, =3 =4 =5
	# of? #? cells? caped => =1 =2 =3 =4 capped
	rouge|rough|roug|rogue's cell|cells => rogue =2
	emergency|swarm cell|cells => rogue =2
	no|# rouge|rouges => =1 rogue
	# calls|sells|cels|celss|cell's to|in|into|at|accepted|capped|moved|from => =1 cells =3
	# calls|sells $ => =1 cells
	breather|reader|bleeder|breeders|breader # => breeder =2
	in|into|on|at|fed|from be|bee|bea # => =1 builder =3
	in|into|on|at|fed be|bee one|won => =1 builder 1
	be|bee # is? clear|clean => builder =2 =4
	be|bee one|won is? clear|clean => builder 1 =4
	batch|builder one|won => =1 1
	breeder|queen seven's => =1 7
	com|cob|comp|combs out => comb out
	pulled|took the|her C? com|cob|comp => =1 =3 comb
	period|fullstop $ =>
	full stop $ =>
	exclamation point|mark $ =>
	not too? sure|certain|positive => unsure
	don't|dont know|remember exactly => unsure
	don't|dont quote me => unsure
	or something|so => unsure
	or there abouts => unsure
	like # or so => ~ =2
	was|got|had|about like # => =1 ~ =3
	give or take => unsure
`)

// turns are what was done, in other words.
var turns = sayings(`
	N|somebody and i|me => we
	me|i and N => we
	N , and i|me => we
	both of us => we
	the two of us => we
	with N 's? help? $ =>
	with N , =>
	^ N confined|caged|grafted|accepted|capped|moved|placed|caught|fed|released|recelled => =3
	^ N has|just confined|caged|grafted|accepted|capped|moved|placed|caught|fed|released|recelled => =4
	earlier this morning|afternoon => this =3
	a couple|few minutes|min|mins ago => 5 min ago
	a minute ago => 1 min ago
	since about? # am|pm? => at =2 =3 =4
	since noon|midday => at =2
	since yesterday|monday|tuesday|wednesday|thursday|friday|saturday|sunday => =2
	looked|peeked|peek|looking|opened|inspected|peeped|glanced in|into|inside|at|through|on|up? => checked
	looked|peeked|inspected|opened up? => checked
	went|been|gone|looked through|over => checked
	went|been in|into X , => checked =3
	had|took a quick? look|peek in|into|inside|at|through|on? => checked
	checked in|on|into|inside|up|out|over => checked
	doublechecked|rechecked|re-checked => checked
	double checked => checked
	put|placed|popped|stuck|shut|locked|closed|set|dropped|got|moved breeder|queen|mother # in|into the|a|her|its? dark|new|fresh? cage|isolator|isolation|confinement|confiner => confined breeder =3
	put|placed|popped|stuck|shut|locked|closed|got # in|into the|a|her|its? cage|isolator|isolation|confinement|confiner => confined breeder =2
	breeder|queen|mother # is|went|goes|got|now? now? in|into the|a|her? cage|isolator|isolation|confinement => confined breeder =2
	# is|went now? in|into the|a|her cage|isolator|isolation|confinement => confined breeder =1
	confined|caged breeder|queen? # in|into the|a|her cage|isolator => confined =2 =3
	caged|confined breeder|queen? # on|onto a|the|her|some? nice|fresh|dark|empty|drawn|clean|new|brood|old|light? brood|drawn|dark|empty? comb|frame => confined breeder =3
	caged breeder|queen? # , C pin => confined breeder =3, =5 pin
	caged breeder|queen? # at|@ # , C pin => confined breeder =3 =4 =5, =7 pin
	on|onto a|the|her|some|its nice|fresh|dark|good|old|clean|new|light? nice|fresh|dark|empty|drawn|clean|new|brood|old|light? brood|drawn|dark|empty? comb|frame =>
	comb has|with|got a|the? C pin => =4 pin
	with a|the? C pin => =3 pin
	C pin|comb|frame one => =1 pin
	marked|pinned it? C => =3 pin
	bees are|went|all in => bees in
	shook|shaken some|the|her? bees in => bees in
	got|spotted|spied|there's|theres some|the|our|first? eggs => eggs seen
	there are|is some? eggs => eggs
	eggs are? there|present|in|visible $ => eggs seen
	# laid|lays $ => eggs breeder =1
	^ breeder|queen? # is out|free|loose $ => released breeder =3
	plenty|lots of eggs => eggs
	she|queen has? laid|laying $ => eggs
	breeder|queen # has? started|is? laying|laid|lays => eggs breeder =2
	# has started laying => eggs breeder =1
	still no|not any? eggs|egg in? => no eggs
	i|we saw|see|found|spotted eggs in => eggs in
	i|we saw|see|found|spotted eggs => eggs
	and? another|also one? graft , # => grafted =6
	no sign of eggs => no eggs
	nothing|none in|inside breeder|queen? # yet? , no eggs|egg yet|there? => no eggs in breeder =4
	nothing|none laid yet in|from? breeder|queen? #? => no eggs =5 =6
	no eggs yet|there|anywhere|at? so|all? far? => no eggs
	breeder|queen # is|came|back|got out|free|loose|released of? the? cage? => released breeder =2
	queen is|came out|free|loose of? the? cage? => released
	set|turned breeder|queen? # free|loose => released breeder =3
	let breeder|queen # out|go|loose => released breeder =3
	uncaged breeder|queen? # => released breeder =3
	pulled|took|lifted|brought|got|slid|slipped the|her|its|that? C? comb|frame out|away? => =3 comb out
	pulled|lifted comb|frame # => comb out =3
	pulled|removed breeder|queen? # comb => comb out =3
	put|set|dropped|popped|laid|placed|moved|transferred|got|did|made # larvae|grafts|larva|cups => grafted =2 larvae
	did|made|put # from breeder|queen? # in|into|to B => grafted =2 from =5 into =7
	made|did|finished a|the graft => grafted
	grafted # larvae|cells? out|off of # in|into|to B => grafted =2 from =6 into =8
	grafted # larvae|cells? off # in|into|to B => grafted =2 from =5 into =7
	did a graft of? # => grafted =5
	did|made|got # grafts => grafted =2
	# larvae from breeder|queen? # in|into|to B => grafted =1 from =5 into =7
	off|of|outta breeder # => from breeder =3
	out of breeder # => from breeder =4
	from|off|with|on the|her|that C comb|frame|one|pin|bar? => =3 pin
	# of breeder # larvae => =1 from breeder =4
	the girls|bees|builder|ladies? have|has? accepted|took|taken|drew|drawn # => accepted =5
	B have|has? accepted|took|taken|drew # of? #? => accepted =4 =5 =6 in =1
	^ grafting|graft is? done|finished|complete , => grafted
	# caught and caged|boxed|marked => =1 caught
	bees|girls|ladies|they have? accepted|took|taken|drew # => accepted =4
	drew|drawn out # cells|of => accepted =3 =4
	# cells? were|are|got|have|been? drawn|started|taken|built out|up? => =1 accepted
	# of # cells? were|are|got|have|been? drawn|started|taken|built out|up? => =1 of =3 accepted
	acceptance is|was|of|count|at? # => accepted =3
	# of? #? cells? stuck|made|good ones? accepted => =1 =2 =3 accepted
	capped off|over # => capped =3
	# are|were|got|all? capped|sealed|closed over|off|up? => =1 capped
	put|placed|popped|dropped|set|stuck|swapped|shifted|carried|took|brought|moved|transferred|hung the? cells|bars|bar|frame|frames|them|it|'em|em #? over|on|across|back? in|into|to|on the? finisher => =4 =5 to finisher
	put|popped|dropped|set|stuck|swapped|shifted|carried|took|brought|moved batch # over|on|across? in|into|to|on the? finisher => batch =3 to finisher
	over|across|gone|went|now to|in|into|on the? finisher => to finisher
	to|in|into|on the? finisher builder? in|into|at|on? B => to finisher =6
	they're|they|cells|bars|bar|them|it|all are|is|went|have|gone|now? gone|over|now|all|safely? in|into|on|to the? finisher => to finisher
	on the finisher => to finisher
	knocked|cut|pulled|took|tore|ripped|scraped|pinched|squished|squashed|crushed|destroyed|killed|removed|culled|binned|broke|smashed|dug down|out|off|away|up? a|the? # rogue|rogues|wild|stray|extra cell|cells? => found =4 rogue
	knocked|cut|pulled|took|tore|ripped|scraped|pinched|squished|squashed|crushed|destroyed|killed|removed|culled|binned|broke|smashed|dug down|out|off|away|up? a|one single? rogue|wild|stray cell => found 1 rogue
	found|saw|spotted|got|had a|one|1 single|lone? rogue|wild|stray cell => found 1 rogue
	found|saw|spotted|got|had a|one|1 single|lone? rogue|stray => found 1 rogue
	one rogue|wild|stray cell? => 1 rogue
	# stray cell|cells in B => =1 rogue =4 =5
	rogue|rogues|wild cell? check|search|inspection on|of|in|for B => checked rogue =5
	no strays|stray|wild|queen cell|cells|ones? in|on B => =5 clear
	B is|was|looks|looked|all|'s? all|nice|totally|completely|still? clear|clean $ => =1 clear
	B is|was|looks|looked|all? all|nice|totally|completely|still? clear|clean , no|zero|nothing|none rogue|rogues|wild|stray|found|there? cell|cells|there|found? => =1 clear
	B , is|was|looks|looked|all? all|nice? clear|clean of rogue|rogues|wild cells? => =1 clear
	B had|has no|zero|0 rogue|rogues|wild cell|cells? => no rogues in =1
	checked|searched B , and|but|- found? nothing|none|zero found|there|in|inside|to? there|it|report? => =2 clear
	checked|searched B , found|all|it|looks|it's? is|looks|was|all? clear|clean|nothing|good|fine => =2 clear
	checked|searched B for rogues|rogue|wild|strays cell|cells? , found? nothing|none|clear|clean|no|zero found|there|rogues|luck? => =2 clear
	checked|searched B for rogues|rogue|wild|strays cell|cells? , found? # => =2 , found =8 rogues
	B , checked|searched , and? found? nothing|none found|there? => =1 clear
	B , nothing|none found|in|there there|it? => =1 clear
	found nothing|none in|inside B => =4 clear
	nothing|none found|rogue|wild? in|inside B => =4 clear
	B checked|searched => checked =1
	put|placed|got together # nucs => made =3 nucs
	built|prepped|prepared|stocked|assembled|filled|stood|readied|finished up|out? # more|new|extra|mating|fresh|mini? more|mating? nucs => made =3 nucs
	set|made|put|got up|out|together|ready # more|new|extra|mating|fresh|mini? more|mating? nucs => made =3 nucs
	# more|new|mating? nucs are|got|have|were|all|is? been? made|set|put|built|prepped|prepared|stocked|filled|good|ready up|together|to|out? go? => =1 nucs ready
	have|got # nucs ready => =2 nucs ready
	put|took|brought|carried|drove|dropped|popped|stuck|planted|installed|delivered|hauled|set|inserted|distributed|placed|transferred|shifted|ran|moved off|in|out|over? # of? #? good|nice|ripe|capped|sealed|fine|the|beautiful|fat? cells => moved =3 =4 =5 cells
	put|dropped|popped|placed|set|stuck|installed|inserted # of? #? good|nice? cells? in|into|to|on|onto the? B => =1 =2 =3 =4 =5 =6 =7 =8 =9
	put|took|brought|carried|drove|dropped|popped|stuck|planted|installed|delivered|hauled|inserted|distributed|placed|transferred|shifted # of? #? cells => moved =2 =3 =4 cells
	dropped off? # of? #? cells off at => moved =3 =4 =5 cells at
	took|brought|carried|delivered|hauled|shifted|transferred # of|out? them|over? to|into|up|down to|at? Y => moved =2 to =7
	dropped|popped|planted|installed|put|stuck|placed # of|out? them|over|off? in|into|at|to|off the? nucs? in|at|to? Y => moved =2 to =9
	put|placed|popped|dropped # in|into the? nucs at|in? Y => moved =2 to =7
	# of? #? cells|of? them? went|gone|headed|placed|delivered|dropped|planted|moved over|out|off|up|down? to|into|in|at the? nucs? at|in|to? Y => =1 =2 =3 moved to =12
	cells are|have|all? been|all? gone|went|over to|in|into Y => moved cells to =6
	moved|placed|caught|took|put the|another|our first|last|other|remaining|final # => =1 =4
	the|my|our B batch|bar => =2
	# came|come|popped|crawled|hatched|made|climbed out => =1 emerged
	# of # came|come|have|popped|crawled|hatched out? out => =1 of =3 emerged
	# virgins|queens|virgin are|is|were|have|now? hatched|emerged|out|born out? $ => =1 emerged
	# of # virgins|queens are|were|have|now? out $ => =1 of =3 emerged
	hatched|emerged out => emerged
	# of? #? queens|nucs|virgins|ones? are|is|have|were|now? in lay => =1 =2 =3 laying
	in lay => laying
	mated and|& laying => laying
	# of? #? queens|nucs are|have? mated => =1 =2 =3 laying
	# of? #? nucs|queens have|has|with|show|showing eggs|brood => =1 =2 =3 laying
	# of? #? nucs|queens have|has|with? laying queens|queen => =1 =2 =3 laying
	# are? laying well|nicely|great|good|already|fine|beautifully|now|strong => =1 laying
	X too|also $ => =1
	X as well $ => =1
	^ please|pls add|undo|skip|show => =3
	# in total|all => =1
	# total|altogether => =1
	# of em|'em => =1 of them
	half an|a hour $ => 30 min
	have|has started|begun laying => laying
	boxed|harvested|picked|bagged|collected|caged|pulled|packed up|out? # of? #? mated|laying|of|good|nice|the? queens|them => caught =3 =4 =5
	boxed|harvested up? # of? #? $ => caught =3 =4 =5
	caught and|&|adn|nad|annd|aand|andd|amd|abd|ahd|ajd|anf|anr|anx|snd|qnd|znd|nd|ad|an|anc|ans|ane caged|boxed|packed up? # => caught =5
	caged|boxed|packed up|out? # of? #? queens? for|to sale|sell|shipping|ship|customers|orders => caught =3 =4 =5
	# of? #? mated|laying? queens|queen were|are|got|all? caged|boxed|picked|harvested|bagged|collected|packed for|up? sale|shipping|market|orders|up? => =1 =2 =3 caught
	# of? #? boxed|caged for|up sale|shipping|market|orders? => =1 =2 =3 caught
	# boxed => =1 caught
	new|replacement cells|cell are|went|back? in|into|for|to # nucs|of|more? them? => recelled =5
	put|popped|gave|stuck|set|dropped new|replacement cells|cell back? in|into|to # nucs|of? them? => recelled =6
	gave # nucs a|new|replacement new|replacement? cells|cell => recelled =2
	re celled|cell # => recelled =3
	# re celled => =1 recelled
	gave|given|handed X # l|ml|liter|liters|litre|litres|gal|gallon|gallons|quart|quarts|pint|pints of? sugar|thin|thick|warm? syrup|feed|water? => fed =2 =3 =4
	gave|given|handed X half a|an? l|liter|liters|litre|gal|gallon|quart|pint of? sugar|thin|thick|warm? syrup|feed|water? => fed =2 half a =5
	put|poured|gave|added|dropped half a|an? l|liter|litre|gal|gallon|quart|pint of? sugar|thin|thick|warm? syrup|feed|water? on|to|for|in|into X => fed =9 half a =4
	gave|given|handed X a|an|another|one l|ml|liter|liters|litre|litres|gal|gallon|gallons|quart|quarts|pint|pints of? sugar|thin|thick|warm? syrup|feed|water? => fed =2 1 =4
	put|poured|gave|added|dropped # l|ml|liter|liters|litre|litres|gal|gallon|gallons|quart|quarts|pint|pints of? sugar|thin|thick|warm? syrup|feed|water? on|to|for|in|into X => fed =8 =2 =3
	put|poured|gave|added|dropped a|an|another|one l|ml|liter|liters|litre|litres|gal|gallon|gallons|quart|quarts|pint|pints of? sugar|thin|thick|warm? syrup|feed|water? on|to|for|in|into X => fed =8 1 =3
	gave|given|offered|handed X a|an|the|some|its|their|#|more|another? #|big|full|fresh|large|small|whole|half? lb|kg|jar|jars|bag|bags|bottle|cup|patty|dose|shot|block|bucket of? sugar|thin|thick|warm? syrup|sugar|fondant|candy|pollen|feed|water|food? water|sub|patty? => fed =2
	gave|given|offered X a|an|some|its|more|the? more|sugar|thin|thick|warm|fresh? syrup|sugar|fondant|candy|pollen|feed|food water|sub|patty? => fed =2
	X got|gets|had|received # l|ml|liter|liters|litre|litres|gal|gallon|gallons|quart|quarts|pint|pints of? sugar|thin|thick|warm? syrup|feed|water? => fed =1 =3 =4
	X got|gets|has|had|received|was|is a|an|some|its|#|more|another|given|fresh? #|big|full|fresh? lb|kg|jar|bag|patty|bottle? of? sugar? syrup|fondant|candy|feed water? => fed =1
	put|poured|dropped|set|left|gave|added|got|placed a|an|the|some|#|more|fresh|another? #|big|full|fresh|new|more? lb|kg|jar|jars|bag|bags|bottle|patty|bucket of? sugar|thin|thick|fresh? syrup|sugar|fondant|candy|pollen|feed|food? water|patty? on|to|for|in|into|at|over X => fed =10
	put|poured|dropped|set|left|gave|added|got|placed some|more|fresh|the|a? sugar|thin|thick? syrup|fondant|candy|feed|food water? on|to|for|in|into|at|over X => fed =7
	gave|given|handed X a|some|more|the? jar|cup|bit? of? honey => fed =2 honey
	put|poured|dropped|left|added|gave a|some|more|the? jar|cup|bit? of? honey on|to|for|into X => fed =7 honey
	a|some|fresh|more|sugar? jar|quart|liter|gallon|bag|bottle|pint of syrup|fondant|candy|feed on|to|for|in|into|at X => fed =6
	some|fresh|more|sugar|new? syrup|fondant|candy is|went|now? on|to|for|in|into X => fed =5
	some|sugar? feed|feeder|water is|now? on X => fed =5
	topped|filled|refilled|charged|loaded up|off|out? the|its|their|her|a? syrup|sugar? feeder|feeders|jar|syrup|jars on|at|in|for|of X => fed =7
	topped|filled up|off|out X with|again? syrup|sugar|feed? => fed =3
	refilled X => fed =2
	refilled|filled B with|again? syrup|sugar? feeder|feeders|feed? => fed =2
	flow|dearth has|have|is|'s|just|seems? just|now|finally|already|well|really? on|started|here|begun|began|underway|arrived|kicked|in|set in|off? => =1 on
	flow|dearth has|have|is|'s|just? just|now|finally|already|all|well? over|ended|gone|stopped|finished|done|dried|shut up|down|off? => =1 over
	nectar is coming in => flow on
	nectar flow|dearth => =2
` + moreTurns)

// takenBack are numbers that a better one follows at once: "36, no wait, 37".
var takenBack = sayings(`
	# no|oh|oops|sorry|ah|nope wait|sorry|actually , # => =5
	# sorry|oops|wait|correction|actually|whoops|rather , # => =4
	# i|i'm mean|meant , # => =5
	# make it|that , # => =5
`)

// asking are questions to the bot in natural words.
var asking = sayings(`
	^ what's|whats left|remaining|outstanding to? do? for? today|tomorrow|now? $ => due =6
	^ what's|whats left|remaining|outstanding to? do? for? this week $ => due this week
	^ what is left|remaining to? do? for? today|tomorrow|now? $ => due =7
	^ what|anything needs|need doing|attention today|tomorrow|now? $ => due =5
	^ what|anything needs|need to be done today|tomorrow|now? $ => due =7
	^ what needs|need to happen today|tomorrow|now? $ => due =6
	^ what's|whats to do today|tomorrow|now? $ => due =5
	^ what's|whats on|planned|scheduled for? today|tomorrow $ => due =5
	^ what's|whats on the list|plan|schedule|agenda|calendar|menu for? today|tomorrow? $ => due =7
	^ what's|whats on the list|plan|schedule|agenda|calendar|menu for? this week $ => due this week
	^ what's|whats coming up? this|next? week? $ => due this week
	^ what's|whats the? plan|schedule for today|tomorrow $ => due =6
	^ what do|must|should i|we have|need|got? to? do today|tomorrow|now? $ => due =8
	^ what do|must|should i|we have|need|got? to? do this week $ => due this week
	^ what have i|we got to do today|tomorrow? $ => due =8
	^ what do i|we have on? due|today|tomorrow $ => due =7
	^ anything left|pending|outstanding for? today|tomorrow? $ => due =5
	^ anything else? due|on for? today|tomorrow $ => due =6
	^ is there? anything due|left|open|pending for? today|tomorrow? $ => due =7
	^ anything to do today|tomorrow|now? $ => due =5
	^ any|which|what tasks|jobs|work are|is? due|open|left|there|on? for? today|tomorrow? $ => due =7
	^ today's|todays list|tasks|jobs|plan|schedule $ => due
	^ tomorrow's|tomorrows list|tasks|jobs|plan|schedule $ => due tomorrow
	^ this week's|weeks list|tasks|jobs|plan|schedule $ => due this week
	^ to do list? $ => due
	^ todo|due|task|job list $ => due
	^ list tasks|jobs $ => due
	^ show me? the? tasks|jobs|list|todo|todos for? today|tomorrow? $ => due =7
	^ what|when is|are? due|next due|next today|tomorrow? $ => due =5
	^ batch|breeder|builder # status|info|update|details|news|progress $ => =2 =3
	^ info|details|status|news|update|report on|for|of|about|from? batch|breeder|builder # $ => =4 =5
	^ any news|update|word on|from|about|of|with batch|breeder|builder # $ => =5 =6
	^ what's|whats the? status|state|story|news|latest of|on|with|for|about batch|breeder|builder # $ => =6 =7
	^ what's|whats up|happening|going on? with|in batch|breeder|builder # $ => =6 =7
	^ where are|is|do we? at|stand|are? with|on? batch|breeder # $ => =7 =8
	^ how's|hows|how is|are|does|did? things|it|we|everything? doing|going|looking? with|on|in? batch|breeder|builder # look|doing|going|looking|coming? along? $ => =7 =8
	^ what about batch|breeder # $ => =4 =5
	^ show|give|tell me info|details? on|about? batch|breeder|builder # $ => =6 =7
	^ what's|whats next|due|on|up for|with batch|breeder|builder # $ => =5 =6
	^ can|could|may i|we see|have the? log|logbook $ => log
	^ anything on|due|up? today|tomorrow for|on|with batch # $ => =6 =7
	^ how late|early|soon can|may|could i|we => when can =5
	^ show|see me? the? last|recent|latest entries|lines|logs|log $ => log
	^ last|recent|latest entries|lines|logs $ => log
	^ what's|whats in the log|logbook $ => log
	^ how do|can|would i|we log|record|enter|report|note|type|write|add a|an|the? graft|move|feed|confine|accept|catch|recell $ => help =7
	^ how to log|record|enter|report|note|type|write a|an|the? graft|move|feed|confine|accept|catch|recell $ => help =6
	^ how do|can|would i|we undo|skip|add|set => help =5
`)

// replies are short answers to the bot, which mean nothing where it is not spoken to.
var replies = sayings(`
	^ i|i've|ive|we've|we got|have this|that|it one|mine? $ => mine
	^ i've|ive|we've this|that one $ => mine
	^ i'll|ill|we'll take|do|handle|grab|get|cover|manage this|it|that|them one? $ => mine
	^ i|we will take|do|handle|grab|get|cover|manage this|it|that|them one? $ => mine
	^ i'll|ill|we'll take|see care|to of? it|this|that $ => mine
	^ i|we will take care of it|this|that $ => mine
	^ i'll|ill|we'll move|graft|count|check|feed|catch|confine|release|search|pull the? them|it|her|those|that|cells|comb $ => mine
	^ leave it|this|that|them to|with me $ => mine
	^ let me do|take|get|handle it|this|that one? $ => mine
	^ taking|doing|grabbing this|it|that one? now? $ => mine
	^ on it|this|that now|already? $ => mine
	^ i'm|im|we're on|doing|taking|handling it|this|that one? now|already? $ => mine
	^ dibs $ => mine
	^ my turn $ => mine
	^ will do $ => mine
	^ consider it mine|done? $ => mine
	^ in half an|a hour $ => later 30 min
	^ give me|us|it #|another min|mins|minutes|hour|hours|h|hr|hrs|more? $ => later =4 =5
	^ give me|us|it an|a|another|one hour $ => later 1 hour
	^ give me|us|it half an|a hour $ => later 30 min
	^ ping|nudge|tell|bug|poke|try|ask|buzz|bother|alert|remind me|us|again again? in|at|later|tomorrow|after => remind me =5
	^ not now , later|remind|in|snooze => =5
	^ in a bit|while|little|minute $ => later
	^ a? bit|little later $ => later
	^ later on $ => later
	^ we're|were|i'm|im|we|i? are|am? not doing|moving|counting it|this|that|them one? , too|because|it's|its|bc|no|rain|raining|weather|cold|wet|windy|storm => skip, =9
	^ we're|were|i'm|im|we|i? are|am? not doing it|this|that one? $ => skip
	^ we'll|ill|i'll|let's|lets|we|we're|i'm|i'd|gonna skip|skipping it|this|that one? => skip,
	^ no need $ => skip
	^ done and dusted => done
	^ it's|its|she's|comb|comb's is? out now|already? => comb out =5
	^ the comb is|comes out now? => comb out
	^ found|saw|got one , => 1
	^ i'm|im on my way $ => mine
	^ ugh|ok|fine|sure|alright|okay ok|fine|sure? , i'll|ill do|take|handle it|this|that $ => mine
	^ clear|clean , not|no a? single? one|thing|rogue|sign found|there|anywhere? $ => clear
	^ i|we take|do|handle|got|have|want this|it|that|them one? $ => mine
	^ mine , => mine
	^ all of em|'em|them|those $ => all
	^ every last|single? one $ => all
	^ the whole lot|batch|bar $ => all
	^ yes|yep|yup|yeah|ok|okay|done , it's|its|she's|comb's|all|came|they're? out now|already? at|@ => done at
	^ yes|yep|yup|yeah|ok|okay|done , it's|its|she's|comb's|the|comb|is|all|came|they're? comb|is? out now|already? $ => done
	^ done|yes|yep|yup|looked|checked|ok , and|i? found|saw|there|it|was|is? nothing|none|clean|clear|no|zero in|rogues|rogue|cells|found|at? it|there|all|cells|inside? $ => none
	^ i|we? found|cut|squished|killed|knocked|squashed|crushed|removed|pinched # , => =4,
	^ found nothing|none there|yet? $ => none
	^ nothing|none|no found|rogues|there $ => none
	^ nothing|none|no one in there|it|here|them $ => none
	^ nothing|none in there|it|here|them $ => none
	^ # found $ => =2
	^ # in $ => =2
	^ # in at => =2 at
	^ did # $ => =3
	^ did # at => =3 at
	^ i'll|ill|we'll check|count|search|do that|this one $ => mine
	^ how long have|do i|we got|have left? $ => why
	^ just|already|we|i|we've|i've|yes|yep|yup|all? just|already|have|all? did|done|finished it|this|that|them one? => done
	^ that's|it's|its|thats|they're|they are? all|already|both? done|finished => done
	^ yes|yep|yup|yeah|ok , did|done|finished it|that|them? => done
	^ all? sorted $ => done
	^ done|yes|yep , they're|they|all|it's|cells|bar|bars|everything are|is? all|now|safely? in $ => done
	^ found|counted|got|saw|there they|are|is|were|was? # of|rogue|rogues|them? them|cells|cell? $ => =4
	^ found|counted # $ => =3
	^ why so|that|this|the? tho|though|now|then|early|late|soon|today|exactly|again|rush|hurry|long|much|time|hour $ => why
	^ how come $ => why
	^ what for $ => why
	^ what's|whats on|next|up|due now|today|tomorrow? $ => due =4
	^ what next|now $ => due
`)
