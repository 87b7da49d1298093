"""The review: the engine that runs the rules over a shelf, and what it comes to."""

from brimline.review.engine import compare, review, review_one
from brimline.review.values import Comparison, MoveRow, Refusal, Review, Reviewed

__all__ = ["Comparison", "MoveRow", "Refusal", "Review", "Reviewed", "compare", "review", "review_one"]
