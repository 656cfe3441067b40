"""Words that agree with the patient's sex, as language.yaml declares them: for a test that looks for what a sheet says."""
import re
from functools import cache
from pathlib import Path

from read_yaml import read_yaml

WORDING = Path(__file__).resolve().parents[2] / "templates/wording"


@cache
def declared(lang):
    """Slot -> {"female": its letters, "other": its letters}."""
    rows = read_yaml((WORDING / lang / "language.yaml").read_text(encoding="utf-8")).get("agreement", {})
    return {f"patient.{name}": {sex: forms.get(sex, "") for sex in ("female", "other")} for name, forms in rows.items()}


def agreed(value, lang, sex="other"):
    """The texts of a key with these slots filled and all others open."""
    if isinstance(value, list):
        return [agreed(one, lang, sex) for one in value]
    if isinstance(value, dict):
        return {key: agreed(one, lang, sex) for key, one in value.items()}
    if not isinstance(value, str):
        return value
    forms = declared(lang)
    return re.sub(r"\{([^}]*)\}", lambda slot: forms[slot[1]]["female" if sex == "female" else "other"] if slot[1] in forms else slot[0], value)
