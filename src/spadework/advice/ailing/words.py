"""Growers' words for signs, brought to one form: stems, and words that mean the same."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from functools import cache
from typing import Final

_WORD: Final = re.compile(r"[a-z]+(?:'[a-z]+)?")

NOT: Final = "not"
FEW: Final = "few"
"""The form of every word that says a sign is not there."""

_NEGATION_WORDS: Final = """
no not without never none nothing neither nor isn't aren't doesn't don't wasn't hasn't haven't
didn't can't cannot nowhere free
"""
_NEGATIONS: Final = frozenset(_NEGATION_WORDS.split())

_STOP_WORDS: Final = """
a an the and or of on in at to is are was were be been am it its this that these those there here
with as if so very quite just some any all has have had i my me we our they them their you your from
for by into onto over about out up also too than then while when where which who what how only one
ones more most much many do does did can could will would like look looks looking seem seems
appear appears get gets getting got go goes going gone plant plants see seen find found notice
noticed keep keeps now today week day days lately recently kind sort bit lot lots each every
other both still even start starts started begin begins beginning become becomes turn turns turning
turned show shows showing part parts place whole row bed garden say few cm mm across same rather
almost mostly such ends end come comes came coming being per down away off stuff thing things
everywhere anything something everything them after before next beside near nearby again well too
otherwise all whole full right just hand touch touched put take takes taken plenty already yet fully
entire entirely actually clearly obvious obviously really maybe perhaps think looked first last main
mainly especially
"""
_STOP: Final = frozenset(_STOP_WORDS.split())
"""Words that tell no sign."""

_SAME_WORDS: Final = """
leaf leaves foliage leaflets leaflet frond fronds
fruit fruits pod pods berry berries truss cob ear ears husk
root roots taproot
bulb bulbs clove cloves
tuber tubers spud spuds
stem stems stalk stalks vine vines haulm haulms shoot shoots cane trunk
flower flowers blossom blossoms bloom blooms flowering
tip tips tops
inside inner interior middle middles centre centres center centers
heart hearts head heads
seedling seedlings cotyledon cotyledons
hole holes holed pinhole pinholes perforated pit pits pitted pitting shothole
eaten eat eating chewed chew chewing nibbled nibble munched gnawed gnaw bitten bite bites \
grazed devoured rasped scraped stripped
ragged torn tear tears shredded shred tattered ripped
window windows pane panes
spot spots spotted spotting lesion lesions mark marks freckle freckles
patch patches patchy blotch blotches blotchy splotch splotches area areas
dot dots fleck flecks flecked speck specks
speckle speckled speckling stipple stippled stippling mottled mottle mottling mosaic
yellow yellowed yellowing yellowish pale paler chlorotic chlorosis light-green lime washed
brown browned browning brownish tan rusty-brown
bronze bronzed bronzing coppery copper
black blackened blackish dark darkened inky
white whitish whitened bleached bleach papery paper cream silver-white
grey gray greyish grayish ashy
purple purplish purpled violet reddish reddened
orange rust rusty rust-coloured
silver silvery silvered
wilt wilts wilted wilting droop droops droopy drooping limp flag flagging flagged flop flops flopped \
floppy collapse collapses collapsed collapsing sag sagging
topple toppled fallen fall falls fell keeled lodged over-fallen
die dies died dying dead death
curl curls curled curling cup cupped cupping roll rolled rolling rolls crinkled crinkle crinkly \
puckered
twist twisted twisting distort distorted distortion deformed malformed misshapen contorted fern-like \
ferny strappy stringy
crooked bent curved hooked
fork forked forking forks branched split-root
split splits splitting crack cracks cracked cracking burst bursting
sticky honeydew tacky gummy
web webs webbing webby cobweb cobwebs silk silken thread threads
powder powdery floury flour dust dusty dusting talc talcum
mould mold mouldy moldy mildew mildewed fuzz fuzzy fur furry fluff fluffy downy felt felty cottony \
cotton woolly wooly fungus growth
rot rots rotted rotten rotting mush mushy slime-rot decay decayed decaying soft squishy
slime slimy slick
trail trails track tracks
tunnel tunnels tunnelled tunneled mine mines mined miner burrow burrows bore bored boring bores \
channel channels
squiggle squiggles squiggly wavy winding wiggly line lines serpentine
maggot maggots grub grubs larva larvae worm worms
caterpillar caterpillars
looper loopers inchworm inchworms looping
beetle beetles
fly flies midge midges
whitefly whiteflies
moth moths butterfly butterflies
aphid aphids greenfly blackfly lice louse
bug bugs insect insects creature creatures critter critters
mite mites
slug slugs snail snails
egg eggs
frass droppings dropping pellets sawdust poo poop crumbs excrement
jump jumps jumping hop hops hopping spring springs leap leaps leaping flit flits
stunt stunted stunting dwarf dwarfed undersized weak spindly poor short
small smaller tiny little
slow slowly standstill stuck stopped stalled
tall leggy lanky stretched
bolt bolts bolted bolting seed-stalk
sunken sunk dented depressed
leather leathery
corky corked scabby scab scabs warty wart warts rough russeted
swollen swell swelling swellings clubbed club lumpy lump lumps knobbly galls gall knots knot knobs
soaked water-soaked watery wet glassy translucent greasy
ring rings ringed concentric target bullseye bull's-eye halo circles circle
edge edges margin margins rim rims border
vein veins
between interveinal
lower bottom oldest older old
upper top young youngest new newest
under underside undersides beneath below underneath undersurface
base ground soil soil-level collar foot crown
cut severed snipped clipped felled bitten-off
missing vanished disappeared gaps gap bare absent
pulled pull pulls uprooted yanked tugged
dug dig digs digging scratched scattered scraping
peck pecked pecks pecking
ooze oozing weep weeping gum gumming
smell smells smelly stink stinks foul odour odor
brittle crisp crispy crunchy dry dried drying shrivel shrivelled shriveled withered scorched scorch \
burnt burned burn
drop drops dropped dropping shed sheds shedding aborted abort
set sets setting
hollow empty
bitter
noon midday afternoon day-heat
evening night overnight dusk dawn morning
recover recovers recovered recovering
sudden suddenly
few hardly scarcely barely sparse
easily easy effortless effortlessly light lightly gentle gently loose
angular blocky square squares
seed seeds sow sown sowed sowing
stump stumps stub stubs
hard baked capped caked
crust crusted crusting cap
manure muck dung compost straw hay clippings
grass grasses
side sides
round circular
thin thinned narrow pinched wire wiry constricted
green greenish greened
wind windy blown
clean cleanly neat neatly
tough woody
healthy sound normal undamaged untouched unmarked intact perfect unharmed unaffected
"""
"""Words that mean the same of a plant, a group a line; the first is the form they take."""

_SUFFIXES: Final = ("ings", "ing", "ied", "ies", "edly", "ed", "es", "ly", "s")


@cache
def _canon() -> dict[str, str]:
    found: dict[str, str] = {}
    for group in _SAME_WORDS.strip().splitlines():
        own = group.split()
        for word in own:
            found.setdefault(word.replace("-", " ") if "-" in word else word, own[0])
    return found


def stem(word: str) -> str:
    """A word without its ending, by rule."""
    for suffix in _SUFFIXES:
        if word.endswith(suffix) and len(word) - len(suffix) >= 3:
            root = word[: -len(suffix)]
            if suffix in ("ied", "ies"):
                return root + "y"
            return root[:-1] if len(root) > 3 and root[-1] == root[-2] and suffix != "s" else root
    return word


_ALSO: Final = {
    "patch": "spot",
    "dot": "spot",
    "speckle": "dot",
    "bronze": "brown",
    "beetle": "bug",
    "fly": "bug",
    "whitefly": "bug",
    "aphid": "bug",
    "mite": "bug",
    "caterpillar": "maggot",
    "tip": "upper",
    "tunnel": "hole",
}
"""Forms that are also a kind of another: a patch is a spot, a beetle an insect."""


def form(word: str) -> str:
    """The one form of a word; empty for one that tells nothing."""
    if word in _NEGATIONS:
        return NOT
    same = _canon()
    if word in same:
        return same[word]
    if word in _STOP:
        return ""
    root = stem(word)
    return same.get(root, root)


def forms(text: str) -> list[str]:
    """A text as forms in order, those that tell nothing left out."""
    low = text.casefold().replace("’", "'").replace("-", " ")
    found = [each for word in _WORD.findall(low) if (each := form(word))]
    return [each for one in found for each in (one, _ALSO.get(one, "")) if each]


def nearest_form(word: str, known: Iterable[str]) -> str:
    """A misspelt form as the known one next to it; itself where none is near."""
    if len(word) < 5:
        return word
    near = difflib.get_close_matches(word, known, n=1, cutoff=0.84)
    return near[0] if near else word
