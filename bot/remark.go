package bot

// Remarks are asides about the weather, the body and the day. They are told by their
// words alone, every one of which stands on a list: what holds another word is asked
// back.

// remarkWords are words of which one must stand in a remark that is made of these and
// of remarkSmall alone: the weather, the body, food, the mood of people and bees.
var (
	remarkWords = words(`neck back knees knee eyes hands fingers feet arms shoulders legs wrists elbow hurt hurts aching aches ache sore stiff glad relieved hungry thirsty exhausted
		beat knackered sleepy soaked drenched sweating sunburnt sunburned freezing melting boiling roasting baking dusty dirty filthy feisty cranky grumpy angry cross ornery hot cold
		smoker veil suit gloves sting stings stung stinging coffee tea lunch breakfast dinner beer beers pizza bbq barbecue tacos burgers ribs steak whiskey sandwich donuts doughnuts cake mum mom dad wife husband kids dog cat grandma neighbour
		rain raining rained rainy storm stormy thunder lightning clouds cloudy sun shining heat frost drizzle drizzling life luck lucky bless blessed lord hallelujah amen god
		beauties beauty peach peaches pearls jewels gems peanuts love loved loving enjoyed busy humming roaring purring buzzing bloom blooming blossom clover linden dandelions flowers
		traffic road radio song singing bushed pooped wiped wrecked shattered starving famished hangry delighted chuffed thrilled excited grinning smiling mud mosquitoes ticks wasps flies
		light lighter sticky messy slow slowly tricky fiddly pain sweat tears crazy mad nuts hectic chaos everywhere monsters whoppers stunners gorgeous chunky huge massive drumsticks sausages`)
	remarkSmall = words(`i i'm im i've he she his my me in on at by with for from of off like just am have has had been can than even though tho though already now
		getting gets got feeling today's these our whole entire little bit am him us we we're were long big girl lady mama old too both them their its god's oh boy half-asleep tonight well know knows day days week month year`)
)

const longestRemark = 12

// remark reports whether the piece from token i to k is an aside.
func (d *reader) remark(i, k int) bool {
	for i < k-1 && (joins[d.word(i)] || remarkLeads[d.word(i)]) {
		i++
	}
	if k-i > longestRemark || k <= i {
		return false
	}
	s := d.spell(i, k)
	if remarkOpen[d.word(k-1)] {
		return false // there is more to come
	}
	if comments[s] && k-i <= longestComment {
		return true
	}
	found := false
	for j := i; j < k; j++ {
		w := d.word(j)
		c := remarkWords[w] || praise[w]
		found = found || c
		switch {
		case d.toks[j].glossed, d.ownAt(j, d.n.yards) > 0, d.ownAt(j, d.n.builders) > 0:
			return false
		case !c && !remarkSmall[w] && !praiseSmall[w], w == "again": // "good again" tells of another time
			return false
		}
	}
	return found
}

// remarkOpen are words that no remark ends with.
var remarkOpen = words(`to and or but as the a an if of`)

var (
	joins       = words(`and but so`)
	remarkLeads = words(`oh ah man boy wow well phew ugh ok okay lol haha yeah yep damn dang gosh folks guys anyway`)
)
