"""Words of everyday English that are not to be taken for a mistyped word of the trade."""

from __future__ import annotations

from typing import Final

from spadework.usecases.line.amounts import UNIT_WORDS
from spadework.usecases.line.days import MONTHS, PARTS_OF_DAY, WEEKDAYS
from spadework.usecases.line.vocabulary import STOPS

_ENGLISH: Final = (
    "able about above across after again against ages ahead alive almost alone along already also "
    "although always among angry another any anything anyway apart area arms around arrived asked "
    "aunt away awful baby back bare barely basket beautiful because been before began behind being "
    "below best better between beyond bigger biggest bird bits black blue boots border both bottom "
    "bowl bowlful box boys bread break bright bring broke brought brown brush bucket busy call "
    "called came cannot care careful carefully carried case cats cause chair chance change cheap "
    "check cheers chicken child children class clean clear close cloud cloudy coffee cold colour "
    "color come corner cost could couple course cross crowded dark daughter days dead deal dear deep "
    "didnt different dinner dirt dirty does dogs doing done door down dozen drain dress drop dropped "
    "during each early earth east easy edge eight either else empty enough even evening ever every "
    "everyone exactly extra eyes face fact fair fairly fall family fast feel feels feet fell fence "
    "field fill filled final finally find fine finger finished fire first five fixed flat floor fold "
    "food foot forgot four free friend friends from front full funny gale game gate gave gently gets "
    "getting girl girls give glad gloves gone good grand grass great green grew grey ground group "
    "grow growing grown guess hair half hand handful hands hanging happy hard have head health hear "
    "heard heat heavy height held help helped hence here high hill hold home hope horse hose hours "
    "house however huge hurt husband idea inside instead into itself jacket jobs just keen keep "
    "keeps kept kids killed kind kitchen knee knew know known label lack lady lane large last late "
    "later least leave left legs less lesson lets level lids life light like likely line lines list "
    "little live loads local long longer look looked looking looks loose lose lots loud love lovely "
    "luck lucky lunch made main make making many mark market master maybe mean means meant meet mess "
    "middle might mile mind mine miss missed mixed moment money month moon more morning most mother "
    "move much muddy mums must myself nearby nearly neat need needed neighbour neighbor neither "
    "never news next nice night nine none normal north nothing notice number odds okay once only "
    "onto open order other others ours outside over overall pair pale paper part past patch path "
    "pause people perhaps phone pick piece place plain plan plate play please plenty plot poor post "
    "pour pouring pretty probably proper properly proud pump pushed quick quickly quiet quite rain "
    "raining rainy rather reach read ready real really reason record rest right road roll roof room "
    "rose rough round rows rule running said same sand saved says school second seem seems seen self "
    "send sense seven several shade shape share sharp shed sheet shop short should shoulder show "
    "showed shower showers sick side sides sign silly since size skin small smell snow soaked soft "
    "soil sold some someone something sometimes song soon sore sorry sort sound south space spare "
    "spent spot spots spring stand start started starting state stay step still stones stood stop "
    "stopped storm story strange street string strong stuff such sure surface sweet table tail take "
    "taken talk tall task taste tasted tasty teacher tell than thank thanks that their them then "
    "there these they thick thin thing things think third this those though thought three threw "
    "through tidy tied till time times tiny tips tired today toes together told tomorrow tonight "
    "took tops total touch towards town tree trees tried trouble trust truth turn turned twice under "
    "until upper upset used useful usual usually very visit wait waited walk wall want wanted warm "
    "wash wasted water weak wear weather week weekend weight well went were west wet what wheel when "
    "where which while white whole whose wide wife wild will wind windy wine winter with without "
    "woman wonder wood word words wore work worked working works worse worst worth would wrong yard "
    "year years yellow yesterday young yours clouds frost frosty sunny sunshine boiling baking swap "
    "lent borrow visitor visitors robin birdsong butt leaking drip broken mended fixing oil lock "
    "locks hinge handle ladder bench kettle camera photo photos picture pictures knees backs aching "
    "stiff drenched brilliant fabulous gorgeous ugly horrible disaster miracle honest honestly "
    "literally basically actually frankly grandad grandma granny grandpa uncle sister brother cousin "
    "nephew niece parents pupils learners learner helper helpers volunteers keeper meal soup salad "
    "stew pudding pie crumble jam pickle pickles roast freezer fridge cupboard larder beer whisky "
    "whiskey cider cake biscuits noon midday dawn dusk sunrise sunset peat clay loam stone stony "
    "slope drainage puddle puddles flood flooded ditch hedge hedges nettle bramble brambles lawn "
    "mower mowed mowing strimmer strimmed gravel paving shovel shoveled trench trenched pegs shears "
    "gates fences nets poles beans cared dates sheds fully badly sadly gladly mainly partly squashed "
    "squished crushed binned burnt burned plucky thrive thriving thrived strongly vigorous vigour "
    "recover patchy thinly thickly evenly tightly loosely gappy tasting hauling hauled haul wheeling "
    "carting carted tidying tidied sweeping swept painting painted building sharpened sharpening "
    "cleaning oiled washing sorted sorting moving carrying spreading tipping chatting visiting "
    "planning ordering reading writing drawing teaching learning germination weighed shelled "
    "cellar attic garage loft barn "
    "pantry crate crates sacks kiln porch cant wont dont isnt wasnt arent havent hasnt shouldnt "
    "couldnt wouldnt thats theres heres whats youre theyre weve theyve youve"
)
_NEXT_TO_OURS: Final = (
    "world court single saying county stage super speed spend coach train battle brain sports cancer "
    "stock beach shown basic parties block lived stars glass forced score throw wedding target agent "
    "apply basis chris selling cast cards liked raise closer matters plane remove planned formed "
    "planet grant teach votes fired funding scored pages singing parent counter latter chose seats "
    "paint shipping steam greek filed trick chart loving choices courts supporters gross ideal "
    "retired singles beating clock stages worker skill struck banned saint trans layer sudden sweden "
    "arrive honey scary scoring walter ranked bears glasses kills swing arena dropping shake shore "
    "stats trap blast blocked grave rated accounting beast targets grades intent composed corps "
    "coins cooper mounted ruined aimed hosted lonely wages robot wider wound snake pleasant beaten "
    "holder males stole caring flesh laser camps sandy turner battles collapse grain verse acres "
    "lease reminded charts hosting makers retain sporting hates translated twins curve flows revised "
    "tours closet seeks skilled charm arrives booth draws hardest mighty drill earliest flags basin "
    "fairy lodge widow curse excellence flame ports supporter holmes shout alter planets raises "
    "speeds supportive tide blows brooks finale shallow container flames remainder badge nerves "
    "praised insert leeds stark dragged drone noting spelling spurs survivor mates robots moses "
    "grande priced succession drake modes sprint brake cough locker chess float grind spice towel "
    "clown cries descent liam prone shells hooked stare finishes bikes emerge beatles choir holly "
    "opener sucking graves molly peaks riots tuned relay snakes sucked bets flaws freed incorporate "
    "niche bracket pitched poets spill wendy polling punched reset shave slots staged thru basics "
    "clues fuels relied scent token tracy tunes verses dolls spoil maggie wandering strap allison "
    "faint retaining trout peach rotating seating beams greene scars atoms shattered aided belts "
    "brook coats commanders folder limbs ranged scots torch clearer converting gases grapes greed "
    "regain thigh forged greeks removes ample slowed slowing stove crust fined moody chilling flock "
    "nothin rabbi sewing shale slipping clone drown revive scarf stunned merged verge wander kumar "
    "manly peasants repay shaved shove chord crest flipped fuzzy hooks logged nicer shakes spying "
    "bates dread reacted sewer broadcaster groom inspect scorer stacked canned clive peasant shaving "
    "tally timed decks emerges moose scarce waiter benny browsing chant mound rugged stared yankee "
    "drills raced casts needy agnes crises flipping stokes batter escapes savvy thinner thugs witty "
    "incorporates outsider planners routing slang charms chores colder covert flair lest shouts "
    "skipper striped welding swearing swore cores morse sails excerpt pleas stalls wiley badges "
    "cannes chilly chords clowns irritated manny milky suing chilled stacks translating deter haley "
    "hires mclean robbins scalp mater sinks swung compose floats plank ponds slater carts cracker "
    "gasp graded merging stout stripper vested aiding excellency inject orion soaring stoked "
    "strapped verbs booming dustin mocked stale tripped trough wager whoops wilde basel broom eater "
    "eaton morrow crook leases spacex sprung taxing weeping clones finer fused latex polly shear "
    "shitting babes broth ceos cones liners mashed slows sprinkle stacy binds gland hearty slime "
    "tomas chats collapses mandy preached shaming baird breached clover infect bedside burying cords "
    "bends coveted glazed picky propagation rocker shalt sheen sleek sling studs tombs boating "
    "cranes flowed plaid racket rotated buggy heals vents chopper donut heaps paisley routed thine "
    "leafy meddling sipping stacking taper cello draper harms marin ardent cramped finder shabby "
    "beech camped latent makin picket snuck basins bytes crouch fruity licked silky slaying snoring "
    "welded easing keating leach lefty slade snare suede tweed widen deceit flattered gaelic greer "
    "greta paleo perched skewed stallion taping underside cloning corny feats mani myles polled "
    "scrambling coldest crooks lodges padded ploy takers"
)
"""Common words and names that are one slip away from a word of the trade."""

KNOWN: Final = frozenset(
    {*_ENGLISH.split(), *_NEXT_TO_OURS.split(), *STOPS, *UNIT_WORDS, *MONTHS, *WEEKDAYS, *PARTS_OF_DAY}
    | (
        {
            "half",
            "quarter",
            "third",
            "hundred",
            "thousand",
            "dozen",
            "twelve",
            "eleven",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
        }
    )
    | (
        {
            "twenty",
            "thirty",
            "forty",
            "fourty",
            "fifty",
            "sixty",
            "seventy",
            "eighty",
            "ninety",
            "roughly",
            "approximately",
            "nearly",
            "almost",
            "yday",
            "since",
            "until",
        }
    )
)
WANTED_TOO: Final = frozenset(
    {
        *WEEKDAYS,
        "yesterday",
        "today",
        "litres",
        "liters",
        "gallons",
        "inches",
        "minutes",
        "kilos",
        "grams",
        "pounds",
        "metres",
        "bucket",
    }
)
"""Words beside those of the lexicon that a mistyped one may be taken as."""
