"""Faults between fields and between files, a module a subject; each record's own form is sound already."""
