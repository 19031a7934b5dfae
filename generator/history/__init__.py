"""Editions of reports: frozen, read back, compared, recomputed."""
