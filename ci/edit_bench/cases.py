"""Cases: an edited and disguised formula as text, the formulas around it, and what is expected of it."""

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from random import Random

import yaml_free
