"""A formula that says what it is sold as, measured by the method of the standard of that name. No rule of safety.

Each check is one thing the standard asks, with its arithmetic in words; what was remembered and not read says so.
"""

from collections.abc import Iterator
from fractions import Fraction

from brimline.batch import words
from brimline.batch.linear import Linear, is_zero, ratio, times, total, value
from brimline.batch.values import Batch
from brimline.figures import identity as table
from brimline.figures.identity import Limit, Standard
from brimline.figures.values import Interval
from brimline.findings import Source
from brimline.moves.claim import MAY, MET, SHORT, UNTOLD, Check, Claim, least_of, single
from brimline.review.counting import added_solids, endocarp, in_pot, is_one_fruit, parts, spread
from brimline.review.ending import ends_at, remembered, solids_check
from brimline.review.fat_and_egg import NOUNS, held, held_lines, held_sources
from brimline.review.mixing import mix_checks
from brimline.review.sums import WHOLE, Sums

KILO = Fraction(1000)
# Sorts that make up most of a product: without the weight of one of them nothing can be said of the whole.
HEAVY = frozenset({"fruit", "juice", "vegetable", "sweetener", "liquid", "dried-fruit", "peel", "nut", "spirit", "egg"})


def claim(batch: Batch) -> Claim | None:
    """The claim of a formula with all its checks; None if it does not say what it is sold as."""
    written = batch.document.sold_as
    if not written:
        return None
    name, _, place = (part.strip() for part in written.partition(","))
    found = table.standard(name, place)
    if found is None:
        return Claim(name, place, "", (Check("name", SHORT, _no_standard(name, place)),))
    return Claim(name, place, found.title, tuple(_Measured(batch, found).checks()))


def _no_standard(name: str, place: str) -> str:
    places = list(dict.fromkeys(one.place for one in table.standards()))
    if place.lower() not in [known.lower() for known in places]:
        said = f"`{place}` is no place whose standards are known here" if place else "It names no place"
        return f"{said}; the places are {words.listed(places)}, written as `sold-as {name or 'jam'}, US`."
    there = [word for one in table.standards() if one.place.lower() == place.lower() for word in one.names]
    return f"No standard of the name `{name}` is known for {place}; known are {words.listed(there)}."


class _Measured:
    """One formula beside one standard, with the sums that several checks share."""

    def __init__(self, batch: Batch, standard: Standard) -> None:
        self.batch, self.standard, self.sums = batch, standard, Sums()
        self.pot = in_pot(batch)
        self.parts = parts(batch, standard, self.sums)
        self.grams = [self.sums.grams(one) for one in self.pot]
        self.solids = [self.sums.solids(one) for one in self.pot]
        self.unweighed = [
            one.line.item
            for one, form in zip(self.pot, self.grams, strict=True)
            if form is None and (one.sort in HEAVY or one.entry is None)
        ]

    def checks(self) -> Iterator[Check]:
        """Every check of the standard, the name first."""
        outside = list(self._outside())
        yield from outside
        if not self.parts and not outside and self.standard.limits:
            yield Check("fruit", UNTOLD, "No line of it is fruit that this standard counts.")
        elif self.parts and not self._strange():
            yield self._fruit()
            yield from mix_checks(self.parts, self.standard, self.sums)
        yield solids_check(self.pot, self.standard, self.sums, self.batch.document, self.unweighed)
        if self.standard.endocarp is not None and self.parts:
            yield self._endocarp(self.standard.endocarp)
        for about, limit in self.standard.holds:
            yield self._held(about, limit)

    def _strange(self) -> set[str]:
        """Fruits that the standard has no figure for, apart from those that may join others.

        A mixture of unknown fruits is none of them: nobody can tell what it is.
        """
        standard, factors = self.standard, dict(self.standard.factors)
        if not standard.limits:
            return set()
        fruits = {part.fruit for part in self.parts if is_one_fruit(part.item)}
        none = {fruit for fruit in fruits if standard.limit(fruit) is None or (factors and fruit not in factors)}
        return none - set(standard.joins) if len({part.fruit for part in self.parts}) > 1 else none

    def _outside(self) -> Iterator[Check]:
        """Fruits and other things that the standard has no place for."""
        standard = self.standard
        strange = self._strange()
        named = [part.item for part in self.parts if part.fruit in strange and is_one_fruit(part.item)]
        names = list(dict.fromkeys(one.line.item for one in named))
        if names:
            source = standard.count_sources[0] if standard.count_sources else standard.limits[0].source
            alone = " by itself" if strange & set(standard.joins) else ""
            says = f"{standard.title} has no figure for {words.listed(names)}{alone}, so no standard of this name covers it."
            yield Check("name", SHORT, says, sources=(source,))
        out = [
            one.line.item
            for one in self.pot
            if (one.sort in standard.out_sorts or one.tags & set(standard.out_tags))
            and not any(part.item is one for part in self.parts)
        ]
        if out and standard.out_source is not None:
            memory = remembered(standard.out_source)
            says = f"{standard.title} lists what may be in it, and {words.listed(out)} is not on the list{memory}."
            yield Check("name", SHORT, says, sources=(standard.out_source,))

    def _fruit(self) -> Check:
        untold = [part for part in self.parts if part.form is None]
        if untold:
            why = "; ".join(
                f"{part.item.line.item}: {part.why or 'not in the table of the standard'}" for part in untold
            )
            return Check("fruit", UNTOLD, f"How much of it counts as fruit cannot be told. {why}.")
        return self._per_sweetener() if self.standard.per == "sweetener" else self._per_kilo()

    def _sources(self, limits: list[Limit]) -> tuple[Source, ...]:
        standard = self.standard
        found = [limit.source for limit in limits] + list(standard.count_sources)
        found += [standard.mixing_source] if len({part.fruit for part in self.parts}) > 1 else []
        if standard.never_source is not None and any(part.how for part in self.parts):
            found.append(standard.never_source)
        return tuple(dict.fromkeys(found))

    def _counted(self) -> str:
        """The fruit in words: what counts, and how it was worked out where that is more than a weight."""
        how = "; ".join(f"{part.item.line.item} {part.how}" for part in self.parts if part.how)
        whole = spread(value(self._total_fruit(), self.sums.bounds))
        return f"{whole}{f' ({how})' if how else ''}"

    def _total_fruit(self) -> Linear:
        return total(part.form for part in self.parts if part.form is not None)

    def _limit(self) -> list[Limit]:
        """The limits that the fruits of the formula have, one of each."""
        limits = [self.standard.limit(part.fruit) for part in self.parts]
        kept = [limit for limit in dict.fromkeys(limits) if limit is not None]
        if self.standard.mixing == "least" and (len(kept) > 1 or None in limits):
            return [min(self.standard.limits, key=lambda one: one.least)]
        return [max(kept, key=lambda one: one.least)] if self.standard.mixing == "highest" else kept

    def _per_sweetener(self) -> Check:
        """Parts of fruit to one part of sweetener solids."""
        sweet = [one for one in self.pot if one.sort == "sweetener" and "non-sugar" not in one.tags]
        forms = [self.sums.solids(one) for one in sweet]
        unknown = [one.line.item for one, form in zip(sweet, forms, strict=True) if form is None]
        unknown += [one for one in self.sums.no_solids if one in [s.line.item for s in sweet]]
        if unknown:
            return Check("fruit", UNTOLD, f"What sugar {words.listed(unknown)} brings is not known.")
        solids = total(
            [*(form for form in forms if form), *(added_solids(part.item, self.sums) for part in self.parts)]
        )
        limit = self._limit()[0]
        sources = self._sources([limit])
        asked = f"{limit.says.replace('/', ' parts to ')}{remembered(limit.source)}"
        found = ratio(self._total_fruit(), solids, self.sums.bounds)
        if found is None or is_zero(solids):
            says = f"It holds {self._counted()} of fruit and no sweetener; the standard asks for at least {asked}.{_recalled(sources, limit.source)}"
            return Check("fruit", MET, says, None, single(limit.least), "to 1", sources)
        sugar = value(solids, self.sums.bounds)
        needed = Interval(sugar.low * limit.least, sugar.high * limit.least)
        noun = "juice" if "jelly" in self.standard.names else "fruit"
        says = (
            f"It counts {self._counted()} of {noun} to {spread(sugar)} of sweetener solids, {_to_one(found)} to 1; "
            f"the standard asks for {asked}, {_to_one(single(limit.least))} to 1: {spread(needed)} of {noun} to that much.{_recalled(sources, limit.source)}"
        )
        return Check("fruit", least_of(found, single(limit.least)), says, found, single(limit.least), "to 1", sources)

    def _per_kilo(self) -> Check:
        """Grams of fruit in each kg of the finished product."""
        forms = [part.form for part in self.parts if part.form is not None]
        limits = [limit for part in self.parts if (limit := self.standard.limit(part.fruit)) is not None]
        wanted = total(times(form, limit.least) for form, limit in zip(forms, limits, strict=True))
        asked = ratio(wanted, total(forms), self.sums.bounds) or single(limits[0].least)
        return self._in_each_kilo("fruit", self._total_fruit(), self._counted(), asked, list(dict.fromkeys(limits)))

    def _endocarp(self, limit: Limit) -> Check:
        forms = [endocarp(part.item, self.sums) for part in self.parts]
        if any(form is None for form in forms):
            return Check("endocarp", UNTOLD, "What its citrus weighs is not known.", sources=(limit.source,))
        form = total(form for form in forms if form is not None)
        said = spread(value(form, self.sums.bounds)) if form else "none"
        return self._in_each_kilo("endocarp", form, said, single(limit.least), [limit])

    def _held(self, about: str, limit: Limit) -> Check:
        """The fat, egg yolk or suet that a standard asks for beside its fruit."""
        lines = held_lines(about, self.pot)
        forms = [held(about, one, self.sums) for one in lines]
        unknown = [one.line.item for one, form in zip(lines, forms, strict=True) if form is None]
        if unknown:
            says = f"How much {NOUNS[about]} {words.listed(unknown)} brings is not known."
            return Check(about, UNTOLD, says, sources=(limit.source,))
        form = total(form for form in forms if form)
        said = spread(value(form, self.sums.bounds)) if form else "none"
        return self._in_each_kilo(about, form, said, single(limit.least), [limit], held_sources(about))

    def _in_each_kilo(
        self, about: str, form: Linear, said: str, asked: Interval, limits: list[Limit], more: tuple[Source, ...] = ()
    ) -> Check:
        """Grams in each kg at the soluble solids it ends with, or at the least it may end with."""
        noun = "vine fruit and peel" if self.standard.counts == "dried" and about == "fruit" else NOUNS[about]
        sources = self._sources(limits) if about == "fruit" else (*(limit.source for limit in limits), *more)
        if self.unweighed:
            return Check(about, UNTOLD, f"What {words.listed(self.unweighed)} weighs is not known.", sources=sources)
        brix, told = ends_at(self.batch.document)
        least = brix if brix is not None else self.standard.solids.least
        share = ratio(form, total(one for one in self.solids if one), self.sums.bounds) if form else single(Fraction(0))
        raw = ratio(form, total(one for one in self.grams if one), self.sums.bounds) if form else single(Fraction(0))
        if share is None or raw is None:
            return Check(about, UNTOLD, "It has no soluble solids that are known.", sources=sources)
        found = Interval(share.low * least * 10, share.high * least * 10)
        floor = f"{_g(asked)} g in each kg{remembered(*(limit.source for limit in limits))}"
        state = least_of(found, asked)
        start = f"It holds {said} of {noun}. "
        if brix is not None:
            says = f"{start}As it {told}, that is {_g(found)} g in each kg; the standard asks for {floor}."
            return Check(about, state, says, found, asked, "g/kg", sources)
        uncooked = self.batch.document.finish is not None and self.batch.document.finish.kind == "none"
        needs = asked.high / (share.low * 10) if share.low else None
        as_is = uncooked or raw.low * KILO >= min(found.low, asked.high)
        found = Interval(raw.low * KILO, raw.high * KILO) if as_is else found
        state = least_of(found, asked)
        boiled = f"Boiled to {words.decimal(least)} % soluble solids, the least the standard allows,"
        boiled = "Not cooked," if uncooked else "With nothing boiled off" if as_is else boiled
        says = f"{start}{boiled} that is {_g(found)} g in each kg; the standard asks for {floor}"
        if state != MET and not uncooked:
            # Boiling on brings up the share of fruit, so only what cannot be reached at all is certainly short.
            state = MAY if share.high and asked.low / (share.high * 10) < WHOLE else SHORT
            says += f", which it reaches at {words.decimal(needs, 1)} %" if needs is not None and needs < WHOLE else ""
        return Check(about, state, f"{says}.", found, asked, "g/kg", sources)


def _recalled(sources: tuple[Source, ...], but: Source) -> str:
    """Which further places were remembered and not read."""
    places = [one.section for one in sources if one.how == "memory" and one is not but]
    return f" From memory: {'; '.join(places)}." if places else ""


def _to_one(span: Interval) -> str:
    low, high = f"{float(span.low):.3f}", f"{float(span.high):.3f}"
    return low if low == high else f"{low} to {high}"


def _g(span: Interval) -> str:
    places = 1 if 0 < span.high < 10 else 0
    low, high = (f"{float(end):.{places}f}" for end in (span.low, span.high))
    return low if low == high else f"{low} to {high}"
