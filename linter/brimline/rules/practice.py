"""Unsafe habits in the prose of a formula: what a step tells the cook to do with jars, lids, bands, water and pots."""

from collections.abc import Iterator

from brimline._remember import remembered
from brimline.findings import Flag
from brimline.moves.values import Case
from brimline.rules.additive import notes
from brimline.rules.contract import rule
from brimline.rules.prose import Habit, shown
from brimline.rules.standins import no_lid, other_container, replaces_process

# When the jars are out of the canner, however it is put.
LATER = (
    r"\b(?:(?:after|once|when|while|as soon as) (?:they|it|the jars|the lids|everything)(?: \w+){0,2} (?:cool\w*|come out|comes out|out|warm|hot|processed)|"
    r"after (?:processing|canning|cooling|an hour)|out of the (?:canner|water|bath)|(?:the )?next (?:day|morning)|overnight|still (?:hot|warm))\b"
)
NEW_LIDS = (
    r"\bnew (?:one|(?:flat )?lids?|flats)\b|\b(?:lids?|flats) (?:must|should|have to|need to)(?: always)? be new\b"
)
# Levels: unsafe where guidance names illness or the heat process falls short; untested where a seal may fail;
# quality where only the jar or the food suffers. An empty source is common practice, no source.
HABITS = (
    Habit(
        "used lids",
        r"\b(?:last (?:year|season|summer|fall|winter)'?s?|used|second-hand|saved|reuse|re-use|reusing|second time|second use|"
        r"previous(?:ly)?|been through|came off|off (?:the )?(?:last|old|other|empty|opened)|from (?:last|old|other|empty|opened|previous))\b|"
        r"\bold (?:\w+ )?(?:flats?|lids?|discs?|caps)\b",
        r"\b(?:flats?|flat lids?|lids?|discs?|caps)\b",
        rf"{NEW_LIDS}|\bbands? (?:may|can)\b|\bscrew bands may\b|\b(?:throw|discard|toss|recycle|bin)\b",
        level="untested",
        harm="spoilage",
        why="A used flat lid fails more often",
        source="reused_lids",
    ),
    Habit(
        "used lids",
        r"\b(?:again|twice|once more)\b",
        r"\b(?:flats?|flat lids?|lids?|discs?|caps)\b",
        rf"{NEW_LIDS}|\b(?:bands?|tighten|cool|boil|screw|throw|discard)\b",
        level="untested",
        harm="spoilage",
        why="A used flat lid fails more often",
        source="reused_lids",
    ),
    Habit(
        "old closure",
        r"\b(?:wire[- ]bails?|wire clips?|bails?|glass (?:caps?|lids?|tops?)|rubber rings?|zinc (?:caps?|lids?)|lug caps?)\b",
        r"\b(?:fit|snap|lay|clos|seal|clamp|screw|clip|press)\w*",
        level="untested",
        harm="spoilage",
        why="Such closures are not recommended, for nobody can tell whether they have sealed",
        source="old_closures",
    ),
    Habit(
        "overtight bands",
        r"\b(?:as (?:hard|tight|tightly|firmly) as (?:you can|possible|they|it)|jar wrench|wrench|with all your (?:strength|might)|"
        r"(?:very|really|extra|super|good and) tight(?:ly)?|pliers|hard as|(?:tight|hard|far) as (?:it|they|you)|strap wrench|both hands)\b|"
        r"\buntil (?:it|they|you|the \w+) (?:will not|won't|cannot|can't) (?:turn|move|budge|go)\b",
        r"\b(?:bands?|rings?|lids?|caps?|screw)\b",
        level="untested",
        harm="spoilage",
        why="A band that is too tight keeps the air in and can buckle the lid",
        source="band_too_tight",
    ),
    Habit(
        "retightened bands",
        r"\b(?:re-?tighten|tighten|(?<!the )(?<!new )(?<!of )screw|turn|twist|nip|snug|crank|wrench)\w*\b",
        r"\b(?:bands?|rings?|lids?|caps?)\b[^.]{0,60}\b(?:again|another (?:good )?turn|further|after processing|once more)\b|\bre-?tighten|"
        r"\b(?:after (?:processing|canning)|from the canner|out of the canner|as they cool|once (?:cool|cold))\b[^.]{0,60}\b(?:tighten|turn|screw)\w*\b"
        r"[^.]{0,30}|\b(?:tighten|screw)\b[^.]{0,30}\b(?:after (?:processing|canning)|again|from the canner|once (?:cool|cold))\b|\b(?:slack|loose|loosened) (?:bands?|rings?)\b|"
        rf"^(?=.*{LATER})(?=.*\b(?:tighten|snug|crank|nip|re-?tighten)\w*\b)(?=.*\b(?:bands?|rings?|lids?|caps?)\b)",
        r"\b(?:unscrew|remove the bands|take off the bands|screw bands may)\b",
        level="untested",
        harm="spoilage",
        why="Tightening after the process can cut the gasket and break the seal",
        source="retighten",
    ),
    Habit(
        "cold jars",
        r"\b(?:cold|chilled|cool|unheated|icy)\b[^.;]{0,20}\b(?:jars?|pints|glasses|tap)\b|\bjars?\b[^.;]{0,15}\bfrom the (?:fridge|refrigerator|freezer|cold)\b|\bjars?\b[^.;]{0,15}\b(?:straight from the (?:fridge|cupboard|refrigerator)|cold)\b",
        r"\b(?:boiling|hot|bubbling)\b",
        r"\b(?:let|leave|until|standing|cool jars in|cool place|sink|warm the)\b|\bcool, dark\b",
        level="quality",
        harm="record",
        why="Glass that changes from cold to boiling can break",
    ),
    Habit(
        "cooling in water",
        r"\b(?:sink|basin|bath|bowl|tub|bucket|tap|stream|dip|plunge|snow|creek|hose|(?:cold|cool|iced?) water)\b",
        r"\b(?:jars?|pints|quarts)\b[^.]{0,50}\b(?:sink|basin|bath|bowl|tub|bucket|tap|cold water|iced? water|snow|creek)\b|"
        r"\b(?:cool|plunge|quench|chill|dip)\b[^.;]{0,20}\b(?:jars?|pints)\b[^.;]{0,30}\bwater\b|"
        r"\b(?:cold|cool|iced?) water (?:into|in|over|on)\b[^.;]{0,30}\b(?:canner|jars)\b[^.;]{0,40}\b(?:cool|handle|cold)\b",
        r"\b(?:wash|rinse|soapy|skins|boiling-water bath|water bath|fruit|soak|place the jars in the canner)\b",
        why="Cooling jars in water may let the food spoil",
        source="cool_in_water",
    ),
    Habit(
        "cooling in water",
        r"\b(?:cold|cool|iced?|icy|running|tap) (?:\w+ )?(?:water|tap|bath|brook|creek)\b|\b(?:snow|hose|ice cubes|ice bath|freezer|refrigerator|fridge)\b",
        r"^(?=.*\b(?:jars|pints|half-pints|quarts)\b)(?=.*\b(?:quick\w*|sooner|fast\w*|hurry|speed|shock|right away|at once|cool (?:them|the jars|down)|to cool)\b)",
        r"\b(?:wash|rinse|soapy|skins|boiling|fruit|berries|soak|peel|juice|syrup|thaw|opened|unsealed|not seal\w*|did not|uncooked|freezer (?:jam|spread))\b",
        why="Cooling jars in water may let the food spoil",
        source="cool_in_water",
    ),
    Habit(
        "timing too early",
        r"\b(?:start|set|begin|count)\w*\b[^.;]{0,20}\b(?:timer|clock|time|timing|count|counting|minutes)\b|"
        r"\b(?:timer|clock|time|timing|count|minutes|hour)\b[^.;]{0,20}\b(?:starts?|begins?|runs?|counts?)\b|\bcount from\b",
        r"\b(?:straight away|right away|at once|immediately|as soon as (?:the (?:jars|rack|lid)|they)|when (?:you|they) (?:put|set|go|are)|no matter|when the jars (?:go|are)|while (?:it|the water|the canner) (?:heats|comes|is)|"
        r"before (?:the water|it|the canner) (?:boils|has|comes)|from the moment the jars|the moment the jars|meanwhile)\b|"
        r"\b(?:timer|clock|minutes)\b[^.;]{0,40}\b(?:bring|heat|turn up|raise)\b[^.;]{0,40}\bboil|"
        r"\b(?:once|when|as|while|as soon as|from when|after|the moment|the minute) (?:you |your )?(?:put |turn |have |lower |load |set )?(?:the |your )?(?:lid|jars|rack|cover|burner|heat|stove|flame|canner is (?:full|loaded))\b",
        r"\b(?:when|once|until|till|after|as soon as) (?:the water|it|the canner|everything|bubbles)[^.;]{0,25}\bboil|\bboil\w* (?:again|first)\b|"
        r"\b(?:begin|start|count)\b[^.;]{0,20}\b(?:again|over)\b|\bnot\b[^.]{0,20}\bwhen the jars\b",
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "time not restarted",
        r"\b(?:keep|go on|carry on|continue|let)\w*\b[^.;]{0,20}\b(?:counting|count|timer|clock|timing|time|minutes)\b[^.;]{0,10}\b(?:run|runs|running|on|going)?\b|"
        r"\b(?:no need to|need not|do not|don't) (?:restart|start (?:the \w+ )?(?:again|over)|begin again|reset)\b",
        r"\bboil\w*\b[^.]{0,30}\b(?:stop|drop|die|fall|cease|off|goes)|\boff the boil\b|\b(?:stop|drop|loses?|falls? off|dies|slack)\w*\b[^.]{0,30}\b(?:boil|simmer)\w*\b",
        bare=True,
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "time not restarted",
        r"\b(?:carry on|go on|keep going|never mind|just (?:finish|wait|add)|pick up|leave the (?:timer|clock)|makes? no difference|doesn't matter|does not matter)\b",
        r"\b(?:off the boil|stops? boiling|boil (?:stops|drops|dies|is lost)|loses? (?:its|the) boil|boiling stops|falls? below)\b",
        r"\b(?:start|begin) (?:the \w+ )?(?:again|over|anew|from the beginning)\b|\brestart\b",
        bare=True,
        why="Time before a full boil does not count toward the process",
        source="water_depth",
    ),
    Habit(
        "too little water",
        r"\b(?:shoulders?|halfway|half way|half-way|necks?|three[- ]quarters|two[- ]thirds|2/3|3/4)\b[^.;]{0,30}\b(?:jars?|them|up|sides?|glass)\b|\bbarely (?:covers?|reach\w*|touch\w*)\b|"
        r"\b(?:do not|don't|never|need not|needn't|without) (?:let it |let the water |have to |need to )?(?:cover|covering|submerge|reach)\b|"
        r"\b(?:no need for|need no|without) water (?:over|above)\b|"
        r"\blids?\b[^.;]{0,20}\b(?:above|out of|clear of|dry)\b|\b(?:inch|inches|finger|bit) (?:below|under|short of) (?:the )?(?:lids?|rims?|tops?|bands?)\b|"
        r"\b(?:lids?|tops?|rims?) (?:\w+ ){0,2}(?:stick|poke|peek|show)\w*\b|\b(?:half|part)[- ]?(?:covered|way)\b",
        r"\bwater\b",
        r"\b(?:simmer(?:ing)? rack|steam canner|at least 1 inch|pressure|warm up|preheat|half full|half-full|(?<!-)(?<!half )fill the canner)\b",
        bare=True,
        why="Jars that stand out of the water are heated too little",
        source="water_depth",
    ),
    Habit(
        "tilting",
        r"\b(?:tip|tilt|lean|slant)(?:ping|ing|s)?\b",
        r"\b(?:jars?|pints|quarts|it|them)\b[^.]{0,60}\b(?:lids?|water|puddle|drain|canner|side|runs? off)\b",
        r"\b(?:pan|pot|bowl|spoon|plate|saucer|tips? of|steam|away from you|open)\b",
        level="quality",
        harm="spoilage",
        why="Tilting can wet the sealing rim before the lid has set",
    ),
    Habit(
        "canning powder",
        r"\b(?:canning|preserving|compound) (?:powders?|compounds?)\b|\b(?:aspirins?|salicyl\w+|boric acid)\b",
        "",
        r"\bpectin\b",
        why="Such powders do not preserve; the heat process is still needed",
        source="canning_powder",
    ),
    Habit(
        "scraped mold",
        r"\b(?:scrape|lift|spoon|scoop|cut|skim|wipe|peel|take|pick|trim|remove)\b[^.;]{0,40}\b(?:off|out|away|mou?ld|fuzz)\b|\b(?:scraped|skimmed|lifted) off\b",
        r"\b(?:mou?ld|mou?ldy|fuzz|fur|furry|blue spots?|white spots?|growth)\b",
        r"\b(?:throw|discard|bin)\b|\bmou?ld(?:s|ed)? (?:or|and) tin\b|\bberries\b|\bfruit with\b|\b(?:rinds?|peels?)\b",
        why="Poisons of the mold may remain in what is left",
        source="scoop_mold",
    ),
    Habit(
        "squeezed bag",
        r"\b(?:squeez\w+|wring|wringing|press|pressing|twist|twisting)\b",
        r"\b(?:jelly bag|bag|cheesecloth|muslin)\b[^.]{0,60}\b(?:juice|drop|drip|out|dry|more|hard)\b|\bjuice\b[^.]{0,60}\b(?:bag|cheesecloth|muslin)\b",
        r"\b(?:spices?|bag of spice|spice bag|lemons?|tea)\b",
        level="quality",
        harm="flavour",
        why="Squeezing the bag clouds the jelly",
        source="squeeze_bag",
    ),
    Habit(
        "copper or galvanised pot",
        r"\b(?:copper|brass|galvani[sz]ed|zinc|cast[- ]iron|unlined|aluminium|aluminum)\b[\w -]{0,20}\b(?:pans?|pots?|kettles?|buckets?|tubs?|pails?|bowls?|basins?|boilers?|vats?)\b",
        "",
        r"\b(?:canner|water only|colou?r and)\b|\b(?:take|use|choose|prefer|only)\b[^.;]{0,20}\b(?:stainless|enamel\w*)\b(?![^.;]*\bor (?:\w+ )?(?:copper|brass|galv))",
        level="untested",
        harm="illness",
        why="Acid food takes up metal from the pot",
    ),
)


@rule("practice/habit", decides=("unsafe-habit",))
def no_step_teaches_an_unsafe_habit(case: Case) -> Iterator[Flag]:
    """No step or note tells the cook to reuse lids, retighten bands, cool jars in water or follow another unsafe habit.

    A tested process counts only when the jars, lids, bands, water and time are handled as they were in the test.
    """
    powder = any("preservative" in one.tags for one in case.batch.items)
    for text, span in notes(case.document):
        if replaces_process(text) or no_lid(text) or other_container(text):
            continue
        habit = worst(text)
        # A powder among the ingredients is already judged there; a second finding for its step would say it twice.
        if habit is not None and not (habit.name == "canning powder" and powder):
            says = f"{habit.name.capitalize()}: {habit.why}."
            yield Flag("unsafe-habit", span, says, level=habit.level, harm=habit.harm, source=habit.source)


@remembered
def worst(text: str) -> Habit | None:
    """The gravest habit that a step tells the cook to follow, the first of equals."""
    order = ("unsafe", "untested", "quality")
    return min((habit for habit, _ in shown(HABITS, text)), key=lambda one: order.index(one.level), default=None)
