"""Records: the YAML files that a reviewer writes, read strictly, with a place for every fault.

The way of a file: `source` (text → nodes) → `schema` (nodes → frozen models, with `quantity`, `accuracy`,
`money`, `dates` and `table` for the texts in them) → `rules` (what lies between fields and files) → `bench`
(the whole tree).
"""
