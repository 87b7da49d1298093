"""Settings for every test."""

from hypothesis import settings

# The suite draws the same examples on every machine, so that a failure seen once is seen by everybody; no deadline,
# because a shared machine can be slow at any moment. `pytest --hypothesis-profile=search` looks further afield.
settings.register_profile("steady", derandomize=True, deadline=None, database=None, max_examples=60)
settings.register_profile("search", deadline=None, max_examples=2000, print_blob=True)
settings.load_profile("steady")
