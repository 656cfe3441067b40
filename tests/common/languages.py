"""The languages of the words' files: a test that loops over them takes in a new one by itself."""
from pathlib import Path

LANGUAGES = tuple(sorted(folder.name for folder in (Path(__file__).resolve().parents[2] / "templates/wording").iterdir() if folder.is_dir()))
