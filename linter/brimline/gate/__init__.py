"""The gate: a request against what it starts from; findings that are new, and changes to what findings rest on."""

from brimline.gate.request import gate
from brimline.gate.revisions import Revisions, gated, revisions
from brimline.gate.values import Gated, Leaf, Snapshot, Trouble

__all__ = ["Gated", "Leaf", "Revisions", "Snapshot", "Trouble", "gate", "gated", "revisions"]
