"""Answers a caller: what an edit of a tested formula means, from a review of the edited formula."""
