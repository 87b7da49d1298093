import sys
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parents[2]
if str(CHECKOUT / "ci") not in sys.path:
    sys.path.insert(0, str(CHECKOUT / "ci"))
