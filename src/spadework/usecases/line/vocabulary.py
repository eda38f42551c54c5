"""The words of the trade a line is read by: acts, signs, things seen, parts, materials. Phrases part at bars.

Length: a table of words, and nothing else.
"""

from __future__ import annotations

from typing import Final

ACTS: Final[dict[str, str]] = {
    "sow": (
        "started|sow|sowed|sown|sowing|sewn|sewed|direct sowed|direct sown|seeded|drilled|"
        "resowed|re sowed|broadcast|station sowed|station sown|dibbed in|started off|"
        "put seeds in|put seed in|put some seed in"
    ),
    "plant": "planted|planting|plant|put in|stuck in|popped in|set out|bunged in",
    "plant out": (
        "went into|went in|gone into|plugged in|planted out|planting out|plant out|put out|"
        "transplanted|transplanting|transplant|bedded out|moved out|put into|planted up|"
        "set out plants|tipped out"
    ),
    "prick out": (
        "potted|pricked out|pricking out|prick out|pricked|potted on|potting on|potted up|"
        "potting up|bumped up|pot on|moved on into|potted off"
    ),
    "count": "counted|counting|count|we make it|i make it|recounted|counts",
    "measure": "measured|measuring|measure|measures",
    "thin": (
        "thinned|thinning|thin out|thinned out|thinning out|singled|singling|thin to|"
        "thin down to|thinned down"
    ),
    "weed": (
        "cleaned up weeds|pulled some weeds|pulled a few weeds|weeded|weeding|weed|hand weeded|"
        "hand weeding|hand weed|pulled weeds|pulled the weeds|pulled out weeds|pulled up weeds|"
        "did the weeds|cleared weeds|cleared the weeds|cleaned up the weeds"
    ),
    "hoe": "hoed|hoeing|hoe|ran the hoe|hoed through|ran a hoe|run the hoe",
    "earth up": (
        "earthed up|earthing up|earth up|earthed|hilled up|hilled|hilling|hilling up|ridged up|"
        "ridged|mounded|mounded up|drew soil up|drew up soil|drew up earth|banked up|moulded up"
    ),
    "support": (
        "staked|staking|stake|staked up|tied in|tied up|tying in|tying up|tied|tie in|tie up|"
        "tied back|supported|supporting|trellised|strung up|caned|propped up|put canes|"
        "put in canes|put stakes|put in stakes|put sticks|put up canes|put up sticks|"
        "put up strings|put up a trellis|put up poles|put up pea sticks|clipped up|trained up|"
        "put up netting for|twined|string up|put pea sticks|retied|wired up"
    ),
    "mulch": "mulched|mulching|mulch|top mulched|remulched",
    "harden": "hardened off|hardening off|harden off|hardening|hardened",
    "prune": (
        "took the tops off|tops off|took the tips out|took the tips off|pruned|pruning|prune|"
        "pinched out|pinching out|pinch out|pinched|pinched back|pinched off|"
        "pinched the tops out|nipped out|took the tops out|took tops out|took out the tops|"
        "took off the tops|tops out|stopped the|side shooted|sideshooted|side shooting|"
        "sideshooting|took out side shoots|took out sideshoots|took out the side shoots|"
        "took the side shoots off|took off side shoots|took the side shoots out|"
        "removed side shoots|removed the side shoots|pinched out side shoots|"
        "pinched out the side shoots|side shoots out|side shoots off|suckered|suckering|sucker|"
        "deadheaded|dead headed|trimmed|cut back|cutting back|cut off runners|took off runners|"
        "cut the runners off|took the runners off|topped|defoliated|stripped the lower leaves|"
        "took off the lower leaves|took off lower leaves|took the lower leaves off|"
        "removed the lower leaves|removed lower leaves|took the flowers off|"
        "took off the flowers"
    ),
    "cover": (
        "covered|covering|cover|covered up|covered over|netted|fleeced|meshed|cloched|"
        "recovered|put a cover|wrapped up|tucked up|covered back up|tucked in"
    ),
    "uncover": (
        "uncovered|uncovering|uncover|took covers off|took the covers off|took the cover off|"
        "took off the cover|took off the covers|stripped off"
    ),
    "open": (
        "rolled the sides up|rolled the tunnel sides up|sides up|doors open|vents open|"
        "opened the vents|opened the doors|opened|opening|open|opened up|vented|ventilated|"
        "aired|propped open|rolled up|rolled up the sides|cracked open|threw open|unzipped"
    ),
    "shut": (
        "sides down|doors shut|vents shut|rolled the sides down|shut|closed|closing|shutting|"
        "shut up|closed up|shut down|rolled down|rolled down the sides|zipped up|closed down|"
        "buttoned up"
    ),
    "water": (
        "watered|watering|water|watered in|watering in|irrigated|soaked|soaking|gave a drink|"
        "a good drink|a drink|a soak|a good soak|a good soaking|a good watering|a watering|"
        "drenched|hosed|hosed down|hosing|gave water|hand watered|watered well|ran the drip|"
        "ran the drippers|ran the soaker|drip on|sprinkler on|ran the sprinkler|ran the hose|"
        "ran the irrigation|drip line|soaker hose|seep hose|topped up with water|doused"
    ),
    "feed": (
        "fed|feeding|feed|liquid fed|fertilised|fertilized|gave a feed|foliar fed|side dressed|"
        "sidedressed|fertilizing|fertilising"
    ),
    "amend": (
        "dug in|digged in|dug into|worked in|worked into|forked in|forked into|raked in|"
        "raked into|top dressed|topdressed|manured|composted|limed|mucked|mixed in|mixed into|"
        "barrowed|incorporated|turned in|turned into"
    ),
    "treat": (
        "sprayed|spraying|spray|dusted|dusting|treated|treating|drenched with|squirted|"
        "spot sprayed|scattered slug pellets|put down slug pellets|watered in nematodes|"
        "put slug pellets|put down nematodes"
    ),
    "pick": (
        "picked|picking|pick|harvested|harvesting|harvest|cut|cutting|gathered|cropped|snipped|"
        "brought in|cut and come again|had a handful|first picking|second picking|last picking|"
        "final picking|got our first|got the first|picked off|plucked|took home|cut for|"
        "took for"
    ),
    "eat": "eat|eating|eaten|touch",
    "pull": "pulled|pulling|pulled up|pulled out|yanked|yanked out|ripped out|tore out|pulled a few",
    "lift": (
        "out of the ground|lifted|lifting|lift|dug|dig|digging|dug up|howked|forked up|forked out|dug out"
    ),
    "cure": (
        "dried|cured|curing|cure|to cure|laid out to cure|hung up to dry|drying|to dry|"
        "laid out to dry|hung to dry|hung up|strung up to dry"
    ),
    "store": (
        "gone into the freezer|gone in the freezer|went into the freezer|went in the freezer|"
        "put in the freezer|plaited|put in sacks|put in boxes|"
        "put in paper sacks|put in the shed|put in the cellar|"
        "put in crates|put in sand|stored|storing|store|into store|in store|put away|"
        "put in the store|clamped|packed in sand|put in store|in storage|into storage|"
        "put into store|boxed up|bagged up|put into storage"
    ),
    "clear": (
        "took out the|taken out the|cleared|clearing|cleared out|cleared away|cleared the last|"
        "grubbed up|grubbed out|composted the|cut down|took down|took out all|cleaned out|"
        "stripped out|finished off|pulled the lot|cleared up"
    ),
    "lose": (
        "something has had|something had|something has taken|something took|"
        "lost|losing|died|dead|killed|keeled over|perished|succumbed|gave up the ghost|"
        "wiped out|finished by|eaten to the ground|had the lot|ate the lot|took the lot|"
        "eaten off|dying|all gone|didnt make it|did not make it|damped off"
    ),
    "skip": (
        "cancelled|canceled|called off|skipped|skipping|skip|gave it a miss|gave a miss|"
        "gave the watering a miss|put off"
    ),
    "unlock": (
        "safe again|can be picked again|fine to pick again|unlocked|lifted the lock|"
        "lift the lock|lock lifted|lock off|take the lock off|took the lock off|"
        "ok to pick again|okay to pick again|safe to pick again"
    ),
    "lock": "keep off|leave alone|hands off|do not touch|locked|lock|off limits|out of bounds",
    "buy": (
        "came in the mail|came by post|came by mail|swapped for|swapped some|"
        "bought|buying|got new|ordered and got|picked up a|came in the post|arrived|new packet|"
        "new pack|new seed|new seeds|new roll|new lot|new set|new kit|packet of|pkt of|"
        "treated myself to|was given|were given|got given|got a new|new in the tin|"
        "in the seed tin|in the tin|to the tin|to the seed tin|added to the tin|got a packet|"
        "got a pack|new to the kit|to the kit|a new roll of|new bundle"
    ),
    "new bed": (
        "new bed|made a bed|made a new bed|built a bed|built a new bed|new raised bed|"
        "another bed|new tub|new planter"
    ),
}
"""Act to the words that say it."""

LIGHT: Final = (
    "worked|forked|raked|barrowed|emptied|put|puts|putting|gave|give|given|giving|got|get|took|take|taking|taken|used|using|had|have|"
    "added|adding|add|spread|spreading|done|did|applied|laid|moved|removed|removing|sorted|made|set|"
    "dropped|chucked|popped|threw|shoved|found|finding|saw|spotted|noticed|seen|brought|whipped|"
    "stuck|slung|tipped|poured|ran|turned|scattered|sprinkled|pegged|draped|laid out|strung"
)
"""Words that mean an act only with what they are done with."""

SIGNS: Final[dict[str, str]] = {
    "up": (
        "through|up|came up|come up|coming up|are up|is up|germinated|germinating|sprouted|"
        "sprouting|emerged|emerging|are through|is through|are showing|just showing|"
        "just through|poking through|popped up|popping up|all up|nosing through|came through|"
        "coming through|have appeared|seedlings showing|breaking the surface|"
        "broken the surface|peeping through|come through|come thru|came thru|coming thru|are thru|is thru"
    ),
    "first flower": (
        "first flower|first flowers|in flower|flowering|first blossom|first blossoms|"
        "in blossom|first blooms|first bloom|blooming|in bloom|flowers open|flowers out|"
        "started flowering|started to flower|flowers|flower|flowered|first truss|blossom|"
        "first flower open|flowers have opened|first flower out|blooms"
    ),
    "first female flower": (
        "first female flower|first female flowers|first female|female flower|female flowers"
    ),
    "ready": (
        "ready|first ripe|is ripe|are ripe|ripe now|ready to pick|ready to harvest|"
        "ready to eat|ready to lift|ready to pull|ready for picking|ready for harvest|"
        "fit to pick|ready for eating|ready now|ready to cut|ready to go|pickable|ready to dig|"
        "big enough to pick|big enough to eat|worth picking"
    ),
    "bolting": (
        "bolting|bolted|bolt|gone to seed|going to seed|running to seed|run to seed|"
        "ran to seed|running up to flower|starting to bolt|started to bolt|flower stalk|"
        "flower stalks|throwing up flower stalks|went to seed|shot up to seed"
    ),
    "standing": (
        "there are|there were|standing|still standing|left standing|plants left|still there|"
        "survivors|surviving|still alive|have survived"
    ),
    "tall": "tall|high|in height|knee high|height|waist high|chest high",
    "true leaves": "true leaves|true leaf|proper leaves|real leaves|leaves each",
    "wide": "across|in diameter|diameter|wide|thick|round the middle",
    "rain": (
        "rain|rained|raingauge|rain gauge|in the gauge|gauge|of rain|rainfall|precipitation|"
        "gauge read|gauge reads"
    ),
    "low": (
        "min|minimum|low|lowest|overnight low|night low|down to|got down to|dropped to|fell to|"
        "went down to|low of|lows|min of|minimum of"
    ),
    "high": (
        "max|maximum|high|highest|high of|got to|got up to|up to|hit|reached|peaked at|"
        "went up to|topped out at|max of|maximum of|climbed to|touched"
    ),
    "soil place": (
        "soil|soil temp|soil temperature|soil thermometer|ground temp|ground temperature|soil temps|earth"
    ),
    "air place": (
        "in the shade|air|outside|outdoors|air temp|outdoor|on the shed|screen|shade temp|air temperature"
    ),
    "leaf place": "on the grass|leaf temp|leaf temperature|at leaf height|grass min|grass minimum",
    "finger": (
        "dug down|dug a hole|scraped down|finger|finger test|fingertip|knuckle|finger deep|"
        "grabbed a handful|picked up a handful|took up a handful|"
        "pushed a finger|stuck a finger|finger down|poked a finger|stuck my finger|finger in|"
        "thumb test|feels|felt|to the touch|poked the soil"
    ),
    "squeeze": (
        "squeezed|squeezing|squeeze test|squeeze|fistful|handful of soil|ball test|"
        "squeezed a handful|squished a handful|balled up|made a ball"
    ),
    "minutes": "spent|took|taking|it took|took me|took us|minutes on|hours on|worked for",
    "left": "left|leaving|leave|down to|remaining|remain|kept|keeping|stay|staying|still in",
    "out": "removed|took out|taken out|pulled|out|pulled out|thinnings|surplus|binned|took away",
}
"""What a line tells without an act."""

STATES: Final[dict[str, str]] = {
    "dry": ("like dust|dry dust|powder dry|dry|bone dry|parched|dusty|dusty dry|dried out|dry as dust"),
    "damp": "damp|moist|nice and damp|slightly damp|just damp|barely damp",
    "wet": "wet|sodden|soggy|waterlogged|soaking|soaking wet|saturated|boggy",
    "crumbles": ("crumbles|crumbled|crumbly|fell apart|falls apart|broke up|crumbling|crumble|broke apart"),
    "holds": (
        "holds|held|held together|holds together|held its shape|holds its shape|"
        "stayed together|kept its shape|stays in a ball|held in a ball|stayed in a ball"
    ),
    "smears": (
        "smears|smeared|smeary|sticky|smearing|stuck to my fingers|plasticine|like putty|"
        "like plasticine|slimy"
    ),
    "good": (
        "good|good ones|lovely|nice|beautiful|excellent|perfect|great|grand|cracking|"
        "top quality|best|nice ones|gorgeous|superb|good quality|lovely ones|smashing|"
        "good stuff|beauties"
    ),
    "fair": (
        "only fair|fair|ok|okay|so so|average|"
        "middling|not bad|alright|decent|fair quality|some small|fair ones"
    ),
    "poor": (
        "poor|bad|tough|stringy|woody|split|tiny|scabby|rubbish|poor ones|holey|damaged|"
        "poor quality|bitter|maggoty|mostly slug eaten|a bit woody|slug eaten"
    ),
    "last": "last of|the last|last|final|finished|last ones|end of",
    "raw": "raw|fresh|green manure fresh|unrotted",
    "finished": (
        "finished|well rotted|rotted|rotted down|mature|old|composted down|aged|well aged|"
        "two year old|year old|ready made"
    ),
    "clean": (
        "not sprayed|unsprayed|no sprays|no spray|spray free|organic|clean|never sprayed|"
        "no weedkiller|herbicide free"
    ),
    "sprayed history": "sprayed with weedkiller|sprayed hay|treated hay|sprayed straw",
    "bought": (
        "bought|shop bought|store bought|from the nursery|from the garden centre|"
        "from the market|nursery|bought in|from the garden center|garden centre|garden center|"
        "from the fete|from the fair|from the plant sale|from a plant sale|from the church fete|"
        "plugs from|given|from a neighbour|from the neighbour|swapped|shop|bought in plugs"
    ),
    "female": "female|female one",
    "recovered": (
        "recovered|recovered by|perked up|fine again|fine by|back up by|gone by|"
        "picked up again|ok again|okay again|all right again|alright again|better by|ok by|"
        "back to normal|upright again|perky again|bounced back|perked back up|fine this|"
        "ok this|okay this|revived|come back|came back|come round|came round|right again|"
        "recovered overnight|up again by"
    ),
    "not recovered": (
        "still floppy this morning|still drooping this morning|still flopped this morning|"
        "still wilted this morning|still wilting this morning|not recovered|hadnt recovered|"
        "havent recovered|still down this morning|didnt recover|still flagging this morning|"
        "still limp this morning|had not recovered"
    ),
    "correction": "no i tell a lie|i tell a lie|no sorry|no make that|make that|or rather|i mean",
    "each": ("each|apiece|per plant|every plant|each one|per bed|a plant|per tub|to each|both|a tub|a bed"),
    "total": ("in all|altogether|all told|in total|total|all together|so thats|thats|between them|all in"),
    "twice": "twice|two times|2 times|2x|x2",
    "per row": (
        "to the metre|to the meter|per metre|per meter|per foot|to the foot|a metre|a meter|per m|a foot"
    ),
    "room": (
        "every other|every second|alternate|room|rest|others|space|thin|thinnings|gap|gaps|more room|crowded"
    ),
    "everything": (
        "everything|all of it|the lot|the whole lot|all the plants|the whole bed|whole bed|all over"
    ),
    "last year": "last year|the year before|last season|last summer",
    "some": "half|some of|some|a few|few|several|most of|most|part of|many",
    "again": (
        "same again|same as yesterday|as before|ditto|same as before|same as last time|"
        "the same again|same as|the usual|did it again|like yesterday"
    ),
    "modules": (
        "modules|cells|module tray|module trays|trays|tray|plugs|pots|cell trays|seed tray|"
        "seed trays|plug trays|plug tray|flats|flat|cell packs|root trainers|cell tray|"
        "soil blocks"
    ),
    "seedlings": "seedlings|seedling|starts|babies|young plants|plugs|transplants|plantlets",
    "gauge": "emptied|in the gauge|gauge",
}
"""Words that fill a field."""

THINGS: Final[dict[str, str]] = {
    "slugs": "slug|slugs|slug damage|slug trails|slug holes|slug eaten|slugged|slimers",
    "snails": "snail|snails",
    "blackfly": ("blackfly|blackflies|black fly|black bean aphid|black bean aphids|black aphids|black flies"),
    "greenfly": "greenfly|greenflies|green fly|green flies",
    "whitefly": "whitefly|whiteflies|white fly|white flies",
    "aphids": (
        "aphid|aphids|plant lice|woolly aphids|mealy aphids|mealy cabbage aphid|grey aphids|gray aphids"
    ),
    "caterpillars": (
        "caterpillar|caterpillars|cabbage worms|cabbage worm|cabbageworms|cabbageworm|"
        "cabbage loopers|loopers|white butterfly caterpillars|white butterfly|cutworms|cutworm|"
        "hornworm|hornworms|tomato hornworm|tomato hornworms|worms|inchworms|inchworm|armyworms"
    ),
    "cabbage white eggs": "cabbage white eggs|butterfly eggs|white butterfly eggs|eggs of cabbage white",
    "cabbage white": (
        "cabbage white|cabbage whites|large white|small white|white butterflies|cabbage moth|"
        "cabbage moths|butterflies"
    ),
    "flea beetle": (
        "flea beetle|flea beetles|flea beetle holes|shot holes|shothole|shot hole|pinholes|pin holes"
    ),
    "colorado beetle": (
        "colorado beetle|colorado beetles|colorado potato beetle|colorado potato beetles|"
        "potato beetle|potato beetles"
    ),
    "colorado potato beetle eggs": "colorado potato beetle eggs|potato beetle eggs|colorado beetle eggs",
    "japanese beetles": "japanese beetle|japanese beetles",
    "beetles": (
        "beetle|beetles|asparagus beetle|asparagus beetles|bean beetles|bean beetle|"
        "mexican bean beetles|mexican bean beetle|cucumber beetle|cucumber beetles|squash bugs|"
        "squash bug|pollen beetles|pollen beetle|stink bugs|stink bug|shield bugs|lily beetle|"
        "raspberry beetle"
    ),
    "beetle eggs": "beetle eggs|squash bug eggs",
    "carrot fly": "carrot fly|carrot flies|carrot rust fly|rust fly|carrot root fly",
    "root fly": (
        "cabbage root fly|root fly|root maggots|root maggot|onion fly|onion maggots|"
        "onion maggot|cabbage maggots|maggots"
    ),
    "thrips": (
        "thrips|leek moth|allium leaf miner|sawfly|sawfly larvae|vine borer|squash vine borer|"
        "leafhoppers|leafhopper|capsid|capsids|wireworm|wireworms|chafer grubs|leatherjackets|"
        "earwigs|earwig|woodlice|weevils|weevil|bean weevil|pea moth|pea weevil|grasshoppers|"
        "grasshopper|vine weevil|nematode|eelworm|mealybugs|scale|gall mites"
    ),
    "leaf miner": "leaf miner|leaf miners|leafminer|leafminers|leaf mines|tunnels in the leaves",
    "spider mite": "spider mite|spider mites|red spider|red spider mite|red spider mites|webbing",
    "pigeons": "pigeon|pigeons|wood pigeon|wood pigeons|pigeon damage|pecked",
    "birds": (
        "bird|birds|blackbird|blackbirds|crow|crows|rook|rooks|jackdaws|sparrows|sparrow|"
        "magpies|magpie|robins|pheasant|pheasants"
    ),
    "mice": (
        "mouse|mice|vole|voles|rat|rats|mole|moles|molehill|molehills|mole hill|mole hills|gopher|gophers"
    ),
    "rabbits": "rabbit|rabbits|hare|hares|bunny|bunnies|rabbit droppings",
    "deer": (
        "deer|groundhog|groundhogs|woodchuck|squirrel|squirrels|badger|badgers|raccoon|"
        "raccoons|chipmunk|chipmunks|possum|fox|cat|cats|cat poo|cat mess|hedgehog"
    ),
    "ants": "ant|ants|ants nest",
    "ladybirds": (
        "ladybird|ladybirds|ladybug|ladybugs|hoverfly|hoverflies|lacewings|bees|bumblebees|"
        "bumble bees|frog|frogs|toad|toads"
    ),
    "blight": "blight|late blight|early blight|blighted",
    "powdery mildew": "powdery mildew|white mildew",
    "downy mildew": "downy mildew",
    "mildew": "mildew|mildewed|mildewy",
    "rust": "rust|rusty|leek rust|garlic rust|rust spots",
    "chocolate spot": "chocolate spot|choc spot|chocolate spots",
    "grey mould": "botrytis|grey mould|gray mold|grey mold|mould|mold|mouldy|moldy|fuzz",
    "leaf spot": (
        "leaf spot|leaf spots|black spot|black spots|brown spots|brown spot|spots|spotting|"
        "scorch|scorched|sunscald|sun scorch|tip burn|tipburn|browning|brown edges|"
        "brown patches|septoria|brown tips|going brown|gone brown"
    ),
    "rot": (
        "rot|rotting|rotten|root rot|neck rot|white rot|blossom end rot|soft rot|black rot|"
        "stem rot|bottom rot|foot rot|rotted off"
    ),
    "damping off": "damping off",
    "clubroot": (
        "clubroot|club root|scab|common scab|canker|virus|mosaic|mosaic virus|blackleg|"
        "black leg|leaf curl|canker spots"
    ),
    "wilting": (
        "wilting|wilted|wilt|wilty|drooping|droopy|drooped|flagging|flagged|flopped|"
        "flopping over|flopping|floppy|limp|sagging|keeling over|collapsed|hanging their heads|"
        "hanging its head|looking sad|looking thirsty"
    ),
    "yellowing": (
        "yellowing|yellow|yellowed|yellow leaves|gone yellow|going yellow|turning yellow|pale|"
        "chlorosis|yellowy|yellow tips|purple leaves|purple|purpling|reddening|silvery"
    ),
    "holes": (
        "holes|hole|chewed|eaten|nibbled|munched|bitten|bite marks|nibbles|chewing|ragged|"
        "stripped|gnawed|grazed|skeletonised|skeletonized|bites|chomped|notches|notched"
    ),
    "splitting": (
        "splitting|cracking|cracked|curling|curled|curled leaves|leaves curling|stunted|"
        "stalled|sulking|leggy|drawn|lodged|falling over|fell over|blown over|blown down|"
        "flattened|leaning|fallen over|rocking|snapped|broken stems"
    ),
    "eggs": (
        "eggs|egg clusters|clusters of eggs|egg batch|egg batches|egg mass|larvae|grubs|pupae|frass|droppings"
    ),
    "frost damage": (
        "frost damage|frosted|frost bitten|frostbitten|frost nipped|nipped by frost|blackened|"
        "hail damage|hail|wind damage|wind burn|windburn"
    ),
    "weeds": (
        "bindweed|couch|couch grass|chickweed|dock|docks|ground elder|thistles|thistle|"
        "purslane|galinsoga|mares tail|marestail|horsetail|fat hen|groundsel|crabgrass|"
        "quack grass|quackgrass|nettles coming|dandelions|creeping buttercup|weeds|"
        "weed seedlings|weedy"
    ),
    "fruit set": (
        "fruit set|first fruits set|fruit setting|setting fruit|set fruit|first pods|"
        "pods forming|podding|first fruits|first fruit|pods|first pod|first tomatoes|"
        "beans setting|fruitlets|hearting up|hearting|bulbing|bulbing up|swelling|new growth|"
        "buds|flower buds|tendrils|tassels|tasselling|silks|roots showing|scapes|runners"
    ),
}
"""What may be seen, as the book calls it, to how people say it."""

PARTS: Final[dict[str, str]] = {
    "leaves": "leaves|leaf|foliage|undersides|under the leaves|tops",
    "tips": "tips|tip|growing points|shoots|shoot tips|growing tips",
    "stems": "stems|stem|stalks|stalk|haulms|haulm",
    "roots": "roots|root",
    "fruit": "fruit|fruits",
    "pods": "pod",
    "hearts": "hearts|heart|heads|crowns|crown",
    "seedlings": "cotyledons|seed leaves",
    "bulbs": "necks|neck",
}

FEEDS: Final = (
    "comfrey|comfrey feed|comfrey tea|seaweed|seaweed feed|liquid seaweed|seaweed extract|"
    "tomato feed|tomato food|liquid feed|nettle tea|nettle feed|nettle|nettles|fish emulsion|"
    "fish blood and bone|blood fish and bone|blood fish bone|fish meal|chicken pellets|"
    "poultry manure pellets|chicken manure pellets|kelp|kelp meal|bone meal|bonemeal|blood meal|"
    "worm tea|compost tea|manure tea|worm castings|potash|sulphate of potash|sulfate of potash|"
    "general fertiliser|fertiliser|fertilizer|general fertilizer|balanced fertilizer|"
    "alfalfa meal|epsom salts|plant food|pelleted chicken manure|10 10 10|5 10 5|high potash feed|"
    "feed|a feed|wood ash|liquid fertilizer|liquid fertiliser|miracle feed|plant feed"
)
AMENDMENTS: Final = (
    "manure|horse manure|horse muck|muck|cow manure|chicken manure|sheep manure|goat manure|"
    "farmyard manure|rabbit manure|poultry manure|compost|garden compost|green waste|"
    "green waste compost|municipal compost|mushroom compost|leaf mould|leaf mold|leafmould|leafmold|"
    "lime|garden lime|dolomite lime|gypsum|biochar|sand|grit|topsoil|top soil|soil improver|straw|"
    "hay|spent hops|peat|coir|cow muck|chicken muck|sheep muck|pig manure|duck manure|vermicompost|"
    "bagged compost|potting compost|potting mix|homemade compost|rock dust|alpaca manure|"
    "llama manure|steer manure|spoiled hay|old hay|worm compost|dung|horse dung|cow dung|"
    "rotted manure|basalt"
)
MULCHES: Final = (
    "wood chip|wood chips|woodchip|woodchips|bark|grass clippings|grass cuttings|lawn clippings|"
    "lawn mowings|mowings|cardboard|newspaper|bracken|sawdust|wool|pine needles|shredded leaves|"
    "leaves|straw mulch|clippings|comfrey leaves|grass"
)
PRODUCTS: Final = (
    "soap|insecticidal soap|soap spray|soft soap|soapy water|neem|neem oil|pyrethrum|pyrethrin|bt|"
    "spinosad|copper|copper fungicide|bordeaux|bordeaux mixture|sulphur|sulfur|slug pellets|"
    "ferric phosphate|ferric phosphate pellets|iron phosphate|nematodes|garlic spray|fungicide|"
    "insecticide|pesticide|weedkiller|weed killer|glyphosate|herbicide|horticultural oil|bug spray|"
    "aphid spray|diatomaceous earth|baking soda|milk|milk spray|bicarb|kaolin|wettable sulphur|"
    "wettable sulfur|rapeseed oil|fatty acids|dish soap|washing up liquid|slug bait|"
    "beer traps|slug nematodes|potassium bicarbonate|bug killer|plant oil|chilli spray|chili spray"
)

COVERS: Final[dict[str, str]] = {
    "fleece": (
        "fleece|frost fleece|row cover|row covers|floating row cover|frost cloth|frost blanket|"
        "garden fleece|horticultural fleece"
    ),
    "mesh": (
        "mesh|insect mesh|insect netting|insect net|bug netting|bug mesh|fine mesh|"
        "butterfly mesh|fly mesh|micromesh|insect screen"
    ),
    "netting": (
        "net|nets|netting|bird net|bird netting|bird nets|butterfly netting|butterfly net|"
        "pea netting|pigeon netting"
    ),
    "hoops": "hoop|hoops",
    "film": (
        "polythene|plastic sheet|plastic|cloche|cloches|black plastic|sheeting|low tunnel|"
        "clear plastic|weed membrane|membrane|tarp"
    ),
    "screen": "shade cloth|shade netting|shading|shade net|windbreak|wind break|shade screen",
    "scare": ("kite|scare kite|scarecrow|scarer|bird scarer|cds|hawk kite|bird kite|humming line|flash tape"),
    "tray": "module tray|module trays|seed tray|seed trays|cell tray|cell trays|propagator",
    "tool": (
        "hoe|spade|fork|rake|trowel|shears|secateurs|pruners|dibber|sprayer|wheelbarrow|"
        "hosepipe|knife|loppers|watering can"
    ),
    "other": (
        "collar|collars|slug collar|slug collars|bottle|bottles|copper tape|wire|wire cage|"
        "cage|cages|tomato cages|canes|stakes|bamboo canes|water butt|rain barrel|twine|labels|"
        "hose|bucket|buckets"
    ),
}
"""Sorts of kit to what people call them."""

PLAN: Final = (
    "i mean to|mean to|meaning to|going to|gonna|will|ill|well have to|need to|needs to|need|needs|"
    "needed|must|should|ought to|"
    "want to|wants to|would like|would love|id like|wed like|tomorrow|next week|next year|"
    "next spring|next season|next time|next month|next summer|next autumn|next winter|next weekend|"
    "next saturday|next sunday|maybe|remember to|dont forget|planning|plan to|plan is|intend|"
    "hoping to|hope to|thinking of|thinking about|wonder|wondering|could do with|if|when the|"
    "needs doing|needs picking|still to do|todo|to do|reckon we should|might|idea|always said|"
    "used to say|says to|supposed to|meant to|due to|wish|why not|lets|ask|reminder|order more|"
    "have to|has to|had to order|running out of|run out of|shall|can we|could we|want|would be|would"
)
"""Words of what is not done yet, or only thought of."""

NOT_DONE: Final = (
    "didnt|did not|havent|have not|hasnt|has not|hadnt|havnt|no time to|no time for|"
    "never got round to|never got to|never got around to|didnt get round to|didnt get to|"
    "didnt get around to|didnt bother|couldnt|could not|unable to|ran out of time to|"
    "ran out of time for|not|never|no need to|no need for|wasnt able to|forgot to|didnt manage to|"
    "left the|no|cant|without|couldnt face|dont|do not|havent had time to|decided against|nobody has|"
    "no one|nobody|nothing|none|too wet to|too dry to|too hot to|too cold to|too windy to|isnt|arent|"
    "wasnt|werent|aint|nae"
)

NICKNAMES: Final[dict[str, str]] = {
    "tomato": "toms|tommies|tomatos|maters",
    "cucumber": "cukes|cuke|cues",
    "summer-squash": "zukes|zuke|zucchinis|courgettes",
    "strawberry": "strawbs",
    "potato": ("tatties|tattie|taters|tater|totties|praties|new potatoes|new spuds|earlies|first earlies"),
    "fava-bean": "favas|broadies|broads",
    "runner-bean": "runners",
    "bush-bean": "french beans|green beans|haricots|haricots verts|dwarf beans|snap beans|string beans",
    "cauliflower": "caulis|cauli|caulies",
    "beet": "beets",
    "rutabaga": "neeps",
    "pea": "mange tout|mangetout|sugar snaps|snow peas",
    "pepper": "caps|peppers|chillies|chilis",
    "lettuce": "lettuces|salad leaves",
    "parsnip": "snips|nips",
    "brussels-sprouts": "brussels",
    "rhubarb": "rhubard",
    "pumpkin": "pumpkins",
    "eggplant": "aubs",
}
"""Short names of everyday speech beside those of the sheets. Class: common-practice."""

GROUPS: Final[dict[str, str]] = {
    "brassicas": (
        "cabbage|kale|broccoli|cauliflower|brussels-sprouts|kohlrabi|bok-choy|napa-cabbage|"
        "collards|turnip|rutabaga"
    ),
    "alliums": "onion|garlic|leek|shallot|bunching-onion",
    "legumes": "pea|bush-bean|pole-bean|runner-bean|fava-bean|lima-bean",
}
"""Words that mean all crops of a sort that stand."""

YOUNGER: Final = (
    "second sowing|second lot|second row|second batch|later sowing|later|younger|new sowing|newer|"
    "second|new lot|young|late sown|latest|other sowing|little|small|june sown|second crop|"
    "successional"
)
OLDER: Final = (
    "first sowing|first lot|first row|older|oldest|earlier|early sown|first batch|earlier sowing|"
    "main|big|first sown|old|early sowing"
)
IDLE: Final = (
    "water butt|water butts|rain barrel|hose bib|hose pipe|gave us|gave me|waste of time|"
    "water feature|water tank|watering can"
)
"""What no act of the garden is told with."""
FALSE_FRIENDS: Final = (
    "soaked to the skin|soaked through|got soaked|im soaked|me soaked|wet through|soaking wet me|"
    "by hand|size of|the size of|as a|thin as|tap|on the other hand|in the end|at least|at last|"
    "in fact|of course|on time|thank you|to write down|for the record|for supper|for the supper|"
    "for tea|for dinner|for lunch|write down|in there|in it|on it|on them|as well|up to date|"
    "come through the winter|came through the winter|come through the frost|came through the frost|"
    "make up|hope so|not much|not too|no problem|not bad|lots of|full of|kind of|sort of|"
    "instead of|as thick as|looking good|getting on|grown up|going well|doing well|lined up|fed up|"
    "used up|messed up|cup of tea|out by|back in|well spent|near enough|up there|up here|up at|"
    "up by|up and down|set up|fix|fixed|by the way|as usual|no idea|no doubt|nothing else|"
    "nothing much|not sure"
)
"""Phrases whose words do not mean what they mean alone."""
EXCEPT: Final = "except|except for|apart from|but not|excluding|all but|other than|not counting|bar"
BESIDE: Final = (
    "between|next to|beside|alongside|near|nearby|close to|behind|among|amongst|in between|"
    "opposite|instead of|in place of|where the|under the|beyond|replacing|after the|following"
)
"""Words that lead to a place only near the one meant."""

SHAPE_WORDS: Final[dict[str, str]] = {
    "tub": "tub|container|planter",
    "tunnel": (
        "tunnel|polytunnel|poly tunnel|poly|hoop house|hoophouse|high tunnel|greenhouse|"
        "glasshouse|poly house|polyhouse|plastic house"
    ),
    "frame": "frame|cold frame|coldframe|cold frames",
    "shelf": "shelf|windowsill|window sill|staging|seed shelf|bench",
}
"""What people call a place of a shape."""

STOPS: Final = frozenset(
    [
        "a",
        "an",
        "the",
        "of",
        "to",
        "from",
        "in",
        "into",
        "on",
        "onto",
        "at",
        "by",
        "for",
        "with",
        "and",
        "or",
        "then",
        "so",
        "also",
        "too",
        "as",
        "it",
        "its",
        "they",
        "them",
        "their",
        "there",
        "these",
        "those",
        "that",
        "this",
        "i",
        "we",
        "you",
        "he",
        "she",
        "me",
        "us",
        "my",
        "our",
        "your",
        "his",
        "her",
        "ive",
        "weve",
        "id",
        "im",
        "ill",
        "were",
        "was",
        "is",
        "are",
        "be",
        "been",
        "being",
        "has",
        "had",
        "have",
        "am",
        "now",
        "just",
        "only",
        "still",
        "about",
        "around",
        "again",
        "today",
        "out",
        "off",
        "over",
        "under",
        "up",
        "down",
        "through",
        "after",
        "before",
        "between",
        "some",
        "any",
        "all",
        "every",
        "each",
        "one",
        "ones",
        "two",
        "both",
        "lot",
        "lots",
        "bit",
        "little",
        "more",
        "most",
        "very",
        "really",
        "quite",
        "pretty",
        "nice",
        "nicely",
        "good",
        "well",
        "lovely",
        "big",
        "small",
        "large",
        "fresh",
        "new",
        "old",
        "first",
        "second",
        "please",
        "ok",
        "okay",
        "right",
        "oh",
        "ah",
        "um",
        "er",
        "erm",
        "well",
        "yes",
        "yeah",
        "finally",
        "already",
        "here",
        "which",
        "who",
        "what",
        "where",
        "when",
        "while",
        "but",
        "because",
        "cos",
        "since",
        "until",
        "till",
        "round",
        "near",
        "plus",
        "per",
        "about",
        "plants",
        "plant",
        "seeds",
        "seed",
        "seedlings",
        "rows",
        "row",
        "bed",
        "beds",
        "tub",
        "tubs",
        "garden",
        "plot",
        "patch",
        "back",
        "front",
        "end",
        "side",
        "top",
        "bottom",
        "middle",
        "half",
        "rest",
        "whole",
        "another",
        "other",
        "few",
        "several",
        "couple",
        "many",
        "much",
        "got",
        "get",
        "put",
        "did",
        "done",
        "do",
        "does",
        "went",
        "go",
        "going",
        "came",
        "come",
        "made",
        "make",
        "took",
        "take",
        "gave",
        "give",
        "day",
        "days",
        "morning",
        "afternoon",
        "evening",
        "night",
        "week",
        "time",
        "times",
        "bunch",
        "bunches",
        "heads",
        "head",
        "pods",
        "bulbs",
        "bulb",
        "roots",
        "root",
        "tubers",
        "cloves",
        "clove",
        "sets",
        "set",
        "leaves",
        "leaf",
        "fruit",
        "fruits",
        "hearts",
        "trays",
        "tray",
        "lots",
        "really",
        "like",
        "look",
        "looks",
        "looking",
        "see",
        "seen",
        "saw",
        "found",
        "sorry",
        "forgot",
        "said",
        "say",
        "tell",
        "note",
        "write",
        "record",
        "log",
        "entry",
        "btw",
        "fyi",
        "update",
        "reckon",
        "think",
        "thought",
        "makes",
        "near",
        "enough",
        "it's",
        "hand",
        "whole",
        "fresh",
        "spacing",
        "spaced",
        "apart",
        "deep",
        "depth",
        "distance",
        "long",
        "wide",
        "high",
        "tall",
        "metre",
        "meter",
        "piece",
        "pieces",
        "roll",
        "packet",
        "pack",
        "gone",
        "ready",
        "home",
        "tea",
        "supper",
        "dinner",
        "lunch",
        "kitchen",
        "breakfast",
        "evening",
        "tonight",
        "pm",
        "am",
        "oclock",
        "hi",
        "hello",
        "thanks",
        "thank",
        "cheers",
        "finished",
        "number",
        "no",
        "size",
        "sized",
        "worth",
        "roughly",
        "reading",
        "reads",
        "read",
        "test",
        "same",
        "stuff",
        "thing",
        "things",
        "bits",
        "we've",
        "i've",
        "total",
        "each",
        "apart",
        "via",
        "using",
        "use",
        "used",
        "nb",
        "ps",
        "approx",
        "approximately",
        "temp",
        "temps",
        "temperature",
        "gauge",
        "thermometer",
        "label",
        "says",
        "days",
        "wait",
        "harvest",
        "interval",
    ]
)
"""Words that may go unsaid in the echo without loss."""
