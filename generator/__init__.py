"""Provebook: published bench test reports from YAML records."""

__version__ = "0.1.0"
