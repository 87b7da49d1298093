"""Which fruits a standard of identity lets stand together, and in what shares."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from brimline.batch import words
from brimline.batch.linear import Linear, ratio, total
from brimline.figures.identity import Mix, Standard
from brimline.figures.values import Interval
from brimline.moves.claim import MAY, MET, SHORT, Check
from brimline.review.counting import Part
from brimline.review.sums import WHOLE, Sums


def mix_checks(parts: Sequence[Part], standard: Standard, sums: Sums) -> Iterator[Check]:
    """The mix of several fruits; nothing for one fruit, or where the standard says nothing of mixes."""
    mix = standard.mix
    fruits: dict[str, list[Linear]] = {}
    for part in parts:
        if part.form is None:
            return
        fruits.setdefault(part.fruit, []).append(part.form)
    if mix is None or len(fruits) < 2:
        return
    memory = " (from memory)" if mix.source.how == "memory" else ""
    never = [fruit for fruit in fruits if fruit in mix.never]
    if never:
        says = f"{words.listed(never).capitalize()} may not be mixed with other fruit under this name{memory}."
        yield Check("mix", SHORT, says, sources=(mix.source,))
        return
    if not mix.share:
        return
    whole = total(form for forms in fruits.values() for form in forms)
    shares = {fruit: ratio(total(forms), whole, sums.bounds) for fruit, forms in fruits.items()}
    known = {fruit: share for fruit, share in shares.items() if share is not None}
    faults = [fault for fruit, share in known.items() for fault in _faults(fruit, share, mix)]
    if mix.most_fruits and len(fruits) > mix.most_fruits:
        faults.append((SHORT, f"{len(fruits)} fruits are in it, and at most {mix.most_fruits} may be"))
    said = words.listed([f"{fruit} {_percent(share)}" for fruit, share in known.items()])
    if not faults:
        asked = [f"{_percent(_one(mix.share))} or more"]
        asked += [f"{fruit} {_percent(_one(part))}" for fruit, part in mix.share_of if fruit in known]
        says = f"Of the fruit, {said}: each has the share the standard asks for, {', '.join(asked)}{memory}."
        yield Check("mix", MET, says, sources=(mix.source,))
        return
    state = SHORT if any(state == SHORT for state, _ in faults) else MAY
    says = f"Of the fruit, {said}: {'; '.join(text for _, text in faults)}{memory}."
    yield Check("mix", state, says, sources=(mix.source,))


def _faults(fruit: str, share: Interval, mix: Mix) -> Iterator[tuple[str, str]]:
    least, most = dict(mix.share_of).get(fruit, mix.share), dict(mix.most_of).get(fruit)
    if share.low < least:
        state = SHORT if share.high < least else MAY
        yield state, f"{fruit} is to be at least {_percent(_one(least))}"
    if most is not None and share.high > most:
        state = SHORT if share.low > most else MAY
        yield state, f"{fruit} is to be at most {_percent(_one(most))}"


def _one(value: Fraction) -> Interval:
    return Interval(value, value)


def _percent(span: Interval) -> str:
    low, high = (words.decimal(end * WHOLE, 1) for end in (span.low, span.high))
    return f"{low} %" if low == high else f"{low} to {high} %"
