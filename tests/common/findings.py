"""Findings that may stand together, read from the catalogue as any YAML reader sees it."""
from pathlib import Path

from read_yaml import read_yaml

ROOT = Path(__file__).resolve().parents[2]
CATALOGUE = read_yaml((ROOT / "templates/findings.yaml").read_text(encoding="utf-8"))["findings"]


def exclude(one, other):
    """True when the catalogue says, on either side, that both cannot stand in one record."""
    return other in CATALOGUE.get(one, {}).get("excludes", []) or one in CATALOGUE.get(other, {}).get("excludes", [])


def fits_sex(code, sex):
    sexes = CATALOGUE[code].get("sexes")
    return not sexes or sex in sexes


def without_excluded(findings, sex="unknown"):
    """The findings in their order, less those that cannot stand beside an earlier one or fit the sex."""
    kept = []
    for finding in findings:
        if fits_sex(finding["code"], sex) and not any(exclude(finding["code"], before["code"]) for before in kept):
            kept.append(finding)
    return kept
