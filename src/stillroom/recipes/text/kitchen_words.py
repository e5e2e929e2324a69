"""Words of the kitchen that name no food: how a food goes in, and words that carry nothing."""

from functools import lru_cache

from stillroom.recipes.text.names import stem

# How a food is cut, cooked, kept, how large or good it is. Colors and kinds stand here too: where
# the food list does not tell them apart they change nothing but are kept as written.
_PREP = """
baked beaten bias blanched boil boiled boiling boned boneless bottled broken browned bruised
brushed canned caramelized charred chilled chopped chunk chunked chunky coarse coarsely cold
commercial cooked cooled cored cracked crisp crosswise crumbled crushed cube cubed cubes cured cut
cutup cut-up deboned debearded defatted deseeded destemmed deveined diagonal diagonally dice diced
dressed drained dried dry end ends trimmed evenly fat-free fatty filtered fine finely firm firmly
flaked flesh-on fresh freshly fried frozen full-fat gentle gently grade grated grilled ground
halved halves hard hard-boiled hot hulled husk husked husks husk-on iodized in-shell jarred
julienne julienned juiced kernels large lean lengthwise lightly liquid low-fat low-sodium
lukewarm marinated mashed mature medium melted mild mince minced mixed natural new organic
overripe packed pared partly paste peel peeled pickled pieces piece pink pitted plain plump
poached pod pods pounded powdered prepared pressed pricked pure pureed purple quartered quarters
rasher raw reconstituted reduced refrigerated reserved rind rinsed ripe roast roasted roasted
rolled room roughly round rounds salted scalded scraped scrubbed seed seeded seedless seeds
semi-ripe separated shaken shell-on shelled shelling shredded shucked sieved sifted
simmered skin skinless skinned skins skin-on sliced slices slicing slightly slit slivered small
smashed smoked smooth snapped snipped soaked soft softened sour split spray squeezed steamed stem
stemmed stems stewed strained strips strong stoned stringed stringless strung sweet tart temperature
tender thawed thick thickly thin thinly tightly tiny toasted tops topped torn trim uncooked warmed
undrained underripe unpeeled unripe unsalted unseasoned unsweetened warm washed wash wedges well
whole whisked wild yellow white red green orange black blue brown golden dark light pale bright
crown garden homegrown homemade store-bought storebought young old baby mini jumbo extra virgin
heirloom roma beefsteak vine vine-ripened winter summer spring english italian greek hungarian
persian japanese chinese thai european american asian southern northern russet waxy starchy
granulated superfine coarse-ground cracked instant regular quick-cooking quick rapid
non-iodized additive-free pickling canning table kosher sea thirds bite bite-size bite-sized size
sized
chunks matchsticks matchstick coins coin rings ring floss florets floret sprigs leaf leaves bulb
bulbs heads head clove cloves stalk stalks ribs rib ear ears tip tips tails tail root roots
good quality best favorite favourite standard common ordinary local tame farm farmed free range
grass fed pasture pastured sashimi center loin-cut elbow lightly-packed unbleached bleached
sodium reduced-sodium unflavored flavored plain-flavored distilled iodine low high
overnight straight cob sack button crumbles held food body tough pearl creamed together blistered
flattened precooked parboiled milled reheated
fermented brined thru run mill blender machine depth mid kernel left style type pulp flesh balls
meatballs strings sliver chipped undiluted discarded divided sweetened thicken stirred dropped made
slow quickly cool cooking chill heat drained pricked cover covered packed fit stand rested off
processor sheeting cupboard counter dark rendered jellied whipped toasty tender-crisp al dente
lg med sm xl chopd chpd pcs approx home homecanned clear sauteing frying browning topping garnish
dredging coating greasing sauteed lid lids ring rings band bands ripe-picked vined sun-ripened
cleaned dusted dredged coated floured tossed rubbed seasoned wrapped stuffed pierced poked scale
scaled
""".split()
_FILLER = """
a an the of and or to into in for at with without from on by as each about some any all other more
plus then until also just only very if it its is are be been being was were that this these those
your our my his her their you we i they so such like per used using use off out up down one both
not than too either well enough still preferably ideally after before when while over
jar jars little through can be give them there here thing things pot kettle bowl dish put puts go
til till total additional approximately approx around roughly equal part parts amount way few bit
keep
""".split()


@lru_cache(maxsize=1)
def prep_words() -> frozenset[str]:
    """Stems of words that tell how a food goes in."""
    words = {word for long in _PREP for word in long.split("-")} | set(_PREP)
    return frozenset({stem(word) for word in words} | words)


@lru_cache(maxsize=1)
def filler_words() -> frozenset[str]:
    """Words that carry nothing of their own in an ingredient line."""
    return frozenset(_FILLER)


# After these the words of a piece no longer name the food itself.
TURNS = frozenset(
    "in with from for instead rather so without into like such to than as on until at over "
    "about plus under through between if after before by til till".split()
)
